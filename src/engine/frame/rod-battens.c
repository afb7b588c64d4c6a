/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Battens. They stand upright or lie level, whichever crosses the boards better, so that the
 * cavity behind stays a set of straight shafts even under diagonal boards; their pitch is then
 * closer than along the boards. Each needed line runs over the whole field, which is how a frame
 * is built, and is interrupted only by openings. */

#include "config.h"

#include <math.h>

#include "engine/frame/rod-batten-lines.h"
#include "engine/frame/rod-battens.h"
#include "engine/geometry/rod-clip.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"

/* Shorter blocks split when they are screwed on: 15 mm to either end. Common practice. */
#define LEAST_RUN_MM 30.0

/* One layer of battens while it is placed. */
typedef struct
{
  RodPlan       *plan;
  guint          field_index;
  RodBattenLayer layer;
  GArray        *lines; /* of RodRodBattenLine */
} Placing;

/* Battens stop short of sills and heads, so that air passes round the opening. */
static double
air_gap_mm (const Placing *placing,
            const RodEdge *edge)
{
  return edge->opening >= 0 && !rod_edge_trimless (placing->plan, placing->layer.field, edge)
           ? placing->layer.rules->batten_opening_mm
           : 0.0;
}

/* Whether an edge has a batten along it that neither stands upright nor lies level; and where. */
static gboolean
find_slanting (const RodBattenLayer *layer,
               const RodEdge        *edge,
               RodPoint             *from,
               RodPoint             *to)
{
  /* Boards that lie along an edge do not end there: upright battens cross a falling base. */
  if (layer->counter || fabs (edge->raw.bulge) > 0.0 || edge->opening >= 0 || edge->zone >= 0 ||
      edge->long_side)
    return FALSE;
  rod_edge_shifted (edge, layer->rules->batten_edge_mm - edge->build_up_mm, from, to);
  return fabs (from->x - to->x) >= ROD_SNAP_MM && fabs (from->y - to->y) >= ROD_SNAP_MM;
}

/* How much before the area's boundary a batten ends on account of the one along that boundary.
 * Sawn square and clear of it: from the boundary to that batten's far side it is (edge distance +
 * half a width)/sin γ along a batten that meets it at γ, and the corner of the end reaches half a
 * width·cot γ further. Two slanting ones, as at an apex, are mitred where their axes meet. */
static double
clear_of_slanting_mm (const Placing *placing,
                      const RodEdge *edge,
                      RodPoint       direction,
                      const RodEdge *own)
{
  const RodBattenLayer *layer = &placing->layer;
  RodPoint              from, to;
  double                length_mm, sine, cosine;
  double                depth_mm = layer->rules->batten_edge_mm;

  if (edge == own || !find_slanting (layer, edge, &from, &to))
    return 0.0;
  length_mm = rod_point_distance (from, to);
  sine = fabs (direction.x * (to.y - from.y) - direction.y * (to.x - from.x)) / length_mm;
  cosine = fabs (direction.x * (to.x - from.x) + direction.y * (to.y - from.y)) / length_mm;
  if (sine < ROD_PARALLEL_SINE)
    return 0.0;
  /* A clad area begins at the trims, the bare one at the batten face. */
  if (rod_batten_layer_area (layer) == layer->field->clad)
    depth_mm -= edge->clearance_mm;
  if (own == NULL)
    depth_mm += (1.0 + cosine) * layer->width_mm / 2.0;
  return MAX (depth_mm, 0.0) / sine;
}

static double
short_of_mm (const Placing *placing,
             int            tag,
             RodPoint       direction,
             const RodEdge *own)
{
  const RodEdge *edge = &placing->layer.field->edges[tag];

  return MAX (air_gap_mm (placing, edge), clear_of_slanting_mm (placing, edge, direction, own));
}

/* @own is the edge that a slanting batten lies along. */
static void
run_line (const Placing *placing,
          RodPoint       origin,
          RodPoint       direction,
          int            number,
          guint          uses,
          const RodEdge *own)
{
  g_autoptr (GArray) spans =
    rod_region_clip_line (rod_batten_layer_area (&placing->layer), origin, direction);

  for (guint s = 0; s < spans->len; s++)
    {
      const RodSpan *span = &g_array_index (spans, RodSpan, s);
      double         from = span->from + short_of_mm (placing, span->from_tag, direction, own);
      double         to = span->to - short_of_mm (placing, span->to_tag, direction, own);
      RodBattenRun   run = {
          .field = placing->field_index,
          .counter = placing->layer.counter,
          .uses = uses,
          .line = number,
          .from = { origin.x + from * direction.x, origin.y + from * direction.y },
          .to = { origin.x + to * direction.x, origin.y + to * direction.y },
          .length_mm = to - from,
      };

      if (run.length_mm >= LEAST_RUN_MM - ROD_EPSILON_MM)
        g_array_append_val (placing->plan->battens, run);
    }
}

static void
run_lines (const Placing *placing)
{
  RodPoint direction = placing->layer.upright ? (RodPoint){ 0.0, 1.0 } : (RodPoint){ 1.0, 0.0 };

  for (guint i = 0; i < placing->lines->len; i++)
    {
      const RodBattenLine *line = &g_array_index (placing->lines, RodBattenLine, i);
      RodPoint             origin = { placing->layer.upright ? line->q : 0.0,
                          placing->layer.upright ? 0.0 : line->q };

      run_line (placing, origin, direction, (int) i + 1, line->uses, NULL);
    }
}

/* Raked edges and slanting columns get battens of their own, along them. */
static void
run_slanting (const Placing *placing)
{
  const RodField *field = placing->layer.field;
  int             number = (int) placing->lines->len;

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      RodPoint       from, to;
      double         length;

      if (!find_slanting (&placing->layer, edge, &from, &to))
        continue;
      length = rod_point_distance (from, to);
      run_line (placing,
                from,
                (RodPoint){ (to.x - from.x) / length, (to.y - from.y) / length },
                ++number,
                rod_batten_edge_uses (edge),
                edge);
    }
  for (guint c = 0; c < field->n_columns; c++)
    {
      RodPoint direction = { field->to_surface.xy, field->to_surface.yy };

      if (fabs (direction.x) < ROD_EPSILON_MM || fabs (direction.y) < ROD_EPSILON_MM)
        continue;
      for (int side = -1; side <= 1; side += 2)
        run_line (
          placing,
          rod_affine_apply (
            field->to_surface,
            (RodPoint){ field->columns[c] + side * placing->layer.rules->double_batten_mm, 0.0 }),
          direction,
          ++number,
          ROD_BATTEN_JOINT,
          NULL);
    }
}

static void
place_layer (RodPlan *plan,
             guint    field_index,
             gboolean counter)
{
  Placing placing = {
    .plan = plan,
    .field_index = field_index,
    .layer = rod_batten_layer (plan, rod_plan_field (plan, field_index), counter),
  };

  placing.lines = rod_batten_lines (&placing.layer);
  run_lines (&placing);
  if (!counter)
    run_slanting (&placing);
  g_array_unref (placing.lines);
}

static void
place_field (RodPlan *plan,
             guint    index)
{
  const RodField *field = rod_plan_field (plan, index);
  const RodFace  *face = rod_plan_face (plan, field->face);

  if (field->n_pieces == 0)
    return;
  place_layer (plan, index, FALSE);
  /* Level battens would dam the cavity of a wall: they ride on upright ones. */
  if (!rod_battens_upright (field->direction_deg) && face->surface->kind == ROD_SURFACE_WALL &&
      face->system->counter_batten != NULL)
    place_layer (plan, index, TRUE);
}

void
rod_battens_place (RodPlan *plan,
                   guint    index)
{
  RodField *field = &g_array_index (plan->fields, RodField, index);

  field->first_batten = plan->battens->len;
  place_field (plan, index);
  field->n_battens = plan->battens->len - field->first_batten;
}
