/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The storey rod in numbers: lines phase + k·cover within the pocket lines of a field. Each line is
 * reckoned from the phase, never from the line before it, so that nothing adds up over a tall wall
 * (rule R2 in docs/rules.md).
 */
#include "config.h"

#include "engine/plan/rod-joint-line.h"

#include "engine/rod-limits.h"

#include <math.h>

static gboolean
is_level (const RodField *field)
{
  double turn = fabs (remainder (field->direction_deg, 180.0));

  return turn < ROD_EPSILON_DEG;
}

static gboolean
is_upright (const RodField *field)
{
  double turn = fabs (remainder (field->direction_deg - 90.0, 180.0));

  return turn < ROD_EPSILON_DEG;
}

static RodJointLine
joint_line_at (const RodFace  *face,
               const RodField *field,
               int             number,
               double          across_mm)
{
  RodJointLine line = { number, across_mm, across_mm, NAN };
  RodPoint     at = rod_affine_apply (field->to_surface, (RodPoint){ 0.0, across_mm });

  if (is_level (field))
    line.place_mm = at.y;
  else if (is_upright (field))
    line.place_mm = at.x;
  if (is_level (field) && face->surface->kind == ROD_SURFACE_WALL)
    line.height_mm = at.y + face->surface->level_mm;
  return line;
}

GArray *
rod_joint_lines_new (const RodPlan *plan,
                     guint          field_index)
{
  const RodField *field;
  GArray         *lines;
  RodPoint        low, high;
  double          cover, first;
  int             last;

  g_return_val_if_fail (plan != NULL, NULL);
  g_return_val_if_fail (field_index < plan->fields->len, NULL);

  field = rod_plan_field (plan, field_index);
  lines = g_array_new (FALSE, FALSE, sizeof (RodJointLine));
  if (field->pocket->n_rings == 0)
    return lines;

  rod_region_extent (field->pocket, &low, &high);
  cover = field->board->cover_mm;
  first = floor ((low.y + ROD_LINE_SNAP_MM - field->phase_mm) / cover);
  last = (int) (floor ((high.y + ROD_LINE_SNAP_MM - field->phase_mm) / cover) - first);
  for (int number = 0; number <= last; number++)
    {
      double       across = field->phase_mm + (first + number) * cover;
      RodJointLine line;

      if (across < low.y - ROD_LINE_SNAP_MM)
        continue;
      line = joint_line_at (rod_plan_face (plan, field->face), field, number, across);
      g_array_append_val (lines, line);
    }
  return lines;
}
