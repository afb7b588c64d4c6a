/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Regions: storage and the simple questions about them. How one is made clean: rod-normalise.c. */

#include "engine/geometry/rod-geometry-private.h"

RodRegion *
rod_region_new_empty (void)
{
  RodRegion *region = g_atomic_rc_box_new0 (RodRegion);

  region->ring_starts = g_new0 (guint, 1);
  return region;
}

RodRegion *
rod_region_ref (RodRegion *region)
{
  g_return_val_if_fail (region != NULL, NULL);

  return g_atomic_rc_box_acquire (region);
}

static void
clear_region (gpointer data)
{
  RodRegion *region = data;

  g_free (region->points);
  g_free (region->tags);
  g_free (region->ring_starts);
}

void
rod_region_unref (RodRegion *region)
{
  if (region != NULL)
    g_atomic_rc_box_release_full (region, clear_region);
}

RodRegion *
rod_region_transform (const RodRegion *region,
                      RodAffine        map)
{
  RodRegion *moved;

  g_return_val_if_fail (region != NULL, NULL);
  g_return_val_if_fail (map.xx * map.yy - map.xy * map.yx > 0.0, NULL);

  moved = g_atomic_rc_box_new0 (RodRegion);
  moved->n_points = region->n_points;
  moved->n_rings = region->n_rings;
  moved->points = g_new (RodPoint, region->n_points);
  moved->tags = g_memdup2 (region->tags, region->n_points * sizeof (int));
  moved->ring_starts = g_memdup2 (region->ring_starts, (region->n_rings + 1) * sizeof (guint));
  for (guint i = 0; i < region->n_points; i++)
    moved->points[i] = rod_affine_apply (map, region->points[i]);
  return moved;
}

/* About @origin, so that the terms stay as small as the ring is. */
static double
sum_ring_area (const RodPoint *points,
               guint           n_points,
               RodPoint        origin)
{
  double twice = 0.0;

  for (guint i = 0, previous = n_points - 1; i < n_points; previous = i++)
    twice += (points[previous].x - origin.x) * (points[i].y - origin.y) -
             (points[i].x - origin.x) * (points[previous].y - origin.y);
  return twice / 2.0;
}

double
rod_ring_area (const RodPoint *points,
               guint           n_points)
{
  if (n_points == 0)
    return 0.0;

  g_return_val_if_fail (points != NULL, 0.0);

  return sum_ring_area (points, n_points, points[0]);
}

double
rod_region_area (const RodRegion *region)
{
  double area = 0.0;

  g_return_val_if_fail (region != NULL, 0.0);

  for (guint ring = 0; ring < region->n_rings; ring++)
    {
      guint start = region->ring_starts[ring];
      guint n_points = region->ring_starts[ring + 1] - start;

      area += sum_ring_area (region->points + start, n_points, region->points[0]);
    }
  return area;
}

/* Whether the edge a → b passes a ray that runs from @point to the right. Half-open in y, so that
 * a corner at the ray's height counts once. */
static gboolean
crosses_ray (RodPoint a,
             RodPoint b,
             RodPoint point)
{
  double x;

  if ((a.y > point.y) == (b.y > point.y))
    return FALSE;

  x = a.x + (point.y - a.y) * (b.x - a.x) / (b.y - a.y);
  return x > point.x;
}

gboolean
rod_region_contains (const RodRegion *region,
                     RodPoint         point)
{
  gboolean inside = FALSE;

  g_return_val_if_fail (region != NULL, FALSE);

  for (guint ring = 0; ring < region->n_rings; ring++)
    {
      guint start = region->ring_starts[ring];
      guint end = region->ring_starts[ring + 1];

      for (guint i = start, previous = end - 1; i < end; previous = i++)
        if (crosses_ray (region->points[previous], region->points[i], point))
          inside = !inside;
    }
  return inside;
}

void
rod_region_extent (const RodRegion *region,
                   RodPoint        *low,
                   RodPoint        *high)
{
  g_return_if_fail (region != NULL && region->n_points > 0);
  g_return_if_fail (low != NULL && high != NULL);

  *low = *high = region->points[0];
  for (guint i = 1; i < region->n_points; i++)
    {
      RodPoint point = region->points[i];

      low->x = MIN (low->x, point.x);
      low->y = MIN (low->y, point.y);
      high->x = MAX (high->x, point.x);
      high->y = MAX (high->y, point.y);
    }
}

void
rod_region_builder_init (RodRegionBuilder *builder,
                         guint             points_room)
{
  builder->region = rod_region_new_empty ();
  builder->points_room = points_room;
  builder->rings_room = 0;
  builder->region->points = g_new (RodPoint, points_room);
  builder->region->tags = g_new (int, points_room);
}

/* Makes room for a ring of @n_corners and hands out where its corners and tags go. */
RodPoint *
rod_region_builder_reserve (RodRegionBuilder *builder,
                            guint             n_corners,
                            int             **tags)
{
  RodRegion *region = builder->region;
  guint      start = region->n_points;

  if (start + n_corners > builder->points_room)
    {
      builder->points_room = 2 * (start + n_corners);
      region->points = g_renew (RodPoint, region->points, builder->points_room);
      region->tags = g_renew (int, region->tags, builder->points_room);
    }
  *tags = region->tags + start;
  return region->points + start;
}

/* Keeps the ring that was written where rod_region_builder_reserve() said. Returns its index. */
guint
rod_region_builder_commit (RodRegionBuilder *builder,
                           guint             n_corners)
{
  RodRegion *region = builder->region;
  guint      ring = region->n_rings++;

  if (ring == builder->rings_room)
    {
      builder->rings_room = 2 * ring + 64;
      region->ring_starts = g_renew (guint, region->ring_starts, builder->rings_room + 1);
    }
  region->n_points += n_corners;
  region->ring_starts[ring + 1] = region->n_points;
  return ring;
}

void
rod_region_builder_add_ring (RodRegionBuilder    *builder,
                             const RodGridCorner *corners,
                             guint                n_corners)
{
  int      *tags;
  RodPoint *points = rod_region_builder_reserve (builder, n_corners, &tags);

  for (guint i = 0; i < n_corners; i++)
    {
      points[i].x = rod_grid_to_mm (corners[i].at.x);
      points[i].y = rod_grid_to_mm (corners[i].at.y);
      tags[i] = corners[i].tag;
    }
  rod_region_builder_commit (builder, n_corners);
}

RodRegion *
rod_region_builder_finish (RodRegionBuilder *builder)
{
  return g_steal_pointer (&builder->region);
}
