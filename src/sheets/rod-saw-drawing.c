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

void
rod_saw_block_trace_bar (const RodSawBlock *block,
                         const RodCutting  *cutting,
                         double             x,
                         double             y,
                         cairo_t           *cr)
{
  double length = rod_saw_stock_length (cutting, rod_saw_bar_at (cutting, block->first_bar));

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
  const RodSawBar *bar = rod_saw_bar_at (cutting, block->first_bar);
  RodPoint         scale = { block->scale, block->bar_height };

  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = rod_saw_item_at (cutting, bar, i);
      double            left = x + block->gutter + block->starts[i] * block->scale;
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
  return y + block->bar_height + MARK_GAP + block->levels[i] * MARK_PITCH + ROD_SHEET_SAW;
}

void
rod_saw_block_trace_cuts (const RodSawBlock *block,
                          const RodSheets   *sheets,
                          double             x,
                          double             y,
                          cairo_t           *cr)
{
  for (guint i = 0; i < block->n_pieces; i++)
    {
      double at = x + block->gutter + rod_saw_piece_end (block, sheets, i) * block->scale;

      if (block->levels[i] == MARK_HIDDEN)
        continue;
      cairo_move_to (cr, at, y);
      cairo_line_to (cr, at, mark_base (block, i, y) - ROD_SHEET_SAW - 0.4);
    }
}

/* Top of the lines with the names of each bar. */
static double
rows_top (const RodSawBlock *block,
          const RodSheets   *sheets,
          double             y)
{
  return y + block->bar_height + MARK_GAP + block->n_levels * MARK_PITCH +
         rod_saw_set_features (block, sheets, NULL, 0.0, 0.0);
}

void
rod_saw_block_trace_ticks (const RodSawBlock *block,
                           const RodSheets   *sheets,
                           double             x,
                           double             y,
                           cairo_t           *cr)
{
  double row = rows_top (block, sheets, y);

  if (block->names == NAMES_INSIDE)
    {
      cairo_rectangle (cr, x + 0.2, y + ROD_SHEET_SAW + 1.6, TICK, TICK);
      return;
    }
  for (guint b = 0; b < block->n_bars; b++)
    {
      cairo_rectangle (cr, x + block->gutter - TICK - 1.8, row, TICK, TICK);
      row += block->row_heights[b];
    }
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
  if (block->bar_height < BAR_HEIGHT || named ||
      !rod_saw_fits (sheets, figure, style.height, TRUE, room))
    style.height = ROD_SHEET_SAW;
  if (!rod_saw_fits (sheets, figure, style.height, TRUE, room))
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
write_lengths (const RodSawBlock *block,
               const RodSheets   *sheets,
               const RodCutting  *cutting,
               double             x,
               double             y,
               cairo_t           *cr)
{
  const RodSawBar *bar = rod_saw_bar_at (cutting, block->first_bar);

  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = rod_saw_item_at (cutting, bar, i);

      write_inside (block,
                    sheets,
                    item,
                    x + (block->starts[i] + 0.5 * (double) item->length_mm) * block->scale,
                    y,
                    cr);
    }
}

static void
write_running_marks (const RodSawBlock *block,
                     const RodSheets   *sheets,
                     double             x,
                     double             y,
                     cairo_t           *cr)
{
  RodLetterStyle style = { .height = ROD_SHEET_SAW, .bold = TRUE, .align = ROD_ALIGN_CENTRE };
  double         right = x + block->width - block->gutter;

  for (guint i = 0; i < block->n_pieces; i++)
    {
      double           end = rod_saw_piece_end (block, sheets, i);
      g_autofree char *figure = rod_figures_length (sheets->units, end);
      double           width = rod_lettering_width (sheets->lettering, figure, ROD_SHEET_SAW, TRUE);
      /* The last mark stays within its column. */
      double at = fmin (x + end * block->scale, right - 0.5 * width);

      if (block->levels[i] != MARK_HIDDEN)
        rod_lettering_write (sheets->lettering, cr, figure, &style, at, mark_base (block, i, y));
    }
}

/* Beside the bar: how many of which length, which they are, and what is left of each. */
static void
write_gutter (const RodSawBlock *block,
              const RodSheets   *sheets,
              const RodCutting  *cutting,
              double             x,
              double             y,
              cairo_t           *cr)
{
  const RodSawBar *bar = rod_saw_bar_at (cutting, block->first_bar);
  double           length = rod_saw_stock_length (cutting, bar);
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
  RodLetterStyle style = { .height = ROD_SHEET_SAW, .bold = TRUE, .width = block->gutter - 1.5 };
  double         indent = block->names == NAMES_INSIDE ? TICK + 1.5 : 0.0;

  rod_lettering_write (sheets->lettering, cr, text, &style, x, y + ROD_SHEET_SAW);
  style = (RodLetterStyle){ .height = ROD_SHEET_TEXT, .width = block->gutter - 1.5 - indent };
  rod_lettering_write (sheets->lettering,
                       cr,
                       bars,
                       &style,
                       x + indent,
                       y + ROD_SHEET_SAW + GUTTER_PITCH);
  style.width = block->gutter - 1.5;
  rod_lettering_write (sheets->lettering,
                       cr,
                       left,
                       &style,
                       x,
                       y + ROD_SHEET_SAW + 2.0 * GUTTER_PITCH);
}

/* One line for each bar: marks under their pieces or in order. */
static void
write_row (const RodSawBlock *block,
           const RodSheets   *sheets,
           const RodCutting  *cutting,
           guint              row,
           RodPoint           at,
           cairo_t           *cr)
{
  const RodSawBar *bar = rod_saw_bar_at (cutting, block->first_bar + row);

  if (block->names == NAMES_IN_ORDER)
    {
      g_autofree char *text = rod_saw_list_names (block, sheets, cutting, bar);

      rod_sheet_paragraph (sheets,
                           cr,
                           text,
                           rod_saw_names_height (block),
                           FALSE,
                           at.x,
                           at.y,
                           block->width - block->gutter);
      return;
    }
  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = rod_saw_item_at (cutting, bar, i);
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
rod_saw_block_write (const RodSawBlock *block,
                     const RodSheets   *sheets,
                     const RodCutting  *cutting,
                     double             x,
                     double             y,
                     cairo_t           *cr)
{
  write_gutter (block, sheets, cutting, x, y, cr);
  x += block->gutter;
  write_lengths (block, sheets, cutting, x, y, cr);
  write_running_marks (block, sheets, x, y, cr);
  y += block->bar_height + MARK_GAP + block->n_levels * MARK_PITCH;
  y += rod_saw_set_features (block, sheets, cr, x, y);
  for (guint b = 0; b < block->n_bars; b++)
    {
      if (block->names != NAMES_INSIDE)
        write_row (block, sheets, cutting, b, (RodPoint){ x, y }, cr);
      y += block->row_heights[b];
    }
}
