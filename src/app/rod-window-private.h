/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/rod-window.h"

G_BEGIN_DECLS

struct _RodWindow
{
  AdwApplicationWindow parent_instance;

  /* Owned */
  RodDocument          *document;
  GSettings            *settings; /* may be NULL */
  GtkFileChooserNative *chooser;  /* while it is shown */
  GMenu                *recent;

  /* Template widgets */
  AdwWindowTitle  *title;
  AdwToastOverlay *toasts;
  AdwSplitButton  *open_button;
  GtkWidget       *house_toggle;
  GtkMenuButton   *menu_button;
  GtkStack        *pages;
  GtkSpinner      *spinner;
  AdwStatusPage   *failed;
  GtkRevealer     *trouble;
  GtkLabel        *trouble_text;
  RodHouseView    *house_view;
};

/* rod-window-actions.c */
void rod_window_add_actions (RodWindow *self);
void rod_window_update_actions (RodWindow *self);
void rod_window_activate_stage (RodWindow *self,
                                RodStage   stage);

/* rod-window-files.c */
void rod_window_choose_file (RodWindow *self);
void rod_window_choose_export (RodWindow *self);
void rod_window_add_drop_target (RodWindow *self);

G_END_DECLS
