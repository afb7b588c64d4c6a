/* SPDX-License-Identifier: GPL-3.0-or-later */

/* random-cut-plans FIRST COUNT: plans random cutting problems, one for each seed from FIRST on, and
 * prints each problem with its plan as a line of JSON, in the form check_cutting.py reads. */

#include "support/drawn-cutting.h"

#include <stdlib.h>

static void
print_comma (guint index)
{
  if (index > 0)
    g_print (",");
}

static void
print_problem (const RodCutProblem *problem)
{
  g_print ("{\"instance\":{\"kerf\":%d,\"trim\":%d,\"stock\":[",
           (int) problem->kerf_mm,
           (int) problem->trim_mm);
  for (guint k = 0; k < problem->n_stock; k++)
    {
      const RodCutStock *stock = &problem->stock[k];

      print_comma (k);
      g_print ("{\"length\":%d", (int) stock->length_mm);
      g_print (",\"price\":%d", (int) stock->price);
      if (stock->limit >= 0)
        g_print (",\"limit\":%d", stock->limit);
      g_print ("}");
    }
  g_print ("],\"pieces\":[");
  for (guint i = 0; i < problem->n_demand; i++)
    {
      print_comma (i);
      g_print ("{\"length\":%d", (int) problem->demand[i].length_mm);
      g_print (",\"count\":%d}", problem->demand[i].count);
    }
  g_print ("]}");
}

static void
print_plan (const RodCutProblem *problem,
            const RodCutPlan    *plan)
{
  g_print (",\"cost\":%" G_GINT64_FORMAT ",\"bound\":%" G_GINT64_FORMAT ",\"proven\":%s",
           plan->cost,
           plan->bound,
           plan->proven ? "true" : "false");
  g_print (",\"plan\":{\"bars\":[");
  for (guint i = 0; i < plan->n_bars; i++)
    {
      const RodCutBar *bar = &plan->bars[i];

      print_comma (i);
      g_print ("{\"stock_length\":%d", (int) problem->stock[bar->stock].length_mm);
      g_print (",\"count\":%d,\"pieces\":[", bar->count);
      for (guint j = 0; j < bar->n_pieces; j++)
        g_print ("%s%d", j > 0 ? "," : "", (int) problem->demand[bar->pieces[j]].length_mm);
      g_print ("]}");
    }
  g_print ("]}}\n");
}

/* Every second problem has one stock length, the others two or three. */
static void
print_one (guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (GError) error = NULL;
  g_autoptr (RodCutPlan) plan = NULL;
  guint        n_stock = seed % 2 == 0 ? 1 : (guint) g_rand_int_range (rand, 2, 4);
  guint        n_demand = (guint) g_rand_int_range (rand, 1, DRAWN_CUTTING_MAX_DEMAND);
  DrawnCutting job;

  drawn_cutting_draw (&job, rand, n_stock, n_demand, 15);
  plan = rod_cut_plan_new (&job.problem, NULL, &error);
  if (plan == NULL)
    g_error ("seed %u: %s", seed, error->message);
  print_problem (&job.problem);
  print_plan (&job.problem, plan);
}

int
main (int   argc,
      char *argv[])
{
  guint32 first, count;

  if (argc != 3)
    {
      g_printerr ("Usage: random-cut-plans FIRST COUNT\n");
      return EXIT_FAILURE;
    }
  first = (guint32) g_ascii_strtoull (argv[1], NULL, 10);
  count = (guint32) g_ascii_strtoull (argv[2], NULL, 10);
  for (guint32 i = 0; i < count; i++)
    print_one (first + i);
  return EXIT_SUCCESS;
}
