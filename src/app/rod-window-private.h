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
  GtkWidget       *try_again;
  GtkRevealer     *trouble;
  GtkLabel        *trouble_text;
  GMenuModel      *main_menu;
  AdwBin          *house_page;

  RodHouseView *house_view; /* NULL until a house is opened; a child of house_page */
  AdwToast     *finding;    /* weak: told last */
  gboolean      seen;       /* has drawn its first frame */
};

/* rod-window-house.c: stages and panes for the next time */
void rod_window_remember_view (RodWindow *self);

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
