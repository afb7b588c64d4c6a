/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-columns.h"

G_BEGIN_DECLS

/**
 * RodCutQuest:
 * @job: (transfer none): what the quest is about
 * @cancellable: (nullable) (transfer none): calls it off
 * @columns: (transfer none): column generation for @job
 * @best: (transfer full): the cheapest scheme known for the whole job
 * @bound: no scheme costs less
 * @effort: how much work may be done, in steps of about a microsecond
 * @spent: work done outside @columns
 * @worth: (array) (transfer full): for each size, what a piece is worth in the proof of the root's
 *   bound
 * @most: (array) (transfer full): for each source, the most worth a bar holds in that proof
 *
 * Where the search for the cheapest scheme stands. The methods of the search take it up one after
 * another and leave it with a cheaper scheme or a higher bound.
 */
typedef struct
{
  const RodCutJob *job;
  GCancellable    *cancellable;
  RodCutColumns   *columns;
  RodCutScheme    *best;
  gint64           bound;
  gint64           effort;
  gint64           spent;
  gint32          *worth;
  gint32          *most;
} RodCutQuest;

/**
 * rod_cut_quest_is_over:
 * @self: a quest
 *
 * Returns: whether the best scheme is proven, as much work has been done as may be, or it is called
 *   off
 */
gboolean rod_cut_quest_is_over (const RodCutQuest *self);

/**
 * rod_cut_quest_get_columns_effort:
 * @self: a quest
 *
 * Returns: up to which rod_cut_columns_get_effort() column generation may work
 */
gint64 rod_cut_quest_get_columns_effort (const RodCutQuest *self);

/**
 * rod_cut_quest_offer:
 * @self: a quest
 * @scheme: (transfer full) (nullable): a scheme for the whole job
 *
 * Makes @scheme the best if it costs less.
 */
void rod_cut_quest_offer (RodCutQuest  *self,
                          RodCutScheme *scheme);

/**
 * rod_cut_quest_raise_bound:
 * @self: a quest
 * @bound: a cost no scheme falls below
 *
 * Raises the bound, if @bound is higher.
 */
void rod_cut_quest_raise_bound (RodCutQuest *self,
                                gint64       bound);

G_END_DECLS
