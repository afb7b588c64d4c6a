/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-plan.h"

G_BEGIN_DECLS

#define DRAWN_CUTTING_MAX_DEMAND 121

/**
 * DrawnCutting:
 * @problem: the problem; its arrays are those below
 * @stock: one to three stock lengths; the longest comes first and never runs out
 * @demand: lengths wanted, each shorter than the longest stock length
 *
 * A cutting problem drawn at random.
 */
typedef struct
{
  RodCutProblem problem;
  RodCutStock   stock[3];
  RodCutDemand  demand[DRAWN_CUTTING_MAX_DEMAND];
} DrawnCutting;

/**
 * drawn_cutting_draw:
 * @self: where to draw it
 * @rand: source of chance
 * @n_stock: how many stock lengths, 1 to 3
 * @n_demand: how many lengths
 * @most: greatest count of a length
 *
 * Draws a problem of the kind a house gives. Half of the lengths are a step shorter than the one
 * before, as under a gable. Prices are near the lengths; every second shorter stock length is
 * limited.
 */
void drawn_cutting_draw (DrawnCutting *self,
                         GRand        *rand,
                         guint         n_stock,
                         guint         n_demand,
                         int           most);

/**
 * drawn_cutting_assert_plan:
 * @problem: a problem
 * @plan: a plan for it
 *
 * Asserts everything that a plan promises, whatever the problem.
 */
void drawn_cutting_assert_plan (const RodCutProblem *problem,
                                const RodCutPlan    *plan);

G_END_DECLS
