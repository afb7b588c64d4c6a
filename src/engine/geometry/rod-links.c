/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Which edge of a border follows which, and rings out of borders that touch themselves.
 *
 * Where more than one ring passes through a corner, an edge that arrives is followed by the one
 * that bounds the same wedge of area: the border of a connected piece then comes out as one round.
 * Such a round may pass through a corner twice; cutting it there leaves simple rings. */

#include "engine/geometry/rod-geometry-private.h"

/* A board with a corner or two notched out; longer rings are worth a hash. */
#define CORNERS_OF_BOARD 8

static const guint64 hash_factor_x = G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
static const guint64 hash_factor_y = G_GUINT64_CONSTANT (0xc2b2ae3d27d4eb4f);

#define HASH_BITS 64

/* The edges at one corner, each by the direction in which it lies from there. */
typedef struct
{
  gint64 dx;
  gint64 dy;
  guint  edge;
} Spoke;

static gboolean
points_down (const Spoke *spoke)
{
  return spoke->dy < 0 || (spoke->dy == 0 && spoke->dx < 0);
}

/* By angle from the direction of +x, counter-clockwise. */
static int
compare_spokes (const Spoke *a,
                const Spoke *b)
{
  RodWide cross;

  if (points_down (a) != points_down (b))
    return points_down (a) ? 1 : -1;

  cross = (RodWide) a->dx * b->dy - (RodWide) a->dy * b->dx;
  return (cross < 0) - (cross > 0);
}

static void
sort_spokes (Spoke *spokes,
             guint  n_spokes)
{
  for (guint i = 1; i < n_spokes; i++)
    {
      Spoke moved = spokes[i];
      guint j = i;

      for (; j > 0 && compare_spokes (&moved, &spokes[j - 1]) < 0; j--)
        spokes[j] = spokes[j - 1];
      spokes[j] = moved;
    }
}

/* Area lies counter-clockwise of an edge that leaves and clockwise of one that arrives, so the
 * partner of an arriving edge is the last leaving one before it. */
static void
pair_spokes (Spoke *arriving,
             Spoke *leaving,
             guint  n_pairs,
             guint *next)
{
  guint shift = 0;

  sort_spokes (arriving, n_pairs);
  sort_spokes (leaving, n_pairs);
  if (compare_spokes (&leaving[0], &arriving[0]) > 0)
    shift = n_pairs - 1;
  for (guint i = 0; i < n_pairs; i++)
    next[arriving[i].edge] = leaving[(i + shift) % n_pairs].edge;
}

static Spoke
make_spoke (const RodGridPoint *points,
            guint               hub,
            guint               rim,
            guint               edge)
{
  return (Spoke){ points[rim].x - points[hub].x, points[rim].y - points[hub].y, edge };
}

/* Lists the edges by one of their ends: those of point p are [starts[p], starts[p + 1]). */
static guint *
group_edges (const RodDirectedEdge *edges,
             guint                  n_edges,
             guint                  n_points,
             gboolean               by_start,
             guint                 *starts)
{
  guint *grouped = g_new (guint, n_edges);

  for (guint i = 0; i < n_edges; i++)
    starts[(by_start ? edges[i].from : edges[i].to) + 2]++;
  for (guint p = 2; p < n_points + 2; p++)
    starts[p] += starts[p - 1];
  for (guint i = 0; i < n_edges; i++)
    grouped[starts[(by_start ? edges[i].from : edges[i].to) + 1]++] = i;
  return grouped;
}

/* Finds the edge that follows each edge on its border. As many edges arrive at each point as leave
 * it. */
void
rod_edges_link (const RodDirectedEdge *edges,
                guint                  n_edges,
                const RodGridPoint    *points,
                guint                  n_points,
                guint                 *next)
{
  g_autofree guint *leaving_starts = g_new0 (guint, n_points + 2);
  g_autofree guint *arriving_starts = g_new0 (guint, n_points + 2);
  g_autofree guint *leaving = group_edges (edges, n_edges, n_points, TRUE, leaving_starts);
  g_autofree guint *arriving = group_edges (edges, n_edges, n_points, FALSE, arriving_starts);
  g_autofree Spoke *spokes = NULL;

  for (guint p = 0; p < n_points; p++)
    {
      guint first = leaving_starts[p];
      guint n_pairs = leaving_starts[p + 1] - first;

      g_assert (arriving_starts[p] == first && arriving_starts[p + 1] == first + n_pairs);
      if (n_pairs == 1)
        next[arriving[first]] = leaving[first];
      if (n_pairs <= 1)
        continue;

      spokes = g_renew (Spoke, spokes, 2 * n_pairs);
      for (guint i = 0; i < n_pairs; i++)
        {
          guint in = arriving[first + i];
          guint out = leaving[first + i];

          spokes[i] = make_spoke (points, p, edges[in].from, in);
          spokes[n_pairs + i] = make_spoke (points, p, edges[out].to, out);
        }
      pair_spokes (spokes, spokes + n_pairs, n_pairs, next);
    }
}

static gboolean
all_differ (const RodGridCorner *corners,
            guint                n_corners)
{
  for (guint i = 1; i < n_corners; i++)
    for (guint j = 0; j < i; j++)
      if (rod_grid_point_equal (corners[i].at, corners[j].at))
        return FALSE;
  return TRUE;
}

/* The first of the corners so far that lies where corner @i does; enters that corner if it is the
 * first. A place in @table holds one more than a corner's index. */
static guint
find_first (const RodGridCorner *corners,
            guint                i,
            guint               *table,
            int                  table_bits)
{
  RodGridPoint at = corners[i].at;
  guint64      hash = (guint64) at.x * hash_factor_x + (guint64) at.y * hash_factor_y;
  guint        place = (guint) (hash >> (HASH_BITS - table_bits));
  guint        mask = (1u << table_bits) - 1;

  while (table[place] != 0)
    {
      if (rod_grid_point_equal (corners[table[place] - 1].at, at))
        return table[place] - 1;
      place = (place + 1) & mask;
    }
  table[place] = i + 1;
  return i;
}

/* Gives corners in one place one number, below @n_corners. Returns how many places there are. */
guint
rod_corners_number (const RodGridCorner *corners,
                    guint                n_corners,
                    guint               *ids)
{
  g_autofree guint *table = NULL;
  int               table_bits = 1;
  guint             n_places = 0;

  if (n_corners <= CORNERS_OF_BOARD && all_differ (corners, n_corners))
    {
      for (guint i = 0; i < n_corners; i++)
        ids[i] = i;
      return n_corners;
    }

  while ((1u << table_bits) < 2 * n_corners)
    table_bits++;
  table = g_new0 (guint, 1u << table_bits);
  for (guint i = 0; i < n_corners; i++)
    {
      ids[i] = find_first (corners, i, table, table_bits);
      n_places += ids[i] == i;
    }
  return n_places;
}

/* Cuts a round at every corner it passes twice and hands each simple ring to @func. @ids tells
 * which corners lie in one place; @place has a nought for every id, before and afterwards. */
void
rod_ring_split_loops (const RodGridCorner *corners,
                      const guint         *ids,
                      guint                n_corners,
                      guint               *place,
                      RodLoopFunc          func,
                      gpointer             user_data)
{
  g_autofree RodGridCorner *walked = g_new (RodGridCorner, n_corners);
  g_autofree guint         *walked_ids = g_new (guint, n_corners);
  guint                     n_walked = 0;

  for (guint i = 0; i < n_corners; i++)
    {
      if (place[ids[i]] > 0)
        {
          guint start = place[ids[i]] - 1;

          func (walked + start, n_walked - start, user_data);
          while (n_walked > start)
            place[walked_ids[--n_walked]] = 0;
        }
      walked[n_walked] = corners[i];
      walked_ids[n_walked++] = ids[i];
      place[ids[i]] = n_walked; /* one more than its index */
    }
  func (walked, n_walked, user_data);
  while (n_walked > 0)
    place[walked_ids[--n_walked]] = 0;
}
