/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/rod-window.h"

/* Starts the application once for a test program; %FALSE where there is no display. */
gboolean app_start (int    *argc,
                    char ***argv);

/* The application. */
RodApplication *app_get (void);

/* A window on the screen, without a house. */
RodWindow *app_open_window (void);

/* A window that shows the example as soon as it is planned. */
RodWindow *app_open_example (void);

/* A window that shows the garden studio with its take-off, which takes less long. */
RodWindow *app_open_studio (void);

/* Path of a house of the examples folder. */
char *app_example_path (const char *name);

/* Opens whatever can be opened below @widget. */
void app_expand_all (GtkWidget *widget);

/* Opens a file in a window and waits until that has succeeded or failed. */
void app_open_file (RodWindow  *window,
                    const char *path);

/* Lets the program run until @condition holds; fails the test after a long while. */
typedef gboolean (*AppCondition) (gpointer data);
void app_wait_for (AppCondition condition,
                   gpointer     data,
                   const char  *what);

/* Lets the program run until it has nothing to do, frames included. */
void app_settle (RodWindow *window);

/* Closes a window and asserts that it and its document are given back. */
void app_close_window (RodWindow *window);

/* Whether @text stands in a label below @widget. */
gboolean app_has_label (GtkWidget  *widget,
                        const char *text);

/* The widget below @widget that a template calls @id; fails the test where there is none. */
GtkWidget *app_find_widget (GtkWidget  *widget,
                            const char *id);

/* Does what a key without modifiers does on @widget itself; %FALSE where it does nothing. */
gboolean app_press_key (GtkWidget *widget,
                        guint      key);

/* How many widgets of @type there are below @widget. */
guint app_count_widgets (GtkWidget *widget,
                         GType      type);

/* The picture of a widget, of its own size. */
GdkTexture *app_picture (GtkWidget *widget);
