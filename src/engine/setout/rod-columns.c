/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Columns of length joints. A column is one straight line of joints over the whole field, on a
 * doubled batten. Bays are equal where nothing forbids it; a column that comes near the side of an
 * opening moves to the nearest allowed place that keeps every bay within the stock. */

#include "config.h"

#include <math.h>

#include "engine/movement/rod-movement.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-columns.h"

const RodTrim *
rod_field_joint_trim (const RodPlan  *plan,
                      const RodField *field)
{
  const RodSystem *system = rod_plan_face (plan, field->face)->system;

  return rod_system_find_trim (system, system->joint_trim);
}

double
rod_field_longest_mm (const RodPlan  *plan,
                      const RodField *field)
{
  double longest_mm = 0.0;

  for (guint i = 0; i < field->board->stock->len; i++)
    {
      const RodStock *stock = g_ptr_array_index (field->board->stock, i);

      longest_mm = MAX (longest_mm, stock->length_mm);
    }
  return longest_mm - 2.0 * plan->house->saw->end_trim_mm;
}

double
rod_field_end_run_mm (const RodField *field,
                      double          clear_mm,
                      gboolean        upper_end)
{
  if (field->fixed == ROD_FIXED_TOP)
    return upper_end ? 0.0 : clear_mm;
  return clear_mm / 2.0;
}

double
rod_field_end_gap_mm (const RodPlan  *plan,
                      const RodField *field,
                      double          clear_mm,
                      gboolean        upper_end)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;

  if (field->fixed == ROD_FIXED_TOP && upper_end)
    return rules->fixed_end_gap_mm;
  return rod_gap_mm (field->expand, rod_field_end_run_mm (field, clear_mm, upper_end), rules);
}

static double
board_length_mm (const RodPlan  *plan,
                 const RodField *field,
                 double          clear_mm)
{
  return clear_mm - rod_field_end_gap_mm (plan, field, clear_mm, TRUE) -
         rod_field_end_gap_mm (plan, field, clear_mm, FALSE);
}

static void
strip_extent (const RodStrips *strips,
              const RodStrip  *strip,
              double          *low,
              double          *high)
{
  const RodRegion *rings = strips->rings;

  *low = INFINITY;
  *high = -INFINITY;
  for (guint p = rings->ring_starts[strip->first_ring]; p < rings->ring_starts[strip->first_ring + 1]; p++)
    {
      *low = MIN (*low, rings->points[p].x);
      *high = MAX (*high, rings->points[p].x);
    }
}

/* Where no column may stand: near the side of an opening, but on it it may. */
typedef struct
{
  double from_mm;
  double to_mm;
  double on_mm;
} Forbidden;

static GArray *
find_forbidden (const RodPlan  *plan,
                const RodField *field)
{
  double  distance_mm = rod_plan_face (plan, field->face)->system->rules->joint_distance_mm;
  GArray *forbidden = g_array_new (FALSE, FALSE, sizeof (Forbidden));

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      RodPoint       from = rod_affine_apply (field->to_board, edge->raw.from);
      RodPoint       to = rod_affine_apply (field->to_board, edge->raw.to);
      Forbidden      place;

      if (edge->opening < 0 || edge->relation == ROD_BOARDS_ALONG)
        continue;
      place = (Forbidden){ MIN (from.x, to.x) - distance_mm, MAX (from.x, to.x) + distance_mm, from.x };
      g_array_append_val (forbidden, place);
    }
  return forbidden;
}

static gboolean
is_allowed (const GArray *forbidden,
            double        at_mm)
{
  for (guint i = 0; i < forbidden->len; i++)
    {
      const Forbidden *place = &g_array_index (forbidden, Forbidden, i);

      if (at_mm > place->from_mm + ROD_EPSILON_MM && at_mm < place->to_mm - ROD_EPSILON_MM &&
          fabs (at_mm - place->on_mm) > ROD_EPSILON_MM)
        return FALSE;
    }
  return TRUE;
}

/* The allowed place nearest to @wanted within [low, high]; @wanted itself when there is none, which
 * the checks then report. */
static double
nearest_allowed (const GArray *forbidden,
                 double        wanted,
                 double        low,
                 double        high)
{
  double best = wanted;
  double moved = INFINITY;

  if (is_allowed (forbidden, wanted))
    return wanted;
  for (guint i = 0; i < forbidden->len; i++)
    {
      const Forbidden *place = &g_array_index (forbidden, Forbidden, i);
      const double     tries[] = { place->from_mm, place->on_mm, place->to_mm };

      for (guint t = 0; t < G_N_ELEMENTS (tries); t++)
        if (tries[t] >= low && tries[t] <= high && fabs (tries[t] - wanted) < moved &&
            is_allowed (forbidden, tries[t]))
          {
            moved = fabs (tries[t] - wanted);
            best = tries[t];
          }
    }
  return best;
}

/* The widest bay whose board is not longer than the stock: the length grows with the bay by at
 * least the bay's own growth less two gaps, so a few steps of halving reach a micrometre. */
static double
widest_bay_mm (const RodPlan  *plan,
               const RodField *field)
{
  double longest_mm = rod_field_longest_mm (plan, field);
  double low = longest_mm;
  double high = longest_mm * (1.0 + 4.0 * field->expand) + 1000.0;

  while (high - low > ROD_EPSILON_MM)
    {
      double middle = (low + high) / 2.0;

      if (board_length_mm (plan, field, middle) <= longest_mm)
        low = middle;
      else
        high = middle;
    }
  return low;
}

static void
set_columns (RodField     *field,
             guint         n_bays,
             double        low,
             double        high,
             double        web_mm,
             double        widest_mm,
             const GArray *forbidden)
{
  double bay_mm = (high - low - (n_bays - 1) * web_mm) / n_bays;
  double start = low;

  field->n_columns = n_bays - 1;
  field->columns = g_new (double, field->n_columns);
  for (guint i = 0; i < field->n_columns; i++)
    {
      guint  after = field->n_columns - i;
      double wanted = low + (i + 1) * bay_mm + (i + 0.5) * web_mm;
      double latest = start + widest_mm + web_mm / 2.0;
      double earliest = high - after * widest_mm - (after - 0.5) * web_mm;

      field->columns[i] = nearest_allowed (forbidden, CLAMP (wanted, earliest, latest), earliest, latest);
      start = field->columns[i] + web_mm / 2.0;
    }
}

void
rod_columns_place (const RodPlan   *plan,
                   RodField        *field,
                   const RodStrips *strips)
{
  const RodTrim *joint = rod_field_joint_trim (plan, field);
  double         web_mm = joint == NULL ? 0.0 : 2.0 * joint->back_mm;
  double         widest_mm = widest_bay_mm (plan, field);
  double         low = INFINITY, high = -INFINITY;
  gboolean       needed = FALSE;
  g_autoptr (GArray) forbidden = NULL;

  for (guint s = 0; s < strips->n_strips; s++)
    {
      double from, to;

      strip_extent (strips, &strips->strips[s], &from, &to);
      low = MIN (low, from);
      high = MAX (high, to);
      needed = needed || to - from > widest_mm + ROD_EPSILON_MM;
    }
  if (!needed)
    return;
  forbidden = find_forbidden (plan, field);
  set_columns (field, (guint) ceil ((high - low + web_mm) / (widest_mm + web_mm) - ROD_EPSILON_MM), low, high, web_mm, widest_mm, forbidden);
}
