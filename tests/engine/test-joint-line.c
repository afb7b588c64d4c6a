/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The storey rod of the hand-worked houses A4 and A8, whose arithmetic stands in the notes of their
 * files. */
#include "engine/files/rod-file.h"
#include "engine/plan/rod-joint-line.h"

#include <math.h>

static RodPlan *
plan_file (const char *file)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "engine", "houses", file, NULL);
  g_autoptr (GError) error = NULL;
  RodHouse *house = rod_house_load (path, &error);
  RodPlan  *plan;

  g_assert_no_error (error);
  plan = rod_plan_new (house);
  rod_record_unref (house);
  return plan;
}

static guint
field_of_surface (const RodPlan *plan,
                  const char    *id)
{
  for (guint i = 0; i < plan->fields->len; i++)
    if (g_str_equal (rod_plan_face (plan, rod_plan_field (plan, i)->face)->surface->id, id))
      return i;
  g_assert_not_reached ();
}

static void
assert_lines (const RodPlan *plan,
              guint          field,
              int            first_number,
              guint          n,
              double         first_mm,
              double         cover_mm)
{
  g_autoptr (GArray) lines = rod_joint_lines_new (plan, field);

  g_assert_cmpuint (lines->len, ==, n);
  for (guint i = 0; i < n; i++)
    {
      const RodJointLine *line = &g_array_index (lines, RodJointLine, i);

      g_assert_cmpint (line->number, ==, first_number + (int) i);
      g_assert_cmpfloat_with_epsilon (line->place_mm, first_mm + i * cover_mm, 1e-6);
    }
}

/* A4: starter at +50, 11 courses of 250, the last one ripped under the top trim: the line the first
 * course stands on, and ten more up to 2550. */
static void
test_level (void)
{
  g_autoptr (RodPlan) plan = plan_file ("a4-window-and-door.storeyrod");
  g_autoptr (GArray) lines = NULL;

  assert_lines (plan, 0, 0, 11, 50.0, 250.0);
  lines = rod_joint_lines_new (plan, 0);
  g_assert_cmpfloat_with_epsilon (g_array_index (lines, RodJointLine, 10).height_mm, 2550.0, 1e-6);
}

/* A8: upright boards with joints at 150, 350, … 7150; the first course is ripped and stands on no
 * line. The soffit carries the same lines on to -450 and 7750. */
static void
test_upright (void)
{
  g_autoptr (RodPlan) plan = plan_file ("a8-soffit.storeyrod");
  guint front = field_of_surface (plan, "front");
  g_autoptr (GArray) lines = rod_joint_lines_new (plan, front);

  assert_lines (plan, front, 1, 36, 150.0, 200.0);
  assert_lines (plan, field_of_surface (plan, "front-soffit"), 1, 42, -450.0, 200.0);
  g_assert_true (isnan (g_array_index (lines, RodJointLine, 0).height_mm));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/joint-line/level", test_level);
  g_test_add_func ("/joint-line/upright", test_upright);
  return g_test_run ();
}
