/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Orders of fitting that the boards do not allow (rule R30). */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/rod-limits.h"
#include "engine/takeoff/rod-laying-order.h"

void
rod_check_laying (RodPlan *plan,
                  guint    index)
{
  const RodField *field = rod_plan_field (plan, index);
  RodFinding      finding = {
         .id = "laid-from-centre",
         .severity = ROD_SEVERITY_SHOULD,
         .face = (int) field->face,
         .piece = -1,
         .value = field->board->flange_mm,
         .rule = "R30",
  };

  if (field->laid_from != ROD_LAID_FROM_CENTRE || rod_field_lays_outwards (field) ||
      fabs (field->direction_deg - 90.0) > ROD_EPSILON_DEG)
    return;
  finding.text = g_strdup_printf (
    _ ("%s: hooked boards cannot be laid from the centre outwards, for each covers the screws of "
       "the one before; they are planned from the left."),
    rod_plan_face (plan, field->face)->label);
  finding.remedy = g_strdup (
    _ ("Lay them from one side, with an axis pin in the middle if both ends are to be equal. Or "
       "lay the surface from the right and draw its right half as a zone laid from the left: the "
       "boards of one half are turned end for end, and trims hold the hooks on the axis."));
  rod_findings_add (plan->findings, &finding);
}
