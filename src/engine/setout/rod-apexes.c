/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Apexes as levels of the set-out. An apex lies where the cut lines of its two edges meet. Their
 * gaps follow from the boards' lengths, which are not known yet: those of equal bays as long as the
 * stock allows are taken, for the longest piece at a rake decides its gap. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-inset.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-field.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-apexes.h"
#include "engine/setout/rod-bay.h"
#include "engine/setout/rod-levels.h"

/* How far from an apex it is asked whether the field reaches into it. */
#define REACH_MM 5.0

/* A corner of the outline between two edges, its legs in the board frame. */
typedef struct
{
  const RodEdge *before;
  const RodEdge *after;
  RodPoint       at;
  RodPoint       back;    /* towards where @before comes from */
  RodPoint       onwards; /* towards where @after goes to */
} Corner;

static Corner
corner_between (const RodField *field,
                const RodEdge  *before,
                const RodEdge  *after)
{
  RodPoint at = rod_affine_apply (field->to_board, after->raw.from);
  RodPoint from = rod_affine_apply (field->to_board, before->raw.from);
  RodPoint to = rod_affine_apply (field->to_board, after->raw.to);

  return (Corner){
    .before = before,
    .after = after,
    .at = at,
    .back = { from.x - at.x, from.y - at.y },
    .onwards = { to.x - at.x, to.y - at.y },
  };
}

static gboolean
ends_boards (const RodEdge *edge)
{
  return edge->relation == ROD_BOARDS_ACROSS && !edge->long_side && fabs (edge->raw.bulge) <= 0.0;
}

/* Whether boards run out to a point there: both legs lead away to the same side, and the clad area
 * lies between them. */
static gboolean
is_apex (const RodField *field,
         const Corner   *corner)
{
  RodPoint a = corner->back, b = corner->onwards;
  double   a_mm = rod_point_distance ((RodPoint){ 0.0, 0.0 }, a);
  double   b_mm = rod_point_distance ((RodPoint){ 0.0, 0.0 }, b);
  RodPoint inside = { corner->at.x + REACH_MM * (a.x / a_mm + b.x / b_mm) / 2.0,
                      corner->at.y + REACH_MM * (a.y / a_mm + b.y / b_mm) / 2.0 };

  return ends_boards (corner->before) && ends_boards (corner->after) &&
         (corner->before->condition == ROD_EDGE_VERGE ||
          corner->after->condition == ROD_EDGE_VERGE) &&
         a.y * b.y > 0.0 && b.x * a.y - b.y * a.x > 0.0 &&
         rod_field_contains (field, rod_affine_apply (field->to_surface, inside));
}

/* The longest board there will be, from pocket to pocket. */
static double
longest_clear_mm (const RodPlan  *plan,
                  const RodField *field,
                  guint           n_sides)
{
  double low = INFINITY, high = -INFINITY;
  double longest_mm = rod_field_longest_mm (plan, field);

  for (guint e = 0; e < n_sides; e++)
    {
      double x = rod_affine_apply (field->to_board, field->edges[e].raw.from).x;

      low = MIN (low, x);
      high = MAX (high, x);
    }
  return longest_mm > 0.0 ? (high - low) / ceil ((high - low) / longest_mm) : high - low;
}

static void
cut_line (const RodPlan  *plan,
          const RodField *field,
          const RodEdge  *edge,
          double          clear_mm,
          RodPoint       *from,
          RodPoint       *to)
{
  RodPoint a = rod_affine_apply (field->to_board, edge->raw.from);
  RodPoint b = rod_affine_apply (field->to_board, edge->raw.to);
  RodBay   bay = { .clear_mm = clear_mm };
  double   gap_mm = rod_bay_gap_mm (plan, field, &bay, b.y > a.y);

  rod_edge_shifted (edge, rod_edge_inset (edge) + edge->back_mm + gap_mm, from, to);
  *from = rod_affine_apply (field->to_board, *from);
  *to = rod_affine_apply (field->to_board, *to);
}

static void
add_apex (const RodPlan  *plan,
          const RodField *field,
          const Corner   *corner,
          double          clear_mm,
          GArray         *levels)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          widens = fabs (corner->back.x / corner->back.y -
                        corner->onwards.x / corner->onwards.y);
  RodLevel        level = {
           .upper = corner->back.y < 0.0,
           .facing_mm = INFINITY,
           .least_mm = MAX (rules->min_rip_mm, rules->min_piece_mm / widens),
           .ease = MIN (rod_edge_ease (plan, field, corner->before),
                 rod_edge_ease (plan, field, corner->after)),
  };
  RodPoint a_from, a_to, b_from, b_to, at;

  cut_line (plan, field, corner->before, clear_mm, &a_from, &a_to);
  cut_line (plan, field, corner->after, clear_mm, &b_from, &b_to);
  if (level.least_mm > field->board->cover_mm || !rod_lines_meet (a_from, a_to, b_from, b_to, &at))
    return;
  level.at_mm = at.y;
  level = rod_level_in_group (field, &level);
  g_array_append_val (levels, level);
}

void
rod_field_add_apexes (const RodPlan  *plan,
                      const RodField *field,
                      GArray         *levels)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  guint          n = face->surface->outline->len;

  if (face->parent >= 0 || face->surface->kind != ROD_SURFACE_WALL)
    return;
  for (guint e = 0; e < n; e++)
    {
      Corner corner = corner_between (field, &field->edges[(e + n - 1) % n], &field->edges[e]);

      if (is_apex (field, &corner))
        add_apex (plan, field, &corner, longest_clear_mm (plan, field, n), levels);
    }
}
