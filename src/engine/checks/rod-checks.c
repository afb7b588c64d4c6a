/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Runs the checks field by field. */

#include "config.h"

#include <math.h>

#include "engine/checks/rod-checks.h"

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

void
rod_checks_run (RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    {
      if (rod_plan_field (plan, f)->n_pieces == 0)
        continue;
      rod_check_pieces (plan, f);
      rod_check_edges (plan, f);
      rod_check_products (plan, f);
    }
}
