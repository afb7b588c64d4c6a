/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "engine/takeoff/rod-takeoff.h"
#include "sheets/rod-scale.h"

G_BEGIN_DECLS

/**
 * ROD_SHEETS_NO_DATE:
 *
 * Leaves the date on the sheets blank, to be written by hand.
 */
#define ROD_SHEETS_NO_DATE G_MININT64

/**
 * RodSheetOptions:
 * @paper: size of all sheets
 * @date: date of issue in seconds of Unix time, or %ROD_SHEETS_NO_DATE
 * @grey: boards in grey instead of their colours
 *
 * How sheets are made; language and decimal point are the locale's, units are the house's. A plain
 * value; begin with rod_sheet_options_init().
 */
typedef struct
{
  RodPaper paper;
  gint64   date;
  gboolean grey;
} RodSheetOptions;

/**
 * rod_sheet_options_init:
 * @options: (out): options
 *
 * A4, in colour, dated by the environment's SOURCE_DATE_EPOCH or not at all.
 */
void rod_sheet_options_init (RodSheetOptions *options);

/**
 * RodSheets:
 *
 * The set of sheets of a house: laid out, ready to be drawn one by one. For one thread at a time.
 */
typedef struct _RodSheets RodSheets;

/**
 * rod_sheets_new:
 * @takeoff: what is cut and bought
 * @options: (nullable): how; %NULL for the usual
 *
 * Lays out all sheets. The same take-off gives the same sheets.
 *
 * Returns: (transfer full): the sheets
 */
RodSheets *rod_sheets_new (const RodTakeoff      *takeoff,
                           const RodSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_sheets_free:
 * @sheets: (transfer full) (nullable): sheets
 */
void rod_sheets_free (RodSheets *sheets);

/**
 * rod_sheets_n_pages:
 * @sheets: sheets
 *
 * Returns: how many there are
 */
guint rod_sheets_n_pages (const RodSheets *sheets);

/**
 * rod_sheets_page_title:
 * @sheets: sheets
 * @page: index of a page
 *
 * Returns: (transfer none): its title, translated
 */
const char *rod_sheets_page_title (const RodSheets *sheets,
                                   guint            page);

/**
 * rod_sheets_page_size:
 * @sheets: sheets
 * @width_mm: (out): width of every page
 * @height_mm: (out): height of every page
 */
void rod_sheets_page_size (const RodSheets *sheets,
                           double          *width_mm,
                           double          *height_mm);

/**
 * rod_sheets_draw_page:
 * @sheets: sheets
 * @page: index of a page
 * @cr: where to draw; a unit is a millimetre, the origin the upper left corner of the paper
 */
void rod_sheets_draw_page (const RodSheets *sheets,
                           guint            page,
                           cairo_t         *cr);

/**
 * rod_sheets_write_pdf:
 * @takeoff: what is cut and bought
 * @path: path to write
 * @options: (nullable): how; %NULL for the usual
 * @error: return location for an error
 *
 * Writes all sheets as one PDF with outline, page labels, metadata and text that can be searched.
 * The same take-off, options and locale give the same bytes. Writes atomically: either the whole
 * new file is there afterwards or the old one untouched.
 *
 * Fails with #GFileError; the message names the path.
 *
 * Returns: whether it is written
 */
gboolean rod_sheets_write_pdf (const RodTakeoff      *takeoff,
                               const char            *path,
                               const RodSheetOptions *options,
                               GError               **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodSheets, rod_sheets_free)

G_END_DECLS
