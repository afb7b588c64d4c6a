/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A straight line through a region, for battens and joint trims. Corners on the line are counted as
 * lying to its left, so that every crossing is entered and left exactly once. */

#include "engine/geometry/rod-clip.h"

#include "engine/geometry/rod-geometry-private.h"

/* A line through a wall seldom meets more edges. */
#define ROOM 8

typedef struct
{
  double at;
  int    tag;
} LineCrossing;

static gint
compare_crossings (gconstpointer a,
                   gconstpointer b)
{
  const LineCrossing *one = a;
  const LineCrossing *other = b;

  return (one->at > other->at) - (one->at < other->at);
}

static double
side_of (RodPoint origin,
         RodPoint direction,
         RodPoint point)
{
  double side = direction.x * (point.y - origin.y) - direction.y * (point.x - origin.x);

  return fabs (side) < ROD_EPSILON_MM ? ROD_EPSILON_MM : side;
}

static void
cross_edge (GArray  *crossings,
            RodPoint origin,
            RodPoint direction,
            RodPoint a,
            RodPoint b,
            int      tag)
{
  double       side_a = side_of (origin, direction, a);
  double       side_b = side_of (origin, direction, b);
  LineCrossing crossing = { .tag = tag };
  double       t;

  if ((side_a > 0.0) == (side_b > 0.0))
    return;
  t = side_a / (side_a - side_b);
  crossing.at = direction.x * (a.x + t * (b.x - a.x) - origin.x) +
                direction.y * (a.y + t * (b.y - a.y) - origin.y);
  g_array_append_val (crossings, crossing);
}

GArray *
rod_region_clip_line (const RodRegion *region,
                      RodPoint         origin,
                      RodPoint         direction)
{
  g_autoptr (GArray) crossings = g_array_sized_new (FALSE, FALSE, sizeof (LineCrossing), ROOM);
  GArray *spans = g_array_sized_new (FALSE, FALSE, sizeof (RodSpan), ROOM);

  g_return_val_if_fail (region != NULL, spans);

  for (guint r = 0; r < region->n_rings; r++)
    for (guint p = region->ring_starts[r]; p < region->ring_starts[r + 1]; p++)
      {
        guint next = p + 1 < region->ring_starts[r + 1] ? p + 1 : region->ring_starts[r];

        cross_edge (
          crossings, origin, direction, region->points[p], region->points[next], region->tags[p]);
      }
  g_array_sort (crossings, compare_crossings);
  for (guint i = 0; i + 1 < crossings->len; i += 2)
    {
      const LineCrossing *from = &g_array_index (crossings, LineCrossing, i);
      const LineCrossing *to = &g_array_index (crossings, LineCrossing, i + 1);
      RodSpan             span = { from->at, to->at, from->tag, to->tag };

      if (span.to - span.from > ROD_REMNANT_MM)
        g_array_append_val (spans, span);
    }
  return spans;
}
