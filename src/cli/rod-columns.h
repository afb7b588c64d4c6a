/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * ROD_COLUMNS_PAGE:
 *
 * Columns of a line: what every terminal shows.
 */
#define ROD_COLUMNS_PAGE 80

/**
 * rod_columns_width:
 * @text: UTF-8
 *
 * Returns: how many columns of a terminal @text takes
 */
guint rod_columns_width (const char *text);

/**
 * rod_columns_pad:
 * @out: where to write
 * @text: what stands in the column
 * @width: width of the column
 *
 * Writes @text and fills the column with blanks. Longer text is not cut.
 */
void rod_columns_pad (GString    *out,
                      const char *text,
                      guint       width);

/**
 * rod_columns_append:
 * @out: where to write
 * @label: what stands to the left of the text
 * @indent: column where the text begins
 * @text: text for people
 *
 * Writes @text behind @label as lines that fit a terminal of 80 columns and begin one below the
 * other. Where @label reaches into the text, the text begins on the next line. Line feeds in @text
 * end a line, no-break spaces keep words together.
 */
void rod_columns_append (GString    *out,
                         const char *label,
                         guint       indent,
                         const char *text);

G_END_DECLS
