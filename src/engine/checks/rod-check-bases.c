/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Bases that are drawn as the ground falls and are to be stepped: says where the steps go. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/setout/rod-stepped-house.h"

/* "3200, 6400": the steps' places from the left end of the base. */
static char *
name_steps (const RodFallingBase *base)
{
  GString *names = g_string_new (NULL);

  for (guint t = 1; t < base->treads->len; t++)
    g_string_append_printf (names,
                            "%s%.0f",
                            t > 1 ? ", " : "",
                            g_array_index (base->treads, RodTread, t).from_mm - base->from.x);
  return g_string_free (names, FALSE);
}

static char *
step_remedy (const RodFallingBase *base)
{
  g_autofree char *steps = name_steps (base);

  if (base->treads->len == 1)
    return g_strdup (_ ("It falls too little for a step: let one level base take its place."));
  return g_strdup_printf (
    ngettext ("Step it at %s mm from its left end.",
              "Step it at %s mm from its left end.",
              base->treads->len - 1),
    steps);
}

static void
report (RodPlan              *plan,
        const RodFallingBase *base)
{
  RodFinding finding = {
    .id = "falling-base",
    .severity = ROD_SEVERITY_SHOULD,
    .face = (int) base->face,
    .at = { (base->from.x + base->to.x) / 2.0, (base->from.y + base->to.y) / 2.0 },
    .has_at = TRUE,
    .piece = -1,
    .value = fabs (base->to.y - base->from.y),
    .rule = "R13",
  };

  finding.text =
    g_strdup_printf (_ ("%s: the base falls by %.0f mm and is to be stepped; boards are still cut "
                        "along the ground."),
                     rod_plan_face (plan, base->face)->label,
                     finding.value);
  finding.remedy = step_remedy (base);
  rod_findings_add (plan->findings, &finding);
}

void
rod_check_bases (RodPlan *plan,
                 guint    face)
{
  g_autoptr (GArray) bases = rod_falling_bases (plan, face);

  for (guint b = 0; b < bases->len; b++)
    report (plan, &g_array_index (bases, RodFallingBase, b));
}
