/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The order in which methods are tried: first-fit and the bound of lengths, which settle small jobs
 * at once; column generation, which gives a bound that with one stock length is the optimum nearly
 * always; dives from its solution, each with another seed; parts of the plan anew; with several
 * prices, one mix of stock after another. */

#include "engine/takeoff/rod-cut-search.h"

#include "engine/takeoff/rod-cut-bound.h"
#include "engine/takeoff/rod-cut-first-fit.h"
#include "engine/takeoff/rod-cut-mixes.h"
#include "engine/takeoff/rod-cut-recut.h"
#include "engine/takeoff/rod-cut-rounding.h"

/* Work allowed, in steps of about a microsecond: a second or two for a house, more for a terrace.
 * Of it, this part is for the linear program. */
#define EFFORT 1500000
#define EFFORT_PER_SIZE 2500
#define ROOT_PERCENT 75

/* Dives and parts in the first go, after which nearly all jobs with one stock length are proven,
 * and in the second. */
#define FIRST_DIVES 10
#define FIRST_PARTS 60
#define SECOND_DIVES 100
#define SECOND_PARTS 300

static void
dive (RodCutQuest *quest,
      guint32      from_seed,
      guint32      to_seed)
{
  RodCutMaster *master = rod_cut_columns_get_master (quest->columns);
  g_autoptr (RodCutRest) whole = rod_cut_rest_new (quest->job);

  for (guint32 seed = from_seed; seed < to_seed && !rod_cut_quest_is_over (quest); seed++)
    {
      RodCutDive dive = { whole, quest->bound, quest->best->cost, seed, 0 };

      dive.effort = rod_cut_quest_get_columns_effort (quest);
      rod_cut_master_return_to_root (master);
      rod_cut_master_set_rest (master, whole);
      if (!rod_cut_master_solve (master))
        return;
      rod_cut_quest_offer (quest, rod_cut_rounding_dive (quest->job, quest->columns, &dive));
    }
}

/* Solves the linear program of the whole job. Returns whether there is anything left to do with
 * it. */
static gboolean
find_root (RodCutQuest *quest)
{
  RodCutMaster *master = rod_cut_columns_get_master (quest->columns);
  g_autoptr (RodCutRest) whole = rod_cut_rest_new (quest->job);
  const GArray    *uses = quest->best->uses;
  RodCutGoal       goal = { 0, quest->best->cost, quest->effort / 100 * ROOT_PERCENT };
  RodCutRelaxation relaxation;
  gboolean         solved;

  for (guint i = 0; i < uses->len; i++)
    rod_cut_master_add (master, g_array_index (uses, RodCutUse, i).pattern);
  solved = rod_cut_columns_generate (quest->columns, whole, &goal, &relaxation);
  rod_cut_quest_raise_bound (quest, relaxation.bound);
  quest->worth = g_memdup2 (rod_cut_columns_get_worth (quest->columns),
                            quest->job->n_sizes * sizeof (gint32));
  quest->most = g_memdup2 (rod_cut_columns_get_most (quest->columns),
                           quest->job->n_sources * sizeof (gint32));
  if (solved)
    rod_cut_master_keep_root (master);
  return solved;
}

static void
search_by_columns (RodCutQuest *quest)
{
  g_autoptr (RodCutColumns) columns = rod_cut_columns_new (quest->job, quest->cancellable);

  if (columns == NULL)
    return;
  quest->columns = columns;
  if (find_root (quest))
    {
      dive (quest, 0, FIRST_DIVES);
      rod_cut_recut (quest, FIRST_PARTS);
      if (quest->job->n_sources > 1)
        rod_cut_mixes_search (quest);
      dive (quest, FIRST_DIVES, SECOND_DIVES);
      rod_cut_recut (quest, SECOND_PARTS);
    }
  quest->columns = NULL;
}

RodCutScheme *
rod_cut_search (const RodCutJob *job,
                GCancellable    *cancellable,
                gint64          *bound)
{
  g_autoptr (RodCutRest) whole = rod_cut_rest_new (job);
  RodCutQuest quest = { .job = job, .cancellable = cancellable };

  quest.effort = EFFORT + EFFORT_PER_SIZE * (gint64) job->n_sizes;
  quest.best = rod_cut_first_fit (job, whole, job->n_sources);
  quest.bound = rod_cut_bound_of_lengths (job, whole);
  if (quest.best->cost > quest.bound)
    {
      search_by_columns (&quest);
      rod_cut_master_leave_thread ();
    }
  g_free (quest.worth);
  g_free (quest.most);
  rod_cut_scheme_tidy (quest.best);
  *bound = quest.bound;
  return quest.best;
}
