/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_net_place:
 * @plan: a plan with its areas
 *
 * Unfolds the house: every face gets its place in one plane. Faces touch at their joins; walls keep
 * their level, soffits hang on their walls, reveals lie in their openings. Where unfolded faces
 * would cover each other they are moved apart; parts of the house that nothing joins follow to the
 * right.
 */
void rod_net_place (RodPlan *plan);

G_END_DECLS
