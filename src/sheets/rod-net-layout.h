/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_net_layout:
 * @plan: a plan
 * @width: width of the room
 * @height: height of the room; only their ratio counts
 * @size: (out): size of the plane that is filled, mm
 *
 * Arranges the unfolded house in rows, so that it can be drawn as large as possible in a room of
 * this shape. Levels are kept within a row, and linings stay in their walls.
 *
 * Returns: (transfer full) (array): for each face the map from the surface plane into a plane whose
 *          origin is the lower left corner of what is filled
 */
RodAffine *rod_net_layout (const RodPlan *plan,
                           double         width,
                           double         height,
                           RodPoint      *size)
  G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
