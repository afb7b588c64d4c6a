/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* RodStageBar: one button for each stage, acting on "win.stage". Property "compact" leaves the
 * words to the tooltips, for narrow windows. */

#define ROD_TYPE_STAGE_BAR (rod_stage_bar_get_type ())
G_DECLARE_FINAL_TYPE (RodStageBar, rod_stage_bar, ROD, STAGE_BAR, GtkWidget)

G_END_DECLS
