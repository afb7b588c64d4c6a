/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-scheme.h"

G_BEGIN_DECLS

/**
 * rod_cut_search:
 * @job: a job with at least one piece
 * @cancellable: (nullable): calls the search off
 * @bound: (out): a cost no plan falls below
 *
 * Looks for the cheapest scheme for @job until it costs as much as the bound or enough work has
 * been done, counted in steps. When called off it ends soon and with what it has.
 *
 * Returns: (transfer full): the cheapest scheme found
 */
RodCutScheme *rod_cut_search (const RodCutJob *job,
                              GCancellable    *cancellable,
                              gint64          *bound) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
