/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-earlier.h"

G_BEGIN_DECLS

/**
 * rod_faces_build:
 * @plan: a plan that holds its house only
 * @earlier: what of an earlier plan still holds; learns which faces continue its own
 *
 * First stage: makes a face of every surface and of every lined side of every opening, splits each
 * into fields by its zones, lists the fields' edges and ties them through the joins. Edges get
 * their condition, partner and build-up; nothing yet depends on where joint lines fall.
 */
void rod_faces_build (RodPlan    *plan,
                      RodEarlier *earlier);

/**
 * rod_side_role:
 * @side: a side of an opening, counter-clockwise
 *
 * Returns: %ROD_EDGE_SILL, %ROD_EDGE_HEAD or %ROD_EDGE_JAMB, by where the side faces
 */
RodEdgeCondition rod_side_role (const RodSide *side);

/**
 * rod_edge_line:
 * @edge: an edge
 * @from: (out): start of the raw line
 * @to: (out): its end
 *
 * The raw line turned so that the clad area lies to its left, on openings as on outlines.
 */
void rod_edge_line (const RodEdge *edge,
                    RodPoint      *from,
                    RodPoint      *to);

/**
 * rod_edge_shifted:
 * @edge: an edge
 * @inwards_mm: how far into the clad area, from the raw line
 * @from: (out): start of the shifted line, the clad area to its left
 * @to: (out): its end
 *
 * The edge's line moved square to itself; its ends are not yet trimmed against its neighbours.
 */
void rod_edge_shifted (const RodEdge *edge,
                       double         inwards_mm,
                       RodPoint      *from,
                       RodPoint      *to);

/**
 * rod_zone_side_shared_mm:
 * @side: a zone's side
 * @other: another edge of the same field
 *
 * Returns: how much of @side lies on @other, with the zone where @other's clad area is, mm; nothing
 *          where one of them is curved
 */
double rod_zone_side_shared_mm (const RodEdge *side,
                                const RodEdge *other);

/**
 * rod_edge_match_mm:
 * @plan: a plan with its faces
 * @face: index of a face
 * @edge: one of its edges, with a partner
 *
 * Where the partner's edge ends along this one, measured from this edge's start; the edges run
 * against each other. By level where both stand plumb on walls, for levels are shared round the
 * house; else by the edges' ends and the join's offset.
 *
 * Returns: mm
 */
double rod_edge_match_mm (const RodPlan *plan,
                          guint          face,
                          const RodEdge *edge);

G_END_DECLS
