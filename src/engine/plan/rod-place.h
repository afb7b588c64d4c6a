/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-placement.h"

G_BEGIN_DECLS

/**
 * RodFacePlace:
 * @at: where the face lies when the house stands; its raw plane
 * @hangs_on: index of the face it hangs on, or -1 for the first of its part
 * @edge: index of the edge of @hangs_on's first field that it hangs on, or -1
 * @lift_mm: how far along its own y a wall was moved to the level that was measured for it; 0 where
 *           its join agrees
 * @part: which part of the house, from 0: the faces that joins tie together
 * @alone: whether no join ties it to another surface; reveals are as their wall is
 * @walked: index of the face that is the n-th to be placed, where n is this place's own index: what
 *          a face hangs on always comes before it
 *
 * Where a face lies in the folded house. A plain value.
 */
typedef struct
{
  RodPlacement at;
  int          hangs_on;
  int          edge;
  double       lift_mm;
  guint        part;
  gboolean     alone;
  guint        walked;
} RodFacePlace;

/**
 * RodLoopStep:
 * @face: index of a face
 * @in_edge: index of the edge of its first field where the loop comes in
 * @out_edge: where it goes on
 *
 * A face that a chain of joins passes. A plain value.
 */
typedef struct
{
  guint face;
  guint in_edge;
  guint out_edge;
} RodLoopStep;

/**
 * RodClosure:
 * @face: index of a face
 * @edge: index of the edge of its first field where the chain closes
 * @gap: from where an end of the edge beyond should be to where it is, the worse of both
 * @misfit_mm: length of @gap
 * @edge_deg: angle between the two edges
 * @fold_deg: the fold there is less the fold there should be
 * @first_step: index of its first step in the plan: @face, that it leaves by the other edge
 * @n_steps: steps; the last one is the face beyond @edge
 *
 * A join of the file that the folded house need not meet: what is over is the error of the survey.
 * A plain value.
 */
typedef struct
{
  guint     face;
  guint     edge;
  RodVector gap;
  double    misfit_mm;
  double    edge_deg;
  double    fold_deg;
  guint     first_step;
  guint     n_steps;
} RodClosure;

G_END_DECLS
