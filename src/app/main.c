/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include <glib/gi18n.h>
#include <locale.h>

#include "app/rod-application.h"

int
main (int    argc,
      char **argv)
{
  g_autoptr (RodApplication) application = NULL;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, ROD_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  application = rod_application_new ();

  return g_application_run (G_APPLICATION (application), argc, argv);
}
