/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-path.h"

G_BEGIN_DECLS

/**
 * RodClash:
 * @where: a point that both edges have in common, to 1 µm
 * @tag_a: tag of one edge, the lesser
 * @tag_b: tag of the other
 *
 * Where two edges cross, touch or lie on each other.
 */
typedef struct
{
  RodPoint where;
  int      tag_a;
  int      tag_b;
} RodClash;

/**
 * rod_path_find_clash:
 * @path: closed rings; edges of no length are not allowed
 * @clash: (out): the leftmost place where two edges meet that should not
 *
 * Edges may only meet where one ends and the next one of the same ring begins. Judged exactly on
 * whole micrometres. O(n log n) for n edges.
 *
 * Returns: whether there is such a place; if not, every ring is a simple polygon
 */
gboolean rod_path_find_clash (const RodPath *path,
                              RodClash      *clash);

G_END_DECLS
