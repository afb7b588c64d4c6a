/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/rod-selection.h"

G_BEGIN_DECLS

#define ROD_TYPE_FINDINGS_LIST (rod_findings_list_get_type ())
G_DECLARE_FINAL_TYPE (RodFindingsList, rod_findings_list, ROD, FINDINGS_LIST, GtkWidget)

/**
 * rod_findings_list_set_model:
 * @self: a list
 * @findings: (element-type RodFindingItem): findings
 * @selection: receives the place of the finding that is chosen
 */
void rod_findings_list_set_model (RodFindingsList *self,
                                  GListModel      *findings,
                                  RodSelection    *selection);

/**
 * rod_findings_list_step:
 * @self: a list
 * @by: 1 for the next finding, −1 for the one before
 *
 * Chooses another finding, going round at the ends.
 */
void rod_findings_list_step (RodFindingsList *self,
                             int              by);

/**
 * rod_findings_list_get_text:
 * @self: a list
 *
 * Returns: (transfer none) (nullable): what the chosen finding says
 */
const char *rod_findings_list_get_text (RodFindingsList *self);

/**
 * rod_findings_list_get_selected:
 * @self: a list
 *
 * Returns: position of the chosen finding, or %GTK_INVALID_LIST_POSITION
 */
guint rod_findings_list_get_selected (RodFindingsList *self);

G_END_DECLS
