/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/rod-limits.h"
#include "engine/setout/rod-bay.h"

G_BEGIN_DECLS

/**
 * RodJointPlace:
 * @at_mm: place along the boards
 * @backing_mm: place of the batten behind it
 * @own: whether that batten stands there for the joint's sake only
 *
 * Where a joint may stand. A plain value.
 */
typedef struct
{
  double   at_mm;
  double   backing_mm;
  gboolean own;
} RodJointPlace;

/**
 * RodJointSpan:
 * @low_mm: pocket bottom at the left end
 * @high_mm: pocket bottom at the right end
 * @longest_mm: longest board
 * @least_mm: shortest board
 * @offset_mm: least distance of joints in different lanes
 * @n_lanes: how many lanes, at most %ROD_MAX_JOINT_REPEAT
 * @places: (element-type RodJointPlace): where joints may stand, ascending, all between the ends
 * @board_mm: length of the board that fills a bay
 * @worth: (nullable): what a board of some length is reckoned to cost
 * @data: for @board_mm and @worth
 *
 * A stretch of wall whose courses are too long for one board.
 */
typedef struct
{
  double        low_mm;
  double        high_mm;
  double        longest_mm;
  double        least_mm;
  double        offset_mm;
  guint         n_lanes;
  const GArray *places;
  double (*board_mm) (const RodBay *bay,
                      gconstpointer data);
  double (*worth) (double        board_mm,
                   gconstpointer data);
  gconstpointer data;
} RodJointSpan;

/**
 * RodJointLanes:
 * @lanes: (element-type RodJointPlace): the joints of each lane, ascending
 * @n_lanes: how many lanes
 * @n_joints: joints in all lanes
 *
 * Lanes are courses that follow each other; then the first one comes again.
 */
typedef struct
{
  GArray *lanes[ROD_MAX_JOINT_REPEAT];
  guint   n_lanes;
  guint   n_joints;
} RodJointLanes;

/**
 * rod_joint_lanes_find:
 * @span: a stretch
 * @lanes: (out caller-allocates): gets the lanes
 *
 * Finds lanes with the fewest joints, and of those the ones whose boards are worth least. Exact
 * over the places unless there are very many, when the search keeps the most promising beginnings:
 * joints are placed from left to right, and all that matters of what lies behind is each lane's
 * last joint.
 *
 * Returns: whether there are any; @lanes is to be cleared then
 */
gboolean rod_joint_lanes_find (const RodJointSpan *span,
                               RodJointLanes      *lanes);

/**
 * rod_joint_lanes_copy:
 * @lanes: lanes
 *
 * Returns: (transfer full): a copy, to be cleared
 */
RodJointLanes rod_joint_lanes_copy (const RodJointLanes *lanes);

/**
 * rod_joint_lanes_clear:
 * @lanes: lanes
 */
void rod_joint_lanes_clear (RodJointLanes *lanes);

/**
 * rod_joint_lanes_hold:
 * @span: a stretch
 * @lanes: lanes
 *
 * Returns: whether all boards are neither too short nor too long and joints of different lanes far
 *          enough apart
 */
gboolean rod_joint_lanes_hold (const RodJointSpan  *span,
                               const RodJointLanes *lanes);

/**
 * rod_joint_lane_boards:
 * @span: a stretch
 * @lane: (element-type RodJointPlace): one lane
 * @boards: (element-type double): gets the lengths of its boards
 */
void rod_joint_lane_boards (const RodJointSpan *span,
                            const GArray       *lane,
                            GArray             *boards);

G_END_DECLS
