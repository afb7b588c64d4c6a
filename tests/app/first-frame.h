/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

/* Writes the time, in microseconds of the monotonic clock, as soon as the first window of the
 * application has drawn its first frame for which @is_wanted holds (any where it is %NULL), and
 * ends the program. */
typedef gboolean (*FirstFrameWanted) (GtkWindow *window);
void first_frame_report (GtkApplication  *application,
                         FirstFrameWanted is_wanted);
