/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What to measure again before the first board goes on (rule R28): strips that are wide enough as
 * surveyed, but may be slivers if the survey is off by as much as it may be. They are judged at the
 * lines that cut them and not by pieces: a board that is nearly whole is no rip, and yet a wall two
 * millimetres taller would leave a strip of two. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-levels.h"

/* A line with its field, for a face has several. */
typedef struct
{
  const RodField *field;
  RodRisk         risk;
} Doubt;

static const RodEdge *
edge_of (const Doubt *doubt)
{
  return &doubt->field->edges[doubt->risk.edge];
}

/* "Sill of Kitchen window", "Top". */
static char *
name_edge (const RodSurface *surface,
           const RodEdge    *edge)
{
  const char *condition = rod_choice_label (rod_edge_condition_choices, (int) edge->condition);

  if (edge->opening >= 0)
    {
      const RodOpening *opening = surface->openings->pdata[edge->opening];

      /* Translators: side of an opening, opening, as in "Sill of Kitchen window". */
      return g_strdup_printf (
        _ ("%s of %s"), condition, *opening->name != '\0' ? opening->name : opening->id);
    }
  return g_strdup (condition);
}

/* The line with the figure to measure: of the structure, for that is what a tape shows. */
static char *
name_dimension (const RodFace *face,
                const Doubt   *doubt)
{
  const RodSurface *surface = face->surface;
  const RodSide    *raw = &edge_of (doubt)->raw;
  g_autofree char  *name = name_edge (surface, edge_of (doubt));

  if (fabs (raw->from.y - raw->to.y) < ROD_SNAP_MM && surface->kind != ROD_SURFACE_SOFFIT)
    return g_strdup_printf (
      _ ("%s, %.0f mm above the datum"), name, raw->from.y + surface->level_mm);
  if (fabs (raw->from.y - raw->to.y) < ROD_SNAP_MM)
    return g_strdup_printf (_ ("%s, at y = %.0f mm"), name, raw->from.y);
  if (fabs (raw->from.x - raw->to.x) < ROD_SNAP_MM)
    return g_strdup_printf (_ ("%s, at x = %.0f mm"), name, raw->from.x);
  return g_steal_pointer (&name);
}

static char *
strip_text (const RodPlan *plan,
            const RodFace *face,
            const Doubt   *worst,
            const char    *dimension)
{
  double tolerance_mm = plan->house->survey_tolerance_mm;

  if (worst->risk.strip_mm > worst->field->board->cover_mm - ROD_SNAP_MM)
    return g_strdup_printf (_ ("%s: the board at one line (%s) is whole; the survey’s ±%.0f mm may "
                               "leave a strip of %.0f mm there."),
                            face->label,
                            dimension,
                            tolerance_mm,
                            worst->risk.worst_mm);
  return g_strdup_printf (_ ("%s: the strip at one line (%s) is %.0f mm wide; the survey’s ±%.0f "
                             "mm may leave one of %.0f mm."),
                          face->label,
                          dimension,
                          worst->risk.strip_mm,
                          tolerance_mm,
                          worst->risk.worst_mm);
}

/* "… 3 more lines of this surface are in doubt, too." */
static char *
with_others (char *text,
             guint others)
{
  g_autofree char *own = text;
  g_autofree char *rest = NULL;

  if (others == 0)
    return g_steal_pointer (&own);
  rest = g_strdup_printf (ngettext ("%u more line of this surface is in doubt, too.",
                                    "%u more lines of this surface are in doubt, too.",
                                    others),
                          others);
  return g_strconcat (own, " ", rest, NULL);
}

static void
report (RodPlan      *plan,
        guint         face_index,
        const GArray *doubts)
{
  const RodFace   *face = rod_plan_face (plan, face_index);
  const Doubt     *worst = &g_array_index (doubts, Doubt, 0);
  g_autofree char *dimension = NULL;
  RodFinding       finding = {
          .id = "measure-again",
          .severity = ROD_SEVERITY_NOTE,
          .face = (int) face_index,
          .has_at = TRUE,
          .piece = -1,
          .rule = "R28",
  };

  for (guint i = 1; i < doubts->len; i++)
    {
      const Doubt *doubt = &g_array_index (doubts, Doubt, i);

      if (doubt->risk.worst_mm < worst->risk.worst_mm - ROD_EPSILON_MM)
        worst = doubt;
    }
  dimension = name_dimension (face, worst);
  finding.at = (RodPoint){ (edge_of (worst)->raw.from.x + edge_of (worst)->raw.to.x) / 2.0,
                           (edge_of (worst)->raw.from.y + edge_of (worst)->raw.to.y) / 2.0 };
  finding.value = worst->risk.worst_mm;
  finding.limit = worst->risk.least_mm;
  finding.text = with_others (strip_text (plan, face, worst, dimension), doubts->len - 1);
  finding.remedy =
    g_strdup_printf (_ ("Measure again before the first board goes on: %s."), dimension);
  rod_findings_add (plan->findings, &finding);
}

void
rod_check_strips (RodPlan *plan,
                  guint    face_index)
{
  const RodFace *face = rod_plan_face (plan, face_index);
  g_autoptr (GArray) doubts = g_array_new (FALSE, FALSE, sizeof (Doubt));
  g_autoptr (GArray) risks = g_array_new (FALSE, FALSE, sizeof (RodRisk));

  for (guint f = face->first_field; f < face->first_field + face->n_fields; f++)
    {
      const RodField *field = rod_plan_field (plan, f);

      g_array_set_size (risks, 0);
      if (field->n_pieces > 0)
        rod_field_add_risks (plan, field, risks);
      for (guint i = 0; i < risks->len; i++)
        {
          Doubt doubt = { field, g_array_index (risks, RodRisk, i) };

          /* Borders of zones are drawn, not measured. */
          if (edge_of (&doubt)->zone < 0)
            g_array_append_val (doubts, doubt);
        }
    }
  if (doubts->len > 0)
    report (plan, face_index, doubts);
}
