/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The decision table is a list of rows in the system's data, read from the top: special cases
 * first, general ones below. */

#include "config.h"

#include "engine/trims/rod-trim-table.h"

const RodTrimRule *
rod_trim_table_find (const RodSystem *system,
                     RodSurfaceKind   surface,
                     RodBoardRelation boards,
                     RodEdgeCondition condition,
                     gboolean         allow_starter)
{
  g_return_val_if_fail (system != NULL, NULL);

  for (guint i = 0; i < system->trim_rules->len; i++)
    {
      const RodTrimRule *rule = g_ptr_array_index (system->trim_rules, i);

      if ((rule->surface == ROD_SURFACE_ANY || rule->surface == (int) surface) &&
          (rule->boards == ROD_BOARDS_ANY || rule->boards == boards) &&
          rule->condition == (int) condition &&
          (allow_starter || !rule->starter))
        return rule;
    }
  return NULL;
}
