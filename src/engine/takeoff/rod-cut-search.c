/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The order in which methods are tried: first-fit and the bound of lengths, which settle small jobs
 * at once; column generation, which gives a bound that with one stock length is the optimum nearly
 * always; then dives from its solution, each with another seed. */

#include "engine/takeoff/rod-cut-search.h"

#include "engine/takeoff/rod-cut-bound.h"
#include "engine/takeoff/rod-cut-first-fit.h"
#include "engine/takeoff/rod-cut-rounding.h"

/* Work allowed, in steps of about a microsecond: for the linear program, and in all. */
#define ROOT_EFFORT 4000000
#define TOTAL_EFFORT 6000000

/* Most dives end within a few tries or not at all. */
#define MAX_DIVES 60

static void
keep_cheaper (RodCutScheme **best,
              RodCutScheme  *scheme)
{
  if (scheme == NULL)
    return;
  if (scheme->cost < (*best)->cost)
    {
      rod_cut_scheme_free (*best);
      *best = scheme;
    }
  else
    rod_cut_scheme_free (scheme);
}

static void
add_patterns_of (RodCutMaster       *master,
                 const RodCutScheme *scheme)
{
  for (guint i = 0; i < scheme->uses->len; i++)
    rod_cut_master_add (master, g_array_index (scheme->uses, RodCutUse, i).pattern);
}

static void
search_by_columns (const RodCutJob  *job,
                   const RodCutRest *whole,
                   RodCutScheme    **best,
                   gint64           *bound)
{
  g_autoptr (RodCutColumns) columns = rod_cut_columns_new (job);
  RodCutMaster    *master;
  RodCutGoal       goal = { 0, (*best)->cost, ROOT_EFFORT };
  RodCutRelaxation relaxation;
  gboolean         solved;

  if (columns == NULL)
    return;
  master = rod_cut_columns_get_master (columns);
  add_patterns_of (master, *best);
  solved = rod_cut_columns_generate (columns, whole, &goal, &relaxation);
  *bound = MAX (*bound, relaxation.bound);
  if (!solved)
    return;
  rod_cut_master_keep_root (master);

  for (guint32 seed = 0; seed < MAX_DIVES && (*best)->cost > *bound; seed++)
    {
      RodCutDive dive = { *bound, (*best)->cost, seed, TOTAL_EFFORT };

      if (seed > 0)
        rod_cut_master_return_to_root (master);
      rod_cut_master_set_rest (master, whole);
      if (rod_cut_columns_get_effort (columns) > TOTAL_EFFORT || !rod_cut_master_solve (master))
        return;
      keep_cheaper (best, rod_cut_rounding_dive (job, columns, &dive));
    }
}

RodCutScheme *
rod_cut_search (const RodCutJob *job,
                gint64          *bound)
{
  g_autoptr (RodCutRest) whole = rod_cut_rest_new (job);
  RodCutScheme *best = rod_cut_first_fit (job, whole);

  *bound = rod_cut_bound_of_lengths (job, whole);
  if (best->cost > *bound)
    {
      search_by_columns (job, whole, &best, bound);
      rod_cut_master_leave_thread ();
    }
  rod_cut_scheme_tidy (best);
  return best;
}
