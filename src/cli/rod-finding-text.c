/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings in words, the same words as on sheets and screen. */
#include "config.h"

#include "cli/rod-finding-text.h"

#include "cli/rod-columns.h"

#include <glib/gi18n.h>

#define TEXT_INDENT 8

static const char *
severity_label (RodSeverity severity)
{
  switch (severity)
    {
    case ROD_SEVERITY_MUST:
      return C_ ("finding", "must");
    case ROD_SEVERITY_SHOULD:
      return C_ ("finding", "should");
    case ROD_SEVERITY_NOTE:
    default:
      return C_ ("finding", "note");
    }
}

guint
rod_finding_text_count (const GArray *findings,
                        RodSeverity   severity)
{
  guint n = 0;

  g_return_val_if_fail (findings != NULL, 0);

  for (guint i = 0; i < findings->len; i++)
    if (g_array_index (findings, RodFinding, i).severity == severity)
      n++;
  return n;
}

static char *
count_text (RodSeverity severity,
            guint       n)
{
  switch (severity)
    {
    case ROD_SEVERITY_MUST:
      return g_strdup_printf (ngettext ("%u\u00a0must", "%u\u00a0must", n), n);
    case ROD_SEVERITY_SHOULD:
      return g_strdup_printf (ngettext ("%u\u00a0should", "%u\u00a0should", n), n);
    case ROD_SEVERITY_NOTE:
    default:
      return g_strdup_printf (ngettext ("%u\u00a0note", "%u\u00a0notes", n), n);
    }
}

char *
rod_finding_text_tally (const GArray *findings)
{
  static const RodSeverity severities[] = {
    ROD_SEVERITY_MUST,
    ROD_SEVERITY_SHOULD,
    ROD_SEVERITY_NOTE,
  };
  g_autoptr (GStrvBuilder) counts = g_strv_builder_new ();
  g_auto (GStrv) texts = NULL;

  g_return_val_if_fail (findings != NULL, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (severities); i++)
    {
      guint            n = rod_finding_text_count (findings, severities[i]);
      g_autofree char *text = count_text (severities[i], n);

      if (n > 0)
        g_strv_builder_add (counts, text);
    }
  texts = g_strv_builder_end (counts);
  return texts[0] != NULL ? g_strjoinv (", ", texts) : g_strdup (_ ("none"));
}

void
rod_finding_text_append (GString      *out,
                         const GArray *findings,
                         guint         n)
{
  g_return_if_fail (out != NULL);
  g_return_if_fail (findings != NULL && n <= findings->len);

  for (guint i = 0; i < n; i++)
    {
      const RodFinding *finding = &g_array_index (findings, RodFinding, i);
      g_autofree char  *text = NULL;

      /* Translators: what is wrong, what to do, section of the rules. */
      text = g_strdup_printf (_ ("%s\nRemedy: %s\nRule %s in docs/rules.md"),
                              finding->text,
                              finding->remedy,
                              finding->rule);
      if (i > 0)
        g_string_append_c (out, '\n');
      rod_columns_append (out, severity_label (finding->severity), TEXT_INDENT, text);
    }
}
