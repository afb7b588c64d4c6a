/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Mixes whose neighbours were to differ and cannot (rule C4): one colour never can, two cannot
 * where a board touches two neighbours that touch each other. */

#include "config.h"

#include <glib/gi18n-lib.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/takeoff/rod-colour-pattern.h"

/* How many different colours its boards have. */
static guint
count_colours (const RodPlan  *plan,
               const RodField *field)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);

  for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
    g_hash_table_add (seen, (gpointer) (guintptr) rod_plan_piece (plan, p)->colour);
  return g_hash_table_size (seen);
}

static char *
repeat_remedy (guint n_colours)
{
  if (n_colours == 1)
    return g_strdup (_ ("Add a second colour to the mix, or let neighbours be alike."));
  if (n_colours == 2)
    return g_strdup (_ ("Two colours suffice only where no three boards touch one another: add a "
                        "third colour, or let length joints stand in columns."));
  return g_strdup (_ ("Add another colour to the mix, or let neighbours be alike."));
}

void
rod_check_colours (RodPlan *plan,
                   guint    index)
{
  const RodField *field = rod_plan_field (plan, index);
  guint           piece = 0;
  guint           repeats;
  RodFinding      finding = {
         .id = "colour-repeats",
         .severity = ROD_SEVERITY_SHOULD,
         .face = (int) field->face,
         .rule = "C4",
  };

  if (!field->no_repeat)
    return;
  repeats = rod_colour_pattern_repeats (plan, field, &piece);
  if (repeats == 0)
    return;
  finding.piece = (int) piece;
  finding.at =
    plan->rings->points[plan->rings->ring_starts[rod_plan_piece (plan, piece)->first_ring]];
  finding.has_at = TRUE;
  finding.value = repeats;
  finding.text = g_strdup_printf (
    ngettext ("%s: %u pair of neighbouring boards has the same colour, at %s first.",
              "%s: %u pairs of neighbouring boards have the same colour, at %s first.",
              repeats),
    rod_plan_face (plan, field->face)->label,
    repeats,
    rod_plan_piece (plan, piece)->mark);
  finding.remedy = repeat_remedy (count_colours (plan, field));
  rod_findings_add (plan->findings, &finding);
}
