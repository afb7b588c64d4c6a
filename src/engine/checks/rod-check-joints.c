/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Checks of length joints: patterns that a system cannot do, and joints of neighbouring courses
 * that come too near each other. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/plan/rod-field.h"
#include "engine/rod-limits.h"

static RodFinding
at_joint (const RodField       *field,
          const RodLengthJoint *joint,
          const char           *id)
{
  double line_mm = field->phase_mm + (joint->course + 0.5) * field->board->cover_mm;

  return (RodFinding){
    .id = id,
    .severity = ROD_SEVERITY_SHOULD,
    .face = (int) field->face,
    .at = rod_affine_apply (field->to_surface, (RodPoint){ joint->at_mm, line_mm }),
    .has_at = TRUE,
    .piece = -1,
    .rule = "R22",
  };
}

static void
check_refused (RodPlan        *plan,
               const RodField *field)
{
  RodFinding finding;

  if (field->n_joints == 0 || field->joint_rules.refused == ROD_JOINTS_INHERITED)
    return;
  finding = at_joint (field, &field->joints[0], "joints-refused");
  finding.text = g_strdup_printf (
    _ ("%s: length joints are in straight lines, not as asked for: boards that run like these meet "
       "at a trim."),
    rod_plan_face (plan, field->face)->label);
  finding.remedy = g_strdup (_ ("Choose straight lines, or a system whose boards may meet over a "
                                "batten in this direction."));
  rod_findings_add (plan->findings, &finding);
}

/* The nearest joint of the courses below that may not be in line. Joints are sorted by course. */
static double
nearest_below_mm (const RodField *field,
                  guint           index)
{
  const RodLengthJoint *joint = &field->joints[index];
  double                nearest_mm = INFINITY;

  for (guint j = index; j > 0; j--)
    {
      const RodLengthJoint *other = &field->joints[j - 1];

      if (joint->course - other->course >= field->joint_rules.repeat)
        break;
      if (other->course < joint->course)
        nearest_mm = MIN (nearest_mm, fabs (other->at_mm - joint->at_mm));
    }
  return nearest_mm;
}

static void
check_offset (RodPlan        *plan,
              const RodField *field)
{
  RodFinding worst = { .value = field->joint_rules.offset_mm - ROD_EPSILON_MM };
  int        count = 0;

  for (guint j = 0; j < field->n_joints; j++)
    {
      double apart_mm = nearest_below_mm (field, j);

      count += apart_mm < field->joint_rules.offset_mm - ROD_EPSILON_MM;
      if (apart_mm >= worst.value)
        continue;
      worst = at_joint (field, &field->joints[j], "joint-offset");
      worst.value = apart_mm;
    }
  if (count == 0)
    return;
  worst.limit = field->joint_rules.offset_mm;
  worst.text = g_strdup_printf (
    ngettext ("%s: %d joint comes within %.0f mm of one in a course near by, nearer than %.0f mm.",
              "%s: %d joints come within %.0f mm of one in a course near by, nearer than %.0f mm.",
              (gulong) count),
    rod_plan_face (plan, field->face)->label,
    count,
    worst.value,
    worst.limit);
  worst.remedy = g_strdup (_ ("Let joints be nearer or in line again after fewer courses, use "
                              "longer boards, or choose straight lines."));
  rod_findings_add (plan->findings, &worst);
}

void
rod_check_joints (RodPlan *plan,
                  guint    index)
{
  const RodField *field = rod_plan_field (plan, index);

  check_refused (plan, field);
  if (rod_field_has_butt_joints (field))
    check_offset (plan, field);
}
