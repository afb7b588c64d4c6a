/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes JSON-GLib's nodes as text.
 *
 * A writer of our own because JSON-GLib's prints 17 digits of every number, where the fewest that
 * read back the same are wanted: 0.1 stays 0.1 and a file that is opened and saved stays as it is.
 * A list or object of plain values that fits on a line is written on one, so that an outline reads
 * like the surveyor's list of corners.
 */
#include "config.h"

#include "engine/files/rod-json.h"

#include <math.h>
#include <string.h>

/* Longest line that a list or object of plain values may fill, with the comma after it. */
#define LINE_COLUMNS 100

/* Decimal digits that may say a double in full, and that always do. */
#define FEWEST_DIGITS 15
#define MOST_DIGITS 17

char *
rod_json_number (double number)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  if (!isfinite (number))
    return g_strdup (isnan (number) ? "NaN" : number > 0 ? "Infinity"
                                                         : "-Infinity");

  for (int digits = FEWEST_DIGITS; digits <= MOST_DIGITS; digits++)
    {
      char   format[8];
      double again;

      g_snprintf (format, sizeof format, "%%.%dg", digits);
      g_ascii_formatd (text, sizeof text, format, number);
      again = g_ascii_strtod (text, NULL);
      if (!(again < number) && !(again > number))
        break;
    }
  return g_strdup (text);
}

static void
append_character (GString *out,
                  guchar   c)
{
  static const char named[] = "\"\\\b\f\n\r\t";
  static const char names[] = "\"\\bfnrt";
  const char       *found = c != '\0' ? strchr (named, c) : NULL;

  if (found != NULL)
    g_string_append_printf (out, "\\%c", names[found - named]);
  else if (c < ' ' || c == 0x7f)
    g_string_append_printf (out, "\\u%04x", c);
  else
    g_string_append_c (out, (char) c);
}

static void
append_text (GString    *out,
             const char *text)
{
  g_string_append_c (out, '"');
  for (const char *c = text; *c != '\0'; c++)
    append_character (out, (guchar) *c);
  g_string_append_c (out, '"');
}

/* A number with a fraction keeps the mark of one, so that it is read back as what it was. */
static void
append_double (GString *out,
               double   number)
{
  g_autofree char *text = rod_json_number (number);

  g_string_append (out, text);
  if (strpbrk (text, ".e") == NULL)
    g_string_append (out, ".0");
}

static void
append_plain (GString  *out,
              JsonNode *node)
{
  if (JSON_NODE_HOLDS_NULL (node))
    g_string_append (out, "null");
  else if (json_node_get_value_type (node) == G_TYPE_STRING)
    append_text (out, json_node_get_string (node));
  else if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    g_string_append (out, json_node_get_boolean (node) ? "true" : "false");
  else if (json_node_get_value_type (node) == G_TYPE_INT64)
    g_string_append_printf (out, "%" G_GINT64_FORMAT, json_node_get_int (node));
  else
    append_double (out, json_node_get_double (node));
}

static gboolean
is_plain (JsonNode *node)
{
  return !JSON_NODE_HOLDS_OBJECT (node) && !JSON_NODE_HOLDS_ARRAY (node);
}

typedef struct
{
  GString *out;
  guint    indent;
  gboolean on_one_line;
  guint    n_written;
} Writer;

static void append_node (Writer   *writer,
                         JsonNode *node);

static void
append_separator (Writer *writer)
{
  if (writer->n_written > 0)
    g_string_append_c (writer->out, ',');
  if (!writer->on_one_line)
    g_string_append_printf (writer->out, "\n%*s", (int) writer->indent, "");
  else if (writer->n_written > 0)
    g_string_append_c (writer->out, ' ');
  writer->n_written++;
}

static void
append_members (Writer     *writer,
                JsonObject *object)
{
  JsonObjectIter iter;
  const char    *name;
  JsonNode      *node;

  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &name, &node))
    {
      append_separator (writer);
      append_text (writer->out, name);
      g_string_append (writer->out, ": ");
      append_node (writer, node);
    }
}

static void
append_items (Writer    *writer,
              JsonArray *array)
{
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      append_separator (writer);
      append_node (writer, json_array_get_element (array, i));
    }
}

static void
append_inner (Writer   *writer,
              JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    append_members (writer, json_node_get_object (node));
  else
    append_items (writer, json_node_get_array (node));
}

static gboolean
holds_only_plain (JsonNode *node)
{
  g_autoptr (GList) values = JSON_NODE_HOLDS_OBJECT (node)
                               ? json_object_get_values (json_node_get_object (node))
                               : json_array_get_elements (json_node_get_array (node));

  for (const GList *value = values; value != NULL; value = value->next)
    {
      if (!is_plain (value->data))
        return FALSE;
    }
  return TRUE;
}

/* Bytes from the start of the last line to the end. */
static gsize
line_length (const GString *out)
{
  const char *end = memrchr (out->str, '\n', out->len);

  return out->len - (end != NULL ? (gsize) (end + 1 - out->str) : 0);
}

static void
append_node (Writer   *writer,
             JsonNode *node)
{
  GString *out = writer->out;
  gboolean is_object = JSON_NODE_HOLDS_OBJECT (node);
  gsize    start = out->len;

  if (is_plain (node))
    {
      append_plain (out, node);
      return;
    }

  if (holds_only_plain (node))
    {
      Writer line = { .out = out, .on_one_line = TRUE };

      g_string_append (out, is_object ? "{ " : "[");
      append_inner (&line, node);
      if (line.n_written == 0)
        g_string_truncate (out, start + 1);
      g_string_append (out, !is_object ? "]" : line.n_written == 0 ? "}"
                                                                   : " }");
      if (line.n_written == 0 || line_length (out) < LINE_COLUMNS)
        return;
      g_string_truncate (out, start);
    }

  {
    Writer block = { .out = out, .indent = writer->indent + 2 };

    g_string_append_c (out, is_object ? '{' : '[');
    append_inner (&block, node);
    g_string_append_printf (out, "\n%*s%c", (int) writer->indent, "", is_object ? '}' : ']');
  }
}

char *
rod_json_text (JsonNode *node)
{
  Writer writer = { .out = g_string_new (NULL) };

  g_return_val_if_fail (node != NULL, NULL);

  append_node (&writer, node);
  g_string_append_c (writer.out, '\n');
  return g_string_free (writer.out, FALSE);
}
