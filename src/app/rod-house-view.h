/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/rod-canvas.h"
#include "app/rod-details.h"
#include "app/rod-document.h"
#include "app/rod-findings-list.h"
#include "app/rod-house-list.h"
#include "app/rod-order-view.h"
#include "app/rod-panes.h"
#include "app/rod-sheets-view.h"

G_BEGIN_DECLS

#define ROD_TYPE_HOUSE_VIEW (rod_house_view_get_type ())
G_DECLARE_FINAL_TYPE (RodHouseView, rod_house_view, ROD, HOUSE_VIEW, GtkWidget)

/**
 * rod_house_view_set_document:
 * @self: a view
 * @document: the house
 *
 * Everything about a house: stages along the top, the list at the left, the drawing in the middle,
 * details and findings at the right, the tally at the bottom.
 */
void rod_house_view_set_document (RodHouseView *self,
                                  RodDocument  *document);

/**
 * rod_house_view_get_selection:
 * @self: a view
 *
 * Returns: (transfer none): what is selected
 */
RodSelection *rod_house_view_get_selection (RodHouseView *self);

/**
 * rod_house_view_get_stage:
 * @self: a view
 *
 * Returns: the stage shown
 */
RodStage rod_house_view_get_stage (RodHouseView *self);

/**
 * rod_house_view_set_stage:
 * @self: a view
 * @stage: the stage to show
 */
void rod_house_view_set_stage (RodHouseView *self,
                               RodStage      stage);

/**
 * rod_house_view_show_findings:
 * @self: a view
 *
 * Brings the list of findings into view.
 */
void rod_house_view_show_findings (RodHouseView *self);

/**
 * rod_house_view_step_finding:
 * @self: a view
 * @by: 1 for the next finding, −1 for the one before
 */
void rod_house_view_step_finding (RodHouseView *self,
                                  int           by);

/**
 * rod_house_view_get_panes:
 * @self: a view
 *
 * Returns: (transfer none): the panes at either side of the drawing
 */
RodPanes *rod_house_view_get_panes (RodHouseView *self);

/**
 * rod_house_view_get_canvas:
 * @self: a view
 *
 * Returns: (transfer none): the drawing
 */
RodCanvas *rod_house_view_get_canvas (RodHouseView *self);

/**
 * rod_house_view_get_house_list:
 * @self: a view
 *
 * Returns: (transfer none): the list of surfaces, openings and boards
 */
RodHouseList *rod_house_view_get_house_list (RodHouseView *self);

/**
 * rod_house_view_get_details:
 * @self: a view
 *
 * Returns: (transfer none): details of what is selected
 */
RodDetails *rod_house_view_get_details (RodHouseView *self);

/**
 * rod_house_view_get_findings_list:
 * @self: a view
 *
 * Returns: (transfer none): the list of findings
 */
RodFindingsList *rod_house_view_get_findings_list (RodHouseView *self);

/**
 * rod_house_view_get_order_view:
 * @self: a view
 *
 * Returns: (transfer none): order and cutting lists
 */
RodOrderView *rod_house_view_get_order_view (RodHouseView *self);

/**
 * rod_house_view_get_sheets_view:
 * @self: a view
 *
 * Returns: (transfer none): the sheets
 */
RodSheetsView *rod_house_view_get_sheets_view (RodHouseView *self);

G_END_DECLS
