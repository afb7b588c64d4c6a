/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_field_contains:
 * @field: a field with its edges
 * @at: a point of the surface's plane
 *
 * Arcs count as their chords, and lines are the raw ones.
 *
 * Returns: whether the point belongs to the field: in its outline and its own zone, in no opening
 *          and in no zone laid over it
 */
gboolean rod_field_contains (const RodField *field,
                             RodPoint        at);

/**
 * rod_field_boards_alike:
 * @one: a field
 * @other: a field of the same face
 *
 * Returns: whether both have the same board, in the same direction and hooked the same way round
 */
gboolean rod_field_boards_alike (const RodField *one,
                                 const RodField *other);

/**
 * rod_joint_rules_of:
 * @face: the face of a field
 * @field: the field, with its zone, board and direction
 *
 * Looks up in zone, surface and system, in this order, what is said of length joints. A pattern
 * without trims needs a system whose boards may meet over a batten (rule R22) and boards that run
 * level or upright; else columns take its place.
 *
 * Returns: the rules
 */
RodJointRules rod_joint_rules_of (const RodFace  *face,
                                  const RodField *field);

/**
 * rod_field_has_butt_joints:
 * @field: a field
 *
 * Returns: whether boards meet over a batten, each course at its own places, without a trim
 */
gboolean rod_field_has_butt_joints (const RodField *field);

/**
 * rod_field_nearest_joint:
 * @field: a field with its length joints
 * @course: one of its courses, see #RodLengthJoint
 * @at_mm: a place along the boards, board frame
 *
 * Returns: (nullable): the joint of the course that is nearest
 */
const RodLengthJoint *rod_field_nearest_joint (const RodField *field,
                                               int             course,
                                               double          at_mm);

G_END_DECLS
