/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_fold_build:
 * @plan: a plan with its areas
 *
 * Folds the house: every face gets its place in space, and every join of the file that the places
 * need not meet its closure. x is east, y north, z the height over the datum. The first wall stands
 * over the origin and faces its compass direction, south where unknown; walls keep their level.
 * What no join ties to it stands to the east of it.
 */
void rod_fold_build (RodPlan *plan);

/**
 * rod_fold_place:
 * @plan: a plan whose house is folded
 * @share: how far it is folded: 1 as it stands, 0 flat
 * @places: (out caller-allocates) (array): gets one placement for each face
 *
 * The house half folded: every fold is taken by the same share, so that a picture can go from flat
 * to folded without a jump. Flat parts lie in the plane of their first wall, where they may cover
 * each other: #RodFace.net keeps them apart. Linear in the number of faces.
 */
void rod_fold_place (const RodPlan *plan,
                     double         share,
                     RodPlacement  *places);

/**
 * rod_fold_hinge:
 * @plan: a plan with its areas
 * @face: index of a face
 * @edge: one of its edges, with a partner
 *
 * Returns: how the partner hangs on @face, by the raw lines
 */
RodHinge rod_fold_hinge (const RodPlan *plan,
                         guint          face,
                         const RodEdge *edge);

/**
 * rod_fold_misfit:
 * @plan: a plan whose house is folded
 * @face: index of a face
 * @edge_index: one of its edges, with a partner
 *
 * Returns: how badly the places meet there; no steps
 */
RodClosure rod_fold_misfit (const RodPlan *plan,
                            guint          face,
                            guint          edge_index);

G_END_DECLS
