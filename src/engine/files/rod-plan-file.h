/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-takeoff.h"

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * rod_plan_write:
 * @takeoff: a take-off with its plan
 * @stream: where to write; not closed
 * @error: return location for an error
 *
 * Writes the whole plan as JSON for other programs, described by docs/schemas/plan.schema.json:
 * faces, fields with their edge stacks, alignment groups, pieces, battens, trims, findings, cutting
 * lists and order, each number with its reckoning. Lengths are millimetres to three decimals. The
 * same plan gives the same bytes in every locale, but for the sentences meant for people, which are
 * in the language in which the plan was made.
 *
 * Fails with the stream's error; part of the text may have been written by then.
 *
 * Returns: whether all of it is written
 */
gboolean rod_plan_write (const RodTakeoff *takeoff,
                         GOutputStream    *stream,
                         GError          **error);

G_END_DECLS
