/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cutting problems at random, and what must hold for their plans. */

#include "support/drawn-cutting.h"

/* Steps between boards under a slope, and the shortest piece worth cutting. */
#define STEP_MM 217
#define LEAST_MM 100

void
drawn_cutting_draw (DrawnCutting *self,
                    GRand        *rand,
                    guint         n_stock,
                    guint         n_demand,
                    int           most)
{
  int bar_mm = 1000 * g_rand_int_range (rand, 3, 8);

  g_assert_cmpuint (n_stock, <=, G_N_ELEMENTS (self->stock));
  g_assert_cmpuint (n_demand, <=, DRAWN_CUTTING_MAX_DEMAND);

  for (guint k = 0; k < n_stock; k++)
    {
      self->stock[k].length_mm = bar_mm - 750 * (int) k;
      self->stock[k].price = self->stock[k].length_mm / 50 + g_rand_int_range (rand, -5, 6);
      self->stock[k].limit = k > 0 && g_rand_boolean (rand) ? g_rand_int_range (rand, 0, 6) : -1;
    }
  for (guint i = 0; i < n_demand; i++)
    {
      self->demand[i].count = g_rand_int_range (rand, 1, most + 1);
      if (i > 0 && g_rand_boolean (rand))
        self->demand[i].length_mm = MAX (LEAST_MM, self->demand[i - 1].length_mm - STEP_MM);
      else
        self->demand[i].length_mm = g_rand_int_range (rand, LEAST_MM, bar_mm - 30);
    }

  self->problem.stock = self->stock;
  self->problem.n_stock = n_stock;
  self->problem.demand = self->demand;
  self->problem.n_demand = n_demand;
  self->problem.kerf_mm = g_rand_int_range (rand, 0, 6);
  self->problem.trim_mm = g_rand_int_range (rand, 0, 15);
}

/* Adds what comes out of a bar to @cut. Returns the length of its pieces. */
static gint64
gather_pieces (const RodCutProblem *problem,
               const RodCutBar     *bar,
               gint64              *cut)
{
  gint64 before = G_MAXINT64;
  gint64 length = 0;

  for (guint i = 0; i < bar->n_pieces; i++)
    {
      gint64 piece;

      g_assert_cmpuint (bar->pieces[i], <, problem->n_demand);
      piece = problem->demand[bar->pieces[i]].length_mm;
      g_assert_cmpint (piece, <=, before);
      cut[bar->pieces[i]] += bar->count;
      length += piece;
      before = piece;
    }
  return length;
}

void
drawn_cutting_assert_plan (const RodCutProblem *problem,
                           const RodCutPlan    *plan)
{
  g_autofree gint64 *cut = g_new0 (gint64, problem->n_demand);
  g_autofree gint64 *used = g_new0 (gint64, problem->n_stock);
  gint64             cost = 0;
  gint64             n_bars = 0;

  for (guint i = 0; i < plan->n_bars; i++)
    {
      const RodCutBar *bar = &plan->bars[i];
      gint64           kerfs, rest;

      g_assert_cmpint (bar->count, >=, 1);
      g_assert_cmpuint (bar->n_pieces, >=, 1);
      g_assert_cmpuint (bar->stock, <, problem->n_stock);

      /* No cut is needed after a piece that ends where the bar ends. */
      kerfs = bar->n_pieces * problem->kerf_mm;
      rest = problem->stock[bar->stock].length_mm - 2 * problem->trim_mm;
      rest -= gather_pieces (problem, bar, cut);
      g_assert_cmpint (rest, >=, kerfs - problem->kerf_mm);
      g_assert_cmpint (bar->rest_mm, ==, MAX (0, rest - kerfs));

      used[bar->stock] += bar->count;
      cost += bar->count * problem->stock[bar->stock].price;
      n_bars += bar->count;
    }

  for (guint i = 0; i < problem->n_demand; i++)
    g_assert_cmpint (cut[i], ==, problem->demand[i].count);
  for (guint k = 0; k < problem->n_stock; k++)
    {
      if (problem->stock[k].limit >= 0)
        g_assert_cmpint (used[k], <=, problem->stock[k].limit);
    }
  g_assert_cmpint (plan->cost, ==, cost);
  g_assert_cmpint (plan->n_stock_bars, ==, n_bars);
  g_assert_cmpint (plan->bound, <=, plan->cost);
  g_assert_true (plan->proven == (plan->bound == plan->cost));
}
