/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/rod-application.h"
#include "app/rod-house-view.h"

G_BEGIN_DECLS

#define ROD_TYPE_WINDOW (rod_window_get_type ())
G_DECLARE_FINAL_TYPE (RodWindow, rod_window, ROD, WINDOW, AdwApplicationWindow)

/**
 * rod_window_new:
 * @application: the application
 *
 * Returns: (transfer none): a window without a house
 */
RodWindow *rod_window_new (RodApplication *application);

/**
 * rod_window_open:
 * @self: a window
 * @file: a house file
 *
 * Opens a file here, whatever is shown.
 */
void rod_window_open (RodWindow *self,
                      GFile     *file);

/**
 * rod_window_has_house:
 * @self: a window
 *
 * Returns: whether a house is shown or being opened
 */
gboolean rod_window_has_house (RodWindow *self);

/**
 * rod_window_export_to:
 * @self: a window with a take-off
 * @file: where to write the PDF
 *
 * Writes the sheets and tells by a toast how it went.
 */
void rod_window_export_to (RodWindow *self,
                           GFile     *file);

/**
 * rod_window_get_document:
 * @self: a window
 *
 * Returns: (transfer none): its document
 */
RodDocument *rod_window_get_document (RodWindow *self);

/**
 * rod_window_get_view:
 * @self: a window
 *
 * The view is made when it is first asked for, at the latest when a house is opened.
 *
 * Returns: (transfer none): the view of its house
 */
RodHouseView *rod_window_get_view (RodWindow *self);

/**
 * rod_window_get_page:
 * @self: a window
 *
 * Returns: (transfer none): "welcome", "opening", "failed" or "house"
 */
const char *rod_window_get_page (RodWindow *self);

G_END_DECLS
