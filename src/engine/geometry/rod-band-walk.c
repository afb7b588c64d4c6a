/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cutting rings at parallel lines, first part: from rings to chains.
 *
 * Every border edge is cut where it meets a line. What lies between two cuts is a chain: it leaves
 * a line, stays in one band and arrives at a line. An edge along a line belongs to the band on its
 * left, where the area is, and is a chain of its own, so that its tag is kept. Rings that meet no
 * line stay whole. The second part, rod-band-ends.c, finds which chain goes on where another one
 * arrives; the third, rod-band-pieces.c, walks the chains into pieces. O(V + K) for V corners and K
 * cuts, the lines being followed from corner to corner rather than searched for. */

#include "engine/geometry/rod-geometry-private.h"

/* Whether a level is a line rather than a band. */
#define IS_LINE(level) ((level) % 2 == 1)

/* The state of one round. */
typedef struct
{
  RodBandWalk *walk;
  gboolean     open; /* a chain is under way */

  /* The stretch before the first line ends the last chain. */
  gboolean     has_head;
  RodGridPoint head;
  guint        head_edge;
  gboolean     head_above;
} Round;

void
rod_band_walk_init (RodBandWalk *walk,
                    RodComb      comb,
                    gboolean     turned)
{
  *walk = (RodBandWalk){ .comb = comb, .turned = turned };
}

void
rod_band_walk_clear (RodBandWalk *walk)
{
  g_free (walk->corners);
  g_free (walk->next);
  g_free (walk->levels);
  g_free (walk->walked);
  g_free (walk->chains);
  g_free (walk->chain_corners);
  g_free (walk->ends);
  g_free (walk->end_starts);
  rod_vertices_clear (&walk->vertices);
  g_clear_pointer (&walk->loops, g_array_unref);
  g_clear_pointer (&walk->loop_corners, g_array_unref);
}

static void
make_room_for_corners (RodBandWalk *walk,
                       guint        n_corners)
{
  if (n_corners <= walk->corners_room)
    return;

  walk->corners_room = n_corners;
  walk->corners = g_renew (RodGridCorner, walk->corners, n_corners);
  walk->next = g_renew (guint, walk->next, n_corners);
  walk->levels = g_renew (guint, walk->levels, n_corners);
  walk->walked = g_renew (guint8, walk->walked, n_corners);
}

/* A quarter turn keeps the area to the left of the edges, which swapping x and y would not. */
static RodGridPoint
enter_point (const RodBandWalk *walk,
             RodPoint           point)
{
  RodGridPoint grid = { rod_grid_from_mm (point.x), rod_grid_from_mm (point.y) };

  return walk->turned ? (RodGridPoint){ -grid.y, grid.x } : grid;
}

static void
load_ring (RodBandWalk    *walk,
           const RodPoint *points,
           const int      *tags,
           guint           n_points)
{
  guint start = walk->n_corners;
  guint end = start;

  for (guint i = 0; i < n_points; i++)
    {
      RodGridPoint at = enter_point (walk, points[i]);

      if (end > start && rod_grid_point_equal (walk->corners[end - 1].at, at))
        end--;
      walk->corners[end++] = (RodGridCorner){ at, tags[i] };
    }
  while (end > start + 1 &&
         rod_grid_point_equal (walk->corners[end - 1].at, walk->corners[start].at))
    end--;

  for (guint i = start; i < end; i++)
    walk->next[i] = i + 1;
  if (end > start)
    walk->next[end - 1] = start;
  walk->n_corners = end;
}

/* Where rings touch, lets the border of each connected piece run on: see rod-links.c. */
static void
link_shared_corners (RodBandWalk *walk)
{
  g_autofree RodDirectedEdge *edges = NULL;
  g_autofree guint           *ids = g_new (guint, walk->n_corners);
  guint                       n_corners = walk->n_corners;

  if (walk->vertices.points == NULL)
    rod_vertices_init (&walk->vertices, 0, n_corners);
  rod_vertices_forget (&walk->vertices);
  for (guint i = 0; i < n_corners; i++)
    ids[i] = rod_vertices_find_or_add (&walk->vertices, walk->corners[i].at);

  walk->has_shared = walk->vertices.n_points < n_corners;
  if (!walk->has_shared)
    return;

  edges = g_new (RodDirectedEdge, n_corners);
  for (guint i = 0; i < n_corners; i++)
    edges[i] = (RodDirectedEdge){ ids[i], ids[walk->next[i]], walk->corners[i].tag };
  rod_edges_link (edges, n_corners, walk->vertices.points, walk->vertices.n_points, walk->next);
}

/* Takes rings that bound an area on their left; forgets what was loaded before. */
void
rod_band_walk_load (RodBandWalk     *walk,
                    const RodRegion *region,
                    guint            first_ring,
                    guint            n_rings)
{
  const guint *starts = region->ring_starts + first_ring;

  make_room_for_corners (walk, starts[n_rings] - starts[0]);
  walk->n_corners = 0;
  for (guint ring = 0; ring < n_rings; ring++)
    load_ring (walk, region->points + starts[ring], region->tags + starts[ring], starts[ring + 1] - starts[ring]);

  link_shared_corners (walk);
}

/* The level of height @y, looked for from @level on; moves @y onto a line that is near. */
static guint
find_level (const RodComb *comb,
            guint          level,
            gint64        *y)
{
  const gint64 *lines = comb->lines;
  guint         band = level / 2;

  while (band<comb->n_lines && * y> lines[band] + ROD_LINE_SNAP_GRID)
    band++;
  while (band > 0 && *y < lines[band - 1] - ROD_LINE_SNAP_GRID)
    band--;

  if (band < comb->n_lines && *y >= lines[band] - ROD_LINE_SNAP_GRID)
    {
      *y = lines[band];
      return 2 * band + 1;
    }
  if (band > 0 && *y <= lines[band - 1] + ROD_LINE_SNAP_GRID)
    {
      *y = lines[band - 1];
      return 2 * band - 1;
    }
  return 2 * band;
}

static void
find_levels (RodBandWalk *walk)
{
  guint level = 0;

  for (guint i = 0; i < walk->n_corners; i++)
    {
      level = find_level (&walk->comb, level, &walk->corners[i].at.y);
      walk->levels[i] = level;
    }
}

static void
add_chain_corner (RodBandWalk *walk,
                  RodGridPoint at,
                  int          tag)
{
  if (walk->n_chain_corners == walk->chain_corners_room)
    {
      walk->chain_corners_room = 2 * walk->chain_corners_room + 64;
      walk->chain_corners =
        g_renew (RodGridCorner, walk->chain_corners, walk->chain_corners_room);
    }
  walk->chain_corners[walk->n_chain_corners++] = (RodGridCorner){ at, tag };
}

static RodChain *
add_chain (RodBandWalk *walk,
           guint        band)
{
  RodChain *chain;

  if (walk->n_chains == walk->chains_room)
    {
      walk->chains_room = 2 * walk->chains_room + 32;
      walk->chains = g_renew (RodChain, walk->chains, walk->chains_room);
    }
  chain = &walk->chains[walk->n_chains++];
  *chain = (RodChain){ .first = walk->n_chain_corners, .band = band, .next = ROD_NO_INDEX };
  return chain;
}

static void
leave_line (Round       *round,
            guint        band,
            gboolean     above,
            RodGridPoint at,
            guint        edge)
{
  RodChain *chain = add_chain (round->walk, band);

  chain->leaving_edge = edge;
  chain->leaves_above = above;
  add_chain_corner (round->walk, at, round->walk->corners[edge].tag);
  round->open = TRUE;
}

static void
arrive_at_line (Round       *round,
                gboolean     above,
                RodGridPoint at,
                guint        edge)
{
  RodBandWalk *walk = round->walk;
  RodChain    *chain;

  if (!round->open)
    {
      round->has_head = TRUE;
      round->head = at;
      round->head_edge = edge;
      round->head_above = above;
      return;
    }

  /* What follows, if anything does, is an edge along the line. */
  add_chain_corner (walk, at, above ? walk->comb.tag_above : walk->comb.tag_below);
  chain = &walk->chains[walk->n_chains - 1];
  chain->arriving_edge = edge;
  chain->arrives_above = above;
  chain->n_corners = walk->n_chain_corners - chain->first;
  round->open = FALSE;
}

static void
pass_corner (Round *round,
             guint  corner)
{
  RodBandWalk *walk = round->walk;

  if (round->open)
    add_chain_corner (walk, walk->corners[corner].at, walk->corners[corner].tag);
}

static RodGridPoint
find_cut (RodGridPoint from,
          RodGridPoint to,
          gint64       line)
{
  double share;

  if (from.x == to.x)
    return (RodGridPoint){ from.x, line };

  share = (double) (line - from.y) / (double) (to.y - from.y);
  return (RodGridPoint){ from.x + rod_grid_round (share * (double) (to.x - from.x)), line };
}

static void
climb (Round *round,
       guint  edge,
       guint  corner)
{
  const RodBandWalk *walk = round->walk;
  RodGridPoint       from = walk->corners[edge].at;
  RodGridPoint       to = walk->corners[corner].at;
  guint              from_level = walk->levels[edge];
  guint              to_level = walk->levels[corner];
  guint              line = (from_level + 1) / 2; /* the first above the start */

  if (IS_LINE (from_level))
    leave_line (round, line, FALSE, from, edge);
  for (; 2 * line + 1 < to_level; line++)
    {
      RodGridPoint cut = find_cut (from, to, walk->comb.lines[line]);

      arrive_at_line (round, TRUE, cut, edge);
      leave_line (round, line + 1, FALSE, cut, edge);
    }
  if (IS_LINE (to_level))
    arrive_at_line (round, TRUE, to, edge);
  else
    pass_corner (round, corner);
}

static void
descend (Round *round,
         guint  edge,
         guint  corner)
{
  const RodBandWalk *walk = round->walk;
  RodGridPoint       from = walk->corners[edge].at;
  RodGridPoint       to = walk->corners[corner].at;
  guint              from_level = walk->levels[edge];
  guint              to_level = walk->levels[corner];
  guint              band = from_level / 2; /* the one below the start; line band - 1 ends it */

  if (IS_LINE (from_level))
    leave_line (round, band, TRUE, from, edge);
  for (; 2 * band > to_level + 1; band--)
    {
      RodGridPoint cut = find_cut (from, to, walk->comb.lines[band - 1]);

      arrive_at_line (round, FALSE, cut, edge);
      leave_line (round, band - 1, TRUE, cut, edge);
    }
  if (IS_LINE (to_level))
    arrive_at_line (round, FALSE, to, edge);
  else
    pass_corner (round, corner);
}

/* The area above an edge that runs to the right belongs to the band above. */
static void
run_along_line (Round *round,
                guint  edge,
                guint  corner)
{
  RodGridPoint from = round->walk->corners[edge].at;
  RodGridPoint to = round->walk->corners[corner].at;
  guint        line = round->walk->levels[edge] / 2;
  gboolean     rightwards = to.x > from.x;

  if (from.x == to.x)
    return;

  leave_line (round, rightwards ? line + 1 : line, !rightwards, from, edge);
  arrive_at_line (round, !rightwards, to, edge);
}

static void
walk_edge (Round *round,
           guint  edge)
{
  const RodBandWalk *walk = round->walk;
  guint              corner = walk->next[edge];

  if (walk->levels[edge] < walk->levels[corner])
    climb (round, edge, corner);
  else if (walk->levels[edge] > walk->levels[corner])
    descend (round, edge, corner);
  else if (IS_LINE (walk->levels[edge]))
    run_along_line (round, edge, corner);
  else
    pass_corner (round, corner);
}

/* The first edge of the round that meets a line, or ROD_NO_INDEX. */
static guint
find_edge_at_line (const RodBandWalk *walk,
                   guint              start)
{
  guint edge = start;

  do
    {
      if (IS_LINE (walk->levels[edge]) || walk->levels[edge] != walk->levels[walk->next[edge]])
        return edge;
      edge = walk->next[edge];
    }
  while (edge != start);
  return ROD_NO_INDEX;
}

static void
keep_round_whole (RodBandWalk *walk,
                  guint        start)
{
  RodChain *chain = add_chain (walk, walk->levels[start] / 2);
  guint     corner = start;

  chain->closed = TRUE;
  do
    {
      add_chain_corner (walk, walk->corners[corner].at, walk->corners[corner].tag);
      walk->walked[corner] = TRUE;
      corner = walk->next[corner];
    }
  while (corner != start);
  chain->n_corners = walk->n_chain_corners - chain->first;
}

static void
walk_round (RodBandWalk *walk,
            guint        start)
{
  Round round = { .walk = walk };
  guint edge = start;

  do
    {
      walk_edge (&round, edge);
      walk->walked[edge] = TRUE;
      edge = walk->next[edge];
    }
  while (edge != start);

  if (round.open)
    arrive_at_line (&round, round.head_above, round.head, round.head_edge);
}

void
rod_band_walk_make_chains (RodBandWalk *walk)
{
  walk->n_chains = 0;
  walk->n_chain_corners = 0;
  find_levels (walk);
  if (walk->n_corners > 0)
    memset (walk->walked, 0, walk->n_corners);

  for (guint i = 0; i < walk->n_corners; i++)
    {
      guint start;

      if (walk->walked[i])
        continue;
      start = find_edge_at_line (walk, i);
      if (start == ROD_NO_INDEX)
        keep_round_whole (walk, i);
      else
        walk_round (walk, start);
    }
}
