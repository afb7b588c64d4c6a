/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawn-surface.h"

#include <geos_c.h>

/* The same questions put to GEOS, an independent geometry library. */

G_BEGIN_DECLS

/**
 * geos_start:
 *
 * Returns: (transfer full): a context that stops the program with GEOS's own words on an error
 */
GEOSContextHandle_t geos_start (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * geos_from_region:
 * @geos: a context
 * @region: a region
 *
 * Returns: (transfer full): its polygons; GEOS itself sorts out which ring is a hole of which
 */
GEOSGeometry *geos_from_region (GEOSContextHandle_t geos,
                                const RodRegion    *region) G_GNUC_WARN_UNUSED_RESULT;

/**
 * geos_from_rings:
 * @geos: a context
 * @rings: rings
 * @first: the outer ring
 * @n_rings: it and its holes
 *
 * Returns: (transfer full): one polygon
 */
GEOSGeometry *geos_from_rings (GEOSContextHandle_t geos,
                               const RodRegion    *rings,
                               guint               first,
                               guint               n_rings) G_GNUC_WARN_UNUSED_RESULT;

/**
 * geos_from_surface:
 * @geos: a context
 * @surface: a surface as drawn
 *
 * Returns: (transfer full): the outline less the union of the openings
 */
GEOSGeometry *geos_from_surface (GEOSContextHandle_t geos,
                                 const DrawnSurface *surface) G_GNUC_WARN_UNUSED_RESULT;

/**
 * geos_box:
 * @geos: a context
 * @low: least x and y
 * @high: greatest x and y
 *
 * Returns: (transfer full): a rectangle
 */
GEOSGeometry *geos_box (GEOSContextHandle_t geos,
                        RodPoint            low,
                        RodPoint            high) G_GNUC_WARN_UNUSED_RESULT;

/**
 * GeosPiece:
 * @area: mm²
 * @low: least x and y
 * @high: greatest x and y
 */
typedef struct
{
  double   area;
  RodPoint low;
  RodPoint high;
} GeosPiece;

/**
 * geos_list_pieces:
 * @geos: a context
 * @geometry: what came of a cut
 * @pieces: (element-type GeosPiece): where to add its polygons, clear remnants left out
 */
void geos_list_pieces (GEOSContextHandle_t geos,
                       const GEOSGeometry *geometry,
                       GArray             *pieces);

/**
 * geos_area:
 * @geos: a context
 * @geometry: a geometry
 *
 * Returns: its area in mm²
 */
double geos_area (GEOSContextHandle_t geos,
                  const GEOSGeometry *geometry);

/**
 * geos_piece_is_board:
 * @piece: a piece
 *
 * rod_strips_cut() drops remnants. A piece that is within rounding of being one may be dropped on
 * one side and kept on the other.
 *
 * Returns: 1 for a board, -1 for a remnant, 0 for a piece that may be either
 */
int geos_piece_is_board (const GeosPiece *piece);

G_END_DECLS
