/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodSupport:
 * @from: lower end of a batten's centre line, board frame of its field
 * @to: its upper end
 *
 * A batten as the boards of its field meet it. A plain value.
 */
typedef struct
{
  RodPoint from;
  RodPoint to;
} RodSupport;

/**
 * rod_supports_of:
 * @plan: a plan with its battens
 * @field: index of a field
 *
 * Returns: (transfer full) (element-type RodSupport): the field's battens, counter battens left out
 */
GArray *rod_supports_of (const RodPlan *plan,
                         guint          field) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_supports_count:
 * @supports: (element-type RodSupport): battens
 * @from: start of a stretch along the boards
 * @to: its end
 * @y: its height
 *
 * Returns: how many battens cross the stretch, ends included
 */
int rod_supports_count (const GArray *supports,
                        double        from,
                        double        to,
                        double        y);

/**
 * rod_supports_reach:
 * @supports: (element-type RodSupport): battens
 * @wanted: a number of battens, > 0
 * @from: start of a stretch along the boards
 * @to: its end
 * @y: its height
 *
 * Returns: whether so many battens cross the stretch, ends included; counts no further
 */
gboolean rod_supports_reach (const GArray *supports,
                             int           wanted,
                             double        from,
                             double        to,
                             double        y);

/**
 * rod_supports_find:
 * @supports: (element-type RodSupport): battens
 * @from: start of a stretch along the boards
 * @to: its end
 * @y: its height
 * @x: (out): where the batten found crosses it
 *
 * Returns: index of the first batten that crosses the stretch, ends included; -1 where none does
 */
int rod_supports_find (const GArray *supports,
                       double        from,
                       double        to,
                       double        y,
                       double       *x);

/**
 * rod_piece_middle:
 * @plan: a plan
 * @piece: a piece
 * @from: (out): where its middle line enters it
 * @to: (out): where it leaves
 *
 * The line along a piece half way up what is left of its width, board frame.
 *
 * Returns: the height of that line
 */
double rod_piece_middle (const RodPlan  *plan,
                         const RodPiece *piece,
                         double         *from,
                         double         *to);

/**
 * rod_piece_battens_needed:
 * @batten_mm: width of a batten
 * @middle_mm: length of the piece's middle line
 *
 * Returns: 2, or 1 where a piece is too short for two battens side by side
 */
int rod_piece_battens_needed (double batten_mm,
                              double middle_mm);

G_END_DECLS
