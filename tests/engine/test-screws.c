/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Screws where flanges cross battens, and screws of trims (rules F5, R8 and T3 in docs/rules.md;
 * common practice, no source). Convention K: flange 30, notch clearance 8, J with screws 50 from
 * its ends and at most 300 apart, starter and top J one at each batten. */

#include "support/planned-house.h"

#include "engine/plan/rod-reckoning.h"

#include <math.h>

static RodPlan *
plan_wall (double      width,
           double      height,
           const char *more)
{
  return planned_house (
    surveyed_house ("k-250", SURVEYED (surveyed_box ("a", "wall", width, height, more)), NULL));
}

static int
board_screws (const RodPlan *plan)
{
  int count = 0;

  for (guint p = 0; p < plan->pieces->len; p++)
    count += rod_plan_piece (plan, p)->screws;
  return count;
}

static int
trim_screws (const RodPlan *plan,
             const char    *id)
{
  int count = 0;

  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      count += g_str_equal (run->trim->id, id) ? run->screws : 0;
    }
  return count;
}

/* A wall of 1300 has battens at 50, 450, 850 and 1250. The last course keeps its flange only if 30
 * are free over its upper joint line, under the top's cut line at the height less 7. */
static void
test_flange_needs_room (void)
{
  static const struct
  {
    double height;
    guint  courses;
    int    screws;
  } cases[] = {
    { 1000, 4, 12 },   /* 993: course 4 is ripped to 243 */
    { 1007, 4, 12 },   /* 1000: course 4 is whole, but nothing is over it */
    { 1036.9, 5, 12 }, /* 1029.9: 29.9 over course 4 */
    { 1037, 5, 16 },   /* 1030: just room for it */
    { 1200, 5, 16 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RodPlan) plan = plan_wall (1300, cases[i].height, "");

      g_assert_cmpuint (rod_plan_field (plan, 0)->n_courses, ==, cases[i].courses);
      g_assert_cmpint (board_screws (plan), ==, cases[i].screws);
    }
}

/* Under a sill the flange is notched away. Window 1000 to 2000, sill at 900: the notch in course 4
 * goes from 990 to 2010, so that the battens at 950 and 2050 keep their screws and 1316.7 and
 * 1683.3 lose theirs. */
static void
test_flange_is_notched_away (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodPiece *notched;

  plan = plan_wall (3000,
                    2400,
                    ", 'openings': [{'id': 'w', 'x': 1000, 'y': 900, 'width_mm': 1000, "
                    "'height_mm': 1100}]");
  notched = planned_piece (plan, "A-04-1");
  g_assert_cmpuint (notched->n_notches, ==, 1);
  g_assert_cmpint (notched->screws, ==, 8);
  g_assert_cmpint (notched->battens, ==, 10);
  g_assert_cmpint (planned_piece (plan, "A-03-1")->screws, ==, 10);
  g_assert_cmpint (planned_piece (plan, "A-05-1")->screws, ==, 4);
  g_assert_cmpint (planned_piece (plan, "A-05-2")->screws, ==, 4);
}

/* A flange that ends over a batten holds no screw within 7.5 of its end: battens 50 beside the
 * opening, the notch so far beside the pocket, which is 2 from it: 998 − 40 − 7.5 = 950.5. */
static void
test_no_screw_at_the_end_of_a_flange (void)
{
  static const struct
  {
    double clear_mm;
    int    screws;
  } cases[] = { { 8, 8 }, { 40, 8 }, { 41, 6 }, { 60, 6 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      RodHouse *house = surveyed_house (
        "k-250",
        SURVEYED (surveyed_box ("a",
                                "wall",
                                3000,
                                2400,
                                ", 'openings': [{'id': 'w', 'x': 1000, 'y': 900, "
                                "'width_mm': 1000, 'height_mm': 1100}]")),
        NULL);
      g_autoptr (RodPlan) plan = NULL;

      planned_system (house)->rules->notch_clear_mm = cases[i].clear_mm;
      plan = planned_house (house);
      g_assert_cmpint (planned_piece (plan, "A-04-1")->screws, ==, cases[i].screws);
    }
}

/* Boards without a flange have none to screw. */
static void
test_no_flange_no_screws (void)
{
  RodHouse *house = surveyed_house ("k-250",
                                    SURVEYED (surveyed_box ("a", "wall", 1300, 1200, "")),
                                    NULL);
  g_autoptr (RodPlan) plan = NULL;

  ((RodBoard *) g_ptr_array_index (planned_system (house)->boards, 0))->flange_mm = 0.0;
  plan = planned_house (house);
  g_assert_cmpint (board_screws (plan), ==, 0);
  g_assert_cmpint (rod_plan_piece (plan, 0)->battens, ==, 4);
}

/* Rule T3, spaced: one near both ends, the rest at most 300 apart: ⌈(L − 100)/300⌉ + 1; a run too
 * short for two gets one. */
static void
test_spaced_screws (void)
{
  static const struct
  {
    double height;
    int    screws;
  } cases[] = {
    { 100, 1 },
    { 101, 2 },
    { 400, 2 },
    { 401, 3 },
    { 700, 3 },
    { 701, 4 },
    { 2400, 9 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RodPlan) plan = plan_wall (1300, cases[i].height, "");

      g_assert_cmpint (trim_screws (plan, "j"), ==, 2 * cases[i].screws);
      g_assert_cmpint (trim_screws (plan, "base-vent"), ==, 0);
    }
}

/* One at each batten that a trim crosses: none where it runs beside one; battens that stop 20 short
 * of a sill or head still carry its trim. */
static void
test_screws_at_battens (void)
{
  RodHouse *house = surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            3000,
                            2400,
                            ", 'openings': [{'id': 'w', 'x': 1000, 'y': 900, 'width_mm': 1000, "
                            "'height_mm': 1100}]")),
    NULL);
  g_autoptr (RodPlan) plan = NULL;

  ((RodTrim *) rod_system_find_trim (planned_system (house), "j"))->screws = ROD_SCREWS_PER_BATTEN;
  plan = planned_house (house);
  /* 50, 350, 650, 950, 1316.7, 1683.3, 2050, 2350, 2650, 2950. */
  g_assert_cmpint (trim_screws (plan, "starter"), ==, 10);
  g_assert_cmpint (trim_screws (plan, "top-j"), ==, 10);
  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (g_str_equal (run->trim->id, "j"))
        g_assert_cmpint (run->screws, ==, fabs (run->from.x - run->to.x) > 1.0 ? 2 : 0);
    }
}

/* A raked trim lies on the batten along the rake, where the upright ones stop: its screws are
 * spaced as at other trims. */
static void
test_screws_along_a_rake (void)
{
  RodHouse *house = surveyed_house (
    "k-250",
    SURVEYED (g_strdup ("{'id': 'a', 'kind': 'wall', 'system': 'k', 'outline': ["
                        "{'x': 0, 'y': 0}, {'x': 4100, 'y': 0}, {'x': 4100, 'y': 4100}, "
                        "{'x': 0, 'y': 1000}]}")),
    NULL);
  g_autoptr (RodPlan) plan = NULL;
  int rake = 0;

  ((RodTrim *) rod_system_find_trim (planned_system (house), "j"))->screws = ROD_SCREWS_PER_BATTEN;
  plan = planned_house (house);
  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (fabs (run->from.x - run->to.x) > 1.0 && fabs (run->from.y - run->to.y) > 1.0)
        rake += run->screws;
    }
  /* √(4100² + 3100²) = 5140.04; ⌈5040.04/300⌉ + 1. */
  g_assert_cmpint (rake, ==, 18);
}

/* Both sides of a length joint are screwed to their own batten. */
static void
test_screws_at_a_joint (void)
{
  g_autoptr (RodPlan) plan = plan_wall (8000, 1200, "");
  int battens = 0;

  g_assert_cmpuint (rod_plan_field (plan, 0)->n_columns, ==, 1);
  for (guint b = 0; b < plan->battens->len; b++)
    battens += g_array_index (plan->battens, RodBattenRun, b).length_mm > 1000.0;
  /* Four flanged courses over all battens; a joint trim of 1200 takes ⌈1100/300⌉ + 1. */
  g_assert_cmpint (board_screws (plan), ==, 4 * battens);
  g_assert_cmpint (trim_screws (plan, "joint"), ==, 5);
}

/* What a field is said to need is what its pieces and trims need. */
static void
test_field_adds_up (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_wall (5000,
                    2600,
                    ", 'build_up_mm': 40, 'openings': [{'id': 'w', 'x': 1000, 'y': 900, "
                    "'width_mm': 1000, 'height_mm': 1100, 'reveal': {'depth_mm': 200, "
                    "'build_up_mm': 20}}]");
  for (guint f = 0; f < plan->fields->len; f++)
    {
      const RodField *field = rod_plan_field (plan, f);
      g_autoptr (RodReckoning) reckoning = rod_reckon_field_screws (plan, f);
      int sum = 0;

      for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
        sum += rod_plan_piece (plan, p)->screws;
      for (guint t = 0; t < plan->trims->len; t++)
        {
          const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

          sum += run->field == f ? run->screws : 0;
        }
      g_assert_cmpint (sum, >, 0);
      g_assert_cmpfloat (reckoning->result, ==, sum);
      g_assert_cmpstr (reckoning->unit, ==, "");
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/screws/flange-needs-room", test_flange_needs_room);
  g_test_add_func ("/screws/flange-is-notched-away", test_flange_is_notched_away);
  g_test_add_func ("/screws/no-screw-at-the-end-of-a-flange", test_no_screw_at_the_end_of_a_flange);
  g_test_add_func ("/screws/no-flange-no-screws", test_no_flange_no_screws);
  g_test_add_func ("/screws/spaced-screws", test_spaced_screws);
  g_test_add_func ("/screws/screws-at-battens", test_screws_at_battens);
  g_test_add_func ("/screws/screws-along-a-rake", test_screws_along_a_rake);
  g_test_add_func ("/screws/screws-at-a-joint", test_screws_at_a_joint);
  g_test_add_func ("/screws/field-adds-up", test_field_adds_up);

  return g_test_run ();
}
