/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_noggins_add:
 * @plan: a plan
 * @field: index of a field with its pieces and battens, the last that has battens
 *
 * Adds short battens behind pieces that would hang on one: at the point of a mitre, in a narrow
 * pier (rule R23). Each is as long as the piece is wide.
 */
void rod_noggins_add (RodPlan *plan,
                      guint    field);

G_END_DECLS
