/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The PDF of all sheets. Its text is read back with pdftotext; where that is not installed those
 * tests are skipped. */
#include "config.h"

#include <math.h>
#include <string.h>

#include "sheets-fixture.h"
#include "sheets/rod-sheets.h"

static GBytes *
write_pdf (const Job             *job,
           const RodSheetOptions *options)
{
  char            *folder = folder_new ();
  g_autofree char *path = g_build_filename (folder, "sheets.pdf", NULL);
  g_autoptr (GError) error = NULL;
  char *data;
  gsize length;

  g_assert_true (rod_sheets_write_pdf (job->takeoff, path, options, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &data, &length, &error));
  folder_remove (folder);

  return g_bytes_new_take (data, length);
}

static gboolean
contains (GBytes     *bytes,
          const char *text)
{
  gsize length;

  return memmem (g_bytes_get_data (bytes, &length),
                 g_bytes_get_size (bytes),
                 text,
                 strlen (text)) != NULL;
}

/* How often a key of a PDF object occurs. */
static guint
count (GBytes     *bytes,
       const char *text)
{
  gsize       left;
  const char *data = g_bytes_get_data (bytes, &left);
  guint       n = 0;

  for (const char *at; (at = memmem (data, left, text, strlen (text))) != NULL; n++)
    {
      left -= (gsize) (at - data) + strlen (text);
      data = at + strlen (text);
    }

  return n;
}

/* The document's text, pages parted by form feeds; %NULL where pdftotext is missing. */
static char *
read_text (const Job *job)
{
  g_autofree char *program = g_find_program_in_path ("pdftotext");
  char            *folder;
  g_autofree char *path = NULL;
  char            *text = NULL;
  g_autoptr (GError) error = NULL;

  if (program == NULL)
    return NULL;

  folder = folder_new ();
  path = g_build_filename (folder, "sheets.pdf", NULL);
  g_assert_true (rod_sheets_write_pdf (job->takeoff, path, NULL, &error));
  {
    const char *argv[] = { program, "-enc", "UTF-8", path, "-", NULL };

    g_spawn_sync (NULL, (char **) argv, NULL, 0, NULL, NULL, &text, NULL, NULL, &error);
    g_assert_no_error (error);
  }
  folder_remove (folder);

  return text;
}

static void
test_structure (void)
{
  Job             job;
  RodSheetOptions options;
  g_autoptr (RodSheets) sheets = NULL;
  g_autoptr (GBytes) pdf = NULL;

  job_init_worked (&job, "a4-window-and-door");
  rod_sheet_options_init (&options);
  options.date = 1700000000; /* 2023-11-14T22:13:20Z */
  sheets = rod_sheets_new (job.takeoff, &options);
  pdf = write_pdf (&job, &options);

  /* Cover, elevation, battens, rod, saw sheet, order, cautions at least. */
  g_assert_cmpuint (rod_sheets_n_pages (sheets), >=, 7);
  g_assert_cmpuint (count (pdf, "/Type /Page "), ==, rod_sheets_n_pages (sheets));
  for (guint i = 0; i < rod_sheets_n_pages (sheets); i++)
    g_assert_cmpuint (strlen (rod_sheets_page_title (sheets, i)), >, 0);
  g_assert_true (contains (pdf, "/Outlines"));
  g_assert_true (contains (pdf, "/PageLabels"));
  g_assert_true (contains (pdf, "/FontFile"));
  g_assert_true (contains (pdf, "/CreationDate (D:20231114221320Z)"));
  g_assert_true (contains (pdf, "/ModDate (D:20231114221320Z)"));
  /* No pictures: everything is drawn. */
  g_assert_false (contains (pdf, "/Subtype /Image"));
  job_clear (&job);
}

static void
test_same_bytes (void)
{
  Job             job;
  RodSheetOptions options;
  g_autoptr (GBytes) first = NULL, second = NULL, grey = NULL;

  job_init_worked (&job, "a8-soffit");
  rod_sheet_options_init (&options);
  options.date = ROD_SHEETS_NO_DATE;
  first = write_pdf (&job, &options);
  second = write_pdf (&job, &options);
  g_assert_true (g_bytes_equal (first, second));
  /* Without a date the time of day is in it nowhere. */
  g_assert_false (contains (first, "/CreationDate"));
  g_assert_false (contains (first, "/ModDate"));

  options.grey = TRUE;
  grey = write_pdf (&job, &options);
  g_assert_false (g_bytes_equal (first, grey));
  job_clear (&job);
}

static void
test_source_date (void)
{
  RodSheetOptions options;

  g_assert_true (g_setenv ("SOURCE_DATE_EPOCH", "86400", TRUE));
  rod_sheet_options_init (&options);
  g_assert_cmpint (options.date, ==, 86400);
  g_assert_true (g_setenv ("SOURCE_DATE_EPOCH", "yesterday", TRUE));
  rod_sheet_options_init (&options);
  g_assert_cmpint (options.date, ==, ROD_SHEETS_NO_DATE);
  g_unsetenv ("SOURCE_DATE_EPOCH");
  rod_sheet_options_init (&options);
  g_assert_cmpint (options.date, ==, ROD_SHEETS_NO_DATE);
}

/* ISO 216 in points: A4 841.89 × 595.28, A3 1190.55 × 841.89. */
static void
test_paper (void)
{
  Job             job;
  RodSheetOptions options;
  g_autoptr (GBytes) a4 = NULL, a3 = NULL;

  job_init_worked (&job, "a1-shed");
  rod_sheet_options_init (&options);
  a4 = write_pdf (&job, &options);
  options.paper = ROD_PAPER_A3;
  a3 = write_pdf (&job, &options);
  g_assert_true (contains (a4, "[ 0 0 841.889764 595.275591 ]"));
  g_assert_true (contains (a3, "[ 0 0 1190.551181 841.889764 ]"));
  job_clear (&job);
}

static void
assert_page_with (char      **pages,
                  const char *heading,
                  const char *text)
{
  for (guint i = 0; pages[i] != NULL; i++)
    if (strstr (pages[i], heading) != NULL && strstr (pages[i], text) != NULL)
      return;
  g_error ("no page with “%s” holds “%s”", heading, text);
}

/* Worked house A4: the figures of docs/rules.md stand on the sheets where they are looked for. */
static void
test_text (void)
{
  Job              job;
  g_autofree char *text = NULL;
  g_auto (GStrv) pages = NULL;

  job_init_worked (&job, "a4-window-and-door");
  text = read_text (&job);
  if (text == NULL)
    {
      g_test_skip ("pdftotext is not installed");
      job_clear (&job);
      return;
    }

  pages = g_strsplit (text, "\f", -1);
  g_assert_nonnull (strstr (pages[0], job.plan->house->name));
  g_assert_nonnull (strstr (pages[0], "23 pieces from 9 boards"));
  g_assert_nonnull (strstr (pages[0], "does not replace a structural or fire check"));
  /* The first joint line at 50 and the third of 250 above it on the elevation. */
  assert_page_with (pages, "Elevation", "800");
  /* Batten lines: 1775 is the first of three that fill 1300 between 1450 and 2750. */
  assert_page_with (pages, "Batten plan", "1775");
  assert_page_with (pages, "Storey rod", "2550");
  /* Every piece is sawn: its mark stands on a saw sheet. */
  for (guint i = 0; i < job.plan->pieces->len; i++)
    assert_page_with (pages, "Saw sheet", rod_plan_piece (job.plan, i)->mark);
  /* 3880 + 1190 + 890 with saw cuts of 4: the tape shows 3880, 5074 and 5968. */
  assert_page_with (pages, "Saw sheet", "5074");
  assert_page_with (pages, "Saw sheet", "5968");
  /* The notches of course 9: from the left, width, depth and what stays. */
  assert_page_with (pages, "Saw sheet", "notch hook 1477 + 1220 × 157, 93 stays");
  assert_page_with (pages, "Saw sheet", "rip 186, keep hook");
  assert_page_with (pages, "Cautions", "Guard and riving knife");
  job_clear (&job);
}

static void
test_imperial (void)
{
  Job              job;
  g_autofree char *text = NULL;

  /* 8 ft high and 16 ft 4 in wide. */
  job_init_wall (&job, 25.4 * 196, 25.4 * 96, "imperial", "Imperial wall");
  text = read_text (&job);
  if (text == NULL)
    g_test_skip ("pdftotext is not installed");
  else
    {
      g_assert_nonnull (strstr (text, "16'-4\""));
      g_assert_nonnull (strstr (text, "8'-0\""));
      g_assert_nonnull (strstr (text, "feet and inches"));
    }
  job_clear (&job);
}

/* From a strip that is hardly a wall to one a hundred metres long. */
static void
test_extremes (void)
{
  static const double sizes[][2] = {
    { 310, 310 }, { 600, 9000 }, { 100000, 300 }, { 60000, 20000 }
  };

  for (gsize i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      Job job;
      g_autoptr (GBytes) pdf = NULL;

      job_init_wall (&job,
                     sizes[i][0],
                     sizes[i][1],
                     i % 2 == 0 ? "metric" : "imperial",
                     "A wall with a name that is so long that it fits no cell of any title block "
                     "of "
                     "any sheet, wherever it is written");
      pdf = write_pdf (&job, NULL);
      g_assert_true (contains (pdf, "%%EOF"));
      job_clear (&job);
    }
}

/* Sheets can be drawn on any context, in any order, more than once. */
static void
test_preview (void)
{
  Job      job;
  cairo_t *cr = recording_new ();
  double   x, y, width, height, paper_width, paper_height;
  g_autoptr (RodSheets) sheets = NULL;

  job_init_worked (&job, "a7-reveal");
  sheets = rod_sheets_new (job.takeoff, NULL);
  rod_sheets_page_size (sheets, &paper_width, &paper_height);
  for (guint i = rod_sheets_n_pages (sheets); i > 0; i--)
    {
      rod_sheets_draw_page (sheets, i - 1, cr);
      rod_sheets_draw_page (sheets, i - 1, cr);
      /* Nothing runs over the edge of the paper. */
      recording_extent (cr, &x, &y, &width, &height);
      g_assert_cmpfloat (x, >=, 0);
      g_assert_cmpfloat (y, >=, 0);
      g_assert_cmpfloat (x + width, <=, paper_width + 0.5);
      g_assert_cmpfloat (y + height, <=, paper_height + 0.5);
    }
  cairo_destroy (cr);
  job_clear (&job);
}

static void
test_errors (void)
{
  Job job;
  g_autoptr (GError) error = NULL;
  char            *folder = folder_new ();
  g_autofree char *nowhere = g_build_filename (folder, "no", "such", "sheets.pdf", NULL);

  job_init_worked (&job, "a1-shed");
  g_assert_false (rod_sheets_write_pdf (job.takeoff, nowhere, NULL, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
  g_assert_nonnull (strstr (error->message, "sheets.pdf"));
  g_clear_error (&error);

  /* A folder where the file should be: refused, and left as it was. */
  g_assert_false (rod_sheets_write_pdf (job.takeoff, folder, NULL, &error));
  g_assert_nonnull (error);
  g_assert_true (g_file_test (folder, G_FILE_TEST_IS_DIR));
  folder_remove (folder);
  job_clear (&job);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/document/structure", test_structure);
  g_test_add_func ("/document/same-bytes", test_same_bytes);
  g_test_add_func ("/document/source-date", test_source_date);
  g_test_add_func ("/document/paper", test_paper);
  g_test_add_func ("/document/text", test_text);
  g_test_add_func ("/document/imperial", test_imperial);
  g_test_add_func ("/document/extremes", test_extremes);
  g_test_add_func ("/document/preview", test_preview);
  g_test_add_func ("/document/errors", test_errors);

  return g_test_run ();
}
