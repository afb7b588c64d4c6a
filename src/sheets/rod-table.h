/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "sheets/rod-lettering.h"

G_BEGIN_DECLS

/**
 * RodColumnKind:
 * @ROD_COLUMN_TEXT: words, broken over lines where they are long
 * @ROD_COLUMN_FIGURE: numbers, to the right
 * @ROD_COLUMN_TICK: an empty box to tick; the cell is not shown
 * @ROD_COLUMN_COLOUR: a field of colour; the cell is "#rrggbb" or ""
 * @ROD_COLUMN_STICK: a rod that runs through all rows; marked across where the cell is "|", half
 *                    across where it is "-"
 *
 * What stands in a column.
 */
typedef enum
{
  ROD_COLUMN_TEXT,
  ROD_COLUMN_FIGURE,
  ROD_COLUMN_TICK,
  ROD_COLUMN_COLOUR,
  ROD_COLUMN_STICK,
} RodColumnKind;

/**
 * RodColumn:
 * @title: heading; translated
 * @kind: what stands in it
 * @width: width; negative for a share of what the others leave
 * @bold: whether its cells are heavy
 *
 * A column of a table. A plain value.
 */
typedef struct
{
  const char   *title;
  RodColumnKind kind;
  double        width;
  gboolean      bold;
} RodColumn;

/**
 * RodRowKind:
 * @ROD_ROW_PLAIN: a row
 * @ROD_ROW_HEADING: one text over all columns, kept with the row that follows
 * @ROD_ROW_TOTAL: a heavy row under a rule
 *
 * What a row is.
 */
typedef enum
{
  ROD_ROW_PLAIN,
  ROD_ROW_HEADING,
  ROD_ROW_TOTAL,
} RodRowKind;

/**
 * RodTable:
 *
 * A list that flows over pages: headings are repeated on each.
 */
typedef struct _RodTable RodTable;

/**
 * rod_table_new:
 * @columns: (array length=n_columns): columns; copied, their titles too
 * @n_columns: how many
 * @width: width of the table
 * @height: height of capitals in cells
 * @lettering: lettering to measure with; kept as long as the table
 *
 * Returns: (transfer full): an empty table
 */
RodTable *rod_table_new (const RodColumn *columns,
                         guint            n_columns,
                         double           width,
                         double           height,
                         RodLettering    *lettering) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_table_free:
 * @table: (transfer full) (nullable): a table
 */
void rod_table_free (RodTable *table);

/**
 * rod_table_add:
 * @table: a table
 * @kind: what the row is
 * @cells: (array zero-terminated=1): one text for each column (one in all for a heading); copied
 */
void rod_table_add (RodTable          *table,
                    RodRowKind         kind,
                    const char *const *cells);

/**
 * rod_table_n_rows:
 * @table: a table
 *
 * Returns: how many rows there are
 */
guint rod_table_n_rows (const RodTable *table);

/**
 * rod_table_fit:
 * @table: a table
 * @first: index of the first row on a page
 * @room: height left on the page, headings included
 *
 * Returns: index after the last row that fits; @first when not even one does
 */
guint rod_table_fit (const RodTable *table,
                     guint           first,
                     double          room);

/**
 * rod_table_draw:
 * @table: a table
 * @cr: where to draw
 * @x: left end
 * @y: top
 * @first: index of the first row
 * @end: index after the last row
 *
 * Returns: the lower end of what is drawn
 */
double
rod_table_draw (const RodTable *table,
                cairo_t        *cr,
                double          x,
                double          y,
                guint           first,
                guint           end);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodTable, rod_table_free)

G_END_DECLS
