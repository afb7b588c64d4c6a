/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Text laid out for a terminal. The width does not follow the terminal's, so that what is printed
 * can be compared and quoted.
 */
#include "config.h"

#include "cli/rod-columns.h"

guint
rod_columns_width (const char *text)
{
  guint width = 0;

  g_return_val_if_fail (text != NULL, 0);

  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    {
      gunichar character = g_utf8_get_char (c);

      if (!g_unichar_iszerowidth (character))
        width += g_unichar_iswide (character) ? 2 : 1;
    }
  return width;
}

void
rod_columns_pad (GString    *out,
                 const char *text,
                 guint       width)
{
  g_return_if_fail (out != NULL);

  g_string_append (out, text);
  for (guint at = rod_columns_width (text); at < width; at++)
    g_string_append_c (out, ' ');
}

/* Words tied by a no-break space stay together; printed it is a plain one, which copies better. */
static void
append_word (GString    *out,
             const char *word)
{
  g_auto (GStrv) parts = g_strsplit (word, "\u00a0", -1);
  g_autofree char *plain = g_strjoinv (" ", parts);

  g_string_append (out, plain);
}

static void
begin_line (GString *out,
            guint    indent)
{
  g_string_append_c (out, '\n');
  rod_columns_pad (out, "", indent);
}

/* Writes words from column @indent on; the line feed at the end is the caller's. */
static void
append_words (GString    *out,
              guint       indent,
              const char *line)
{
  g_auto (GStrv) words = g_strsplit (line, " ", -1);
  guint at = indent;

  for (guint i = 0; words[i] != NULL; i++)
    {
      guint width = rod_columns_width (words[i]);

      if (width == 0)
        continue;
      if (at > indent && at + 1 + width > ROD_COLUMNS_PAGE)
        {
          begin_line (out, indent);
          at = indent;
        }
      if (at > indent)
        {
          g_string_append_c (out, ' ');
          at++;
        }
      append_word (out, words[i]);
      at += width;
    }
}

void
rod_columns_append (GString    *out,
                    const char *label,
                    guint       indent,
                    const char *text)
{
  g_auto (GStrv) lines = NULL;

  g_return_if_fail (out != NULL);
  g_return_if_fail (label != NULL && text != NULL);

  rod_columns_pad (out, label, indent);
  if (*label != '\0' && rod_columns_width (label) >= indent)
    begin_line (out, indent);
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      if (i > 0)
        begin_line (out, indent);
      append_words (out, indent, lines[i]);
    }
  g_string_append_c (out, '\n');
}
