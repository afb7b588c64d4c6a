/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member table of a cladding system and the finding of its parts by id. Systems have some ten parts
 * of a kind, so that a search from the start is as quick as any index. */
#include "config.h"

#include "engine/model/rod-system.h"

#include "engine/model/rod-member.h"

#include <glib/gi18n-lib.h>

const RodChoice rod_system_kind_choices[] = {
  { ROD_SYSTEM_HOLLOW, "hollow", N_ ("Hollow board") },
  { ROD_SYSTEM_SOLID, "solid", N_ ("Solid board") },
  { ROD_SYSTEM_TIMBER, "timber", N_ ("Timber board") },
  { ROD_SYSTEM_PANEL, "panel", N_ ("Wide panel") },
  { 0, NULL, NULL },
};

/* clang-format off */
static const RodMember system_members[] = {
  ROD_ROW (RodSystem, format, TEXT, .doc = "Says what the file is; left out inside a house."),
  ROD_ROW (RodSystem, version, INTEGER, .min = 1, .max = 1, .fallback = 1,
           .doc = "Version of the format."),
  ROD_ROW (RodSystem, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the house."),
  ROD_ROW (RodSystem, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodSystem, from, TEXT, .flags = ROD_MEMBER_INSTEAD,
           .doc = "File to read the system from: one that comes with the program, by its name, "
                  "or a path beside the house. A saved house holds the system itself."),
  ROD_ROW (RodSystem, kind, CHOICE, .flags = ROD_MEMBER_REQUIRED,
           .choices = rod_system_kind_choices, .doc = "What kind of board."),
  ROD_ROW (RodSystem, expansion_mm_m_k, NUMBER, .max = 0.5, .fallback = 0.07, .unit = "mm/(m·K)",
           .doc = "Thermal expansion."),
  ROD_ROW (RodSystem, swelling_percent, NUMBER, .max = 5, .unit = "%",
           .doc = "Change of length for each per cent of moisture; 0 where heat alone moves the "
                  "board."),
  ROD_ROW (RodSystem, moisture_fixed, NUMBER, .max = 60, .fallback = 16, .unit = "%",
           .doc = "Moisture when fixed."),
  ROD_ROW (RodSystem, moisture_low, NUMBER, .max = 60, .fallback = 10, .unit = "%",
           .doc = "Moisture when driest."),
  ROD_ROW (RodSystem, moisture_high, NUMBER, .max = 60, .fallback = 20, .unit = "%",
           .doc = "Moisture when wettest."),
  ROD_ROW (RodSystem, boards, LIST, .flags = ROD_MEMBER_REQUIRED, .min = 1, .max = 1000,
           .of = &rod_board_type, .doc = "Boards; the first is used where none is chosen."),
  ROD_ROW (RodSystem, trims, LIST, .max = 1000, .of = &rod_trim_type, .doc = "Trims."),
  ROD_ROW (RodSystem, trim_rules, LIST, .max = 1000, .of = &rod_trim_rule_type,
           .doc = "Table that places trims; the first row that fits an edge decides."),
  ROD_ROW (RodSystem, joint_trim, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the trim at length joints; left out for none."),
  ROD_ROW (RodSystem, fixings, LIST, .max = 1000, .of = &rod_fixing_type, .doc = "Screws."),
  ROD_ROW (RodSystem, board_fixing, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the screw for boards."),
  ROD_ROW (RodSystem, trim_fixing, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the screw for trims."),
  ROD_ROW (RodSystem, batten, RECORD, .flags = ROD_MEMBER_FILLED, .of = &rod_batten_type,
           .doc = "Batten under the boards."),
  ROD_ROW (RodSystem, counter_batten, RECORD, .of = &rod_batten_type,
           .doc = "Batten behind horizontal battens."),
  ROD_ROW (RodSystem, rules, RECORD, .flags = ROD_MEMBER_FILLED, .of = &rod_rules_type,
           .doc = "Rules of the system."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_system_type = {
  .name = "system",
  .doc = "A cladding system: boards, trims, screws and their rules.",
  .size = sizeof (RodSystem),
  .members = system_members,
  .format = "storeyrod-system",
  .version = 1,
};

const RodBoard *
rod_system_find_board (const RodSystem *system,
                       const char      *id)
{
  g_return_val_if_fail (system != NULL && id != NULL, NULL);

  for (guint i = 0; i < system->boards->len; i++)
    {
      const RodBoard *board = system->boards->pdata[i];

      if (*id == '\0' || g_str_equal (board->id, id))
        return board;
    }
  return NULL;
}

const RodTrim *
rod_system_find_trim (const RodSystem *system,
                      const char      *id)
{
  g_return_val_if_fail (system != NULL && id != NULL, NULL);

  for (guint i = 0; i < system->trims->len; i++)
    {
      const RodTrim *trim = system->trims->pdata[i];

      if (g_str_equal (trim->id, id))
        return trim;
    }
  return NULL;
}

const RodFixing *
rod_system_find_fixing (const RodSystem *system,
                        const char      *id)
{
  g_return_val_if_fail (system != NULL && id != NULL, NULL);

  for (guint i = 0; i < system->fixings->len; i++)
    {
      const RodFixing *fixing = system->fixings->pdata[i];

      if (g_str_equal (fixing->id, id))
        return fixing;
    }
  return NULL;
}
