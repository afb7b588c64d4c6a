/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-master.h"
#include "engine/takeoff/rod-cut-pricing.h"

G_BEGIN_DECLS

/**
 * RodCutColumns:
 *
 * Column generation: a #RodCutMaster and the #RodCutPricing that finds new patterns for it.
 */
typedef struct _RodCutColumns RodCutColumns;

/**
 * rod_cut_columns_new:
 * @job: (transfer none): a job, which must outlive the columns
 * @cancellable: (nullable) (transfer none): calls generation off; must outlive the columns
 *
 * Returns: (transfer full) (nullable): column generation for @job; %NULL if its tables would be too
 *   large
 */
RodCutColumns *rod_cut_columns_new (const RodCutJob *job,
                                    GCancellable    *cancellable) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_columns_free:
 * @self: (transfer full) (nullable): column generation
 */
void rod_cut_columns_free (RodCutColumns *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutColumns, rod_cut_columns_free)

/**
 * rod_cut_columns_get_master:
 * @self: column generation
 *
 * Returns: (transfer none): its linear program
 */
RodCutMaster *rod_cut_columns_get_master (RodCutColumns *self);

/**
 * rod_cut_columns_get_effort:
 * @self: column generation
 *
 * Returns: steps of work done so far, each about a microsecond
 */
gint64 rod_cut_columns_get_effort (const RodCutColumns *self);

/**
 * RodCutGoal:
 * @enough: stop once the linear program costs no more than this
 * @useless: stop once no plan can cost less than this
 * @effort: stop once rod_cut_columns_get_effort() says more than this
 *
 * When patterns need not be looked for any longer.
 */
typedef struct
{
  gint64 enough;
  gint64 useless;
  gint64 effort;
} RodCutGoal;

/**
 * RodCutRelaxation:
 * @cost: least cost in fractions of bars, from the patterns known
 * @bound: no plan costs less; a multiple of the price step
 *
 * What column generation found out.
 */
typedef struct
{
  double cost;
  gint64 bound;
} RodCutRelaxation;

/**
 * rod_cut_columns_get_worth:
 * @self: column generation
 *
 * Returns: (transfer none) (array): for each size, what a piece is taken to be worth in the proof
 *   of the last bound; all 0 before. It is a proof for the pieces the bound was for, no others.
 */
const gint32 *rod_cut_columns_get_worth (const RodCutColumns *self);

/**
 * rod_cut_columns_get_most:
 * @self: column generation
 *
 * Returns: (transfer none) (array): for each source, the greatest worth one bar holds in the
 *   proof of the last bound; all 0 before
 */
const gint32 *rod_cut_columns_get_most (const RodCutColumns *self);

/**
 * rod_cut_columns_generate:
 * @self: column generation
 * @rest: what is to be cut; the same that the master was last told, or the whole job
 * @goal: when to stop
 * @relaxation: (out): what was found out
 *
 * Solves the linear program over all patterns, as far as @goal asks. The bound holds wherever it
 * stops.
 *
 * Returns: whether the linear program could be solved and nobody called it off; @relaxation is set
 *   in any case
 */
gboolean rod_cut_columns_generate (RodCutColumns    *self,
                                   const RodCutRest *rest,
                                   const RodCutGoal *goal,
                                   RodCutRelaxation *relaxation);

G_END_DECLS
