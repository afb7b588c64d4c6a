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
 * the course and the place only, so that an edit elsewhere repaints nothing. Where neighbours must
 * not be alike, rod_colour_pattern_lay() decides instead.
 *
 * Returns: (transfer none): the colour
 */
const RodColour *rod_colour_mix_pick (const RodField *field,
                                      const RodPiece *piece);

/**
 * rod_colour_mix_draw:
 * @seed: seed of a mix
 * @course: course of a piece
 * @place: its place in the course
 *
 * Returns: the piece's own random number, 0 ≤ r < 1
 */
double rod_colour_mix_draw (int seed,
                            int course,
                            int place);

G_END_DECLS
