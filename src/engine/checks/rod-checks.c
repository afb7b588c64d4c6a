/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Runs the checks field by field. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"

void
rod_check_worst (RodFinding       *worst,
                 int              *count,
                 const RodFinding *found)
{
  (*count)++;
  if (worst->id == NULL || found->severity > worst->severity ||
      (found->severity == worst->severity &&
       fabs (found->value - found->limit) > fabs (worst->value - worst->limit)))
    *worst = *found;
}

/* A field whose trims leave no room for a board is not clad at all; that must not pass in
 * silence. */
static void
check_bare (RodPlan        *plan,
            const RodField *field)
{
  RodFinding finding = {
    .id = "no-board-fits",
    .severity = ROD_SEVERITY_SHOULD,
    .face = (int) field->face,
    .piece = -1,
    .rule = "R4",
  };

  if (field->clad->n_rings == 0)
    return;
  finding.at = field->clad->points[0];
  finding.has_at = TRUE;
  finding.text = g_strdup_printf (_ ("%s: no board fits between its trims."),
                                  rod_plan_face (plan, field->face)->label);
  finding.remedy = g_strdup (_ ("Leave this part out, or close it with a plate or a wider trim."));
  rod_findings_add (plan->findings, &finding);
}

void
rod_checks_run (RodPlan *plan)
{
  rod_check_survey (plan);
  for (guint f = 0; f < plan->faces->len; f++)
    rod_check_bases (plan, f);
  for (guint f = 0; f < plan->fields->len; f++)
    {
      if (rod_plan_field (plan, f)->n_pieces == 0)
        {
          check_bare (plan, rod_plan_field (plan, f));
          continue;
        }
      rod_check_pieces (plan, f);
      rod_check_edges (plan, f);
      rod_check_joints (plan, f);
      rod_check_products (plan, f);
      rod_check_colours (plan, f);
      rod_check_laying (plan, f);
    }
  for (guint f = 0; f < plan->faces->len; f++)
    rod_check_strips (plan, f);
}
