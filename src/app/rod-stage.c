/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-stage.h"

static const char *const nicks[ROD_N_STAGES] = {
  [ROD_STAGE_SURVEY] = "survey",
  [ROD_STAGE_SET_OUT] = "set-out",
  [ROD_STAGE_FRAME] = "frame",
  [ROD_STAGE_ORDER] = "order",
  [ROD_STAGE_SHEETS] = "sheets",
};

const char *
rod_stage_nick (RodStage stage)
{
  g_return_val_if_fail (stage < ROD_N_STAGES, nicks[ROD_STAGE_SET_OUT]);

  return nicks[stage];
}

RodStage
rod_stage_from_nick (const char *nick)
{
  for (guint i = 0; i < ROD_N_STAGES; i++)
    if (g_strcmp0 (nicks[i], nick) == 0)
      return (RodStage) i;

  return ROD_STAGE_SET_OUT;
}
