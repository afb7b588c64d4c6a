/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-point.h"

G_BEGIN_DECLS

/**
 * RodPath:
 *
 * Closed rings under construction: raw input for rod_region_normalise(). Rings may cross, touch
 * and overlap; each edge carries a tag that survives every later step, so that a piece's side can
 * say which edge of the house it came from. Not shared between threads.
 */
typedef struct _RodPath RodPath;

/**
 * rod_path_new:
 *
 * Returns: (transfer full): an empty path
 */
RodPath *rod_path_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_path_free:
 * @path: (transfer full) (nullable): a path
 */
void rod_path_free (RodPath *path);

/**
 * rod_path_add_corner:
 * @path: a path
 * @corner: the next corner of the open ring
 * @tag: tag ≥ 0 of the edge that leaves @corner
 */
void rod_path_add_corner (RodPath *path,
                          RodPoint corner,
                          int      tag);

/**
 * rod_path_add_arc:
 * @path: a path
 * @from: where the arc starts; it is added as a corner
 * @to: where the arc ends; it is not added (the next corner is)
 * @bulge: tangent of a quarter of the arc's angle; positive bends to the right of the chord, that
 *         is outwards on a counter-clockwise ring; 0 is a straight edge (a common convention of
 *         drawing exchange)
 * @tag: tag of every chord
 *
 * Adds an arc as chords. No chord leaves the arc by more than ROD_ARC_SAGITTA_MM; chords' ends
 * lie on the arc.
 */
void rod_path_add_arc (RodPath *path,
                       RodPoint from,
                       RodPoint to,
                       double   bulge,
                       int      tag);

/**
 * rod_path_close:
 * @path: a path
 *
 * Closes the open ring (the last corner joins the first) and starts a new one. A counter-clockwise
 * ring adds one to the winding number inside it, a clockwise ring takes one away. A ring of fewer
 * than three corners is dropped.
 */
void rod_path_close (RodPath *path);

/**
 * rod_path_close_reversed:
 * @path: a path
 *
 * Closes the open ring as rod_path_close() does, but turned round, each edge keeping its tag: the
 * way to subtract a ring that was written counter-clockwise.
 */
void rod_path_close_reversed (RodPath *path);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodPath, rod_path_free)

G_END_DECLS
