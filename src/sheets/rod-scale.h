/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * RodPaper:
 * @ROD_PAPER_A4: 297 × 210 mm
 * @ROD_PAPER_A3: 420 × 297 mm
 *
 * Trimmed sheets of ISO 216, long side level.
 */
typedef enum
{
  ROD_PAPER_A4,
  ROD_PAPER_A3,
} RodPaper;

/**
 * rod_paper_size:
 * @paper: a sheet
 * @width_mm: (out): its width
 * @height_mm: (out): its height
 */
void rod_paper_size (RodPaper paper,
                     double  *width_mm,
                     double  *height_mm);

/**
 * rod_scale_choose:
 * @width_mm: width of what is drawn
 * @height_mm: its height
 * @room_width_mm: width of the room on paper
 * @room_height_mm: its height
 *
 * Returns: the denominator of the largest reduction of ISO 5455 (1:1, 1:2, 1:5, 1:10, …) at which
 *          the drawing fits the room; never an enlargement
 */
double
rod_scale_choose (double width_mm,
                  double height_mm,
                  double room_width_mm,
                  double room_height_mm);

/**
 * rod_scale_bar_step:
 * @denominator: denominator of the scale
 * @room_mm: greatest length of the bar on paper
 *
 * Returns: length in nature of one of the five fields of a scale bar: 1, 2 or 5 times a power of
 * ten in mm
 */
double rod_scale_bar_step (double denominator,
                           double room_mm);

G_END_DECLS
