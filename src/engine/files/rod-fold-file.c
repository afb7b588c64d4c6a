/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The folded house as JSON: where each face lies in space, and where the survey closes. */

#include "config.h"

#include "engine/files/rod-fold-file.h"
#include "engine/files/rod-plan-json.h"

static void
write_point (RodJsonStream *json,
             const char    *name,
             RodVector      point)
{
  rod_json_stream_open_array (json, name);
  rod_plan_json_length (json, NULL, point.x);
  rod_plan_json_length (json, NULL, point.y);
  rod_plan_json_length (json, NULL, point.z);
  rod_json_stream_close (json);
}

static void
write_direction (RodJsonStream *json,
                 const char    *name,
                 RodVector      way)
{
  rod_json_stream_open_array (json, name);
  rod_plan_json_ratio (json, NULL, way.x);
  rod_plan_json_ratio (json, NULL, way.y);
  rod_plan_json_ratio (json, NULL, way.z);
  rod_json_stream_close (json);
}

void
rod_fold_write_place (RodJsonStream *json,
                      const RodPlan *plan,
                      guint          face)
{
  const RodFacePlace *place = &g_array_index (plan->places, RodFacePlace, face);

  rod_json_stream_open_object (json, "place");
  write_point (json, "origin", place->at.origin);
  write_direction (json, "x", place->at.x);
  write_direction (json, "y", place->at.y);
  rod_json_stream_integer (json, "part", place->part);
  rod_json_stream_flag (json, "alone", place->alone);
  if (place->hangs_on >= 0)
    {
      rod_json_stream_text (
        json, "hangs_on", rod_plan_face (plan, (guint) place->hangs_on)->mark);
      rod_json_stream_integer (json, "edge", place->edge);
      rod_plan_json_length (json, "lift_mm", place->lift_mm);
    }
  rod_json_stream_close (json);
}

void
rod_fold_write_closure (RodJsonStream *json,
                        const RodPlan *plan,
                        guint          index)
{
  const RodClosure *closure = &g_array_index (plan->closures, RodClosure, index);
  const RodFace    *face = rod_plan_face (plan, closure->face);
  const RodEdge    *edge = &rod_plan_field (plan, face->first_field)->edges[closure->edge];

  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "join", edge->join->id);
  rod_json_stream_text (json, "face", face->mark);
  rod_json_stream_integer (json, "edge", closure->edge);
  write_point (json, "gap", closure->gap);
  rod_plan_json_length (json, "misfit_mm", closure->misfit_mm);
  rod_plan_json_angle (json, "edge_deg", closure->edge_deg);
  rod_plan_json_angle (json, "fold_deg", closure->fold_deg);
  rod_json_stream_open_array (json, "loop");
  for (guint i = closure->first_step; i < closure->first_step + closure->n_steps; i++)
    {
      const RodLoopStep *step = &g_array_index (plan->loop_steps, RodLoopStep, i);

      rod_json_stream_open_object (json, NULL);
      rod_json_stream_text (json, "face", rod_plan_face (plan, step->face)->mark);
      rod_json_stream_integer (json, "in_edge", step->in_edge);
      rod_json_stream_integer (json, "out_edge", step->out_edge);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
  rod_json_stream_close (json);
}
