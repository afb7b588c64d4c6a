/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cutting rings at parallel lines, third part: from chains to pieces.
 *
 * Following the partners found in rod-band-ends.c, with the line in between, gives the border of
 * each piece in one round. A round that passes through a point twice is cut there; what then runs
 * counter-clockwise is a piece, what runs clockwise a hole, which goes to the piece it lies in. */

#include "engine/geometry/rod-geometry-private.h"

#define LEAST_CORNERS_OF_RING 3

/* A simple ring of the band at hand. */
typedef struct
{
  guint        first; /* of its corners in the walk's loop_corners */
  guint        n_corners;
  double       area; /* negative for a hole */
  RodGridPoint low;
  RodGridPoint high;
  guint        piece; /* for a hole: index of the piece it lies in */
} Loop;

static const RodGridCorner *
get_corners (const RodBandWalk *walk,
             const Loop        *loop)
{
  return &g_array_index (walk->loop_corners, RodGridCorner, loop->first);
}

static void
measure_loop (const RodGridCorner *corners,
              Loop                *loop)
{
  loop->low = loop->high = corners[0].at;
  for (guint i = 1; i < loop->n_corners; i++)
    {
      RodGridPoint at = corners[i].at;

      loop->low.x = MIN (loop->low.x, at.x);
      loop->low.y = MIN (loop->low.y, at.y);
      loop->high.x = MAX (loop->high.x, at.x);
      loop->high.y = MAX (loop->high.y, at.y);
    }
  loop->area = rod_grid_ring_area (corners, loop->n_corners);
}

/* Thinner on average than a remnant: its area spread over its length. */
static gboolean
is_remnant (const Loop *loop)
{
  double length_squared = rod_grid_distance_squared (loop->low, loop->high);

  return loop->area * loop->area < ROD_REMNANT_GRID * ROD_REMNANT_GRID * length_squared;
}

/* Takes the corners from index @first on as a ring, if they make one. */
static void
take_loop (RodBandWalk *walk,
           guint        first)
{
  Loop loop = { .first = first, .n_corners = walk->loop_corners->len - first };

  if (loop.n_corners >= LEAST_CORNERS_OF_RING)
    {
      measure_loop (get_corners (walk, &loop), &loop);
      if (!is_remnant (&loop))
        {
          g_array_append_val (walk->loops, loop);
          return;
        }
    }
  g_array_set_size (walk->loop_corners, first);
}

static void
add_loop (const RodGridCorner *corners,
          guint                n_corners,
          gpointer             user_data)
{
  RodBandWalk *walk = user_data;
  guint        first = walk->loop_corners->len;

  g_array_append_vals (walk->loop_corners, corners, n_corners);
  take_loop (walk, first);
}

/* The last round is the one from index @first on. */
static void
split_round (RodBandWalk *walk,
             guint        first)
{
  guint                     n_corners = walk->loop_corners->len - first;
  g_autofree RodGridCorner *corners = NULL;
  g_autofree guint         *ids = g_new (guint, n_corners);
  g_autofree guint         *place = g_new0 (guint, n_corners);

  corners = g_memdup2 (&g_array_index (walk->loop_corners, RodGridCorner, first),
                       n_corners * sizeof (RodGridCorner));
  g_array_set_size (walk->loop_corners, first);

  rod_vertices_forget (&walk->vertices);
  for (guint i = 0; i < n_corners; i++)
    ids[i] = rod_vertices_find_or_add (&walk->vertices, corners[i].at);
  rod_ring_split_loops (corners, ids, n_corners, place, add_loop, walk);
}

/* Follows the border of a piece round from the chain @start. */
static void
walk_border (RodBandWalk *walk,
             guint        start)
{
  guint    first = walk->loop_corners->len;
  guint    index = start;
  gboolean touches = walk->has_shared;

  do
    {
      RodChain            *chain = &walk->chains[index];
      const RodGridCorner *corners = walk->chain_corners + chain->first;
      guint                n_corners = chain->n_corners;

      /* Where the next chain leaves from the very point there is no edge along the line. */
      if (!chain->closed)
        {
          index = chain->next;
          if (rod_grid_point_equal (corners[n_corners - 1].at,
                                    walk->chain_corners[walk->chains[index].first].at))
            n_corners--;
        }
      g_array_append_vals (walk->loop_corners, corners, n_corners);
      chain->walked = TRUE;
      touches = touches || chain->touches;
    }
  while (index != start);

  if (touches)
    split_round (walk, first);
  else
    take_loop (walk, first);
}

static void
walk_list (RodBandWalk *walk,
           guint        band,
           RodChainKind kind)
{
  const guint *starts = walk->end_starts + band * ROD_N_CHAIN_KINDS + kind;

  for (guint i = starts[0]; i < starts[1]; i++)
    if (!walk->chains[walk->ends[i].chain].walked)
      walk_border (walk, walk->ends[i].chain);
}

/* 1 inside a ring, 0 on it, -1 outside. */
static int
locate_in_ring (const RodGridCorner *corners,
                guint                n_corners,
                RodGridPoint         point)
{
  int side = -1;

  for (guint i = 0, previous = n_corners - 1; i < n_corners; previous = i++)
    {
      RodGridPoint a = corners[previous].at;
      RodGridPoint b = corners[i].at;
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

static gboolean
lies_in (const RodBandWalk *walk,
         const Loop        *hole,
         const Loop        *piece)
{
  const RodGridCorner *hole_corners = get_corners (walk, hole);

  if (hole->low.x < piece->low.x || hole->low.y < piece->low.y ||
      hole->high.x > piece->high.x || hole->high.y > piece->high.y)
    return FALSE;

  for (guint i = 0; i < hole->n_corners; i++)
    {
      int side = locate_in_ring (get_corners (walk, piece), piece->n_corners, hole_corners[i].at);

      if (side != 0)
        return side > 0;
    }
  return FALSE;
}

/* Gives each hole to the least piece around it: a piece may itself stand in a hole of another. */
static void
place_holes (RodBandWalk *walk)
{
  Loop *loops = (Loop *) (gpointer) walk->loops->data;
  guint n_loops = walk->loops->len;

  for (guint hole = 0; hole < n_loops; hole++)
    {
      double least = G_MAXDOUBLE;

      loops[hole].piece = ROD_NO_INDEX;
      for (guint i = 0; i < n_loops && loops[hole].area < 0.0; i++)
        if (loops[i].area > 0.0 && loops[i].area < least &&
            lies_in (walk, &loops[hole], &loops[i]))
          {
            least = loops[i].area;
            loops[hole].piece = i;
          }
    }
}

static void
emit_loop (const RodBandWalk *walk,
           const Loop        *loop,
           RodRegionBuilder  *rings)
{
  const RodGridCorner *corners = get_corners (walk, loop);
  int                 *tags;
  RodPoint            *points = rod_region_builder_grow (rings, loop->n_corners, &tags);

  for (guint i = 0; i < loop->n_corners; i++)
    {
      RodGridPoint at = corners[i].at;

      points[i].x = rod_grid_to_mm (walk->turned ? at.y : at.x);
      points[i].y = rod_grid_to_mm (walk->turned ? -at.x : at.y);
      tags[i] = corners[i].tag;
    }
}

static int
compare_loops (gconstpointer a,
               gconstpointer b)
{
  const Loop *left = a;
  const Loop *right = b;

  if (left->low.x != right->low.x)
    return left->low.x < right->low.x ? -1 : 1;
  if (left->low.y != right->low.y)
    return left->low.y < right->low.y ? -1 : 1;
  return (left->first > right->first) - (left->first < right->first);
}

/* Adds the pieces of @band to @builder, by least x. */
void
rod_band_walk_gather (RodBandWalk      *walk,
                      guint             band,
                      int               course,
                      RodStripsBuilder *builder)
{
  if (walk->loops == NULL)
    {
      walk->loops = g_array_new (FALSE, FALSE, sizeof (Loop));
      walk->loop_corners = g_array_new (FALSE, FALSE, sizeof (RodGridCorner));
    }
  g_array_set_size (walk->loops, 0);
  g_array_set_size (walk->loop_corners, 0);

  walk_list (walk, band, ROD_CHAINS_LEAVING_BELOW);
  walk_list (walk, band, ROD_CHAINS_LEAVING_ABOVE);
  walk_list (walk, band, ROD_CHAINS_CLOSED);

  if (walk->loops->len > 1)
    {
      g_array_sort (walk->loops, compare_loops);
      place_holes (walk);
    }
  for (guint i = 0; i < walk->loops->len; i++)
    {
      const Loop *loops = (const Loop *) (gconstpointer) walk->loops->data;

      if (loops[i].area < 0.0)
        continue;
      rod_strips_builder_add (builder, course);
      emit_loop (walk, &loops[i], &builder->rings);
      for (guint hole = 0; hole < walk->loops->len; hole++)
        if (loops[hole].area < 0.0 && loops[hole].piece == i)
          {
            emit_loop (walk, &loops[hole], &builder->rings);
            builder->strips[builder->n_strips - 1].n_rings++;
          }
    }
}
