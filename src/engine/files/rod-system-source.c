/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Completes a house file: a system that only says "from" is replaced by the system file it names,
 * one of ours (compiled into the engine) or one in the house's folder. The house's own id and name
 * win. A path may not leave the folder, so that opening somebody's house reads none of your files.
 */
#include "config.h"

#include "engine/files/rod-system-source.h"

#include "engine/files/rod-json.h"
#include "engine/files/rod-systems-resource.h"
#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <gio/gio.h>
#include <errno.h>
#include <glib/gi18n-lib.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

#define RESOURCE_FOLDER "/org/storeyrod/systems/"

/* Members that a house may give beside "from"; they replace those of the file. */
static const char *const own_members[] = { "id", "name", "from" };

/* All bytes of @file, or one more than are allowed; %NULL with errno set when reading fails. */
static GByteArray *
read_bytes (FILE *file)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 block[65536];
  gsize  n;

  do
    {
      n = fread (block, 1, sizeof block, file);
      g_byte_array_append (bytes, block, (guint) n);
    }
  while (n == sizeof block && bytes->len <= ROD_MAX_FILE_BYTES);

  return ferror (file) ? NULL : g_steal_pointer (&bytes);
}

static GByteArray *
open_and_read (const char *path)
{
  FILE       *file = g_fopen (path, "rb");
  GByteArray *bytes;
  int         reason;

  if (file == NULL)
    return NULL;

  bytes = read_bytes (file);
  reason = errno;
  fclose (file);
  errno = reason;
  return bytes;
}

char *
rod_file_read (const char *path,
               gsize      *length,
               GError    **error)
{
  g_autoptr (GByteArray) bytes = NULL;

  g_return_val_if_fail (path != NULL && length != NULL, NULL);

  bytes = open_and_read (path);
  if (bytes == NULL)
    {
      g_set_error (error,
                   ROD_FILE_ERROR,
                   ROD_FILE_ERROR_READ,
                   _ ("\"%s\" cannot be read: %s. Check the path and its permissions."),
                   path,
                   g_strerror (errno));
      return NULL;
    }
  if (bytes->len > ROD_MAX_FILE_BYTES)
    {
      g_set_error (error,
                   ROD_FILE_ERROR,
                   ROD_FILE_ERROR_SYNTAX,
                   _ ("\"%s\" is larger than %d MB. Is it the right file?"),
                   path,
                   ROD_MAX_FILE_BYTES / (1024 * 1024));
      return NULL;
    }

  *length = bytes->len;
  g_byte_array_append (bytes, (const guint8 *) "", 1);
  return (char *) g_byte_array_free (g_steal_pointer (&bytes), FALSE);
}

gboolean
rod_file_check_format (const RodType      *type,
                       JsonNode           *root,
                       const RodJsonPlace *place,
                       GError            **error)
{
  RodJsonPlace     format_place = rod_json_place_member (place, "format");
  RodJsonPlace     version_place = rod_json_place_member (place, "version");
  JsonNode        *format = NULL;
  JsonNode        *version = NULL;
  g_autofree char *found = NULL;

  if (JSON_NODE_HOLDS_OBJECT (root))
    {
      format = json_object_get_member (json_node_get_object (root), "format");
      version = json_object_get_member (json_node_get_object (root), "version");
    }

  if (format == NULL || json_node_get_value_type (format) != G_TYPE_STRING ||
      !g_str_equal (json_node_get_string (format), type->format))
    {
      found = rod_json_found (format);
      return rod_json_place_refuse (&format_place,
                                    ROD_FILE_ERROR_FORMAT,
                                    error,
                                    _ ("found %s; allowed: \"%s\". Is it the right file?"),
                                    found,
                                    type->format);
    }

  found = rod_json_found (version);
  if (version == NULL || json_node_get_value_type (version) != G_TYPE_INT64 ||
      json_node_get_int (version) < 1)
    return rod_json_place_refuse (&version_place,
                                  ROD_FILE_ERROR_FORMAT,
                                  error,
                                  _ ("found %s; allowed: a whole number, at most %d"),
                                  found,
                                  type->version);
  if (json_node_get_int (version) > type->version)
    return rod_json_place_refuse (&version_place,
                                  ROD_FILE_ERROR_FORMAT,
                                  error,
                                  _ ("found version %s, which a newer program wrote; this one "
                                     "reads up to version %d. Update the program."),
                                  found,
                                  type->version);
  return TRUE;
}

/* Whether a relative path stays in its folder. */
static gboolean
stays_inside (const char *path)
{
  g_auto (GStrv) parts = g_strsplit (path, "/", -1);

  for (guint i = 0; parts[i] != NULL; i++)
    {
      if (*parts[i] == '\0' || g_str_equal (parts[i], "..") || strchr (parts[i], '\\') != NULL)
        return FALSE;
    }
  return *path != '\0';
}

/* The compiled-in systems. They are constant, so that registering them at first use, from whichever
 * thread, is no state that a caller could notice. */
static GResource *
our_systems (void)
{
  static gsize is_registered = 0;

  if (g_once_init_enter (&is_registered))
    {
      rod_systems_register_resource ();
      g_once_init_leave (&is_registered, 1);
    }
  return rod_systems_get_resource ();
}

static char *
read_ours (const char         *name,
           gsize              *length,
           const RodJsonPlace *place,
           GError            **error)
{
  g_autofree char *path = g_strconcat (RESOURCE_FOLDER, name, ".json", NULL);
  g_autoptr (GBytes) bytes = g_resource_lookup_data (our_systems (),
                                                     path,
                                                     G_RESOURCE_LOOKUP_FLAGS_NONE,
                                                     NULL);
  g_autofree char *quoted = NULL;

  if (bytes != NULL)
    {
      *length = g_bytes_get_size (bytes);
      return g_strndup (g_bytes_get_data (bytes, NULL), *length);
    }

  quoted = rod_json_quote (name);
  rod_json_place_refuse (place,
                         ROD_FILE_ERROR_REFERENCE,
                         error,
                         _ ("no system %s comes with the program. Name one that does, or a file "
                            "beside the house that ends in \".json\"."),
                         quoted);
  return NULL;
}

static char *
read_beside (const char         *path,
             const char         *folder,
             gsize              *length,
             const RodJsonPlace *place,
             GError            **error)
{
  g_autofree char *full = NULL;
  g_autofree char *quoted = rod_json_quote (path);
  g_autoptr (GError) reason = NULL;
  char *text;

  if (folder == NULL || !stays_inside (path))
    {
      rod_json_place_refuse (place,
                             ROD_FILE_ERROR_REFERENCE,
                             error,
                             _ ("found %s; allowed: a system that comes with the program, or a "
                                "path within the house's folder. Copy the file there."),
                             quoted);
      return NULL;
    }

  full = g_build_filename (folder, path, NULL);
  text = rod_file_read (full, length, &reason);
  if (text == NULL)
    rod_json_place_refuse (place, ROD_FILE_ERROR_READ, error, "%s", reason->message);
  return text;
}

/* The system that @from names, read by itself so that messages speak of its own file. */
static JsonNode *
read_system (const char         *from,
             const char         *folder,
             const RodJsonPlace *place,
             GError            **error)
{
  gboolean         is_path = strchr (from, '/') != NULL || g_str_has_suffix (from, ".json");
  gsize            length = 0;
  g_autofree char *text = is_path ? read_beside (from, folder, &length, place, error)
                                  : read_ours (from, &length, place, error);
  g_autofree char *name = g_strdup_printf (is_path ? "%s: $" : "%s.json: $", from);
  g_autoptr (JsonNode) root = NULL;
  g_autoptr (RodSystem) system = NULL;
  RodJsonPlace root_place = rod_json_place_root (name);

  if (text == NULL)
    return NULL;

  root = rod_json_parse (text, (gssize) length, name, error);
  if (root == NULL || !rod_file_check_format (&rod_system_type, root, &root_place, error))
    return NULL;

  system = rod_record_from_json (&rod_system_type, root, name, error);
  return system != NULL ? g_steal_pointer (&root) : NULL;
}

/* Refuses what the house says beside "from": two places for one thing would leave it open which of
 * them counts. Members that no system has are kept. */
static gboolean
check_own_members (JsonObject         *own,
                   const RodJsonPlace *place,
                   GError            **error)
{
  JsonObjectIter iter;
  const char    *name;

  json_object_iter_init_ordered (&iter, own);
  while (json_object_iter_next_ordered (&iter, &name, NULL))
    {
      RodJsonPlace inner = rod_json_place_member (place, name);
      gboolean     is_own = FALSE;

      for (guint i = 0; i < G_N_ELEMENTS (own_members); i++)
        is_own = is_own || g_str_equal (name, own_members[i]);
      if (!is_own && rod_type_find_member (&rod_system_type, name) != NULL)
        return rod_json_place_refuse (&inner,
                                      ROD_FILE_ERROR_MEMBER,
                                      error,
                                      _ ("found beside \"from\"; allowed: either \"from\" or the "
                                         "system's own members. Remove one of them."));
    }
  return TRUE;
}

static JsonNode *
embed_system (JsonObject         *own,
              const char         *from,
              const char         *folder,
              const RodJsonPlace *place,
              GError            **error)
{
  RodJsonPlace from_place = rod_json_place_member (place, "from");
  g_autoptr (JsonNode) system = NULL;
  JsonObject    *object;
  JsonObjectIter iter;
  const char    *name;

  if (!check_own_members (own, place, error))
    return NULL;
  system = read_system (from, folder, &from_place, error);
  if (system == NULL)
    return NULL;

  object = json_node_get_object (system);
  json_object_remove_member (object, "format");
  json_object_remove_member (object, "version");
  json_object_iter_init_ordered (&iter, own);
  while (json_object_iter_next_ordered (&iter, &name, NULL))
    {
      if (!g_str_equal (name, "from"))
        json_object_set_member (object, name, json_object_dup_member (own, name));
    }
  return g_steal_pointer (&system);
}

/* The list of systems, %NULL when there is none or the reader of records will refuse it. */
static JsonArray *
find_systems (JsonNode *root)
{
  JsonNode *systems = json_object_get_member (json_node_get_object (root), "systems");

  return systems != NULL && JSON_NODE_HOLDS_ARRAY (systems) ? json_node_get_array (systems) : NULL;
}

gboolean
rod_house_embed_systems (JsonNode   *root,
                         const char *folder,
                         GError    **error)
{
  RodJsonPlace root_place = rod_json_place_root ("$");
  RodJsonPlace systems_place = rod_json_place_member (&root_place, "systems");
  g_autoptr (JsonArray) whole = json_array_new ();
  JsonArray *systems = find_systems (root);

  if (systems == NULL)
    return TRUE;

  for (guint i = 0; i < json_array_get_length (systems); i++)
    {
      JsonNode    *node = json_array_get_element (systems, i);
      JsonNode    *from = JSON_NODE_HOLDS_OBJECT (node)
                            ? json_object_get_member (json_node_get_object (node), "from")
                            : NULL;
      RodJsonPlace place = rod_json_place_item (&systems_place, i);

      if (from != NULL && json_node_get_value_type (from) == G_TYPE_STRING)
        node = embed_system (json_node_get_object (node),
                             json_node_get_string (from),
                             folder,
                             &place,
                             error);
      else
        node = json_array_dup_element (systems, i);
      if (node == NULL)
        return FALSE;
      json_array_add_element (whole, node);
    }

  json_object_set_array_member (json_node_get_object (root), "systems", g_steal_pointer (&whole));
  return TRUE;
}
