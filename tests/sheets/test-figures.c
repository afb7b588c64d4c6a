/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How numbers are written. The grouping blank is U+00A0, the minus U+2212; the decimal point is the
 * locale's, so that expectations are written with a point and turned. */
#include "config.h"

#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "sheets/rod-figures.h"

#define NBSP "\u00a0"
#define MINUS "\u2212"

static void
assert_figure (char       *figure,
               const char *expected)
{
  g_auto (GStrv) parts = g_strsplit (expected, ".", -1);
  g_autofree char *localised = g_strjoinv (localeconv ()->decimal_point, parts);
  g_autofree char *owned = figure;

  g_assert_cmpstr (owned, ==, localised);
}

static void
test_millimetres (void)
{
  static const struct
  {
    double      mm;
    const char *figure;
  } cases[] = {
    { 0, "0" },
    { -0.04, "0" },
    { 0.05, "0.1" },
    { 93, "93" },
    { 3116.6667, "3116.7" },
    { 3980.04, "3980" },
    { 9999.95, "10" NBSP "000" },
    { 9999, "9999" },
    { 10000, "10" NBSP "000" },
    { 50674, "50" NBSP "674" },
    { 1234567.25, "1" NBSP "234" NBSP "567.3" },
    { -29, MINUS "29" },
    { -0.06, MINUS "0.1" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_figure (rod_figures_length (ROD_UNITS_METRIC, cases[i].mm), cases[i].figure);
  assert_figure (rod_figures_length_unit (ROD_UNITS_METRIC, 3980), "3980" NBSP "mm");
}

/* One inch is exactly 25.4 mm (international yard and pound agreement of 1959, from memory). */
static void
test_feet_and_inches (void)
{
  static const struct
  {
    double      mm;
    const char *figure;
  } cases[] = {
    { 0, "0\"" },
    { 0.7, "0\"" },
    { 0.8, "1/16\"" },
    { 25.4, "1\"" },
    { 25.4 * 5.3125, "5 5/16\"" },
    { 25.4 * 0.5, "1/2\"" },
    { 25.4 * 12, "1'-0\"" },
    /* 11 31/32 and a hair more rounds to the foot, not to 11 16/16 or 12 inches. */
    { 25.4 * 11.97, "1'-0\"" },
    { 25.4 * 11.96, "11 15/16\"" },
    { 25.4 * (13 * 12 + 2.3125), "13'-2 5/16\"" },
    { 25.4 * (100 * 12 + 0.75), "100'-0 3/4\"" },
    { -25.4 * 1.5, MINUS "1 1/2\"" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_figure (rod_figures_length (ROD_UNITS_IMPERIAL, cases[i].mm), cases[i].figure);
  assert_figure (rod_figures_length_unit (ROD_UNITS_IMPERIAL, 304.8), "1'-0\"");
}

/* Whatever the length, reading the figure back gives it to half a sixteenth. */
static void
test_inches_read_back (void)
{
  for (int i = 0; i < 2000; i++)
    {
      double           mm = g_test_rand_double_range (0, 20000);
      g_autofree char *figure = rod_figures_length (ROD_UNITS_IMPERIAL, mm);
      const char      *rest = strchr (figure, '-');
      double           inches = 0;
      int              whole = 0, part = 0, of = 1;

      if (rest != NULL)
        inches = 12 * g_ascii_strtod (figure, NULL);
      rest = rest != NULL ? rest + 1 : figure;
      if (strchr (rest, '/') == NULL)
        g_assert_cmpint (sscanf (rest, "%d\"", &whole), ==, 1);
      else if (strchr (rest, ' ') != NULL)
        g_assert_cmpint (sscanf (rest, "%d %d/%d\"", &whole, &part, &of), ==, 3);
      else
        g_assert_cmpint (sscanf (rest, "%d/%d\"", &part, &of), ==, 2);
      g_assert_cmpint (whole, <, 12);
      g_assert_cmpint (part, <, of);
      inches += whole + (double) part / of;
      g_assert_cmpfloat_with_epsilon (inches * 25.4, mm, 25.4 / 32 + 1e-6);
    }
}

static void
test_sums (void)
{
  assert_figure (rod_figures_run (ROD_UNITS_METRIC, 123449), "123.4" NBSP "m");
  assert_figure (rod_figures_run (ROD_UNITS_METRIC, 0), "0.0" NBSP "m");
  assert_figure (rod_figures_run (ROD_UNITS_IMPERIAL, 304.8 * 10.25), "10.3" NBSP "ft");
  assert_figure (rod_figures_area (ROD_UNITS_METRIC, 41.324e6), "41.32" NBSP "m²");
  assert_figure (rod_figures_area (ROD_UNITS_METRIC, 12345.675e6), "12" NBSP "345.68" NBSP "m²");
  assert_figure (rod_figures_area (ROD_UNITS_IMPERIAL, 304.8 * 304.8 * 7), "7.0" NBSP "ft²");
  assert_figure (rod_figures_weight (ROD_UNITS_METRIC, 16.34), "16.3" NBSP "kg");
  assert_figure (rod_figures_weight (ROD_UNITS_METRIC, 8786.4), "8786" NBSP "kg");
  /* One pound is exactly 0.45359237 kg (from memory). */
  assert_figure (rod_figures_weight (ROD_UNITS_IMPERIAL, 4.5359237), "10.0" NBSP "lb");
  assert_figure (rod_figures_count (13363), "13" NBSP "363");
  assert_figure (rod_figures_count (2399), "2399");
  assert_figure (rod_figures_percent (0.0257), "2.6" NBSP "%");
  assert_figure (rod_figures_angle (22.5), "22.5°");
  assert_figure (rod_figures_angle (90), "90°");
}

/* Half up, as rule BR-DEC of EN 16931-1 is usually read: 3 × 3.335 = 10.005 must give 10.01, though
 * the binary number nearest to 10.005 lies below it. Decimals of currencies: ISO 4217, from memory.
 */
static void
test_money (void)
{
  assert_figure (rod_figures_money ("EUR", 10.005), "10.01" NBSP "EUR");
  assert_figure (rod_figures_money ("EUR", 3 * 3.335), "10.01" NBSP "EUR");
  assert_figure (rod_figures_money ("EUR", 5.7057), "5.71" NBSP "EUR");
  assert_figure (rod_figures_money ("USD", 34181.63), "34" NBSP "181.63" NBSP "USD");
  assert_figure (rod_figures_money ("JPY", 1234.5), "1235" NBSP "JPY");
  assert_figure (rod_figures_money ("KWD", 1.0005), "1.001" NBSP "KWD");
  assert_figure (rod_figures_amount ("CHF", 0), "0.00");
  assert_figure (rod_figures_amount ("CHF", -12.5), MINUS "12.50");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/figures/millimetres", test_millimetres);
  g_test_add_func ("/figures/feet-and-inches", test_feet_and_inches);
  g_test_add_func ("/figures/inches-read-back", test_inches_read_back);
  g_test_add_func ("/figures/sums", test_sums);
  g_test_add_func ("/figures/money", test_money);

  return g_test_run ();
}
