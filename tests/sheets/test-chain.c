/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "sheets-fixture.h"
#include "sheets/rod-chain.h"

static void
test_places (void)
{
  g_autoptr (RodChain) chain = rod_chain_new (ROD_CHAIN_LEVEL);
  static const double places[] = { 5800, 0, 1500, 2700, 1500.2, 2699.8, 3900, 0.4 };

  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    rod_chain_add (chain, places[i]);
  /* 0, 1500, 2700, 3900 and 5800: places closer than half a millimetre are one. */
  g_assert_cmpuint (rod_chain_n_places (chain), ==, 5);
}

/* A chain below the drawing at 1:50: it spans the drawing's width, lies below the outline, and its
 * figures keep above its line. */
static void
test_level (void)
{
  g_autoptr (RodChain) chain = rod_chain_new (ROD_CHAIN_LEVEL);
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  RodChainPlace place = { .scale = 0.02, .zero = 30, .line = 110, .outline = 100, .height = 2.5 };
  cairo_t      *cr = recording_new ();
  double        x, y, width, height;

  rod_chain_add (chain, 0);
  rod_chain_add (chain, 4000);
  rod_chain_draw (chain, cr, lettering, ROD_UNITS_METRIC, &place);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat_with_epsilon (x, 30, 2.1);
  g_assert_cmpfloat_with_epsilon (x + width, 110, 2.1);
  g_assert_cmpfloat (y, >=, 100);
  g_assert_cmpfloat (y + height, <=, 113);
  cairo_destroy (cr);
}

/* An upright chain left of the drawing; y runs downwards, heights upwards. */
static void
test_upright (void)
{
  g_autoptr (RodChain) chain = rod_chain_new (ROD_CHAIN_UPRIGHT);
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  RodChainPlace place = { .scale = 0.02, .zero = 150, .line = 40, .outline = 50, .height = 2.5 };
  cairo_t      *cr = recording_new ();
  double        x, y, width, height;

  rod_chain_add (chain, 0);
  rod_chain_add (chain, 2400);
  rod_chain_draw (chain, cr, lettering, ROD_UNITS_METRIC, &place);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat_with_epsilon (y, 150 - 48, 2.1);
  g_assert_cmpfloat_with_epsilon (y + height, 150, 2.1);
  g_assert_cmpfloat (x, >=, 35);
  g_assert_cmpfloat (x + width, <=, 50);
  cairo_destroy (cr);
}

/* Running figures stand at the ends of their lines, on the side away from the drawing. */
static void
test_running (void)
{
  g_autoptr (RodChain) chain = rod_chain_new (ROD_CHAIN_RUNNING_UPRIGHT);
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  RodChainPlace place = { .scale = 0.02, .zero = 150, .line = 205, .outline = 200, .height = 2.5 };
  cairo_t      *cr = recording_new ();
  double        x, y, width, height;

  for (int i = 0; i <= 40; i++)
    rod_chain_add (chain, 60 * i);
  rod_chain_set_origin (chain, 0);
  rod_chain_draw (chain, cr, lettering, ROD_UNITS_METRIC, &place);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat (x, >=, 200);
  g_assert_cmpfloat (x + width, >, 205 + 8);
  g_assert_cmpfloat (x + width, <, 205 + 20);
  g_assert_cmpfloat (y, >=, 150 - 48 - 3);
  g_assert_cmpfloat (y + height, <=, 150 + 3);
  cairo_destroy (cr);
}

/* Fewer than two places are no dimension. */
static void
test_empty (void)
{
  g_autoptr (RodChain) chain = rod_chain_new (ROD_CHAIN_LEVEL);
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  RodChainPlace place = { .scale = 0.02, .height = 2.5 };
  cairo_t      *cr = recording_new ();
  double        x, y, width, height;

  rod_chain_draw (chain, cr, lettering, ROD_UNITS_METRIC, &place);
  rod_chain_add (chain, 100);
  rod_chain_draw (chain, cr, lettering, ROD_UNITS_METRIC, &place);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat (width, ==, 0);
  cairo_destroy (cr);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/chain/places", test_places);
  g_test_add_func ("/chain/level", test_level);
  g_test_add_func ("/chain/upright", test_upright);
  g_test_add_func ("/chain/running", test_running);
  g_test_add_func ("/chain/empty", test_empty);

  return g_test_run ();
}
