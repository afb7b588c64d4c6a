/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * RodCutStock:
 * @length_mm: length as bought, whole mm, > 0
 * @price: price of one bar in the currency's smallest unit, > 0
 * @limit: how many there are; -1 for as many as wanted
 *
 * A stock length one can buy or has on the rack. A plain value.
 */
typedef struct
{
  gint64 length_mm;
  gint64 price;
  int    limit;
} RodCutStock;

/**
 * RodCutDemand:
 * @length_mm: length of the piece, whole mm (rounded up from the plan), > 0
 * @count: how many are wanted, ≥ 1
 *
 * Pieces of one length. A plain value.
 */
typedef struct
{
  gint64 length_mm;
  int    count;
} RodCutDemand;

/**
 * RodCutProblem:
 * @stock: (array length=n_stock): stock lengths
 * @n_stock: how many
 * @demand: (array length=n_demand): pieces; equal lengths may come more than once
 * @n_demand: how many
 * @kerf_mm: width of the saw cut, ≥ 0
 * @trim_mm: lost at each end of a bar, ≥ 0
 *
 * Cutting pieces of one material and colour from bars. n pieces fit a bar of length L when the sum
 * of their lengths and (n − 1) kerfs is at most L − 2 trims.
 */
typedef struct
{
  const RodCutStock  *stock;
  guint               n_stock;
  const RodCutDemand *demand;
  guint               n_demand;
  gint64              kerf_mm;
  gint64              trim_mm;
} RodCutProblem;

/**
 * RodCutBar:
 * @stock: index into the problem's stock
 * @count: how many bars are cut like this, ≥ 1
 * @n_pieces: how many pieces one bar gives
 * @pieces: (array length=n_pieces): index into the problem's demand for each piece, longest first
 * @rest_mm: what is left of the bar after the last piece, its kerf and the trims, ≥ 0
 *
 * A cutting pattern and how often it is sawn.
 */
typedef struct
{
  guint  stock;
  int    count;
  guint  n_pieces;
  guint *pieces;
  gint64 rest_mm;
} RodCutBar;

/**
 * RodCutPlan:
 * @bars: (array length=n_bars): patterns
 * @n_bars: how many patterns
 * @n_stock_bars: bars bought in all
 * @cost: sum of the prices
 * @bound: no plan can cost less
 * @proven: whether @cost equals @bound
 *
 * Which pieces come out of which bar. Immutable.
 */
typedef struct
{
  RodCutBar *bars;
  guint      n_bars;
  int        n_stock_bars;
  gint64     cost;
  gint64     bound;
  gboolean   proven;
} RodCutPlan;

#define ROD_CUT_ERROR (rod_cut_error_quark ())

/**
 * RodCutError:
 * @ROD_CUT_ERROR_TOO_LONG: a piece is longer than every stock length
 * @ROD_CUT_ERROR_SHORT_OF_STOCK: the limited stock cannot give all pieces
 * @ROD_CUT_ERROR_INVALID: a length, price or count that makes no sense
 */
typedef enum
{
  ROD_CUT_ERROR_TOO_LONG,
  ROD_CUT_ERROR_SHORT_OF_STOCK,
  ROD_CUT_ERROR_INVALID,
} RodCutError;

GQuark rod_cut_error_quark (void);

/**
 * rod_cut_plan_new:
 * @problem: what to cut from what
 * @cancellable: (nullable): calls it off, also from another thread
 * @error: return location for an error
 *
 * Finds a plan of least cost, or close to it, with a bound that holds for every plan.
 * Deterministic: work is limited by counts of steps, never by the clock. Every piece is cut
 * exactly as often as demanded. Never dearer than first-fit decreasing.
 *
 * Fails with %ROD_CUT_ERROR_TOO_LONG, %ROD_CUT_ERROR_SHORT_OF_STOCK or %ROD_CUT_ERROR_INVALID; the
 * message names the piece and the length that would work. Fails with %G_IO_ERROR_CANCELLED when
 * called off, within some hundredths of a second.
 *
 * Returns: (transfer full): the plan, or %NULL on error
 */
RodCutPlan *rod_cut_plan_new (const RodCutProblem *problem,
                              GCancellable        *cancellable,
                              GError             **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_plan_free:
 * @plan: (transfer full) (nullable): a plan
 */
void rod_cut_plan_free (RodCutPlan *plan);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutPlan, rod_cut_plan_free)

G_END_DECLS
