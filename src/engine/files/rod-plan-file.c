/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan as JSON: docs/plan-file.md says what it is for, docs/schemas/plan.schema.json what may
 * stand where. Things refer to each other as in the plan: a face by its mark, fields, groups and
 * edges by their index, pieces by their mark. What is cut and bought is in rod-takeoff-file.c.
 */
#include "config.h"

#include "engine/files/rod-plan-file.h"

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

typedef void (*WriteElement) (RodJsonWriter *writer,
                              const RodPlan *plan,
                              guint          index);

/* Faces */

static void
write_opening (RodJsonWriter *writer,
               const RodFace *owner,
               int            index)
{
  const RodOpening *opening = g_ptr_array_index (owner->surface->openings, (guint) index);

  rod_json_writer_text (writer, "opening", opening->id);
}

static void
write_face (RodJsonWriter *writer,
            const RodPlan *plan,
            guint          index)
{
  const RodFace *face = rod_plan_face (plan, index);

  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_text (writer, "mark", face->mark);
  rod_json_writer_text (writer, "label", face->label);
  rod_json_writer_text (writer, "surface", face->surface->id);
  rod_plan_json_choice (writer, "kind", rod_surface_kind_choices, (int) face->surface->kind);
  rod_json_writer_text (writer, "system", face->system->id);
  if (face->opening >= 0)
    {
      const RodFace *parent = rod_plan_face (plan, (guint) face->parent);

      rod_json_writer_text (writer, "parent", parent->mark);
      write_opening (writer, parent, face->opening);
    }
  rod_plan_json_length (writer, "level_mm", face->surface->level_mm);
  rod_plan_json_map (writer, "net", face->net);
  rod_plan_json_region (writer, "bare", face->bare);
  rod_json_writer_integer (writer, "first_field", face->first_field);
  rod_json_writer_integer (writer, "fields", face->n_fields);
  rod_json_writer_close (writer);
}

/* Fields */

static void
write_zone (RodJsonWriter *writer,
            const RodFace *face,
            int            index)
{
  const RodZone *zone = g_ptr_array_index (face->surface->zones, (guint) index);

  rod_json_writer_text (writer, "zone", zone->id);
}

static void
write_side (RodJsonWriter *writer,
            const RodSide *side)
{
  rod_plan_json_point (writer, "from", side->from);
  rod_plan_json_point (writer, "to", side->to);
  rod_plan_json_ratio (writer, "bulge", side->bulge);
}

static void
write_join (RodJsonWriter *writer,
            const RodPlan *plan,
            const RodEdge *edge)
{
  rod_json_writer_open_object (writer, "join");
  if (edge->join != NULL)
    rod_json_writer_text (writer, "id", edge->join->id);
  rod_json_writer_text (writer, "face", rod_plan_face (plan, (guint) edge->partner_face)->mark);
  rod_json_writer_integer (writer, "edge", edge->partner_edge);
  rod_plan_json_angle (writer, "fold_deg", edge->fold_deg);
  rod_json_writer_flag (writer, "carries_joints", edge->carries_joints);
  rod_plan_json_length (writer, "offset_mm", edge->offset_mm);
  rod_json_writer_close (writer);
}

static void
write_edge (RodJsonWriter *writer,
            const RodPlan *plan,
            guint          field_index,
            guint          edge_index)
{
  const RodField *field = rod_plan_field (plan, field_index);
  const RodEdge  *edge = &field->edges[edge_index];

  rod_json_writer_open_object (writer, NULL);
  if (edge->opening >= 0)
    write_opening (writer, rod_plan_face (plan, field->face), edge->opening);
  if (edge->zone >= 0)
    write_zone (writer, rod_plan_face (plan, field->face), edge->zone);
  rod_json_writer_integer (writer, "side", edge->side);
  write_side (writer, &edge->raw);
  rod_plan_json_choice (writer, "condition", rod_edge_condition_choices, (int) edge->condition);
  rod_plan_json_choice (writer, "boards", rod_board_relation_choices, (int) edge->relation);
  rod_json_writer_flag (writer, "long_side", edge->long_side);
  if (edge->partner_face >= 0)
    write_join (writer, plan, edge);
  if (edge->trim != NULL)
    rod_json_writer_text (writer, "trim", edge->trim->id);
  rod_json_writer_flag (writer, "starter", edge->starter);
  rod_plan_json_length (writer, "build_up_mm", edge->build_up_mm);
  rod_plan_json_length (writer, "clearance_mm", edge->clearance_mm);
  rod_plan_json_length (writer, "back_mm", edge->back_mm);
  rod_plan_json_length (writer, "gap_across_mm", edge->gap_across_mm);
  rod_plan_json_reckoning (writer, "reckoning", rod_reckon_edge (plan, field_index, edge_index));
  rod_json_writer_close (writer);
}

static void
write_colours (RodJsonWriter  *writer,
               const RodField *field)
{
  if (field->colour != NULL)
    {
      rod_json_writer_text (writer, "colour", field->colour->id);
      return;
    }
  rod_json_writer_integer (writer, "seed", field->seed);
  rod_json_writer_open_array (writer, "mix");
  for (guint i = 0; i < field->mix->len; i++)
    {
      const RodColourShare *share = g_ptr_array_index (field->mix, i);

      rod_json_writer_open_object (writer, NULL);
      rod_json_writer_text (writer, "colour", share->colour);
      rod_plan_json_ratio (writer, "weight", share->weight);
      rod_json_writer_close (writer);
    }
  rod_json_writer_close (writer);
}

static void
write_joint_lines (RodJsonWriter *writer,
                   const RodPlan *plan,
                   guint          field)
{
  g_autoptr (GArray) lines = rod_joint_lines_new (plan, field);

  rod_json_writer_open_array (writer, "joint_lines");
  for (guint i = 0; i < lines->len; i++)
    {
      const RodJointLine *line = &g_array_index (lines, RodJointLine, i);

      rod_json_writer_open_object (writer, NULL);
      rod_json_writer_integer (writer, "line", line->number);
      rod_plan_json_length (writer, "across_mm", line->across_mm);
      rod_plan_json_length (writer, "place_mm", line->place_mm);
      if (isfinite (line->height_mm))
        rod_plan_json_length (writer, "height_mm", line->height_mm);
      rod_json_writer_close (writer);
    }
  rod_json_writer_close (writer);
}

static void
write_field (RodJsonWriter *writer,
             const RodPlan *plan,
             guint          index)
{
  const RodField *field = rod_plan_field (plan, index);

  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_text (writer, "face", rod_plan_face (plan, field->face)->mark);
  if (field->zone != NULL)
    rod_json_writer_text (writer, "zone", field->zone->id);
  rod_json_writer_text (writer, "board", field->board->id);
  write_colours (writer, field);
  rod_plan_json_angle (writer, "direction_deg", field->direction_deg);
  rod_plan_json_map (writer, "to_surface", field->to_surface);
  rod_json_writer_integer (writer, "group", field->group);
  rod_plan_json_length (writer, "phase_mm", field->phase_mm);
  rod_plan_json_reckoning (writer, "phase_reckoning", rod_reckon_phase (plan, index));
  write_joint_lines (writer, plan, index);
  rod_plan_json_lengths (writer, "columns_mm", field->columns, field->n_columns);
  rod_json_writer_integer (writer, "courses", field->n_courses);
  rod_json_writer_integer (writer, "first_piece", field->first_piece);
  rod_json_writer_integer (writer, "pieces", field->n_pieces);
  rod_plan_json_choice (writer, "fixed", rod_fixed_point_choices, (int) field->fixed);
  rod_plan_json_ratio (writer, "expand", field->expand);
  rod_plan_json_ratio (writer, "shrink", field->shrink);
  rod_json_writer_number (writer, "clad_m2", rod_region_area (field->clad) / 1e6, AREA_DECIMALS);
  rod_plan_json_region (writer, "clad", field->clad);
  rod_plan_json_reckoning (writer, "screws", rod_reckon_field_screws (plan, index));
  rod_json_writer_open_array (writer, "edges");
  for (guint i = 0; i < field->n_edges; i++)
    write_edge (writer, plan, index, i);
  rod_json_writer_close (writer);
  rod_json_writer_close (writer);
}

static void
write_group (RodJsonWriter *writer,
             const RodPlan *plan,
             guint          index)
{
  const RodGroup *group = &g_array_index (plan->groups, RodGroup, index);

  rod_json_writer_open_object (writer, NULL);
  rod_plan_json_length (writer, "pitch_mm", group->pitch_mm);
  rod_plan_json_length (writer, "phase_mm", group->phase_mm);
  rod_json_writer_flag (writer, "pinned", group->pinned);
  rod_plan_json_length (writer, "narrowest_mm", group->narrowest_mm);
  rod_json_writer_integer (writer, "rips", group->rips);
  rod_plan_json_length (writer, "misfit_mm", group->misfit_mm);
  rod_json_writer_open_array (writer, "fields");
  for (guint i = 0; i < plan->fields->len; i++)
    if (rod_plan_field (plan, i)->group == index)
      rod_json_writer_integer (writer, NULL, i);
  rod_json_writer_close (writer);
  rod_json_writer_close (writer);
}

/* Pieces */

static void
write_end (RodJsonWriter     *writer,
           const char        *name,
           const RodPieceEnd *end,
           RodReckoning      *gap)
{
  rod_json_writer_open_object (writer, name);
  if (end->edge >= 0)
    rod_json_writer_integer (writer, "edge", end->edge);
  rod_plan_json_length (writer, "back_mm", end->back_mm);
  rod_plan_json_length (writer, "pocket_mm", end->pocket_mm);
  rod_plan_json_length (writer, "run_mm", end->run_mm);
  rod_plan_json_length (writer, "gap_mm", end->gap_mm);
  rod_plan_json_angle (writer, "angle_deg", end->angle_deg);
  rod_plan_json_reckoning (writer, "gap_reckoning", gap);
  rod_json_writer_close (writer);
}

static void
write_notches (RodJsonWriter  *writer,
               const RodPlan  *plan,
               const RodPiece *piece)
{
  rod_json_writer_open_array (writer, "notches");
  for (guint i = piece->first_notch; i < piece->first_notch + piece->n_notches; i++)
    {
      const RodNotch *notch = &g_array_index (plan->notches, RodNotch, i);

      rod_json_writer_open_object (writer, NULL);
      rod_json_writer_text (writer, "side", notch->upper ? "upper" : "lower");
      rod_plan_json_length (writer, "from_left_mm", notch->from_left_mm);
      rod_plan_json_length (writer, "width_mm", notch->width_mm);
      rod_plan_json_length (writer, "depth_mm", notch->depth_mm);
      rod_plan_json_length (writer, "leaves_mm", notch->leaves_mm);
      rod_json_writer_close (writer);
    }
  rod_json_writer_close (writer);
}

static void
write_piece (RodJsonWriter *writer,
             const RodPlan *plan,
             guint          index)
{
  const RodPiece *piece = rod_plan_piece (plan, index);

  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_text (writer, "mark", piece->mark);
  rod_json_writer_integer (writer, "field", piece->field);
  rod_json_writer_integer (writer, "course", piece->course);
  rod_json_writer_integer (writer, "place", piece->place);
  rod_json_writer_text (writer, "colour", piece->colour->id);
  rod_plan_json_length (writer, "length_mm", piece->length_mm);
  rod_plan_json_length (writer, "short_mm", piece->short_mm);
  rod_plan_json_length (writer, "clear_mm", piece->clear_mm);
  rod_plan_json_length (writer, "width_mm", piece->width_mm);
  rod_plan_json_length (writer, "low_mm", piece->low_mm);
  rod_plan_json_length (writer, "high_mm", piece->high_mm);
  rod_plan_json_length (writer, "flange_mm", piece->flange_mm);
  rod_json_writer_integer (writer, "battens", piece->battens);
  rod_json_writer_integer (writer, "screws", piece->screws);
  rod_plan_json_rings (writer, "rings", plan->rings, piece->first_ring, piece->n_rings);
  write_notches (writer, plan, piece);
  write_end (writer, "left", &piece->left, rod_reckon_piece_gap (plan, index, FALSE));
  write_end (writer, "right", &piece->right, rod_reckon_piece_gap (plan, index, TRUE));
  rod_plan_json_reckoning (writer, "length_reckoning", rod_reckon_piece_length (plan, index));
  rod_plan_json_reckoning (writer, "width_reckoning", rod_reckon_piece_width (plan, index));
  rod_json_writer_close (writer);
}

/* Frame and trims */

static void
write_batten (RodJsonWriter *writer,
              const RodPlan *plan,
              guint          index)
{
  const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, index);
  g_auto (GStrv) uses = rod_batten_use_nicks (run->uses);

  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_integer (writer, "field", run->field);
  rod_json_writer_integer (writer, "line", run->line);
  rod_json_writer_flag (writer, "counter", run->counter);
  rod_json_writer_open_array (writer, "serves");
  for (guint i = 0; uses[i] != NULL; i++)
    rod_json_writer_text (writer, NULL, uses[i]);
  rod_json_writer_close (writer);
  rod_plan_json_point (writer, "from", run->from);
  rod_plan_json_point (writer, "to", run->to);
  rod_plan_json_length (writer, "length_mm", run->length_mm);
  rod_json_writer_close (writer);
}

static void
write_trim (RodJsonWriter *writer,
            const RodPlan *plan,
            guint          index)
{
  const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, index);

  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_integer (writer, "field", run->field);
  if (run->edge >= 0)
    rod_json_writer_integer (writer, "edge", run->edge);
  rod_json_writer_text (writer, "trim", run->trim->id);
  rod_plan_json_point (writer, "from", run->from);
  rod_plan_json_point (writer, "to", run->to);
  rod_plan_json_length (writer, "length_mm", run->length_mm);
  rod_plan_json_choice (writer, "end", rod_end_treatment_choices, (int) run->end);
  rod_json_writer_integer (writer, "screws", run->screws);
  rod_json_writer_close (writer);
}

/* The document */

static void
write_list (RodJsonWriter *writer,
            const char    *name,
            const RodPlan *plan,
            const GArray  *list,
            WriteElement   write)
{
  rod_json_writer_open_array (writer, name);
  for (guint i = 0; i < list->len; i++)
    write (writer, plan, i);
  rod_json_writer_close (writer);
}

static void
write_house (RodJsonWriter  *writer,
             const RodHouse *house)
{
  rod_json_writer_open_object (writer, "house");
  rod_json_writer_text (writer, "name", house->name);
  rod_json_writer_text (writer, "place", house->place);
  rod_json_writer_text (writer, "client", house->client);
  rod_json_writer_text (writer, "author", house->author);
  rod_json_writer_text (writer, "currency", house->buying->currency);
  rod_json_writer_close (writer);
}

gboolean
rod_plan_write (const RodTakeoff *takeoff,
                GOutputStream    *stream,
                GError          **error)
{
  const RodPlan *plan;
  RodJsonWriter *writer;

  g_return_val_if_fail (takeoff != NULL, FALSE);
  g_return_val_if_fail (G_IS_OUTPUT_STREAM (stream), FALSE);

  plan = takeoff->plan;
  writer = rod_json_writer_new (stream, LINE_LEVELS);
  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_text (writer, "format", PLAN_FORMAT);
  rod_json_writer_integer (writer, "version", PLAN_VERSION);
  write_house (writer, plan->house);
  write_list (writer, "faces", plan, plan->faces, write_face);
  write_list (writer, "fields", plan, plan->fields, write_field);
  write_list (writer, "groups", plan, plan->groups, write_group);
  write_list (writer, "pieces", plan, plan->pieces, write_piece);
  write_list (writer, "battens", plan, plan->battens, write_batten);
  write_list (writer, "trims", plan, plan->trims, write_trim);
  rod_takeoff_write_members (takeoff, writer);
  rod_json_writer_close (writer);
  return rod_json_writer_finish (writer, error);
}
