/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Spreading the error of a survey: least squares on closed traverses, and what it makes of a
 * house. */

#include "support/planned-house.h"

#include "engine/files/rod-file.h"
#include "engine/fold/rod-spread.h"
#include "engine/fold/rod-traverse.h"

#include <math.h>

#define MOST_LEGS 16

/* One closed traverse: line, turn, line, turn … */
typedef struct
{
  double      lines[MOST_LEGS];
  double      sigmas[MOST_LEGS];
  double      turns[MOST_LEGS];
  double      turn_sigmas[MOST_LEGS];
  RodLeg      legs[2 * MOST_LEGS];
  guint       end;
  RodTraverse traverse;
} Ring;

static void
make_ring (Ring         *ring,
           const double *lines,
           const double *turns,
           guint         n,
           double        turn_sigma_deg)
{
  for (guint i = 0; i < n; i++)
    {
      ring->lines[i] = lines[i];
      ring->sigmas[i] = 1.0;
      ring->turns[i] = turns[i];
      ring->turn_sigmas[i] = turn_sigma_deg;
      ring->legs[2 * i] = (RodLeg){ ROD_LEG_LINE, i, 1.0 };
      ring->legs[2 * i + 1] = (RodLeg){ ROD_LEG_TURN, i, 1.0 };
    }
  ring->end = 2 * n;
  ring->traverse = (RodTraverse){
    ring->lines,
    ring->sigmas,
    n,
    ring->turns,
    ring->turn_sigmas,
    n,
    ring->legs,
    &ring->end,
    1,
  };
}

/* Opposite walls share the difference: 10000/8000/10012/8006 becomes 10006/8003/10006/8003. */
static void
test_rectangle (void)
{
  const double lines[] = { 10000, 8000, 10012, 8006 };
  const double turns[] = { 90, 90, 90, 90 };
  const double wanted[] = { 6, 3, -6, -3 };
  double       corrections[4], turned[4];
  Ring         ring;

  make_ring (&ring, lines, turns, 4, 0.0);
  g_assert_cmpfloat_with_epsilon (
    rod_traverse_gap_mm (&ring.traverse, NULL, NULL), hypot (12, 6), 1e-9);
  g_assert_true (rod_traverse_adjust (&ring.traverse, corrections, turned));
  for (guint i = 0; i < 4; i++)
    {
      g_assert_cmpfloat_with_epsilon (corrections[i], wanted[i], 1e-9);
      g_assert_cmpfloat (fabs (turned[i]), <=, 0.0);
    }
}

/* A traverse of five lines, from memory of a worked example in a textbook (Ghilani and Wolf,
 * Elementary Surveying, on departures and latitudes; feet): the departures add up to 0.026 and the
 * latitudes to 0.077 with the azimuths rounded to seconds. The least correction of lengths is
 * checked against the solution for two conditions by determinants. */
static void
test_textbook (void)
{
  const double lines[] = { 647.25, 203.03, 720.35, 610.24, 285.13 };
  const double azimuths[] = { 126 + 55 / 60.0 + 17 / 3600.0,
                              178 + 18 / 60.0 + 58 / 3600.0,
                              15 + 31 / 60.0 + 54 / 3600.0,
                              284 + 35 / 60.0 + 20 / 3600.0,
                              206 + 9 / 60.0 + 41 / 3600.0 };
  const double departures[] = { 517.451, 5.966, 192.889, -590.565, -125.715 };
  const double latitudes[] = { -388.815, -202.942, 694.045, 153.708, -255.919 };
  double       turns[5], corrections[5], turned[5];
  double       e = 0, n = 0, ee = 0, en = 0, nn = 0, determinant, p, q;
  Ring         ring;

  for (guint i = 0; i < 5; i++)
    {
      double s = sin (azimuths[i] * G_PI / 180.0), c = cos (azimuths[i] * G_PI / 180.0);

      g_assert_cmpfloat_with_epsilon (lines[i] * s, departures[i], 0.0011);
      g_assert_cmpfloat_with_epsilon (lines[i] * c, latitudes[i], 0.0011);
      /* Azimuths run clockwise. */
      turns[i] = azimuths[i] - azimuths[(i + 1) % 5];
      e += lines[i] * s;
      n += lines[i] * c;
      ee += s * s;
      en += s * c;
      nn += c * c;
    }
  make_ring (&ring, lines, turns, 5, 0.0);
  /* The book has √(0.026² + 0.077²) = 0.081. */
  g_assert_cmpfloat_with_epsilon (
    rod_traverse_gap_mm (&ring.traverse, NULL, NULL), hypot (0.026, 0.077), 0.0015);
  g_assert_cmpfloat_with_epsilon (
    rod_traverse_gap_mm (&ring.traverse, NULL, NULL), hypot (e, n), 1e-9);
  g_assert_true (rod_traverse_adjust (&ring.traverse, corrections, turned));
  g_assert_cmpfloat (rod_traverse_gap_mm (&ring.traverse, corrections, turned), <, 1e-9);
  determinant = ee * nn - en * en;
  p = (-e * nn + n * en) / determinant;
  q = (-n * ee + e * en) / determinant;
  for (guint i = 0; i < 5; i++)
    g_assert_cmpfloat_with_epsilon (
      corrections[i],
      p * sin (azimuths[i] * G_PI / 180.0) + q * cos (azimuths[i] * G_PI / 180.0),
      1e-9);
}

/* Measured corners that add up to 360.05° and lengths to match: 9.46 mm open as a chain, reckoned
 * apart with complex numbers. With lengths to ±5 mm and corners to ±0.05° it closes, by little.
 *
 * The least corrections are those that three multipliers give, one for each condition: a line's is
 * the multipliers' part along its heading; a turn's, which swings the rest of the chain about its
 * own place, their moment about it. Three corrections say what the multipliers are, the other five
 * must agree. */
static void
test_angles (void)
{
  const double lines[] = { 10004, 7995, 9992, 8003 };
  const double turns[] = { 90.1, 89.9, 90.05, 90.0 };
  const double turn_square = pow (0.01 * G_PI / 180.0, 2.0);
  double       corrections[4], turned[4], heading = 0.0, x = 0.0, y = 0.0, kx, ky, kt;
  Ring         ring;

  make_ring (&ring, lines, turns, 4, 0.05 / 5.0);
  g_assert_cmpfloat_with_epsilon (
    rod_traverse_gap_mm (&ring.traverse, NULL, NULL), 9.457663552659529, 1e-6);
  g_assert_true (rod_traverse_adjust (&ring.traverse, corrections, turned));
  g_assert_cmpfloat (rod_traverse_gap_mm (&ring.traverse, corrections, turned), <, 1e-6);
  kx = corrections[0];
  ky = (corrections[1] - kx * cos ((turns[0] + turned[0]) * G_PI / 180.0)) /
       sin ((turns[0] + turned[0]) * G_PI / 180.0);
  kt = turned[3] * G_PI / 180.0 / turn_square;
  for (guint i = 0; i < 4; i++)
    {
      double c = cos (heading * G_PI / 180.0), s = sin (heading * G_PI / 180.0);

      g_assert_cmpfloat_with_epsilon (corrections[i], kx * c + ky * s, 1e-6);
      g_assert_cmpfloat (fabs (corrections[i]), <, 5.0);
      x += (lines[i] + corrections[i]) * c;
      y += (lines[i] + corrections[i]) * s;
      g_assert_cmpfloat_with_epsilon (
        turned[i] * G_PI / 180.0, turn_square * (kx * y - ky * x + kt), 1e-9);
      g_assert_cmpfloat (fabs (turned[i]), <, 0.05);
      heading += turns[i] + turned[i];
    }
  g_assert_cmpfloat_with_epsilon (heading, 360.0, 1e-9);
}

/* Walls that all run one way cannot take up a step of 50 mm across them: along, 1000 and 1010 are
 * brought together, across it stays open. The same condition twice over does no harm. */
static void
test_cannot_close (void)
{
  const double lines[] = { 1000, 1010 }, sigmas[] = { 1, 1 };
  const double turns[] = { 90, 90 }, held[] = { 0, 0 };
  const RodLeg legs[] = {
    { ROD_LEG_LINE, 0, 1.0 },
    { ROD_LEG_TURN, 0, 1.0 },
    { ROD_LEG_FIXED, 0, 50.0 },
    { ROD_LEG_TURN, 1, 1.0 },
    { ROD_LEG_LINE, 1, 1.0 },
    { ROD_LEG_LINE, 0, 1.0 },
    { ROD_LEG_LINE, 1, -1.0 },
  };
  const guint ends[] = { 5, 7 };
  RodTraverse traverse = { lines, sigmas, 2, turns, held, 2, legs, ends, 2 };
  double      corrections[2], turned[2];

  g_assert_false (rod_traverse_adjust (&traverse, corrections, turned));
  g_assert_cmpfloat_with_epsilon (corrections[0], 5.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (corrections[1], -5.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (
    rod_traverse_gap_mm (&traverse, corrections, turned), 50.0, 1e-9);
}

static RodHouse *
box_house (double      front,
           double      right,
           double      back,
           double      left,
           const char *more)
{
  return surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", front, 2400, more),
              surveyed_box ("b", "wall", right, 2400, ""),
              surveyed_box ("c", "wall", back, 2400, ""),
              surveyed_box ("d", "wall", left, 2400, ""),
              surveyed_box ("s", "soffit", front, 500, "")),
    SURVEYED (surveyed_join ("j1", "a.right", "b.left", 90, ""),
              surveyed_join ("j2", "b.right", "c.left", 90, ""),
              surveyed_join ("j3", "c.right", "d.left", 90, ""),
              surveyed_join ("j4", "d.right", "a.left", 90, ""),
              surveyed_join ("j5", "a.top", "s.base", -90, "")));
}

static double
correction (const RodSpread *spread,
            const char      *id)
{
  double sum = 0.0;

  for (guint i = 0; i < spread->lines->len; i++)
    if (g_array_index (spread->lines, RodSurveyLine, i).face == planned_face (spread->plan, id))
      sum += g_array_index (spread->lines, RodSurveyLine, i).correction_mm;
  return sum;
}

static double
width (const RodHouse *house,
       const char     *id)
{
  const RodSurface *surface = rod_house_find_surface (house, id);

  return ((const RodCorner *) g_ptr_array_index (surface->outline, 1))->x -
         ((const RodCorner *) g_ptr_array_index (surface->outline, 0))->x;
}

static void
test_house (void)
{
  g_autoptr (RodPlan) plan = planned_house (box_house (10000, 8000, 10012, 8006, ""));
  g_autoptr (RodSpread) spread = rod_spread_new (plan, ROD_SPREAD_EQUALLY, 0.0);
  g_autoptr (RodHouse) house = rod_spread_apply (spread);
  g_autoptr (RodPlan) closed = rod_plan_new (house);

  g_assert_cmpuint (spread->n_loops, ==, 1);
  g_assert_cmpfloat_with_epsilon (spread->gap_mm, hypot (12, 6), 1e-9);
  g_assert_cmpfloat (spread->left_mm, <, 1e-9);
  g_assert_cmpfloat_with_epsilon (correction (spread, "a"), 6, 1e-9);
  g_assert_cmpfloat_with_epsilon (correction (spread, "b"), 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (correction (spread, "c"), -6, 1e-9);
  g_assert_cmpfloat_with_epsilon (correction (spread, "d"), -3, 1e-9);
  /* √((6² + 3² + 6² + 3²)/4) */
  g_assert_cmpfloat_with_epsilon (spread->rms_mm, sqrt (22.5), 1e-9);

  g_assert_cmpfloat_with_epsilon (width (house, "a"), 10006, 1e-9);
  g_assert_cmpfloat_with_epsilon (width (house, "d"), 8003, 1e-9);
  /* The soffit goes with its wall. */
  g_assert_cmpfloat_with_epsilon (width (house, "s"), 10006, 1e-9);
  g_assert_cmpfloat (planned_worst_closure_mm (closed), <, 1e-9);
  g_assert_null (planned_finding (closed, "survey-open"));
  g_assert_true (house->systems == plan->house->systems);
  g_assert_true (house->joins == plan->house->joins);
}

/* Twice as long, twice the share: 12·10000/20012. */
static void
test_by_length (void)
{
  g_autoptr (RodPlan) plan = planned_house (box_house (10000, 8000, 10012, 8000, ""));
  g_autoptr (RodSpread) spread = rod_spread_new (plan, ROD_SPREAD_BY_LENGTH, 0.0);

  g_assert_cmpfloat_with_epsilon (correction (spread, "a"), 12.0 * 10000 / 20012, 1e-9);
  g_assert_cmpfloat_with_epsilon (correction (spread, "c"), -12.0 * 10012 / 20012, 1e-9);
  g_assert_cmpfloat (fabs (correction (spread, "b")), <, 1e-9);
}

/* A house that closes stays the same one. */
static void
test_closed_stays (void)
{
  g_autoptr (RodPlan) plan = planned_house (box_house (4000, 3000, 4000, 3000, ""));
  g_autoptr (RodSpread) spread = rod_spread_new (plan, ROD_SPREAD_EQUALLY, 0.0);
  g_autoptr (RodHouse) house = rod_spread_apply (spread);

  g_assert_cmpfloat (spread->rms_mm, <, 1e-12);
  g_assert_true (house == plan->house);
}

/* What was measured from the left corner stays where it was; a zone that reaches the right edge
 * follows it; walls that keep their length are shared. */
static void
test_openings_stay (void)
{
  g_autoptr (RodPlan) plan = planned_house (
    box_house (4000,
               3000,
               4010,
               3000,
               ", 'openings': [{'id': 'w', 'x': 2500, 'y': 800, 'width_mm': 900, "
               "'height_mm': 1000}], 'zones': [{'id': 'z', 'corners': [{'x': 2500, 'y': 0}, "
               "{'x': 4000, 'y': 0}, {'x': 4000, 'y': 600}, {'x': 2500, 'y': 600}]}]"));
  g_autoptr (RodSpread) spread = rod_spread_new (plan, ROD_SPREAD_EQUALLY, 0.0);
  g_autoptr (RodHouse) house = rod_spread_apply (spread);
  const RodSurface *before = rod_house_find_surface (plan->house, "a");
  const RodSurface *after = rod_house_find_surface (house, "a");
  const RodZone    *zone = g_ptr_array_index (after->zones, 0);
  g_autoptr (GError) error = NULL;

  g_assert_cmpfloat_with_epsilon (width (house, "a"), 4005, 1e-9);
  g_assert_true (g_ptr_array_index (before->openings, 0) ==
                 g_ptr_array_index (after->openings, 0));
  g_assert_cmpfloat (((RodCorner *) g_ptr_array_index (zone->corners, 0))->x, ==, 2500.0);
  g_assert_cmpfloat_with_epsilon (
    ((RodCorner *) g_ptr_array_index (zone->corners, 1))->x, 4005.0, 1e-9);
  g_assert_true (rod_house_find_surface (house, "b") == rod_house_find_surface (plan->house, "b"));
  g_assert_false (rod_house_find_surface (house, "c") == rod_house_find_surface (plan->house, "c"));
  g_assert_true (rod_house_check (house, &error));
  g_assert_no_error (error);
}

/* Corners measured, too: they take their share, and the house closes in space. */
static void
test_folds (void)
{
  g_autoptr (RodPlan) plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 10004, 2400, ""),
              surveyed_box ("b", "wall", 7995, 2400, ""),
              surveyed_box ("c", "wall", 9992, 2400, ""),
              surveyed_box ("d", "wall", 8003, 2400, "")),
    SURVEYED (surveyed_join ("j1", "a.right", "b.left", 90.1, ""),
              surveyed_join ("j2", "b.right", "c.left", 89.9, ""),
              surveyed_join ("j3", "c.right", "d.left", 90.05, ""),
              surveyed_join ("j4", "d.right", "a.left", 90.0, ""))));
  g_autoptr (RodSpread) spread = rod_spread_new (plan, ROD_SPREAD_EQUALLY, 0.05);
  g_autoptr (RodHouse) house = rod_spread_apply (spread);
  g_autoptr (RodPlan) closed = rod_plan_new (house);
  double sum_deg = 0.0;

  g_assert_cmpfloat (planned_worst_closure_mm (plan), >, 1.0);
  for (guint j = 0; j < 4; j++)
    sum_deg += ((RodJoin *) g_ptr_array_index (house->joins, j))->fold_deg;
  g_assert_cmpfloat_with_epsilon (sum_deg, 360.0, 1e-9);
  g_assert_cmpfloat (planned_worst_closure_mm (closed), <, 0.01);
  g_assert_null (planned_finding (closed, "survey-open"));
}

/* The worst of the loops that do not pass a surface. */
static double
worst_without_mm (const RodPlan *plan,
                  const char    *id)
{
  guint  face = planned_face (plan, id);
  double worst = 0.0;

  for (guint i = 0; i < plan->closures->len; i++)
    {
      const RodClosure *closure = &g_array_index (plan->closures, RodClosure, i);
      gboolean          counts = TRUE;

      for (guint k = closure->first_step; k < closure->first_step + closure->n_steps; k++)
        counts = counts && g_array_index (plan->loop_steps, RodLoopStep, k).face != face;
      if (counts)
        worst = MAX (worst, closure->misfit_mm);
    }
  return worst;
}

/* The walls of the two-storey example, each measured line off by up to 8 mm, soffits with them:
 * bays, a porch cut into a wall, a wing. Spread, it closes again to the micrometres that lengths
 * are rounded to; but for the porch's soffit, which lies between walls on three sides and can
 * follow one of them only. */
static void
test_two_storey (void)
{
  g_autofree char *path =
    g_test_build_filename (G_TEST_DIST, "..", "examples", "two-storey.storeyrod", NULL);
  g_autoptr (GError) error = NULL;
  RodHouse *drawn = rod_house_load (path, &error);
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (RodSpread) errors = NULL;
  g_autoptr (RodPlan) measured = NULL;
  g_autoptr (RodSpread) spread = NULL;
  g_autoptr (RodHouse) house = NULL;
  g_autoptr (RodPlan) closed = NULL;
  double planted = 0.0;

  g_assert_no_error (error);
  plan = planned_house (drawn);
  errors = rod_spread_new (plan, ROD_SPREAD_EQUALLY, 0.0);
  g_assert_cmpfloat (errors->rms_mm, <, 1e-9);
  for (guint i = 0; i < errors->lines->len; i++)
    {
      RodSurveyLine *line = &g_array_index (errors->lines, RodSurveyLine, i);

      line->correction_mm = g_test_rand_double_range (-8.0, 8.0);
      planted += line->correction_mm * line->correction_mm;
    }
  measured = planned_house (rod_spread_apply (errors));
  g_assert_cmpfloat (planned_worst_closure_mm (measured), >, 1.0);
  spread = rod_spread_new (measured, ROD_SPREAD_EQUALLY, 0.0);
  g_assert_cmpfloat (spread->left_mm, <, 1e-6);
  /* The errors themselves, taken back, would close it: the least squares are no more. */
  g_assert_cmpfloat (spread->rms_mm, <=, sqrt (planted / spread->lines->len) + 1e-3);
  house = rod_spread_apply (spread);
  g_assert_true (rod_house_check (house, &error));
  g_assert_no_error (error);
  closed = rod_plan_new (house);
  g_assert_cmpfloat (worst_without_mm (measured, "porch-soffit"), >, 1.0);
  g_assert_cmpfloat (worst_without_mm (closed, "porch-soffit"), <, 0.05);
  g_test_message ("%u lines, %u loops, open by %.1f mm, RMS of corrections %.2f mm, left %.4f mm",
                  spread->lines->len,
                  spread->n_loops,
                  spread->gap_mm,
                  spread->rms_mm,
                  worst_without_mm (closed, "porch-soffit"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/spread/rectangle", test_rectangle);
  g_test_add_func ("/spread/textbook", test_textbook);
  g_test_add_func ("/spread/angles", test_angles);
  g_test_add_func ("/spread/cannot-close", test_cannot_close);
  g_test_add_func ("/spread/house", test_house);
  g_test_add_func ("/spread/by-length", test_by_length);
  g_test_add_func ("/spread/closed-stays", test_closed_stays);
  g_test_add_func ("/spread/openings-stay", test_openings_stay);
  g_test_add_func ("/spread/folds", test_folds);
  g_test_add_func ("/spread/two-storey", test_two_storey);
  return g_test_run ();
}
