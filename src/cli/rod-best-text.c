/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the best set-out changes: for each group that the user had left elsewhere the move and what
 * comes of it, then the next best places and why they are worse.
 */
#include "config.h"

#include "cli/rod-best-text.h"

#include "cli/rod-columns.h"
#include "engine/setout/rod-group-setout.h"
#include "engine/setout/rod-setout-text.h"

#include <glib/gi18n.h>
#include <math.h>

/* Notches shown for each group, the best included. */
#define MOST_CHOICES 4

/* Surfaces named for a group; a house may have one group all round. */
#define MOST_NAMES 4

#define INDENT 2

static char *
name_group (const RodPlan *plan,
            guint          group)
{
  GString *names = g_string_new (NULL);
  guint    n = 0;

  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace *face = rod_plan_face (plan, f);

      if (face->parent >= 0 || rod_plan_field (plan, face->first_field)->group != group)
        continue;
      if (n++ >= MOST_NAMES)
        continue;
      if (names->len > 0)
        g_string_append (names, ", ");
      g_string_append (names, face->label);
    }
  if (n > MOST_NAMES)
    g_string_append_printf (
      names, ngettext (" and %u more", " and %u more", n - MOST_NAMES), n - MOST_NAMES);
  return g_string_free (names, FALSE);
}

static void
append_choices (GString              *out,
                const RodGroupSetout *setout,
                double                best_mm)
{
  g_autoptr (GArray) choices = rod_phase_ranked (&setout->problem, MOST_CHOICES);
  RodPhaseScore best = rod_phase_score (&setout->problem, best_mm);

  for (guint i = 0; i < choices->len; i++)
    {
      const RodPhaseChoice *choice = &g_array_index (choices, RodPhaseChoice, i);
      double                away_mm = remainder (choice->phase_mm - best_mm,
                                  setout->problem.pitch_mm);
      g_autofree char      *reason = NULL;
      g_autofree char      *line = NULL;

      if (fabs (away_mm) < 0.5 ||
          rod_phase_compare (setout->problem.order, &best, &choice->score) > 0)
        continue;
      reason = rod_setout_reason (setout->problem.order, &best, &choice->score);
      line = g_strdup_printf (_ ("%+.1f mm from there: %s"), away_mm, reason);
      rod_columns_append (out, "", 2 * INDENT, line);
    }
}

static void
append_group (GString       *out,
              const RodPlan *plan,
              guint          index)
{
  const RodGroup        *group = &g_array_index (plan->groups, RodGroup, index);
  const RodPhaseProblem *problem = &group->setout->problem;
  RodPhaseScore          was = rod_phase_score (problem, group->phase_mm);
  RodPhaseScore          is = rod_phase_score (problem, group->best_mm);
  g_autofree char       *names = name_group (plan, index);
  g_autofree char       *reason = rod_setout_reason (problem->order, &is, &was);
  g_autofree char       *line = NULL;

  /* Translators: how far joint lines move, and what was worse before. */
  line = g_strdup_printf (_ ("joint lines move by %+.1f mm; before: %s"),
                          remainder (group->best_mm - group->phase_mm, group->pitch_mm),
                          reason);
  rod_columns_append (out, "", INDENT, names);
  rod_columns_append (out, "", 2 * INDENT, line);
  append_choices (out, group->setout, group->best_mm);
}

static guint
count_boards (const RodTakeoff *takeoff)
{
  guint n = 0;

  for (guint i = 0; i < takeoff->cuttings->len; i++)
    {
      const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, i);

      if (cutting->kind == ROD_ARTICLE_BOARD)
        n += cutting->bars->len;
    }
  return n;
}

char *
rod_best_text (const RodTakeoff *before,
               const RodTakeoff *after)
{
  const RodPlan *plan = before->plan;
  GString       *out = g_string_new (_ ("Best set-out:"));
  guint          n = 0;

  g_string_append_c (out, '\n');
  for (guint g = 0; g < plan->groups->len; g++)
    {
      const RodGroup *group = &g_array_index (plan->groups, RodGroup, g);

      if (!group->held ||
          fabs (remainder (group->best_mm - group->phase_mm, group->pitch_mm)) < 0.05)
        continue;
      append_group (out, plan, g);
      n++;
    }
  if (n == 0)
    rod_columns_append (out, "", INDENT, _ ("all joint lines are at their best already"));
  else
    {
      g_autofree char *line = g_strdup_printf (_ ("boards to cut from: %u before, %u now"),
                                               count_boards (before),
                                               count_boards (after));

      rod_columns_append (out, "", INDENT, line);
    }
  g_string_append_c (out, '\n');
  return g_string_free (out, FALSE);
}
