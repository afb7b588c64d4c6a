/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Winding numbers on both sides of every edge of an arrangement, by a sweep.
 *
 * A line, leaning ever so little from upright, runs over the vertices from left to right. The edges
 * it meets are kept from bottom to top; since edges meet in vertices only, their order never
 * changes between two vertices, and an edge takes the winding number below it from its neighbour
 * when it enters. All comparisons are exact. O(n log n) and a move of the list per vertex; the list
 * holds what one upright line meets, some dozens of edges on a house. */

#include "engine/geometry/rod-geometry-private.h"

typedef struct
{
  const RodArrangement *arrangement;
  int                  *above;    /* winding number above each edge that has entered */
  guint                *status;   /* edges the line meets, bottom to top */
  guint                 n_status; /* how many */
} Sweep;

static int
compare_vertices (gconstpointer a,
                  gconstpointer b,
                  gpointer      points)
{
  const RodGridPoint *left = (const RodGridPoint *) points + *(const guint *) a;
  const RodGridPoint *right = (const RodGridPoint *) points + *(const guint *) b;

  if (left->x != right->x)
    return left->x < right->x ? -1 : 1;
  return (left->y > right->y) - (left->y < right->y);
}

static guint *
sort_vertices (const RodArrangement *arrangement)
{
  guint  n_vertices = arrangement->vertices.n_points;
  guint *order = g_new (guint, n_vertices);

  for (guint i = 0; i < n_vertices; i++)
    order[i] = i;
  g_qsort_with_data (order,
                     (int) n_vertices,
                     sizeof (guint),
                     compare_vertices,
                     arrangement->vertices.points);
  return order;
}

/* How many edges of the list run wholly below @vertex. */
static guint
count_below (const Sweep *sweep,
             guint        vertex)
{
  const RodGridPoint    *points = sweep->arrangement->vertices.points;
  const RodArrangedEdge *edges = sweep->arrangement->edges;
  guint                  low = 0;
  guint                  high = sweep->n_status;

  while (low < high)
    {
      guint                  middle = (low + high) / 2;
      const RodArrangedEdge *edge = &edges[sweep->status[middle]];

      if (edge->b != vertex &&
          rod_grid_turn (points[edge->a], points[edge->b], points[vertex]) > 0)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

/* Puts edges that start at one vertex from the lowest to the steepest. */
static void
sort_by_slope (const RodArrangement *arrangement,
               guint                *entering,
               guint                 n_entering)
{
  const RodGridPoint    *points = arrangement->vertices.points;
  const RodArrangedEdge *edges = arrangement->edges;

  for (guint i = 1; i < n_entering; i++)
    {
      guint moved = entering[i];
      guint j = i;

      while (j > 0 && rod_grid_turn (points[edges[moved].a],
                                     points[edges[moved].b],
                                     points[edges[entering[j - 1]].b]) > 0)
        {
          entering[j] = entering[j - 1];
          j--;
        }
      entering[j] = moved;
    }
}

static void
pass_vertex (Sweep *sweep,
             guint  vertex)
{
  const RodArrangement *arrangement = sweep->arrangement;
  guint                 first = arrangement->edge_starts[vertex];
  guint                 n_entering = arrangement->edge_starts[vertex + 1] - first;
  guint                 place = count_below (sweep, vertex);
  guint                 n_leaving = 0;
  int                   winding = place > 0 ? sweep->above[sweep->status[place - 1]] : 0;

  while (place + n_leaving < sweep->n_status &&
         arrangement->edges[sweep->status[place + n_leaving]].b == vertex)
    n_leaving++;

  if (n_entering != n_leaving)
    memmove (sweep->status + place + n_entering,
             sweep->status + place + n_leaving,
             (sweep->n_status - place - n_leaving) * sizeof (guint));
  sweep->n_status += n_entering - n_leaving;

  for (guint i = 0; i < n_entering; i++)
    sweep->status[place + i] = first + i;
  sort_by_slope (arrangement, sweep->status + place, n_entering);
  for (guint i = 0; i < n_entering; i++)
    {
      guint edge = sweep->status[place + i];

      winding += arrangement->edges[edge].delta;
      sweep->above[edge] = winding;
    }
}

/* Returns the winding number above each edge; the one below it is less by the edge's delta. */
int *
rod_arrangement_windings (const RodArrangement *arrangement)
{
  guint             n_vertices = arrangement->vertices.n_points;
  g_autofree guint *order = sort_vertices (arrangement);
  g_autofree guint *status = g_new (guint, arrangement->n_edges);
  Sweep             sweep = { arrangement, g_new0 (int, arrangement->n_edges), status, 0 };

  for (guint i = 0; i < n_vertices; i++)
    pass_vertex (&sweep, order[i]);
  return sweep.above;
}
