/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/setout/rod-phase.h"

G_BEGIN_DECLS

/**
 * rod_setout_reason:
 * @order: (array fixed-size=9): aims, the most important first
 * @better: what the better phase is worth
 * @worse: what the other one is worth
 *
 * Says why a master would not take the worse one: by the first aim in which they differ.
 *
 * Returns: (transfer full): a phrase for people, such as "2 slivers instead of none"; translated
 */
char *rod_setout_reason (const RodAimKind    *order,
                         const RodPhaseScore *better,
                         const RodPhaseScore *worse) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
