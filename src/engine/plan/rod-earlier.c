/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Planning again after an edit. Two stages take nearly all the time: the search for a group's phase
 * and the cutting of a field. Both are pure functions of plain values that the plan holds anyway.
 * So nothing has to be marked as stale: the values of then and now are compared, byte for byte, and
 * where they are the same the results are. Houses share what an edit leaves alone, so that even
 * openings, systems and rules compare as pointers. */

#include "config.h"

#include <string.h>

#include "engine/plan/rod-earlier.h"
#include "engine/setout/rod-group-setout.h"

#define NONE (-1)

/* Whether two houses differ in their surfaces and joins only. */
static gboolean
same_besides_surfaces (const RodHouse *a,
                       const RodHouse *b)
{
  g_autoptr (RodHouse) other = rod_record_copy (a);

  rod_record_take_list (
    other, G_STRUCT_OFFSET (RodHouse, surfaces), g_ptr_array_ref (b->surfaces));
  rod_record_take_list (other, G_STRUCT_OFFSET (RodHouse, joins), g_ptr_array_ref (b->joins));
  return rod_record_equal (other, b);
}

void
rod_earlier_init (RodEarlier    *earlier,
                  const RodPlan *before,
                  RodPlan       *plan)
{
  *earlier = (RodEarlier){ .plan = plan, .old_faces = g_array_new (FALSE, FALSE, sizeof (int)) };
  if (before == NULL || !same_besides_surfaces (before->house, plan->house))
    return;
  earlier->before = before;
  earlier->by_id = g_hash_table_new (g_str_hash, g_str_equal);
  earlier->new_faces = g_new (int, before->faces->len);
  for (guint f = 0; f < before->faces->len; f++)
    {
      const RodFace *face = rod_plan_face (before, f);

      earlier->new_faces[f] = NONE;
      if (face->parent < 0)
        g_hash_table_insert (earlier->by_id, face->surface->id, GUINT_TO_POINTER (f + 1));
    }
}

void
rod_earlier_clear (RodEarlier *earlier)
{
  g_clear_pointer (&earlier->by_id, g_hash_table_unref);
  g_clear_pointer (&earlier->old_faces, g_array_unref);
  g_clear_pointer (&earlier->new_faces, g_free);
}

static void
note (RodEarlier *earlier,
      int         old_face)
{
  if (old_face >= 0)
    earlier->new_faces[old_face] = (int) earlier->old_faces->len;
  g_array_append_val (earlier->old_faces, old_face);
}

void
rod_earlier_note_surface (RodEarlier *earlier,
                          guint       face)
{
  const char *id = rod_plan_face (earlier->plan, face)->surface->id;

  g_return_if_fail (face == earlier->old_faces->len);

  note (earlier,
        earlier->before == NULL
          ? NONE
          : (int) GPOINTER_TO_UINT (g_hash_table_lookup (earlier->by_id, id)) - 1);
}

static int
old_face (const RodEarlier *earlier,
          guint             face)
{
  return g_array_index (earlier->old_faces, int, face);
}

static const RodOpening *
opening_of (const RodPlan *plan,
            guint          wall,
            int            opening)
{
  return g_ptr_array_index (rod_plan_face (plan, wall)->surface->openings, opening);
}

/* Reveals follow their wall. */
static int
find_reveal (const RodEarlier *earlier,
             guint             wall,
             guint             opening,
             guint             side)
{
  int         old_wall = old_face (earlier, wall);
  const char *id = opening_of (earlier->plan, wall, (int) opening)->id;

  if (old_wall < 0)
    return NONE;
  for (guint f = (guint) old_wall + 1; f < earlier->before->faces->len; f++)
    {
      const RodFace *reveal = rod_plan_face (earlier->before, f);

      if (reveal->parent != old_wall)
        return NONE;
      if (reveal->side == side &&
          g_str_equal (opening_of (earlier->before, (guint) old_wall, reveal->opening)->id, id))
        return (int) f;
    }
  return NONE;
}

const RodFace *
rod_earlier_note_reveal (RodEarlier *earlier,
                         guint       wall,
                         guint       opening,
                         guint       side)
{
  int found = find_reveal (earlier, wall, opening, side);

  note (earlier, found);
  return found < 0 ? NULL : rod_plan_face (earlier->before, (guint) found);
}

static gboolean
same_face (const RodFace *old,
           const RodFace *face)
{
  return old->surface == face->surface && old->system == face->system &&
         (old->parent < 0) == (face->parent < 0) && g_str_equal (old->mark, face->mark);
}

/* What an edge is before phases are chosen says what its stack will be; then starters move, and
 * pockets absorb. */
static void
forget_stack (RodEdge *edge)
{
  edge->rule = NULL;
  edge->trim = NULL;
  edge->starter = FALSE;
  edge->clearance_mm = 0.0;
  edge->back_mm = 0.0;
  edge->gap_across_mm = 0.0;
  edge->absorbed_mm = 0.0;
}

static gboolean
same_edges (const RodEarlier *earlier,
            const RodField   *old_field,
            const RodField   *field,
            gboolean          settled)
{
  if (old_field->n_edges != field->n_edges)
    return FALSE;
  for (guint e = 0; e < field->n_edges; e++)
    {
      RodEdge old, edge;

      memcpy (&old, &old_field->edges[e], sizeof old);
      memcpy (&edge, &field->edges[e], sizeof edge);
      if (old.partner_face >= 0)
        old.partner_face = earlier->new_faces[old.partner_face];
      if (!settled)
        {
          forget_stack (&old);
          forget_stack (&edge);
        }
      if (memcmp (&old, &edge, sizeof old) != 0)
        return FALSE;
    }
  return TRUE;
}

/* Takes out of a field what does not make it what it is: its place in the plan, and results. */
static void
forget_results (RodField *field,
                gboolean  settled)
{
  field->face = 0;
  field->group = 0;
  field->edges = NULL;
  field->clad = NULL;
  field->pocket = NULL;
  field->columns = NULL;
  field->n_columns = 0;
  field->joints = NULL;
  field->n_joints = 0;
  field->butt_reach_mm = 0.0;
  field->first_piece = 0;
  field->n_pieces = 0;
  field->first_batten = 0;
  field->n_battens = 0;
  field->first_trim = 0;
  field->n_trims = 0;
  field->n_courses = 0;
  field->last_ripped_course = 0;
  if (settled)
    field->group_scale = field->group_shift_mm = 0.0;
  else
    field->phase_mm = 0.0;
}

/* Whether a field is what it was; with @settled after, else before phases are chosen. */
static gboolean
same_field (const RodEarlier *earlier,
            guint             old_index,
            guint             index,
            gboolean          settled)
{
  const RodField *before = rod_plan_field (earlier->before, old_index);
  const RodField *after = rod_plan_field (earlier->plan, index);
  RodField        old, field;

  memcpy (&old, before, sizeof old);
  memcpy (&field, after, sizeof field);
  forget_results (&old, settled);
  forget_results (&field, settled);
  return memcmp (&old, &field, sizeof old) == 0 && same_edges (earlier, before, after, settled) &&
         same_face (rod_plan_face (earlier->before, before->face),
                    rod_plan_face (earlier->plan, after->face));
}

/* The field of the earlier plan that has the same place in the same face. */
static int
old_field (const RodEarlier *earlier,
           guint             index)
{
  guint          face_index = rod_plan_field (earlier->plan, index)->face;
  guint          place = index - rod_plan_face (earlier->plan, face_index)->first_field;
  int            old = earlier->before == NULL ? NONE : old_face (earlier, face_index);
  const RodFace *face;

  if (old < 0)
    return NONE;
  face = rod_plan_face (earlier->before, (guint) old);
  return place < face->n_fields ? (int) (face->first_field + place) : NONE;
}

/* A group while its fields are looked for in the earlier plan. */
typedef struct
{
  int      group; /* of the earlier plan */
  int      last;  /* field of it that the last one of ours continues */
  gboolean differs;
} Match;

static void
match_field (const RodEarlier *earlier,
             guint             index,
             Match            *match)
{
  const RodField *field = rod_plan_field (earlier->plan, index);
  const RodGroup *group = &g_array_index (earlier->plan->groups, RodGroup, field->group);
  int             old = old_field (earlier, index);
  int             old_group;
  gboolean        led;

  match->differs = match->differs || old <= match->last ||
                   !same_field (earlier, (guint) old, index, FALSE);
  if (match->differs)
    return;
  old_group = (int) rod_plan_field (earlier->before, (guint) old)->group;
  led = g_array_index (earlier->before->groups, RodGroup, old_group).first_field == (guint) old;
  match->differs = (match->group >= 0 && match->group != old_group) ||
                   led != (group->first_field == index);
  match->group = old_group;
  match->last = old;
}

void
rod_earlier_keep_groups (const RodEarlier *earlier)
{
  RodPlan          *plan = earlier->plan;
  g_autofree Match *matches = g_new (Match, MAX (plan->groups->len, 1));

  if (earlier->before == NULL)
    return;
  for (guint g = 0; g < plan->groups->len; g++)
    matches[g] = (Match){ NONE, NONE, FALSE };
  for (guint f = 0; f < plan->fields->len; f++)
    match_field (earlier, f, &matches[rod_plan_field (plan, f)->group]);
  for (guint g = 0; g < plan->groups->len; g++)
    {
      RodGroup *group = &g_array_index (plan->groups, RodGroup, g);
      RodGroup  old;

      if (matches[g].differs)
        continue;
      old = g_array_index (earlier->before->groups, RodGroup, matches[g].group);
      if (old.n_fields != group->n_fields)
        continue;
      old.first_field = group->first_field;
      old.misfit_mm = 0.0;
      old.setout = rod_group_setout_ref (old.setout);
      old.kept = TRUE;
      *group = old;
    }
}

static void
keep_pieces (const RodEarlier *earlier,
             const RodField   *old,
             guint             index,
             RodRings         *rings)
{
  RodPlan        *plan = earlier->plan;
  const RodPlan  *before = earlier->before;
  RodField       *field = &g_array_index (plan->fields, RodField, index);
  const RodPiece *first, *last;
  guint           ring = rings->starts->len - 1;
  guint           notch = plan->notches->len;
  guint           flange = plan->flanges->len;

  field->first_piece = plan->pieces->len;
  field->n_pieces = old->n_pieces;
  field->n_courses = old->n_courses;
  if (old->n_pieces == 0)
    return;
  first = rod_plan_piece (before, old->first_piece);
  last = first + old->n_pieces - 1;
  g_array_append_vals (plan->pieces, first, old->n_pieces);
  if (last->first_notch + last->n_notches > first->first_notch)
    g_array_append_vals (plan->notches,
                         &g_array_index (before->notches, RodNotch, first->first_notch),
                         last->first_notch + last->n_notches - first->first_notch);
  if (last->first_flange + last->n_flanges > first->first_flange)
    g_array_append_vals (plan->flanges,
                         &g_array_index (before->flanges, RodFlange, first->first_flange),
                         last->first_flange + last->n_flanges - first->first_flange);
  rod_rings_copy (
    rings, before->rings, first->first_ring, last->first_ring + last->n_rings - first->first_ring);
  rod_rings_show (rings);
  for (guint p = field->first_piece; p < plan->pieces->len; p++)
    {
      RodPiece *piece = &g_array_index (plan->pieces, RodPiece, p);

      piece->field = index;
      piece->first_ring += ring - first->first_ring;
      piece->first_notch += notch - first->first_notch;
      piece->first_flange += flange - first->first_flange;
    }
}

static void
keep_battens (const RodEarlier *earlier,
              const RodField   *old,
              guint             index)
{
  RodPlan  *plan = earlier->plan;
  RodField *field = &g_array_index (plan->fields, RodField, index);

  field->first_batten = plan->battens->len;
  field->n_battens = old->n_battens;
  if (old->n_battens == 0)
    return;
  g_array_append_vals (plan->battens,
                       &g_array_index (earlier->before->battens, RodBattenRun, old->first_batten),
                       old->n_battens);
  for (guint b = field->first_batten; b < plan->battens->len; b++)
    g_array_index (plan->battens, RodBattenRun, b).field = index;
}

gboolean
rod_earlier_keep_cladding (const RodEarlier *earlier,
                           guint             index,
                           RodRings         *rings)
{
  RodField       *field = &g_array_index (earlier->plan->fields, RodField, index);
  RodFace        *face = &g_array_index (earlier->plan->faces, RodFace, field->face);
  int             found = old_field (earlier, index);
  const RodField *old;

  if (found < 0 || !same_field (earlier, (guint) found, index, TRUE))
    return FALSE;
  old = rod_plan_field (earlier->before, (guint) found);
  if (index == face->first_field)
    face->bare = rod_region_ref (rod_plan_face (earlier->before, old->face)->bare);
  field->clad = rod_region_ref (old->clad);
  field->pocket = rod_region_ref (old->pocket);
  field->columns = g_memdup2 (old->columns, old->n_columns * sizeof (double));
  field->n_columns = old->n_columns;
  field->joints = g_memdup2 (old->joints, old->n_joints * sizeof (RodLengthJoint));
  field->n_joints = old->n_joints;
  field->butt_reach_mm = old->butt_reach_mm;
  keep_pieces (earlier, old, index, rings);
  keep_battens (earlier, old, index);
  return TRUE;
}
