/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opens and saves houses.
 *
 * Reading goes through four steps, each of which stops at the first mistake: text to JSON, systems
 * named by file put in, JSON to records with their limits, and the checks across records. What is
 * saved has passed the same checks, so that it can always be opened again.
 */
#include "config.h"

#include "engine/files/rod-file.h"

#include "engine/files/rod-json.h"
#include "engine/files/rod-system-source.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdlib.h>

/* Permissions of a new file, less the user's mask. */
#define NEW_FILE_MODE 0666

RodHouse *
rod_house_parse (const char *text,
                 gssize      length,
                 const char *folder,
                 GError    **error)
{
  RodJsonPlace place = rod_json_place_root ("$");
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (RodHouse) house = NULL;

  g_return_val_if_fail (text != NULL, NULL);

  root = rod_json_parse (text, length, "$", error);
  if (root == NULL || !rod_file_check_format (&rod_house_type, root, &place, error) ||
      !rod_house_embed_systems (root, folder, error))
    return NULL;

  house = rod_record_from_json (&rod_house_type, root, "$", error);
  if (house == NULL || !rod_house_check (house, error))
    return NULL;
  return g_steal_pointer (&house);
}

RodHouse *
rod_house_load (const char *path,
                GError    **error)
{
  g_autofree char *text = NULL;
  g_autofree char *folder = NULL;
  gsize            length;

  g_return_val_if_fail (path != NULL, NULL);

  text = rod_file_read (path, &length, error);
  if (text == NULL)
    return NULL;

  folder = g_path_get_dirname (path);
  return rod_house_parse (text, (gssize) length, folder, error);
}

static gboolean
write_text (const char *text,
            const char *path,
            GError    **error)
{
  /* A link is followed, so that the file it points to is replaced and not the link. */
  g_autofree char *target = realpath (path, NULL);
  const char      *name = target != NULL ? target : path;
  GStatBuf         old;
  gboolean         was_there = g_stat (name, &old) == 0;
  int              mode = was_there ? (int) (old.st_mode & 07777) : NEW_FILE_MODE;

  if (!g_file_set_contents_full (name,
                                 text,
                                 -1,
                                 G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE,
                                 mode,
                                 error))
    return FALSE;

  /* The user's mask may have taken permissions that the file had; that they cannot be given back
   * is no reason to call the file unwritten. */
  if (was_there)
    (void) g_chmod (name, mode);
  return TRUE;
}

gboolean
rod_house_save (const RodHouse *house,
                const char     *path,
                GError        **error)
{
  g_autoptr (JsonNode) node = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) reason = NULL;

  g_return_val_if_fail (house != NULL && path != NULL, FALSE);

  if (!rod_house_check (house, error))
    return FALSE;

  node = rod_record_to_json (house);
  text = rod_json_text (node);
  if (write_text (text, path, &reason))
    return TRUE;

  g_set_error (error,
               ROD_FILE_ERROR,
               ROD_FILE_ERROR_READ,
               _ ("\"%s\" cannot be written: %s. Check the folder, its permissions and the free "
                  "space."),
               path,
               reason->message);
  return FALSE;
}
