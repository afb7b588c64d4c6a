/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member tables of battens, screws and the rules of a system. Fallbacks are common practice with no
 * single source; a system states its maker's own. */
#include "config.h"

#include "engine/model/rod-system.h"

#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>

const RodChoice rod_fixed_point_choices[] = {
  { ROD_FIXED_MIDDLE, "middle", N_ ("In the middle") },
  { ROD_FIXED_TOP, "top", N_ ("At the upper end") },
  { 0, NULL, NULL },
};

/* clang-format off */
static const RodMember fixing_members[] = {
  ROD_ROW (RodFixing, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the system."),
  ROD_ROW (RodFixing, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodFixing, length_mm, NUMBER, .min = 1, .max = 500, .fallback = 35, .unit = "mm",
           .doc = "Length under the head."),
  ROD_ROW (RodFixing, pack, INTEGER, .min = 1, .max = 100000, .fallback = 1,
           .doc = "How many are in a pack."),
  ROD_ROW (RodFixing, price, NUMBER, .max = 1e6,
           .doc = "Price of a pack, in the house's currency."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_fixing_type = {
  .name = "fixing",
  .doc = "A screw.",
  .size = sizeof (RodFixing),
  .members = fixing_members,
};

/* clang-format off */
static const RodMember batten_members[] = {
  ROD_ROW (RodBatten, id, TEXT, .flags = ROD_MEMBER_IDENTIFIER, .fallback_text = "batten",
           .doc = "Identifier within the system."),
  ROD_ROW (RodBatten, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodBatten, width_mm, NUMBER, .min = 10, .max = 300, .fallback = 48, .unit = "mm",
           .doc = "Face that carries the boards."),
  ROD_ROW (RodBatten, thickness_mm, NUMBER, .min = 5, .max = 300, .fallback = 30, .unit = "mm",
           .doc = "Depth, part of the cavity."),
  ROD_ROW (RodBatten, stock, LIST, .max = 100, .of = &rod_stock_type,
           .doc = "Stock lengths; none when bought by the metre."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_batten_type = {
  .name = "batten",
  .doc = "A batten of wood or metal.",
  .size = sizeof (RodBatten),
  .members = batten_members,
};

/* clang-format off */
static const RodMember rules_members[] = {
  ROD_ROW (RodRules, batten_centres_mm, NUMBER, .min = 100, .max = 2000, .fallback = 400,
           .unit = "mm", .doc = "Greatest distance of batten centres along the boards."),
  ROD_ROW (RodRules, soffit_centres_mm, NUMBER, .min = 100, .max = 2000, .fallback = 400,
           .unit = "mm", .doc = "Greatest distance of batten centres on soffits."),
  ROD_ROW (RodRules, counter_centres_mm, NUMBER, .min = 100, .max = 2000, .fallback = 600,
           .unit = "mm", .doc = "Greatest distance of counter battens."),
  ROD_ROW (RodRules, batten_edge_mm, NUMBER, .max = 500, .fallback = 50, .unit = "mm",
           .doc = "From an edge to the centre of the batten that serves it."),
  ROD_ROW (RodRules, double_batten_mm, NUMBER, .max = 500, .fallback = 40, .unit = "mm",
           .doc = "From a length joint to the centre of each of its two battens."),
  ROD_ROW (RodRules, batten_opening_mm, NUMBER, .max = 500, .fallback = 20, .unit = "mm",
           .doc = "Battens stop this short of an opening's sill and head, for air."),
  ROD_ROW (RodRules, min_rip_mm, NUMBER, .max = 1000, .fallback = 60, .unit = "mm",
           .doc = "Narrowest rip."),
  ROD_ROW (RodRules, min_piece_mm, NUMBER, .max = 5000, .fallback = 300, .unit = "mm",
           .doc = "Shortest piece."),
  ROD_ROW (RodRules, gap_across_mm, NUMBER, .max = 50, .fallback = 5, .unit = "mm",
           .doc = "Gap between a board's long side and the bottom of the pocket."),
  ROD_ROW (RodRules, fixed_end_gap_mm, NUMBER, .max = 50, .fallback = 2, .unit = "mm",
           .doc = "Gap at the end where a board is held."),
  ROD_ROW (RodRules, min_gap_mm, NUMBER, .max = 50, .fallback = 0, .unit = "mm",
           .doc = "Least gap at a moving end, whatever the movement."),
  ROD_ROW (RodRules, notch_clear_mm, NUMBER, .max = 50, .fallback = 8, .unit = "mm",
           .doc = "Clear beside an opening in a notched board."),
  ROD_ROW (RodRules, notch_longest_mm, NUMBER, .max = 20000, .fallback = 6000, .unit = "mm",
           .doc = "Longest notch over or under an opening; where it would be longer, boards are "
                  "joined on the lines of the jambs."),
  ROD_ROW (RodRules, min_engagement_mm, NUMBER, .max = 100, .fallback = 5, .unit = "mm",
           .doc = "Least cover of a board's end by the pocket when coldest."),
  ROD_ROW (RodRules, tolerance_mm, NUMBER, .max = 20, .fallback = 1, .unit = "mm",
           .doc = "Cutting and fitting error of one end."),
  ROD_ROW (RodRules, joint_distance_mm, NUMBER, .max = 5000, .fallback = 150, .unit = "mm",
           .doc = "Length joints keep this far from the corners of openings."),
  ROD_ROW (RodRules, butt_joints, CHOICE, .fallback = ROD_BUTT_NEVER,
           .choices = rod_butt_joints_choices,
           .doc = "Where boards may meet end to end over a batten without a trim; patterns other "
                  "than columns need it."),
  ROD_ROW (RodRules, butt_gap_mm, NUMBER, .max = 50, .unit = "mm",
           .doc = "Least gap at each of the two ends that meet without a trim."),
  ROD_ROW (RodRules, butt_bearing_mm, NUMBER, .max = 150, .fallback = 15, .unit = "mm",
           .doc = "Least width of batten under each of the two ends that meet without a trim."),
  ROD_ROW (RodRules, joint_pattern, CHOICE, .fallback = ROD_JOINTS_COLUMNS,
           .choices = rod_joint_pattern_choices + 1,
           .doc = "Where length joints fall, unless the surface or zone says otherwise."),
  ROD_ROW (RodRules, joint_offset_mm, NUMBER, .max = 20000, .fallback = ROD_NOT_GIVEN, .unit = "mm",
           .doc = "Least distance of joints in neighbouring courses; left out for 600 or two "
                  "covers, whichever is more."),
  ROD_ROW (RodRules, joint_repeat, INTEGER, .max = ROD_MAX_JOINT_REPEAT,
           .doc = "After so many courses joints may be in line again; 0 for 2 in balanced patterns "
                  "and 3 in others."),
  ROD_ROW (RodRules, ground_clearance_mm, NUMBER, .max = 2000, .fallback = 50, .unit = "mm",
           .doc = "Least height of boards above the ground."),
  ROD_ROW (RodRules, upright_fixed, CHOICE, .fallback = ROD_FIXED_MIDDLE,
           .choices = rod_fixed_point_choices, .doc = "Where upright boards of walls are held."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_rules_type = {
  .name = "rules",
  .doc = "Rules of a system.",
  .size = sizeof (RodRules),
  .members = rules_members,
};
