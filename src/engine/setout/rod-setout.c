/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The set-out: each alignment group's levels and starters are put to the search for its best phase,
 * unless the user holds a joint line, and every field gets its phase from its group's. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-findings.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-levels.h"
#include "engine/setout/rod-setout.h"

/* The fields of one group, in order. */
typedef struct
{
  guint *fields;
  guint  n;
} Members;

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

      *min_rip_mm = MAX (*min_rip_mm, rod_plan_face (plan, field->face)->system->rules->min_rip_mm);
      rod_field_add_levels (plan, field, levels, starters);
    }
  nothing_along = levels->len + starters->len == 0;
  for (guint m = 0; nothing_along && m < members->n; m++)
    rod_field_add_corner_levels (plan, rod_plan_field (plan, members->fields[m]), levels);
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
    return surface->joint_line_mm - surface->level_mm;
  if (fabs (field->direction_deg - 90.0) < ROD_EPSILON_DEG)
    return rod_affine_apply (field->to_board, (RodPoint){ surface->joint_line_mm, 0.0 }).y;
  return surface->joint_line_mm;
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

      if (field->zone != NULL || isnan (surface->joint_line_mm))
        continue;
      *phase_mm =
        (pinned_field_phase (surface, field) - field->group_shift_mm) / field->group_scale;
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
      double    phase_mm =
        field->group_shift_mm +
        field->group_scale * g_array_index (plan->groups, RodGroup, field->group).phase_mm;
      double cover_mm = field->board->cover_mm;

      field->phase_mm = phase_mm - floor (phase_mm / cover_mm) * cover_mm;
    }
}

static void
report_pin (RodPlan        *plan,
            const RodField *field,
            double          misfit_mm)
{
  RodFinding finding = {
    .id = "pin-missed",
    .severity = ROD_SEVERITY_SHOULD,
    .face = (int) field->face,
    .piece = -1,
    .value = misfit_mm,
    .limit = ROD_VISIBLE_MISFIT_MM,
    .rule = "R1",
  };

  finding.text = g_strdup_printf (_ ("%s: the joint lines pass its held line by %.1f mm, for "
                                     "another surface holds its own."),
                                  rod_plan_face (plan, field->face)->label,
                                  misfit_mm);
  finding.remedy = g_strdup (_ ("Let one of the held joint lines go, or let a join between the two "
                                "surfaces carry no joint lines."));
  rod_findings_add (plan->findings, &finding);
}

void
rod_setout_check (RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    {
      const RodField   *field = rod_plan_field (plan, f);
      const RodSurface *surface = rod_plan_face (plan, field->face)->surface;
      double            misfit_mm;

      if (field->zone != NULL || isnan (surface->joint_line_mm))
        continue;
      misfit_mm = fabs (remainder (pinned_field_phase (surface, field) - field->phase_mm,
                                   field->board->cover_mm));
      if (misfit_mm > ROD_VISIBLE_MISFIT_MM)
        report_pin (plan, field, misfit_mm);
    }
}
