/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "engine/plan/rod-reckoning.h"

G_BEGIN_DECLS

/**
 * rod_figure_row_new:
 * @name: what the figure is
 * @value: the figure with its unit
 *
 * Returns: (transfer floating): a row that states a figure
 */
GtkWidget *rod_figure_row_new (const char *name,
                               const char *value);

/**
 * rod_figure_row_new_reckoned:
 * @name: (nullable): what the figure is; %NULL for the reckoning's own title
 * @reckoning: where it comes from
 * @units: units of lengths
 *
 * Returns: (transfer floating): a row that states a figure and opens to show its terms as a sum,
 *          each with the rule it follows
 */
GtkWidget *rod_figure_row_new_reckoned (const char         *name,
                                        const RodReckoning *reckoning,
                                        RodUnits            units);

G_END_DECLS
