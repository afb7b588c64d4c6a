/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Battens. They stand upright or lie level, whichever crosses the boards better, so that the
 * cavity behind stays a set of straight shafts even under diagonal boards; their pitch is then
 * closer than along the boards. Each needed line runs over the whole field, which is how a frame
 * is built, and is interrupted only by openings.
 *
 * Lines are places on the axis square to the battens, here called q: x for upright battens, y for
 * level ones. */

#include "config.h"

#include <math.h>

#include "engine/frame/rod-battens.h"
#include "engine/geometry/rod-clip.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"

/* A needed or filled line. */
typedef struct
{
  double q;
  guint  uses;
} BattenLine;

/* One layer of battens of one field. */
typedef struct
{
  RodPlan        *plan;
  const RodField *field;
  guint           field_index;
  const RodRules *rules;
  double          width_mm;
  double          pitch_mm;
  gboolean        upright;
  gboolean        counter;
  GArray         *lines;  /* of BattenLine */
  GArray         *joints; /* of BattenLine: those that stand beside length joints */
} Layer;

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

static double
q_of (const Layer *layer,
      RodPoint     at)
{
  return layer->upright ? at.x : at.y;
}

/* What the battens cover: the whole structure behind an undivided surface, else what its trims
 * enclose. */
static const RodRegion *
layer_area (const Layer *layer)
{
  const RodFace *face = rod_plan_face (layer->plan, layer->field->face);

  return layer->field->zone == NULL && face->n_fields == 1 ? face->bare : layer->field->clad;
}

static void
need_line (const Layer *layer,
           double       q,
           guint        uses)
{
  BattenLine line = { q, uses };

  g_array_append_val (layer->lines, line);
}

static guint
edge_uses (const RodEdge *edge)
{
  if (edge->condition == ROD_EDGE_OUTSIDE_CORNER || edge->condition == ROD_EDGE_INSIDE_CORNER)
    return ROD_BATTEN_CORNER;
  return edge->opening >= 0 ? ROD_BATTEN_OPENING : ROD_BATTEN_EDGE;
}

/* Whether an edge runs along the battens, and where the batten beside it goes. */
static gboolean
runs_along (const Layer   *layer,
            const RodEdge *edge,
            double        *q)
{
  RodPoint from, to;

  if (fabs (edge->raw.bulge) > 0.0)
    return FALSE;
  rod_edge_shifted (edge, layer->rules->batten_edge_mm - edge->build_up_mm, &from, &to);
  *q = q_of (layer, from);
  return fabs (*q - q_of (layer, to)) < ROD_SNAP_MM;
}

/* A curved or slanting side of an opening at which boards end: a batten beside the place where it
 * reaches furthest into them, on either side. Rings keep the clad area to their left. */
static void
need_furthest (const Layer *layer,
               guint        edge)
{
  const RodRegion *clad = layer->field->clad;
  double           low = INFINITY, high = -INFINITY;

  for (guint r = 0; r < clad->n_rings; r++)
    for (guint p = clad->ring_starts[r]; p < clad->ring_starts[r + 1]; p++)
      {
        RodPoint a = clad->points[p];
        RodPoint b = clad->points[p + 1 < clad->ring_starts[r + 1] ? p + 1 : clad->ring_starts[r]];
        double   inwards = layer->upright ? a.y - b.y : b.x - a.x;

        if (clad->tags[p] != (int) edge)
          continue;
        if (inwards < 0.0)
          low = MIN (low, MIN (q_of (layer, a), q_of (layer, b)));
        if (inwards > 0.0)
          high = MAX (high, MAX (q_of (layer, a), q_of (layer, b)));
      }
  if (isfinite (low))
    need_line (layer, low - layer->rules->batten_edge_mm, ROD_BATTEN_OPENING);
  if (isfinite (high))
    need_line (layer, high + layer->rules->batten_edge_mm, ROD_BATTEN_OPENING);
}

/* Edges that run along the battens need one beside them, at the edge distance. Boards are simply
 * cut round pipes and lights. */
static void
need_edges (const Layer *layer)
{
  const RodField *field = layer->field;

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      double         q;

      if (edge->yields || rod_edge_trimless (layer->plan, field, edge))
        continue;
      if (runs_along (layer, edge, &q))
        need_line (layer, q, edge_uses (edge));
      else if (edge->opening >= 0 && !edge->long_side && !layer->counter)
        need_furthest (layer, e);
    }
}

/* Columns that run along the battens get one on either side. */
static void
need_columns (const Layer *layer)
{
  const RodField *field = layer->field;

  for (guint c = 0; c < field->n_columns; c++)
    {
      RodPoint low = rod_affine_apply (field->to_surface, (RodPoint){ field->columns[c], 0.0 });
      RodPoint high = rod_affine_apply (field->to_surface, (RodPoint){ field->columns[c], 1.0 });
      double   q = q_of (layer, low);

      if (fabs (q - q_of (layer, high)) > ROD_EPSILON_MM)
        continue;
      for (int side = -1; side <= 1; side += 2)
        {
          BattenLine line = { q + side * layer->rules->double_batten_mm, ROD_BATTEN_JOINT };

          g_array_append_val (layer->joints, line);
        }
    }
}

static gint
compare_lines (gconstpointer a,
               gconstpointer b)
{
  const BattenLine *one = a;
  const BattenLine *other = b;

  return (one->q > other->q) - (one->q < other->q);
}

/* The joint's batten that a line would lie on. */
static BattenLine *
find_joint (const Layer *layer,
            double       q)
{
  BattenLine *nearest = NULL;

  for (guint i = 0; i < layer->joints->len; i++)
    {
      BattenLine *joint = &g_array_index (layer->joints, BattenLine, i);

      if (fabs (joint->q - q) < layer->width_mm &&
          (nearest == NULL || fabs (joint->q - q) < fabs (nearest->q - q)))
        nearest = joint;
    }
  return nearest;
}

/* Lines each nearer to the next than a batten is wide: one batten in their middle, or as many side
 * by side as it takes that each line has one under it. */
static void
serve_bundle (const Layer      *layer,
              const BattenLine *lines,
              guint             n)
{
  double extent_mm = lines[n - 1].q - lines[0].q;
  int    count = (int) floor (extent_mm / layer->width_mm) + 1;

  for (int b = 0; b < count; b++)
    {
      double     beside = b - (count - 1) / 2.0;
      BattenLine batten = { lines[0].q + extent_mm / 2.0 + beside * layer->width_mm, 0 };

      for (guint i = 0; i < n; i++)
        if (fabs (lines[i].q - batten.q) <= layer->width_mm / 2.0 + ROD_EPSILON_MM)
          batten.uses |= lines[i].uses;
      g_array_append_val (layer->lines, batten);
    }
}

/* Lines that would lie on each other are served together. The two battens of a length joint stay
 * where they are, and serve what would lie on them. */
static void
merge_lines (const Layer *layer)
{
  g_autoptr (GArray) needed = g_array_new (FALSE, FALSE, sizeof (BattenLine));

  for (guint i = 0; i < layer->lines->len; i++)
    {
      const BattenLine *line = &g_array_index (layer->lines, BattenLine, i);
      BattenLine       *joint = find_joint (layer, line->q);

      if (joint != NULL)
        joint->uses |= line->uses;
      else
        g_array_append_val (needed, *line);
    }
  g_array_sort (needed, compare_lines);
  g_array_set_size (layer->lines, 0);
  for (guint i = 0, n; i < needed->len; i += n)
    {
      const BattenLine *lines = &g_array_index (needed, BattenLine, i);

      for (n = 1; i + n < needed->len && lines[n].q - lines[n - 1].q < layer->width_mm; n++)
        ;
      serve_bundle (layer, lines, n);
    }
  g_array_append_vals (layer->lines, layer->joints->data, layer->joints->len);
  g_array_sort (layer->lines, compare_lines);
}

/* Where no edge runs along the battens near an end of the area, as below the rakes of a gable, the
 * frame still begins at the edge distance from that end. */
static void
need_ends (const Layer *layer)
{
  GArray  *lines = layer->lines;
  RodPoint low, high;
  double   first, last;

  rod_region_extent (layer_area (layer), &low, &high);
  first = q_of (layer, low) + layer->rules->batten_edge_mm;
  last = q_of (layer, high) - layer->rules->batten_edge_mm;
  if (first > last)
    first = last = (first + last) / 2.0;
  if (lines->len == 0 ||
      g_array_index (lines, BattenLine, lines->len - 1).q < last - layer->pitch_mm)
    need_line (layer, last, ROD_BATTEN_EDGE);
  if (g_array_index (lines, BattenLine, 0).q > first + layer->pitch_mm)
    need_line (layer, first, ROD_BATTEN_EDGE);
  g_array_sort (lines, compare_lines);
}

static void
fill_lines (const Layer *layer)
{
  guint n = layer->lines->len;

  for (guint i = 0; i + 1 < n; i++)
    {
      double from = g_array_index (layer->lines, BattenLine, i).q;
      double to = g_array_index (layer->lines, BattenLine, i + 1).q;
      int    bays = (int) ceil ((to - from) / layer->pitch_mm - ROD_EPSILON_MM);

      for (int b = 1; b < bays; b++)
        need_line (layer, from + (to - from) * b / bays, ROD_BATTEN_FIELD);
    }
  g_array_sort (layer->lines, compare_lines);
}

/* Battens stop short of sills and heads, so that air passes round the opening. */
static double
air_gap_mm (const Layer *layer,
            int          tag)
{
  const RodEdge *edge = &layer->field->edges[tag];

  return edge->opening >= 0 && !rod_edge_trimless (layer->plan, layer->field, edge)
           ? layer->rules->batten_opening_mm
           : 0.0;
}

static void
run_line (const Layer *layer,
          RodPoint     origin,
          RodPoint     direction,
          int          number,
          guint        uses)
{
  g_autoptr (GArray) spans = rod_region_clip_line (layer_area (layer), origin, direction);

  for (guint s = 0; s < spans->len; s++)
    {
      const RodSpan *span = &g_array_index (spans, RodSpan, s);
      double         from = span->from + air_gap_mm (layer, span->from_tag);
      double         to = span->to - air_gap_mm (layer, span->to_tag);
      RodBattenRun   run = {
          .field = layer->field_index,
          .counter = layer->counter,
          .uses = uses,
          .line = number,
          .from = { origin.x + from * direction.x, origin.y + from * direction.y },
          .to = { origin.x + to * direction.x, origin.y + to * direction.y },
          .length_mm = to - from,
      };

      if (run.length_mm >= layer->width_mm)
        g_array_append_val (layer->plan->battens, run);
    }
}

static void
run_lines (const Layer *layer)
{
  RodPoint direction = layer->upright ? (RodPoint){ 0.0, 1.0 } : (RodPoint){ 1.0, 0.0 };

  for (guint i = 0; i < layer->lines->len; i++)
    {
      const BattenLine *line = &g_array_index (layer->lines, BattenLine, i);
      RodPoint          origin = { layer->upright ? line->q : 0.0, layer->upright ? 0.0 : line->q };

      run_line (layer, origin, direction, (int) i + 1, line->uses);
    }
}

/* Raked edges and slanting columns get battens of their own, along them. */
static void
run_slanting (const Layer *layer)
{
  const RodField *field = layer->field;
  int             number = (int) layer->lines->len;

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      RodPoint       from, to;
      double         length;

      /* Boards that lie along an edge do not end there: upright battens cross a falling base. */
      if (fabs (edge->raw.bulge) > 0.0 || edge->opening >= 0 || edge->zone >= 0 || edge->long_side)
        continue;
      rod_edge_shifted (edge, layer->rules->batten_edge_mm - edge->build_up_mm, &from, &to);
      if (fabs (from.x - to.x) < ROD_SNAP_MM || fabs (from.y - to.y) < ROD_SNAP_MM)
        continue;
      length = rod_point_distance (from, to);
      run_line (layer,
                from,
                (RodPoint){ (to.x - from.x) / length, (to.y - from.y) / length },
                ++number,
                edge_uses (edge));
    }
  for (guint c = 0; c < field->n_columns; c++)
    {
      RodPoint direction = { field->to_surface.xy, field->to_surface.yy };

      if (fabs (direction.x) < ROD_EPSILON_MM || fabs (direction.y) < ROD_EPSILON_MM)
        continue;
      for (int side = -1; side <= 1; side += 2)
        run_line (layer,
                  rod_affine_apply (
                    field->to_surface,
                    (RodPoint){ field->columns[c] + side * layer->rules->double_batten_mm, 0.0 }),
                  direction,
                  ++number,
                  ROD_BATTEN_JOINT);
    }
}

static void
place_layer (Layer *layer)
{
  layer->lines = g_array_new (FALSE, FALSE, sizeof (BattenLine));
  layer->joints = g_array_new (FALSE, FALSE, sizeof (BattenLine));
  need_edges (layer);
  if (!layer->counter)
    need_columns (layer);
  merge_lines (layer);
  need_ends (layer);
  fill_lines (layer);
  run_lines (layer);
  if (!layer->counter)
    run_slanting (layer);
  g_array_unref (layer->lines);
  g_array_unref (layer->joints);
}

static void
place_field (RodPlan *plan,
             guint    index)
{
  const RodField *field = rod_plan_field (plan, index);
  const RodFace  *face = rod_plan_face (plan, field->face);
  const RodRules *rules = face->system->rules;
  gboolean        soffit = face->surface->kind == ROD_SURFACE_SOFFIT;
  double          centres_mm = soffit ? rules->soffit_centres_mm : rules->batten_centres_mm;
  Layer           layer = {
              .plan = plan,
              .field = field,
              .field_index = index,
              .rules = rules,
              .width_mm = face->system->batten->width_mm,
              .pitch_mm = rod_batten_pitch_mm (centres_mm, field->direction_deg),
              .upright = rod_battens_upright (field->direction_deg),
  };

  if (field->n_pieces == 0)
    return;
  place_layer (&layer);
  /* Level battens would dam the cavity of a wall: they ride on upright ones. */
  if (layer.upright || face->surface->kind != ROD_SURFACE_WALL ||
      face->system->counter_batten == NULL)
    return;
  layer.counter = TRUE;
  layer.upright = TRUE;
  layer.width_mm = face->system->counter_batten->width_mm;
  layer.pitch_mm = rules->counter_centres_mm;
  place_layer (&layer);
}

void
rod_battens_place (RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    {
      guint first = plan->battens->len;

      place_field (plan, f);
      g_array_index (plan->fields, RodField, f).first_batten = first;
      g_array_index (plan->fields, RodField, f).n_battens = plan->battens->len - first;
    }
}
