/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Screws, counted where they really go: a flange that was sawn off under a sill, or a batten that
 * stops short of it, takes none. */

#include "config.h"

#include <math.h>

#include "engine/fixings/rod-screws.h"
#include "engine/rod-limits.h"

/* A trim's screw goes into a batten that ends this close to the trim's line: battens stop short of
 * sills and heads for air, and a trim's flange reaches that far. */
#define TRIM_REACH_MM 60.0

/* A batten's centre line in the board frame of its field. */
typedef struct
{
  RodPoint from;
  RodPoint to;
} Support;

static GArray *
field_supports (const RodPlan *plan,
                guint          field_index,
                guint         *next_batten)
{
  const RodField *field = rod_plan_field (plan, field_index);
  GArray         *supports = g_array_new (FALSE, FALSE, sizeof (Support));

  for (; *next_batten < plan->battens->len; (*next_batten)++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, *next_batten);
      Support             support;

      if (run->field != field_index)
        break;
      if (run->counter)
        continue;
      support.from = rod_affine_apply (field->to_board, run->from);
      support.to = rod_affine_apply (field->to_board, run->to);
      g_array_append_val (supports, support);
    }
  return supports;
}

/* Where a batten crosses the line y = @y; not-a-number where it does not reach it. */
static double
cross_at (const Support *support,
          double         y,
          double         reach_mm)
{
  double low = MIN (support->from.y, support->to.y) - reach_mm;
  double high = MAX (support->from.y, support->to.y) + reach_mm;
  double rise = support->to.y - support->from.y;

  if (y < low - ROD_EPSILON_MM || y > high + ROD_EPSILON_MM || fabs (rise) < ROD_EPSILON_MM)
    return NAN;
  return support->from.x + (y - support->from.y) / rise * (support->to.x - support->from.x);
}

static int
count_crossings (const GArray *supports,
                 double        from,
                 double        to,
                 double        y)
{
  int count = 0;

  for (guint i = 0; i < supports->len; i++)
    {
      double x = cross_at (&g_array_index (supports, Support, i), y, 0.0);

      count += !isnan (x) && x >= from - ROD_EPSILON_MM && x <= to + ROD_EPSILON_MM;
    }
  return count;
}

/* The piece's ends in the board frame. */
static void
piece_extent (const RodPlan  *plan,
              const RodPiece *piece,
              double         *low,
              double         *high)
{
  const RodField *field = rod_plan_field (plan, piece->field);

  *low = INFINITY;
  *high = -INFINITY;
  for (guint p = plan->rings->ring_starts[piece->first_ring]; p < plan->rings->ring_starts[piece->first_ring + 1]; p++)
    {
      double x = rod_affine_apply (field->to_board, plan->rings->points[p]).x;

      *low = MIN (*low, x);
      *high = MAX (*high, x);
    }
}

static void
count_piece (RodPlan      *plan,
             RodPiece     *piece,
             const GArray *supports)
{
  double low, high;

  piece->screws = 0;
  for (guint i = 0; i < piece->n_flanges; i++)
    {
      const RodFlange *flange = &g_array_index (plan->flanges, RodFlange, piece->first_flange + i);

      piece->screws += count_crossings (supports, flange->from, flange->to, flange->at);
    }
  piece_extent (plan, piece, &low, &high);
  piece->battens = count_crossings (supports, low, high, piece->line_mm + (piece->low_mm + piece->high_mm) / 2.0);
}

/* Battens a trim run crosses: each that comes near its line between its ends. */
static int
count_at_battens (const RodField   *field,
                  const RodTrimRun *run,
                  const GArray     *supports)
{
  RodPoint from = rod_affine_apply (field->to_board, run->from);
  RodPoint to = rod_affine_apply (field->to_board, run->to);
  double   length = rod_point_distance (from, to);
  double   ex = (to.x - from.x) / length, ey = (to.y - from.y) / length;
  int      count = 0;

  for (guint i = 0; i < supports->len; i++)
    {
      const Support *support = &g_array_index (supports, Support, i);
      double         side_a = ex * (support->from.y - from.y) - ey * (support->from.x - from.x);
      double         side_b = ex * (support->to.y - from.y) - ey * (support->to.x - from.x);
      double         t, along;

      /* A batten beside the trim's line never crosses it. */
      if (fabs (side_a - side_b) < 2.0 * TRIM_REACH_MM)
        continue;
      t = side_a / (side_a - side_b);
      if (t * fabs (side_a - side_b) < -TRIM_REACH_MM || (t - 1.0) * fabs (side_a - side_b) > TRIM_REACH_MM)
        continue;
      along = ex * (support->from.x + t * (support->to.x - support->from.x) - from.x) +
              ey * (support->from.y + t * (support->to.y - support->from.y) - from.y);
      count += along >= -ROD_EPSILON_MM && along <= length + ROD_EPSILON_MM;
    }
  return count;
}

static int
count_spaced (const RodTrim *trim,
              double         length_mm)
{
  double between_mm = length_mm - 2.0 * trim->screw_end_mm;

  if (between_mm <= 0.0)
    return 1;
  return (int) ceil (between_mm / trim->screw_spacing_mm - ROD_EPSILON_MM) + 1;
}

static void
count_trim (const RodField *field,
            RodTrimRun     *run,
            const GArray   *supports)
{
  switch (run->trim->screws)
    {
    case ROD_SCREWS_PER_BATTEN:
      run->screws = count_at_battens (field, run, supports);
      break;
    case ROD_SCREWS_SPACED:
      run->screws = count_spaced (run->trim, run->length_mm);
      break;
    case ROD_SCREWS_NONE:
    default:
      run->screws = 0;
      break;
    }
}

void
rod_screws_count (RodPlan *plan)
{
  guint next_batten = 0, next_trim = 0;

  for (guint f = 0; f < plan->fields->len; f++)
    {
      const RodField *field = rod_plan_field (plan, f);
      g_autoptr (GArray) supports = field_supports (plan, f, &next_batten);

      for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
        count_piece (plan, &g_array_index (plan->pieces, RodPiece, p), supports);
      for (; next_trim < plan->trims->len && g_array_index (plan->trims, RodTrimRun, next_trim).field == f; next_trim++)
        count_trim (field, &g_array_index (plan->trims, RodTrimRun, next_trim), supports);
    }
}
