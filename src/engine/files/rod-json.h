/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-json-place.h"

G_BEGIN_DECLS

/**
 * rod_json_parse:
 * @text: JSON
 * @length: bytes, or -1 when zero-terminated
 * @name: what paths in messages begin with, such as "$"
 * @error: return location for an error
 *
 * Reads strict JSON (RFC 8259): no comments, no trailing commas, no member twice in one object, no
 * number that a double or a 64-bit integer cannot hold, no zero characters. Size, depth and the
 * number of values are limited (engine/rod-limits.h), so that no file can exhaust stack or memory.
 *
 * Fails with %ROD_FILE_ERROR_SYNTAX; the message has path, line and column.
 *
 * Returns: (transfer full): the root, or %NULL on error
 */
JsonNode *rod_json_parse (const char *text,
                          gssize      length,
                          const char *name,
                          GError    **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_json_found:
 * @node: (nullable): a node
 *
 * Returns: (transfer full): what it is, for messages: a number as it is, a text in quotes, cut
 *          short when long, "an object", …; "nothing" for %NULL
 */
char *rod_json_found (JsonNode *node) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_json_quote:
 * @text: (nullable): a text, which need not be UTF-8
 *
 * Returns: (transfer full): the text in quotes, cut short when long, for messages
 */
char *rod_json_quote (const char *text) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_json_number:
 * @number: a number
 *
 * Returns: (transfer full): the fewest digits that read back as the same number, in every locale
 */
char *rod_json_number (double number) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
