/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_outlines_build:
 * @plan: a plan whose edge stacks are settled
 * @field: index of a field
 *
 * Builds the areas that the edge stacks bound: of the field what trims enclose and, in the board
 * frame, what boards can fill; with the first field of a face also what of it is bare at the batten
 * face.
 */
void rod_outlines_build (RodPlan *plan,
                         guint    field);

G_END_DECLS
