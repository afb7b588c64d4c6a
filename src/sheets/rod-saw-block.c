/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bars that are cut alike: one drawing, the running marks of its cuts, and a line for each bar with
 * the marks of its pieces.
 *
 * The tape lies from the left end of the bar; each mark is the far end of a piece, saw cuts and the
 * trimmed end counted in, so that nobody adds up at the saw.
 */
#include "config.h"

#include "sheets/rod-saw-block-private.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "engine/rod-limits.h"
#include "sheets/rod-figures.h"

#define GUTTER 31.0
#define BAR_HEIGHT 10.0
#define MARK_GAP 1.3
#define MARK_PITCH 5.0
#define MARK_CLEAR 1.6
#define MARK_LEVELS 3
#define ROW_HEIGHT 5.2
#define FEATURE_GAP 0.6
#define TICK 3.2

/* A text is narrowed to this at most before another way is taken to say it. */
#define NARROWEST 0.78

struct _RodSawBlock
{
  guint      first_bar;
  guint      n_bars;
  double     scale; /* paper per nature along the bar */
  guint      n_pieces;
  double    *starts; /* where pieces begin on the tape, mm; one more than there are pieces */
  int       *levels; /* how far down each running mark stands */
  int        n_levels;
  gboolean   spelled; /* marks do not fit under their pieces and are written out in a row */
  double    *row_heights;
  GPtrArray *features; /* texts */
  double     features_height;
  double     height;
};

static const RodSawBar *
bar_at (const RodCutting *cutting,
        guint             i)
{
  return &g_array_index (cutting->bars, RodSawBar, i);
}

static const RodCutItem *
item_at (const RodCutting *cutting,
         const RodSawBar  *bar,
         guint             i)
{
  return &g_array_index (cutting->items, RodCutItem, bar->items[i]);
}

static char *
describe_item (const RodSheets  *sheets,
               const RodCutItem *item)
{
  return item->piece < 0 ? g_strdup ("")
                         : rod_saw_describe_piece (sheets->plan, item->piece, sheets->units);
}

static gboolean
bars_are_alike (const RodSheets  *sheets,
                const RodCutting *cutting,
                const RodSawBar  *a,
                const RodSawBar  *b)
{
  if (a->stock != b->stock || a->n_items != b->n_items)
    return FALSE;
  for (guint i = 0; i < a->n_items; i++)
    {
      g_autofree char *left = NULL, *right = NULL;

      if (item_at (cutting, a, i)->length_mm != item_at (cutting, b, i)->length_mm)
        return FALSE;
      left = describe_item (sheets, item_at (cutting, a, i));
      right = describe_item (sheets, item_at (cutting, b, i));
      if (strcmp (left, right) != 0)
        return FALSE;
    }

  return TRUE;
}

static double
longest_stock (const RodCutting *cutting)
{
  gint64 longest = 1;

  for (guint i = 0; i < cutting->stock->len; i++)
    longest = MAX (longest, g_array_index (cutting->stock, RodCutStock, i).length_mm);

  return (double) longest;
}

static void
find_starts (RodSawBlock      *block,
             const RodSheets  *sheets,
             const RodCutting *cutting,
             const RodSawBar  *bar)
{
  double at = sheets->house->saw->end_trim_mm;

  block->n_pieces = bar->n_items;
  block->starts = g_new0 (double, bar->n_items + 1);
  for (guint i = 0; i < bar->n_items; i++)
    {
      block->starts[i] = at;
      at += (double) item_at (cutting, bar, i)->length_mm + sheets->house->saw->kerf_mm;
    }
  block->starts[bar->n_items] = at;
}

static double
piece_end (const RodSawBlock *block,
           const RodSheets   *sheets,
           guint              i)
{
  return block->starts[i + 1] - sheets->house->saw->kerf_mm;
}

/* Running marks that would touch stand lower. */
static void
find_levels (RodSawBlock     *block,
             const RodSheets *sheets)
{
  double used[MARK_LEVELS] = { -G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE };

  block->levels = g_new0 (int, block->n_pieces + 1);
  block->n_levels = 1;
  for (guint i = 0; i < block->n_pieces; i++)
    {
      double           end = piece_end (block, sheets, i);
      g_autofree char *figure = rod_figures_length (sheets->units, end);
      double           width = rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE);
      int              level = 0;

      while (level + 1 < MARK_LEVELS && end * block->scale - 0.5 * width < used[level])
        level++;
      used[level] = end * block->scale + 0.5 * width + MARK_CLEAR;
      block->levels[i] = level;
      block->n_levels = MAX (block->n_levels, level + 1);
    }
}

static gboolean
fits (const RodSheets *sheets,
      const char      *text,
      double           height,
      double           room)
{
  return rod_lettering_width (sheets->lettering, text, height, TRUE) * NARROWEST <= room - 1.0;
}

/* Whether every mark and every length of these bars fits its piece. */
static gboolean
all_fit (const RodSawBlock *block,
         const RodSheets   *sheets,
         const RodCutting  *cutting)
{
  for (guint b = 0; b < block->n_bars; b++)
    {
      const RodSawBar *bar = bar_at (cutting, block->first_bar + b);

      for (guint i = 0; i < bar->n_items; i++)
        {
          const RodCutItem *item = item_at (cutting, bar, i);
          double            room = (double) item->length_mm * block->scale;
          g_autofree char  *length = rod_figures_length (sheets->units, (double) item->length_mm);

          if (!fits (sheets, item->label, ROD_SHEET_SAW, room) ||
              !fits (sheets, length, ROD_SHEET_SAW, room))
            return FALSE;
        }
    }

  return TRUE;
}

static char *
spell_bar (const RodSheets  *sheets,
           const RodCutting *cutting,
           const RodSawBar  *bar)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = item_at (cutting, bar, i);
      g_autofree char  *length = rod_figures_length (sheets->units, (double) item->length_mm);

      g_string_append_printf (text, "%s%s\u00a0\u2192\u00a0%s", i > 0 ? "  |  " : "", length, item->label);
    }

  return g_string_free (text, FALSE);
}

static double
bar_width (const RodSheets *sheets)
{
  return sheets->room.width - GUTTER;
}

static void
measure_rows (RodSawBlock      *block,
              const RodSheets  *sheets,
              const RodCutting *cutting)
{
  block->spelled = !all_fit (block, sheets, cutting);
  block->row_heights = g_new0 (double, block->n_bars);
  for (guint b = 0; b < block->n_bars; b++)
    {
      g_autofree char *text = NULL;

      block->row_heights[b] = ROW_HEIGHT;
      if (!block->spelled)
        continue;
      text = spell_bar (sheets, cutting, bar_at (cutting, block->first_bar + b));
      block->row_heights[b] = fmax (ROW_HEIGHT,
                                    0.4 + rod_sheet_paragraph (sheets, NULL, text, ROD_SHEET_SAW, FALSE, 0.0, 0.0, bar_width (sheets)));
    }
}

/* Pieces of one bar that need the same are named together. */
static void
gather_features (RodSawBlock      *block,
                 const RodSheets  *sheets,
                 const RodCutting *cutting,
                 const RodSawBar  *bar)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  block->features = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < bar->n_items; i++)
    {
      g_autofree char *feature = describe_item (sheets, item_at (cutting, bar, i));
      g_autoptr (GString) which = NULL;

      if (feature[0] == '\0' || g_hash_table_contains (seen, feature))
        continue;
      which = g_string_new (NULL);
      for (guint j = i; j < bar->n_items; j++)
        {
          g_autofree char *other = describe_item (sheets, item_at (cutting, bar, j));

          if (strcmp (feature, other) == 0)
            g_string_append_printf (which, "%s%u", which->len > 0 ? ", " : "", j + 1);
        }
      /* TRANSLATORS: number of the piece on the bar, counted from the left, then what it needs. */
      g_ptr_array_add (block->features, g_strdup_printf (_ ("Piece %s: %s"), which->str, feature));
      g_hash_table_add (seen, g_steal_pointer (&feature));
    }
  for (guint i = 0; i < block->features->len; i++)
    block->features_height += FEATURE_GAP +
                              rod_sheet_paragraph (sheets, NULL, g_ptr_array_index (block->features, i), ROD_SHEET_SAW, FALSE, 0.0, 0.0, bar_width (sheets));
}

static void
free_block (gpointer data)
{
  RodSawBlock *block = data;

  g_free (block->starts);
  g_free (block->levels);
  g_free (block->row_heights);
  g_ptr_array_unref (block->features);
  g_free (block);
}

static RodSawBlock *
new_block (const RodSheets  *sheets,
           const RodCutting *cutting,
           guint             first,
           guint             n)
{
  RodSawBlock *block = g_new0 (RodSawBlock, 1);

  block->first_bar = first;
  block->n_bars = n;
  block->scale = bar_width (sheets) / longest_stock (cutting);
  find_starts (block, sheets, cutting, bar_at (cutting, first));
  find_levels (block, sheets);
  measure_rows (block, sheets, cutting);
  gather_features (block, sheets, cutting, bar_at (cutting, first));
  block->height = BAR_HEIGHT + MARK_GAP + block->n_levels * MARK_PITCH + block->features_height;
  for (guint b = 0; b < n; b++)
    block->height += block->row_heights[b];

  return block;
}

/* More bars than this in one block would make it higher than a page. */
#define MOST_BARS 16

GPtrArray *
rod_saw_blocks_new (const RodSheets  *sheets,
                    const RodCutting *cutting)
{
  GPtrArray *blocks = g_ptr_array_new_with_free_func (free_block);
  guint      n = 0;

  for (guint first = 0; first < cutting->bars->len; first += n)
    {
      n = 1;
      while (first + n < cutting->bars->len && n < MOST_BARS &&
             bars_are_alike (sheets, cutting, bar_at (cutting, first), bar_at (cutting, first + n)))
        n++;
      g_ptr_array_add (blocks, new_block (sheets, cutting, first, n));
    }

  return blocks;
}

double
rod_saw_block_height (const RodSawBlock *block)
{
  return block->height;
}

/* The piece to its true shape: the bar's height is the board's cover. */
static void
trace_shape (const RodSheets *sheets,
             cairo_t         *cr,
             guint            index,
             double           left,
             double           top,
             double           scale)
{
  const RodPlan   *plan = sheets->plan;
  const RodPiece  *piece = rod_plan_piece (plan, index);
  const RodField  *field = rod_plan_field (plan, piece->field);
  const RodRegion *rings = plan->rings;
  double           low_x = G_MAXDOUBLE, low_y = G_MAXDOUBLE;
  double           upright = BAR_HEIGHT / field->board->cover_mm;

  for (guint i = rings->ring_starts[piece->first_ring]; i < rings->ring_starts[piece->first_ring + 1]; i++)
    {
      RodPoint at = rod_affine_apply (field->to_board, rings->points[i]);

      low_x = fmin (low_x, at.x);
      low_y = fmin (low_y, at.y);
    }
  low_y -= piece->low_mm;
  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    {
      for (guint i = rings->ring_starts[r]; i < rings->ring_starts[r + 1]; i++)
        {
          RodPoint at = rod_affine_apply (field->to_board, rings->points[i]);

          cairo_line_to (cr, left + (at.x - low_x) * scale, top + BAR_HEIGHT - (at.y - low_y) * upright);
        }
      cairo_close_path (cr);
    }
}

static void
draw_bar (const RodSawBlock *block,
          const RodSheets   *sheets,
          const RodCutting  *cutting,
          double             x,
          double             y,
          cairo_t           *cr)
{
  const RodSawBar  *bar = bar_at (cutting, block->first_bar);
  RodDrawingOptions options;
  double            length = (double) g_array_index (cutting->stock, RodCutStock, bar->stock).length_mm;

  rod_drawing_options_init (&options);
  options.grey = sheets->options.grey;
  cairo_rectangle (cr, x, y, length * block->scale, BAR_HEIGHT);
  cairo_set_source_rgb (cr, 0.88, 0.88, 0.88);
  cairo_fill (cr);
  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = item_at (cutting, bar, i);
      double            left = x + block->starts[i] * block->scale;

      if (item->piece >= 0)
        trace_shape (sheets, cr, item->piece, left, y, block->scale);
      else
        cairo_rectangle (cr, left, y, (double) item->length_mm * block->scale, BAR_HEIGHT);
    }
  rod_ink_use (cutting->colour != NULL ? rod_drawing_board_ink (cutting->colour, &options)
                                       : options.paper,
               cr);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_stroke (cr);
  cairo_set_line_width (cr, ROD_SHEET_WIDE);
  cairo_rectangle (cr, x, y, length * block->scale, BAR_HEIGHT);
  cairo_stroke (cr);
}

static void
draw_lengths (const RodSawBlock *block,
              const RodSheets   *sheets,
              const RodCutting  *cutting,
              double             x,
              double             y,
              cairo_t           *cr)
{
  const RodSawBar *bar = bar_at (cutting, block->first_bar);

  for (guint i = 0; i < bar->n_items; i++)
    {
      double           length = (double) item_at (cutting, bar, i)->length_mm;
      double           room = length * block->scale - 1.0;
      g_autofree char *figure = rod_figures_length (sheets->units, length);
      RodLetterStyle   style = { .height = ROD_SHEET_SAW_LARGE, .bold = TRUE, .align = ROD_ALIGN_CENTRE, .width = room };

      if (!fits (sheets, figure, style.height, room + 1.0))
        style.height = ROD_SHEET_SAW;
      if (fits (sheets, figure, style.height, room + 1.0))
        rod_lettering_write (sheets->lettering, cr, figure, &style, x + (block->starts[i] + 0.5 * length) * block->scale, y + 0.5 * (BAR_HEIGHT + style.height));
    }
}

static void
draw_running_marks (const RodSawBlock *block,
                    const RodSheets   *sheets,
                    double             x,
                    double             y,
                    cairo_t           *cr)
{
  RodLetterStyle style = { .height = ROD_SHEET_SAW, .bold = TRUE, .align = ROD_ALIGN_CENTRE };

  for (guint i = 0; i < block->n_pieces; i++)
    {
      double           end = piece_end (block, sheets, i);
      double           at = x + end * block->scale;
      double           base = y + BAR_HEIGHT + MARK_GAP + block->levels[i] * MARK_PITCH + ROD_SHEET_SAW;
      g_autofree char *figure = rod_figures_length (sheets->units, end);
      double           half = 0.5 * rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE);

      cairo_set_line_width (cr, ROD_SHEET_WIDE);
      cairo_move_to (cr, at, y);
      cairo_line_to (cr, at, base - ROD_SHEET_SAW - 0.4);
      cairo_stroke (cr);
      /* The last mark stays on the paper. */
      rod_lettering_write (sheets->lettering, cr, figure, &style, fmin (at, sheets->room.x + sheets->room.width - half), base);
    }
}

static void
draw_gutter (const RodSawBlock *block,
             const RodSheets   *sheets,
             const RodCutting  *cutting,
             double             y,
             cairo_t           *cr)
{
  const RodSawBar *bar = bar_at (cutting, block->first_bar);
  double           length = (double) g_array_index (cutting->stock, RodCutStock, bar->stock).length_mm;
  g_autofree char *stock = rod_figures_length (sheets->units, length);
  g_autofree char *text = g_strdup_printf ("%u × %s", block->n_bars, stock);
  gboolean         rack = g_ptr_array_index (cutting->stock_of, bar->stock) == NULL;
  g_autofree char *rest = rod_figures_length (sheets->units, (double) bar->rest_mm);
  g_autofree char *left = rack ? g_strdup_printf (_ ("rack, rest %s"), rest)
                               : g_strdup_printf (_ ("rest %s"), rest);
  RodLetterStyle   style = { .height = ROD_SHEET_SAW, .bold = TRUE, .width = GUTTER - 2.0 };

  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_lettering_write (sheets->lettering, cr, text, &style, sheets->room.x, y + ROD_SHEET_SAW);
  style.bold = FALSE;
  style.height = ROD_SHEET_TEXT;
  rod_lettering_write (sheets->lettering, cr, left, &style, sheets->room.x, y + BAR_HEIGHT - 0.6);
}

/* One line for each bar: box to tick, number, marks under their pieces. */
static void
draw_row (const RodSawBlock *block,
          const RodSheets   *sheets,
          const RodCutting  *cutting,
          guint              row,
          double             y,
          cairo_t           *cr)
{
  const RodSawBar *bar = bar_at (cutting, block->first_bar + row);
  double           x = sheets->room.x + GUTTER;
  g_autofree char *number = g_strdup_printf (_ ("Bar %u"), block->first_bar + row + 1);

  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_rectangle (cr, sheets->room.x, y + 0.3, TICK, TICK);
  cairo_stroke (cr);
  rod_sheet_write (sheets, cr, number, ROD_SHEET_TEXT, FALSE, sheets->room.x + TICK + 1.8, y + 0.3 + TICK);
  if (block->spelled)
    {
      g_autofree char *text = spell_bar (sheets, cutting, bar);

      rod_sheet_paragraph (sheets, cr, text, ROD_SHEET_SAW, FALSE, x, y, bar_width (sheets));
      return;
    }
  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = item_at (cutting, bar, i);
      double            length = (double) item->length_mm;
      RodLetterStyle    style = { .height = ROD_SHEET_SAW, .align = ROD_ALIGN_CENTRE, .width = length * block->scale - 0.8 };

      rod_lettering_write (sheets->lettering, cr, item->label, &style, x + (block->starts[i] + 0.5 * length) * block->scale, y + ROD_SHEET_SAW);
    }
}

void
rod_saw_block_draw (const RodSawBlock *block,
                    const RodSheets   *sheets,
                    const RodCutting  *cutting,
                    double             y,
                    cairo_t           *cr)
{
  double x = sheets->room.x + GUTTER;

  draw_gutter (block, sheets, cutting, y, cr);
  draw_bar (block, sheets, cutting, x, y, cr);
  draw_lengths (block, sheets, cutting, x, y, cr);
  draw_running_marks (block, sheets, x, y, cr);
  y += BAR_HEIGHT + MARK_GAP + block->n_levels * MARK_PITCH;
  for (guint i = 0; i < block->features->len; i++)
    y += FEATURE_GAP + rod_sheet_paragraph (sheets, cr, g_ptr_array_index (block->features, i), ROD_SHEET_SAW, FALSE, x, y, bar_width (sheets));
  for (guint b = 0; b < block->n_bars; b++)
    {
      draw_row (block, sheets, cutting, b, y, cr);
      y += block->row_heights[b];
    }
}
