/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-house.h"

G_BEGIN_DECLS

/**
 * RodRevealSide:
 * @ROD_REVEAL_LOWER: lower edge
 * @ROD_REVEAL_RIGHT: right edge
 * @ROD_REVEAL_UPPER: upper edge
 * @ROD_REVEAL_LEFT: left edge
 *
 * Edges of a derived reveal's outline, in order: the outline is counter-clockwise and starts at the
 * lower left corner as seen from the clad side.
 */
typedef enum
{
  ROD_REVEAL_LOWER,
  ROD_REVEAL_RIGHT,
  ROD_REVEAL_UPPER,
  ROD_REVEAL_LEFT,
} RodRevealSide;

/**
 * rod_reveal_surface:
 * @wall: the surface that has the opening
 * @opening: an opening with a reveal
 * @side: one of its straight sides
 *
 * Makes the lining of one side as a surface of its own: as long as the raw side, as deep as the
 * raw reveal. A jamb stands upright with y counted as on the wall; head and sill lie along x. The
 * sill's rise shortens jambs from below, as clearance of their lower edge.
 *
 * Returns: (transfer full): a surface of kind reveal
 */
RodSurface *rod_reveal_surface (const RodSurface *wall,
                                const RodOpening *opening,
                                const RodSide    *side) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_reveal_lines_side:
 * @opening: an opening
 * @side: one of its sides
 *
 * Returns: whether the opening's reveal lines this side; curved sides are never lined by boards
 */
gboolean rod_reveal_lines_side (const RodOpening *opening,
                                const RodSide    *side);

/**
 * rod_reveal_arris:
 * @side: the side a reveal lines
 *
 * Returns: which edge of the reveal's outline lies on the wall's face
 */
RodRevealSide rod_reveal_arris (const RodSide *side);

G_END_DECLS
