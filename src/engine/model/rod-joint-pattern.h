/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-record.h"

G_BEGIN_DECLS

/**
 * RodJointPattern:
 * @ROD_JOINTS_INHERITED: as the surface says, and there as the system says
 * @ROD_JOINTS_COLUMNS: joints of all courses in straight lines
 * @ROD_JOINTS_STAGGERED: joints of neighbouring courses apart, in line again after some courses
 * @ROD_JOINTS_BALANCED: likewise, with bays as equal as can be
 * @ROD_JOINTS_RANDOM: joints of neighbouring courses apart, drawn from a seed
 *
 * Where length joints fall in the courses that need them.
 */
typedef enum
{
  ROD_JOINTS_INHERITED,
  ROD_JOINTS_COLUMNS,
  ROD_JOINTS_STAGGERED,
  ROD_JOINTS_BALANCED,
  ROD_JOINTS_RANDOM,
} RodJointPattern;

/**
 * RodButtJoints:
 * @ROD_BUTT_NEVER: length joints want a trim
 * @ROD_BUTT_LEVEL: level boards and soffits may meet with a gap over a batten
 * @ROD_BUTT_ALWAYS: upright ones may, too
 *
 * Where boards may meet end to end without a trim.
 */
typedef enum
{
  ROD_BUTT_NEVER,
  ROD_BUTT_LEVEL,
  ROD_BUTT_ALWAYS,
} RodButtJoints;

extern const RodChoice rod_joint_pattern_choices[];
extern const RodChoice rod_butt_joints_choices[];

G_END_DECLS
