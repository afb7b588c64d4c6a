/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The net of the house: faces touch at their joins, walls keep their level, and no two faces cover
 * each other. */

#include "support/planned-house.h"

#include "engine/geometry/rod-path.h"

#include <math.h>

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 0.01)

static RodPoint
in_net (const RodPlan *plan,
        const char    *id,
        double         x,
        double         y)
{
  return rod_affine_apply (rod_plan_face (plan, planned_face (plan, id))->net, (RodPoint){ x, y });
}

/* Two places of the house that are one. */
static void
assert_touch (const RodPlan *plan,
              const char    *one,
              RodPoint       here,
              const char    *other,
              RodPoint       there)
{
  RodPoint a = in_net (plan, one, here.x, here.y);
  RodPoint b = in_net (plan, other, there.x, there.y);

  assert_mm (a.x, b.x);
  assert_mm (a.y, b.y);
}

/* Faces lie as they are: neither stretched nor turned over. */
static void
assert_rigid (const RodPlan *plan)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      RodAffine net = rod_plan_face (plan, f)->net;

      g_assert_cmpfloat_with_epsilon (hypot (net.xx, net.yx), 1.0, 1e-9);
      g_assert_cmpfloat_with_epsilon (net.xx * net.yy - net.xy * net.yx, 1.0, 1e-9);
    }
}

/* What two faces share is a seam at most: a millimetre along the joins of a house. Reveals lie in
 * their wall's openings and do not count. */
static void
assert_no_overlap (const RodPlan *plan)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) twice = NULL;

  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace   *face = rod_plan_face (plan, f);
      const RodRegion *bare = face->bare;

      for (guint r = 0; face->parent < 0 && r < bare->n_rings; r++)
        {
          for (guint p = bare->ring_starts[r]; p < bare->ring_starts[r + 1]; p++)
            rod_path_add_corner (path, rod_affine_apply (face->net, bare->points[p]), 0);
          rod_path_close (path);
        }
    }
  twice = rod_region_normalise (path, 2);
  g_assert_cmpfloat (rod_region_area (twice), <, 20000.0);
}

static RodPlan *
plan_box_house (double build_up_mm)
{
  g_autofree char *more = g_strdup_printf (", 'build_up_mm': %.1f", build_up_mm);

  return planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("n", "wall", 4000, 2400, more),
              surveyed_box ("e", "wall", 3000, 2400, more),
              surveyed_box ("s", "wall", 4000, 2400, more),
              surveyed_box ("w", "wall", 3000, 2400, more)),
    SURVEYED (surveyed_join ("j1", "n.right", "e.left", 90, ""),
              surveyed_join ("j2", "e.right", "s.left", 90, ""),
              surveyed_join ("j3", "s.right", "w.left", 90, ""),
              surveyed_join ("j4", "w.right", "n.left", 90, ""))));
}

/* Four walls unrolled, touching at the arrises of their batten faces; the ring opens at one join.
 */
static void
test_box_unrolls (void)
{
  g_autoptr (RodPlan) plan = plan_box_house (60);
  int joined = 0;

  assert_rigid (plan);
  assert_no_overlap (plan);
  for (guint f = 0; f < 4; f++)
    {
      const RodFace *face = rod_plan_face (plan, f);
      const RodFace *next = rod_plan_face (plan, (f + 1) % 4);
      double         width = f % 2 == 0 ? 4000 : 3000;
      RodPoint       here = rod_affine_apply (face->net, (RodPoint){ width + 60, 0 });
      RodPoint       there = rod_affine_apply (next->net, (RodPoint){ -60, 0 });

      joined += rod_point_distance (here, there) < 0.01;
      assert_mm (face->net.y0, 0.0);
    }
  g_assert_cmpint (joined, ==, 3);
}

/* Heights are heights in the net, whatever each wall's own zero. */
static void
test_walls_keep_their_level (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'level_mm': 250"),
              surveyed_box ("b", "wall", 3000, 2700, ", 'level_mm': -130"),
              surveyed_box ("c", "wall", 2000, 2700, ", 'level_mm': 777")),
    SURVEYED (surveyed_join ("j1", "a.right", "b.left", 90, ""),
              surveyed_join ("j2", "b.right", "c.left", -90, ""))));
  assert_rigid (plan);
  assert_no_overlap (plan);
  assert_mm (in_net (plan, "a", 0, 1000).y, 1250.0);
  assert_mm (in_net (plan, "b", 0, 1000).y, 870.0);
  assert_mm (in_net (plan, "c", 0, 1000).y, 1777.0);
  assert_touch (plan, "a", (RodPoint){ 4000, 620 }, "b", (RodPoint){ 0, 1000 });
  assert_touch (plan, "b", (RodPoint){ 3000, 1907 }, "c", (RodPoint){ 0, 1000 });
}

/* A soffit hangs on its wall's top edge, on the far side of it, its x along the wall's. */
static void
test_soffit_hangs_on_its_wall (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-200",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'direction_deg': 90"),
              surveyed_box ("s", "soffit", 4250, 600, ", 'direction_deg': 90")),
    SURVEYED (surveyed_join ("j", "a.top", "s.base", -90, ", 'offset_mm': 160"))));
  assert_rigid (plan);
  assert_no_overlap (plan);
  assert_touch (plan, "a", (RodPoint){ 0, 2400 }, "s", (RodPoint){ 160, 0 });
  assert_touch (plan, "a", (RodPoint){ 4000, 2400 }, "s", (RodPoint){ 4160, 0 });
  assert_mm (in_net (plan, "s", 0, 600).y, 3000.0);
}

/* Reveals lie in their opening, folded in from the arris: under a head, beside the jambs. */
static void
test_reveals_lie_in_their_opening (void)
{
  g_autoptr (RodPlan) plan = NULL;
  RodPoint middle;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            4000,
                            2400,
                            ", 'build_up_mm': 60, 'openings': [{'id': 'w', 'x': 1000, 'y': 800, "
                            "'width_mm': 1200, 'height_mm': 1000, 'reveal': {'depth_mm': 120, "
                            "'build_up_mm': 20, 'sill': true}}]")),
    NULL));
  assert_rigid (plan);
  /* The left jamb's arris is its left edge, at x = −60 of its own; the wall's clad side ends at
   * 1020. A jamb's y is counted from the opening's sill, 800. */
  assert_touch (
    plan, "a", (RodPoint){ 1020, 1300 }, "a, w, left jamb", (RodPoint){ -60, 500 });
  /* The right jamb's arris is its right edge, 60 beyond its raw 120. */
  assert_touch (
    plan, "a", (RodPoint){ 2180, 1300 }, "a, w, right jamb", (RodPoint){ 180, 500 });
  for (guint f = 1; f < plan->faces->len; f++)
    {
      RodPoint low, high;

      rod_region_extent (rod_plan_face (plan, f)->bare, &low, &high);
      middle = rod_affine_apply (rod_plan_face (plan, f)->net,
                                 (RodPoint){ (low.x + high.x) / 2.0, (low.y + high.y) / 2.0 });
      g_assert_cmpfloat (middle.x, >, 1000.0);
      g_assert_cmpfloat (middle.x, <, 2200.0);
      g_assert_cmpfloat (middle.y, >, 800.0);
      g_assert_cmpfloat (middle.y, <, 1800.0);
    }
}

static char *
eaves (const char *id,
       double      wall_mm)
{
  return g_strdup_printf ("{'id': '%s', 'kind': 'soffit', 'system': 'k', 'direction_deg': 90, "
                          "'outline': [{'x': 0, 'y': 0, 'edge': 'wall'}, "
                          "{'x': %.3f, 'y': 0, 'edge': 'right'}, "
                          "{'x': %.3f, 'y': 600, 'edge': 'fascia'}, "
                          "{'x': -600, 'y': 600, 'edge': 'left'}]}",
                          id,
                          wall_mm,
                          wall_mm + 600);
}

/* Eaves that run round a corner would cover each other in the net, 600 to either side of it: they
 * hang on their walls, and the walls move apart. */
static void
test_faces_that_would_overlap_move_apart (void)
{
  g_autoptr (RodPlan) plan = NULL;
  RodPoint left, right;

  plan = planned_house (surveyed_house (
    "k-200",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2600, ", 'direction_deg': 90"),
              surveyed_box ("b", "wall", 3000, 2600, ", 'direction_deg': 90"),
              eaves ("s", 4000),
              eaves ("t", 3000)),
    SURVEYED (surveyed_join ("c", "a.right", "b.left", 90, ""),
              surveyed_join ("e1", "a.top", "s.wall", -90, ""),
              surveyed_join ("e2", "b.top", "t.wall", -90, ""),
              surveyed_join ("m", "s.right", "t.left", 0, ""))));
  assert_rigid (plan);
  assert_no_overlap (plan);
  assert_touch (plan, "a", (RodPoint){ 0, 2600 }, "s", (RodPoint){ 0, 0 });
  assert_touch (plan, "b", (RodPoint){ 0, 2600 }, "t", (RodPoint){ 0, 0 });
  /* 1200 are needed between the walls; not more than a hand's breadth is added, and no height. */
  left = in_net (plan, "a", 4000, 0);
  right = in_net (plan, "b", 0, 0);
  g_assert_cmpfloat (right.x - left.x, >=, 1200.0);
  g_assert_cmpfloat (right.x - left.x, <=, 1400.0);
  assert_mm (right.y, left.y);
}

/* What nothing joins lies beside the rest. */
static void
test_parts_of_a_house (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (
    surveyed_house ("k-250",
                    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ""),
                              surveyed_box ("b", "wall", 3000, 2400, ", 'level_mm': 300"),
                              surveyed_box ("c", "soffit", 2000, 800, "")),
                    NULL));
  assert_no_overlap (plan);
  g_assert_cmpfloat (in_net (plan, "b", 0, 0).x, >, 4000.0);
  g_assert_cmpfloat (in_net (plan, "c", 0, 0).x, >, in_net (plan, "b", 3000, 0).x);
  assert_mm (in_net (plan, "b", 0, 0).y, 300.0);
}

/* A gable on a wall, joined along a level edge with no fold: it stands on it. */
static void
test_gable_on_a_wall (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ""),
              g_strdup ("{'id': 'g', 'kind': 'wall', 'system': 'k', 'level_mm': 2400, 'outline': ["
                        "{'x': 0, 'y': 0, 'edge': 'foot'}, {'x': 4000, 'y': 0, 'edge': 'r'}, "
                        "{'x': 2000, 'y': 2000, 'edge': 'l'}]}")),
    SURVEYED (surveyed_join ("j", "a.top", "g.foot", 0, ""))));
  assert_rigid (plan);
  assert_no_overlap (plan);
  assert_touch (plan, "a", (RodPoint){ 0, 2400 }, "g", (RodPoint){ 0, 0 });
  assert_mm (in_net (plan, "g", 2000, 2000).y, 4400.0);
}

/* Random closed houses: rings of walls with outside and inside corners, levels and eaves of their
 * own. Nothing covers anything, each soffit stays on its wall, and walls keep their level. */
static void
test_random_houses (void)
{
  for (int n = 0; n < 60; n++)
    {
      guint  n_walls = (guint) g_test_rand_int_range (3, 9);
      char **surfaces = g_new0 (char *, 2 * n_walls + 1);
      char **joins = g_new0 (char *, 2 * n_walls + 1);
      double widths[8], heights[8], levels[8];
      guint  n_surfaces = 0, n_joins = 0;
      g_autoptr (RodPlan) plan = NULL;

      for (guint i = 0; i < n_walls; i++)
        {
          g_autofree char *id = g_strdup_printf ("w%u", i);
          g_autofree char *join = g_strdup_printf ("j%u", i);
          g_autofree char *one = g_strdup_printf ("w%u.right", i);
          g_autofree char *other = g_strdup_printf ("w%u.left", (i + 1) % n_walls);
          g_autofree char *more = NULL;

          widths[i] = g_test_rand_int_range (900, 9000);
          heights[i] = g_test_rand_int_range (2300, 6000);
          levels[i] = g_test_rand_int_range (-800, 800);
          more = g_strdup_printf (", 'direction_deg': 90, 'level_mm': %.0f", levels[i]);
          surfaces[n_surfaces++] = surveyed_box (id, "wall", widths[i], heights[i], more);
          joins[n_joins++] = surveyed_join (join, one, other, g_test_rand_bit () ? 90 : -90, "");
        }
      for (guint i = 0; i < n_walls; i++)
        {
          g_autofree char *id = g_strdup_printf ("s%u", i);
          g_autofree char *join = g_strdup_printf ("e%u", i);
          g_autofree char *one = g_strdup_printf ("w%u.top", i);
          g_autofree char *other = g_strdup_printf ("s%u.wall", i);

          if (g_test_rand_bit ())
            continue;
          surfaces[n_surfaces++] = eaves (id, widths[i]);
          joins[n_joins++] = surveyed_join (join, one, other, -90, "");
        }
      plan = planned_house (surveyed_house ("k-200", surfaces, joins));
      g_free (surfaces);
      g_free (joins);

      assert_rigid (plan);
      assert_no_overlap (plan);
      for (guint f = 0; f < plan->faces->len; f++)
        {
          const RodFace *face = rod_plan_face (plan, f);

          if (face->surface->kind == ROD_SURFACE_WALL)
            assert_mm (face->net.y0, face->surface->level_mm);
          else
            {
              guint            i = (guint) g_ascii_strtoull (face->surface->id + 1, NULL, 10);
              g_autofree char *wall = g_strdup_printf ("w%u", i);

              assert_touch (plan,
                            wall,
                            (RodPoint){ widths[i], heights[i] },
                            face->surface->id,
                            (RodPoint){ widths[i], 0 });
            }
        }
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/net/box-unrolls", test_box_unrolls);
  g_test_add_func ("/net/walls-keep-their-level", test_walls_keep_their_level);
  g_test_add_func ("/net/soffit-hangs-on-its-wall", test_soffit_hangs_on_its_wall);
  g_test_add_func ("/net/reveals-lie-in-their-opening", test_reveals_lie_in_their_opening);
  g_test_add_func ("/net/faces-that-would-overlap-move-apart",
                   test_faces_that_would_overlap_move_apart);
  g_test_add_func ("/net/parts-of-a-house", test_parts_of_a_house);
  g_test_add_func ("/net/gable-on-a-wall", test_gable_on_a_wall);
  g_test_add_func ("/net/random-houses", test_random_houses);

  return g_test_run ();
}
