/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * RodStage:
 * @ROD_STAGE_SURVEY: the structure as measured
 * @ROD_STAGE_SET_OUT: boards and joint lines
 * @ROD_STAGE_FRAME: battens and trims
 * @ROD_STAGE_ORDER: cutting and order
 * @ROD_STAGE_SHEETS: paper
 * @ROD_N_STAGES: how many there are
 *
 * A stage of the work; decides what the window shows of the house. The words are those of the
 * settings schema.
 */
typedef enum
{
  ROD_STAGE_SURVEY,
  ROD_STAGE_SET_OUT,
  ROD_STAGE_FRAME,
  ROD_STAGE_ORDER,
  ROD_STAGE_SHEETS,
  ROD_N_STAGES,
} RodStage;

/**
 * rod_stage_nick:
 * @stage: a stage
 *
 * Returns: (transfer none): its word in actions and settings
 */
const char *rod_stage_nick (RodStage stage);

/**
 * rod_stage_from_nick:
 * @nick: a word of rod_stage_nick()
 *
 * Returns: the stage; %ROD_STAGE_SET_OUT for a word that is none
 */
RodStage rod_stage_from_nick (const char *nick);

G_END_DECLS
