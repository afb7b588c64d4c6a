/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where trims are drawn.
 *
 * A run says its two ends only. Along an arc the way between them is taken from the region of the
 * boards, whose edges carry the number of the side they come from: trim and boards then have the
 * same chords and leave no slivers between each other.
 */
#include "config.h"

#include "sheets/rod-trim-line.h"

#include <math.h>

#include "engine/rod-limits.h"

/* A band is mitred at its corners; between the chords of an arc no mitre is longer. */
#define LEAST_COSINE 0.2

static gboolean
is_arc (const RodField   *field,
        const RodTrimRun *run)
{
  return run->edge >= 0 && (guint) run->edge < field->n_edges &&
         fabs (field->edges[run->edge].raw.bulge) > 0.0 && field->clad != NULL;
}

/* Follows the side through one ring, if the run begins in it. */
static gboolean
follow (const RodRegion  *clad,
        guint             ring,
        const RodTrimRun *run,
        GArray           *points)
{
  guint start = clad->ring_starts[ring];
  guint n = clad->ring_starts[ring + 1] - start;

  for (guint i = 0; i < n; i++)
    {
      if (clad->tags[start + i] != run->edge ||
          rod_point_distance (clad->points[start + i], run->from) > ROD_EPSILON_MM)
        continue;
      g_array_append_val (points, clad->points[start + i]);
      for (guint k = 0; k < n && clad->tags[start + (i + k) % n] == run->edge; k++)
        {
          RodPoint next = clad->points[start + (i + k + 1) % n];

          g_array_append_val (points, next);
          if (rod_point_distance (next, run->to) < ROD_EPSILON_MM)
            break;
        }
      return TRUE;
    }

  return FALSE;
}

static RodPoint
unit_step (RodPoint from,
           RodPoint to)
{
  double length = fmax (rod_point_distance (from, to), ROD_EPSILON_MM);

  return (RodPoint){ (to.x - from.x) / length, (to.y - from.y) / length };
}

/* Which side of the line the boards are on is asked of the region: edges of openings and joins may
 * run either way. */
static double
find_reach (const RodField    *field,
            const RodTrimRun  *run,
            const RodTrimLine *line)
{
  double   sight = run->trim != NULL ? run->trim->sight_mm : 0.0;
  RodPoint from = line->points[(line->n_points - 1) / 2];
  RodPoint to = line->points[(line->n_points - 1) / 2 + 1];
  RodPoint along = unit_step (from, to);
  RodPoint probe = { 0.5 * (from.x + to.x) - along.y, 0.5 * (from.y + to.y) + along.x };

  if (run->edge < 0 || field->clad == NULL || field->clad->n_rings == 0)
    return 0.5 * sight;

  return rod_region_contains (field->clad, probe) ? sight : 0.0;
}

RodTrimLine *
rod_trim_line_new (const RodPlan    *plan,
                   const RodTrimRun *run)
{
  RodTrimLine    *line;
  const RodField *field;
  GArray         *points;

  g_return_val_if_fail (plan != NULL && run != NULL, NULL);

  line = g_new0 (RodTrimLine, 1);
  field = rod_plan_field (plan, run->field);
  points = g_array_new (FALSE, FALSE, sizeof (RodPoint));
  for (guint r = 0; is_arc (field, run) && r < field->clad->n_rings; r++)
    if (follow (field->clad, r, run, points))
      break;
  if (points->len < 2)
    {
      g_array_set_size (points, 0);
      g_array_append_val (points, run->from);
      g_array_append_val (points, run->to);
    }
  line->n_points = points->len;
  line->points = (RodPoint *) (gpointer) g_array_free (points, FALSE);
  line->reach_mm = find_reach (field, run, line);

  return line;
}

void
rod_trim_line_free (RodTrimLine *line)
{
  if (line == NULL)
    return;

  g_free (line->points);
  g_free (line);
}

RodPoint
rod_trim_line_place (const RodTrimLine *line,
                     double             share,
                     RodPoint          *along)
{
  double   rest = 0.0;
  RodPoint at = { 0.0, 0.0 };

  g_return_val_if_fail (line != NULL, at);

  for (guint i = 0; i + 1 < line->n_points; i++)
    rest += share * rod_point_distance (line->points[i], line->points[i + 1]);
  for (guint i = 0; i + 1 < line->n_points; i++)
    {
      RodPoint from = line->points[i];
      RodPoint step = unit_step (from, line->points[i + 1]);
      double   length = rod_point_distance (from, line->points[i + 1]);

      at =
        (RodPoint){ from.x + fmin (rest, length) * step.x, from.y + fmin (rest, length) * step.y };
      if (along != NULL)
        *along = step;
      if (rest <= length)
        break;
      rest -= length;
    }

  return at;
}

/* The corner @i of the line moved to its left. */
static RodPoint
offset_corner (const RodTrimLine *line,
               guint              i,
               double             left)
{
  RodPoint at = line->points[i];
  RodPoint before = unit_step (line->points[i > 0 ? i - 1 : 0], line->points[i > 0 ? i : 1]);
  RodPoint after =
    i + 1 < line->n_points ? unit_step (at, line->points[i + 1]) : before;
  double cosine = fmax (LEAST_COSINE, 1.0 + before.x * after.x + before.y * after.y);

  return (RodPoint){ at.x - left * (before.y + after.y) / cosine,
                     at.y + left * (before.x + after.x) / cosine };
}

GArray *
rod_trim_line_band (const RodTrimLine *line,
                    double             left,
                    double             width)
{
  GArray *band;

  g_return_val_if_fail (line != NULL, NULL);

  band = g_array_new (FALSE, FALSE, sizeof (RodPoint));
  for (guint i = 0; i < line->n_points; i++)
    {
      RodPoint corner = offset_corner (line, i, left);

      g_array_append_val (band, corner);
    }
  for (guint i = line->n_points; i > 0; i--)
    {
      RodPoint corner = offset_corner (line, i - 1, left - width);

      g_array_append_val (band, corner);
    }

  return band;
}
