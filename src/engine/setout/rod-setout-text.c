/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Set-outs compared in words. */

#include "config.h"

#include <glib/gi18n-lib.h>

#include "engine/setout/rod-setout-text.h"

char *
rod_setout_reason (const RodAimKind    *order,
                   const RodPhaseScore *better,
                   const RodPhaseScore *worse)
{
  switch (rod_phase_difference (order, better, worse))
    {
    case ROD_AIM_STARTERS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                           "%d base without starter instead of %d",
                                           "%d bases without starter instead of %d",
                                           (gulong) worse->lost_starters),
                              worse->lost_starters,
                              better->lost_starters);
    case ROD_AIM_SLIVERS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                           "%d sliver instead of %d",
                                           "%d slivers instead of %d",
                                           (gulong) worse->slivers),
                              worse->slivers,
                              better->slivers);
    case ROD_AIM_BREAKS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                           "%d join whose lines miss instead of %d",
                                           "%d joins whose lines miss instead of %d",
                                           (gulong) worse->breaks),
                              worse->breaks,
                              better->breaks);
    case ROD_AIM_RISKS:
      return g_strdup_printf (
        g_dngettext (GETTEXT_PACKAGE,
                     "%d strip that the survey’s tolerance may make a sliver instead of %d",
                     "%d strips that the survey’s tolerance may make slivers instead of %d",
                     (gulong) worse->risks),
        worse->risks,
        better->risks);
    case ROD_AIM_NARROWEST:
      return g_strdup_printf (_ ("narrowest strip %.0f mm instead of %.0f mm"),
                              worse->narrowest_mm,
                              better->narrowest_mm);
    case ROD_AIM_RIPS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                           "%d ripped line instead of %d",
                                           "%d ripped lines instead of %d",
                                           (gulong) worse->rips),
                              worse->rips,
                              better->rips);
    case ROD_AIM_SYMMETRY:
      return g_strdup_printf (_ ("first and last board %.0f mm apart instead of %.0f mm"),
                              worse->asymmetry_mm,
                              better->asymmetry_mm);
    case ROD_AIM_HOOKS:
      return g_strdup_printf (g_dngettext (GETTEXT_PACKAGE,
                                           "%d line of boards without a hook instead of %d",
                                           "%d lines of boards without a hook instead of %d",
                                           (gulong) worse->lost_hooks),
                              worse->lost_hooks,
                              better->lost_hooks);
    case ROD_AIM_STOCK:
      return g_strdup_printf (_ ("%.1f m of board instead of %.1f m"),
                              worse->stock_mm / 1000.0,
                              better->stock_mm / 1000.0);
    default:
      return g_strdup (_ ("equally good"));
    }
}
