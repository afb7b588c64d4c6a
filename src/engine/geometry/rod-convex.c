/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Most areas of a house are plain: one convex ring, a reveal or a wall without openings. Such a
 * ring is its own normal form once its corners are rounded, and noding it would only prove that. */

#include "engine/geometry/rod-geometry-private.h"

#define LEAST_CORNERS_OF_RING 3

/* Rings with more corners are rarely convex, and the check below is quadratic. */
#define MOST_CORNERS_OF_PLAIN_RING 12

/* Whether every corner turns left and the ring goes round once: x then turns back just twice. */
static gboolean
is_convex (const RodGridCorner *corners,
           guint                n)
{
  guint turns = 0;

  for (guint i = 0; i < n; i++)
    {
      RodGridPoint a = corners[i].at, b = corners[(i + 1) % n].at, c = corners[(i + 2) % n].at;

      if (rod_grid_turn (a, b, c) <= 0)
        return FALSE;
      turns += (b.x > a.x) != (c.x > b.x);
    }
  return turns == 2;
}

/* Whether no corner comes near a side it does not belong to, so that nothing is there to snap. */
static gboolean
is_roomy (const RodGridCorner *corners,
          guint                n)
{
  const double least = 2.0 * ROD_SNAP_GRID;

  for (guint i = 0; i < n; i++)
    {
      RodGridPoint a = corners[i].at, b = corners[(i + 1) % n].at;
      double       length = sqrt (rod_grid_distance_squared (a, b));

      if (length < least)
        return FALSE;
      for (guint k = 2; k < n; k++)
        if ((double) rod_grid_cross (a, b, corners[(i + k) % n].at) < least * length)
          return FALSE;
    }
  return TRUE;
}

/* The ring starts where the sweep meets it first, wherever the path began. */
static guint
first_corner (const RodGridCorner *corners,
              guint                n)
{
  guint first = 0;

  for (guint i = 1; i < n; i++)
    if (rod_grid_point_before (corners[i].at, corners[first].at))
      first = i;
  return first;
}

RodRegion *
rod_path_plain_region (const RodPath *path)
{
  RodGridCorner    corners[2 * MOST_CORNERS_OF_PLAIN_RING];
  RodRegionBuilder builder;
  guint            n, first;

  if (path->ring_starts->len != 2)
    return NULL;
  n = g_array_index (path->ring_starts, guint, 1);
  if (n < LEAST_CORNERS_OF_RING || n > MOST_CORNERS_OF_PLAIN_RING)
    return NULL;
  for (guint i = 0; i < n; i++)
    {
      const RodPathCorner *corner = &g_array_index (path->corners, RodPathCorner, i);

      corners[i].at =
        (RodGridPoint){ rod_grid_from_mm (corner->at.x), rod_grid_from_mm (corner->at.y) };
      corners[i].tag = corner->tag;
    }
  if (!is_convex (corners, n) || !is_roomy (corners, n))
    return NULL;
  first = first_corner (corners, n);
  for (guint i = 0; i < first; i++)
    corners[n + i] = corners[i];
  rod_region_builder_init (&builder, n);
  rod_region_builder_add_ring (&builder, corners + first, n);
  return rod_region_builder_finish (&builder);
}
