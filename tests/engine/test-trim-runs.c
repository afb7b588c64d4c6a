/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Trim runs: every metre of boundary has exactly one trim or is said to have none (rules T1 and T2
 * in docs/rules.md; common practice). What the boundary is, is taken from the clad areas, edge by
 * edge. */

#include "support/planned-house.h"

#include "engine/rod-limits.h"
#include "engine/takeoff/rod-takeoff.h"
#include "engine/trims/rod-trim-table.h"

#include <math.h>

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 0.01)

/* Length of a field's boundary on one edge. */
static double
boundary_mm (const RodField *field,
             int             edge)
{
  const RodRegion *clad = field->clad;
  double           sum = 0.0;

  for (guint r = 0; r < clad->n_rings; r++)
    for (guint p = clad->ring_starts[r]; p < clad->ring_starts[r + 1]; p++)
      {
        guint next = p + 1 < clad->ring_starts[r + 1] ? p + 1 : clad->ring_starts[r];

        if (clad->tags[p] == edge)
          sum += rod_point_distance (clad->points[p], clad->points[next]);
      }
  return sum;
}

/* Length of trim on one edge of a field. */
static double
trimmed_mm (const RodPlan *plan,
            guint          field,
            int            edge,
            const RodTrim *trim)
{
  double sum = 0.0;

  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (run->field == field && run->edge == edge && run->trim == trim)
        sum += run->length_mm;
    }
  return sum;
}

static double
trim_mm (const RodPlan *plan,
         const char    *id)
{
  double sum = 0.0;

  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (g_str_equal (run->trim->id, id))
        sum += run->length_mm;
    }
  return sum;
}

/* Widens [low, high] by the heights between which a field has an edge. */
static void
widen (const RodField *field,
       int             edge,
       double         *low,
       double         *high)
{
  const RodRegion *clad = field->clad;

  for (guint r = 0; r < clad->n_rings; r++)
    for (guint p = clad->ring_starts[r]; p < clad->ring_starts[r + 1]; p++)
      {
        guint next = p + 1 < clad->ring_starts[r + 1] ? p + 1 : clad->ring_starts[r];

        if (clad->tags[p] != edge)
          continue;
        *low = MIN (*low, MIN (clad->points[p].y, clad->points[next].y));
        *high = MAX (*high, MAX (clad->points[p].y, clad->points[next].y));
      }
}

/* Both sides of a corner with one trim for both: boundary and trim. */
static void
assert_corner (const RodPlan *plan,
               guint          index,
               int            tag)
{
  const RodField *field = rod_plan_field (plan, index);
  const RodFace  *own = rod_plan_face (plan, field->face);
  const RodEdge  *edge = &field->edges[tag];
  const RodFace  *other = rod_plan_face (plan, (guint) edge->partner_face);
  double          own_mm = 0.0, other_mm = 0.0, here = 0.0, there = 0.0;
  double          low = INFINITY, high = -INFINITY;

  for (guint i = 0; i < own->n_fields; i++)
    {
      own_mm += boundary_mm (rod_plan_field (plan, own->first_field + i), tag);
      widen (rod_plan_field (plan, own->first_field + i), tag, &low, &high);
      here += trimmed_mm (plan, own->first_field + i, tag, edge->trim);
    }
  for (guint i = 0; i < other->n_fields; i++)
    {
      other_mm += boundary_mm (rod_plan_field (plan, other->first_field + i), edge->partner_edge);
      widen (rod_plan_field (plan, other->first_field + i), edge->partner_edge, &low, &high);
      there += trimmed_mm (plan, other->first_field + i, edge->partner_edge, edge->trim);
    }
  /* On one side only: a reveal's, else the longer one's, which is as long as both together where
   * they stand against each other. */
  g_assert_true ((here > 0.0) != (there > 0.0));
  if ((own->parent < 0) != (other->parent < 0))
    assert_mm (own->parent >= 0 ? here : there, own->parent >= 0 ? own_mm : other_mm);
  else if (own->parent >= 0)
    assert_mm (here + there, MAX (own_mm, other_mm));
  else
    assert_mm (here + there, high - low);
}

/* Every metre of boundary of the house. */
static void
assert_every_metre (const RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    {
      const RodField *field = rod_plan_field (plan, f);

      for (guint e = 0; e < field->n_edges; e++)
        {
          const RodEdge *edge = &field->edges[e];
          double         length_mm = boundary_mm (field, (int) e);
          double         trim = trimmed_mm (plan, f, (int) e, edge->trim);
          gboolean       shared = edge->trim != NULL && edge->trim->two_sided;

          if (edge->trim == NULL || length_mm < 2.0 * ROD_SNAP_MM)
            g_assert_cmpfloat (trim, <=, length_mm);
          else if (shared && edge->partner_face >= 0)
            assert_corner (plan, f, (int) e);
          else if (shared && edge->zone >= 0 && edge->turned)
            g_assert_cmpfloat (trim, ==, 0.0);
          else
            g_assert_cmpfloat_with_epsilon (trim, length_mm, 2.0 * ROD_SNAP_MM);

          for (guint i = 0; edge->rule != NULL && i < edge->rule->beside->len; i++)
            {
              const char    *id = g_ptr_array_index (edge->rule->beside, i);
              const RodTrim *beside = rod_system_find_trim (
                rod_plan_face (plan, field->face)->system, id);

              g_assert_cmpfloat_with_epsilon (trimmed_mm (plan, f, (int) e, beside),
                                              length_mm,
                                              2.0 * ROD_SNAP_MM);
            }
        }
    }
}

/* Runs of one trim, by length, longest first. */
static GArray *
runs_of (const RodPlan *plan,
         const char    *id)
{
  GArray *lengths = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (g_str_equal (run->trim->id, id))
        g_array_append_val (lengths, run->length_mm);
    }
  return lengths;
}

/* A door on the base line: the base in two runs, jambs from the base up, a head, no sill. */
static void
test_door_divides_the_base (void)
{
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (GArray) starter = NULL;
  g_autoptr (GArray) vent = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            5000,
                            2400,
                            ", 'openings': [{'id': 'd', 'kind': 'door', 'x': 1500, 'y': 0, "
                            "'width_mm': 900, 'height_mm': 2100}]")),
    NULL));
  assert_every_metre (plan);
  starter = runs_of (plan, "starter");
  vent = runs_of (plan, "base-vent");
  g_assert_cmpuint (starter->len, ==, 2);
  g_assert_cmpuint (vent->len, ==, 2);
  assert_mm (g_array_index (starter, double, 0) + g_array_index (starter, double, 1), 4100.0);
  /* J: two sides of 2400, two jambs of 2100, a head of 900. */
  assert_mm (trim_mm (plan, "j"), 2 * 2400.0 + 2 * 2100.0 + 900.0);
  assert_mm (trim_mm (plan, "top-j"), 5000.0);
}

/* The run of a starter lies where the starter is, not on the base line. */
static void
test_runs_lie_on_the_boundary (void)
{
  RodHouse *house = surveyed_house ("k-250",
                                    SURVEYED (surveyed_box ("a",
                                                            "wall",
                                                            4000,
                                                            2400,
                                                            ", 'starter_low_mm': 70, "
                                                            "'starter_high_mm': 70")),
                                    NULL);
  g_autoptr (RodPlan) plan = planned_house (house);

  assert_every_metre (plan);
  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      assert_mm (rod_point_distance (run->from, run->to), run->length_mm);
      if (g_str_equal (run->trim->id, "starter"))
        {
          assert_mm (run->from.y, 70.0);
          assert_mm (run->to.y, 70.0);
        }
      if (g_str_equal (run->trim->id, "j"))
        assert_mm (run->length_mm, 2330.0);
    }
}

/* Rakes are counted along themselves. */
static void
test_verges (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (g_strdup ("{'id': 'a', 'kind': 'wall', 'system': 'k', 'outline': ["
                        "{'x': 0, 'y': 0}, {'x': 6000, 'y': 0}, {'x': 6000, 'y': 2000}, "
                        "{'x': 3000, 'y': 6000}, {'x': 0, 'y': 2000}]}")),
    NULL));
  assert_every_metre (plan);
  /* Two sides of 2000 and two rakes of 5000 (3000, 4000). */
  assert_mm (trim_mm (plan, "j"), 2 * 2000.0 + 2 * 5000.0);
}

/* A curved side is one run along the curve, chord by chord within a quarter of a millimetre. */
static void
test_curved_runs (void)
{
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (GArray) runs = NULL;
  double sum;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            3000,
                            2400,
                            ", 'openings': [{'id': 'o', 'shape': 'circle', 'x': 1500, 'y': 1200, "
                            "'width_mm': 900}]")),
    NULL));
  assert_every_metre (plan);
  runs = runs_of (plan, "j");
  g_assert_cmpuint (runs->len, ==, 4);
  sum = trim_mm (plan, "j") - 2 * 2400.0;
  g_assert_cmpfloat (sum, <=, 900.0 * G_PI);
  g_assert_cmpfloat (sum, >, 900.0 * G_PI - 5.0);
}

static RodPlan *
plan_corner (double      one_height,
             double      other_height,
             double      other_level,
             const char *one_more)
{
  g_autofree char *level = g_strdup_printf (", 'build_up_mm': 60, 'level_mm': %.1f", other_level);
  g_autofree char *one = g_strdup_printf (", 'build_up_mm': 60%s", one_more);

  return planned_house (
    surveyed_house ("k-250",
                    SURVEYED (surveyed_box ("a", "wall", 4000, one_height, one),
                              surveyed_box ("b", "wall", 3000, other_height, level)),
                    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
}

/* A corner's trim is listed once: with the longer edge; with the first of equal ones. */
static void
test_corner_counts_once (void)
{
  g_autoptr (RodPlan) equal = plan_corner (2500, 2500, 0, "");
  g_autoptr (RodPlan) longer = plan_corner (2500, 2800, -300, "");

  assert_every_metre (equal);
  assert_mm (trim_mm (equal, "outside-corner"), 2500.0);
  assert_every_metre (longer);
  assert_mm (trim_mm (longer, "outside-corner"), 2800.0);
}

/* One wall reaches lower, the other higher: the post is as long as both together. */
static void
test_corner_of_split_levels (void)
{
  g_autoptr (RodPlan) plan = plan_corner (3500, 2500, -750, "");
  g_autoptr (RodPlan) swapped = plan_corner (2500, 3500, -1750, "");
  int posts = 0;

  /* −750 to 3500. */
  assert_mm (trim_mm (plan, "outside-corner"), 4250.0);
  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (!g_str_equal (run->trim->id, "outside-corner"))
        continue;
      posts++;
      assert_mm (MIN (run->from.y, run->to.y), -750.0);
      assert_mm (MAX (run->from.y, run->to.y), 3500.0);
    }
  g_assert_cmpint (posts, ==, 1);

  /* −1750 to 2500. */
  assert_mm (trim_mm (swapped, "outside-corner"), 4250.0);
}

/* A wall that stands on the other's shoulder: they share only a part of the corner's line, or none
 * of it; then each has a post of its own. */
static void
test_corner_without_overlap (void)
{
  g_autoptr (RodPlan) plan = plan_corner (2000, 1500, 2500, "");

  assert_mm (trim_mm (plan, "outside-corner"), 2000.0 + 1500.0);
}

/* A door in the corner interrupts one side only: the other wall's edge still carries the post. */
static void
test_door_in_the_corner (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            4000,
                            2500,
                            ", 'openings': [{'id': 'd', 'kind': 'door', 'x': 3200, 'y': 0, "
                            "'width_mm': 800, 'height_mm': 2100}]"),
              surveyed_box ("b", "wall", 3000, 2500, "")),
    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
  assert_mm (boundary_mm (planned_field (plan, "a"), 1), 400.0);
  assert_mm (trim_mm (plan, "outside-corner"), 2500.0);
  assert_every_metre (plan);
}

/* Reveals: arris and frame are mitred and count to the long point, inside corners are cut square.
 */
static void
test_reveal (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            5000,
                            2600,
                            ", 'build_up_mm': 60, 'openings': [{'id': 'w', 'x': 1000, 'y': 800, "
                            "'width_mm': 1200, 'height_mm': 1000, 'reveal': {'depth_mm': 120, "
                            "'build_up_mm': 20, 'sill_rise_mm': 30}}]")),
    NULL));
  assert_every_metre (plan);
  /* Jambs 1000 − 20 − 30 = 950, head 1160; feet and corners 180 deep. The wall's sill has a J. */
  assert_mm (trim_mm (plan, "outside-corner"), 2 * 950.0 + 1160.0);
  assert_mm (trim_mm (plan, "frame-j"), 2 * 950.0 + 1160.0);
  assert_mm (trim_mm (plan, "inside-corner"), 2 * 180.0);
  assert_mm (trim_mm (plan, "foot-j"), 2 * 180.0);
  assert_mm (trim_mm (plan, "j"), 2 * 2600.0 + 1160.0);
  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);
      gboolean          mitred = g_str_equal (run->trim->id, "frame-j") ||
                        (g_str_equal (run->trim->id, "outside-corner"));

      g_assert_cmpint (run->end, ==, mitred ? ROD_END_MITRE : ROD_END_SQUARE);
    }
}

static char *
zone_at (const char *id,
         int         left,
         int         right,
         int         direction)
{
  return g_strdup_printf ("{'id': '%s', 'direction_deg': %d, 'corners': [{'x': %d, 'y': 600}, "
                          "{'x': %d, 'y': 600}, {'x': %d, 'y': 1800}, {'x': %d, 'y': 1800}]}",
                          id,
                          direction,
                          left,
                          right,
                          right,
                          left);
}

static RodPlan *
plan_zones (const char *system,
            gboolean    two)
{
  g_autofree char *one = zone_at ("y", 1000, 2000, 90);
  g_autofree char *other = zone_at ("z", 2000, 3000, 45);
  g_autofree char *more = g_strdup_printf (", 'zones': [%s%s%s]",
                                           one,
                                           two ? ", " : "",
                                           two ? other : "");

  return planned_house (
    surveyed_house (system, SURVEYED (surveyed_box ("a", "wall", 4000, 2400, more)), NULL));
}

/* A border between two boards: one trim for both where it serves both, else one on either side; so
 * it is between two zones side by side. */
static void
test_borders_of_zones (void)
{
  for (int two = 0; two < 2; two++)
    {
      g_autoptr (RodPlan) one_sided = plan_zones ("k-250", two);
      g_autoptr (RodPlan) two_sided = plan_zones ("hollow-board", two);
      /* Round both zones, and the border between them. */
      double border_mm = two ? 2 * 2000.0 + 3 * 1200.0 : 2 * 1000.0 + 2 * 1200.0;

      assert_every_metre (one_sided);
      assert_mm (trim_mm (one_sided, "j"), 2 * 2400.0 + 2 * border_mm);
      assert_every_metre (two_sided);
      assert_mm (trim_mm (two_sided, "division"), border_mm);
    }
}

/* A change of colour along the boards is no border to a trim. */
static void
test_colour_needs_no_trim (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "hollow-board",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            4000,
                            2400,
                            ", 'zones': [{'id': 'z', 'colour': 'slate', 'corners': ["
                            "{'x': 0, 'y': 1000}, {'x': 4000, 'y': 1000}, {'x': 4000, 'y': 1500}, "
                            "{'x': 0, 'y': 1500}]}]")),
    NULL));
  assert_every_metre (plan);
  g_assert_cmpfloat (trim_mm (plan, "division"), ==, 0.0);
}

/* Random houses: two walls round a corner with windows, reveals, doors, gables and zones. */
static char *
random_wall (const char *id)
{
  g_autoptr (GString) more = g_string_new (", 'build_up_mm': 50, 'openings': [");
  double width = g_test_rand_int_range (3000, 12000), x = 300.0;
  int    direction = (int[]){ 0, 0, 90, 45, -30 }[g_test_rand_int_range (0, 5)];

  for (guint w = 0; w < 3; w++)
    {
      double left = x + g_test_rand_int_range (100, 900);
      double right = left + g_test_rand_int_range (400, 1800);
      int    shape = g_test_rand_int_range (0, 4);

      if (right > width - 300.0)
        break;
      g_string_append_printf (more,
                              "%s{'id': 'w%u', 'x': %.1f, 'width_mm': %.1f",
                              w > 0 ? ", " : "",
                              w,
                              left,
                              right - left);
      if (shape == 0)
        g_string_append (more, ", 'kind': 'door', 'y': 0, 'height_mm': 2050}");
      else if (shape == 1)
        g_string_append (more, ", 'shape': 'arch', 'y': 700, 'height_mm': 1300, 'rise_mm': 150}");
      else
        g_string_append_printf (more,
                                ", 'y': 800, 'height_mm': 1200%s}",
                                shape == 2 ? ", 'reveal': {'depth_mm': 130, 'build_up_mm': 20}"
                                           : "");
      x = right;
    }
  g_string_append_printf (more, "], 'direction_deg': %d", direction);
  if (g_test_rand_bit ())
    g_string_append_printf (more,
                            ", 'zones': [{'id': 'z', 'direction_deg': %d, 'corners': ["
                            "{'x': 0, 'y': 0}, {'x': %.3f, 'y': 0}, {'x': %.3f, 'y': 600}, "
                            "{'x': 0, 'y': 600}]}]",
                            direction == 90 ? 0 : 90,
                            width,
                            width);
  return surveyed_box (id, "wall", width, g_test_rand_int_range (2400, 3500), more->str);
}

static void
test_random_houses (void)
{
  static const char *const systems[] = { "k-250", "hollow-board", "solid-board", "timber-board" };

  for (int n = 0; n < 100; n++)
    {
      g_autoptr (RodPlan) plan = NULL;

      plan = planned_house (
        surveyed_house (systems[n % 4],
                        SURVEYED (random_wall ("a"), random_wall ("b")),
                        SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
      assert_every_metre (plan);
    }
}

/* Runs longer than a bar are lapped: 13000 from bars of 3000 with laps of 25 are four whole bars,
 * which carry 4·2975 = 11900, and a rest of 1100. Where nothing laps, 4·3000 and 1000. */
static void
test_laps (void)
{
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (RodTakeoff) takeoff = NULL;
  gboolean seen = FALSE;

  plan = planned_house (surveyed_house (
    "k-250", SURVEYED (surveyed_box ("a", "wall", 13000, 2400, "")), NULL));
  takeoff = rod_takeoff_new (plan, NULL);
  for (guint c = 0; c < takeoff->cuttings->len; c++)
    {
      const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, c);

      if (g_str_equal (cutting->article, "top-j"))
        {
          g_assert_cmpuint (cutting->items->len, ==, 5);
          for (guint i = 0; i < 4; i++)
            g_assert_cmpint (g_array_index (cutting->items, RodCutItem, i).length_mm, ==, 3000);
          g_assert_cmpint (g_array_index (cutting->items, RodCutItem, 4).length_mm, ==, 1100);
          seen = TRUE;
        }
      if (g_str_equal (cutting->article, "base-vent"))
        g_assert_cmpint (cutting->used_mm, ==, 13000);
    }
  g_assert_true (seen);
}

/* The table is read from the top; a row with a starter only counts where one may be. */
static void
test_table (void)
{
  RodHouse        *house = surveyed_house ("k-250",
                                    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, "")),
                                    NULL);
  const RodSystem *system = planned_system (house);
  static const struct
  {
    RodSurfaceKind   surface;
    RodBoardRelation boards;
    RodEdgeCondition condition;
    gboolean         starter;
    const char      *trim;
  } cases[] = {
    { ROD_SURFACE_WALL, ROD_BOARDS_ALONG, ROD_EDGE_BASE, TRUE, "starter" },
    { ROD_SURFACE_WALL, ROD_BOARDS_ALONG, ROD_EDGE_BASE, FALSE, "j" },
    { ROD_SURFACE_WALL, ROD_BOARDS_ACROSS, ROD_EDGE_BASE, TRUE, "j" },
    { ROD_SURFACE_WALL, ROD_BOARDS_ALONG, ROD_EDGE_TOP, TRUE, "top-j" },
    { ROD_SURFACE_SOFFIT, ROD_BOARDS_ALONG, ROD_EDGE_TOP, TRUE, "j" },
    { ROD_SURFACE_REVEAL, ROD_BOARDS_ACROSS, ROD_EDGE_SIDE_STOP, TRUE, "frame-j" },
    { ROD_SURFACE_WALL, ROD_BOARDS_ACROSS, ROD_EDGE_SIDE_STOP, TRUE, "j" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const RodTrimRule *rule = rod_trim_table_find (
        system, cases[i].surface, cases[i].boards, cases[i].condition, cases[i].starter);

      g_assert_nonnull (rule);
      g_assert_cmpstr (rule->trim, ==, cases[i].trim);
    }
  g_assert_null (rod_trim_table_find (
    system, ROD_SURFACE_WALL, ROD_BOARDS_ALONG, ROD_EDGE_AUTO, TRUE));
  rod_record_unref (house);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/trim-runs/table", test_table);
  g_test_add_func ("/trim-runs/door-divides-the-base", test_door_divides_the_base);
  g_test_add_func ("/trim-runs/runs-lie-on-the-boundary", test_runs_lie_on_the_boundary);
  g_test_add_func ("/trim-runs/verges", test_verges);
  g_test_add_func ("/trim-runs/curved-runs", test_curved_runs);
  g_test_add_func ("/trim-runs/corner-counts-once", test_corner_counts_once);
  g_test_add_func ("/trim-runs/corner-of-split-levels", test_corner_of_split_levels);
  g_test_add_func ("/trim-runs/corner-without-overlap", test_corner_without_overlap);
  g_test_add_func ("/trim-runs/door-in-the-corner", test_door_in_the_corner);
  g_test_add_func ("/trim-runs/reveal", test_reveal);
  g_test_add_func ("/trim-runs/borders-of-zones", test_borders_of_zones);
  g_test_add_func ("/trim-runs/colour-needs-no-trim", test_colour_needs_no_trim);
  g_test_add_func ("/trim-runs/random-houses", test_random_houses);
  g_test_add_func ("/trim-runs/laps", test_laps);

  return g_test_run ();
}
