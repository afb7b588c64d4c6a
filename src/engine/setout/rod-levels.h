/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"
#include "engine/setout/rod-phase.h"

G_BEGIN_DECLS

/**
 * rod_field_add_levels:
 * @plan: a plan with its alignment groups
 * @field: a field
 * @levels: (element-type RodLevel): gets the levels of its edges along the boards
 * @starters: (element-type RodStarterArc): gets its starters
 *
 * Levels are cut lines: what is left of a board beside them is what the pocket has to hold.
 */
void rod_field_add_levels (const RodPlan  *plan,
                           const RodField *field,
                           GArray         *levels,
                           GArray         *starters);

/**
 * rod_field_add_corner_levels:
 * @plan: a plan with its alignment groups
 * @field: a field
 * @levels: (element-type RodLevel): gets two levels
 *
 * Takes the field's outermost corners across the boards for levels: what diagonal boards are set
 * out from, where no edge runs along them.
 */
void rod_field_add_corner_levels (const RodPlan  *plan,
                                  const RodField *field,
                                  GArray         *levels);

G_END_DECLS
