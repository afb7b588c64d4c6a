/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Diving with regeneration of columns (Sadykov, Vanderbeck and others 2019; rounding after Wäscher
 * and Gau 1996). The patterns of the linear program's optimum are good for fractions of bars, but a
 * whole plan often needs patterns that are not among them: after amounts have been fixed, the
 * program is solved again for the rest with new patterns that waste nothing of it. After every turn
 * the rest is also cut by first-fit, which finishes most dives early. */

#include "engine/takeoff/rod-cut-rounding.h"

#include "engine/takeoff/rod-cut-first-fit.h"

#include <math.h>

/* Of the bars still to be fixed, this share is fixed in each turn, at least one. */
#define SHARE_PER_TURN 12

/* Sources that first-fit tries to open bars from. */
#define OPENERS 4

/* An amount this close below a whole number is that number. */
#define WHOLE 1e-6

/* Scores of amounts vary by this share either way between dives. */
#define NOISE 0.25

typedef struct
{
  const RodCutJob  *job;
  const RodCutDive *dive;
  RodCutColumns    *columns;
  RodCutMaster     *master;
  RodCutRest       *rest;
  RodCutScheme     *fixed;
  RodCutScheme     *found; /* best whole plan of the dive, or NULL */
  GRand            *rand;  /* NULL for the plain dive */
} Diver;

typedef struct
{
  guint  pattern;
  double score;
} Choice;

static gint64
cost_to_beat (const Diver *diver)
{
  return diver->found != NULL ? diver->found->cost : diver->dive->best;
}

static void
finish_by_first_fit (Diver *diver)
{
  g_autoptr (RodCutScheme) finish = rod_cut_first_fit (diver->job, diver->rest, OPENERS);

  if (diver->fixed->cost + finish->cost >= cost_to_beat (diver))
    return;
  g_clear_pointer (&diver->found, rod_cut_scheme_free);
  diver->found = rod_cut_scheme_copy (diver->fixed);
  rod_cut_scheme_add_scheme (diver->found, finish);
}

static int
fix_pattern (Diver *diver,
             guint  index,
             int    count)
{
  RodCutPattern *pattern = rod_cut_master_get_pattern (diver->master, index);

  count = MIN (count, rod_cut_rest_room_for (diver->rest, pattern));
  if (count > 0)
    {
      rod_cut_rest_take (diver->rest, pattern, count);
      rod_cut_scheme_add (diver->fixed, diver->job, pattern, count);
    }
  return count;
}

static int
compare_scores (gconstpointer a,
                gconstpointer b)
{
  const Choice *one = a;
  const Choice *other = b;

  if (one->score > other->score || one->score < other->score)
    return one->score > other->score ? -1 : 1;
  return (one->pattern > other->pattern) - (one->pattern < other->pattern);
}

/* Fixes whole amounts, then the largest fractions. Returns how many bars were fixed. */
static int
fix_bars (Diver *diver)
{
  g_autoptr (GArray) choices = g_array_new (FALSE, FALSE, sizeof (Choice));
  double fractions = 0;
  int    n_fixed = 0;
  int    wanted;

  for (guint j = 0; j < rod_cut_master_get_n_patterns (diver->master); j++)
    {
      double amount = rod_cut_master_get_amount (diver->master, j);
      double whole = floor (amount + WHOLE);
      Choice choice = { j, amount - whole };

      if (whole >= 1)
        n_fixed += fix_pattern (diver, j, (int) whole);
      if (choice.score <= WHOLE)
        continue;
      fractions += choice.score;
      if (diver->rand != NULL)
        choice.score *= g_rand_double_range (diver->rand, 1 - NOISE, 1 + NOISE);
      g_array_append_val (choices, choice);
    }

  wanted = MAX (1, (int) (fractions / SHARE_PER_TURN));
  g_array_sort (choices, compare_scores);
  for (guint i = 0; i < choices->len && n_fixed < wanted; i++)
    n_fixed += fix_pattern (diver, g_array_index (choices, Choice, i).pattern, 1);
  return n_fixed;
}

/* Solves the program for the rest. Returns whether a plan cheaper than the best can still come. */
static gboolean
solve_rest (Diver *diver)
{
  gint64           fixed = diver->fixed->cost;
  RodCutGoal       goal = { .enough = diver->dive->bound - fixed,
                            .useless = cost_to_beat (diver) - fixed,
                            .effort = diver->dive->effort };
  RodCutRelaxation relaxation;

  rod_cut_master_set_rest (diver->master, diver->rest);
  return rod_cut_columns_generate (diver->columns, diver->rest, &goal, &relaxation) &&
         relaxation.bound < goal.useless &&
         rod_cut_columns_get_effort (diver->columns) <= diver->dive->effort;
}

static void
run (Diver *diver)
{
  for (;;)
    {
      if (fix_bars (diver) == 0)
        return;
      finish_by_first_fit (diver);
      if (diver->rest->n_pieces == 0 || cost_to_beat (diver) <= diver->dive->bound)
        return;
      if (!solve_rest (diver))
        return;
    }
}

RodCutScheme *
rod_cut_rounding_dive (const RodCutJob  *job,
                       RodCutColumns    *columns,
                       const RodCutDive *dive)
{
  g_autoptr (RodCutRest) rest = rod_cut_rest_copy (dive->start, job);
  g_autoptr (RodCutScheme) fixed = rod_cut_scheme_new ();
  g_autoptr (GRand) rand = dive->seed != 0 ? g_rand_new_with_seed (dive->seed) : NULL;
  Diver diver = { .job = job, .dive = dive, .columns = columns, .rest = rest, .fixed = fixed };

  diver.master = rod_cut_columns_get_master (columns);
  diver.rand = rand;

  run (&diver);
  return diver.found;
}
