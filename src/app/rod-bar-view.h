/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "app/rod-takeoff-item.h"

G_BEGIN_DECLS

#define ROD_TYPE_BAR_VIEW (rod_bar_view_get_type ())
G_DECLARE_FINAL_TYPE (RodBarView, rod_bar_view, ROD, BAR_VIEW, GtkWidget)

/**
 * rod_bar_view_new:
 *
 * A bar drawn to scale with what is sawn from it, from the first cut on.
 *
 * Returns: (transfer floating): a view of no bar yet
 */
GtkWidget *rod_bar_view_new (void);

/**
 * rod_bar_view_set_item:
 * @self: a view
 * @item: (nullable): the bar
 */
void rod_bar_view_set_item (RodBarView     *self,
                            RodTakeoffItem *item);

G_END_DECLS
