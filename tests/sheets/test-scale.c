/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include <math.h>

#include "sheets/rod-scale.h"

/* ISO 216, trimmed sizes as published in many tables. */
static void
test_paper (void)
{
  double width, height;

  rod_paper_size (ROD_PAPER_A4, &width, &height);
  g_assert_cmpfloat (width, ==, 297);
  g_assert_cmpfloat (height, ==, 210);
  rod_paper_size (ROD_PAPER_A3, &width, &height);
  g_assert_cmpfloat (width, ==, 420);
  g_assert_cmpfloat (height, ==, 297);
}

/* The reductions of ISO 5455:1979, its table: 1:2 1:5 1:10 … 1:10000. */
static void
test_choice (void)
{
  static const struct
  {
    double width, height, room_width, room_height, denominator;
  } cases[] = {
    /* 8400 × 5200 on A4 with margins of ISO 5457 (297 − 30 by 210 − 20): needs 1:31.46. */
    { 8400, 5200, 267, 190, 50 },
    { 13350, 100, 267, 190, 50 }, /* fits exactly */
    { 13350.001, 100, 267, 190, 100 },
    { 100, 100, 267, 190, 1 }, /* never enlarged */
    { 268, 100, 267, 190, 2 },
    { 100, 9501, 267, 190, 100 },
    { 600, 1e6, 267, 190, 10000 },
    { 1, 1, 267, 190, 1 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat (rod_scale_choose (cases[i].width,
                                         cases[i].height,
                                         cases[i].room_width,
                                         cases[i].room_height),
                       ==,
                       cases[i].denominator);
}

/* The chosen scale fits, and the next larger one of the row 1-2-5 does not. */
static void
test_choice_is_largest (void)
{
  for (int i = 0; i < 5000; i++)
    {
      double width = g_test_rand_double_range (300, 1e5);
      double height = g_test_rand_double_range (300, 1e5);
      double chosen = rod_scale_choose (width, height, 267, 190);
      double mantissa = chosen / pow (10, floor (log10 (chosen) + 1e-9));
      double larger = fabs (mantissa - 5) < 1e-6 ? chosen / 2.5 : chosen / 2;

      g_assert_true (fabs (mantissa - 1) < 1e-6 || fabs (mantissa - 2) < 1e-6 ||
                     fabs (mantissa - 5) < 1e-6);
      g_assert_true (width / chosen <= 267 + 1e-6 && height / chosen <= 190 + 1e-6);
      g_assert_true (width / larger > 267 || height / larger > 190);
    }
}

static void
test_bar (void)
{
  /* Five fields: 1 m at 1:50 is 20 mm, 2.5 m would be 50. */
  g_assert_cmpfloat_with_epsilon (rod_scale_bar_step (50, 26), 200, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_scale_bar_step (100, 26), 500, 1e-9);
  g_assert_cmpfloat_with_epsilon (rod_scale_bar_step (20, 25), 100, 1e-9);
  for (int i = 0; i < 1000; i++)
    {
      double denominator = g_test_rand_double_range (1, 10000);
      double step = rod_scale_bar_step (denominator, 30);

      g_assert_cmpfloat (5 * step / denominator, <=, 30 + 1e-6);
      g_assert_cmpfloat (5 * step / denominator, >, 30 / 2.5 - 1e-6);
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scale/paper", test_paper);
  g_test_add_func ("/scale/choice", test_choice);
  g_test_add_func ("/scale/choice-is-largest", test_choice_is_largest);
  g_test_add_func ("/scale/bar", test_bar);

  return g_test_run ();
}
