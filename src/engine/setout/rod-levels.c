/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Every edge along the boards leaves a strip of board beside it. Here such edges become levels of
 * their alignment group, measured in the group's own phase, so that one search serves surfaces that
 * run the other way round too. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-inset.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-field.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-levels.h"

/* A level with where it lies along the boards, to find which levels face each other. */
typedef struct
{
  RodLevel level;
  guint    edge;
  double   at_mm; /* in the field's own measure */
  double   from_mm;
  double   to_mm;
} FieldLevel;

static double
cut_inset_mm (const RodEdge *edge)
{
  return rod_edge_inset (edge) + edge->back_mm + edge->gap_across_mm;
}

/* How narrow a strip the pocket swallows (rule R6): what it is deep beyond the gap, the engagement
 * and the error of cutting that are kept anyway. Level boards of walls only: the sides of upright
 * ones move with the frame, and are balanced instead. */
static double
absorb_mm (const RodFace  *face,
           const RodField *field,
           const RodEdge  *edge)
{
  const RodRules *rules = face->system->rules;

  if (edge->trim == NULL || edge->starter || face->surface->kind != ROD_SURFACE_WALL ||
      fabs (field->direction_deg) > ROD_EPSILON_DEG)
    return 0.0;
  return MAX (edge->trim->pocket_mm - rules->min_engagement_mm - edge->gap_across_mm -
                rules->tolerance_mm,
              0.0);
}

/* What is seen most counts once, the rest as many times as it is seen less (rule R25). */
double
rod_edge_ease (const RodPlan  *plan,
               const RodField *field,
               const RodEdge  *edge)
{
  const RodSeenWeights *weights = plan->house->seen_weights;
  const RodCorner      *corner = edge->raw.corner;
  RodSeen               seen = rod_plan_face (plan, field->face)->surface->seen;
  double                most =
    MAX (MAX (weights->front, weights->side), MAX (weights->rear, weights->hidden));

  if (corner != NULL && corner->seen != ROD_SEEN_INHERITED)
    seen = corner->seen;
  return most / rod_seen_weight (weights, seen);
}

/* A cut line across the field, in the board frame. */
static FieldLevel
edge_level (const RodPlan  *plan,
            const RodField *field,
            const RodEdge  *edge,
            double          inset_mm)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  FieldLevel     found = { 0 };
  RodPoint       from, to;

  rod_edge_shifted (edge, inset_mm, &from, &to);
  from = rod_affine_apply (field->to_board, from);
  to = rod_affine_apply (field->to_board, to);
  found.at_mm = from.y;
  found.from_mm = MIN (from.x, to.x);
  found.to_mm = MAX (from.x, to.x);
  /* The clad side lies to the left: boards are above an edge that runs along them. */
  found.level.upper = to.x < from.x;
  found.level.facing_mm = INFINITY;
  found.level.least_mm = face->system->rules->min_rip_mm;
  found.level.absorb_mm = absorb_mm (face, field, edge);
  found.level.ease = rod_edge_ease (plan, field, edge);
  return found;
}

/* Whether boards of this field really lie along an edge: asked just inside it, at both ends and in
 * the middle. A door's foot on the base line bounds nothing, nor does what another zone covers. */
static gboolean
bounds_field (const RodField *field,
              const RodEdge  *edge)
{
  static const double places[] = { 0.01, 0.5, 0.99 };
  RodPoint            from, to;

  rod_edge_shifted (edge, 1.0, &from, &to);
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      RodPoint at = { from.x + places[i] * (to.x - from.x), from.y + places[i] * (to.y - from.y) };

      if (rod_field_contains (field, at))
        return TRUE;
    }
  return FALSE;
}

/* A trim covers the ripped side of a strip. A border that only changes the colour has none: there
 * it is a joint line that is wanted, where the strips of both sides are whole boards. */
static gboolean
leaves_strip (const RodEdge *edge)
{
  gboolean plain_border = edge->zone >= 0 && edge->rule == NULL && !edge->yields;

  return edge->trim != NULL || plain_border;
}

static GArray *
field_levels (const RodPlan  *plan,
              const RodField *field)
{
  GArray *levels = g_array_new (FALSE, FALSE, sizeof (FieldLevel));

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      FieldLevel     level;

      if (edge->relation != ROD_BOARDS_ALONG || edge->starter || !leaves_strip (edge) ||
          !bounds_field (field, edge))
        continue;
      level = edge_level (plan, field, edge, cut_inset_mm (edge));
      level.edge = e;
      g_array_append_val (levels, level);
    }
  return levels;
}

static void
find_facing (GArray *levels)
{
  for (guint i = 0; i < levels->len; i++)
    for (guint k = 0; k < levels->len; k++)
      {
        FieldLevel *one = &g_array_index (levels, FieldLevel, i);
        FieldLevel *other = &g_array_index (levels, FieldLevel, k);
        double      apart = (one->level.upper ? 1.0 : -1.0) * (one->at_mm - other->at_mm);

        if (one->level.upper != other->level.upper && apart > 0.0 &&
            one->from_mm < other->to_mm && other->from_mm < one->to_mm)
          one->level.facing_mm = MIN (one->level.facing_mm, apart);
      }
}

/* φ_field = shift + scale·φ, so a place y of the field is (y − shift) / scale of the group, and up
 * becomes down where the scale is negative. */
RodLevel
rod_level_in_group (const RodField *field,
                    const RodLevel *level)
{
  RodLevel grouped = *level;

  grouped.at_mm = (level->at_mm - field->group_shift_mm) / field->group_scale;
  grouped.ratio = fabs (field->group_scale);
  grouped.period_mm = field->board->cover_mm / grouped.ratio;
  grouped.facing_mm = level->facing_mm / grouped.ratio;
  grouped.upper = level->upper == (field->group_scale > 0.0);
  return grouped;
}

static RodLevel
in_group (const RodField   *field,
          const FieldLevel *level)
{
  RodLevel own = level->level;

  own.at_mm = level->at_mm;
  return rod_level_in_group (field, &own);
}

static RodStarterArc
starter_arc (const RodPlan  *plan,
             const RodField *field,
             const RodEdge  *edge)
{
  double        low_mm, high_mm, a, b;
  FieldLevel    base = edge_level (plan, field, edge, -edge->build_up_mm);
  RodEdge       lost = *edge;
  FieldLevel    without;
  RodStarterArc arc;

  rod_edge_starter_range (plan, field, edge, &low_mm, &high_mm);
  a = (base.at_mm + low_mm - field->group_shift_mm) / field->group_scale;
  b = (base.at_mm + high_mm - field->group_shift_mm) / field->group_scale;
  rod_edge_lose_starter (plan, field, &lost);
  without = edge_level (plan, field, &lost, cut_inset_mm (&lost));
  arc = (RodStarterArc){ MIN (a, b), MAX (a, b), in_group (field, &without) };
  return arc;
}

/* A field whose outline has no edge along the boards still has two outermost corners. */
void
rod_field_add_corner_levels (const RodPlan  *plan,
                             const RodField *field,
                             GArray         *levels)
{
  guint      n = rod_plan_face (plan, field->face)->surface->outline->len;
  double     least_mm = rod_plan_face (plan, field->face)->system->rules->min_rip_mm;
  RodLevel   plain = { .facing_mm = INFINITY, .least_mm = least_mm, .ease = 1.0 };
  FieldLevel low = { .at_mm = INFINITY, .level = plain };
  FieldLevel high = { .at_mm = -INFINITY, .level = plain };
  RodLevel   grouped;

  for (guint i = 0; i < n; i++)
    {
      const RodEdge *last = &field->edges[(i + n - 1) % n];
      const RodEdge *edge = &field->edges[i];
      RodPoint       a_from, a_to, b_from, b_to, at;

      rod_edge_shifted (last, cut_inset_mm (last), &a_from, &a_to);
      rod_edge_shifted (edge, cut_inset_mm (edge), &b_from, &b_to);
      if (!rod_lines_meet (a_from, a_to, b_from, b_to, &at))
        continue;
      at = rod_affine_apply (field->to_board, at);
      low.at_mm = MIN (low.at_mm, at.y);
      high.at_mm = MAX (high.at_mm, at.y);
    }
  if (!isfinite (low.at_mm))
    return;
  high.level.upper = TRUE;
  grouped = in_group (field, &low);
  g_array_append_val (levels, grouped);
  grouped = in_group (field, &high);
  g_array_append_val (levels, grouped);
}

/* The starter that the boards stand on, or NULL. */
static const RodEdge *
starter_of (const RodField *field)
{
  for (guint e = 0; e < field->n_edges; e++)
    if (field->edges[e].starter && bounds_field (field, &field->edges[e]))
      return &field->edges[e];
  return NULL;
}

/* From the lowest level or starter to the highest level. Returns whether boards have both ends. */
static gboolean
span_of (const RodPlan  *plan,
         const RodField *field,
         const GArray   *levels,
         RodSpan        *span)
{
  const RodEdge    *starter = starter_of (field);
  const FieldLevel *low = NULL, *high = NULL;

  for (guint i = 0; i < levels->len; i++)
    {
      const FieldLevel *level = &g_array_index (levels, FieldLevel, i);

      if (level->level.upper && (high == NULL || level->at_mm > high->at_mm))
        high = level;
      if (!level->level.upper && (low == NULL || level->at_mm < low->at_mm))
        low = level;
    }
  if (high == NULL || (low == NULL && starter == NULL))
    return FALSE;
  *span = (RodSpan){ .high = in_group (field, high), .length_mm = high->to_mm - high->from_mm };
  if (starter != NULL)
    {
      RodStarterArc arc = starter_arc (plan, field, starter);

      span->low = arc.without;
      span->low.at_mm = arc.low_mm;
      span->on_starter = TRUE;
    }
  else
    span->low = in_group (field, low);
  span->balanced = starter == NULL && fabs (field->direction_deg) > ROD_EPSILON_DEG &&
                   rod_plan_face (plan, field->face)->parent < 0;
  return TRUE;
}

gboolean
rod_field_span (const RodPlan  *plan,
                const RodField *field,
                RodSpan        *span)
{
  g_autoptr (GArray) own = field_levels (plan, field);

  return span_of (plan, field, own, span);
}

gboolean
rod_field_edge_at (const RodPlan  *plan,
                   const RodField *field,
                   guint           edge,
                   double         *at_mm)
{
  const RodEdge *line = &field->edges[edge];

  if (line->starter || !leaves_strip (line))
    return FALSE;
  *at_mm = edge_level (plan, field, line, cut_inset_mm (line)).at_mm;
  return TRUE;
}

void
rod_field_add_levels (const RodPlan  *plan,
                      const RodField *field,
                      GArray         *levels,
                      GArray         *starters,
                      GArray         *spans)
{
  g_autoptr (GArray) own = field_levels (plan, field);
  RodSpan span;

  find_facing (own);
  for (guint i = 0; i < own->len; i++)
    {
      RodLevel level = in_group (field, &g_array_index (own, FieldLevel, i));

      g_array_append_val (levels, level);
    }
  for (guint e = 0; e < field->n_edges; e++)
    if (field->edges[e].starter && bounds_field (field, &field->edges[e]))
      {
        RodStarterArc arc = starter_arc (plan, field, &field->edges[e]);

        g_array_append_val (starters, arc);
      }
  if (span_of (plan, field, own, &span))
    g_array_append_val (spans, span);
}

void
rod_field_absorb (const RodPlan *plan,
                  RodField      *field)
{
  g_autoptr (GArray) own = field_levels (plan, field);
  double group_mm = (field->phase_mm - field->group_shift_mm) / field->group_scale;

  find_facing (own);
  for (guint i = 0; i < own->len; i++)
    {
      const FieldLevel *level = &g_array_index (own, FieldLevel, i);
      RodLevel          grouped = in_group (field, level);

      field->edges[level->edge].absorbed_mm = rod_level_absorbed (&grouped, group_mm);
    }
}

void
rod_field_add_risks (const RodPlan  *plan,
                     const RodField *field,
                     GArray         *risks)
{
  g_autoptr (GArray) own = field_levels (plan, field);
  double group_mm = (field->phase_mm - field->group_shift_mm) / field->group_scale;
  double tolerance_mm = plan->house->survey_tolerance_mm;

  find_facing (own);
  for (guint i = 0; i < own->len; i++)
    {
      const FieldLevel *level = &g_array_index (own, FieldLevel, i);
      RodLevel          grouped = in_group (field, level);
      RodRisk           risk = {
                  .edge = level->edge,
                  .strip_mm = rod_level_strip (&grouped, group_mm),
                  .worst_mm = rod_level_worst (&grouped, group_mm, tolerance_mm),
                  .least_mm = MIN (grouped.least_mm, field->board->cover_mm),
      };

      if (rod_level_at_risk (&grouped, group_mm, tolerance_mm) &&
          risk.strip_mm >= risk.least_mm - ROD_EPSILON_MM)
        g_array_append_val (risks, risk);
    }
}
