/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-window-private.h"

#include <glib/gi18n.h>

#include "app/rod-recent.h"

G_DEFINE_FINAL_TYPE (RodWindow, rod_window, ADW_TYPE_APPLICATION_WINDOW)

/* What is shown follows from the document alone. */

static char *
dup_asked_name (RodWindow *self)
{
  GFile *asked = rod_document_get_asked (self->document);

  return asked != NULL ? g_file_get_basename (asked) : g_strdup ("");
}

static void
show_trouble (RodWindow *self)
{
  const GError *error = rod_document_get_error (self->document);
  gboolean      beside_house = error != NULL && rod_document_get_plan (self->document) != NULL;

  if (error != NULL)
    {
      g_autofree char *name = dup_asked_name (self);
      g_autofree char *escaped = g_markup_printf_escaped ("%s\n\n%s", name, error->message);
      /* Translators: a file name and why it cannot be opened. */
      g_autofree char *line = g_strdup_printf (_ ("%s: %s"), name, error->message);

      adw_status_page_set_description (self->failed, escaped);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->try_again),
                                      GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                      line,
                                      -1);
      gtk_label_set_label (self->trouble_text, line);
    }
  gtk_revealer_set_reveal_child (self->trouble, beside_house);
}

static void
show_title (RodWindow *self)
{
  g_autofree char *title = rod_document_dup_title (self->document);
  g_autofree char *name = NULL;
  GFile           *file = rod_document_get_file (self->document);

  if (file != NULL)
    name = g_file_get_basename (file);
  adw_window_title_set_title (self->title, title);
  adw_window_title_set_subtitle (self->title,
                                 name != NULL && g_strcmp0 (name, title) != 0 ? name : "");
  gtk_window_set_title (GTK_WINDOW (self), title);
}

static const char *
page_of_document (RodWindow *self)
{
  if (rod_document_get_plan (self->document) != NULL)
    return "house";

  switch (rod_document_get_state (self->document))
    {
    case ROD_DOCUMENT_OPENING:
      return "opening";

    case ROD_DOCUMENT_FAILED:
      return "failed";

    case ROD_DOCUMENT_EMPTY:
    case ROD_DOCUMENT_PLANNED:
    case ROD_DOCUMENT_READY:
    default:
      return "welcome";
    }
}

static void
document_changed_cb (RodWindow *self)
{
  const char      *page = page_of_document (self);
  RodDocumentState state = rod_document_get_state (self->document);

  if (state == ROD_DOCUMENT_OPENING)
    rod_window_get_view (self);
  if (state == ROD_DOCUMENT_PLANNED)
    rod_recent_note (rod_document_get_file (self->document));
  show_title (self);
  show_trouble (self);
  gtk_spinner_set_spinning (self->spinner, g_str_equal (page, "opening"));
  gtk_stack_set_visible_child_name (self->pages, page);
  gtk_widget_set_visible (self->house_toggle, g_str_equal (page, "house"));
  /* Reads out why, and Enter tries again. */
  if (g_str_equal (page, "failed"))
    gtk_widget_grab_focus (self->try_again);
  if (state == ROD_DOCUMENT_PLANNED)
    gtk_widget_grab_focus (GTK_WIDGET (rod_house_view_get_canvas (self->house_view)));
  rod_window_update_actions (self);
}

static void
trouble_closed_cb (RodWindow *self)
{
  gtk_revealer_set_reveal_child (self->trouble, FALSE);
}

static void
recent_shown_cb (RodWindow *self)
{
  rod_recent_fill (self->recent);
}

/* What is remembered of a window. */

static void
recall (RodWindow *self)
{
  if (self->settings == NULL)
    return;

  gtk_window_set_default_size (GTK_WINDOW (self),
                               g_settings_get_int (self->settings, "window-width"),
                               g_settings_get_int (self->settings, "window-height"));
  if (g_settings_get_boolean (self->settings, "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (self));
}

static gboolean
rod_window_close_request (GtkWindow *window)
{
  RodWindow *self = ROD_WINDOW (window);
  int        width;
  int        height;

  if (self->settings != NULL)
    {
      gtk_window_get_default_size (window, &width, &height);
      g_settings_set_int (self->settings, "window-width", MAX (width, 360));
      g_settings_set_int (self->settings, "window-height", MAX (height, 294));
      g_settings_set_boolean (self->settings, "window-maximized", gtk_window_is_maximized (window));
    }
  rod_window_remember_view (self);

  return GTK_WINDOW_CLASS (rod_window_parent_class)->close_request (window);
}

static void
rod_window_dispose (GObject *object)
{
  RodWindow *self = ROD_WINDOW (object);

  /* These two hold on to the panes, and the panes to all that is in them. */
  g_action_map_remove_action (G_ACTION_MAP (self), "show-house");
  g_action_map_remove_action (G_ACTION_MAP (self), "show-details");
  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_weak_pointer (&self->finding);
  g_clear_object (&self->document);
  g_clear_object (&self->settings);
  g_clear_object (&self->chooser);
  g_clear_object (&self->recent);

  G_OBJECT_CLASS (rod_window_parent_class)->dispose (object);
}

static void
rod_window_class_init (RodWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_window_dispose;
  GTK_WINDOW_CLASS (klass)->close_request = rod_window_close_request;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-window.ui");
  gtk_widget_class_bind_template_child (widget_class, RodWindow, title);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, open_button);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, house_toggle);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, spinner);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, failed);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, try_again);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, trouble);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, trouble_text);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, house_page);
  gtk_widget_class_bind_template_child (widget_class, RodWindow, main_menu);
  gtk_widget_class_bind_template_callback (widget_class, trouble_closed_cb);
}

/* Menus are made when they are first opened, which is later than the first frame. */
static void
create_menu_cb (GtkMenuButton *button,
                gpointer       user_data)
{
  RodWindow *self = user_data;

  if (gtk_menu_button_get_menu_model (button) == NULL)
    gtk_menu_button_set_menu_model (button, self->main_menu);
}

/* The arrow has a tooltip only, and belongs to a widget that does not name it. */
static void
name_arrow (RodWindow *self)
{
  GtkWidget *arrow = gtk_widget_get_last_child (GTK_WIDGET (self->open_button));

  for (; arrow != NULL; arrow = gtk_widget_get_first_child (arrow))
    if (GTK_IS_MENU_BUTTON (arrow) || GTK_IS_TOGGLE_BUTTON (arrow))
      gtk_accessible_update_property (GTK_ACCESSIBLE (arrow),
                                      GTK_ACCESSIBLE_PROPERTY_LABEL,
                                      _ ("Houses opened last"),
                                      -1);
}

static void
add_recent (RodWindow *self)
{
  self->recent = g_menu_new ();
  rod_recent_fill (self->recent);
  adw_split_button_set_menu_model (self->open_button, G_MENU_MODEL (self->recent));
  g_signal_connect_object (adw_split_button_get_popover (self->open_button),
                           "show",
                           G_CALLBACK (recent_shown_cb),
                           self,
                           G_CONNECT_SWAPPED);
}

/* Called before each frame is drawn: the second time, the first frame is on the screen. */
static gboolean
frame_cb (GtkWidget     *widget,
          GdkFrameClock *clock,
          gpointer       user_data)
{
  RodWindow *self = ROD_WINDOW (widget);

  if (!self->seen)
    {
      self->seen = TRUE;
      return G_SOURCE_CONTINUE;
    }
  add_recent (self);

  return G_SOURCE_REMOVE;
}

static void
rod_window_init (RodWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));

  /* After the view of the house, which is made later, has seen the change. */
  self->document = rod_document_new ();
  g_signal_connect_object (self->document,
                           "changed",
                           G_CALLBACK (document_changed_cb),
                           self,
                           G_CONNECT_SWAPPED | G_CONNECT_AFTER);

  gtk_menu_button_set_create_popup_func (self->menu_button, create_menu_cb, self, NULL);
  gtk_widget_add_tick_callback (GTK_WIDGET (self), frame_cb, NULL, NULL);
  name_arrow (self);
  rod_window_add_actions (self);
  rod_window_add_drop_target (self);
}

RodWindow *
rod_window_new (RodApplication *application)
{
  RodWindow *self;
  GSettings *settings;

  g_return_val_if_fail (ROD_IS_APPLICATION (application), NULL);

  self = g_object_new (ROD_TYPE_WINDOW, "application", application, NULL);
  settings = rod_application_get_settings (application);
  if (settings != NULL)
    self->settings = g_object_ref (settings);
  recall (self);
  document_changed_cb (self);

  return self;
}

void
rod_window_open (RodWindow *self,
                 GFile     *file)
{
  g_return_if_fail (ROD_IS_WINDOW (self));
  g_return_if_fail (G_IS_FILE (file));

  rod_document_open (self->document, file);
}

gboolean
rod_window_has_house (RodWindow *self)
{
  g_return_val_if_fail (ROD_IS_WINDOW (self), FALSE);

  return rod_document_get_plan (self->document) != NULL ||
         rod_document_get_state (self->document) == ROD_DOCUMENT_OPENING;
}

RodDocument *
rod_window_get_document (RodWindow *self)
{
  g_return_val_if_fail (ROD_IS_WINDOW (self), NULL);

  return self->document;
}

const char *
rod_window_get_page (RodWindow *self)
{
  g_return_val_if_fail (ROD_IS_WINDOW (self), NULL);

  return gtk_stack_get_visible_child_name (self->pages);
}
