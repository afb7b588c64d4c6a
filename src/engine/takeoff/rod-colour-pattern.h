/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_colour_pattern_lay:
 * @plan: a plan
 * @field: a field whose pieces are cut, and whose mix must not repeat
 *
 * Gives the field's pieces colours of its mix such that no two neighbours have the same, where that
 * can be: boards that follow each other at a length joint, and boards that touch along a joint
 * line. Where it cannot be, or is not found within ROD_MAX_COLOUR_STEPS, few neighbours are alike.
 * Beyond that, shares are as near to the weights as changing one board could bring them. The same
 * seed gives the same colours.
 */
void rod_colour_pattern_lay (RodPlan        *plan,
                             const RodField *field);

/**
 * rod_colour_pattern_repeats:
 * @plan: a plan
 * @field: a field with its pieces
 * @piece: (out) (optional): index of the first piece that has the colour of a neighbour
 *
 * Returns: how many pairs of neighbours have the same colour
 */
guint rod_colour_pattern_repeats (const RodPlan  *plan,
                                  const RodField *field,
                                  guint          *piece);

G_END_DECLS
