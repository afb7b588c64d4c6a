/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The least that a program of this kind can be: a libadwaita window with a title bar. It is linked
 * with nothing else. */
#include <adwaita.h>

#include "first-frame.h"

static void
activate_cb (GtkApplication *application)
{
  GtkWidget *window = adw_application_window_new (application);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_box_append (GTK_BOX (box), adw_header_bar_new ());
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), box);
  gtk_window_set_default_size (GTK_WINDOW (window), 1180, 780);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (AdwApplication) application =
    adw_application_new ("org.storeyrod.Empty", G_APPLICATION_NON_UNIQUE);

  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), NULL);
  first_frame_report (GTK_APPLICATION (application), NULL);

  return g_application_run (G_APPLICATION (application), argc, argv);
}
