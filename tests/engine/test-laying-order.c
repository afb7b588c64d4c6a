/* SPDX-License-Identifier: GPL-3.0-or-later */

/* In which order boards are fitted, and which is ripped last (rule R30 in docs/rules.md: common
 * practice, no source). */

#include "support/planned-house.h"

#include "engine/rod-limits.h"

#include <math.h>
#include <string.h>

static RodPlan *
wall (double      width,
      double      height,
      const char *more)
{
  return planned_house (
    surveyed_house ("k-250", SURVEYED (surveyed_box ("a", "wall", width, height, more)), NULL));
}

/* The middle of a piece in its surface's plane. */
static RodPoint
middle_of (const RodPlan  *plan,
           const RodPiece *piece)
{
  guint    start = plan->rings->ring_starts[piece->first_ring];
  guint    n = plan->rings->ring_starts[piece->first_ring + 1] - start;
  RodPoint sum = { 0.0, 0.0 };

  for (guint p = start; p < start + n; p++)
    {
      sum.x += plan->rings->points[p].x / n;
      sum.y += plan->rings->points[p].y / n;
    }
  return sum;
}

static RodPoint
nth_middle (const RodPlan *plan,
            int            sequence)
{
  for (guint p = 0; p < plan->pieces->len; p++)
    if (rod_plan_piece (plan, p)->sequence == sequence)
      return middle_of (plan, rod_plan_piece (plan, p));
  g_error ("no piece is fitted as number %d", sequence);
}

/* Every number from 1 to n once on each surface, whatever fields it has. */
static void
assert_numbered (const RodPlan *plan)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
      int most = 0;

      for (guint p = 0; p < plan->pieces->len; p++)
        {
          const RodPiece *piece = rod_plan_piece (plan, p);

          if (rod_plan_field (plan, piece->field)->face != f)
            continue;
          g_assert_cmpint (piece->sequence, >=, 1);
          g_assert_true (g_hash_table_add (seen, GINT_TO_POINTER (piece->sequence)));
          most = MAX (most, piece->sequence);
        }
      g_assert_cmpuint (g_hash_table_size (seen), ==, (guint) most);
    }
}

/* 13 m take three boards to a course: from the bottom up, from left to right. */
static void
test_level_boards (void)
{
  g_autoptr (RodPlan) plan = wall (13000, 2400, "");

  assert_numbered (plan);
  for (int n = 1; n < (int) plan->pieces->len; n++)
    {
      RodPoint here = nth_middle (plan, n), next = nth_middle (plan, n + 1);

      g_assert_true (next.y > here.y + 100.0 ||
                     (fabs (next.y - here.y) < 100.0 && next.x > here.x));
    }
  /* 2393 − 9·250 = 143: the tenth course is ripped, and it is the only one. */
  g_assert_cmpint (rod_plan_field (plan, 0)->last_ripped_course, ==, 10);
}

/* Upright boards from either side; where two make a column, the lower one first. */
static void
test_upright_boards (void)
{
  static const char *const sides[] = { "left", "right" };

  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *more =
        g_strdup_printf (", 'direction_deg': 90, 'laid_from': '%s'", sides[i]);
      g_autoptr (RodPlan) plan = wall (4000, 9000, more);
      double onwards = i == 0 ? 1.0 : -1.0;

      assert_numbered (plan);
      for (int n = 1; n < (int) plan->pieces->len; n++)
        {
          RodPoint here = nth_middle (plan, n), next = nth_middle (plan, n + 1);
          double   step = onwards * (next.x - here.x);

          g_assert_true (step > 50.0 || (fabs (step) < 50.0 && next.y > here.y));
        }
      /* Ends of 243 and 243: the far one is ripped last. */
      g_assert_cmpint (rod_plan_field (plan, 0)->last_ripped_course,
                       ==,
                       (int) rod_plan_field (plan, 0)->n_courses);
    }
}

/* Nothing ripped, nothing to say: 2250 between starter and top. */
static void
test_nothing_ripped (void)
{
  g_autoptr (RodPlan) plan = wall (4000, 2257, "");

  g_assert_cmpint (rod_plan_field (plan, 0)->last_ripped_course, ==, 0);
}

/* Boards with a hook cannot: each covers the screws of the one before. Said, and planned from the
 * left. */
static void
test_hooked_boards_from_the_centre (void)
{
  g_autoptr (RodPlan) centre = wall (4000, 2400, ", 'direction_deg': 90, 'laid_from': 'centre'");
  g_autoptr (RodPlan) left = wall (4000, 2400, ", 'direction_deg': 90, 'laid_from': 'left'");
  g_autoptr (RodPlan) level = wall (4000, 2400, ", 'laid_from': 'centre'");
  const RodFinding *finding = planned_finding (centre, "laid-from-centre");

  g_assert_nonnull (finding);
  g_assert_cmpint (finding->severity, ==, ROD_SEVERITY_SHOULD);
  g_assert_cmpstr (finding->rule, ==, "R30");
  g_assert_null (planned_finding (left, "laid-from-centre"));
  g_assert_null (planned_finding (level, "laid-from-centre"));
  g_assert_cmpuint (centre->pieces->len, ==, left->pieces->len);
  for (guint p = 0; p < left->pieces->len; p++)
    {
      g_assert_cmpstr (rod_plan_piece (centre, p)->mark, ==, rod_plan_piece (left, p)->mark);
      g_assert_cmpint (
        rod_plan_piece (centre, p)->sequence, ==, rod_plan_piece (left, p)->sequence);
    }
}

/* Boards without a flange are laid outwards, nearest to the centre first; the last ripped is at one
 * of the ends. */
static void
test_plain_boards_from_the_centre (void)
{
  RodHouse *house = surveyed_house (
    "k-250",
    SURVEYED (surveyed_box (
      "a", "wall", 4000, 2400, ", 'direction_deg': 90, 'laid_from': 'centre'")),
    NULL);
  g_autoptr (RodPlan) plan = NULL;
  int last;

  ((RodBoard *) planned_system (house)->boards->pdata[0])->flange_mm = 0.0;
  plan = planned_house (house);
  assert_numbered (plan);
  g_assert_null (planned_finding (plan, "laid-from-centre"));
  for (int n = 1; n < (int) plan->pieces->len; n++)
    g_assert_cmpfloat (fabs (nth_middle (plan, n).x - 2000.0),
                       <=,
                       fabs (nth_middle (plan, n + 1).x - 2000.0) + 4.0);
  last = rod_plan_field (plan, 0)->last_ripped_course;
  g_assert_true (last == 1 || last == (int) rod_plan_field (plan, 0)->n_courses);
}

/* What the finding offers: halves that are hooked away from the axis, with a trim for the hooks on
 * it. Both halves get the same boards, in mirrored places. */
static void
test_halves_turned_end_for_end (void)
{
  g_autoptr (RodPlan) plan =
    wall (4000,
          2400,
          ", 'direction_deg': 90, 'laid_from': 'right', 'zones': [{'id': 'half', "
          "'laid_from': 'left', 'corners': [{'x': 2000, 'y': 0}, {'x': 4000, 'y': 0}, "
          "{'x': 4000, 'y': 2400}, {'x': 2000, 'y': 2400}]}]");
  const RodField *left, *right;

  g_assert_cmpuint (plan->fields->len, ==, 2);
  assert_numbered (plan);
  left = rod_plan_field (plan, 0);
  right = rod_plan_field (plan, 1);
  g_assert_cmpint (left->laid_from, ==, ROD_LAID_FROM_RIGHT);
  g_assert_cmpint (right->laid_from, ==, ROD_LAID_FROM_LEFT);
  g_assert_cmpuint (left->group, !=, right->group);
  g_assert_cmpuint (left->n_pieces, ==, right->n_pieces);
  for (guint p = 0; p < left->n_pieces; p++)
    {
      const RodPiece *one = rod_plan_piece (plan, left->first_piece + p);
      const RodPiece *other = rod_plan_piece (plan, right->first_piece + p);

      g_assert_cmpfloat_with_epsilon (one->width_mm, other->width_mm, 0.001);
      g_assert_cmpfloat_with_epsilon (one->length_mm, other->length_mm, 0.001);
      g_assert_cmpfloat_with_epsilon (
        middle_of (plan, one).x + middle_of (plan, other).x, 4000.0, 0.001);
    }
  /* Trims on the axis, one for each half: its border is none that only changes a colour. */
  for (guint f = 0; f < 2; f++)
    {
      int trims = 0;

      for (guint t = 0; t < plan->trims->len; t++)
        {
          const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

          trims += run->field == f && fabs (run->from.x - 2000.0) < 1.0 &&
                   fabs (run->to.x - 2000.0) < 1.0;
        }
      g_assert_cmpint (trims, ==, 1);
    }
  g_assert_null (planned_finding (plan, "laid-from-centre"));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/laying-order/level-boards", test_level_boards);
  g_test_add_func ("/laying-order/upright-boards", test_upright_boards);
  g_test_add_func ("/laying-order/nothing-ripped", test_nothing_ripped);
  g_test_add_func ("/laying-order/hooked-boards-from-the-centre",
                   test_hooked_boards_from_the_centre);
  g_test_add_func ("/laying-order/plain-boards-from-the-centre",
                   test_plain_boards_from_the_centre);
  g_test_add_func ("/laying-order/halves-turned-end-for-end", test_halves_turned_end_for_end);

  return g_test_run ();
}
