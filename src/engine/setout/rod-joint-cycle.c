/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Staggered joints and the saw. The search for lanes wants a price for every board by itself, but
 * what a board costs depends on the others. So lanes are found by several prices, cut, and priced
 * anew with what the cutting leaves: a short board that comes out of a rest costs nothing. Last
 * come small shifts, for a batten is wider than a joint, and a kerf can cost a bar: two boards of
 * 2000 and a cut of 4 want 4004. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-joint-cycle.h"

/* How often lanes are found anew with the rests of the last ones. */
#define ROUNDS 4

/* Shifts tried at most. */
#define MOST_SHIFTS 1500

typedef struct
{
  const RodJointSpan *given;
  RodJointSpan        span;
  RodJointStock      *stock;
  double              reach_mm;
  RodJointLanes      *best;
  gint64              cost;
  gint64              bound;
  guint               n_shifts;
} Cycle;

static double
board_mm (const RodBay *bay,
          gconstpointer data)
{
  const Cycle *cycle = data;

  return cycle->given->board_mm (bay, cycle->given->data);
}

static double
worth (double        length_mm,
       gconstpointer data)
{
  const Cycle *cycle = data;

  return rod_joint_stock_worth (cycle->stock, length_mm);
}

static gint64
cut_lanes (Cycle               *cycle,
           const RodJointLanes *lanes,
           gboolean             thorough)
{
  g_autoptr (GArray) lengths = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) boards = g_array_new (FALSE, FALSE, sizeof (RodCutDemand));

  for (guint i = 0; i < lanes->n_lanes; i++)
    rod_joint_lane_boards (&cycle->span, lanes->lanes[i], lengths);
  for (guint b = 0; b < lengths->len; b++)
    {
      RodCutDemand board = {
        (gint64) ceil (g_array_index (lengths, double, b) - ROD_EPSILON_MM),
        1,
      };

      g_array_append_val (boards, board);
    }
  return rod_joint_stock_cost (cycle->stock, boards, thorough, &cycle->bound);
}

/* Takes lanes that are better than the best so far. */
static void
offer (Cycle         *cycle,
       RodJointLanes *lanes)
{
  gint64   cost = cut_lanes (cycle, lanes, TRUE);
  gboolean first = cycle->best->n_lanes == 0;

  if (first || lanes->n_joints < cycle->best->n_joints ||
      (lanes->n_joints == cycle->best->n_joints && cost < cycle->cost))
    {
      rod_joint_lanes_clear (cycle->best);
      *cycle->best = *lanes;
      cycle->cost = cost;
    }
  else
    rod_joint_lanes_clear (lanes);
}

static void
find_by_prices (Cycle *cycle)
{
  RodJointLanes lanes;

  g_array_set_size (cycle->stock->rests, 0);
  cycle->span.worth = NULL;
  if (!rod_joint_lanes_find (&cycle->span, &lanes))
    return;
  offer (cycle, &lanes);
  cycle->span.worth = worth;
  for (int round = 0; round < ROUNDS && cycle->cost > cycle->bound; round++)
    {
      if (round == 0)
        g_array_set_size (cycle->stock->rests, 0);
      if (rod_joint_lanes_find (&cycle->span, &lanes))
        offer (cycle, &lanes);
    }
}

/* Moves joints [first, last] of a lane; those on battens of their own take them along. */
static gboolean
shift (const Cycle *cycle,
       GArray      *lane,
       guint        first,
       guint        last,
       double       by_mm)
{
  for (guint j = first; j <= last; j++)
    {
      RodJointPlace *place = &g_array_index (lane, RodJointPlace, j);

      place->at_mm += by_mm;
      if (place->own)
        place->backing_mm += by_mm;
      else if (fabs (place->at_mm - place->backing_mm) > cycle->reach_mm + ROD_EPSILON_MM)
        return FALSE;
    }
  return TRUE;
}

static gboolean
try_shift (Cycle *cycle,
           guint  lane,
           guint  first,
           guint  last,
           double by_mm)
{
  RodJointLanes lanes = rod_joint_lanes_copy (cycle->best);
  gboolean      better = FALSE;

  cycle->n_shifts++;
  if (shift (cycle, lanes.lanes[lane], first, last, by_mm) &&
      rod_joint_lanes_hold (&cycle->span, &lanes))
    {
      gint64 cost = cut_lanes (cycle, &lanes, FALSE);

      better = cost < cycle->cost;
      if (better)
        cycle->cost = cost;
    }
  if (better)
    {
      rod_joint_lanes_clear (cycle->best);
      *cycle->best = lanes;
    }
  else
    rod_joint_lanes_clear (&lanes);
  return better;
}

/* All shifts of one lane: single joints, and all from a joint to either end. */
static gboolean
shift_lane (Cycle *cycle,
            guint  lane)
{
  guint n = cycle->best->lanes[lane]->len;
  int   most_mm = (int) floor (cycle->reach_mm + ROD_EPSILON_MM);

  for (int by_mm = 1; by_mm <= 2 * most_mm; by_mm++)
    for (int sign = -1; sign <= 1; sign += 2)
      for (guint j = 0; j < n && cycle->n_shifts < MOST_SHIFTS; j++)
        if (try_shift (cycle, lane, j, j, sign * by_mm) ||
            (j > 0 && try_shift (cycle, lane, 0, j, sign * by_mm)) ||
            (j + 1 < n && try_shift (cycle, lane, j, n - 1, sign * by_mm)))
          return TRUE;
  return FALSE;
}

static void
shift_joints (Cycle *cycle)
{
  gboolean better = TRUE;

  while (better && cycle->cost > cycle->bound && cycle->n_shifts < MOST_SHIFTS)
    {
      better = FALSE;
      for (guint i = 0; i < cycle->best->n_lanes && !better; i++)
        better = shift_lane (cycle, i);
    }
}

gboolean
rod_joint_cycle_find (const RodJointSpan *span,
                      RodJointStock      *stock,
                      double              reach_mm,
                      RodJointLanes      *lanes)
{
  Cycle cycle = { .given = span, .span = *span, .stock = stock, .reach_mm = reach_mm };

  *lanes = (RodJointLanes){ 0 };
  cycle.best = lanes;
  cycle.span.board_mm = board_mm;
  cycle.span.data = &cycle;
  find_by_prices (&cycle);
  if (lanes->n_lanes == 0)
    return FALSE;
  shift_joints (&cycle);
  return TRUE;
}
