/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-path.h"

G_BEGIN_DECLS

/**
 * RodInsetSide:
 * @from: start
 * @to: end
 * @bulge: arc, see rod_path_add_arc()
 * @inset_mm: how far the side moves to its left; negative to its right
 * @tag: tag of its edges
 *
 * A side of a closed ring with a distance of its own. A plain value.
 */
typedef struct
{
  RodPoint from;
  RodPoint to;
  double   bulge;
  double   inset_mm;
  int      tag;
} RodInsetSide;

/**
 * rod_path_add_inset_ring:
 * @path: a path with no ring open
 * @sides: (array length=n_sides): sides of a closed ring, in order
 * @n_sides: how many
 *
 * Moves every side square to itself by its own distance and adds the ring that the moved lines
 * bound: corners lie where neighbouring lines meet. Where they hardly meet (neighbours in one
 * line, or a spike sharper than ROD_SPIKE_RATIO times the distance) both line ends are kept and
 * joined. Parts that turn inside out have a winding number of their own sign and vanish in
 * rod_region_normalise().
 */
void rod_path_add_inset_ring (RodPath            *path,
                              const RodInsetSide *sides,
                              guint               n_sides);

/**
 * rod_lines_meet:
 * @a_from: a point of the first line
 * @a_to: another one
 * @b_from: a point of the second line
 * @b_to: another one
 * @at: (out): where they meet, set only when they do
 *
 * Returns: whether two endless lines meet; %FALSE when they are as good as parallel
 */
gboolean rod_lines_meet (RodPoint  a_from,
                         RodPoint  a_to,
                         RodPoint  b_from,
                         RodPoint  b_to,
                         RodPoint *at);

G_END_DECLS
