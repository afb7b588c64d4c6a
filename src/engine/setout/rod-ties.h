/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_ties_collect:
 * @plan: a plan with its edge stacks
 *
 * Lists what joins that carry joints ask of the fields on both sides, stretch by stretch where
 * zones lie along them, and what zones of one surface ask of each other. The list begins with what
 * must hold: zones first, then what is seen most, and last the joins where the user would have
 * lines miss. The order of surfaces and joins in the file changes nothing.
 */
void rod_ties_collect (RodPlan *plan);

G_END_DECLS
