/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member tables of trims and of the decision table that places them. */
#include "config.h"

#include "engine/model/rod-system.h"

#include "engine/model/rod-member.h"
#include "engine/model/rod-surface.h"

#include <glib/gi18n-lib.h>

const RodChoice rod_screw_pattern_choices[] = {
  { ROD_SCREWS_PER_BATTEN, "per-batten", N_ ("At each batten") },
  { ROD_SCREWS_SPACED, "spaced", N_ ("Spaced") },
  { ROD_SCREWS_NONE, "none", N_ ("Without screws") },
  { 0, NULL, NULL },
};

const RodChoice rod_board_relation_choices[] = {
  { ROD_BOARDS_ANY, "any", N_ ("Any") },
  { ROD_BOARDS_ALONG, "along", N_ ("Along the edge") },
  { ROD_BOARDS_ACROSS, "across", N_ ("Ending at the edge") },
  { 0, NULL, NULL },
};

const RodChoice rod_end_treatment_choices[] = {
  { ROD_END_SQUARE, "square", N_ ("Square") },
  { ROD_END_MITRE, "mitre", N_ ("Mitred") },
  { 0, NULL, NULL },
};

/* A row of the decision table may speak of any surface, which no surface itself can be. */
static const RodChoice rule_surface_choices[] = {
  { ROD_SURFACE_ANY, "any", N_ ("Any") },
  { ROD_SURFACE_WALL, "wall", N_ ("Wall") },
  { ROD_SURFACE_SOFFIT, "soffit", N_ ("Soffit") },
  { ROD_SURFACE_REVEAL, "reveal", N_ ("Reveal") },
  { 0, NULL, NULL },
};

/* clang-format off */
static const RodMember trim_members[] = {
  ROD_ROW (RodTrim, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the system."),
  ROD_ROW (RodTrim, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodTrim, back_mm, NUMBER, .max = 200, .unit = "mm",
           .doc = "From the surface's boundary to the bottom of the pocket."),
  ROD_ROW (RodTrim, pocket_mm, NUMBER, .max = 200, .unit = "mm",
           .doc = "Depth of the pocket, from its bottom to its lip."),
  ROD_ROW (RodTrim, sight_mm, NUMBER, .max = 500, .unit = "mm",
           .doc = "Width seen from the front."),
  ROD_ROW (RodTrim, lap_mm, NUMBER, .max = 500, .unit = "mm",
           .doc = "How far two lengths of one run lap; 0 for a butt joint."),
  ROD_ROW (RodTrim, two_sided, FLAG,
           .doc = "One trim serves both surfaces of a corner, or both sides of a length joint."),
  ROD_ROW (RodTrim, screws, CHOICE, .fallback = ROD_SCREWS_PER_BATTEN,
           .choices = rod_screw_pattern_choices, .doc = "Where it is screwed."),
  ROD_ROW (RodTrim, screw_end_mm, NUMBER, .max = 1000, .fallback = 50, .unit = "mm",
           .doc = "First and last screw from the ends, where screws are spaced."),
  ROD_ROW (RodTrim, screw_spacing_mm, NUMBER, .min = 20, .max = 2000, .fallback = 300, .unit = "mm",
           .doc = "Greatest spacing of screws, where they are spaced."),
  ROD_ROW (RodTrim, weight_kg_m, NUMBER, .max = 200, .unit = "kg/m", .doc = "Weight of one metre."),
  ROD_ROW (RodTrim, stock, LIST, .flags = ROD_MEMBER_REQUIRED, .min = 1, .max = 100,
           .of = &rod_stock_type, .doc = "Stock lengths."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_trim_type = {
  .name = "trim",
  .doc = "A profile that holds or covers the boards along an edge.",
  .size = sizeof (RodTrim),
  .members = trim_members,
};

/* Conditions are worked out before rules are asked: "auto", first of the table, is no rule. */
/* clang-format off */
static const RodMember trim_rule_members[] = {
  ROD_ROW (RodTrimRule, surface, CHOICE, .fallback = ROD_SURFACE_ANY,
           .choices = rule_surface_choices, .doc = "Kind of surface."),
  ROD_ROW (RodTrimRule, boards, CHOICE, .fallback = ROD_BOARDS_ANY,
           .choices = rod_board_relation_choices, .doc = "How the boards meet the edge."),
  ROD_ROW (RodTrimRule, condition, CHOICE, .flags = ROD_MEMBER_REQUIRED,
           .choices = rod_edge_condition_choices + 1, .doc = "Condition of the edge."),
  ROD_ROW (RodTrimRule, trim, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the trim that holds the boards; left out for none."),
  ROD_ROW (RodTrimRule, beside, TEXTS, .flags = ROD_MEMBER_IDENTIFIER, .max = 20,
           .doc = "Ids of further trims along the same edge, such as a base vent."),
  ROD_ROW (RodTrimRule, starter, FLAG,
           .doc = "The trim is a starter: the first board hooks on it at full width, and a line "
                  "of boards begins at a joint line."),
  ROD_ROW (RodTrimRule, starter_low_mm, NUMBER, .min = -1000, .max = 10000, .unit = "mm",
           .doc = "Lowest starter above the edge; negative below it."),
  ROD_ROW (RodTrimRule, starter_high_mm, NUMBER, .min = -1000, .max = 10000, .unit = "mm",
           .doc = "Highest starter above the edge."),
  ROD_ROW (RodTrimRule, clearance_mm, NUMBER, .max = 1000, .unit = "mm",
           .doc = "Kept free between edge and trim, such as the air above the ground."),
  ROD_ROW (RodTrimRule, end, CHOICE, .fallback = ROD_END_SQUARE,
           .choices = rod_end_treatment_choices, .doc = "How the ends of the run are cut."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_trim_rule_type = {
  .name = "trim-rule",
  .doc = "One row of the table that places trims; the first row that fits an edge decides.",
  .size = sizeof (RodTrimRule),
  .members = trim_rule_members,
};
