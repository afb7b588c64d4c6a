/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/rod-document.h"
#include "app/rod-selection.h"

G_BEGIN_DECLS

#define ROD_TYPE_DETAILS (rod_details_get_type ())
G_DECLARE_FINAL_TYPE (RodDetails, rod_details, ROD, DETAILS, GtkWidget)

/**
 * rod_details_set_document:
 * @self: details
 * @document: the house
 * @selection: what of it is shown
 *
 * Figures of what is selected, each with its reckoning.
 */
void rod_details_set_document (RodDetails   *self,
                               RodDocument  *document,
                               RodSelection *selection);

/**
 * rod_details_get_title:
 * @self: details
 *
 * Returns: (transfer none): name of what is shown
 */
const char *rod_details_get_title (RodDetails *self);

G_END_DECLS
