/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Checks of edges: each has a trim, corners are tied, boards keep clear of the ground, and length
 * joints keep clear of openings. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-field.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"

static RodFinding
at_edge (const RodField *field,
         const RodEdge  *edge,
         const char     *id,
         RodSeverity     severity,
         const char     *rule)
{
  return (RodFinding){
    .id = id,
    .severity = severity,
    .face = (int) field->face,
    .at = { (edge->raw.from.x + edge->raw.to.x) / 2.0, (edge->raw.from.y + edge->raw.to.y) / 2.0 },
    .has_at = TRUE,
    .piece = -1,
    .rule = rule,
  };
}

static const char *
condition_label (const RodEdge *edge)
{
  return rod_choice_label (rod_edge_condition_choices, (int) edge->condition);
}

/* Edges that the clad area really has: a door takes part of the base, a zone part of everything. */
static gboolean
is_on_area (const RodField *field,
            guint           edge)
{
  for (guint p = 0; p < field->clad->n_points; p++)
    if (field->clad->tags[p] == (int) edge)
      return TRUE;
  return FALSE;
}

static void
check_trim (RodPlan        *plan,
            const RodField *field,
            const RodEdge  *edge)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  RodFinding     finding = at_edge (field, edge, "no-trim", ROD_SEVERITY_MUST, "T1");

  if (edge->rule != NULL || edge->zone >= 0 || rod_edge_trimless (plan, field, edge))
    return;
  finding.text = g_strdup_printf (_ ("%s: the system “%s” says no trim for this edge (%s)."),
                                  face->label,
                                  face->system->name,
                                  condition_label (edge));
  finding.remedy = g_strdup (_ ("Add a row to the system's trim table, with an empty trim if none "
                                "is wanted, or change the edge's condition."));
  rod_findings_add (plan->findings, &finding);
}

static void
check_corner (RodPlan        *plan,
              const RodField *field,
              const RodEdge  *edge)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  RodFinding     finding = at_edge (field, edge, "corner-not-joined", ROD_SEVERITY_NOTE, "R16");

  if (edge->partner_face >= 0 || face->surface->build_up_mm <= 0.0 ||
      (edge->condition != ROD_EDGE_OUTSIDE_CORNER && edge->condition != ROD_EDGE_INSIDE_CORNER))
    return;
  finding.text = g_strdup_printf (
    _ ("%s: a corner (%s) is tied to no other surface, so the build-up round it is not counted."),
    face->label,
    condition_label (edge));
  finding.remedy = g_strdup (
    _ ("Join it to the surface round the corner, or measure this surface to the batten face."));
  rod_findings_add (plan->findings, &finding);
}

static void
check_ground (RodPlan        *plan,
              const RodField *field,
              const RodEdge  *edge)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  double         least_mm = face->system->rules->ground_clearance_mm;
  RodFinding     finding = at_edge (field, edge, "ground-clearance", ROD_SEVERITY_SHOULD, "R7");

  if (edge->condition != ROD_EDGE_BASE || face->surface->kind != ROD_SURFACE_WALL ||
      edge->clearance_mm >= least_mm - ROD_EPSILON_MM)
    return;
  finding.value = edge->clearance_mm;
  finding.limit = least_mm;
  finding.text = g_strdup_printf (_ ("%s: boards begin %.0f mm above the base line; at least %.0f "
                                     "mm above the ground is wanted."),
                                  face->label,
                                  edge->clearance_mm,
                                  least_mm);
  finding.remedy = g_strdup (_ ("Raise the starter's range. If the base line already lies above "
                                "the ground, give this edge its own clearance "
                                "or lower the system's ground clearance."));
  rod_findings_add (plan->findings, &finding);
}

static void
report_column (RodPlan        *plan,
               const RodField *field,
               const RodEdge  *edge,
               double          apart_mm)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  RodFinding     finding =
    at_edge (field, edge, "joint-near-opening", ROD_SEVERITY_SHOULD, "R21");

  finding.value = apart_mm;
  finding.limit = face->system->rules->joint_distance_mm;
  finding.text =
    g_strdup_printf (_ ("%s: a length joint comes %.0f mm beside an opening, nearer than %.0f mm."),
                     face->label,
                     finding.value,
                     finding.limit);
  finding.remedy =
    g_strdup (_ ("Use longer boards, or set the joint exactly on the opening's side."));
  rod_findings_add (plan->findings, &finding);
}

/* The nearest joint of those courses that a side of an opening reaches; one on its line does not
 * count. */
static double
nearest_butt_mm (const RodField *field,
                 RodPoint        from,
                 RodPoint        to,
                 gboolean        square)
{
  double nearest_mm = INFINITY;

  for (guint j = 0; j < field->n_joints; j++)
    {
      const RodLengthJoint *joint = &field->joints[j];
      double                low = field->phase_mm + joint->course * field->board->cover_mm;
      double                x = joint->at_mm;
      double                apart_mm = MIN (fabs (x - from.x), fabs (x - to.x));

      if (low > MAX (from.y, to.y) + ROD_SNAP_MM ||
          low + field->board->cover_mm < MIN (from.y, to.y) - ROD_SNAP_MM ||
          (square && apart_mm <= ROD_EPSILON_MM))
        continue;
      nearest_mm = MIN (nearest_mm, apart_mm);
    }
  return nearest_mm;
}

/* Columns and the corners of openings, in the board frame: too near is nearer than the rule, but
 * not exactly on a side that is square to the boards. */
static void
check_columns (RodPlan        *plan,
               const RodField *field,
               const RodEdge  *edge)
{
  double   least_mm = rod_plan_face (plan, field->face)->system->rules->joint_distance_mm;
  RodPoint from, to;
  gboolean square;
  double   nearest_mm;

  if (edge->opening < 0 || edge->relation == ROD_BOARDS_ALONG ||
      rod_edge_trimless (plan, field, edge))
    return;
  rod_edge_shifted (edge, -edge->build_up_mm, &from, &to);
  from = rod_affine_apply (field->to_board, from);
  to = rod_affine_apply (field->to_board, to);
  square = fabs (from.x - to.x) < ROD_SNAP_MM;
  for (guint c = 0; c < field->n_columns; c++)
    {
      double apart_mm = MIN (fabs (field->columns[c] - from.x), fabs (field->columns[c] - to.x));

      if (apart_mm < least_mm - ROD_EPSILON_MM && (!square || apart_mm > ROD_EPSILON_MM))
        report_column (plan, field, edge, apart_mm);
    }
  if (!rod_field_has_butt_joints (field))
    return;
  nearest_mm = nearest_butt_mm (field, from, to, square);
  if (nearest_mm < least_mm - ROD_EPSILON_MM)
    report_column (plan, field, edge, nearest_mm);
}

void
rod_check_edges (RodPlan *plan,
                 guint    index)
{
  const RodField *field = rod_plan_field (plan, index);

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];

      if (!is_on_area (field, e))
        continue;
      check_trim (plan, field, edge);
      check_corner (plan, field, edge);
      check_ground (plan, field, edge);
      check_columns (plan, field, edge);
    }
}
