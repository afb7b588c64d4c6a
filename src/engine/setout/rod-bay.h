/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodBay:
 * @clear_mm: pocket bottom to pocket bottom; a butt joint's line counts as one
 * @left_butt: whether a butt joint bounds it at the least x of the board frame
 * @right_butt: whether one bounds it at the other end
 *
 * What one board fills. A plain value.
 */
typedef struct
{
  double   clear_mm;
  gboolean left_butt;
  gboolean right_butt;
} RodBay;

/**
 * rod_field_longest_mm:
 * @plan: a plan
 * @field: a field
 *
 * Returns: the longest piece its board's stock gives and its rules allow, mm
 */
double rod_field_longest_mm (const RodPlan  *plan,
                             const RodField *field);

/**
 * rod_field_ends_square:
 * @field: a field
 *
 * Returns: whether every end is cut square; a raked or curved end may take less than the whole gap
 *          off a board's longest line
 */
gboolean rod_field_ends_square (const RodField *field);

/**
 * rod_field_left_is_upper:
 * @field: a field
 *
 * Returns: whether the left end of its boards lies higher on the wall: their axis points down
 */
gboolean rod_field_left_is_upper (const RodField *field);

/**
 * rod_bay_run_mm:
 * @field: a field
 * @bay: a bay
 * @right: which end
 *
 * Returns: free run from the fixed point of its board to that end
 */
double rod_bay_run_mm (const RodField *field,
                       const RodBay   *bay,
                       gboolean        right);

/**
 * rod_bay_gap_mm:
 * @plan: a plan
 * @field: a field
 * @bay: a bay
 * @right: which end
 *
 * Returns: the gap at that end of the board that fills it (rule R27)
 */
double rod_bay_gap_mm (const RodPlan  *plan,
                       const RodField *field,
                       const RodBay   *bay,
                       gboolean        right);

/**
 * rod_bay_board_mm:
 * @plan: a plan
 * @field: a field
 * @bay: a bay
 *
 * Returns: the length of the board that fills it; negative where gaps leave nothing
 */
double rod_bay_board_mm (const RodPlan  *plan,
                         const RodField *field,
                         const RodBay   *bay);

/**
 * rod_bay_clear_mm:
 * @plan: a plan
 * @field: a field
 * @bay: a bay; its width does not count
 * @board_mm: length of a board
 *
 * Returns: the widest such bay that a board of @board_mm fills, to a micrometre
 */
double rod_bay_clear_mm (const RodPlan  *plan,
                         const RodField *field,
                         RodBay          bay,
                         double          board_mm);

/**
 * rod_field_butt_reach_mm:
 * @plan: a plan
 * @field: a field
 *
 * Returns: what has to be of the batten to either side of a butt joint's line: the widest gap there
 *          is and the bearing of the board beyond it
 */
double rod_field_butt_reach_mm (const RodPlan  *plan,
                                const RodField *field);

G_END_DECLS
