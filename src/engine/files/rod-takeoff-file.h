/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-json-stream.h"
#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/**
 * rod_takeoff_findings:
 * @takeoff: a take-off
 *
 * Returns: (transfer full) (element-type RodFinding): what planning and taking off found, worst
 *          first, otherwise in their own order; texts are borrowed from @takeoff
 */
GArray *rod_takeoff_findings (const RodTakeoff *takeoff) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_takeoff_write_members:
 * @takeoff: a take-off
 * @json: a stream inside an object
 *
 * Writes findings, cutting lists, order and totals as members of the object that is open; see
 * rod_plan_write().
 */
void rod_takeoff_write_members (const RodTakeoff *takeoff,
                                RodJsonStream    *json);

G_END_DECLS
