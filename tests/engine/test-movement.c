/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Movement of boards against published values and hand-worked gaps (rules M1, M3, M4 and R27 in
 * docs/rules.md). */

#include "engine/movement/rod-movement.h"

#include <math.h>

/* A board of one material at one place. */
typedef struct
{
  RodSite    *site;
  RodSystem  *system;
  RodSurface *surface;
} Case;

static void
case_init (Case *at)
{
  at->site = rod_record_new (&rod_site_type);
  at->system = rod_record_new (&rod_system_type);
  at->surface = rod_record_new (&rod_surface_type);
  at->surface->kind = ROD_SURFACE_WALL;
  at->surface->facing_deg = NAN;
  at->site->face_coldest_c = NAN;
  at->site->face_hottest_c = NAN;
}

static void
case_clear (Case *at)
{
  rod_record_unref (at->site);
  rod_record_unref (at->system);
  rod_record_unref (at->surface);
}

static RodMovement
move (const Case  *at,
      RodLightness lightness)
{
  return rod_movement_of (at->site, at->system, at->surface, lightness);
}

/* ΔL = α·L·ΔT. Coefficients: rigid PVC 40 to 80·10⁻⁶/K, a textbook's table of building plastics;
 * 81·10⁻⁶ as the upper limit for siding, ASTM D3679, from memory; composites at most 50·10⁻⁶, EN
 * 15534-4 as restated on a web page; aluminium 24, steel 12, concrete 10, timber along the grain 5,
 * EN 1991-1-5:2003, table C.1, from memory. The lengths are arithmetic. */
static void
test_published_coefficients (void)
{
  static const struct
  {
    double alpha_per_k;
    double length_mm;
    double range_k;
    double moves_mm;
  } values[] = {
    { 70e-6, 6000, 50, 21.0 },
    { 81e-6, 6000, 50, 24.3 },
    { 50e-6, 6000, 50, 15.0 },
    { 24e-6, 6000, 50, 7.2 },
    { 12e-6, 6000, 50, 3.6 },
    { 10e-6, 6000, 50, 3.0 },
    { 5e-6, 6000, 50, 1.5 },
    /* 4.5·10⁻⁵ per °F over 150 and 144 inches and 100 °F: 0.675 in and 0.648 in. */
    { 4.5e-5 * 1.8, 150 * 25.4, 100 / 1.8, 17.145 },
    { 4.5e-5 * 1.8, 144 * 25.4, 100 / 1.8, 16.4592 },
  };
  Case at;

  case_init (&at);
  at.site->fixing_c = 10.0;
  for (guint i = 0; i < G_N_ELEMENTS (values); i++)
    {
      RodMovement movement;

      at.system->expansion_mm_m_k = values[i].alpha_per_k * 1000.0;
      at.site->face_hottest_c = 10.0 + values[i].range_k;
      at.site->face_coldest_c = 10.0 - values[i].range_k;
      movement = move (&at, ROD_LIGHTNESS_LIGHT);
      g_assert_cmpfloat_with_epsilon (movement.expand * values[i].length_mm,
                                      values[i].moves_mm,
                                      1e-9 * values[i].moves_mm);
      g_assert_cmpfloat_with_epsilon (movement.shrink * values[i].length_mm,
                                      values[i].moves_mm,
                                      1e-9 * values[i].moves_mm);
    }
  case_clear (&at);
}

/* EN 1991-1-5:2003, table 5.2: T3, T4, T5 facing south-west or level 18, 30, 42 K (read in a
 * national decree that restates it), facing north-east 0, 2, 4 K (from memory). */
static void
test_solar_gain (void)
{
  static const double south_west[] = { 18, 30, 42 };
  static const double north_east[] = { 0, 2, 4 };

  for (RodLightness shade = ROD_LIGHTNESS_BRIGHT; shade <= ROD_LIGHTNESS_DARK; shade++)
    {
      static const double sunny[] = { 135, 180, 225, 270, 314.9, NAN };
      static const double shady[] = { 0, 45, 90, 134.9, 315, 359 };

      for (guint i = 0; i < G_N_ELEMENTS (sunny); i++)
        g_assert_cmpfloat (rod_solar_gain_k (shade, sunny[i]), ==, south_west[shade]);
      for (guint i = 0; i < G_N_ELEMENTS (shady); i++)
        g_assert_cmpfloat (rod_solar_gain_k (shade, shady[i]), ==, north_east[shade]);
    }
}

/* The same table for air of 36 and −24 °C, boards fixed at 10 °C, 70·10⁻⁶/K and 6000 mm. */
static void
test_published_temperatures (void)
{
  static const struct
  {
    RodLightness lightness;
    double       facing_deg;
    double       hottest_c;
    double       expansion_mm;
  } rows[] = {
    { ROD_LIGHTNESS_DARK, 225, 78, 28.56 },
    { ROD_LIGHTNESS_LIGHT, 225, 66, 23.52 },
    { ROD_LIGHTNESS_BRIGHT, 225, 54, 18.48 },
    { ROD_LIGHTNESS_DARK, 45, 40, 12.60 },
    { ROD_LIGHTNESS_LIGHT, 45, 38, 11.76 },
    { ROD_LIGHTNESS_BRIGHT, 45, 36, 10.92 },
  };
  Case at;

  case_init (&at);
  at.site->air_hottest_c = 36.0;
  at.site->air_coldest_c = -24.0;
  at.site->fixing_c = 10.0;
  at.system->expansion_mm_m_k = 0.07;
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      RodMovement movement;

      at.surface->facing_deg = rows[i].facing_deg;
      movement = move (&at, rows[i].lightness);
      g_assert_cmpfloat (movement.hottest_c, ==, rows[i].hottest_c);
      g_assert_cmpfloat (movement.coldest_c, ==, -24.0);
      g_assert_cmpfloat_with_epsilon (movement.expand * 6000.0, rows[i].expansion_mm, 0.0001);
      g_assert_cmpfloat_with_epsilon (movement.shrink * 6000.0, 14.28, 0.0001);
    }
  case_clear (&at);
}

/* A soffit sees no sun, whatever its surface is said to face. */
static void
test_soffits_lie_in_the_shade (void)
{
  Case at;

  case_init (&at);
  at.site->air_hottest_c = 36.0;
  at.surface->kind = ROD_SURFACE_SOFFIT;
  at.surface->facing_deg = 225.0;
  g_assert_cmpfloat (move (&at, ROD_LIGHTNESS_DARK).hottest_c, ==, 40.0);
  at.surface->facing_deg = NAN;
  g_assert_cmpfloat (move (&at, ROD_LIGHTNESS_DARK).hottest_c, ==, 40.0);
  at.surface->kind = ROD_SURFACE_WALL;
  g_assert_cmpfloat (move (&at, ROD_LIGHTNESS_DARK).hottest_c, ==, 78.0);
  case_clear (&at);
}

/* What is measured on the boards goes before what is derived, each side on its own. */
static void
test_given_board_temperatures (void)
{
  Case        at;
  RodMovement movement;

  case_init (&at);
  at.site->air_hottest_c = 36.0;
  at.site->air_coldest_c = -24.0;
  at.site->face_hottest_c = 60.0;
  movement = move (&at, ROD_LIGHTNESS_DARK);
  g_assert_cmpfloat (movement.hottest_c, ==, 60.0);
  g_assert_cmpfloat (movement.coldest_c, ==, -24.0);
  at.site->face_hottest_c = NAN;
  at.site->face_coldest_c = -20.0;
  movement = move (&at, ROD_LIGHTNESS_DARK);
  g_assert_cmpfloat (movement.hottest_c, ==, 78.0);
  g_assert_cmpfloat (movement.coldest_c, ==, -20.0);
  case_clear (&at);
}

/* Boards that are fixed hotter than they ever get only shrink, and the other way round. */
static void
test_fixing_beyond_the_extremes (void)
{
  Case        at;
  RodMovement movement;

  case_init (&at);
  at.system->expansion_mm_m_k = 0.05;
  at.site->face_coldest_c = 0.0;
  at.site->face_hottest_c = 30.0;
  at.site->fixing_c = 40.0;
  movement = move (&at, ROD_LIGHTNESS_LIGHT);
  g_assert_cmpfloat (movement.expand, ==, 0.0);
  g_assert_cmpfloat_with_epsilon (movement.shrink * 1000.0, 2.0, 1e-12);
  at.site->fixing_c = -10.0;
  movement = move (&at, ROD_LIGHTNESS_LIGHT);
  g_assert_cmpfloat_with_epsilon (movement.expand * 1000.0, 2.0, 1e-12);
  g_assert_cmpfloat (movement.shrink, ==, 0.0);
  case_clear (&at);
}

/* Timber: softwood along the grain 0.01 % for each per cent of moisture, across it 0.24 (DIN EN
 * 1995-1-1/NA, from memory): a 50 mm batten from 20 to 12 % loses 0.96 mm. Heat is left out. */
static void
test_timber_moves_with_moisture (void)
{
  Case        at;
  RodMovement movement;

  case_init (&at);
  at.system->expansion_mm_m_k = 0.005;
  at.site->face_hottest_c = 80.0;
  at.site->face_coldest_c = -30.0;
  at.system->swelling_percent = 0.24;
  at.system->moisture_fixed = 20.0;
  at.system->moisture_low = 12.0;
  at.system->moisture_high = 20.0;
  movement = move (&at, ROD_LIGHTNESS_DARK);
  g_assert_cmpfloat_with_epsilon (movement.shrink * 50.0, 0.96, 1e-12);
  g_assert_cmpfloat (movement.expand, ==, 0.0);

  /* A board of 5 m along the grain, fixed at 16 %, between 10 and 22 %: 3 mm either way. */
  at.system->swelling_percent = 0.01;
  at.system->moisture_fixed = 16.0;
  at.system->moisture_low = 10.0;
  at.system->moisture_high = 22.0;
  movement = move (&at, ROD_LIGHTNESS_DARK);
  g_assert_cmpfloat_with_epsilon (movement.shrink * 5000.0, 3.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (movement.expand * 5000.0, 3.0, 1e-12);
  case_clear (&at);
}

/* Convention K of the hand-worked jobs: δ = 1, least engagement 5, no least gap. */
static RodRules
convention_k (void)
{
  RodRules rules = { .tolerance_mm = 1.0, .min_engagement_mm = 5.0, .min_gap_mm = 0.0 };

  return rules;
}

/* Hand-worked gaps, rule R27: g = ⌈α·r·(60 − T) + 1⌉, and what stays in a pocket of 25 at −20 °C is
 * 25 − g − α·r·(T + 20) − 1, α = 0.07 mm/(m·K). */
static void
test_worked_gaps (void)
{
  static const struct
  {
    double fixing_c;
    double run_mm;
    double gap_mm;
    double engagement_mm;
  } jobs[] = {
    { 15, 1998, 8, 11.1 }, /* ⌈6.29 + 1⌉; 25 − 8 − 4.90 − 1 */
    { 15, 2646, 10, 7.5 }, /* held at the top: ⌈8.33 + 1⌉; 25 − 10 − 6.48 − 1 */
    { 15, 714, 4, 18.25 }, /* jamb of 1428: ⌈2.25 + 1⌉; 25 − 4 − 1.75 − 1 */
    { 15, 2898, 11, 5.9 }, /* 5796 between pockets: ⌈9.13 + 1⌉; 25 − 11 − 7.10 − 1 */
    { 5, 2500, 11, 8.6 },  /* a board of 5 m at 5 °C: ⌈9.63 + 1⌉; 25 − 11 − 4.38 − 1 */
    { 32, 2500, 6, 8.9 },  /* and at 32 °C: ⌈4.9 + 1⌉; 25 − 6 − 9.1 − 1 */
    { 60, 2500, 1, 9.0 },  /* hottest: only the error; 25 − 1 − 14 − 1 */
    { 15, 0, 1, 23.0 },    /* the fixed point itself */
  };
  const RodRules rules = convention_k ();
  Case           at;

  case_init (&at);
  at.system->expansion_mm_m_k = 0.07;
  at.site->face_hottest_c = 60.0;
  at.site->face_coldest_c = -20.0;
  for (guint i = 0; i < G_N_ELEMENTS (jobs); i++)
    {
      RodMovement movement;
      double      gap_mm;

      at.site->fixing_c = jobs[i].fixing_c;
      movement = move (&at, ROD_LIGHTNESS_LIGHT);
      gap_mm = rod_gap_mm (movement.expand, jobs[i].run_mm, &rules);
      g_assert_cmpfloat (gap_mm, ==, jobs[i].gap_mm);
      g_assert_cmpfloat_with_epsilon (rod_engagement_mm (movement.shrink,
                                                         jobs[i].run_mm,
                                                         25.0,
                                                         gap_mm,
                                                         &rules),
                                      jobs[i].engagement_mm,
                                      0.051);
    }
  case_clear (&at);
}

/* The gap for 32 °C used at 5 °C lets a board of 5 m touch the pocket's bottom, tolerance used up,
 * at 5 + 5/(0.07·2.5) = 33.6 °C: for anything hotter 6 mm are too little. */
static void
test_gap_of_another_day (void)
{
  const RodRules rules = convention_k ();
  Case           at;

  case_init (&at);
  at.system->expansion_mm_m_k = 0.07;
  at.site->face_coldest_c = -20.0;
  at.site->fixing_c = 5.0;
  at.site->face_hottest_c = 33.5;
  g_assert_cmpfloat (rod_gap_mm (move (&at, ROD_LIGHTNESS_LIGHT).expand, 2500, &rules), ==, 6.0);
  at.site->face_hottest_c = 33.6;
  g_assert_cmpfloat (rod_gap_mm (move (&at, ROD_LIGHTNESS_LIGHT).expand, 2500, &rules), ==, 7.0);
  case_clear (&at);
}

/* A quarter of an inch at either end of a board of 12 ft, siding of PVC over 50 K (ASTM D4756,
 * clause from memory): 70·10⁻⁶ · 1830 · 50 = 6.405, so that an error of 0.59 still makes 7 and one
 * of 0.60 makes 8. */
static void
test_quarter_inch_rule (void)
{
  const RodRules exact = { .tolerance_mm = 0.0, .min_gap_mm = 0.0 };
  const RodRules low = { .tolerance_mm = 0.59 };
  const RodRules high = { .tolerance_mm = 0.60 };

  g_assert_cmpfloat (rod_gap_mm (70e-6 * 50.0, 1830.0, &low), ==, 7.0);
  g_assert_cmpfloat (rod_gap_mm (70e-6 * 50.0, 1830.0, &high), ==, 8.0);
  g_assert_cmpfloat (rod_gap_mm (70e-6 * 50.0, 1830.0, &exact), ==, 7.0);
  /* Whole millimetres that come out exact are not rounded up any more. */
  g_assert_cmpfloat (rod_gap_mm (1e-3, 6000.0, &exact), ==, 6.0);
  g_assert_cmpfloat (rod_gap_mm (1e-3, 6000.01, &exact), ==, 7.0);
}

static void
test_least_gap (void)
{
  RodRules rules = convention_k ();

  rules.min_gap_mm = 10.0;
  g_assert_cmpfloat (rod_gap_mm (3.15e-3, 1998.0, &rules), ==, 10.0);
  g_assert_cmpfloat (rod_gap_mm (3.15e-3, 3998.0, &rules), ==, 14.0);
}

/* Both sides of rule R27 can hold only if the pocket is at least as deep as engagement, two errors
 * and the whole movement: with exactly that and a gap that need not be rounded, what stays in the
 * pocket is just the engagement. */
static void
test_least_pocket (void)
{
  const RodRules rules = convention_k ();

  for (int n = 0; n < 500; n++)
    {
      double expand = g_test_rand_double_range (0.0, 4e-3);
      double shrink = g_test_rand_double_range (0.0, 4e-3);
      double gap_mm = g_test_rand_int_range (2, 20);
      /* The run whose hot side needs just this gap. */
      double run_mm = (gap_mm - rules.tolerance_mm) / MAX (expand, 1e-4);
      double pocket_mm = rules.min_engagement_mm + 2.0 * rules.tolerance_mm +
                         (MAX (expand, 1e-4) + shrink) * run_mm;

      g_assert_cmpfloat (rod_gap_mm (MAX (expand, 1e-4), run_mm, &rules), ==, gap_mm);
      g_assert_cmpfloat_with_epsilon (rod_engagement_mm (shrink, run_mm, pocket_mm, gap_mm, &rules),
                                      rules.min_engagement_mm,
                                      1e-6);
    }
}

/* A longer run never needs less of a gap and never keeps more in its pocket. */
static void
test_longer_runs_need_more (void)
{
  const RodRules rules = convention_k ();
  double         last_gap_mm = 0.0, last_left_mm = 100.0;

  for (double run_mm = 0.0; run_mm < 6000.0; run_mm += 37.0)
    {
      double gap_mm = rod_gap_mm (3.15e-3, run_mm, &rules);
      double left_mm = rod_engagement_mm (2.45e-3, run_mm, 25.0, gap_mm, &rules);

      g_assert_cmpfloat (gap_mm, >=, last_gap_mm);
      g_assert_cmpfloat (gap_mm, >=, 3.15e-3 * run_mm + 1.0);
      g_assert_cmpfloat (gap_mm, <, 3.15e-3 * run_mm + 2.0);
      g_assert_cmpfloat (left_mm, <=, last_left_mm);
      last_gap_mm = gap_mm;
      last_left_mm = left_mm;
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/movement/published-coefficients", test_published_coefficients);
  g_test_add_func ("/movement/solar-gain", test_solar_gain);
  g_test_add_func ("/movement/published-temperatures", test_published_temperatures);
  g_test_add_func ("/movement/soffits-lie-in-the-shade", test_soffits_lie_in_the_shade);
  g_test_add_func ("/movement/given-board-temperatures", test_given_board_temperatures);
  g_test_add_func ("/movement/fixing-beyond-the-extremes", test_fixing_beyond_the_extremes);
  g_test_add_func ("/movement/timber-moves-with-moisture", test_timber_moves_with_moisture);
  g_test_add_func ("/movement/worked-gaps", test_worked_gaps);
  g_test_add_func ("/movement/gap-of-another-day", test_gap_of_another_day);
  g_test_add_func ("/movement/quarter-inch-rule", test_quarter_inch_rule);
  g_test_add_func ("/movement/least-gap", test_least_gap);
  g_test_add_func ("/movement/least-pocket", test_least_pocket);
  g_test_add_func ("/movement/longer-runs-need-more", test_longer_runs_need_more);

  return g_test_run ();
}
