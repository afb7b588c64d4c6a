/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-rings.h"

G_BEGIN_DECLS

/**
 * rod_pieces_cut:
 * @plan: a plan with the pieces of the fields before
 * @field: index of a field with its areas and phase
 * @rings: the plan's rings
 *
 * Cuts the field into boards: courses, length joints, cut lines, notches, flanges, marks and
 * colours. Every piece lies within its field's pocket area and no two overlap.
 */
void rod_pieces_cut (RodPlan  *plan,
                     guint     field,
                     RodRings *rings);

G_END_DECLS
