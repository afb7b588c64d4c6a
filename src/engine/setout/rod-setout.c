/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From edges to a phase: every edge along the boards becomes a level of its group, measured in the
 * group's own phase, so that one search serves surfaces that run the other way round too. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-inset.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-phase.h"
#include "engine/setout/rod-setout.h"

/* A level with where it lies along the boards, to find which levels face each other. */
typedef struct
{
  RodLevel level;
  double   at_mm; /* in the field's own measure */
  double   from_mm;
  double   to_mm;
} FieldLevel;

/* The fields of one group, in order. */
typedef struct
{
  guint *fields;
  guint  n;
} Members;

/* A cut line across the field, in the board frame. */
static FieldLevel
edge_level (const RodField *field,
            const RodEdge  *edge,
            double          inset_mm)
{
  FieldLevel found = { 0 };
  RodPoint   from, to;

  rod_edge_shifted (edge, inset_mm, &from, &to);
  from = rod_affine_apply (field->to_board, from);
  to = rod_affine_apply (field->to_board, to);
  found.at_mm = from.y;
  found.from_mm = MIN (from.x, to.x);
  found.to_mm = MAX (from.x, to.x);
  /* The clad side lies to the left: boards are above an edge that runs along them. */
  found.level.upper = to.x < from.x;
  found.level.facing_mm = INFINITY;
  return found;
}

static double
cut_inset_mm (const RodEdge *edge)
{
  return rod_edge_inset (edge) + edge->back_mm + edge->gap_across_mm;
}

static GArray *
field_levels (const RodField *field)
{
  GArray *levels = g_array_new (FALSE, FALSE, sizeof (FieldLevel));

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      FieldLevel     level;

      if (edge->relation != ROD_BOARDS_ALONG || edge->starter || edge->trim == NULL)
        continue;
      level = edge_level (field, edge, cut_inset_mm (edge));
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
        double      apart = one->level.upper ? one->at_mm - other->at_mm : other->at_mm - one->at_mm;

        if (one->level.upper != other->level.upper && apart > 0.0 &&
            one->from_mm < other->to_mm && other->from_mm < one->to_mm)
          one->level.facing_mm = MIN (one->level.facing_mm, apart);
      }
}

/* The same level in the group's measure: φ_field = shift + scale·φ, so a place y of the field is
 * (y − shift) / scale of the group, and up becomes down where the scale is negative. */
static RodLevel
in_group (const RodField   *field,
          const FieldLevel *level)
{
  RodLevel grouped = level->level;

  grouped.at_mm = (level->at_mm - field->group_shift_mm) / field->group_scale;
  grouped.ratio = fabs (field->group_scale);
  grouped.facing_mm = level->level.facing_mm / grouped.ratio;
  grouped.upper = level->level.upper == (field->group_scale > 0.0);
  return grouped;
}

static void
add_starter (const RodPlan  *plan,
             const RodField *field,
             const RodEdge  *edge,
             GArray         *starters)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          low_mm, high_mm, a, b;
  FieldLevel      base = edge_level (field, edge, -edge->build_up_mm);
  FieldLevel      without = base;
  RodStarterArc   arc;

  rod_edge_starter_range (plan, field, edge, &low_mm, &high_mm);
  a = (base.at_mm + low_mm - field->group_shift_mm) / field->group_scale;
  b = (base.at_mm + high_mm - field->group_shift_mm) / field->group_scale;
  without.at_mm += MAX (low_mm, 0.0) + rules->gap_across_mm;
  arc = (RodStarterArc){ MIN (a, b), MAX (a, b), in_group (field, &without) };
  g_array_append_val (starters, arc);
}

/* A field whose outline has no edge along the boards still has two outermost corners. */
static void
add_corner_levels (const RodPlan  *plan,
                   const RodField *field,
                   GArray         *levels)
{
  guint      n = rod_plan_face (plan, field->face)->surface->outline->len;
  FieldLevel low = { .at_mm = INFINITY, .level = { .facing_mm = INFINITY } };
  FieldLevel high = { .at_mm = -INFINITY, .level = { .facing_mm = INFINITY, .upper = TRUE } };
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
  grouped = in_group (field, &low);
  g_array_append_val (levels, grouped);
  grouped = in_group (field, &high);
  g_array_append_val (levels, grouped);
}

static void
collect_levels (const RodPlan *plan,
                const Members *members,
                GArray        *levels,
                GArray        *starters,
                double        *min_rip_mm)
{
  gboolean nothing_along;

  for (guint m = 0; m < members->n; m++)
    {
      const RodField *field = rod_plan_field (plan, members->fields[m]);
      g_autoptr (GArray) own = field_levels (field);

      *min_rip_mm = MAX (*min_rip_mm, rod_plan_face (plan, field->face)->system->rules->min_rip_mm);
      find_facing (own);
      for (guint i = 0; i < own->len; i++)
        {
          RodLevel level = in_group (field, &g_array_index (own, FieldLevel, i));

          g_array_append_val (levels, level);
        }
      for (guint e = 0; e < field->n_edges; e++)
        if (field->edges[e].starter)
          add_starter (plan, field, &field->edges[e], starters);
    }
  nothing_along = levels->len + starters->len == 0;
  for (guint m = 0; nothing_along && m < members->n; m++)
    add_corner_levels (plan, rod_plan_field (plan, members->fields[m]), levels);
}

static int
compare_numbers (double a,
                 double b)
{
  return fabs (a - b) < ROD_EPSILON_MM ? 0 : a < b ? -1
                                                   : 1;
}

static gint
compare_levels (gconstpointer a,
                gconstpointer b)
{
  const RodLevel *one = a;
  const RodLevel *other = b;
  int             order = (int) one->upper - (int) other->upper;

  if (order == 0)
    order = compare_numbers (one->at_mm, other->at_mm);
  if (order == 0 && (isfinite (one->facing_mm) || isfinite (other->facing_mm)))
    order = compare_numbers (one->facing_mm, other->facing_mm);
  return order != 0 ? order : compare_numbers (one->ratio, other->ratio);
}

/* Window after window at one height leaves the same strip: it counts once. */
static void
merge_levels (GArray *levels,
              double  pitch_mm)
{
  guint kept = 0;

  for (guint i = 0; i < levels->len; i++)
    {
      RodLevel *level = &g_array_index (levels, RodLevel, i);

      level->at_mm -= floor (level->at_mm / pitch_mm) * pitch_mm;
      /* A facing line further away than a cover never leaves one strip between both. */
      if (level->facing_mm > pitch_mm)
        level->facing_mm = INFINITY;
    }
  g_array_sort (levels, compare_levels);
  for (guint i = 0; i < levels->len; i++)
    {
      RodLevel *level = &g_array_index (levels, RodLevel, i);

      if (kept > 0 && compare_levels (level, &g_array_index (levels, RodLevel, kept - 1)) == 0)
        continue;
      g_array_index (levels, RodLevel, kept++) = *level;
    }
  g_array_set_size (levels, kept);
}

/* A pin is said in the surface's own words: height above datum for level boards, x for upright
 * ones, square to the boards otherwise. */
static double
pinned_field_phase (const RodSurface *surface,
                    const RodField   *field)
{
  if (fabs (field->direction_deg) < ROD_EPSILON_DEG)
    return surface->pin_mm - surface->level_mm;
  if (fabs (field->direction_deg - 90.0) < ROD_EPSILON_DEG)
    return rod_affine_apply (field->to_board, (RodPoint){ surface->pin_mm, 0.0 }).y;
  return surface->pin_mm;
}

static gboolean
find_pin (const RodPlan *plan,
          const Members *members,
          double        *phase_mm)
{
  for (guint m = 0; m < members->n; m++)
    {
      const RodField   *field = rod_plan_field (plan, members->fields[m]);
      const RodSurface *surface = rod_plan_face (plan, field->face)->surface;

      if (field->zone != NULL || isnan (surface->pin_mm))
        continue;
      *phase_mm = (pinned_field_phase (surface, field) - field->group_shift_mm) / field->group_scale;
      return TRUE;
    }
  return FALSE;
}

static void
choose_group (const RodPlan *plan,
              const Members *members,
              RodGroup      *group)
{
  g_autoptr (GArray) levels = g_array_new (FALSE, FALSE, sizeof (RodLevel));
  g_autoptr (GArray) starters = g_array_new (FALSE, FALSE, sizeof (RodStarterArc));
  RodPhaseProblem problem = { .pitch_mm = group->pitch_mm };
  RodPhaseScore   score;

  collect_levels (plan, members, levels, starters, &problem.min_rip_mm);
  merge_levels (levels, group->pitch_mm);
  problem.levels = (const RodLevel *) (const void *) levels->data;
  problem.n_levels = levels->len;
  problem.starters = (const RodStarterArc *) (const void *) starters->data;
  problem.n_starters = starters->len;

  group->pinned = find_pin (plan, members, &group->phase_mm);
  if (!group->pinned)
    group->phase_mm = rod_phase_best (&problem);
  score = rod_phase_score (&problem, group->phase_mm);
  group->narrowest_mm = score.narrowest_mm;
  group->rips = score.rips;
}

void
rod_setout_choose (RodPlan *plan)
{
  g_autofree guint   *fields = g_new (guint, MAX (plan->fields->len, 1));
  g_autofree Members *members = g_new0 (Members, MAX (plan->groups->len, 1));
  guint               at = 0;

  for (guint g = 0; g < plan->groups->len; g++)
    {
      members[g].fields = fields + at;
      at += g_array_index (plan->groups, RodGroup, g).n_fields;
    }
  for (guint f = 0; f < plan->fields->len; f++)
    {
      Members *own = &members[rod_plan_field (plan, f)->group];

      own->fields[own->n++] = f;
    }
  for (guint g = 0; g < plan->groups->len; g++)
    choose_group (plan, &members[g], &g_array_index (plan->groups, RodGroup, g));
  for (guint f = 0; f < plan->fields->len; f++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, f);
      double    phase_mm = field->group_shift_mm +
                        field->group_scale * g_array_index (plan->groups, RodGroup, field->group).phase_mm;
      double cover_mm = field->board->cover_mm;

      field->phase_mm = phase_mm - floor (phase_mm / cover_mm) * cover_mm;
    }
}
