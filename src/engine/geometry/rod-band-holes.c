/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Which holes belong to which pieces of a band. Only bands with a pipe or a vent wholly inside them
 * come here; the search is a plain one. */

#include "engine/geometry/rod-geometry-private.h"

/* A ring of the result. Its corners are whole micrometres, and so go back to them exactly. */
typedef struct
{
  const RodPoint *points;
  guint           n_points;
} Ring;

static Ring
get_ring (const RodRegion *rings,
          guint            ring)
{
  guint start = rings->ring_starts[ring];

  return (Ring){ rings->points + start, rings->ring_starts[ring + 1] - start };
}

static RodGridPoint
get_corner (const Ring *ring,
            guint       corner)
{
  return (RodGridPoint){ rod_grid_from_mm (ring->points[corner].x),
                         rod_grid_from_mm (ring->points[corner].y) };
}

/* 1 inside a ring, 0 on it, -1 outside. */
static int
locate_in_ring (const Ring  *ring,
                RodGridPoint point)
{
  int side = -1;

  for (guint i = 0, previous = ring->n_points - 1; i < ring->n_points; previous = i++)
    {
      RodGridPoint a = get_corner (ring, previous);
      RodGridPoint b = get_corner (ring, i);
      int          turn;

      if (point.y < MIN (a.y, b.y) || point.y > MAX (a.y, b.y))
        continue;
      turn = rod_grid_turn (a, b, point);
      if (turn == 0 && point.x >= MIN (a.x, b.x) && point.x <= MAX (a.x, b.x))
        return 0;
      if ((a.y > point.y) != (b.y > point.y) && (turn > 0) == (b.y > a.y))
        side = -side;
    }
  return side;
}

/* A hole may touch its piece; a corner that does says nothing. */
static gboolean
lies_in (const RodRegion *rings,
         const RodLoop   *hole,
         const RodLoop   *piece)
{
  Ring hole_ring = get_ring (rings, hole->ring);
  Ring piece_ring = get_ring (rings, piece->ring);

  if (hole->low.x < piece->low.x || hole->low.y < piece->low.y ||
      hole->high.x > piece->high.x || hole->high.y > piece->high.y)
    return FALSE;

  for (guint i = 0; i < hole_ring.n_points; i++)
    {
      int side = locate_in_ring (&piece_ring, get_corner (&hole_ring, i));

      if (side != 0)
        return side > 0;
    }
  return FALSE;
}

/* Gives each hole to the least piece around it: a piece may itself stand in a hole of another. */
static void
place_holes (RodLoop         *loops,
             guint            n_loops,
             const RodRegion *rings)
{
  for (guint hole = 0; hole < n_loops; hole++)
    {
      double least = G_MAXDOUBLE;

      if (loops[hole].area > 0.0)
        continue;
      for (guint i = 0; i < n_loops; i++)
        if (loops[i].area > 0.0 && loops[i].area < least &&
            lies_in (rings, &loops[hole], &loops[i]))
          {
            least = loops[i].area;
            loops[hole].piece = i;
          }
    }
}

static void
add_ring (RodRegionBuilder *builder,
          const RodRegion  *from,
          guint             ring)
{
  guint     start = from->ring_starts[ring];
  guint     n_points = from->ring_starts[ring + 1] - start;
  int      *tags;
  RodPoint *points = rod_region_builder_reserve (builder, n_points, &tags);

  memcpy (points, from->points + start, n_points * sizeof (RodPoint));
  memcpy (tags, from->tags + start, n_points * sizeof (int));
  rod_region_builder_commit (builder, n_points);
}

/* The rings from @first on, by themselves. */
static RodRegion *
copy_rings (const RodRegion *rings,
            guint            first)
{
  RodRegionBuilder builder;

  rod_region_builder_init (&builder, rings->n_points - rings->ring_starts[first]);
  for (guint ring = first; ring < rings->n_rings; ring++)
    add_ring (&builder, rings, ring);
  return rod_region_builder_finish (&builder);
}

/* Adds the strips of a band whose rings are in @builder from @first_ring on, in any order, and
 * brings the rings in the order of the strips, each with its holes behind it. */
void
rod_loops_add_strips (RodLoop          *loops,
                      guint             n_loops,
                      guint             first_ring,
                      int               course,
                      RodStripsBuilder *builder)
{
  RodRegion *rings = builder->rings.region;
  g_autoptr (RodRegion) unordered = copy_rings (rings, first_ring);

  place_holes (loops, n_loops, rings);
  rings->n_rings = first_ring;
  rings->n_points = rings->ring_starts[first_ring];
  for (guint i = 0; i < n_loops; i++)
    {
      RodStrip strip = { course, rings->n_rings, 1 };

      if (loops[i].area < 0.0)
        continue;
      add_ring (&builder->rings, unordered, loops[i].ring - first_ring);
      for (guint hole = 0; hole < n_loops; hole++)
        if (loops[hole].piece == i)
          {
            add_ring (&builder->rings, unordered, loops[hole].ring - first_ring);
            strip.n_rings++;
          }
      rod_strips_builder_add (builder, strip, loops[i].low);
    }
}
