/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

#define ROD_TYPE_SHEETS_VIEW (rod_sheets_view_get_type ())
G_DECLARE_FINAL_TYPE (RodSheetsView, rod_sheets_view, ROD, SHEETS_VIEW, GtkWidget)

/**
 * rod_sheets_view_set_takeoff:
 * @self: a view
 * @takeoff: (nullable): what the sheets are made of; %NULL while it is being made
 *
 * Lists the sheets and shows the chosen one as it will be printed.
 */
void rod_sheets_view_set_takeoff (RodSheetsView *self,
                                  RodTakeoff    *takeoff);

/**
 * rod_sheets_view_get_n_pages:
 * @self: a view
 *
 * Returns: how many sheets there are
 */
guint rod_sheets_view_get_n_pages (RodSheetsView *self);

G_END_DECLS
