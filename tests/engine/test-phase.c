/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The search for the best phase, against brute force at a tenth of a millimetre and against what
 * arithmetic promises (rules R4, R5, R8 and R9 in docs/rules.md). */

#include "engine/rod-limits.h"
#include "engine/setout/rod-phase.h"

#include <math.h>

#define N_PROBLEMS 600
#define STEP_MM 0.1
#define MAX_LEVELS 12
#define MAX_STARTERS 3

/* A problem with room for its lists. */
typedef struct
{
  RodPhaseProblem problem;
  RodLevel        levels[MAX_LEVELS];
  RodStarterArc   starters[MAX_STARTERS];
} Drawn;

/* Places on every second line of the brute force's raster, so that it hits them, and half way
 * between two of them. */
static double
draw_place (double from_mm,
            double to_mm)
{
  return round (g_test_rand_double_range (from_mm, to_mm) / (2.0 * STEP_MM)) * 2.0 * STEP_MM;
}

static RodLevel
draw_level (gboolean facing,
            gboolean ratio)
{
  static const double ratios[] = { 1.0, 1.0, G_SQRT2, 0.5, 0.8, 2.0 };

  return (RodLevel){
    .at_mm = draw_place (-4000.0, 9000.0),
    .upper = g_test_rand_bit (),
    .facing_mm = facing && g_test_rand_int_range (0, 3) == 0 ? draw_place (5.0, 700.0) : INFINITY,
    .ratio = ratio ? ratios[g_test_rand_int_range (0, G_N_ELEMENTS (ratios))] : 1.0,
  };
}

static void
draw_problem (Drawn   *drawn,
              guint    n_levels,
              guint    n_starters,
              gboolean ratio)
{
  static const double pitches[] = { 100.0, 135.0, 180.0, 200.0, 250.0, 400.0 };
  double              pitch_mm = pitches[g_test_rand_int_range (0, G_N_ELEMENTS (pitches))];

  drawn->problem = (RodPhaseProblem){
    .pitch_mm = pitch_mm,
    .min_rip_mm = draw_place (20.0, pitch_mm / 2.0),
    .levels = drawn->levels,
    .n_levels = n_levels,
    .starters = drawn->starters,
    .n_starters = n_starters,
  };
  for (guint i = 0; i < n_levels; i++)
    drawn->levels[i] = draw_level (TRUE, ratio);
  for (guint i = 0; i < n_starters; i++)
    {
      RodStarterArc *arc = &drawn->starters[i];

      arc->without = draw_level (FALSE, ratio);
      arc->low_mm = arc->without.at_mm + draw_place (-100.0, 100.0);
      arc->high_mm = arc->low_mm + (g_test_rand_bit () ? draw_place (0.0, 60.0) : 0.0);
    }
}

static void
explain (const RodPhaseProblem *problem,
         double                 phase_mm)
{
  g_test_message ("pitch %.1f least %.1f, beaten at %.4f",
                  problem->pitch_mm,
                  problem->min_rip_mm,
                  phase_mm);
  for (guint i = 0; i < problem->n_levels; i++)
    g_test_message ("level %.2f upper %d facing %.1f ratio %.4f",
                    problem->levels[i].at_mm,
                    problem->levels[i].upper,
                    problem->levels[i].facing_mm,
                    problem->levels[i].ratio);
  for (guint i = 0; i < problem->n_starters; i++)
    g_test_message ("starter %.2f to %.2f",
                    problem->starters[i].low_mm,
                    problem->starters[i].high_mm);
}

static void
assert_never_beaten (const RodPhaseProblem *problem)
{
  double        best_mm = rod_phase_best (problem);
  RodPhaseScore best = rod_phase_score (problem, best_mm);
  int           steps = (int) ceil (problem->pitch_mm / STEP_MM);

  g_assert_cmpfloat (best_mm, >=, 0.0);
  g_assert_cmpfloat (best_mm, <, problem->pitch_mm);
  for (int s = 0; s < steps; s++)
    {
      RodPhaseScore score = rod_phase_score (problem, s * STEP_MM);

      if (rod_phase_compare (&score, &best) >= 0)
        continue;
      explain (problem, s * STEP_MM);
      g_assert_cmpint (score.lost_starters, >=, best.lost_starters);
      g_assert_cmpint (score.slivers, >=, best.slivers);
      g_assert_cmpfloat (score.narrowest_mm, <=, best.narrowest_mm);
      g_assert_cmpint (score.rips, >=, best.rips);
      g_assert_cmpint (score.lost_hooks, >=, best.lost_hooks);
    }
}

static void
test_never_beaten (void)
{
  for (int n = 0; n < N_PROBLEMS; n++)
    {
      Drawn drawn;

      draw_problem (&drawn,
                    (guint) g_test_rand_int_range (0, MAX_LEVELS + 1),
                    (guint) g_test_rand_int_range (0, MAX_STARTERS + 1),
                    FALSE);
      assert_never_beaten (&drawn.problem);
    }
}

/* Fields whose boards repeat at another distance in the group's measure: soffits at a turned
 * mitre. */
static void
test_never_beaten_with_ratios (void)
{
  for (int n = 0; n < N_PROBLEMS; n++)
    {
      Drawn drawn;

      draw_problem (&drawn, (guint) g_test_rand_int_range (1, MAX_LEVELS + 1), 1, TRUE);
      assert_never_beaten (&drawn.problem);
    }
}

/* One strip grows twice as fast as the other shrinks: below 100, cover 100, the strip is 100 − t;
 * above 0 on a field with half the ratio it is t/2. Equal at t = 200/3, both 33.3. */
static void
test_strips_that_grow_unequally (void)
{
  const RodLevel levels[] = {
    { .at_mm = 100.0, .upper = TRUE, .facing_mm = INFINITY, .ratio = 1.0 },
    { .at_mm = 0.0, .upper = FALSE, .facing_mm = INFINITY, .ratio = 0.5 },
    /* A sliver at phase 0, where nothing else would be ripped. */
    { .at_mm = 5.0, .upper = TRUE, .facing_mm = INFINITY, .ratio = 1.0 },
  };
  const RodPhaseProblem problem = { 100.0, 10.0, levels, G_N_ELEMENTS (levels), NULL, 0 };
  RodPhaseScore         score = rod_phase_score (&problem, rod_phase_best (&problem));

  /* Above 5 the third strip is whole again and shrinks as 105 − t, never the least. */
  g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 200.0 / 3.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (score.narrowest_mm, 100.0 / 3.0, 1e-6);
}

/* Rule R5: if m lines each forbid an arc of width w and m·w < c, a phase without slivers exists. */
static void
test_few_lines_never_leave_slivers (void)
{
  for (int n = 0; n < N_PROBLEMS; n++)
    {
      Drawn         drawn;
      RodPhaseScore score;
      guint         m;

      draw_problem (&drawn, MAX_LEVELS, 0, FALSE);
      for (guint i = 0; i < MAX_LEVELS; i++)
        drawn.levels[i].facing_mm = INFINITY;
      m = (guint) ceil (drawn.problem.pitch_mm / drawn.problem.min_rip_mm) - 1;
      drawn.problem.n_levels = MIN (m, MAX_LEVELS);
      g_assert_cmpfloat (m * drawn.problem.min_rip_mm, <, drawn.problem.pitch_mm);

      score = rod_phase_score (&drawn.problem, rod_phase_best (&drawn.problem));
      g_assert_cmpint (score.slivers, ==, 0);
      g_assert_cmpfloat (score.narrowest_mm, >=, drawn.problem.min_rip_mm - ROD_EPSILON_MM);
    }
}

/* The other way round: lines c/m apart, all of one kind, forbid everything as soon as w > c/m. */
static void
test_evenly_spread_lines_leave_slivers (void)
{
  RodLevel        levels[5];
  RodPhaseProblem problem = { .pitch_mm = 250.0, .levels = levels, .n_levels = 5 };
  RodPhaseScore   score;

  for (int i = 0; i < 5; i++)
    levels[i] = (RodLevel){ .at_mm = 50.0 * i, .upper = TRUE, .facing_mm = INFINITY, .ratio = 1.0 };

  /* On a line the strip there is whole and the next ones are 50, 100, 150 and 200. */
  problem.min_rip_mm = 50.0;
  score = rod_phase_score (&problem, rod_phase_best (&problem));
  g_assert_cmpint (score.slivers, ==, 0);
  g_assert_cmpfloat_with_epsilon (score.narrowest_mm, 50.0, 1e-6);

  problem.min_rip_mm = 50.5;
  score = rod_phase_score (&problem, rod_phase_best (&problem));
  g_assert_cmpint (score.slivers, ==, 1);
}

/* Rule R9: boards between two ends. A joint on the axis leaves (W/2) mod c, a board on the axis
 * ((W − c)/2) mod c; the better of the two is never under c/2, and the search takes it. */
static void
test_balance_leaves_half_a_board (void)
{
  for (int n = 0; n < N_PROBLEMS; n++)
    {
      double         pitch_mm = draw_place (90.0, 400.0);
      double         width_mm = draw_place (pitch_mm / 2.0, 14000.0);
      double         at_mm = draw_place (-3000.0, 3000.0);
      const RodLevel levels[] = {
        { .at_mm = at_mm, .upper = FALSE, .facing_mm = width_mm, .ratio = 1.0 },
        { .at_mm = at_mm + width_mm, .upper = TRUE, .facing_mm = width_mm, .ratio = 1.0 },
      };
      const RodPhaseProblem problem = { pitch_mm, 20.0, levels, G_N_ELEMENTS (levels), NULL, 0 };
      double                joint_mm = fmod (width_mm / 2.0, pitch_mm);
      double                board_mm = fmod (MAX (width_mm - pitch_mm, 0.0) / 2.0, pitch_mm);
      RodPhaseScore         score = rod_phase_score (&problem, rod_phase_best (&problem));

      g_assert_cmpfloat (score.narrowest_mm, >=, pitch_mm / 2.0 - ROD_EPSILON_MM);
      if (width_mm >= pitch_mm)
        g_assert_cmpfloat (score.narrowest_mm, >=, MAX (joint_mm, board_mm) - ROD_EPSILON_MM);
    }
}

/* W = 5216, c = 200 of the upright job: 2608 mod 200 = 8 or 2508 mod 200 = 108. W = 5080: 140 or
 * 40. */
static void
test_balance_of_worked_jobs (void)
{
  static const struct
  {
    double width_mm;
    double end_mm;
  } jobs[] = { { 5216.0, 108.0 }, { 7280.0, 140.0 }, { 5080.0, 140.0 } };

  for (guint i = 0; i < G_N_ELEMENTS (jobs); i++)
    {
      const RodLevel levels[] = {
        { .at_mm = 7.0, .upper = FALSE, .facing_mm = INFINITY, .ratio = 1.0 },
        { .at_mm = 7.0 + jobs[i].width_mm, .upper = TRUE, .facing_mm = INFINITY, .ratio = 1.0 },
      };
      const RodPhaseProblem problem = { 200.0, 60.0, levels, G_N_ELEMENTS (levels), NULL, 0 };
      RodPhaseScore         score = rod_phase_score (&problem, rod_phase_best (&problem));

      g_assert_cmpfloat_with_epsilon (score.narrowest_mm, jobs[i].end_mm, 1e-9);
      g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 7.0 + jobs[i].end_mm, 1e-9);
      g_assert_cmpint (score.rips, ==, 2);
      g_assert_cmpint (score.lost_hooks, ==, 1);
    }
}

/* Rules R4 and R8: below y the strip is (y − φ) mod c, above it (φ − y) mod c, a whole cover where
 * that is nothing. */
static void
test_strips (void)
{
  static const struct
  {
    double   at_mm;
    gboolean upper;
    double   facing_mm;
    double   phase_mm;
    double   narrowest_mm;
    int      rips;
    int      slivers;
  } cases[] = {
    { 893, TRUE, INFINITY, 0, 143, 1, 0 },    /* 893 − 3·250 */
    { 2207, FALSE, INFINITY, 0, 43, 1, 1 },   /* 9·250 − 2207 */
    { 2207, FALSE, INFINITY, 50, 93, 1, 0 },  /* 9·250 + 50 − 2207 */
    { -110, TRUE, INFINITY, 0, 140, 1, 0 },   /* below the datum: 250 − 110 */
    { 750, TRUE, INFINITY, 0, 250, 0, 0 },    /* on a joint line: nothing ripped */
    { 750, FALSE, INFINITY, 250, 250, 0, 0 }, /* so above */
    { 300, TRUE, 40, 0, 40, 1, 1 },           /* boards 40 wide, no joint line between */
    { 300, TRUE, 70, 0, 50, 1, 1 },           /* a joint line 50 below cuts the 70 */
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const RodLevel        level = { cases[i].at_mm, cases[i].upper, cases[i].facing_mm, 1.0 };
      const RodPhaseProblem problem = { 250.0, 60.0, &level, 1, NULL, 0 };
      RodPhaseScore         score = rod_phase_score (&problem, cases[i].phase_mm);

      g_assert_cmpfloat_with_epsilon (score.narrowest_mm, cases[i].narrowest_mm, 1e-9);
      g_assert_cmpint (score.rips, ==, cases[i].rips);
      g_assert_cmpint (score.slivers, ==, cases[i].slivers);
      g_assert_cmpint (score.lost_hooks, ==, cases[i].upper ? 0 : cases[i].rips);
    }
}

/* Strips do not change when all lines move together, nor when the house is turned over. */
static void
test_shift_and_mirror (void)
{
  for (int n = 0; n < N_PROBLEMS; n++)
    {
      Drawn         drawn, other;
      RodPhaseScore here, there;
      double        shift_mm = draw_place (-3000.0, 3000.0);

      draw_problem (&drawn, (guint) g_test_rand_int_range (1, MAX_LEVELS), 2, FALSE);
      here = rod_phase_score (&drawn.problem, rod_phase_best (&drawn.problem));

      for (int turned = 0; turned < 2; turned++)
        {
          double sign = turned ? -1.0 : 1.0;

          other = drawn;
          other.problem.levels = other.levels;
          other.problem.starters = other.starters;
          for (guint i = 0; i < other.problem.n_levels; i++)
            {
              other.levels[i].at_mm = sign * drawn.levels[i].at_mm + shift_mm;
              other.levels[i].upper = drawn.levels[i].upper != turned;
            }
          for (guint i = 0; i < other.problem.n_starters; i++)
            {
              const RodStarterArc *arc = &drawn.starters[i];

              other.starters[i].low_mm = sign * (turned ? arc->high_mm : arc->low_mm) + shift_mm;
              other.starters[i].high_mm = sign * (turned ? arc->low_mm : arc->high_mm) + shift_mm;
              other.starters[i].without.at_mm = sign * arc->without.at_mm + shift_mm;
              other.starters[i].without.upper = arc->without.upper != turned;
            }
          there = rod_phase_score (&other.problem, rod_phase_best (&other.problem));
          g_assert_cmpint (there.lost_starters, ==, here.lost_starters);
          g_assert_cmpint (there.slivers, ==, here.slivers);
          g_assert_cmpfloat_with_epsilon (there.narrowest_mm, here.narrowest_mm, 1e-6);
          g_assert_cmpint (there.rips, ==, here.rips);
        }
    }
}

static RodStarterArc
starter (double low_mm,
         double high_mm,
         double without_mm)
{
  RodStarterArc arc = {
    .low_mm = low_mm,
    .high_mm = high_mm,
    .without = { .at_mm = without_mm, .facing_mm = INFINITY, .ratio = 1.0 },
  };

  return arc;
}

/* A starter that can be kept is kept, even if a sliver under a sill is the price. */
static void
test_starters_come_first (void)
{
  const RodLevel        sill = { 1010.0, TRUE, INFINITY, 1.0 };
  const RodStarterArc   arc = starter (0.0, 5.0, 5.0);
  const RodPhaseProblem problem = { 250.0, 60.0, &sill, 1, &arc, 1 };
  double                best_mm = rod_phase_best (&problem);
  RodPhaseScore         score = rod_phase_score (&problem, best_mm);

  /* 1010 − 4·250 − φ: 10 at φ = 0, less above. */
  g_assert_cmpfloat_with_epsilon (best_mm, 0.0, 1e-9);
  g_assert_cmpint (score.lost_starters, ==, 0);
  g_assert_cmpint (score.slivers, ==, 1);
  g_assert_cmpfloat_with_epsilon (score.narrowest_mm, 10.0, 1e-9);
}

/* The range is used to its ends: 143 − t under the sill and 43 + t over the window are equal at t
 * = 50; a range that stops at 40 gives 83, one from 60 on gives 83 the other way. */
static void
test_starters_range_limits (void)
{
  const RodLevel levels[] = {
    { .at_mm = 893.0, .upper = TRUE, .facing_mm = INFINITY, .ratio = 1.0 },
    { .at_mm = 2207.0, .upper = FALSE, .facing_mm = INFINITY, .ratio = 1.0 },
  };
  static const struct
  {
    double low_mm, high_mm, phase_mm, narrowest_mm;
  } cases[] = {
    { -40, 60, 50, 93 },
    { -40, 40, 40, 83 },
    { 60, 90, 60, 83 },
    { 20, 20, 20, 63 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const RodStarterArc   arc = starter (cases[i].low_mm, cases[i].high_mm, 5.0);
      const RodPhaseProblem problem = { 250.0, 60.0, levels, G_N_ELEMENTS (levels), &arc, 1 };
      double                best_mm = rod_phase_best (&problem);
      RodPhaseScore         score = rod_phase_score (&problem, best_mm);

      g_assert_cmpfloat_with_epsilon (best_mm, cases[i].phase_mm, 1e-9);
      g_assert_cmpfloat_with_epsilon (score.narrowest_mm, cases[i].narrowest_mm, 1e-9);
      g_assert_cmpint (score.lost_starters, ==, 0);
    }
}

/* Bases a hundred apart with starters that may move by 30: one of them is lost, and its first board
 * counts among the strips. Bases a whole cover apart lose none. */
static void
test_starters_that_cannot_agree (void)
{
  RodStarterArc   arcs[] = { starter (0.0, 30.0, 5.0), starter (100.0, 130.0, 105.0) };
  RodPhaseProblem problem = { 250.0, 60.0, NULL, 0, arcs, G_N_ELEMENTS (arcs) };
  RodPhaseScore   score = rod_phase_score (&problem, rod_phase_best (&problem));

  /* Joint lines at φ in [0, 30] leave φ + 250 − 105 of the other base's first board: best at 30,
   * where it is 175; at φ in [100, 130] the lost base keeps φ − 5: best at 130, 125. */
  g_assert_cmpint (score.lost_starters, ==, 1);
  g_assert_cmpint (score.rips, ==, 1);
  g_assert_cmpint (score.lost_hooks, ==, 1);
  g_assert_cmpfloat_with_epsilon (score.narrowest_mm, 175.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 30.0, 1e-9);

  arcs[1] = starter (500.0, 530.0, 505.0);
  score = rod_phase_score (&problem, rod_phase_best (&problem));
  g_assert_cmpint (score.lost_starters, ==, 0);
  g_assert_cmpint (score.rips, ==, 0);
}

/* A range of a whole cover or more always holds a joint line. */
static void
test_wide_range_is_never_lost (void)
{
  const RodStarterArc   arc = starter (-3.0, 247.0, 0.0);
  const RodPhaseProblem problem = { 250.0, 60.0, NULL, 0, &arc, 1 };

  for (double phase_mm = 0.0; phase_mm < 250.0; phase_mm += 0.7)
    g_assert_cmpint (rod_phase_score (&problem, phase_mm).lost_starters, ==, 0);
}

static void
test_nothing_to_set_out (void)
{
  const RodPhaseProblem problem = { .pitch_mm = 250.0, .min_rip_mm = 60.0 };

  g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_phase_score (&problem, 17.0).narrowest_mm, 250.0, 1e-9);
}

/* What matters more is compared first. */
static void
test_compare (void)
{
  static const RodPhaseScore ranked[] = {
    { 0, 0, 93.0, 1, 0 },
    { 0, 0, 93.0, 1, 1 },
    { 0, 0, 93.0, 2, 0 },
    { 0, 0, 92.0, 0, 0 },
    { 0, 1, 250.0, 0, 0 },
    { 1, 0, 250.0, 0, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (ranked); i++)
    for (guint k = 0; k < G_N_ELEMENTS (ranked); k++)
      {
        int order = rod_phase_compare (&ranked[i], &ranked[k]);

        g_assert_cmpint ((order > 0) - (order < 0), ==, (i > k) - (i < k));
      }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/phase/strips", test_strips);
  g_test_add_func ("/phase/compare", test_compare);
  g_test_add_func ("/phase/never-beaten", test_never_beaten);
  g_test_add_func ("/phase/never-beaten-with-ratios", test_never_beaten_with_ratios);
  g_test_add_func ("/phase/strips-that-grow-unequally", test_strips_that_grow_unequally);
  g_test_add_func ("/phase/few-lines-never-leave-slivers", test_few_lines_never_leave_slivers);
  g_test_add_func ("/phase/evenly-spread-lines-leave-slivers",
                   test_evenly_spread_lines_leave_slivers);
  g_test_add_func ("/phase/balance-leaves-half-a-board", test_balance_leaves_half_a_board);
  g_test_add_func ("/phase/balance-of-worked-jobs", test_balance_of_worked_jobs);
  g_test_add_func ("/phase/shift-and-mirror", test_shift_and_mirror);
  g_test_add_func ("/phase/starters-come-first", test_starters_come_first);
  g_test_add_func ("/phase/starters-range-limits", test_starters_range_limits);
  g_test_add_func ("/phase/starters-that-cannot-agree", test_starters_that_cannot_agree);
  g_test_add_func ("/phase/wide-range-is-never-lost", test_wide_range_is_never_lost);
  g_test_add_func ("/phase/nothing-to-set-out", test_nothing_to_set_out);

  return g_test_run ();
}
