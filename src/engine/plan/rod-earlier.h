/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-rings.h"

G_BEGIN_DECLS

/**
 * RodEarlier:
 * @before: (nullable): an earlier plan whose results may be taken over, or %NULL
 * @plan: the plan that is being made
 * @by_id: (nullable): a surface's id → its face in @before
 * @old_faces: (element-type int): for each face of @plan the one of @before that it continues, or
 *             -1
 * @new_faces: (array): for each face of @before the one of @plan that continues it, or -1
 *
 * What of an earlier plan still holds. Faces continue each other by their names: a surface by its
 * id, a reveal by its wall, opening and side. What was reckoned for one may be taken over where all
 * that it was reckoned from is the same, compared value by value.
 */
typedef struct
{
  const RodPlan *before;
  RodPlan       *plan;
  GHashTable    *by_id;
  GArray        *old_faces;
  int           *new_faces;
} RodEarlier;

/**
 * rod_earlier_init:
 * @earlier: (out caller-allocates): an earlier plan
 * @before: (nullable): the plan
 * @plan: a plan that holds its house only
 *
 * Where the houses differ in more than their surfaces and joins, nothing is taken over.
 */
void rod_earlier_init (RodEarlier    *earlier,
                       const RodPlan *before,
                       RodPlan       *plan);

/**
 * rod_earlier_clear:
 * @earlier: an earlier plan
 */
void rod_earlier_clear (RodEarlier *earlier);

/**
 * rod_earlier_note_surface:
 * @earlier: an earlier plan
 * @face: index of the newest face of the plan, a surface of the house
 *
 * Finds the face that it continues.
 */
void rod_earlier_note_surface (RodEarlier *earlier,
                               guint       face);

/**
 * rod_earlier_note_reveal:
 * @earlier: an earlier plan
 * @wall: index of a face
 * @opening: index of an opening in its surface
 * @side: index of a side of the opening
 *
 * Finds the face that the next face of the plan, which lines that side, will continue.
 *
 * Returns: (transfer none) (nullable): that face of the earlier plan
 */
const RodFace *rod_earlier_note_reveal (RodEarlier *earlier,
                                        guint       wall,
                                        guint       opening,
                                        guint       side);

/**
 * rod_earlier_keep_groups:
 * @earlier: an earlier plan
 *
 * Takes over the groups whose fields are the same as before in all but their phases, and marks
 * them as kept. A group's choice therefore may depend on nothing but its own fields, the ties
 * between them, their faces and systems, and what the house says besides surfaces and joins.
 */
void rod_earlier_keep_groups (const RodEarlier *earlier);

/**
 * rod_earlier_keep_cladding:
 * @earlier: an earlier plan
 * @field: index of a field with its phase; the fields before it have their pieces and battens
 * @rings: the plan's rings
 *
 * Takes over areas, pieces and battens of a field that is the same as before, edge stacks and phase
 * included. They therefore may depend on nothing but the field, its face and system, and what the
 * house says besides surfaces and joins.
 *
 * Returns: whether it did
 */
gboolean rod_earlier_keep_cladding (const RodEarlier *earlier,
                                    guint             field,
                                    RodRings         *rings);

G_END_DECLS
