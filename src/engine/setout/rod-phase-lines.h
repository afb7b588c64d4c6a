/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/setout/rod-phase.h"

G_BEGIN_DECLS

/**
 * RodPhaseLines:
 *
 * Room for the straight lines that strips follow between two places where something that is counted
 * changes; kept from one pair of places to the next.
 */
typedef struct _RodPhaseLines RodPhaseLines;

/**
 * rod_phase_lines_new:
 *
 * Returns: (transfer full): room for lines
 */
RodPhaseLines *rod_phase_lines_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_phase_lines_free:
 * @lines: (transfer full): room for lines
 */
void rod_phase_lines_free (RodPhaseLines *lines);

/**
 * rod_phase_lines_best:
 * @lines: room for lines
 * @problem: a problem
 * @low_mm: a place
 * @high_mm: the next place, > @low_mm
 *
 * Returns: the phase between both at which the aims that are lengths are met best, in their order
 */
double rod_phase_lines_best (RodPhaseLines         *lines,
                             const RodPhaseProblem *problem,
                             double                 low_mm,
                             double                 high_mm);

/**
 * rod_phase_lines_trace:
 * @lines: room for lines
 * @problem: a problem
 * @low_mm: a place
 * @high_mm: the next place, > @low_mm
 * @points: (element-type RodCurvePoint): gets the corners of the narrowest strip from @low_mm to
 *          @high_mm, both included
 */
void rod_phase_lines_trace (RodPhaseLines         *lines,
                            const RodPhaseProblem *problem,
                            double                 low_mm,
                            double                 high_mm,
                            GArray                *points);

/**
 * rod_phase_places:
 * @problem: a problem
 *
 * Returns: (transfer full) (element-type double): every phase at which something that is counted
 *          changes, ascending from 0
 */
GArray *rod_phase_places (const RodPhaseProblem *problem) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
