/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodJointLine:
 * @number: line n lies between course n and course n + 1; line 0 is what the first course stands on
 * @across_mm: where it lies along +y of the field's board frame
 * @place_mm: where it lies in the surface's plane: y for level boards, x for upright ones, else
 *            square to the boards from the surface's origin
 * @height_mm: height above the house's datum for level boards on a wall; else not-a-number
 *
 * One joint line of a field, as it is marked on the storey rod. A plain value.
 */
typedef struct
{
  int    number;
  double across_mm;
  double place_mm;
  double height_mm;
} RodJointLine;

/**
 * rod_joint_lines_new:
 * @plan: a plan
 * @field: index of a field
 *
 * Lists the joint lines that touch the field's boards, those along its edges included.
 *
 * Returns: (transfer full) (element-type RodJointLine): the lines in laying order
 */
GArray *rod_joint_lines_new (const RodPlan *plan,
                             guint          field) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
