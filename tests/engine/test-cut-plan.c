/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The cutting solver from outside: published and hand-worked problems, and what is refused. */

#include "engine/takeoff/rod-cut-plan.h"

#include "engine/rod-limits.h"
#include "support/drawn-cutting.h"

#define MAX_CASE_SIZES 13

typedef struct
{
  const char *name;
  gint64      bar_mm;
  gint64      kerf_mm;
  int         least;     /* bars in the best plan */
  int         first_fit; /* bars by first-fit decreasing, 0 where not checked */
  const char *demand;
} Case;

/* One stock length at price 1, so that the cost is the number of bars.
 *
 * Numbers of bars in the published problems were found here with an integer program over all
 * maximal patterns, solved to proven optimality; where the source gives one, it is the same. */
static const Case cases[] = {
  /* Encyclopedia article "Cutting stock problem": paper machine, 73 rolls. */
  { "paper-machine", 5600, 0, 73, 82, "1380x22 1520x25 1560x12 1710x14 1820x18 1880x18 "
                                      "1930x20 2000x10 2050x12 2100x14 2140x16 2150x18 2200x20" },
  /* Chvátal, Linear Programming (1983), chapter 13; 453 from memory. */
  { "chvatal", 100, 0, 453, 485, "45x97 36x610 31x395 14x211" },
  /* The same as reprinted in a solver's manual, with 35 for 36. */
  { "chvatal-reprint", 100, 0, 453, 485, "45x97 35x610 31x395 14x211" },
  /* Winston, Operations Research, chapter 10, lumber; attribution from memory. */
  { "winston", 17, 0, 19, 19, "3x25 5x20 9x15" },
  /* Textbook exercise: boards of 25 ft. */
  { "boards-25", 25, 0, 2167, 2217, "7x5000 9x1200 11x300" },
  /* Textbook exercise: reels of 100 in. */
  { "reels-100", 100, 0, 77, 77, "60x30 48x50 36x25 24x90" },
  /* Textbook exercise: boards of 20 ft. */
  { "boards-20", 20, 0, 54, 55, "3x50 4x25 8x15 10x70" },
  /* Puchinger (2007), example for a constraint model. */
  { "puchinger", 10, 0, 4, 4, "7x2 5x2 3x4" },
  /* Fieldhouse, SICUP Bulletin (1990), instance from memory: the linear program over all patterns
   * gives 59/30 and so 2, yet 3 bars are needed. */
  { "fieldhouse", 30, 0, 3, 3, "15x1 10x2 6x4" },
  /* Johnson and Garey: worst case of first-fit decreasing, 11/9 of the optimum; structure from
   * memory. */
  { "first-fit-worst", 100, 0, 9, 11, "51x6 27x6 26x6 23x12" },
  /* By hand: 2 × 3000, 3 × 2000 and 4 × 1500 fill a bar each; 24 m in four bars. */
  { "full-bars", 6000, 0, 4, 4, "3000x4 2000x3 1500x4" },
  /* By hand, the same with a cut of 3 mm: none of these fills a bar now. At most one 3000 goes
   * into a bar (2 × 3000 + 3 > 6000), so four bars, each with 2997 left after the cut: one 2000 or
   * one 1500. Seven pieces are left for four places, and a fifth bar takes three (2000 + 2000 +
   * 1500 + 6). */
  { "full-bars-kerf", 6000, 3, 5, 5, "3000x4 2000x3 1500x4" },
  /* By hand: one of each in a bar is 2730 + 1810 + 1150 + 2 × 4 = 5698, so seven bars do. With
   * 4 more for every piece and bar, six bars hold 6 × 6004 = 36024 of the 7 × 5702 = 39914 wanted.
   * Cutting each length on its own takes 4 + 3 + 2 = 9. */
  { "three-lengths", 6000, 4, 7, 0, "2730x7 1810x7 1150x7" },
  /* By hand: Σ (l + 4) n = 17334 + 15536 + 5968 + 4776 + 7152 = 50766 = 8.46 × 6004, so nine bars
   * at least. First-fit takes ten. */
  { "five-lengths", 6000, 4, 9, 10, "5774x3 3880x4 1488x4 1190x4 890x8" },
  /* By hand: 3000 fills a bar; 2 × 2400 do not share one, nor 2400 + 1025; 3 + 1 bars. */
  { "small-job", 3000, 0, 4, 4, "2400x2 3000x1 1025x1" },
  /* By hand: ten whole bars; 2 × 2120 need a bar each with 876 left, which takes the 120; 1120 +
   * 1000 + 4 share a third. */
  { "mostly-whole", 3000, 4, 13, 13, "1120x1 2120x1 1000x1 120x1 2120x1 3000x10" },
  /* By hand: 5 × 592 + 4 × 4 = 2976 fit 3000, six do not; 35 / 5. */
  { "one-length", 3000, 4, 7, 7, "592x35" },
};

/* Reads "1380x22 1520x25": lengths and counts. Returns how many. */
static guint
read_demand (const char   *text,
             RodCutDemand *demand)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  guint n = 0;

  for (; words[n] != NULL; n++)
    {
      char *end;

      g_assert_cmpuint (n, <, MAX_CASE_SIZES);
      demand[n].length_mm = g_ascii_strtoll (words[n], &end, 10);
      g_assert_cmpint (*end, ==, 'x');
      demand[n].count = (int) g_ascii_strtoll (end + 1, NULL, 10);
    }
  return n;
}

static RodCutPlan *
plan_problem (const RodCutProblem *problem)
{
  g_autoptr (GError) error = NULL;
  RodCutPlan *plan = rod_cut_plan_new (problem, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (plan);
  drawn_cutting_assert_plan (problem, plan);
  return plan;
}

static int
compare_lengths (gconstpointer a,
                 gconstpointer b)
{
  gint64 one = *(const gint64 *) a;
  gint64 other = *(const gint64 *) b;

  return (one < other) - (one > other);
}

/* First-fit decreasing piece by piece, as it is defined: bars of one length. */
static int
first_fit (const RodCutProblem *problem,
           gint64               bar_mm)
{
  g_autoptr (GArray) lengths = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GArray) rooms = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint i = 0; i < problem->n_demand; i++)
    {
      for (int j = 0; j < problem->demand[i].count; j++)
        g_array_append_val (lengths, problem->demand[i].length_mm);
    }
  g_array_sort (lengths, compare_lengths);

  for (guint i = 0; i < lengths->len; i++)
    {
      gint64 width = g_array_index (lengths, gint64, i) + problem->kerf_mm;
      gint64 full = bar_mm - 2 * problem->trim_mm + problem->kerf_mm;
      guint  bar = 0;

      while (bar < rooms->len && g_array_index (rooms, gint64, bar) < width)
        bar++;
      if (bar == rooms->len)
        g_array_append_val (rooms, full);
      g_array_index (rooms, gint64, bar) -= width;
    }
  return (int) rooms->len;
}

static void
test_case (gconstpointer data)
{
  const Case   *one = data;
  RodCutStock   stock = { one->bar_mm, 1, -1 };
  RodCutDemand  demand[MAX_CASE_SIZES];
  guint         n_demand = read_demand (one->demand, demand);
  RodCutProblem problem = { &stock, 1, demand, n_demand, one->kerf_mm, 0 };
  g_autoptr (RodCutPlan) plan = plan_problem (&problem);

  g_assert_cmpint (plan->cost, ==, one->least);
  g_assert_true (plan->proven);
  if (one->first_fit > 0)
    g_assert_cmpint (first_fit (&problem, one->bar_mm), ==, one->first_fit);
}

/* By hand: 5000 at 60 and 3000 at 40. Pieces 2 × 2500 + 1 × 2900: one of each bar, 100. Two of the
 * 5000 would cost 120, three of the 3000 as much. */
static void
test_two_lengths (void)
{
  RodCutStock   stock[] = { { 3000, 40, -1 }, { 5000, 60, -1 } };
  RodCutDemand  demand[] = { { 2500, 2 }, { 2900, 1 } };
  RodCutProblem problem = { stock, G_N_ELEMENTS (stock), demand, G_N_ELEMENTS (demand), 0, 0 };
  g_autoptr (RodCutPlan) plan = plan_problem (&problem);

  g_assert_cmpint (plan->cost, ==, 100);
  g_assert_true (plan->proven);
}

/* By hand: one 6000 left on the rack at 10, others at 50. Five pieces of 2000: three from the rack
 * bar, two from a bought one: 60. */
static void
test_limited_stock (void)
{
  RodCutStock   stock[] = { { 6000, 50, -1 }, { 6000, 10, 1 } };
  RodCutDemand  demand[] = { { 2000, 5 } };
  RodCutProblem problem = { stock, G_N_ELEMENTS (stock), demand, G_N_ELEMENTS (demand), 0, 0 };
  g_autoptr (RodCutPlan) plan = plan_problem (&problem);

  g_assert_cmpint (plan->cost, ==, 60);
  g_assert_true (plan->proven);
}

/* Equal lengths given apart stay apart: each entry gets its own pieces. */
static void
test_equal_lengths (void)
{
  RodCutStock   stock = { 6000, 1, -1 };
  RodCutDemand  demand[] = { { 1500, 3 }, { 1500, 2 }, { 3000, 1 }, { 1500, 4 } };
  RodCutProblem problem = { &stock, 1, demand, G_N_ELEMENTS (demand), 0, 0 };
  g_autoptr (RodCutPlan) plan = plan_problem (&problem);

  /* 9 × 1500 + 3000 = 16.5 m. */
  g_assert_cmpint (plan->cost, ==, 3);
}

/* By hand: with 10 mm cut off at each end of 6000, 2 × 2990 fit, with 1 mm of kerf they do not. */
static void
test_trim (void)
{
  RodCutStock   stock = { 6000, 1, -1 };
  RodCutDemand  demand = { 2990, 2 };
  RodCutProblem problem = { &stock, 1, &demand, 1, 0, 10 };
  g_autoptr (RodCutPlan) tight = plan_problem (&problem);
  g_autoptr (RodCutPlan) wasteful = NULL;

  g_assert_cmpint (tight->cost, ==, 1);
  problem.kerf_mm = 1;
  wasteful = plan_problem (&problem);
  g_assert_cmpint (wasteful->cost, ==, 2);
}

static void
test_nothing_wanted (void)
{
  RodCutProblem problem = { NULL, 0, NULL, 0, 4, 0 };
  g_autoptr (RodCutPlan) plan = plan_problem (&problem);

  g_assert_cmpint (plan->cost, ==, 0);
  g_assert_true (plan->proven);
}

static void
assert_refused (const RodCutProblem *problem,
                RodCutError          code)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RodCutPlan) plan = rod_cut_plan_new (problem, NULL, &error);

  g_assert_error (error, ROD_CUT_ERROR, (int) code);
  g_assert_null (plan);
}

static void
test_too_long (void)
{
  RodCutStock   stock[] = { { 5000, 1, -1 }, { 6000, 1, -1 } };
  RodCutDemand  demand[] = { { 100, 1 }, { 5990, 1 } };
  RodCutProblem problem = { stock, 2, demand, 2, 0, 0 };

  g_clear_pointer (&(RodCutPlan *){ plan_problem (&problem) }, rod_cut_plan_free);
  problem.trim_mm = 6;
  assert_refused (&problem, ROD_CUT_ERROR_TOO_LONG);
  problem.trim_mm = 4000;
  assert_refused (&problem, ROD_CUT_ERROR_TOO_LONG);
  problem.trim_mm = 0;
  demand[1].length_mm = G_MAXINT64;
  assert_refused (&problem, ROD_CUT_ERROR_TOO_LONG);
}

/* By hand: five pieces of 2900 go two to a bar, so two bars of 6000 leave one over. */
static void
test_short_of_stock (void)
{
  RodCutStock   stock[] = { { 6000, 7, 2 }, { 2800, 3, -1 } };
  RodCutDemand  demand = { 2900, 5 };
  RodCutProblem problem = { stock, 2, &demand, 1, 4, 0 };

  assert_refused (&problem, ROD_CUT_ERROR_SHORT_OF_STOCK);
  stock[0].limit = 0;
  assert_refused (&problem, ROD_CUT_ERROR_SHORT_OF_STOCK);
  stock[0].limit = 3;
  g_clear_pointer (&(RodCutPlan *){ plan_problem (&problem) }, rod_cut_plan_free);
}

static void
test_invalid (void)
{
  const RodCutStock  good_stock = { 6000, 100, -1 };
  const RodCutDemand good_demand = { 1000, 2 };
  const RodCutStock  bad_stock[] = {
     { 0, 100, -1 },
     { -6000, 100, -1 },
     { ROD_MAX_STOCK_MM + 1, 100, -1 },
     { G_MAXINT64, 100, -1 },
     { G_MININT64, 100, -1 },
     { 6000, 0, -1 },
     { 6000, -1, -1 },
     { 6000, ROD_MAX_BAR_PRICE + 1, -1 },
     { 6000, G_MAXINT64, -1 },
     { 6000, 100, -2 },
     { 6000, 100, G_MININT },
  };
  const RodCutDemand bad_demand[] = {
    { 0, 1 },
    { -1, 1 },
    { G_MININT64, 1 },
    { 1000, 0 },
    { 1000, -1 },
    { 1000, G_MININT },
    { 1000, ROD_MAX_CUT_PIECES + 1 },
    { 1000, G_MAXINT },
  };
  const gint64  bad_loss[] = { -1, G_MININT64, G_MAXINT64, ROD_MAX_STOCK_MM + 1 };
  RodCutProblem problem = { &good_stock, 1, &good_demand, 1, 0, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (bad_stock); i++)
    {
      problem.stock = &bad_stock[i];
      assert_refused (&problem, ROD_CUT_ERROR_INVALID);
    }
  problem.stock = &good_stock;
  for (guint i = 0; i < G_N_ELEMENTS (bad_demand); i++)
    {
      problem.demand = &bad_demand[i];
      assert_refused (&problem, ROD_CUT_ERROR_INVALID);
    }
  problem.demand = &good_demand;
  for (guint i = 0; i < G_N_ELEMENTS (bad_loss); i++)
    {
      problem.kerf_mm = bad_loss[i];
      assert_refused (&problem, ROD_CUT_ERROR_INVALID);
      problem.kerf_mm = 0;
      problem.trim_mm = bad_loss[i];
      assert_refused (&problem, ROD_CUT_ERROR_INVALID);
      problem.trim_mm = 0;
    }
  problem.n_stock = 0;
  assert_refused (&problem, ROD_CUT_ERROR_INVALID);
}

/* The largest values allowed, all at once, give a right plan: no sum overflows. */
static void
test_largest (void)
{
  RodCutStock   stock[] = { { ROD_MAX_STOCK_MM, ROD_MAX_BAR_PRICE, ROD_MAX_CUT_PIECES - 1 },
                            { ROD_MAX_STOCK_MM, ROD_MAX_BAR_PRICE - 1, 1 } };
  RodCutDemand  demand = { ROD_MAX_STOCK_MM, ROD_MAX_CUT_PIECES };
  RodCutProblem problem = { stock, 2, &demand, 1, ROD_MAX_STOCK_MM, 0 };
  g_autoptr (RodCutPlan) plan = plan_problem (&problem);

  g_assert_cmpint (plan->cost, ==, (gint64) ROD_MAX_BAR_PRICE * ROD_MAX_CUT_PIECES - 1);
  g_assert_true (plan->proven);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strconcat ("/cut-plan/case/", cases[i].name, NULL);

      g_test_add_data_func (path, &cases[i], test_case);
    }
  g_test_add_func ("/cut-plan/two-lengths", test_two_lengths);
  g_test_add_func ("/cut-plan/limited-stock", test_limited_stock);
  g_test_add_func ("/cut-plan/equal-lengths", test_equal_lengths);
  g_test_add_func ("/cut-plan/trim", test_trim);
  g_test_add_func ("/cut-plan/nothing-wanted", test_nothing_wanted);
  g_test_add_func ("/cut-plan/too-long", test_too_long);
  g_test_add_func ("/cut-plan/short-of-stock", test_short_of_stock);
  g_test_add_func ("/cut-plan/invalid", test_invalid);
  g_test_add_func ("/cut-plan/largest", test_largest);

  return g_test_run ();
}
