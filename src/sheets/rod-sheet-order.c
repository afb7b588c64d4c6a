/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order: what the merchant delivers, in the units he sells. */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <glib/gi18n-lib.h>

#include "sheets/rod-figures.h"

static const char *
kind_heading (RodArticleKind kind)
{
  switch (kind)
    {
    case ROD_ARTICLE_BOARD:
      return _ ("Boards");
    case ROD_ARTICLE_TRIM:
      return _ ("Trims");
    case ROD_ARTICLE_BATTEN:
      return _ ("Battens");
    case ROD_ARTICLE_FIXING:
    default:
      return _ ("Screws");
    }
}

static char *
write_packs (const RodOrderLine *line)
{
  g_autofree char *packs = NULL;
  g_autofree char *pack = NULL;

  if (line->pack <= 1)
    return g_strdup ("");

  packs = rod_figures_count (line->packs);
  pack = rod_figures_count (line->pack);

  return g_strdup_printf ("%s × %s", packs, pack);
}

static void
add_line (const RodSheets    *sheets,
          RodTable           *table,
          const RodOrderLine *line)
{
  const char      *currency = sheets->house->buying->currency;
  g_autofree char *length =
    line->length_mm > 0.0 ? rod_figures_length (sheets->units, line->length_mm) : g_strdup ("");
  g_autofree char *needed = rod_figures_count (line->needed);
  g_autofree char *spare = rod_figures_count (line->spare);
  g_autofree char *ordered = rod_figures_count (line->ordered);
  g_autofree char *packs = write_packs (line);
  g_autofree char *price = rod_figures_amount (currency, line->price);
  g_autofree char *total = rod_figures_amount (currency, line->total);
  g_autofree char *weight =
    line->weight_kg > 0.0 ? rod_figures_weight (sheets->units, line->weight_kg) : g_strdup ("");
  const char *cells[] = { "x",
                          line->name,
                          line->colour != NULL ? line->colour->rgb : "",
                          line->colour != NULL ? line->colour->name : "",
                          length,
                          needed,
                          spare,
                          ordered,
                          packs,
                          price,
                          total,
                          weight,
                          NULL };

  rod_table_add (table, ROD_ROW_PLAIN, cells);
}

void
rod_sheets_add_order (RodSheets *sheets)
{
  const RodTakeoff *takeoff = sheets->takeoff;
  const char       *currency = sheets->house->buying->currency;
  g_autofree char  *total_title = g_strdup_printf (_ ("Total %s"), currency);
  const RodColumn   columns[] = {
      { "", ROD_COLUMN_TICK, 6.0, FALSE },
      { _ ("Article"), ROD_COLUMN_TEXT, -3.0, FALSE },
      { "", ROD_COLUMN_COLOUR, 7.5, FALSE },
      { _ ("Colour"), ROD_COLUMN_TEXT, -2.0, FALSE },
      { _ ("Length"), ROD_COLUMN_FIGURE, 19.0, FALSE },
      { _ ("Needed"), ROD_COLUMN_FIGURE, 18.0, FALSE },
      { _ ("Spare"), ROD_COLUMN_FIGURE, 15.0, FALSE },
      { _ ("Order"), ROD_COLUMN_FIGURE, 18.0, TRUE },
      { _ ("Packs"), ROD_COLUMN_FIGURE, 20.0, FALSE },
      { _ ("Price"), ROD_COLUMN_FIGURE, 19.0, FALSE },
      { total_title, ROD_COLUMN_FIGURE, 26.0, FALSE },
      { _ ("Weight"), ROD_COLUMN_FIGURE, 20.0, FALSE },
  };
  RodTable        *table;
  g_autofree char *total = rod_figures_amount (currency, takeoff->total);
  g_autofree char *weight = rod_figures_weight (sheets->units, takeoff->weight_kg);
  const char      *cells[] = {
         "",
         _ ("Sum, without tax"),
         "",
         "",
         "",
         "",
         "",
         "",
         "",
         "",
         total,
    takeoff->weight_kg > 0.0 ? weight : "",
         NULL,
  };

  if (takeoff->lines->len == 0)
    return;

  table = rod_table_new (columns,
                         G_N_ELEMENTS (columns),
                         sheets->room.width,
                         ROD_SHEET_TEXT,
                         sheets->lettering);
  for (guint i = 0; i < takeoff->lines->len; i++)
    {
      const RodOrderLine *line = &g_array_index (takeoff->lines, RodOrderLine, i);
      const char         *heading[] = { kind_heading (line->kind), NULL };

      if (i == 0 || g_array_index (takeoff->lines, RodOrderLine, i - 1).kind != line->kind)
        rod_table_add (table, ROD_ROW_HEADING, heading);
      add_line (sheets, table, line);
    }
  rod_table_add (table, ROD_ROW_TOTAL, cells);
  rod_sheets_add_table (sheets,
                        _ ("Order"),
                        _ ("Order"),
                        table,
                        _ ("All boards of one colour from one batch. Count on delivery and tick; "
                           "do not sign for damaged packs."),
                        0);
}
