/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Regions and strips against GEOS, an independent library, on thousands of random surfaces:
 * outlines at any angle, and surfaces where nearly everything coincides with a joint line or with
 * something else. Strips are compared on the normalised region, for most raw degenerate drawings
 * are no valid polygons; the normalising is compared by itself, by the area in which the two
 * differ.
 *
 * Snapping to lines is meant to make a difference, so lines are chosen that no corner is near to
 * without lying on them. What is left must agree: the number of pieces, their areas within a
 * micrometre of their borders, and how far they reach. */

#include "support/geos-strips.h"

#include "engine/rod-limits.h"

#include <math.h>

#define ATTEMPTS 50

/* Coordinates are whole micrometres; a cut is rounded to one. */
#define ROUNDING_MM 0.001
#define REACH_TOLERANCE_MM 0.002

typedef struct
{
  GEOSContextHandle_t geos;
  GRand              *random;
} Fixture;

static void
set_up (Fixture      *fixture,
        gconstpointer unused)
{
  fixture->geos = geos_start ();
  fixture->random = g_rand_new_with_seed ((guint32) g_test_rand_int ());
}

static void
tear_down (Fixture      *fixture,
           gconstpointer unused)
{
  GEOS_finish_r (fixture->geos);
  g_rand_free (fixture->random);
}

/* With -m thorough, enough to find what goes wrong once in a million strips. */
static guint
count_surfaces (void)
{
  return g_test_thorough () ? 4000 : 120;
}

static double
round_to_grid (double mm)
{
  return round (mm * 1000.0) / 1000.0;
}

/* The region in the board frame, on whole micrometres, so that both sides start from the same. */
static RodRegion *
turn_region (const RodRegion *region,
             double           angle_deg)
{
  RodRegion *turned = rod_region_transform (region, rod_affine_board_frame (angle_deg));

  for (guint i = 0; i < turned->n_points; i++)
    turned->points[i] = (RodPoint){ round_to_grid (turned->points[i].x),
                                    round_to_grid (turned->points[i].y) };
  return turned;
}

/* Whether a line at @at is near no coordinate without being equal to it. */
static gboolean
line_is_clear (double at,
               double coordinate)
{
  double distance = fabs (at - coordinate);

  return distance < ROUNDING_MM / 2.0 || distance > ROD_LINE_SNAP_MM + 2.0 * ROUNDING_MM;
}

static gboolean
phase_is_clear (const RodRegion *region,
                double           phase,
                double           pitch)
{
  for (guint i = 0; i < region->n_points; i++)
    {
      double y = region->points[i].y;

      if (!line_is_clear (phase + round ((y - phase) / pitch) * pitch, y))
        return FALSE;
    }
  return TRUE;
}

static void
add_own_piece (const RodStrips *strips,
               const RodStrip  *strip,
               GArray          *pieces)
{
  const RodRegion *rings = strips->rings;
  GeosPiece        piece = { 0 };

  for (guint ring = strip->first_ring; ring < strip->first_ring + strip->n_rings; ring++)
    {
      guint  start = rings->ring_starts[ring];
      guint  n_points = rings->ring_starts[ring + 1] - start;
      double area = rod_ring_area (rings->points + start, n_points);

      g_assert_true (ring == strip->first_ring ? area > 0.0 : area < 0.0);
      piece.area += area;
      if (ring == strip->first_ring)
        {
          const RodRegion outer = { rings->points + start, NULL, n_points, NULL, 1 };

          rod_region_extent (&outer, &piece.low, &piece.high);
        }
    }
  g_array_append_val (pieces, piece);
}

static gboolean
pieces_agree (const GeosPiece *own,
              const GeosPiece *other,
              gboolean         by_columns)
{
  double border = 2.0 * (own->high.x - own->low.x + own->high.y - own->low.y);
  double reach = REACH_TOLERANCE_MM;

  if (fabs (own->area - other->area) > ROUNDING_MM * border ||
      fabs (own->low.x - other->low.x) > reach || fabs (own->high.x - other->high.x) > reach)
    return FALSE;

  /* Where a column cuts a steep edge whose ends were rounded, a micrometre across is many along. */
  return by_columns || (fabs (own->low.y - other->low.y) <= reach &&
                        fabs (own->high.y - other->high.y) <= reach);
}

/* Each piece must have a partner of its own; one that is nearly a remnant may do without. */
static void
assert_pieces_agree (const GArray *own,
                     GArray       *other,
                     gboolean      by_columns)
{
  for (guint i = 0; i < own->len; i++)
    {
      const GeosPiece *piece = &g_array_index (own, GeosPiece, i);
      guint            partner = 0;

      while (partner < other->len &&
             !pieces_agree (piece, &g_array_index (other, GeosPiece, partner), by_columns))
        partner++;
      if (partner < other->len)
        g_array_remove_index_fast (other, partner);
      else
        g_assert_cmpint (geos_piece_is_board (piece), ==, 0);
    }
  for (guint i = 0; i < other->len; i++)
    g_assert_cmpint (geos_piece_is_board (&g_array_index (other, GeosPiece, i)), ==, 0);
}

static GEOSGeometry *
intersect_box (GEOSContextHandle_t geos,
               const GEOSGeometry *area,
               RodPoint            low,
               RodPoint            high)
{
  GEOSGeometry *box = geos_box (geos, low, high);
  GEOSGeometry *cut = GEOSIntersection_r (geos, area, box);

  GEOSGeom_destroy_r (geos, box);
  return cut;
}

/* Compares every course of @region; the strips of a course follow each other. */
static guint
compare_courses (const Fixture   *fixture,
                 const RodRegion *region,
                 double           phase,
                 double           pitch)
{
  g_autoptr (RodStrips) strips = rod_strips_cut (region, phase, pitch);
  GEOSGeometry *area = geos_from_region (fixture->geos, region);
  RodPoint      low, high;
  guint         next = 0;

  rod_region_extent (region, &low, &high);
  for (int course = (int) floor ((low.y - phase) / pitch) - 1; phase + course * pitch < high.y;
       course++)
    {
      RodPoint      from = { low.x - 1.0, round_to_grid (phase + course * pitch) };
      RodPoint      to = { high.x + 1.0, round_to_grid (phase + (course + 1) * pitch) };
      GEOSGeometry *cut = intersect_box (fixture->geos, area, from, to);
      g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (GeosPiece));
      g_autoptr (GArray) other = g_array_new (FALSE, FALSE, sizeof (GeosPiece));

      for (; next < strips->n_strips && strips->strips[next].course == course; next++)
        add_own_piece (strips, &strips->strips[next], own);
      geos_list_pieces (fixture->geos, cut, other);
      assert_pieces_agree (own, other, FALSE);
      GEOSGeom_destroy_r (fixture->geos, cut);
    }
  g_assert_cmpuint (next, ==, strips->n_strips);
  GEOSGeom_destroy_r (fixture->geos, area);
  return strips->n_strips;
}

static RodRegion *
draw_region (const Fixture *fixture,
             DrawnKind      kind)
{
  g_autoptr (DrawnSurface) surface = draw_random_surface (fixture->random, kind, 0.0);

  return rod_region_normalise (surface->path, 1);
}

static double
random_length (const Fixture *fixture,
               double         least,
               double         greatest)
{
  return round_to_grid (g_rand_double_range (fixture->random, least, greatest));
}

/* Lines where they fall. */
static void
test_strips_any_angle (Fixture      *fixture,
                       gconstpointer kind)
{
  guint n_strips = 0;

  for (guint i = 0; i < count_surfaces (); i++)
    {
      g_autoptr (RodRegion) region = draw_region (fixture, GPOINTER_TO_INT (kind));
      g_autoptr (RodRegion) turned = NULL;
      double pitch = random_length (fixture, 90.0, 400.0);
      guint  attempt = 0;
      double phase;

      turned = turn_region (region, g_rand_double_range (fixture->random, -180.0, 180.0));
      do
        phase = random_length (fixture, -500.0, 500.0);
      while (!phase_is_clear (turned, phase, pitch) && attempt++ < ATTEMPTS);
      if (attempt <= ATTEMPTS && turned->n_rings > 0)
        n_strips += compare_courses (fixture, turned, phase, pitch);
    }
  g_test_message ("%u strips", n_strips);
  g_assert_cmpuint (n_strips, >, 10 * count_surfaces ());
}

/* Lines through corners and along edges: surfaces and lines on one raster. */
static void
test_strips_degenerate (Fixture      *fixture,
                        gconstpointer unused)
{
  guint n_strips = 0;

  for (guint i = 0; i < count_surfaces (); i++)
    {
      g_autoptr (RodRegion) region = draw_region (fixture, DRAWN_DEGENERATE);
      g_autoptr (RodRegion) turned = NULL;
      double pitch = 100.0 * g_rand_int_range (fixture->random, 1, 4);

      turned = turn_region (region, 90.0 * g_rand_int_range (fixture->random, 0, 4));
      if (turned->n_rings > 0 && phase_is_clear (turned, 0.0, pitch))
        n_strips += compare_courses (fixture, turned, 0.0, pitch);
    }
  g_test_message ("%u strips", n_strips);
  g_assert_cmpuint (n_strips, >, 5 * count_surfaces ());
}

/* Cuts the polygons of @strips once more between columns. */
static void
list_geos_parts (const Fixture      *fixture,
                 const GEOSGeometry *strips,
                 RodPoint            from,
                 RodPoint            to,
                 GArray             *parts)
{
  int n_strips = GEOSGetNumGeometries_r (fixture->geos, strips);

  for (int i = 0; i < n_strips; i++)
    {
      const GEOSGeometry *strip = GEOSGetGeometryN_r (fixture->geos, strips, i);
      g_autoptr (GArray) itself = g_array_new (FALSE, FALSE, sizeof (GeosPiece));
      GEOSGeometry *cut;

      geos_list_pieces (fixture->geos, strip, itself);
      if (itself->len == 0)
        continue;
      cut = intersect_box (fixture->geos, strip, from, to);
      geos_list_pieces (fixture->geos, cut, parts);
      GEOSGeom_destroy_r (fixture->geos, cut);
    }
}

#define N_COLUMNS 5

static gboolean
columns_are_clear (const RodStrips *strips,
                   const double    *columns)
{
  for (guint i = 0; i < strips->rings->n_points; i++)
    for (guint column = 0; column < N_COLUMNS; column++)
      if (!line_is_clear (columns[column], strips->rings->points[i].x))
        return FALSE;
  return TRUE;
}

static gboolean
choose_columns (const Fixture   *fixture,
                const RodStrips *strips,
                RodPoint         low,
                RodPoint         high,
                gboolean         on_raster,
                double          *columns)
{
  for (guint attempt = 0; attempt < ATTEMPTS; attempt++)
    {
      double step = (high.x - low.x) / (N_COLUMNS + 1);

      for (guint i = 0; i < N_COLUMNS; i++)
        {
          columns[i] = random_length (fixture, low.x + (i + 0.6) * step, low.x + (i + 1.4) * step);
          if (on_raster)
            columns[i] = round (columns[i] / 100.0) * 100.0;
        }
      if (columns_are_clear (strips, columns))
        return TRUE;
    }
  return FALSE;
}

/* Returns how many parts there are. */
static guint
compare_parts (const Fixture   *fixture,
               const RodRegion *region,
               double           phase,
               double           pitch,
               gboolean         on_raster)
{
  g_autoptr (RodStrips) strips = rod_strips_cut (region, phase, pitch);
  g_autoptr (RodStrips) parts = NULL;
  GEOSGeometry *area;
  RodPoint      low, high;
  double        columns[N_COLUMNS];
  guint         next = 0;

  rod_region_extent (region, &low, &high);
  if (!choose_columns (fixture, strips, low, high, on_raster, columns))
    return 0;

  parts = rod_strips_split (strips, columns, N_COLUMNS);
  area = geos_from_region (fixture->geos, region);
  while (next < parts->n_strips)
    {
      int course = parts->strips[next].course;
      g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (GeosPiece));
      g_autoptr (GArray) other = g_array_new (FALSE, FALSE, sizeof (GeosPiece));
      RodPoint      from = { low.x - 1.0, round_to_grid (phase + course * pitch) };
      RodPoint      to = { high.x + 1.0, round_to_grid (phase + (course + 1) * pitch) };
      GEOSGeometry *cut = intersect_box (fixture->geos, area, from, to);

      for (; next < parts->n_strips && parts->strips[next].course == course; next++)
        add_own_piece (parts, &parts->strips[next], own);
      for (guint column = 0; column <= N_COLUMNS; column++)
        {
          from.x = column > 0 ? columns[column - 1] : low.x - 1.0;
          to.x = column < N_COLUMNS ? columns[column] : high.x + 1.0;
          if (from.x < to.x)
            list_geos_parts (fixture, cut, from, to, other);
        }
      assert_pieces_agree (own, other, TRUE);
      GEOSGeom_destroy_r (fixture->geos, cut);
    }
  GEOSGeom_destroy_r (fixture->geos, area);
  return parts->n_strips;
}

static void
test_parts (Fixture      *fixture,
            gconstpointer kind)
{
  gboolean on_raster = GPOINTER_TO_INT (kind) == DRAWN_DEGENERATE;
  guint    n_parts = 0;

  for (guint i = 0; i < count_surfaces () / 2; i++)
    {
      g_autoptr (RodRegion) region = draw_region (fixture, GPOINTER_TO_INT (kind));
      g_autoptr (RodRegion) turned = NULL;
      double pitch = on_raster ? 200.0 : random_length (fixture, 90.0, 400.0);
      double phase = on_raster ? 0.0 : random_length (fixture, -500.0, 500.0);

      turned = turn_region (region,
                            on_raster ? 90.0 * g_rand_int_range (fixture->random,
                                                                 0,
                                                                 4)
                                      : g_rand_double_range (fixture->random, 0.0, 360.0));
      if (turned->n_rings > 0 && phase_is_clear (turned, phase, pitch))
        n_parts += compare_parts (fixture, turned, phase, pitch, on_raster);
    }
  g_test_message ("%u parts", n_parts);
  g_assert_cmpuint (n_parts, >, 5 * count_surfaces ());
}

/* Outline less openings, both ways: they may differ by the snap along their borders. */
static void
test_normalise (Fixture      *fixture,
                gconstpointer kind)
{
  for (guint i = 0; i < count_surfaces (); i++)
    {
      g_autoptr (DrawnSurface) surface = NULL;
      g_autoptr (RodRegion) region = NULL;
      GEOSGeometry *own, *other, *difference;
      double        length = 0.0;

      surface = draw_random_surface (fixture->random, GPOINTER_TO_INT (kind), 0.0);
      region = rod_region_normalise (surface->path, 1);
      own = geos_from_region (fixture->geos, region);
      other = geos_from_surface (fixture->geos, surface);
      difference = GEOSSymDifference_r (fixture->geos, own, other);
      GEOSLength_r (fixture->geos, other, &length);

      g_assert_cmpint (GEOSisValid_r (fixture->geos, own), ==, 1);
      g_assert_cmpfloat_with_epsilon (rod_region_area (region),
                                      geos_area (fixture->geos, own),
                                      ROUNDING_MM);
      g_assert_cmpfloat (geos_area (fixture->geos, difference), <=, ROD_SNAP_MM * length);

      GEOSGeom_destroy_r (fixture->geos, own);
      GEOSGeom_destroy_r (fixture->geos, other);
      GEOSGeom_destroy_r (fixture->geos, difference);
    }
}

/* Each strip is a valid polygon, and together they cover as much as they have area: none lies on
 * another. */
static void
assert_no_overlap (const Fixture   *fixture,
                   const RodStrips *strips)
{
  g_autofree GEOSGeometry **polygons = g_new (GEOSGeometry *, strips->n_strips);
  GEOSGeometry             *collection, *cover;
  double                    sum = 0.0;

  for (guint i = 0; i < strips->n_strips; i++)
    {
      polygons[i] = geos_from_rings (fixture->geos,
                                     strips->rings,
                                     strips->strips[i].first_ring,
                                     strips->strips[i].n_rings);
      g_assert_cmpint (GEOSisValid_r (fixture->geos, polygons[i]), ==, 1);
      sum += geos_area (fixture->geos, polygons[i]);
    }
  collection = GEOSGeom_createCollection_r (fixture->geos,
                                            GEOS_MULTIPOLYGON,
                                            polygons,
                                            strips->n_strips);
  cover = GEOSUnaryUnion_r (fixture->geos, collection);
  g_assert_cmpfloat_with_epsilon (geos_area (fixture->geos, cover), sum, 1e-6 * sum);
  GEOSGeom_destroy_r (fixture->geos, collection);
  GEOSGeom_destroy_r (fixture->geos, cover);
}

static void
test_no_overlap (Fixture      *fixture,
                 gconstpointer kind)
{
  for (guint i = 0; i < count_surfaces () / 4; i++)
    {
      g_autoptr (RodRegion) region = draw_region (fixture, GPOINTER_TO_INT (kind));
      g_autoptr (RodRegion) turned = NULL;
      g_autoptr (RodStrips) strips = NULL;
      g_autoptr (RodStrips) parts = NULL;
      const double columns[] = { -2000.0, 0.0, 1000.0, 2000.0, 3000.0, 5000.0 };
      gboolean     level = i % 2 == 0;

      turned = rod_region_transform (region, rod_affine_board_frame (level ? 0.0 : 10.0 * i));
      strips = rod_strips_cut (turned, 0.0, 200.0);
      parts = rod_strips_split (strips, columns, G_N_ELEMENTS (columns));
      assert_no_overlap (fixture, strips);
      assert_no_overlap (fixture, parts);
    }
}

static void
add_test (const char *path,
          DrawnKind   kind,
          void (*test) (Fixture *, gconstpointer))
{
  g_test_add (path, Fixture, GINT_TO_POINTER (kind), set_up, test, tear_down);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  add_test ("/geometry-oracle/normalise/any-angle", DRAWN_ANY_ANGLE, test_normalise);
  add_test ("/geometry-oracle/normalise/degenerate", DRAWN_DEGENERATE, test_normalise);
  add_test ("/geometry-oracle/strips/any-angle", DRAWN_ANY_ANGLE, test_strips_any_angle);
  add_test ("/geometry-oracle/strips/degenerate", DRAWN_DEGENERATE, test_strips_degenerate);
  add_test ("/geometry-oracle/strips/degenerate-turned", DRAWN_DEGENERATE, test_strips_any_angle);
  add_test ("/geometry-oracle/parts/any-angle", DRAWN_ANY_ANGLE, test_parts);
  add_test ("/geometry-oracle/parts/degenerate", DRAWN_DEGENERATE, test_parts);
  add_test ("/geometry-oracle/no-overlap/any-angle", DRAWN_ANY_ANGLE, test_no_overlap);
  add_test ("/geometry-oracle/no-overlap/degenerate", DRAWN_DEGENERATE, test_no_overlap);
  return g_test_run ();
}
