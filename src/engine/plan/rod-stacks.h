/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_stacks_build:
 * @plan: a plan with its faces
 *
 * Second stage: for every edge of every field finds how the boards meet it, which row of the
 * decision table holds, and from these the edge stack (clearance, trim, gap across). Starters get
 * the lowest height allowed; rod_stacks_settle_starters() puts them on a joint line.
 */
void rod_stacks_build (RodPlan *plan);

/**
 * rod_stacks_settle_starters:
 * @plan: a plan whose fields have their phases
 *
 * Raises every starter to the first joint line in its range. Where the range holds no joint line
 * the edge falls back to the next row of the decision table without a starter, and the first course
 * is ripped (rule R12).
 */
void rod_stacks_settle_starters (RodPlan *plan);

/**
 * rod_field_lightness:
 * @field: a field
 *
 * Returns: lightness of its colour; in a mix of the darkest, which moves most, so that all pieces
 *          are cut for it
 */
RodLightness rod_field_lightness (const RodField *field);

/**
 * rod_edge_lose_starter:
 * @plan: a plan
 * @field: a field
 * @edge: (inout): an edge with a starter, the field's own or a copy
 *
 * Gives the edge the next row of the decision table without a starter, and its stack.
 */
void rod_edge_lose_starter (const RodPlan  *plan,
                            const RodField *field,
                            RodEdge        *edge);

/**
 * rod_edge_starter_range:
 * @plan: a plan
 * @field: a field
 * @edge: one of its edges, with a starter
 * @low_mm: (out): lowest starter above the batten-face line
 * @high_mm: (out): highest starter above it
 *
 * The surface's own range, or else the range of the decision table's row.
 */
void rod_edge_starter_range (const RodPlan  *plan,
                             const RodField *field,
                             const RodEdge  *edge,
                             double         *low_mm,
                             double         *high_mm);

/**
 * rod_edge_inset:
 * @edge: an edge
 *
 * Returns: trim's boundary from the raw line, inwards, mm: clearance less build-up
 */
double rod_edge_inset (const RodEdge *edge);

/**
 * rod_edge_trimless:
 * @plan: a plan
 * @field: a field
 * @edge: one of its edges
 *
 * Returns: whether boards are simply cut clear of it, without a trim: around pipes and lights
 */
gboolean rod_edge_trimless (const RodPlan  *plan,
                            const RodField *field,
                            const RodEdge  *edge);

G_END_DECLS
