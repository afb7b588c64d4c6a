/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Depth-first enumeration over the sources. A branch ends where the cheapest way to meet some
 * need with the sources still to be chosen would cost too much; the count of the last source is
 * computed, not tried. Costs of needs are floating-point estimates with a margin that lets no mix
 * be left out; whether a mix meets a need is decided in whole numbers. */

#include "engine/takeoff/rod-cut-mix-list.h"

#define MAX_MIXES 1000
#define MAX_STEPS 200000

/* Steps done in about a microsecond, by source. */
#define STEPS_PER_EFFORT 60

/* Relative margin of estimated costs. */
#define COST_MARGIN 1e-9

/* Σ most × bars ≥ wanted in every plan. */
typedef struct
{
  gint64  wanted;
  gint32 *most;       /* by source */
  double *least_rate; /* for each source, least price by worth of it and those after it */
} Need;

struct _RodCutMixList
{
  const RodCutJob *job;
  guint            n_sources; /* without the bars nobody has */
  GArray          *needs;     /* of Need */
  guint            last_need; /* the one that ended a branch last */
  GArray          *mixes;     /* of RodCutMix */
  int             *bars;      /* the mix being made */
  gint64           from;
  gint64           end;
  gint64           width; /* of the window of cost that was not too wide last */
  guint            n_steps;
  gint64           n_all_steps;
};

static void
clear_need (gpointer data)
{
  Need *need = data;

  g_free (need->most);
  g_free (need->least_rate);
}

static void
clear_mix (gpointer data)
{
  g_free (((RodCutMix *) data)->bars);
}

/* The need of lengths: no bar holds more than its width. */
static void
add_need_of_lengths (RodCutMixList *self)
{
  const RodCutJob   *job = self->job;
  g_autofree gint32 *worth = g_new (gint32, job->n_sizes);
  g_autofree gint32 *most = g_new (gint32, job->n_sources);

  for (guint i = 0; i < job->n_sizes; i++)
    worth[i] = job->sizes[i].width;
  for (guint k = 0; k < job->n_sources; k++)
    most[k] = job->sources[k].width;
  rod_cut_mix_list_add_need (self, worth, most);
}

RodCutMixList *
rod_cut_mix_list_new (const RodCutJob *job)
{
  RodCutMixList *self;

  g_return_val_if_fail (job->sources[job->n_sources - 1].stock == ROD_CUT_NO_STOCK, NULL);

  self = g_new0 (RodCutMixList, 1);
  self->job = job;
  self->n_sources = job->n_sources - 1;
  self->needs = g_array_new (FALSE, FALSE, sizeof (Need));
  g_array_set_clear_func (self->needs, clear_need);
  self->mixes = g_array_new (FALSE, FALSE, sizeof (RodCutMix));
  g_array_set_clear_func (self->mixes, clear_mix);
  self->bars = g_new0 (int, self->n_sources);
  self->width = G_MAXINT64;
  add_need_of_lengths (self);
  return self;
}

void
rod_cut_mix_list_free (RodCutMixList *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->needs);
  g_array_unref (self->mixes);
  g_free (self->bars);
  g_free (self);
}

void
rod_cut_mix_list_add_need (RodCutMixList *self,
                           const gint32  *worth,
                           const gint32  *most)
{
  const RodCutJob *job = self->job;
  Need             need = { 0, NULL, NULL };
  double           least = G_MAXDOUBLE;

  for (guint i = 0; i < job->n_sizes; i++)
    need.wanted += (gint64) worth[i] * job->sizes[i].count;
  need.most = g_memdup2 (most, self->n_sources * sizeof *most);
  need.least_rate = g_new (double, self->n_sources);
  for (guint k = self->n_sources; k-- > 0;)
    {
      if (most[k] > 0)
        least = MIN (least, (double) job->sources[k].price / most[k]);
      need.least_rate[k] = least;
    }
  g_array_append_val (self->needs, need);
}

/* What the bars of the first @n_chosen sources leave wanted. */
static gint64
get_missing (const Need *need,
             const int  *bars,
             guint       n_chosen)
{
  gint64 missing = need->wanted;

  for (guint k = 0; k < n_chosen; k++)
    missing -= (gint64) need->most[k] * bars[k];
  return missing;
}

gboolean
rod_cut_mix_list_meets_needs (const RodCutMixList *self,
                              const RodCutMix     *mix)
{
  for (guint i = 0; i < self->needs->len; i++)
    {
      if (get_missing (&g_array_index (self->needs, Need, i), mix->bars, self->n_sources) > 0)
        return FALSE;
    }
  return TRUE;
}

/* Whether what is missing after @n_chosen sources costs too much by one need. */
static gboolean
is_too_dear (const RodCutMixList *self,
             guint                index,
             guint                n_chosen,
             gint64               cost)
{
  const Need *need = &g_array_index (self->needs, Need, index);
  gint64      missing = get_missing (need, self->bars, n_chosen);
  double      least;

  if (missing <= 0)
    return FALSE;
  least = (double) cost + (double) missing * need->least_rate[n_chosen] * (1 - COST_MARGIN);
  return least >= (double) self->end * (1 + COST_MARGIN);
}

/* Asks the need that ended a branch last first: mostly it does so again. */
static gboolean
is_affordable (RodCutMixList *self,
               guint          n_chosen,
               gint64         cost)
{
  if (is_too_dear (self, self->last_need, n_chosen, cost))
    return FALSE;
  for (guint i = 0; i < self->needs->len; i++)
    {
      if (is_too_dear (self, i, n_chosen, cost))
        {
          self->last_need = i;
          return FALSE;
        }
    }
  return TRUE;
}

/* The least count of the last source that makes a mix meet all needs and cost enough to be
 * listed. */
static gint64
get_least_count (const RodCutMixList *self,
                 guint                last,
                 gint64               cost)
{
  gint64 price = self->job->sources[last].price;
  gint64 least = MAX (0, (self->from - cost + price - 1) / price);

  for (guint i = 0; i < self->needs->len; i++)
    {
      const Need *need = &g_array_index (self->needs, Need, i);
      gint64      missing = get_missing (need, self->bars, last);

      if (missing > 0 && need->most[last] == 0)
        return G_MAXINT64;
      if (missing > 0)
        least = MAX (least, (missing + need->most[last] - 1) / need->most[last]);
    }
  return least;
}

static void
list_mix (RodCutMixList *self,
          gint64         cost)
{
  RodCutMix mix = { cost, g_memdup2 (self->bars, self->n_sources * sizeof (int)) };

  g_array_append_val (self->mixes, mix);
}

/* Lists all mixes with the counts before source @k as they are. Returns whether there are not too
 * many. */
static gboolean
list_mixes (RodCutMixList *self,
            guint          k,
            gint64         cost)
{
  const RodCutSource *source = &self->job->sources[k];
  gboolean            is_last = k + 1 == self->n_sources;
  gint64              least, most;

  if (++self->n_steps > MAX_STEPS)
    return FALSE;
  if (!is_affordable (self, k, cost))
    return TRUE;

  least = is_last ? get_least_count (self, k, cost) : 0;
  most = MIN (MIN (source->limit, self->job->n_pieces), (self->end - 1 - cost) / source->price);
  for (gint64 n = most; n >= least; n--)
    {
      if (self->mixes->len >= MAX_MIXES)
        return FALSE;
      self->bars[k] = (int) n;
      if (is_last)
        list_mix (self, cost + n * source->price);
      else if (!list_mixes (self, k + 1, cost + n * source->price))
        return FALSE;
    }
  return TRUE;
}

static int
compare_mixes (gconstpointer a,
               gconstpointer b)
{
  const RodCutMix *one = a;
  const RodCutMix *other = b;

  return (one->cost > other->cost) - (one->cost < other->cost);
}

gboolean
rod_cut_mix_list_fill (RodCutMixList *self,
                       gint64         from,
                       gint64         below,
                       gint64        *end)
{
  gint64   step = self->job->price_step;
  gboolean complete;

  g_return_val_if_fail (below > from, FALSE);

  self->from = from;
  for (self->width = MIN (self->width, below - from);; self->width = MAX (self->width / 2, step))
    {
      self->end = from + self->width;
      self->n_steps = 0;
      g_array_set_size (self->mixes, 0);
      complete = list_mixes (self, 0, 0);
      self->n_all_steps += (gint64) self->n_steps * self->n_sources;
      if (complete || self->width <= step)
        break;
    }
  g_array_sort (self->mixes, compare_mixes);
  *end = self->end;
  return complete;
}

guint
rod_cut_mix_list_get_n_mixes (const RodCutMixList *self)
{
  return self->mixes->len;
}

const RodCutMix *
rod_cut_mix_list_get_mix (const RodCutMixList *self,
                          guint                index)
{
  g_return_val_if_fail (index < self->mixes->len, NULL);

  return &g_array_index (self->mixes, RodCutMix, index);
}

gint64
rod_cut_mix_list_get_effort (const RodCutMixList *self)
{
  return self->n_all_steps / STEPS_PER_EFFORT;
}
