/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-json-stream.h"
#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_fold_write_place:
 * @json: a stream, in an object
 * @plan: a plan
 * @face: index of a face
 *
 * Writes member "place": where the face lies in the folded house.
 */
void rod_fold_write_place (RodJsonStream *json,
                           const RodPlan *plan,
                           guint          face);

/**
 * rod_fold_write_closure:
 * @json: a stream, in a list
 * @plan: a plan
 * @index: index of a closure
 *
 * Writes one closure as an element.
 */
void rod_fold_write_closure (RodJsonStream *json,
                             const RodPlan *plan,
                             guint          index);

G_END_DECLS
