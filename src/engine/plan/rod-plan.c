/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The pipeline: from a house to everything that follows from it. Each stage reads what earlier ones
 * wrote and adds its own; none reaches back. Read rod_plan_renew() from top to bottom and you
 * know the program. */

#include "config.h"

#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/fixings/rod-screws.h"
#include "engine/fold/rod-fold.h"
#include "engine/frame/rod-battens.h"
#include "engine/frame/rod-noggins.h"
#include "engine/plan/rod-earlier.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-net.h"
#include "engine/plan/rod-outlines.h"
#include "engine/plan/rod-plan.h"
#include "engine/plan/rod-rings.h"
#include "engine/plan/rod-stacks.h"
#include "engine/setout/rod-alignment.h"
#include "engine/setout/rod-group-setout.h"
#include "engine/setout/rod-pins.h"
#include "engine/setout/rod-setout.h"
#include "engine/setout/rod-ties.h"
#include "engine/takeoff/rod-laying-order.h"
#include "engine/takeoff/rod-pieces.h"
#include "engine/trims/rod-trim-runs.h"

static void
clear_face (gpointer data)
{
  RodFace *face = data;

  rod_record_unref (face->derived);
  g_free (face->mark);
  g_free (face->label);
  rod_region_unref (face->bare);
}

static void
clear_field (gpointer data)
{
  RodField *field = data;

  g_free (field->edges);
  g_free (field->columns);
  g_free (field->joints);
  rod_region_unref (field->clad);
  rod_region_unref (field->pocket);
}

static void
clear_group (gpointer data)
{
  RodGroup *group = data;

  rod_group_setout_unref (group->setout);
}

/* Plans of one house are about as long one as the other. */
static GArray *
new_list (gsize          size,
          GDestroyNotify clear,
          const GArray  *before)
{
  guint   room = before == NULL ? 0 : before->len + before->len / 16;
  GArray *list = g_array_sized_new (FALSE, FALSE, (guint) size, room);

  if (clear != NULL)
    g_array_set_clear_func (list, clear);
  return list;
}

static RodPlan *
new_empty (const RodHouse *house,
           const RodPlan  *before)
{
  static const RodPlan nothing = { .house = NULL };
  const RodPlan       *like = before == NULL ? &nothing : before;
  RodPlan             *plan = g_atomic_rc_box_new0 (RodPlan);

  plan->house = rod_record_ref (house);
  plan->faces = new_list (sizeof (RodFace), clear_face, like->faces);
  plan->fields = new_list (sizeof (RodField), clear_field, like->fields);
  plan->ties = new_list (sizeof (RodTie), NULL, like->ties);
  plan->groups = new_list (sizeof (RodGroup), clear_group, like->groups);
  plan->pieces = new_list (sizeof (RodPiece), NULL, like->pieces);
  plan->notches = new_list (sizeof (RodNotch), NULL, like->notches);
  plan->flanges = new_list (sizeof (RodFlange), NULL, like->flanges);
  plan->battens = new_list (sizeof (RodBattenRun), NULL, like->battens);
  plan->trims = new_list (sizeof (RodTrimRun), NULL, like->trims);
  plan->places = new_list (sizeof (RodFacePlace), NULL, like->places);
  plan->closures = new_list (sizeof (RodClosure), NULL, like->closures);
  plan->loop_steps = new_list (sizeof (RodLoopStep), NULL, like->loop_steps);
  plan->findings = rod_findings_new ();
  return plan;
}

/* What is cut and fixed, field by field: all of a field is at hand while it is worked on. */
static void
clad_fields (RodPlan          *plan,
             const RodEarlier *earlier)
{
  RodRings rings;

  rod_rings_init (&rings, plan, earlier->before == NULL ? 0 : earlier->before->rings->n_points);
  for (guint f = 0; f < plan->fields->len; f++)
    {
      if (rod_earlier_keep_cladding (earlier, f, &rings))
        continue;
      plan->work.n_fields++;
      rod_outlines_build (plan, f);
      rod_pieces_cut (plan, f, &rings);
      rod_battens_place (plan, f);
      rod_noggins_add (plan, f);
      rod_screws_count_in_boards (plan, f);
    }
  rod_rings_finish (&rings);
}

RodPlan *
rod_plan_renew (const RodPlan  *before,
                const RodHouse *house)
{
  RodPlan   *plan;
  RodEarlier earlier;

  g_return_val_if_fail (house != NULL, NULL);

  plan = new_empty (house, before);
  rod_earlier_init (&earlier, before, plan);

  /* What there is to clad: surfaces, reveals, edges and how they are tied. */
  rod_faces_build (plan, &earlier);
  rod_stacks_build (plan);

  /* Where the joint lines fall. */
  rod_ties_collect (plan);
  rod_alignment_build (plan);
  rod_earlier_keep_groups (&earlier);
  rod_setout_choose (plan);
  rod_stacks_settle_starters (plan);
  rod_setout_absorb (plan);

  /* What is cut and fixed. */
  clad_fields (plan, &earlier);
  rod_laying_order_build (plan);
  rod_trim_runs_build (plan);
  for (guint f = 0; f < plan->fields->len; f++)
    rod_screws_count_in_trims (plan, f);

  /* How it is shown, and what is wrong with it. */
  rod_net_place (plan);
  rod_fold_build (plan);
  rod_alignment_check (plan);
  rod_pins_check (plan);
  rod_checks_run (plan);
  rod_findings_sort (plan->findings);

  rod_earlier_clear (&earlier);
  return plan;
}

RodPlan *
rod_plan_new (const RodHouse *house)
{
  return rod_plan_renew (NULL, house);
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
  rod_region_unref (plan->rings);
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
