/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

#define ROD_TYPE_TAKEOFF_ITEM (rod_takeoff_item_get_type ())
G_DECLARE_FINAL_TYPE (RodTakeoffItem, rod_takeoff_item, ROD, TAKEOFF_ITEM, GObject)

/**
 * rod_takeoff_item_new_line:
 * @takeoff: a take-off
 * @line: index of a line of its order
 *
 * Returns: (transfer full): the line for lists
 */
RodTakeoffItem *rod_takeoff_item_new_line (RodTakeoff *takeoff,
                                           guint       line) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_takeoff_item_new_bar:
 * @takeoff: a take-off
 * @cutting: index of a cutting list
 * @bar: index of one of its bars
 *
 * Returns: (transfer full): the bar for lists
 */
RodTakeoffItem *rod_takeoff_item_new_bar (RodTakeoff *takeoff,
                                          guint       cutting,
                                          guint       bar) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_takeoff_item_get_takeoff:
 * @self: an item
 *
 * Returns: (transfer none): the take-off it belongs to
 */
const RodTakeoff *rod_takeoff_item_get_takeoff (RodTakeoffItem *self);

/**
 * rod_takeoff_item_get_line:
 * @self: an item of a line
 *
 * Returns: (transfer none): the line of the order
 */
const RodOrderLine *rod_takeoff_item_get_line (RodTakeoffItem *self);

/**
 * rod_takeoff_item_get_cutting:
 * @self: an item of a bar
 *
 * Returns: (transfer none): the cutting list
 */
const RodCutting *rod_takeoff_item_get_cutting (RodTakeoffItem *self);

/**
 * rod_takeoff_item_get_bar:
 * @self: an item of a bar
 *
 * Returns: (transfer none): the bar
 */
const RodSawBar *rod_takeoff_item_get_bar (RodTakeoffItem *self);

/**
 * rod_takeoff_item_get_index:
 * @self: an item
 *
 * Returns: index of the line, or of the bar in its cutting list
 */
guint rod_takeoff_item_get_index (RodTakeoffItem *self);

G_END_DECLS
