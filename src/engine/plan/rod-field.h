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

G_END_DECLS
