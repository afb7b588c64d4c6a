/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * RodCsv:
 * @text: (owned): what is written so far
 * @n_columns: columns of the header row
 * @column: cells written in the current row
 *
 * A table of comma-separated values as RFC 4180 has it: rows end in CR LF, cells are quoted where
 * they must be, the first row names the columns, every row has as many cells as the first. UTF-8
 * without a byte order mark.
 */
typedef struct
{
  GString *text;
  guint    n_columns;
  guint    column;
} RodCsv;

/**
 * rod_csv_init:
 * @csv: (out): a table
 * @columns: names of the columns, separated by commas
 *
 * Begins a table with its header row.
 */
void rod_csv_init (RodCsv     *csv,
                   const char *columns);

/**
 * rod_csv_text:
 * @csv: a table
 * @value: (nullable): text, or %NULL for an empty cell
 *
 * Writes the next cell. Text that a spreadsheet would run as a formula (beginning with one of
 * "=+-@", a tab or a carriage return) is given a leading apostrophe, which shows it as text: names
 * come from files of others.
 */
void rod_csv_text (RodCsv     *csv,
                   const char *value);

/**
 * rod_csv_number:
 * @csv: a table
 * @value: a number; the cell stays empty where it is not finite
 * @decimals: see rod_decimal_append()
 *
 * Writes the next cell.
 */
void rod_csv_number (RodCsv *csv,
                     double  value,
                     guint   decimals);

/**
 * rod_csv_integer:
 * @csv: a table
 * @value: a whole number
 *
 * Writes the next cell.
 */
void rod_csv_integer (RodCsv *csv,
                      gint64  value);

/**
 * rod_csv_end_row:
 * @csv: a table whose row is full
 */
void rod_csv_end_row (RodCsv *csv);

/**
 * rod_csv_finish:
 * @csv: a table
 *
 * Returns: (transfer full): the text of the table, which is empty from now on
 */
char *rod_csv_finish (RodCsv *csv) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
