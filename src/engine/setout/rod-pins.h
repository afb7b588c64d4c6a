/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_field_phase_at:
 * @field: a field
 * @surface: its surface
 * @at_mm: a place in the surface's own words: height above datum for level boards, x for upright
 *         ones, square to the boards otherwise
 *
 * Returns: the phase of the field that has a joint line there
 */
double rod_field_phase_at (const RodField   *field,
                           const RodSurface *surface,
                           double            at_mm);

/**
 * rod_pins_allowed:
 * @plan: a plan with its groups
 * @fields: (array length=n_fields): fields of one group
 * @n_fields: how many
 * @pitch_mm: the group's pitch
 *
 * Takes pin after pin, surfaces in the order of their ids; one that earlier ones leave no place for
 * is passed over (rod_pins_check() reports it).
 *
 * Returns: (transfer full) (nullable) (element-type double): the phases of the group that pins
 *          leave, 0 ≤ φ < pitch; %NULL without pins
 */
GArray *rod_pins_allowed (const RodPlan *plan,
                          const guint   *fields,
                          guint          n_fields,
                          double         pitch_mm) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_pins_check:
 * @plan: a plan whose fields have their phases
 *
 * Adds a finding for every pin and every line left by hand that joint lines pass by more than
 * ROD_VISIBLE_MISFIT_MM, saying which other pin they follow, and for every pin that asks for what
 * its boards cannot do.
 */
void rod_pins_check (RodPlan *plan);

G_END_DECLS
