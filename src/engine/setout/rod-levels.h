/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"
#include "engine/setout/rod-phase.h"

G_BEGIN_DECLS

/**
 * rod_field_add_levels:
 * @plan: a plan with its alignment groups
 * @field: a field
 * @levels: (element-type RodLevel): gets the levels of its edges along the boards
 * @starters: (element-type RodStarterArc): gets its starters
 * @spans: (element-type RodSpan): gets its boards from end to end, where they have ends
 *
 * Levels are cut lines: what is left of a board beside them is what the pocket has to hold.
 */
void rod_field_add_levels (const RodPlan  *plan,
                           const RodField *field,
                           GArray         *levels,
                           GArray         *starters,
                           GArray         *spans);

/**
 * rod_field_add_corner_levels:
 * @plan: a plan with its alignment groups
 * @field: a field
 * @levels: (element-type RodLevel): gets two levels
 *
 * Takes the field's outermost corners across the boards for levels: what diagonal boards are set
 * out from, where no edge runs along them.
 */
void rod_field_add_corner_levels (const RodPlan  *plan,
                                  const RodField *field,
                                  GArray         *levels);

/**
 * rod_field_span:
 * @plan: a plan with its alignment groups
 * @field: a field
 * @span: (out): its boards from end to end, in the group's measure
 *
 * Returns: whether they have both ends
 */
gboolean rod_field_span (const RodPlan  *plan,
                         const RodField *field,
                         RodSpan        *span);

/**
 * rod_field_edge_at:
 * @plan: a plan with its edge stacks
 * @field: a field
 * @edge: index of one of its edges, which boards run along
 * @at_mm: (out): its cut line, across the boards
 *
 * Returns: whether a strip may be left there: not on a starter, nor where nothing ends
 */
gboolean rod_field_edge_at (const RodPlan  *plan,
                            const RodField *field,
                            guint           edge,
                            double         *at_mm);

/**
 * RodRisk:
 * @edge: index of an edge of the field
 * @strip_mm: the strip that is left there, a whole cover where its pocket swallows it
 * @worst_mm: what may come out within the survey's tolerance
 * @least_mm: narrowest strip that is no sliver
 *
 * A strip that the survey's tolerance may make a sliver. A plain value.
 */
typedef struct
{
  guint  edge;
  double strip_mm;
  double worst_mm;
  double least_mm;
} RodRisk;

/**
 * rod_field_add_risks:
 * @plan: a plan whose fields have their phases and whose starters are settled
 * @field: a field
 * @risks: (element-type RodRisk): gets the strips that are no slivers but may become so
 */
void rod_field_add_risks (const RodPlan  *plan,
                          const RodField *field,
                          GArray         *risks);

/**
 * rod_field_absorb:
 * @plan: a plan whose fields have their phases and whose starters are settled
 * @field: a field
 *
 * Lets trims' pockets swallow the strips that are thin enough (rule R6): their edges' cut lines
 * move to the joint line.
 */
void rod_field_absorb (const RodPlan *plan,
                       RodField      *field);

/**
 * rod_edge_ease:
 * @plan: a plan
 * @field: a field
 * @edge: one of its edges
 *
 * Returns: how many times a strip at that edge counts (see #RodLevel), by from where it is seen
 */
double rod_edge_ease (const RodPlan  *plan,
                      const RodField *field,
                      const RodEdge  *edge);

/**
 * rod_level_in_group:
 * @field: a field with its group
 * @level: a level, its place and what faces it in the field's own measure
 *
 * Returns: the same level in the group's measure, with the group's period and ratio
 */
RodLevel rod_level_in_group (const RodField *field,
                             const RodLevel *level);

G_END_DECLS
