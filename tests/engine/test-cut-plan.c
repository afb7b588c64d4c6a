/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The cutting solver from outside: published and hand-worked problems, properties of plans for
 * random problems, an exact oracle for small ones, and what is refused. */

#include "engine/takeoff/rod-cut-plan.h"

#include "engine/rod-limits.h"

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

/* Everything a plan promises, whatever the problem. */
static void
assert_plan_holds (const RodCutProblem *problem,
                   const RodCutPlan    *plan)
{
  g_autofree gint64 *cut = g_new0 (gint64, problem->n_demand);
  g_autofree gint64 *used = g_new0 (gint64, problem->n_stock);
  gint64             cost = 0;
  gint64             n_bars = 0;

  for (guint i = 0; i < plan->n_bars; i++)
    {
      const RodCutBar *bar = &plan->bars[i];
      gint64           before = G_MAXINT64;
      gint64           room, length = 0;

      g_assert_cmpint (bar->count, >=, 1);
      g_assert_cmpuint (bar->n_pieces, >=, 1);
      g_assert_cmpuint (bar->stock, <, problem->n_stock);
      for (guint j = 0; j < bar->n_pieces; j++)
        {
          g_assert_cmpuint (bar->pieces[j], <, problem->n_demand);
          cut[bar->pieces[j]] += bar->count;
          length += problem->demand[bar->pieces[j]].length_mm;
          g_assert_cmpint (problem->demand[bar->pieces[j]].length_mm, <=, before);
          before = problem->demand[bar->pieces[j]].length_mm;
        }
      room = problem->stock[bar->stock].length_mm - 2 * problem->trim_mm;
      g_assert_cmpint (length + (bar->n_pieces - 1) * problem->kerf_mm, <=, room);
      g_assert_cmpint (bar->rest_mm, ==, MAX (0, room - length - bar->n_pieces * problem->kerf_mm));
      used[bar->stock] += bar->count;
      cost += bar->count * problem->stock[bar->stock].price;
      n_bars += bar->count;
    }

  for (guint i = 0; i < problem->n_demand; i++)
    g_assert_cmpint (cut[i], ==, problem->demand[i].count);
  for (guint k = 0; k < problem->n_stock; k++)
    {
      if (problem->stock[k].limit >= 0)
        g_assert_cmpint (used[k], <=, problem->stock[k].limit);
    }
  g_assert_cmpint (plan->cost, ==, cost);
  g_assert_cmpint (plan->n_stock_bars, ==, n_bars);
  g_assert_cmpint (plan->bound, <=, plan->cost);
  g_assert_true (plan->proven == (plan->bound == plan->cost));
}

static RodCutPlan *
plan_problem (const RodCutProblem *problem)
{
  g_autoptr (GError) error = NULL;
  RodCutPlan *plan = rod_cut_plan_new (problem, &error);

  g_assert_no_error (error);
  g_assert_nonnull (plan);
  assert_plan_holds (problem, plan);
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
  g_autoptr (RodCutPlan) plan = rod_cut_plan_new (problem, &error);

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

typedef struct
{
  RodCutStock   stock[3];
  RodCutDemand  demand[60];
  RodCutProblem problem;
} Job;

/* A random problem of the kind a house gives: @n_demand entries of up to @most pieces; one to three
 * stock lengths, the longest never runs out. */
static void
make_job (Job  *job,
          guint n_stock,
          guint n_demand,
          int   most)
{
  gint64 bar_mm = 1000 * g_test_rand_int_range (3, 7);

  for (guint k = 0; k < n_stock; k++)
    {
      job->stock[k].length_mm = bar_mm - 500 * k;
      job->stock[k].price = job->stock[k].length_mm / 100 + g_test_rand_int_range (-4, 5);
      job->stock[k].limit = k > 0 && g_test_rand_bit () ? g_test_rand_int_range (0, 5) : -1;
    }
  for (guint i = 0; i < n_demand; i++)
    {
      job->demand[i].length_mm = g_test_rand_int_range (200, (int) bar_mm - 20);
      job->demand[i].count = g_test_rand_int_range (1, most + 1);
    }
  job->problem.stock = job->stock;
  job->problem.n_stock = n_stock;
  job->problem.demand = job->demand;
  job->problem.n_demand = n_demand;
  job->problem.kerf_mm = g_test_rand_int_range (0, 6);
  job->problem.trim_mm = g_test_rand_int_range (0, 10);
}

static void
test_never_beaten_by_first_fit (void)
{
  for (int round = 0; round < 60; round++)
    {
      Job    job;
      guint  n_stock = (guint) g_test_rand_int_range (1, 4);
      guint  n_demand = (guint) g_test_rand_int_range (1, 61);
      gint64 habit;
      g_autoptr (RodCutPlan) plan = NULL;

      make_job (&job, n_stock, n_demand, 12);
      plan = plan_problem (&job.problem);
      habit = first_fit (&job.problem, job.stock[0].length_mm) * job.stock[0].price;
      g_assert_cmpint (plan->cost, <=, habit);
    }
}

static void
assert_same_plan (const RodCutPlan *one,
                  const RodCutPlan *other)
{
  g_assert_cmpint (one->cost, ==, other->cost);
  g_assert_cmpint (one->bound, ==, other->bound);
  g_assert_cmpuint (one->n_bars, ==, other->n_bars);
  for (guint i = 0; i < one->n_bars; i++)
    {
      const RodCutBar *a = &one->bars[i];
      const RodCutBar *b = &other->bars[i];

      g_assert_cmpuint (a->stock, ==, b->stock);
      g_assert_cmpint (a->count, ==, b->count);
      g_assert_cmpmem (a->pieces,
                       a->n_pieces * sizeof (guint),
                       b->pieces,
                       b->n_pieces * sizeof (guint));
    }
}

static void
test_same_twice (void)
{
  for (int round = 0; round < 20; round++)
    {
      Job job;
      g_autoptr (RodCutPlan) one = NULL;
      g_autoptr (RodCutPlan) other = NULL;

      make_job (&job, 3, 40, 6);
      one = plan_problem (&job.problem);
      other = plan_problem (&job.problem);
      assert_same_plan (one, other);
    }
}

/* Neither the order of demand nor splitting an entry in two changes cost or bound. */
static void
test_order_irrelevant (void)
{
  for (int round = 0; round < 20; round++)
    {
      Job job;
      g_autoptr (RodCutPlan) one = NULL;
      g_autoptr (RodCutPlan) other = NULL;

      make_job (&job, 2, 30, 6);
      one = plan_problem (&job.problem);
      for (guint i = job.problem.n_demand; i > 1; i--)
        {
          guint        j = (guint) g_test_rand_int_range (0, (int) i);
          RodCutDemand swap = job.demand[i - 1];

          job.demand[i - 1] = job.demand[j];
          job.demand[j] = swap;
        }
      if (job.demand[0].count > 1)
        {
          job.demand[0].count--;
          job.demand[job.problem.n_demand++] = (RodCutDemand){ job.demand[0].length_mm, 1 };
        }
      other = plan_problem (&job.problem);
      g_assert_cmpint (one->cost, ==, other->cost);
      g_assert_cmpint (one->bound, ==, other->bound);
    }
}

static gpointer
plan_in_thread (gpointer problem)
{
  return plan_problem (problem);
}

/* Plans made side by side are those made one after another. */
static void
test_threads (void)
{
  Job job;
  g_autoptr (RodCutPlan) alone = NULL;
  GThread *threads[4];

  make_job (&job, 3, 50, 6);
  alone = plan_problem (&job.problem);
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("plan", plan_in_thread, &job.problem);
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    {
      g_autoptr (RodCutPlan) plan = g_thread_join (threads[i]);

      assert_same_plan (alone, plan);
    }
}

/* The exact oracle: least cost for every combination of pieces and limited bars left, from nothing
 * upwards by recursion with memory. It knows nothing of linear programs or bounds: some bar has to
 * give the first piece that is still wanted; try every stock and every filling with it. */
typedef struct
{
  const RodCutProblem *problem;
  gint64              *memory; /* by state; −1 not known yet */
} Oracle;

#define IMPOSSIBLE (G_MAXINT64 / 4)

static gint64 least_cost (Oracle *oracle,
                          int    *left,
                          int    *bars);

static gsize
get_state (const Oracle *oracle,
           const int    *left,
           const int    *bars)
{
  gsize state = 0;

  for (guint i = 0; i < oracle->problem->n_demand; i++)
    state = state * (gsize) (oracle->problem->demand[i].count + 1) + (gsize) left[i];
  for (guint k = 0; k < oracle->problem->n_stock; k++)
    {
      if (oracle->problem->stock[k].limit >= 0)
        state = state * (gsize) (oracle->problem->stock[k].limit + 1) + (gsize) bars[k];
    }
  return state;
}

/* Fills @room with pieces from entry @i on in every way. */
static gint64
fill_every_way (Oracle *oracle,
                int    *left,
                int    *bars,
                guint   i,
                gint64  room)
{
  gint64 width, best;

  if (i == oracle->problem->n_demand)
    return least_cost (oracle, left, bars);
  width = oracle->problem->demand[i].length_mm + oracle->problem->kerf_mm;
  best = fill_every_way (oracle, left, bars, i + 1, room);
  if (left[i] > 0 && width <= room)
    {
      left[i]--;
      best = MIN (best, fill_every_way (oracle, left, bars, i, room - width));
      left[i]++;
    }
  return best;
}

static gint64
least_cost (Oracle *oracle,
            int    *left,
            int    *bars)
{
  const RodCutProblem *problem = oracle->problem;
  gint64              *known = &oracle->memory[get_state (oracle, left, bars)];
  guint                first = 0;
  gint64               best = IMPOSSIBLE;

  if (*known >= 0)
    return *known;
  while (first < problem->n_demand && left[first] == 0)
    first++;
  if (first == problem->n_demand)
    return *known = 0;

  left[first]--;
  for (guint k = 0; k < problem->n_stock; k++)
    {
      gint64 room = problem->stock[k].length_mm - 2 * problem->trim_mm -
                    problem->demand[first].length_mm;

      if (room < 0 || bars[k] == 0)
        continue;
      bars[k]--;
      best = MIN (best, problem->stock[k].price + fill_every_way (oracle, left, bars, first, room));
      bars[k]++;
    }
  left[first]++;
  return *known = best;
}

static gint64
ask_oracle (const RodCutProblem *problem)
{
  g_autofree int *left = g_new (int, problem->n_demand);
  g_autofree int *bars = g_new (int, problem->n_stock);
  Oracle          oracle = { problem, NULL };
  gsize           n_states = 1;
  gint64          cost;

  for (guint i = 0; i < problem->n_demand; i++)
    {
      left[i] = problem->demand[i].count;
      n_states *= (gsize) left[i] + 1;
    }
  for (guint k = 0; k < problem->n_stock; k++)
    {
      /* Bars without limit only have to be more than there are pieces. */
      bars[k] = problem->stock[k].limit >= 0 ? problem->stock[k].limit : 1000;
      if (problem->stock[k].limit >= 0)
        n_states *= (gsize) bars[k] + 1;
    }
  oracle.memory = g_new (gint64, n_states);
  for (gsize i = 0; i < n_states; i++)
    oracle.memory[i] = -1;
  cost = least_cost (&oracle, left, bars);
  g_free (oracle.memory);
  return cost;
}

static void
test_oracle_one_length (void)
{
  for (int round = 0; round < 300; round++)
    {
      Job job;
      g_autoptr (RodCutPlan) plan = NULL;

      make_job (&job, 1, (guint) g_test_rand_int_range (1, 6), 3);
      plan = plan_problem (&job.problem);
      g_assert_cmpint (plan->cost, ==, ask_oracle (&job.problem));
    }
}

/* With several prices and limits not every plan need be the best, but what is claimed has to be
 * true, and nearly all of problems this small are solved. */
static void
test_oracle_several_lengths (void)
{
  const int n_rounds = 300;
  int       n_best = 0;

  for (int round = 0; round < n_rounds; round++)
    {
      Job job;
      g_autoptr (RodCutPlan) plan = NULL;
      gint64 least;

      make_job (&job, 3, (guint) g_test_rand_int_range (1, 6), 3);
      plan = plan_problem (&job.problem);
      least = ask_oracle (&job.problem);
      g_assert_cmpint (plan->cost, >=, least);
      g_assert_cmpint (plan->bound, <=, least);
      n_best += plan->cost == least;
    }
  g_test_message ("%d of %d plans are the best", n_best, n_rounds);
  g_assert_cmpint (n_best, >=, n_rounds * 9 / 10);
}

/* All stock limited: the plan is right, or the stock really does not suffice. */
static void
test_oracle_short_of_stock (void)
{
  int n_refused = 0;

  for (int round = 0; round < 200; round++)
    {
      Job job;
      g_autoptr (GError) error = NULL;
      g_autoptr (RodCutPlan) plan = NULL;
      gint64 least;

      make_job (&job, 2, (guint) g_test_rand_int_range (1, 5), 3);
      for (guint k = 0; k < job.problem.n_stock; k++)
        job.stock[k].limit = g_test_rand_int_range (1, 4);
      plan = rod_cut_plan_new (&job.problem, &error);
      least = ask_oracle (&job.problem);
      if (least < IMPOSSIBLE)
        {
          g_assert_no_error (error);
          assert_plan_holds (&job.problem, plan);
          g_assert_cmpint (plan->bound, <=, least);
        }
      else
        {
          g_assert_error (error, ROD_CUT_ERROR, ROD_CUT_ERROR_SHORT_OF_STOCK);
          n_refused++;
        }
    }
  g_assert_cmpint (n_refused, >, 10);
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
  g_test_add_func ("/cut-plan/never-beaten-by-first-fit", test_never_beaten_by_first_fit);
  g_test_add_func ("/cut-plan/same-twice", test_same_twice);
  g_test_add_func ("/cut-plan/order-irrelevant", test_order_irrelevant);
  g_test_add_func ("/cut-plan/threads", test_threads);
  g_test_add_func ("/cut-plan/oracle/one-length", test_oracle_one_length);
  g_test_add_func ("/cut-plan/oracle/several-lengths", test_oracle_several_lengths);
  g_test_add_func ("/cut-plan/oracle/short-of-stock", test_oracle_short_of_stock);

  return g_test_run ();
}
