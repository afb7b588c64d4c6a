/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files in and out of a window: open, drop, export. */
#include "config.h"

#include "app/rod-window-private.h"

#include <glib/gi18n.h>

#include "app/rod-export.h"

static GtkFileFilter *
new_filter (const char *name,
            const char *pattern)
{
  GtkFileFilter *filter = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, pattern);

  return filter;
}

static void
take_filter (GtkFileChooserNative *chooser,
             GtkFileFilter        *filter)
{
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (chooser), filter);
  g_object_unref (filter);
}

/* Beside the house that is shown. */
static void
set_folder (RodWindow            *self,
            GtkFileChooserNative *chooser)
{
  GFile *file = rod_document_get_file (self->document);
  g_autoptr (GFile) folder = NULL;

  if (file == NULL || !g_file_is_native (file))
    return;

  folder = g_file_get_parent (file);
  if (folder != NULL)
    gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), folder, NULL);
}

static void
file_chosen_cb (GtkFileChooserNative *chooser,
                int                   response,
                RodWindow            *self)
{
  g_autoptr (GFile) file = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_clear_object (&self->chooser);
  if (file != NULL)
    rod_application_open_file (ROD_APPLICATION (gtk_window_get_application (GTK_WINDOW (self))),
                               file,
                               GTK_WINDOW (self));
}

void
rod_window_choose_file (RodWindow *self)
{
  if (self->chooser != NULL)
    return;

  self->chooser = gtk_file_chooser_native_new (_ ("Open a House"),
                                               GTK_WINDOW (self),
                                               GTK_FILE_CHOOSER_ACTION_OPEN,
                                               _ ("_Open"),
                                               _ ("_Cancel"));
  take_filter (self->chooser, new_filter (_ ("Houses"), "*.storeyrod"));
  take_filter (self->chooser, new_filter (_ ("All files"), "*"));
  set_folder (self, self->chooser);
  g_signal_connect_object (self->chooser, "response", G_CALLBACK (file_chosen_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

static gboolean
dropped_cb (GtkDropTarget *target,
            const GValue  *value,
            double         x,
            double         y,
            RodWindow     *self)
{
  RodApplication *app = ROD_APPLICATION (gtk_window_get_application (GTK_WINDOW (self)));
  GSList         *files = gdk_file_list_get_files (g_value_get_boxed (value));

  for (GSList *link = files; link != NULL; link = link->next)
    rod_application_open_file (app, link->data, GTK_WINDOW (self));
  g_slist_free (files);

  return TRUE;
}

void
rod_window_add_drop_target (RodWindow *self)
{
  GtkDropTarget *target = gtk_drop_target_new (GDK_TYPE_FILE_LIST, GDK_ACTION_COPY);

  g_signal_connect_object (target, "drop", G_CALLBACK (dropped_cb), self, 0);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

static void
tell (RodWindow  *self,
      const char *text,
      GFile      *open)
{
  AdwToast        *toast = adw_toast_new (text);
  g_autofree char *uri = open != NULL ? g_file_get_uri (open) : NULL;

  if (uri != NULL)
    {
      adw_toast_set_button_label (toast, _ ("_Show"));
      adw_toast_set_action_name (toast, "app.show-uri");
      adw_toast_set_action_target (toast, "s", uri);
    }
  else
    {
      adw_toast_set_timeout (toast, 0);
    }
  adw_toast_overlay_add_toast (self->toasts, toast);
}

static void
exported_cb (GObject      *source,
             GAsyncResult *result,
             gpointer      user_data)
{
  g_autoptr (RodWindow) self = user_data;
  g_autoptr (GError) error = NULL;
  g_autoptr (GFile) file = rod_export_sheets_finish (result, &error);
  g_autofree char *name = NULL;
  g_autofree char *escaped = NULL;

  /* The window may have been closed meanwhile; the sheets are written all the same. */
  if (self->toasts == NULL || !gtk_widget_get_realized (GTK_WIDGET (self)))
    return;

  if (file == NULL)
    {
      escaped = g_markup_escape_text (error->message, -1);
      tell (self, escaped, NULL);
      return;
    }

  name = g_file_get_basename (file);
  escaped = g_markup_printf_escaped (_ ("Sheets saved as %s"), name);
  tell (self, escaped, file);
}

void
rod_window_export_to (RodWindow *self,
                      GFile     *file)
{
  RodTakeoff *takeoff;

  g_return_if_fail (ROD_IS_WINDOW (self));
  g_return_if_fail (G_IS_FILE (file));

  takeoff = rod_document_get_takeoff (self->document);
  g_return_if_fail (takeoff != NULL);

  rod_export_sheets_async (takeoff, file, NULL, exported_cb, g_object_ref (self));
}

static void
export_chosen_cb (GtkFileChooserNative *chooser,
                  int                   response,
                  RodWindow            *self)
{
  g_autoptr (GFile) file = NULL;

  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (chooser));
  g_clear_object (&self->chooser);
  if (file != NULL && rod_document_get_takeoff (self->document) != NULL)
    rod_window_export_to (self, file);
}

static char *
suggest_name (RodWindow *self)
{
  g_autofree char *name = NULL;
  GFile           *file = rod_document_get_file (self->document);
  char            *dot;

  name = file != NULL ? g_file_get_basename (file) : rod_document_dup_title (self->document);
  dot = strrchr (name, '.');
  if (dot != NULL && dot != name)
    *dot = '\0';

  return g_strconcat (name, ".pdf", NULL);
}

void
rod_window_choose_export (RodWindow *self)
{
  g_autofree char *name = NULL;

  if (self->chooser != NULL)
    return;

  name = suggest_name (self);
  self->chooser = gtk_file_chooser_native_new (_ ("Export Sheets"),
                                               GTK_WINDOW (self),
                                               GTK_FILE_CHOOSER_ACTION_SAVE,
                                               _ ("_Export"),
                                               _ ("_Cancel"));
  take_filter (self->chooser, new_filter (_ ("PDF documents"), "*.pdf"));
  set_folder (self, self->chooser);
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), name);
  g_signal_connect_object (self->chooser, "response", G_CALLBACK (export_chosen_cb), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}
