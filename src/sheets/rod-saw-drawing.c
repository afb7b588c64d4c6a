/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A block of bars on paper: the bar with its pieces to their true shape, lengths in it, the running
 * marks of the tape below, and what must be known beside and under it.
 */
#include "config.h"

#include "sheets/rod-saw-layout-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-figures.h"

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
  double           low_x = rod_saw_piece_low (plan, index);

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

void
rod_saw_block_trace_bar (const RodSawBlock *block,
                         const RodCutting  *cutting,
                         double             x,
                         double             y,
                         cairo_t           *cr)
{
  double length = rod_saw_stock_length (cutting, rod_saw_block_bar (block, cutting, 0));

  cairo_rectangle (cr, x + block->gutter, y, length * block->scale, block->bar_height);
}

void
rod_saw_block_trace_pieces (const RodSawBlock *block,
                            const RodSheets   *sheets,
                            const RodCutting  *cutting,
                            double             x,
                            double             y,
                            cairo_t           *cr)
{
  const RodSawBar *bar = rod_saw_block_bar (block, cutting, 0);
  RodPoint         scale = { block->scale, block->bar_height };

  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = rod_saw_item_at (cutting, bar, i);
      double            left = x + block->gutter + block->places[i].start * block->scale;
      double            width = (double) item->length_mm * block->scale;

      if (item->piece >= 0)
        trace_shape (sheets, cr, (guint) item->piece, left, y, scale);
      else
        cairo_rectangle (cr, left, y, width, block->bar_height);
    }
}

/* Base line of a running mark. */
static double
mark_base (const RodSawBlock *block,
           guint              i,
           double             y)
{
  return y + block->bar_height + MARK_GAP + block->places[i].level * MARK_PITCH + ROD_SHEET_SAW;
}

void
rod_saw_block_trace_cuts (const RodSawBlock *block,
                          double             x,
                          double             y,
                          cairo_t           *cr)
{
  for (guint i = 0; i < block->n_places; i++)
    {
      double at = x + block->gutter + block->places[i].end * block->scale;

      cairo_move_to (cr, at, y);
      cairo_line_to (cr,
                     at,
                     block->places[i].listed ? y + block->bar_height
                                             : mark_base (block, i, y) - ROD_SHEET_SAW - 0.4);
    }
}

void
rod_saw_block_trace_tick (const RodSawBlock *block,
                          double             x,
                          double             y,
                          cairo_t           *cr)
{
  if (block->bars->len == 1)
    cairo_rectangle (cr, x + 0.2, y + ROD_SHEET_SAW + 0.95, TICK, TICK);
}

/* Lines of the shape end where something is written over them. */
static void
draw_halo (const RodSawBlock *block,
           const RodSheets   *sheets,
           const RodCutting  *cutting,
           RodPoint           middle,
           double             width,
           cairo_t           *cr)
{
  double            height = (block->two_lines ? SHAPED_BAR_HEIGHT : BAR_HEIGHT) - 1.2;
  RodDrawingOptions options;

  rod_drawing_options_init (&options);
  options.grey = sheets->options.grey;
  cairo_save (cr);
  rod_ink_use (cutting->colour != NULL ? rod_drawing_board_ink (cutting->colour, &options)
                                       : options.paper,
               cr);
  cairo_rectangle (cr, middle.x - 0.5 * width, middle.y - 0.5 * height, width, height);
  cairo_fill (cr);
  cairo_restore (cr);
}

/* Length and, where one bar is drawn alone, name of a piece in it. */
static void
write_inside (const RodSawBlock *block,
              const RodSheets   *sheets,
              const RodCutting  *cutting,
              guint              i,
              RodPoint           middle,
              cairo_t           *cr)
{
  const RodSawPlace *place = &block->places[i];
  const RodCutItem  *item =
    rod_saw_item_at (cutting, rod_saw_block_bar (block, cutting, 0), i);
  g_autofree char *figure = rod_figures_length (sheets->units, (double) item->length_mm);
  gboolean         named = block->bars->len == 1;
  double           room = place->room - 1.0;
  double           length = rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE);
  double           name =
    named ? rod_lettering_width (sheets->lettering, item->label, NAME_HEIGHT, FALSE) : 0.0;
  gboolean       beside = named && !block->two_lines;
  double         both = beside ? length + NAME_GAP + name : fmax (length, name);
  double         share = fmin (1.0, room / both);
  RodLetterStyle style = { .height = ROD_SHEET_SAW, .bold = TRUE, .align = ROD_ALIGN_CENTRE };
  double         base = middle.y + 0.5 * ROD_SHEET_SAW;

  if (place->halo)
    draw_halo (block, sheets, cutting, middle, both * share + 0.6, cr);
  style.width = beside ? length * share : room;
  rod_lettering_write (sheets->lettering,
                       cr,
                       figure,
                       &style,
                       beside ? middle.x - 0.5 * share * (both - length) : middle.x,
                       block->two_lines ? base - 1.7 : base);
  if (!named)
    return;

  style = (RodLetterStyle){ .height = NAME_HEIGHT, .align = ROD_ALIGN_CENTRE };
  style.width = beside ? name * share : room;
  rod_lettering_write (sheets->lettering,
                       cr,
                       item->label,
                       &style,
                       beside ? middle.x + 0.5 * share * (both - name) : middle.x,
                       block->two_lines ? base + 1.7 : base);
}

static void
write_running_marks (const RodSawBlock *block,
                     const RodSheets   *sheets,
                     double             x,
                     double             y,
                     cairo_t           *cr)
{
  RodLetterStyle style = { .height = ROD_SHEET_SAW, .bold = TRUE, .align = ROD_ALIGN_CENTRE };

  for (guint i = 0; i < block->n_places; i++)
    {
      const RodSawPlace *place = &block->places[i];
      g_autofree char   *figure = rod_figures_length (sheets->units, place->end);

      style.width = place->mark_width;
      if (!place->listed)
        rod_lettering_write (sheets->lettering,
                             cr,
                             figure,
                             &style,
                             x + place->mark,
                             mark_base (block, i, y));
    }
}

/* Beside the bar: how many of which length, which it is, and what is left of each. */
static void
write_gutter (const RodSawBlock *block,
              const RodSheets   *sheets,
              const RodCutting  *cutting,
              double             x,
              double             y,
              cairo_t           *cr)
{
  const RodSawBar *bar = rod_saw_block_bar (block, cutting, 0);
  gboolean         rack = g_ptr_array_index (cutting->stock_of, bar->stock) == NULL;
  g_autofree char *stock = rod_figures_length (sheets->units, rod_saw_stock_length (cutting, bar));
  g_autofree char *text = g_strdup_printf ("%u × %s", block->bars->len, stock);
  g_autofree char *rest = rod_figures_length (sheets->units, (double) bar->rest_mm);
  g_autofree char *left =
    rack ? g_strdup_printf (_ ("rack, rest %s"), rest) : g_strdup_printf (_ ("rest %s"), rest);
  RodLetterStyle style = { .height = ROD_SHEET_SAW, .bold = TRUE, .width = block->gutter - 1.5 };

  y += ROD_SHEET_SAW;
  rod_lettering_write (sheets->lettering, cr, text, &style, x, y);
  style = (RodLetterStyle){ .height = ROD_SHEET_TEXT, .width = block->gutter - 1.5 - TICK_ROOM };
  if (block->bars->len == 1)
    {
      g_autofree char *name =
        g_strdup_printf (_ ("bar %u"), g_array_index (block->bars, guint, 0) + 1);

      y += GUTTER_PITCH;
      rod_lettering_write (sheets->lettering, cr, name, &style, x + TICK_ROOM, y);
    }
  style.width = block->gutter - 1.5;
  rod_lettering_write (sheets->lettering, cr, left, &style, x, y + GUTTER_PITCH);
}

void
rod_saw_block_write (const RodSawBlock *block,
                     const RodSheets   *sheets,
                     const RodCutting  *cutting,
                     double             x,
                     double             y,
                     cairo_t           *cr)
{
  double bar = x + block->gutter;

  write_gutter (block, sheets, cutting, x, y, cr);
  for (guint i = 0; i < block->n_places; i++)
    if (!block->places[i].listed)
      write_inside (block,
                    sheets,
                    cutting,
                    i,
                    (RodPoint){ bar + block->places[i].middle, y + 0.5 * block->bar_height },
                    cr);
  write_running_marks (block, sheets, bar, y, cr);
  y += rod_saw_block_head (block);
  y += rod_saw_set_notes (block, sheets, cr, x, y);
  rod_saw_set_names (block, sheets, cutting, cr, x, y);
}
