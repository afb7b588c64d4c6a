/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member tables of what the user asks of the set-out. */
#include "config.h"

#include "engine/model/rod-pin.h"

#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>

const RodChoice rod_pin_kind_choices[] = {
  { ROD_PIN_LINE, "line", N_ ("Joint line at a place") },
  { ROD_PIN_WHOLE, "whole", N_ ("Whole board at an edge") },
  { ROD_PIN_EQUAL, "equal", N_ ("First and last board equal") },
  { ROD_PIN_AXIS, "axis", N_ ("Mirrored about an axis") },
  { 0, NULL, NULL },
};

const RodChoice rod_pin_side_choices[] = {
  { ROD_PIN_SILL, "sill", N_ ("Sill") },
  { ROD_PIN_HEAD, "head", N_ ("Head") },
  { ROD_PIN_LEFT, "left", N_ ("Left jamb") },
  { ROD_PIN_RIGHT, "right", N_ ("Right jamb") },
  { 0, NULL, NULL },
};

const RodChoice rod_seen_choices[] = {
  { ROD_SEEN_INHERITED, "as-surface", N_ ("As the surface") },
  { ROD_SEEN_FRONT, "front", N_ ("From near by") },
  { ROD_SEEN_SIDE, "side", N_ ("From the street") },
  { ROD_SEEN_REAR, "rear", N_ ("Seldom") },
  { ROD_SEEN_HIDDEN, "hidden", N_ ("Hardly ever") },
  { 0, NULL, NULL },
};

const RodChoice rod_aim_choices[] = {
  { ROD_AIM_STARTERS, "starters", N_ ("Bases keep their starter") },
  { ROD_AIM_SLIVERS, "slivers", N_ ("No slivers") },
  { ROD_AIM_BREAKS, "breaks", N_ ("Joint lines meet at every join") },
  { ROD_AIM_RISKS, "risks", N_ ("No sliver within the survey’s tolerance") },
  { ROD_AIM_NARROWEST, "narrowest", N_ ("Widest narrowest strip") },
  { ROD_AIM_RIPS, "rips", N_ ("Few ripped lines") },
  { ROD_AIM_SYMMETRY, "symmetry", N_ ("First and last upright board alike") },
  { ROD_AIM_HOOKS, "hooks", N_ ("Few boards without a hook") },
  { ROD_AIM_STOCK, "stock", N_ ("Little material") },
  { 0, NULL, NULL },
};

/* clang-format off */
static const RodMember pin_members[] = {
  ROD_ROW (RodPin, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the surface."),
  ROD_ROW (RodPin, kind, CHOICE, .flags = ROD_MEMBER_REQUIRED, .fallback = ROD_PIN_LINE,
           .choices = rod_pin_kind_choices,
           .doc = "line: a joint line at at_mm; whole: no rip beside an edge or an opening; equal: "
                  "first and last board alike; axis: a joint line or the middle of a board there."),
  ROD_ROW (RodPin, at_mm, NUMBER, .min = -ROD_MAX_COORDINATE_MM, .max = ROD_MAX_COORDINATE_MM,
           .fallback = ROD_NOT_GIVEN, .unit = "mm",
           .doc = "Place of the line or axis, said as joint_line_mm; an axis without it lies in "
                  "the middle of the opening, or of the surface."),
  ROD_ROW (RodPin, edge, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Whole: identifier of an edge of the outline that the boards run along."),
  ROD_ROW (RodPin, opening, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Whole and axis: id of an opening."),
  ROD_ROW (RodPin, side, CHOICE, .fallback = ROD_PIN_SILL, .choices = rod_pin_side_choices,
           .doc = "Whole at an opening: at which of its sides."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_pin_type = {
  .name = "pin",
  .doc = "Something asked of the joint lines of a surface, before any other aim.",
  .size = sizeof (RodPin),
  .members = pin_members,
};

/* clang-format off */
static const RodMember seen_weights_members[] = {
  ROD_ROW (RodSeenWeights, front, NUMBER, .min = 0.01, .max = 1000, .fallback = 10,
           .doc = "Weight of what is seen from near by."),
  ROD_ROW (RodSeenWeights, side, NUMBER, .min = 0.01, .max = 1000, .fallback = 6,
           .doc = "Weight of what is seen from the street."),
  ROD_ROW (RodSeenWeights, rear, NUMBER, .min = 0.01, .max = 1000, .fallback = 2,
           .doc = "Weight of what is seldom seen."),
  ROD_ROW (RodSeenWeights, hidden, NUMBER, .min = 0.01, .max = 1000, .fallback = 0.5,
           .doc = "Weight of what is hardly ever seen."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_seen_weights_type = {
  .name = "seen-weights",
  .doc = "How much a strip counts in the set-out by where it is seen; only ratios matter.",
  .size = sizeof (RodSeenWeights),
  .members = seen_weights_members,
};

/* clang-format off */
static const RodMember aim_members[] = {
  ROD_ROW (RodAim, aim, CHOICE, .flags = ROD_MEMBER_REQUIRED, .fallback = ROD_AIM_SLIVERS,
           .choices = rod_aim_choices, .doc = "What is aimed at."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_aim_type = {
  .name = "aim",
  .doc = "One of the aims a set-out is judged by.",
  .size = sizeof (RodAim),
  .members = aim_members,
};

double
rod_seen_weight (const RodSeenWeights *weights,
                 RodSeen               seen)
{
  g_return_val_if_fail (weights != NULL, 1.0);

  switch (seen)
    {
    case ROD_SEEN_SIDE:
      return weights->side;
    case ROD_SEEN_REAR:
      return weights->rear;
    case ROD_SEEN_HIDDEN:
      return weights->hidden;
    case ROD_SEEN_INHERITED:
    case ROD_SEEN_FRONT:
    default:
      return weights->front;
    }
}
