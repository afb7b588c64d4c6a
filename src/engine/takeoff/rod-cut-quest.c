/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The state that the methods of the search share. */

#include "engine/takeoff/rod-cut-quest.h"

gboolean
rod_cut_quest_is_over (const RodCutQuest *self)
{
  return self->best->cost <= self->bound || g_cancellable_is_cancelled (self->cancellable) ||
         rod_cut_columns_get_effort (self->columns) + self->spent > self->effort;
}

gint64
rod_cut_quest_get_columns_effort (const RodCutQuest *self)
{
  return self->effort - self->spent;
}

void
rod_cut_quest_offer (RodCutQuest  *self,
                     RodCutScheme *scheme)
{
  if (scheme == NULL)
    return;
  if (scheme->cost < self->best->cost)
    {
      rod_cut_scheme_free (self->best);
      self->best = scheme;
    }
  else
    rod_cut_scheme_free (scheme);
}

void
rod_cut_quest_raise_bound (RodCutQuest *self,
                           gint64       bound)
{
  self->bound = MAX (self->bound, bound);
}
