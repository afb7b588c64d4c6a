/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Time from the start of the program to its first frame, beside that of an empty libadwaita window.
 * Both are started in turn; the fastest of each are compared, since what else the machine does can
 * only make a start slower. The budget: at most 1.3 times the empty window. How long it takes until
 * a house is seen is printed as well.
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

static double
fastest (const double *times)
{
  double least = times[0];

  for (int i = 1; i < N_RUNS; i++)
    least = MIN (least, times[i]);

  return least;
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

  ratio = fastest (welcome) / fastest (empty);
  g_print ("empty window           %5.0f ms\n", fastest (empty));
  g_print ("welcome page           %5.0f ms, %.2f of the empty window; budget %.2f\n",
           fastest (welcome),
           ratio,
           BUDGET);
  g_print ("first look at a house  %5.0f ms\n", fastest (house));

  return ratio <= BUDGET ? EXIT_SUCCESS : EXIT_FAILURE;
}
