/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodRings:
 * @shown: the plan's rings
 * @points: (element-type RodPoint): corners so far
 * @tags: (element-type int): their tags
 * @starts: (element-type guint): where rings start, and where the next one will
 *
 * The plan's rings while they grow.
 */
typedef struct
{
  RodRegion *shown;
  GArray    *points;
  GArray    *tags;
  GArray    *starts;
} RodRings;

/**
 * rod_rings_init:
 * @rings: (out caller-allocates): rings
 * @plan: a plan without rings; it gets an empty region that @rings fills
 * @n_points: for how many corners there should be room from the start
 */
void rod_rings_init (RodRings *rings,
                     RodPlan  *plan,
                     guint     n_points);

/**
 * rod_rings_add:
 * @rings: rings
 * @n: how many corners
 * @points: (out) (array length=n): where to write the corners, before the next ring is added
 * @tags: (out) (array length=n): where to write their tags
 *
 * Adds a ring.
 */
void rod_rings_add (RodRings  *rings,
                    guint      n,
                    RodPoint **points,
                    int      **tags);

/**
 * rod_rings_copy:
 * @rings: rings
 * @from: a region
 * @first: index of one of its rings
 * @n: how many rings from there
 *
 * Adds rings as they are.
 */
void rod_rings_copy (RodRings        *rings,
                     const RodRegion *from,
                     guint            first,
                     guint            n);

/**
 * rod_rings_show:
 * @rings: rings
 *
 * Lets the plan's region hold all that has been added, until more is.
 */
void rod_rings_show (RodRings *rings);

/**
 * rod_rings_finish:
 * @rings: rings; cleared
 *
 * Lets the plan's region hold all that has been added, for good.
 */
void rod_rings_finish (RodRings *rings);

G_END_DECLS
