/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

#define ROD_TYPE_ORDER_VIEW (rod_order_view_get_type ())
G_DECLARE_FINAL_TYPE (RodOrderView, rod_order_view, ROD, ORDER_VIEW, GtkWidget)

/* RodOrderView: the order, line by line, and the cutting lists, bar by bar. Emits
 * "highlight" with a #GArray of indices of pieces (or %NULL) when a bar is chosen. */

/**
 * rod_order_view_set_takeoff:
 * @self: a view
 * @takeoff: (nullable): what is ordered; %NULL while it is being made
 */
void rod_order_view_set_takeoff (RodOrderView *self,
                                 RodTakeoff   *takeoff);

/**
 * rod_order_view_get_lines:
 * @self: a view
 *
 * Returns: (transfer none): lines of the order, as #RodTakeoffItem
 */
GListModel *rod_order_view_get_lines (RodOrderView *self);

/**
 * rod_order_view_get_bars:
 * @self: a view
 *
 * Returns: (transfer none): bars of the chosen cutting list, as #RodTakeoffItem
 */
GListModel *rod_order_view_get_bars (RodOrderView *self);

/**
 * rod_order_view_select_bar:
 * @self: a view
 * @position: position of a bar, or %GTK_INVALID_LIST_POSITION
 */
void rod_order_view_select_bar (RodOrderView *self,
                                guint         position);

G_END_DECLS
