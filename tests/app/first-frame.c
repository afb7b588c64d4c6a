/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "first-frame.h"

#include <stdio.h>
#include <stdlib.h>

static FirstFrameWanted wanted;

static void
after_paint_cb (GdkFrameClock *clock,
                GtkWindow     *window)
{
  if (wanted != NULL && !wanted (window))
    return;

  printf ("%" G_GINT64_FORMAT "\n", g_get_monotonic_time ());
  fflush (stdout);
  /* What a program does after its first frame, and how it ends, is not measured. */
  _Exit (EXIT_SUCCESS);
}

static void
mapped_cb (GtkWidget *window)
{
  g_signal_connect (gtk_widget_get_frame_clock (window),
                    "after-paint",
                    G_CALLBACK (after_paint_cb),
                    window);
}

static void
window_added_cb (GtkApplication *application,
                 GtkWindow      *window)
{
  g_signal_connect (window, "map", G_CALLBACK (mapped_cb), NULL);
}

void
first_frame_report (GtkApplication  *application,
                    FirstFrameWanted is_wanted)
{
  wanted = is_wanted;
  g_signal_connect (application, "window-added", G_CALLBACK (window_added_cb), NULL);
}
