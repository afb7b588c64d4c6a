/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-recent.h"

#include <glib/gi18n.h>

#define MIME_TYPE "application/x-storeyrod-house"
#define MOST_ITEMS 8

void
rod_recent_note (GFile *file)
{
  g_autofree char *uri = NULL;
  GtkRecentData    data = {
       .mime_type = (char *) MIME_TYPE,
       .app_name = (char *) "Storeyrod",
       .app_exec = (char *) "storeyrod %u",
  };

  g_return_if_fail (G_IS_FILE (file));

  /* The example comes with the program and has a button of its own. */
  if (g_file_has_uri_scheme (file, "resource"))
    return;

  uri = g_file_get_uri (file);
  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

static int
compare_newest (gconstpointer a,
                gconstpointer b)
{
  GDateTime *of_a = gtk_recent_info_get_modified ((GtkRecentInfo *) a);
  GDateTime *of_b = gtk_recent_info_get_modified ((GtkRecentInfo *) b);

  return g_date_time_compare (of_b, of_a);
}

/* An underscore in a file name is no accelerator. */
static char *
plain_label (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "_", -1);

  return g_strjoinv ("__", parts);
}

void
rod_recent_fill (GMenu *menu)
{
  GList *items;
  guint  n_items = 0;

  g_return_if_fail (G_IS_MENU (menu));

  g_menu_remove_all (menu);
  items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  items = g_list_sort (items, compare_newest);
  for (GList *link = items; link != NULL && n_items < MOST_ITEMS; link = link->next)
    {
      GtkRecentInfo *info = link->data;
      g_autoptr (GMenuItem) item = NULL;
      g_autofree char *label = NULL;

      if (g_strcmp0 (gtk_recent_info_get_mime_type (info), MIME_TYPE) != 0 ||
          !gtk_recent_info_exists (info))
        continue;

      label = plain_label (gtk_recent_info_get_display_name (info));
      item = g_menu_item_new (label, NULL);
      g_menu_item_set_action_and_target (item, "app.open-uri", "s", gtk_recent_info_get_uri (info));
      g_menu_append_item (menu, item);
      n_items++;
    }
  g_list_free_full (items, (GDestroyNotify) gtk_recent_info_unref);
  /* Without an action it cannot be chosen; an empty menu would look broken. */
  if (n_items == 0)
    g_menu_append (menu, _ ("No house was opened yet"), "app.none");
}
