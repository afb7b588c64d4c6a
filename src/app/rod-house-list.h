/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/rod-selection.h"

G_BEGIN_DECLS

#define ROD_TYPE_HOUSE_LIST (rod_house_list_get_type ())
G_DECLARE_FINAL_TYPE (RodHouseList, rod_house_list, ROD, HOUSE_LIST, GtkWidget)

/**
 * rod_house_list_set_selection:
 * @self: a list
 * @selection: what is selected; the list follows it and changes it
 */
void rod_house_list_set_selection (RodHouseList *self,
                                   RodSelection *selection);

/**
 * rod_house_list_set_plan:
 * @self: a list
 * @plan: (nullable): the plan whose surfaces, openings and boards are listed
 */
void rod_house_list_set_plan (RodHouseList *self,
                              RodPlan      *plan);

/**
 * rod_house_list_get_rows:
 * @self: a list
 *
 * Returns: (transfer none) (nullable): the rows that can be seen, as #GtkTreeListRow of
 *          #RodHouseNode
 */
GListModel *rod_house_list_get_rows (RodHouseList *self);

/**
 * rod_house_list_get_selected:
 * @self: a list
 *
 * Returns: position of the row that is selected, or %GTK_INVALID_LIST_POSITION
 */
guint rod_house_list_get_selected (RodHouseList *self);

G_END_DECLS
