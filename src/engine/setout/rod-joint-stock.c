/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What joints cost in bars. Joints are chosen by what the saw makes of them, so that a kerf that
 * two pieces of a bar have no room for is seen before it costs a bar. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-joint-stock.h"
#include "engine/takeoff/rod-cut-bound.h"
#include "engine/takeoff/rod-cut-first-fit.h"

/* The solver proves its plans; up to so many boards it takes no time worth speaking of. */
#define FEW_BOARDS 40

/* Prices only weigh lengths against each other here; stock without one counts by its length. */
static gint64
price_of (const RodBoard *board,
          const RodStock *row)
{
  for (guint i = 0; i < board->stock->len; i++)
    if (((const RodStock *) board->stock->pdata[i])->price <= 0.0)
      return MAX (1, llround (row->length_mm));
  return MAX (1, llround (row->price * 100.0));
}

void
rod_joint_stock_init (RodJointStock  *self,
                      const RodBoard *board,
                      const RodSaw   *saw)
{
  self->stock = g_array_new (FALSE, FALSE, sizeof (RodCutStock));
  self->rests = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->kerf_mm = (gint64) ceil (saw->kerf_mm - ROD_EPSILON_MM);
  self->trim_mm = (gint64) ceil (saw->end_trim_mm - ROD_EPSILON_MM);
  for (guint i = 0; i < board->stock->len; i++)
    {
      const RodStock *row = board->stock->pdata[i];
      RodCutStock     bar = {
            (gint64) floor (row->length_mm + ROD_EPSILON_MM),
            price_of (board, row),
            -1,
      };

      g_array_append_val (self->stock, bar);
    }
}

void
rod_joint_stock_clear (RodJointStock *self)
{
  g_clear_pointer (&self->stock, g_array_unref);
  g_clear_pointer (&self->rests, g_array_unref);
}

double
rod_joint_stock_worth (const RodJointStock *self,
                       double               board_mm)
{
  gint64 length_mm = MAX (1, (gint64) ceil (board_mm - ROD_EPSILON_MM));
  double least = INFINITY;
  gint64 dearest = 1;

  for (guint i = 0; i < self->rests->len; i++)
    if (length_mm <= g_array_index (self->rests, gint64, i))
      return 0.0;
  for (guint i = 0; i < self->stock->len; i++)
    {
      const RodCutStock *bar = &g_array_index (self->stock, RodCutStock, i);
      gint64             usable_mm = bar->length_mm - 2 * self->trim_mm + self->kerf_mm;
      gint64             n = usable_mm / (length_mm + self->kerf_mm);

      dearest = MAX (dearest, bar->price);
      if (n > 0)
        least = MIN (least, (double) bar->price / (double) n);
    }
  return least / (double) dearest;
}

static gint64
solve (RodJointStock       *self,
       const RodCutProblem *problem)
{
  g_autoptr (RodCutPlan) plan = rod_cut_plan_new (problem, NULL, NULL);

  if (plan == NULL)
    return G_MAXINT64;
  g_array_set_size (self->rests, 0);
  for (guint b = 0; b < plan->n_bars; b++)
    {
      gint64 rest_mm = plan->bars[b].rest_mm - self->kerf_mm;

      if (rest_mm > 0)
        g_array_append_val (self->rests, rest_mm);
    }
  return plan->cost;
}

gint64
rod_joint_stock_cost (RodJointStock *self,
                      const GArray  *boards,
                      gboolean       thorough,
                      gint64        *bound)
{
  RodCutProblem problem = {
    .stock = (const RodCutStock *) (const void *) self->stock->data,
    .n_stock = self->stock->len,
    .demand = (const RodCutDemand *) (const void *) boards->data,
    .n_demand = boards->len,
    .kerf_mm = self->kerf_mm,
    .trim_mm = self->trim_mm,
  };
  g_autoptr (RodCutJob) job = rod_cut_job_new (&problem, NULL);
  g_autoptr (RodCutRest) rest = NULL;
  g_autoptr (RodCutScheme) scheme = NULL;
  gint64 least;

  if (job == NULL)
    return G_MAXINT64;
  rest = rod_cut_rest_new (job);
  least = rod_cut_bound_of_lengths (job, rest);
  if (bound != NULL)
    *bound = least;
  scheme = rod_cut_first_fit (job, rest, job->n_sources);
  if (thorough && scheme->cost > least && job->n_pieces <= FEW_BOARDS)
    return solve (self, &problem);
  return scheme->cost;
}
