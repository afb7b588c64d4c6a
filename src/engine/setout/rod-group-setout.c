/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Gathers what decides the phase of one group from all its fields, in the group's own measure. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-alignment.h"
#include "engine/setout/rod-apexes.h"
#include "engine/setout/rod-group-setout.h"
#include "engine/setout/rod-levels.h"
#include "engine/setout/rod-pins.h"

static void
collect_levels (RodGroupSetout *self,
                const RodPlan  *plan,
                const guint    *fields,
                guint           n_fields)
{
  gboolean nothing_along;

  for (guint i = 0; i < n_fields; i++)
    rod_field_add_levels (
      plan, rod_plan_field (plan, fields[i]), self->levels, self->starters, self->spans);
  nothing_along = self->levels->len + self->starters->len == 0;
  for (guint i = 0; nothing_along && i < n_fields; i++)
    rod_field_add_corner_levels (plan, rod_plan_field (plan, fields[i]), self->levels);
  for (guint i = 0; i < n_fields; i++)
    rod_field_add_apexes (plan, rod_plan_field (plan, fields[i]), self->levels);
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
  const double    pairs[][2] = {
       { one->at_mm, other->at_mm },
       { one->period_mm, other->period_mm },
       { one->ratio, other->ratio },
       { one->least_mm, other->least_mm },
       { one->absorb_mm, other->absorb_mm },
       { one->ease, other->ease },
  };

  if (one->upper != other->upper)
    return (int) one->upper - (int) other->upper;
  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      int order = compare_numbers (pairs[i][0], pairs[i][1]);

      if (order != 0)
        return order;
    }
  if (isfinite (one->facing_mm) || isfinite (other->facing_mm))
    return compare_numbers (one->facing_mm, other->facing_mm);
  return 0;
}

/* Window after window at one height leaves the same strip: it counts once. */
static void
merge_levels (GArray *levels)
{
  guint kept = 0;

  for (guint i = 0; i < levels->len; i++)
    {
      RodLevel *level = &g_array_index (levels, RodLevel, i);

      level->at_mm -= floor (level->at_mm / level->period_mm) * level->period_mm;
      /* A facing line further away than a cover never leaves one strip between both. */
      if (level->facing_mm > level->period_mm)
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

static void
collect_closures (RodGroupSetout *self,
                  const RodPlan  *plan,
                  const guint    *closing,
                  guint           n_closing)
{
  for (guint i = 0; i < n_closing; i++)
    {
      const RodTie   *tie = &g_array_index (plan->ties, RodTie, closing[i]);
      RodPhaseClosure closure = { .period_mm = tie->period_mm };

      rod_tie_closure (plan, tie, &closure.shift_mm, &closure.turns);
      g_array_append_val (self->closures, closure);
    }
}

RodGroupSetout *
rod_group_setout_new (const RodPlan *plan,
                      guint          group,
                      const guint   *fields,
                      guint          n_fields,
                      const guint   *closing,
                      guint          n_closing)
{
  RodGroupSetout *self = g_atomic_rc_box_new0 (RodGroupSetout);

  self->levels = g_array_new (FALSE, FALSE, sizeof (RodLevel));
  self->starters = g_array_new (FALSE, FALSE, sizeof (RodStarterArc));
  self->spans = g_array_new (FALSE, FALSE, sizeof (RodSpan));
  self->closures = g_array_new (FALSE, FALSE, sizeof (RodPhaseClosure));
  collect_levels (self, plan, fields, n_fields);
  merge_levels (self->levels);
  collect_closures (self, plan, closing, n_closing);
  self->problem = (RodPhaseProblem){
    .pitch_mm = g_array_index (plan->groups, RodGroup, group).pitch_mm,
    .tolerance_mm = plan->house->survey_tolerance_mm,
    .levels = (const RodLevel *) (const void *) self->levels->data,
    .n_levels = self->levels->len,
    .starters = (const RodStarterArc *) (const void *) self->starters->data,
    .n_starters = self->starters->len,
    .spans = (const RodSpan *) (const void *) self->spans->data,
    .n_spans = self->spans->len,
    .closures = (const RodPhaseClosure *) (const void *) self->closures->data,
    .n_closures = self->closures->len,
  };
  rod_phase_order (self->problem.order, plan->house->aims);
  self->allowed = rod_pins_allowed (plan, fields, n_fields, self->problem.pitch_mm);
  return self;
}

RodGroupSetout *
rod_group_setout_ref (RodGroupSetout *setout)
{
  g_return_val_if_fail (setout != NULL, NULL);

  return g_atomic_rc_box_acquire (setout);
}

static void
clear_setout (gpointer data)
{
  RodGroupSetout *setout = data;
  g_array_unref (setout->levels);
  g_array_unref (setout->starters);
  g_array_unref (setout->spans);
  g_array_unref (setout->closures);
  g_clear_pointer (&setout->allowed, g_array_unref);
}

void
rod_group_setout_unref (RodGroupSetout *setout)
{
  if (setout != NULL)
    g_atomic_rc_box_release_full (setout, clear_setout);
}

double
rod_group_setout_best (const RodGroupSetout *setout)
{
  RodPhaseScore best;
  double        best_mm;

  g_return_val_if_fail (setout != NULL, 0.0);

  if (setout->allowed == NULL)
    return rod_phase_best (&setout->problem);
  best_mm = g_array_index (setout->allowed, double, 0);
  best = rod_phase_score (&setout->problem, best_mm);
  for (guint i = 1; i < setout->allowed->len; i++)
    {
      double        phase_mm = g_array_index (setout->allowed, double, i);
      RodPhaseScore score = rod_phase_score (&setout->problem, phase_mm);

      if (rod_phase_compare (setout->problem.order, &score, &best) >= 0)
        continue;
      best = score;
      best_mm = phase_mm;
    }
  return best_mm;
}
