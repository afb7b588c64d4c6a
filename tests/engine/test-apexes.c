/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The board under an apex in the set-out (rule R19), worked by hand. */

#include "engine/setout/rod-group-setout.h"
#include "support/planned-house.h"

#include <math.h>

/* Half span 4000 at 40°, set-back 2, gap 8, both square to the rake: the apex of the cut lines lies
 * at 4000 tan 40 − 10/cos 40 = 3356.3985 − 13.0541 = 3343.3444. */
#define APEX_MM 3343.3444

static RodPlan *
plan_gable (const char *corners,
            const char *more)
{
  char *surface = g_strdup_printf ("{'id': 'g', 'kind': 'wall', 'system': 'k', "
                                   "'outline': [%s]%s}",
                                   corners,
                                   more);

  return planned_house (surveyed_house ("k-250-gap-8", SURVEYED (surface), NULL));
}

#define SYMMETRIC "{'x': 0, 'y': 0}, {'x': 8000, 'y': 0}, {'x': 4000, 'y': 3356.3985}"

static const RodGroup *
only_group (const RodPlan *plan)
{
  g_assert_cmpuint (plan->groups->len, ==, 1);
  return &g_array_index (plan->groups, RodGroup, 0);
}

/* The level of the only apex, or NULL. */
static const RodLevel *
apex_level (const RodPlan *plan)
{
  const RodPhaseProblem *problem = &only_group (plan)->setout->problem;

  g_assert_cmpuint (problem->n_levels, <=, 1);
  return problem->n_levels == 0 ? NULL : problem->levels;
}

static const RodPiece *
last_piece (const RodPlan *plan)
{
  return rod_plan_piece (plan, plan->pieces->len - 1);
}

/* 300 at the foot need a height of 300 tan 40 / 2 = 125.865. With a starter at 0 lines are at whole
 * covers, and 13 of them leave 93.34. */
static void
test_lines_that_cannot_move (void)
{
  g_autoptr (RodPlan) plan = plan_gable (SYMMETRIC, "");
  const RodLevel *level = apex_level (plan);

  g_assert_nonnull (level);
  g_assert_true (level->upper);
  g_assert_cmpfloat_with_epsilon (level->at_mm, APEX_MM - 13 * 250, 0.001);
  g_assert_cmpfloat_with_epsilon (level->least_mm, 125.865, 0.001);
  g_assert_cmpfloat_with_epsilon (only_group (plan)->phase_mm, 0.0, 1e-6);
  g_assert_cmpint (only_group (plan)->slivers, ==, 1);
  g_assert_cmpfloat_with_epsilon (only_group (plan)->narrowest_mm, 93.344, 0.001);
  g_assert_cmpfloat_with_epsilon (last_piece (plan)->length_mm, 222.49, 0.01);
  g_assert_nonnull (planned_finding (plan, "short-piece"));
}

/* Where the starter may stand up to 40 lower, the lines go down by all of it: 133.34 are left, and
 * 2 · 133.34 / tan 40 = 317.82 at the foot. */
static void
test_lines_that_may_go_down (void)
{
  g_autoptr (RodPlan) plan =
    plan_gable (SYMMETRIC, ", 'starter_low_mm': -40, 'starter_high_mm': 0");

  g_assert_cmpfloat_with_epsilon (only_group (plan)->phase_mm, 210.0, 1e-6);
  g_assert_cmpint (only_group (plan)->slivers, ==, 0);
  g_assert_cmpfloat_with_epsilon (last_piece (plan)->length_mm, 317.82, 0.01);
  g_assert_null (planned_finding (plan, "short-piece"));
}

/* Where it may stand anywhere, the last board is nearly whole: 5 less than a cover, so that a gable
 * measured 5 too high has no sliver over it. */
static void
test_lines_that_are_free (void)
{
  g_autoptr (RodPlan) plan =
    plan_gable (SYMMETRIC, ", 'starter_low_mm': 0, 'starter_high_mm': 249");

  g_assert_cmpfloat_with_epsilon (only_group (plan)->phase_mm, APEX_MM - 13 * 250 + 5, 0.001);
  g_assert_cmpfloat_with_epsilon (last_piece (plan)->width_mm, 245.0, 0.01);
}

/* 30° and 45°: 300/(1/tan 30 + 1/tan 45) = 300/2.73205 = 109.808. */
static void
test_unequal_slopes (void)
{
  g_autoptr (RodPlan) plan = plan_gable ("{'x': 0, 'y': 0}, {'x': 5464.1016, 'y': 0}, "
                                         "{'x': 3464.1016, 'y': 2000}",
                                         "");

  g_assert_nonnull (apex_level (plan));
  g_assert_cmpfloat_with_epsilon (apex_level (plan)->least_mm, 109.808, 0.001);
}

/* A lean-to at 45° against an upright side: 300/(1 + 0) = 300, more than a cover; at 30°
 * 300/1.73205 = 173.205. The corner at its foot is no apex: its base is level. */
static void
test_lean_to (void)
{
  g_autoptr (RodPlan) steep =
    plan_gable ("{'x': 0, 'y': 0}, {'x': 2000, 'y': 0}, {'x': 2000, 'y': 2000}", "");
  g_autoptr (RodPlan) plan =
    plan_gable ("{'x': 0, 'y': 0}, {'x': 3464.1016, 'y': 0}, {'x': 3464.1016, 'y': 2000}", "");

  g_assert_null (apex_level (steep));
  g_assert_nonnull (apex_level (plan));
  g_assert_cmpfloat_with_epsilon (apex_level (plan)->least_mm, 173.205, 0.001);
}

/* At 20° a foot of 300 would be only 54.6 high: the narrowest rip of 60 counts. */
static void
test_flat_slopes (void)
{
  g_autoptr (RodPlan) plan =
    plan_gable ("{'x': 0, 'y': 0}, {'x': 8000, 'y': 0}, {'x': 4000, 'y': 1455.8809}", "");

  g_assert_nonnull (apex_level (plan));
  g_assert_cmpfloat (apex_level (plan)->least_mm, ==, 60.0);
}

/* Upright boards end on base and rake: at either foot of a gable of 40° the last board is a
 * triangle whose upright side is h tan 40 for a width of h; 300 want 300/tan 40 = 357.5, more than
 * a cover. At 60° they want 173.205, at both feet. */
static void
test_upright (void)
{
  g_autoptr (RodPlan) plan = plan_gable (SYMMETRIC, ", 'direction_deg': 90");
  g_autoptr (RodPlan) steep =
    plan_gable ("{'x': 0, 'y': 0}, {'x': 3000, 'y': 0}, {'x': 1500, 'y': 2598.0762}",
                ", 'direction_deg': 90");
  const RodPhaseProblem *problem = &only_group (steep)->setout->problem;
  int                    feet = 0;

  for (guint i = 0; i < only_group (plan)->setout->problem.n_levels; i++)
    g_assert_cmpfloat (only_group (plan)->setout->problem.levels[i].least_mm, ==, 60.0);
  for (guint i = 0; i < problem->n_levels; i++)
    feet += fabs (problem->levels[i].least_mm - 173.205) < 0.001;
  g_assert_cmpint (feet, ==, 2);
}

/* What ends at a mitre runs out to a point whatever the lines do, and is left to offcuts. */
static void
test_only_rakes (void)
{
  g_autoptr (RodPlan) plan =
    plan_gable ("{'x': 0, 'y': 0}, {'x': 8000, 'y': 0, 'condition': 'mitre'}, "
                "{'x': 4000, 'y': 3356.3985, 'condition': 'mitre'}",
                "");

  g_assert_null (apex_level (plan));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/apexes/lines-that-cannot-move", test_lines_that_cannot_move);
  g_test_add_func ("/apexes/lines-that-may-go-down", test_lines_that_may_go_down);
  g_test_add_func ("/apexes/lines-that-are-free", test_lines_that_are_free);
  g_test_add_func ("/apexes/unequal-slopes", test_unequal_slopes);
  g_test_add_func ("/apexes/lean-to", test_lean_to);
  g_test_add_func ("/apexes/flat-slopes", test_flat_slopes);
  g_test_add_func ("/apexes/upright", test_upright);
  g_test_add_func ("/apexes/only-rakes", test_only_rakes);
  return g_test_run ();
}
