/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paths of places in a file, for messages. */
#include "config.h"

#include "engine/files/rod-json-place.h"

#include "engine/files/rod-json.h"

GQuark
rod_file_error_quark (void)
{
  return g_quark_from_static_string ("rod-file-error");
}

RodJsonPlace
rod_json_place_root (const char *name)
{
  return (RodJsonPlace){ .name = name };
}

RodJsonPlace
rod_json_place_member (const RodJsonPlace *parent,
                       const char         *name)
{
  return (RodJsonPlace){ .parent = parent, .name = name };
}

RodJsonPlace
rod_json_place_item (const RodJsonPlace *parent,
                     guint               index)
{
  return (RodJsonPlace){ .parent = parent, .index = index };
}

static gboolean
is_plain_name (const char *name)
{
  for (const char *c = name; *c != '\0'; c++)
    {
      if (!g_ascii_isalnum (*c) && *c != '_' && *c != '-')
        return FALSE;
    }
  return *name != '\0';
}

static void
append_path (GString            *text,
             const RodJsonPlace *place)
{
  if (place->parent == NULL)
    {
      g_string_append (text, place->name);
      return;
    }

  append_path (text, place->parent);
  if (place->name == NULL)
    g_string_append_printf (text, "[%u]", place->index);
  else if (is_plain_name (place->name))
    g_string_append_printf (text, ".%s", place->name);
  else
    {
      g_autofree char *quoted = rod_json_quote (place->name);

      g_string_append_printf (text, "[%s]", quoted);
    }
}

char *
rod_json_place_text (const RodJsonPlace *place)
{
  GString *text;

  g_return_val_if_fail (place != NULL, NULL);

  text = g_string_new (NULL);
  append_path (text, place);
  return g_string_free (text, FALSE);
}

gboolean
rod_json_place_refuse (const RodJsonPlace *place,
                       RodFileError        code,
                       GError            **error,
                       const char         *format,
                       ...)
{
  g_autofree char *path = rod_json_place_text (place);
  g_autofree char *message = NULL;
  va_list          arguments;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);

  g_set_error (error, ROD_FILE_ERROR, code, "%s: %s", path, message);
  return FALSE;
}
