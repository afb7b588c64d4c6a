/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include <math.h>
#include <string.h>

#include "sheets-fixture.h"
#include "sheets/rod-svg.h"

/* What a parser of the document finds. */
typedef struct
{
  GHashTable *ids;
  GString    *groups;
  GString    *texts;
  guint       pieces;
  gboolean    in_title;
  GString    *title; /* of the drawing */
  double      least_x, greatest_x;
} Found;

static void
take_path (Found      *found,
           const char *path)
{
  /* Numbers have a point in every locale. */
  g_assert_null (strchr (path, ','));
  g_assert_null (strstr (path, "nan"));
  g_assert_null (strstr (path, "inf"));
  for (const char *c = path; *c != '\0'; c++)
    if (*c == 'M' || *c == 'L')
      {
        double x = g_ascii_strtod (c + 1, NULL);

        found->least_x = fmin (found->least_x, x);
        found->greatest_x = fmax (found->greatest_x, x);
      }
}

static void
start_element (GMarkupParseContext *context,
               const char          *element,
               const char         **names,
               const char         **values,
               gpointer             data,
               GError             **error)
{
  Found      *found = data;
  const char *id = NULL, *class = NULL, *path = NULL;

  for (int i = 0; names[i] != NULL; i++)
    {
      id = strcmp (names[i], "id") == 0 ? values[i] : id;
      class = strcmp (names[i], "class") == 0 ? values[i] : class;
      path = strcmp (names[i], "d") == 0 ? values[i] : path;
    }
  if (id != NULL)
    g_assert_true (g_hash_table_add (found->ids, g_strdup (id)));
  if (strcmp (element, "g") == 0)
    g_string_append_printf (found->groups, "%s ", id);
  if (class != NULL && strcmp (class, "piece") == 0)
    {
      found->pieces++;
      take_path (found, path);
    }
  found->in_title = id != NULL && strcmp (id, "title") == 0;
}

static void
take_text (GMarkupParseContext *context,
           const char          *text,
           gsize                length,
           gpointer             data,
           GError             **error)
{
  Found *found = data;

  if (found->in_title)
    g_string_append_len (found->title, text, (gssize) length);
  if (strcmp (g_markup_parse_context_get_element (context), "text") == 0)
    g_string_append_printf (found->texts, "%.*s\n", (int) length, text);
  found->in_title = FALSE;
}

static void
read_svg (const char *svg,
          Found      *found)
{
  static const GMarkupParser parser = { .start_element = start_element, .text = take_text };
  g_autoptr (GMarkupParseContext) context = g_markup_parse_context_new (&parser, 0, found, NULL);
  g_autoptr (GError) error = NULL;

  *found = (Found){ .ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL),
                    .groups = g_string_new (NULL),
                    .texts = g_string_new (NULL),
                    .title = g_string_new (NULL),
                    .least_x = INFINITY,
                    .greatest_x = -INFINITY };
  g_markup_parse_context_parse (context, svg, -1, &error);
  g_assert_no_error (error);
  g_markup_parse_context_end_parse (context, &error);
  g_assert_no_error (error);
}

static void
found_clear (Found *found)
{
  g_hash_table_unref (found->ids);
  g_string_free (found->groups, TRUE);
  g_string_free (found->texts, TRUE);
  g_string_free (found->title, TRUE);
}

/* Worked house A4 has 23 pieces (docs/rules.md); each is one path and, at the drawing's scale, has
 * its mark as a text that can be searched. */
static void
test_elements (void)
{
  Job              job;
  Found            found;
  g_autofree char *svg = NULL;

  job_init_worked (&job, "a4-window-and-door");
  svg = rod_sheets_svg_text (job.plan, 0);
  read_svg (svg, &found);
  g_assert_cmpuint (found.pieces, ==, 23);
  g_assert_cmpstr (found.groups->str,
                   ==,
                   "battens boards trims openings outline marks dimensions ");
  g_assert_cmpstr (found.title->str, ==, rod_plan_face (job.plan, 0)->label);
  for (guint i = 0; i < job.plan->pieces->len; i++)
    {
      const char      *mark = rod_plan_piece (job.plan, i)->mark;
      g_autofree char *line = g_strdup_printf ("%s\n", mark);
      g_autofree char *id = g_strdup_printf ("p-%s", mark);

      g_assert_nonnull (strstr (found.texts->str, line));
      g_assert_true (g_hash_table_contains (found.ids, id));
    }
  /* Board ends of A4: clear of the side trims' pockets by the gap, 2 + 3 at least, 2 + 11 at most.
   */
  g_assert_cmpfloat (found.least_x, >=, 5);
  g_assert_cmpfloat (found.least_x, <=, 13);
  g_assert_cmpfloat (found.greatest_x, <=, 5800 - 5);
  g_assert_cmpfloat (found.greatest_x, >=, 5800 - 13);
  found_clear (&found);
  job_clear (&job);
}

/* Every face of every worked house, linings and upright boards included. */
static void
test_all_faces (void)
{
  static const char *const names[] = {
    "a1-shed",
    "a3-upright",
    "a7-reveal",
    "a8-soffit",
    "a17-gable",
    "a19-l-shape",
  };

  for (gsize n = 0; n < G_N_ELEMENTS (names); n++)
    {
      Job job;

      job_init_worked (&job, names[n]);
      for (guint i = 0; i < job.plan->faces->len; i++)
        {
          const RodFace   *face = rod_plan_face (job.plan, i);
          g_autofree char *svg = rod_sheets_svg_text (job.plan, i);
          g_autofree char *again = rod_sheets_svg_text (job.plan, i);
          guint            pieces = 0;
          Found            found;

          for (guint f = face->first_field; f < face->first_field + face->n_fields; f++)
            pieces += rod_plan_field (job.plan, f)->n_pieces;
          read_svg (svg, &found);
          g_assert_cmpuint (found.pieces, ==, pieces);
          g_assert_cmpstr (svg, ==, again);
          found_clear (&found);
        }
      job_clear (&job);
    }
}

/* Names may hold what means something in XML. */
static void
test_escaping (void)
{
  static const char name[] = "Front <b> & \"rear\" 'x' ]]> ü";
  Job               job;
  Found             found;
  g_autofree char  *svg = NULL;

  job_init_wall (&job, 4000, 2500, "metric", name);
  svg = rod_sheets_svg_text (job.plan, 0);
  read_svg (svg, &found);
  g_assert_cmpstr (found.title->str, ==, name);
  found_clear (&found);
  job_clear (&job);
}

static void
test_file (void)
{
  Job job;
  g_autoptr (GError) error = NULL;
  char            *folder = folder_new ();
  g_autofree char *path = g_build_filename (folder, "A.svg", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "no", "such", "folder.svg", NULL);
  g_autofree char *text = NULL;
  g_autofree char *expected = NULL;

  job_init_worked (&job, "a1-shed");
  g_assert_true (rod_sheets_write_svg (job.plan, 0, path, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &text, NULL, &error));
  expected = rod_sheets_svg_text (job.plan, 0);
  g_assert_cmpstr (text, ==, expected);

  g_assert_false (rod_sheets_write_svg (job.plan, 0, nowhere, &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
  g_assert_nonnull (strstr (error->message, "folder.svg"));
  folder_remove (folder);
  job_clear (&job);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/svg/elements", test_elements);
  g_test_add_func ("/svg/all-faces", test_all_faces);
  g_test_add_func ("/svg/escaping", test_escaping);
  g_test_add_func ("/svg/file", test_file);

  return g_test_run ();
}
