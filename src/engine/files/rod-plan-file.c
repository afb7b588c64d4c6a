/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan as JSON: docs/plan-file.md says what it is for, docs/schemas/plan.schema.json what may
 * stand where. Things refer to each other as in the plan: a face by its mark, fields, groups and
 * edges by their index, pieces by their mark. What is cut and bought is in rod-takeoff-file.c.
 */
#include "config.h"

#include "engine/files/rod-plan-file.h"

#include "engine/files/rod-fold-file.h"
#include "engine/files/rod-plan-json.h"
#include "engine/files/rod-plan-words.h"
#include "engine/files/rod-takeoff-file.h"
#include "engine/plan/rod-joint-line.h"

#include <math.h>

#define PLAN_FORMAT "storeyrod-plan"
#define PLAN_VERSION 1

/* Square metres to a square centimetre. */
#define AREA_DECIMALS 4

/* The document, its members, and the elements of its lists. */
#define LINE_LEVELS 2

typedef void (*WriteElement) (RodJsonStream *json,
                              const RodPlan *plan,
                              guint          index);

/* Faces */

static void
write_opening (RodJsonStream *json,
               const RodFace *owner,
               int            index)
{
  const RodOpening *opening = g_ptr_array_index (owner->surface->openings, (guint) index);

  rod_json_stream_text (json, "opening", opening->id);
}

static void
write_face (RodJsonStream *json,
            const RodPlan *plan,
            guint          index)
{
  const RodFace *face = rod_plan_face (plan, index);

  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "mark", face->mark);
  rod_json_stream_text (json, "label", face->label);
  rod_json_stream_text (json, "surface", face->surface->id);
  rod_plan_json_choice (json, "kind", rod_surface_kind_choices, (int) face->surface->kind);
  rod_json_stream_text (json, "system", face->system->id);
  if (face->opening >= 0)
    {
      const RodFace *parent = rod_plan_face (plan, (guint) face->parent);

      rod_json_stream_text (json, "parent", parent->mark);
      write_opening (json, parent, face->opening);
    }
  rod_plan_json_length (json, "level_mm", face->surface->level_mm);
  rod_plan_json_map (json, "net", face->net);
  rod_fold_write_place (json, plan, index);
  rod_plan_json_region (json, "bare", face->bare);
  rod_json_stream_integer (json, "first_field", face->first_field);
  rod_json_stream_integer (json, "fields", face->n_fields);
  rod_json_stream_close (json);
}

/* Fields */

static void
write_zone (RodJsonStream *json,
            const RodFace *face,
            int            index)
{
  const RodZone *zone = g_ptr_array_index (face->surface->zones, (guint) index);

  rod_json_stream_text (json, "zone", zone->id);
}

static void
write_side (RodJsonStream *json,
            const RodSide *side)
{
  rod_plan_json_point (json, "from", side->from);
  rod_plan_json_point (json, "to", side->to);
  rod_plan_json_ratio (json, "bulge", side->bulge);
}

static void
write_join (RodJsonStream *json,
            const RodPlan *plan,
            const RodEdge *edge)
{
  rod_json_stream_open_object (json, "join");
  if (edge->join != NULL)
    rod_json_stream_text (json, "id", edge->join->id);
  rod_json_stream_text (json, "face", rod_plan_face (plan, (guint) edge->partner_face)->mark);
  rod_json_stream_integer (json, "edge", edge->partner_edge);
  rod_plan_json_angle (json, "fold_deg", edge->fold_deg);
  rod_json_stream_flag (json, "carries_joints", edge->carries_joints);
  rod_plan_json_length (json, "offset_mm", edge->offset_mm);
  rod_json_stream_close (json);
}

static void
write_edge (RodJsonStream *json,
            const RodPlan *plan,
            guint          field_index,
            guint          edge_index)
{
  const RodField *field = rod_plan_field (plan, field_index);
  const RodEdge  *edge = &field->edges[edge_index];

  rod_json_stream_open_object (json, NULL);
  if (edge->opening >= 0)
    write_opening (json, rod_plan_face (plan, field->face), edge->opening);
  if (edge->zone >= 0)
    write_zone (json, rod_plan_face (plan, field->face), edge->zone);
  rod_json_stream_integer (json, "side", edge->side);
  write_side (json, &edge->raw);
  rod_json_stream_flag (json, "turned", edge->turned);
  rod_plan_json_choice (json, "condition", rod_edge_condition_choices, (int) edge->condition);
  rod_plan_json_choice (json, "boards", rod_board_relation_choices, (int) edge->relation);
  rod_json_stream_flag (json, "long_side", edge->long_side);
  if (edge->partner_face >= 0)
    write_join (json, plan, edge);
  if (edge->trim != NULL)
    rod_json_stream_text (json, "trim", edge->trim->id);
  rod_json_stream_flag (json, "starter", edge->starter);
  rod_plan_json_length (json, "build_up_mm", edge->build_up_mm);
  rod_plan_json_length (json, "clearance_mm", edge->clearance_mm);
  rod_plan_json_length (json, "back_mm", edge->back_mm);
  rod_plan_json_length (json, "gap_across_mm", edge->gap_across_mm);
  rod_plan_json_length (json, "absorbed_mm", edge->absorbed_mm);
  rod_plan_json_reckoning (json, "reckoning", rod_reckon_edge (plan, field_index, edge_index));
  rod_json_stream_close (json);
}

static void
write_colours (RodJsonStream  *json,
               const RodField *field)
{
  if (field->colour != NULL)
    {
      rod_json_stream_text (json, "colour", field->colour->id);
      return;
    }
  rod_json_stream_integer (json, "seed", field->seed);
  rod_json_stream_open_array (json, "mix");
  for (guint i = 0; i < field->mix->len; i++)
    {
      const RodColourShare *share = g_ptr_array_index (field->mix, i);

      rod_json_stream_open_object (json, NULL);
      rod_json_stream_text (json, "colour", share->colour);
      rod_plan_json_ratio (json, "weight", share->weight);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
}

static void
write_joint_lines (RodJsonStream *json,
                   const RodPlan *plan,
                   guint          field)
{
  g_autoptr (GArray) lines = rod_joint_lines_new (plan, field);

  rod_json_stream_open_array (json, "joint_lines");
  for (guint i = 0; i < lines->len; i++)
    {
      const RodJointLine *line = &g_array_index (lines, RodJointLine, i);

      rod_json_stream_open_object (json, NULL);
      rod_json_stream_integer (json, "line", line->number);
      rod_plan_json_length (json, "across_mm", line->across_mm);
      rod_plan_json_length (json, "place_mm", line->place_mm);
      if (isfinite (line->height_mm))
        rod_plan_json_length (json, "height_mm", line->height_mm);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
}

static void
write_length_joints (RodJsonStream  *json,
                     const RodField *field)
{
  rod_json_stream_open_array (json, "length_joints");
  for (guint j = 0; j < field->n_joints; j++)
    {
      const RodLengthJoint *joint = &field->joints[j];

      rod_json_stream_open_object (json, NULL);
      rod_plan_json_length (
        json, "line_mm", field->phase_mm + joint->course * field->board->cover_mm);
      rod_plan_json_length (json, "at_mm", joint->at_mm);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
}

static void
write_field (RodJsonStream *json,
             const RodPlan *plan,
             guint          index)
{
  const RodField *field = rod_plan_field (plan, index);

  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "face", rod_plan_face (plan, field->face)->mark);
  if (field->zone != NULL)
    rod_json_stream_text (json, "zone", field->zone->id);
  rod_json_stream_text (json, "board", field->board->id);
  write_colours (json, field);
  rod_plan_json_angle (json, "direction_deg", field->direction_deg);
  rod_plan_json_choice (json, "laid_from", rod_laid_from_choices, (int) field->laid_from);
  rod_plan_json_map (json, "to_surface", field->to_surface);
  rod_json_stream_integer (json, "group", field->group);
  rod_plan_json_ratio (json, "group_scale", field->group_scale);
  rod_plan_json_length (json, "group_shift_mm", field->group_shift_mm);
  rod_plan_json_length (json, "phase_mm", field->phase_mm);
  rod_plan_json_reckoning (json, "phase_reckoning", rod_reckon_phase (plan, index));
  write_joint_lines (json, plan, index);
  rod_plan_json_choice (
    json, "joint_pattern", rod_joint_pattern_choices, (int) field->joint_rules.pattern);
  rod_plan_json_lengths (json, "columns_mm", field->columns, field->n_columns);
  write_length_joints (json, field);
  rod_json_stream_integer (json, "courses", field->n_courses);
  rod_json_stream_integer (json, "last_ripped_course", field->last_ripped_course);
  rod_json_stream_integer (json, "first_piece", field->first_piece);
  rod_json_stream_integer (json, "pieces", field->n_pieces);
  rod_plan_json_choice (json, "fixed", rod_fixed_point_choices, (int) field->fixed);
  rod_plan_json_ratio (json, "expand", field->expand);
  rod_plan_json_ratio (json, "shrink", field->shrink);
  rod_json_stream_number (json, "clad_m2", rod_region_area (field->clad) / 1e6, AREA_DECIMALS);
  rod_plan_json_region (json, "clad", field->clad);
  rod_plan_json_reckoning (json, "screws", rod_reckon_field_screws (plan, index));
  rod_json_stream_open_array (json, "edges");
  for (guint i = 0; i < field->n_edges; i++)
    write_edge (json, plan, index, i);
  rod_json_stream_close (json);
  rod_json_stream_close (json);
}

static void
write_group (RodJsonStream *json,
             const RodPlan *plan,
             guint          index)
{
  const RodGroup *group = &g_array_index (plan->groups, RodGroup, index);

  rod_json_stream_open_object (json, NULL);
  rod_plan_json_length (json, "pitch_mm", group->pitch_mm);
  rod_plan_json_length (json, "phase_mm", group->phase_mm);
  rod_plan_json_length (json, "best_mm", group->best_mm);
  rod_json_stream_flag (json, "pinned", group->pinned);
  rod_json_stream_flag (json, "held", group->held);
  rod_plan_json_length (json, "narrowest_mm", group->narrowest_mm);
  rod_json_stream_integer (json, "rips", group->rips);
  rod_json_stream_integer (json, "slivers", group->slivers);
  rod_json_stream_integer (json, "risks", group->risks);
  rod_plan_json_length (json, "misfit_mm", group->misfit_mm);
  rod_json_stream_open_array (json, "fields");
  for (guint i = 0; i < plan->fields->len; i++)
    if (rod_plan_field (plan, i)->group == index)
      rod_json_stream_integer (json, NULL, i);
  rod_json_stream_close (json);
  rod_json_stream_close (json);
}

/* Pieces */

static void
write_end (RodJsonStream     *json,
           const char        *name,
           const RodPieceEnd *end,
           RodReckoning      *gap)
{
  rod_json_stream_open_object (json, name);
  if (end->edge >= 0)
    rod_json_stream_integer (json, "edge", end->edge);
  rod_plan_json_length (json, "back_mm", end->back_mm);
  rod_plan_json_length (json, "pocket_mm", end->pocket_mm);
  rod_plan_json_length (json, "run_mm", end->run_mm);
  rod_plan_json_length (json, "gap_mm", end->gap_mm);
  rod_plan_json_angle (json, "angle_deg", end->angle_deg);
  rod_plan_json_reckoning (json, "gap_reckoning", gap);
  rod_json_stream_close (json);
}

static void
write_notches (RodJsonStream  *json,
               const RodPlan  *plan,
               const RodPiece *piece)
{
  rod_json_stream_open_array (json, "notches");
  for (guint i = piece->first_notch; i < piece->first_notch + piece->n_notches; i++)
    {
      const RodNotch *notch = &g_array_index (plan->notches, RodNotch, i);

      rod_json_stream_open_object (json, NULL);
      rod_json_stream_text (json, "side", notch->upper ? "upper" : "lower");
      rod_plan_json_length (json, "from_left_mm", notch->from_left_mm);
      rod_plan_json_length (json, "width_mm", notch->width_mm);
      rod_plan_json_length (json, "depth_mm", notch->depth_mm);
      rod_plan_json_length (json, "leaves_mm", notch->leaves_mm);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
}

static void
write_piece (RodJsonStream *json,
             const RodPlan *plan,
             guint          index)
{
  const RodPiece *piece = rod_plan_piece (plan, index);

  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "mark", piece->mark);
  rod_json_stream_integer (json, "field", piece->field);
  rod_json_stream_integer (json, "course", piece->course);
  rod_json_stream_integer (json, "place", piece->place);
  rod_json_stream_integer (json, "sequence", piece->sequence);
  rod_json_stream_text (json, "colour", piece->colour->id);
  rod_plan_json_length (json, "length_mm", piece->length_mm);
  rod_plan_json_length (json, "short_mm", piece->short_mm);
  rod_plan_json_length (json, "clear_mm", piece->clear_mm);
  rod_plan_json_length (json, "width_mm", piece->width_mm);
  rod_plan_json_length (json, "low_mm", piece->low_mm);
  rod_plan_json_length (json, "high_mm", piece->high_mm);
  rod_plan_json_length (json, "flange_mm", piece->flange_mm);
  rod_json_stream_integer (json, "battens", piece->battens);
  rod_json_stream_integer (json, "screws", piece->screws);
  rod_plan_json_rings (json, "rings", plan->rings, piece->first_ring, piece->n_rings);
  write_notches (json, plan, piece);
  write_end (json, "left", &piece->left, rod_reckon_piece_gap (plan, index, FALSE));
  write_end (json, "right", &piece->right, rod_reckon_piece_gap (plan, index, TRUE));
  rod_plan_json_reckoning (json, "length_reckoning", rod_reckon_piece_length (plan, index));
  rod_plan_json_reckoning (json, "width_reckoning", rod_reckon_piece_width (plan, index));
  rod_json_stream_close (json);
}

/* Frame and trims */

static void
write_batten (RodJsonStream *json,
              const RodPlan *plan,
              guint          index)
{
  const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, index);
  g_auto (GStrv) uses = rod_batten_use_nicks (run->uses);

  rod_json_stream_open_object (json, NULL);
  rod_json_stream_integer (json, "field", run->field);
  rod_json_stream_integer (json, "line", run->line);
  rod_json_stream_flag (json, "counter", run->counter);
  rod_json_stream_open_array (json, "serves");
  for (guint i = 0; uses[i] != NULL; i++)
    rod_json_stream_text (json, NULL, uses[i]);
  rod_json_stream_close (json);
  rod_plan_json_point (json, "from", run->from);
  rod_plan_json_point (json, "to", run->to);
  rod_plan_json_length (json, "length_mm", run->length_mm);
  rod_json_stream_close (json);
}

static void
write_trim (RodJsonStream *json,
            const RodPlan *plan,
            guint          index)
{
  const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, index);

  rod_json_stream_open_object (json, NULL);
  rod_json_stream_integer (json, "field", run->field);
  if (run->edge >= 0)
    rod_json_stream_integer (json, "edge", run->edge);
  rod_json_stream_text (json, "trim", run->trim->id);
  rod_plan_json_point (json, "from", run->from);
  rod_plan_json_point (json, "to", run->to);
  rod_plan_json_length (json, "length_mm", run->length_mm);
  rod_plan_json_choice (json, "end", rod_end_treatment_choices, (int) run->end);
  rod_json_stream_integer (json, "screws", run->screws);
  rod_json_stream_close (json);
}

/* The document */

static void
write_list (RodJsonStream *json,
            const char    *name,
            const RodPlan *plan,
            const GArray  *list,
            WriteElement   write)
{
  rod_json_stream_open_array (json, name);
  for (guint i = 0; i < list->len; i++)
    write (json, plan, i);
  rod_json_stream_close (json);
}

static void
write_house (RodJsonStream  *json,
             const RodHouse *house)
{
  rod_json_stream_open_object (json, "house");
  rod_json_stream_text (json, "name", house->name);
  rod_json_stream_text (json, "place", house->place);
  rod_json_stream_text (json, "client", house->client);
  rod_json_stream_text (json, "author", house->author);
  rod_json_stream_text (json, "currency", house->buying->currency);
  rod_json_stream_close (json);
}

gboolean
rod_plan_write (const RodTakeoff *takeoff,
                GOutputStream    *stream,
                GError          **error)
{
  const RodPlan *plan;
  RodJsonStream *json;

  g_return_val_if_fail (takeoff != NULL, FALSE);
  g_return_val_if_fail (G_IS_OUTPUT_STREAM (stream), FALSE);

  plan = takeoff->plan;
  json = rod_json_stream_new (stream, LINE_LEVELS);
  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "format", PLAN_FORMAT);
  rod_json_stream_integer (json, "version", PLAN_VERSION);
  write_house (json, plan->house);
  write_list (json, "faces", plan, plan->faces, write_face);
  write_list (json, "fields", plan, plan->fields, write_field);
  write_list (json, "groups", plan, plan->groups, write_group);
  write_list (json, "pieces", plan, plan->pieces, write_piece);
  write_list (json, "battens", plan, plan->battens, write_batten);
  write_list (json, "trims", plan, plan->trims, write_trim);
  write_list (json, "closures", plan, plan->closures, rod_fold_write_closure);
  rod_takeoff_write_members (takeoff, json);
  rod_json_stream_close (json);
  return rod_json_stream_finish (json, error);
}
