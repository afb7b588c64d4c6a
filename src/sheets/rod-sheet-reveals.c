/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Linings of openings: small faces, many of them, so that several share a sheet. All are drawn to
 * one scale, set on shelves in the order of the house.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-chain.h"
#include "sheets/rod-contour.h"

/* The largest scale used: at 1:10 a jamb of 2 m just fits, at 1:20 a mark still fits on its boards. */
#define LEAST_DENOMINATOR 20.0

#define HEADING_HEIGHT 10.0
#define LABEL_HEIGHT 10.5
#define LEFT 13.0
#define BOTTOM 12.0
#define LEAST_WIDTH 42.0
#define GAP 5.0
#define CHAIN_OFFSET 6.0

/* One face on the sheet. */
typedef struct
{
  guint    face;
  RodPoint low;
  RodPoint high;
  RodRoom  room;
} Block;

static Block
measure_block (const RodSheets *sheets,
               guint            face,
               double           denominator)
{
  Block block = { .face = face };

  rod_contour_surface_extent (rod_plan_face (sheets->plan, face)->surface, &block.low, &block.high);
  block.room.width = fmax (LEAST_WIDTH, (block.high.x - block.low.x) / denominator + LEFT);
  block.room.height = (block.high.y - block.low.y) / denominator + LABEL_HEIGHT + BOTTOM;

  return block;
}

static void
draw_dimension (const RodSheets *sheets,
                const Block     *block,
                RodAffine        to_page,
                cairo_t         *cr,
                gboolean         upright)
{
  g_autoptr (RodChain) chain = rod_chain_new (upright ? ROD_CHAIN_UPRIGHT : ROD_CHAIN_LEVEL);
  RodPoint      low = rod_affine_apply (to_page, block->low);
  RodChainPlace place = {
    .scale = to_page.xx,
    .zero = upright ? to_page.y0 : to_page.x0,
    .outline = upright ? low.x : low.y,
    .line = upright ? low.x - CHAIN_OFFSET : low.y + CHAIN_OFFSET,
    .height = ROD_SHEET_TEXT,
  };

  rod_chain_add (chain, upright ? block->low.y : block->low.x);
  rod_chain_add (chain, upright ? block->high.y : block->high.x);
  rod_chain_draw (chain, cr, sheets->lettering, sheets->units, &place);
}

static void
draw_block (const RodSheets *sheets,
            const Block     *block,
            double           denominator,
            cairo_t         *cr)
{
  const RodFace    *face = rod_plan_face (sheets->plan, block->face);
  double            paper = 1.0 / denominator;
  RodAffine         to_page = { paper, 0.0, block->room.x + LEFT - paper * block->low.x, 0.0, -paper, block->room.y + LABEL_HEIGHT + paper * block->high.y };
  RodDrawingOptions options;
  g_autofree char  *title = g_strdup_printf ("%s \u00b7 %s", face->mark, face->label);

  rod_drawing_options_init (&options);
  options.grey = sheets->options.grey;
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_sheet_paragraph (sheets, cr, title, ROD_SHEET_TEXT, TRUE, block->room.x, block->room.y, block->room.width);
  rod_drawing_face (cr, sheets->lettering, sheets->plan, block->face, to_page, &options);
  draw_dimension (sheets, block, to_page, cr, TRUE);
  draw_dimension (sheets, block, to_page, cr, FALSE);
}

static void
draw_reveals (const RodSheets *sheets,
              const RodSheet  *sheet,
              cairo_t         *cr)
{
  const GArray *blocks = sheet->data;

  rod_sheet_heading (sheets, cr, _ ("Linings of openings"));
  for (guint i = 0; i < blocks->len; i++)
    draw_block (sheets, &g_array_index (blocks, Block, i), sheet->scale, cr);
}

static RodSheet *
add_page (RodSheets *sheets,
          double     denominator)
{
  RodSheet *sheet = rod_sheets_add (sheets, _ ("Linings of openings"), _ ("Elevation"), NULL, draw_reveals);

  sheet->scale = denominator;
  sheet->data = g_array_new (FALSE, FALSE, sizeof (Block));
  sheet->free_data = (GDestroyNotify) g_array_unref;

  return sheet;
}

/* Sets a block on the shelf, on a new one, or on a new sheet. */
static void
place_block (RodSheets *sheets,
             RodSheet **sheet,
             Block      block,
             double     denominator,
             RodRoom   *shelf)
{
  double right = sheets->room.x + sheets->room.width;
  double bottom = sheets->room.y + sheets->room.height;

  if (*sheet != NULL && shelf->x + block.room.width > right)
    *shelf = (RodRoom){ sheets->room.x, shelf->y + shelf->height + GAP, 0.0, 0.0 };
  if (*sheet == NULL || shelf->y + block.room.height > bottom)
    {
      *sheet = add_page (sheets, denominator);
      *shelf = (RodRoom){ sheets->room.x, sheets->room.y + HEADING_HEIGHT, 0.0, 0.0 };
    }
  block.room.x = shelf->x;
  block.room.y = shelf->y;
  shelf->x += block.room.width + GAP;
  shelf->height = fmax (shelf->height, block.room.height);
  g_array_append_val ((GArray *) (*sheet)->data, block);
}

static double
choose_denominator (const RodSheets *sheets)
{
  double denominator = LEAST_DENOMINATOR;

  for (guint i = 0; i < sheets->plan->faces->len; i++)
    {
      Block block;

      if (rod_plan_face (sheets->plan, i)->parent < 0)
        continue;
      block = measure_block (sheets, i, denominator);
      denominator = fmax (denominator,
                          rod_scale_choose (block.high.x - block.low.x, block.high.y - block.low.y, sheets->room.width - LEFT, sheets->room.height - HEADING_HEIGHT - LABEL_HEIGHT - BOTTOM));
    }

  return denominator;
}

/* A page is named after the faces on it: first to last. */
static void
name_pages (RodSheets *sheets,
            guint      first_page)
{
  for (guint i = first_page; i < sheets->pages->len; i++)
    {
      RodSheet     *sheet = g_ptr_array_index (sheets->pages, i);
      const GArray *blocks = sheet->data;
      const Block  *first = &g_array_index (blocks, Block, 0);
      const Block  *last = &g_array_index (blocks, Block, blocks->len - 1);

      sheet->title = blocks->len == 1
                       ? g_strdup (rod_plan_face (sheets->plan, first->face)->label)
                       /* TRANSLATORS: from mark to mark, such as "A1 to A7". */
                       : g_strdup_printf (_ ("Linings %s to %s"),
                                          rod_plan_face (sheets->plan, first->face)->mark,
                                          rod_plan_face (sheets->plan, last->face)->mark);
    }
}

void
rod_sheets_add_reveals (RodSheets *sheets)
{
  double    denominator = choose_denominator (sheets);
  guint     first_page = sheets->pages->len;
  RodSheet *sheet = NULL;
  RodRoom   shelf = { 0.0, 0.0, 0.0, 0.0 };

  for (guint i = 0; i < sheets->plan->faces->len; i++)
    if (rod_plan_face (sheets->plan, i)->parent >= 0)
      place_block (sheets, &sheet, measure_block (sheets, i, denominator), denominator, &shelf);
  name_pages (sheets, first_page);
}
