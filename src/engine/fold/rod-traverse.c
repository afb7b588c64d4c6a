/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Least squares on closed traverses, by condition equations, as surveyors' textbooks have it. With
 * f(l) the gaps of the loops, A their derivatives and Q the squares of the sigmas, the corrections
 * v = Q·Aᵀ·k with A·Q·Aᵀ·k = A·v₀ − f(l + v₀) are the least ones that close the loops to first
 * order about the corrections v₀ so far. Lengths act linearly, so that one step does; angles take
 * two or three.
 *
 * Conditions that follow from others, as of two loops over the same walls, leave A·Q·Aᵀ without an
 * inverse: elimination goes by the greatest pivot left and stops where what is left is noise. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/fold/rod-traverse.h"
#include "engine/geometry/rod-placement.h"
#include "engine/rod-limits.h"

/* Two steps close a house whose angles are off by degrees; more are never needed. */
#define MOST_STEPS 10

/* East, north, heading. */
#define CONDITIONS 3

/* Pivots this small beside the greatest are rounding. */
#define LEAST_PIVOT 1e-10

/* Where a loop has come to. */
typedef struct
{
  double x;
  double y;
  double heading_deg;
} Station;

typedef struct
{
  const RodTraverse *traverse;
  guint              n_unknown;
  guint              n_rows;
  double            *values; /* corrections: lines in mm, then turns in radians */
  double            *squares;
  double            *rows;    /* A, row by row */
  double            *wanted;  /* A·v₀ − f */
  double            *normal;  /* A·Q·Aᵀ */
  double            *factors; /* k */
} Adjustment;

static double
corrected (double        value,
           const double *corrections,
           guint         index)
{
  return corrections == NULL ? value : value + corrections[index];
}

static void
take_leg (const RodTraverse *traverse,
          const RodLeg      *leg,
          const double      *line_corrections,
          const double      *turn_corrections_deg,
          Station           *at)
{
  double along_mm = leg->factor;

  if (leg->kind == ROD_LEG_TURN)
    {
      at->heading_deg += leg->factor * corrected (traverse->turns_deg[leg->index],
                                                  turn_corrections_deg,
                                                  leg->index);
      return;
    }
  if (leg->kind == ROD_LEG_LINE)
    along_mm *= corrected (traverse->lines_mm[leg->index], line_corrections, leg->index);
  {
    RodPoint ahead = rod_angle_unit (at->heading_deg);

    at->x += along_mm * ahead.x;
    at->y += along_mm * ahead.y;
  }
}

static guint
loop_start (const RodTraverse *traverse,
            guint              loop)
{
  return loop == 0 ? 0 : traverse->loop_ends[loop - 1];
}

static Station
walk_loop (const RodTraverse *traverse,
           guint              loop,
           const double      *line_corrections,
           const double      *turn_corrections_deg)
{
  Station at = { 0.0, 0.0, 0.0 };

  for (guint i = loop_start (traverse, loop); i < traverse->loop_ends[loop]; i++)
    take_leg (traverse, &traverse->legs[i], line_corrections, turn_corrections_deg, &at);
  return at;
}

double
rod_traverse_gap_mm (const RodTraverse *traverse,
                     const double      *line_corrections_mm,
                     const double      *turn_corrections_deg)
{
  double worst = 0.0;

  for (guint loop = 0; loop < traverse->n_loops; loop++)
    {
      Station end = walk_loop (traverse, loop, line_corrections_mm, turn_corrections_deg);

      worst = MAX (worst, hypot (end.x, end.y));
    }
  return worst;
}

static double *
row_of (const Adjustment *adjustment,
        guint             loop,
        guint             condition)
{
  return adjustment->rows +
         (gsize) (loop * CONDITIONS + condition) * (gsize) adjustment->n_unknown;
}

/* What the legs of a loop do to its gap, to first order: a line moves the end along its heading, a
 * turn swings it about the place of the turn. */
static void
derive_loop (Adjustment   *adjustment,
             guint         loop,
             const double *turn_corrections_deg,
             Station       end)
{
  const RodTraverse *traverse = adjustment->traverse;
  double            *east = row_of (adjustment, loop, 0);
  double            *north = row_of (adjustment, loop, 1);
  double            *heading = row_of (adjustment, loop, 2);
  Station            at = { 0.0, 0.0, 0.0 };

  for (guint i = loop_start (traverse, loop); i < traverse->loop_ends[loop]; i++)
    {
      const RodLeg *leg = &traverse->legs[i];
      RodPoint      ahead = rod_angle_unit (at.heading_deg);
      guint         turn = traverse->n_lines + leg->index;

      if (leg->kind == ROD_LEG_LINE)
        {
          east[leg->index] += leg->factor * ahead.x;
          north[leg->index] += leg->factor * ahead.y;
        }
      else if (leg->kind == ROD_LEG_TURN)
        {
          east[turn] -= leg->factor * (end.y - at.y);
          north[turn] += leg->factor * (end.x - at.x);
          heading[turn] += leg->factor;
        }
      take_leg (traverse, leg, adjustment->values, turn_corrections_deg, &at);
    }
}

static void
set_conditions (Adjustment   *adjustment,
                const double *turn_corrections_deg)
{
  const RodTraverse *traverse = adjustment->traverse;

  memset (adjustment->rows,
          0,
          sizeof (double) * (gsize) adjustment->n_rows * (gsize) adjustment->n_unknown);
  for (guint loop = 0; loop < traverse->n_loops; loop++)
    {
      Station end = walk_loop (traverse, loop, adjustment->values, turn_corrections_deg);

      derive_loop (adjustment, loop, turn_corrections_deg, end);
      adjustment->wanted[loop * CONDITIONS] = -end.x;
      adjustment->wanted[loop * CONDITIONS + 1] = -end.y;
      adjustment->wanted[loop * CONDITIONS + 2] =
        -remainder (end.heading_deg, 360.0) * G_PI / 180.0;
    }
  for (guint r = 0; r < adjustment->n_rows; r++)
    for (guint u = 0; u < adjustment->n_unknown; u++)
      adjustment->wanted[r] +=
        adjustment->rows[(gsize) r * adjustment->n_unknown + u] * adjustment->values[u];
}

static void
multiply_out (Adjustment *adjustment)
{
  guint n = adjustment->n_unknown;

  for (guint r = 0; r < adjustment->n_rows; r++)
    for (guint c = 0; c <= r; c++)
      {
        const double *one = adjustment->rows + (gsize) r * n;
        const double *other = adjustment->rows + (gsize) c * n;
        double        sum = 0.0;

        for (guint u = 0; u < n; u++)
          sum += one[u] * adjustment->squares[u] * other[u];
        adjustment->normal[(gsize) r * adjustment->n_rows + c] = sum;
        adjustment->normal[(gsize) c * adjustment->n_rows + r] = sum;
      }
}

/* The row, not yet eliminated, of which most is left; n where all that is left is noise. */
static guint
find_pivot (const Adjustment *adjustment,
            const double     *first,
            const gboolean   *used)
{
  guint  n = adjustment->n_rows, best = n;
  double most = LEAST_PIVOT;

  for (guint r = 0; r < n; r++)
    {
      double left = adjustment->normal[(gsize) r * n + r];

      if (used[r] || first[r] <= 0.0 || left / first[r] <= most)
        continue;
      most = left / first[r];
      best = r;
    }
  return best;
}

static void
eliminate (Adjustment     *adjustment,
           guint           pivot,
           const gboolean *used)
{
  guint         n = adjustment->n_rows;
  double       *normal = adjustment->normal;
  const double *top = normal + (gsize) pivot * n;

  for (guint r = 0; r < n; r++)
    {
      double share = normal[(gsize) r * n + pivot] / top[pivot];

      if (used[r])
        continue;
      for (guint c = 0; c < n; c++)
        normal[(gsize) r * n + c] -= share * top[c];
      adjustment->wanted[r] -= share * adjustment->wanted[pivot];
    }
}

static void
solve (Adjustment *adjustment)
{
  guint                n = adjustment->n_rows, n_used = 0;
  g_autofree gboolean *used = g_new0 (gboolean, n);
  g_autofree guint    *order = g_new (guint, n);
  g_autofree double   *first = g_new (double, n);

  for (guint r = 0; r < n; r++)
    first[r] = adjustment->normal[(gsize) r * n + r];
  for (guint pivot = find_pivot (adjustment, first, used); pivot < n;
       pivot = find_pivot (adjustment, first, used))
    {
      used[pivot] = TRUE;
      order[n_used++] = pivot;
      eliminate (adjustment, pivot, used);
    }
  memset (adjustment->factors, 0, sizeof (double) * n);
  for (guint i = n_used; i-- > 0;)
    {
      guint  row = order[i];
      double sum = adjustment->wanted[row];

      for (guint k = i + 1; k < n_used; k++)
        sum -= adjustment->normal[(gsize) row * n + order[k]] * adjustment->factors[order[k]];
      adjustment->factors[row] = sum / adjustment->normal[(gsize) row * n + row];
    }
}

/* Returns the greatest change of a correction. */
static double
take_corrections (Adjustment *adjustment)
{
  double most = 0.0;

  for (guint u = 0; u < adjustment->n_unknown; u++)
    {
      double value = 0.0;

      for (guint r = 0; r < adjustment->n_rows; r++)
        value += adjustment->rows[(gsize) r * adjustment->n_unknown + u] * adjustment->factors[r];
      value *= adjustment->squares[u];
      most = MAX (most, fabs (value - adjustment->values[u]));
      adjustment->values[u] = value;
    }
  return most;
}

static void
set_squares (const RodTraverse *traverse,
             double            *squares)
{
  for (guint i = 0; i < traverse->n_lines; i++)
    squares[i] = traverse->line_sigmas[i] * traverse->line_sigmas[i];
  for (guint i = 0; i < traverse->n_turns; i++)
    {
      double sigma = traverse->turn_sigmas_deg[i] * G_PI / 180.0;

      squares[traverse->n_lines + i] = sigma * sigma;
    }
}

static void
give_turns (const Adjustment *adjustment,
            double           *turn_corrections_deg)
{
  const RodTraverse *traverse = adjustment->traverse;

  for (guint i = 0; i < traverse->n_turns; i++)
    turn_corrections_deg[i] = adjustment->values[traverse->n_lines + i] * 180.0 / G_PI;
}

gboolean
rod_traverse_adjust (const RodTraverse *traverse,
                     double            *line_corrections_mm,
                     double            *turn_corrections_deg)
{
  guint      n_unknown = traverse->n_lines + traverse->n_turns;
  guint      n_rows = traverse->n_loops * CONDITIONS;
  Adjustment adjustment = {
    .traverse = traverse,
    .n_unknown = n_unknown,
    .n_rows = n_rows,
    .values = g_new0 (double, n_unknown + 1),
    .squares = g_new0 (double, n_unknown + 1),
    .rows = g_new (double, (gsize) n_rows *n_unknown + 1),
    .wanted = g_new (double, n_rows + 1),
    .normal = g_new (double, (gsize) n_rows *n_rows + 1),
    .factors = g_new (double, n_rows + 1),
  };
  double change = INFINITY;

  set_squares (traverse, adjustment.squares);
  give_turns (&adjustment, turn_corrections_deg);
  for (guint step = 0; step < MOST_STEPS && change > ROD_EPSILON_MM; step++)
    {
      set_conditions (&adjustment, turn_corrections_deg);
      multiply_out (&adjustment);
      solve (&adjustment);
      change = take_corrections (&adjustment);
      give_turns (&adjustment, turn_corrections_deg);
    }
  memcpy (line_corrections_mm, adjustment.values, sizeof (double) * traverse->n_lines);
  g_free (adjustment.values);
  g_free (adjustment.squares);
  g_free (adjustment.rows);
  g_free (adjustment.wanted);
  g_free (adjustment.normal);
  g_free (adjustment.factors);
  return rod_traverse_gap_mm (traverse, line_corrections_mm, turn_corrections_deg) < ROD_SNAP_MM;
}
