/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodSideKind:
 * @ROD_SIDE_LONG: a joint line or a long side: nothing is cut off
 * @ROD_SIDE_LEFT: the left end
 * @ROD_SIDE_RIGHT: the right end
 * @ROD_SIDE_SHOULDER: the side of a notch
 */
typedef enum
{
  ROD_SIDE_LONG,
  ROD_SIDE_LEFT,
  ROD_SIDE_RIGHT,
  ROD_SIDE_SHOULDER,
} RodSideKind;

/**
 * RodFit:
 * @points: (element-type RodPoint): corners, counter-clockwise, board frame
 * @tags: (element-type int): tag of the side that leaves each corner
 * @kinds: (element-type RodSideKind): kind of that side
 * @left: the left end
 * @right: the right end
 * @clear_mm: pocket bottom to pocket bottom
 *
 * A piece on its way from pocket lines to cut lines.
 */
typedef struct
{
  GArray     *points;
  GArray     *tags;
  GArray     *kinds;
  RodPieceEnd left;
  RodPieceEnd right;
  double      clear_mm;
} RodFit;

/**
 * rod_fit_init:
 * @fit: (out caller-allocates): a fit
 * @plan: a plan
 * @field: the field
 * @points: (array length=n): corners of a strip's outer ring, pocket lines, board frame
 * @tags: (array length=n): its tags
 * @n: how many corners
 *
 * Tells ends, shoulders and long sides apart and works out both ends' runs and gaps.
 */
void rod_fit_init (RodFit         *fit,
                   const RodPlan  *plan,
                   const RodField *field,
                   const RodPoint *points,
                   const int      *tags,
                   guint           n);

/**
 * rod_fit_clear:
 * @fit: a fit
 */
void rod_fit_clear (RodFit *fit);

/**
 * rod_fit_cut:
 * @fit: a fit
 * @plan: a plan
 * @field: the field
 *
 * Moves ends back by their gaps and shoulders by the notch clearance: pocket lines become cut lines.
 *
 * Returns: whether anything is left
 */
gboolean rod_fit_cut (RodFit         *fit,
                      const RodPlan  *plan,
                      const RodField *field);

G_END_DECLS
