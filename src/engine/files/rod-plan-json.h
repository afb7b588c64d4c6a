/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-json-stream.h"
#include "engine/plan/rod-reckoning.h"

G_BEGIN_DECLS

/**
 * rod_plan_json_length:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @length_mm: a length
 *
 * Writes a length to the micrometre.
 */
void rod_plan_json_length (RodJsonStream *json,
                           const char    *name,
                           double         length_mm);

/**
 * rod_plan_json_angle:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @angle_deg: an angle
 *
 * Writes an angle in degrees.
 */
void rod_plan_json_angle (RodJsonStream *json,
                          const char    *name,
                          double         angle_deg);

/**
 * rod_plan_json_ratio:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @ratio: a factor, strain or share
 *
 * Writes a number without a unit.
 */
void rod_plan_json_ratio (RodJsonStream *json,
                          const char    *name,
                          double         ratio);

/**
 * rod_plan_json_choice:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @choices: a table
 * @value: a value
 *
 * Writes the word in files for a value of an enumeration.
 */
void rod_plan_json_choice (RodJsonStream   *json,
                           const char      *name,
                           const RodChoice *choices,
                           int              value);

/**
 * rod_plan_json_point:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @point: a point
 *
 * Writes a point as [x, y].
 */
void rod_plan_json_point (RodJsonStream *json,
                          const char    *name,
                          RodPoint       point);

/**
 * rod_plan_json_map:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @map: a map
 *
 * Writes a map as [xx, xy, x0, yx, yy, y0].
 */
void rod_plan_json_map (RodJsonStream *json,
                        const char    *name,
                        RodAffine      map);

/**
 * rod_plan_json_rings:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @region: a region, or rings that are no region by themselves
 * @first: index of the first ring
 * @n: how many rings
 *
 * Writes rings as a list of lists of corners.
 */
void rod_plan_json_rings (RodJsonStream   *json,
                          const char      *name,
                          const RodRegion *region,
                          guint            first,
                          guint            n);

/**
 * rod_plan_json_region:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @region: a region
 *
 * Writes all rings of a region.
 */
void rod_plan_json_region (RodJsonStream   *json,
                           const char      *name,
                           const RodRegion *region);

/**
 * rod_plan_json_reckoning:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @reckoning: (transfer full): a reckoning
 *
 * Writes a reckoning with its terms.
 */
void rod_plan_json_reckoning (RodJsonStream *json,
                              const char    *name,
                              RodReckoning  *reckoning);

/**
 * rod_plan_json_lengths:
 * @json: a stream
 * @name: (nullable): name of the member, %NULL in a list
 * @lengths_mm: (array length=n): lengths
 * @n: how many
 *
 * Writes a list of lengths.
 */
void rod_plan_json_lengths (RodJsonStream *json,
                            const char    *name,
                            const double  *lengths_mm,
                            guint          n);

G_END_DECLS
