/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "engine/files/rod-csv.h"

#include <math.h>

/* Expected texts follow RFC 4180, sections 2.1 to 2.7. */

static char *
one_cell (const char *value)
{
  RodCsv           csv;
  g_autofree char *text = NULL;

  rod_csv_init (&csv, "a");
  rod_csv_text (&csv, value);
  rod_csv_end_row (&csv);
  text = rod_csv_finish (&csv);
  g_assert_true (g_str_has_prefix (text, "a\r\n"));
  g_assert_true (g_str_has_suffix (text, "\r\n"));
  return g_strdup (text + 3);
}

static void
test_rows (void)
{
  RodCsv           csv;
  g_autofree char *text = NULL;

  rod_csv_init (&csv, "mark,length_mm,count,note");
  rod_csv_text (&csv, "N-01-1");
  rod_csv_number (&csv, 3980.04, 1);
  rod_csv_integer (&csv, -3);
  rod_csv_text (&csv, NULL);
  rod_csv_end_row (&csv);
  rod_csv_text (&csv, "");
  rod_csv_number (&csv, -2.5, 1);
  rod_csv_integer (&csv, G_MAXINT64);
  rod_csv_number (&csv, NAN, 1);
  rod_csv_end_row (&csv);
  text = rod_csv_finish (&csv);
  g_assert_cmpstr (text, ==, "mark,length_mm,count,note\r\n"
                             "N-01-1,3980,-3,\r\n"
                             ",-2.5,9223372036854775807,\r\n");
}

static void
test_quotes (void)
{
  static const struct
  {
    const char *value;
    const char *cell;
  } cases[] = {
    { "plain text", "plain text\r\n" },
    { "a,b", "\"a,b\"\r\n" },
    { "2\" pipe", "\"2\"\" pipe\"\r\n" },
    { "two\nlines", "\"two\nlines\"\r\n" },
    { "two\r\nlines", "\"two\r\nlines\"\r\n" },
    { "Fläche 3 m²", "Fläche 3 m²\r\n" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *cell = one_cell (cases[i].value);

      g_assert_cmpstr (cell, ==, cases[i].cell);
    }
}

/* The beginnings that spreadsheets take for a formula; common knowledge, no source. */
static void
test_formulas (void)
{
  static const struct
  {
    const char *value;
    const char *cell;
  } cases[] = {
    { "=1+1", "'=1+1\r\n" },
    { "+49", "'+49\r\n" },
    { "-N-01", "'-N-01\r\n" },
    { "@sum", "'@sum\r\n" },
    { "\tx", "'\tx\r\n" },
    { "\rx", "\"'\rx\"\r\n" },
    { "=HYPERLINK(\"x\",\"y\")", "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"\r\n" },
    { "a=b", "a=b\r\n" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *cell = one_cell (cases[i].value);

      g_assert_cmpstr (cell, ==, cases[i].cell);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/csv/rows", test_rows);
  g_test_add_func ("/csv/quotes", test_quotes);
  g_test_add_func ("/csv/formulas", test_formulas);
  return g_test_run ();
}
