/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_alignment_build:
 * @plan: a plan with its ties
 *
 * Gathers tied fields into groups and gives every field its group and its place in it. The field
 * with the widest pitch leads, of equal ones that of the surface whose id comes first. Ties that
 * come back to where others lead already are marked to close a chain.
 */
void rod_alignment_build (RodPlan *plan);

/**
 * rod_tie_closure:
 * @plan: a plan with its groups
 * @tie: a tie that closes a chain
 * @shift_mm: (out): what lines miss by at the group's phase 0, across the boards of the tie's @b
 * @turns: (out): how that grows with the group's phase: 0, or twice the group's measure where the
 *         chain runs back to front
 */
void rod_tie_closure (const RodPlan *plan,
                      const RodTie  *tie,
                      double        *shift_mm,
                      double        *turns);

/**
 * rod_alignment_check:
 * @plan: a plan whose fields have their phases
 *
 * Measures at every tie how far joint lines miss each other, notes the greatest misfit of each
 * group and adds findings: joints that miss by more than ROD_VISIBLE_MISFIT_MM, with the chain of
 * surfaces that does not close, and covers that do not repeat together.
 */
void rod_alignment_check (RodPlan *plan);

G_END_DECLS
