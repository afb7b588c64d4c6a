/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Edge stacks. Every length on a sheet is explained by the stacks of the two edges it lies between:
 * raw line → (build-up) → batten face → (clearance) → trim → (back) → pocket → (gap) → cut line. */

#include "config.h"

#include <math.h>

#include "engine/movement/rod-movement.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-field.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"
#include "engine/trims/rod-trim-table.h"

/* Boards that run within this angle of an edge are planed along it rather than ended at it: below
 * it a taper is sawn lengthwise (a falling ground line), above it a board's end is cut raked. */
#define LONG_SIDE_DEG 15.0

/* At so many places along a zone's side it is asked what lies beyond. */
#define BORDER_PLACES 32

static double
edge_to_axis_deg (const RodField *field,
                  const RodEdge  *edge)
{
  RodPoint from, to;
  double   angle;

  rod_edge_line (edge, &from, &to);
  from = rod_affine_apply (field->to_board, from);
  to = rod_affine_apply (field->to_board, to);
  angle = atan2 (fabs (to.y - from.y), fabs (to.x - from.x));
  return angle * 180.0 / G_PI;
}

/* The boards' hook side: the next course lies at +y, so the edge whose clad side is up. */
static gboolean
is_hook_side (const RodField *field,
              const RodEdge  *edge)
{
  RodPoint from, to;

  rod_edge_line (edge, &from, &to);
  return rod_affine_apply (field->to_board, to).x > rod_affine_apply (field->to_board, from).x;
}

gboolean
rod_edge_trimless (const RodPlan  *plan,
                   const RodField *field,
                   const RodEdge  *edge)
{
  const RodOpening *opening;

  if (edge->opening < 0)
    return FALSE;
  opening = g_ptr_array_index (rod_plan_face (plan, field->face)->surface->openings, edge->opening);
  return opening->kind == ROD_OPENING_PIPE || opening->kind == ROD_OPENING_LIGHT;
}

static void
find_trim (const RodFace *face,
           RodEdge       *edge,
           gboolean       allow_starter)
{
  edge->rule = rod_trim_table_find (
    face->system, face->surface->kind, edge->relation, edge->condition, allow_starter);
  edge->trim = edge->rule == NULL ? NULL : rod_system_find_trim (face->system, edge->rule->trim);
  edge->starter = edge->rule != NULL && edge->rule->starter;
  edge->back_mm = edge->trim == NULL ? 0.0 : edge->trim->back_mm;
}

static double
edge_clearance_mm (const RodEdge *edge)
{
  if (edge->raw.corner != NULL && !isnan (edge->raw.corner->clearance_mm))
    return edge->raw.corner->clearance_mm;
  return edge->rule == NULL ? 0.0 : edge->rule->clearance_mm;
}

/* A side of a zone that changes nothing but the colour needs neither trim nor gap. What lies beyond
 * it is asked at places a millimetre outside, the same ones for the fields on both sides. */
static gboolean
is_plain_border (const RodField *field,
                 const RodEdge  *edge,
                 const RodPlan  *plan)
{
  const RodFace  *face = rod_plan_face (plan, field->face);
  const RodField *within;
  RodPoint        from = edge->raw.from, to = edge->raw.to;
  double          length = rod_point_distance (from, to);

  if (edge->zone < 0 || !edge->long_side)
    return FALSE;
  within = rod_plan_field (plan, face->first_field + 1 + (guint) edge->zone);
  for (guint i = 0; i < face->n_fields; i++)
    {
      const RodField *other = rod_plan_field (plan, face->first_field + i);

      if (rod_field_boards_alike (other, within))
        continue;
      for (int n = 0; n < BORDER_PLACES; n++)
        {
          double   t = (n + 0.5) / BORDER_PLACES;
          RodPoint at = { from.x + t * (to.x - from.x) + (to.y - from.y) / length,
                          from.y + t * (to.y - from.y) - (to.x - from.x) / length };

          if (rod_field_contains (other, at))
            return FALSE;
        }
    }
  return TRUE;
}

static void
build_stack (RodPlan        *plan,
             const RodField *field,
             RodEdge        *edge)
{
  const RodFace  *face = rod_plan_face (plan, field->face);
  const RodRules *rules = face->system->rules;
  double          angle_deg = edge_to_axis_deg (field, edge);
  gboolean        straight = fabs (edge->raw.bulge) <= 0.0;

  edge->relation = straight && angle_deg < ROD_EPSILON_DEG ? ROD_BOARDS_ALONG : ROD_BOARDS_ACROSS;
  edge->long_side = straight && angle_deg < LONG_SIDE_DEG;
  if (rod_edge_trimless (plan, field, edge))
    {
      edge->long_side = TRUE;
      edge->clearance_mm = rules->notch_clear_mm;
      return;
    }
  if (edge->yields || is_plain_border (field, edge, plan))
    return;
  find_trim (face, edge, edge->relation == ROD_BOARDS_ALONG && is_hook_side (field, edge));
  edge->clearance_mm = edge_clearance_mm (edge);
  edge->gap_across_mm = edge->long_side ? rules->gap_across_mm : 0.0;
  if (edge->starter)
    {
      double high_mm;

      rod_edge_starter_range (plan, field, edge, &edge->clearance_mm, &high_mm);
      edge->gap_across_mm = 0.0;
    }
}

RodLightness
rod_field_lightness (const RodField *field)
{
  const RodColour *darkest = NULL;

  for (guint i = 0; field->mix != NULL && i < field->mix->len; i++)
    {
      const RodColourShare *share = g_ptr_array_index (field->mix, i);
      const RodColour      *colour = rod_board_find_colour (field->board, share->colour);

      if (colour != NULL && (darkest == NULL || colour->lightness > darkest->lightness))
        darkest = colour;
    }
  return darkest == NULL ? field->colour->lightness : darkest->lightness;
}

static void
set_movement (RodPlan  *plan,
              RodField *field)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  gboolean       upright = fabs (fabs (field->direction_deg) - 90.0) < ROD_EPSILON_DEG;
  RodMovement    movement;

  movement = rod_movement_of (
    plan->house->site, face->system, face->surface, rod_field_lightness (field));
  field->expand = movement.expand;
  field->shrink = movement.shrink;
  field->fixed = upright && face->surface->kind == ROD_SURFACE_WALL
                   ? face->system->rules->upright_fixed
                   : ROD_FIXED_MIDDLE;
}

void
rod_edge_starter_range (const RodPlan  *plan,
                        const RodField *field,
                        const RodEdge  *edge,
                        double         *low_mm,
                        double         *high_mm)
{
  const RodSurface *surface = rod_plan_face (plan, field->face)->surface;

  *low_mm = isnan (surface->starter_low_mm) ? edge->rule->starter_low_mm : surface->starter_low_mm;
  *high_mm =
    isnan (surface->starter_high_mm) ? edge->rule->starter_high_mm : surface->starter_high_mm;
  *high_mm = MAX (*low_mm, *high_mm);
}

double
rod_edge_inset (const RodEdge *edge)
{
  return edge->clearance_mm - edge->build_up_mm;
}

void
rod_stacks_build (RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, f);

      set_movement (plan, field);
      for (guint e = 0; e < field->n_edges; e++)
        build_stack (plan, field, &field->edges[e]);
    }
}

void
rod_edge_lose_starter (const RodPlan  *plan,
                       const RodField *field,
                       RodEdge        *edge)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  double         low_mm, high_mm;

  rod_edge_starter_range (plan, field, edge, &low_mm, &high_mm);
  find_trim (face, edge, FALSE);
  edge->clearance_mm = MAX (low_mm, edge_clearance_mm (edge));
  edge->gap_across_mm = face->system->rules->gap_across_mm;
}

static void
settle_starter (RodPlan        *plan,
                const RodField *field,
                RodEdge        *edge)
{
  double   low_mm, high_mm, lines;
  RodPoint from, to;
  double   base;

  rod_edge_starter_range (plan, field, edge, &low_mm, &high_mm);
  rod_edge_shifted (edge, -edge->build_up_mm, &from, &to);
  base = rod_affine_apply (field->to_board, from).y;
  lines = ceil ((base + low_mm - field->phase_mm - ROD_LINE_SNAP_MM) / field->board->cover_mm);
  edge->clearance_mm = field->phase_mm + lines * field->board->cover_mm - base;
  if (edge->clearance_mm > high_mm + ROD_LINE_SNAP_MM)
    rod_edge_lose_starter (plan, field, edge);
}

void
rod_stacks_settle_starters (RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, f);

      for (guint e = 0; e < field->n_edges; e++)
        if (field->edges[e].starter)
          settle_starter (plan, field, &field->edges[e]);
    }
}
