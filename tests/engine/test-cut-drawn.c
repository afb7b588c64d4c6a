/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cutting plans for random problems: what holds for all of them, and an exact oracle for small
 * ones. */

#include "engine/takeoff/rod-cut-plan.h"

#include "support/drawn-cutting.h"

/* Bars without limit are more than there are pieces in the oracle's problems. */
#define PLENTY 1000

/* Long after a hard job has begun and long before it ends. */
#define CANCEL_AFTER_US 20000

static void
draw (DrawnCutting *job,
      guint         n_stock,
      guint         n_demand,
      int           most)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed ((guint32) g_test_rand_int ());

  drawn_cutting_draw (job, rand, n_stock, n_demand, most);
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
test_never_beaten_by_first_fit (void)
{
  for (int round = 0; round < 60; round++)
    {
      DrawnCutting job;
      guint        n_stock = (guint) g_test_rand_int_range (1, 4);
      guint        n_demand = (guint) g_test_rand_int_range (1, 61);
      gint64       habit;
      g_autoptr (RodCutPlan) plan = NULL;

      draw (&job, n_stock, n_demand, 12);
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
  for (int round = 0; round < 10; round++)
    {
      DrawnCutting job;
      g_autoptr (RodCutPlan) one = NULL;
      g_autoptr (RodCutPlan) other = NULL;

      draw (&job, 3, 40, 6);
      one = plan_problem (&job.problem);
      other = plan_problem (&job.problem);
      assert_same_plan (one, other);
    }
}

/* Neither the order of demand nor splitting an entry in two changes cost or bound. */
static void
test_order_irrelevant (void)
{
  for (int round = 0; round < 10; round++)
    {
      DrawnCutting job;
      g_autoptr (RodCutPlan) one = NULL;
      g_autoptr (RodCutPlan) other = NULL;

      draw (&job, 2, 30, 6);
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
  DrawnCutting job;
  g_autoptr (RodCutPlan) alone = NULL;
  GThread *threads[4];

  draw (&job, 3, 50, 6);
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
      bars[k] = problem->stock[k].limit >= 0 ? problem->stock[k].limit : PLENTY;
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
      DrawnCutting job;
      g_autoptr (RodCutPlan) plan = NULL;

      draw (&job, 1, (guint) g_test_rand_int_range (1, 6), 3);
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
      DrawnCutting job;
      g_autoptr (RodCutPlan) plan = NULL;
      gint64 least;

      draw (&job, 3, (guint) g_test_rand_int_range (1, 6), 3);
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
      DrawnCutting job;
      g_autoptr (GError) error = NULL;
      g_autoptr (RodCutPlan) plan = NULL;
      gint64 least;

      draw (&job, 2, (guint) g_test_rand_int_range (1, 5), 3);
      for (guint k = 0; k < job.problem.n_stock; k++)
        job.stock[k].limit = g_test_rand_int_range (1, 4);
      plan = rod_cut_plan_new (&job.problem, NULL, &error);
      least = ask_oracle (&job.problem);
      if (least < IMPOSSIBLE)
        {
          g_assert_no_error (error);
          drawn_cutting_assert_plan (&job.problem, plan);
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

static gpointer
cancel_in_a_while (gpointer cancellable)
{
  g_usleep (CANCEL_AFTER_US);
  g_cancellable_cancel (cancellable);
  return NULL;
}

/* How long a job takes from when it is called off; all of it where nobody does. */
static gint64
time_job_us (const RodCutProblem *problem,
             GCancellable        *cancellable)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RodCutPlan) plan = NULL;
  GThread *thread = NULL;
  gint64   from_us = g_get_monotonic_time ();

  if (cancellable != NULL)
    thread = g_thread_new ("cancel", cancel_in_a_while, cancellable);
  plan = rod_cut_plan_new (problem, cancellable, &error);
  if (thread == NULL)
    {
      g_assert_no_error (error);
      return g_get_monotonic_time () - from_us;
    }
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
  g_assert_null (plan);
  g_thread_join (thread);
  return g_get_monotonic_time () - from_us - CANCEL_AFTER_US;
}

/* Jobs that take a second end soon when another thread calls them off: the loops of the search
 * look. Both times are taken in the same run, so that the machine's speed does not matter. */
static void
test_cancelled (void)
{
  static const struct
  {
    guint32 seed;
    guint   n_demand;
  } hard[] = { { 0, 40 }, { 8, 90 } };

  for (guint i = 0; i < G_N_ELEMENTS (hard); i++)
    {
      DrawnCutting job;
      g_autoptr (GRand) rand = g_rand_new_with_seed (hard[i].seed);
      g_autoptr (GCancellable) cancellable = g_cancellable_new ();
      gint64 whole_us, called_off_us;

      drawn_cutting_draw (&job, rand, 3, hard[i].n_demand, 3);
      whole_us = time_job_us (&job.problem, NULL);
      called_off_us = time_job_us (&job.problem, cancellable);
      g_test_message ("%.3f s, called off in %.3f s", whole_us / 1e6, called_off_us / 1e6);
      g_assert_cmpint (called_off_us, <, whole_us / 4);
    }
}

/* Who calls it off beforehand gets no plan, however easy. */
static void
test_cancelled_before (void)
{
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (GError) error = NULL;
  RodCutStock   stock = { 6000, 1, -1 };
  RodCutDemand  demand = { 3000, 1 };
  RodCutProblem problem = { &stock, 1, &demand, 1, 4, 0 };

  g_cancellable_cancel (cancellable);
  g_assert_null (rod_cut_plan_new (&problem, cancellable, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_CANCELLED);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/cut-drawn/never-beaten-by-first-fit", test_never_beaten_by_first_fit);
  g_test_add_func ("/cut-drawn/same-twice", test_same_twice);
  g_test_add_func ("/cut-drawn/order-irrelevant", test_order_irrelevant);
  g_test_add_func ("/cut-drawn/threads", test_threads);
  g_test_add_func ("/cut-drawn/oracle/one-length", test_oracle_one_length);
  g_test_add_func ("/cut-drawn/oracle/several-lengths", test_oracle_several_lengths);
  g_test_add_func ("/cut-drawn/oracle/short-of-stock", test_oracle_short_of_stock);
  g_test_add_func ("/cut-drawn/cancelled", test_cancelled);
  g_test_add_func ("/cut-drawn/cancelled-before", test_cancelled_before);

  return g_test_run ();
}
