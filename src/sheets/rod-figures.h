/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-house.h"

G_BEGIN_DECLS

/**
 * rod_figures_length:
 * @units: units to write in
 * @mm: a length
 *
 * Metric: millimetres to 0.1 without a unit, as on construction drawings; five and more digits are
 * grouped. Imperial: feet and inches to the nearest 1/16, e.g. 13'-2 5/16".
 *
 * Returns: (transfer full): the figure
 */
char *rod_figures_length (RodUnits units,
                          double   mm) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_length_unit:
 * @units: units to write in
 * @mm: a length
 *
 * Returns: (transfer full): the figure for running text: as rod_figures_length(), with "mm" where
 *          metric
 */
char *rod_figures_length_unit (RodUnits units,
                               double   mm) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_run:
 * @units: units to write in
 * @mm: a sum of lengths
 *
 * Returns: (transfer full): metres or feet to 0.1, with the unit
 */
char *rod_figures_run (RodUnits units,
                       double   mm) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_area:
 * @units: units to write in
 * @mm2: an area in square millimetres
 *
 * Returns: (transfer full): m² to 0.01 or ft² to 0.1, with the unit
 */
char *rod_figures_area (RodUnits units,
                        double   mm2) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_weight:
 * @units: units to write in
 * @kg: a weight
 *
 * Returns: (transfer full): kg or lb, to 0.1 below a hundred, else whole
 */
char *rod_figures_weight (RodUnits units,
                          double   kg) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_money:
 * @currency: ISO 4217 code
 * @amount: an amount
 *
 * Rounds half up to the currency's smallest unit.
 *
 * Returns: (transfer full): the amount and the code
 */
char *rod_figures_money (const char *currency,
                         double      amount) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_amount:
 * @currency: ISO 4217 code
 * @amount: an amount
 *
 * Returns: (transfer full): as rod_figures_money() without the code, for columns of amounts
 */
char *rod_figures_amount (const char *currency,
                          double      amount) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_count:
 * @count: a number of things
 *
 * Returns: (transfer full): the number, grouped from five digits on
 */
char *rod_figures_count (gint64 count) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_percent:
 * @share: a share; 1 is the whole
 *
 * Returns: (transfer full): per cent to 0.1
 */
char *rod_figures_percent (double share) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_figures_angle:
 * @deg: an angle
 *
 * Returns: (transfer full): degrees to 0.1
 */
char *rod_figures_angle (double deg) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
