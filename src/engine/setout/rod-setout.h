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

G_END_DECLS
