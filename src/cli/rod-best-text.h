/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/**
 * rod_best_text:
 * @before: take-off of the house as it was
 * @after: take-off of the same house with its best set-out
 *
 * Returns: (transfer full): what the best set-out changes, group by group, and what else there
 *          would have been and why it is worse
 */
char *rod_best_text (const RodTakeoff *before,
                     const RodTakeoff *after) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
