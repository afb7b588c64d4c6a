/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time from the start of the program to its first frame, beside that of an empty libadwaita window.
 * Both are started in turn, so that what else the machine does meets both alike; the medians are
 * compared. The budget: at most 1.3 times the empty window. How long it takes until a house is
 * seen is printed as well.
 *
 *   bench-start EMPTY HOUSE   EMPTY is the program with the empty window
 */
#include "config.h"

#include <stdlib.h>

#include "app/rod-application.h"
#include "app/rod-window.h"
#include "first-frame.h"

#define N_RUNS 15
#define BUDGET 1.3

/* Says that this program is to be Storeyrod. */
#define AS_STOREYROD "--as-storeyrod"

static gboolean
shows_house (GtkWindow *window)
{
  return rod_window_has_house (ROD_WINDOW (window)) &&
         gtk_widget_get_mapped (GTK_WIDGET (rod_window_get_view (ROD_WINDOW (window))));
}

static int
be_storeyrod (int    argc,
              char **argv)
{
  g_autoptr (RodApplication) application = rod_application_new ();

  g_application_set_flags (G_APPLICATION (application),
                           G_APPLICATION_HANDLES_OPEN | G_APPLICATION_NON_UNIQUE);
  first_frame_report (GTK_APPLICATION (application), argc > 1 ? shows_house : NULL);

  return g_application_run (G_APPLICATION (application), argc, argv);
}

/* Milliseconds from before the start of a program to its first frame. */
static double
time_start (const char *const *argv)
{
  g_autofree char *output = NULL;
  g_autoptr (GError) error = NULL;
  gint64 begun = g_get_monotonic_time ();
  int    status;

  if (!g_spawn_sync (NULL,
                     (char **) argv,
                     NULL,
                     G_SPAWN_SEARCH_PATH,
                     NULL,
                     NULL,
                     &output,
                     NULL,
                     &status,
                     &error) ||
      !g_spawn_check_wait_status (status, &error))
    g_error ("%s: %s", argv[0], error->message);

  return (double) (g_ascii_strtoll (output, NULL, 10) - begun) / 1000;
}

static int
compare_times (gconstpointer a,
               gconstpointer b)
{
  double difference = *(const double *) a - *(const double *) b;

  return difference > 0 ? 1 : difference < 0 ? -1
                                             : 0;
}

static double
median (double *times)
{
  qsort (times, N_RUNS, sizeof *times, compare_times);

  return times[N_RUNS / 2];
}

int
main (int    argc,
      char **argv)
{
  double empty[N_RUNS];
  double welcome[N_RUNS];
  double house[N_RUNS];
  double ratio;

  if (argc > 1 && g_str_equal (argv[1], AS_STOREYROD))
    {
      argv[1] = argv[0];
      return be_storeyrod (argc - 1, argv + 1);
    }
  if (argc != 3)
    return 2;

  for (int i = 0; i < N_RUNS; i++)
    {
      empty[i] = time_start ((const char *const[]){ argv[1], NULL });
      welcome[i] = time_start ((const char *const[]){ argv[0], AS_STOREYROD, NULL });
      house[i] = time_start ((const char *const[]){ argv[0], AS_STOREYROD, argv[2], NULL });
    }

  ratio = median (welcome) / median (empty);
  g_print ("empty window                 median %5.0f ms\n", empty[N_RUNS / 2]);
  g_print ("welcome page                 median %5.0f ms, %.2f of the empty window\n",
           welcome[N_RUNS / 2],
           ratio);
  g_print ("first look at a house        median %5.0f ms\n", median (house));
  g_print ("budget                              %.2f of the empty window\n", BUDGET);

  return ratio <= BUDGET ? EXIT_SUCCESS : EXIT_FAILURE;
}
