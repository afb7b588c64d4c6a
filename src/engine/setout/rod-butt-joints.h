/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_butt_joints_place:
 * @plan: a plan
 * @field: a field whose boards meet over battens; gets its butt reach
 * @courses: its courses, uncut
 * @joints: (element-type RodLengthJoint): gets the joints, strip by strip, ascending in each
 * @starts: (array): gets for each strip the index of its first joint, and how many there are
 *
 * Places staggered, balanced or random joints (rule R22). Always held: boards within the stock and
 * not too short, and a batten behind each joint. Next come distances from openings, then distances
 * between courses, then the fewest joints, then the fewest bars; the checks report what had to
 * give way.
 */
void rod_butt_joints_place (const RodPlan   *plan,
                            RodField        *field,
                            const RodStrips *courses,
                            GArray          *joints,
                            guint           *starts);

G_END_DECLS
