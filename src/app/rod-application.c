/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-application.h"

#include <glib/gi18n.h>

#include "app/rod-window.h"
#include "storeyrod-resources.h"

#define RESOURCES "/org/storeyrod/Storeyrod"
#define EXAMPLE_URI "resource://" RESOURCES "/example.storeyrod"

struct _RodApplication
{
  AdwApplication parent_instance;
  GSettings     *settings;
};

G_DEFINE_FINAL_TYPE (RodApplication, rod_application, ADW_TYPE_APPLICATION)

/* g_settings_new() ends the program when the schema is not installed. */
static GSettings *
find_settings (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema = NULL;

  if (source != NULL)
    schema = g_settings_schema_source_lookup (source, ROD_APP_ID, TRUE);

  return schema != NULL ? g_settings_new_full (schema, NULL, NULL) : NULL;
}

static RodWindow *
new_window (RodApplication *self)
{
  RodWindow *window = rod_window_new (self);

  gtk_window_present (GTK_WINDOW (window));

  return window;
}

static void
new_window_cb (GSimpleAction *action,
               GVariant      *parameter,
               gpointer       user_data)
{
  new_window (user_data);
}

static void
open_uri_cb (GSimpleAction *action,
             GVariant      *parameter,
             gpointer       user_data)
{
  RodApplication *self = user_data;
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));

  rod_application_open_file (self,
                             file,
                             gtk_application_get_active_window (GTK_APPLICATION (self)));
}

static void
open_example_cb (GSimpleAction *action,
                 GVariant      *parameter,
                 gpointer       user_data)
{
  RodApplication *self = user_data;
  g_autoptr (GFile) file = g_file_new_for_uri (EXAMPLE_URI);

  rod_application_open_file (self,
                             file,
                             gtk_application_get_active_window (GTK_APPLICATION (self)));
}

static void
show_uri_cb (GSimpleAction *action,
             GVariant      *parameter,
             gpointer       user_data)
{
  gtk_show_uri (gtk_application_get_active_window (GTK_APPLICATION (user_data)),
                g_variant_get_string (parameter, NULL),
                GDK_CURRENT_TIME);
}

static void
about_cb (GSimpleAction *action,
          GVariant      *parameter,
          gpointer       user_data)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (user_data));

  adw_show_about_window (window,
                         "application-name",
                         _ ("Storeyrod"),
                         "application-icon",
                         ROD_APP_ID,
                         "version",
                         ROD_VERSION,
                         "developer-name",
                         _ ("The Storeyrod contributors"),
                         "comments",
                         _ ("Plans the cladding of a whole house with interlocking facade boards: "
                            "joint lines, boards, trims, cuts and order.\n\n"
                            "The plan does not replace a structural or fire check, nor the "
                            "instructions of whoever makes the boards."),
                         "license-type",
                         GTK_LICENSE_GPL_3_0,
                         /* Translators: put your names here. */
                         "translator-credits",
                         _ ("translator-credits"),
                         NULL);
}

static void
quit_cb (GSimpleAction *action,
         GVariant      *parameter,
         gpointer       user_data)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (user_data));

  /* Closed rather than dropped, so that each remembers its size. */
  for (GList *link = windows; link != NULL; link = link->next)
    gtk_window_close (link->data);
}

static const GActionEntry actions[] = {
  { .name = "new-window", .activate = new_window_cb },
  { .name = "open-uri", .activate = open_uri_cb, .parameter_type = "s" },
  { .name = "open-example", .activate = open_example_cb },
  { .name = "show-uri", .activate = show_uri_cb, .parameter_type = "s" },
  { .name = "about", .activate = about_cb },
  { .name = "quit", .activate = quit_cb },
};

static const struct
{
  const char *action;
  const char *keys[3];
} accelerators[] = {
  { "app.new-window", { "<Control>n" } },
  { "app.quit", { "<Control>q" } },
  { "win.open", { "<Control>o" } },
  { "win.reload", { "<Control>r" } },
  { "win.export", { "<Control>e" } },
  { "window.close", { "<Control>w" } },
  { "win.show-help-overlay", { "<Control>question" } },
  { "win.show-house", { "F9" } },
  { "win.show-details", { "<Shift>F9" } },
  { "win.next-finding", { "F8" } },
  { "win.previous-finding", { "<Shift>F8" } },
  { "win.fit", { "<Control>0" } },
  { "win.zoom-in", { "<Control>plus", "<Control>equal" } },
  { "win.zoom-out", { "<Control>minus" } },
  { "win.menu", { "F10" } },
  { "win.stage::survey", { "<Alt>1" } },
  { "win.stage::set-out", { "<Alt>2" } },
  { "win.stage::frame", { "<Alt>3" } },
  { "win.stage::order", { "<Alt>4" } },
  { "win.stage::sheets", { "<Alt>5" } },
};

static void
rod_application_startup (GApplication *app)
{
  g_resources_register (storeyrod_get_resource ());
  G_APPLICATION_CLASS (rod_application_parent_class)->startup (app);

  gtk_window_set_default_icon_name (ROD_APP_ID);
  g_action_map_add_action_entries (G_ACTION_MAP (app), actions, G_N_ELEMENTS (actions), app);
  for (guint i = 0; i < G_N_ELEMENTS (accelerators); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (app),
                                           accelerators[i].action,
                                           accelerators[i].keys);
  ROD_APPLICATION (app)->settings = find_settings ();
}

static void
rod_application_activate (GApplication *app)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (app));

  if (window != NULL)
    gtk_window_present (window);
  else
    new_window (ROD_APPLICATION (app));
}

static void
rod_application_open (GApplication *app,
                      GFile       **files,
                      int           n_files,
                      const char   *hint)
{
  for (int i = 0; i < n_files; i++)
    rod_application_open_file (ROD_APPLICATION (app),
                               files[i],
                               gtk_application_get_active_window (GTK_APPLICATION (app)));
}

static int
handle_local_options_cb (GApplication *app,
                         GVariantDict *options)
{
  if (!g_variant_dict_contains (options, "version"))
    return -1;

  g_print ("%s %s\n", _ ("Storeyrod"), ROD_VERSION);

  return 0;
}

static void
rod_application_dispose (GObject *object)
{
  g_clear_object (&ROD_APPLICATION (object)->settings);

  G_OBJECT_CLASS (rod_application_parent_class)->dispose (object);
}

static void
rod_application_class_init (RodApplicationClass *klass)
{
  GApplicationClass *app_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_application_dispose;
  app_class->startup = rod_application_startup;
  app_class->activate = rod_application_activate;
  app_class->open = rod_application_open;
}

static void
rod_application_init (RodApplication *self)
{
  GApplication *app = G_APPLICATION (self);

  g_application_add_main_option (app,
                                 "version",
                                 'v',
                                 G_OPTION_FLAG_NONE,
                                 G_OPTION_ARG_NONE,
                                 _ ("Print the version and end"),
                                 NULL);
  g_application_set_option_context_parameter_string (app, _ ("[HOUSE…]"));
  g_application_set_option_context_summary (app, _ ("Plan the cladding of a whole house."));
  g_signal_connect (self, "handle-local-options", G_CALLBACK (handle_local_options_cb), NULL);
}

RodApplication *
rod_application_new (void)
{
  return g_object_new (ROD_TYPE_APPLICATION,
                       "application-id",
                       ROD_APP_ID,
                       "flags",
                       G_APPLICATION_HANDLES_OPEN,
                       "resource-base-path",
                       RESOURCES,
                       NULL);
}

GSettings *
rod_application_get_settings (RodApplication *self)
{
  g_return_val_if_fail (ROD_IS_APPLICATION (self), NULL);

  return self->settings;
}

void
rod_application_open_file (RodApplication *self,
                           GFile          *file,
                           GtkWindow      *beside)
{
  RodWindow *window;

  g_return_if_fail (ROD_IS_APPLICATION (self));
  g_return_if_fail (G_IS_FILE (file));

  if (ROD_IS_WINDOW (beside) && !rod_window_has_house (ROD_WINDOW (beside)))
    window = ROD_WINDOW (beside);
  else
    window = rod_window_new (self);

  rod_window_open (window, file);
  gtk_window_present (GTK_WINDOW (window));
}
