/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where battens go. Lines are needed beside edges, openings and length joints; between them as many
 * more as keep the centres, evenly. Lines are places on the axis square to the battens, here called
 * q: x for upright battens, y for level ones. */

#include "config.h"

#include <math.h>

#include "engine/frame/rod-batten-lines.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-field.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"

/* What most fields need: their lists then never grow. */
#define ROOM 16

/* Lines while they are found. */
typedef struct
{
  const RodBattenLayer *layer;
  GArray               *lines;  /* of RodBattenLine */
  GArray               *joints; /* of RodBattenLine: those that stand at length joints */
} Needs;

gboolean
rod_battens_upright (double direction_deg)
{
  return fabs (cos (direction_deg * G_PI / 180.0)) > G_SQRT2 / 2.0 - ROD_PARALLEL_SINE;
}

double
rod_batten_pitch_mm (double centres_mm,
                     double direction_deg)
{
  double angle = direction_deg * G_PI / 180.0;

  return centres_mm * MAX (fabs (cos (angle)), fabs (sin (angle)));
}

RodBattenLayer
rod_batten_layer (const RodPlan  *plan,
                  const RodField *field,
                  gboolean        counter)
{
  const RodFace  *face = rod_plan_face (plan, field->face);
  const RodRules *rules = face->system->rules;
  gboolean        soffit = face->surface->kind == ROD_SURFACE_SOFFIT;
  double          centres_mm = soffit ? rules->soffit_centres_mm : rules->batten_centres_mm;

  if (counter)
    return (RodBattenLayer){
      .plan = plan,
      .field = field,
      .rules = rules,
      .width_mm = face->system->counter_batten->width_mm,
      .pitch_mm = rules->counter_centres_mm,
      .upright = TRUE,
      .counter = TRUE,
    };
  return (RodBattenLayer){
    .plan = plan,
    .field = field,
    .rules = rules,
    .width_mm = face->system->batten->width_mm,
    .pitch_mm = rod_batten_pitch_mm (centres_mm, field->direction_deg),
    .upright = rod_battens_upright (field->direction_deg),
  };
}

static double
q_of (const RodBattenLayer *layer,
      RodPoint              at)
{
  return layer->upright ? at.x : at.y;
}

const RodRegion *
rod_batten_layer_area (const RodBattenLayer *layer)
{
  const RodFace *face = rod_plan_face (layer->plan, layer->field->face);

  return layer->field->zone == NULL && face->n_fields == 1 ? face->bare : layer->field->clad;
}

static void
need_line (const Needs *needs,
           double       q,
           guint        uses)
{
  RodBattenLine line = { q, uses };

  g_array_append_val (needs->lines, line);
}

guint
rod_batten_edge_uses (const RodEdge *edge)
{
  if (edge->condition == ROD_EDGE_OUTSIDE_CORNER || edge->condition == ROD_EDGE_INSIDE_CORNER)
    return ROD_BATTEN_CORNER;
  return edge->opening >= 0 ? ROD_BATTEN_OPENING : ROD_BATTEN_EDGE;
}

/* Whether an edge runs along the battens, and where the batten beside it goes. */
static gboolean
runs_along (const Needs   *needs,
            const RodEdge *edge,
            double        *q)
{
  RodPoint from, to;

  if (fabs (edge->raw.bulge) > 0.0)
    return FALSE;
  rod_edge_shifted (edge, needs->layer->rules->batten_edge_mm - edge->build_up_mm, &from, &to);
  *q = q_of (needs->layer, from);
  return fabs (*q - q_of (needs->layer, to)) < ROD_SNAP_MM;
}

/* A curved or slanting side of an opening at which boards end: a batten beside the place where it
 * reaches furthest into them, on either side. Rings keep the clad area to their left. */
static void
need_furthest (const Needs *needs,
               guint        edge)
{
  const RodRegion *clad = needs->layer->field->clad;
  double           low = INFINITY, high = -INFINITY;

  for (guint r = 0; r < clad->n_rings; r++)
    for (guint p = clad->ring_starts[r]; p < clad->ring_starts[r + 1]; p++)
      {
        RodPoint a = clad->points[p];
        RodPoint b = clad->points[p + 1 < clad->ring_starts[r + 1] ? p + 1 : clad->ring_starts[r]];
        double   inwards = needs->layer->upright ? a.y - b.y : b.x - a.x;

        if (clad->tags[p] != (int) edge)
          continue;
        if (inwards < 0.0)
          low = MIN (low, MIN (q_of (needs->layer, a), q_of (needs->layer, b)));
        if (inwards > 0.0)
          high = MAX (high, MAX (q_of (needs->layer, a), q_of (needs->layer, b)));
      }
  if (isfinite (low))
    need_line (needs, low - needs->layer->rules->batten_edge_mm, ROD_BATTEN_OPENING);
  if (isfinite (high))
    need_line (needs, high + needs->layer->rules->batten_edge_mm, ROD_BATTEN_OPENING);
}

/* A step in a base: what stands on its upper tread ends there, too, over what lies beside it. */
static gboolean
is_riser (const RodField *field,
          guint           edge)
{
  const RodEdge *side = &field->edges[edge];
  guint          n = 0;

  if (side->opening >= 0 || side->zone >= 0)
    return FALSE;
  while (n < field->n_edges && field->edges[n].opening < 0 && field->edges[n].zone < 0)
    n++;
  return field->edges[(edge + n - 1) % n].condition == ROD_EDGE_BASE &&
         field->edges[(edge + 1) % n].condition == ROD_EDGE_BASE;
}

/* The other side of an edge, as far away. */
static double
beyond_edge (const Needs   *needs,
             const RodEdge *edge)
{
  RodPoint from, to;

  rod_edge_shifted (edge, -needs->layer->rules->batten_edge_mm - edge->build_up_mm, &from, &to);
  return q_of (needs->layer, from);
}

/* Edges that run along the battens need one beside them, at the edge distance. Boards are simply
 * cut round pipes and lights. */
static void
need_edges (const Needs *needs)
{
  const RodField *field = needs->layer->field;

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      double         q;

      if (edge->yields || rod_edge_trimless (needs->layer->plan, field, edge))
        continue;
      if (runs_along (needs, edge, &q))
        {
          need_line (needs, q, rod_batten_edge_uses (edge));
          if (is_riser (field, e))
            need_line (needs, beyond_edge (needs, edge), rod_batten_edge_uses (edge));
        }
      else if (edge->opening >= 0 && !edge->long_side && !needs->layer->counter)
        need_furthest (needs, e);
    }
}

/* Columns that run along the battens get one on either side. */
static void
need_columns (const Needs *needs)
{
  const RodField *field = needs->layer->field;

  for (guint c = 0; c < field->n_columns; c++)
    {
      RodPoint low = rod_affine_apply (field->to_surface, (RodPoint){ field->columns[c], 0.0 });
      RodPoint high = rod_affine_apply (field->to_surface, (RodPoint){ field->columns[c], 1.0 });
      double   q = q_of (needs->layer, low);

      if (fabs (q - q_of (needs->layer, high)) > ROD_EPSILON_MM)
        continue;
      for (int side = -1; side <= 1; side += 2)
        {
          RodBattenLine line = { q + side * needs->layer->rules->double_batten_mm,
                                 ROD_BATTEN_JOINT };

          g_array_append_val (needs->joints, line);
        }
    }
}

/* A butt joint as battens see it. */
typedef struct
{
  double   q;
  double   backing_q;
  gboolean paired;
} Butt;

static gint
compare_butts (gconstpointer a,
               gconstpointer b)
{
  const Butt *one = a;
  const Butt *other = b;

  return (one->backing_q > other->backing_q) - (one->backing_q < other->backing_q);
}

static GArray *
list_butts (const RodBattenLayer *layer)
{
  const RodField *field = layer->field;
  GArray         *butts = g_array_sized_new (FALSE, FALSE, sizeof (Butt), field->n_joints);

  for (guint j = 0; j < field->n_joints; j++)
    {
      const RodLengthJoint *joint = &field->joints[j];
      const RodPoint        ends[] = { { joint->at_mm, 0.0 }, { joint->backing_mm, 0.0 } };
      Butt                  butt = {
                         q_of (layer, rod_affine_apply (field->to_surface, ends[0])),
                         q_of (layer, rod_affine_apply (field->to_surface, ends[1])),
                         joint->paired,
      };

      g_array_append_val (butts, butt);
    }
  g_array_sort (butts, compare_butts);
  return butts;
}

/* Joints whose battens would lie on each other share them: as many side by side as it takes that
 * both boards bear at every joint. One batten mostly does; on the line of a jamb two meet. */
static void
back_butts (const Needs *needs,
            const Butt  *butts,
            guint        n)
{
  double   width_mm = needs->layer->width_mm;
  double   centre = (butts[0].backing_q + butts[n - 1].backing_q) / 2.0;
  double   half_mm = 0.0;
  gboolean paired = FALSE;
  int      count;

  for (guint i = 0; i < n; i++)
    {
      half_mm = MAX (half_mm, fabs (butts[i].q - centre) + needs->layer->field->butt_reach_mm);
      paired = paired || butts[i].paired;
    }
  count = MAX (1, (int) ceil (2.0 * half_mm / width_mm - ROD_EPSILON_MM));
  count += paired && count % 2 == 1;
  for (int b = 0; b < count; b++)
    {
      RodBattenLine line = { centre + (b - (count - 1) / 2.0) * width_mm, ROD_BATTEN_JOINT };

      g_array_append_val (needs->joints, line);
    }
}

static void
need_butts (const Needs *needs)
{
  g_autoptr (GArray) butts = list_butts (needs->layer);

  for (guint i = 0, n; i < butts->len; i += n)
    {
      const Butt *first = &g_array_index (butts, Butt, i);

      for (n = 1; i + n < butts->len &&
                  first[n].backing_q - first[n - 1].backing_q < needs->layer->width_mm;
           n++)
        ;
      back_butts (needs, first, n);
    }
}

static gint
compare_lines (gconstpointer a,
               gconstpointer b)
{
  const RodBattenLine *one = a;
  const RodBattenLine *other = b;

  return (one->q > other->q) - (one->q < other->q);
}

/* The joint's batten that a line would lie on. */
static RodBattenLine *
find_joint (const Needs *needs,
            double       q)
{
  RodBattenLine *nearest = NULL;

  for (guint i = 0; i < needs->joints->len; i++)
    {
      RodBattenLine *joint = &g_array_index (needs->joints, RodBattenLine, i);

      if (fabs (joint->q - q) < needs->layer->width_mm &&
          (nearest == NULL || fabs (joint->q - q) < fabs (nearest->q - q)))
        nearest = joint;
    }
  return nearest;
}

/* Lines each nearer to the next than a batten is wide: one batten in their middle, or as many side
 * by side as it takes that each line has one under it. */
static void
serve_bundle (const Needs         *needs,
              const RodBattenLine *lines,
              guint                n)
{
  double extent_mm = lines[n - 1].q - lines[0].q;
  int    count = (int) floor (extent_mm / needs->layer->width_mm) + 1;

  for (int b = 0; b < count; b++)
    {
      double        beside = b - (count - 1) / 2.0;
      RodBattenLine batten = { lines[0].q + extent_mm / 2.0 + beside * needs->layer->width_mm, 0 };

      for (guint i = 0; i < n; i++)
        if (fabs (lines[i].q - batten.q) <= needs->layer->width_mm / 2.0 + ROD_EPSILON_MM)
          batten.uses |= lines[i].uses;
      g_array_append_val (needs->lines, batten);
    }
}

/* Lines that would lie on each other are served together. The two battens of a length joint stay
 * where they are, and serve what would lie on them. */
static void
merge_lines (const Needs *needs)
{
  g_autoptr (GArray) needed = g_array_sized_new (FALSE, FALSE, sizeof (RodBattenLine), ROOM);

  for (guint i = 0; i < needs->lines->len; i++)
    {
      const RodBattenLine *line = &g_array_index (needs->lines, RodBattenLine, i);
      RodBattenLine       *joint = find_joint (needs, line->q);

      if (joint != NULL)
        joint->uses |= line->uses;
      else
        g_array_append_val (needed, *line);
    }
  g_array_sort (needed, compare_lines);
  g_array_set_size (needs->lines, 0);
  for (guint i = 0, n; i < needed->len; i += n)
    {
      const RodBattenLine *lines = &g_array_index (needed, RodBattenLine, i);

      for (n = 1; i + n < needed->len && lines[n].q - lines[n - 1].q < needs->layer->width_mm; n++)
        ;
      serve_bundle (needs, lines, n);
    }
  g_array_append_vals (needs->lines, needs->joints->data, needs->joints->len);
  g_array_sort (needs->lines, compare_lines);
}

/* Where no edge runs along the battens near an end of the area, as below the rakes of a gable, the
 * frame still begins at the edge distance from that end. */
static void
need_ends (const Needs *needs)
{
  GArray  *lines = needs->lines;
  RodPoint low, high;
  double   first, last;

  rod_region_extent (rod_batten_layer_area (needs->layer), &low, &high);
  first = q_of (needs->layer, low) + needs->layer->rules->batten_edge_mm;
  last = q_of (needs->layer, high) - needs->layer->rules->batten_edge_mm;
  if (first > last)
    first = last = (first + last) / 2.0;
  if (lines->len == 0 ||
      g_array_index (lines, RodBattenLine, lines->len - 1).q < last - needs->layer->pitch_mm)
    need_line (needs, last, ROD_BATTEN_EDGE);
  if (g_array_index (lines, RodBattenLine, 0).q > first + needs->layer->pitch_mm)
    need_line (needs, first, ROD_BATTEN_EDGE);
  g_array_sort (lines, compare_lines);
}

static void
fill_lines (const Needs *needs)
{
  guint n = needs->lines->len;

  for (guint i = 0; i + 1 < n; i++)
    {
      double from = g_array_index (needs->lines, RodBattenLine, i).q;
      double to = g_array_index (needs->lines, RodBattenLine, i + 1).q;
      int    bays = (int) ceil ((to - from) / needs->layer->pitch_mm - ROD_EPSILON_MM);

      for (int b = 1; b < bays; b++)
        need_line (needs, from + (to - from) * b / bays, ROD_BATTEN_FIELD);
    }
  g_array_sort (needs->lines, compare_lines);
}

GArray *
rod_batten_lines (const RodBattenLayer *layer)
{
  Needs needs = {
    .layer = layer,
    .lines = g_array_sized_new (FALSE, FALSE, sizeof (RodBattenLine), ROOM),
    .joints = g_array_sized_new (FALSE, FALSE, sizeof (RodBattenLine), ROOM),
  };

  need_edges (&needs);
  if (!layer->counter)
    need_columns (&needs);
  if (!layer->counter && rod_field_has_butt_joints (layer->field))
    need_butts (&needs);
  merge_lines (&needs);
  need_ends (&needs);
  fill_lines (&needs);
  g_array_unref (needs.joints);
  return needs.lines;
}
