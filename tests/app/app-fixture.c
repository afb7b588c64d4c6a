/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app-fixture.h"

#include <locale.h>

/* Far more than anything takes, also under a sanitizer on a busy machine. */
#define PATIENCE_S 120

static RodApplication *application;

gboolean
app_start (int    *argc,
           char ***argv)
{
  setlocale (LC_ALL, "");
  g_test_init (argc, argv, NULL);
  if (!gtk_init_check ())
    return FALSE;

  application = rod_application_new ();
  g_application_set_flags (G_APPLICATION (application),
                           G_APPLICATION_HANDLES_OPEN | G_APPLICATION_NON_UNIQUE);
  g_assert_true (g_application_register (G_APPLICATION (application), NULL, NULL));
  /* Pictures of a moving view would differ from run to run. */
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  /* GTK 4.8 leaks a date each time it looks for recent files that are too old. */
  g_object_set (gtk_settings_get_default (), "gtk-recent-files-max-age", -1, NULL);
  /* When GTK 4.8 drops old files from its recent ones, it leaks the time of day. */
  g_object_set (gtk_settings_get_default (), "gtk-recent-files-max-age", -1, NULL);

  return TRUE;
}

RodApplication *
app_get (void)
{
  return application;
}

static void
out_of_patience_cb (gpointer what)
{
  g_error ("waited in vain for %s", (const char *) what);
}

void
app_wait_for (AppCondition condition,
              gpointer     data,
              const char  *what)
{
  guint id = g_timeout_add_once (PATIENCE_S * 1000, out_of_patience_cb, (gpointer) what);

  while (!condition (data))
    g_main_context_iteration (NULL, TRUE);
  g_source_remove (id);
}

static gboolean
is_mapped (gpointer widget)
{
  return gtk_widget_get_mapped (widget) && gtk_widget_get_width (widget) > 0;
}

static void
done_cb (gpointer data)
{
  *(gboolean *) data = TRUE;
}

static gboolean
is_true (gpointer data)
{
  return *(gboolean *) data;
}

/* Three frames: sizes, what follows from them, and the picture. */
void
app_settle (RodWindow *window)
{
  gboolean done = FALSE;

  g_timeout_add_once (60, done_cb, &done);
  app_wait_for (is_true, &done, "frames");
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

RodWindow *
app_open_window (void)
{
  RodWindow *window = rod_window_new (application);

  gtk_window_present (GTK_WINDOW (window));
  app_wait_for (is_mapped, window, "a window");

  return window;
}

static gboolean
is_decided (gpointer window)
{
  RodDocumentState state = rod_document_get_state (rod_window_get_document (window));

  return state == ROD_DOCUMENT_READY || state == ROD_DOCUMENT_FAILED;
}

static gboolean
is_planned (gpointer window)
{
  return rod_document_get_state (rod_window_get_document (window)) >= ROD_DOCUMENT_PLANNED;
}

RodWindow *
app_open_example (void)
{
  RodWindow *window = app_open_window ();
  g_autoptr (GFile) file =
    g_file_new_for_uri ("resource:///org/storeyrod/Storeyrod/example.storeyrod");

  rod_window_open (window, file);
  app_wait_for (is_planned, window, "the example's plan");
  app_settle (window);

  return window;
}

char *
app_example_path (const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "..", "examples", name, NULL);
}

RodWindow *
app_open_studio (void)
{
  RodWindow       *window = app_open_window ();
  g_autofree char *path = app_example_path ("garden-studio.storeyrod");

  app_open_file (window, path);
  g_assert_cmpint (rod_document_get_state (rod_window_get_document (window)),
                   ==,
                   ROD_DOCUMENT_READY);

  return window;
}

void
app_expand_all (GtkWidget *widget)
{
  if (GTK_IS_EXPANDER (widget))
    gtk_expander_set_expanded (GTK_EXPANDER (widget), TRUE);

  for (GtkWidget *child = gtk_widget_get_first_child (widget);
       child != NULL;
       child = gtk_widget_get_next_sibling (child))
    app_expand_all (child);
}

void
app_open_file (RodWindow  *window,
               const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);

  rod_window_open (window, file);
  app_wait_for (is_decided, window, path);
  app_settle (window);
}

static gboolean
is_gone (gpointer pointer)
{
  return *(gpointer *) pointer == NULL;
}

void
app_close_window (RodWindow *window)
{
  gpointer of_window = window;
  gpointer of_document = rod_window_get_document (window);

  g_object_add_weak_pointer (G_OBJECT (window), &of_window);
  g_object_add_weak_pointer (of_document, &of_document);
  gtk_window_close (GTK_WINDOW (window));
  app_wait_for (is_gone, &of_window, "the window to be given back");
  app_wait_for (is_gone, &of_document, "the document to be given back");
}

gboolean
app_has_label (GtkWidget  *widget,
               const char *text)
{
  if (GTK_IS_LABEL (widget) && g_str_equal (gtk_label_get_label (GTK_LABEL (widget)), text))
    return TRUE;

  for (GtkWidget *child = gtk_widget_get_first_child (widget);
       child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (app_has_label (child, text))
      return TRUE;

  return FALSE;
}

static GtkWidget *
find_widget (GtkWidget  *widget,
             const char *id)
{
  GtkWidget *found = NULL;

  if (g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget)), id) == 0)
    return widget;

  for (GtkWidget *child = gtk_widget_get_first_child (widget);
       child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_widget (child, id);

  return found;
}

GtkWidget *
app_find_widget (GtkWidget  *widget,
                 const char *id)
{
  GtkWidget *found = find_widget (widget, id);

  g_assert_nonnull (found);

  return found;
}

static gboolean
is_key (GtkShortcut *shortcut,
        guint        key)
{
  GtkShortcutTrigger *trigger = gtk_shortcut_get_trigger (shortcut);

  return GTK_IS_KEYVAL_TRIGGER (trigger) &&
         gtk_keyval_trigger_get_keyval (GTK_KEYVAL_TRIGGER (trigger)) == key &&
         gtk_keyval_trigger_get_modifiers (GTK_KEYVAL_TRIGGER (trigger)) == 0;
}

gboolean
app_press_key (GtkWidget *widget,
               guint      key)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GListModel) shortcuts = g_list_model_get_item (controllers, i);

      if (!GTK_IS_SHORTCUT_CONTROLLER (shortcuts))
        continue;
      for (guint k = 0; k < g_list_model_get_n_items (shortcuts); k++)
        {
          g_autoptr (GtkShortcut) shortcut = g_list_model_get_item (shortcuts, k);

          if (is_key (shortcut, key))
            return gtk_shortcut_action_activate (gtk_shortcut_get_action (shortcut),
                                                 GTK_SHORTCUT_ACTION_EXCLUSIVE,
                                                 widget,
                                                 gtk_shortcut_get_arguments (shortcut));
        }
    }

  return FALSE;
}

guint
app_count_widgets (GtkWidget *widget,
                   GType      type)
{
  guint n_widgets = g_type_is_a (G_OBJECT_TYPE (widget), type) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget);
       child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n_widgets += app_count_widgets (child, type);

  return n_widgets;
}

GdkTexture *
app_picture (GtkWidget *widget)
{
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  g_autoptr (GskRenderNode) node = NULL;
  int             width = gtk_widget_get_width (widget);
  int             height = gtk_widget_get_height (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height);

  gdk_paintable_snapshot (paintable, snapshot, width, height);
  node = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (node);

  return gsk_renderer_render_texture (gtk_native_get_renderer (gtk_widget_get_native (widget)),
                                      node,
                                      &area);
}
