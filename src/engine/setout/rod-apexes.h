/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_field_add_apexes:
 * @plan: a plan with its edge stacks
 * @field: one of its fields, with its group
 * @levels: (element-type RodLevel): gets a level for each apex
 *
 * Rule R19: the last board under an apex of a wall, where a raked edge meets another edge at which
 * boards end, is a triangle. Its foot is to be as long as the shortest piece and its height not
 * less than the narrowest rip: with slopes of β and γ a height of
 * max (rip, piece/(1/tan β + 1/tan γ)), which is the level's narrowest strip. An apex that would
 * want more than a cover gives no level: no place of the joint lines helps there.
 */
void rod_field_add_apexes (const RodPlan  *plan,
                           const RodField *field,
                           GArray         *levels);

G_END_DECLS
