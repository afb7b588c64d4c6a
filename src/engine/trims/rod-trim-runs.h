/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_trim_runs_build:
 * @plan: a plan with its areas and columns
 *
 * Lists every straight length of trim: along edges as the decision table says, with what lies
 * beside it (base vents), and along columns of length joints. A corner's two-sided trim is listed
 * once: with the reveal where there is one, else with the longer edge, as long as both edges
 * together. A two-sided trim between zones is listed with the zone it goes round.
 */
void rod_trim_runs_build (RodPlan *plan);

G_END_DECLS
