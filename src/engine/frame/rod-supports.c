/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Battens as the boards meet them. */

#include "config.h"

#include <math.h>

#include "engine/frame/rod-supports.h"
#include "engine/rod-limits.h"

GArray *
rod_supports_of (const RodPlan *plan,
                 guint          field_index)
{
  const RodField *field = rod_plan_field (plan, field_index);
  GArray         *supports =
    g_array_sized_new (FALSE, FALSE, sizeof (RodSupport), field->n_battens);

  for (guint b = field->first_batten; b < field->first_batten + field->n_battens; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);
      RodSupport          support;

      if (run->counter)
        continue;
      support.from = rod_affine_apply (field->to_board, run->from);
      support.to = rod_affine_apply (field->to_board, run->to);
      g_array_append_val (supports, support);
    }
  return supports;
}

/* Where a batten crosses the line at height @y; not-a-number where it does not reach it. */
static double
cross_at (const RodSupport *support,
          double            y)
{
  double low = MIN (support->from.y, support->to.y);
  double high = MAX (support->from.y, support->to.y);
  double rise = support->to.y - support->from.y;

  /* Battens that are mitred on a joint line end there to within rounding only. */
  if (y < low - ROD_LINE_SNAP_MM || y > high + ROD_LINE_SNAP_MM || fabs (rise) < ROD_EPSILON_MM)
    return NAN;
  return support->from.x + (y - support->from.y) / rise * (support->to.x - support->from.x);
}

/* Whether a batten crosses a stretch at height @y, and where. Most battens stand square to the
 * boards, which needs no reckoning of where they cross. */
static gboolean
crosses (const RodSupport *support,
         double            from,
         double            to,
         double            y,
         double           *x)
{
  double low = from - ROD_EPSILON_MM;
  double high = to + ROD_EPSILON_MM;

  *x = support->from.x;
  if (fabs (support->to.x - *x) <= 0.0)
    return *x >= low && *x <= high && y >= MIN (support->from.y, support->to.y) - ROD_EPSILON_MM &&
           y <= MAX (support->from.y, support->to.y) + ROD_EPSILON_MM;
  *x = cross_at (support, y);
  return !isnan (*x) && *x >= low && *x <= high;
}

int
rod_supports_count (const GArray *supports,
                    double        from,
                    double        to,
                    double        y)
{
  int count = 0;

  for (guint i = 0; i < supports->len; i++)
    {
      double x;

      count += crosses (&g_array_index (supports, RodSupport, i), from, to, y, &x);
    }
  return count;
}

gboolean
rod_supports_reach (const GArray *supports,
                    int           wanted,
                    double        from,
                    double        to,
                    double        y)
{
  for (guint i = 0; i < supports->len && wanted > 0; i++)
    {
      double x;

      wanted -= crosses (&g_array_index (supports, RodSupport, i), from, to, y, &x);
    }
  return wanted <= 0;
}

int
rod_supports_find (const GArray *supports,
                   double        from,
                   double        to,
                   double        y,
                   double       *x)
{
  for (guint i = 0; i < supports->len; i++)
    if (crosses (&g_array_index (supports, RodSupport, i), from, to, y, x))
      return (int) i;
  return -1;
}

double
rod_piece_middle (const RodPlan  *plan,
                  const RodPiece *piece,
                  double         *from,
                  double         *to)
{
  const RodField *field = rod_plan_field (plan, piece->field);
  guint           start = plan->rings->ring_starts[piece->first_ring];
  guint           end = plan->rings->ring_starts[piece->first_ring + 1];
  double          y = piece->line_mm + (piece->low_mm + piece->high_mm) / 2.0;
  RodPoint        last = rod_affine_apply (field->to_board, plan->rings->points[end - 1]);

  *from = INFINITY;
  *to = -INFINITY;
  for (guint p = start; p < end; p++)
    {
      RodPoint at = rod_affine_apply (field->to_board, plan->rings->points[p]);

      if ((last.y > y) != (at.y > y))
        {
          double x = last.x + (y - last.y) / (at.y - last.y) * (at.x - last.x);

          *from = MIN (*from, x);
          *to = MAX (*to, x);
        }
      last = at;
    }
  return y;
}

int
rod_piece_battens_needed (double batten_mm,
                          double middle_mm)
{
  return middle_mm < 2.0 * batten_mm ? 1 : 2;
}
