/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"
#include "engine/setout/rod-ground-steps.h"

G_BEGIN_DECLS

/**
 * RodFallingBase:
 * @face: index of the face
 * @first: index of the first of its edges, which follow each other from left to right
 * @n_edges: how many
 * @from: left end of the ground line
 * @to: right end
 * @treads: (element-type RodTread): the steps it asks for
 *
 * A base drawn as the ground falls that is to be stepped.
 */
typedef struct
{
  guint    face;
  guint    first;
  guint    n_edges;
  RodPoint from;
  RodPoint to;
  GArray  *treads;
} RodFallingBase;

/**
 * rod_falling_bases:
 * @plan: a plan whose fields have their phases
 * @face: index of a face
 *
 * Bases of a wall with level boards whose corners ask for steps (#RodCorner.stepped) and that are
 * not level already. The clearance is the edge's own, else the system's ground clearance; steps are
 * two bays of battens apart at least.
 *
 * Returns: (transfer full) (element-type RodFallingBase): bases
 */
GArray *rod_falling_bases (const RodPlan *plan,
                           guint          face) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_house_with_steps:
 * @plan: a plan
 *
 * The plan's house with every falling base in steps (rule R13): treads that are bases on a joint
 * line of the plan, and risers between them. Openings that reached down to the ground end on the
 * treads. Shares all but the walls that change; where there is nothing to step it is the same
 * house. A base beside an arc or a wall too low for the steps stays as it is.
 *
 * Returns: (transfer full): the stepped house
 */
RodHouse *rod_house_with_steps (const RodPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
