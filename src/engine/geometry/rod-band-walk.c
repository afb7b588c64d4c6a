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
  RodGridPoint head;
  guint        head_edge;
  guint        head_band;
  RodChainKind head_kind;
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
  g_free (walk->ids);
  g_free (walk->walked);
  g_free (walk->chains);
  g_free (walk->chain_corners);
  g_free (walk->ends);
  g_free (walk->end_starts);
  g_free (walk->loops);
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
  walk->ids = g_renew (guint, walk->ids, n_corners);
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
  g_autofree RodGridPoint    *points = NULL;
  guint                       n_corners = walk->n_corners;
  const guint                *ids = walk->ids;

  walk->has_shared = rod_corners_number (walk->corners, n_corners, walk->ids) < n_corners;
  if (!walk->has_shared)
    return;

  edges = g_new (RodDirectedEdge, n_corners);
  points = g_new (RodGridPoint, n_corners);
  for (guint i = 0; i < n_corners; i++)
    {
      points[i] = walk->corners[i].at;
      edges[i] = (RodDirectedEdge){ ids[i], ids[walk->next[i]], walk->corners[i].tag };
    }
  rod_edges_link (edges, n_corners, points, n_corners, walk->next);
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
    load_ring (walk,
               region->points + starts[ring],
               region->tags + starts[ring],
               starts[ring + 1] - starts[ring]);

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

/* Makes room for the chains of all rounds: an edge makes one for every line it meets and one more,
 * with a corner at both ends of each, and every corner of the rings comes in once, the first of a
 * round twice. */
static void
make_room_for_chains (RodBandWalk *walk)
{
  guint n_chains = 0;
  guint n_chain_corners;

  for (guint i = 0; i < walk->n_corners; i++)
    {
      guint from = walk->levels[i];
      guint to = walk->levels[walk->next[i]];

      n_chains += (MAX (from, to) - MIN (from, to)) / 2 + 1;
    }

  if (n_chains > walk->chains_room)
    {
      g_free (walk->chains);
      walk->chains = g_new (RodChain, n_chains);
      walk->chains_room = n_chains;
    }

  n_chain_corners = 2 * (n_chains + walk->n_corners);
  if (n_chain_corners > walk->chain_corners_room)
    {
      g_free (walk->chain_corners);
      walk->chain_corners = g_new (RodGridCorner, n_chain_corners);
      walk->chain_corners_room = n_chain_corners;
    }
}

static inline void
add_chain_corner (RodBandWalk *walk,
                  RodGridPoint at,
                  int          tag)
{
  walk->chain_corners[walk->n_chain_corners++] = (RodGridCorner){ at, tag };
}

static inline RodChain *
add_chain (RodBandWalk *walk,
           guint        leaving_list)
{
  RodChain *chain = &walk->chains[walk->n_chains++];

  *chain = (RodChain){ .first = walk->n_chain_corners, .leaving_list = leaving_list };
  return chain;
}

static inline void
leave_line (Round       *round,
            guint        band,
            RodChainKind kind,
            RodGridPoint at,
            guint        edge)
{
  RodChain *chain = add_chain (round->walk, band * ROD_N_CHAIN_KINDS + kind);

  chain->leaving_edge = edge;
  add_chain_corner (round->walk, at, round->walk->corners[edge].tag);
  round->open = TRUE;
}

static inline void
arrive_at_line (Round       *round,
                guint        band,
                RodChainKind kind,
                RodGridPoint at,
                guint        edge)
{
  RodBandWalk *walk = round->walk;
  RodChain    *chain;

  if (!round->open)
    {
      round->head = at;
      round->head_edge = edge;
      round->head_band = band;
      round->head_kind = kind;
      return;
    }

  /* What follows, if anything does, is an edge along the line. */
  if (kind == ROD_CHAINS_ARRIVING_ABOVE)
    add_chain_corner (walk, at, walk->comb.tag_above);
  else
    add_chain_corner (walk, at, walk->comb.tag_below);
  chain = &walk->chains[walk->n_chains - 1];
  chain->arriving_edge = edge;
  chain->arriving_list = band * ROD_N_CHAIN_KINDS + kind;
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
  guint              band = (from_level + 1) / 2; /* the one above the start; line band ends it */

  if (IS_LINE (from_level))
    leave_line (round, band, ROD_CHAINS_LEAVING_BELOW, from, edge);
  for (; 2 * band + 1 < to_level; band++)
    {
      RodGridPoint cut = find_cut (from, to, walk->comb.lines[band]);

      arrive_at_line (round, band, ROD_CHAINS_ARRIVING_ABOVE, cut, edge);
      leave_line (round, band + 1, ROD_CHAINS_LEAVING_BELOW, cut, edge);
    }
  if (IS_LINE (to_level))
    arrive_at_line (round, band, ROD_CHAINS_ARRIVING_ABOVE, to, edge);
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
    leave_line (round, band, ROD_CHAINS_LEAVING_ABOVE, from, edge);
  for (; 2 * band > to_level + 1; band--)
    {
      RodGridPoint cut = find_cut (from, to, walk->comb.lines[band - 1]);

      arrive_at_line (round, band, ROD_CHAINS_ARRIVING_BELOW, cut, edge);
      leave_line (round, band - 1, ROD_CHAINS_LEAVING_ABOVE, cut, edge);
    }
  if (IS_LINE (to_level))
    arrive_at_line (round, band, ROD_CHAINS_ARRIVING_BELOW, to, edge);
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

  if (from.x < to.x)
    {
      leave_line (round, line + 1, ROD_CHAINS_LEAVING_BELOW, from, edge);
      arrive_at_line (round, line + 1, ROD_CHAINS_ARRIVING_BELOW, to, edge);
    }
  else if (from.x > to.x)
    {
      leave_line (round, line, ROD_CHAINS_LEAVING_ABOVE, from, edge);
      arrive_at_line (round, line, ROD_CHAINS_ARRIVING_ABOVE, to, edge);
    }
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
  guint     band = walk->levels[start] / 2;
  RodChain *chain = add_chain (walk, band * ROD_N_CHAIN_KINDS + ROD_CHAINS_CLOSED);
  guint     corner = start;

  chain->closed = TRUE;
  chain->next = walk->n_chains - 1;
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
    arrive_at_line (&round, round.head_band, round.head_kind, round.head, round.head_edge);
}

void
rod_band_walk_make_chains (RodBandWalk *walk)
{
  walk->n_chains = 0;
  walk->n_chain_corners = 0;
  find_levels (walk);
  make_room_for_chains (walk);
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
