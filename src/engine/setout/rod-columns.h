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
 */
void rod_columns_place (const RodPlan   *plan,
                        RodField        *field,
                        const RodStrips *strips);

/**
 * rod_field_longest_mm:
 * @plan: a plan
 * @field: a field
 *
 * Returns: the longest piece its board's stock gives, mm
 */
double rod_field_longest_mm (const RodPlan  *plan,
                             const RodField *field);

/**
 * rod_field_end_gap_mm:
 * @plan: a plan
 * @field: a field
 * @clear_mm: pocket bottom to pocket bottom
 * @upper_end: for boards held at the top, whether it is the upper end
 *
 * Returns: the gap at an end of a board that fills @clear_mm
 */
double rod_field_end_gap_mm (const RodPlan  *plan,
                             const RodField *field,
                             double          clear_mm,
                             gboolean        upper_end);

/**
 * rod_field_end_run_mm:
 * @field: a field
 * @clear_mm: pocket bottom to pocket bottom
 * @upper_end: for boards held at the top, whether it is the upper end
 *
 * Returns: free run from the fixed point to that end
 */
double rod_field_end_run_mm (const RodField *field,
                             double          clear_mm,
                             gboolean        upper_end);

G_END_DECLS
