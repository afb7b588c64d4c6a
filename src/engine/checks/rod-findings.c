/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The list of what the checks say. */

#include "config.h"

#include "engine/checks/rod-findings.h"

static void
clear_finding (gpointer data)
{
  RodFinding *finding = data;

  g_free (finding->text);
  g_free (finding->remedy);
}

GArray *
rod_findings_new (void)
{
  GArray *findings = g_array_new (FALSE, FALSE, sizeof (RodFinding));

  g_array_set_clear_func (findings, clear_finding);
  return findings;
}

void
rod_findings_add (GArray           *findings,
                  const RodFinding *finding)
{
  g_return_if_fail (finding->id != NULL);
  g_return_if_fail (finding->text != NULL && finding->remedy != NULL);

  g_array_append_val (findings, *finding);
}

static gint
compare_severity (gconstpointer a,
                  gconstpointer b)
{
  const RodFinding *one = a;
  const RodFinding *other = b;

  return (int) other->severity - (int) one->severity;
}

void
rod_findings_sort (GArray *findings)
{
  /* Stable since GLib 2.32, so equal ones keep their order. */
  g_array_sort (findings, compare_severity);
}
