/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Linings derived from openings (rule R16 in docs/rules.md): a reveal gets narrower by its own
 * build-up and deeper by the wall's. */

#include "support/planned-house.h"

#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-reveals.h"

#include <math.h>
#include <string.h>

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 0.0011)

/* A wall with 60 of build-up and one opening. */
static RodPlan *
plan_opening (const char *opening)
{
  g_autofree char *more = g_strdup_printf (", 'build_up_mm': 60, 'level_mm': 500, "
                                           "'openings': [{'id': 'w', %s}]",
                                           opening);

  return planned_house (
    surveyed_house ("k-250", SURVEYED (surveyed_box ("a", "wall", 5000, 2600, more)), NULL));
}

/* Width and height of what is clad of a face. */
static void
assert_size (const RodPlan *plan,
             const char    *id,
             double         width,
             double         height)
{
  RodPoint low, high;

  rod_region_extent (planned_field (plan, id)->clad, &low, &high);
  assert_mm (high.x - low.x, width);
  assert_mm (high.y - low.y, height);
}

static guint
count_linings (const RodPlan *plan)
{
  guint count = 0;

  for (guint f = 0; f < plan->faces->len; f++)
    count += rod_plan_face (plan, f)->parent >= 0;
  return count;
}

/* What the wall leaves open, by its clad area. */
static void
assert_open_area (const RodPlan *plan,
                  double         open_mm2)
{
  g_assert_cmpfloat_with_epsilon (rod_region_area (planned_field (plan, "a")->clad),
                                  5000.0 * 2600.0 - open_mm2,
                                  1.0);
}

/* Opening 1200 × 1000, frame 120 behind the raw wall, 20 of build-up, sill 30 above the raw one. */
static void
test_rectangle (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000, 'reveal': "
                       "{'depth_mm': 120, 'build_up_mm': 20, 'sill_rise_mm': 30}");
  g_assert_cmpuint (count_linings (plan), ==, 3);
  /* 120 + 60 deep; jambs 1000 − 20 − 30 high; head 1200 − 2·20 wide. */
  assert_size (plan, "a, w, left jamb", 180, 950);
  assert_size (plan, "a, w, right jamb", 180, 950);
  assert_size (plan, "a, w, head", 1160, 180);
  /* The wall goes up to the arris; at the sill, which is not lined, to the raw line. */
  assert_open_area (plan, 1160.0 * 980.0);
}

/* A lined sill shortens the jambs by its build-up instead of by its rise. */
static void
test_lined_sill (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodField *left, *right;

  plan = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000, 'reveal': "
                       "{'depth_mm': 120, 'build_up_mm': 20, 'sill_rise_mm': 30, 'sill': true}");
  g_assert_cmpuint (count_linings (plan), ==, 4);
  assert_size (plan, "a, w, left jamb", 180, 960);
  assert_size (plan, "a, w, sill", 1160, 180);
  assert_open_area (plan, 1160.0 * 960.0);

  /* The arris is the left edge of the left jamb and the right edge of the right one. */
  left = planned_field (plan, "a, w, left jamb");
  right = planned_field (plan, "a, w, right jamb");
  g_assert_cmpint (left->edges[ROD_REVEAL_LEFT].condition, ==, ROD_EDGE_OUTSIDE_CORNER);
  g_assert_cmpint (left->edges[ROD_REVEAL_LEFT].partner_face, ==, (int) planned_face (plan, "a"));
  g_assert_cmpint (left->edges[ROD_REVEAL_RIGHT].condition, ==, ROD_EDGE_SIDE_STOP);
  g_assert_cmpint (left->edges[ROD_REVEAL_RIGHT].partner_face, ==, -1);
  g_assert_cmpint (right->edges[ROD_REVEAL_RIGHT].condition, ==, ROD_EDGE_OUTSIDE_CORNER);
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodField *field = rod_plan_field (plan, rod_plan_face (plan, f)->first_field);
      int             inside = 0;

      if (rod_plan_face (plan, f)->parent < 0)
        continue;
      for (guint e = 0; e < 4; e++)
        inside += field->edges[e].condition == ROD_EDGE_INSIDE_CORNER;
      g_assert_cmpint (inside, ==, 2);
    }
}

/* Only what is asked for is lined; the wall then goes to the raw line of the rest. */
static void
test_parts_that_are_not_lined (void)
{
  g_autoptr (RodPlan) jambs = NULL;
  g_autoptr (RodPlan) head = NULL;
  g_autoptr (RodPlan) none = NULL;

  jambs = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000, 'reveal': "
                        "{'depth_mm': 120, 'build_up_mm': 20, 'head': false}");
  g_assert_cmpuint (count_linings (jambs), ==, 2);
  assert_size (jambs, "a, w, left jamb", 180, 1000);
  assert_open_area (jambs, 1160.0 * 1000.0);

  head = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000, 'reveal': "
                       "{'depth_mm': 120, 'build_up_mm': 20, 'jambs': false}");
  g_assert_cmpuint (count_linings (head), ==, 1);
  assert_size (head, "a, w, head", 1200, 180);
  assert_open_area (head, 1200.0 * 980.0);

  none = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000");
  g_assert_cmpuint (count_linings (none), ==, 0);
  assert_open_area (none, 1200.0 * 1000.0);
}

/* A door on the base line: jambs down to the base, no sill. */
static void
test_door (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_opening ("'kind': 'door', 'x': 1000, 'y': 0, 'width_mm': 1000, 'height_mm': 2100, "
                       "'reveal': {'depth_mm': 120, 'build_up_mm': 20}");
  assert_size (plan, "a, w, left jamb", 180, 2080);
  assert_open_area (plan, 960.0 * 2080.0);
  g_assert_null (planned_finding (plan, "no-trim"));
}

/* Boards cannot line a curve: an arch has jambs up to the springing, and what is above it ends at
 * the raw curve. */
static void
test_arch (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodField *jamb;

  plan = plan_opening ("'shape': 'arch', 'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1300, "
                       "'rise_mm': 400, 'reveal': {'depth_mm': 120, 'build_up_mm': 20}");
  g_assert_cmpuint (count_linings (plan), ==, 2);
  assert_size (plan, "a, w, left jamb", 180, 900);
  jamb = planned_field (plan, "a, w, right jamb");
  g_assert_cmpint (jamb->edges[ROD_REVEAL_UPPER].condition, ==, ROD_EDGE_SIDE_STOP);
  g_assert_cmpint (jamb->edges[ROD_REVEAL_UPPER].partner_face, ==, -1);
  g_assert_nonnull (jamb->edges[ROD_REVEAL_UPPER].trim);
  g_assert_null (planned_finding (plan, "no-trim"));
}

static void
test_circle_has_no_lining (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_opening ("'shape': 'circle', 'x': 2000, 'y': 1400, 'width_mm': 900, 'reveal': "
                       "{'depth_mm': 120, 'build_up_mm': 20}");
  g_assert_cmpuint (count_linings (plan), ==, 0);
  /* Chords stay within a quarter of a millimetre of the arc. */
  g_assert_cmpfloat_with_epsilon (rod_region_area (planned_field (plan, "a")->clad),
                                  5000.0 * 2600.0 - G_PI * 450.0 * 450.0,
                                  900.0 * G_PI * 0.25);
}

/* A window under a roof: the head rakes from 800 to 1400 over 1200. At the left the planes of jamb
 * and head enclose 90° + 26.57°, at the right 90° − 26.57°; at the foot 90°. Each end of a lining
 * moves in by D / tan (θ/2). */
static void
test_raked_head (void)
{
  const double rake = atan2 (600.0, 1200.0);
  const double left = 20.0 / tan ((G_PI / 2.0 + rake) / 2.0);
  const double right = 20.0 / tan ((G_PI / 2.0 - rake) / 2.0);
  g_autoptr (RodPlan) plan = NULL;

  /* The head falls towards the left, so that the left jamb is the short one. */
  plan = plan_opening ("'shape': 'polygon', 'corners': [{'x': 1000, 'y': 800}, "
                       "{'x': 2200, 'y': 800}, {'x': 2200, 'y': 2200}, {'x': 1000, 'y': 1600}], "
                       "'reveal': {'depth_mm': 120, 'build_up_mm': 20, 'sill': true}");
  g_assert_cmpuint (count_linings (plan), ==, 4);
  assert_size (plan, "a, w, sill", 1160, 180);
  assert_size (plan, "a, w, left jamb", 180, 800.0 - 20.0 - left);
  assert_size (plan, "a, w, right jamb", 180, 1400.0 - 20.0 - right);
  assert_size (plan, "a, w, head", hypot (1200, 600) - left - right, 180);
}

/* A triangular window, all corners 60°: each side loses 20 / tan 30° = 34.64 at both ends. */
static void
test_triangle (void)
{
  g_autoptr (RodPlan) plan = NULL;
  double           high_mm = 1000.0 * sin (G_PI / 3.0);
  g_autofree char *opening = g_strdup_printf ("'shape': 'polygon', 'corners': "
                                              "[{'x': 1000, 'y': 800}, {'x': 2000, 'y': 800}, "
                                              "{'x': 1500, 'y': %.9f}], 'reveal': "
                                              "{'depth_mm': 120, 'build_up_mm': 20, "
                                              "'sill': true}",
                                              800.0 + high_mm);

  plan = plan_opening (opening);
  g_assert_cmpuint (count_linings (plan), ==, 3);
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace *face = rod_plan_face (plan, f);
      RodPoint       low, high;

      if (face->parent < 0)
        continue;
      rod_region_extent (face->bare, &low, &high);
      assert_mm (MAX (high.x - low.x, high.y - low.y), 1000.0 - 2.0 * 20.0 / tan (G_PI / 6.0));
    }
}

/* An opening with a re-entrant corner: there two linings meet in an outside corner and grow. */
static void
test_re_entrant_opening (void)
{
  g_autoptr (RodPlan) plan = NULL;
  int outside = 0;

  plan = plan_opening ("'shape': 'polygon', 'corners': [{'x': 1000, 'y': 800}, "
                       "{'x': 2600, 'y': 800}, {'x': 2600, 'y': 1400}, {'x': 1800, 'y': 1400}, "
                       "{'x': 1800, 'y': 2000}, {'x': 1000, 'y': 2000}], "
                       "'reveal': {'depth_mm': 120, 'build_up_mm': 20, 'sill': true}");
  g_assert_cmpuint (count_linings (plan), ==, 6);
  /* 1160 × 1160 less the corner of 800 × 600, which grows by 20 at both sides. */
  assert_open_area (plan, 1560.0 * 1160.0 - 800.0 * 600.0);
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace  *face = rod_plan_face (plan, f);
      const RodField *field = rod_plan_field (plan, face->first_field);

      for (guint e = 0; face->parent >= 0 && e < 4; e++)
        if (field->edges[e].condition == ROD_EDGE_OUTSIDE_CORNER &&
            field->edges[e].partner_face != face->parent)
          {
            outside++;
            assert_mm (field->edges[e].build_up_mm, 20.0);
          }
    }
  g_assert_cmpint (outside, ==, 2);
}

/* Along the arris: the lining is one board deep, ripped at the frame; hook at the arris, so that
 * the first board shows whole. 180 − (5 + 5) at the arris − (2 + 5) at the frame = 163. */
static void
test_boards_along (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000, 'reveal': "
                       "{'depth_mm': 120, 'build_up_mm': 20, 'sill_rise_mm': 30}");
  for (guint f = 1; f < plan->faces->len; f++)
    {
      const RodField *field = rod_plan_field (plan, rod_plan_face (plan, f)->first_field);

      g_assert_cmpuint (field->n_pieces, ==, 1);
      assert_mm (rod_plan_piece (plan, field->first_piece)->width_mm, 163.0);
      g_assert_cmpint (field->fixed, ==, ROD_FIXED_MIDDLE);
    }
}

/* Every lining is laid from the arris on: the wider the reveal, the same first board. */
static void
test_laid_from_the_arris (void)
{
  static const char *const parts[] = {
    "a, w, left jamb",
    "a, w, right jamb",
    "a, w, head",
    "a, w, sill",
  };
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000, 'reveal': "
                       "{'depth_mm': 600, 'build_up_mm': 20, 'sill': true}");
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      const RodField *field = planned_field (plan, parts[i]);
      const RodPiece *first = rod_plan_piece (plan, field->first_piece);
      RodRevealSide   arris = (RodRevealSide[]){ ROD_REVEAL_LEFT,
                                                 ROD_REVEAL_RIGHT,
                                                 ROD_REVEAL_UPPER,
                                                 ROD_REVEAL_LOWER }[i];
      RodPoint        from, to;

      /* The arris is where the board frame's y begins. */
      rod_edge_shifted (&field->edges[arris], -field->edges[arris].build_up_mm, &from, &to);
      assert_mm (first->line_mm + first->low_mm - rod_affine_apply (field->to_board, from).y, 10.0);
      g_assert_cmpuint (field->n_courses, ==, 3);
    }
}

/* Across: boards run from frame to arris, each 180 − 5 − 2 between pockets, in courses up the
 * jamb. */
static void
test_boards_across (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodField *jamb, *head;

  plan = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000, 'reveal': "
                       "{'depth_mm': 120, 'build_up_mm': 20, 'boards': 'across'}");
  jamb = planned_field (plan, "a, w, left jamb");
  head = planned_field (plan, "a, w, head");
  g_assert_cmpfloat (jamb->direction_deg, ==, 0.0);
  g_assert_cmpfloat (head->direction_deg, ==, 90.0);
  for (guint p = jamb->first_piece; p < jamb->first_piece + jamb->n_pieces; p++)
    assert_mm (rod_plan_piece (plan, p)->clear_mm, 173.0);
  g_assert_cmpuint (jamb->n_courses, >=, 4);
  g_assert_cmpuint (head->n_courses, >=, 5);
}

/* A reveal may have a board of its own, and does not take over a colour that this board lacks. */
static void
test_own_board (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_opening ("'x': 1000, 'y': 800, 'width_mm': 1200, 'height_mm': 1000, 'reveal': "
                       "{'depth_mm': 120, 'build_up_mm': 20, 'board': 'reveal-board'}");
  g_assert_cmpstr (planned_field (plan, "a, w, head")->board->id, ==, "reveal-board");
  g_assert_cmpstr (planned_field (plan, "a")->board->id, ==, "board");
  g_assert_nonnull (planned_field (plan, "a, w, head")->colour);
}

/* Marks are unique in the house, also where several jambs stand on one side. */
static void
test_marks (void)
{
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (GHashTable) marks = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) pieces = g_hash_table_new (g_str_hash, g_str_equal);

  plan = plan_opening ("'shape': 'polygon', 'corners': [{'x': 1000, 'y': 800}, "
                       "{'x': 2600, 'y': 800}, {'x': 2600, 'y': 1400}, {'x': 1800, 'y': 1400}, "
                       "{'x': 1800, 'y': 2000}, {'x': 1000, 'y': 2000}], "
                       "'reveal': {'depth_mm': 120, 'build_up_mm': 20, 'sill': true}");
  for (guint f = 0; f < plan->faces->len; f++)
    g_assert_true (g_hash_table_add (marks, rod_plan_face (plan, f)->mark));
  for (guint p = 0; p < plan->pieces->len; p++)
    g_assert_true (g_hash_table_add (pieces, (char *) rod_plan_piece (plan, p)->mark));
  g_assert_cmpstr (rod_plan_face (plan, planned_face (plan, "a, w, sill"))->mark, ==, "A1S");
}

/* The role of a side by where it faces; at 45° it still is a head or a sill. */
static void
test_roles (void)
{
  static const struct
  {
    double           dx, dy;
    RodEdgeCondition role;
    RodRevealSide    arris;
  } sides[] = {
    { 100, 0, ROD_EDGE_SILL, ROD_REVEAL_LOWER },
    { 0, 100, ROD_EDGE_JAMB, ROD_REVEAL_RIGHT },
    { -100, 0, ROD_EDGE_HEAD, ROD_REVEAL_UPPER },
    { 0, -100, ROD_EDGE_JAMB, ROD_REVEAL_LEFT },
    { -100, 99, ROD_EDGE_HEAD, ROD_REVEAL_UPPER },
    { -100, -100, ROD_EDGE_HEAD, ROD_REVEAL_UPPER },
    { 100, 100, ROD_EDGE_SILL, ROD_REVEAL_LOWER },
    { 100, -101, ROD_EDGE_JAMB, ROD_REVEAL_LEFT },
  };

  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    {
      const RodSide side = { .from = { 500, 500 }, .to = { 500 + sides[i].dx, 500 + sides[i].dy } };

      g_assert_cmpint (rod_side_role (&side), ==, sides[i].role);
      g_assert_cmpint (rod_reveal_arris (&side), ==, sides[i].arris);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/reveals/rectangle", test_rectangle);
  g_test_add_func ("/reveals/lined-sill", test_lined_sill);
  g_test_add_func ("/reveals/parts-that-are-not-lined", test_parts_that_are_not_lined);
  g_test_add_func ("/reveals/door", test_door);
  g_test_add_func ("/reveals/arch", test_arch);
  g_test_add_func ("/reveals/circle-has-no-lining", test_circle_has_no_lining);
  g_test_add_func ("/reveals/raked-head", test_raked_head);
  g_test_add_func ("/reveals/triangle", test_triangle);
  g_test_add_func ("/reveals/re-entrant-opening", test_re_entrant_opening);
  g_test_add_func ("/reveals/boards-along", test_boards_along);
  g_test_add_func ("/reveals/laid-from-the-arris", test_laid_from_the_arris);
  g_test_add_func ("/reveals/boards-across", test_boards_across);
  g_test_add_func ("/reveals/own-board", test_own_board);
  g_test_add_func ("/reveals/marks", test_marks);
  g_test_add_func ("/reveals/roles", test_roles);

  return g_test_run ();
}
