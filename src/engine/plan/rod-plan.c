/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The pipeline: from a house to everything that follows from it. Each stage reads what earlier ones
 * wrote and adds its own; none reaches back. Read rod_plan_new() from top to bottom and you know
 * the program. */

#include "config.h"

#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/fixings/rod-screws.h"
#include "engine/fold/rod-fold.h"
#include "engine/frame/rod-battens.h"
#include "engine/frame/rod-noggins.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-net.h"
#include "engine/plan/rod-outlines.h"
#include "engine/plan/rod-plan.h"
#include "engine/plan/rod-stacks.h"
#include "engine/setout/rod-alignment.h"
#include "engine/setout/rod-group-setout.h"
#include "engine/setout/rod-pins.h"
#include "engine/setout/rod-setout.h"
#include "engine/setout/rod-ties.h"
#include "engine/takeoff/rod-pieces.h"
#include "engine/trims/rod-trim-runs.h"

static void
clear_face (gpointer data)
{
  RodFace *face = data;

  rod_record_unref (face->derived);
  g_free (face->mark);
  g_free (face->label);
  rod_region_free (face->bare);
}

static void
clear_field (gpointer data)
{
  RodField *field = data;

  g_free (field->edges);
  g_free (field->columns);
  g_free (field->joints);
  rod_region_free (field->clad);
  rod_region_free (field->pocket);
}

static void
clear_group (gpointer data)
{
  RodGroup *group = data;

  rod_group_setout_free (group->setout);
}

static GArray *
new_list (gsize          size,
          GDestroyNotify clear)
{
  GArray *list = g_array_new (FALSE, FALSE, (guint) size);

  if (clear != NULL)
    g_array_set_clear_func (list, clear);
  return list;
}

static RodPlan *
new_empty (const RodHouse *house)
{
  RodPlan *plan = g_atomic_rc_box_new0 (RodPlan);

  plan->house = rod_record_ref (house);
  plan->faces = new_list (sizeof (RodFace), clear_face);
  plan->fields = new_list (sizeof (RodField), clear_field);
  plan->ties = new_list (sizeof (RodTie), NULL);
  plan->groups = new_list (sizeof (RodGroup), clear_group);
  plan->pieces = new_list (sizeof (RodPiece), NULL);
  plan->notches = new_list (sizeof (RodNotch), NULL);
  plan->flanges = new_list (sizeof (RodFlange), NULL);
  plan->battens = new_list (sizeof (RodBattenRun), NULL);
  plan->trims = new_list (sizeof (RodTrimRun), NULL);
  plan->places = new_list (sizeof (RodFacePlace), NULL);
  plan->closures = new_list (sizeof (RodClosure), NULL);
  plan->loop_steps = new_list (sizeof (RodLoopStep), NULL);
  plan->findings = rod_findings_new ();
  return plan;
}

RodPlan *
rod_plan_new (const RodHouse *house)
{
  RodPlan *plan;

  g_return_val_if_fail (house != NULL, NULL);

  plan = new_empty (house);

  /* What there is to clad: surfaces, reveals, edges and how they are tied. */
  rod_faces_build (plan);
  rod_stacks_build (plan);

  /* Where the joint lines fall. */
  rod_ties_collect (plan);
  rod_alignment_build (plan);
  rod_setout_choose (plan);
  rod_stacks_settle_starters (plan);
  rod_setout_absorb (plan);

  /* What is cut and fixed. */
  rod_outlines_build (plan);
  rod_pieces_cut (plan);
  rod_battens_place (plan);
  rod_noggins_add (plan);
  rod_trim_runs_build (plan);
  rod_screws_count (plan);

  /* How it is shown, and what is wrong with it. */
  rod_net_place (plan);
  rod_fold_build (plan);
  rod_alignment_check (plan);
  rod_pins_check (plan);
  rod_checks_run (plan);
  rod_findings_sort (plan->findings);
  return plan;
}

RodPlan *
rod_plan_ref (RodPlan *plan)
{
  g_return_val_if_fail (plan != NULL, NULL);

  return g_atomic_rc_box_acquire (plan);
}

static void
clear_plan (gpointer data)
{
  RodPlan *plan = data;

  g_array_unref (plan->faces);
  g_array_unref (plan->fields);
  g_array_unref (plan->ties);
  g_array_unref (plan->groups);
  g_array_unref (plan->pieces);
  rod_region_free (plan->rings);
  g_array_unref (plan->notches);
  g_array_unref (plan->flanges);
  g_array_unref (plan->battens);
  g_array_unref (plan->trims);
  g_array_unref (plan->places);
  g_array_unref (plan->closures);
  g_array_unref (plan->loop_steps);
  g_array_unref (plan->findings);
  rod_record_unref (plan->house);
}

void
rod_plan_unref (RodPlan *plan)
{
  if (plan != NULL)
    g_atomic_rc_box_release_full (plan, clear_plan);
}

const RodFace *
rod_plan_face (const RodPlan *plan,
               guint          index)
{
  g_return_val_if_fail (index < plan->faces->len, NULL);

  return &g_array_index (plan->faces, RodFace, index);
}

const RodField *
rod_plan_field (const RodPlan *plan,
                guint          index)
{
  g_return_val_if_fail (index < plan->fields->len, NULL);

  return &g_array_index (plan->fields, RodField, index);
}

const RodPiece *
rod_plan_piece (const RodPlan *plan,
                guint          index)
{
  g_return_val_if_fail (index < plan->pieces->len, NULL);

  return &g_array_index (plan->pieces, RodPiece, index);
}

void
rod_plan_piece_extent (const RodPlan  *plan,
                       const RodPiece *piece,
                       double         *low,
                       double         *high)
{
  const RodRegion *rings = plan->rings;
  RodAffine        to_board = g_array_index (plan->fields, RodField, piece->field).to_board;

  *low = INFINITY;
  *high = -INFINITY;
  for (guint p = rings->ring_starts[piece->first_ring];
       p < rings->ring_starts[piece->first_ring + 1];
       p++)
    {
      double x = rod_affine_apply (to_board, rings->points[p]).x;

      *low = MIN (*low, x);
      *high = MAX (*high, x);
    }
}

gboolean
rod_plan_has_must (const RodPlan *plan)
{
  /* Findings are sorted: a must comes first. */
  return plan->findings->len > 0 &&
         g_array_index (plan->findings, RodFinding, 0).severity == ROD_SEVERITY_MUST;
}
