/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Column generation (Gilmore and Gomory 1961, 1963) with smoothed values (Wentges 1997).
 *
 * The linear program values the pieces; the knapsack finds patterns worth more than their bar; they
 * are added; and so on until there are none. The program's own values swing widely from round to
 * round. Pricing half-way between them and the values of the best bound so far finds the same
 * patterns in fewer rounds; when it finds nothing, the program's own values are asked before the
 * search ends.
 *
 * Values are floating-point numbers from the simplex, but the bound is computed from whole
 * numbers they are rounded down to, with the exact knapsack of those; whatever went wrong in the
 * simplex, it holds. */

#include "engine/takeoff/rod-cut-columns.h"

#include "engine/takeoff/rod-cut-bound.h"

#include <math.h>
#include <string.h>

/* New patterns taken in a round: more make the program slower, fewer make more rounds. */
#define PATTERNS_PER_ROUND 25

/* Share of the best bound's values in the values priced. */
#define SMOOTHING 0.5

/* A pattern is new only if it is worth more than its bar by this share of the price: above what the
 * simplex leaves as noise. */
#define LEAST_GAIN 1e-7

/* The linear program's cost is good to about this share. */
#define COST_NOISE 1e-9

struct _RodCutColumns
{
  const RodCutJob *job;
  GCancellable    *cancellable;
  RodCutMaster    *master;
  RodCutPricing   *pricing;
  double          *worth;  /* of the linear program */
  double          *prices; /* of the linear program, by source */
  double          *centre; /* values of the best bound of this search */
  double          *priced;
  gint32          *whole;       /* priced, scaled and rounded down */
  gint32          *proof_worth; /* whole and most of the last bound */
  gint32          *proof_most;
};

RodCutColumns *
rod_cut_columns_new (const RodCutJob *job,
                     GCancellable    *cancellable)
{
  RodCutColumns *self;
  RodCutPricing *pricing;

  g_return_val_if_fail (job != NULL, NULL);

  pricing = rod_cut_pricing_new (job);
  if (pricing == NULL)
    return NULL;

  self = g_new0 (RodCutColumns, 1);
  self->job = job;
  self->cancellable = cancellable;
  self->master = rod_cut_master_new (job);
  self->pricing = pricing;
  self->worth = g_new0 (double, job->n_sizes);
  self->prices = g_new0 (double, job->n_sources);
  self->centre = g_new0 (double, job->n_sizes);
  self->priced = g_new0 (double, job->n_sizes);
  self->whole = g_new0 (gint32, job->n_sizes);
  self->proof_worth = g_new0 (gint32, job->n_sizes);
  self->proof_most = g_new0 (gint32, job->n_sources);
  return self;
}

void
rod_cut_columns_free (RodCutColumns *self)
{
  if (self == NULL)
    return;
  rod_cut_master_free (self->master);
  rod_cut_pricing_free (self->pricing);
  g_free (self->worth);
  g_free (self->prices);
  g_free (self->centre);
  g_free (self->priced);
  g_free (self->whole);
  g_free (self->proof_worth);
  g_free (self->proof_most);
  g_free (self);
}

RodCutMaster *
rod_cut_columns_get_master (RodCutColumns *self)
{
  return self->master;
}

gint64
rod_cut_columns_get_effort (const RodCutColumns *self)
{
  return rod_cut_master_get_effort (self->master) + rod_cut_pricing_get_effort (self->pricing);
}

/* Rounds the priced values down to whole numbers, as large as the knapsack allows. Returns the
 * scale, 0 if nothing is worth anything. */
static double
scale_values (RodCutColumns *self)
{
  const RodCutJob *job = self->job;
  double           steepest = 0;
  double           scale;

  for (guint i = 0; i < job->n_sizes; i++)
    steepest = MAX (steepest, self->priced[i] / job->sizes[i].width);
  if (steepest <= 0)
    return 0;

  scale = (ROD_CUT_MOST_WORTH - 1) / (steepest * job->widest);
  for (guint i = 0; i < job->n_sizes; i++)
    self->whole[i] = (gint32) (self->priced[i] * scale);
  return scale;
}

/* The bound of the values just priced; if it is the best yet, they become the centre, scaled down
 * to where no bar is worth more than its price. */
static void
update_bound (RodCutColumns    *self,
              const RodCutRest *rest,
              double            scale,
              RodCutRelaxation *relaxation)
{
  const RodCutJob *job = self->job;
  const gint32    *most = rod_cut_pricing_get_most (self->pricing);
  gint64           bound = rod_cut_bound (job, rest, self->whole, most);
  double           rate = 1;

  if (bound <= relaxation->bound)
    return;

  relaxation->bound = bound;
  memcpy (self->proof_worth, self->whole, job->n_sizes * sizeof (gint32));
  memcpy (self->proof_most, most, job->n_sources * sizeof (gint32));
  for (guint k = 0; k < job->n_sources; k++)
    {
      if (job->sources[k].limit == ROD_CUT_UNLIMITED && most[k] > 0)
        rate = MIN (rate, (double) job->sources[k].price * scale / most[k]);
    }
  for (guint i = 0; i < job->n_sizes; i++)
    self->centre[i] = self->priced[i] * rate;
}

const gint32 *
rod_cut_columns_get_worth (const RodCutColumns *self)
{
  return self->proof_worth;
}

const gint32 *
rod_cut_columns_get_most (const RodCutColumns *self)
{
  return self->proof_most;
}

static double
get_gain (RodCutColumns       *self,
          const RodCutPattern *pattern)
{
  double gain = -self->prices[pattern->source];

  for (guint i = 0; i < pattern->n_parts; i++)
    gain += pattern->parts[i].count * self->worth[pattern->parts[i].size];
  return gain;
}

/* Returns how many patterns were added. */
static guint
add_patterns (RodCutColumns *self)
{
  g_autoptr (GPtrArray) patterns = NULL;
  guint n_added = 0;

  patterns = rod_cut_pricing_list_patterns (self->pricing, self->prices, PATTERNS_PER_ROUND);
  for (guint i = 0; i < patterns->len; i++)
    {
      RodCutPattern *pattern = patterns->pdata[i];
      double         price = (double) self->job->sources[pattern->source].price;

      if (get_gain (self, pattern) <= LEAST_GAIN * price)
        continue;
      rod_cut_master_add (self->master, pattern);
      n_added++;
    }
  return n_added;
}

/* One round at the solved program's values. Returns how many patterns were added. */
static guint
price (RodCutColumns    *self,
       const RodCutRest *rest,
       RodCutRelaxation *relaxation)
{
  double smoothing = relaxation->bound > 0 ? SMOOTHING : 0;

  for (guint i = 0; i < self->job->n_sizes; i++)
    self->worth[i] = rest->counts[i] > 0 ? rod_cut_master_get_worth (self->master, i) : 0;
  for (guint k = 0; k < self->job->n_sources; k++)
    self->prices[k] = rod_cut_master_get_price (self->master, k);

  for (;;)
    {
      double scale;
      guint  n_added;

      for (guint i = 0; i < self->job->n_sizes; i++)
        self->priced[i] = smoothing * self->centre[i] + (1 - smoothing) * self->worth[i];
      scale = scale_values (self);
      if (scale <= 0)
        return 0;
      rod_cut_pricing_run (self->pricing, rest->counts, self->whole);
      update_bound (self, rest, scale, relaxation);
      n_added = add_patterns (self);
      if (n_added > 0 || smoothing <= 0)
        return n_added;
      smoothing = 0;
    }
}

gboolean
rod_cut_columns_generate (RodCutColumns    *self,
                          const RodCutRest *rest,
                          const RodCutGoal *goal,
                          RodCutRelaxation *relaxation)
{
  relaxation->cost = HUGE_VAL;
  relaxation->bound = 0;

  for (;;)
    {
      double least;

      if (g_cancellable_is_cancelled (self->cancellable) || !rod_cut_master_solve (self->master))
        return FALSE;
      relaxation->cost = rod_cut_master_get_cost (self->master);
      least = relaxation->cost * (1 - COST_NOISE);
      if (least <= (double) goal->enough)
        return TRUE;
      if (rod_cut_job_round_up (self->job, (gint64) ceil (least)) <= relaxation->bound)
        return TRUE;
      if (price (self, rest, relaxation) == 0 || relaxation->bound >= goal->useless)
        return TRUE;
      if (rod_cut_columns_get_effort (self) > goal->effort)
        return TRUE;
    }
}
