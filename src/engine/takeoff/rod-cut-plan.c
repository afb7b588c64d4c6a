/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The public face of the cutting solver: makes the problem ready, has it solved, and says the
 * answer in terms of the caller's stock and demand. */

#include "config.h"

#include "engine/takeoff/rod-cut-plan.h"

#include "engine/takeoff/rod-cut-search.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

/* Where the pieces of each size go: the demand entries in order of length, longest first, and how
 * many pieces each still wants. */
typedef struct
{
  const RodCutProblem *problem;
  guint               *order; /* demand indices, longest first, then as given */
  int                 *left;  /* by demand index */
  guint               *next;  /* for each size, place in order of the entry served now */
} Ledger;

static int
compare_demand (gconstpointer a,
                gconstpointer b,
                gpointer      ledger)
{
  const RodCutDemand *demand = ((const Ledger *) ledger)->problem->demand;
  guint               one = *(const guint *) a;
  guint               other = *(const guint *) b;

  if (demand[one].length_mm != demand[other].length_mm)
    return demand[one].length_mm > demand[other].length_mm ? -1 : 1;
  return (one > other) - (one < other);
}

static void
ledger_open (Ledger              *ledger,
             const RodCutProblem *problem,
             guint                n_sizes)
{
  guint n = problem->n_demand;
  guint size = 0;

  ledger->problem = problem;
  ledger->order = g_new (guint, n);
  ledger->left = g_new (int, n);
  ledger->next = g_new0 (guint, n_sizes);
  for (guint i = 0; i < n; i++)
    {
      ledger->order[i] = i;
      ledger->left[i] = problem->demand[i].count;
    }
  g_qsort_with_data (ledger->order, (int) n, sizeof (guint), compare_demand, ledger);
  for (guint i = 1; i < n; i++)
    {
      if (problem->demand[ledger->order[i]].length_mm !=
          problem->demand[ledger->order[i - 1]].length_mm)
        ledger->next[++size] = i;
    }
}

static void
ledger_close (Ledger *ledger)
{
  g_free (ledger->order);
  g_free (ledger->left);
  g_free (ledger->next);
}

/* The demand entry the next piece of @size is for. */
static guint
get_entry (Ledger *ledger,
           guint   size)
{
  guint *next = &ledger->next[size];

  while (ledger->left[ledger->order[*next]] == 0)
    (*next)++;
  return ledger->order[*next];
}

/* How many bars of a pattern, of @most, can be alike down to the demand entries: all of them where
 * one entry serves each size, one where a bar has to serve two entries of the same length. */
static int
count_alike (Ledger              *ledger,
             const RodCutPattern *pattern,
             int                  most)
{
  for (guint i = 0; i < pattern->n_parts; i++)
    {
      guint entry = get_entry (ledger, pattern->parts[i].size);

      most = MIN (most, ledger->left[entry] / pattern->parts[i].count);
    }
  return MAX (most, 1);
}

static void
fill_bar (Ledger              *ledger,
          const RodCutJob     *job,
          const RodCutPattern *pattern,
          int                  count,
          RodCutBar           *bar)
{
  const RodCutProblem *problem = ledger->problem;
  gint64               rest;

  bar->stock = job->sources[pattern->source].stock;
  bar->count = count;
  bar->n_pieces = 0;
  for (guint i = 0; i < pattern->n_parts; i++)
    bar->n_pieces += pattern->parts[i].count;
  bar->pieces = g_new (guint, bar->n_pieces);

  rest = problem->stock[bar->stock].length_mm - 2 * problem->trim_mm;
  for (guint i = 0, n = 0; i < pattern->n_parts; i++)
    {
      for (int j = 0; j < pattern->parts[i].count; j++)
        {
          guint entry = get_entry (ledger, pattern->parts[i].size);

          ledger->left[entry] -= count;
          bar->pieces[n++] = entry;
          rest -= problem->demand[entry].length_mm + problem->kerf_mm;
        }
    }
  /* The last cut may fall into the air. */
  bar->rest_mm = MAX (rest, 0);
}

static void
list_bars (RodCutPlan          *plan,
           const RodCutProblem *problem,
           const RodCutJob     *job,
           const RodCutScheme  *scheme)
{
  g_autoptr (GArray) bars = g_array_new (FALSE, FALSE, sizeof (RodCutBar));
  Ledger ledger;

  ledger_open (&ledger, problem, job->n_sizes);
  for (guint i = 0; i < scheme->uses->len; i++)
    {
      const RodCutUse *use = &g_array_index (scheme->uses, RodCutUse, i);

      for (int left = use->count; left > 0;)
        {
          RodCutBar bar;
          int       count = count_alike (&ledger, use->pattern, left);

          fill_bar (&ledger, job, use->pattern, count, &bar);
          g_array_append_val (bars, bar);
          left -= count;
        }
      plan->n_stock_bars += use->count;
    }
  ledger_close (&ledger);
  plan->n_bars = bars->len;
  plan->bars = (RodCutBar *) (gpointer) g_array_free (g_steal_pointer (&bars), FALSE);
}

static void
set_missing_error (GError **error,
                   int      missing,
                   int      length_mm)
{
  g_autofree char *text = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                                        "The bars do not suffice: "
                                                        "%d more of %d mm is needed",
                                                        "The bars do not suffice: "
                                                        "%d more of %d mm are needed",
                                                        (gulong) missing),
                                           missing,
                                           length_mm);

  g_set_error_literal (error, ROD_CUT_ERROR, ROD_CUT_ERROR_SHORT_OF_STOCK, text);
}

/* Bars nobody has in a plan mean that the stock does not suffice. */
static gboolean
check_stock_suffices (const RodCutProblem *problem,
                      const RodCutJob     *job,
                      const RodCutScheme  *scheme,
                      GError             **error)
{
  int missing = 0;
  int longest;

  for (guint i = 0; i < scheme->uses->len; i++)
    {
      const RodCutUse *use = &g_array_index (scheme->uses, RodCutUse, i);

      if (job->sources[use->pattern->source].stock == ROD_CUT_NO_STOCK)
        missing += use->count;
    }
  if (missing == 0)
    return TRUE;

  /* The widest source is real, and the missing bars are as wide. */
  longest = (int) problem->stock[job->sources[0].stock].length_mm;
  set_missing_error (error, missing, longest);
  return FALSE;
}

RodCutPlan *
rod_cut_plan_new (const RodCutProblem *problem,
                  GCancellable        *cancellable,
                  GError             **error)
{
  g_autoptr (RodCutJob) job = NULL;
  g_autoptr (RodCutScheme) scheme = NULL;
  RodCutPlan *plan;
  gint64      bound = 0;

  g_return_val_if_fail (problem != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  job = rod_cut_job_new (problem, error);
  if (job == NULL)
    return NULL;

  if (job->n_pieces > 0)
    scheme = rod_cut_search (job, cancellable, &bound);
  else
    scheme = rod_cut_scheme_new ();
  if (g_cancellable_set_error_if_cancelled (cancellable, error) ||
      !check_stock_suffices (problem, job, scheme, error))
    return NULL;

  plan = g_new0 (RodCutPlan, 1);
  list_bars (plan, problem, job, scheme);
  plan->cost = scheme->cost;
  plan->bound = bound;
  plan->proven = plan->cost == plan->bound;
  return plan;
}

void
rod_cut_plan_free (RodCutPlan *plan)
{
  if (plan == NULL)
    return;
  for (guint i = 0; i < plan->n_bars; i++)
    g_free (plan->bars[i].pieces);
  g_free (plan->bars);
  g_free (plan);
}
