/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodWalkAccept:
 * @plan: the plan
 * @face: index of a face
 * @edge: one of its edges, with a partner
 *
 * Returns: whether a walk may cross here; the same from both sides
 */
typedef gboolean (*RodWalkAccept) (const RodPlan *plan,
                                   guint          face,
                                   const RodEdge *edge);

/**
 * RodWalkStep:
 * @from_face: index of the face it was reached from, or -1
 * @from_edge: index of that face's edge, or -1
 * @part: which part, from 0
 *
 * How a face was reached. A plain value.
 */
typedef struct
{
  int   from_face;
  int   from_edge;
  guint part;
} RodWalkStep;

/**
 * RodWalk:
 * @steps: (array): one for each face
 * @order: (array): faces as they were reached
 * @n: faces
 * @n_parts: parts
 *
 * A way through all joins, nearest first. Not shared between threads.
 */
typedef struct
{
  RodWalkStep *steps;
  guint       *order;
  guint        n;
  guint        n_parts;
} RodWalk;

/**
 * rod_walk_new:
 * @plan: a plan with its areas
 * @accept: (nullable): which joins count; %NULL for all
 *
 * Walks from the wall whose id comes first through the joins, the nearest faces first, among
 * equally near ones by their ids; then on from the first wall not yet reached. The order in which
 * the file lists surfaces and joins changes nothing. n·log n in the number of surfaces.
 *
 * Returns: (transfer full): the walk
 */
RodWalk *rod_walk_new (const RodPlan *plan,
                       RodWalkAccept  accept) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_walk_free:
 * @walk: (transfer full) (nullable): a walk
 */
void rod_walk_free (RodWalk *walk);

/**
 * rod_walk_uses:
 * @walk: a walk
 * @face: index of a face
 * @edge_index: index of one of its edges
 * @edge: that edge, with a partner
 *
 * Returns: whether the walk crossed here, either way
 */
gboolean rod_walk_uses (const RodWalk *walk,
                        guint          face,
                        guint          edge_index,
                        const RodEdge *edge);

/**
 * rod_walk_loop:
 * @walk: a walk
 * @plan: its plan
 * @face: index of a face
 * @edge_index: one of its edges, whose partner lies in the same part
 * @steps: (element-type RodLoopStep): gets the loop's steps
 *
 * The chain that the walk made from @face to the face beyond the edge, which the edge closes to a
 * loop.
 */
void rod_walk_loop (const RodWalk *walk,
                    const RodPlan *plan,
                    guint          face,
                    guint          edge_index,
                    GArray        *steps);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodWalk, rod_walk_free)

G_END_DECLS
