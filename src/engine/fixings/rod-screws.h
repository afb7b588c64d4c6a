/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_screws_count_in_boards:
 * @plan: a plan
 * @field: index of a field with its pieces and battens
 *
 * Counts the screws of the field's boards (rule F5): one where a stretch of a board's flange
 * crosses a batten. Also counts the battens every piece lies on.
 */
void rod_screws_count_in_boards (RodPlan *plan,
                                 guint    field);

/**
 * rod_screws_count_in_trims:
 * @plan: a plan
 * @field: index of a field with its battens and trim runs
 *
 * Counts the screws of the field's trims (rule F5): one at each batten they cross, or spaced from
 * their ends.
 */
void rod_screws_count_in_trims (RodPlan *plan,
                                guint    field);

G_END_DECLS
