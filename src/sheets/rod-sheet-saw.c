/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The saw sheet: every stock length as it lies on the saw, with the running marks of the tape.
 *
 * Bars cut alike are drawn once and listed below each other, so that a pattern is set up at the saw
 * once. What a piece needs beyond its length (rip, notches, raked ends) stands under the bar in
 * figures and is drawn in the bar to its true shape, lengthways to the bar's scale. Figures are
 * large: this sheet is read with gloves on.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "engine/rod-limits.h"
#include "sheets/rod-figures.h"
#include "sheets/rod-saw-block-private.h"

#define HEADING_HEIGHT 10.5
#define LEGEND_INDENT 48.0
#define LEGEND_GAP 2.0
#define N_COLUMNS 2
#define COLUMN_GAP 8.0
#define BLOCK_GAP 2.2
#define ARTICLE_GAP 2.5

/* The order of sawing matters little from one bar to the next; the foot of a column filled does. */
#define LOOK_AHEAD 12

/* Columns hold headings of articles and blocks of bars, from top to bottom. */
typedef struct
{
  double             x;
  double             y;
  const RodCutting  *cutting;
  const RodSawBlock *block; /* (nullable): NULL for a heading */
  gboolean           again; /* a heading that repeats */
} Entry;

typedef struct
{
  GArray *entries;
} SawPage;

static void
free_page (gpointer data)
{
  SawPage *page = data;

  g_array_unref (page->entries);
  g_free (page);
}

static char *
describe_cutting (const RodSheets  *sheets,
                  const RodCutting *cutting)
{
  g_autofree char *kerf = rod_figures_length (sheets->units, sheets->house->saw->kerf_mm);
  g_autofree char *trim = rod_figures_length (sheets->units, sheets->house->saw->end_trim_mm);
  g_autofree char *waste =
    cutting->bought_mm > 0
      ? rod_figures_percent (1.0 - (double) cutting->used_mm / (double) cutting->bought_mm)
      : g_strdup ("");

  g_autofree char *pieces =
    g_strdup_printf (ngettext ("%u piece", "%u pieces", cutting->items->len), cutting->items->len);
  g_autofree char *bars =
    g_strdup_printf (ngettext ("%u bar", "%u bars", cutting->bars->len), cutting->bars->len);

  /* TRANSLATORS: "9 pieces from 2 bars, 4.5 % left over; proven … Saw cut 4, off each end 0." */
  return g_strdup_printf (_ ("%s from %s, %s left over; %s. Saw cut %s, off each end %s."),
                          pieces,
                          bars,
                          waste,
                          cutting->proven ? _ ("proven: no plan takes less")
                                          : _ ("not proven to be the least"),
                          kerf,
                          trim);
}

static double
column_width (const RodSheets *sheets)
{
  return (sheets->room.width - (N_COLUMNS - 1) * COLUMN_GAP) / N_COLUMNS;
}

static void
draw_colour (const RodCutting *cutting,
             double            x,
             double            y,
             cairo_t          *cr)
{
  rod_ink_use (rod_ink_parse (cutting->colour->rgb), cr);
  cairo_rectangle (cr, x, y, 8.0, ROD_SHEET_SAW);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_stroke (cr);
}

static char *
name_article (const RodCutting *cutting)
{
  return cutting->colour != NULL
           ? g_strdup_printf ("%s \u00b7 %s", cutting->name, cutting->colour->name)
           : g_strdup (cutting->name);
}

/* Name of the article over a rule, and what its cutting comes to; returns the height. */
static double
set_article (const RodSheets  *sheets,
             const RodCutting *cutting,
             gboolean          again,
             double            x,
             double            y,
             cairo_t          *cr)
{
  double           indent = cutting->colour != NULL ? 10.5 : 0.0;
  double           width = column_width (sheets);
  double           top = y;
  g_autofree char *name = name_article (cutting);
  g_autofree char *text = describe_cutting (sheets, cutting);

  if (cr != NULL && cutting->colour != NULL)
    draw_colour (cutting, x, y, cr);
  if (cr != NULL)
    cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  y += rod_sheet_paragraph (sheets, cr, name, ROD_SHEET_SAW, TRUE, x + indent, y, width - indent);
  if (!again)
    y += rod_sheet_paragraph (sheets, cr, text, ROD_SHEET_TEXT, FALSE, x, y, width);
  if (cr != NULL)
    {
      cairo_set_line_width (cr, ROD_SHEET_WIDE);
      cairo_move_to (cr, x, y - 0.6);
      cairo_line_to (cr, x + width, y - 0.6);
      cairo_stroke (cr);
    }

  return y + ARTICLE_GAP - top;
}

static void
draw_bars (const SawPage *page,
           cairo_t       *cr)
{
  for (guint i = 0; i < page->entries->len; i++)
    {
      const Entry *entry = &g_array_index (page->entries, Entry, i);

      if (entry->block != NULL)
        rod_saw_block_trace_bar (entry->block, entry->cutting, entry->x, entry->y, cr);
    }
}

/* Pieces of one article have one colour and follow each other. */
static void
draw_pieces (const RodSheets *sheets,
             const SawPage   *page,
             cairo_t         *cr)
{
  RodDrawingOptions options;
  guint             n = page->entries->len;

  rod_drawing_options_init (&options);
  options.grey = sheets->options.grey;
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  for (guint i = 0; i < n; i++)
    {
      const Entry *entry = &g_array_index (page->entries, Entry, i);

      if (entry->block != NULL)
        rod_saw_block_trace_pieces (entry->block, sheets, entry->cutting, entry->x, entry->y, cr);
      if (i + 1 < n && g_array_index (page->entries, Entry, i + 1).cutting == entry->cutting)
        continue;
      rod_ink_use (entry->cutting->colour != NULL
                     ? rod_drawing_board_ink (entry->cutting->colour, &options)
                     : options.paper,
                   cr);
      cairo_fill_preserve (cr);
      cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
      cairo_stroke (cr);
    }
}

static void
draw_lines (const RodSheets *sheets,
            const SawPage   *page,
            cairo_t         *cr)
{
  draw_bars (page, cr);
  for (guint i = 0; i < page->entries->len; i++)
    {
      const Entry *entry = &g_array_index (page->entries, Entry, i);

      if (entry->block != NULL)
        rod_saw_block_trace_cuts (entry->block, entry->x, entry->y, cr);
    }
  cairo_set_line_width (cr, ROD_SHEET_WIDE);
  cairo_stroke (cr);
  for (guint i = 0; i < page->entries->len; i++)
    {
      const Entry *entry = &g_array_index (page->entries, Entry, i);

      if (entry->block != NULL)
        rod_saw_block_trace_tick (entry->block, entry->x, entry->y, cr);
    }
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_stroke (cr);
}

/* Measures only where @cr is %NULL. Returns its height: longer languages need more lines. */
static double
write_legend (const RodSheets *sheets,
              cairo_t         *cr)
{
  const char *legend = _ ("Pieces count from the left, the tape lies at the left end. The hook is "
                          "the lower side, the flange the upper. Rip: width that stays and side "
                          "to keep. Notch: side, from the left + width × depth, and what stays. "
                          "Angles: off square. Arrow: length → where the tape shows its end.");

  return rod_sheet_paragraph (sheets,
                              cr,
                              legend,
                              ROD_SHEET_TEXT,
                              FALSE,
                              sheets->room.x + LEGEND_INDENT,
                              sheets->room.y,
                              sheets->room.width - LEGEND_INDENT);
}

static void
draw_saw (const RodSheets *sheets,
          const RodSheet  *sheet,
          cairo_t         *cr)
{
  const SawPage *page = sheet->data;

  draw_bars (page, cr);
  cairo_set_source_rgb (cr, 0.86, 0.86, 0.86);
  cairo_fill (cr);
  draw_pieces (sheets, page, cr);
  draw_lines (sheets, page, cr);
  rod_sheet_heading (sheets, cr, sheet->document);
  write_legend (sheets, cr);
  for (guint i = 0; i < page->entries->len; i++)
    {
      const Entry *entry = &g_array_index (page->entries, Entry, i);

      if (entry->block == NULL)
        set_article (sheets, entry->cutting, entry->again, entry->x, entry->y, cr);
      else
        rod_saw_block_write (entry->block, sheets, entry->cutting, entry->x, entry->y, cr);
    }
}

static SawPage *
add_page (RodSheets        *sheets,
          const RodCutting *cutting)
{
  RodSheet *sheet = rod_sheets_add (sheets,
                                    _ ("Saw sheets"),
                                    _ ("Saw sheet"),
                                    name_article (cutting),
                                    draw_saw);
  SawPage  *page = g_new0 (SawPage, 1);

  page->entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  sheet->data = page;
  sheet->free_data = free_page;

  return page;
}

/* Flows headings and blocks over columns and pages; a heading is repeated where its article goes
 * on on another page. */
typedef struct
{
  RodSheets *sheets;
  SawPage   *page;
  int        column;
  double     y;
  double     legend; /* height */
} Flow;

static gboolean
has_room (const Flow *flow,
          double      height)
{
  return flow->page != NULL && flow->y + height <= flow->sheets->room.y + flow->sheets->room.height;
}

static void
put (Flow              *flow,
     const RodCutting  *cutting,
     const RodSawBlock *block,
     gboolean           again,
     double             height)
{
  double x = flow->sheets->room.x + flow->column * (column_width (flow->sheets) + COLUMN_GAP);
  Entry  entry = { x, flow->y, cutting, block, again };

  g_array_append_val (flow->page->entries, entry);
  flow->y += height;
}

static void
begin_column (Flow             *flow,
              const RodCutting *cutting)
{
  if (flow->page == NULL || flow->column + 1 == N_COLUMNS)
    {
      flow->page = add_page (flow->sheets, cutting);
      flow->column = 0;
    }
  else
    flow->column++;
  flow->y = flow->sheets->room.y + MAX (HEADING_HEIGHT, flow->legend + LEGEND_GAP);
}

/* The first block not yet placed that fits the rest of the column, or the very first of them where
 * none does. A block may be drawn so many places before its turn. */
static guint
next_block (const Flow      *flow,
            const GPtrArray *blocks,
            const gboolean  *placed,
            guint            first,
            double           heading)
{
  for (guint i = first; i < MIN (blocks->len, first + LOOK_AHEAD); i++)
    if (!placed[i] && has_room (flow, rod_saw_block_height (blocks->pdata[i]) + heading))
      return i;

  return first;
}

static void
flow_cutting (Flow             *flow,
              const RodCutting *cutting,
              const GPtrArray  *blocks)
{
  g_autofree gboolean *placed = g_new0 (gboolean, blocks->len + 1);
  gboolean             headed = FALSE;
  guint                first = 0;

  for (guint n = 0; n < blocks->len; n++)
    {
      double heading = headed ? 0.0 : set_article (flow->sheets, cutting, n > 0, 0.0, 0.0, NULL);
      guint  next = next_block (flow, blocks, placed, first, heading);
      double height = rod_saw_block_height (blocks->pdata[next]);

      if (!has_room (flow, height + heading))
        {
          begin_column (flow, cutting);
          headed = headed && flow->column > 0;
          heading = headed ? 0.0 : set_article (flow->sheets, cutting, n > 0, 0.0, 0.0, NULL);
        }
      if (!headed)
        put (flow, cutting, NULL, n > 0, heading);
      headed = TRUE;
      put (flow, cutting, blocks->pdata[next], FALSE, height + BLOCK_GAP);
      placed[next] = TRUE;
      while (first < blocks->len && placed[first])
        first++;
    }
}

void
rod_sheets_add_saw (RodSheets *sheets)
{
  Flow flow = { .sheets = sheets, .legend = write_legend (sheets, NULL) };

  for (guint i = 0; i < sheets->takeoff->cuttings->len; i++)
    {
      const RodCutting *cutting = &g_array_index (sheets->takeoff->cuttings, RodCutting, i);
      GPtrArray        *blocks = rod_saw_blocks_new (sheets, cutting, column_width (sheets));

      /* Pages borrow the blocks; the set keeps them. */
      g_ptr_array_add (sheets->saw_blocks, blocks);
      flow_cutting (&flow, cutting, blocks);
    }
}
