/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_colour_mix_pick:
 * @field: the field
 * @piece: the piece, with its course and place
 *
 * Picks a piece's colour: the field's, or one of its mix by weight. The pick depends on the seed,
 * the course and the place only, so that an edit elsewhere repaints nothing.
 *
 * Returns: (transfer none): the colour
 */
const RodColour *rod_colour_mix_pick (const RodField *field,
                                      const RodPiece *piece);

G_END_DECLS
