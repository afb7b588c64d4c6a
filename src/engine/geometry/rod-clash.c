/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds out whether rings are simple.
 *
 * An upright line sweeps the edges from left to right, points with the same x from below (as if it
 * leaned ever so little). Edges under the line are kept in order from bottom to top. The leftmost
 * clash is between two edges that were neighbours in that order just before, so that it is enough
 * to compare new neighbours: when an edge begins, and when the one between two others ends. At one
 * point beginnings are handled before ends, which makes two corners at the same place neighbours
 * too. After M. I. Shamos and D. Hoey, "Geometric intersection problems", 1976 (from memory). All
 * predicates are signs of integers: no rounding can lose or invent a clash.
 */
#include "engine/geometry/rod-clash.h"

#include "engine/geometry/rod-geometry-private.h"

#include <stdlib.h>

typedef struct
{
  RodGridPoint left;
  RodGridPoint right;
  guint        next; /* the edge that begins where this one ends, along the ring */
  int          tag;
} SweptEdge;

typedef struct
{
  RodGridPoint at;
  gboolean     is_end;
  guint        edge;
} SweepEvent;

static gboolean
on_segment (RodGridPoint     point,
            const SweptEdge *edge)
{
  return rod_grid_turn (edge->left, edge->right, point) == 0 &&
         !rod_grid_point_before (point, edge->left) && !rod_grid_point_before (edge->right, point);
}

/* Edges beside each other on a ring clash only when the second folds back onto the first. */
static gboolean
folds_back (const SweptEdge *a,
            const SweptEdge *b)
{
  RodGridPoint a_far = a->left;
  RodGridPoint b_far = b->left;

  if (rod_grid_point_equal (a->left, b->left) || rod_grid_point_equal (a->left, b->right))
    a_far = a->right;
  if (rod_grid_point_equal (b->left, a->left) || rod_grid_point_equal (b->left, a->right))
    b_far = b->right;
  return on_segment (a_far, b) || on_segment (b_far, a);
}

static RodPoint
crossing_of (const SweptEdge *a,
             const SweptEdge *b)
{
  double from = (double) rod_grid_cross (b->left, b->right, a->left);
  double to = (double) rod_grid_cross (b->left, b->right, a->right);
  double share = from / (from - to);

  return (RodPoint){
    rod_grid_to_mm (a->left.x) + share * rod_grid_to_mm (a->right.x - a->left.x),
    rod_grid_to_mm (a->left.y) + share * rod_grid_to_mm (a->right.y - a->left.y),
  };
}

static gboolean
ends_touch (const SweptEdge *a,
            const SweptEdge *b,
            RodPoint        *where)
{
  const SweptEdge   *others[] = { b, b, a, a };
  const RodGridPoint ends[] = { a->left, a->right, b->left, b->right };

  for (guint i = 0; i < G_N_ELEMENTS (ends); i++)
    {
      if (on_segment (ends[i], others[i]))
        {
          *where = (RodPoint){ rod_grid_to_mm (ends[i].x), rod_grid_to_mm (ends[i].y) };
          return TRUE;
        }
    }
  return FALSE;
}

/* Whether the line through @a does not part the ends of @b. */
static gboolean
does_not_part (const SweptEdge *a,
               const SweptEdge *b)
{
  return rod_grid_turn (a->left, a->right, b->left) *
           rod_grid_turn (a->left, a->right, b->right) >=
         0;
}

static gboolean
edges_clash (const SweptEdge *edges,
             const SweptEdge *a,
             const SweptEdge *b,
             RodClash        *clash)
{
  gboolean are_beside = &edges[a->next] == b || &edges[b->next] == a;
  RodPoint where;

  if (are_beside && !folds_back (a, b))
    return FALSE;

  if (!ends_touch (a, b, &where))
    {
      if (does_not_part (a, b) || does_not_part (b, a))
        return FALSE;
      where = crossing_of (a, b);
    }
  *clash = (RodClash){ where, MIN (a->tag, b->tag), MAX (a->tag, b->tag) };
  return TRUE;
}

/* Whether @a, which begins first, lies below @b (negative) where @b begins. */
static int
compare_from (const SweptEdge *a,
              const SweptEdge *b)
{
  int turn = rod_grid_turn (a->left, a->right, b->left);

  if (turn == 0)
    turn = rod_grid_turn (a->left, a->right, b->right);
  return -turn;
}

static int
compare_edges (gconstpointer first,
               gconstpointer second,
               gpointer      data)
{
  const SweptEdge *a = first;
  const SweptEdge *b = second;
  int              order;

  if (a == b)
    return 0;

  order = rod_grid_point_before (b->left, a->left) ? -compare_from (b, a) : compare_from (a, b);
  return order != 0 ? order : (a > b) - (a < b);
}

static int
compare_events (const void *first,
                const void *second)
{
  const SweepEvent *a = first;
  const SweepEvent *b = second;

  if (!rod_grid_point_equal (a->at, b->at))
    return rod_grid_point_before (a->at, b->at) ? -1 : 1;
  if (a->is_end != b->is_end)
    return a->is_end ? 1 : -1;
  return (a->edge > b->edge) - (a->edge < b->edge);
}

static GArray *
collect_edges (const RodPath *path)
{
  GArray *edges = g_array_sized_new (FALSE, FALSE, sizeof (SweptEdge), path->corners->len);

  for (guint ring = 0; ring + 1 < path->ring_starts->len; ring++)
    {
      guint start = g_array_index (path->ring_starts, guint, ring);
      guint end = g_array_index (path->ring_starts, guint, ring + 1);

      for (guint i = start; i < end; i++)
        {
          guint                next = i + 1 < end ? i + 1 : start;
          const RodPathCorner *from = &g_array_index (path->corners, RodPathCorner, i);
          const RodPathCorner *to = &g_array_index (path->corners, RodPathCorner, next);
          RodGridPoint         a = { rod_grid_from_mm (from->at.x), rod_grid_from_mm (from->at.y) };
          RodGridPoint         b = { rod_grid_from_mm (to->at.x), rod_grid_from_mm (to->at.y) };
          gboolean             is_forward = rod_grid_point_before (a, b);
          SweptEdge            edge = {
                       .left = is_forward ? a : b,
                       .right = is_forward ? b : a,
                       .next = next,
                       .tag = from->tag,
          };

          g_array_append_val (edges, edge);
        }
    }
  return edges;
}

static GArray *
collect_events (const GArray *edges)
{
  GArray *events = g_array_sized_new (FALSE, FALSE, sizeof (SweepEvent), 2 * edges->len);

  for (guint i = 0; i < edges->len; i++)
    {
      const SweptEdge *edge = &g_array_index (edges, SweptEdge, i);
      SweepEvent       pair[] = { { edge->left, FALSE, i }, { edge->right, TRUE, i } };

      g_array_append_vals (events, pair, G_N_ELEMENTS (pair));
    }
  qsort (events->data, events->len, sizeof (SweepEvent), compare_events);
  return events;
}

static gboolean
nodes_clash (const SweptEdge *edges,
             GTreeNode       *below,
             GTreeNode       *above,
             RodClash        *clash)
{
  return below != NULL && above != NULL &&
         edges_clash (edges, g_tree_node_key (below), g_tree_node_key (above), clash);
}

/* Handles one beginning or end; says whether new neighbours clash. */
static gboolean
step (GTree            *order,
      SweptEdge        *edges,
      const SweepEvent *event,
      RodClash         *clash)
{
  SweptEdge *edge = &edges[event->edge];
  GTreeNode *node, *below, *above;

  if (!event->is_end)
    {
      node = g_tree_insert_node (order, edge, NULL);
      return nodes_clash (edges, g_tree_node_previous (node), node, clash) ||
             nodes_clash (edges, node, g_tree_node_next (node), clash);
    }

  node = g_tree_lookup_node (order, edge);
  below = g_tree_node_previous (node);
  above = g_tree_node_next (node);
  if (nodes_clash (edges, below, above, clash))
    return TRUE;
  g_tree_remove (order, edge);
  return FALSE;
}

gboolean
rod_path_find_clash (const RodPath *path,
                     RodClash      *clash)
{
  g_autoptr (GArray) edges = NULL;
  g_autoptr (GArray) events = NULL;
  g_autoptr (GTree) order = NULL;

  g_return_val_if_fail (path != NULL && clash != NULL, FALSE);

  edges = collect_edges (path);
  events = collect_events (edges);
  order = g_tree_new_full (compare_edges, NULL, NULL, NULL);
  for (guint i = 0; i < events->len; i++)
    {
      const SweepEvent *event = &g_array_index (events, SweepEvent, i);

      if (step (order, &g_array_index (edges, SweptEdge, 0), event, clash))
        return TRUE;
    }
  return FALSE;
}
