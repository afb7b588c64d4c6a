/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Bays between trims and length joints, and the boards that fill them. */

#include "config.h"

#include <math.h>

#include "engine/movement/rod-movement.h"
#include "engine/plan/rod-faces.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-bay.h"

double
rod_field_longest_mm (const RodPlan  *plan,
                      const RodField *field)
{
  return MIN (rod_stock_longest_mm (field->board->stock, plan->house->saw),
              floor (field->joint_rules.longest_mm));
}

gboolean
rod_field_ends_square (const RodField *field)
{
  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      double         from = rod_affine_apply (field->to_board, edge->raw.from).x;
      double         to = rod_affine_apply (field->to_board, edge->raw.to).x;

      if (edge->relation != ROD_BOARDS_ALONG &&
          (fabs (to - from) > ROD_SNAP_MM || fabs (edge->raw.bulge) > 0.0))
        return FALSE;
    }
  return TRUE;
}

gboolean
rod_field_left_is_upper (const RodField *field)
{
  return field->to_surface.yx < 0.0;
}

/* Whether an end is the one at which its board is held. */
static gboolean
is_held (const RodField *field,
         gboolean        right)
{
  return field->fixed == ROD_FIXED_TOP && right != rod_field_left_is_upper (field);
}

double
rod_bay_run_mm (const RodField *field,
                const RodBay   *bay,
                gboolean        right)
{
  if (field->fixed == ROD_FIXED_TOP)
    return is_held (field, right) ? 0.0 : bay->clear_mm;
  return bay->clear_mm / 2.0;
}

double
rod_bay_gap_mm (const RodPlan  *plan,
                const RodField *field,
                const RodBay   *bay,
                gboolean        right)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          run_mm = rod_bay_run_mm (field, bay, right);

  if (right ? bay->right_butt : bay->left_butt)
    return rod_butt_gap_mm (field->expand, run_mm, rules);
  return is_held (field, right) ? rules->fixed_end_gap_mm
                                : rod_gap_mm (field->expand, run_mm, rules);
}

double
rod_bay_board_mm (const RodPlan  *plan,
                  const RodField *field,
                  const RodBay   *bay)
{
  return bay->clear_mm - rod_bay_gap_mm (plan, field, bay, FALSE) -
         rod_bay_gap_mm (plan, field, bay, TRUE);
}

/* The board grows with the bay by at least the bay's own growth less two gaps, so a few steps of
 * halving reach a micrometre. */
double
rod_bay_clear_mm (const RodPlan  *plan,
                  const RodField *field,
                  RodBay          bay,
                  double          board_mm)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          least_mm = MAX (rules->min_gap_mm, rules->fixed_end_gap_mm) + rules->butt_gap_mm;
  double          gaps_mm = 2.0 * (rules->tolerance_mm + 1.0 + least_mm);
  double          low = board_mm;
  double          high = (board_mm + gaps_mm) * (1.0 + 4.0 * field->expand) + gaps_mm;

  while (high - low > ROD_EPSILON_MM)
    {
      bay.clear_mm = (low + high) / 2.0;
      if (rod_bay_board_mm (plan, field, &bay) <= board_mm)
        low = bay.clear_mm;
      else
        high = bay.clear_mm;
    }
  return low;
}

double
rod_field_butt_reach_mm (const RodPlan  *plan,
                         const RodField *field)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          longest_mm = rod_field_longest_mm (plan, field);
  RodBay          bay = { .left_butt = TRUE, .right_butt = TRUE };

  bay.clear_mm = rod_bay_clear_mm (plan, field, bay, longest_mm);
  return MAX (rod_bay_gap_mm (plan, field, &bay, FALSE), rod_bay_gap_mm (plan, field, &bay, TRUE)) +
         rules->butt_bearing_mm;
}
