/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Length joints of a field, course by course. Columns are placed for the whole field at once and
 * then left out where they would spoil a strip that needs none. */

#include "config.h"

#include "engine/plan/rod-field.h"
#include "engine/setout/rod-bay.h"
#include "engine/setout/rod-butt-joints.h"
#include "engine/setout/rod-columns.h"
#include "engine/setout/rod-length-joints.h"

/* Whether a strip that fits the stock is spoilt by a column near its end. */
static gboolean
stays_whole (const RodPlan  *plan,
             const RodField *field,
             double          low,
             double          high)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          least_mm;

  if (field->n_columns == 0 || high - low > rod_field_longest_mm (plan, field))
    return FALSE;
  /* What is left of a piece after its gaps and the joint's web. */
  least_mm = rod_bay_clear_mm (plan, field, (RodBay){ 0 }, rules->min_piece_mm);
  if (field->joint != NULL)
    least_mm += field->joint->back_mm;
  for (guint c = 0; c < field->n_columns; c++)
    if (field->columns[c] > low && field->columns[c] < high &&
        (field->columns[c] - low < least_mm || high - field->columns[c] < least_mm))
      return TRUE;
  return FALSE;
}

/* The joints that columns make in one strip. */
static void
add_columns (const RodPlan   *plan,
             const RodField  *field,
             const RodStrips *courses,
             guint            strip,
             GArray          *joints)
{
  double low, high;

  rod_strip_extent (courses, strip, &low, &high);
  if (stays_whole (plan, field, low, high))
    return;
  for (guint c = 0; c < field->n_columns; c++)
    if (field->columns[c] > low && field->columns[c] < high)
      {
        RodLengthJoint joint = {
          .course = courses->strips[strip].course,
          .at_mm = field->columns[c],
          .backing_mm = field->columns[c],
        };

        g_array_append_val (joints, joint);
      }
}

static void
place_columns (const RodPlan   *plan,
               RodField        *field,
               const RodStrips *courses,
               GArray          *joints,
               guint           *starts)
{
  rod_columns_place (plan, field, courses);
  for (guint s = 0; s < courses->n_strips; s++)
    {
      add_columns (plan, field, courses, s, joints);
      starts[s + 1] = joints->len;
    }
}

static RodStrips *
split_at (const RodStrips *courses,
          const GArray    *joints,
          const guint     *starts)
{
  g_autofree double *places = g_new (double, joints->len + 1);

  for (guint j = 0; j < joints->len; j++)
    places[j] = g_array_index (joints, RodLengthJoint, j).at_mm;
  return rod_strips_split_each (courses, places, starts);
}

RodStrips *
rod_length_joints_split (const RodPlan   *plan,
                         RodField        *field,
                         const RodStrips *courses)
{
  g_autofree guint *starts = g_new0 (guint, courses->n_strips + 1);
  g_autoptr (GArray) joints = g_array_new (FALSE, FALSE, sizeof (RodLengthJoint));
  RodStrips *parts;

  if (rod_field_has_butt_joints (field))
    rod_butt_joints_place (plan, field, courses, joints, starts);
  else
    place_columns (plan, field, courses, joints, starts);
  parts = split_at (courses, joints, starts);
  field->n_joints = joints->len;
  field->joints = (RodLengthJoint *) (void *) g_array_free (g_steal_pointer (&joints), FALSE);
  return parts;
}
