/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The part of a window that shows a house. It has most of the widgets, so it is made when a house
 * is opened, while another thread reads the file: a window without a house is on the screen sooner.
 */
#include "config.h"

#include "app/rod-window-private.h"

#include <glib/gi18n.h>

/* Words give way to the title in a narrow window. */
static void
folded_cb (RodWindow *self)
{
  gboolean folded = rod_panes_get_folded (rod_house_view_get_panes (self->house_view));

  if (folded)
    {
      adw_split_button_set_icon_name (self->open_button, "document-open-symbolic");
    }
  else
    {
      adw_split_button_set_label (self->open_button, _ ("_Open…"));
      adw_split_button_set_use_underline (self->open_button, TRUE);
    }
}

static void
add_pane_actions (RodWindow *self,
                  RodPanes  *panes)
{
  g_autoptr (GPropertyAction) house = g_property_action_new ("show-house", panes, "show-start");
  g_autoptr (GPropertyAction) details = g_property_action_new ("show-details", panes, "show-end");

  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (house));
  g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (details));
}

static void
recall_view (RodWindow *self,
             RodPanes  *panes)
{
  RodStage stage = ROD_STAGE_SET_OUT;

  if (self->settings != NULL)
    {
      rod_panes_set_show_start (panes, g_settings_get_boolean (self->settings, "show-house"));
      rod_panes_set_show_end (panes, g_settings_get_boolean (self->settings, "show-details"));
      stage = (RodStage) g_settings_get_enum (self->settings, "stage");
    }
  rod_window_activate_stage (self, stage);
}

static void
make_view (RodWindow *self)
{
  RodPanes *panes;

  self->house_view = g_object_new (ROD_TYPE_HOUSE_VIEW, NULL);
  adw_bin_set_child (self->house_page, GTK_WIDGET (self->house_view));
  rod_house_view_set_document (self->house_view, self->document);

  panes = rod_house_view_get_panes (self->house_view);
  g_signal_connect_object (panes,
                           "notify::folded",
                           G_CALLBACK (folded_cb),
                           self,
                           G_CONNECT_SWAPPED);
  add_pane_actions (self, panes);
  recall_view (self, panes);
}

RodHouseView *
rod_window_get_view (RodWindow *self)
{
  g_return_val_if_fail (ROD_IS_WINDOW (self), NULL);

  if (self->house_view == NULL)
    make_view (self);

  return self->house_view;
}

void
rod_window_remember_view (RodWindow *self)
{
  RodPanes *panes;

  if (self->settings == NULL || self->house_view == NULL)
    return;

  panes = rod_house_view_get_panes (self->house_view);
  g_settings_set_enum (self->settings,
                       "stage",
                       (int) rod_house_view_get_stage (self->house_view));
  /* A narrow window says nothing about what a wide one should show. */
  if (!rod_panes_get_folded (panes))
    {
      g_settings_set_boolean (self->settings, "show-house", rod_panes_get_show_start (panes));
      g_settings_set_boolean (self->settings, "show-details", rod_panes_get_show_end (panes));
    }
}
