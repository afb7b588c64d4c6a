/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-scheme.h"

G_BEGIN_DECLS

/**
 * ROD_CUT_MOST_WORTH:
 *
 * No bar may be able to hold more worth than this; see rod_cut_pricing_run().
 */
#define ROD_CUT_MOST_WORTH (1 << 30)

/**
 * RodCutPricing:
 *
 * Finds the most valuable patterns for given values of the pieces. Holds the tables, so that they
 * are allocated once.
 */
typedef struct _RodCutPricing RodCutPricing;

/**
 * rod_cut_pricing_new:
 * @job: (transfer none): a job, which must outlive the pricing
 *
 * Returns: (transfer full) (nullable): a pricing; %NULL if its tables would be too large
 */
RodCutPricing *rod_cut_pricing_new (const RodCutJob *job) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_pricing_free:
 * @self: (transfer full) (nullable): a pricing
 */
void rod_cut_pricing_free (RodCutPricing *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutPricing, rod_cut_pricing_free)

/**
 * rod_cut_pricing_run:
 * @self: a pricing
 * @counts: (array): how many pieces of each size there are
 * @worth: (array): what a piece of each size is worth, ≥ 0
 *
 * Finds, for every source, the pieces of the greatest total worth that one bar holds, with no
 * more pieces of a size than @counts says. The result is exact. Values are so scaled that no bar
 * can hold more than %ROD_CUT_MOST_WORTH: it is enough that the greatest worth by width times the
 * widest bar is not more.
 *
 * Costs sizes × width of the widest bar; a little more for large counts.
 */
void rod_cut_pricing_run (RodCutPricing *self,
                          const int     *counts,
                          const gint32  *worth);

/**
 * rod_cut_pricing_get_most:
 * @self: a pricing that has run
 *
 * Returns: (transfer none) (array): for each source, the greatest worth one bar holds
 */
const gint32 *rod_cut_pricing_get_most (const RodCutPricing *self);

/**
 * rod_cut_pricing_get_effort:
 * @self: a pricing
 *
 * Returns: steps of work done in all runs, each about a microsecond
 */
gint64 rod_cut_pricing_get_effort (const RodCutPricing *self);

/**
 * rod_cut_pricing_list_patterns:
 * @self: a pricing that has run
 * @prices: (array): for each source, what a bar costs, its scarcity included, > 0
 * @n_most: how many to give at most
 *
 * Lists good patterns of the last run: the best of each source, and the best of each source that
 * end with one particular size as the narrowest. Those worth most for their price come first.
 *
 * Returns: (transfer full) (element-type RodCutPattern): patterns, each once
 */
GPtrArray *rod_cut_pricing_list_patterns (const RodCutPricing *self,
                                          const double        *prices,
                                          guint                n_most) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
