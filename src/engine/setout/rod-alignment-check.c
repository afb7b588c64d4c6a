/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where joint lines miss each other, and which chain of surfaces does not close. Misses are
 * measured at every tie from the phases as they are, so that nothing is hidden by how they were
 * chosen. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-findings.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-alignment.h"

/* After how many lines of the closer spacing both come level again, time after time within a
 * house's height; 0 when they do not. */
static int
lines_until_met (const RodTie *tie)
{
  double close_mm = MIN (tie->pitch_a_mm, tie->pitch_b_mm);
  double wide_mm = MAX (tie->pitch_a_mm, tie->pitch_b_mm);

  for (int n = 1; n <= ROD_MEETING_COURSES; n++)
    {
      double rest = fabs (remainder (n * close_mm, wide_mm));

      if (rest * ROD_MEETING_COURSES / n < ROD_VISIBLE_MISFIT_MM / 2.0)
        return n;
    }
  return 0;
}

static const char *
label_of (const RodPlan *plan,
          guint          field)
{
  return rod_plan_face (plan, rod_plan_field (plan, field)->face)->label;
}

static RodFinding
finding_at (const RodPlan *plan,
            const RodTie  *tie)
{
  const RodField *field = rod_plan_field (plan, tie->a);

  return (RodFinding){ .face = (int) field->face,
                       .at = field->edges[tie->edge].raw.from,
                       .has_at = tie->kind != ROD_TIE_ZONES,
                       .piece = -1 };
}

static void
report_pitches (RodPlan      *plan,
                const RodTie *tie)
{
  int         n = lines_until_met (tie);
  const char *a = label_of (plan, tie->a);
  const char *b = label_of (plan, tie->b);
  RodFinding  finding = finding_at (plan, tie);

  finding.id = "unequal-pitch";
  finding.severity = ROD_SEVERITY_NOTE;
  finding.value = tie->pitch_b_mm;
  finding.limit = tie->pitch_a_mm;
  finding.rule = "R17";
  if (n > 0)
    finding.text = g_strdup_printf (_ ("Joint lines of %s (every %.1f mm) and %s (every %.1f mm) "
                                       "meet only at every %d. line of %s."),
                                    a,
                                    tie->pitch_a_mm,
                                    b,
                                    tie->pitch_b_mm,
                                    n,
                                    tie->pitch_a_mm < tie->pitch_b_mm ? a : b);
  else
    finding.text = g_strdup_printf (
      _ ("Joint lines of %s (every %.1f mm) and %s (every %.1f mm) never meet along their edge."),
      a,
      tie->pitch_a_mm,
      b,
      tie->pitch_b_mm);
  finding.remedy =
    g_strdup (_ ("Use the same board on both, or say that this join carries no joint lines."));
  rod_findings_add (plan->findings, &finding);
}

/* The fields from one end of a closing tie to the other, by ties that bind: a tree has one way.
 * Breadth first, each field remembering where it was reached from. */
static GArray *
chain_of (const RodPlan *plan,
          const RodTie  *closing)
{
  GArray          *chain = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree gint *from = g_new (gint, plan->fields->len);
  g_autoptr (GArray) reached = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint f = 0; f < plan->fields->len; f++)
    from[f] = -1;
  from[closing->b] = (gint) closing->b;
  g_array_append_val (reached, closing->b);
  for (guint i = 0; i < reached->len && from[closing->a] < 0; i++)
    for (guint t = 0; t < plan->ties->len; t++)
      {
        const RodTie *tie = &g_array_index (plan->ties, RodTie, t);
        guint         at = g_array_index (reached, guint, i);
        guint         next = tie->a == at ? tie->b : tie->a;

        if (tie->closes || tie->kind == ROD_TIE_UNEQUAL || (tie->a != at && tie->b != at) ||
            from[next] >= 0)
          continue;
        from[next] = (gint) at;
        g_array_append_val (reached, next);
      }
  for (guint at = closing->a; from[at] >= 0; at = (guint) from[at])
    {
      g_array_append_val (chain, at);
      if (at == closing->b)
        break;
    }
  return chain;
}

/* "Front – East wall – Rear", surfaces in the order in which the chain passes them. */
static char *
name_chain (const RodPlan *plan,
            const RodTie  *tie)
{
  g_autoptr (GArray) chain = chain_of (plan, tie);
  GString *names = g_string_new (NULL);
  guint    last = G_MAXUINT;

  for (guint i = 0; i < chain->len; i++)
    {
      guint field = g_array_index (chain, guint, i);

      if (rod_plan_field (plan, field)->face == last)
        continue;
      last = rod_plan_field (plan, field)->face;
      if (names->len > 0)
        g_string_append (names, " – ");
      g_string_append (names, label_of (plan, field));
    }
  return g_string_free (names, FALSE);
}

static char *
misfit_remedy (const RodPlan *plan,
               const RodTie  *tie)
{
  g_autofree char *chain = name_chain (plan, tie);

  if (!tie->closes)
    return g_strdup (_ ("Measure the levels of both surfaces again, free a held joint line, or let "
                        "this join carry no joint lines."));
  return g_strdup_printf (_ ("The chain %s does not close. Measure it again, or choose the join of "
                             "it where this shows least to take the misfit."),
                          chain);
}

static void
report_misfit (RodPlan      *plan,
               const RodTie *tie)
{
  RodFinding finding = finding_at (plan, tie);

  finding.id = "lines-miss";
  finding.severity = ROD_SEVERITY_SHOULD;
  finding.value = tie->misfit_mm;
  finding.limit = ROD_VISIBLE_MISFIT_MM;
  finding.rule = "R12";
  finding.text =
    g_strdup_printf (_ ("Joint lines of %s and %s miss each other by %.1f mm where they meet."),
                     label_of (plan, tie->a),
                     label_of (plan, tie->b),
                     tie->misfit_mm);
  finding.remedy = misfit_remedy (plan, tie);
  rod_findings_add (plan->findings, &finding);
}

static void
check_tie (RodPlan *plan,
           RodTie  *tie)
{
  const RodField *a = rod_plan_field (plan, tie->a);
  const RodField *b = rod_plan_field (plan, tie->b);
  RodGroup       *group = &g_array_index (plan->groups, RodGroup, a->group);

  if (fabs (tie->pitch_a_mm - tie->pitch_b_mm) > ROD_SNAP_MM)
    report_pitches (plan, tie);
  if (tie->kind == ROD_TIE_UNEQUAL)
    return;
  tie->misfit_mm =
    fabs (remainder (tie->shift_mm + tie->scale * a->phase_mm - b->phase_mm, tie->period_mm));
  group->misfit_mm = MAX (group->misfit_mm, tie->misfit_mm);
  if (tie->misfit_mm > ROD_VISIBLE_MISFIT_MM)
    report_misfit (plan, tie);
}

void
rod_alignment_check (RodPlan *plan)
{
  for (guint i = 0; i < plan->ties->len; i++)
    check_tie (plan, &g_array_index (plan->ties, RodTie, i));
}
