/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-scheme.h"

G_BEGIN_DECLS

/**
 * rod_cut_first_fit:
 * @job: a job
 * @rest: what of it is to be cut
 * @n_openers: how many sources to try as the one that new bars are opened from
 *
 * Cuts @rest by the rules a careful saw operator follows: longest pieces first, each into the first
 * bar (first-fit decreasing) or the fullest bar (best-fit decreasing) with room for it. Both are
 * tried with several sources as the one that new bars are opened from, the cheapest by length
 * first; finished bars move to the cheapest source that holds them. The cheapest of these plans is
 * taken, so with all sources tried it is never dearer than either rule with any one source.
 *
 * The work grows with sizes × different bars, not with the number of pieces.
 *
 * Returns: (transfer full): a scheme that cuts all of @rest
 */
RodCutScheme *rod_cut_first_fit (const RodCutJob  *job,
                                 const RodCutRest *rest,
                                 guint             n_openers) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
