/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Lower bounds from piece values (Gilmore and Gomory 1961; Farley 1990 for values that are not yet
 * feasible; Lagrange multipliers for limited sources).
 *
 * With worth y, most worth V of a bar, price c and limit u of each source, and any rate t ≥ 0 that
 * turns worth into money such that t V ≤ c for every unlimited source,
 *
 *   cost ≥ t Σ y d + Σ over limited sources of u min (0, c − t V).
 *
 * The right side is concave and piecewise linear in t. Its corners are the rates c / V of the
 * sources, so one of those is best. Multiplied by V it is a sum of whole numbers. */

#include "engine/takeoff/rod-cut-bound.h"

__extension__ typedef __int128 Wide;

/* Whether the rate at which @source is just worth its price leaves every unlimited source a fair
 * buy. */
static gboolean
rate_is_fair (const RodCutJob  *job,
              const RodCutRest *rest,
              const gint32     *most,
              guint             source)
{
  for (guint k = 0; k < job->n_sources; k++)
    {
      if (rest->limits[k] == ROD_CUT_UNLIMITED &&
          (Wide) job->sources[source].price * most[k] > (Wide) job->sources[k].price * most[source])
        return FALSE;
    }
  return TRUE;
}

static gint64
bound_at (const RodCutJob  *job,
          const RodCutRest *rest,
          const gint32     *most,
          gint64            total,
          guint             source)
{
  gint64 price = job->sources[source].price;
  Wide   sum = (Wide) price * total;

  for (guint k = 0; k < job->n_sources; k++)
    {
      Wide over = (Wide) price * most[k] - (Wide) job->sources[k].price * most[source];

      if (rest->limits[k] != ROD_CUT_UNLIMITED && over > 0)
        sum -= rest->limits[k] * over;
    }
  if (sum <= 0)
    return 0;
  return rod_cut_job_round_up (job, (gint64) ((sum + most[source] - 1) / most[source]));
}

gint64
rod_cut_bound (const RodCutJob  *job,
               const RodCutRest *rest,
               const gint32     *worth,
               const gint32     *most)
{
  gint64 total = 0, bound = 0;

  g_return_val_if_fail (job != NULL && rest != NULL, 0);

  for (guint i = 0; i < job->n_sizes; i++)
    total += (gint64) worth[i] * rest->counts[i];

  for (guint k = 0; k < job->n_sources; k++)
    {
      if (most[k] > 0 && rate_is_fair (job, rest, most, k))
        bound = MAX (bound, bound_at (job, rest, most, total, k));
    }
  return bound;
}

gint64
rod_cut_bound_of_lengths (const RodCutJob  *job,
                          const RodCutRest *rest)
{
  g_autofree gint32 *worth = g_new (gint32, job->n_sizes);
  g_autofree gint32 *most = g_new (gint32, job->n_sources);

  for (guint i = 0; i < job->n_sizes; i++)
    worth[i] = job->sizes[i].width;
  for (guint k = 0; k < job->n_sources; k++)
    most[k] = job->sources[k].width;
  return rod_cut_bound (job, rest, worth, most);
}
