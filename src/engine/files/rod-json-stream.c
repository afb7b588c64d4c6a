/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON (RFC 8259) as a stream. Text is gathered and handed on in blocks, because a plan is made of
 * some hundred thousand small values.
 */
#include "config.h"

#include "engine/files/rod-json-stream.h"

#include "engine/files/rod-decimal.h"

#include <math.h>

/* Large enough that calls to the stream do not show, small enough not to show in memory. */
#define BLOCK_BYTES (64 * 1024)

typedef struct
{
  char  closing;
  guint n_members;
} Nest;

struct _RodJsonStream
{
  /* Owned */
  GOutputStream *output;
  GString       *pending;
  GArray        *nests; /* of Nest, outermost first */
  GError        *error;

  guint levels;
};

static void
flush_pending (RodJsonStream *json)
{
  const GString *pending = json->pending;

  if (json->error == NULL)
    g_output_stream_write_all (json->output,
                               pending->str,
                               pending->len,
                               NULL,
                               NULL,
                               &json->error);
  g_string_truncate (json->pending, 0);
}

static void
begin_line (RodJsonStream *json)
{
  g_string_append_c (json->pending, '\n');
  for (guint i = 0; i < json->nests->len; i++)
    g_string_append (json->pending, "  ");
}

static void
append_quoted (GString    *text,
               const char *value)
{
  g_string_append_c (text, '"');
  for (const char *c = value; *c != '\0'; c++)
    {
      if (*c == '"' || *c == '\\')
        g_string_append_c (text, '\\');
      if ((guchar) *c < 0x20)
        g_string_append_printf (text, "\\u%04x", (guint) (guchar) *c);
      else
        g_string_append_c (text, *c);
    }
  g_string_append_c (text, '"');
}

/* Separates the next value from the one before it and names it. */
static void
begin_value (RodJsonStream *json,
             const char    *name)
{
  if (json->nests->len > 0)
    {
      Nest *nest = &g_array_index (json->nests, Nest, json->nests->len - 1);

      g_assert ((name != NULL) == (nest->closing == '}'));
      if (nest->n_members > 0)
        g_string_append_c (json->pending, ',');
      if (json->nests->len <= json->levels)
        begin_line (json);
      else if (nest->n_members > 0)
        g_string_append_c (json->pending, ' ');
      nest->n_members++;
    }
  if (name != NULL)
    {
      append_quoted (json->pending, name);
      g_string_append (json->pending, ": ");
    }
}

static void
end_value (RodJsonStream *json)
{
  if (json->pending->len >= BLOCK_BYTES)
    flush_pending (json);
}

static void
open_nest (RodJsonStream *json,
           const char    *name,
           char           opening,
           char           closing)
{
  Nest nest = { closing, 0 };

  begin_value (json, name);
  g_string_append_c (json->pending, opening);
  g_array_append_val (json->nests, nest);
}

RodJsonStream *
rod_json_stream_new (GOutputStream *output,
                     guint          levels)
{
  RodJsonStream *json;

  g_return_val_if_fail (G_IS_OUTPUT_STREAM (output), NULL);

  json = g_new0 (RodJsonStream, 1);
  json->output = g_object_ref (output);
  json->pending = g_string_sized_new (BLOCK_BYTES + BLOCK_BYTES / 4);
  json->nests = g_array_new (FALSE, FALSE, sizeof (Nest));
  json->levels = levels;
  return json;
}

void
rod_json_stream_open_object (RodJsonStream *json,
                             const char    *name)
{
  g_return_if_fail (json != NULL);

  open_nest (json, name, '{', '}');
}

void
rod_json_stream_open_array (RodJsonStream *json,
                            const char    *name)
{
  g_return_if_fail (json != NULL);

  open_nest (json, name, '[', ']');
}

void
rod_json_stream_close (RodJsonStream *json)
{
  Nest nest;

  g_return_if_fail (json != NULL);
  g_return_if_fail (json->nests->len > 0);

  nest = g_array_index (json->nests, Nest, json->nests->len - 1);
  g_array_set_size (json->nests, json->nests->len - 1);
  if (nest.n_members > 0 && json->nests->len < json->levels)
    begin_line (json);
  g_string_append_c (json->pending, nest.closing);
  end_value (json);
}

void
rod_json_stream_text (RodJsonStream *json,
                      const char    *name,
                      const char    *value)
{
  g_return_if_fail (json != NULL);

  begin_value (json, name);
  if (value == NULL)
    g_string_append (json->pending, "null");
  else
    append_quoted (json->pending, value);
  end_value (json);
}

void
rod_json_stream_number (RodJsonStream *json,
                        const char    *name,
                        double         value,
                        guint          decimals)
{
  g_return_if_fail (json != NULL);

  begin_value (json, name);
  if (isfinite (value))
    rod_decimal_append (json->pending, value, decimals);
  else
    g_string_append (json->pending, "null");
  end_value (json);
}

void
rod_json_stream_integer (RodJsonStream *json,
                         const char    *name,
                         gint64         value)
{
  g_return_if_fail (json != NULL);

  begin_value (json, name);
  g_string_append_printf (json->pending, "%" G_GINT64_FORMAT, value);
  end_value (json);
}

void
rod_json_stream_flag (RodJsonStream *json,
                      const char    *name,
                      gboolean       value)
{
  g_return_if_fail (json != NULL);

  begin_value (json, name);
  g_string_append (json->pending, value ? "true" : "false");
  end_value (json);
}

gboolean
rod_json_stream_finish (RodJsonStream *json,
                        GError       **error)
{
  gboolean written;

  g_return_val_if_fail (json != NULL, FALSE);
  g_return_val_if_fail (json->nests->len == 0, FALSE);

  g_string_append_c (json->pending, '\n');
  flush_pending (json);
  written = json->error == NULL;
  if (!written)
    g_propagate_error (error, g_steal_pointer (&json->error));

  g_array_unref (json->nests);
  g_string_free (json->pending, TRUE);
  g_object_unref (json->output);
  g_free (json);
  return written;
}
