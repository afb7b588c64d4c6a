/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Parts of the cutting solver against their definitions: the knapsack against trying everything,
 * first-fit by groups against first-fit piece by piece, bounds by hand, mixes against a plain
 * loop. */

#include "engine/takeoff/rod-cut-bound.h"
#include "engine/takeoff/rod-cut-first-fit.h"
#include "engine/takeoff/rod-cut-mix-list.h"
#include "engine/takeoff/rod-cut-pricing.h"

#define MAX_SIZES 8

static RodCutJob *
make_job (const RodCutStock  *stock,
          guint               n_stock,
          const RodCutDemand *demand,
          guint               n_demand,
          gint64              kerf_mm)
{
  RodCutProblem problem = { stock, n_stock, demand, n_demand, kerf_mm, 0 };
  g_autoptr (GError) error = NULL;
  RodCutJob *job = rod_cut_job_new (&problem, &error);

  g_assert_no_error (error);
  return job;
}

static RodCutJob *
make_random_job (int bar_mm,
                 int most)
{
  RodCutStock  stock[] = { { bar_mm, 60, -1 }, { bar_mm * 2 / 3, 41, -1 } };
  RodCutDemand demand[MAX_SIZES];
  guint        n_demand = (guint) g_test_rand_int_range (1, MAX_SIZES + 1);

  for (guint i = 0; i < n_demand; i++)
    {
      demand[i].length_mm = g_test_rand_int_range (bar_mm / 10 + 1, bar_mm);
      demand[i].count = g_test_rand_int_range (1, most + 1);
    }
  return make_job (stock, G_N_ELEMENTS (stock), demand, n_demand, g_test_rand_int_range (0, 5));
}

/* The greatest worth of sizes from @i on in @room, by trying every count. */
static gint64
try_everything (const RodCutJob *job,
                const int       *counts,
                const gint32    *worth,
                guint            i,
                int              room)
{
  gint64 best = 0;

  if (i == job->n_sizes)
    return 0;
  for (int n = 0; n <= counts[i] && n * job->sizes[i].width <= room; n++)
    {
      int    left = room - n * job->sizes[i].width;
      gint64 others = try_everything (job, counts, worth, i + 1, left);

      best = MAX (best, (gint64) n * worth[i] + others);
    }
  return best;
}

static void
assert_pattern_fits (const RodCutJob     *job,
                     const int           *counts,
                     const RodCutPattern *pattern)
{
  int width = 0;

  for (guint i = 0; i < pattern->n_parts; i++)
    {
      const RodCutPart *part = &pattern->parts[i];

      g_assert_cmpint (part->count, >=, 1);
      g_assert_cmpint (part->count, <=, counts[part->size]);
      width += part->count * job->sizes[part->size].width;
      if (i > 0)
        g_assert_cmpuint (part->size, >, part[-1].size);
    }
  g_assert_cmpint (width, <=, job->sources[pattern->source].width);
}

static gint64
get_worth (const RodCutPattern *pattern,
           const gint32        *worth)
{
  gint64 sum = 0;

  for (guint i = 0; i < pattern->n_parts; i++)
    sum += (gint64) pattern->parts[i].count * worth[pattern->parts[i].size];
  return sum;
}

static void
test_pricing (void)
{
  for (int round = 0; round < 300; round++)
    {
      g_autoptr (RodCutJob) job = make_random_job (g_test_rand_int_range (30, 3000), 20);
      g_autoptr (RodCutPricing) pricing = rod_cut_pricing_new (job);
      g_autoptr (GPtrArray) patterns = NULL;
      double prices[] = { 1, 1, 1 };
      gint32 worth[MAX_SIZES];
      int    counts[MAX_SIZES];
      gint64 best = 0;
      gint64 before = 0;

      for (guint i = 0; i < job->n_sizes; i++)
        {
          worth[i] = g_test_rand_int_range (0, 1000) * job->sizes[i].width / 10;
          counts[i] = g_test_rand_int_range (0, job->sizes[i].count + 1);
        }
      rod_cut_pricing_run (pricing, counts, worth);
      for (guint k = 0; k < job->n_sources; k++)
        {
          gint64 most = try_everything (job, counts, worth, 0, job->sources[k].width);

          g_assert_cmpint (rod_cut_pricing_get_most (pricing)[k], ==, most);
          best = MAX (best, most);
        }

      /* At equal prices the first pattern is the best there is. */
      patterns = rod_cut_pricing_list_patterns (pricing, prices, 25);
      g_assert_true ((patterns->len > 0) == (best > 0));
      for (guint i = 0; i < patterns->len; i++)
        {
          gint64 one = get_worth (patterns->pdata[i], worth);

          assert_pattern_fits (job, counts, patterns->pdata[i]);
          g_assert_true (i == 0 ? one == best : one <= before);
          before = one;
        }
    }
}

/* The largest worths allowed do not overflow. */
static void
test_pricing_largest (void)
{
  const RodCutStock  stock = { 100000, 1, -1 };
  const RodCutDemand demand = { 1, 100000 };
  g_autoptr (RodCutJob) job = make_job (&stock, 1, &demand, 1, 0);
  g_autoptr (RodCutPricing) pricing = rod_cut_pricing_new (job);
  int    counts[] = { 100000 };
  gint32 worth[] = { ROD_CUT_MOST_WORTH / 100000 };

  rod_cut_pricing_run (pricing, counts, worth);
  g_assert_cmpint (rod_cut_pricing_get_most (pricing)[0], ==, worth[0] * 100000);
}

/* First-fit or best-fit decreasing piece by piece in bars of one width, as they are defined. */
static int
fit_one_by_one (const RodCutJob *job,
                int              width,
                gboolean         best_fit)
{
  g_autoptr (GArray) rooms = g_array_new (FALSE, FALSE, sizeof (int));

  for (guint i = 0; i < job->n_sizes; i++)
    {
      for (int n = job->sizes[i].count; n > 0; n--)
        {
          guint chosen = rooms->len;

          for (guint bar = 0; bar < rooms->len; bar++)
            {
              int room = g_array_index (rooms, int, bar);

              if (room >= job->sizes[i].width &&
                  (chosen == rooms->len ||
                   (best_fit && room < g_array_index (rooms, int, chosen))))
                chosen = bar;
            }
          if (chosen == rooms->len)
            g_array_append_val (rooms, width);
          g_array_index (rooms, int, chosen) -= job->sizes[i].width;
        }
    }
  return (int) rooms->len;
}

/* With one source the scheme has as many bars as the better of the two rules. */
static void
test_first_fit (void)
{
  for (int round = 0; round < 300; round++)
    {
      RodCutStock  stock = { 1000, 1, -1 };
      RodCutDemand demand[MAX_SIZES];
      g_autoptr (RodCutJob) job = NULL;
      g_autoptr (RodCutRest) rest = NULL;
      g_autoptr (RodCutScheme) scheme = NULL;
      int first_fit, best_fit;

      for (guint i = 0; i < MAX_SIZES; i++)
        {
          demand[i].length_mm = g_test_rand_int_range (50, 700);
          demand[i].count = g_test_rand_int_range (1, 30);
        }
      job = make_job (&stock, 1, demand, MAX_SIZES, g_test_rand_int_range (0, 5));
      rest = rod_cut_rest_new (job);
      scheme = rod_cut_first_fit (job, rest, 1);
      first_fit = fit_one_by_one (job, job->widest, FALSE);
      best_fit = fit_one_by_one (job, job->widest, TRUE);
      g_assert_cmpint (scheme->cost, ==, MIN (first_fit, best_fit));
      for (guint i = 0; i < scheme->uses->len; i++)
        {
          const RodCutUse *use = &g_array_index (scheme->uses, RodCutUse, i);

          rod_cut_rest_take (rest, use->pattern, use->count);
        }
      g_assert_cmpint (rest->n_pieces, ==, 0);
    }
}

/* By hand: bars of 10 at price 5, pieces 6 × 4, 4 × 3. Lengths: 36 of 10, so 3.6 bars, 18 and up to
 * 20. With a 4 worth 3 and a 3 worth 2 a bar holds at most 4 + 3 + 3 or 4 + 4, worth 7: 26 / 7 of
 * 5 is 18.6, up to 20 as well. Were a bar to hold no more than 6: 26 / 6 × 5 = 21.7, up to 25. */
static void
test_bound (void)
{
  const RodCutStock  stock = { 10, 5, -1 };
  const RodCutDemand demand[] = { { 4, 6 }, { 3, 4 } };
  g_autoptr (RodCutJob) job = make_job (&stock, 1, demand, 2, 0);
  g_autoptr (RodCutRest) rest = rod_cut_rest_new (job);
  gint32 worth[] = { 3, 2 };
  gint32 most[] = { 7 };

  g_assert_cmpint (rod_cut_bound_of_lengths (job, rest), ==, 20);
  g_assert_cmpint (rod_cut_bound (job, rest, worth, most), ==, 20);
  most[0] = 6;
  g_assert_cmpint (rod_cut_bound (job, rest, worth, most), ==, 25);
}

/* By hand: two bars of 10 at 1, others of 10 at 4; pieces 5 × 10. Two cheap and three dear bars:
 * 14. A piece worth 4 says so: 5 × 4 − 2 × (4 − 1). The bars nobody has change nothing. */
static void
test_bound_of_limits (void)
{
  const RodCutStock  stock[] = { { 10, 1, 2 }, { 10, 4, -1 } };
  const RodCutDemand demand = { 10, 5 };
  g_autoptr (RodCutJob) job = make_job (stock, 2, &demand, 1, 0);
  g_autoptr (RodCutRest) rest = rod_cut_rest_new (job);

  g_assert_cmpint (rod_cut_bound_of_lengths (job, rest), ==, 14);
}

/* All mixes with one need, that of lengths, found by two plain loops. */
static void
test_mix_list (void)
{
  for (int round = 0; round < 50; round++)
    {
      const RodCutStock  stock[] = { { 60, g_test_rand_int_range (50, 70), -1 },
                                     { 40, g_test_rand_int_range (30, 49), 7 } };
      const RodCutDemand demand = { 19, g_test_rand_int_range (10, 30) };
      g_autoptr (RodCutJob) job = make_job (stock, 2, &demand, 1, 1);
      g_autoptr (RodCutMixList) list = rod_cut_mix_list_new (job);
      gint64 from = g_test_rand_int_range (0, 300);
      gint64 below = from + g_test_rand_int_range (1, 300);
      gint64 end;
      guint  n_mixes = 0;

      g_assert_true (rod_cut_mix_list_fill (list, from, below, &end));
      g_assert_cmpint (end, ==, below);

      /* Widths after the kerf, by units of 20: a piece 1, the bars 3 and 2. */
      for (int n = 0; n <= demand.count; n++)
        {
          for (int m = 0; m <= 7; m++)
            {
              gint64 cost = n * stock[0].price + m * stock[1].price;

              n_mixes += cost >= from && cost < below && 3 * n + 2 * m >= demand.count;
            }
        }
      g_assert_cmpuint (rod_cut_mix_list_get_n_mixes (list), ==, n_mixes);
      for (guint i = 0; i < n_mixes; i++)
        {
          const RodCutMix *mix = rod_cut_mix_list_get_mix (list, i);
          gint64           cost = mix->bars[0] * stock[0].price + mix->bars[1] * stock[1].price;

          g_assert_cmpint (mix->cost, ==, cost);
          if (i > 0)
            g_assert_cmpint (mix->cost, >=, rod_cut_mix_list_get_mix (list, i - 1)->cost);
        }
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/cut-solver/pricing", test_pricing);
  g_test_add_func ("/cut-solver/pricing-largest", test_pricing_largest);
  g_test_add_func ("/cut-solver/first-fit", test_first_fit);
  g_test_add_func ("/cut-solver/bound", test_bound);
  g_test_add_func ("/cut-solver/bound-of-limits", test_bound_of_limits);
  g_test_add_func ("/cut-solver/mix-list", test_mix_list);

  return g_test_run ();
}
