/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bars that are cut alike: one drawing, the running marks of its cuts, and a line for each bar with
 * the marks of its pieces.
 *
 * The tape lies from the left end of the bar; each mark is the far end of a piece, saw cuts and the
 * trimmed end counted in, so that nobody adds up at the saw.
 */
#include "config.h"

#include "sheets/rod-saw-layout-private.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "engine/rod-limits.h"
#include "sheets/rod-figures.h"

#define MARK_CLEAR 1.6
#define MARK_LEVELS 2
#define ROW_HEIGHT 4.6

/* More bars than this in one block would leave columns half empty. */
#define MOST_BARS 8

const RodSawBar *
rod_saw_bar_at (const RodCutting *cutting,
                guint             i)
{
  return &g_array_index (cutting->bars, RodSawBar, i);
}

double
rod_saw_stock_length (const RodCutting *cutting,
                      const RodSawBar  *bar)
{
  return (double) g_array_index (cutting->stock, RodCutStock, bar->stock).length_mm;
}

const RodCutItem *
rod_saw_item_at (const RodCutting *cutting,
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
    if (rod_saw_item_at (cutting, a, i)->length_mm != rod_saw_item_at (cutting, b, i)->length_mm ||
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
      at += (double) rod_saw_item_at (cutting, bar, i)->length_mm + sheets->house->saw->kerf_mm;
    }
  block->starts[bar->n_items] = at;
}

double
rod_saw_piece_end (const RodSawBlock *block,
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
      double           end = rod_saw_piece_end (block, sheets, i);
      g_autofree char *figure = rod_figures_length (sheets->units, end);
      double           width = rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE);
      double           half = 0.5 * width;
      /* The last mark stays within its column, see draw_running_marks(). */
      double at = fmin (end * block->scale, block->width - block->gutter - half);
      int    level = 0;

      while (level + 1 < MARK_LEVELS && at - half < used[level])
        level++;
      if (at - half < used[level])
        {
          block->levels[i] = MARK_HIDDEN;
          block->all_marked = FALSE;
          continue;
        }
      used[level] = at + half + MARK_CLEAR;
      block->levels[i] = level;
      block->n_levels = MAX (block->n_levels, level + 1);
    }
}

gboolean
rod_saw_fits (const RodSheets *sheets,
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
      const RodSawBar *bar = rod_saw_bar_at (cutting, block->first_bar + b);

      for (guint i = 0; i < bar->n_items; i++)
        {
          const RodCutItem *item = rod_saw_item_at (cutting, bar, i);
          double            room = (double) item->length_mm * block->scale;
          g_autofree char  *length = rod_figures_length (sheets->units, (double) item->length_mm);

          names_fit &= rod_saw_fits (sheets, item->label, NAME_HEIGHT, FALSE, room);
          block->lengths_fit &= rod_saw_fits (sheets, length, ROD_SHEET_SAW, TRUE, room);
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
    rod_figures_length (sheets->units, (double) rod_saw_item_at (cutting, bar, first)->length_mm);

  if (end > first + 1)
    g_string_append_printf (text, "%u\u00a0×\u00a0", end - first);
  g_string_append_printf (text, "%s\u00a0\u2192\u00a0", length);
  for (guint i = first; i < end; i++)
    {
      g_autofree char *mark =
        rod_figures_length (sheets->units, rod_saw_piece_end (block, sheets, i));

      g_string_append_printf (text, "%s%s", i > first ? ", " : "", mark);
    }
  for (guint i = first; i < end; i++)
    g_string_append_printf (text,
                            "%s%s",
                            i > first ? ", " : ": ",
                            rod_saw_item_at (cutting, bar, i)->label);
}

/* Names in sawing order, with lengths and running marks where the drawing has no room for these. */
char *
rod_saw_list_names (const RodSawBlock *block,
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
          g_string_append (text, rod_saw_item_at (cutting, bar, i)->label);
          continue;
        }
      while (end < bar->n_items && rod_saw_item_at (cutting, bar, end)->length_mm ==
                                     rod_saw_item_at (cutting, bar, i)->length_mm)
        end++;
      append_run (text, block, sheets, cutting, bar, i, end);
    }

  return g_string_free (text, FALSE);
}

double
rod_saw_names_height (const RodSawBlock *block)
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
      text =
        rod_saw_list_names (block, sheets, cutting, rod_saw_bar_at (cutting, block->first_bar + b));
      block->row_heights[b] = fmax (ROW_HEIGHT,
                                    rod_sheet_paragraph (sheets,
                                                         NULL,
                                                         text,
                                                         rod_saw_names_height (block),
                                                         FALSE,
                                                         0.0,
                                                         0.0,
                                                         block->width - block->gutter));
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

double
rod_saw_set_features (const RodSawBlock *block,
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
                                            block->width - block->gutter);

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
  block->gutter = sheets->units == ROD_UNITS_METRIC ? GUTTER : GUTTER_IMPERIAL;
  block->first_bar = first;
  block->n_bars = n;
  block->scale = (width - block->gutter) / longest_stock (cutting);
  find_starts (block, sheets, cutting, rod_saw_bar_at (cutting, first));
  find_levels (block, sheets);
  find_fits (block, sheets, cutting);
  measure_rows (block, sheets, cutting);
  gather_features (block, features, rod_saw_bar_at (cutting, first));
  block->height = block->bar_height + MARK_GAP + block->n_levels * MARK_PITCH +
                  rod_saw_set_features (block, sheets, NULL, 0.0, 0.0);
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
                             rod_saw_bar_at (cutting, first),
                             rod_saw_bar_at (cutting, first + n)))
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
