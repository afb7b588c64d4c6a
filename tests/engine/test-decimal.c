/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "engine/files/rod-decimal.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct
{
  double      value;
  guint       decimals;
  const char *text;
} Case;

/* By hand, from the contract: rounded, no needless zeros, no exponent, no negative zero. */
static const Case cases[] = {
  { 0.0, 3, "0" },
  { -0.0, 3, "0" },
  { -0.0004, 3, "0" },
  { -0.0006, 3, "-0.001" },
  { 3980.0, 3, "3980" },
  { 3116.6666666666665, 3, "3116.667" },
  { 100.0, 0, "100" },
  { -100.0, 0, "-100" },
  { 0.5, 1, "0.5" },
  { -0.4, 0, "0" },
  { 1e-9, 12, "0.000000001" },
  { 1e6, 3, "1000000" },
  { 1e20, 2, "100000000000000000000" },
};

static void
test_text (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GString) text = g_string_new ("x");

      rod_decimal_append (text, cases[i].value, cases[i].decimals);
      g_assert_cmpstr (text->str + 1, ==, cases[i].text);
    }
}

static void
test_greatest (void)
{
  g_autoptr (GString) text = g_string_new (NULL);

  rod_decimal_append (text, -DBL_MAX, ROD_DECIMALS_MAX);
  g_assert_cmpuint (text->len, ==, 310);
  g_assert_true (g_str_has_prefix (text->str, "-17976931348623157"));
}

/* What is read back is what was written, to half a step of the last decimal. */
static void
test_reads_back (void)
{
  for (int i = 0; i < 10000; i++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      double value = g_test_rand_double_range (-1e6, 1e6);
      guint  decimals = (guint) g_test_rand_int_range (0, 7);
      double half = 0.5 * pow (10.0, -(double) decimals);

      rod_decimal_append (text, value, decimals);
      g_assert_cmpfloat (fabs (g_ascii_strtod (text->str, NULL) - value), <=, half * 1.0001);
      g_assert_null (strpbrk (text->str, ",eE+ "));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/decimal/text", test_text);
  g_test_add_func ("/decimal/greatest", test_greatest);
  g_test_add_func ("/decimal/reads-back", test_reads_back);
  return g_test_run ();
}
