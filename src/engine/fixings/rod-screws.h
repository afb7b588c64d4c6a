/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_screws_count:
 * @plan: a plan with its battens and trim runs
 *
 * Counts screws (rule F5): one where a stretch of a board's flange crosses a batten; trims one at
 * each batten they cross, or spaced from their ends. Also counts the battens every piece lies on.
 */
void rod_screws_count (RodPlan *plan);

G_END_DECLS
