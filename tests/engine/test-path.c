/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Points, maps, and rings under construction, arcs above all. Values are worked by hand beside the
 * check. */

#include "engine/geometry/rod-region.h"
#include "engine/rod-limits.h"

#include <math.h>

#define TINY 1e-9

static void
assert_point (RodPoint point,
              double   x,
              double   y)
{
  g_assert_cmpfloat_with_epsilon (point.x, x, TINY);
  g_assert_cmpfloat_with_epsilon (point.y, y, TINY);
}

/* Quarter turns have no rounding at all, whichever way and however often round. */
static void
test_right_angles (void)
{
  const double angles[] = { 0.0, 90.0, 180.0, 270.0, 360.0, -90.0, -180.0, 450.0, 7290.0 };
  const double x[] = { 3, 7, -3, -7, 3, -7, -3, 7, 7 };
  const double y[] = { 7, -3, -7, 3, 7, 3, -7, -3, -3 };

  for (guint i = 0; i < G_N_ELEMENTS (angles); i++)
    {
      RodPoint turned = rod_affine_apply (rod_affine_board_frame (angles[i]), (RodPoint){ 3, 7 });

      g_assert_cmpfloat (turned.x, ==, x[i]);
      g_assert_cmpfloat (turned.y, ==, y[i]);
    }
}

/* Boards that rise by 30°: a point along them comes to lie on +x, the next course on +y. */
static void
test_board_frame (void)
{
  RodAffine map = rod_affine_board_frame (30.0);
  double    cosine = sqrt (3.0) / 2.0;

  assert_point (rod_affine_apply (map, (RodPoint){ 100.0 * cosine, 50.0 }), 100.0, 0.0);
  assert_point (rod_affine_apply (map, (RodPoint){ -50.0, 100.0 * cosine }), 0.0, 100.0);
}

static void
test_maps (void)
{
  const RodAffine map = { 2.0, 1.0, 30.0, -1.0, 3.0, -40.0 };
  RodAffine       turn = rod_affine_board_frame (17.0);
  RodAffine       both = rod_affine_multiply (map, turn);
  RodAffine       back = rod_affine_multiply (both, rod_affine_invert (both));
  RodPoint        moved = rod_affine_apply (map, (RodPoint){ 5.0, 6.0 });

  assert_point (moved, 2 * 5 + 6 + 30, -5 + 3 * 6 - 40);
  assert_point (rod_affine_apply (rod_affine_invert (map), moved), 5.0, 6.0);
  assert_point (rod_affine_apply (rod_affine_identity (), moved), moved.x, moved.y);
  moved = rod_affine_apply (turn, moved);
  assert_point (rod_affine_apply (both, (RodPoint){ 5.0, 6.0 }), moved.x, moved.y);
  assert_point (rod_affine_apply (back, (RodPoint){ 5.0, 6.0 }), 5.0, 6.0);
  g_assert_cmpfloat_with_epsilon (rod_point_distance ((RodPoint){ 1, 1 }, (RodPoint){ 4, 5 }),
                                  5.0,
                                  TINY);
}

/* A ring of one arc and its chord. */
static RodRegion *
draw_segment (RodPoint from,
              RodPoint to,
              double   bulge)
{
  g_autoptr (RodPath) path = rod_path_new ();

  rod_path_add_arc (path, from, to, bulge, 1);
  rod_path_add_corner (path, to, 2);
  if (bulge > 0.0)
    rod_path_close (path);
  else
    rod_path_close_reversed (path);
  return rod_region_normalise (path, 1);
}

/* A half circle on a chord of 1000 to either side, and a quarter: bulge tan (22.5°). A circular
 * segment has the area r²/2 · (θ - sin θ). */
static void
test_arcs (void)
{
  const RodPoint left = { 0, 0 };
  const RodPoint right = { 1000, 0 };
  const double   quarter = tan (G_PI / 8.0);
  g_autoptr (RodRegion) below = draw_segment (left, right, 1.0);
  g_autoptr (RodRegion) above = draw_segment (left, right, -1.0);
  g_autoptr (RodRegion) flat = draw_segment (left, right, quarter);
  double   chords = ROD_ARC_SAGITTA_MM * 500.0 * G_PI;
  double   radius = 500.0 * G_SQRT2;
  RodPoint low, high;

  g_assert_cmpfloat_with_epsilon (rod_region_area (below), G_PI * 250000.0 / 2.0, chords);
  g_assert_cmpfloat_with_epsilon (rod_region_area (above), G_PI * 250000.0 / 2.0, chords);
  g_assert_cmpfloat_with_epsilon (rod_region_area (flat),
                                  radius * radius / 2.0 * (G_PI_2 - 1.0),
                                  chords);
  rod_region_extent (below, &low, &high);
  g_assert_cmpfloat_with_epsilon (low.y, -500.0, ROD_ARC_SAGITTA_MM);
  g_assert_cmpfloat_with_epsilon (high.y, 0.0, TINY);
  rod_region_extent (above, &low, &high);
  g_assert_cmpfloat_with_epsilon (high.y, 500.0, ROD_ARC_SAGITTA_MM);
  rod_region_extent (flat, &low, &high);
  g_assert_cmpfloat_with_epsilon (low.y, -(radius - 500.0), ROD_ARC_SAGITTA_MM);
}

/* Chords begin and end on the arc, and none leaves it by more than the sagitta. */
static void
test_chords (void)
{
  const double radii[] = { 5.0, 30.0, 55.0, 400.0, 25000.0 };

  for (guint i = 0; i < G_N_ELEMENTS (radii); i++)
    {
      double radius = radii[i];
      g_autoptr (RodRegion) half = draw_segment ((RodPoint){ -radius, 0.0 },
                                                 (RodPoint){ radius, 0.0 },
                                                 1.0);

      g_assert_cmpuint (half->n_points, >=, 5);
      for (guint j = 0; j < half->n_points; j++)
        {
          RodPoint a = half->points[j];
          RodPoint b = half->points[(j + 1) % half->n_points];
          double   middle = hypot ((a.x + b.x) / 2.0, (a.y + b.y) / 2.0);

          g_assert_cmpfloat_with_epsilon (hypot (a.x, a.y), radius, 0.001);
          if (half->tags[j] == 1)
            g_assert_cmpfloat (radius - middle, <=, ROD_ARC_SAGITTA_MM + 0.001);
        }
    }
}

static void
test_straight_arcs (void)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  rod_path_add_arc (path, (RodPoint){ 0, 0 }, (RodPoint){ 100, 0 }, 0.0, 0);
  rod_path_add_arc (path, (RodPoint){ 100, 0 }, (RodPoint){ 100, 100 }, 1e-12, 1);
  rod_path_add_arc (path, (RodPoint){ 100, 100 }, (RodPoint){ 100, 100 }, 1.0, 2);
  rod_path_add_arc (path, (RodPoint){ 100, 100 }, (RodPoint){ 0, 0 }, 0.0, 3);
  rod_path_close (path);
  region = rod_region_normalise (path, 1);
  g_assert_cmpuint (region->n_points, ==, 3);
  g_assert_cmpfloat_with_epsilon (rod_region_area (region), 5000.0, TINY);
}

/* Turned round, each edge keeps its tag: the ring of four sides below, subtracted from a larger. */
static void
test_reversed_tags (void)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;
  const RodPoint corners[] = { { 0, 0 }, { 900, 0 }, { 900, 900 }, { 0, 900 } };
  const RodPoint hole[] = { { 100, 100 }, { 200, 100 }, { 200, 300 }, { 100, 300 } };
  const double   lengths[] = { 100, 200, 100, 200 };

  for (guint i = 0; i < 4; i++)
    rod_path_add_corner (path, corners[i], 90);
  rod_path_close (path);
  for (guint i = 0; i < 4; i++)
    rod_path_add_corner (path, hole[i], (int) i);
  rod_path_close_reversed (path);
  region = rod_region_normalise (path, 1);

  g_assert_cmpuint (region->n_rings, ==, 2);
  for (guint i = 0; i < region->n_points; i++)
    {
      guint    next = i == 3 ? 0 : (i == 7 ? 4 : i + 1);
      RodPoint a = region->points[i];
      RodPoint b = region->points[next];

      if (region->tags[i] == 90)
        continue;
      g_assert_cmpfloat_with_epsilon (rod_point_distance (a, b), lengths[region->tags[i]], TINY);
      if (region->tags[i] == 0)
        g_assert_cmpfloat_with_epsilon (MAX (a.y, b.y), 100.0, TINY);
      if (region->tags[i] == 1)
        g_assert_cmpfloat_with_epsilon (MIN (a.x, b.x), 200.0, TINY);
    }
}

/* Rings that are none are dropped, and do not spoil the next one. */
static void
test_short_rings (void)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;
  const RodPoint corners[] = { { 0, 0 }, { 100, 0 }, { 0, 100 } };

  rod_path_close (path);
  rod_path_close_reversed (path);
  rod_path_add_corner (path, corners[0], 0);
  rod_path_add_corner (path, corners[1], 0);
  rod_path_close (path);
  for (guint i = 0; i < 3; i++)
    rod_path_add_corner (path, corners[i], 0);
  rod_path_close (path);

  /* Not closed, so not there, though it would make another shape of the triangle. */
  rod_path_add_corner (path, (RodPoint){ -50, 50 }, 0);

  region = rod_region_normalise (path, 1);
  g_assert_cmpuint (region->n_rings, ==, 1);
  g_assert_cmpuint (region->n_points, ==, 3);
  g_assert_cmpfloat_with_epsilon (rod_region_area (region), 5000.0, TINY);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/path/right-angles", test_right_angles);
  g_test_add_func ("/path/board-frame", test_board_frame);
  g_test_add_func ("/path/maps", test_maps);
  g_test_add_func ("/path/arcs", test_arcs);
  g_test_add_func ("/path/chords", test_chords);
  g_test_add_func ("/path/straight-arcs", test_straight_arcs);
  g_test_add_func ("/path/reversed-tags", test_reversed_tags);
  g_test_add_func ("/path/short-rings", test_short_rings);
  return g_test_run ();
}
