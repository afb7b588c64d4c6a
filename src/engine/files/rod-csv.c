/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Comma-separated values by RFC 4180, safe to open in a spreadsheet. */
#include "config.h"

#include "engine/files/rod-csv.h"

#include "engine/files/rod-decimal.h"

#include <math.h>
#include <string.h>

static void
begin_cell (RodCsv *csv)
{
  g_assert (csv->column < csv->n_columns);
  if (csv->column > 0)
    g_string_append_c (csv->text, ',');
  csv->column++;
}

static void
append_quoted (GString    *text,
               const char *value)
{
  g_string_append_c (text, '"');
  for (const char *c = value; *c != '\0'; c++)
    {
      if (*c == '"')
        g_string_append_c (text, '"');
      g_string_append_c (text, *c);
    }
  g_string_append_c (text, '"');
}

void
rod_csv_init (RodCsv     *csv,
              const char *columns)
{
  g_return_if_fail (csv != NULL);
  g_return_if_fail (columns != NULL && *columns != '\0');

  csv->text = g_string_new (columns);
  csv->n_columns = 1;
  for (const char *c = columns; *c != '\0'; c++)
    csv->n_columns += *c == ',' ? 1 : 0;
  csv->column = csv->n_columns;
  rod_csv_end_row (csv);
}

void
rod_csv_text (RodCsv     *csv,
              const char *value)
{
  g_autofree char *guarded = NULL;

  g_return_if_fail (csv != NULL);

  begin_cell (csv);
  if (value == NULL || *value == '\0')
    return;
  if (strchr ("=+-@\t\r", *value) != NULL)
    value = guarded = g_strconcat ("'", value, NULL);
  if (strpbrk (value, ",\"\r\n") != NULL)
    append_quoted (csv->text, value);
  else
    g_string_append (csv->text, value);
}

void
rod_csv_number (RodCsv *csv,
                double  value,
                guint   decimals)
{
  g_return_if_fail (csv != NULL);

  begin_cell (csv);
  if (isfinite (value))
    rod_decimal_append (csv->text, value, decimals);
}

void
rod_csv_integer (RodCsv *csv,
                 gint64  value)
{
  g_return_if_fail (csv != NULL);

  begin_cell (csv);
  g_string_append_printf (csv->text, "%" G_GINT64_FORMAT, value);
}

void
rod_csv_end_row (RodCsv *csv)
{
  g_return_if_fail (csv != NULL);
  g_return_if_fail (csv->column == csv->n_columns);

  csv->column = 0;
  g_string_append (csv->text, "\r\n");
}

char *
rod_csv_finish (RodCsv *csv)
{
  g_return_val_if_fail (csv != NULL, NULL);
  g_return_val_if_fail (csv->column == 0, NULL);

  return g_string_free (g_steal_pointer (&csv->text), FALSE);
}
