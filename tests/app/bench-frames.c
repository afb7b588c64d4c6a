/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time of whole frames, layout to picture, while the drawing is panned and zoomed, as a user would
 * with the software renderer. The budget: 95 of 100 frames under 16 ms. Times are of the processor
 * as this thread used it, so that what else runs on the machine does not count.
 *
 *   bench-frames [HOUSE]   prints median and 95th percentile of each way to look at the house
 */
#include "config.h"

#include <math.h>
#include <time.h>

#include "app-fixture.h"

#define N_FRAMES 120

typedef struct
{
  RodCanvas *canvas;
  GArray    *times; /* gint64, microseconds */
  gint64     begun;
  int        frame;
  gboolean   zoom;
} Run;

static gint64
now (void)
{
  struct timespec time;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &time);

  return (gint64) time.tv_sec * G_USEC_PER_SEC + time.tv_nsec / 1000;
}

static void
before_paint_cb (GdkFrameClock *clock,
                 Run           *run)
{
  run->begun = now ();
}

static void
after_paint_cb (GdkFrameClock *clock,
                Run           *run)
{
  gint64 time = now () - run->begun;

  if (run->frame > 0)
    g_array_append_val (run->times, time);
  run->frame++;
}

/* A hand that goes in circles, or comes closer and steps back. */
static gboolean
move_cb (GtkWidget     *widget,
         GdkFrameClock *clock,
         gpointer       data)
{
  Run                *run = data;
  GtkEventController *scroll = NULL;
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  gboolean handled;

  if (run->zoom)
    {
      rod_canvas_zoom (run->canvas, run->frame / 20 % 2 == 0 ? 1.05 : 1 / 1.05);
      return G_SOURCE_CONTINUE;
    }

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_SCROLL (controller))
        scroll = controller;
    }
  g_signal_emit_by_name (scroll,
                         "scroll",
                         0.3 * cos (run->frame * 0.1),
                         0.3 * sin (run->frame * 0.1),
                         &handled);

  return G_SOURCE_CONTINUE;
}

static gboolean
is_over (gpointer run)
{
  return ((Run *) run)->frame > N_FRAMES;
}

static int
compare_times (gconstpointer a,
               gconstpointer b)
{
  gint64 difference = *(const gint64 *) a - *(const gint64 *) b;

  return difference > 0 ? 1 : difference < 0 ? -1
                                             : 0;
}

static void
measure (RodWindow  *window,
         const char *what,
         gboolean    zoom)
{
  RodCanvas     *canvas = rod_house_view_get_canvas (rod_window_get_view (window));
  GdkFrameClock *clock = gtk_widget_get_frame_clock (GTK_WIDGET (canvas));
  Run            run = { .canvas = canvas, .zoom = zoom };
  guint          id;

  run.times = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_signal_connect (clock, "before-paint", G_CALLBACK (before_paint_cb), &run);
  g_signal_connect (clock, "after-paint", G_CALLBACK (after_paint_cb), &run);
  id = gtk_widget_add_tick_callback (GTK_WIDGET (canvas), move_cb, &run, NULL);
  app_wait_for (is_over, &run, "frames");
  gtk_widget_remove_tick_callback (GTK_WIDGET (canvas), id);
  g_signal_handlers_disconnect_by_data (clock, &run);

  g_array_sort (run.times, compare_times);
  g_print ("%-28s median %5.1f ms, 95th percentile %5.1f ms\n",
           what,
           (double) g_array_index (run.times, gint64, run.times->len / 2) / 1000,
           (double) g_array_index (run.times, gint64, run.times->len * 95 / 100) / 1000);
  g_array_unref (run.times);
}

int
main (int    argc,
      char **argv)
{
  static const char *const stages[] = { "survey", "set-out", "frame" };
  RodWindow               *window;
  RodPlan                 *plan;

  if (!app_start (&argc, &argv))
    return 77;

  window = app_open_window ();
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
  if (argc > 1)
    app_open_file (window, argv[1]);
  else
    {
      gtk_window_destroy (GTK_WINDOW (window));
      window = app_open_example ();
    }
  plan = rod_document_get_plan (rod_window_get_document (window));
  g_print ("%u pieces\n", plan->pieces->len);
  for (guint i = 0; i < G_N_ELEMENTS (stages); i++)
    {
      RodCanvas       *canvas = rod_house_view_get_canvas (rod_window_get_view (window));
      g_autofree char *pan = g_strdup_printf ("%s, whole house, pan", stages[i]);
      g_autofree char *near = g_strdup_printf ("%s, 4 times nearer, pan", stages[i]);
      g_autofree char *zoom = g_strdup_printf ("%s, zoom", stages[i]);

      g_action_group_activate_action (G_ACTION_GROUP (window),
                                      "stage",
                                      g_variant_new_string (stages[i]));
      rod_canvas_fit (canvas);
      app_settle (window);
      measure (window, pan, FALSE);
      measure (window, zoom, TRUE);
      rod_canvas_fit (canvas);
      rod_canvas_zoom (canvas, 4);
      measure (window, near, FALSE);
    }
  app_close_window (window);

  return 0;
}
