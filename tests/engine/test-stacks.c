/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Edge stacks: raw line, batten face, trim, pocket, cut line (rules R7, R8, R12 and R16 in
 * docs/rules.md), by hand and by geometry of its own. Convention K: J of 2 and 5, outside corner of
 * 5, inside corner of 20. */

#include "support/planned-house.h"

#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"

#include <math.h>

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 0.0011)

/* Greatest and least x and y of an area of a field, in its surface's plane. */
static void
assert_extent (const RodRegion *region,
               double           left,
               double           bottom,
               double           right,
               double           top)
{
  RodPoint low, high;

  rod_region_extent (region, &low, &high);
  assert_mm (low.x, left);
  assert_mm (low.y, bottom);
  assert_mm (high.x, right);
  assert_mm (high.y, top);
}

static void
assert_pocket (const RodField *field,
               double          left,
               double          bottom,
               double          right,
               double          top)
{
  g_autoptr (RodRegion) pocket = rod_region_transform (field->pocket, field->to_surface);

  assert_extent (pocket, left, bottom, right, top);
}

static double
width_of (const RodPlan *plan,
          const char    *id)
{
  RodPoint low, high;

  rod_region_extent (rod_plan_face (plan, planned_face (plan, id))->bare, &low, &high);
  return high.x - low.x;
}

/* A free-standing wall, level boards: raw 4000 × 2400, 30 free under the roof, starter on the
 * base. */
static void
test_four_lines (void)
{
  RodHouse       *house;
  const RodPiece *top;

  house = surveyed_house ("k-250",
                          SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'build_up_mm': 40")),
                          NULL);
  ((RodCorner *) g_ptr_array_index (
     ((RodSurface *) g_ptr_array_index (house->surfaces, 0))->outline, 2))
    ->clearance_mm = 30.0;
  {
    g_autoptr (RodPlan) plan = planned_house (house);
    const RodField *field = rod_plan_field (plan, 0);
    double          low, high;

    /* Nothing lies round its corners, so the batten face is as long as the raw wall. */
    assert_extent (rod_plan_face (plan, 0)->bare, 0, 0, 4000, 2400);
    assert_extent (field->clad, 0, 0, 4000, 2370);
    /* Sides: pocket 2 inwards, the boards' own gap is still to come. Top: 2370 − 2 − 5. */
    assert_pocket (field, 2, 0, 3998, 2363);
    g_assert_cmpint (planned_edge (plan, "a", "top")->condition, ==, ROD_EDGE_TOP);
    g_assert_true (planned_edge (plan, "a", "top")->long_side);
    g_assert_true (planned_edge (plan, "a", "base")->starter);
    g_assert_false (planned_edge (plan, "a", "right")->long_side);

    /* Cut lines: 2363 − 9·250 = 113 at the top, ends a gap of 8 inside the pockets. */
    top = planned_piece (plan, "A-10-1");
    assert_mm (top->width_mm, 113.0);
    rod_plan_piece_extent (plan, top, &low, &high);
    assert_mm (low, 10.0);
    assert_mm (high, 3990.0);
  }
}

/* The same wall with upright boards, laid from either side: sides are cut lines now, the top holds
 * the boards, the base has no starter. */
static void
test_four_lines_upright (void)
{
  for (int right = 0; right < 2; right++)
    {
      g_autofree char *more = g_strdup_printf (", 'direction_deg': 90, 'laid_from': '%s'",
                                               right ? "right" : "left");
      g_autoptr (RodPlan) plan = NULL;
      const RodPiece *first;

      plan = planned_house (surveyed_house (
        "k-200", SURVEYED (surveyed_box ("a", "wall", 5230, 2650, more)), NULL));
      assert_extent (rod_plan_field (plan, 0)->clad, 0, 0, 5230, 2650);
      assert_pocket (rod_plan_field (plan, 0), 7, 2, 5223, 2648);
      g_assert_false (planned_edge (plan, "a", "base")->starter);
      g_assert_cmpint (rod_plan_field (plan, 0)->fixed, ==, ROD_FIXED_TOP);
      first = rod_plan_piece (plan, 0);
      /* Held at its upper end with 2, moving below with 10, whichever end the frame calls left. */
      assert_mm (right ? first->right.gap_mm : first->left.gap_mm, 2.0);
      assert_mm (right ? first->left.gap_mm : first->right.gap_mm, 10.0);
    }
}

/* Where two lines, moved out by their own build-ups, meet, counted along the first from its raw
 * corner. Seen from above: the first wall runs along x and is clad at −y, the second turns away. */
static double
corner_by_geometry (double own_mm,
                    double other_mm,
                    double fold_deg)
{
  double   fold = fold_deg * G_PI / 180.0;
  RodPoint along = { cos (fold), sin (fold) };
  RodPoint out = { sin (fold), -cos (fold) };
  /* On the first line: (x, −own). On the second: out·p = other, so that x follows. */
  double x = (other_mm - out.y * -own_mm) / out.x;

  /* The point lies on both, whatever the sum above says. */
  g_assert_cmpfloat_with_epsilon ((x - other_mm * out.x) * -along.y +
                                    (-own_mm - other_mm * out.y) * along.x,
                                  0.0,
                                  1e-9);
  return x;
}

static void
test_corners (void)
{
  static const double folds_deg[] = { 90, -90, 45, -45, 30, 135, -120, 15, 88.5 };

  for (guint i = 0; i < G_N_ELEMENTS (folds_deg); i++)
    for (int n = 0; n < 10; n++)
      {
        double           one_mm = n == 0 ? 60.0 : g_test_rand_int_range (0, 250);
        double           other_mm = n == 0 ? 60.0 : g_test_rand_int_range (0, 250);
        g_autofree char *one = g_strdup_printf (", 'build_up_mm': %.1f", one_mm);
        g_autofree char *other = g_strdup_printf (", 'build_up_mm': %.1f", other_mm);
        g_autoptr (RodPlan) plan = NULL;

        plan = planned_house (surveyed_house (
          "k-250",
          SURVEYED (surveyed_box ("a", "wall", 4000, 2400, one),
                    surveyed_box ("b", "wall", 3000, 2400, other)),
          SURVEYED (surveyed_join ("j", "a.right", "b.left", folds_deg[i], ""))));
        assert_mm (width_of (plan, "a"),
                   4000.0 + corner_by_geometry (one_mm, other_mm, folds_deg[i]));
        assert_mm (width_of (plan, "b"),
                   3000.0 + corner_by_geometry (other_mm, one_mm, folds_deg[i]));
        g_assert_cmpint (planned_edge (plan, "a", "right")->condition,
                         ==,
                         folds_deg[i] > 0 ? ROD_EDGE_OUTSIDE_CORNER : ROD_EDGE_INSIDE_CORNER);

        /* Equal build-ups: D / tan (θ/2), θ = 180° − fold between the raw planes. */
        if (n == 0)
          assert_mm (width_of (plan, "a"),
                     4000.0 + 60.0 / tan ((180.0 - folds_deg[i]) * G_PI / 360.0));
      }
}

/* At a corner the trim's set-back counts from the arris of the batten faces: 4060 − 5, 4000 − 60 −
 * 20. */
static void
test_corner_trims_count_from_the_batten_face (void)
{
  g_autoptr (RodPlan) outside = NULL;
  g_autoptr (RodPlan) inside = NULL;

  outside = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'build_up_mm': 60"),
              surveyed_box ("b", "wall", 3000, 2400, ", 'build_up_mm': 60")),
    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
  inside = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'build_up_mm': 60"),
              surveyed_box ("b", "wall", 3000, 2400, ", 'build_up_mm': 60")),
    SURVEYED (surveyed_join ("j", "a.right", "b.left", -90, ""))));
  assert_extent (planned_field (outside, "a")->clad, 0, 0, 4060, 2400);
  assert_pocket (planned_field (outside, "a"), 2, 0, 4055, 2393);
  assert_extent (planned_field (outside, "b")->clad, -60, 0, 3000, 2400);
  assert_extent (planned_field (inside, "a")->clad, 0, 0, 3940, 2400);
  assert_pocket (planned_field (inside, "a"), 2, 0, 3920, 2393);
}

/* A tower of six walls, 120° between them: each end gains D / tan 60°, twelve ends in all. */
static void
test_round_a_hexagon (void)
{
  char  *surfaces[7] = { NULL }, *joins[7] = { NULL };
  double sum_mm = 0.0;
  g_autoptr (RodPlan) plan = NULL;

  for (int i = 0; i < 6; i++)
    {
      g_autofree char *id = g_strdup_printf ("w%d", i);
      g_autofree char *join = g_strdup_printf ("j%d", i);
      g_autofree char *one = g_strdup_printf ("w%d.right", i);
      g_autofree char *other = g_strdup_printf ("w%d.left", (i + 1) % 6);

      surfaces[i] = surveyed_box (id, "wall", 2000 + 100 * i, 2400, ", 'build_up_mm': 80");
      joins[i] = surveyed_join (join, one, other, 60, "");
    }
  plan = planned_house (surveyed_house ("k-250", surfaces, joins));
  for (guint f = 0; f < 6; f++)
    {
      RodPoint low, high;

      rod_region_extent (rod_plan_face (plan, f)->bare, &low, &high);
      sum_mm += high.x - low.x;
    }
  g_assert_cmpfloat_with_epsilon (sum_mm, 13500.0 + 12.0 * 80.0 / tan (G_PI / 3.0), 0.01);
  g_assert_null (planned_finding (plan, "corner-not-joined"));
}

static RodHouse *
split_level_house (double low_mm,
                   double high_mm,
                   double second_level_mm)
{
  g_autofree char *level = g_strdup_printf (", 'level_mm': %.1f", second_level_mm);
  RodHouse        *house;
  RodTrimRule     *rule;

  house = surveyed_house ("k-250",
                          SURVEYED (surveyed_box ("a", "wall", 4000, 2500, ", 'joint_line_mm': 60"),
                                    surveyed_box ("b", "wall", 3000, 2700, level)),
                          SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, "")));
  rule = g_ptr_array_index (planned_system (house)->trim_rules, 0);
  g_assert_true (rule->starter);
  rule->starter_low_mm = low_mm;
  rule->starter_high_mm = high_mm;
  return house;
}

/* Starters go up to the first joint line in their range, counted from each wall's own base. */
static void
test_starters_settle (void)
{
  /* Joint lines at 60 + 250 i. A base at −130 finds 60 − 250 = −190 too low, 60 is 190 above it; a
   * base at −200 finds −190, 10 above it. */
  g_autoptr (RodPlan) high = planned_house (split_level_house (0, 200, -130));
  g_autoptr (RodPlan) near = planned_house (split_level_house (0, 200, -200));
  g_autoptr (RodPlan) below = planned_house (split_level_house (-20, 100, -180));

  assert_mm (planned_edge (high, "a", "base")->clearance_mm, 60.0);
  assert_mm (planned_edge (high, "b", "base")->clearance_mm, 190.0);
  g_assert_true (planned_edge (high, "b", "base")->starter);
  assert_extent (planned_field (high, "b")->clad, 0, 190, 3000, 2700);
  assert_mm (planned_piece (high, "B-01-1")->width_mm, 250.0);

  assert_mm (planned_edge (near, "b", "base")->clearance_mm, 10.0);

  /* The range may begin below the edge: −190 is 10 below a base at −180. */
  assert_mm (planned_edge (below, "b", "base")->clearance_mm, -10.0);
  assert_extent (planned_field (below, "b")->clad, 0, -10, 3000, 2700);
}

/* Rule R12: where a base has no joint line within its starter's range, its first course is ripped
 * and held by a trim; what the search reckons with is what is cut. */
static void
test_lost_starter_gets_a_trim (void)
{
  static const double clearances_mm[] = { 0, 35 };

  for (guint i = 0; i < G_N_ELEMENTS (clearances_mm); i++)
    {
      RodHouse    *house = split_level_house (20, 90, -100);
      RodTrimRule *without = g_ptr_array_index (planned_system (house)->trim_rules, 7);
      double       foot_mm = MAX (20, clearances_mm[i]);
      double       strip_mm = 160.0 - foot_mm - 2.0 - 5.0;
      g_autoptr (RodPlan) plan = NULL;
      const RodEdge *base;

      g_assert_cmpint (without->condition, ==, ROD_EDGE_BASE);
      g_assert_false (without->starter);
      without->clearance_mm = clearances_mm[i];
      plan = planned_house (house);
      base = planned_edge (plan, "b", "base");

      /* Lines at 60 + 250 i; the base at −100 has 160 above it, out of [20, 90]. */
      g_assert_false (base->starter);
      g_assert_cmpstr (base->trim->id, ==, "j");
      assert_mm (base->clearance_mm, foot_mm);
      assert_mm (base->gap_across_mm, 5.0);
      assert_mm (planned_piece (plan, "B-01-1")->width_mm, strip_mm);
      assert_mm (planned_piece (plan, "B-01-1")->low_mm, 250.0 - strip_mm);
      assert_mm (planned_piece (plan, "B-02-1")->width_mm, 250.0);
      /* Under the tops, 2500 − 7 − 60 leaves 183 and 2600 − 7 − 60 leaves 33. */
      assert_mm (g_array_index (plan->groups, RodGroup, 0).narrowest_mm, MIN (33.0, strip_mm));
    }
}

/* The search may choose which base to lose: here the strip at the foot decides, and it must be the
 * strip that is cut. */
static void
test_lost_starter_counts_as_cut (void)
{
  RodHouse    *house = split_level_house (0, 30, -125);
  RodTrimRule *without = g_ptr_array_index (planned_system (house)->trim_rules, 7);
  double       narrowest_mm = INFINITY;
  g_autoptr (RodPlan) plan = NULL;

  ((RodSurface *) g_ptr_array_index (house->surfaces, 0))->joint_line_mm = NAN;
  without->clearance_mm = 20.0;
  plan = planned_house (house);
  for (guint p = 0; p < plan->pieces->len; p++)
    narrowest_mm = MIN (narrowest_mm, rod_plan_piece (plan, p)->width_mm);
  assert_mm (g_array_index (plan->groups, RodGroup, 0).narrowest_mm, narrowest_mm);
}

/* A surface's own range goes before the table's. */
static void
test_range_of_the_surface (void)
{
  RodHouse *house;
  g_autoptr (RodPlan) plan = NULL;

  house = surveyed_house ("k-250",
                          SURVEYED (surveyed_box ("a",
                                                  "wall",
                                                  4000,
                                                  2500,
                                                  ", 'joint_line_mm': 460, 'starter_low_mm': 150, "
                                                  "'starter_high_mm': 300")),
                          NULL);
  plan = planned_house (house);
  assert_mm (planned_edge (plan, "a", "base")->clearance_mm, 210.0);
  g_assert_true (planned_edge (plan, "a", "base")->starter);
}

/* Under 15° boards are planed along an edge, above they end at it; from 0.01° on no edge is level
 * enough for a starter. */
static void
test_relation_to_edges (void)
{
  static const struct
  {
    double           fall_mm;
    RodBoardRelation relation;
    gboolean         long_side;
    gboolean         starter;
  } cases[] = {
    { 0, ROD_BOARDS_ALONG, TRUE, TRUE },
    { 0.5, ROD_BOARDS_ALONG, TRUE, TRUE },
    { 60, ROD_BOARDS_ACROSS, TRUE, FALSE },
    { 1060, ROD_BOARDS_ACROSS, TRUE, FALSE },
    { 1080, ROD_BOARDS_ACROSS, FALSE, FALSE },
  };

  /* tan 15° · 4000 = 1071.8; tan 0.01° · 4000 = 0.70. */
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      RodHouse *house;
      g_autoptr (RodPlan) plan = NULL;
      const RodEdge *base;

      house = surveyed_house ("k-250",
                              SURVEYED (surveyed_box ("a", "wall", 4000, 3000, "")),
                              NULL);
      ((RodCorner *) g_ptr_array_index (
         ((RodSurface *) g_ptr_array_index (house->surfaces, 0))->outline, 0))
        ->y = cases[i].fall_mm;
      plan = planned_house (house);
      base = planned_edge (plan, "a", "base");
      g_assert_cmpint (base->condition, ==, ROD_EDGE_BASE);
      g_assert_cmpint (base->relation, ==, cases[i].relation);
      g_assert_cmpint (base->long_side, ==, cases[i].long_side);
      g_assert_cmpint (base->starter, ==, cases[i].starter);
      assert_mm (base->gap_across_mm, cases[i].long_side && !cases[i].starter ? 5.0 : 0.0);
    }
}

/* Round pipes and lights boards are cut clear, 8 mm, without a trim; a vent has trims. */
static void
test_pipes_have_no_trim (void)
{
  static const char *const kinds[] = { "pipe", "light", "vent" };

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *more = g_strdup_printf (", 'openings': [{'id': 'o', 'kind': '%s', "
                                               "'x': 1500, 'y': 1040, 'width_mm': 120, "
                                               "'height_mm': 120}]",
                                               kinds[i]);
      gboolean         trimless = i < 2;
      g_autoptr (RodPlan) plan = NULL;

      plan = planned_house (surveyed_house (
        "k-250", SURVEYED (surveyed_box ("a", "wall", 4000, 2400, more)), NULL));
      for (guint e = 4; e < 8; e++)
        {
          const RodEdge *edge = &rod_plan_field (plan, 0)->edges[e];

          g_assert_cmpint (rod_edge_trimless (plan, rod_plan_field (plan, 0), edge), ==, trimless);
          g_assert_cmpint (edge->trim == NULL, ==, trimless);
          assert_mm (rod_edge_inset (edge), trimless ? 8.0 : 0.0);
        }
    }
}

#define UPPER_ZONE(more)                                                              \
  ", 'zones': [{'id': 'z', 'corners': [{'x': 0, 'y': 1200}, {'x': 4000, 'y': 1200}, " \
  "{'x': 4000, 'y': 2400}, {'x': 0, 'y': 2400}]" more "}]"

/* A border between zones that differ in colour only takes nothing; between boards of two kinds each
 * side has its own trim and gap: 1200 ± (2 + 5). */
static void
test_borders_of_zones (void)
{
  g_autoptr (RodPlan) plain = NULL;
  g_autoptr (RodPlan) boards = NULL;

  plain = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, UPPER_ZONE (", 'colour': 'plain'"))),
    NULL));
  assert_pocket (rod_plan_field (plain, 0), 2, 0, 3998, 1200);
  assert_pocket (rod_plan_field (plain, 1), 2, 1200, 3998, 2393);
  g_assert_cmpuint (rod_plan_field (plain, 0)->group, ==, rod_plan_field (plain, 1)->group);

  boards = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, UPPER_ZONE (", 'board': 'reveal-board'"))),
    NULL));
  assert_pocket (rod_plan_field (boards, 0), 2, 0, 3998, 1193);
  assert_pocket (rod_plan_field (boards, 1), 2, 1207, 3998, 2393);
  g_assert_cmpuint (rod_plan_field (boards, 0)->group, !=, rod_plan_field (boards, 1)->group);
}

/* A band of another colour has no trims along the boards, whatever a zone elsewhere does; the joint
 * lines move to its borders, here 40 above the base and every 250. */
static void
test_colour_band (void)
{
  g_autoptr (RodPlan) plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box (
      "a",
      "wall",
      5000,
      2400,
      ", 'starter_low_mm': 0, 'starter_high_mm': 100, 'zones': ["
      "{'id': 'band', 'colour': 'plain', 'corners': [{'x': 500, 'y': 540}, {'x': 2500, 'y': 540}, "
      "{'x': 2500, 'y': 790}, {'x': 500, 'y': 790}]}, "
      "{'id': 'upright', 'direction_deg': 90, 'corners': [{'x': 3000, 'y': 600}, "
      "{'x': 4000, 'y': 600}, {'x': 4000, 'y': 1600}, {'x': 3000, 'y': 1600}]}]")),
    NULL));
  const RodField *band = planned_field (plan, "a") + 1;

  g_assert_cmpstr (band->zone->id, ==, "band");
  assert_pocket (band, 502, 540, 2498, 790);
  assert_mm (band->phase_mm, 40);
  g_assert_cmpuint (band->n_pieces, ==, 1);
  g_assert_cmpfloat (rod_plan_piece (plan, band->first_piece)->width_mm, >, 249.0);
}

/* A zone drawn up to the wall's raw edges reaches as far as the wall is clad: over the build-up
 * round the corner, down to the starter, and its boards keep their hook there. */
static void
test_zone_reaches_the_edges (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodField *rest, *zone;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            4000,
                            2400,
                            ", 'build_up_mm': 60, 'zones': [{'id': 'z', 'board': 'reveal-board', "
                            "'corners': [{'x': 0, 'y': 0}, {'x': 4000, 'y': 0}, "
                            "{'x': 4000, 'y': 1000}, {'x': 0, 'y': 1000}]}]"),
              surveyed_box ("b", "wall", 3000, 2400, ", 'build_up_mm': 60")),
    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
  rest = planned_field (plan, "a");
  zone = rest + 1;
  g_assert_cmpstr (zone->zone->id, ==, "z");

  assert_extent (zone->clad, 0, 0, 4060, 1000);
  assert_pocket (zone, 2, 0, 4055, 993);
  assert_extent (rest->clad, 0, 1000, 4060, 2400);
  assert_pocket (rest, 2, 1007, 4055, 2393);
  g_assert_cmpfloat_with_epsilon (rod_region_area (rest->clad) + rod_region_area (zone->clad),
                                  4060.0 * 2400.0,
                                  1.0);
  assert_mm (planned_piece (plan, "Aa-01-1")->width_mm, 250.0);
  assert_mm (planned_piece (plan, "Aa-01-1")->low_mm, 0.0);
}

/* So it does where it ends at the side of an opening: the wall goes on over the reveal's build-up,
 * and so does the zone. */
static void
test_zone_reaches_an_opening (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodField *zone;
  double          sum = 0.0;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box (
      "a",
      "wall",
      5000,
      2400,
      ", 'openings': [{'id': 'w', 'x': 2000, 'y': 800, 'width_mm': 1000, 'height_mm': 1000, "
      "'reveal': {'depth_mm': 150, 'build_up_mm': 20, 'sill': true}}], "
      "'zones': [{'id': 'z', 'board': 'reveal-board', 'corners': [{'x': 500, 'y': 800}, "
      "{'x': 2000, 'y': 800}, {'x': 2000, 'y': 1800}, {'x': 500, 'y': 1800}]}]")),
    NULL));
  zone = planned_field (plan, "a") + 1;
  g_assert_cmpfloat_with_epsilon (rod_region_area (zone->clad), 1520.0 * 1000.0, 25.0);
  for (guint f = 0; f < 2; f++)
    sum += rod_region_area (rod_plan_field (plan, f)->clad);
  g_assert_cmpfloat_with_epsilon (sum, 5000.0 * 2400.0 - 960.0 * 960.0, 1.0);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/stacks/four-lines", test_four_lines);
  g_test_add_func ("/stacks/four-lines-upright", test_four_lines_upright);
  g_test_add_func ("/stacks/corners", test_corners);
  g_test_add_func ("/stacks/corner-trims-count-from-the-batten-face",
                   test_corner_trims_count_from_the_batten_face);
  g_test_add_func ("/stacks/round-a-hexagon", test_round_a_hexagon);
  g_test_add_func ("/stacks/starters-settle", test_starters_settle);
  g_test_add_func ("/stacks/lost-starter-gets-a-trim", test_lost_starter_gets_a_trim);
  g_test_add_func ("/stacks/lost-starter-counts-as-cut", test_lost_starter_counts_as_cut);
  g_test_add_func ("/stacks/range-of-the-surface", test_range_of_the_surface);
  g_test_add_func ("/stacks/relation-to-edges", test_relation_to_edges);
  g_test_add_func ("/stacks/pipes-have-no-trim", test_pipes_have_no_trim);
  g_test_add_func ("/stacks/borders-of-zones", test_borders_of_zones);
  g_test_add_func ("/stacks/colour-band", test_colour_band);
  g_test_add_func ("/stacks/zone-reaches-the-edges", test_zone_reaches_the_edges);
  g_test_add_func ("/stacks/zone-reaches-an-opening", test_zone_reaches_an_opening);

  return g_test_run ();
}
