/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "sheets-fixture.h"
#include "sheets/rod-table.h"

static RodTable *
table_new (RodLettering *lettering)
{
  static const RodColumn columns[] = {
    { "", ROD_COLUMN_TICK, 6, FALSE },
    { "Article", ROD_COLUMN_TEXT, -1, FALSE },
    { "Length", ROD_COLUMN_FIGURE, 20, TRUE },
  };

  return rod_table_new (columns, G_N_ELEMENTS (columns), 100, 2.5, lettering);
}

static void
add_row (RodTable   *table,
         RodRowKind  kind,
         const char *text)
{
  const char *plain[] = { "x", text, "3980", NULL };
  const char *heading[] = { text, NULL };

  rod_table_add (table, kind, kind == ROD_ROW_HEADING ? heading : plain);
}

/* Every row stands on exactly one page, and no page is fuller than its room. */
static void
test_flow (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();

  for (int round = 0; round < 50; round++)
    {
      g_autoptr (RodTable) table = table_new (lettering);
      double room = g_test_rand_double_range (45, 160);
      guint  first = 0;

      for (int i = 0; i < 60; i++)
        add_row (table,
                 i % 7 == 3 ? ROD_ROW_HEADING : ROD_ROW_PLAIN,
                 g_test_rand_bit () ? "Board" : "An article with a name of several words more");
      add_row (table, ROD_ROW_TOTAL, "Sum");
      while (first < rod_table_n_rows (table))
        {
          guint    end = rod_table_fit (table, first, room);
          cairo_t *cr = recording_new ();

          g_assert_cmpuint (end, >, first);
          g_assert_cmpfloat (rod_table_draw (table, cr, 10, 20, first, end), <=, 20 + room + 1e-6);
          cairo_destroy (cr);
          first = end;
        }
      g_assert_cmpuint (first, ==, rod_table_n_rows (table));
    }
}

/* A heading stays with the row that follows it. */
static void
test_heading_kept (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  g_autoptr (RodTable) table = table_new (lettering);
  guint end = 0;

  add_row (table, ROD_ROW_PLAIN, "Board");
  add_row (table, ROD_ROW_PLAIN, "Board");
  add_row (table, ROD_ROW_HEADING, "Trims");
  add_row (table, ROD_ROW_PLAIN, "Trim");
  for (double room = 10; room < 60; room += 0.25)
    {
      end = rod_table_fit (table, 0, room);
      g_assert_cmpuint (end, !=, 3);
    }
  g_assert_cmpuint (end, ==, 4);
}

static void
test_no_room (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  g_autoptr (RodTable) table = table_new (lettering);

  g_assert_cmpuint (rod_table_fit (table, 0, 1000), ==, 0);
  add_row (table, ROD_ROW_PLAIN, "Board");
  g_assert_cmpuint (rod_table_fit (table, 0, 3), ==, 0);
}

/* Nothing leaves the table, however long a word or a number is. */
static void
test_long_words (void)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  g_autoptr (RodTable) table = table_new (lettering);
  cairo_t    *cr = recording_new ();
  const char *cells[] = { "x",
                          "Donaudampfschifffahrtsgesellschaftskapitänswitwenrentenbescheid",
                          "123456789012345678901234567890",
                          NULL };
  double      x, y, width, height;

  rod_table_add (table, ROD_ROW_PLAIN, cells);
  rod_table_draw (table, cr, 10, 20, 0, 1);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat (x, >=, 9);
  g_assert_cmpfloat (x + width, <=, 10 + 100 + 1.1);
  cairo_destroy (cr);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/table/flow", test_flow);
  g_test_add_func ("/table/heading-kept", test_heading_kept);
  g_test_add_func ("/table/no-room", test_no_room);
  g_test_add_func ("/table/long-words", test_long_words);

  return g_test_run ();
}
