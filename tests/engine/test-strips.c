/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Strips by hand: joint lines through corners and along edges, pipes, notches, touching openings,
 * length joints, and the tag of every edge. All values are worked by hand beside the check. What
 * holds for any surface: test-strip-properties.c; against another library:
 * test-geometry-oracle.c. */

#include "support/drawn-surface.h"

#include "engine/rod-limits.h"

#include <math.h>

static RodRegion *
normalise (RodPath *path)
{
  RodRegion *region = rod_region_normalise (path, 1);

  rod_path_free (path);
  return region;
}

static RodStrips *
cut (RodPath *path,
     double   phase,
     double   pitch)
{
  g_autoptr (RodRegion) region = normalise (path);

  return rod_strips_cut (region, phase, pitch);
}

static RodPath *
draw_plain (double width,
            double height)
{
  RodPath *path = rod_path_new ();

  draw_box (path, 0.0, 0.0, width, height, 0, FALSE);
  return path;
}

static double
strip_area (const RodStrips *strips,
            guint            strip)
{
  const RodRegion *rings = strips->rings;
  const RodStrip  *measured = &strips->strips[strip];
  double           area = 0.0;

  for (guint ring = measured->first_ring; ring < measured->first_ring + measured->n_rings; ring++)
    area += rod_ring_area (rings->points + rings->ring_starts[ring],
                           rings->ring_starts[ring + 1] - rings->ring_starts[ring]);
  return area;
}

static guint
strip_corners (const RodStrips *strips,
               guint            strip)
{
  guint ring = strips->strips[strip].first_ring;

  return strips->rings->ring_starts[ring + 1] - strips->rings->ring_starts[ring];
}

/* The length of the edges of a strip that carry @tag. */
static double
tag_length (const RodStrips *strips,
            guint            strip,
            int              tag)
{
  const RodRegion *rings = strips->rings;
  const RodStrip  *measured = &strips->strips[strip];
  double           length = 0.0;

  for (guint ring = measured->first_ring; ring < measured->first_ring + measured->n_rings; ring++)
    {
      guint start = rings->ring_starts[ring];
      guint end = rings->ring_starts[ring + 1];

      for (guint i = start; i < end; i++)
        if (rings->tags[i] == tag)
          length += rod_point_distance (rings->points[i],
                                        rings->points[i + 1 < end ? i + 1 : start]);
    }
  return length;
}

typedef struct
{
  int    course;
  guint  n_rings;
  guint  n_corners; /* of the outer ring */
  double area;
} Expected;

static void
assert_strips (const RodStrips *strips,
               const Expected  *expected,
               guint            n_expected)
{
  g_assert_cmpuint (strips->n_strips, ==, n_expected);
  for (guint i = 0; i < n_expected; i++)
    {
      g_assert_cmpint (strips->strips[i].course, ==, expected[i].course);
      g_assert_cmpuint (strips->strips[i].n_rings, ==, expected[i].n_rings);
      g_assert_cmpuint (strip_corners (strips, i), ==, expected[i].n_corners);
      g_assert_cmpfloat_with_epsilon (strip_area (strips, i), expected[i].area, 1e-6);
    }
}

static void
assert_length (const RodStrips *strips,
               guint            strip,
               int              tag,
               double           expected)
{
  g_assert_cmpfloat_with_epsilon (tag_length (strips, strip, tag), expected, 1e-6);
}

/* The base and the top lie on lines: they keep their own tags, for no board goes on there. */
static void
test_lines_along_edges (void)
{
  g_autoptr (RodStrips) strips = cut (draw_plain (1000, 500), 0.0, 250.0);
  const Expected expected[] = { { 0, 1, 4, 250000.0 }, { 1, 1, 4, 250000.0 } };

  assert_strips (strips, expected, G_N_ELEMENTS (expected));
  assert_length (strips, 0, 0, 1000.0);
  assert_length (strips, 0, 1, 250.0);
  assert_length (strips, 0, 3, 250.0);
  assert_length (strips, 0, ROD_TAG_LINE_ABOVE, 1000.0);
  assert_length (strips, 0, ROD_TAG_LINE_BELOW, 0.0);
  assert_length (strips, 1, ROD_TAG_LINE_BELOW, 1000.0);
  assert_length (strips, 1, 2, 1000.0);
  assert_length (strips, 1, ROD_TAG_LINE_ABOVE, 0.0);
}

/* Rips at the foot and at the top; lines below nought have courses below nought. */
static void
test_rips (void)
{
  g_autoptr (RodStrips) strips = cut (draw_plain (1000, 500), -30.0, 200.0);
  g_autoptr (RodStrips) below = cut (draw_plain (1000, 500), 470.0, 200.0);
  const Expected expected[] = {
    { 0, 1, 4, 170000.0 },
    { 1, 1, 4, 200000.0 },
    { 2, 1, 4, 130000.0 },
  };
  const Expected low[] = { { -3, 1, 4, 70000.0 },
                           { -2, 1, 4, 200000.0 },
                           { -1, 1, 4, 200000.0 },
                           { 0, 1, 4, 30000.0 } };

  assert_strips (strips, expected, G_N_ELEMENTS (expected));
  assert_strips (below, low, G_N_ELEMENTS (low));
}

/* A window whose sill lies on a joint line and whose head does not. */
static void
test_window (void)
{
  RodPath *path = draw_plain (1000, 600);
  g_autoptr (RodStrips) strips = NULL;
  const Expected expected[] = {
    { 0, 1, 6, 200000.0 }, /* below the sill: two corners where the sill begins and ends */
    { 1, 1, 4, 60000.0 },
    { 1, 1, 4, 100000.0 },
    { 2, 1, 8, 1000.0 * 200.0 - 200.0 * 50.0 },
  };

  draw_box (path, 300, 200, 500, 450, 10, TRUE);
  strips = cut (path, 0.0, 200.0);
  assert_strips (strips, expected, G_N_ELEMENTS (expected));

  assert_length (strips, 0, 10, 200.0);
  assert_length (strips, 0, ROD_TAG_LINE_ABOVE, 800.0);
  assert_length (strips, 1, 13, 200.0);
  assert_length (strips, 1, 11, 0.0);
  assert_length (strips, 1, ROD_TAG_LINE_BELOW, 300.0);
  assert_length (strips, 2, 11, 200.0);
  assert_length (strips, 2, ROD_TAG_LINE_ABOVE, 500.0);
  assert_length (strips, 3, 12, 200.0);
  assert_length (strips, 3, 11, 50.0);
  assert_length (strips, 3, ROD_TAG_LINE_BELOW, 800.0);
}

/* A gable whose apex and eaves lie on lines: the apex gives no piece of nothing. */
static void
test_line_through_corners (void)
{
  const double gable[] = { 0, 0, 1000, 0, 1000, 200, 500, 400, 0, 200 };
  RodPath     *path = rod_path_new ();
  g_autoptr (RodStrips) strips = NULL;
  const Expected expected[] = { { 0, 1, 4, 200000.0 }, { 1, 1, 3, 100000.0 } };

  draw_ring (path, gable, 5, 0, FALSE);
  strips = cut (path, 0.0, 200.0);
  assert_strips (strips, expected, G_N_ELEMENTS (expected));
  assert_length (strips, 1, ROD_TAG_LINE_BELOW, 1000.0);
  assert_length (strips, 0, ROD_TAG_LINE_ABOVE, 1000.0);
}

/* The tip of a notch touches a line from above, from below, and from both sides: it parts the
 * course it stands in and leaves the other whole. */
static void
test_notch_touches_line (void)
{
  const double from_above[] = { 0, 0, 900, 0, 900, 400, 600, 400, 450, 200, 300, 400, 0, 400 };
  const double diamond[] = { 450, 100, 550, 200, 450, 300, 350, 200 };
  RodPath     *path = rod_path_new ();
  g_autoptr (RodStrips) notched = NULL;
  g_autoptr (RodStrips) pierced = NULL;
  const Expected notched_parts[] = {
    { 0, 1, 4, 180000.0 },
    { 1, 1, 4, 75000.0 }, /* (450 + 300) / 2 · 200 */
    { 1, 1, 4, 75000.0 },
  };
  const Expected pierced_parts[] = {
    { 0, 1, 4, 90000.0 },
    { 1, 1, 4, 40000.0 }, /* (450 + 350) / 2 · 100, twice: the tip on the line parts the course */
    { 1, 1, 4, 40000.0 },
    { 2, 1, 4, 40000.0 },
    { 2, 1, 4, 40000.0 },
    { 3, 1, 4, 90000.0 },
  };

  draw_ring (path, from_above, 7, 0, FALSE);
  notched = cut (path, 0.0, 200.0);
  assert_strips (notched, notched_parts, G_N_ELEMENTS (notched_parts));

  path = draw_plain (900, 400);
  draw_ring (path, diamond, 4, 10, TRUE);
  pierced = cut (path, 0.0, 100.0);
  assert_strips (pierced, pierced_parts, G_N_ELEMENTS (pierced_parts));
}

/* The same diamond inside one course, touching neither line, one, and both. */
static void
test_opening_in_one_course (void)
{
  const double diamond[] = { 450, 100, 550, 200, 450, 300, 350, 200 };
  const double phases[] = { -50.0, 0.0, -100.0, 100.0 };
  const guint  rings[] = { 2, 2, 2, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (phases); i++)
    {
      RodPath *path = draw_plain (900, 400);
      double   pitch = i == 3 ? 200.0 : 300.0 + (i == 0 ? 50.0 : 100.0);
      g_autoptr (RodStrips) strips = NULL;
      guint around = G_MAXUINT;

      /* Phases and pitches: lines at -50, 300, so the head touches; at 0, 400; at -100, 300; and at
       * 100, 300, which both touch and part the course in two. */
      draw_ring (path, diamond, 4, 10, TRUE);
      strips = cut (path, phases[i], pitch);
      for (guint strip = 0; strip < strips->n_strips; strip++)
        if (strips->strips[strip].n_rings > 1)
          around = strip;
      if (rings[i] == 0)
        {
          g_assert_cmpuint (around, ==, G_MAXUINT);
          g_assert_cmpuint (strips->n_strips, ==, 4);
          continue;
        }
      g_assert_cmpuint (around, !=, G_MAXUINT);
      g_assert_cmpuint (strips->strips[around].n_rings, ==, rings[i]);
      assert_length (strips, around, 10, 100.0 * G_SQRT2);
      assert_length (strips, around, 13, 100.0 * G_SQRT2);
    }
}

/* A pipe inside one board is a hole of it; one that a line meets is a notch in two. */
static void
test_pipes (void)
{
  RodPath *path = draw_plain (1000, 400);
  g_autoptr (RodStrips) strips = NULL;
  double pipe, whole;

  draw_circle (path, 200.0, 90.0, 50.0, 20, TRUE);
  draw_circle (path, 700.0, 200.0, 50.0, 30, TRUE);
  draw_circle (path, 400.0, 110.0, 50.0, 40, TRUE);
  strips = cut (path, 0.0, 200.0);

  g_assert_cmpuint (strips->n_strips, ==, 2);
  g_assert_cmpuint (strips->strips[0].n_rings, ==, 3);
  g_assert_cmpuint (strips->strips[1].n_rings, ==, 1);
  pipe = tag_length (strips, 0, 20);
  g_assert_cmpfloat_with_epsilon (pipe, 2.0 * G_PI * 50.0, 2.0);
  assert_length (strips, 0, 40, pipe);
  assert_length (strips, 0, 30, pipe / 2.0);
  assert_length (strips, 1, 30, pipe / 2.0);
  assert_length (strips, 1, ROD_TAG_LINE_BELOW, 900.0);

  whole = strip_area (strips, 0) + strip_area (strips, 1);
  g_assert_cmpfloat_with_epsilon (whole,
                                  400000.0 - 3.0 * G_PI * 2500.0,
                                  3.0 * ROD_ARC_SAGITTA_MM * pipe);
}

/* A strip of its own inside a hole of another, all in one course. */
static void
test_island_in_course (void)
{
  RodPath *path = draw_plain (1000, 300);
  g_autoptr (RodStrips) strips = NULL;
  const Expected expected[] = { { 0, 2, 4, 300000.0 - 40000.0 }, { 0, 2, 4, 10000.0 - 400.0 } };

  draw_box (path, 400, 50, 600, 250, 10, TRUE);
  draw_box (path, 450, 100, 550, 200, 20, FALSE);
  draw_box (path, 490, 140, 510, 160, 30, TRUE);
  strips = cut (path, 0.0, 300.0);
  assert_strips (strips, expected, G_N_ELEMENTS (expected));
  assert_length (strips, 0, 11, 200.0);
  assert_length (strips, 1, 31, 20.0);
}

/* A base that steps down on a joint line. */
static void
test_step_on_line (void)
{
  const double steps[] = { 0, 200, 400, 200, 400, 0, 1000, 0, 1000, 400, 0, 400 };
  RodPath     *path = rod_path_new ();
  g_autoptr (RodStrips) strips = NULL;
  const Expected expected[] = { { 0, 1, 4, 120000.0 }, { 1, 1, 5, 200000.0 } };

  draw_ring (path, steps, 6, 0, FALSE);
  strips = cut (path, 0.0, 200.0);
  assert_strips (strips, expected, G_N_ELEMENTS (expected));
  assert_length (strips, 1, 0, 400.0);
  assert_length (strips, 1, ROD_TAG_LINE_BELOW, 600.0);
  assert_length (strips, 0, 2, 600.0);
}

/* Openings that meet in one corner part the wall there, inside a course and on a line alike. */
static void
test_openings_corner_to_corner (void)
{
  for (guint on_line = 0; on_line < 2; on_line++)
    {
      RodPath *path = draw_plain (1000, 400);
      double   middle = on_line ? 200.0 : 170.0;
      g_autoptr (RodStrips) strips = NULL;
      double area = 0.0;

      draw_box (path, 300, middle - 100, 500, middle, 10, TRUE);
      draw_box (path, 500, middle, 700, middle + 100, 20, TRUE);
      strips = cut (path, 0.0, 200.0);
      for (guint i = 0; i < strips->n_strips; i++)
        area += strip_area (strips, i);
      g_assert_cmpfloat_with_epsilon (area, 400000.0 - 40000.0, 1e-6);

      /* In the first course the wall below the second opening is one with the wall on the right;
       * it hangs on the wall to the left of the first one round its foot. */
      g_assert_cmpuint (strips->n_strips, ==, 2);
      g_assert_cmpuint (strips->strips[0].n_rings, ==, on_line ? 1 : 2);
    }
}

/* Two openings across a whole course that meet in a corner within it: two pieces that touch. */
static void
test_pieces_that_touch (void)
{
  RodPath *path = draw_plain (1000, 200);
  g_autoptr (RodStrips) strips = NULL;
  const Expected expected[] = { { 0, 1, 6, 500.0 * 200.0 - 200.0 * 100.0 },
                                { 0, 1, 6, 500.0 * 200.0 - 200.0 * 100.0 } };

  draw_box (path, 300, -100, 500, 100, 10, TRUE);
  draw_box (path, 500, 100, 700, 300, 20, TRUE);
  strips = cut (path, 0.0, 200.0);
  assert_strips (strips, expected, 0 + G_N_ELEMENTS (expected));
}

/* Three openings in a chain, corner to corner, from below a course to above it: what is on either
 * side of them in that course touches in two points and is two pieces, though it is one round the
 * ends of the chain and the middle opening meets no line. The same leaning the other way. */
static void
test_chain_of_openings (void)
{
  for (guint other_way = 0; other_way < 2; other_way++)
    {
      RodPath *path = draw_plain (1000, 600);
      g_autoptr (RodStrips) strips = NULL;
      double         left = 100.0 * 200.0 + 200.0 * 100.0 + 200.0 * 50.0;
      double         right = 200.0 * 100.0 + 200.0 * 150.0 + 300.0 * 200.0;
      const Expected expected[] = {
        { 0, 1, 8, 200000.0 - 20000.0 },
        { 1, 1, 8, other_way ? right : left },
        { 1, 1, 8, other_way ? left : right },
        { 2, 1, 8, 200000.0 - 20000.0 },
      };

      if (other_way)
        {
          draw_box (path, 700, 300, 900, 500, 10, TRUE);
          draw_box (path, 500, 250, 700, 300, 20, TRUE);
          draw_box (path, 300, 100, 500, 250, 30, TRUE);
        }
      else
        {
          draw_box (path, 100, 300, 300, 500, 10, TRUE);
          draw_box (path, 300, 250, 500, 300, 20, TRUE);
          draw_box (path, 500, 100, 700, 250, 30, TRUE);
        }
      strips = cut (path, 0.0, 200.0);
      assert_strips (strips, expected, G_N_ELEMENTS (expected));
      assert_length (strips, 1, other_way ? 22 : 20, 200.0);
      assert_length (strips, 2, other_way ? 20 : 22, 200.0);
    }
}

/* A slot from corner to corner leaves two pieces that reach equally far; each keeps its own pipe,
 * though both lie within the reach of both. */
static void
test_holes_of_interlocking_pieces (void)
{
  const double slot[] = { -10, 90, 1010, 290, 1010, 310, -10, 110 };
  const double upright_slot[] = { 490, -10, 520, -10, 510, 410, 480, 410 };
  RodPath     *path = draw_plain (1000, 400);
  g_autoptr (RodStrips) strips = NULL;
  g_autoptr (RodStrips) upright = NULL;

  draw_ring (path, slot, 4, 10, TRUE);
  draw_box (path, 800, 200, 810, 202, 20, TRUE);
  draw_box (path, 200, 160, 210, 162, 30, TRUE);
  draw_box (path, 210, 165, 220, 167, 40, TRUE);
  strips = cut (path, 0.0, 400.0);
  g_assert_cmpuint (strips->n_strips, ==, 2);
  g_assert_cmpuint (strips->strips[0].n_rings + strips->strips[1].n_rings, ==, 2 + 3);
  assert_length (strips, 0, 21, 2.0);
  assert_length (strips, 0, 31, 0.0);
  assert_length (strips, 1, 31, 2.0);
  assert_length (strips, 1, 41, 2.0);

  path = draw_plain (1000, 400);
  draw_ring (path, upright_slot, 4, 10, TRUE);
  draw_box (path, 486, 10, 488, 20, 20, TRUE);
  draw_box (path, 514, 390, 516, 395, 30, TRUE);
  upright = cut (path, 0.0, 400.0);
  g_assert_cmpuint (upright->n_strips, ==, 2);
  assert_length (upright, 0, 21, 10.0);
  assert_length (upright, 1, 31, 5.0);
}

/* Corners near a line are on it, and what is thinner than a remnant is no board. */
static void
test_near_lines (void)
{
  const double base = 0.6 * ROD_LINE_SNAP_MM;
  RodPath     *path = rod_path_new ();
  g_autoptr (RodStrips) snapped = NULL;
  g_autoptr (RodStrips) thin = NULL;
  g_autoptr (RodStrips) rip = NULL;

  draw_box (path, 0, base, 1000, 400.0 - base, 0, FALSE);
  snapped = cut (path, 0.0, 200.0);
  g_assert_cmpuint (snapped->n_strips, ==, 2);
  assert_length (snapped, 0, 0, 1000.0);
  assert_length (snapped, 0, 1, 200.0);

  thin = cut (draw_plain (1000, 400.0 + 0.9 * ROD_REMNANT_MM), 0.0, 200.0);
  g_assert_cmpuint (thin->n_strips, ==, 2);
  assert_length (thin, 1, ROD_TAG_LINE_ABOVE, 1000.0);

  rip = cut (draw_plain (1000, 400.0 + 1.1 * ROD_REMNANT_MM), 0.0, 200.0);
  g_assert_cmpuint (rip->n_strips, ==, 3);
}

static void
test_nothing_to_cut (void)
{
  g_autoptr (RodRegion) empty = rod_region_new_empty ();
  g_autoptr (RodStrips) strips = rod_strips_cut (empty, 0.0, 100.0);
  g_autoptr (RodStrips) parts = rod_strips_split (strips, NULL, 0);

  g_assert_cmpuint (strips->n_strips, ==, 0);
  g_assert_cmpuint (parts->n_strips, ==, 0);
  g_assert_cmpuint (parts->rings->n_rings, ==, 0);
}

/* One surface within a single course keeps its rings as they are. */
static void
test_no_line_met (void)
{
  RodPath *path = draw_plain (1000, 150);
  g_autoptr (RodStrips) strips = NULL;
  const Expected expected[] = { { 0, 2, 4, 150000.0 - 2500.0 } };

  draw_box (path, 100, 50, 150, 100, 10, TRUE);
  strips = cut (path, -20.0, 200.0);
  assert_strips (strips, expected, G_N_ELEMENTS (expected));
  assert_length (strips, 0, 0, 1000.0);
}

/* Length joints: new edges say on which side the joint is, all others keep their tags. */
static void
test_columns (void)
{
  g_autoptr (RodStrips) strips = cut (draw_plain (1000, 400), 0.0, 200.0);
  const double columns[] = { -100.0, 0.0, 400.0, 400.00001, 700.0, 1000.0, 1200.0 };
  g_autoptr (RodStrips) parts = rod_strips_split (strips, columns, G_N_ELEMENTS (columns));
  const Expected expected[] = {
    { 0, 1, 4, 80000.0 },
    { 0, 1, 4, 60000.0 },
    { 0, 1, 4, 60000.0 },
    { 1, 1, 4, 80000.0 },
    { 1, 1, 4, 60000.0 },
    { 1, 1, 4, 60000.0 },
  };

  assert_strips (parts, expected, G_N_ELEMENTS (expected));
  assert_length (parts, 0, 0, 400.0);
  assert_length (parts, 0, 3, 200.0);
  assert_length (parts, 0, ROD_TAG_COLUMN_RIGHT, 200.0);
  assert_length (parts, 0, ROD_TAG_COLUMN_LEFT, 0.0);
  assert_length (parts, 0, ROD_TAG_LINE_ABOVE, 400.0);
  assert_length (parts, 1, ROD_TAG_COLUMN_LEFT, 200.0);
  assert_length (parts, 1, ROD_TAG_COLUMN_RIGHT, 200.0);
  assert_length (parts, 2, ROD_TAG_COLUMN_LEFT, 200.0);
  assert_length (parts, 2, 1, 200.0);
  assert_length (parts, 4, ROD_TAG_LINE_BELOW, 300.0);
  assert_length (parts, 4, 2, 300.0);
}

/* A joint through a pipe: the hole becomes a notch in both parts. */
static void
test_column_through_hole (void)
{
  RodPath *path = draw_plain (1000, 200);
  g_autoptr (RodStrips) strips = NULL;
  g_autoptr (RodStrips) parts = NULL;
  const double   columns[] = { 500.0, 800.0 };
  const Expected expected[] = { { 0, 1, 8, 100000.0 - 5000.0 },
                                { 0, 1, 8, 60000.0 - 5000.0 },
                                { 0, 2, 4, 40000.0 - 400.0 } };

  draw_box (path, 450, 50, 550, 150, 10, TRUE);
  draw_box (path, 900, 90, 920, 110, 20, TRUE);
  strips = cut (path, 0.0, 200.0);
  parts = rod_strips_split (strips, columns, G_N_ELEMENTS (columns));
  assert_strips (parts, expected, G_N_ELEMENTS (expected));
  assert_length (parts, 0, 10, 50.0);
  assert_length (parts, 0, 13, 100.0);
  assert_length (parts, 0, ROD_TAG_COLUMN_RIGHT, 100.0);
  assert_length (parts, 1, 11, 100.0);
  assert_length (parts, 1, ROD_TAG_COLUMN_LEFT, 100.0);
  assert_length (parts, 2, 21, 20.0);
}

/* A joint along the side of a window: the reveal keeps its tag, above and below it is a joint. */
static void
test_column_along_edge (void)
{
  RodPath *path = draw_plain (1000, 200);
  g_autoptr (RodStrips) strips = NULL;
  g_autoptr (RodStrips) parts = NULL;
  const double   columns[] = { 450.0 };
  const Expected expected[] = { { 0, 1, 6, 90000.0 }, { 0, 1, 8, 110000.0 - 10000.0 } };

  draw_box (path, 450, 50, 550, 150, 10, TRUE);
  strips = cut (path, 0.0, 200.0);
  parts = rod_strips_split (strips, columns, G_N_ELEMENTS (columns));
  assert_strips (parts, expected, G_N_ELEMENTS (expected));
  assert_length (parts, 0, 13, 100.0);
  assert_length (parts, 0, ROD_TAG_COLUMN_RIGHT, 100.0);
  assert_length (parts, 1, ROD_TAG_COLUMN_LEFT, 100.0);
  assert_length (parts, 1, 11, 100.0);
}

/* Two strips of one course over each other: parts go by least x, then by least y. */
static void
test_order_of_parts (void)
{
  RodPath *path = draw_plain (1000, 300);
  g_autoptr (RodStrips) strips = NULL;
  g_autoptr (RodStrips) parts = NULL;
  const double columns[] = { 500.0 };
  const double lows[][2] = { { 0, 200 }, { 10, 0 }, { 500, 0 }, { 500, 200 } };
  const guint  sources[] = { 0, 1, 1, 0 };

  draw_box (path, -10, 100, 1010, 200, 10, TRUE);
  draw_box (path, -10, -10, 10, 150, 20, TRUE);
  strips = cut (path, 0.0, 300.0);
  g_assert_cmpuint (strips->n_strips, ==, 2);
  g_assert_cmpuint (strips->strips[0].source, ==, 0);
  g_assert_cmpuint (strips->strips[1].source, ==, 1);
  parts = rod_strips_split (strips, columns, 1);
  g_assert_cmpuint (parts->n_strips, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      guint           start = parts->rings->ring_starts[parts->strips[i].first_ring];
      const RodRegion outer = { parts->rings->points + start, NULL, 4, NULL, 1 };
      RodPoint        low, high;

      rod_region_extent (&outer, &low, &high);
      g_assert_cmpuint (parts->strips[i].source, ==, sources[i]);
      g_assert_cmpfloat_with_epsilon (low.x, lows[i][0], 1e-9);
      g_assert_cmpfloat_with_epsilon (low.y, lows[i][1], 1e-9);
    }
}

/* Dozens of openings in one course: long lists are sorted another way. */
static void
test_many_openings_in_course (void)
{
  RodPath *path = draw_plain (10000, 400);
  g_autoptr (RodStrips) strips = NULL;

  for (int i = 0; i < 99; i++)
    {
      int place = i * 37 % 99;

      draw_box (path, 50.0 + 100.0 * place, 50, 100.0 + 100.0 * place, 150, 10, TRUE);
      draw_box (path, 50.0 + 100.0 * place, 190, 100.0 + 100.0 * place, 410, 10, TRUE);
    }
  strips = cut (path, 0.0, 200.0);
  g_assert_cmpuint (strips->n_strips, ==, 1 + 100);
  g_assert_cmpuint (strips->strips[0].n_rings, ==, 1 + 99);
  g_assert_cmpfloat_with_epsilon (strip_area (strips, 0), 2e6 - 99 * (5000.0 + 500.0), 1e-6);
  for (guint i = 1; i < strips->n_strips; i++)
    g_assert_cmpfloat_with_epsilon (strip_area (strips, i),
                                    i == 1 ? 10000.0 : (i == 100 ? 20000.0 : 10000.0),
                                    1e-6);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/strips/lines-along-edges", test_lines_along_edges);
  g_test_add_func ("/strips/rips", test_rips);
  g_test_add_func ("/strips/window", test_window);
  g_test_add_func ("/strips/line-through-corners", test_line_through_corners);
  g_test_add_func ("/strips/notch-touches-line", test_notch_touches_line);
  g_test_add_func ("/strips/opening-in-one-course", test_opening_in_one_course);
  g_test_add_func ("/strips/pipes", test_pipes);
  g_test_add_func ("/strips/island-in-course", test_island_in_course);
  g_test_add_func ("/strips/step-on-line", test_step_on_line);
  g_test_add_func ("/strips/openings-corner-to-corner", test_openings_corner_to_corner);
  g_test_add_func ("/strips/pieces-that-touch", test_pieces_that_touch);
  g_test_add_func ("/strips/chain-of-openings", test_chain_of_openings);
  g_test_add_func ("/strips/holes-of-interlocking-pieces", test_holes_of_interlocking_pieces);
  g_test_add_func ("/strips/near-lines", test_near_lines);
  g_test_add_func ("/strips/nothing-to-cut", test_nothing_to_cut);
  g_test_add_func ("/strips/no-line-met", test_no_line_met);
  g_test_add_func ("/strips/columns", test_columns);
  g_test_add_func ("/strips/column-through-hole", test_column_through_hole);
  g_test_add_func ("/strips/column-along-edge", test_column_along_edge);
  g_test_add_func ("/strips/order-of-parts", test_order_of_parts);
  g_test_add_func ("/strips/many-openings-in-course", test_many_openings_in_course);
  return g_test_run ();
}
