/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The longest notch and what takes its place (rule R29), worked by hand. */

#include "engine/setout/rod-long-notches.h"
#include "support/planned-house.h"

#include <math.h>

/* A wall of 5800 × 2743, one window of 1200 × 1300 from @x, sill at 900, one door of 1000 from
 * 3900. Trims of 2 and 8 of clearance at either side make notches of 1220 and 1020. */
static RodPlan *
plan_wall (const char *system,
           double      x,
           double      longest_mm,
           const char *more)
{
  char     *openings = g_strdup_printf ("%s, 'openings': [{'id': 'w', 'x': %.0f, 'y': 900, "
                                        "'width_mm': 1200, 'height_mm': 1300}, "
                                        "{'id': 'd', 'kind': 'door', 'x': 3900, 'y': 0, "
                                        "'width_mm': 1000, 'height_mm': 2100}]",
                                    more,
                                    x);
  RodHouse *house =
    surveyed_house (system, SURVEYED (surveyed_box ("a", "wall", 5800, 2743, openings)), NULL);

  g_free (openings);
  ((RodRules *) planned_system (house)->rules)->notch_longest_mm = longest_mm;
  return planned_house (house);
}

static double
widest_notch (const RodPlan *plan)
{
  double widest = 0.0;

  for (guint n = 0; n < plan->notches->len; n++)
    widest = MAX (widest, g_array_index (plan->notches, RodNotch, n).width_mm);
  return widest;
}

static void
test_as_long_as_allowed (void)
{
  g_autoptr (RodPlan) plan = plan_wall ("k-250", 1500, 1220, "");

  g_assert_cmpuint (planned_field (plan, "a")->n_columns, ==, 0);
  g_assert_cmpfloat_with_epsilon (widest_notch (plan), 1220.0, 1e-3);
  g_assert_null (planned_finding (plan, "long-notch"));
}

/* Columns on both jambs of the window; over the door boards are still notched. Courses 4 and 9 have
 * plain pieces between the columns: 1200 - 2 - 2 less gaps of ⌈0.07 · 0.598 · 45 + 1⌉ = 3. */
static void
test_columns_on_jambs (void)
{
  g_autoptr (RodPlan) plan = plan_wall ("k-250", 1500, 1100, "");
  const RodField *field = planned_field (plan, "a");

  g_assert_cmpuint (field->n_columns, ==, 2);
  g_assert_cmpfloat_with_epsilon (field->columns[0], 1500.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (field->columns[1], 2700.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (widest_notch (plan), 1020.0, 1e-3);
  g_assert_cmpfloat_with_epsilon (planned_piece (plan, "A-04-2")->length_mm, 1190.0, 1e-3);
  g_assert_cmpuint (planned_piece (plan, "A-04-2")->n_notches, ==, 0);
  g_assert_null (planned_finding (plan, "long-notch"));
  g_assert_null (planned_finding (plan, "joint-near-opening"));
}

/* A jamb 200 from the wall's end would leave a piece of less than 300 there: only the other one is
 * joined, and the notch is a finding. */
static void
test_too_near_the_end (void)
{
  g_autoptr (RodPlan) plan = plan_wall ("k-250", 200, 1100, "");
  const RodField   *field = planned_field (plan, "a");
  const RodFinding *finding = planned_finding (plan, "long-notch");

  g_assert_cmpuint (field->n_columns, ==, 1);
  g_assert_cmpfloat_with_epsilon (field->columns[0], 1400.0, 1e-6);
  g_assert_nonnull (finding);
  g_assert_cmpstr (finding->rule, ==, "R29");
  g_assert_cmpfloat (finding->value, >, 1100.0);
  g_assert_cmpfloat (finding->limit, ==, 1100.0);
}

/* Where the sill is on a joint line nothing is notched there. Lines at 143 put one at 893, the cut
 * line under the sill; the head's is at 2207, 64 over the line at 2143. */
static void
test_on_a_joint_line (void)
{
  g_autoptr (RodPlan) plan = plan_wall ("k-250", 1500, 1100, ", 'joint_line_mm': 143");
  g_autoptr (GArray) notches = rod_long_notches (plan, planned_field (plan, "a"));

  g_assert_cmpuint (notches->len, ==, 1);
  g_assert_cmpint (g_array_index (notches, RodLongNotch, 0).course, ==, 8);
  g_assert_cmpfloat_with_epsilon (
    g_array_index (notches, RodLongNotch, 0).width_mm, 1220.0, 1e-6);
}

/* Boards that meet without a trim are joined on the jambs in the courses that would be notched, and
 * in these alone; two battens meet behind each joint. */
static void
test_butt_joints (void)
{
  g_autoptr (RodPlan) plan =
    plan_wall ("timber-board", 1500, 1050, ", 'joint_pattern': 'staggered'");
  const RodField *field = planned_field (plan, "a");
  g_autoptr (GArray) notches = rod_long_notches (plan, field);

  g_assert_cmpuint (notches->len, >, 0);
  for (guint n = 0; n < notches->len; n++)
    for (int side = 0; side < 2; side++)
      {
        const RodLongNotch *notch = &g_array_index (notches, RodLongNotch, n);
        int                 found = 0;

        for (guint j = 0; j < field->n_joints; j++)
          if (field->joints[j].course == notch->course &&
              fabs (field->joints[j].at_mm - notch->jambs[side]) < 1e-6)
            {
              g_assert_true (field->joints[j].paired);
              found++;
            }
        g_assert_cmpint (found, ==, 1);
      }
  for (guint j = 0; j + 1 < field->n_joints; j++)
    if (field->joints[j].course == field->joints[j + 1].course)
      g_assert_cmpfloat (field->joints[j].at_mm, <, field->joints[j + 1].at_mm);
  g_assert_cmpfloat (widest_notch (plan), <=, 1050.0);
  g_assert_null (planned_finding (plan, "long-notch"));
  g_assert_null (planned_finding (plan, "few-battens"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/long-notches/as-long-as-allowed", test_as_long_as_allowed);
  g_test_add_func ("/long-notches/columns-on-jambs", test_columns_on_jambs);
  g_test_add_func ("/long-notches/too-near-the-end", test_too_near_the_end);
  g_test_add_func ("/long-notches/on-a-joint-line", test_on_a_joint_line);
  g_test_add_func ("/long-notches/butt-joints", test_butt_joints);
  return g_test_run ();
}
