/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/**
 * RodList:
 * @ROD_LIST_PIECES: one row for each board
 * @ROD_LIST_CUTTING: one row for each cut, bar by bar in sawing order, with its marks on the tape
 * @ROD_LIST_ORDER: one row for each line of the order
 * @ROD_LIST_TRIMS: one row for each trim run
 * @ROD_LIST_BATTENS: one row for each batten
 * @ROD_LIST_JOINT_LINES: one row for each joint line of each field: the storey rod
 * @ROD_LIST_FINDINGS: one row for each finding, worst first
 * @ROD_N_LISTS: how many lists there are
 *
 * Tables for a spreadsheet or a merchant's program.
 */
typedef enum
{
  ROD_LIST_PIECES,
  ROD_LIST_CUTTING,
  ROD_LIST_ORDER,
  ROD_LIST_TRIMS,
  ROD_LIST_BATTENS,
  ROD_LIST_JOINT_LINES,
  ROD_LIST_FINDINGS,
  ROD_N_LISTS,
} RodList;

/**
 * rod_list_name:
 * @list: a list
 *
 * Returns: (transfer none): its word in file names, e.g. "joint-lines"
 */
const char *rod_list_name (RodList list);

/**
 * rod_list_text:
 * @takeoff: a take-off with its plan
 * @list: which list
 *
 * Writes a list as comma-separated values, see #RodCsv. Columns have English names with their unit
 * and never change their meaning; new ones are added at the end. Only the sentences of findings and
 * the labels of faces are in the language in which the plan was made.
 *
 * Returns: (transfer full): the text of the file
 */
char *rod_list_text (const RodTakeoff *takeoff,
                     RodList           list) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
