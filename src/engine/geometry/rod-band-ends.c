/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cutting rings at parallel lines, second part: which chain goes on where another one arrives.
 *
 * Just inside a line, borders alternate: one arrives where area begins, the next leaves where it
 * ends. So the chains that arrive, from left to right, and those that leave, from left to right,
 * are partners one by one. Order is decided by where the ends lie on the line, then by how the
 * chains lean into the band. Both are compared exactly where rounding could matter: a line through
 * a corner, or two borders that meet on it, then gives each piece once. O(K log m) for K ends, m on
 * a line. */

#include "engine/geometry/rod-geometry-private.h"

/* Longer lists are worth a call for each comparison. */
#define LEAST_ENDS_TO_MERGE 24

typedef struct
{
  const RodBandWalk *walk;
  gboolean           arriving;
} EndOrder;

/* Where an end lies on its line, as a fraction, and how its edge leans into the band. */
typedef struct
{
  RodWide numerator;
  gint64  denominator; /* positive */
  gint64  run;
  gint64  rise; /* not negative */
} EndPlace;

static EndPlace
find_place (const EndOrder *order,
            guint           end)
{
  const RodBandWalk *walk = order->walk;
  const RodChain    *chain = &walk->chains[end];
  guint              edge = order->arriving ? chain->arriving_edge : chain->leaving_edge;
  RodGridPoint       from = walk->corners[edge].at;
  RodGridPoint       to = walk->corners[walk->next[edge]].at;
  guint              corner = chain->first + (order->arriving ? chain->n_corners - 1 : 0);
  RodGridPoint       at = walk->chain_corners[corner].at;
  gint64             dx = to.x - from.x;
  gint64             dy = to.y - from.y;
  gint64             sign = dy < 0 ? -1 : 1;
  EndPlace           place = { at.x, 1, order->arriving ? -dx : dx, sign * dy };

  if (dy != 0)
    {
      place.numerator = sign * ((RodWide) from.x * dy + (RodWide) (at.y - from.y) * dx);
      place.denominator = sign * dy;
    }
  return place;
}

static int
compare_exactly (const EndOrder *order,
                 guint           a,
                 guint           b)
{
  EndPlace left = find_place (order, a);
  EndPlace right = find_place (order, b);
  RodWide  difference = left.numerator * right.denominator - right.numerator * left.denominator;

  if (difference == 0)
    difference = (RodWide) left.run * right.rise - (RodWide) right.run * left.rise;
  return (difference > 0) - (difference < 0);
}

/* Rounded places that differ by more than one are in order; the others need a closer look. */
static inline int
compare_ends (const EndOrder    *order,
              const RodChainEnd *a,
              const RodChainEnd *b)
{
  if (a->x > b->x + 1)
    return 1;
  if (a->x < b->x - 1)
    return -1;
  return compare_exactly (order, a->chain, b->chain);
}

static int
compare_ends_cb (gconstpointer a,
                 gconstpointer b,
                 gpointer      order)
{
  return compare_ends (order, a, b);
}

static void
sort_ends (const EndOrder *order,
           RodChainEnd    *ends,
           guint           n_ends)
{
  if (n_ends >= LEAST_ENDS_TO_MERGE)
    {
      EndOrder passed = *order;

      g_qsort_with_data (ends, (int) n_ends, sizeof (RodChainEnd), compare_ends_cb, &passed);
      return;
    }
  for (guint i = 1; i < n_ends; i++)
    {
      RodChainEnd moved = ends[i];
      guint       j = i;

      for (; j > 0 && compare_ends (order, &moved, &ends[j - 1]) < 0; j--)
        ends[j] = ends[j - 1];
      ends[j] = moved;
    }
}

/* Where one piece of line ends and the next begins in one point, a piece of area may touch itself.
 * Pieces of line run from an arrival to a departure on the lower line of a band, the other way
 * about on the upper one. */
static void
mark_touching (RodBandWalk       *walk,
               const RodChainEnd *left,
               const RodChainEnd *right,
               guint              n_pairs)
{
  for (guint i = 1; i < n_pairs; i++)
    if (left[i].x == right[i - 1].x)
      walk->chains[left[i].chain].touches = walk->chains[right[i - 1].chain].touches = TRUE;
}

static void
pair_on_line (RodBandWalk *walk,
              guint        band,
              gboolean     above)
{
  guint        kind = above ? ROD_CHAINS_ARRIVING_ABOVE : ROD_CHAINS_ARRIVING_BELOW;
  const guint *starts = walk->end_starts + band * ROD_N_CHAIN_KINDS + kind;
  RodChainEnd *arriving = walk->ends + starts[0];
  RodChainEnd *leaving = walk->ends + starts[1];
  guint        n_pairs = starts[1] - starts[0];

  if (n_pairs == 0)
    return;

  g_assert (starts[2] - starts[1] == n_pairs);
  if (n_pairs > 1)
    {
      sort_ends (&(EndOrder){ walk, TRUE }, arriving, n_pairs);
      sort_ends (&(EndOrder){ walk, FALSE }, leaving, n_pairs);
      mark_touching (walk,
                     above ? leaving : arriving,
                     above ? arriving : leaving,
                     n_pairs);
    }
  for (guint i = 0; i < n_pairs; i++)
    walk->chains[arriving[i].chain].next = leaving[i].chain;
}

static void
make_room_for_ends (RodBandWalk *walk,
                    guint        n_lists)
{
  if (n_lists + 2 > walk->end_starts_room)
    {
      walk->end_starts_room = n_lists + 2;
      walk->end_starts = g_renew (guint, walk->end_starts, walk->end_starts_room);
    }
  if (2 * walk->n_chains > walk->ends_room)
    {
      walk->ends_room = 2 * walk->n_chains;
      walk->ends = g_renew (RodChainEnd, walk->ends, walk->ends_room);
    }
}

/* Sorts the ends into their lists by counting. */
static void
list_ends (RodBandWalk *walk)
{
  guint           n_lists = (walk->comb.n_lines + 1) * ROD_N_CHAIN_KINDS;
  const RodChain *chains = walk->chains;
  guint          *counts, *places;

  make_room_for_ends (walk, n_lists);
  memset (walk->end_starts, 0, (n_lists + 2) * sizeof (guint));

  counts = walk->end_starts + 2;
  for (guint i = 0; i < walk->n_chains; i++)
    {
      counts[chains[i].leaving_list]++;
      if (!chains[i].closed)
        counts[chains[i].arriving_list]++;
    }
  for (guint list = 1; list < n_lists; list++)
    counts[list] += counts[list - 1];

  places = walk->end_starts + 1;
  for (guint i = 0; i < walk->n_chains; i++)
    {
      const RodGridCorner *corners = walk->chain_corners + chains[i].first;

      walk->ends[places[chains[i].leaving_list]++] = (RodChainEnd){ corners[0].at.x, i };
      if (!chains[i].closed)
        walk->ends[places[chains[i].arriving_list]++] =
          (RodChainEnd){ corners[chains[i].n_corners - 1].at.x, i };
    }
}

void
rod_band_walk_pair_ends (RodBandWalk *walk)
{
  list_ends (walk);
  for (guint band = 0; band <= walk->comb.n_lines; band++)
    {
      pair_on_line (walk, band, FALSE);
      pair_on_line (walk, band, TRUE);
    }
}
