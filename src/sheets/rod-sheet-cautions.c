/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions: what the drawings do not know and what hurts people on such a site. */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <glib/gi18n-lib.h>

#define COLUMN_GAP 8.0
#define N_COLUMNS 2
#define BLOCK_GAP 2.6

static const struct
{
  const char *heading;
  const char *text;
} cautions[] = {
  { N_ ("Work at height"),
    N_ ("Work from a scaffold or platform fit for it, with guard rails and toe boards. A ladder "
        "is for short, light work only: one out for every four up, tied at the top. No boards "
        "in wind: a long board catches it like a sail.") },
  { N_ ("Saws"),
    N_ ("Guard and riving knife in place, the work clamped, two hands on the saw, nobody in "
        "line with the blade. Unplug before changing the blade. Eye and ear protection.") },
  { N_ ("Dust"),
    N_ ("Dust of wood, plastic and above all of mineral boards harms the lungs: cut outside or "
        "with extraction, and wear a mask made for it. Sweep wet. Never burn plastic offcuts.") },
  { N_ ("What is behind"),
    N_ ("Damp, loose render, old fixings, asbestos in old sheets: have the wall judged before "
        "it is covered. Never saw or drill what may hold asbestos.") },
  { N_ ("Electricity and pipes"),
    N_ ("Find cables and pipes before driving a screw. Lights, sockets and cables are for a "
        "licensed electrician.") },
  { N_ ("Wind and structure"),
    N_ ("Battens, brackets, anchors and screws carry wind suction into the wall, most of all at "
        "corners. How many are enough is for a licensed structural engineer; the numbers here "
        "follow from how boards are held, not from wind.") },
  { N_ ("Fire"),
    N_ ("Combustible boards, the cavity behind them and its barriers are governed by local "
        "rules that differ by height, use and distance to neighbours. Ask the authority before "
        "ordering. Barriers are not drawn.") },
  { N_ ("Lifting and storing"),
    N_ ("Two people carry a long board, on edge. Store boards flat, on supports a metre apart, "
        "out of the sun, with the film off in time.") },
  { N_ ("Measure again"),
    N_ ("These figures are as good as the survey. Measure each face again before it is cut, "
        "above all the dimensions that decide the narrowest strips. Gaps hold for the "
        "temperature at which boards are to be cut; on a much colder or warmer day plan again.") },
};

const char *
rod_sheet_caution (void)
{
  return _ ("Follow local safety law, the board maker's instructions and your building authority; "
            "this drawing does not replace a structural or fire check.");
}

static double
draw_caution (const RodSheets *sheets,
              cairo_t         *cr,
              guint            i,
              double           x,
              double           y,
              double           width)
{
  y +=
    rod_sheet_paragraph (sheets, cr, _ (cautions[i].heading), ROD_SHEET_LABEL, TRUE, x, y, width);
  y -= 0.6;

  return y + BLOCK_GAP +
         rod_sheet_paragraph (sheets, cr, _ (cautions[i].text), ROD_SHEET_TEXT, FALSE, x, y, width);
}

static void
draw_cautions (const RodSheets *sheets,
               const RodSheet  *sheet,
               cairo_t         *cr)
{
  double width = (sheets->room.width - (N_COLUMNS - 1) * COLUMN_GAP) / N_COLUMNS;
  double top = rod_sheet_heading (sheets, cr, sheet->title);
  double x = sheets->room.x;
  double y;

  top += 3.0 + rod_sheet_paragraph (sheets,
                                    cr,
                                    rod_sheet_caution (),
                                    ROD_SHEET_LABEL,
                                    TRUE,
                                    x,
                                    top,
                                    sheets->room.width);
  y = top;
  for (guint i = 0; i < G_N_ELEMENTS (cautions); i++)
    {
      if (i == (G_N_ELEMENTS (cautions) + 1) / N_COLUMNS)
        {
          x += width + COLUMN_GAP;
          y = top;
        }
      y = draw_caution (sheets, cr, i, x, y, width);
    }
}

void
rod_sheets_add_cautions (RodSheets *sheets)
{
  rod_sheets_add (sheets, _ ("Cautions"), _ ("Cautions"), g_strdup (_ ("Cautions")), draw_cautions);
}
