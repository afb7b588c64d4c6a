/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From raw rings to a clean region: snap and node (rod-arrangement.c), find the winding number on
 * both sides of every edge (rod-winding.c), keep the edges between inside and outside, and link
 * them into simple rings (rod-links.c).
 *
 * Openings are subtracted this way rather than kept as holes of a polygon: a door that stands on
 * the base line, an opening that sticks out and two that overlap then need no special care. A ring
 * that an offset has turned inside out winds the wrong way and vanishes by itself. */

#include "engine/geometry/rod-geometry-private.h"

#define LEAST_CORNERS_OF_RING 3

/* Points that rounding alone put beside a straight line lie this close to it, in micrometres. */
#define ROUNDING_GRID 1.0

/* The edges between inside and outside, with the inside on their left. */
static RodDirectedEdge *
select_border (const RodArrangement *arrangement,
               int                   threshold,
               guint                *n_border)
{
  g_autofree int  *above = rod_arrangement_windings (arrangement);
  RodDirectedEdge *border = g_new (RodDirectedEdge, arrangement->n_edges);
  guint            n = 0;

  for (guint i = 0; i < arrangement->n_edges; i++)
    {
      const RodArrangedEdge *edge = &arrangement->edges[i];
      gboolean               inside_above = above[i] >= threshold;
      gboolean               inside_below = above[i] - edge->delta >= threshold;

      if (inside_above && !inside_below)
        border[n++] = (RodDirectedEdge){ edge->a, edge->b, edge->tag_along };
      else if (inside_below && !inside_above)
        border[n++] = (RodDirectedEdge){ edge->b, edge->a, edge->tag_against };
    }
  *n_border = n;
  return border;
}

static gboolean
is_straight (RodGridPoint before,
             RodGridPoint at,
             RodGridPoint after)
{
  double across = (double) rod_grid_cross (before, after, at);
  double length_squared = rod_grid_distance_squared (before, after);

  return across * across <= ROUNDING_GRID * ROUNDING_GRID * length_squared &&
         rod_grid_distance_squared (before, at) < length_squared &&
         rod_grid_distance_squared (at, after) < length_squared;
}

/* Removes corners that lie straight between two edges of one tag, save those whose id @shared
 * marks. Returns how many are left. */
guint
rod_grid_ring_straighten (RodGridCorner *corners,
                          guint         *ids,
                          guint          n_corners,
                          const guint8  *shared)
{
  guint         kept = 0;
  RodGridCorner before = corners[n_corners - 1];

  for (guint i = 0; i < n_corners; i++)
    {
      RodGridPoint after = corners[(i + 1) % n_corners].at;

      if (corners[i].tag == before.tag && !shared[ids[i]] &&
          is_straight (before.at, corners[i].at, after))
        continue;
      before = corners[i];
      ids[kept] = ids[i];
      corners[kept++] = corners[i];
    }
  return kept;
}

static void
add_loop (const RodGridCorner *corners,
          guint                n_corners,
          gpointer             builder)
{
  if (n_corners >= LEAST_CORNERS_OF_RING)
    rod_region_builder_add_ring (builder, corners, n_corners);
}

/* Follows one border round from @start and forgets its links. Returns how many edges it has. */
static guint
follow_border (const RodArrangement  *arrangement,
               const RodDirectedEdge *border,
               guint                 *next,
               guint                  start,
               RodGridCorner         *corners,
               guint                 *ids)
{
  guint n_corners = 0;
  guint edge = start;

  do
    {
      guint following = next[edge];

      ids[n_corners] = border[edge].from;
      corners[n_corners].at = arrangement->vertices.points[border[edge].from];
      corners[n_corners++].tag = border[edge].tag;
      next[edge] = ROD_NO_INDEX;
      edge = following;
    }
  while (edge != start);
  return n_corners;
}

/* Marks the vertices through which a border passes more than once. */
static guint8 *
mark_shared (const RodDirectedEdge *border,
             guint                  n_border,
             guint                  n_vertices)
{
  guint8            *shared = g_new0 (guint8, n_vertices);
  g_autofree guint8 *passed = g_new0 (guint8, n_vertices);

  for (guint i = 0; i < n_border; i++)
    {
      shared[border[i].from] = passed[border[i].from];
      passed[border[i].from] = TRUE;
    }
  return shared;
}

static RodRegion *
build_region (const RodArrangement  *arrangement,
              const RodDirectedEdge *border,
              guint                  n_border)
{
  guint                     n_vertices = arrangement->vertices.n_points;
  g_autofree guint8        *shared = mark_shared (border, n_border, n_vertices);
  g_autofree guint         *next = g_new (guint, n_border);
  g_autofree RodGridCorner *corners = g_new (RodGridCorner, n_border);
  g_autofree guint         *ids = g_new (guint, n_border);
  g_autofree guint         *place = g_new0 (guint, n_vertices);
  RodRegionBuilder          builder;

  rod_edges_link (border, n_border, arrangement->vertices.points, n_vertices, next);
  rod_region_builder_init (&builder, n_border);
  for (guint start = 0; start < n_border; start++)
    {
      guint n_corners;

      if (next[start] == ROD_NO_INDEX)
        continue;
      n_corners = follow_border (arrangement, border, next, start, corners, ids);
      n_corners = rod_grid_ring_straighten (corners, ids, n_corners, shared);
      rod_ring_split_loops (corners, ids, n_corners, place, add_loop, &builder);
    }
  return rod_region_builder_finish (&builder);
}

RodRegion *
rod_region_normalise (const RodPath *path,
                      int            threshold)
{
  RodArrangement              arrangement;
  g_autofree RodDirectedEdge *border = NULL;
  guint                       n_border;
  RodRegion                  *region;

  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (threshold >= 1, NULL);

  region = threshold == 1 ? rod_path_plain_region (path) : NULL;
  if (region != NULL)
    return region;
  rod_arrangement_init (&arrangement, path);
  rod_arrangement_node (&arrangement);
  border = select_border (&arrangement, threshold, &n_border);
  region = build_region (&arrangement, border, n_border);
  rod_arrangement_clear (&arrangement);
  return region;
}
