/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_alignment_build:
 * @plan: a plan with its edge stacks
 *
 * Finds which fields' joint lines are tied through joins that carry joints, and gives every field
 * its group and its place in it. Fields of one surface with the same board and direction are tied
 * too. Edges along the boards carry no joint lines and tie nothing.
 */
void rod_alignment_build (RodPlan *plan);

/**
 * rod_alignment_check:
 * @plan: a plan whose fields have their phases
 *
 * Measures at every join how far joint lines miss each other, notes the greatest misfit of each
 * group and adds findings: joints that miss by more than ROD_VISIBLE_MISFIT_MM, and covers that do
 * not repeat together.
 */
void rod_alignment_check (RodPlan *plan);

G_END_DECLS
