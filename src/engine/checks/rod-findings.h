/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_findings_new:
 *
 * Returns: (transfer full) (element-type RodFinding): an empty list that owns its texts
 */
GArray *rod_findings_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_findings_add:
 * @findings: a list
 * @finding: (transfer full): a finding; the list takes its texts
 */
void rod_findings_add (GArray           *findings,
                       const RodFinding *finding);

/**
 * rod_findings_sort:
 * @findings: a list
 *
 * Worst first; else the order in which they were found.
 */
void rod_findings_sort (GArray *findings);

G_END_DECLS
