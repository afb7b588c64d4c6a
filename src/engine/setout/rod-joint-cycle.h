/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/setout/rod-joint-lanes.h"
#include "engine/setout/rod-joint-stock.h"

G_BEGIN_DECLS

/**
 * rod_joint_cycle_find:
 * @span: a stretch; its worth and data are not looked at for costs
 * @stock: what its boards are cut from
 * @reach_mm: how far a joint may stand from the middle of the batten behind it
 * @lanes: (out caller-allocates): gets the lanes
 *
 * Finds lanes with the fewest joints whose boards cost as little as can be found: several ways are
 * cut in fact, and the best of them is then shifted on its battens, joint by joint and from one
 * joint to an end, while that saves a bar. The work is counted, never timed.
 *
 * Returns: whether there are any; @lanes is to be cleared then
 */
gboolean rod_joint_cycle_find (const RodJointSpan *span,
                               RodJointStock      *stock,
                               double              reach_mm,
                               RodJointLanes      *lanes);

G_END_DECLS
