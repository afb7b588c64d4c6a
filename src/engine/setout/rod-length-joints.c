/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Length joints of a field, course by course. Columns are placed for the whole field at once and
 * then left out where they would spoil a strip that needs none. */

#include "config.h"

#include "engine/geometry/rod-numbers.h"
#include "engine/plan/rod-field.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-bay.h"
#include "engine/setout/rod-butt-joints.h"
#include "engine/setout/rod-columns.h"
#include "engine/setout/rod-length-joints.h"
#include "engine/setout/rod-long-notches.h"

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

static void
keep_range (const GArray *joints,
            const guint  *range,
            GArray       *kept)
{
  for (guint j = range[0]; j < range[1]; j++)
    g_array_append_val (kept, g_array_index (joints, RodLengthJoint, j));
}

/* The joints of one strip that are kept beside those on jambs: none in a stretch that one board
 * spans, nor over or under the opening itself. */
static void
keep_between (const RodPlan  *plan,
              const RodField *field,
              const GArray   *joints,
              const guint    *range,
              const double   *stretch,
              GArray         *kept)
{
  if (stretch[1] - stretch[0] <= rod_field_longest_mm (plan, field))
    return;
  for (guint j = range[0]; j < range[1]; j++)
    {
      const RodLengthJoint *joint = &g_array_index (joints, RodLengthJoint, j);

      if (joint->at_mm > stretch[0] + ROD_SNAP_MM && joint->at_mm < stretch[1] - ROD_SNAP_MM)
        g_array_append_val (kept, *joint);
    }
}

/* Where boards without trims would have notches that are too long, they meet on the jambs' lines,
 * as far as no piece gets too short at the strip's ends. */
static void
join_on_jambs (const RodPlan  *plan,
               const RodField *field,
               const GArray   *notches,
               const RodStrip *strip,
               const double   *ends,
               const guint    *range,
               const GArray   *joints,
               GArray         *kept)
{
  g_autoptr (GArray) jambs = g_array_new (FALSE, FALSE, sizeof (double));
  double least_mm = rod_plan_face (plan, field->face)->system->rules->min_piece_mm;
  double stretch[2] = { ends[0], ends[0] };

  for (guint i = 0; i < notches->len; i++)
    for (int side = 0; side < 2; side++)
      {
        const RodLongNotch *notch = &g_array_index (notches, RodLongNotch, i);
        double              at_mm = notch->jambs[side];

        if (notch->course == strip->course && at_mm - ends[0] >= least_mm &&
            ends[1] - at_mm >= least_mm)
          g_array_append_val (jambs, at_mm);
      }
  rod_numbers_sort (jambs);
  for (guint i = 0; i <= jambs->len; i++)
    {
      stretch[1] = i < jambs->len ? g_array_index (jambs, double, i) : ends[1];
      if (jambs->len == 0)
        keep_range (joints, range, kept);
      else
        keep_between (plan, field, joints, range, stretch, kept);
      if (i < jambs->len && (i == 0 || stretch[1] - stretch[0] > ROD_SNAP_MM))
        {
          RodLengthJoint joint = { strip->course, stretch[1], stretch[1], TRUE };

          g_array_append_val (kept, joint);
        }
      stretch[0] = stretch[1];
    }
}

static void
join_all_on_jambs (const RodPlan   *plan,
                   const RodField  *field,
                   const RodStrips *courses,
                   GArray          *joints,
                   guint           *starts)
{
  g_autoptr (GArray) notches = rod_long_notches (plan, field);
  g_autoptr (GArray) kept = NULL;
  guint last = 0;

  if (notches->len == 0)
    return;
  kept = g_array_new (FALSE, FALSE, sizeof (RodLengthJoint));
  for (guint s = 0; s < courses->n_strips; s++)
    {
      guint  range[2] = { last, starts[s + 1] };
      double ends[2];

      last = starts[s + 1];
      rod_strip_extent (courses, s, &ends[0], &ends[1]);
      join_on_jambs (plan, field, notches, &courses->strips[s], ends, range, joints, kept);
      starts[s + 1] = kept->len;
    }
  g_array_set_size (joints, 0);
  g_array_append_vals (joints, kept->data, kept->len);
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
    {
      rod_butt_joints_place (plan, field, courses, joints, starts);
      join_all_on_jambs (plan, field, courses, joints, starts);
    }
  else
    place_columns (plan, field, courses, joints, starts);
  parts = split_at (courses, joints, starts);
  field->n_joints = joints->len;
  field->joints = (RodLengthJoint *) (void *) g_array_free (g_steal_pointer (&joints), FALSE);
  return parts;
}
