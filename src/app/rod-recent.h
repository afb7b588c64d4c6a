/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/**
 * rod_recent_note:
 * @file: a house file that was opened
 *
 * Remembers the file for the desktop and for rod_recent_menu().
 */
void rod_recent_note (GFile *file);

/**
 * rod_recent_fill:
 * @menu: a menu
 *
 * Fills a menu with the house files opened last, newest first, each with the action
 * "app.open-uri"; the same list whichever window asks.
 */
void rod_recent_fill (GMenu *menu);

G_END_DECLS
