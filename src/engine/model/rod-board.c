/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member tables of what a system sells by the bar: stock lengths, colours and boards. */
#include "config.h"

#include "engine/model/rod-system.h"

#include "engine/model/rod-member.h"

#include <glib/gi18n-lib.h>

const RodChoice rod_lightness_choices[] = {
  { ROD_LIGHTNESS_BRIGHT, "bright", N_ ("Bright") },
  { ROD_LIGHTNESS_LIGHT, "light", N_ ("Light") },
  { ROD_LIGHTNESS_DARK, "dark", N_ ("Dark") },
  { 0, NULL, NULL },
};

/* clang-format off */
static const RodMember stock_members[] = {
  ROD_ROW (RodStock, length_mm, NUMBER, .flags = ROD_MEMBER_REQUIRED, .min = 100, .max = 20000,
           .unit = "mm", .doc = "Length as sold."),
  ROD_ROW (RodStock, price, NUMBER, .max = 1e6, .doc = "Price of one, in the house's currency."),
  ROD_ROW (RodStock, pack, INTEGER, .min = 1, .max = 10000, .fallback = 1,
           .doc = "How many are in a sales pack; 1 when sold singly."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_stock_type = {
  .name = "stock",
  .doc = "A length in which a board, trim or batten is sold.",
  .size = sizeof (RodStock),
  .members = stock_members,
};

/* clang-format off */
static const RodMember colour_members[] = {
  ROD_ROW (RodColour, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the board."),
  ROD_ROW (RodColour, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodColour, rgb, TEXT, .max = 7, .fallback_text = "#c8c8c0", .pattern = "#[0-9a-fA-F]{6}",
           .doc = "Colour on screen and paper, as #rrggbb."),
  ROD_ROW (RodColour, lightness, CHOICE, .fallback = ROD_LIGHTNESS_LIGHT,
           .choices = rod_lightness_choices,
           .doc = "How it warms in the sun (classes of EN 1991-1-5, table 5.2)."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_colour_type = {
  .name = "colour",
  .doc = "A colour in which a board is sold.",
  .size = sizeof (RodColour),
  .members = colour_members,
};

/* clang-format off */
static const RodMember board_members[] = {
  ROD_ROW (RodBoard, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the system."),
  ROD_ROW (RodBoard, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodBoard, cover_mm, NUMBER, .flags = ROD_MEMBER_REQUIRED, .min = 20, .max = 2000,
           .unit = "mm", .doc = "Cover width, from joint line to joint line."),
  ROD_ROW (RodBoard, flange_mm, NUMBER, .max = 200, .unit = "mm",
           .doc = "Concealed fixing flange beyond the cover, on the side of the next course."),
  ROD_ROW (RodBoard, thickness_mm, NUMBER, .flags = ROD_MEMBER_REQUIRED, .min = 1, .max = 200,
           .unit = "mm", .doc = "From the front face to the batten face."),
  ROD_ROW (RodBoard, weight_kg_m, NUMBER, .max = 200, .unit = "kg/m",
           .doc = "Weight of one metre."),
  ROD_ROW (RodBoard, for_soffits, FLAG, .fallback = TRUE,
           .doc = "Whether it may be used on soffits."),
  ROD_ROW (RodBoard, stock, LIST, .flags = ROD_MEMBER_REQUIRED, .min = 1, .max = 100,
           .of = &rod_stock_type, .doc = "Stock lengths."),
  ROD_ROW (RodBoard, colours, LIST, .flags = ROD_MEMBER_REQUIRED, .min = 1, .max = 1000,
           .of = &rod_colour_type, .doc = "Colours; the first is used where none is chosen."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_board_type = {
  .name = "board",
  .doc = "A board that interlocks with the next course.",
  .size = sizeof (RodBoard),
  .members = board_members,
};

const RodColour *
rod_board_find_colour (const RodBoard *board,
                       const char     *id)
{
  g_return_val_if_fail (board != NULL && id != NULL, NULL);

  for (guint i = 0; i < board->colours->len; i++)
    {
      const RodColour *colour = board->colours->pdata[i];

      if (*id == '\0' || g_str_equal (colour->id, id))
        return colour;
    }
  return NULL;
}
