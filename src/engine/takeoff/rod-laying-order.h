/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_laying_order_build:
 * @plan: a plan with its pieces
 *
 * Numbers the pieces of each surface in the order in which they are fitted (rule R30): level and
 * slanting boards course upon course, upright ones from the side where they begin; boards without a
 * flange, which cover nothing of their neighbours, outwards from the centre where that is asked
 * for. Within a course from the left, or from the lower end. Zones follow what is around them.
 * Notes for each field which course is ripped last.
 */
void rod_laying_order_build (RodPlan *plan);

/**
 * rod_field_lays_outwards:
 * @field: a field
 *
 * Hooked boards cannot be laid outwards: each covers the screws of the one before, so that on one
 * side hook would meet hook (rule R30).
 *
 * Returns: whether its boards are laid from the centre to both sides
 */
gboolean rod_field_lays_outwards (const RodField *field);

G_END_DECLS
