/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "app/rod-place.h"

G_BEGIN_DECLS

#define ROD_TYPE_HOUSE_NODE (rod_house_node_get_type ())
G_DECLARE_FINAL_TYPE (RodHouseNode, rod_house_node, ROD, HOUSE_NODE, GObject)

/**
 * RodHouseNodeKind:
 * @ROD_HOUSE_NODE_PLACE: a surface, opening or board
 * @ROD_HOUSE_NODE_COURSE: the boards of one course
 *
 * What a row in the list of the house stands for.
 */
typedef enum
{
  ROD_HOUSE_NODE_PLACE,
  ROD_HOUSE_NODE_COURSE,
} RodHouseNodeKind;

/**
 * rod_house_node_list_root:
 * @plan: a plan
 *
 * Returns: (transfer full): surfaces of the house, as #RodHouseNode; reveals are found below their
 *          openings
 */
GListModel *rod_house_node_list_root (RodPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_house_node_list_children:
 * @self: a node
 *
 * Surfaces hold their openings, then their courses; openings hold the linings of their sides;
 * courses hold their boards.
 *
 * Returns: (transfer full) (nullable): what belongs to it, %NULL when nothing does
 */
GListModel *rod_house_node_list_children (RodHouseNode *self) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_house_node_get_kind:
 * @self: a node
 *
 * Returns: what it stands for
 */
RodHouseNodeKind rod_house_node_get_kind (RodHouseNode *self);

/**
 * rod_house_node_get_place:
 * @self: a node
 *
 * Returns: what is selected with it; the surface for a course
 */
RodPlace rod_house_node_get_place (RodHouseNode *self);

/**
 * rod_house_node_leads_to:
 * @self: a node
 * @place: a place
 *
 * Returns: whether the node is @place or the place is found below it
 */
gboolean rod_house_node_leads_to (RodHouseNode *self,
                                  RodPlace      place);

/**
 * rod_house_node_get_name:
 * @self: a node
 *
 * Returns: (transfer none): what it is called
 */
const char *rod_house_node_get_name (RodHouseNode *self);

/**
 * rod_house_node_get_figure:
 * @self: a node
 *
 * Returns: (transfer none): its main figure: how many boards, size of an opening, length of a board
 */
const char *rod_house_node_get_figure (RodHouseNode *self);

G_END_DECLS
