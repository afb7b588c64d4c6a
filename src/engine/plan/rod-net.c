/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The net of the house. Faces are placed in clusters, a wall with the soffits that hang on it,
 * cluster after cluster along the joins; a cluster that would cover what lies there already is
 * moved away from the edge it hangs on, by just as much as needed. Reveals lie inside their wall
 * and take no room of their own. */

#include "config.h"

#include <math.h>

#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-net.h"
#include "engine/rod-limits.h"

/* Between parts of the house that nothing joins, and between faces moved apart. */
#define NET_SPACE_MM 600.0

typedef struct
{
  RodPoint low;
  RodPoint high;
} Box;

typedef struct
{
  RodPlan  *plan;
  gboolean *placed;
  GArray   *boxes; /* of Box: faces placed in this part of the house */
  GQueue   *open;  /* faces whose joins are still to be followed */
} Placer;

static gboolean
lies_in_wall (const RodFace *face)
{
  return face->parent >= 0;
}

static Box
face_box (const RodFace *face)
{
  Box box = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };

  for (guint p = 0; p < face->bare->n_points; p++)
    {
      RodPoint at = rod_affine_apply (face->net, face->bare->points[p]);

      box.low = (RodPoint){ MIN (box.low.x, at.x), MIN (box.low.y, at.y) };
      box.high = (RodPoint){ MAX (box.high.x, at.x), MAX (box.high.y, at.y) };
    }
  return box;
}

/* The map that lays @partner against @edge of an already placed face. */
static RodAffine
hang (const RodPlan *plan,
      guint          face,
      const RodEdge *edge)
{
  const RodFace *own = rod_plan_face (plan, face);
  const RodFace *partner = rod_plan_face (plan, (guint) edge->partner_face);
  const RodEdge *facing = &rod_plan_field (plan, partner->first_field)->edges[edge->partner_edge];
  RodPoint       a_from, a_to, b_from, b_to, turned;
  RodAffine      map = rod_affine_identity ();
  double         length_a, length_b, along;

  rod_edge_shifted (edge, -edge->build_up_mm, &a_from, &a_to);
  rod_edge_shifted (facing, -facing->build_up_mm, &b_from, &b_to);
  a_from = rod_affine_apply (own->net, a_from);
  a_to = rod_affine_apply (own->net, a_to);
  length_a = rod_point_distance (a_from, a_to);
  length_b = rod_point_distance (b_from, b_to);
  along = rod_edge_match_mm (plan, face, edge) / length_a;

  /* The rotation that turns the partner's edge against ours, from both unit directions. */
  map.xx =
    -((b_to.x - b_from.x) * (a_to.x - a_from.x) + (b_to.y - b_from.y) * (a_to.y - a_from.y)) /
    (length_a * length_b);
  map.yx =
    -((b_to.x - b_from.x) * (a_to.y - a_from.y) - (b_to.y - b_from.y) * (a_to.x - a_from.x)) /
    (length_a * length_b);
  map.xy = -map.yx;
  map.yy = map.xx;
  turned = rod_affine_apply (map, b_to);
  map.x0 = a_from.x + along * (a_to.x - a_from.x) - turned.x;
  map.y0 = a_from.y + along * (a_to.y - a_from.y) - turned.y;
  return map;
}

static void
mark_placed (Placer *placer,
             guint   face)
{
  placer->placed[face] = TRUE;
  g_queue_push_tail (placer->open, GUINT_TO_POINTER (face));
}

/* Faces that hang rigidly on a placed one: soffits on a wall, reveals in their wall. */
static void
hang_dependents (Placer *placer,
                 guint   face,
                 GArray *cluster)
{
  const RodField *field =
    rod_plan_field (placer->plan, rod_plan_face (placer->plan, face)->first_field);
  RodSurfaceKind kind = rod_plan_face (placer->plan, face)->surface->kind;

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      guint          other = (guint) edge->partner_face;
      RodFace       *partner;

      if (edge->partner_face < 0 || placer->placed[other])
        continue;
      partner = &g_array_index (placer->plan->faces, RodFace, other);
      if (!lies_in_wall (partner) &&
          !(kind == ROD_SURFACE_WALL && partner->surface->kind == ROD_SURFACE_SOFFIT))
        continue;
      partner->net = hang (placer->plan, face, edge);
      mark_placed (placer, other);
      g_array_append_val (cluster, other);
    }
}

/* How far a box must go along @away (an axis direction of length 1) to clear another. */
static double
clear_by (const Box *box,
          const Box *other,
          RodPoint   away)
{
  double over_x = MIN (box->high.x, other->high.x) - MAX (box->low.x, other->low.x);
  double over_y = MIN (box->high.y, other->high.y) - MAX (box->low.y, other->low.y);
  double by_x = INFINITY, by_y = INFINITY;

  if (over_x <= 1.0 || over_y <= 1.0)
    return 0.0;
  if (fabs (away.x) > ROD_EPSILON_MM)
    by_x = (away.x > 0.0 ? other->high.x - box->low.x : box->high.x - other->low.x) / fabs (away.x);
  if (fabs (away.y) > ROD_EPSILON_MM)
    by_y = (away.y > 0.0 ? other->high.y - box->low.y : box->high.y - other->low.y) / fabs (away.y);
  return MIN (by_x, by_y) + NET_SPACE_MM / 4.0;
}

static double
cluster_overlap (const Placer *placer,
                 const GArray *cluster,
                 RodPoint      away)
{
  double most = 0.0;

  for (guint c = 0; c < cluster->len; c++)
    {
      const RodFace *face = rod_plan_face (placer->plan, g_array_index (cluster, guint, c));
      Box            box;

      if (lies_in_wall (face))
        continue;
      box = face_box (face);
      for (guint b = 0; b < placer->boxes->len; b++)
        most = MAX (most, clear_by (&box, &g_array_index (placer->boxes, Box, b), away));
    }
  return most;
}

static void
move_cluster (Placer       *placer,
              const GArray *cluster,
              double        dx,
              double        dy)
{
  for (guint c = 0; c < cluster->len; c++)
    {
      RodFace *face =
        &g_array_index (placer->plan->faces, RodFace, g_array_index (cluster, guint, c));

      face->net.x0 += dx;
      face->net.y0 += dy;
    }
}

static void
keep_boxes (Placer       *placer,
            const GArray *cluster)
{
  for (guint c = 0; c < cluster->len; c++)
    {
      const RodFace *face = rod_plan_face (placer->plan, g_array_index (cluster, guint, c));
      Box            box = face_box (face);

      if (!lies_in_wall (face) && isfinite (box.low.x))
        g_array_append_val (placer->boxes, box);
    }
}

/* Places a face and what hangs on it, then makes room. @away points from the edge it hangs on. */
static void
place_cluster (Placer  *placer,
               guint    face,
               RodPoint away)
{
  g_autoptr (GArray) cluster = g_array_new (FALSE, FALSE, sizeof (guint));

  g_array_append_val (cluster, face);
  mark_placed (placer, face);
  hang_dependents (placer, face, cluster);
  for (guint tries = 0; tries < placer->boxes->len; tries++)
    {
      double by = cluster_overlap (placer, cluster, away);

      if (by <= 0.0)
        break;
      move_cluster (placer, cluster, by * away.x, by * away.y);
    }
  keep_boxes (placer, cluster);
}

static void
follow_joins (Placer *placer,
              guint   face)
{
  const RodFace  *own = rod_plan_face (placer->plan, face);
  const RodField *field = rod_plan_field (placer->plan, own->first_field);

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      RodPoint       from, to;
      double         length;

      if (edge->partner_face < 0 || placer->placed[edge->partner_face])
        continue;
      rod_edge_line (edge, &from, &to);
      from = rod_affine_apply (own->net, from);
      to = rod_affine_apply (own->net, to);
      length = rod_point_distance (from, to);
      g_array_index (placer->plan->faces, RodFace, edge->partner_face).net =
        hang (placer->plan, face, edge);
      place_cluster (placer,
                     (guint) edge->partner_face,
                     (RodPoint){ (to.y - from.y) / length, -(to.x - from.x) / length });
    }
}

/* Moves a finished part of the house so that it starts at @right; returns where it ends. */
static double
put_aside (Placer       *placer,
           const GArray *part,
           double        right)
{
  double low = INFINITY, high = -INFINITY;

  for (guint b = 0; b < placer->boxes->len; b++)
    {
      low = MIN (low, g_array_index (placer->boxes, Box, b).low.x);
      high = MAX (high, g_array_index (placer->boxes, Box, b).high.x);
    }
  if (!isfinite (low))
    return right;
  move_cluster (placer, part, right - low, 0.0);
  return right + high - low + NET_SPACE_MM;
}

void
rod_net_place (RodPlan *plan)
{
  Placer placer = {
    .plan = plan,
    .placed = g_new0 (gboolean, MAX (plan->faces->len, 1)),
    .boxes = g_array_new (FALSE, FALSE, sizeof (Box)),
    .open = g_queue_new (),
  };
  double right = 0.0;

  for (guint f = 0; f < plan->faces->len; f++)
    {
      g_autoptr (GArray) part = g_array_new (FALSE, FALSE, sizeof (guint));
      RodFace *root = &g_array_index (plan->faces, RodFace, f);

      if (placer.placed[f])
        continue;
      g_array_set_size (placer.boxes, 0);
      root->net.y0 = root->surface->level_mm;
      place_cluster (&placer, f, (RodPoint){ 1.0, 0.0 });
      while (!g_queue_is_empty (placer.open))
        {
          guint face = GPOINTER_TO_UINT (g_queue_pop_head (placer.open));

          g_array_append_val (part, face);
          follow_joins (&placer, face);
        }
      right = put_aside (&placer, part, right);
    }
  g_queue_free (placer.open);
  g_array_unref (placer.boxes);
  g_free (placer.placed);
}
