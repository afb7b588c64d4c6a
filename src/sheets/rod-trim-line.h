/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodTrimLine:
 * @points: (array length=n_points): from end to end in the surface's plane; two of a straight trim
 * @n_points: how many
 * @reach_mm: how far the width of the trim reaches to the left of the line; the rest lies to the
 *            right
 *
 * Where a run of trim is drawn: on the boards' side of its edge, and astride a length joint.
 */
typedef struct
{
  RodPoint *points;
  guint     n_points;
  double    reach_mm;
} RodTrimLine;

/**
 * rod_trim_line_new:
 * @plan: a plan
 * @run: one of its trim runs
 *
 * Follows the run along its edge. An arc has the chords that its boards are cut to.
 *
 * Returns: (transfer full): the line
 */
RodTrimLine *rod_trim_line_new (const RodPlan    *plan,
                                const RodTrimRun *run) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_trim_line_free:
 * @line: (transfer full) (nullable): a line
 */
void rod_trim_line_free (RodTrimLine *line);

/**
 * rod_trim_line_place:
 * @line: a line
 * @share: how far along it, from 0 to 1
 * @along: (out) (optional): a unit step along the line there
 *
 * Returns: the point
 */
RodPoint rod_trim_line_place (const RodTrimLine *line,
                              double             share,
                              RodPoint          *along);

/**
 * rod_trim_line_band:
 * @line: a line
 * @left: how far the band reaches to the left of it
 * @width: of the band
 *
 * Returns: (transfer full) (element-type RodPoint): the corners of the band
 */
GArray *rod_trim_line_band (const RodTrimLine *line,
                            double             left,
                            double             width) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodTrimLine, rod_trim_line_free)

G_END_DECLS
