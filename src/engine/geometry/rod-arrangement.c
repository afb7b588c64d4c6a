/* SPDX-License-Identifier: GPL-3.0-or-later */

/* An arrangement: edges cut up until they meet in shared vertices only, which lets the sweep of
 * rod-winding.c tell inside from outside without a single tolerance.
 *
 * Each round looks for vertices that lie on an edge, within the snap, and for crossings, and leads
 * the edges through them. An edge is only ever split into two shorter ones, and vertices are grid
 * points between the outermost ones, so lengths come from a finite set and the rounds must end;
 * drawings that are clean take one, others two or three. */

#include "engine/geometry/rod-geometry-private.h"

#define NO_TAG G_MAXINT

static void
make_room_for_edge (RodArrangement *arrangement)
{
  if (arrangement->n_edges < arrangement->edges_room)
    return;

  arrangement->edges_room = 2 * arrangement->edges_room + 16;
  arrangement->edges =
    g_renew (RodArrangedEdge, arrangement->edges, arrangement->edges_room);
}

/* Turns an edge so that its first vertex comes first in the sweep. */
static RodArrangedEdge
put_in_order (const RodArrangement *arrangement,
              RodArrangedEdge       edge)
{
  const RodGridPoint *points = arrangement->vertices.points;
  RodArrangedEdge     turned = edge;

  if (rod_grid_point_before (points[edge.a], points[edge.b]))
    return edge;

  turned.a = edge.b;
  turned.b = edge.a;
  turned.delta = -edge.delta;
  turned.tag_along = edge.tag_against;
  turned.tag_against = edge.tag_along;
  return turned;
}

static void
add_edge (RodArrangement *arrangement,
          RodArrangedEdge edge)
{
  if (edge.a == edge.b)
    return;

  make_room_for_edge (arrangement);
  arrangement->edges[arrangement->n_edges++] = put_in_order (arrangement, edge);
}

/* Adds @edge to the edges from @start on, which all begin at the same vertex. */
static guint
merge_edge (RodArrangedEdge *edges,
            guint            start,
            guint            end,
            RodArrangedEdge  edge)
{
  for (guint i = start; i < end; i++)
    if (edges[i].b == edge.b)
      {
        edges[i].delta += edge.delta;
        edges[i].tag_along = MIN (edges[i].tag_along, edge.tag_along);
        edges[i].tag_against = MIN (edges[i].tag_against, edge.tag_against);
        edges[i].fresh = edges[i].fresh && edge.fresh;
        return end;
      }
  edges[end] = edge;
  return end + 1;
}

static guint
drop_cancelled (RodArrangedEdge *edges,
                guint            start,
                guint            end)
{
  guint kept = start;

  for (guint i = start; i < end; i++)
    if (edges[i].delta != 0)
      edges[kept++] = edges[i];
  return kept;
}

/* Orders edges by their first vertex, merges those that coincide and drops those that cancel. */
static void
tidy_edges (RodArrangement *arrangement)
{
  guint             n_vertices = arrangement->vertices.n_points;
  guint             n_edges = arrangement->n_edges;
  g_autofree guint *starts = g_new0 (guint, n_vertices + 2);
  g_autofree guint *order = g_new (guint, n_edges);
  RodArrangedEdge  *tidy = g_new (RodArrangedEdge, n_edges);
  guint             n_tidy = 0;

  for (guint i = 0; i < n_edges; i++)
    starts[arrangement->edges[i].a + 2]++;
  for (guint v = 2; v < n_vertices + 2; v++)
    starts[v] += starts[v - 1];
  for (guint i = 0; i < n_edges; i++)
    order[starts[arrangement->edges[i].a + 1]++] = i;

  arrangement->edge_starts = g_renew (guint, arrangement->edge_starts, n_vertices + 1);
  for (guint v = 0; v < n_vertices; v++)
    {
      guint first = n_tidy;

      arrangement->edge_starts[v] = first;
      for (guint i = starts[v]; i < starts[v + 1]; i++)
        n_tidy = merge_edge (tidy, first, n_tidy, arrangement->edges[order[i]]);
      n_tidy = drop_cancelled (tidy, first, n_tidy);
    }
  arrangement->edge_starts[n_vertices] = n_tidy;

  g_free (arrangement->edges);
  arrangement->edges = tidy;
  arrangement->n_edges = n_tidy;
  arrangement->edges_room = n_edges;
}

static void
add_ring (RodArrangement      *arrangement,
          const RodPathCorner *corners,
          guint                n_corners,
          guint               *ids)
{
  for (guint i = 0; i < n_corners; i++)
    {
      RodGridPoint point = { rod_grid_from_mm (corners[i].at.x),
                             rod_grid_from_mm (corners[i].at.y) };

      ids[i] = rod_vertices_find_or_add (&arrangement->vertices, point);
    }

  for (guint i = 0; i < n_corners; i++)
    add_edge (arrangement,
              (RodArrangedEdge){
                .a = ids[i],
                .b = ids[i + 1 < n_corners ? i + 1 : 0],
                .delta = 1,
                .tag_along = corners[i].tag,
                .tag_against = NO_TAG,
                .fresh = TRUE,
              });
}

void
rod_arrangement_init (RodArrangement *arrangement,
                      const RodPath  *path)
{
  guint             n_corners = path->corners->len;
  g_autofree guint *ids = g_new (guint, n_corners);

  *arrangement = (RodArrangement){ .edges_room = n_corners };
  rod_vertices_init (&arrangement->vertices, ROD_SNAP_GRID, n_corners);
  arrangement->edges = g_new (RodArrangedEdge, n_corners);

  for (guint ring = 0; ring + 1 < path->ring_starts->len; ring++)
    {
      guint start = g_array_index (path->ring_starts, guint, ring);
      guint end = g_array_index (path->ring_starts, guint, ring + 1);

      add_ring (arrangement,
                &g_array_index (path->corners, RodPathCorner, start),
                end - start,
                ids);
    }
  tidy_edges (arrangement);
}

void
rod_arrangement_clear (RodArrangement *arrangement)
{
  rod_vertices_clear (&arrangement->vertices);
  g_clear_pointer (&arrangement->edges, g_free);
  g_clear_pointer (&arrangement->edge_starts, g_free);
  g_clear_pointer (&arrangement->compared, g_free);
}

/* Both halves must come out shorter, or the rounds would not be sure to end. A vertex exactly on
 * the edge always passes, and so does one that is only rounded off it. */
gboolean
rod_arrangement_can_split (const RodArrangement  *arrangement,
                           const RodArrangedEdge *edge,
                           guint                  vertex)
{
  const RodGridPoint *points = arrangement->vertices.points;
  double              length = rod_grid_distance_squared (points[edge->a], points[edge->b]);

  return vertex != edge->a && vertex != edge->b &&
         rod_grid_distance_squared (points[edge->a], points[vertex]) < length &&
         rod_grid_distance_squared (points[vertex], points[edge->b]) < length;
}

static int
compare_splits (gconstpointer a,
                gconstpointer b)
{
  const RodEdgeSplit *left = a;
  const RodEdgeSplit *right = b;

  if (left->edge != right->edge)
    return left->edge < right->edge ? -1 : 1;
  if (left->along < right->along)
    return -1;
  return left->along > right->along;
}

/* Leads one edge through the vertices found on it, nearest to its start first. The halves need no
 * new comparison when they run exactly where the edge ran. Returns whether they do need it. */
static gboolean
split_edge (RodArrangement     *arrangement,
            RodArrangedEdge     edge,
            const RodEdgeSplit *splits,
            guint               n_splits)
{
  RodArrangedEdge rest = edge;
  guint           first_half = arrangement->n_edges;
  gboolean        bends = FALSE;

  for (guint i = 0; i < n_splits; i++)
    {
      const RodGridPoint *points = arrangement->vertices.points;
      guint               vertex = splits[i].vertex;
      RodArrangedEdge     half = rest;

      if (vertex == rest.a)
        continue;
      if (!rod_arrangement_can_split (arrangement, &rest, vertex))
        {
          bends = TRUE;
          continue;
        }
      if (rod_grid_turn (points[edge.a], points[edge.b], points[vertex]) != 0)
        bends = TRUE;
      half.b = vertex;
      rest.a = vertex;
      add_edge (arrangement, half);
    }
  add_edge (arrangement, rest);

  for (guint i = first_half; i < arrangement->n_edges; i++)
    arrangement->edges[i].fresh = bends;
  return bends;
}

/* Returns whether any edge moved and so has to be compared again. */
static gboolean
apply_splits (RodArrangement *arrangement,
              GArray         *splits)
{
  RodArrangedEdge *old_edges = g_steal_pointer (&arrangement->edges);
  guint            n_old = arrangement->n_edges;
  gboolean         moved = FALSE;
  guint            first = 0;

  g_array_sort (splits, compare_splits);
  arrangement->edges_room = n_old + splits->len;
  arrangement->edges = g_new (RodArrangedEdge, arrangement->edges_room);
  arrangement->n_edges = 0;

  for (guint i = 0; i < n_old; i++)
    {
      guint end = first;

      old_edges[i].fresh = FALSE;
      while (end < splits->len && g_array_index (splits, RodEdgeSplit, end).edge == i)
        end++;
      if (end == first)
        add_edge (arrangement, old_edges[i]);
      else if (split_edge (arrangement,
                           old_edges[i],
                           &g_array_index (splits, RodEdgeSplit, first),
                           end - first))
        moved = TRUE;
      first = end;
    }

  g_free (old_edges);
  return moved;
}

/* Marks the vertices that edges start or end at. */
guint8 *
rod_arrangement_mark_used (const RodArrangement *arrangement)
{
  guint8 *used = g_new0 (guint8, arrangement->vertices.n_points);

  for (guint i = 0; i < arrangement->n_edges; i++)
    used[arrangement->edges[i].a] = used[arrangement->edges[i].b] = TRUE;
  return used;
}

/* Whether a vertex has come into use since the last round. */
static gboolean
has_fresh_vertex (const RodArrangement *arrangement)
{
  g_autofree guint8 *used = rod_arrangement_mark_used (arrangement);

  for (guint vertex = 0; vertex < arrangement->vertices.n_points; vertex++)
    if (used[vertex] && !(vertex < arrangement->n_compared && arrangement->compared[vertex]))
      return TRUE;
  return FALSE;
}

void
rod_arrangement_node (RodArrangement *arrangement)
{
  g_autoptr (GArray) splits = g_array_new (FALSE, FALSE, sizeof (RodEdgeSplit));
  gboolean unsettled = TRUE;

  while (unsettled)
    {
      g_array_set_size (splits, 0);
      rod_arrangement_find_splits (arrangement, splits);
      if (splits->len == 0)
        return;

      unsettled = apply_splits (arrangement, splits);
      tidy_edges (arrangement);
      unsettled = unsettled || has_fresh_vertex (arrangement);
    }
}
