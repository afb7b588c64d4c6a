/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-record.h"

G_BEGIN_DECLS

/**
 * RodPinKind:
 * @ROD_PIN_LINE: a joint line lies at @at_mm
 * @ROD_PIN_WHOLE: boards are whole beside an edge of the outline or a side of an opening
 * @ROD_PIN_EQUAL: first and last board are equally wide
 * @ROD_PIN_AXIS: a joint line or the middle of a board lies on an axis
 */
typedef enum
{
  ROD_PIN_LINE,
  ROD_PIN_WHOLE,
  ROD_PIN_EQUAL,
  ROD_PIN_AXIS,
} RodPinKind;

/**
 * RodPinSide:
 * @ROD_PIN_SILL: the lowest
 * @ROD_PIN_HEAD: the highest
 * @ROD_PIN_LEFT: the leftmost
 * @ROD_PIN_RIGHT: the rightmost
 *
 * Which of the sides of an opening that boards run along.
 */
typedef enum
{
  ROD_PIN_SILL,
  ROD_PIN_HEAD,
  ROD_PIN_LEFT,
  ROD_PIN_RIGHT,
} RodPinSide;

/**
 * RodPin:
 * @id: identifier within the surface
 * @kind: what is asked for
 * @at_mm: place of the line or axis, said as #RodSurface.joint_line_mm; not-a-number to take the
 *         middle of @opening, or of the surface, for the axis
 * @edge: identifier of an edge of the outline, or ""
 * @opening: id of an opening, or ""
 * @side: which of the opening's sides
 *
 * Something the user asks of the joint lines of a surface, before any other aim.
 */
typedef struct
{
  RodRecord  record;
  char      *id;
  RodPinKind kind;
  double     at_mm;
  char      *edge;
  char      *opening;
  RodPinSide side;
} RodPin;

/**
 * RodSeen:
 * @ROD_SEEN_INHERITED: as the surface
 * @ROD_SEEN_FRONT: from near by, at eye level
 * @ROD_SEEN_SIDE: from the street
 * @ROD_SEEN_REAR: seldom
 * @ROD_SEEN_HIDDEN: behind planting, under a deep soffit
 *
 * From where strips at an edge are seen (rule R25).
 */
typedef enum
{
  ROD_SEEN_INHERITED,
  ROD_SEEN_FRONT,
  ROD_SEEN_SIDE,
  ROD_SEEN_REAR,
  ROD_SEEN_HIDDEN,
} RodSeen;

/**
 * RodSeenWeights:
 * @front: weight of what is seen from near by, > 0
 * @side: of what is seen from the street
 * @rear: of what is seldom seen
 * @hidden: of what is hardly ever seen
 *
 * How much a strip counts in the set-out by where it is seen (rule R25); only their ratios matter.
 */
typedef struct
{
  RodRecord record;
  double    front;
  double    side;
  double    rear;
  double    hidden;
} RodSeenWeights;

/**
 * RodAimKind:
 * @ROD_AIM_STARTERS: bases keep their starter
 * @ROD_AIM_SLIVERS: no strip is narrower than allowed
 * @ROD_AIM_BREAKS: joint lines meet at every join
 * @ROD_AIM_RISKS: no strip may become a sliver within the survey's tolerance
 * @ROD_AIM_NARROWEST: the narrowest strip is as wide as can be
 * @ROD_AIM_RIPS: few strips are ripped
 * @ROD_AIM_SYMMETRY: first and last upright board are alike
 * @ROD_AIM_HOOKS: few boards lose their hook
 * @ROD_AIM_STOCK: few running metres of board
 *
 * What a set-out is judged by, in the usual order (rule R26).
 */
typedef enum
{
  ROD_AIM_STARTERS,
  ROD_AIM_SLIVERS,
  ROD_AIM_BREAKS,
  ROD_AIM_RISKS,
  ROD_AIM_NARROWEST,
  ROD_AIM_RIPS,
  ROD_AIM_SYMMETRY,
  ROD_AIM_HOOKS,
  ROD_AIM_STOCK,
} RodAimKind;

#define ROD_N_AIMS (ROD_AIM_STOCK + 1)

/**
 * RodAim:
 * @aim: an aim
 *
 * One aim of the user's own order.
 */
typedef struct
{
  RodRecord  record;
  RodAimKind aim;
} RodAim;

extern const RodType rod_pin_type;
extern const RodType rod_seen_weights_type;
extern const RodType rod_aim_type;

extern const RodChoice rod_pin_kind_choices[];
extern const RodChoice rod_pin_side_choices[];
extern const RodChoice rod_seen_choices[];
extern const RodChoice rod_aim_choices[];

/**
 * rod_seen_weight:
 * @weights: weights
 * @seen: from where something is seen; inherited stands for the front
 *
 * Returns: how much it counts
 */
double rod_seen_weight (const RodSeenWeights *weights,
                        RodSeen               seen);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodPin, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodSeenWeights, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodAim, rod_record_unref)

G_END_DECLS
