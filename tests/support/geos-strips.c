/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The oracle: strips by cutting with rectangles, one at a time, in GEOS. */

#include "geos-strips.h"

#include "engine/rod-limits.h"

/* Coordinates are whole micrometres. */
#define ROUNDING_MM 0.001

static void
stop_on_error (const char *message,
               void       *unused)
{
  g_error ("GEOS: %s", message);
}

GEOSContextHandle_t
geos_start (void)
{
  GEOSContextHandle_t geos = GEOS_init_r ();

  GEOSContext_setErrorMessageHandler_r (geos, stop_on_error, NULL);
  return geos;
}

static GEOSGeometry *
make_ring (GEOSContextHandle_t geos,
           const RodPoint     *points,
           guint               n_points)
{
  GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (geos, n_points + 1, 2);

  for (guint i = 0; i <= n_points; i++)
    GEOSCoordSeq_setXY_r (geos, sequence, i, points[i % n_points].x, points[i % n_points].y);
  return GEOSGeom_createLinearRing_r (geos, sequence);
}

static GEOSGeometry *
ring_of_region (GEOSContextHandle_t geos,
                const RodRegion    *region,
                guint               ring)
{
  guint start = region->ring_starts[ring];

  return make_ring (geos, region->points + start, region->ring_starts[ring + 1] - start);
}

/* What an odd number of rings goes round. GEOSBuildArea() would be shorter, but takes an island
 * that touches the hole it stands in with three corners for another hole. */
GEOSGeometry *
geos_from_region (GEOSContextHandle_t geos,
                  const RodRegion    *region)
{
  GEOSGeometry *area = GEOSGeom_createEmptyPolygon_r (geos);

  for (guint i = 0; i < region->n_rings; i++)
    {
      GEOSGeometry *ring, *combined;

      ring = GEOSGeom_createPolygon_r (geos, ring_of_region (geos, region, i), NULL, 0);
      combined = GEOSSymDifference_r (geos, area, ring);
      GEOSGeom_destroy_r (geos, ring);
      GEOSGeom_destroy_r (geos, area);
      area = combined;
    }
  return area;
}

GEOSGeometry *
geos_from_rings (GEOSContextHandle_t geos,
                 const RodRegion    *rings,
                 guint               first,
                 guint               n_rings)
{
  g_autofree GEOSGeometry **holes = g_new (GEOSGeometry *, n_rings);

  for (guint i = 1; i < n_rings; i++)
    holes[i - 1] = ring_of_region (geos, rings, first + i);
  return GEOSGeom_createPolygon_r (geos, ring_of_region (geos, rings, first), holes, n_rings - 1);
}

static GEOSGeometry *
subtract (GEOSContextHandle_t geos,
          GEOSGeometry       *from,
          GEOSGeometry       *opening)
{
  GEOSGeometry *rest = GEOSDifference_r (geos, from, opening);

  GEOSGeom_destroy_r (geos, from);
  GEOSGeom_destroy_r (geos, opening);
  return rest;
}

GEOSGeometry *
geos_from_surface (GEOSContextHandle_t geos,
                   const DrawnSurface *surface)
{
  GEOSGeometry *area = NULL;

  for (guint i = 0; i < surface->rings->len; i++)
    {
      const DrawnRing *ring = g_ptr_array_index (surface->rings, i);
      GEOSGeometry    *polygon;

      polygon = GEOSGeom_createPolygon_r (geos,
                                          make_ring (geos, ring->points, ring->n_points),
                                          NULL,
                                          0);
      area = area == NULL ? polygon : subtract (geos, area, polygon);
    }
  return area;
}

GEOSGeometry *
geos_box (GEOSContextHandle_t geos,
          RodPoint            low,
          RodPoint            high)
{
  return GEOSGeom_createRectangle_r (geos, low.x, low.y, high.x, high.y);
}

double
geos_area (GEOSContextHandle_t geos,
           const GEOSGeometry *geometry)
{
  double area = 0.0;

  g_assert_cmpint (GEOSArea_r (geos, geometry, &area), ==, 1);
  return area;
}

int
geos_piece_is_board (const GeosPiece *piece)
{
  double excess = piece->area - ROD_REMNANT_MM * rod_point_distance (piece->low, piece->high);
  double border = 2.0 * (piece->high.x - piece->low.x + piece->high.y - piece->low.y);

  return (excess > ROUNDING_MM * border) - (excess < -ROUNDING_MM * border);
}

void
geos_list_pieces (GEOSContextHandle_t geos,
                  const GEOSGeometry *geometry,
                  GArray             *pieces)
{
  int n_parts = GEOSGetNumGeometries_r (geos, geometry);

  for (int i = 0; i < n_parts; i++)
    {
      const GEOSGeometry *part = GEOSGetGeometryN_r (geos, geometry, i);
      GeosPiece           piece;

      if (GEOSGeomTypeId_r (geos, part) != GEOS_POLYGON || GEOSisEmpty_r (geos, part) == 1)
        continue;
      piece.area = geos_area (geos, part);
      GEOSGeom_getXMin_r (geos, part, &piece.low.x);
      GEOSGeom_getYMin_r (geos, part, &piece.low.y);
      GEOSGeom_getXMax_r (geos, part, &piece.high.x);
      GEOSGeom_getYMax_r (geos, part, &piece.high.y);
      if (geos_piece_is_board (&piece) >= 0)
        g_array_append_val (pieces, piece);
    }
}
