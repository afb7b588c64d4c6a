/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-job.h"

G_BEGIN_DECLS

/**
 * RodCutMix:
 * @cost: price of its bars
 * @bars: (array): how many bars of each source, without the bars nobody has
 *
 * What stock a plan is cut from.
 */
typedef struct
{
  gint64 cost;
  int   *bars;
} RodCutMix;

/**
 * RodCutMixList:
 *
 * Lists mixes of stock in the order of their cost, leaving out those known not to give all pieces.
 */
typedef struct _RodCutMixList RodCutMixList;

/**
 * rod_cut_mix_list_new:
 * @job: (transfer none): a job with bars nobody has, which must outlive the list
 *
 * Returns: (transfer full): an empty list
 */
RodCutMixList *rod_cut_mix_list_new (const RodCutJob *job) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_mix_list_free:
 * @self: (transfer full) (nullable): a list
 */
void rod_cut_mix_list_free (RodCutMixList *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutMixList, rod_cut_mix_list_free)

/**
 * rod_cut_mix_list_add_need:
 * @self: a list
 * @worth: (array): what a piece of each size is taken to be worth, ≥ 0
 * @most: (array): for each source, the most worth one of its bars can hold, or more
 *
 * Leaves out mixes whose bars cannot hold the worth of all pieces: no plan can be cut from them,
 * whatever @worth says.
 */
void rod_cut_mix_list_add_need (RodCutMixList *self,
                                const gint32  *worth,
                                const gint32  *most);

/**
 * rod_cut_mix_list_meets_needs:
 * @self: a list
 * @mix: a mix
 *
 * Returns: whether @mix meets all needs, also those added since it was listed
 */
gboolean rod_cut_mix_list_meets_needs (const RodCutMixList *self,
                                       const RodCutMix     *mix);

/**
 * rod_cut_mix_list_fill:
 * @self: a list
 * @from: least cost to list
 * @below: list only what costs less, > @from
 * @end: (out): the mixes listed cost less than this, at most @below
 *
 * Lists mixes anew. Where there are too many, @end is less than @below; where there are too many of
 * one cost alone, only some of these are listed.
 *
 * Returns: whether all mixes from @from to below @end that meet the needs are listed
 */
gboolean rod_cut_mix_list_fill (RodCutMixList *self,
                                gint64         from,
                                gint64         below,
                                gint64        *end);

/**
 * rod_cut_mix_list_get_n_mixes:
 * @self: a list
 *
 * Returns: how many mixes are listed
 */
guint rod_cut_mix_list_get_n_mixes (const RodCutMixList *self);

/**
 * rod_cut_mix_list_get_mix:
 * @self: a list
 * @index: which mix, the cheapest first
 *
 * Returns: (transfer none): the mix; it is valid until the list is filled anew
 */
const RodCutMix *rod_cut_mix_list_get_mix (const RodCutMixList *self,
                                           guint                index);

/**
 * rod_cut_mix_list_get_effort:
 * @self: a list
 *
 * Returns: steps of work done so far, each about a microsecond
 */
gint64 rod_cut_mix_list_get_effort (const RodCutMixList *self);

G_END_DECLS
