/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_pieces_cut:
 * @plan: a plan whose fields have their areas and phases
 *
 * Cuts every field into boards: courses, length joints, cut lines, notches, flanges, marks and
 * colours. Every piece lies within its field's pocket area and no two overlap.
 */
void rod_pieces_cut (RodPlan *plan);

G_END_DECLS
