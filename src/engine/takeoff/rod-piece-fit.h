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
 * RodFitSide:
 * @at: corner where the side starts, board frame
 * @tag: tag of the side
 * @kind: what it is
 *
 * A plain value.
 */
typedef struct
{
  RodPoint    at;
  int         tag;
  RodSideKind kind;
} RodFitSide;

/**
 * RodFit:
 * @sides: (array length=n_sides): sides, counter-clockwise
 * @n_sides: how many
 * @left: the left end
 * @right: the right end
 * @clear_mm: pocket bottom to pocket bottom
 *
 * A piece on its way from pocket lines to cut lines.
 */
typedef struct
{
  RodFitSide *sides;
  guint       n_sides;
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
 * rod_fit_init_hole:
 * @fit: (out caller-allocates): a fit
 * @plan: a plan
 * @field: the field
 * @line_mm: the lower joint line of the strip that has the hole
 * @points: (array length=n): corners of a strip's inner ring, pocket lines, board frame
 * @tags: (array length=n): its tags
 * @n: how many corners
 *
 * Widens a hole by the notch clearance where boards end at it, as a notch would be; its corners are
 * cut lines already. A round hole that would then reach a joint line stays as it is.
 */
void rod_fit_init_hole (RodFit         *fit,
                        const RodPlan  *plan,
                        const RodField *field,
                        double          line_mm,
                        const RodPoint *points,
                        const int      *tags,
                        guint           n);

/**
 * rod_fit_clear:
 * @fit: a fit
 */
void rod_fit_clear (RodFit *fit);

/**
 * rod_fit_next:
 * @fit: a fit
 * @side: index of a side
 *
 * Returns: (transfer none): the side after it; its corner is where @side ends
 */
const RodFitSide *rod_fit_next (const RodFit *fit,
                                guint         side);

/**
 * rod_fit_cut:
 * @fit: (inout): a fit; cleared
 * @plan: a plan
 * @field: the field
 * @line_mm: the strip's lower joint line
 * @pieces: (element-type RodFit): gets what is left
 *
 * Moves ends back by their gaps and shoulders by the notch clearance: pocket lines become cut
 * lines. Mostly one piece is left; none where everything falls to gaps, and two where a notch's
 * clearance cuts through.
 */
void rod_fit_cut (RodFit         *fit,
                  const RodPlan  *plan,
                  const RodField *field,
                  double          line_mm,
                  GArray         *pieces);

G_END_DECLS
