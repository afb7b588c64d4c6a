/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A cutting problem made ready for the solver.
 *
 * Kerf and trims vanish by adding one kerf to every piece and to every bar: n pieces have n − 1
 * cuts between them, so Σ l + (n − 1) s ≤ L − 2 e is the same as Σ (l + s) ≤ L − 2 e + s. Dividing
 * by the greatest common divisor of the widths makes the tables of the solver smaller and loses
 * nothing, because only multiples of it can be filled. */

#include "config.h"

#include "engine/takeoff/rod-cut-job.h"

#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>

G_DEFINE_QUARK (rod - cut - error - quark, rod_cut_error)

static gint64
greatest_common_divisor (gint64 a,
                         gint64 b)
{
  while (b != 0)
    {
      gint64 rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

static gboolean
invalid (GError    **error,
         const char *what,
         gint64      value,
         gint64      least,
         gint64      most)
{
  g_autofree char *value_text = g_strdup_printf ("%" G_GINT64_FORMAT, value);
  g_autofree char *least_text = g_strdup_printf ("%" G_GINT64_FORMAT, least);
  g_autofree char *most_text = g_strdup_printf ("%" G_GINT64_FORMAT, most);

  g_set_error (error, ROD_CUT_ERROR, ROD_CUT_ERROR_INVALID,
               /* Translators: for example "price of a bar: 0; from 1 to 99 is allowed" */
               _ ("%s: %s; from %s to %s is allowed"),
               what,
               value_text,
               least_text,
               most_text);
  return FALSE;
}

static gboolean
check_stock (const RodCutProblem *problem,
             GError             **error)
{
  for (guint k = 0; k < problem->n_stock; k++)
    {
      const RodCutStock *stock = &problem->stock[k];

      if (stock->length_mm < 1 || stock->length_mm > ROD_MAX_STOCK_MM)
        return invalid (error, _ ("length of a bar in mm"), stock->length_mm, 1, ROD_MAX_STOCK_MM);
      if (stock->price < 1 || stock->price > ROD_MAX_BAR_PRICE)
        return invalid (error, _ ("price of a bar"), stock->price, 1, ROD_MAX_BAR_PRICE);
      if (stock->limit < -1)
        return invalid (error, _ ("number of bars in stock"), stock->limit, -1, G_MAXINT);
    }
  return TRUE;
}

static gboolean
check_demand (const RodCutProblem *problem,
              GError             **error)
{
  gint64 n_pieces = 0;

  for (guint i = 0; i < problem->n_demand; i++)
    {
      const RodCutDemand *demand = &problem->demand[i];

      if (demand->length_mm < 1)
        return invalid (error, _ ("length of a piece in mm"), demand->length_mm, 1, G_MAXINT);
      if (demand->count < 1)
        return invalid (error, _ ("number of pieces"), demand->count, 1, ROD_MAX_CUT_PIECES);
      n_pieces += demand->count;
    }
  if (n_pieces > ROD_MAX_CUT_PIECES)
    return invalid (error, _ ("number of pieces in all"), n_pieces, 1, ROD_MAX_CUT_PIECES);
  return TRUE;
}

static gboolean
check_problem (const RodCutProblem *problem,
               GError             **error)
{
  if (problem->kerf_mm < 0 || problem->kerf_mm > ROD_MAX_STOCK_MM)
    return invalid (error, _ ("width of the saw cut in mm"), problem->kerf_mm, 0, ROD_MAX_STOCK_MM);
  if (problem->trim_mm < 0 || problem->trim_mm > ROD_MAX_STOCK_MM)
    return invalid (error, _ ("trim at a bar's ends in mm"), problem->trim_mm, 0, ROD_MAX_STOCK_MM);
  if (problem->n_stock == 0 && problem->n_demand > 0)
    return invalid (error, _ ("number of stock lengths"), 0, 1, G_MAXINT);
  return check_stock (problem, error) && check_demand (problem, error);
}

static void
set_length_error (GError    **error,
                  RodCutError code,
                  const char *what,
                  gint64      longest_mm,
                  gint64      usable_mm)
{
  g_autofree char *longest = g_strdup_printf ("%" G_GINT64_FORMAT, longest_mm);
  g_autofree char *usable = g_strdup_printf ("%" G_GINT64_FORMAT, MAX (usable_mm, 0));

  g_set_error (error, ROD_CUT_ERROR, (int) code,
               /* Translators: for example "A piece is longer than every bar: 6100 mm, …" */
               _ ("%s: %s mm, the longest bar gives %s mm"),
               what,
               longest,
               usable);
}

/* Tells apart pieces no bar could ever give from pieces whose bars have run out. */
static gboolean
check_longest (const RodCutProblem *problem,
               GError             **error)
{
  gint64 longest = 0, usable = 0, at_hand = 0;

  for (guint i = 0; i < problem->n_demand; i++)
    longest = MAX (longest, problem->demand[i].length_mm);
  for (guint k = 0; k < problem->n_stock; k++)
    {
      gint64 length = problem->stock[k].length_mm - 2 * problem->trim_mm;

      usable = MAX (usable, length);
      if (problem->stock[k].limit != 0)
        at_hand = MAX (at_hand, length);
    }

  if (longest > usable)
    {
      set_length_error (error,
                        ROD_CUT_ERROR_TOO_LONG,
                        _ ("A piece is longer than every bar"),
                        longest,
                        usable);
      return FALSE;
    }
  if (longest > at_hand)
    {
      set_length_error (error,
                        ROD_CUT_ERROR_SHORT_OF_STOCK,
                        _ ("The bars for a long piece are used up"),
                        longest,
                        at_hand);
      return FALSE;
    }
  return TRUE;
}

static int
compare_sizes (gconstpointer a,
               gconstpointer b)
{
  return ((const RodCutSize *) b)->width - ((const RodCutSize *) a)->width;
}

/* Merges equal lengths, still in mm. */
static void
gather_sizes (RodCutJob           *job,
              const RodCutProblem *problem)
{
  job->sizes = g_new (RodCutSize, problem->n_demand);
  for (guint i = 0; i < problem->n_demand; i++)
    {
      job->sizes[i].width = (int) (problem->demand[i].length_mm + problem->kerf_mm);
      job->sizes[i].count = problem->demand[i].count;
      job->n_pieces += problem->demand[i].count;
    }
  qsort (job->sizes, problem->n_demand, sizeof *job->sizes, compare_sizes);

  for (guint i = 0; i < problem->n_demand; i++)
    {
      if (job->n_sizes > 0 && job->sizes[job->n_sizes - 1].width == job->sizes[i].width)
        job->sizes[job->n_sizes - 1].count += job->sizes[i].count;
      else
        job->sizes[job->n_sizes++] = job->sizes[i];
    }
}

static int
compare_sources (gconstpointer a,
                 gconstpointer b)
{
  const RodCutSource *one = a;
  const RodCutSource *other = b;

  if (one->width != other->width)
    return one->width > other->width ? -1 : 1;
  if (one->price != other->price)
    return one->price < other->price ? -1 : 1;
  if (one->limit != other->limit)
    return one->limit > other->limit ? -1 : 1;
  return (one->stock > other->stock) - (one->stock < other->stock);
}

/* The source may give less than one bar per piece: a limit beyond that is none. */
static RodCutSource
make_source (const RodCutProblem *problem,
             guint                stock,
             gint64               unit,
             int                  n_pieces)
{
  const RodCutStock *bar = &problem->stock[stock];
  gboolean           enough = bar->limit == -1 || bar->limit >= n_pieces;
  RodCutSource       source;

  source.width = (int) ((bar->length_mm - 2 * problem->trim_mm + problem->kerf_mm) / unit);
  source.price = bar->price;
  source.limit = enough ? ROD_CUT_UNLIMITED : bar->limit;
  source.stock = stock;
  return source;
}

/* No cheapest plan needs a bar when a longer one that never runs out costs no more. */
static gboolean
is_outdone (const RodCutJob *job,
            guint            source)
{
  const RodCutSource *one = &job->sources[source];

  for (guint k = 0; k < job->n_sources; k++)
    {
      const RodCutSource *other = &job->sources[k];

      if (k != source && other->limit == ROD_CUT_UNLIMITED &&
          other->width >= one->width && other->price <= one->price &&
          compare_sources (other, one) < 0)
        return TRUE;
    }
  return FALSE;
}

static void
drop_outdone_sources (RodCutJob *job)
{
  guint kept = 0;

  /* A source is outdone by one before it in the order, so those already dropped do not matter. */
  for (guint k = 0; k < job->n_sources; k++)
    {
      if (!is_outdone (job, k))
        job->sources[kept++] = job->sources[k];
    }
  job->n_sources = kept;
}

static void
gather_sources (RodCutJob           *job,
                const RodCutProblem *problem,
                gint64               unit)
{
  int narrowest = job->sizes[job->n_sizes - 1].width;

  /* One more for the bars nobody has. */
  job->sources = g_new (RodCutSource, problem->n_stock + 1);
  for (guint k = 0; k < problem->n_stock; k++)
    {
      RodCutSource source = make_source (problem, k, unit, job->n_pieces);

      if (source.width >= narrowest && source.limit > 0)
        job->sources[job->n_sources++] = source;
    }
  qsort (job->sources, job->n_sources, sizeof *job->sources, compare_sources);
  drop_outdone_sources (job);
  job->widest = job->sources[0].width;
}

/* Adds the bars nobody has, dearer than a real bar for every piece. */
static void
add_missing_bars (RodCutJob *job)
{
  gint64        dearest = 0;
  RodCutSource *missing = &job->sources[job->n_sources];

  if (job->n_sources == 1 && job->sources[0].limit == ROD_CUT_UNLIMITED)
    return;
  for (guint k = 0; k < job->n_sources; k++)
    dearest = MAX (dearest, job->sources[k].price);

  missing->width = job->widest;
  missing->price = dearest * job->n_pieces + job->price_step;
  missing->limit = ROD_CUT_UNLIMITED;
  missing->stock = ROD_CUT_NO_STOCK;
  job->n_sources++;
}

RodCutJob *
rod_cut_job_new (const RodCutProblem *problem,
                 GError             **error)
{
  RodCutJob *job;
  gint64     unit = 0;

  g_return_val_if_fail (problem != NULL, NULL);
  g_return_val_if_fail (problem->n_stock == 0 || problem->stock != NULL, NULL);
  g_return_val_if_fail (problem->n_demand == 0 || problem->demand != NULL, NULL);

  if (!check_problem (problem, error) || !check_longest (problem, error))
    return NULL;

  job = g_new0 (RodCutJob, 1);
  if (problem->n_demand == 0)
    return job;

  gather_sizes (job, problem);
  for (guint i = 0; i < job->n_sizes; i++)
    unit = greatest_common_divisor (unit, job->sizes[i].width);
  for (guint i = 0; i < job->n_sizes; i++)
    job->sizes[i].width = (int) (job->sizes[i].width / unit);

  gather_sources (job, problem, unit);
  for (guint k = 0; k < job->n_sources; k++)
    job->price_step = greatest_common_divisor (job->price_step, job->sources[k].price);
  add_missing_bars (job);
  return job;
}

void
rod_cut_job_free (RodCutJob *job)
{
  if (job == NULL)
    return;
  g_free (job->sizes);
  g_free (job->sources);
  g_free (job);
}

gint64
rod_cut_job_round_up (const RodCutJob *job,
                      gint64           cost)
{
  gint64 over = cost % job->price_step;

  return over > 0 ? cost + job->price_step - over : cost - over;
}
