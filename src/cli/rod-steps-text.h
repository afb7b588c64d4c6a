/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_steps_text:
 * @plan: a plan
 *
 * Says where rod_house_with_steps() puts steps, wall by wall: their places from the left end of the
 * base, and the joint lines boards then stand on.
 *
 * Returns: (transfer full): lines, with an empty one at their end
 */
char *rod_steps_text (const RodPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
