/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-plan.h"

G_BEGIN_DECLS

/* What a source is called that stands for bars nobody has: see RodCutJob. */
#define ROD_CUT_NO_STOCK G_MAXUINT

/* The limit of a source that gives as many bars as wanted. */
#define ROD_CUT_UNLIMITED G_MAXINT

/**
 * RodCutSize:
 * @width: what one piece takes of a bar, its kerf included, in units of the job, > 0
 * @count: how many are wanted, > 0
 *
 * All pieces of one length.
 */
typedef struct
{
  int width;
  int count;
} RodCutSize;

/**
 * RodCutSource:
 * @width: what a bar has to give, in units of the job: pieces fit when their widths add up to no
 *   more
 * @price: price of a bar
 * @limit: how many bars there are, or %ROD_CUT_UNLIMITED
 * @stock: index into the stock of the problem, or %ROD_CUT_NO_STOCK
 *
 * Where bars come from.
 */
typedef struct
{
  int    width;
  gint64 price;
  int    limit;
  guint  stock;
} RodCutSource;

/**
 * RodCutJob:
 * @sizes: (array length=n_sizes): all lengths wanted, widest first, each once
 * @n_sizes: how many
 * @sources: (array length=n_sources): where bars come from, widest first
 * @n_sources: how many
 * @widest: width of the widest source
 * @n_pieces: pieces in all
 * @price_step: the cost of every plan is a multiple of this
 *
 * A cutting problem in the form the solver works on: whole numbers, kerf and trims inside the
 * widths, equal lengths merged, sources left out that no cheapest plan needs.
 *
 * A job can always be cut: unless there is only one source and that without limit, the last
 * source is one of unlimited bars that nobody has (%ROD_CUT_NO_STOCK), dearer than any plan from
 * real bars. A plan that uses it shows how much stock is missing. Immutable.
 */
typedef struct
{
  RodCutSize   *sizes;
  guint         n_sizes;
  RodCutSource *sources;
  guint         n_sources;
  int           widest;
  int           n_pieces;
  gint64        price_step;
} RodCutJob;

/**
 * rod_cut_job_new:
 * @problem: what to cut from what
 * @error: return location for an error
 *
 * Checks @problem and brings it into the solver's form. The order of demand and stock in @problem
 * does not show in the result, save in #RodCutSource.stock.
 *
 * Fails with %ROD_CUT_ERROR_TOO_LONG, %ROD_CUT_ERROR_SHORT_OF_STOCK (only when every stock a piece
 * fits has none left) or %ROD_CUT_ERROR_INVALID.
 *
 * Returns: (transfer full): the job, or %NULL on error
 */
RodCutJob *rod_cut_job_new (const RodCutProblem *problem,
                            GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_job_free:
 * @job: (transfer full) (nullable): a job
 */
void rod_cut_job_free (RodCutJob *job);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutJob, rod_cut_job_free)

/**
 * rod_cut_job_round_up:
 * @job: a job
 * @cost: a lower bound on the cost of its plans
 *
 * Returns: the least cost ≥ @cost a plan can have by the step of the prices
 */
gint64 rod_cut_job_round_up (const RodCutJob *job,
                             gint64           cost) G_GNUC_PURE;

G_END_DECLS
