/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-scheme.h"

G_BEGIN_DECLS

/**
 * RodCutMaster:
 *
 * The linear program over the patterns known so far: how often to cut each, in fractions, so that
 * every size is cut at least as often as wanted, no source gives more bars than it has, and the
 * cost is least. One piece alone in a bar is a pattern from the start, so that there is always a
 * solution.
 *
 * Uses the LP library's environment of the calling thread; see rod_cut_master_leave_thread().
 */
typedef struct _RodCutMaster RodCutMaster;

/**
 * rod_cut_master_new:
 * @job: (transfer none): a job, which must outlive the master
 *
 * Returns: (transfer full): a master for the whole job
 */
RodCutMaster *rod_cut_master_new (const RodCutJob *job) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_master_free:
 * @self: (transfer full) (nullable): a master
 */
void rod_cut_master_free (RodCutMaster *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutMaster, rod_cut_master_free)

/**
 * rod_cut_master_leave_thread:
 *
 * Gives back what the LP library keeps for the calling thread. No master of this thread may be in
 * use any more.
 */
void rod_cut_master_leave_thread (void);

/**
 * rod_cut_master_add:
 * @self: a master
 * @pattern: a pattern
 *
 * Adds a pattern to choose from.
 */
void rod_cut_master_add (RodCutMaster  *self,
                         RodCutPattern *pattern);

/**
 * rod_cut_master_set_rest:
 * @self: a master
 * @rest: what is to be cut
 *
 * Makes @rest the thing to be cut. Patterns that would cut more of a size than @rest wants are not
 * used.
 */
void rod_cut_master_set_rest (RodCutMaster     *self,
                              const RodCutRest *rest);

/**
 * rod_cut_master_keep_root:
 * @self: a master that has been solved
 *
 * Remembers patterns and basis for rod_cut_master_return_to_root().
 */
void rod_cut_master_keep_root (RodCutMaster *self);

/**
 * rod_cut_master_return_to_root:
 * @self: a master
 *
 * Forgets the patterns added since rod_cut_master_keep_root() and takes up its basis. What is to be
 * cut has to be set again.
 */
void rod_cut_master_return_to_root (RodCutMaster *self);

/**
 * rod_cut_master_solve:
 * @self: a master
 *
 * Returns: whether the least cost was found within the steps allowed
 */
gboolean rod_cut_master_solve (RodCutMaster *self);

/**
 * rod_cut_master_get_cost:
 * @self: a solved master
 *
 * Returns: the least cost in fractions of bars
 */
double rod_cut_master_get_cost (const RodCutMaster *self);

/**
 * rod_cut_master_get_worth:
 * @self: a solved master
 * @size: index of a size
 *
 * Returns: what one more piece of @size would cost, ≥ 0
 */
double rod_cut_master_get_worth (const RodCutMaster *self,
                                 guint               size);

/**
 * rod_cut_master_get_price:
 * @self: a solved master
 * @source: index of a source
 *
 * Returns: the price of a bar of @source and what its scarcity adds
 */
double rod_cut_master_get_price (const RodCutMaster *self,
                                 guint               source);

/**
 * rod_cut_master_get_n_patterns:
 * @self: a master
 *
 * Returns: how many patterns it knows
 */
guint rod_cut_master_get_n_patterns (const RodCutMaster *self);

/**
 * rod_cut_master_get_pattern:
 * @self: a master
 * @index: which pattern
 *
 * Returns: (transfer none): the pattern
 */
RodCutPattern *rod_cut_master_get_pattern (const RodCutMaster *self,
                                           guint               index);

/**
 * rod_cut_master_get_amount:
 * @self: a solved master
 * @index: which pattern
 *
 * Returns: how often it is cut, in fractions, ≥ 0
 */
double rod_cut_master_get_amount (const RodCutMaster *self,
                                  guint               index);

/**
 * rod_cut_master_get_effort:
 * @self: a master
 *
 * Returns: steps of work done so far, each about a microsecond
 */
gint64 rod_cut_master_get_effort (const RodCutMaster *self);

G_END_DECLS
