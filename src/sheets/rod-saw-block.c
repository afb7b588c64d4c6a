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

#define GUTTER 24.0
#define GUTTER_PITCH 4.3
#define BAR_HEIGHT 9.0
#define THIN_BAR_HEIGHT 6.0
#define NAMED_BAR_HEIGHT 11.0
#define MARK_GAP 0.9
#define MARK_PITCH 4.7
#define MARK_CLEAR 1.6
#define MARK_LEVELS 2

/* A running mark that has no room; it is written in the list of names. */
#define MARK_HIDDEN (-1)

#define ROW_HEIGHT 4.6
#define FEATURE_GAP 0.4
#define TICK 3.0

/* Marks of pieces; figures are larger. */
#define NAME_HEIGHT ROD_SHEET_TEXT

/* Where lengths are written out because the drawing has no room for them. */
#define LIST_HEIGHT 3.0

/* A text is narrowed to this at most before another way is taken to say it. */
#define NARROWEST 0.76

/* More bars than this in one block would leave columns half empty. */
#define MOST_BARS 8

/* How marks are written: in the bar, below their pieces, or in order where they do not fit. */
typedef enum
{
  NAMES_INSIDE,
  NAMES_BELOW,
  NAMES_IN_ORDER,
} Names;

struct _RodSawBlock
{
  double     width;
  guint      first_bar;
  guint      n_bars;
  double     scale; /* paper per nature along the bar */
  guint      n_pieces;
  double    *starts; /* where pieces begin on the tape, mm; one more than there are pieces */
  int       *levels; /* how far down each running mark stands */
  int        n_levels;
  Names      names;
  gboolean   lengths_fit;
  gboolean   all_marked; /* every running mark has room */
  double     bar_height;
  double    *row_heights;
  GPtrArray *features; /* texts */
  double     height;
};

static const RodSawBar *
bar_at (const RodCutting *cutting,
        guint             i)
{
  return &g_array_index (cutting->bars, RodSawBar, i);
}

static double
stock_length (const RodCutting *cutting,
              const RodSawBar  *bar)
{
  return (double) g_array_index (cutting->stock, RodCutStock, bar->stock).length_mm;
}

static const RodCutItem *
item_at (const RodCutting *cutting,
         const RodSawBar  *bar,
         guint             i)
{
  return &g_array_index (cutting->items, RodCutItem, bar->items[i]);
}

/* What each item needs beyond its length. */
static GPtrArray *
describe_items (const RodSheets  *sheets,
                const RodCutting *cutting)
{
  GPtrArray *features = g_ptr_array_new_full (cutting->items->len, g_free);

  for (guint i = 0; i < cutting->items->len; i++)
    {
      const RodCutItem *item = &g_array_index (cutting->items, RodCutItem, i);

      g_ptr_array_add (features,
                       item->piece < 0 ? g_strdup ("")
                                       : rod_saw_describe_piece (sheets->plan,
                                                                 (guint) item->piece,
                                                                 sheets->units));
    }

  return features;
}

static gboolean
bars_are_alike (const RodCutting *cutting,
                const GPtrArray  *features,
                const RodSawBar  *a,
                const RodSawBar  *b)
{
  if (a->stock != b->stock || a->n_items != b->n_items)
    return FALSE;
  for (guint i = 0; i < a->n_items; i++)
    if (item_at (cutting, a, i)->length_mm != item_at (cutting, b, i)->length_mm ||
        strcmp (g_ptr_array_index (features, a->items[i]),
                g_ptr_array_index (features, b->items[i])) != 0)
      return FALSE;

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
  double used[MARK_LEVELS] = { -G_MAXDOUBLE, -G_MAXDOUBLE };

  block->levels = g_new0 (int, block->n_pieces + 1);
  block->n_levels = 1;
  block->all_marked = TRUE;
  for (guint i = 0; i < block->n_pieces; i++)
    {
      double           end = piece_end (block, sheets, i);
      g_autofree char *figure = rod_figures_length (sheets->units, end);
      double           width = rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE);
      int              level = 0;

      while (level + 1 < MARK_LEVELS && end * block->scale - 0.5 * width < used[level])
        level++;
      if (end * block->scale - 0.5 * width < used[level])
        {
          block->levels[i] = MARK_HIDDEN;
          block->all_marked = FALSE;
          continue;
        }
      used[level] = end * block->scale + 0.5 * width + MARK_CLEAR;
      block->levels[i] = level;
      block->n_levels = MAX (block->n_levels, level + 1);
    }
}

static gboolean
fits (const RodSheets *sheets,
      const char      *text,
      double           height,
      gboolean         bold,
      double           room)
{
  return rod_lettering_width (sheets->lettering, text, height, bold) * NARROWEST <= room - 1.0;
}

/* Whether every mark and every length of these bars fits its piece. */
static void
find_fits (RodSawBlock      *block,
           const RodSheets  *sheets,
           const RodCutting *cutting)
{
  gboolean names_fit = TRUE;

  block->lengths_fit = TRUE;
  for (guint b = 0; b < block->n_bars; b++)
    {
      const RodSawBar *bar = bar_at (cutting, block->first_bar + b);

      for (guint i = 0; i < bar->n_items; i++)
        {
          const RodCutItem *item = item_at (cutting, bar, i);
          double            room = (double) item->length_mm * block->scale;
          g_autofree char  *length = rod_figures_length (sheets->units, (double) item->length_mm);

          names_fit &= fits (sheets, item->label, NAME_HEIGHT, FALSE, room);
          block->lengths_fit &= fits (sheets, length, ROD_SHEET_SAW, TRUE, room);
        }
    }
  block->lengths_fit &= block->all_marked;
  block->names = !names_fit || !block->lengths_fit ? NAMES_IN_ORDER
                 : block->n_bars == 1              ? NAMES_INSIDE
                                                   : NAMES_BELOW;
  block->bar_height = block->names == NAMES_INSIDE         ? NAMED_BAR_HEIGHT
                      : cutting->kind == ROD_ARTICLE_BOARD ? BAR_HEIGHT
                                                           : THIN_BAR_HEIGHT;
}

/* A run of equal lengths with its running marks and names: "3 × 130 → 395, 528, 661: G-B1, …". */
static void
append_run (GString           *text,
            const RodSawBlock *block,
            const RodSheets   *sheets,
            const RodCutting  *cutting,
            const RodSawBar   *bar,
            guint              first,
            guint              end)
{
  g_autofree char *length =
    rod_figures_length (sheets->units, (double) item_at (cutting, bar, first)->length_mm);

  if (end > first + 1)
    g_string_append_printf (text, "%u\u00a0×\u00a0", end - first);
  g_string_append_printf (text, "%s\u00a0\u2192\u00a0", length);
  for (guint i = first; i < end; i++)
    {
      g_autofree char *mark = rod_figures_length (sheets->units, piece_end (block, sheets, i));

      g_string_append_printf (text, "%s%s", i > first ? ", " : "", mark);
    }
  for (guint i = first; i < end; i++)
    g_string_append_printf (text,
                            "%s%s",
                            i > first ? ", " : ": ",
                            item_at (cutting, bar, i)->label);
}

/* Names in sawing order, with lengths and running marks where the drawing has no room for these. */
static char *
list_names (const RodSawBlock *block,
            const RodSheets   *sheets,
            const RodCutting  *cutting,
            const RodSawBar   *bar)
{
  GString *text = g_string_new (NULL);
  guint    end;

  for (guint i = 0; i < bar->n_items; i = end)
    {
      end = i + 1;
      g_string_append (text, i > 0 ? " \u00b7 " : "");
      if (block->lengths_fit)
        {
          g_string_append (text, item_at (cutting, bar, i)->label);
          continue;
        }
      while (end < bar->n_items &&
             item_at (cutting, bar, end)->length_mm == item_at (cutting, bar, i)->length_mm)
        end++;
      append_run (text, block, sheets, cutting, bar, i, end);
    }

  return g_string_free (text, FALSE);
}

static double
names_height (const RodSawBlock *block)
{
  return block->lengths_fit ? NAME_HEIGHT : LIST_HEIGHT;
}

static void
measure_rows (RodSawBlock      *block,
              const RodSheets  *sheets,
              const RodCutting *cutting)
{
  block->row_heights = g_new0 (double, block->n_bars);
  for (guint b = 0; b < block->n_bars; b++)
    {
      g_autofree char *text = NULL;

      block->row_heights[b] = block->names == NAMES_INSIDE ? 0.0 : ROW_HEIGHT;
      if (block->names != NAMES_IN_ORDER)
        continue;
      text = list_names (block, sheets, cutting, bar_at (cutting, block->first_bar + b));
      block->row_heights[b] = fmax (ROW_HEIGHT,
                                    rod_sheet_paragraph (sheets,
                                                         NULL,
                                                         text,
                                                         names_height (block),
                                                         FALSE,
                                                         0.0,
                                                         0.0,
                                                         block->width - GUTTER));
    }
}

/* Pieces of one bar that need the same are named together. Pieces are numbered from the left; of
 * one piece alone nothing need be said. */
static void
gather_features (RodSawBlock     *block,
                 const GPtrArray *features,
                 const RodSawBar *bar)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  block->features = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < bar->n_items; i++)
    {
      const char *feature = g_ptr_array_index (features, bar->items[i]);
      g_autoptr (GString) which = NULL;

      if (feature[0] == '\0' || !g_hash_table_add (seen, (gpointer) feature))
        continue;
      which = g_string_new (NULL);
      for (guint j = i; j < bar->n_items; j++)
        if (strcmp (feature, g_ptr_array_index (features, bar->items[j])) == 0)
          g_string_append_printf (which, "%s%u", which->len > 0 ? ", " : "", j + 1);
      g_ptr_array_add (block->features,
                       bar->n_items == 1 ? g_strdup (feature)
                                         : g_strdup_printf ("%s: %s", which->str, feature));
    }
}

static double
set_features (const RodSawBlock *block,
              const RodSheets   *sheets,
              cairo_t           *cr,
              double             x,
              double             y)
{
  double top = y;

  for (guint i = 0; i < block->features->len; i++)
    y += FEATURE_GAP + rod_sheet_paragraph (sheets,
                                            cr,
                                            g_ptr_array_index (block->features, i),
                                            ROD_SHEET_SAW,
                                            FALSE,
                                            x,
                                            y,
                                            block->width);

  return y - top;
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
           const GPtrArray  *features,
           double            width,
           guint             first,
           guint             n)
{
  RodSawBlock *block = g_new0 (RodSawBlock, 1);

  block->width = width;
  block->first_bar = first;
  block->n_bars = n;
  block->scale = (width - GUTTER) / longest_stock (cutting);
  find_starts (block, sheets, cutting, bar_at (cutting, first));
  find_levels (block, sheets);
  find_fits (block, sheets, cutting);
  measure_rows (block, sheets, cutting);
  gather_features (block, features, bar_at (cutting, first));
  block->height = block->bar_height + MARK_GAP + block->n_levels * MARK_PITCH +
                  set_features (block, sheets, NULL, 0.0, 0.0);
  for (guint b = 0; b < n; b++)
    block->height += block->row_heights[b];

  return block;
}

GPtrArray *
rod_saw_blocks_new (const RodSheets  *sheets,
                    const RodCutting *cutting,
                    double            width)
{
  GPtrArray *blocks = g_ptr_array_new_with_free_func (free_block);
  g_autoptr (GPtrArray) features = describe_items (sheets, cutting);
  guint n = 0;

  for (guint first = 0; first < cutting->bars->len; first += n)
    {
      n = 1;
      while (first + n < cutting->bars->len && n < MOST_BARS &&
             bars_are_alike (cutting,
                             features,
                             bar_at (cutting, first),
                             bar_at (cutting, first + n)))
        n++;
      g_ptr_array_add (blocks, new_block (sheets, cutting, features, width, first, n));
    }

  return blocks;
}

double
rod_saw_block_height (const RodSawBlock *block)
{
  return block->height;
}

/* The piece to its true shape: lengthways to @scale.x, and @scale.y high for the whole cover. */
static void
trace_shape (const RodSheets *sheets,
             cairo_t         *cr,
             guint            index,
             double           left,
             double           top,
             RodPoint         scale)
{
  const RodPlan   *plan = sheets->plan;
  const RodPiece  *piece = rod_plan_piece (plan, index);
  const RodField  *field = rod_plan_field (plan, piece->field);
  const RodRegion *rings = plan->rings;
  double           upright = scale.y / field->board->cover_mm;
  double           low_x = G_MAXDOUBLE;

  for (guint i = rings->ring_starts[piece->first_ring];
       i < rings->ring_starts[piece->first_ring + 1];
       i++)
    low_x = fmin (low_x, rod_affine_apply (field->to_board, rings->points[i]).x);
  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    {
      cairo_new_sub_path (cr);
      for (guint i = rings->ring_starts[r]; i < rings->ring_starts[r + 1]; i++)
        {
          RodPoint at = rod_affine_apply (field->to_board, rings->points[i]);

          cairo_line_to (cr,
                         left + (at.x - low_x) * scale.x,
                         top + scale.y - (at.y - piece->line_mm) * upright);
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
  RodPoint          scale = { block->scale, block->bar_height };
  double            length = stock_length (cutting, bar);

  rod_drawing_options_init (&options);
  options.grey = sheets->options.grey;
  cairo_rectangle (cr, x, y, length * block->scale, block->bar_height);
  cairo_set_source_rgb (cr, 0.86, 0.86, 0.86);
  cairo_fill (cr);
  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = item_at (cutting, bar, i);
      double            left = x + block->starts[i] * block->scale;

      if (item->piece >= 0)
        trace_shape (sheets, cr, item->piece, left, y, scale);
      else
        cairo_rectangle (cr, left, y, (double) item->length_mm * block->scale, block->bar_height);
    }
  rod_ink_use (cutting->colour != NULL ? rod_drawing_board_ink (cutting->colour, &options)
                                       : options.paper,
               cr);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_stroke (cr);
  cairo_set_line_width (cr, ROD_SHEET_WIDE);
  cairo_rectangle (cr, x, y, length * block->scale, block->bar_height);
  cairo_stroke (cr);
}

/* Length and, where it fits, mark of one piece in the bar. */
static void
write_inside (const RodSawBlock *block,
              const RodSheets   *sheets,
              const RodCutItem  *item,
              double             middle,
              double             y,
              cairo_t           *cr)
{
  double           length = (double) item->length_mm;
  double           room = length * block->scale;
  g_autofree char *figure = rod_figures_length (sheets->units, length);
  gboolean         named = block->names == NAMES_INSIDE;
  RodLetterStyle   style = { .height = ROD_SHEET_SAW_LARGE, .bold = TRUE };
  RodLetterStyle   name = { .height = NAME_HEIGHT, .align = ROD_ALIGN_CENTRE };

  style.align = ROD_ALIGN_CENTRE;
  style.width = name.width = room - 1.0;
  if (block->bar_height < BAR_HEIGHT || named || !fits (sheets, figure, style.height, TRUE, room))
    style.height = ROD_SHEET_SAW;
  if (!fits (sheets, figure, style.height, TRUE, room))
    return;

  rod_lettering_write (sheets->lettering,
                       cr,
                       figure,
                       &style,
                       middle,
                       named ? y + 1.2 + style.height
                             : y + 0.5 * (block->bar_height + style.height));
  if (named)
    rod_lettering_write (sheets->lettering,
                         cr,
                         item->label,
                         &name,
                         middle,
                         y + block->bar_height - 1.4);
}

static void
draw_inside (const RodSawBlock *block,
             const RodSheets   *sheets,
             const RodCutting  *cutting,
             double             x,
             double             y,
             cairo_t           *cr)
{
  const RodSawBar *bar = bar_at (cutting, block->first_bar);

  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = item_at (cutting, bar, i);

      write_inside (block,
                    sheets,
                    item,
                    x + (block->starts[i] + 0.5 * (double) item->length_mm) * block->scale,
                    y,
                    cr);
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
  double         right = x + block->width - GUTTER;

  for (guint i = 0; i < block->n_pieces; i++)
    {
      double end = piece_end (block, sheets, i);
      double at = x + end * block->scale;
      double base =
        y + block->bar_height + MARK_GAP + block->levels[i] * MARK_PITCH + ROD_SHEET_SAW;
      g_autofree char *figure = rod_figures_length (sheets->units, end);
      double           width = rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE);

      if (block->levels[i] == MARK_HIDDEN)
        continue;
      cairo_set_line_width (cr, ROD_SHEET_WIDE);
      cairo_move_to (cr, at, y);
      cairo_line_to (cr, at, base - ROD_SHEET_SAW - 0.4);
      cairo_stroke (cr);
      /* The last mark stays within its column. */
      rod_lettering_write (sheets->lettering,
                           cr,
                           figure,
                           &style,
                           fmin (at, right - 0.5 * width),
                           base);
    }
}

static void
draw_tick (cairo_t *cr,
           double   x,
           double   y)
{
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_rectangle (cr, x + 0.2, y, TICK, TICK);
  cairo_stroke (cr);
}

/* Beside the bar: how many of which length, which they are, and what is left of each. */
static void
draw_gutter (const RodSawBlock *block,
             const RodSheets   *sheets,
             const RodCutting  *cutting,
             double             x,
             double             y,
             cairo_t           *cr)
{
  const RodSawBar *bar = bar_at (cutting, block->first_bar);
  double           length = stock_length (cutting, bar);
  gboolean         rack = g_ptr_array_index (cutting->stock_of, bar->stock) == NULL;
  guint            first = block->first_bar + 1;
  g_autofree char *stock = rod_figures_length (sheets->units, length);
  g_autofree char *text = g_strdup_printf ("%u × %s", block->n_bars, stock);
  g_autofree char *rest = rod_figures_length (sheets->units, (double) bar->rest_mm);
  g_autofree char *left =
    rack ? g_strdup_printf (_ ("rack, rest %s"), rest) : g_strdup_printf (_ ("rest %s"), rest);
  g_autofree char *bars =
    block->n_bars == 1 ? g_strdup_printf (_ ("bar %u"), first)
                       : g_strdup_printf (_ ("bars %u\u2013%u"), first, first + block->n_bars - 1);
  RodLetterStyle style = { .height = ROD_SHEET_SAW, .bold = TRUE, .width = GUTTER - 1.5 };
  double         indent = block->names == NAMES_INSIDE ? TICK + 1.5 : 0.0;

  rod_lettering_write (sheets->lettering, cr, text, &style, x, y + ROD_SHEET_SAW);
  style = (RodLetterStyle){ .height = ROD_SHEET_TEXT, .width = GUTTER - 1.5 - indent };
  if (indent > 0.0)
    draw_tick (cr, x, y + ROD_SHEET_SAW + 1.6);
  rod_lettering_write (sheets->lettering,
                       cr,
                       bars,
                       &style,
                       x + indent,
                       y + ROD_SHEET_SAW + GUTTER_PITCH);
  style.width = GUTTER - 1.5;
  rod_lettering_write (sheets->lettering,
                       cr,
                       left,
                       &style,
                       x,
                       y + ROD_SHEET_SAW + 2.0 * GUTTER_PITCH);
}

/* One line for each bar: marks under their pieces or in order. */
static void
draw_row (const RodSawBlock *block,
          const RodSheets   *sheets,
          const RodCutting  *cutting,
          guint              row,
          RodPoint           at,
          cairo_t           *cr)
{
  const RodSawBar *bar = bar_at (cutting, block->first_bar + row);

  draw_tick (cr, at.x - TICK - 2.0, at.y);
  if (block->names == NAMES_IN_ORDER)
    {
      g_autofree char *text = list_names (block, sheets, cutting, bar);

      rod_sheet_paragraph (sheets,
                           cr,
                           text,
                           names_height (block),
                           FALSE,
                           at.x,
                           at.y,
                           block->width - GUTTER);
      return;
    }
  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = item_at (cutting, bar, i);
      double            length = (double) item->length_mm;
      RodLetterStyle    style = { .height = NAME_HEIGHT, .align = ROD_ALIGN_CENTRE };

      style.width = length * block->scale - 0.8;
      rod_lettering_write (sheets->lettering,
                           cr,
                           item->label,
                           &style,
                           at.x + (block->starts[i] + 0.5 * length) * block->scale,
                           at.y + NAME_HEIGHT);
    }
}

void
rod_saw_block_draw (const RodSawBlock *block,
                    const RodSheets   *sheets,
                    const RodCutting  *cutting,
                    double             x,
                    double             y,
                    cairo_t           *cr)
{
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  draw_gutter (block, sheets, cutting, x, y, cr);
  x += GUTTER;
  draw_bar (block, sheets, cutting, x, y, cr);
  draw_inside (block, sheets, cutting, x, y, cr);
  draw_running_marks (block, sheets, x, y, cr);
  y += block->bar_height + MARK_GAP + block->n_levels * MARK_PITCH;
  y += set_features (block, sheets, cr, x, y);
  for (guint b = 0; b < block->n_bars; b++)
    {
      if (block->names != NAMES_INSIDE)
        draw_row (block, sheets, cutting, b, (RodPoint){ x, y }, cr);
      y += block->row_heights[b];
    }
}
