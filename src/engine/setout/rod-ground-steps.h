/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-point.h"

G_BEGIN_DECLS

/**
 * RodGround:
 * @line: (array length=n): the ground line, x ascending
 * @n: how many points, ≥ 2
 * @phase_mm: one joint line
 * @cover_mm: distance of the joint lines
 * @clearance_mm: boards begin at least this far above the ground
 * @bay_mm: distance of battens; steps stand on them
 * @least_run_mm: shortest run between two steps
 *
 * Ground under level boards, in the surface's plane. A plain value.
 */
typedef struct
{
  const RodPoint *line;
  guint           n;
  double          phase_mm;
  double          cover_mm;
  double          clearance_mm;
  double          bay_mm;
  double          least_run_mm;
} RodGround;

/**
 * RodTread:
 * @from_mm: left end
 * @to_mm: right end
 * @line_mm: the joint line its first course stands on
 *
 * A level part of a stepped base. A plain value.
 */
typedef struct
{
  double from_mm;
  double to_mm;
  double line_mm;
} RodTread;

/**
 * rod_ground_steps:
 * @ground: ground and rod
 *
 * Rule R13: the lowest base in steps of whole covers that keeps its clearance everywhere, each step
 * on a batten (counted from the higher end) and each run not shorter than asked for; so a base goes
 * down as soon as the ground allows it, but not before the next batten. A line shorter than one run
 * is one tread.
 *
 * Returns: (transfer full) (element-type RodTread): treads from left to right, at least one
 */
GArray *rod_ground_steps (const RodGround *ground) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
