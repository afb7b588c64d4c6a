/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The search for the best phase against brute force at a tenth of a millimetre, on random groups
 * with everything there is: pockets that swallow, lines that face each other, other covers, places
 * seldom seen, starters, chains that close, ends that should be alike, and aims in any order. */

#include "engine/rod-limits.h"
#include "engine/setout/rod-phase.h"

#include <math.h>

#define N_PROBLEMS 600
#define STEP_MM 0.1
#define MAX_LEVELS 12
#define MAX_OTHERS 3

/* A problem with room for its lists. */
typedef struct
{
  RodPhaseProblem problem;
  RodLevel        levels[MAX_LEVELS];
  RodStarterArc   starters[MAX_OTHERS];
  RodSpan         spans[MAX_OTHERS];
  RodPhaseClosure closures[MAX_OTHERS];
} Drawn;

/* Places on every second line of the brute force's raster, so that it hits them, and half way
 * between two of them. */
static double
draw_place (double from_mm,
            double to_mm)
{
  return round (g_test_rand_double_range (from_mm, to_mm) / (2.0 * STEP_MM)) * 2.0 * STEP_MM;
}

static double
draw_one_of (const double *values,
             guint         n)
{
  return values[g_test_rand_int_range (0, (gint32) n)];
}

static RodLevel
draw_level (double pitch_mm)
{
  static const double parts[] = { 1.0, 1.0, 1.0, 0.5 };
  static const double ratios[] = { 1.0, 1.0, 1.0, G_SQRT2, 0.5, 0.8, 2.0 };
  static const double eases[] = { 1.0, 1.0, 1.0, 10.0 / 6.0, 5.0, 20.0 };
  gboolean            faces = g_test_rand_int_range (0, 4) == 0;

  return (RodLevel){
    .at_mm = draw_place (-4000.0, 9000.0),
    .upper = g_test_rand_bit (),
    .facing_mm = faces ? draw_place (5.0, 700.0) : INFINITY,
    .period_mm = pitch_mm * draw_one_of (parts, G_N_ELEMENTS (parts)),
    .ratio = draw_one_of (ratios, G_N_ELEMENTS (ratios)),
    .least_mm = draw_place (20.0, pitch_mm / 3.0),
    .absorb_mm = g_test_rand_bit () ? draw_place (0.0, 15.0) : 0.0,
    .ease = draw_one_of (eases, G_N_ELEMENTS (eases)),
  };
}

static RodStarterArc
draw_starter (double pitch_mm)
{
  RodStarterArc arc = { .without = draw_level (pitch_mm) };

  arc.low_mm = arc.without.at_mm + draw_place (-100.0, 100.0);
  arc.high_mm = arc.low_mm + (g_test_rand_bit () ? draw_place (0.0, 60.0) : 0.0);
  return arc;
}

/* Its levels are among those that count, as in a house. */
static RodSpan
draw_span (Drawn *drawn)
{
  RodSpan span = { .on_starter = g_test_rand_int_range (0, 4) == 0,
                   .length_mm = draw_place (500.0, 9000.0) };

  span.low = drawn->levels[0];
  span.high = drawn->levels[1];
  span.low.upper = FALSE;
  span.high.upper = TRUE;
  span.high.period_mm = span.low.period_mm;
  span.high.ratio = span.low.ratio;
  span.high.at_mm = span.low.at_mm + fabs (span.high.at_mm - span.low.at_mm) + 10.0;
  drawn->levels[0] = span.low;
  drawn->levels[1] = span.high;
  span.balanced = !span.on_starter && g_test_rand_bit ();
  return span;
}

static RodPhaseClosure
draw_closure (double pitch_mm)
{
  static const double turns[] = { 0.0, 2.0, -2.0 };

  return (RodPhaseClosure){ .shift_mm = draw_place (-500.0, 500.0),
                            .turns = draw_one_of (turns, G_N_ELEMENTS (turns)),
                            .period_mm = pitch_mm };
}

static void
draw_order (RodAimKind *order)
{
  rod_phase_order (order, NULL);
  if (g_test_rand_bit ())
    return;
  for (guint i = ROD_N_AIMS - 1; i > 0; i--)
    {
      guint      k = (guint) g_test_rand_int_range (0, (gint32) i + 1);
      RodAimKind kept = order[i];

      order[i] = order[k];
      order[k] = kept;
    }
}

static void
draw_problem (Drawn *drawn)
{
  static const double pitches[] = { 100.0, 135.0, 180.0, 200.0, 250.0, 400.0 };
  double              pitch_mm = draw_one_of (pitches, G_N_ELEMENTS (pitches));

  drawn->problem = (RodPhaseProblem){
    .pitch_mm = pitch_mm,
    .tolerance_mm = g_test_rand_bit () ? 5.0 : draw_place (0.0, 12.0),
    .levels = drawn->levels,
    .n_levels = (guint) g_test_rand_int_range (2, MAX_LEVELS + 1),
    .starters = drawn->starters,
    .n_starters = (guint) g_test_rand_int_range (0, MAX_OTHERS + 1),
    .spans = drawn->spans,
    .n_spans = (guint) g_test_rand_int_range (0, 2),
    .closures = drawn->closures,
    .n_closures = (guint) g_test_rand_int_range (0, MAX_OTHERS),
  };
  draw_order (drawn->problem.order);
  for (guint i = 0; i < drawn->problem.n_levels; i++)
    drawn->levels[i] = draw_level (pitch_mm);
  for (guint i = 0; i < drawn->problem.n_starters; i++)
    drawn->starters[i] = draw_starter (pitch_mm);
  for (guint i = 0; i < drawn->problem.n_spans; i++)
    drawn->spans[i] = draw_span (drawn);
  for (guint i = 0; i < drawn->problem.n_closures; i++)
    drawn->closures[i] = draw_closure (pitch_mm);
}

static void
explain_score (const char          *name,
               double               phase_mm,
               const RodPhaseScore *score)
{
  g_test_message ("%s %.5f: starters %d slivers %d breaks %d risks %d eased %.6f rips %d asym %.6f "
                  "hooks %d stock %.1f",
                  name,
                  phase_mm,
                  score->lost_starters,
                  score->slivers,
                  score->breaks,
                  score->risks,
                  score->eased_mm,
                  score->rips,
                  score->asymmetry_mm,
                  score->lost_hooks,
                  score->stock_mm);
}

static void
explain (const RodPhaseProblem *problem)
{
  g_test_message ("pitch %.1f tolerance %.1f", problem->pitch_mm, problem->tolerance_mm);
  for (guint i = 0; i < ROD_N_AIMS; i++)
    g_test_message ("aim %d", problem->order[i]);
  for (guint i = 0; i < problem->n_levels; i++)
    {
      const RodLevel *level = &problem->levels[i];

      g_test_message (
        "level %.2f upper %d facing %.1f period %.1f ratio %.4f least %.1f absorb %.1f "
        "ease %.3f",
        level->at_mm,
        level->upper,
        level->facing_mm,
        level->period_mm,
        level->ratio,
        level->least_mm,
        level->absorb_mm,
        level->ease);
    }
  for (guint i = 0; i < problem->n_closures; i++)
    g_test_message ("closure %.2f turns %.0f",
                    problem->closures[i].shift_mm,
                    problem->closures[i].turns);
  for (guint i = 0; i < problem->n_starters; i++)
    g_test_message (
      "starter %.2f to %.2f", problem->starters[i].low_mm, problem->starters[i].high_mm);
}

static void
test_never_beaten (void)
{
  for (int n = 0; n < N_PROBLEMS; n++)
    {
      Drawn         drawn;
      RodPhaseScore best;
      double        best_mm;
      int           steps;

      draw_problem (&drawn);
      best_mm = rod_phase_best (&drawn.problem);
      best = rod_phase_score (&drawn.problem, best_mm);
      steps = (int) ceil (drawn.problem.pitch_mm / STEP_MM);
      g_assert_cmpfloat (best_mm, >=, 0.0);
      g_assert_cmpfloat (best_mm, <, drawn.problem.pitch_mm);
      for (int s = 0; s < steps; s++)
        {
          RodPhaseScore score = rod_phase_score (&drawn.problem, s * STEP_MM);

          if (rod_phase_compare (drawn.problem.order, &score, &best) >= 0)
            continue;
          explain (&drawn.problem);
          explain_score ("chosen", best_mm, &best);
          explain_score ("better", s * STEP_MM, &score);
          g_test_fail_printf ("problem %d is beaten", n);
          return;
        }
    }
}

/* The same problem moved, and turned over when @turned. */
static void
move_problem (const Drawn *drawn,
              Drawn       *other,
              double       shift_mm,
              gboolean     turned)
{
  double sign = turned ? -1.0 : 1.0;

  *other = *drawn;
  other->problem.levels = other->levels;
  other->problem.starters = other->starters;
  other->problem.n_spans = other->problem.n_closures = 0;
  for (guint i = 0; i < other->problem.n_levels; i++)
    {
      other->levels[i].at_mm = sign * drawn->levels[i].at_mm + shift_mm;
      other->levels[i].upper = drawn->levels[i].upper != turned;
    }
  for (guint i = 0; i < other->problem.n_starters; i++)
    {
      const RodStarterArc *arc = &drawn->starters[i];

      other->starters[i].low_mm = sign * (turned ? arc->high_mm : arc->low_mm) + shift_mm;
      other->starters[i].high_mm = sign * (turned ? arc->low_mm : arc->high_mm) + shift_mm;
      other->starters[i].without.at_mm = sign * arc->without.at_mm + shift_mm;
      other->starters[i].without.upper = arc->without.upper != turned;
    }
}

/* Strips do not change when all lines move together, nor when the house is turned over. */
static void
test_shift_and_mirror (void)
{
  for (int n = 0; n < N_PROBLEMS; n++)
    {
      Drawn drawn, plain, other;

      draw_problem (&drawn);
      rod_phase_order (drawn.problem.order, NULL);
      move_problem (&drawn, &plain, 0.0, FALSE);
      for (int turned = 0; turned < 2; turned++)
        {
          RodPhaseScore here = rod_phase_score (&plain.problem, rod_phase_best (&plain.problem));
          RodPhaseScore there;

          move_problem (&plain, &other, draw_place (-3000.0, 3000.0), turned);
          there = rod_phase_score (&other.problem, rod_phase_best (&other.problem));
          g_assert_cmpint (there.lost_starters, ==, here.lost_starters);
          g_assert_cmpint (there.slivers, ==, here.slivers);
          g_assert_cmpint (there.risks, ==, here.risks);
          g_assert_cmpfloat_with_epsilon (there.eased_mm, here.eased_mm, 1e-6);
          g_assert_cmpint (there.rips, ==, here.rips);
        }
    }
}

/* The curve of the rod says what a phase's score says, at its corners' ends and between them. */
static void
test_curve (void)
{
  for (int n = 0; n < N_PROBLEMS / 4; n++)
    {
      Drawn drawn;
      g_autoptr (GArray) curve = NULL;

      draw_problem (&drawn);
      curve = rod_phase_curve (&drawn.problem);
      g_assert_cmpfloat (g_array_index (curve, RodCurvePoint, 0).phase_mm, ==, 0.0);
      g_assert_cmpfloat_with_epsilon (
        g_array_index (curve, RodCurvePoint, curve->len - 1).phase_mm,
        drawn.problem.pitch_mm,
        1e-6);
      for (guint i = 0; i + 1 < curve->len; i++)
        {
          const RodCurvePoint *from = &g_array_index (curve, RodCurvePoint, i);
          const RodCurvePoint *to = &g_array_index (curve, RodCurvePoint, i + 1);
          double               part = g_test_rand_double_range (0.1, 0.9);
          RodPhaseScore        score;
          double               phase_mm, expected_mm;

          g_assert_cmpfloat (from->phase_mm, <=, to->phase_mm + 1e-9);
          if (to->phase_mm - from->phase_mm < 0.2)
            continue;
          expected_mm = from->narrowest_mm + part * (to->narrowest_mm - from->narrowest_mm);
          phase_mm = from->phase_mm + part * (to->phase_mm - from->phase_mm);
          score = rod_phase_score (&drawn.problem, phase_mm);
          if (fabs (score.narrowest_mm - expected_mm) > 1e-6)
            {
              explain (&drawn.problem);
              explain_score ("curve", phase_mm, &score);
              g_test_message ("curve %.5f to %.5f", from->phase_mm, to->phase_mm);
            }
          g_assert_cmpfloat_with_epsilon (score.narrowest_mm, expected_mm, 1e-6);
          g_assert_cmpint (score.slivers, >=, 0);
        }
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/phase-search/never-beaten", test_never_beaten);
  g_test_add_func ("/phase-search/shift-and-mirror", test_shift_and_mirror);
  g_test_add_func ("/phase-search/curve", test_curve);

  return g_test_run ();
}
