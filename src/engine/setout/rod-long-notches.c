/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Notches that are too long for their board: it would break when it is carried. */

#include "config.h"

#include <math.h>

#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-long-notches.h"

static void
shifted_to_board (const RodField *field,
                  const RodEdge  *edge,
                  double          inwards_mm,
                  RodPoint       *from,
                  RodPoint       *to)
{
  rod_edge_shifted (edge, inwards_mm, from, to);
  *from = rod_affine_apply (field->to_board, *from);
  *to = rod_affine_apply (field->to_board, *to);
}

/* The jambs of an opening: their lines, and how far the notch reaches. Whether there are two, each
 * square to the boards. */
static gboolean
find_jambs (const RodPlan  *plan,
            const RodField *field,
            int             opening,
            RodLongNotch   *notch)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          low = INFINITY, high = -INFINITY;
  guint           n = 0;

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      RodPoint       from, to, cut, cut_end;

      if (edge->opening != opening || edge->long_side)
        continue;
      shifted_to_board (field, edge, -edge->build_up_mm, &from, &to);
      shifted_to_board (field, edge, rod_edge_inset (edge) + edge->back_mm, &cut, &cut_end);
      if (n == 2 || fabs (from.x - to.x) >= ROD_SNAP_MM || fabs (edge->raw.bulge) > 0.0)
        return FALSE;
      notch->jambs[n++] = from.x;
      low = MIN (low, cut.x);
      high = MAX (high, cut.x);
    }
  if (n < 2)
    return FALSE;
  if (notch->jambs[0] > notch->jambs[1])
    {
      double first = notch->jambs[0];

      notch->jambs[0] = notch->jambs[1];
      notch->jambs[1] = first;
    }
  notch->width_mm = high - low + 2.0 * rules->notch_clear_mm;
  return TRUE;
}

GArray *
rod_long_notches (const RodPlan  *plan,
                  const RodField *field)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          cover_mm = field->board->cover_mm;
  GArray         *notches = g_array_new (FALSE, FALSE, sizeof (RodLongNotch));

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      RodLongNotch   notch;
      RodPoint       from, to;
      double         courses;

      if (edge->opening < 0 || edge->relation != ROD_BOARDS_ALONG ||
          rod_edge_trimless (plan, field, edge) ||
          !find_jambs (plan, field, edge->opening, &notch) ||
          notch.width_mm <= rules->notch_longest_mm + ROD_EPSILON_MM)
        continue;
      shifted_to_board (
        field,
        edge,
        rod_edge_inset (edge) + edge->back_mm + edge->gap_across_mm + edge->absorbed_mm,
        &from,
        &to);
      courses = (from.y - field->phase_mm) / cover_mm;
      /* On a joint line nothing is notched. */
      if (fabs (courses - round (courses)) * cover_mm < ROD_SNAP_MM)
        continue;
      notch.course = (int) floor (courses);
      g_array_append_val (notches, notch);
    }
  return notches;
}
