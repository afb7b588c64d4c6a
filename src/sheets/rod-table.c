/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists on sheets: columns, headings, rows as high as their longest cell.
 *
 * Rows are measured when they are added, so that pages are known before any is drawn and a sheet
 * can say "3 of 12".
 */
#include "config.h"

#include "sheets/rod-table.h"

#include "sheets/rod-drawing.h"

/* In heights of capitals, so that a table in large type keeps its proportions. */
#define CELL_PAD 0.55
#define ROW_PAD 0.55
#define TICK_SIZE 1.15

/* What a line of a paragraph takes, see rod_lettering_paragraph(). */
#define LINE_PITCH 1.75

#define RULE_WIDTH 0.18
#define HEAD_RULE_WIDTH 0.35
#define STICK_WIDTH 0.7
#define BAND_GREY 0.955

typedef struct
{
  RodRowKind kind;
  char     **cells;
  double     height;
} Row;

struct _RodTable
{
  RodColumn    *columns;
  guint         n_columns;
  double        width;
  double        letter;
  double        head_height;
  RodLettering *lettering; /* borrowed */
  GArray       *rows;
};

static void
clear_row (gpointer data)
{
  Row *row = data;

  g_strfreev (row->cells);
}

static double
pad (const RodTable *table)
{
  return CELL_PAD * table->letter;
}

static RodLetterStyle
cell_style (const RodTable  *table,
            const RodColumn *column,
            gboolean         bold)
{
  return (RodLetterStyle){
    .height = table->letter,
    .bold = bold,
    .align = column->kind == ROD_COLUMN_FIGURE ? ROD_ALIGN_RIGHT : ROD_ALIGN_LEFT,
    .width = MAX (column->width - 2.0 * pad (table), table->letter),
  };
}

/* Figures stay on one line; a number broken in two is misread. */
static void
write_figure (const RodTable       *table,
              cairo_t              *cr,
              const char           *figure,
              const RodLetterStyle *style,
              double                right,
              double                y)
{
  if (cr != NULL)
    rod_lettering_write (table->lettering,
                         cr,
                         figure,
                         style,
                         right,
                         y + (ROW_PAD + 1.0) * table->letter);
}

/* Height of one row of texts, drawn when @cr is given. */
static double
set_row (const RodTable    *table,
         cairo_t           *cr,
         const char *const *cells,
         gboolean           bold,
         gboolean           head,
         double             x,
         double             y)
{
  double tallest = LINE_PITCH * table->letter;

  for (guint c = 0; c < table->n_columns && cells[c] != NULL; c++)
    {
      const RodColumn *column = &table->columns[c];
      RodLetterStyle   style = cell_style (table, column, bold || column->bold);

      if (cells[c][0] != '\0' && !head && column->kind == ROD_COLUMN_FIGURE)
        write_figure (table, cr, cells[c], &style, x + column->width - pad (table), y);
      else if (cells[c][0] != '\0' && (head || column->kind <= ROD_COLUMN_FIGURE))
        {
          /* MAX() would write it twice. */
          double height = rod_lettering_paragraph (table->lettering,
                                                   cr,
                                                   cells[c],
                                                   &style,
                                                   x + pad (table),
                                                   y + ROW_PAD * table->letter);

          tallest = MAX (tallest, height);
        }
      x += column->width;
    }

  return tallest + (2.0 * ROW_PAD + 1.0 - LINE_PITCH) * table->letter;
}

static void
share_width (RodTable *table)
{
  double fixed = 0.0, shares = 0.0;

  for (guint c = 0; c < table->n_columns; c++)
    if (table->columns[c].width >= 0.0)
      fixed += table->columns[c].width;
    else
      shares -= table->columns[c].width;

  for (guint c = 0; c < table->n_columns; c++)
    if (table->columns[c].width < 0.0)
      table->columns[c].width *= -(table->width - fixed) / shares;
}

RodTable *
rod_table_new (const RodColumn *columns,
               guint            n_columns,
               double           width,
               double           height,
               RodLettering    *lettering)
{
  RodTable               *table;
  g_autofree const char **titles = NULL;

  g_return_val_if_fail (columns != NULL && n_columns > 0 && lettering != NULL, NULL);

  table = g_new0 (RodTable, 1);
  table->columns = g_memdup2 (columns, n_columns * sizeof *columns);
  table->n_columns = n_columns;
  table->width = width;
  table->letter = height;
  table->lettering = lettering;
  table->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  g_array_set_clear_func (table->rows, clear_row);
  share_width (table);
  titles = g_new0 (const char *, n_columns + 1);
  for (guint c = 0; c < n_columns; c++)
    {
      table->columns[c].title = g_strdup (columns[c].title);
      titles[c] = table->columns[c].title;
    }
  table->head_height = set_row (table, NULL, titles, TRUE, TRUE, 0.0, 0.0);

  return table;
}

void
rod_table_free (RodTable *table)
{
  if (table == NULL)
    return;

  for (guint c = 0; c < table->n_columns; c++)
    g_free ((char *) table->columns[c].title);
  g_free (table->columns);
  g_array_unref (table->rows);
  g_free (table);
}

static RodLetterStyle
heading_style (const RodTable *table)
{
  return (RodLetterStyle){
    .height = table->letter * 1.2,
    .bold = TRUE,
    .width = table->width - 2.0 * pad (table),
  };
}

static double
set_heading (const RodTable *table,
             cairo_t        *cr,
             const char     *text,
             double          x,
             double          y)
{
  RodLetterStyle style = heading_style (table);

  return rod_lettering_paragraph (table->lettering,
                                  cr,
                                  text,
                                  &style,
                                  x + pad (table),
                                  y + 1.8 * table->letter) +
         1.5 * table->letter;
}

void
rod_table_add (RodTable          *table,
               RodRowKind         kind,
               const char *const *cells)
{
  Row row = { .kind = kind };

  g_return_if_fail (table != NULL && cells != NULL);
  g_return_if_fail (g_strv_length ((char **) cells) ==
                    (kind == ROD_ROW_HEADING ? 1 : table->n_columns));

  row.cells = g_strdupv ((char **) cells);
  row.height = kind == ROD_ROW_HEADING
                 ? set_heading (table, NULL, cells[0], 0.0, 0.0)
                 : set_row (table, NULL, cells, kind == ROD_ROW_TOTAL, FALSE, 0.0, 0.0);
  g_array_append_val (table->rows, row);
}

guint
rod_table_n_rows (const RodTable *table)
{
  g_return_val_if_fail (table != NULL, 0);

  return table->rows->len;
}

guint
rod_table_fit (const RodTable *table,
               guint           first,
               double          room)
{
  guint end = first;

  g_return_val_if_fail (table != NULL, first);

  room -= table->head_height;
  while (end < table->rows->len && g_array_index (table->rows, Row, end).height <= room)
    room -= g_array_index (table->rows, Row, end++).height;
  /* A heading at the foot of a page would be read with nothing under it. */
  while (end > first && end < table->rows->len &&
         g_array_index (table->rows, Row, end - 1).kind == ROD_ROW_HEADING)
    end--;

  return end;
}

static void
draw_rule (cairo_t *cr,
           double   x,
           double   y,
           double   width,
           double   line_width,
           double   grey)
{
  cairo_set_source_rgb (cr, grey, grey, grey);
  cairo_set_line_width (cr, line_width);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x + width, y);
  cairo_stroke (cr);
}

/* The rod stands between two lines; every mark is a cut across it at the middle of the writing. */
static void
draw_stick (const RodTable *table,
            cairo_t        *cr,
            const Row      *row,
            const char     *mark,
            double          x,
            double          y,
            double          width)
{
  double left = x + pad (table);
  double right = x + width - pad (table);
  double at = y + (ROW_PAD + 0.5) * table->letter;

  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  cairo_rectangle (cr, left, y, right - left, row->height);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, RULE_WIDTH);
  cairo_move_to (cr, left, y);
  cairo_line_to (cr, left, y + row->height);
  cairo_move_to (cr, right, y);
  cairo_line_to (cr, right, y + row->height);
  cairo_stroke (cr);
  cairo_set_line_width (cr, mark[0] == '|' ? STICK_WIDTH : HEAD_RULE_WIDTH);
  cairo_move_to (cr, right, at);
  cairo_line_to (cr, mark[0] == '|' ? left : 0.5 * (left + right), at);
  cairo_stroke (cr);
}

/* Boxes to tick and fields of colour, on the first line of the row. */
static void
draw_box (const RodTable  *table,
          cairo_t         *cr,
          const RodColumn *column,
          const char      *cell,
          double           x,
          double           y)
{
  double size = TICK_SIZE * table->letter;
  double top = y + ROW_PAD * table->letter + 0.5 * (table->letter - size);

  cairo_rectangle (cr,
                   x + pad (table),
                   top,
                   column->kind == ROD_COLUMN_TICK ? size : 1.6 * size,
                   size);
  if (column->kind == ROD_COLUMN_COLOUR)
    {
      rod_ink_use (rod_ink_parse (cell), cr);
      cairo_fill_preserve (cr);
    }
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, RULE_WIDTH);
  cairo_stroke (cr);
}

static void
draw_signs (const RodTable *table,
            cairo_t        *cr,
            const Row      *row,
            double          x,
            double          y)
{
  for (guint c = 0; c < table->n_columns; c++)
    {
      const RodColumn *column = &table->columns[c];

      if (column->kind > ROD_COLUMN_FIGURE && row->cells[c][0] != '\0')
        {
          if (column->kind == ROD_COLUMN_STICK)
            draw_stick (table, cr, row, row->cells[c], x, y, column->width);
          else
            draw_box (table, cr, column, row->cells[c], x, y);
        }
      x += column->width;
    }
}

static void
draw_row (const RodTable *table,
          cairo_t        *cr,
          const Row      *row,
          double          x,
          double          y,
          gboolean        shaded)
{
  if (shaded)
    {
      cairo_set_source_rgb (cr, BAND_GREY, BAND_GREY, BAND_GREY);
      cairo_rectangle (cr, x, y, table->width, row->height);
      cairo_fill (cr);
    }
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  if (row->kind == ROD_ROW_HEADING)
    {
      set_heading (table, cr, row->cells[0], x, y);
      return;
    }
  set_row (table, cr, (const char *const *) row->cells, row->kind == ROD_ROW_TOTAL, FALSE, x, y);
  draw_signs (table, cr, row, x, y);
  if (row->kind == ROD_ROW_TOTAL)
    draw_rule (cr, x, y, table->width, HEAD_RULE_WIDTH, 0.0);
}

double
rod_table_draw (const RodTable *table,
                cairo_t        *cr,
                double          x,
                double          y,
                guint           first,
                guint           end)
{
  g_autofree const char **titles = NULL;
  guint                   shade = 0;

  g_return_val_if_fail (table != NULL && cr != NULL && end <= table->rows->len, y);

  titles = g_new0 (const char *, table->n_columns + 1);
  for (guint c = 0; c < table->n_columns; c++)
    titles[c] = table->columns[c].title;
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  set_row (table, cr, titles, TRUE, TRUE, x, y);
  y += table->head_height;
  draw_rule (cr, x, y, table->width, HEAD_RULE_WIDTH, 0.0);

  for (guint i = first; i < end; i++)
    {
      const Row *row = &g_array_index (table->rows, Row, i);

      shade = row->kind == ROD_ROW_PLAIN ? shade + 1 : 0;
      draw_row (table, cr, row, x, y, shade > 0 && shade % 2 == 0);
      y += row->height;
    }
  draw_rule (cr, x, y, table->width, RULE_WIDTH, 0.0);

  return y;
}
