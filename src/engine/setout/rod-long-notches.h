/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodLongNotch:
 * @course: the course that would be notched, see #RodLengthJoint
 * @jambs: lines of the opening's two jambs along the boards, board frame, ascending
 * @width_mm: width of the notch
 *
 * A notch over or under an opening that is longer than the system allows. A plain value.
 */
typedef struct
{
  int    course;
  double jambs[2];
  double width_mm;
} RodLongNotch;

/**
 * rod_long_notches:
 * @plan: a plan
 * @field: a field with its phase
 *
 * Rule R29: a board that would be notched over more than `notch_longest_mm` is jointed on the lines
 * of both jambs instead. Openings without a trim, and those whose sides are not square to the
 * boards, are left out.
 *
 * Returns: (transfer full) (element-type RodLongNotch): such notches, in the order of the edges
 */
GArray *rod_long_notches (const RodPlan  *plan,
                          const RodField *field) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
