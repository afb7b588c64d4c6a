/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-piece-fit.h"

G_BEGIN_DECLS

/**
 * rod_piece_measure:
 * @fit: a piece, cut
 * @line_mm: its lower joint line, board frame
 * @cover_mm: the cover width
 * @piece: (inout): gets length, short side, width, low and high
 *
 * Measures a cut piece.
 */
void rod_piece_measure (const RodFit *fit,
                        double        line_mm,
                        double        cover_mm,
                        RodPiece     *piece);

/**
 * rod_piece_find_notches:
 * @fit: a piece, cut
 * @notches: (element-type RodNotch): gets its notches, left to right
 *
 * A notch is a run of sides that are neither ends nor lie on the piece's outermost lines.
 *
 * Returns: how many were added
 */
guint rod_piece_find_notches (const RodFit *fit,
                              GArray       *notches);

G_END_DECLS
