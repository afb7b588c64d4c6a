/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every sheet has round its drawing: frame and centring marks of ISO 5457, title block with
 * the data fields of ISO 7200, and the strip beside it with key plan and scale bar.
 *
 * A rod of 100 mm stands in the filing margin of every sheet: laid on a tape it shows whether the
 * printer kept the scale.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-figures.h"

#define BLOCK_WIDTH 180.0
#define BLOCK_ROWS 3
#define CELL_PAD 1.4
#define LABEL_GREY 0.38

#define CENTRING_REACH 5.0

#define ROD_LENGTH 100.0
#define ROD_WIDTH 3.0
#define ROD_FIELD 10.0
#define ROD_LEFT 8.0

#define KEY_WIDTH 42.0
#define KEY_PAD 2.5
#define SCALE_BAR_FIELDS 5
#define MM_PER_FOOT 304.8
#define SCALE_BAR_HEIGHT 1.6

/* A cell of the title block. */
typedef struct
{
  int         row;
  double      left;
  double      right;
  const char *label;
  const char *value;
} Cell;

static void
draw_cell (const RodSheets *sheets,
           cairo_t         *cr,
           const Cell      *cell,
           double           block_x,
           double           block_y)
{
  double         row = ROD_SHEET_STRIP / BLOCK_ROWS;
  double         x = block_x + cell->left;
  double         y = block_y + cell->row * row;
  RodLetterStyle label = { .height = ROD_SHEET_TEXT,
                           .width = cell->right - cell->left - 2 * CELL_PAD };
  RodLetterStyle value = label;

  value.bold = TRUE;
  cairo_rectangle (cr, x, y, cell->right - cell->left, row);
  cairo_set_source_rgb (cr, LABEL_GREY, LABEL_GREY, LABEL_GREY);
  rod_lettering_write (sheets->lettering, cr, cell->label, &label, x + CELL_PAD, y + 3.3);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_lettering_write (sheets->lettering, cr, cell->value, &value, x + CELL_PAD, y + 7.0);
}

static char *
write_scale (double denominator)
{
  if (denominator > 0.0)
    return g_strdup_printf ("1:%.0f", denominator);

  return g_strdup (denominator < 0.0 ? _ ("as noted") : "\u2013");
}

static void
draw_title_block (const RodSheets *sheets,
                  guint            page,
                  cairo_t         *cr)
{
  const RodSheet  *sheet = g_ptr_array_index (sheets->pages, page);
  const RodHouse  *house = sheets->house;
  g_autofree char *number = g_strdup_printf (_ ("%u of %u"), page + 1, sheets->pages->len);
  g_autofree char *scale = write_scale (sheet->scale);
  g_autofree char *job =
    g_strjoin (house->place[0] != '\0' ? ", " : "", house->name, house->place, NULL);
  const Cell cells[] = {
    { 0, 0.0, 94.0, _ ("Title"), sheet->title },
    { 0, 94.0, 146.0, _ ("Document"), sheet->document },
    { 0, 146.0, 180.0, _ ("Sheet"), number },
    { 1, 0.0, 94.0, _ ("Job"), job },
    { 1, 94.0, 146.0, _ ("Drawn by"), house->author },
    { 1, 146.0, 180.0, _ ("Date of issue"), sheets->date },
    { 2, 0.0, 60.0, _ ("Client"), house->client },
    { 2, 60.0, 94.0, _ ("Approved"), "" },
    { 2, 94.0, 146.0, _ ("Design number"), sheets->number },
    { 2, 146.0, 180.0, _ ("Scale"), scale },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cells); i++)
    draw_cell (sheets,
               cr,
               &cells[i],
               sheets->width - ROD_SHEET_MARGIN - BLOCK_WIDTH,
               sheets->height - ROD_SHEET_MARGIN - ROD_SHEET_STRIP);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_stroke (cr);
}

static void
draw_frame_lines (const RodSheets *sheets,
                  cairo_t         *cr)
{
  double left = ROD_SHEET_MARGIN_LEFT, right = sheets->width - ROD_SHEET_MARGIN;
  double top = ROD_SHEET_MARGIN, bottom = sheets->height - ROD_SHEET_MARGIN;
  double middle_x = 0.5 * sheets->width, middle_y = 0.5 * sheets->height;

  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (cr, ROD_SHEET_FRAME);
  cairo_rectangle (cr, left, top, right - left, bottom - top);
  cairo_move_to (cr, middle_x, top - CENTRING_REACH);
  cairo_line_to (cr, middle_x, top);
  cairo_move_to (cr, middle_x, bottom);
  cairo_line_to (cr, middle_x, bottom + CENTRING_REACH);
  cairo_move_to (cr, left - CENTRING_REACH, middle_y);
  cairo_line_to (cr, left, middle_y);
  cairo_move_to (cr, right, middle_y);
  cairo_line_to (cr, right + CENTRING_REACH, middle_y);
  cairo_stroke (cr);

  cairo_set_line_width (cr, ROD_SHEET_WIDE);
  cairo_move_to (cr, left, bottom - ROD_SHEET_STRIP);
  cairo_line_to (cr, right, bottom - ROD_SHEET_STRIP);
  cairo_move_to (cr, right - BLOCK_WIDTH, bottom - ROD_SHEET_STRIP);
  cairo_line_to (cr, right - BLOCK_WIDTH, bottom);
  cairo_stroke (cr);
}

static void
draw_printed_rod (const RodSheets *sheets,
                  cairo_t         *cr)
{
  double         foot = sheets->height - ROD_SHEET_MARGIN;
  RodLetterStyle style = { .height = ROD_SHEET_TEXT, .angle_deg = 90.0 };

  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  for (int i = 0; i * ROD_FIELD < ROD_LENGTH; i += 2)
    cairo_rectangle (cr, ROD_LEFT, foot - (i + 1) * ROD_FIELD, ROD_WIDTH, ROD_FIELD);
  cairo_fill (cr);
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_rectangle (cr, ROD_LEFT, foot - ROD_LENGTH, ROD_WIDTH, ROD_LENGTH);
  cairo_stroke (cr);
  rod_lettering_write (sheets->lettering,
                       cr,
                       _ ("100 mm when printed to scale"),
                       &style,
                       ROD_LEFT + ROD_WIDTH + 1.2 + ROD_SHEET_TEXT,
                       foot);
}

/* The whole house in small, this sheet's faces filled. */
static void
draw_key_plan (const RodSheets *sheets,
               const RodSheet  *sheet,
               cairo_t         *cr,
               RodRoom          room)
{
  RodAffine to_page = rod_net_to_page (sheets, room);

  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint i = 0; i < sheets->plan->faces->len; i++)
    {
      const RodFace *of = rod_plan_face (sheets->plan, i);

      if (of->parent < 0)
        rod_drawing_trace_outline (cr, of->surface, rod_affine_multiply (sheets->net[i], to_page));
    }
  cairo_set_source_rgb (cr, 0.9, 0.9, 0.9);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.3, 0.3, 0.3);
  cairo_set_line_width (cr, 0.13);
  cairo_stroke (cr);

  for (guint i = 0; i < sheet->faces->len; i++)
    {
      guint          face = g_array_index (sheet->faces, guint, i);
      const RodFace *of = rod_plan_face (sheets->plan, face);

      rod_drawing_trace_outline (cr, of->surface, rod_affine_multiply (sheets->net[face], to_page));
    }
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  cairo_fill_preserve (cr);
  cairo_set_line_width (cr, ROD_SHEET_WIDE);
  cairo_stroke (cr);
}

static void
draw_scale_bar (const RodSheets *sheets,
                double           denominator,
                cairo_t         *cr,
                RodRoom          room)
{
  double           unit = sheets->units == ROD_UNITS_METRIC ? 1.0 : MM_PER_FOOT;
  double           step = unit * rod_scale_bar_step (denominator / unit, room.width - 12.0);
  double           field = step / denominator;
  double           y = room.y + room.height - 4.0;
  g_autofree char *end = rod_figures_length_unit (sheets->units, SCALE_BAR_FIELDS * step);
  g_autofree char *scale = g_strdup_printf (_ ("Scale 1:%.0f"), denominator);
  RodLetterStyle   style = { .height = ROD_SHEET_TEXT, .align = ROD_ALIGN_CENTRE };

  rod_sheet_write (sheets, cr, scale, ROD_SHEET_LABEL, TRUE, room.x, y - 9.5);
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  for (int i = 0; i < SCALE_BAR_FIELDS; i++)
    {
      cairo_rectangle (cr, room.x + i * field, y, field, SCALE_BAR_HEIGHT);
      if (i % 2 == 0)
        cairo_fill_preserve (cr);
      cairo_stroke (cr);
    }
  rod_sheet_write (sheets, cr, "0", ROD_SHEET_TEXT, FALSE, room.x, y - 1.4);
  rod_lettering_write (sheets->lettering,
                       cr,
                       end,
                       &style,
                       room.x + SCALE_BAR_FIELDS * field,
                       y - 1.4);
}

/* On lists: what made the sheet, and in which units. */
static void
draw_imprint (const RodSheets *sheets,
              cairo_t         *cr,
              RodRoom          room)
{
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_sheet_write (sheets, cr, "Storeyrod", ROD_SHEET_TITLE, TRUE, room.x + 1.0, room.y + 7.5);
  rod_sheet_write (sheets,
                   cr,
                   sheets->units == ROD_UNITS_METRIC ? _ ("Lengths in millimetres")
                                                     : _ ("Lengths in feet and inches"),
                   ROD_SHEET_TEXT,
                   FALSE,
                   room.x + 1.0,
                   room.y + 15.0);
}

static void
draw_strip (const RodSheets *sheets,
            const RodSheet  *sheet,
            cairo_t         *cr)
{
  RodRoom room = {
    .x = ROD_SHEET_MARGIN_LEFT + KEY_PAD,
    .y = sheets->height - ROD_SHEET_MARGIN - ROD_SHEET_STRIP + KEY_PAD,
    .width = KEY_WIDTH - 2.0 * KEY_PAD,
    .height = ROD_SHEET_STRIP - 2.0 * KEY_PAD,
  };

  if (sheet->faces == NULL)
    {
      draw_imprint (sheets, cr, room);
      return;
    }
  draw_key_plan (sheets, sheet, cr, room);
  room.x += room.width + 2.0 * KEY_PAD;
  room.width = sheets->width - ROD_SHEET_MARGIN - BLOCK_WIDTH - KEY_PAD - room.x;
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  if (sheet->scale > 0.0)
    draw_scale_bar (sheets, sheet->scale, cr, room);
}

void
rod_sheet_draw_frame (const RodSheets *sheets,
                      guint            page,
                      cairo_t         *cr)
{
  /* A drawing that ran over its room must not run through the title block. */
  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  cairo_rectangle (cr,
                   ROD_SHEET_MARGIN_LEFT,
                   sheets->height - ROD_SHEET_MARGIN - ROD_SHEET_STRIP,
                   sheets->width - ROD_SHEET_MARGIN_LEFT,
                   ROD_SHEET_STRIP + ROD_SHEET_MARGIN);
  cairo_fill (cr);
  draw_strip (sheets, g_ptr_array_index (sheets->pages, page), cr);
  draw_title_block (sheets, page, cr);
  draw_frame_lines (sheets, cr);
  draw_printed_rod (sheets, cr);
}
