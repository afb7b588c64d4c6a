/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodSpreadRule:
 * @ROD_SPREAD_EQUALLY: every measured length may be off by the same
 * @ROD_SPREAD_BY_LENGTH: the longer, the more: by the root of its length
 *
 * How errors of measured lengths are thought to arise: at the ends of the tape, or along it.
 */
typedef enum
{
  ROD_SPREAD_EQUALLY,
  ROD_SPREAD_BY_LENGTH,
} RodSpreadRule;

/**
 * RodSurveyLine:
 * @face: index of the face
 * @from_mm: its x where the line begins: at a joined edge
 * @to_mm: its x at the next joined edge
 * @correction_mm: what to add to its length
 *
 * A measured length of a wall. A plain value.
 */
typedef struct
{
  guint  face;
  double from_mm;
  double to_mm;
  double correction_mm;
} RodSurveyLine;

/**
 * RodSurveyTurn:
 * @join: the join
 * @correction_deg: what to add to its fold
 *
 * A measured corner. A plain value.
 */
typedef struct
{
  const RodJoin *join;
  double         correction_deg;
} RodSurveyTurn;

/**
 * RodSpread:
 * @plan: the plan
 * @lines: (element-type RodSurveyLine): measured lengths, wall by wall from left to right
 * @turns: (element-type RodSurveyTurn): joins between walls
 * @n_loops: chains of walls that should close
 * @gap_mm: the worst they were open by
 * @left_mm: the worst they are still open by
 * @rms_mm: root mean square of the lines' corrections
 *
 * How to make walls close. Not shared between threads.
 */
typedef struct
{
  RodPlan *plan;
  GArray  *lines;
  GArray  *turns;
  guint    n_loops;
  double   gap_mm;
  double   left_mm;
  double   rms_mm;
} RodSpread;

/**
 * rod_spread_new:
 * @plan: a plan whose house is folded
 * @rule: how lengths are weighed
 * @fold_sigma_deg: how far a corner may be off where a length may be off by the house's tolerance
 *                  (with @ROD_SPREAD_BY_LENGTH, a line of middle length); 0 holds all corners
 *
 * Least squares over what was measured in plan: the lengths of upright walls between their joins
 * and, when asked for, the corners. Walls count that are joined at upright edges, or lie in one
 * plane one above the other. Soffits follow their walls and are no measured lengths here. Cubic in
 * the number of loops of one part of the house.
 *
 * Returns: (transfer full): the corrections
 */
RodSpread *rod_spread_new (RodPlan      *plan,
                           RodSpreadRule rule,
                           double        fold_sigma_deg) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_spread_free:
 * @spread: (transfer full) (nullable): corrections
 */
void rod_spread_free (RodSpread *spread);

/**
 * rod_spread_apply:
 * @spread: corrections
 *
 * Corrects the house, to whole micrometres. Corners of an outline move along x with the wall's
 * joined edges, those between two in proportion. Openings keep their distance from the joined edge
 * to their left, from which they were measured; so do zones, but where they reach a corner of the
 * outline they move with it. A soffit that hangs on a level edge is stretched along it as its wall
 * is, each of its corners with the nearer end of that edge, so that mitres keep their angle; one
 * between walls on several sides follows the first of them only.
 * Whatever is not changed is shared with the house of the plan.
 *
 * Returns: (transfer full): the corrected house; the same one when nothing changes
 */
RodHouse *rod_spread_apply (const RodSpread *spread) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodSpread, rod_spread_free)

G_END_DECLS
