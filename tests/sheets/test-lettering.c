/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "sheets-fixture.h"
#include "sheets/rod-lettering.h"

/* ISO 3098: the size of lettering is the height of its capitals. */
static void
test_height (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  static const double sizes[] = { 2.5, 3.5, 5.0, 7.0 };

  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      cairo_t       *cr = recording_new ();
      RodLetterStyle style = { .height = sizes[i] };
      double         x, y, width, height;

      rod_lettering_write (lettering, cr, "HEF", &style, 10, 20);
      recording_extent (cr, &x, &y, &width, &height);
      /* A recording rounds its extent outwards to whole units. */
      g_assert_cmpfloat (y, >=, 20 - sizes[i] - 1.01);
      g_assert_cmpfloat (y, <=, 20 - sizes[i] + 0.1);
      g_assert_cmpfloat (y + height, <=, 21.01);
      g_assert_cmpfloat (x, >=, 9);
      cairo_destroy (cr);
    }
}

/* Both ways of setting a text, by table and by layout, and narrowing, keep within the room. */
static void
test_room (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  static const char *const texts[] = {
    "N-07-2",
    "1234567890",
    "Donaudampfschifffahrtsgesellschaftskapitän",
    "a line of several short words",
    "\u4e2d\u6587",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    for (double room = 4; room < 100; room *= 1.7)
      {
        cairo_t       *cr = recording_new ();
        RodLetterStyle style = { .height = 2.5, .width = room };
        double         x, y, width, height;

        rod_lettering_write (lettering, cr, texts[i], &style, 100, 20);
        recording_extent (cr, &x, &y, &width, &height);
        g_assert_cmpfloat (x + width, <=, 100 + room + 2);
        cairo_destroy (cr);
      }
}

static void
test_alignment (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  double              needed = rod_lettering_width (lettering, "3980", 5, TRUE);
  static const double left[] = { 0, -0.5, -1 };

  g_assert_cmpfloat (needed, >, 10);
  for (int align = ROD_ALIGN_LEFT; align <= ROD_ALIGN_RIGHT; align++)
    {
      cairo_t       *cr = recording_new ();
      RodLetterStyle style = { .height = 5, .bold = TRUE, .align = (RodAlign) align };
      double         x, y, width, height;

      rod_lettering_write (lettering, cr, "3980", &style, 50, 20);
      recording_extent (cr, &x, &y, &width, &height);
      g_assert_cmpfloat_with_epsilon (x, 50 + left[align] * needed, 1.6);
      g_assert_cmpfloat_with_epsilon (x + width, 50 + (left[align] + 1) * needed, 1.6);
      cairo_destroy (cr);
    }
}

/* Turned by a quarter a text runs up the page from its point. */
static void
test_turned (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  cairo_t       *cr = recording_new ();
  RodLetterStyle style = { .height = 2.5, .angle_deg = 90 };
  double         needed = rod_lettering_width (lettering, "12345", 2.5, FALSE);
  double         x, y, width, height;

  rod_lettering_write (lettering, cr, "12345", &style, 50, 60);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat_with_epsilon (y, 60 - needed, 1.6);
  g_assert_cmpfloat_with_epsilon (x, 50 - 2.5, 1.1);
  g_assert_cmpfloat (width, <, 5);
  cairo_destroy (cr);
}

static void
test_paragraph (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  static const char text[] = "Incomprehensibilitiesandmore incomprehensibilities "
                             "in one narrow column of a list";
  RodLetterStyle    style = { .height = 2.5, .width = 20 };
  cairo_t          *cr = recording_new ();
  double            measured = rod_lettering_paragraph (lettering, NULL, text, &style, 0, 0);
  double            drawn = rod_lettering_paragraph (lettering, cr, text, &style, 30, 40);
  double            x, y, width, height;

  g_assert_cmpfloat_with_epsilon (measured, drawn, 1e-9);
  /* At least as many lines as the letters need. */
  g_assert_cmpfloat (drawn, >, 5 * 1.5 * 2.5);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat (x + width, <=, 30 + 20 + 1.1);
  g_assert_cmpfloat (y + height, <=, 40 + drawn + 1);
  cairo_destroy (cr);
}

/* Texts that are held come out in the same places and inks. */
static void
test_held (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  RodLetterStyle small = { .height = 2.5 }, large = { .height = 5, .bold = TRUE };
  double         at[2][4];

  for (int held = 0; held <= 1; held++)
    {
      cairo_t *cr = recording_new ();

      if (held)
        rod_lettering_hold (lettering);
      cairo_translate (cr, 10, 10);
      rod_lettering_write (lettering, cr, "N-01-1", &small, 0, 0);
      rod_lettering_write (lettering, cr, "3980", &large, 50, 20);
      rod_lettering_write (lettering, cr, "some words", &small, 90, 40);
      if (held)
        {
          recording_extent (cr, &at[1][0], &at[1][1], &at[1][2], &at[1][3]);
          g_assert_cmpfloat (at[1][2], ==, 0);
          rod_lettering_release (lettering, cr);
        }
      recording_extent (cr, &at[held][0], &at[held][1], &at[held][2], &at[held][3]);
      cairo_destroy (cr);
    }
  for (int i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (at[0][i], at[1][i], 1e-6);
  g_assert_cmpfloat (at[0][2], >, 90);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lettering/height", test_height);
  g_test_add_func ("/lettering/room", test_room);
  g_test_add_func ("/lettering/alignment", test_alignment);
  g_test_add_func ("/lettering/turned", test_turned);
  g_test_add_func ("/lettering/paragraph", test_paragraph);
  g_test_add_func ("/lettering/held", test_held);

  return g_test_run ();
}
