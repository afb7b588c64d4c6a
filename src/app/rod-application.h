/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

#define ROD_TYPE_APPLICATION (rod_application_get_type ())
G_DECLARE_FINAL_TYPE (RodApplication, rod_application, ROD, APPLICATION, AdwApplication)

/**
 * rod_application_new:
 *
 * Returns: (transfer full): the application
 */
RodApplication *rod_application_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_application_get_settings:
 * @self: the application
 *
 * Returns: (transfer none) (nullable): what is remembered between runs; %NULL where the program is
 *          run without having been installed, and then nothing is
 */
GSettings *rod_application_get_settings (RodApplication *self);

/**
 * rod_application_open_file:
 * @self: the application
 * @file: a house file
 * @beside: (nullable): the window that asks
 *
 * Opens a file in @beside if that has no house yet, else in a new window.
 */
void rod_application_open_file (RodApplication *self,
                                GFile          *file,
                                GtkWindow      *beside);

G_END_DECLS
