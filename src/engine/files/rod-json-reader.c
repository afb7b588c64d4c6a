/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads JSON text into JSON-GLib's nodes.
 *
 * A reader of our own because JSON-GLib's parser accepts more than JSON, keeps the last of two
 * members with the same name without a word, descends without a limit and turns 1e999 into
 * infinity. Here the first such thing is refused with its place. Recursive descent; the chain of
 * places lives on the stack beside it and costs nothing until something is wrong.
 */
#include "config.h"

#include "engine/files/rod-json.h"

#include "engine/rod-limits.h"

#include <errno.h>
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* How much of a faulty text or word a message shows. */
#define SHOWN_CHARACTERS 40

typedef struct
{
  const char *start;
  const char *end;
  const char *at;
  guint       depth;
  guint       n_values;
  GError    **error;
} Reader;

static JsonNode *read_value (Reader             *reader,
                             const RodJsonPlace *place);

/* Line and column of the reader's place, counted from 1; the column in characters. */
static void
locate (const Reader *reader,
        guint        *line,
        guint        *column)
{
  const char *line_start = reader->start;

  *line = 1;
  for (const char *c = reader->start; c < reader->at; c++)
    {
      if (*c == '\n')
        {
          *line += 1;
          line_start = c + 1;
        }
    }
  *column = (guint) g_utf8_strlen (line_start, reader->at - line_start) + 1;
}

static void refuse (const Reader       *reader,
                    const RodJsonPlace *place,
                    const char         *format,
                    ...) G_GNUC_PRINTF (3, 4);

static void
refuse (const Reader       *reader,
        const RodJsonPlace *place,
        const char         *format,
        ...)
{
  g_autofree char *message = NULL;
  va_list          arguments;
  guint            line, column;

  va_start (arguments, format);
  message = g_strdup_vprintf (format, arguments);
  va_end (arguments);

  locate (reader, &line, &column);
  /* Translators: where in a file, and what is wrong there */
  rod_json_place_refuse (place,
                         ROD_FILE_ERROR_SYNTAX,
                         reader->error,
                         _ ("line %u, column %u: %s"),
                         line,
                         column,
                         message);
}

static void
skip_space (Reader *reader)
{
  while (reader->at < reader->end && strchr (" \t\r\n", *reader->at) != NULL && *reader->at != '\0')
    reader->at++;
}

/* The word at the reader's place, for messages; %NULL at the end. */
static char *
next_word (const Reader *reader)
{
  const char *c = reader->at;
  guint       n = 0;

  if (c == reader->end)
    return NULL;
  while (c < reader->end && n < SHOWN_CHARACTERS &&
         (n == 0 || g_ascii_isalnum (*c) || strchr ("+-._", *c) != NULL))
    {
      c = g_utf8_next_char (c);
      n++;
    }
  return g_strndup (reader->at, c - reader->at);
}

/* What people who write JSON by hand most often meant; "" when nothing comes to mind. */
static const char *
hint_for (const char *word)
{
  if (*word == '/' || *word == '#')
    return _ (" JSON has no comments; write a member called \"note\" instead.");
  if (*word == '}' || *word == ']')
    return _ (" Is there a comma too many before it, or a bracket of another kind?");
  if (g_ascii_isdigit (*word))
    return _ (" Is there a comma where a decimal point should be?");
  if (g_str_equal (word, "NaN") || strstr (word, "Infinity") != NULL)
    return _ (" Give a finite number, or leave the member out.");
  if (*word == '\'')
    return _ (" Write texts in double quotes.");
  return "";
}

/* Says that something else than @wanted, a noun phrase, stands at the reader's place. */
static void
refuse_word (Reader             *reader,
             const RodJsonPlace *place,
             const char         *wanted)
{
  g_autofree char *word = next_word (reader);

  if (word == NULL)
    refuse (reader, place, _ ("the file ends where %s should stand. Is it complete?"), wanted);
  else
    refuse (reader, place, _ ("found %s where %s should stand.%s"), word, wanted, hint_for (word));
}

static gboolean
accept (Reader *reader,
        char    c)
{
  skip_space (reader);
  if (reader->at == reader->end || *reader->at != c)
    return FALSE;
  reader->at++;
  return TRUE;
}

/* Four hexadecimal digits; -1 when they are not there. */
static int
read_code_unit (Reader *reader)
{
  int value = 0;

  if (reader->end - reader->at < 4)
    return -1;
  for (int i = 0; i < 4; i++)
    {
      int digit = g_ascii_xdigit_value (reader->at[i]);

      if (digit < 0)
        return -1;
      value = value * 16 + digit;
    }
  reader->at += 4;
  return value;
}

/* What follows "\u": one code unit, or two for a character beyond the first 65,536. */
static gboolean
read_unicode_escape (Reader  *reader,
                     GString *text)
{
  int      first = read_code_unit (reader);
  gunichar character = (gunichar) first;

  if (first <= 0 || (first >= 0xdc00 && first <= 0xdfff))
    return FALSE;

  if (first >= 0xd800 && first <= 0xdbff)
    {
      int second = -1;

      if (reader->end - reader->at >= 2 && strncmp (reader->at, "\\u", 2) == 0)
        {
          reader->at += 2;
          second = read_code_unit (reader);
        }
      if (second < 0xdc00 || second > 0xdfff)
        return FALSE;
      character = 0x10000u + (((gunichar) first - 0xd800u) << 10) + ((gunichar) second - 0xdc00u);
    }

  g_string_append_unichar (text, character);
  return TRUE;
}

static gboolean
read_escape (Reader  *reader,
             GString *text)
{
  static const char names[] = "\"\\/bfnrt";
  static const char meanings[] = "\"\\/\b\f\n\r\t";
  const char       *found;
  char              c;

  if (reader->at == reader->end)
    return FALSE;

  c = *reader->at++;
  if (c == 'u')
    return read_unicode_escape (reader, text);

  found = c != '\0' ? strchr (names, c) : NULL;
  if (found == NULL)
    return FALSE;
  g_string_append_c (text, meanings[found - names]);
  return TRUE;
}

/* The text after an opening quote. */
static char *
read_text (Reader             *reader,
           const RodJsonPlace *place)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (;;)
    {
      const char *plain = reader->at;

      while (reader->at < reader->end && (guchar) *reader->at >= ' ' && *reader->at != '"' &&
             *reader->at != '\\')
        reader->at++;
      g_string_append_len (text, plain, reader->at - plain);

      if (reader->at == reader->end)
        {
          refuse (reader, place, _ ("the file ends within a text. Is it complete?"));
          return NULL;
        }
      if (*reader->at == '"')
        {
          reader->at++;
          return g_string_free (g_steal_pointer (&text), FALSE);
        }
      if (*reader->at != '\\')
        {
          refuse (reader, place, _ ("found a control character within a text. Write \\n for a line "
                                    "feed, or close the quotes."));
          return NULL;
        }

      plain = reader->at++;
      if (!read_escape (reader, text))
        {
          reader->at = plain;
          refuse (reader, place, _ ("found a backslash that begins no character of JSON. Write "
                                    "\\\\ for a backslash."));
          return NULL;
        }
    }
}

static gboolean
skip_digits (Reader *reader)
{
  const char *first = reader->at;

  while (reader->at < reader->end && g_ascii_isdigit (*reader->at))
    reader->at++;
  return reader->at > first;
}

static gboolean
skip_one_of (Reader     *reader,
             const char *characters)
{
  if (reader->at == reader->end || *reader->at == '\0' || strchr (characters, *reader->at) == NULL)
    return FALSE;
  reader->at++;
  return TRUE;
}

/* Passes over a number as RFC 8259 writes it and says whether it has a fraction or exponent. */
static gboolean
skip_number (Reader   *reader,
             gboolean *is_whole)
{
  const char *first;

  *is_whole = TRUE;
  skip_one_of (reader, "-");
  first = reader->at;
  if (!skip_digits (reader) || (*first == '0' && reader->at - first > 1))
    return FALSE;

  if (skip_one_of (reader, "."))
    {
      *is_whole = FALSE;
      if (!skip_digits (reader))
        return FALSE;
    }
  if (skip_one_of (reader, "eE"))
    {
      *is_whole = FALSE;
      skip_one_of (reader, "+-");
      if (!skip_digits (reader))
        return FALSE;
    }
  return TRUE;
}

static JsonNode *
number_node (const char *digits,
             gboolean    is_whole)
{
  double number;

  if (is_whole)
    {
      gint64 whole;

      errno = 0;
      whole = g_ascii_strtoll (digits, NULL, 10);
      return errno == 0 ? json_node_init_int (json_node_alloc (), whole) : NULL;
    }

  number = g_ascii_strtod (digits, NULL);
  return isfinite (number) ? json_node_init_double (json_node_alloc (), number) : NULL;
}

static JsonNode *
read_number (Reader             *reader,
             const RodJsonPlace *place)
{
  char        digits[ROD_MAX_NUMBER_BYTES + 1];
  const char *first = reader->at;
  gboolean    is_whole;
  JsonNode   *node = NULL;

  if (!skip_number (reader, &is_whole))
    {
      g_autofree char *word = NULL;

      reader->at = first;
      word = next_word (reader);
      refuse (reader,
              place,
              _ ("found %s, which is no number of JSON. Write finite numbers like -2.5, without "
                 "needless zeros in front."),
              word);
      return NULL;
    }

  if (reader->at - first <= ROD_MAX_NUMBER_BYTES)
    {
      memcpy (digits, first, reader->at - first);
      digits[reader->at - first] = '\0';
      node = number_node (digits, is_whole);
    }
  if (node == NULL)
    {
      reader->at = first;
      refuse (reader, place, _ ("found a number too large or too long to be read. Correct it."));
    }
  return node;
}

static JsonNode *
read_object (Reader             *reader,
             const RodJsonPlace *place)
{
  g_autoptr (JsonObject) object = json_object_new ();
  JsonNode *node;

  if (!accept (reader, '}'))
    {
      do
        {
          g_autofree char *name = NULL;
          RodJsonPlace     inner;
          JsonNode        *value;

          if (!accept (reader, '"'))
            {
              refuse_word (reader, place, _ ("the name of a member, in quotes,"));
              return NULL;
            }
          if ((name = read_text (reader, place)) == NULL)
            return NULL;

          inner = rod_json_place_member (place, name);
          if (json_object_has_member (object, name))
            {
              refuse (reader, &inner, _ ("found this member twice in one object. Remove one."));
              return NULL;
            }
          if (!accept (reader, ':'))
            {
              refuse_word (reader, &inner, _ ("a colon"));
              return NULL;
            }
          if ((value = read_value (reader, &inner)) == NULL)
            return NULL;
          json_object_set_member (object, name, value);
        }
      while (accept (reader, ','));

      if (!accept (reader, '}'))
        {
          refuse_word (reader, place, _ ("a comma or the end of the object"));
          return NULL;
        }
    }

  node = json_node_new (JSON_NODE_OBJECT);
  json_node_take_object (node, g_steal_pointer (&object));
  return node;
}

static JsonNode *
read_array (Reader             *reader,
            const RodJsonPlace *place)
{
  g_autoptr (JsonArray) array = json_array_new ();
  JsonNode *node;

  if (!accept (reader, ']'))
    {
      do
        {
          RodJsonPlace inner = rod_json_place_item (place, json_array_get_length (array));
          JsonNode    *value = read_value (reader, &inner);

          if (value == NULL)
            return NULL;
          json_array_add_element (array, value);
        }
      while (accept (reader, ','));

      if (!accept (reader, ']'))
        {
          refuse_word (reader, place, _ ("a comma or the end of the list"));
          return NULL;
        }
    }

  node = json_node_new (JSON_NODE_ARRAY);
  json_node_take_array (node, g_steal_pointer (&array));
  return node;
}

static JsonNode *
read_word (Reader             *reader,
           const RodJsonPlace *place)
{
  g_autofree char *word = next_word (reader);
  JsonNode        *node = NULL;

  if (g_strcmp0 (word, "true") == 0 || g_strcmp0 (word, "false") == 0)
    node = json_node_init_boolean (json_node_alloc (), *word == 't');
  else if (g_strcmp0 (word, "null") == 0)
    node = json_node_new (JSON_NODE_NULL);

  if (node != NULL)
    reader->at += strlen (word);
  else
    refuse_word (reader, place, _ ("a value of JSON"));
  return node;
}

static JsonNode *
read_nested (Reader             *reader,
             const RodJsonPlace *place)
{
  JsonNode *node;

  if (reader->depth == ROD_MAX_DEPTH)
    {
      refuse (reader,
              place,
              _ ("lists and objects are nested more than %d deep. Remove some."),
              ROD_MAX_DEPTH);
      return NULL;
    }

  reader->depth++;
  node = *reader->at++ == '{' ? read_object (reader, place) : read_array (reader, place);
  reader->depth--;
  return node;
}

static JsonNode *
read_value (Reader             *reader,
            const RodJsonPlace *place)
{
  char c;

  skip_space (reader);
  if (++reader->n_values > ROD_MAX_VALUES)
    {
      refuse (reader, place, _ ("found more than %d values. Divide the file."), ROD_MAX_VALUES);
      return NULL;
    }

  c = reader->at < reader->end ? *reader->at : '\0';
  if (c == '{' || c == '[')
    return read_nested (reader, place);
  if (g_ascii_isdigit (c) || c == '-')
    return read_number (reader, place);
  if (c == '"')
    {
      g_autofree char *text = NULL;

      reader->at++;
      text = read_text (reader, place);
      return text != NULL ? json_node_init_string (json_node_alloc (), text) : NULL;
    }
  return read_word (reader, place);
}

static gboolean
check_text (Reader             *reader,
            const RodJsonPlace *place)
{
  if (reader->end - reader->start > ROD_MAX_FILE_BYTES)
    return rod_json_place_refuse (place,
                                  ROD_FILE_ERROR_SYNTAX,
                                  reader->error,
                                  _ ("the file is larger than %d MB. Is it the right one?"),
                                  ROD_MAX_FILE_BYTES / (1024 * 1024));

  if (!g_utf8_validate_len (reader->start, reader->end - reader->start, &reader->at))
    {
      refuse (reader, place, _ ("found a byte that is zero or not UTF-8. Save the file as UTF-8."));
      return FALSE;
    }

  reader->at = reader->start;
  if (reader->end - reader->start >= 3 && memcmp (reader->start, "\xef\xbb\xbf", 3) == 0)
    {
      refuse (reader, place, _ ("found a byte order mark. Save the file as UTF-8 without one."));
      return FALSE;
    }
  return TRUE;
}

JsonNode *
rod_json_parse (const char *text,
                gssize      length,
                const char *name,
                GError    **error)
{
  RodJsonPlace place = rod_json_place_root (name);
  gsize        bytes = length < 0 ? strlen (text) : (gsize) length;
  Reader       reader = { .start = text, .end = text + bytes, .at = text, .error = error };
  JsonNode    *root;

  g_return_val_if_fail (text != NULL && name != NULL, NULL);

  if (!check_text (&reader, &place))
    return NULL;

  root = read_value (&reader, &place);
  if (root == NULL)
    return NULL;

  skip_space (&reader);
  if (reader.at < reader.end)
    {
      refuse_word (&reader, &place, _ ("the end of the file"));
      g_clear_pointer (&root, json_node_unref);
    }
  return root;
}

char *
rod_json_quote (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text != NULL ? text : "", -1);
  g_autofree char *start = NULL;

  if (g_utf8_strlen (valid, -1) <= SHOWN_CHARACTERS)
    return g_strdup_printf ("\"%s\"", valid);

  start = g_utf8_substring (valid, 0, SHOWN_CHARACTERS);
  return g_strdup_printf ("\"%s…\"", start);
}

char *
rod_json_found (JsonNode *node)
{
  if (node == NULL)
    return g_strdup (_ ("nothing"));
  if (JSON_NODE_HOLDS_OBJECT (node))
    return g_strdup (_ ("an object"));
  if (JSON_NODE_HOLDS_ARRAY (node))
    return g_strdup (_ ("a list"));
  if (JSON_NODE_HOLDS_NULL (node))
    return g_strdup ("null");
  if (json_node_get_value_type (node) == G_TYPE_STRING)
    return rod_json_quote (json_node_get_string (node));
  if (json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    return g_strdup (json_node_get_boolean (node) ? "true" : "false");
  if (json_node_get_value_type (node) == G_TYPE_INT64)
    return g_strdup_printf ("%" G_GINT64_FORMAT, json_node_get_int (node));
  return rod_json_number (json_node_get_double (node));
}
