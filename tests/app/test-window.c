/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window: panes, stages, export, what it remembers, and names for those who do not see it. */
#include "config.h"

#include <glib/gstdio.h>

#include "app-fixture.h"

static gboolean
is_folded (gpointer panes)
{
  return rod_panes_get_folded (panes);
}

static gboolean
is_unfolded (gpointer panes)
{
  return !rod_panes_get_folded (panes);
}

/* In a narrow window the panes give way, can be had one at a time, and come back. */
static void
test_narrow (void)
{
  RodWindow *window = app_open_studio ();
  RodPanes  *panes = rod_house_view_get_panes (rod_window_get_view (window));

  g_assert_false (rod_panes_get_folded (panes));
  g_assert_true (rod_panes_get_show_start (panes));
  gtk_window_set_default_size (GTK_WINDOW (window), 400, 600);
  app_wait_for (is_folded, panes, "panes to fold");
  app_settle (window);
  g_assert_false (rod_panes_get_show_start (panes));
  g_assert_false (rod_panes_get_show_end (panes));

  g_action_group_activate_action (G_ACTION_GROUP (window), "show-house", NULL);
  g_assert_true (rod_panes_get_show_start (panes));
  g_action_group_activate_action (G_ACTION_GROUP (window), "show-details", NULL);
  g_assert_true (rod_panes_get_show_end (panes));
  g_assert_false (rod_panes_get_show_start (panes));

  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 700);
  app_wait_for (is_unfolded, panes, "panes to unfold");
  app_settle (window);
  g_assert_true (rod_panes_get_show_start (panes));
  g_assert_true (rod_panes_get_show_end (panes));
  app_close_window (window);
}

static void
test_stages (void)
{
  static const char *const nicks[] = { "survey", "set-out", "frame", "order", "sheets" };
  RodWindow               *window = app_open_studio ();

  for (guint i = 0; i < G_N_ELEMENTS (nicks); i++)
    {
      g_autoptr (GVariant) state = NULL;

      g_action_group_activate_action (G_ACTION_GROUP (window),
                                      "stage",
                                      g_variant_new_string (nicks[i]));
      app_settle (window);
      state = g_action_group_get_action_state (G_ACTION_GROUP (window), "stage");
      g_assert_cmpstr (g_variant_get_string (state, NULL), ==, nicks[i]);
      g_assert_cmpint (rod_house_view_get_stage (rod_window_get_view (window)), ==, i);
    }
  app_close_window (window);
}

static gboolean
is_written (gpointer path)
{
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static gboolean
has_toast (gpointer window)
{
  return app_has_label (window, "Sheets saved as sheets.pdf");
}

static void
test_export (void)
{
  RodWindow       *window = app_open_studio ();
  g_autofree char *folder = g_dir_make_tmp ("storeyrod-test-XXXXXX", NULL);
  g_autofree char *path = g_build_filename (folder, "sheets.pdf", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autofree char *contents = NULL;
  gsize            length;

  rod_window_export_to (window, file);
  app_wait_for (is_written, path, "the sheets");
  app_wait_for (has_toast, window, "the toast");
  g_assert_true (g_file_get_contents (path, &contents, &length, NULL));
  g_assert_cmpmem (contents, 5, "%PDF-", 5);
  g_assert_cmpuint (length, >, 10000);
  g_unlink (path);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  app_close_window (window);
}

static gboolean
has_failure_toast (gpointer window)
{
  return app_count_widgets (window, g_type_from_name ("AdwToastWidget")) > 0;
}

/* A folder that is not there: told, and nothing breaks. */
static void
test_export_fails (void)
{
  RodWindow *window = app_open_studio ();
  g_autoptr (GFile) file = g_file_new_for_path ("/nowhere/sheets.pdf");

  rod_window_export_to (window, file);
  app_wait_for (has_failure_toast, window, "the toast");
  app_close_window (window);
}

/* A window that is closed leaves its size and stage to the next. */
static void
test_remembers (void)
{
  GSettings *settings = rod_application_get_settings (app_get ());
  RodWindow *window;
  int        width;
  int        height;

  g_assert_nonnull (settings);
  window = app_open_studio ();
  g_action_group_activate_action (G_ACTION_GROUP (window), "stage", g_variant_new_string ("frame"));
  g_action_group_activate_action (G_ACTION_GROUP (window), "show-house", NULL);
  gtk_window_set_default_size (GTK_WINDOW (window), 1100, 640);
  app_settle (window);
  app_close_window (window);
  g_assert_cmpint (g_settings_get_int (settings, "window-width"), ==, 1100);
  g_assert_cmpint (g_settings_get_int (settings, "window-height"), ==, 640);

  window = app_open_studio ();
  gtk_window_get_default_size (GTK_WINDOW (window), &width, &height);
  g_assert_cmpint (width, ==, 1100);
  g_assert_cmpint (rod_house_view_get_stage (rod_window_get_view (window)), ==, ROD_STAGE_FRAME);
  g_assert_false (
    rod_panes_get_show_start (rod_house_view_get_panes (rod_window_get_view (window))));
  app_close_window (window);

  g_settings_reset (settings, "window-width");
  g_settings_reset (settings, "window-height");
  g_settings_reset (settings, "stage");
  g_settings_reset (settings, "show-house");
}

/* Whether a button says what it does to those who do not see its icon. */
static gboolean
is_named (GtkWidget *button)
{
  return gtk_test_accessible_has_property (GTK_ACCESSIBLE (button),
                                           GTK_ACCESSIBLE_PROPERTY_LABEL) ||
         app_count_widgets (button, GTK_TYPE_LABEL) > 0;
}

static void
assert_named (GtkWidget *widget)
{
  if (GTK_IS_BUTTON (widget) && gtk_widget_get_name (widget) != NULL && !is_named (widget))
    {
      GtkWidget *parent = gtk_widget_get_parent (widget);

      /* The halves of menu and split buttons and of window controls are GTK's own. */
      if (!GTK_IS_MENU_BUTTON (parent) && !ADW_IS_SPLIT_BUTTON (parent) &&
          !GTK_IS_WINDOW_CONTROLS (parent))
        g_error ("a button without a name: %s below %s",
                 gtk_button_get_icon_name (GTK_BUTTON (widget)),
                 G_OBJECT_TYPE_NAME (parent));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget);
       child != NULL;
       child = gtk_widget_get_next_sibling (child))
    assert_named (child);
}

static void
test_names (void)
{
  RodWindow *window = app_open_studio ();

  assert_named (GTK_WIDGET (window));
  app_close_window (window);
}

/* GNOME's guidelines ask to fit a phone, 360 pixels wide, with a close button only. */
static void
test_least_width (void)
{
  RodWindow *window = app_open_studio ();
  RodPanes  *panes = rod_house_view_get_panes (rod_window_get_view (window));
  int        least;

  g_object_set (gtk_settings_get_default (), "gtk-decoration-layout", ":close", NULL);
  gtk_window_set_default_size (GTK_WINDOW (window), 500, 600);
  app_wait_for (is_folded, panes, "panes to fold");
  app_settle (window);
  gtk_widget_measure (GTK_WIDGET (window),
                      GTK_ORIENTATION_HORIZONTAL,
                      -1,
                      &least,
                      NULL,
                      NULL,
                      NULL);
  g_assert_cmpint (least, <=, 360);
  gtk_settings_reset_property (gtk_settings_get_default (), "gtk-decoration-layout");
  app_close_window (window);
}

/* Tab leads through all parts of a window and back to where it began. */
static void
test_tab (void)
{
  static const char *const stages[] = { "set-out", "order", "sheets" };
  RodWindow               *window = app_open_studio ();
  RodHouseView            *view = rod_window_get_view (window);
  GtkWidget               *parts[] = {
                  app_find_widget (GTK_WIDGET (window), "open_button"),
                  app_find_widget (GTK_WIDGET (window), "menu_button"),
                  GTK_WIDGET (rod_house_view_get_house_list (view)),
                  app_find_widget (GTK_WIDGET (view), "middle"),
                  app_find_widget (GTK_WIDGET (view), "findings_button"),
                  GTK_WIDGET (rod_house_view_get_details (view)),
                  app_find_widget (GTK_WIDGET (view), "tally"),
  };

  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 700);
  app_wait_for (is_unfolded, rod_house_view_get_panes (view), "panes to unfold");
  app_settle (window);
  rod_selection_set (rod_house_view_get_selection (view), rod_place_face (0), FALSE);
  for (guint s = 0; s < G_N_ELEMENTS (stages); s++)
    {
      gboolean   reached[G_N_ELEMENTS (parts)] = { FALSE };
      GtkWidget *first = parts[0];
      GtkWidget *focus;
      int        n_steps = 0;

      g_action_group_activate_action (G_ACTION_GROUP (window),
                                      "stage",
                                      g_variant_new_string (stages[s]));
      app_settle (window);
      gtk_widget_grab_focus (first);
      first = gtk_window_get_focus (GTK_WINDOW (window));
      do
        {
          gtk_widget_child_focus (GTK_WIDGET (window), GTK_DIR_TAB_FORWARD);
          focus = gtk_window_get_focus (GTK_WINDOW (window));
          g_assert_nonnull (focus);
          for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
            reached[i] = reached[i] || focus == parts[i] ||
                         gtk_widget_is_ancestor (focus, parts[i]);
          n_steps++;
        }
      while (focus != first && n_steps < 200);

      g_assert_true (focus == first);
      for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
        if (!reached[i])
          g_error ("%s: not reached by Tab: part %u", stages[s], i);
    }
  app_close_window (window);
}

/* A window without a house is on the screen at once: what shows a house is made when one is opened,
 * and menus when they are. */
static void
test_made_late (void)
{
  RodWindow     *window = app_open_window ();
  GtkMenuButton *menu_button = NULL;

  app_settle (window);
  g_assert_cmpuint (app_count_widgets (GTK_WIDGET (window), ROD_TYPE_HOUSE_VIEW), ==, 0);
  g_assert_cmpuint (app_count_widgets (GTK_WIDGET (window), GTK_TYPE_POPOVER_MENU), <=, 1);

  menu_button = GTK_MENU_BUTTON (app_find_widget (GTK_WIDGET (window), "menu_button"));
  g_action_group_activate_action (G_ACTION_GROUP (window), "menu", NULL);
  g_assert_nonnull (gtk_menu_button_get_popover (menu_button));
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (gtk_menu_button_get_popover (menu_button))));
  gtk_menu_button_popdown (menu_button);

  g_assert_nonnull (rod_window_get_view (window));
  g_assert_cmpuint (app_count_widgets (GTK_WIDGET (window), ROD_TYPE_HOUSE_VIEW), ==, 1);
  app_close_window (window);
}

/* Made when it is asked for, and once. */
static void
test_shortcuts_window (void)
{
  RodWindow          *window = app_open_window ();
  GtkShortcutsWindow *help;

  g_assert_null (gtk_application_window_get_help_overlay (GTK_APPLICATION_WINDOW (window)));
  g_action_group_activate_action (G_ACTION_GROUP (window), "show-help-overlay", NULL);
  help = gtk_application_window_get_help_overlay (GTK_APPLICATION_WINDOW (window));
  g_assert_nonnull (help);
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (help)));
  gtk_window_close (GTK_WINDOW (help));
  g_action_group_activate_action (G_ACTION_GROUP (window), "show-help-overlay", NULL);
  g_assert_true (help ==
                 gtk_application_window_get_help_overlay (GTK_APPLICATION_WINDOW (window)));
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (help)));
  gtk_window_close (GTK_WINDOW (help));
  app_close_window (window);
}

int
main (int    argc,
      char **argv)
{
  if (!app_start (&argc, &argv))
    return 77;

  g_test_add_func ("/app/window/narrow", test_narrow);
  g_test_add_func ("/app/window/stages", test_stages);
  g_test_add_func ("/app/window/export", test_export);
  g_test_add_func ("/app/window/export-fails", test_export_fails);
  g_test_add_func ("/app/window/remembers", test_remembers);
  g_test_add_func ("/app/window/names", test_names);
  g_test_add_func ("/app/window/least-width", test_least_width);
  g_test_add_func ("/app/window/tab", test_tab);
  g_test_add_func ("/app/window/made-late", test_made_late);
  g_test_add_func ("/app/window/shortcuts-window", test_shortcuts_window);

  return g_test_run ();
}
