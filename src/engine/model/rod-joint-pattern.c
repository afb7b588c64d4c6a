/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for the patterns of length joints. */
#include "config.h"

#include "engine/model/rod-joint-pattern.h"

#include <glib/gi18n-lib.h>

const RodChoice rod_joint_pattern_choices[] = {
  { ROD_JOINTS_INHERITED, "inherited", N_ ("As the surface or system") },
  { ROD_JOINTS_COLUMNS, "columns", N_ ("In straight lines") },
  { ROD_JOINTS_STAGGERED, "staggered", N_ ("Staggered") },
  { ROD_JOINTS_BALANCED, "balanced", N_ ("Staggered, equal bays") },
  { ROD_JOINTS_RANDOM, "random", N_ ("At random") },
  { 0, NULL, NULL },
};

const RodChoice rod_butt_joints_choices[] = {
  { ROD_BUTT_NEVER, "never", N_ ("Never") },
  { ROD_BUTT_LEVEL, "level", N_ ("Level boards and soffits") },
  { ROD_BUTT_ALWAYS, "always", N_ ("All boards") },
  { 0, NULL, NULL },
};
