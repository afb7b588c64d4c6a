/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_length_joints_split:
 * @plan: a plan
 * @field: a field whose pocket area and phase are settled; gets its length joints
 * @courses: its courses, uncut
 *
 * Places length joints where a course is longer than its boards can be, by the field's pattern
 * (rules R21 and R22), and splits the courses there. A strip that fits the stock and whose parts
 * would be too short to use stays whole, such as the apex of a gable (rule R19).
 *
 * Returns: (transfer full): the parts, each of which becomes a piece
 */
RodStrips *rod_length_joints_split (const RodPlan   *plan,
                                    RodField        *field,
                                    const RodStrips *courses) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
