/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What several kinds of sheets write in the same way: lines, paragraphs, headings, lists. */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <glib/gi18n-lib.h>

/* Height that rod_sheet_heading() takes. */
#define HEADING_HEIGHT 9.5

#define NOTE_GAP 2.0

/* A page of a list; the note stands above the list of the first page. */
typedef struct
{
  char *note;
} ListPage;

void
rod_sheet_write (const RodSheets *sheets,
                 cairo_t         *cr,
                 const char      *text,
                 double           height,
                 gboolean         bold,
                 double           x,
                 double           y)
{
  RodLetterStyle style = { .height = height, .bold = bold };

  rod_lettering_write (sheets->lettering, cr, text, &style, x, y);
}

void
rod_sheet_write_right (const RodSheets *sheets,
                       cairo_t         *cr,
                       const char      *text,
                       double           height,
                       gboolean         bold,
                       double           x,
                       double           y)
{
  RodLetterStyle style = { .height = height, .bold = bold, .align = ROD_ALIGN_RIGHT };

  rod_lettering_write (sheets->lettering, cr, text, &style, x, y);
}

double
rod_sheet_paragraph (const RodSheets *sheets,
                     cairo_t         *cr,
                     const char      *text,
                     double           height,
                     gboolean         bold,
                     double           x,
                     double           y,
                     double           width)
{
  RodLetterStyle style = { .height = height, .bold = bold, .width = width };

  return rod_lettering_paragraph (sheets->lettering, cr, text, &style, x, y);
}

double
rod_sheet_heading (const RodSheets *sheets,
                   cairo_t         *cr,
                   const char      *text)
{
  RodLetterStyle style = { .height = ROD_SHEET_TITLE, .bold = TRUE, .width = sheets->room.width };

  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_lettering_write (sheets->lettering,
                       cr,
                       text,
                       &style,
                       sheets->room.x,
                       sheets->room.y + ROD_SHEET_TITLE);

  return sheets->room.y + HEADING_HEIGHT;
}

static void
free_list_page (gpointer data)
{
  ListPage *page = data;

  g_free (page->note);
  g_free (page);
}

static double
draw_note (const RodSheets *sheets,
           cairo_t         *cr,
           const char      *note,
           double           y)
{
  if (note == NULL)
    return y;

  return y + NOTE_GAP +
         rod_sheet_paragraph (sheets,
                              cr,
                              note,
                              ROD_SHEET_TEXT,
                              FALSE,
                              sheets->room.x,
                              y,
                              sheets->room.width);
}

static void
draw_list_page (const RodSheets *sheets,
                const RodSheet  *sheet,
                cairo_t         *cr)
{
  const ListPage *page = sheet->data;
  double          y = rod_sheet_heading (sheets, cr, sheet->title);

  y = draw_note (sheets, cr, page->note, y);
  rod_table_draw (sheet->table, cr, sheets->room.x, y, sheet->first, sheet->end);
}

void
rod_sheets_add_table (RodSheets  *sheets,
                      const char *chapter,
                      const char *title,
                      RodTable   *table,
                      const char *note,
                      guint       first)
{
  const char *above = note;

  g_ptr_array_add (sheets->tables, table);
  while (first < rod_table_n_rows (table))
    {
      ListPage *page = g_new0 (ListPage, 1);
      RodSheet *sheet = rod_sheets_add (sheets, chapter, chapter, g_strdup (title), draw_list_page);
      double    used = draw_note (sheets, NULL, above, HEADING_HEIGHT);

      page->note = g_strdup (above);
      above = NULL;
      sheet->table = table;
      sheet->first = first;
      sheet->end = rod_table_fit (table, first, sheets->room.height - used);
      /* A row higher than a page is drawn all the same, and cut off by the strip. */
      if (sheet->end == first)
        sheet->end = first + 1;
      sheet->data = page;
      sheet->free_data = free_list_page;
      first = sheet->end;
    }
}
