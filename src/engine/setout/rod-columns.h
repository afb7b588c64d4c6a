/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_columns_place:
 * @plan: a plan
 * @field: a field whose pocket area and phase are settled
 * @strips: its courses, uncut
 *
 * Places length joints where a course is longer than the longest stock length can cover: as few
 * columns as possible, evenly spaced from end to end, moved where they would come too near the
 * side of an opening (rules R21). Sets the field's columns.
 *
 * Where a notch would be longer than the system allows there is a column on either jamb of its
 * opening, whether the stock asks for columns or not (rule R29).
 */
void rod_columns_place (const RodPlan   *plan,
                        RodField        *field,
                        const RodStrips *strips);

G_END_DECLS
