/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Clean regions out of raw rings: areas against published values, tags, thresholds, and the cases
 * that a survey makes. Values without a source are worked by hand beside the check. */

#include "support/drawn-surface.h"

#include "engine/rod-limits.h"

#include <math.h>

#define RELATIVE_TOLERANCE 1e-9

static void
assert_area (double area,
             double expected)
{
  g_assert_cmpfloat_with_epsilon (area, expected, RELATIVE_TOLERANCE * MAX (1.0, fabs (expected)));
}

static RodRegion *
normalise (RodPath *path,
           int      threshold)
{
  RodRegion *region = rod_region_normalise (path, threshold);

  rod_path_free (path);
  return region;
}

static guint
count_tag (const RodRegion *region,
           int              tag)
{
  guint n = 0;

  for (guint i = 0; i < region->n_points; i++)
    n += region->tags[i] == tag;
  return n;
}

/* The length of all edges that carry @tag. */
static double
measure_tag (const RodRegion *region,
             int              tag)
{
  double length = 0.0;

  for (guint ring = 0; ring < region->n_rings; ring++)
    {
      guint start = region->ring_starts[ring];
      guint end = region->ring_starts[ring + 1];

      for (guint i = start; i < end; i++)
        if (region->tags[i] == tag)
          length += rod_point_distance (region->points[i],
                                        region->points[i + 1 < end ? i + 1 : start]);
    }
  return length;
}

static void
test_published_rings (void)
{
  /* Example of the shoelace formula in an encyclopedia (from memory). */
  const RodPoint pentagon[] = { { 1, 6 }, { 3, 1 }, { 7, 2 }, { 4, 4 }, { 8, 5 } };

  /* Example of a lecture on losing digits: a right triangle of legs 2 and π, here moved away from
   * the origin by a power of ten. */
  const RodPoint triangle[] = { { 0, 0 }, { 2, 0 }, { 2, G_PI } };
  const RodPoint far_triangle[] = { { 1e6, 1e6 }, { 1e6 + 2, 1e6 }, { 1e6 + 2, 1e6 + G_PI } };

  /* GEOS AreaTest: a square given clockwise. GEOS counts it positive, this project negative. */
  const RodPoint square[] = { { 100, 200 }, { 200, 200 }, { 200, 100 }, { 100, 100 } };

  /* A bow-tie's two halves cancel (area confirmed with GEOS 3.11). */
  const RodPoint bow_tie[] = { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } };

  assert_area (rod_ring_area (pentagon, 5), 16.5);
  assert_area (rod_ring_area (triangle, 3), G_PI);
  assert_area (rod_ring_area (far_triangle, 3), G_PI);
  assert_area (rod_ring_area (square, 4), -10000.0);
  assert_area (rod_ring_area (bow_tie, 4), 0.0);
  assert_area (rod_ring_area (NULL, 0), 0.0);
}

/* Areas of the Simple Features conformance data set of the OGC, its lakes and woods. */
static void
test_published_polygons (void)
{
  const double blue_lake[] = { 52, 18, 48, 6, 73, 9, 66, 23 };
  const double goose_island[] = { 59, 18, 59, 13, 67, 13, 67, 18 };
  const double stock_pond_1[] = { 24, 44, 22, 42, 24, 40 };
  const double stock_pond_2[] = { 26, 44, 26, 40, 28, 42 };
  const double green_forest[] = { 28, 26, 28, 0, 84, 0, 84, 42 };
  RodPath     *path = rod_path_new ();
  g_autoptr (RodRegion) lake = NULL;
  g_autoptr (RodRegion) island = NULL;
  g_autoptr (RodRegion) pond = NULL;
  g_autoptr (RodRegion) forest = NULL;

  draw_ring (path, blue_lake, 4, 0, FALSE);
  draw_ring (path, goose_island, 4, 4, TRUE);
  lake = normalise (path, 1);
  assert_area (rod_region_area (lake), 219.5);
  g_assert_cmpuint (lake->n_rings, ==, 2);

  path = rod_path_new ();
  draw_ring (path, goose_island, 4, 0, FALSE);
  island = normalise (path, 1);
  assert_area (rod_region_area (island), 40.0);

  path = rod_path_new ();
  draw_ring (path, stock_pond_1, 3, 0, FALSE);
  draw_ring (path, stock_pond_2, 3, 3, FALSE);
  pond = normalise (path, 1);
  assert_area (rod_region_area (pond), 8.0);
  g_assert_cmpuint (pond->n_rings, ==, 2);

  path = rod_path_new ();
  draw_ring (path, green_forest, 4, 0, FALSE);
  draw_ring (path, blue_lake, 4, 4, TRUE);
  draw_ring (path, goose_island, 4, 8, FALSE);
  forest = normalise (path, 1);
  assert_area (rod_region_area (forest), 1684.5);
  g_assert_cmpuint (forest->n_rings, ==, 3);
}

/* GEOS and JTS, TestCentroid.xml: a box with a hole. */
static void
test_published_boxes (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) slotted = NULL;
  g_autoptr (RodRegion) pierced = NULL;

  draw_box (path, 0, 0, 200, 200, 0, FALSE);
  draw_box (path, 20, 20, 80, 180, 4, TRUE);
  slotted = normalise (path, 1);
  assert_area (rod_region_area (slotted), 30400.0);

  path = rod_path_new ();
  draw_box (path, 0, 0, 200, 200, 0, FALSE);
  draw_box (path, 20, 140, 60, 180, 4, TRUE);
  pierced = normalise (path, 1);
  assert_area (rod_region_area (pierced), 38400.0);
}

/* 8.4 · 2.7 + 8.4 · 2.5 / 2 = 33.18 m², less a window of 1.44 and a door of 2.10: 29.64 m². The
 * door stands on the base line, so the base has two parts and the door three sides. */
static void
test_gable_with_door (void)
{
  const double gable[] = { 0, 0, 8400, 0, 8400, 2700, 4200, 5200, 0, 2700 };
  RodPath     *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_ring (path, gable, 5, 0, FALSE);
  draw_box (path, 3000, 1000, 4200, 2200, 10, TRUE);
  draw_box (path, 6000, 0, 7000, 2100, 20, TRUE);
  region = normalise (path, 1);

  assert_area (rod_region_area (region), 29.64e6);
  g_assert_cmpuint (region->n_rings, ==, 2);
  g_assert_cmpuint (region->n_points, ==, 9 + 4);
  g_assert_cmpuint (count_tag (region, 0), ==, 2);
  assert_area (measure_tag (region, 0), 7400.0);
  g_assert_cmpuint (count_tag (region, 20), ==, 0);
  assert_area (measure_tag (region, 21), 2100.0);
  assert_area (measure_tag (region, 22), 1000.0);
  assert_area (measure_tag (region, 23), 2100.0);
}

static void
test_openings_that_overlap (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 1000, 0, FALSE);
  draw_box (path, 200, 200, 500, 500, 10, TRUE);
  draw_box (path, 400, 400, 700, 700, 20, TRUE);
  draw_box (path, 900, 900, 1100, 1100, 30, TRUE);
  region = normalise (path, 1);

  /* Two openings of 300 · 300 share 100 · 100; of the third, 100 · 100 lie on the wall. */
  assert_area (rod_region_area (region), 1e6 - (9e4 + 9e4 - 1e4) - 1e4);
  g_assert_cmpuint (region->n_rings, ==, 2);
  g_assert_cmpuint (region->n_points, ==, 6 + 8);
  assert_area (measure_tag (region, 12), 200.0);
  assert_area (measure_tag (region, 20), 200.0);
  assert_area (measure_tag (region, 30), 100.0);
  g_assert_cmpuint (count_tag (region, 31), ==, 0);
}

/* Openings side by side share an edge: no thin wall is left between them. */
static void
test_openings_that_touch (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 1000, 0, FALSE);
  draw_box (path, 200, 200, 500, 500, 10, TRUE);
  draw_box (path, 500.05, 200.02, 700, 500, 20, TRUE);
  region = normalise (path, 1);

  g_assert_cmpuint (region->n_rings, ==, 2);
  assert_area (measure_tag (region, 11), 0.0);
  g_assert_cmpfloat_with_epsilon (rod_region_area (region),
                                  1e6 - 500.0 * 300.0,
                                  ROD_SNAP_MM * (4000.0 + 1600.0));
}

/* A zone drawn over a wall: only where both lie is 2 reached. Where their edges coincide both bound
 * the result, and the smaller tag stands. */
static void
test_zone_by_threshold (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 1000, 10, FALSE);
  draw_box (path, 400, 300, 600, 500, 20, TRUE);
  draw_box (path, 500, 0, 1500, 1200, 0, FALSE);
  region = normalise (path, 2);

  assert_area (rod_region_area (region), 500.0 * 1000.0 - 100.0 * 200.0);
  assert_area (measure_tag (region, 0), 500.0); /* the zone's base, on the wall's */
  assert_area (measure_tag (region, 10), 0.0);
  assert_area (measure_tag (region, 11), 1000.0); /* the wall's right side cuts the zone off */
  assert_area (measure_tag (region, 12), 500.0);
  assert_area (measure_tag (region, 3), 800.0); /* the zone's left side, but for the opening */
  assert_area (measure_tag (region, 21), 200.0);
  g_assert_cmpuint (count_tag (region, 23), ==, 0);
}

/* The same the other way about: whichever is drawn first, the smaller tag stands. */
static void
test_zone_with_greater_tag (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 1000, 0, FALSE);
  draw_box (path, 500, 0, 1000, 1000, 10, FALSE);
  region = normalise (path, 2);
  assert_area (rod_region_area (region), 500000.0);
  assert_area (measure_tag (region, 0), 500.0);
  assert_area (measure_tag (region, 1), 1000.0);
  assert_area (measure_tag (region, 2), 500.0);
  assert_area (measure_tag (region, 13), 1000.0);
}

/* An edge that an opening shares with the outline has vanished; one that another opening shares
 * with it comes from the one that bounds what is left. */
static void
test_tag_of_coinciding_edges (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 1000, 50, FALSE);
  draw_box (path, 200, 200, 400, 400, 0, TRUE);
  draw_box (path, 400, 200, 600, 300, 10, TRUE);
  draw_box (path, 300, 200, 400, 400, 20, TRUE);
  region = normalise (path, 1);

  /* The first box's right side bounds the wall above the second box only; the third box has its
   * right side there too, and the tag 1 is the smaller one. The second box's left side bounds
   * nothing. */
  assert_area (rod_region_area (region), 1e6 - 200.0 * 200.0 - 200.0 * 100.0);
  assert_area (measure_tag (region, 1), 100.0);
  assert_area (measure_tag (region, 21), 0.0);
  assert_area (measure_tag (region, 13), 0.0);
  assert_area (measure_tag (region, 0), 200.0);
  assert_area (measure_tag (region, 10), 200.0);
  g_assert_cmpuint (region->n_rings, ==, 2);
}

/* Offsetting a ring by more than it is wide turns parts of it inside out. */
static void
test_ring_turned_inside_out (void)
{
  const double turned[] = { 100, 100, 100, 300, 300, 300, 300, 100 };
  const double crossed[] = { 0, 0, 500, 0, 500, 200, 300, -50, 0, 200 };
  RodPath     *path = rod_path_new ();
  g_autoptr (RodRegion) gone = NULL;
  g_autoptr (RodRegion) rest = NULL;
  g_autoptr (RodRegion) bow_tie = NULL;

  draw_ring (path, turned, 4, 0, FALSE);
  gone = normalise (path, 1);
  g_assert_cmpuint (gone->n_rings, ==, 0);
  g_assert_cmpuint (gone->n_points, ==, 0);

  /* The tip of the notch pokes 50 below the base. The notch's sides meet the base at 300 - 60 and
   * 300 + 40, since they fall 250 over 300 and over 200. */
  path = rod_path_new ();
  draw_ring (path, crossed, 5, 0, FALSE);
  rest = normalise (path, 1);
  g_assert_cmpuint (rest->n_rings, ==, 2);
  assert_area (rod_region_area (rest), 240.0 * 200.0 / 2.0 + 160.0 * 200.0 / 2.0);

  /* Of a bow-tie the lobe that runs counter-clockwise is left. */
  path = rod_path_new ();
  draw_ring (path, (const double[]){ 0, 0, 10, 10, 10, 0, 0, 10 }, 4, 0, FALSE);
  bow_tie = normalise (path, 1);
  g_assert_cmpuint (bow_tie->n_rings, ==, 1);
  assert_area (rod_region_area (bow_tie), 25.0);
}

/* Openings that meet in a corner only: the rings are simple, and share that corner. */
static void
test_openings_corner_to_corner (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 1000, 0, FALSE);
  draw_box (path, 200, 200, 400, 400, 10, TRUE);
  draw_box (path, 400, 400, 600, 600, 20, TRUE);
  draw_box (path, 0, 600, 200, 800, 30, TRUE);
  draw_box (path, 200, 800, 300, 1000, 40, TRUE);
  region = normalise (path, 1);

  assert_area (rod_region_area (region), 1e6 - 3 * 4e4 - 2e4);
  g_assert_cmpuint (region->n_rings, ==, 4);
  for (guint ring = 0; ring < region->n_rings; ring++)
    {
      guint start = region->ring_starts[ring];

      for (guint i = start; i < region->ring_starts[ring + 1]; i++)
        for (guint j = start; j < i; j++)
          g_assert_cmpfloat (rod_point_distance (region->points[i], region->points[j]), >, 1.0);
    }
}

/* Four openings round a square leave an island. */
static void
test_island_between_openings (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 1000, 0, FALSE);
  draw_box (path, 200, 200, 700, 300, 10, TRUE);
  draw_box (path, 200, 600, 700, 700, 20, TRUE);
  draw_box (path, 200, 300, 300, 600, 30, TRUE);
  draw_box (path, 600, 300, 700, 600, 40, TRUE);
  region = normalise (path, 1);

  assert_area (rod_region_area (region), 1e6 - 500.0 * 500.0 + 300.0 * 300.0);
  g_assert_cmpuint (region->n_rings, ==, 3);

  /* Left and right of the hole belong to three openings each, so two corners more stand there. */
  g_assert_cmpuint (region->n_points, ==, 4 + 8 + 4);
  g_assert_true (rod_region_contains (region, (RodPoint){ 450, 450 }));
  g_assert_false (rod_region_contains (region, (RodPoint){ 250, 450 }));
  g_assert_true (rod_region_contains (region, (RodPoint){ 100, 450 }));
  g_assert_false (rod_region_contains (region, (RodPoint){ -1, 450 }));
  g_assert_false (rod_region_contains (region, (RodPoint){ 450, 1001 }));
}

/* Two diamonds that touch each other and the side of a box: the wall between them is an island. */
static void
test_island_between_diamonds (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 4000, 0, FALSE);
  draw_box (path, 400, 300, 600, 2900, 10, TRUE);
  draw_ring (path, (const double[]){ 300, 700, 400, 1300, 300, 1800, 100, 1300 }, 4, 20, TRUE);
  draw_ring (path, (const double[]){ 300, 1800, 400, 2500, 300, 3200, 100, 2500 }, 4, 30, TRUE);
  region = normalise (path, 1);

  /* The island: base 1200 along the box, 100 high. A diamond: half the product of its diagonals,
   * 300 · 1100 / 2 and 300 · 1400 / 2. */
  g_assert_cmpuint (region->n_rings, ==, 3);
  assert_area (rod_region_area (region), 4e6 - 200.0 * 2600.0 - 165000.0 - 210000.0);
  g_assert_true (rod_region_contains (region, (RodPoint){ 390, 1900 }));
  assert_area (measure_tag (region, 13), 2600.0);
}

/* Corners within the snap of each other are one, within the snap of an edge lie on it, and gaps
 * just beyond it stay. */
static void
test_snap (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;
  g_autoptr (RodRegion) open = NULL;

  draw_ring (path,
             (const double[]){ 0, 0, 0.06, 0.06, 1000, 0.0004, 1000, 1000, 0, 1000 },
             5,
             0,
             FALSE);
  draw_box (path, 300, 0.09, 400, 500, 10, TRUE);
  region = normalise (path, 1);
  g_assert_cmpuint (region->n_rings, ==, 1);
  g_assert_cmpuint (region->n_points, ==, 8);
  g_assert_cmpuint (count_tag (region, 10), ==, 0);
  g_assert_cmpfloat_with_epsilon (rod_region_area (region), 950000.0, ROD_SNAP_MM * 5000.0);

  path = rod_path_new ();
  draw_box (path, 0, 0, 1000, 1000, 0, FALSE);
  draw_box (path, 300, 0.11, 400, 500, 10, TRUE);
  open = normalise (path, 1);
  g_assert_cmpuint (open->n_rings, ==, 2);
  assert_area (measure_tag (open, 10), 100.0);
}

/* A base that is led through a corner just above it comes near enough to another corner to be led
 * through that one as well: both openings stand on it, and no hair of wall is left under either. */
static void
test_snap_again (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  draw_box (path, 0, 0, 1000, 1000, 0, FALSE);
  draw_box (path, 500, 0.09, 600, 500, 10, TRUE);
  draw_box (path, 400, 0.15, 480, 300, 20, TRUE);
  region = normalise (path, 1);
  g_assert_cmpuint (region->n_rings, ==, 1);
  g_assert_cmpuint (count_tag (region, 10), ==, 0);
  g_assert_cmpuint (count_tag (region, 20), ==, 0);
}

/* A corner between edges of one tag says nothing; between two tags it does. */
static void
test_corners_on_the_straight (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;
  const double x[] = { 0, 300, 600, 1000, 1000, 500, 0 };
  const double y[] = { 0, 0, 0, 0, 500, 500, 500 };
  const int    tags[] = { 0, 0, 1, 2, 3, 3, 4 };

  for (guint i = 0; i < G_N_ELEMENTS (tags); i++)
    rod_path_add_corner (path, (RodPoint){ x[i], y[i] }, tags[i]);
  rod_path_close (path);
  region = normalise (path, 1);

  g_assert_cmpuint (region->n_points, ==, 5);
  assert_area (measure_tag (region, 0), 600.0);
  assert_area (measure_tag (region, 1), 400.0);
  assert_area (measure_tag (region, 3), 1000.0);
}

static void
test_nothing_to_normalise (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) none = normalise (rod_path_new (), 1);
  g_autoptr (RodRegion) line = NULL;
  g_autoptr (RodRegion) covered = NULL;
  g_autoptr (RodRegion) empty = rod_region_new_empty ();

  g_assert_cmpuint (none->n_rings, ==, 0);
  assert_area (rod_region_area (none), 0.0);
  assert_area (rod_region_area (empty), 0.0);
  g_assert_false (rod_region_contains (none, (RodPoint){ 0, 0 }));

  draw_ring (path, (const double[]){ 0, 0, 500, 0, 1000, 0 }, 3, 0, FALSE);
  line = normalise (path, 1);
  g_assert_cmpuint (line->n_rings, ==, 0);

  path = rod_path_new ();
  draw_box (path, 0, 0, 1000, 1000, 0, FALSE);
  draw_box (path, -50, -50, 1050, 1050, 10, TRUE);
  covered = normalise (path, 1);
  g_assert_cmpuint (covered->n_rings, ==, 0);
}

/* Coordinates of a kilometre, and hairline wedges: the predicates have room for both. */
static void
test_far_out_and_thin (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) far_out = NULL;
  g_autoptr (RodRegion) star = NULL;
  double far = ROD_MAX_COORDINATE_MM;

  draw_ring (path, (const double[]){ -far, -far, far, -far, far, far, -far, far }, 4, 0, FALSE);
  draw_ring (path,
             (const double[]){ -far, -far, far, far - 1.0, far, far, far - 1.0, far },
             4,
             4,
             TRUE);
  far_out = normalise (path, 1);
  g_assert_cmpuint (far_out->n_rings, ==, 2);

  /* Twice a triangle of base 1 and a height along the diagonal: 2 · ½ · 1 · 2 km, snapped. */
  g_assert_cmpfloat_with_epsilon (rod_region_area (far_out),
                                  4.0 * far * far - 2.0 * far,
                                  ROD_SNAP_MM * 8.0 * far);

  /* A star of 101 points whose edges cross each other thousands of times. */
  path = rod_path_new ();
  for (int i = 0; i < 101; i++)
    {
      double angle = 2.0 * G_PI * (i * 50 % 101) / 101.0;

      rod_path_add_corner (path, (RodPoint){ 5e3 * cos (angle), 5e3 * sin (angle) }, i);
    }
  rod_path_close (path);
  star = normalise (path, 50);
  g_assert_cmpuint (star->n_rings, ==, 1);
  g_assert_true (rod_region_contains (star, (RodPoint){ 0, 0 }));
}

static int
turn_of (RodPoint a,
         RodPoint b,
         RodPoint c)
{
  /* Exact: differences of whole micrometres up to a few metres. */
  double turn = round (1e6 * ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)));

  return (turn > 0.0) - (turn < 0.0);
}

static void
assert_rings_do_not_cross (const RodRegion *region)
{
  guint                n = region->n_points;
  g_autofree RodPoint *ends = g_new (RodPoint, n);

  for (guint ring = 0; ring < region->n_rings; ring++)
    for (guint i = region->ring_starts[ring]; i < region->ring_starts[ring + 1]; i++)
      ends[i] = region->points[i + 1 < region->ring_starts[ring + 1] ? i + 1
                                                                     : region->ring_starts[ring]];

  for (guint i = 0; i < n; i++)
    for (guint j = 0; j < i; j++)
      {
        RodPoint a = region->points[i], b = ends[i];
        RodPoint c = region->points[j], d = ends[j];

        g_assert_false (turn_of (a, b, c) * turn_of (a, b, d) < 0 &&
                        turn_of (c, d, a) * turn_of (c, d, b) < 0);
      }
}

/* Scribbles from a fingertip to a house in size, some on a raster: whatever comes in, rings that do
 * not cross come out, and what is covered twice is no more than what is covered once. */
static void
test_scribbles (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed ((guint32) g_test_rand_int ());

  for (guint i = 0; i < 300; i++)
    {
      g_autoptr (RodPath) path = rod_path_new ();
      g_autoptr (RodRegion) once = NULL;
      g_autoptr (RodRegion) twice = NULL;
      double span = pow (10.0, g_rand_double_range (random, -2.0, 3.5));
      double raster = g_rand_boolean (random) ? span / 8.0 : 0.0;

      for (int ring = g_rand_int_range (random, 1, 6); ring > 0; ring--)
        {
          for (int corner = g_rand_int_range (random, 3, 10); corner > 0; corner--)
            {
              double x = g_rand_double_range (random, -span, span);
              double y = g_rand_double_range (random, -span, span);

              if (raster > 0.0)
                {
                  x = round (x / raster) * raster;
                  y = round (y / raster) * raster;
                }
              rod_path_add_corner (path, (RodPoint){ x, y }, corner);
            }
          if (g_rand_boolean (random))
            rod_path_close (path);
          else
            rod_path_close_reversed (path);
        }

      once = rod_region_normalise (path, 1);
      twice = rod_region_normalise (path, 2);
      assert_rings_do_not_cross (once);
      assert_rings_do_not_cross (twice);
      g_assert_cmpfloat (rod_region_area (twice), >=, 0.0);
      g_assert_cmpfloat (rod_region_area (twice), <=, rod_region_area (once));
    }
}

/* Right angles turn without rounding, other angles keep the area. */
static void
test_transform (void)
{
  g_autoptr (DrawnSurface) surface = NULL;
  g_autoptr (GRand) random = g_rand_new_with_seed ((guint32) g_test_rand_int ());
  g_autoptr (RodRegion) region = NULL;
  g_autoptr (RodRegion) turned = NULL;
  g_autoptr (RodRegion) leaning = NULL;

  surface = draw_random_surface (random, DRAWN_ANY_ANGLE, 0.0);
  region = rod_region_normalise (surface->path, 1);
  turned = rod_region_transform (region, rod_affine_board_frame (90.0));
  leaning = rod_region_transform (region, rod_affine_board_frame (33.3));

  g_assert_cmpuint (turned->n_points, ==, region->n_points);
  for (guint i = 0; i < region->n_points; i++)
    {
      g_assert_cmpfloat (turned->points[i].x, ==, region->points[i].y);
      g_assert_cmpfloat (turned->points[i].y, ==, -region->points[i].x);
      g_assert_cmpint (turned->tags[i], ==, region->tags[i]);
    }
  assert_area (rod_region_area (leaning), rod_region_area (region));
}

static void
test_extent (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;
  RodPoint low, high;

  draw_ring (path, (const double[]){ -5, 20, 300, -7, 40, 900 }, 3, 0, FALSE);
  region = normalise (path, 1);
  rod_region_extent (region, &low, &high);
  assert_area (low.x, -5.0);
  assert_area (low.y, -7.0);
  assert_area (high.x, 300.0);
  assert_area (high.y, 900.0);
}

/* The same drawing twice gives the same region, and a clean region stays as it is. */
static void
test_same_again (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed ((guint32) g_test_rand_int ());

  for (guint i = 0; i < 100; i++)
    {
      g_autoptr (DrawnSurface) surface = draw_random_surface (random, i % 2, 0.0);
      g_autoptr (RodPath) clean = rod_path_new ();
      g_autoptr (RodRegion) first = rod_region_normalise (surface->path, 1);
      g_autoptr (RodRegion) second = rod_region_normalise (surface->path, 1);
      g_autoptr (RodRegion) again = NULL;

      g_assert_cmpmem (first->points,
                       first->n_points * sizeof (RodPoint),
                       second->points,
                       second->n_points * sizeof (RodPoint));
      g_assert_cmpmem (first->tags,
                       first->n_points * sizeof (int),
                       second->tags,
                       second->n_points * sizeof (int));

      for (guint ring = 0; ring < first->n_rings; ring++)
        {
          for (guint j = first->ring_starts[ring]; j < first->ring_starts[ring + 1]; j++)
            rod_path_add_corner (clean, first->points[j], first->tags[j]);
          rod_path_close (clean);
        }
      again = rod_region_normalise (clean, 1);
      g_assert_cmpuint (again->n_points, ==, first->n_points);
      g_assert_cmpuint (again->n_rings, ==, first->n_rings);
      assert_area (rod_region_area (again), rod_region_area (first));
    }
}

/* Some 5,800 openings: what a grid in one direction only would make slow. */
static void
test_many_openings (void)
{
  RodPath *path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;
  g_autoptr (RodRegion) one = NULL;
  gint64 start;

  draw_circle (path, 0.0, 0.0, 60.0, 0, FALSE);
  one = normalise (path, 1);

  path = rod_path_new ();
  draw_box (path, 0, 0, 15300, 15300, 0, FALSE);
  for (int row = 0; row < 76; row++)
    for (int column = 0; column < 76; column++)
      draw_circle (path, 150.0 + 200.0 * column, 150.0 + 200.0 * row, 60.0, 5, TRUE);
  start = g_get_monotonic_time ();
  region = normalise (path, 1);
  g_test_message ("%u corners in %" G_GINT64_FORMAT " us",
                  region->n_points,
                  g_get_monotonic_time () - start);

  g_assert_cmpuint (region->n_rings, ==, 76 * 76 + 1);
  g_assert_cmpfloat_with_epsilon (rod_region_area (region),
                                  15300.0 * 15300.0 - 76.0 * 76.0 * rod_region_area (one),
                                  1.0);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/region/published-rings", test_published_rings);
  g_test_add_func ("/region/published-polygons", test_published_polygons);
  g_test_add_func ("/region/published-boxes", test_published_boxes);
  g_test_add_func ("/region/gable-with-door", test_gable_with_door);
  g_test_add_func ("/region/openings-that-overlap", test_openings_that_overlap);
  g_test_add_func ("/region/openings-that-touch", test_openings_that_touch);
  g_test_add_func ("/region/zone-by-threshold", test_zone_by_threshold);
  g_test_add_func ("/region/zone-with-greater-tag", test_zone_with_greater_tag);
  g_test_add_func ("/region/tag-of-coinciding-edges", test_tag_of_coinciding_edges);
  g_test_add_func ("/region/ring-turned-inside-out", test_ring_turned_inside_out);
  g_test_add_func ("/region/openings-corner-to-corner", test_openings_corner_to_corner);
  g_test_add_func ("/region/island-between-openings", test_island_between_openings);
  g_test_add_func ("/region/island-between-diamonds", test_island_between_diamonds);
  g_test_add_func ("/region/snap", test_snap);
  g_test_add_func ("/region/snap-again", test_snap_again);
  g_test_add_func ("/region/corners-on-the-straight", test_corners_on_the_straight);
  g_test_add_func ("/region/nothing-to-normalise", test_nothing_to_normalise);
  g_test_add_func ("/region/far-out-and-thin", test_far_out_and_thin);
  g_test_add_func ("/region/scribbles", test_scribbles);
  g_test_add_func ("/region/transform", test_transform);
  g_test_add_func ("/region/extent", test_extent);
  g_test_add_func ("/region/same-again", test_same_again);
  g_test_add_func ("/region/many-openings", test_many_openings);
  return g_test_run ();
}
