/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bars that are cut alike: one drawing with the running marks of its cuts, and below it the names
 * of the pieces of each bar.
 *
 * The tape lies from the left end of the bar; each mark is the far end of a piece, saw cuts and the
 * trimmed end counted in, so that nobody adds up at the saw.
 *
 * Bars cut alike come together wherever they are in the plan, because a stop is set once for all of
 * them. Sheets are many, so every line of a block has to be needed.
 */
#include "config.h"

#include "sheets/rod-saw-layout-private.h"

#include <math.h>
#include <string.h>

#include "engine/rod-limits.h"
#include "sheets/rod-figures.h"
#include "sheets/rod-mark-place.h"

#define MARK_CLEAR 1.6
#define MARK_LEVELS 2

/* A mark may stand beside its line as long as the line ends this far within it. */
#define MARK_HOLD 0.6

/* The last mark may reach into the gap between columns. */
#define MARK_OVERHANG 2.0

/* Marks are narrowed to this at most before some of them stand lower. */
#define MARK_NARROWEST 0.85

/* More bars than this in one block would leave columns half empty. */
#define MOST_BARS 24

const RodSawBar *
rod_saw_block_bar (const RodSawBlock *block,
                   const RodCutting  *cutting,
                   guint              i)
{
  return &g_array_index (cutting->bars, RodSawBar, g_array_index (block->bars, guint, i));
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

static double
longest_stock (const RodCutting *cutting)
{
  gint64 longest = 1;

  for (guint i = 0; i < cutting->stock->len; i++)
    longest = MAX (longest, g_array_index (cutting->stock, RodCutStock, i).length_mm);

  return (double) longest;
}

double
rod_saw_piece_low (const RodPlan *plan,
                   guint          piece)
{
  const RodPiece  *of = rod_plan_piece (plan, piece);
  const RodField  *field = rod_plan_field (plan, of->field);
  const RodRegion *rings = plan->rings;
  double           low = G_MAXDOUBLE;

  for (guint i = rings->ring_starts[of->first_ring]; i < rings->ring_starts[of->first_ring + 1];
       i++)
    low = fmin (low, rod_affine_apply (field->to_board, rings->points[i]).x);

  return low;
}

static void
find_places (RodSawBlock      *block,
             const RodSheets  *sheets,
             const RodCutting *cutting)
{
  const RodSawBar *bar = rod_saw_block_bar (block, cutting, 0);
  double           at = sheets->house->saw->end_trim_mm;

  block->n_places = bar->n_items;
  block->places = g_new0 (RodSawPlace, bar->n_items + 1);
  for (guint i = 0; i < bar->n_items; i++)
    {
      RodSawPlace *place = &block->places[i];
      double       length = (double) rod_saw_item_at (cutting, bar, i)->length_mm;

      place->start = at;
      place->end = at + length;
      place->middle = (at + 0.5 * length) * block->scale;
      place->room = length * block->scale;
      at += length + sheets->house->saw->kerf_mm;
    }
}

/* Puts all marks on one level, narrowed to @share, if each can stand at its line: to the right as
 * far as the one before it asks, then to the left as far as the one behind. */
static gboolean
level_marks (RodSawBlock  *block,
             const double *widths,
             double        share,
             double        right)
{
  double used = -G_MAXDOUBLE;

  for (guint i = 0; i < block->n_places; i++)
    {
      RodSawPlace *place = &block->places[i];
      double       half = 0.5 * share * widths[i];

      if (place->listed)
        continue;
      place->mark_width = share * widths[i];
      place->mark = fmax (place->end * block->scale, used + half);
      used = place->mark + half + MARK_CLEAR;
    }
  used = right + MARK_CLEAR;
  for (guint i = block->n_places; i > 0; i--)
    {
      RodSawPlace *place = &block->places[i - 1];
      double       half = 0.5 * share * widths[i - 1];

      if (place->listed)
        continue;
      place->mark = fmin (place->mark, used - MARK_CLEAR - half);
      used = place->mark - half;
      if (fabs (place->mark - place->end * block->scale) > half - MARK_HOLD)
        return FALSE;
    }

  return TRUE;
}

/* Running marks that would touch stand lower; what has no room there either is listed. */
static void
stagger_marks (RodSawBlock  *block,
               const double *widths,
               double        right)
{
  double used[MARK_LEVELS] = { -G_MAXDOUBLE, -G_MAXDOUBLE };

  for (guint i = 0; i < block->n_places; i++)
    {
      RodSawPlace *place = &block->places[i];
      double       half = 0.5 * widths[i];
      int          level = 0;

      if (place->listed)
        continue;
      place->mark_width = widths[i];
      place->mark = fmin (place->end * block->scale, right - half);
      while (level + 1 < MARK_LEVELS && place->mark - half < used[level])
        level++;
      place->listed = place->mark - half < used[level];
      if (place->listed)
        continue;
      place->level = level;
      used[level] = place->mark + half + MARK_CLEAR;
      block->n_levels = MAX (block->n_levels, level + 1);
    }
}

static void
find_marks (RodSawBlock     *block,
            const RodSheets *sheets)
{
  double             right = block->width - block->gutter + MARK_OVERHANG;
  g_autofree double *widths = g_new0 (double, block->n_places + 1);

  for (guint i = 0; i < block->n_places; i++)
    {
      g_autofree char *figure = rod_figures_length (sheets->units, block->places[i].end);

      widths[i] = rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE);
      if (!block->places[i].listed)
        block->n_levels = 1;
    }
  if (!level_marks (block, widths, 1.0, right) &&
      !level_marks (block, widths, MARK_NARROWEST, right))
    stagger_marks (block, widths, right);
}

/* Beside notches and raked ends, if what is written has room there. */
static void
avoid_shape (RodSawBlock     *block,
             const RodSheets *sheets,
             RodSawPlace     *place,
             guint            piece,
             double           needed)
{
  const RodPlan  *plan = sheets->plan;
  const RodField *field = rod_plan_field (plan, rod_plan_piece (plan, piece)->field);
  double          share = block->two_lines ? 0.85 : 0.5;
  RodMarkPlace    found;

  place->halo = TRUE;
  if (!rod_mark_place_find (plan, piece, share * field->board->cover_mm, &found) ||
      found.room_mm * block->scale - 1.0 < needed)
    return;

  place->halo = FALSE;
  place->room = found.room_mm * block->scale;
  place->middle = (place->start + rod_affine_apply (field->to_board, found.at).x -
                   rod_saw_piece_low (plan, piece)) *
                  block->scale;
}

/* Whether names stand beside their lengths or below them, and what has no room at all. */
static void
find_room (RodSawBlock      *block,
           const RodSheets  *sheets,
           const RodCutting *cutting,
           const GPtrArray  *features)
{
  const RodSawBar   *bar = rod_saw_block_bar (block, cutting, 0);
  gboolean           named = block->bars->len == 1;
  gboolean           shaped = FALSE, beside = TRUE;
  g_autofree double *needed = g_new0 (double, bar->n_items + 1);

  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = rod_saw_item_at (cutting, bar, i);
      RodSawPlace      *place = &block->places[i];
      g_autofree char  *figure = rod_figures_length (sheets->units, (double) item->length_mm);
      double            length =
        rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE) * NARROWEST;
      double name =
        named ? rod_lettering_width (sheets->lettering, item->label, NAME_HEIGHT, FALSE) * NARROWEST
              : 0.0;

      needed[i] = fmax (length, name);
      place->listed |= needed[i] > place->room - 1.0;
      beside &= place->listed || length + NAME_GAP + name <= place->room - 1.0;
      shaped |= ((const char *) g_ptr_array_index (features, bar->items[i]))[0] != '\0';
    }
  block->two_lines = named && (shaped || !beside);
  block->bar_height = shaped || block->two_lines ? SHAPED_BAR_HEIGHT : BAR_HEIGHT;
  for (guint i = 0; i < bar->n_items; i++)
    if (((const char *) g_ptr_array_index (features, bar->items[i]))[0] != '\0')
      avoid_shape (block,
                   sheets,
                   &block->places[i],
                   (guint) rod_saw_item_at (cutting, bar, i)->piece,
                   needed[i]);
}

/* Notes begin below the bar, its marks and what stands beside it. */
double
rod_saw_block_head (const RodSawBlock *block)
{
  guint lines = block->bars->len == 1 ? 2 : 1;

  return fmax (block->bar_height + MARK_GAP + block->n_levels * MARK_PITCH,
               ROD_SHEET_SAW + lines * GUTTER_PITCH + GUTTER_FOOT);
}

static void
free_note (gpointer data)
{
  g_free (((RodSawNote *) data)->text);
}

static void
free_block (gpointer data)
{
  RodSawBlock *block = data;

  g_free (block->places);
  g_array_unref (block->bars);
  g_array_unref (block->notes);
  g_free (block);
}

static RodSawBlock *
new_block (const RodSheets *sheets,
           double           width,
           double           longest)
{
  RodSawBlock *block = g_new0 (RodSawBlock, 1);

  block->width = width;
  block->gutter = sheets->units == ROD_UNITS_METRIC ? GUTTER : GUTTER_IMPERIAL;
  block->scale = (width - block->gutter) / longest;
  block->bars = g_array_new (FALSE, FALSE, sizeof (guint));
  block->notes = g_array_new (FALSE, FALSE, sizeof (RodSawNote));
  g_array_set_clear_func (block->notes, free_note);

  return block;
}

static void
lay_out (RodSawBlock      *block,
         const RodSheets  *sheets,
         const RodCutting *cutting,
         const GPtrArray  *features)
{
  find_places (block, sheets, cutting);
  find_room (block, sheets, cutting, features);
  find_marks (block, sheets);
  rod_saw_make_notes (block, sheets, cutting, features);
  block->height = rod_saw_block_head (block) +
                  rod_saw_set_notes (block, sheets, NULL, 0.0, 0.0) +
                  rod_saw_set_names (block, sheets, cutting, NULL, 0.0, 0.0);
}

/* Equal for bars that are cut alike. */
static char *
describe_bar (const RodCutting *cutting,
              const GPtrArray  *features,
              const RodSawBar  *bar)
{
  GString *text = g_string_new (NULL);

  g_string_printf (text, "%u", bar->stock);
  for (guint i = 0; i < bar->n_items; i++)
    g_string_append_printf (text,
                            "|%" G_GINT64_FORMAT " %s",
                            rod_saw_item_at (cutting, bar, i)->length_mm,
                            (const char *) g_ptr_array_index (features, bar->items[i]));

  return g_string_free (text, FALSE);
}

GPtrArray *
rod_saw_blocks_new (const RodSheets  *sheets,
                    const RodCutting *cutting,
                    double            width)
{
  GPtrArray *blocks = g_ptr_array_new_with_free_func (free_block);
  g_autoptr (GPtrArray) features = describe_items (sheets, cutting);
  g_autoptr (GHashTable) open = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  double longest = longest_stock (cutting);

  for (guint i = 0; i < cutting->bars->len; i++)
    {
      const RodSawBar *bar = &g_array_index (cutting->bars, RodSawBar, i);
      g_autofree char *key = describe_bar (cutting, features, bar);
      RodSawBlock     *block = g_hash_table_lookup (open, key);

      if (block == NULL || block->bars->len == MOST_BARS)
        {
          block = new_block (sheets, width, longest);
          g_ptr_array_add (blocks, block);
          g_hash_table_insert (open, g_steal_pointer (&key), block);
        }
      g_array_append_val (block->bars, i);
    }
  for (guint i = 0; i < blocks->len; i++)
    lay_out (g_ptr_array_index (blocks, i), sheets, cutting, features);

  return blocks;
}

double
rod_saw_block_height (const RodSawBlock *block)
{
  return block->height;
}
