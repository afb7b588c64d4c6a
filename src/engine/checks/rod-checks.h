/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_checks_run:
 * @plan: a plan, complete but for its findings
 *
 * Runs all checks over the plan and adds what they find.
 */
void rod_checks_run (RodPlan *plan);

G_END_DECLS
