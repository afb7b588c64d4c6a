/* SPDX-License-Identifier: GPL-3.0-or-later */

/* First-fit and best-fit decreasing (Johnson 1973) on groups of equal bars.
 *
 * Pieces of one size go one after another, so a bar that takes one of them takes as many as fit
 * before the next bar is looked at, in either rule: the first bar with room stays the first, and
 * the fullest bar with room gets fuller. Bars cut alike therefore stay together as a group with a
 * count, and one size splits at most one group in two. */

#include "engine/takeoff/rod-cut-first-fit.h"

#include <string.h>

typedef struct
{
  guint   source;
  int     count;
  int     room;
  GArray *parts; /* of RodCutPart */
} Bars;

typedef struct
{
  const RodCutJob *job;
  GArray          *groups; /* of Bars, in the order in which they are tried */
  int             *limits; /* bars left of each source */
  guint           *order;  /* sources, the one to open first in front */
  gboolean         best_fit;
} Bench;

static void
clear_bars (gpointer data)
{
  g_array_unref (((Bars *) data)->parts);
}

static void
use_bars (Bench *bench,
          guint  source,
          int    count)
{
  if (bench->limits[source] != ROD_CUT_UNLIMITED)
    bench->limits[source] -= count;
}

/* Puts @per_bar pieces of @size into each of the first @count bars of a group; the others become a
 * group of their own behind it. */
static void
fill_bars (Bench *bench,
           guint  group,
           int    count,
           guint  size,
           int    per_bar)
{
  Bars      *bars = &g_array_index (bench->groups, Bars, group);
  RodCutPart part = { size, per_bar };

  if (count < bars->count)
    {
      Bars others = *bars;

      others.count -= count;
      others.parts = g_array_copy (bars->parts);
      bars->count = count;
      g_array_insert_val (bench->groups, group + 1, others);
      bars = &g_array_index (bench->groups, Bars, group);
    }
  g_array_append_val (bars->parts, part);
  bars->room -= per_bar * bench->job->sizes[size].width;
}

/* Returns how many of the pieces found room in bars already opened. */
static int
fill_opened (Bench *bench,
             guint  size,
             int    wanted)
{
  int width = bench->job->sizes[size].width;
  int left = wanted;

  for (guint group = 0; group < bench->groups->len && left > 0; group++)
    {
      const Bars *bars = &g_array_index (bench->groups, Bars, group);
      int         per_bar = MIN (bars->room / width, left);
      int         count;

      if (per_bar == 0)
        continue;
      count = MIN (bars->count, left / per_bar);
      fill_bars (bench, group, count, size, per_bar);
      left -= count * per_bar;
    }
  return wanted - left;
}

static gboolean
can_open (const Bench *bench,
          guint        source,
          int          width)
{
  return bench->limits[source] > 0 && bench->job->sources[source].width >= width;
}

static void
open_bars (Bench *bench,
           guint  size,
           int    wanted)
{
  int    width = bench->job->sizes[size].width;
  guint *source = bench->order;

  while (wanted > 0)
    {
      Bars bars;
      int  per_bar;

      /* The job sees to it that one source fits everything and never runs out. */
      while (!can_open (bench, *source, width))
        source++;

      per_bar = MIN (bench->job->sources[*source].width / width, wanted);
      bars.source = *source;
      bars.count = MIN (wanted / per_bar, bench->limits[*source]);
      bars.room = bench->job->sources[*source].width;
      bars.parts = g_array_new (FALSE, FALSE, sizeof (RodCutPart));
      use_bars (bench, bars.source, bars.count);
      g_array_append_val (bench->groups, bars);
      fill_bars (bench, bench->groups->len - 1, bars.count, size, per_bar);
      wanted -= bars.count * per_bar;
    }
}

static int
compare_room (gconstpointer a,
              gconstpointer b)
{
  return ((const Bars *) a)->room - ((const Bars *) b)->room;
}

/* Moves bars to cheaper sources that hold what is in them. Opening a shorter bar for the last few
 * pieces is the main gain of having several stock lengths. */
static void
move_to_cheaper (Bench *bench,
                 guint  group)
{
  const RodCutSource *sources = bench->job->sources;

  for (;;)
    {
      Bars *bars = &g_array_index (bench->groups, Bars, group);
      int   used = sources[bars->source].width - bars->room;
      guint best = bars->source;
      int   count;

      for (guint k = 0; k < bench->job->n_sources; k++)
        {
          if (can_open (bench, k, used) && sources[k].price < sources[best].price)
            best = k;
        }
      if (best == bars->source)
        return;

      count = MIN (bars->count, bench->limits[best]);
      if (count < bars->count)
        {
          Bars others = *bars;

          others.count -= count;
          others.parts = g_array_copy (bars->parts);
          g_array_append_val (bench->groups, others);
          bars = &g_array_index (bench->groups, Bars, group);
        }
      use_bars (bench, bars->source, -count);
      use_bars (bench, best, count);
      bars->source = best;
      bars->room = sources[best].width - used;
      bars->count = count;
    }
}

static RodCutScheme *
make_scheme (const Bench *bench)
{
  RodCutScheme *scheme = rod_cut_scheme_new ();

  for (guint group = 0; group < bench->groups->len; group++)
    {
      const Bars       *bars = &g_array_index (bench->groups, Bars, group);
      const RodCutPart *parts = &g_array_index (bars->parts, RodCutPart, 0);
      g_autoptr (RodCutPattern) pattern = NULL;

      pattern = rod_cut_pattern_new (bars->source, parts, bars->parts->len);
      rod_cut_scheme_add (scheme, bench->job, pattern, bars->count);
    }
  return scheme;
}

static RodCutScheme *
fit_pieces (const RodCutJob  *job,
            const RodCutRest *rest,
            guint            *order,
            gboolean          best_fit)
{
  g_autofree int *limits = g_memdup2 (rest->limits, job->n_sources * sizeof (int));
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (Bars));
  Bench bench = { job, groups, limits, order, best_fit };

  g_array_set_clear_func (groups, clear_bars);
  for (guint size = 0; size < job->n_sizes; size++)
    {
      int wanted = rest->counts[size];

      if (wanted == 0)
        continue;
      if (best_fit)
        g_array_sort (groups, compare_room);
      wanted -= fill_opened (&bench, size, wanted);
      open_bars (&bench, size, wanted);
    }
  for (guint group = 0; group < groups->len; group++)
    move_to_cheaper (&bench, group);
  return make_scheme (&bench);
}

static int
compare_worth (gconstpointer a,
               gconstpointer b,
               gpointer      data)
{
  const RodCutSource *sources = data;
  const RodCutSource *one = &sources[*(const guint *) a];
  const RodCutSource *other = &sources[*(const guint *) b];
  gint64              one_cost = one->price * other->width;
  gint64              other_cost = other->price * one->width;

  if (one_cost != other_cost)
    return one_cost < other_cost ? -1 : 1;
  return (one > other) - (one < other);
}

/* All sources, the cheapest by length first. */
static guint *
order_sources (const RodCutJob *job)
{
  guint *order = g_new (guint, job->n_sources);

  for (guint k = 0; k < job->n_sources; k++)
    order[k] = k;
  g_qsort_with_data (order, (int) job->n_sources, sizeof *order, compare_worth, job->sources);
  return order;
}

RodCutScheme *
rod_cut_first_fit (const RodCutJob  *job,
                   const RodCutRest *rest,
                   guint             n_openers)
{
  g_autofree guint *order = order_sources (job);
  g_autoptr (RodCutScheme) best = NULL;

  g_return_val_if_fail (rest != NULL && n_openers > 0, NULL);

  for (guint first = 0; first < MIN (n_openers, job->n_sources); first++)
    {
      guint opener = order[first];

      if (job->sources[opener].stock == ROD_CUT_NO_STOCK)
        continue;

      /* The opener moves to the front, those before it one back, which keeps their order. */
      memmove (order + 1, order, first * sizeof *order);
      order[0] = opener;
      for (int best_fit = 0; best_fit <= 1; best_fit++)
        {
          g_autoptr (RodCutScheme) scheme = fit_pieces (job, rest, order, best_fit);

          if (best == NULL || scheme->cost < best->cost)
            {
              g_clear_pointer (&best, rod_cut_scheme_free);
              best = g_steal_pointer (&scheme);
            }
        }
      memmove (order, order + 1, first * sizeof *order);
      order[first] = opener;
    }
  return g_steal_pointer (&best);
}
