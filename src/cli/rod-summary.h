/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/**
 * rod_summary_text:
 * @takeoff: a take-off with its plan
 *
 * Returns: (transfer full): what a contractor wants to know first: what is clad, what is needed of
 *          everything, what it costs and weighs, and the findings, the worst in full
 */
char *rod_summary_text (const RodTakeoff *takeoff) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
