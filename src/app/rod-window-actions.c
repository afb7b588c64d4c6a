/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-window-private.h"

#include <glib/gi18n.h>

#define ZOOM_STEP 1.5

static void
open_cb (GSimpleAction *action,
         GVariant      *parameter,
         gpointer       user_data)
{
  rod_window_choose_file (user_data);
}

static void
reload_cb (GSimpleAction *action,
           GVariant      *parameter,
           gpointer       user_data)
{
  RodWindow *self = user_data;
  GFile     *asked = rod_document_get_asked (self->document);
  g_autoptr (GFile) file = asked != NULL ? g_object_ref (asked) : NULL;

  if (file != NULL)
    rod_document_open (self->document, file);
}

static void
export_cb (GSimpleAction *action,
           GVariant      *parameter,
           gpointer       user_data)
{
  rod_window_choose_export (user_data);
}

static GtkShortcutsWindow *
make_help_overlay (GtkApplicationWindow *window)
{
  g_autoptr (GtkBuilder) builder =
    gtk_builder_new_from_resource ("/org/storeyrod/Storeyrod/shortcuts.ui");

  gtk_application_window_set_help_overlay (
    window,
    GTK_SHORTCUTS_WINDOW (gtk_builder_get_object (builder, "help_overlay")));

  return gtk_application_window_get_help_overlay (window);
}

static void
show_help_overlay_cb (GSimpleAction *action,
                      GVariant      *parameter,
                      gpointer       user_data)
{
  GtkShortcutsWindow *overlay = gtk_application_window_get_help_overlay (user_data);

  if (overlay == NULL)
    overlay = make_help_overlay (user_data);
  gtk_window_present (GTK_WINDOW (overlay));
}

static void
menu_cb (GSimpleAction *action,
         GVariant      *parameter,
         gpointer       user_data)
{
  gtk_menu_button_popup (((RodWindow *) user_data)->menu_button);
}

static void
show_findings_cb (GSimpleAction *action,
                  GVariant      *parameter,
                  gpointer       user_data)
{
  rod_house_view_show_findings (rod_window_get_view (user_data));
}

/* The title of a toast has one line, and a finding says more. */
static AdwToast *
new_finding_toast (const char *text)
{
  AdwToast  *toast = adw_toast_new (text);
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  adw_toast_set_custom_title (toast, label);

  return toast;
}

/* In a narrow window the list of findings would hide the drawing. */
static void
step_finding (RodWindow *self,
              int        by)
{
  RodHouseView *view = rod_window_get_view (self);
  const char   *text;

  rod_house_view_step_finding (view, by);
  text = rod_findings_list_get_text (rod_house_view_get_findings_list (view));
  if (!rod_panes_get_folded (rod_house_view_get_panes (view)) || text == NULL)
    return;

  if (self->finding != NULL)
    adw_toast_dismiss (self->finding);
  g_set_weak_pointer (&self->finding, new_finding_toast (text));
  adw_toast_overlay_add_toast (self->toasts, self->finding);
}

static void
next_finding_cb (GSimpleAction *action,
                 GVariant      *parameter,
                 gpointer       user_data)
{
  step_finding (user_data, 1);
}

static void
previous_finding_cb (GSimpleAction *action,
                     GVariant      *parameter,
                     gpointer       user_data)
{
  step_finding (user_data, -1);
}

static void
fit_cb (GSimpleAction *action,
        GVariant      *parameter,
        gpointer       user_data)
{
  rod_canvas_fit (rod_house_view_get_canvas (rod_window_get_view (user_data)));
}

static void
zoom_in_cb (GSimpleAction *action,
            GVariant      *parameter,
            gpointer       user_data)
{
  rod_canvas_zoom (rod_house_view_get_canvas (rod_window_get_view (user_data)), ZOOM_STEP);
}

static void
zoom_out_cb (GSimpleAction *action,
             GVariant      *parameter,
             gpointer       user_data)
{
  rod_canvas_zoom (rod_house_view_get_canvas (rod_window_get_view (user_data)),
                   1 / ZOOM_STEP);
}

static void
select_cb (GSimpleAction *action,
           GVariant      *parameter,
           gpointer       user_data)
{
  RodWindow *self = user_data;
  guint32    kind;
  RodPlace   place;

  g_variant_get (parameter, "(uuu)", &kind, &place.face, &place.index);
  place.kind = (RodPlaceKind) kind;
  if (rod_place_exists (place, rod_document_get_plan (self->document)))
    rod_selection_set (rod_house_view_get_selection (rod_window_get_view (self)), place, TRUE);
}

static void
set_stage_cb (GSimpleAction *action,
              GVariant      *value,
              gpointer       user_data)
{
  RodWindow *self = user_data;
  RodStage   stage = rod_stage_from_nick (g_variant_get_string (value, NULL));

  rod_house_view_set_stage (rod_window_get_view (self), stage);
  g_simple_action_set_state (action, g_variant_new_string (rod_stage_nick (stage)));
}

static const GActionEntry actions[] = {
  { .name = "open", .activate = open_cb },
  { .name = "reload", .activate = reload_cb },
  { .name = "export", .activate = export_cb },
  { .name = "menu", .activate = menu_cb },
  { .name = "show-help-overlay", .activate = show_help_overlay_cb },
  { .name = "show-findings", .activate = show_findings_cb },
  { .name = "next-finding", .activate = next_finding_cb },
  { .name = "previous-finding", .activate = previous_finding_cb },
  { .name = "fit", .activate = fit_cb },
  { .name = "zoom-in", .activate = zoom_in_cb },
  { .name = "zoom-out", .activate = zoom_out_cb },
  { .name = "select", .activate = select_cb, .parameter_type = "(uuu)" },
  { .name = "stage",
    .parameter_type = "s",
    .state = "'set-out'",
    .change_state = set_stage_cb },
};

void
rod_window_add_actions (RodWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), actions, G_N_ELEMENTS (actions), self);
}

static void
enable (RodWindow  *self,
        const char *name,
        gboolean    enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);

  g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

void
rod_window_update_actions (RodWindow *self)
{
  static const char *const need_plan[] = {
    "show-findings",
    "next-finding",
    "previous-finding",
    "fit",
    "zoom-in",
    "zoom-out",
    "select",
    "stage",
  };
  gboolean has_plan = rod_document_get_plan (self->document) != NULL;

  for (guint i = 0; i < G_N_ELEMENTS (need_plan); i++)
    enable (self, need_plan[i], has_plan);
  enable (self, "export", rod_document_get_takeoff (self->document) != NULL);
  enable (self, "reload", rod_document_get_asked (self->document) != NULL);
}

void
rod_window_activate_stage (RodWindow *self,
                           RodStage   stage)
{
  g_action_group_change_action_state (G_ACTION_GROUP (self),
                                      "stage",
                                      g_variant_new_string (rod_stage_nick (stage)));
}
