/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cutting rings at parallel lines, third part: from chains to pieces.
 *
 * Following the partners found in rod-band-ends.c, with the line in between, gives the border of
 * each piece in one round, which goes straight into the result. A round that passes through a point
 * twice is cut there first. What then runs counter-clockwise is a piece, what runs clockwise a
 * hole, which goes to the piece it lies in; holes are few, so putting them behind their pieces is
 * left to the end of the band. */

#include "engine/geometry/rod-geometry-private.h"

#define LEAST_CORNERS_OF_RING 3

/* Longer lists are worth a call for each comparison. */
#define LEAST_LOOPS_TO_MERGE 24

/* Where the pieces of the band at hand go. */
typedef struct
{
  RodBandWalk      *walk;
  RodStripsBuilder *builder;
} Gathering;

/* Corners on their way into the result. */
typedef struct
{
  RodPoint *points;
  int      *tags;
} RingPen;

static inline RingPen
write_corners (RingPen              pen,
               const RodGridCorner *corners,
               guint                n_corners,
               gboolean             turned)
{
  for (guint i = 0; i < n_corners; i++)
    {
      RodGridPoint at = corners[i].at;

      pen.points[i].x = rod_grid_to_mm (turned ? at.y : at.x);
      pen.points[i].y = rod_grid_to_mm (turned ? -at.x : at.y);
      pen.tags[i] = corners[i].tag;
    }
  return (RingPen){ pen.points + n_corners, pen.tags + n_corners };
}

/* The area is taken about the first corner, so that the products stay as small as the ring is. */
static RodLoop
measure_ring (const RodPoint *points,
              guint           n_points)
{
  RodPoint low = points[0];
  RodPoint high = points[0];
  double   before_x = 0.0;
  double   before_y = 0.0;
  double   twice_area = 0.0;

  for (guint i = 1; i < n_points; i++)
    {
      double x = points[i].x - points[0].x;
      double y = points[i].y - points[0].y;

      low.x = MIN (points[i].x, low.x);
      low.y = MIN (points[i].y, low.y);
      high.x = MAX (points[i].x, high.x);
      high.y = MAX (points[i].y, high.y);
      twice_area += before_x * y - x * before_y;
      before_x = x;
      before_y = y;
    }
  return (RodLoop){ .piece = ROD_NO_INDEX, .area = twice_area / 2.0, .low = low, .high = high };
}

/* Thinner on average than a remnant: its area spread over its length. */
static gboolean
is_remnant (const RodLoop *loop)
{
  double dx = loop->high.x - loop->low.x;
  double dy = loop->high.y - loop->low.y;

  return loop->area * loop->area < ROD_REMNANT_MM * ROD_REMNANT_MM * (dx * dx + dy * dy);
}

/* Keeps the ring that was written, if it is one. */
static void
finish_ring (const Gathering *gathering,
             const RodPoint  *points,
             guint            n_points)
{
  RodBandWalk *walk = gathering->walk;
  RodLoop      loop;

  if (n_points < LEAST_CORNERS_OF_RING)
    return;

  loop = measure_ring (points, n_points);
  if (is_remnant (&loop))
    return;

  if (walk->n_loops == walk->loops_room)
    {
      walk->loops_room = 2 * walk->loops_room + 16;
      walk->loops = g_renew (RodLoop, walk->loops, walk->loops_room);
    }
  loop.ring = rod_region_builder_commit (&gathering->builder->rings, n_points);
  walk->loops[walk->n_loops++] = loop;
  walk->has_holes = walk->has_holes || loop.area < 0.0;
}

/* How many corners of a chain its border takes over. Where the next chain leaves from the very
 * point at which this one arrives, there is no edge along the line. */
static inline guint
count_corners (const RodBandWalk *walk,
               const RodChain    *chain)
{
  RodGridPoint last = walk->chain_corners[chain->first + chain->n_corners - 1].at;
  RodGridPoint next = walk->chain_corners[walk->chains[chain->next].first].at;

  return rod_grid_point_equal (last, next) && !chain->closed ? chain->n_corners - 1
                                                             : chain->n_corners;
}

static RingPen
start_ring (const Gathering *gathering,
            guint            n_corners)
{
  RingPen pen;

  pen.points = rod_region_builder_reserve (&gathering->builder->rings, n_corners, &pen.tags);
  return pen;
}

static void
write_border (const Gathering *gathering,
              guint            start,
              guint            n_corners)
{
  const RodBandWalk *walk = gathering->walk;
  RingPen            pen = start_ring (gathering, n_corners);
  const RodPoint    *points = pen.points;
  guint              index = start;

  do
    {
      const RodChain *chain = &walk->chains[index];

      pen = write_corners (pen,
                           walk->chain_corners + chain->first,
                           count_corners (walk, chain),
                           walk->turned);
      index = chain->next;
    }
  while (index != start);
  finish_ring (gathering, points, n_corners);
}

static void
write_loop (const RodGridCorner *corners,
            guint                n_corners,
            gpointer             user_data)
{
  const Gathering *gathering = user_data;
  RingPen          pen = start_ring (gathering, n_corners);

  write_corners (pen, corners, n_corners, gathering->walk->turned);
  finish_ring (gathering, pen.points, n_corners);
}

/* Writes the simple rings of a border that touches itself. */
static void
write_split_border (Gathering *gathering,
                    guint      start,
                    guint      n_corners)
{
  RodBandWalk              *walk = gathering->walk;
  g_autofree RodGridCorner *corners = g_new (RodGridCorner, n_corners);
  g_autofree guint         *ids = g_new (guint, n_corners);
  g_autofree guint         *place = g_new0 (guint, n_corners);
  guint                     index = start;
  guint                     n_copied = 0;

  do
    {
      const RodChain *chain = &walk->chains[index];
      guint           n = count_corners (walk, chain);

      memcpy (corners + n_copied, walk->chain_corners + chain->first, n * sizeof (RodGridCorner));
      n_copied += n;
      index = chain->next;
    }
  while (index != start);

  rod_corners_number (corners, n_corners, ids);
  rod_ring_split_loops (corners, ids, n_corners, place, write_loop, gathering);
}

/* Follows the border of a piece round from the chain @start. */
static void
walk_border (Gathering *gathering,
             guint      start)
{
  RodBandWalk *walk = gathering->walk;
  gboolean     touches = walk->has_shared;
  guint        n_corners = 0;
  guint        index = start;

  do
    {
      RodChain *chain = &walk->chains[index];

      n_corners += count_corners (walk, chain);
      touches = touches || chain->touches;
      chain->walked = TRUE;
      index = chain->next;
    }
  while (index != start);

  if (touches)
    write_split_border (gathering, start, n_corners);
  else
    write_border (gathering, start, n_corners);
}

static void
walk_list (Gathering   *gathering,
           guint        band,
           RodChainKind kind)
{
  const RodBandWalk *walk = gathering->walk;
  const guint       *starts = walk->end_starts + band * ROD_N_CHAIN_KINDS + kind;

  for (guint i = starts[0]; i < starts[1]; i++)
    if (!walk->chains[walk->ends[i].chain].walked)
      walk_border (gathering, walk->ends[i].chain);
}

/* Loops that begin at one x are told apart by y, so that the order never hangs on the drawing's. */
static int
compare_loops (const RodLoop *left,
               const RodLoop *right)
{
  if (left->low.x < right->low.x || left->low.x > right->low.x)
    return left->low.x < right->low.x ? -1 : 1;
  return (left->low.y > right->low.y) - (left->low.y < right->low.y);
}

static int
compare_loops_cb (gconstpointer a,
                  gconstpointer b,
                  gpointer      unused)
{
  return compare_loops (a, b);
}

static void
sort_loops (RodLoop *loops,
            guint    n_loops)
{
  if (n_loops >= LEAST_LOOPS_TO_MERGE)
    {
      g_qsort_with_data (loops, (int) n_loops, sizeof (RodLoop), compare_loops_cb, NULL);
      return;
    }
  for (guint i = 1; i < n_loops; i++)
    for (guint j = i; j > 0 && compare_loops (&loops[j], &loops[j - 1]) < 0; j--)
      {
        RodLoop moved = loops[j];

        loops[j] = loops[j - 1];
        loops[j - 1] = moved;
      }
}

/* Adds the pieces of @band to @builder, by least x. */
void
rod_band_walk_gather (RodBandWalk      *walk,
                      guint             band,
                      int               course,
                      RodStripsBuilder *builder)
{
  Gathering gathering = { walk, builder };
  guint     first_ring = builder->rings.region->n_rings;

  walk->n_loops = 0;
  walk->has_holes = FALSE;
  walk_list (&gathering, band, ROD_CHAINS_LEAVING_BELOW);
  walk_list (&gathering, band, ROD_CHAINS_LEAVING_ABOVE);
  walk_list (&gathering, band, ROD_CHAINS_CLOSED);

  sort_loops (walk->loops, walk->n_loops);
  if (walk->has_holes)
    rod_loops_add_strips (walk->loops, walk->n_loops, first_ring, course, builder);
  else
    for (guint i = 0; i < walk->n_loops; i++)
      rod_strips_builder_add (builder,
                              (RodStrip){ course, walk->loops[i].ring, 1 },
                              walk->loops[i].low);
}
