/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-columns.h"

G_BEGIN_DECLS

/**
 * RodCutDive:
 * @start: what is to be cut and from how many bars
 * @bound: no plan costs less, so one that costs this much is good enough
 * @best: the cost of the best plan known, so one that costs as much is useless
 * @seed: dives with different seeds take different turns; 0 takes the plainest
 * @effort: give up once rod_cut_columns_get_effort() says more than this
 *
 * What a dive is to achieve.
 */
typedef struct
{
  const RodCutRest *start;
  gint64            bound;
  gint64            best;
  guint32           seed;
  gint64            effort;
} RodCutDive;

/**
 * rod_cut_rounding_dive:
 * @job: a job
 * @columns: column generation for @job, whose master has been solved for the start
 * @dive: what to achieve
 *
 * Rounds the linear program to whole bars: fixes the whole and the nearly whole amounts, solves it
 * again for what is left, looks for patterns that fit what is left better, until nothing is left.
 * The master is not put back.
 *
 * Returns: (transfer full) (nullable): a scheme that cuts all of the start and costs less than
 *   @best, or %NULL
 */
RodCutScheme *rod_cut_rounding_dive (const RodCutJob  *job,
                                     RodCutColumns    *columns,
                                     const RodCutDive *dive) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
