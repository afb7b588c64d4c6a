/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodTerm:
 * @value: signed; the terms of a reckoning add up to its result
 * @text: what it is; translated
 * @rule: (nullable): section of docs/rules.md it follows
 *
 * One term of a reckoning.
 */
typedef struct
{
  double      value;
  char       *text;
  const char *rule;
} RodTerm;

/**
 * RodReckoning:
 * @title: what is reckoned; translated
 * @unit: "mm" or "" for a count
 * @terms: (element-type RodTerm): its terms
 * @result: their sum
 *
 * Where a number comes from. Made on demand from the plan's own numbers.
 */
typedef struct
{
  char   *title;
  char   *unit;
  GArray *terms;
  double  result;
} RodReckoning;

/**
 * rod_reckon_piece_length:
 * @plan: a plan
 * @piece: index of a piece
 *
 * Returns: (transfer full): the length of a piece: span between raw lines, build-up, clearance,
 *          trims, gaps
 */
RodReckoning *rod_reckon_piece_length (const RodPlan *plan,
                                       guint          piece) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_reckon_piece_width:
 * @plan: a plan
 * @piece: index of a piece
 *
 * Returns: (transfer full): the width of a piece: cover less what is ripped
 */
RodReckoning *rod_reckon_piece_width (const RodPlan *plan,
                                      guint          piece) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_reckon_piece_gap:
 * @plan: a plan
 * @piece: index of a piece
 * @right: the right end, else the left
 *
 * Returns: (transfer full): the gap at one end: movement, tolerance, rounding up
 */
RodReckoning *rod_reckon_piece_gap (const RodPlan *plan,
                                    guint          piece,
                                    gboolean       right) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_reckon_edge:
 * @plan: a plan
 * @field: index of a field
 * @edge: index of one of its edges
 *
 * Returns: (transfer full): the edge stack, raw line to cut line
 */
RodReckoning *rod_reckon_edge (const RodPlan *plan,
                               guint          field,
                               guint          edge) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_reckon_phase:
 * @plan: a plan
 * @field: index of a field
 *
 * Returns: (transfer full): the first joint line of a field: how it follows from its group
 */
RodReckoning *rod_reckon_phase (const RodPlan *plan,
                                guint          field) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_reckon_field_screws:
 * @plan: a plan
 * @field: index of a field
 *
 * Returns: (transfer full): board and trim screws of a field
 */
RodReckoning *rod_reckon_field_screws (const RodPlan *plan,
                                       guint          field) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_reckoning_text:
 * @reckoning: a reckoning
 *
 * Figures go to a tenth; a minus is U+2212, and what rounds to nothing has none.
 *
 * Returns: (transfer full): one line for people, "4000 between raw lines − 2 trim = 3998 mm"
 */
char *rod_reckoning_text (const RodReckoning *reckoning) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_reckoning_free:
 * @reckoning: (transfer full) (nullable): a reckoning
 */
void rod_reckoning_free (RodReckoning *reckoning);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodReckoning, rod_reckoning_free)

G_END_DECLS
