/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodBattenLine:
 * @q: its place: x for upright battens, y for level ones
 * @uses: #RodBattenUse flags
 *
 * A centre line of battens over a whole field. A plain value.
 */
typedef struct
{
  double q;
  guint  uses;
} RodBattenLine;

/**
 * RodBattenLayer:
 * @plan: the plan
 * @field: the field
 * @rules: rules of its system
 * @width_mm: width of a batten
 * @pitch_mm: greatest distance of their centres, square to them
 * @upright: whether they stand upright
 * @counter: whether they lie behind the others
 *
 * One layer of battens of one field. A plain value.
 */
typedef struct
{
  const RodPlan  *plan;
  const RodField *field;
  const RodRules *rules;
  double          width_mm;
  double          pitch_mm;
  gboolean        upright;
  gboolean        counter;
} RodBattenLayer;

/**
 * rod_battens_upright:
 * @direction_deg: axis of the boards
 *
 * Returns: whether the battens stand upright: under boards flatter than 45°
 */
gboolean rod_battens_upright (double direction_deg);

/**
 * rod_batten_pitch_mm:
 * @centres_mm: greatest distance along the boards
 * @direction_deg: direction of the boards
 *
 * The greatest distance square to the battens that keeps their distance along the boards within
 * @centres_mm: a·cos θ under boards at θ from square (rule B1).
 *
 * Returns: mm
 */
double rod_batten_pitch_mm (double centres_mm,
                            double direction_deg);

/**
 * rod_batten_layer:
 * @plan: a plan
 * @field: a field with its edge stacks
 * @counter: whether the layer of counter battens is asked for, which the system must have
 *
 * Returns: the layer
 */
RodBattenLayer rod_batten_layer (const RodPlan  *plan,
                                 const RodField *field,
                                 gboolean        counter);

/**
 * rod_batten_layer_area:
 * @layer: a layer
 *
 * Returns: (transfer none): what its battens cover: the whole structure behind an undivided
 *          surface, else what its trims enclose
 */
const RodRegion *rod_batten_layer_area (const RodBattenLayer *layer);

/**
 * rod_batten_lines:
 * @layer: a layer
 *
 * Places battens (rules B2 and B3). A field whose length joints are not placed yet gets the lines
 * it would have without any; a butt joint on one of them changes none.
 *
 * Returns: (transfer full) (element-type RodBattenLine): lines, ascending
 */
GArray *rod_batten_lines (const RodBattenLayer *layer) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_batten_edge_uses:
 * @edge: an edge
 *
 * Returns: #RodBattenUse flags of a batten that serves it
 */
guint rod_batten_edge_uses (const RodEdge *edge);

G_END_DECLS
