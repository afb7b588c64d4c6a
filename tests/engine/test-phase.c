/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a phase is worth, against what arithmetic promises (rules R4 to R9, R17, R25 and R28 in
 * docs/rules.md). */

#include "engine/rod-limits.h"
#include "engine/setout/rod-phase.h"

#include <math.h>

#define N_PROBLEMS 600
#define MAX_LEVELS 12

static RodLevel
level (double   at_mm,
       gboolean upper,
       double   pitch_mm,
       double   least_mm)
{
  return (RodLevel){ .at_mm = at_mm,
                     .upper = upper,
                     .facing_mm = INFINITY,
                     .period_mm = pitch_mm,
                     .ratio = 1.0,
                     .least_mm = least_mm,
                     .ease = 1.0 };
}

/* Of the invented hollow board: cover 250, no strip under 60. */
static RodLevel
level_250 (double   at_mm,
           gboolean upper)
{
  return level (at_mm, upper, 250.0, 60.0);
}

static RodStarterArc
starter (double low_mm,
         double high_mm,
         double without_mm)
{
  RodStarterArc arc = {
    .low_mm = low_mm,
    .high_mm = high_mm,
    .without = level_250 (without_mm, FALSE),
  };

  return arc;
}

/* No tolerance, so that only what is said counts. */
static RodPhaseProblem
problem_of (double               pitch_mm,
            const RodLevel      *levels,
            guint                n_levels,
            const RodStarterArc *starters,
            guint                n_starters)
{
  RodPhaseProblem problem = { .pitch_mm = pitch_mm,
                              .levels = levels,
                              .n_levels = n_levels,
                              .starters = starters,
                              .n_starters = n_starters };

  rod_phase_order (problem.order, NULL);
  return problem;
}

/* Places on a raster of two tenths. */
static double
draw_place (double from_mm,
            double to_mm)
{
  return round (g_test_rand_double_range (from_mm, to_mm) / 0.2) * 0.2;
}

/* One strip grows twice as fast as the other shrinks: below 100, cover 100, the strip is 100 − t;
 * above 0 on a field with half the ratio it is t/2. Equal at t = 200/3, both 33.3. */
static void
test_strips_that_grow_unequally (void)
{
  const RodLevel levels[] = {
    level (100.0, TRUE, 100.0, 10.0),
    { .upper = FALSE,
      .facing_mm = INFINITY,
      .period_mm = 100.0,
      .ratio = 0.5,
      .least_mm = 10.0,
      .ease = 1.0 },
    /* A sliver at phase 0, where nothing else would be ripped. */
    level (5.0, TRUE, 100.0, 10.0),
  };
  const RodPhaseProblem problem = problem_of (100.0, levels, G_N_ELEMENTS (levels), NULL, 0);
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
      RodLevel        levels[MAX_LEVELS] = { 0 };
      double          pitch_mm = draw_place (100.0, 400.0);
      double          least_mm = draw_place (20.0, pitch_mm / 2.0);
      guint           m = MIN ((guint) ceil (pitch_mm / least_mm) - 1, MAX_LEVELS);
      RodPhaseProblem problem = problem_of (pitch_mm, levels, m, NULL, 0);
      RodPhaseScore   score;

      for (guint i = 0; i < m; i++)
        levels[i] =
          level (draw_place (-4000.0, 9000.0), g_test_rand_bit (), pitch_mm, least_mm);
      g_assert_cmpfloat (m * least_mm, <, pitch_mm);

      score = rod_phase_score (&problem, rod_phase_best (&problem));
      g_assert_cmpint (score.slivers, ==, 0);
      g_assert_cmpfloat (score.narrowest_mm, >=, least_mm - ROD_EPSILON_MM);
    }
}

/* The other way round: lines c/m apart, all of one kind, forbid everything as soon as w > c/m. */
static void
test_evenly_spread_lines_leave_slivers (void)
{
  RodLevel        levels[5] = { 0 };
  RodPhaseProblem problem = problem_of (250.0, levels, 5, NULL, 0);
  RodPhaseScore   score;

  for (int i = 0; i < 5; i++)
    levels[i] = level (50.0 * i, TRUE, 250.0, 50.0);

  /* On a line the strip there is whole and the next ones are 50, 100, 150 and 200. */
  score = rod_phase_score (&problem, rod_phase_best (&problem));
  g_assert_cmpint (score.slivers, ==, 0);
  g_assert_cmpfloat_with_epsilon (score.narrowest_mm, 50.0, 1e-6);

  for (int i = 0; i < 5; i++)
    levels[i].least_mm = 50.5;
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
      double                pitch_mm = draw_place (90.0, 400.0);
      double                width_mm = draw_place (pitch_mm / 2.0, 14000.0);
      double                at_mm = draw_place (-3000.0, 3000.0);
      RodLevel              levels[] = { level (at_mm, FALSE, pitch_mm, 20.0),
                                         level (at_mm + width_mm, TRUE, pitch_mm, 20.0) };
      const RodPhaseProblem problem =
        problem_of (pitch_mm, levels, G_N_ELEMENTS (levels), NULL, 0);
      double        joint_mm = fmod (width_mm / 2.0, pitch_mm);
      double        board_mm = fmod (MAX (width_mm - pitch_mm, 0.0) / 2.0, pitch_mm);
      RodPhaseScore score;

      levels[0].facing_mm = levels[1].facing_mm = width_mm;
      score = rod_phase_score (&problem, rod_phase_best (&problem));
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
        level (7.0, FALSE, 200.0, 60.0),
        level (7.0 + jobs[i].width_mm, TRUE, 200.0, 60.0),
      };
      const RodPhaseProblem problem = problem_of (200.0, levels, G_N_ELEMENTS (levels), NULL, 0);
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
      RodLevel              line = level_250 (cases[i].at_mm, cases[i].upper);
      const RodPhaseProblem problem = problem_of (250.0, &line, 1, NULL, 0);
      RodPhaseScore         score;

      line.facing_mm = cases[i].facing_mm;
      score = rod_phase_score (&problem, cases[i].phase_mm);
      g_assert_cmpfloat_with_epsilon (score.narrowest_mm, cases[i].narrowest_mm, 1e-9);
      g_assert_cmpint (score.rips, ==, cases[i].rips);
      g_assert_cmpint (score.slivers, ==, cases[i].slivers);
      g_assert_cmpint (score.lost_hooks, ==, cases[i].upper ? 0 : cases[i].rips);
    }
}

/* A starter that can be kept is kept, even if a sliver under a sill is the price. */
static void
test_starters_come_first (void)
{
  const RodLevel        sill = level_250 (1010.0, TRUE);
  const RodStarterArc   arc = starter (0.0, 5.0, 5.0);
  const RodPhaseProblem problem = problem_of (250.0, &sill, 1, &arc, 1);
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
  const RodLevel levels[] = { level_250 (893.0, TRUE), level_250 (2207.0, FALSE) };
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
      const RodPhaseProblem problem = problem_of (250.0, levels, G_N_ELEMENTS (levels), &arc, 1);
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
  RodPhaseProblem problem = problem_of (250.0, NULL, 0, arcs, G_N_ELEMENTS (arcs));
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
  const RodPhaseProblem problem = problem_of (250.0, NULL, 0, &arc, 1);

  for (double phase_mm = 0.0; phase_mm < 250.0; phase_mm += 0.7)
    g_assert_cmpint (rod_phase_score (&problem, phase_mm).lost_starters, ==, 0);
}

static void
test_nothing_to_set_out (void)
{
  const RodPhaseProblem problem = problem_of (250.0, NULL, 0, NULL, 0);

  g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_phase_score (&problem, 17.0).narrowest_mm, 250.0, 1e-9);
}

/* What matters more is compared first. */
static void
test_compare (void)
{
  static const RodPhaseScore ranked[] = {
    { .eased_mm = 93.0, .rips = 1 },
    { .eased_mm = 93.0, .rips = 1, .stock_mm = 5.0 },
    { .eased_mm = 93.0, .rips = 1, .lost_hooks = 1 },
    { .eased_mm = 93.0, .rips = 1, .asymmetry_mm = 2.0 },
    { .eased_mm = 93.0, .rips = 2 },
    { .eased_mm = 92.0 },
    { .eased_mm = 250.0, .risks = 1 },
    { .eased_mm = 250.0, .breaks = 1 },
    { .eased_mm = 250.0, .slivers = 1 },
    { .eased_mm = 250.0, .lost_starters = 1 },
  };
  RodAimKind order[ROD_N_AIMS];

  rod_phase_order (order, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (ranked); i++)
    for (guint k = 0; k < G_N_ELEMENTS (ranked); k++)
      {
        int compared = rod_phase_compare (order, &ranked[i], &ranked[k]);

        g_assert_cmpint ((compared > 0) - (compared < 0), ==, (i > k) - (i < k));
      }
}

/* The user's aims come first, each once; the rest follows as usual. */
static void
test_own_order (void)
{
  g_autoptr (GPtrArray) first = g_ptr_array_new_with_free_func (rod_record_unref);
  static const RodAimKind named[] = { ROD_AIM_RIPS, ROD_AIM_NARROWEST, ROD_AIM_RIPS };
  static const RodAimKind expected[] = {
    ROD_AIM_RIPS,
    ROD_AIM_NARROWEST,
    ROD_AIM_STARTERS,
    ROD_AIM_SLIVERS,
    ROD_AIM_BREAKS,
    ROD_AIM_RISKS,
    ROD_AIM_SYMMETRY,
    ROD_AIM_HOOKS,
    ROD_AIM_STOCK,
  };
  const RodPhaseScore few = { .rips = 1, .eased_mm = 80.0 };
  const RodPhaseScore wide = { .rips = 2, .eased_mm = 140.0 };
  RodAimKind          order[ROD_N_AIMS];

  for (guint i = 0; i < G_N_ELEMENTS (named); i++)
    {
      RodAim *aim = rod_record_new (&rod_aim_type);

      aim->aim = named[i];
      g_ptr_array_add (first, aim);
    }
  rod_phase_order (order, first);
  for (guint i = 0; i < ROD_N_AIMS; i++)
    g_assert_cmpint (order[i], ==, expected[i]);
  g_assert_cmpint (rod_phase_compare (order, &few, &wide), <, 0);
  g_assert_cmpint (rod_phase_difference (order, &few, &wide), ==, ROD_AIM_RIPS);
  rod_phase_order (order, NULL);
  g_assert_cmpint (rod_phase_compare (order, &few, &wide), >, 0);
  g_assert_cmpint (rod_phase_difference (order, &few, &wide), ==, ROD_AIM_NARROWEST);
  g_assert_cmpint (rod_phase_difference (order, &few, &few), ==, -1);
}

/* Rule R6 with pocket 25, engagement 5, gap across 5 and error 1: strips up to 25 − 5 − 5 − 1 = 14
 * vanish. Over the window head at 2207 of a wall 2736 high, phase −29 = 221 leaves 14, which is
 * swallowed, but 15 at the top, which is not (1 more than can be). */
static void
test_absorbed (void)
{
  RodLevel              levels[] = { level_250 (2207.0, FALSE), level_250 (2736.0, TRUE) };
  const RodPhaseProblem problem = problem_of (250.0, levels, G_N_ELEMENTS (levels), NULL, 0);

  levels[0].absorb_mm = levels[1].absorb_mm = 14.0;
  g_assert_cmpfloat_with_epsilon (rod_level_absorbed (&levels[0], 221.0), 14.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_level_strip (&levels[0], 221.0), 250.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_level_absorbed (&levels[1], 221.0), 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_level_strip (&levels[1], 221.0), 15.0, 1e-9);
  g_assert_cmpint (rod_phase_score (&problem, 221.0).slivers, ==, 1);
  /* One less at the top too: both are whole boards for the eye. */
  levels[1].at_mm = 2735.0;
  g_assert_cmpint (rod_phase_score (&problem, 221.0).slivers, ==, 0);
  g_assert_cmpint (rod_phase_score (&problem, 221.0).rips, ==, 0);
  g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 221.0, 1e-9);
}

/* Rule R28: at ±5, a strip of 93 falls to 88 and is safe; one of 61 may be 56; a whole board may
 * leave a rest of 5, unless the pocket swallows as much. */
static void
test_tolerance (void)
{
  RodLevel line = level_250 (93.0, TRUE);

  g_assert_false (rod_level_at_risk (&line, 0.0, 5.0));
  line.at_mm = 61.0;
  g_assert_true (rod_level_at_risk (&line, 0.0, 5.0));
  g_assert_false (rod_level_at_risk (&line, 0.0, 1.0));
  line.at_mm = 56.0; /* a sliver as it is */
  g_assert_true (rod_level_at_risk (&line, 0.0, 5.0));
  line.at_mm = 500.0;
  g_assert_true (rod_level_at_risk (&line, 0.0, 5.0));
  line.absorb_mm = 5.0;
  g_assert_false (rod_level_at_risk (&line, 0.0, 5.0));
  line.at_mm = 504.0; /* swallowed, but might be 9 */
  g_assert_true (rod_level_at_risk (&line, 0.0, 5.0));
}

/* What may come out: 61 less 5; 4 and 5 where the pocket need not swallow it; 248 and 5 leave 3 of
 * the next board; a whole one leaves 5. */
static void
test_worst_within_tolerance (void)
{
  RodLevel line = level_250 (61.0, TRUE);

  g_assert_cmpfloat_with_epsilon (rod_level_worst (&line, 0.0, 5.0), 56.0, 1e-9);
  line.at_mm = 248.0;
  g_assert_cmpfloat_with_epsilon (rod_level_worst (&line, 0.0, 5.0), 3.0, 1e-9);
  line.at_mm = 500.0;
  g_assert_cmpfloat_with_epsilon (rod_level_worst (&line, 0.0, 5.0), 5.0, 1e-9);
  line.absorb_mm = 5.0;
  line.at_mm = 504.0;
  g_assert_cmpfloat_with_epsilon (rod_level_worst (&line, 0.0, 5.0), 9.0, 1e-9);
}

/* What is seldom seen may be narrower: a strip at the rear, weight 2 of 10, counts five times. With
 * 143 − t in front and 43 + t at the rear, 143 − t = 5·(43 + t) at t = −12, where the rear has 31,
 * under the least of 60; so t = 17, where it has 60. */
static void
test_seldom_seen (void)
{
  RodLevel              levels[] = { level_250 (893.0, TRUE), level_250 (2207.0, FALSE) };
  const RodStarterArc   arc = starter (-40.0, 60.0, 5.0);
  const RodPhaseProblem problem = problem_of (250.0, levels, G_N_ELEMENTS (levels), &arc, 1);

  g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 50.0, 1e-9);
  levels[1].ease = 5.0;
  g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 17.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_phase_score (&problem, 17.0).narrowest_mm, 60.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_phase_score (&problem, 17.0).eased_mm, 126.0, 1e-9);
}

/* Boards of half the cover share every second line of the others (rule R17). */
static void
test_half_covers (void)
{
  const RodLevel        levels[] = { level (100.0, TRUE, 200.0, 30.0),
                                     level (130.0, TRUE, 100.0, 30.0) };
  const RodPhaseProblem problem = problem_of (200.0, levels, G_N_ELEMENTS (levels), NULL, 0);
  RodPhaseScore         score = rod_phase_score (&problem, rod_phase_best (&problem));

  /* At φ = 130 the narrow boards are whole and the wide ones keep 170. */
  g_assert_cmpfloat_with_epsilon (rod_phase_best (&problem), 130.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (score.narrowest_mm, 170.0, 1e-9);
  /* 30 more are 30 of 100 and 0 of 200: whole. */
  g_assert_cmpfloat_with_epsilon (rod_level_strip (&levels[1], 100.0), 30.0, 1e-9);
}

/* The notches of the rod: each the best of its surroundings, the best first, with the reason why a
 * later one is worse. 893 − 175 and 175 − 2207 both leave 218. */
static void
test_ranked (void)
{
  const RodLevel        levels[] = { level_250 (893.0, TRUE), level_250 (2207.0, FALSE) };
  const RodPhaseProblem problem = problem_of (250.0, levels, G_N_ELEMENTS (levels), NULL, 0);
  g_autoptr (GArray) ranked = rod_phase_ranked (&problem, 5);

  g_assert_cmpuint (ranked->len, ==, 5);
  g_assert_cmpfloat_with_epsilon (g_array_index (ranked, RodPhaseChoice, 0).phase_mm, 175.0, 1e-9);
  for (guint i = 1; i < ranked->len; i++)
    {
      const RodPhaseChoice *before = &g_array_index (ranked, RodPhaseChoice, i - 1);
      const RodPhaseChoice *choice = &g_array_index (ranked, RodPhaseChoice, i);

      g_assert_cmpint (rod_phase_compare (problem.order, &before->score, &choice->score), <=, 0);
      for (guint k = 0; k < i; k++)
        g_assert_cmpfloat (fabs (remainder (choice->phase_mm -
                                              g_array_index (ranked, RodPhaseChoice, k).phase_mm,
                                            250.0)),
                           >=,
                           25.0 - 1e-9);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/phase/strips", test_strips);
  g_test_add_func ("/phase/compare", test_compare);
  g_test_add_func ("/phase/own-order", test_own_order);
  g_test_add_func ("/phase/absorbed", test_absorbed);
  g_test_add_func ("/phase/tolerance", test_tolerance);
  g_test_add_func ("/phase/worst-within-tolerance", test_worst_within_tolerance);
  g_test_add_func ("/phase/seldom-seen", test_seldom_seen);
  g_test_add_func ("/phase/half-covers", test_half_covers);
  g_test_add_func ("/phase/ranked", test_ranked);
  g_test_add_func ("/phase/strips-that-grow-unequally", test_strips_that_grow_unequally);
  g_test_add_func ("/phase/few-lines-never-leave-slivers", test_few_lines_never_leave_slivers);
  g_test_add_func ("/phase/evenly-spread-lines-leave-slivers",
                   test_evenly_spread_lines_leave_slivers);
  g_test_add_func ("/phase/balance-leaves-half-a-board", test_balance_leaves_half_a_board);
  g_test_add_func ("/phase/balance-of-worked-jobs", test_balance_of_worked_jobs);
  g_test_add_func ("/phase/starters-come-first", test_starters_come_first);
  g_test_add_func ("/phase/starters-range-limits", test_starters_range_limits);
  g_test_add_func ("/phase/starters-that-cannot-agree", test_starters_that_cannot_agree);
  g_test_add_func ("/phase/wide-range-is-never-lost", test_wide_range_is_never_lost);
  g_test_add_func ("/phase/nothing-to-set-out", test_nothing_to_set_out);

  return g_test_run ();
}
