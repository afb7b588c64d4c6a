/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/**
 * rod_severity_nick:
 * @severity: a severity
 *
 * Returns: (transfer none): its word in files: "note", "should" or "must"
 */
const char *rod_severity_nick (RodSeverity severity);

/**
 * rod_article_kind_nick:
 * @kind: a kind of article
 *
 * Returns: (transfer none): its word in files: "board", "trim", "batten" or "fixing"
 */
const char *rod_article_kind_nick (RodArticleKind kind);

/**
 * rod_batten_use_nicks:
 * @uses: #RodBattenUse flags
 *
 * Returns: (transfer full): the words in files of all uses that hold: "edge", "opening", "corner",
 *          "joint"; none for a batten that fills between others
 */
char **rod_batten_use_nicks (guint uses) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
