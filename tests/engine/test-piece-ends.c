/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Ends, notches and holes of pieces where two lines nearly coincide (rules R21 and R29 in
 * docs/rules.md). Convention K: J of 2 and 5, joint web 2 × 2, 8 beside openings; expected figures
 * worked out by hand. */

#include "support/planned-house.h"

#include "engine/rod-limits.h"

#include <math.h>

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 0.0011)

static const RodNotch *
notch_of (const RodPlan  *plan,
          const RodPiece *piece,
          guint           index)
{
  g_assert_cmpuint (index, <, piece->n_notches);
  return &g_array_index (plan->notches, RodNotch, piece->first_notch + index);
}

/* A column on the side of a window: below it the joint's web counts, beside it the jamb's pocket. A
 * board that passes both is cut off in one line, not with a notch of a millimetre or two. */
static void
test_joint_on_a_jamb (void)
{
  g_autoptr (RodPlan) plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            7000,
                            2400,
                            ", 'openings': [{'id': 'w', 'x': 2500, 'y': 620, 'width_mm': 1000, "
                            "'height_mm': 1000}]")),
    NULL));
  const RodField *field = planned_field (plan, "a");

  g_assert_cmpuint (field->n_columns, ==, 1);
  assert_mm (field->columns[0], 3500);
  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);

      for (guint n = 0; n < piece->n_notches; n++)
        {
          g_assert_cmpfloat (notch_of (plan, piece, n)->width_mm, >, 10.0);
          g_assert_cmpfloat (notch_of (plan, piece, n)->leaves_mm, >, 0.0);
        }
    }
}

/* A vent within one course: 8 mm to spare at both sides, as beside a notch; its level sides keep
 * the pocket of the J and the gap across. */
static void
test_hole_keeps_clear (void)
{
  g_autoptr (RodPlan) plan = planned_house (
    surveyed_house ("k-250",
                    SURVEYED (surveyed_box (
                      "a",
                      "wall",
                      4000,
                      2400,
                      ", 'joint_line_mm': 0, 'openings': [{'id': 'v', 'kind': 'vent', 'x': 1000, "
                      "'y': 1080, 'width_mm': 300, 'height_mm': 80}]")),
                    NULL));
  const RodPiece *piece = planned_piece (plan, "A-05-1");
  double          left = INFINITY, right = -INFINITY;

  g_assert_cmpuint (piece->n_rings, ==, 2);
  for (guint p = plan->rings->ring_starts[piece->first_ring + 1];
       p < plan->rings->ring_starts[piece->first_ring + 2];
       p++)
    {
      left = MIN (left, plan->rings->points[p].x);
      right = MAX (right, plan->rings->points[p].x);
    }
  assert_mm (left, 1000 - 2 - 8);
  assert_mm (right, 1300 + 2 + 8);
}

/* A pipe on a joint line takes a round notch out of the boards on both sides. */
static void
test_pipe_on_a_joint_line (void)
{
  g_autoptr (RodPlan) plan = planned_house (
    surveyed_house ("k-250",
                    SURVEYED (surveyed_box (
                      "a",
                      "wall",
                      4000,
                      2400,
                      ", 'joint_line_mm': 0, 'openings': [{'id': 'p', 'kind': 'pipe', 'shape': "
                      "'circle', 'x': 2000, 'y': 1000, 'width_mm': 70}]")),
                    NULL));
  const RodPiece *below = planned_piece (plan, "A-04-1");
  const RodPiece *above = planned_piece (plan, "A-05-1");

  /* Radius 35 and 8 to spare; the arc's corners lie on it. */
  g_assert_true (notch_of (plan, below, 0)->upper);
  g_assert_cmpfloat_with_epsilon (
    notch_of (plan, below, 0)->depth_mm, 43.0, 2.0 * ROD_ARC_SAGITTA_MM);
  g_assert_false (notch_of (plan, above, 0)->upper);
  g_assert_cmpfloat_with_epsilon (
    notch_of (plan, above, 0)->width_mm, 86.0, 2.0 * ROD_ARC_SAGITTA_MM);
}

/* Over a hipped roof a rake meets a column within one course: the board's end keeps the joint's web
 * beside the column, and the joint's trim goes down to the rake. */
static void
test_rake_meets_a_column (void)
{
  const char *outline = "{'id': 'a', 'kind': 'wall', 'system': 'k', 'outline': ["
                        "{'x': 0, 'y': 0, 'condition': 'base'}, {'x': 2500, 'y': 0}, "
                        "{'x': 5000, 'y': 1670, 'condition': 'base'}, {'x': 7500, 'y': 0, "
                        "'condition': 'base'}, {'x': 10000, 'y': 0}, {'x': 10000, 'y': 3000}, "
                        "{'x': 0, 'y': 3000}]}";
  g_autoptr (RodPlan) plan = planned_house (
    surveyed_house ("k-250", SURVEYED (g_strdup (outline)), NULL));
  const RodField *field = planned_field (plan, "a");
  gboolean        met = FALSE;

  g_assert_cmpuint (field->n_columns, ==, 1);
  assert_mm (field->columns[0], 5000);
  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);
      double          left, right;

      rod_plan_piece_extent (plan, piece, &left, &right);
      if (right > 4900 && right < 5000)
        assert_mm (right, 5000 - field->joint->back_mm - piece->right.gap_mm);
      met = met || (right > 4900 && right < 5000 && fabs (piece->right.angle_deg) > 1.0);
    }
  g_assert_true (met);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/piece-ends/joint-on-a-jamb", test_joint_on_a_jamb);
  g_test_add_func ("/piece-ends/hole-keeps-clear", test_hole_keeps_clear);
  g_test_add_func ("/piece-ends/pipe-on-a-joint-line", test_pipe_on_a_joint_line);
  g_test_add_func ("/piece-ends/rake-meets-a-column", test_rake_meets_a_column);

  return g_test_run ();
}
