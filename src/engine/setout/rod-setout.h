/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_setout_choose:
 * @plan: a plan with its alignment groups
 *
 * Chooses the phase of every group that was not kept from an earlier plan, what pins ask for before
 * where the rod was left, and that before the best set-out, and hands it to the group's fields.
 * What it may depend on: see rod_earlier_keep_groups().
 */
void rod_setout_choose (RodPlan *plan);

/**
 * rod_setout_absorb:
 * @plan: a plan whose fields have their phases and whose starters are settled
 *
 * Lets the trims' pockets swallow the strips that are thin enough (rule R6).
 */
void rod_setout_absorb (RodPlan *plan);

G_END_DECLS
