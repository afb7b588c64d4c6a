/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-path.h"

G_BEGIN_DECLS

/**
 * RodRegion:
 * @points: corners of all rings, ring after ring, not repeated at the end
 * @tags: @tags[i] belongs to the edge that leaves @points[i]
 * @n_points: how many corners there are in all
 * @ring_starts: @n_rings + 1 indices; ring r is points [ring_starts[r], ring_starts[r + 1])
 * @n_rings: how many rings there are
 *
 * A plane area bounded by simple rings that do not cross. The area lies to the left of every edge:
 * outer rings run counter-clockwise, holes clockwise. Immutable once made, and reference-counted.
 */
typedef struct
{
  RodPoint *points;
  int      *tags;
  guint     n_points;
  guint    *ring_starts;
  guint     n_rings;
} RodRegion;

/**
 * rod_region_normalise:
 * @path: closed rings
 * @threshold: least winding number that counts as inside, ≥ 1
 *
 * Makes a clean region of the points whose winding number is at least @threshold. With an outline
 * counter-clockwise and openings clockwise, 1 gives the outline less its openings; with a zone
 * added counter-clockwise, 2 gives the zone's part of it.
 *
 * Follows the snap rule: coordinates to 1 µm, corners within ROD_SNAP_MM of each other merged,
 * edges led through corners within ROD_SNAP_MM of them, edges that cancel removed, collinear
 * corners between edges of the same tag removed. Self-touching rings are split at the touching
 * point. Where edges coincide, the tag is that of the one that bounds the result; of several, the
 * smallest. Coordinates beyond one and a half times ROD_MAX_COORDINATE_MM are brought back to that.
 * The area of the result is the exact area of the input within ROD_SNAP_MM times its perimeter.
 * O(n log n) for n edges in ordinary drawings.
 *
 * Returns: (transfer full): a region, empty (no rings) where nothing is inside
 */
RodRegion *rod_region_normalise (const RodPath *path,
                                 int            threshold) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_region_new_empty:
 *
 * Returns: (transfer full): a region with no rings
 */
RodRegion *rod_region_new_empty (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_region_ref:
 * @region: a region
 *
 * Returns: (transfer full): @region
 */
RodRegion *rod_region_ref (RodRegion *region);

/**
 * rod_region_unref:
 * @region: (transfer full) (nullable): a region
 */
void rod_region_unref (RodRegion *region);

/**
 * rod_region_transform:
 * @region: a region
 * @map: a map with positive determinant
 *
 * Returns: (transfer full): the region moved by @map; tags are kept
 */
RodRegion *rod_region_transform (const RodRegion *region,
                                 RodAffine        map) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_region_area:
 * @region: a region
 *
 * The sum of the rings' signed areas by the shoelace formula, taken about the region's first
 * corner so that distance from the origin costs no digits.
 *
 * Returns: square millimetres
 */
double rod_region_area (const RodRegion *region);

/**
 * rod_ring_area:
 * @points: corners of one ring
 * @n_points: how many
 *
 * Returns: signed area in mm², positive when counter-clockwise
 */
double rod_ring_area (const RodPoint *points,
                      guint           n_points);

/**
 * rod_region_contains:
 * @region: a region
 * @point: a point
 *
 * Returns: %TRUE when the point lies inside; on the border either answer may come
 */
gboolean rod_region_contains (const RodRegion *region,
                              RodPoint         point);

/**
 * rod_region_extent:
 * @region: a region with at least one ring
 * @low: (out): least x and least y
 * @high: (out): greatest x and greatest y
 */
void rod_region_extent (const RodRegion *region,
                        RodPoint        *low,
                        RodPoint        *high);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodRegion, rod_region_unref)

G_END_DECLS
