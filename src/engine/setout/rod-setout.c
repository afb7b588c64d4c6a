/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The set-out: for each alignment group the best phase is searched, or taken from where the user
 * left the rod, and every field gets its phase from its group's. */

#include "config.h"

#include <math.h>

#include "engine/setout/rod-group-setout.h"
#include "engine/setout/rod-levels.h"
#include "engine/setout/rod-pins.h"
#include "engine/setout/rod-setout.h"

/* The fields of one group, in order, and the ties at which its chains close. */
typedef struct
{
  guint *fields;
  guint  n;
  guint *closing;
  guint  n_closing;
} Members;

/* Where the user left the rod: of several surfaces the one whose id comes first. */
static gboolean
find_left (const RodPlan *plan,
           const Members *members,
           double        *phase_mm)
{
  const RodFace *found = NULL;

  for (guint m = 0; m < members->n; m++)
    {
      const RodField *field = rod_plan_field (plan, members->fields[m]);
      const RodFace  *face = rod_plan_face (plan, field->face);

      if (field->zone != NULL || isnan (face->surface->joint_line_mm) ||
          (found != NULL && found->rank < face->rank))
        continue;
      found = face;
      *phase_mm = (rod_field_phase_at (field, face->surface, face->surface->joint_line_mm) -
                   field->group_shift_mm) /
                  field->group_scale;
    }
  return found != NULL;
}

/* Of the phases that pins leave, the one nearest to where the rod was left. */
static double
nearest_allowed (const RodGroupSetout *setout,
                 double                phase_mm)
{
  double nearest_mm = phase_mm, least_mm = INFINITY;

  for (guint i = 0; setout->allowed != NULL && i < setout->allowed->len; i++)
    {
      double at = g_array_index (setout->allowed, double, i);
      double away_mm = fabs (remainder (at - phase_mm, setout->problem.pitch_mm));

      if (away_mm >= least_mm)
        continue;
      least_mm = away_mm;
      nearest_mm = at;
    }
  return nearest_mm;
}

static void
choose_group (const RodPlan *plan,
              guint          index,
              const Members *members,
              RodGroup      *group)
{
  RodPhaseScore score;
  double        left_mm = 0.0;

  group->setout = rod_group_setout_new (
    plan, index, members->fields, members->n, members->closing, members->n_closing);
  group->pinned = group->setout->allowed != NULL;
  group->held = find_left (plan, members, &left_mm);
  group->best_mm = rod_group_setout_best (group->setout);
  group->phase_mm = group->held ? nearest_allowed (group->setout, left_mm) : group->best_mm;
  score = rod_phase_score (&group->setout->problem, group->phase_mm);
  group->narrowest_mm = score.narrowest_mm;
  group->rips = score.rips;
  group->slivers = score.slivers;
  group->risks = score.risks;
}

/* The group whose chain closes at a tie, or NULL. */
static Members *
closed_by (const RodPlan *plan,
           guint          tie_index,
           Members       *members)
{
  const RodTie *tie = &g_array_index (plan->ties, RodTie, tie_index);
  guint         group = rod_plan_field (plan, tie->a)->group;

  return tie->closes && rod_plan_field (plan, tie->b)->group == group ? &members[group] : NULL;
}

/* Hands the ties at which chains close to their groups, in their order. Returns the memory they lie
 * in. */
static guint *
hand_out_closing (const RodPlan *plan,
                  Members       *members)
{
  guint *closing = g_new (guint, MAX (plan->ties->len, 1));
  guint  at = 0;

  for (guint t = 0; t < plan->ties->len; t++)
    {
      Members *own = closed_by (plan, t, members);

      if (own != NULL)
        own->n_closing++;
    }
  for (guint g = 0; g < plan->groups->len; g++)
    {
      members[g].closing = closing + at;
      at += members[g].n_closing;
      members[g].n_closing = 0;
    }
  for (guint t = 0; t < plan->ties->len; t++)
    {
      Members *own = closed_by (plan, t, members);

      if (own != NULL)
        own->closing[own->n_closing++] = t;
    }
  return closing;
}

void
rod_setout_choose (RodPlan *plan)
{
  g_autofree guint   *fields = g_new (guint, MAX (plan->fields->len, 1));
  g_autofree guint   *closing = NULL;
  g_autofree Members *members = g_new0 (Members, MAX (plan->groups->len, 1));
  guint               at = 0;

  for (guint g = 0; g < plan->groups->len; g++)
    {
      members[g].fields = fields + at;
      at += g_array_index (plan->groups, RodGroup, g).n_fields;
    }
  for (guint f = 0; f < plan->fields->len; f++)
    {
      Members *own = &members[rod_plan_field (plan, f)->group];

      own->fields[own->n++] = f;
    }
  closing = hand_out_closing (plan, members);
  for (guint g = 0; g < plan->groups->len; g++)
    {
      RodGroup *group = &g_array_index (plan->groups, RodGroup, g);

      if (group->kept)
        continue;
      choose_group (plan, g, &members[g], group);
      plan->work.n_groups++;
    }
  for (guint f = 0; f < plan->fields->len; f++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, f);
      double    phase_mm =
        field->group_shift_mm +
        field->group_scale * g_array_index (plan->groups, RodGroup, field->group).phase_mm;
      double cover_mm = field->board->cover_mm;

      field->phase_mm = phase_mm - floor (phase_mm / cover_mm) * cover_mm;
    }
}

void
rod_setout_absorb (RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    rod_field_absorb (plan, &g_array_index (plan->fields, RodField, f));
}
