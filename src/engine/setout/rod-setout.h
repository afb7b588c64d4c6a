/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_setout_choose:
 * @plan: a plan with its alignment groups
 *
 * Chooses the phase of every group, the user's pin before the best set-out, and hands it to the
 * group's fields.
 */
void rod_setout_choose (RodPlan *plan);

/**
 * rod_setout_check:
 * @plan: a plan whose fields have their phases
 *
 * Adds a finding for every held joint line that its group misses by more than
 * ROD_VISIBLE_MISFIT_MM: of two pins in one group only the first can hold.
 */
void rod_setout_check (RodPlan *plan);

G_END_DECLS
