/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_finding_text_count:
 * @findings: (element-type RodFinding): findings
 * @severity: which to count
 *
 * Returns: how many are that bad
 */
guint rod_finding_text_count (const GArray *findings,
                              RodSeverity   severity);

/**
 * rod_finding_text_tally:
 * @findings: (element-type RodFinding): findings
 *
 * Returns: (transfer full): how many of each kind, for people
 */
char *rod_finding_text_tally (const GArray *findings) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_finding_text_append:
 * @out: where to write
 * @findings: (element-type RodFinding): findings, worst first
 * @n: how many of them
 *
 * Writes findings in full: how bad, what is wrong, what to do, and the rule.
 */
void rod_finding_text_append (GString      *out,
                              const GArray *findings,
                              guint         n);

G_END_DECLS
