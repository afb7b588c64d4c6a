/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands below a bar: lengths and running marks that the drawing has no room for, what pieces
 * need beyond their length, and the names of the pieces of each bar where several are cut alike.
 */
#include "config.h"

#include "sheets/rod-saw-layout-private.h"

#include <math.h>
#include <string.h>

#include "sheets/rod-figures.h"

#define NOTE_PITCH 5.4
#define NOTE_GAP 3.0
#define NAME_PITCH 4.4
#define COLUMN_GAP 4.0

static void
add_note (RodSawBlock *block,
          GString     *text,
          double       height)
{
  RodSawNote note = { g_string_free (text, FALSE), height };

  g_array_append_val (block->notes, note);
}

/* Pieces count from the left; of one piece alone nothing need be said. */
static GString *
begin_note (const RodSawBlock *block,
            guint              first,
            guint              end)
{
  GString *text = g_string_new (NULL);

  if (block->n_places > 1)
    g_string_printf (text, "%u", first + 1);
  if (end > first + 1)
    g_string_append_printf (text, "\u2013%u", end);
  if (text->len > 0)
    g_string_append (text, ":\u00a0");

  return text;
}

/* A run of equal lengths with its running marks, "3–5: 3 × 130 → 395, 528, 661", and its names
 * where it is not many that have others. */
static void
note_run (RodSawBlock      *block,
          const RodSheets  *sheets,
          const RodCutting *cutting,
          guint             first,
          guint             end)
{
  const RodSawBar *bar = rod_saw_block_bar (block, cutting, 0);
  GString         *text = begin_note (block, first, end);
  g_autofree char *length =
    rod_figures_length (sheets->units, (double) rod_saw_item_at (cutting, bar, first)->length_mm);

  if (end > first + 1)
    g_string_append_printf (text, "%u\u00a0×\u00a0", end - first);
  g_string_append_printf (text, "%s\u00a0\u2192\u00a0", length);
  for (guint i = first; i < end; i++)
    {
      g_autofree char *mark = rod_figures_length (sheets->units, block->places[i].end);

      g_string_append_printf (text, "%s%s", i > first ? ", " : "", mark);
    }
  add_note (block, text, ROD_SHEET_SAW);
  if (block->bars->len > 1)
    return;

  text = g_string_new (NULL);
  for (guint i = first; i < end; i++)
    g_string_append_printf (text,
                            "%s%s",
                            i > first ? ", " : "",
                            rod_saw_item_at (cutting, bar, i)->label);
  add_note (block, text, NAME_HEIGHT);
}

static void
note_listed (RodSawBlock      *block,
             const RodSheets  *sheets,
             const RodCutting *cutting)
{
  const RodSawBar *bar = rod_saw_block_bar (block, cutting, 0);
  guint            end;

  for (guint i = 0; i < block->n_places; i = end)
    {
      gint64 length = rod_saw_item_at (cutting, bar, i)->length_mm;

      end = i + 1;
      if (!block->places[i].listed)
        continue;
      while (end < block->n_places && block->places[end].listed &&
             rod_saw_item_at (cutting, bar, end)->length_mm == length)
        end++;
      note_run (block, sheets, cutting, i, end);
    }
}

/* Pieces of one bar that need the same are named together. */
static void
note_features (RodSawBlock      *block,
               const RodCutting *cutting,
               const GPtrArray  *features)
{
  const RodSawBar *bar = rod_saw_block_bar (block, cutting, 0);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < bar->n_items; i++)
    {
      const char *feature = g_ptr_array_index (features, bar->items[i]);
      GString    *text;

      if (feature[0] == '\0' || !g_hash_table_add (seen, (gpointer) feature))
        continue;
      text = begin_note (block, i, i + 1);
      for (guint j = i + 1; j < bar->n_items; j++)
        if (strcmp (feature, g_ptr_array_index (features, bar->items[j])) == 0)
          {
            g_autofree char *also = g_strdup_printf (", %u", j + 1);

            /* Before the colon and its blank. */
            g_string_insert (text, (gssize) (text->len - strlen (":\u00a0")), also);
          }
      g_string_append (text, feature);
      add_note (block, text, ROD_SHEET_SAW);
    }
}

void
rod_saw_make_notes (RodSawBlock      *block,
                    const RodSheets  *sheets,
                    const RodCutting *cutting,
                    const GPtrArray  *features)
{
  note_listed (block, sheets, cutting);
  note_features (block, cutting, features);
}

double
rod_saw_set_notes (const RodSawBlock *block,
                   const RodSheets   *sheets,
                   cairo_t           *cr,
                   double             x,
                   double             y)
{
  double top = y;
  double at = 0.0;

  for (guint i = 0; i < block->notes->len; i++)
    {
      const RodSawNote *note = &g_array_index (block->notes, RodSawNote, i);
      double            width =
        rod_lettering_width (sheets->lettering, note->text, note->height, FALSE);

      if (at > 0.0 && at + width > block->width)
        {
          y += NOTE_PITCH;
          at = 0.0;
        }
      if (width > block->width)
        {
          y += rod_sheet_paragraph (sheets,
                                    cr,
                                    note->text,
                                    note->height,
                                    FALSE,
                                    x,
                                    y,
                                    block->width);
          continue;
        }
      if (cr != NULL)
        rod_sheet_write (sheets, cr, note->text, note->height, FALSE, x + at, y + ROD_SHEET_SAW);
      at += width + NOTE_GAP;
    }

  return y + (at > 0.0 ? NOTE_PITCH : 0.0) - top;
}

/* "16: G5-41-2 · P2-05-1", in sawing order. */
static char *
list_names (const RodSawBlock *block,
            const RodCutting  *cutting,
            guint              b)
{
  const RodSawBar *bar = rod_saw_block_bar (block, cutting, b);
  GString         *text = g_string_new (NULL);

  g_string_printf (text, "%u:", g_array_index (block->bars, guint, b) + 1);
  for (guint i = 0; i < bar->n_items; i++)
    g_string_append_printf (text,
                            "%s%s",
                            i > 0 ? " \u00b7 " : "\u00a0",
                            rod_saw_item_at (cutting, bar, i)->label);

  return g_string_free (text, FALSE);
}

static guint
count_columns (const RodSawBlock *block,
               const RodSheets   *sheets,
               const RodCutting  *cutting,
               double            *pitch)
{
  double widest = 0.0;
  guint  n;

  for (guint b = 0; b < block->bars->len; b++)
    {
      g_autofree char *text = list_names (block, cutting, b);

      widest = fmax (widest,
                     rod_lettering_width (sheets->lettering, text, NAME_HEIGHT, FALSE) + TICK_ROOM);
    }
  n = (guint) fmax (1.0, floor ((block->width + COLUMN_GAP) / (widest + COLUMN_GAP)));
  n = MIN (n, block->bars->len);
  *pitch = (block->width + COLUMN_GAP) / n;

  return n;
}

double
rod_saw_set_names (const RodSawBlock *block,
                   const RodSheets   *sheets,
                   const RodCutting  *cutting,
                   cairo_t           *cr,
                   double             x,
                   double             y)
{
  double top = y;
  double pitch;
  guint  n;

  if (block->bars->len == 1)
    return 0.0;

  n = count_columns (block, sheets, cutting, &pitch);
  for (guint b = 0; b < block->bars->len; b++)
    {
      g_autofree char *text = list_names (block, cutting, b);
      double           left = x + (b % n) * pitch;
      double           height = rod_sheet_paragraph (sheets,
                                           cr,
                                           text,
                                           NAME_HEIGHT,
                                           FALSE,
                                           left + TICK_ROOM,
                                           y,
                                           block->width - TICK_ROOM);

      if (cr != NULL)
        cairo_rectangle (cr, left + 0.2, y - 0.5 * (TICK - NAME_HEIGHT), TICK, TICK);
      if (b % n + 1 == n || b + 1 == block->bars->len)
        y += n > 1 ? NAME_PITCH : fmax (NAME_PITCH, height);
    }
  if (cr != NULL)
    {
      cairo_set_line_width (cr, ROD_SHEET_NARROW);
      cairo_stroke (cr);
    }

  return y - top;
}
