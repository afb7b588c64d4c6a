/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-region.h"

G_BEGIN_DECLS

/**
 * RodSpan:
 * @from: start along the line, mm
 * @to: end
 * @from_tag: tag of the region's edge at the start
 * @to_tag: tag of the region's edge at the end
 *
 * A stretch of a line inside a region. A plain value.
 */
typedef struct
{
  double from;
  double to;
  int    from_tag;
  int    to_tag;
} RodSpan;

/**
 * rod_region_clip_line:
 * @region: a region
 * @origin: a point of the line
 * @direction: its direction, of length 1
 *
 * Stretches of an endless line inside a region, measured from @origin. A line that runs along an
 * edge counts as lying just to its left. O(V).
 *
 * Returns: (transfer full) (element-type RodSpan): the stretches, ascending
 */
GArray *rod_region_clip_line (const RodRegion *region,
                              RodPoint         origin,
                              RodPoint         direction) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
