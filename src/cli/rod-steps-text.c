/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stepped bases in words. */
#include "config.h"

#include "cli/rod-steps-text.h"

#include "cli/rod-columns.h"
#include "engine/setout/rod-stepped-house.h"

#include <glib/gi18n.h>

#define INDENT 2

static void
append_base (GString              *out,
             const RodPlan        *plan,
             const RodFallingBase *base)
{
  double level_mm = rod_plan_face (plan, base->face)->surface->level_mm;

  rod_columns_append (out, "", INDENT, rod_plan_face (plan, base->face)->label);
  for (guint t = 0; t < base->treads->len; t++)
    {
      const RodTread  *tread = &g_array_index (base->treads, RodTread, t);
      g_autofree char *line = NULL;

      /* Translators: places along a wall, and the height of a joint line. */
      line = g_strdup_printf (_ ("from %.0f to %.0f mm: boards begin at %+.0f mm"),
                              tread->from_mm - base->from.x,
                              tread->to_mm - base->from.x,
                              level_mm + tread->line_mm);
      rod_columns_append (out, "", 2 * INDENT, line);
    }
}

char *
rod_steps_text (const RodPlan *plan)
{
  GString *out = g_string_new (_ ("Stepped bases:"));
  guint    n = 0;

  g_string_append_c (out, '\n');
  for (guint f = 0; f < plan->faces->len; f++)
    {
      g_autoptr (GArray) bases = rod_falling_bases (plan, f);

      for (guint b = 0; b < bases->len; b++)
        append_base (out, plan, &g_array_index (bases, RodFallingBase, b));
      n += bases->len;
    }
  if (n == 0)
    rod_columns_append (out, "", INDENT, _ ("no base asks for steps"));
  g_string_append_c (out, '\n');
  return g_string_free (out, FALSE);
}
