/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_outlines_build:
 * @plan: a plan whose edge stacks are settled
 *
 * Builds the areas that the edge stacks bound: of each face what is bare at the batten face, of
 * each field what trims enclose and, in the board frame, what boards can fill.
 */
void rod_outlines_build (RodPlan *plan);

G_END_DECLS
