/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_battens_place:
 * @plan: a plan with the battens of the fields before
 * @field: index of a field with its pieces
 *
 * Places the battens of the field, and counter battens where battens lie level on a wall
 * (rules B1 to B4): first the lines that edges, openings, corners and length joints need, then even
 * fill between them, no further apart than the system's centres.
 */
void rod_battens_place (RodPlan *plan,
                        guint    field);

G_END_DECLS
