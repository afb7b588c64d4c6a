/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_battens_place:
 * @plan: a plan with its pieces
 *
 * Places the battens of every field, and counter battens where battens lie level on a wall
 * (rules B1 to B4): first the lines that edges, openings, corners and length joints need, then even
 * fill between them, no further apart than the system's centres.
 */
void rod_battens_place (RodPlan *plan);

/**
 * rod_battens_upright:
 * @direction_deg: direction of the boards
 *
 * Returns: whether the battens stand upright: under boards flatter than 45°
 */
gboolean rod_battens_upright (double direction_deg);

/**
 * rod_batten_pitch_mm:
 * @centres_mm: greatest distance along the boards
 * @direction_deg: direction of the boards
 *
 * The greatest distance square to the battens that keeps their distance along the boards within
 * @centres_mm: a·cos θ under boards at θ from square (rule B1).
 *
 * Returns: mm
 */
double rod_batten_pitch_mm (double centres_mm,
                            double direction_deg);

G_END_DECLS
