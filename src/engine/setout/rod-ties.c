/* SPDX-License-Identifier: GPL-3.0-or-later */

/* On a shared edge both faces see the same points. A point at t along edge A (unit direction e,
 * boards' normal n) has the height v = n·A.from + t·(n·e) over A's joint lines; on B, whose edge
 * runs the other way, v = n·B.to − (t − t0)·(n·e). Joint lines meet where both are joint lines,
 * which gives phase B = shift + scale × phase A modulo the cover, with scale = −k_B/k_A, provided
 * both repeat at the same distance along the edge, or one at a whole part of the other's.
 *
 * Boards that run along the edge have no lines to meet; where they are to mirror each other, a line
 * at the distance d from the edge on A has its like at d on B. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/geometry/rod-numbers.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-field.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-ties.h"

/* Boards nearly along an edge would repeat at absurd distances; they do not tie. */
#define LEAST_CROSSING 0.02

/* A tie with what its place in the list depends on. */
typedef struct
{
  RodTie tie;
  int    turn;   /* zones, joins, joins that take the misfit */
  double weight; /* of what is seen */
  guint  low;    /* the ranks of both surfaces, by their ids */
  guint  high;
} Ranked;

/* Part of a shared edge along which one field of a face lies, from the edge's start. */
typedef struct
{
  guint  field;
  double from_mm;
  double to_mm;
} Stretch;

typedef struct
{
  RodPlan *plan;
  GArray  *ranked;
} Collector;

static double
slope_of (const RodField *field,
          RodPoint        from,
          RodPoint        to)
{
  double length = rod_point_distance (from, to);

  return (field->to_board.yx * (to.x - from.x) + field->to_board.yy * (to.y - from.y)) / length;
}

/* The greater distance a whole multiple of the less: every line of the one meets one of the
 * other. */
static gboolean
is_commensurable (double a_mm,
                  double b_mm)
{
  double close_mm = MIN (a_mm, b_mm);
  double wide_mm = MAX (a_mm, b_mm);

  return fabs (remainder (wide_mm, close_mm)) < ROD_SNAP_MM / 10.0;
}

static gboolean
relate_crossing (RodTie         *tie,
                 const RodField *field_a,
                 const RodField *field_b,
                 const RodPoint *a,
                 const RodPoint *b,
                 double          along_mm)
{
  double ka = slope_of (field_a, a[0], a[1]);
  double kb = slope_of (field_b, b[0], b[1]);

  if (fabs (ka) < LEAST_CROSSING || fabs (kb) < LEAST_CROSSING)
    return FALSE;
  tie->pitch_a_mm = field_a->board->cover_mm / fabs (ka);
  tie->pitch_b_mm = field_b->board->cover_mm / fabs (kb);
  tie->kind =
    is_commensurable (tie->pitch_a_mm, tie->pitch_b_mm) ? ROD_TIE_MEETS : ROD_TIE_UNEQUAL;
  tie->scale = -kb / ka;
  tie->shift_mm = rod_affine_apply (field_b->to_board, b[1]).y + along_mm * kb -
                  tie->scale * rod_affine_apply (field_a->to_board, a[0]).y;
  tie->period_mm = MIN (tie->pitch_a_mm, tie->pitch_b_mm) * fabs (kb);
  return TRUE;
}

/* The clad side lies to the left of an edge: boards that run along it are above it where it runs to
 * their right. */
static double
inwards_of (const RodField *field,
            const RodPoint *line)
{
  return rod_affine_apply (field->to_board, line[1]).x >
             rod_affine_apply (field->to_board, line[0]).x
           ? 1.0
           : -1.0;
}

static gboolean
relate_along (RodTie         *tie,
              const RodField *field_a,
              const RodField *field_b,
              const RodPoint *a,
              const RodPoint *b)
{
  double edge_a_mm = rod_affine_apply (field_a->to_board, a[0]).y;
  double edge_b_mm = rod_affine_apply (field_b->to_board, b[0]).y;

  if (field_a->edges[tie->edge].relation != ROD_BOARDS_ALONG ||
      fabs (slope_of (field_b, b[0], b[1])) * 1000.0 > ROD_SNAP_MM)
    return FALSE;
  tie->kind = ROD_TIE_MIRRORS;
  tie->pitch_a_mm = field_a->board->cover_mm;
  tie->pitch_b_mm = field_b->board->cover_mm;
  tie->scale = inwards_of (field_a, a) * inwards_of (field_b, b);
  tie->shift_mm = edge_b_mm - tie->scale * edge_a_mm;
  tie->period_mm = MIN (tie->pitch_a_mm, tie->pitch_b_mm);
  if (!is_commensurable (tie->pitch_a_mm, tie->pitch_b_mm))
    tie->kind = ROD_TIE_UNEQUAL;
  return TRUE;
}

static double
weight_of_face (const RodPlan *plan,
                guint          face)
{
  return rod_seen_weight (plan->house->seen_weights, rod_plan_face (plan, face)->surface->seen);
}

static void
add_tie (Collector *self,
         RodTie    *tie,
         int        turn)
{
  guint  face_a = rod_plan_field (self->plan, tie->a)->face;
  guint  face_b = rod_plan_field (self->plan, tie->b)->face;
  guint  rank_a = rod_plan_face (self->plan, face_a)->rank;
  guint  rank_b = rod_plan_face (self->plan, face_b)->rank;
  Ranked ranked = {
    .tie = *tie,
    .turn = turn,
    .weight = MAX (weight_of_face (self->plan, face_a), weight_of_face (self->plan, face_b)),
    .low = MIN (rank_a, rank_b),
    .high = MAX (rank_a, rank_b),
  };

  g_array_append_val (self->ranked, ranked);
}

static void
tie_fields (Collector *self,
            guint      face,
            guint      edge_index,
            guint      field_a,
            guint      field_b)
{
  const RodField *a = rod_plan_field (self->plan, field_a);
  const RodField *b = rod_plan_field (self->plan, field_b);
  const RodEdge  *edge = &a->edges[edge_index];
  const RodEdge  *facing = &b->edges[edge->partner_edge];
  RodTie          tie = { .a = field_a, .b = field_b, .edge = edge_index };
  RodPoint        a_line[2], b_line[2];
  gboolean        tied;

  rod_edge_shifted (edge, -edge->build_up_mm, &a_line[0], &a_line[1]);
  rod_edge_shifted (facing, -facing->build_up_mm, &b_line[0], &b_line[1]);
  tied = edge->join != NULL && edge->join->mirrors && relate_along (&tie, a, b, a_line, b_line);
  if (!tied && edge->carries_joints)
    tied = relate_crossing (&tie, a, b, a_line, b_line, rod_edge_match_mm (self->plan, face, edge));
  if (tied)
    add_tie (self, &tie, edge->join != NULL && edge->join->takes_misfit ? 2 : 1);
}

/* Where zones may begin or end along an edge: at their corners, for a zone is drawn to reach it. */
static GArray *
stretch_ends (const RodFace *face,
              RodPoint       from,
              RodPoint       to)
{
  GArray *ends = g_array_new (FALSE, FALSE, sizeof (double));
  double  length_mm = rod_point_distance (from, to);
  double  nothing = 0.0;

  g_array_append_val (ends, nothing);
  g_array_append_val (ends, length_mm);
  for (guint z = 0; z < face->surface->zones->len; z++)
    {
      const RodZone *zone = face->surface->zones->pdata[z];

      for (guint c = 0; c < zone->corners->len; c++)
        {
          const RodCorner *corner = zone->corners->pdata[c];
          double           along_mm = ((corner->x - from.x) * (to.x - from.x) +
                             (corner->y - from.y) * (to.y - from.y)) /
                            length_mm;

          if (along_mm > 0.0 && along_mm < length_mm)
            g_array_append_val (ends, along_mm);
        }
    }
  rod_numbers_sort (ends);
  return ends;
}

/* Every field of a face lists the edges of its outline alike. */
static const RodEdge *
edge_of (const RodPlan *plan,
         guint          face,
         guint          edge)
{
  return &rod_plan_field (plan, rod_plan_face (plan, face)->first_field)->edges[edge];
}

/* Which fields of a face lie along an edge, and where. */
static GArray *
stretches_of (const RodPlan *plan,
              guint          face_index,
              guint          edge_index)
{
  const RodFace *face = rod_plan_face (plan, face_index);
  const RodEdge *edge = edge_of (plan, face_index, edge_index);
  GArray        *stretches = g_array_new (FALSE, FALSE, sizeof (Stretch));
  RodPoint       from, to;
  g_autoptr (GArray) ends = NULL;

  rod_edge_shifted (edge, 1.0, &from, &to);
  ends = stretch_ends (face, from, to);
  for (guint i = 0; i + 1 < ends->len; i++)
    for (guint f = 0; f < face->n_fields; f++)
      {
        Stretch stretch = { face->first_field + f,
                            g_array_index (ends, double, i),
                            g_array_index (ends, double, i + 1) };
        double  middle =
          (stretch.from_mm + stretch.to_mm) / 2.0 / g_array_index (ends, double, ends->len - 1);
        RodPoint at = { from.x + middle * (to.x - from.x), from.y + middle * (to.y - from.y) };

        if (stretch.to_mm - stretch.from_mm > ROD_SNAP_MM &&
            rod_field_contains (rod_plan_field (plan, stretch.field), at))
          g_array_append_val (stretches, stretch);
      }
  return stretches;
}

/* Every pair of fields that really lie opposite each other, once. */
static void
tie_stretches (Collector *self,
               guint      face,
               guint      edge_index)
{
  const RodPlan *plan = self->plan;
  const RodEdge *edge = edge_of (plan, face, edge_index);
  const RodEdge *partner =
    edge_of (plan, (guint) edge->partner_face, (guint) edge->partner_edge);
  double facing_mm = rod_point_distance (partner->raw.from, partner->raw.to);
  double match_mm = rod_edge_match_mm (plan, face, edge);
  g_autoptr (GArray) own = stretches_of (plan, face, edge_index);
  g_autoptr (GArray) facing =
    stretches_of (plan, (guint) edge->partner_face, (guint) edge->partner_edge);
  g_autoptr (GHashTable) tied = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < own->len; i++)
    for (guint k = 0; k < facing->len; k++)
      {
        const Stretch *one = &g_array_index (own, Stretch, i);
        const Stretch *other = &g_array_index (facing, Stretch, k);
        /* The partner's edge ends at match_mm along ours and runs against it. */
        double   from_mm = match_mm + facing_mm - other->to_mm;
        double   to_mm = match_mm + facing_mm - other->from_mm;
        gpointer pair = GUINT_TO_POINTER (one->field * plan->fields->len + other->field + 1);

        if (MIN (one->to_mm, to_mm) - MAX (one->from_mm, from_mm) > ROD_SNAP_MM &&
            g_hash_table_add (tied, pair))
          tie_fields (self, face, edge_index, one->field, other->field);
      }
}

static void
tie_joins (Collector *self,
           guint      face_index)
{
  const RodFace  *face = rod_plan_face (self->plan, face_index);
  const RodField *field = rod_plan_field (self->plan, face->first_field);

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      const RodFace *partner;

      if (edge->partner_face <= (int) face_index)
        continue;
      partner = rod_plan_face (self->plan, (guint) edge->partner_face);
      if (face->n_fields == 1 && partner->n_fields == 1)
        tie_fields (self, face_index, e, face->first_field, partner->first_field);
      else
        tie_stretches (self, face_index, e);
    }
}

static void
tie_zones (Collector *self,
           guint      face_index)
{
  const RodFace *face = rod_plan_face (self->plan, face_index);

  for (guint i = 1; i < face->n_fields; i++)
    for (guint k = 0; k < i; k++)
      {
        const RodField *one = rod_plan_field (self->plan, face->first_field + k);
        const RodField *other = rod_plan_field (self->plan, face->first_field + i);
        double          cover_mm = one->board->cover_mm;
        RodTie          tie = { .kind = ROD_TIE_ZONES,
                                .a = face->first_field + k,
                                .b = face->first_field + i,
                                .scale = 1.0,
                                .period_mm = cover_mm,
                                .pitch_a_mm = cover_mm,
                                .pitch_b_mm = cover_mm };

        if (rod_field_boards_alike (one, other))
          add_tie (self, &tie, 0);
      }
}

static const char *
surface_id (const RodPlan *plan,
            guint          face)
{
  const RodFace *own = rod_plan_face (plan, face);

  return own->parent >= 0 ? rod_plan_face (plan, (guint) own->parent)->surface->id
                          : own->surface->id;
}

static gint
compare_faces (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  const guint *one = a;
  const guint *other = b;

  return strcmp (surface_id (user_data, *one), surface_id (user_data, *other));
}

/* Reveals rank with their wall, in their order. */
static void
rank_faces (RodPlan *plan)
{
  g_autoptr (GArray) faces = g_array_sized_new (FALSE, FALSE, sizeof (guint), plan->faces->len);

  for (guint f = 0; f < plan->faces->len; f++)
    g_array_append_val (faces, f);
  g_array_sort_with_data (faces, compare_faces, plan);
  for (guint rank = 0; rank < faces->len; rank++)
    g_array_index (plan->faces, RodFace, g_array_index (faces, guint, rank)).rank = rank;
}

static gint
compare_ranked (gconstpointer a,
                gconstpointer b)
{
  const Ranked *one = a;
  const Ranked *other = b;

  if (one->turn != other->turn)
    return one->turn - other->turn;
  if (fabs (one->weight - other->weight) > 0.0)
    return one->weight > other->weight ? -1 : 1;
  if (one->low != other->low)
    return one->low < other->low ? -1 : 1;
  if (one->high != other->high)
    return one->high < other->high ? -1 : 1;
  return 0;
}

void
rod_ties_collect (RodPlan *plan)
{
  Collector self = { plan, g_array_new (FALSE, FALSE, sizeof (Ranked)) };

  rank_faces (plan);
  for (guint f = 0; f < plan->faces->len; f++)
    {
      tie_zones (&self, f);
      tie_joins (&self, f);
    }
  g_array_sort (self.ranked, compare_ranked);
  for (guint i = 0; i < self.ranked->len; i++)
    g_array_append_val (plan->ties, g_array_index (self.ranked, Ranked, i).tie);
  g_array_unref (self.ranked);
}
