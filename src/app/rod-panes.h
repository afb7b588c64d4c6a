/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define ROD_TYPE_PANES (rod_panes_get_type ())
G_DECLARE_FINAL_TYPE (RodPanes, rod_panes, ROD, PANES, GtkWidget)

/* RodPanes: a middle with a pane on either side (properties "start", "middle", "end").
 *
 * Where there is room the panes stand beside the middle ("show-start", "show-end"). In a narrow
 * window ("folded") they lie over it, one at a time, and are closed until asked for; when there is
 * room again, all is as it was. */

/**
 * rod_panes_get_folded:
 * @self: panes
 *
 * Returns: whether there is no room for both panes beside the middle
 */
gboolean rod_panes_get_folded (RodPanes *self);

/**
 * rod_panes_set_show_start:
 * @self: panes
 * @show: whether the pane at the start is shown
 */
void rod_panes_set_show_start (RodPanes *self,
                               gboolean  show);

/**
 * rod_panes_set_show_end:
 * @self: panes
 * @show: whether the pane at the end is shown
 */
void rod_panes_set_show_end (RodPanes *self,
                             gboolean  show);

/**
 * rod_panes_get_show_start:
 * @self: panes
 *
 * Returns: whether the pane at the start is shown
 */
gboolean rod_panes_get_show_start (RodPanes *self);

/**
 * rod_panes_get_show_end:
 * @self: panes
 *
 * Returns: whether the pane at the end is shown
 */
gboolean rod_panes_get_show_end (RodPanes *self);

G_END_DECLS
