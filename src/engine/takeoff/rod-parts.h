/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodPart:
 * @set: the strips it belongs to
 * @strip: the strip
 *
 * One strip that becomes one piece. A plain value.
 */
typedef struct
{
  const RodStrips *set;
  const RodStrip  *strip;
} RodPart;

/**
 * RodParts:
 * @parts: (element-type RodPart): strips in laying order
 *
 * The courses of a field, split at its length joints.
 */
typedef struct
{
  RodStrips *courses;
  RodStrips *split;
  GArray    *parts;
} RodParts;

/**
 * rod_parts_init:
 * @parts: (out caller-allocates): parts
 * @plan: a plan
 * @field: a field with its pocket area and phase; gets its columns
 *
 * Cuts a field into courses, places its length joints and splits the courses there. A strip that
 * fits the stock and whose halves would be too short to use stays whole, such as the apex of a
 * gable (rule R19).
 */
void rod_parts_init (RodParts      *parts,
                     const RodPlan *plan,
                     RodField      *field);

/**
 * rod_parts_clear:
 * @parts: parts
 */
void rod_parts_clear (RodParts *parts);

/**
 * rod_part_ring:
 * @part: a part
 * @ring: 0 for its outer ring, then its holes
 * @tags: (out): tags of the ring
 * @n: (out): how many corners
 *
 * Returns: (transfer none): corners of the ring, board frame
 */
const RodPoint *rod_part_ring (const RodPart *part,
                               guint          ring,
                               const int    **tags,
                               guint         *n);

G_END_DECLS
