/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Battens by purpose, then fill (rules B1 to B4 and R23 in docs/rules.md; common practice where
 * nothing else is said). Convention K: battens 50 wide, 50 from edges, 40 from joints, at most 400
 * apart, 20 short of sills and heads. */

#include "support/planned-house.h"

#include "engine/frame/rod-batten-lines.h"
#include "engine/frame/rod-supports.h"
#include "engine/rod-limits.h"

#include <math.h>

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 0.002)

#define WIDTH_MM 50.0
#define CENTRES_MM 400.0

static RodPlan *
plan_surface (const char *system,
              const char *kind,
              double      width,
              double      height,
              const char *more)
{
  return planned_house (
    surveyed_house (system, SURVEYED (surveyed_box ("a", kind, width, height, more)), NULL));
}

static gint
compare_places (gconstpointer a,
                gconstpointer b)
{
  return (*(const double *) a > *(const double *) b) - (*(const double *) a < *(const double *) b);
}

/* Places of a field's straight battens of one layer across them, each line once, in order. */
static GArray *
lines_of (const RodPlan *plan,
          guint          field,
          gboolean       counter)
{
  const RodField *of = rod_plan_field (plan, field);
  GArray         *lines = g_array_new (FALSE, FALSE, sizeof (double));
  int             last = 0;

  for (guint b = of->first_batten; b < of->first_batten + of->n_battens; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);
      gboolean            upright = fabs (run->from.x - run->to.x) < 0.001;
      double              at = upright ? run->from.x : run->from.y;

      if (run->counter != counter || run->line == last || (run->uses & ROD_BATTEN_PIECE) != 0 ||
          (!upright && fabs (run->from.y - run->to.y) > 0.001))
        continue;
      last = run->line;
      g_array_append_val (lines, at);
    }
  g_array_sort (lines, compare_places);
  return lines;
}

static void
assert_lines (const RodPlan *plan,
              gboolean       counter,
              const double  *expected,
              guint          n)
{
  g_autoptr (GArray) lines = lines_of (plan, 0, counter);

  g_assert_cmpuint (lines->len, ==, n);
  for (guint i = 0; i < n; i++)
    assert_mm (g_array_index (lines, double, i), expected[i]);
}

#define PLACES(...) ((const double[]){ __VA_ARGS__ })
#define ASSERT_LINES(plan, counter, ...) \
  assert_lines (plan, counter, PLACES (__VA_ARGS__), G_N_ELEMENTS (PLACES (__VA_ARGS__)))

/* One bay more as soon as the centres would be exceeded. */
static void
test_even_fill (void)
{
  g_autoptr (RodPlan) three = plan_surface ("k-250", "wall", 1300, 2400, "");
  g_autoptr (RodPlan) four = plan_surface ("k-250", "wall", 1301, 2400, "");

  ASSERT_LINES (three, FALSE, 50, 450, 850, 1250);
  ASSERT_LINES (four, FALSE, 50, 350.25, 650.5, 950.75, 1251);
}

/* Level battens under upright boards, on walls at batten_centres_mm, on soffits at their own. */
static void
test_direction (void)
{
  RodHouse *house;
  g_autoptr (RodPlan) wall = NULL;
  g_autoptr (RodPlan) soffit = NULL;

  wall = plan_surface ("k-200", "wall", 2000, 1300, ", 'direction_deg': 90");
  ASSERT_LINES (wall, FALSE, 50, 450, 850, 1250);

  house = surveyed_house ("k-250",
                          SURVEYED (surveyed_box ("a", "soffit", 1300, 700, "")),
                          NULL);
  planned_system (house)->rules->soffit_centres_mm = 300.0;
  soffit = planned_house (house);
  ASSERT_LINES (soffit, FALSE, 50, 350, 650, 950, 1250);
}

/* Diagonal boards: the distance along the boards counts, so that upright battens stand a·cos θ
 * apart; steeper than 45° they lie level, a·sin θ apart. */
static void
test_diagonal_pitch (void)
{
  static const struct
  {
    double   direction_deg;
    gboolean upright;
    double   pitch_mm;
  } cases[] = {
    { 0, TRUE, 400 },
    { 30, TRUE, 346.410 },
    { -30, TRUE, 346.410 },
    { 45, TRUE, 282.843 },
    { 46, FALSE, 287.736 },
    { 60, FALSE, 346.410 },
    { -60, FALSE, 346.410 },
    { 90, FALSE, 400 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *more = g_strdup_printf (", 'direction_deg': %.1f", cases[i].direction_deg);
      g_autoptr (RodPlan) plan = plan_surface ("k-250", "wall", 4000, 3000, more);
      g_autoptr (GArray) lines = lines_of (plan, 0, FALSE);
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, 0);

      g_assert_cmpint (rod_battens_upright (cases[i].direction_deg), ==, cases[i].upright);
      assert_mm (rod_batten_pitch_mm (400.0, cases[i].direction_deg), cases[i].pitch_mm);
      g_assert_cmpint (fabs (run->from.x - run->to.x) < 0.001, ==, cases[i].upright);
      g_assert_cmpuint (lines->len,
                        ==,
                        (guint) ceil ((cases[i].upright ? 3900 : 2900) / cases[i].pitch_mm) + 1);
    }
}

/* Round a window: 50 beside either jamb, as high as the wall; under and over it they stop 20 short
 * of sill and head. */
static void
test_opening (void)
{
  g_autoptr (RodPlan) plan = NULL;
  int full = 0, below = 0, above = 0;

  plan = plan_surface ("k-250",
                       "wall",
                       3000,
                       2400,
                       ", 'openings': [{'id': 'w', 'x': 1000, 'y': 900, 'width_mm': 1000, "
                       "'height_mm': 1100}]");
  ASSERT_LINES (plan, FALSE, 50, 350, 650, 950, 1316.667, 1683.333, 2050, 2350, 2650, 2950);
  for (guint b = 0; b < plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

      full += fabs (run->length_mm - 2400.0) < 0.002;
      below += fabs (run->length_mm - 880.0) < 0.002;
      above += fabs (run->length_mm - 380.0) < 0.002;
      if (fabs (run->from.x - 950.0) < 0.002)
        g_assert_cmpuint (run->uses, ==, ROD_BATTEN_OPENING);
      if (fabs (run->from.x - 50.0) < 0.002)
        g_assert_cmpuint (run->uses, ==, ROD_BATTEN_EDGE);
      if (fabs (run->from.x - 350.0) < 0.002)
        g_assert_cmpuint (run->uses, ==, ROD_BATTEN_FIELD);
    }
  g_assert_cmpint (full, ==, 8);
  g_assert_cmpint (below, ==, 2);
  g_assert_cmpint (above, ==, 2);
}

/* Level battens beside a window: 60 from its side to the corner, less 20 of air, are 40 long,
 * shorter than they are wide. Boards that stand there rest on them all the same. Less than 30 is no
 * batten: screws need 15 to either end. */
static void
test_short_level_battens (void)
{
  static const int widths[] = { 1460, 1450, 1449 };

  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      g_autoptr (RodPlan) plan = NULL;
      int beside = 0;

      plan = plan_surface ("k-200",
                           "wall",
                           widths[i],
                           2400,
                           ", 'direction_deg': 90, 'openings': [{'id': 'w', 'x': 400, 'y': 600, "
                           "'width_mm': 1000, 'height_mm': 1200}]");
      for (guint b = 0; b < plan->battens->len; b++)
        {
          const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

          if (run->from.x < 1400.0 || (run->uses & ROD_BATTEN_PIECE) != 0)
            continue;
          beside++;
          assert_mm (run->length_mm, widths[i] - 1420.0);
        }
      /* From 550 below the sill to 1850 above the head, filled at 400: 3 between. */
      g_assert_cmpint (beside, ==, widths[i] >= 1450 ? 3 : 0);
    }
}

/* A pipe is no opening to the battens beside it: they only stop at its hole, without an air gap. */
static void
test_pipe (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_surface ("k-250",
                       "wall",
                       1300,
                       2400,
                       ", 'openings': [{'id': 'p', 'kind': 'pipe', 'x': 400, 'y': 1000, "
                       "'width_mm': 100, 'height_mm': 100}]");
  ASSERT_LINES (plan, FALSE, 50, 450, 850, 1250);
  g_assert_cmpuint (plan->battens->len, ==, 5);
  assert_mm (g_array_index (plan->battens, RodBattenRun, 1).length_mm, 1000.0);
  assert_mm (g_array_index (plan->battens, RodBattenRun, 2).length_mm, 1300.0);
}

/* Boards end at a round window too: there are battens 50 beside its widest places. */
static void
test_round_window (void)
{
  g_autoptr (RodPlan) level = NULL;
  g_autoptr (RodPlan) upright = NULL;

  level = plan_surface ("k-250",
                        "wall",
                        2600,
                        2400,
                        ", 'openings': [{'id': 'o', 'shape': 'circle', 'x': 1300, 'y': 1200, "
                        "'width_mm': 900}]");
  ASSERT_LINES (level, FALSE, 50, 425, 800, 1133.333, 1466.667, 1800, 2175, 2550);
  upright = plan_surface ("k-200",
                          "wall",
                          2600,
                          2400,
                          ", 'direction_deg': 90, 'openings': [{'id': 'o', 'shape': 'circle', "
                          "'x': 1300, 'y': 1200, 'width_mm': 900}]");
  ASSERT_LINES (upright, FALSE, 50, 375, 700, 1033.333, 1366.667, 1700, 2025, 2350);
}

/* An arch needs no more than its jambs do. */
static void
test_arched_window (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_surface ("k-250",
                       "wall",
                       3000,
                       2600,
                       ", 'openings': [{'id': 'w', 'shape': 'arch', 'x': 1000, 'y': 900, "
                       "'width_mm': 1000, 'height_mm': 1100, 'rise_mm': 300}]");
  ASSERT_LINES (plan, FALSE, 50, 350, 650, 950, 1316.667, 1683.333, 2050, 2350, 2650, 2950);
}

/* Needed lines nearer to each other than a batten is wide are served by one between them. In a pier
 * with room for two the boards want two, side by side (rule R23). */
static void
test_near_lines_become_one (void)
{
  g_autoptr (RodPlan) one = NULL;
  g_autoptr (RodPlan) side_by_side = NULL;
  g_autoptr (RodPlan) two = NULL;

  /* A pier of 105: 950 + 50 … 1055 − 50: 5 apart. Its boards of 105 − 4 − 2 · 2 … are 97 long. */
  one = plan_surface ("k-250",
                      "wall",
                      2005,
                      2400,
                      ", 'openings': [{'id': 'v', 'x': 250, 'y': 900, 'width_mm': 700, "
                      "'height_mm': 800}, {'id': 'w', 'x': 1055, 'y': 900, 'width_mm': 700, "
                      "'height_mm': 800}]");
  ASSERT_LINES (one,
                FALSE,
                50,
                200,
                467.5,
                735,
                1002.5,
                1270,
                1537.5,
                1805,
                1955);

  /* A pier of 130: 950 + 50 … 1080 − 50: 30 apart, with 1015 between; two there are 990 and 1040.
   */
  side_by_side = plan_surface ("k-250",
                               "wall",
                               2030,
                               2400,
                               ", 'openings': [{'id': 'v', 'x': 250, 'y': 900, 'width_mm': 700, "
                               "'height_mm': 800}, {'id': 'w', 'x': 1080, 'y': 900, "
                               "'width_mm': 700, 'height_mm': 800}]");
  ASSERT_LINES (
    side_by_side, FALSE, 50, 200, 471.667, 743.333, 990, 1040, 1286.667, 1558.333, 1830, 1980);
  g_assert_null (planned_finding (side_by_side, "few-battens"));

  /* A pier of 150: 50 apart, side by side. */
  two = plan_surface ("k-250",
                      "wall",
                      2050,
                      2400,
                      ", 'openings': [{'id': 'v', 'x': 250, 'y': 900, 'width_mm': 700, "
                      "'height_mm': 800}, {'id': 'w', 'x': 1100, 'y': 900, 'width_mm': 700, "
                      "'height_mm': 800}]");
  ASSERT_LINES (two, FALSE, 50, 200, 600, 1000, 1050, 1450, 1850, 2000);
}

/* Jambs over one another that step by 30: needed at 1050, 1080, 1110 and 1140. One batten serves
 * what lies under it, not a whole flight of steps. */
static void
test_steps_of_near_lines (void)
{
  static const double needed[] = { 1050, 1080, 1110, 1140 };
  g_autoptr (GString) more = g_string_new (", 'openings': [");
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (GArray) lines = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    g_string_append_printf (more,
                            "%s{'id': 'w%u', 'x': 200, 'y': %u, 'width_mm': %.0f, "
                            "'height_mm': 400}",
                            i > 0 ? ", " : "",
                            i,
                            300 + 500 * i,
                            needed[i] - 50.0 - 200.0);
  g_string_append (more, "]");
  plan = plan_surface ("k-250", "wall", 2000, 2600, more->str);
  lines = lines_of (plan, 0, FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    {
      double nearest = INFINITY;

      for (guint k = 0; k < lines->len; k++)
        nearest = MIN (nearest, fabs (g_array_index (lines, double, k) - needed[i]));
      g_assert_cmpfloat (nearest, <=, WIDTH_MM / 2.0);
    }
}

/* A joint keeps its two battens 40 to either side, even where an edge would like one between; what
 * lies near one of them makes use of it. */
static void
test_joint_keeps_its_battens (void)
{
  g_autoptr (RodPlan) plan = NULL;
  int joint = 0;

  /* 8000 wide: even at 4000, which a jamb's line at 3950 draws to itself; its batten at 3900 lies
   * 10 beside the joint's at 3910. */
  plan = plan_surface ("k-250",
                       "wall",
                       8000,
                       2400,
                       ", 'openings': [{'id': 'w', 'x': 3950, 'y': 800, 'width_mm': 1000, "
                       "'height_mm': 1000}]");
  for (guint b = 0; b < plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

      if ((run->uses & ROD_BATTEN_JOINT) == 0)
        {
          g_assert_cmpfloat (fabs (run->from.x - 3950.0), >, 45.0);
          continue;
        }
      joint++;
      assert_mm (fabs (run->from.x - 3950.0), 40.0);
      if (run->from.x < 3950.0)
        g_assert_cmpuint (run->uses, ==, ROD_BATTEN_JOINT | ROD_BATTEN_OPENING);
    }
  /* The left one as a whole, the right one below and above the window. */
  g_assert_cmpint (joint, ==, 3);
}

/* Battens at corners are told apart, on both faces; the batten face grows by the build-up. */
static void
test_corners (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 1240, 2400, ", 'build_up_mm': 60"),
              surveyed_box ("b", "wall", 1240, 2400, ", 'build_up_mm': 60")),
    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
  ASSERT_LINES (plan, FALSE, 50, 450, 850, 1250);
  for (guint b = 0; b < plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

      if ((run->field == 0 && run->from.x > 1200.0) || (run->field == 1 && run->from.x < 0.0))
        g_assert_cmpuint (run->uses, ==, ROD_BATTEN_CORNER);
      else
        g_assert_cmpuint (run->uses & ROD_BATTEN_CORNER, ==, 0);
    }
  assert_mm (g_array_index (plan->battens, RodBattenRun, 4).from.x, -10.0);
}

static RodPlan *
plan_corners (const char *system,
              const char *corners,
              const char *more)
{
  char *surface = g_strdup_printf ("{'id': 'a', 'kind': 'wall', 'system': 'k', "
                                   "'outline': [%s]%s}",
                                   corners,
                                   more);

  return planned_house (surveyed_house (system, SURVEYED (surface), NULL));
}

static int
count_slanting (const RodPlan *plan,
                double         slope)
{
  int count = 0;

  for (guint b = 0; b < plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);
      double              dx = run->to.x - run->from.x, dy = run->to.y - run->from.y;

      count += fabs (dx) > 0.01 && fabs (dy / dx - slope) < 1e-6;
    }
  return count;
}

/* Along the rakes of a gable one batten each, 50 inside them, square to them. */
static void
test_gable (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_corners ("k-250",
                       "{'x': 0, 'y': 0}, {'x': 5000, 'y': 0}, {'x': 2500, 'y': 2500}",
                       "");
  g_assert_cmpint (count_slanting (plan, 1.0), ==, 1);
  g_assert_cmpint (count_slanting (plan, -1.0), ==, 1);
  for (guint b = 0; b < plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

      double rise = (run->to.y - run->from.y) * (run->to.x - run->from.x);

      if (fabs (run->from.x - run->to.x) < 0.01)
        continue;
      /* The rakes are y = x and y = 5000 − x. */
      if (rise > 0.0)
        assert_mm ((run->from.x - run->from.y) / G_SQRT2, 50.0);
      else
        assert_mm ((5000.0 - run->from.x - run->from.y) / G_SQRT2, 50.0);
      g_assert_cmpuint (run->uses, ==, ROD_BATTEN_EDGE);
    }
}

/* Under rakes of 45° upright battens, 50 wide like the one along the rake, end clear of it: its
 * lower side lies (50 + 25)·√2 = 106.07 below the rake, and 25 further down it meets the upright's
 * lower corner. At the apex the slanting ones are mitred: their axes end 50 from either rake. */
static void
test_clear_of_rakes (void)
{
  g_autoptr (RodPlan) plan = NULL;
  int    upright = 0, mitred = 0;
  double below_mm = 75.0 * G_SQRT2 + 25.0;

  plan = plan_corners ("k-250",
                       "{'x': 0, 'y': 0}, {'x': 5000, 'y': 0}, {'x': 2500, 'y': 2500}",
                       "");
  for (guint b = 0; b < plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);
      RodPoint            top = run->to.y > run->from.y ? run->to : run->from;

      if (run->uses & ROD_BATTEN_PIECE)
        continue;
      if (fabs (run->from.x - run->to.x) < 0.01)
        {
          assert_mm (top.y, MIN (top.x, 5000.0 - top.x) - below_mm);
          upright++;
          continue;
        }
      assert_mm ((top.x - top.y) / G_SQRT2, 50.0);
      assert_mm ((5000.0 - top.x - top.y) / G_SQRT2, 50.0);
      mitred++;
    }
  g_assert_cmpint (upright, >, 9);
  g_assert_cmpint (mitred, ==, 2);
}

/* A base that falls a little is no rake: boards lie along it, upright battens cross it, and one
 * along it would dam the cavity. Upright boards end at it and want one. */
static void
test_falling_base (void)
{
  g_autoptr (RodPlan) level = NULL;
  g_autoptr (RodPlan) upright = NULL;
  const char *corners = "{'x': 0, 'y': 0}, {'x': 4000, 'y': -200}, {'x': 4000, 'y': 2400}, "
                        "{'x': 0, 'y': 2400}";

  level = plan_corners ("k-250", corners, "");
  g_assert_cmpint (count_slanting (level, -0.05), ==, 0);
  upright = plan_corners ("k-200", corners, ", 'direction_deg': 90");
  g_assert_cmpint (count_slanting (upright, -0.05), ==, 1);
}

/* Below a rake no edge runs along the battens at the wall's end: the frame begins there all the
 * same. */
static void
test_frame_begins_at_the_ends (void)
{
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (GArray) lines = NULL;

  plan = plan_corners ("k-250",
                       "{'x': 0, 'y': 0}, {'x': 4000, 'y': 0}, {'x': 2000, 'y': 3000}",
                       "");
  lines = lines_of (plan, 0, FALSE);
  /* What would stand at 50, 75 high, lies in the battens along the rakes; bays of 390 count from
   * there. */
  assert_mm (g_array_index (lines, double, 0), 440.0);
  assert_mm (g_array_index (lines, double, lines->len - 1), 3560.0);
}

/* Rule B1: level battens would dam the cavity of a wall; they ride on upright ones behind. */
static void
test_counter_battens (void)
{
  static const char *const kinds[] = { "wall", "soffit" };

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      RodHouse  *house = surveyed_house ("k-200",
                                        SURVEYED (surveyed_box ("a",
                                                                kinds[i],
                                                                1900,
                                                                1300,
                                                                ", 'direction_deg': 90")),
                                        NULL);
      RodSystem *system = planned_system (house);
      g_autoptr (RodPlan) plan = NULL;

      system->counter_batten = rod_record_ref (system->batten);
      system->rules->counter_centres_mm = 600.0;
      plan = planned_house (house);
      ASSERT_LINES (plan, FALSE, 50, 450, 850, 1250);
      if (i == 0)
        ASSERT_LINES (plan, TRUE, 50, 650, 1250, 1850);
      for (guint b = 0; b < plan->battens->len; b++)
        {
          const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

          g_assert_cmpint (run->counter, ==, fabs (run->from.x - run->to.x) < 0.001);
          if (run->counter)
            assert_mm (run->length_mm, 1300.0);
        }
      g_assert_cmpuint (plan->battens->len, ==, i == 0 ? 8 : 4);
    }
}

/* Under level boards there is nothing to ride on. */
static void
test_no_counter_battens_under_level_boards (void)
{
  RodHouse *house = surveyed_house ("k-250",
                                    SURVEYED (surveyed_box ("a", "wall", 1900, 1300, "")),
                                    NULL);
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (GArray) counters = NULL;

  planned_system (house)->counter_batten = rod_record_ref (planned_system (house)->batten);
  plan = planned_house (house);
  counters = lines_of (plan, 0, TRUE);
  g_assert_cmpuint (counters->len, ==, 0);
}

/* The piece that a short batten stands behind: the one that holds its middle. */
static const RodPiece *
piece_over (const RodPlan      *plan,
            const RodBattenRun *run)
{
  const RodField *field = rod_plan_field (plan, run->field);
  RodPoint        middle = { (run->from.x + run->to.x) / 2.0, (run->from.y + run->to.y) / 2.0 };
  RodPoint        at = rod_affine_apply (field->to_board, middle);

  for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);
      double          low, high;

      rod_plan_piece_extent (plan, piece, &low, &high);
      if (at.y > piece->line_mm + piece->low_mm && at.y < piece->line_mm + piece->high_mm &&
          at.x > low && at.x < high)
        return piece;
    }
  g_error ("no piece at %.1f, %.1f", middle.x, middle.y);
}

/* Rule R23: a piece that falls between the lines, such as the last ones of diagonal boards in a
 * corner, gets short battens as long as it is wide, square to it. */
static void
test_short_battens (void)
{
  int short_ones = 0;

  for (int width = 1500; width < 4000; width += 173)
    {
      g_autoptr (RodPlan) plan = NULL;

      plan = plan_surface ("k-250", "wall", width, 2400, ", 'direction_deg': 45");
      g_assert_null (planned_finding (plan, "few-battens"));
      for (guint b = 0; b < plan->battens->len; b++)
        {
          const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);
          const RodPiece     *piece;

          if ((run->uses & ROD_BATTEN_PIECE) == 0)
            continue;
          short_ones++;
          piece = piece_over (plan, run);
          assert_mm (run->length_mm, piece->width_mm);
          assert_mm (rod_point_distance (run->from, run->to), piece->width_mm);
          /* Square to boards that climb to the right: it climbs to the left. */
          assert_mm (run->to.x - run->from.x, run->from.y - run->to.y);
        }
    }
  g_assert_cmpint (short_ones, >, 5);
}

/* A batten under the middle of a piece is one batten, not one for each half. */
static void
test_middle_batten_counts_once (void)
{
  g_autoptr (GArray) supports = g_array_new (FALSE, FALSE, sizeof (RodSupport));
  const RodSupport middle = { { 500, 0 }, { 500, 1000 } };

  g_array_append_val (supports, middle);
  g_assert_cmpint (rod_supports_count (supports, 400, 600, 500), ==, 1);
  g_assert_cmpint (rod_supports_count (supports, 400, 499, 500), ==, 0);
  g_assert_cmpint (rod_supports_count (supports, 500, 600, 500), ==, 1);
  g_assert_cmpint (rod_supports_count (supports, 400, 600, 1001), ==, 0);
}

/* A triangle in a wall's top: its topmost piece lies over a single line, right in the middle. It
 * gets the batten that it lacks. */
static void
test_piece_over_a_single_batten (void)
{
  RodHouse *house =
    surveyed_house ("k-250",
                    SURVEYED (g_strdup (
                      "{'id': 'a', 'kind': 'wall', 'system': 'k', 'joint_line_mm': 0, 'outline': ["
                      "{'x': 0, 'y': 0}, {'x': 800, 'y': 0}, {'x': 800, 'y': 700}, "
                      "{'x': 550, 'y': 700}, {'x': 550, 'y': 1200}, {'x': 250, 'y': 1200}, "
                      "{'x': 250, 'y': 700}, {'x': 0, 'y': 700}]}")),
                    NULL);
  g_autoptr (RodPlan) plan = NULL;

  /* The tower is 300 wide. Battens 150 from its sides would both lie on its axis and become one. */
  planned_system (house)->rules->batten_edge_mm = 150.0;
  plan = planned_house (house);
  g_assert_null (planned_finding (plan, "few-battens"));
  for (guint p = 0; p < plan->pieces->len; p++)
    g_assert_cmpint (rod_plan_piece (plan, p)->battens, >=, 2);
}

/* Whatever the windows: no two lines further apart than the centres over the boards they carry, and
 * a batten within half its width of every place that needs one. */
static void
test_random_windows (void)
{
  for (int n = 0; n < 100; n++)
    {
      g_autoptr (GString) more = g_string_new (", 'openings': [");
      g_autoptr (GArray) needed = g_array_new (FALSE, FALSE, sizeof (double));
      g_autoptr (RodPlan) plan = NULL;
      g_autoptr (GArray) lines = NULL;
      double width = g_test_rand_int_range (1500, 5900), x = 100.0;
      double ends[] = { 50.0, width - 50.0 };

      g_array_append_vals (needed, ends, 2);
      for (guint w = 0; w < 5; w++)
        {
          double left = x + g_test_rand_int_range (20, 700);
          double right = left + g_test_rand_int_range (150, 900);
          double sides[] = { left - 50.0, right + 50.0 };

          if (right > width - 150.0)
            break;
          g_string_append_printf (more,
                                  "%s{'id': 'w%u', 'x': %.1f, 'y': %d, 'width_mm': %.1f, "
                                  "'height_mm': 400}",
                                  w > 0 ? ", " : "",
                                  w,
                                  left,
                                  g_test_rand_int_range (300, 1500),
                                  right - left);
          g_array_append_vals (needed, sides, 2);
          x = right;
        }
      g_string_append (more, "]");
      plan = plan_surface ("k-250", "wall", width, 2400, more->str);
      lines = lines_of (plan, 0, FALSE);
      for (guint i = 0; i + 1 < lines->len; i++)
        {
          double apart_mm = g_array_index (lines, double, i + 1) - g_array_index (lines, double, i);

          g_assert_cmpfloat (apart_mm, <=, CENTRES_MM + ROD_EPSILON_MM);
          g_assert_cmpfloat (apart_mm, >=, WIDTH_MM - ROD_EPSILON_MM);
        }
      for (guint i = 0; i < needed->len; i++)
        {
          double nearest = INFINITY;

          for (guint k = 0; k < lines->len; k++)
            nearest = MIN (nearest,
                           fabs (g_array_index (lines, double, k) -
                                 g_array_index (needed, double, i)));
          g_assert_cmpfloat (nearest, <=, WIDTH_MM / 2.0 + ROD_EPSILON_MM);
        }
    }
}

/* Battens of 50 cm²/m of free area: t·(1 − b/s)·1000 with 20 deep, 50 wide, 600 apart is 183.33 cm²
 * for each metre (arithmetic; DIN 18516-1 as restated in a glossary asks for 50): the frame as laid
 * out keeps what the sum promises. */
static void
test_free_area (void)
{
  RodHouse *house = surveyed_house ("k-250",
                                    SURVEYED (surveyed_box ("a", "wall", 12100, 2400, "")),
                                    NULL);
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (GArray) lines = NULL;
  double free_mm;

  planned_system (house)->rules->batten_centres_mm = 600.0;
  ((RodStock *) g_ptr_array_index (
     ((RodBoard *) g_ptr_array_index (planned_system (house)->boards, 0))->stock, 0))
    ->length_mm = 20000.0;
  plan = planned_house (house);
  lines = lines_of (plan, 0, FALSE);
  /* Between the first and the last of 21 lines: 20 bays of 600, 550 free in each. */
  g_assert_cmpuint (lines->len, ==, 21);
  free_mm = g_array_index (lines, double, 20) - g_array_index (lines, double, 0) - 20 * WIDTH_MM;
  g_assert_cmpfloat_with_epsilon (free_mm / 12000.0 * 20.0 * 1000.0 / 100.0, 183.33, 0.01);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/battens/even-fill", test_even_fill);
  g_test_add_func ("/battens/direction", test_direction);
  g_test_add_func ("/battens/diagonal-pitch", test_diagonal_pitch);
  g_test_add_func ("/battens/opening", test_opening);
  g_test_add_func ("/battens/short-level-battens", test_short_level_battens);
  g_test_add_func ("/battens/pipe", test_pipe);
  g_test_add_func ("/battens/round-window", test_round_window);
  g_test_add_func ("/battens/arched-window", test_arched_window);
  g_test_add_func ("/battens/near-lines-become-one", test_near_lines_become_one);
  g_test_add_func ("/battens/steps-of-near-lines", test_steps_of_near_lines);
  g_test_add_func ("/battens/joint-keeps-its-battens", test_joint_keeps_its_battens);
  g_test_add_func ("/battens/corners", test_corners);
  g_test_add_func ("/battens/gable", test_gable);
  g_test_add_func ("/battens/clear-of-rakes", test_clear_of_rakes);
  g_test_add_func ("/battens/falling-base", test_falling_base);
  g_test_add_func ("/battens/frame-begins-at-the-ends", test_frame_begins_at_the_ends);
  g_test_add_func ("/battens/counter-battens", test_counter_battens);
  g_test_add_func ("/battens/no-counter-battens-under-level-boards",
                   test_no_counter_battens_under_level_boards);
  g_test_add_func ("/battens/short-battens", test_short_battens);
  g_test_add_func ("/battens/middle-batten-counts-once", test_middle_batten_counts_once);
  g_test_add_func ("/battens/piece-over-a-single-batten", test_piece_over_a_single_batten);
  g_test_add_func ("/battens/random-windows", test_random_windows);
  g_test_add_func ("/battens/free-area", test_free_area);

  return g_test_run ();
}
