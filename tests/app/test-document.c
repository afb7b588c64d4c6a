/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening houses, right and wrong ones, one after the other. */
#include "config.h"

#include <glib/gstdio.h>

#include "app-fixture.h"
#include "app/rod-recent.h"
#include "engine/files/rod-file.h"

typedef struct
{
  char *folder;
  char *good;
  char *bad;
} Files;

static void
set_up (Files        *files,
        gconstpointer data)
{
  g_autofree char *studio = app_example_path ("garden-studio.storeyrod");
  g_autofree char *text = NULL;
  gsize            length;

  g_assert_true (g_file_get_contents (studio, &text, &length, NULL));
  files->folder = g_dir_make_tmp ("storeyrod-test-XXXXXX", NULL);
  files->good = g_build_filename (files->folder, "good.storeyrod", NULL);
  files->bad = g_build_filename (files->folder, "bad <&> file.storeyrod", NULL);
  g_assert_true (g_file_set_contents (files->good, text, (gssize) length, NULL));
  g_assert_true (g_file_set_contents (files->bad, "{ \"format\": 12 ", -1, NULL));
}

static void
tear_down (Files        *files,
           gconstpointer data)
{
  g_unlink (files->good);
  g_unlink (files->bad);
  g_assert_cmpint (g_rmdir (files->folder), ==, 0);
  g_free (files->folder);
  g_free (files->good);
  g_free (files->bad);
}

static gboolean
is_ready (gpointer document)
{
  return rod_document_get_state (document) == ROD_DOCUMENT_READY;
}

static void
test_welcome (void)
{
  RodWindow *window = app_open_window ();

  g_assert_cmpstr (rod_window_get_page (window), ==, "welcome");
  g_assert_false (rod_window_has_house (window));
  g_assert_false (g_action_group_get_action_enabled (G_ACTION_GROUP (window), "export"));
  g_assert_false (g_action_group_get_action_enabled (G_ACTION_GROUP (window), "stage"));
  g_assert_true (g_action_group_get_action_enabled (G_ACTION_GROUP (window), "open"));
  app_close_window (window);
}

static void
test_example (void)
{
  RodWindow   *window = app_open_example ();
  RodDocument *document = rod_window_get_document (window);
  RodPlan     *plan = rod_document_get_plan (document);

  g_assert_cmpstr (rod_window_get_page (window), ==, "house");
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, plan->house->name);
  g_assert_cmpuint (plan->pieces->len, >, 100);
  g_assert_true (g_action_group_get_action_enabled (G_ACTION_GROUP (window), "stage"));
  app_close_window (window);
}

/* The example that comes with the program, to the end. */
static void
test_example_takeoff (void)
{
  RodWindow *window = app_open_example ();

  app_wait_for (is_ready, rod_window_get_document (window), "the example's take-off");
  g_assert_true (g_action_group_get_action_enabled (G_ACTION_GROUP (window), "export"));
  app_close_window (window);
}

/* A window that has no house says why, with the engine's own words. */
static void
test_bad_file (Files        *files,
               gconstpointer data)
{
  RodWindow    *window = app_open_window ();
  const GError *error;

  app_open_file (window, files->bad);
  error = rod_document_get_error (rod_window_get_document (window));
  g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_SYNTAX);
  g_assert_cmpstr (rod_window_get_page (window), ==, "failed");
  g_assert_false (rod_window_has_house (window));

  /* Once the file is put right, trying again works. */
  app_open_file (window, files->good);
  g_assert_cmpstr (rod_window_get_page (window), ==, "house");
  g_assert_null (rod_document_get_error (rod_window_get_document (window)));
  app_close_window (window);
}

/* The house that is shown stays, take-off and all. */
static void
test_bad_file_beside_house (Files        *files,
                            gconstpointer data)
{
  RodWindow       *window = app_open_window ();
  RodDocument     *document = rod_window_get_document (window);
  RodPlan         *plan;
  g_autofree char *name = g_path_get_basename (files->bad);
  g_autofree char *line = NULL;

  app_open_file (window, files->good);
  plan = rod_document_get_plan (document);
  app_open_file (window, files->bad);
  g_assert_true (rod_document_get_plan (document) == plan);
  g_assert_nonnull (rod_document_get_takeoff (document));
  g_assert_cmpstr (rod_window_get_page (window), ==, "house");
  line = g_strdup_printf ("%s: %s", name, rod_document_get_error (document)->message);
  g_assert_true (app_has_label (GTK_WIDGET (window), line));
  app_close_window (window);
}

static void
test_missing_file (void)
{
  RodWindow *window = app_open_window ();

  app_open_file (window, "/nowhere/at all.storeyrod");
  g_assert_error (rod_document_get_error (rod_window_get_document (window)),
                  ROD_FILE_ERROR,
                  ROD_FILE_ERROR_READ);
  g_assert_cmpstr (rod_window_get_page (window), ==, "failed");
  app_close_window (window);
}

/* The last file asked for wins, and what was under way is given up. */
static void
test_overtaken (Files        *files,
                gconstpointer data)
{
  g_autoptr (RodDocument) document = rod_document_new ();
  g_autoptr (GFile) good = g_file_new_for_path (files->good);
  g_autoptr (GFile) bad = g_file_new_for_path (files->bad);

  for (int i = 0; i < 5; i++)
    {
      rod_document_open (document, bad);
      rod_document_open (document, good);
    }
  app_wait_for (is_ready, document, "the last file");
  g_assert_null (rod_document_get_error (document));
  g_assert_true (g_file_equal (rod_document_get_file (document), good));
}

/* A window with a house is left alone; the next one is opened for the other house. */
static void
test_second_house (Files        *files,
                   gconstpointer data)
{
  RodWindow *first = app_open_example ();
  g_autoptr (GFile) file = g_file_new_for_path (files->good);
  GtkWindow *second;

  rod_application_open_file (app_get (), file, GTK_WINDOW (first));
  second = gtk_application_get_active_window (GTK_APPLICATION (app_get ()));
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (app_get ()))),
                    ==,
                    2);
  g_assert_true (ROD_IS_WINDOW (second));
  app_wait_for (is_ready, rod_window_get_document (ROD_WINDOW (second)), "the second house");
  app_close_window (ROD_WINDOW (second));
  app_close_window (first);
}

/* What was opened can be opened again from the menu; the example has a button of its own. */
static void
test_recent (Files        *files,
             gconstpointer data)
{
  RodWindow *window = app_open_window ();
  g_autoptr (GMenu) menu = g_menu_new ();
  g_autofree char *label = NULL;
  g_autofree char *uri = g_filename_to_uri (files->good, NULL, NULL);
  g_autoptr (GVariant) target = NULL;

  app_open_file (window, files->good);
  rod_recent_fill (menu);
  g_assert_cmpint (g_menu_model_get_n_items (G_MENU_MODEL (menu)), >, 0);
  g_menu_model_get_item_attribute (G_MENU_MODEL (menu), 0, G_MENU_ATTRIBUTE_LABEL, "s", &label);
  g_assert_cmpstr (label, ==, "good.storeyrod");
  target = g_menu_model_get_item_attribute_value (G_MENU_MODEL (menu),
                                                  0,
                                                  G_MENU_ATTRIBUTE_TARGET,
                                                  G_VARIANT_TYPE_STRING);
  g_assert_cmpstr (g_variant_get_string (target, NULL), ==, uri);
  app_close_window (window);
}

/* Closed in the midst of it. */
static void
test_closed_while_opening (Files        *files,
                           gconstpointer data)
{
  RodWindow *window = app_open_window ();
  g_autoptr (GFile) file = g_file_new_for_path (files->good);

  rod_window_open (window, file);
  app_close_window (window);
}

int
main (int    argc,
      char **argv)
{
  if (!app_start (&argc, &argv))
    return 77;

  g_test_add_func ("/app/document/welcome", test_welcome);
  g_test_add_func ("/app/document/example", test_example);
  g_test_add_func ("/app/document/example-takeoff", test_example_takeoff);
  g_test_add_func ("/app/document/missing-file", test_missing_file);
  g_test_add ("/app/document/bad-file", Files, NULL, set_up, test_bad_file, tear_down);
  g_test_add ("/app/document/bad-file-beside-house",
              Files,
              NULL,
              set_up,
              test_bad_file_beside_house,
              tear_down);
  g_test_add ("/app/document/overtaken", Files, NULL, set_up, test_overtaken, tear_down);
  g_test_add ("/app/document/second-house", Files, NULL, set_up, test_second_house, tear_down);
  g_test_add ("/app/document/recent", Files, NULL, set_up, test_recent, tear_down);
  g_test_add ("/app/document/closed-while-opening",
              Files,
              NULL,
              set_up,
              test_closed_while_opening,
              tear_down);

  return g_test_run ();
}
