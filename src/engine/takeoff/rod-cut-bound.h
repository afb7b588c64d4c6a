/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-scheme.h"

G_BEGIN_DECLS

/**
 * rod_cut_bound:
 * @job: a job
 * @rest: what of it is to be cut
 * @worth: (array): what a piece of each size is taken to be worth, ≥ 0, in any unit
 * @most: (array): for each source, the most worth one of its bars can hold, or more
 *
 * A cost no plan for @rest can fall below, by weak duality: if pieces are paid for by worth, and no
 * bar holds worth for more than its price, then the bars cost at least what the pieces are worth.
 * Whatever @worth says, the bound holds; good values make it tight. All sums are of whole numbers,
 * so rounding cannot spoil it.
 *
 * Returns: the bound, a multiple of the job's price step, ≥ 0
 */
gint64 rod_cut_bound (const RodCutJob  *job,
                      const RodCutRest *rest,
                      const gint32     *worth,
                      const gint32     *most);

/**
 * rod_cut_bound_of_lengths:
 * @job: a job
 * @rest: what of it is to be cut
 *
 * The bound for pieces worth their width: what the bars cost if nothing were wasted.
 *
 * Returns: the bound
 */
gint64 rod_cut_bound_of_lengths (const RodCutJob  *job,
                                 const RodCutRest *rest);

G_END_DECLS
