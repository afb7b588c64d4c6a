/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodMarkPlace:
 * @at: centre of the room, in the surface's plane
 * @along: a unit step along the boards, in the surface's plane, pointing right or up
 * @room_mm: length of the room along the boards
 *
 * Where a piece has most room for its mark. A plain value.
 */
typedef struct
{
  RodPoint at;
  RodPoint along;
  double   room_mm;
} RodMarkPlace;

/**
 * rod_mark_place_find:
 * @plan: a plan
 * @piece: index of a piece
 * @height_mm: height of the writing on the piece
 * @place: (out): the place
 *
 * Looks for the longest stretch along the middle of the piece over which a band of @height_mm lies
 * wholly on it: beside notches and holes, and in the wide part of a raked piece.
 *
 * Returns: whether there is any
 */
gboolean
rod_mark_place_find (const RodPlan *plan,
                     guint          piece,
                     double         height_mm,
                     RodMarkPlace  *place);

G_END_DECLS
