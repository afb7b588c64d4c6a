/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Fixing flanges. The flange of a board reaches past its joint line behind the next course. Under
 * a sill, a raked edge or the top of a wall there is no room for it: it is sawn off there, and
 * with it go the screws. What blocks it are the edges of the boards' area within the flange's
 * width above the joint line; they are the same for all pieces of a course and found once. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/takeoff/rod-flanges.h"

void
rod_flanger_init (RodFlanger     *flanger,
                  const RodField *field)
{
  flanger->field = field;
  flanger->blocked = g_array_sized_new (FALSE, FALSE, sizeof (RodFlange), field->pocket->n_points);
  flanger->line_mm = NAN;
}

void
rod_flanger_clear (RodFlanger *flanger)
{
  g_clear_pointer (&flanger->blocked, g_array_unref);
}

/* The part of an edge within the band, seen along the boards. */
static void
block_edge (RodFlanger *flanger,
            RodPoint    a,
            RodPoint    b,
            double      low,
            double      high)
{
  RodFlange blocked = { .at = low };
  double    ta = 0.0, tb = 1.0;

  if (MAX (a.y, b.y) <= low + ROD_LINE_SNAP_MM || MIN (a.y, b.y) >= high - ROD_LINE_SNAP_MM)
    return;
  if (fabs (b.y - a.y) > ROD_EPSILON_MM)
    {
      double t0 = (low - a.y) / (b.y - a.y), t1 = (high - a.y) / (b.y - a.y);

      ta = MAX (ta, MIN (t0, t1));
      tb = MIN (tb, MAX (t0, t1));
    }
  blocked.from = a.x + (a.x < b.x ? ta : tb) * (b.x - a.x);
  blocked.to = a.x + (a.x < b.x ? tb : ta) * (b.x - a.x);
  if (blocked.to - blocked.from > ROD_LINE_SNAP_MM)
    g_array_append_val (flanger->blocked, blocked);
}

static gint
compare_flanges (gconstpointer a,
                 gconstpointer b)
{
  const RodFlange *one = a;
  const RodFlange *other = b;

  return (one->from > other->from) - (one->from < other->from);
}

static void
find_blocked (RodFlanger *flanger,
              double      line_mm)
{
  const RodRegion *pocket = flanger->field->pocket;
  double           high = line_mm + flanger->field->board->flange_mm;

  flanger->line_mm = line_mm;
  g_array_set_size (flanger->blocked, 0);
  for (guint r = 0; r < pocket->n_rings; r++)
    for (guint p = pocket->ring_starts[r]; p < pocket->ring_starts[r + 1]; p++)
      {
        guint next = p + 1 < pocket->ring_starts[r + 1] ? p + 1 : pocket->ring_starts[r];

        block_edge (flanger, pocket->points[p], pocket->points[next], line_mm, high);
      }
  g_array_sort (flanger->blocked, compare_flanges);
}

static double
add_stretch (GArray *flanges,
             double  from,
             double  to,
             double  at)
{
  RodFlange stretch = { from, to, at };

  if (to - from < ROD_REMNANT_MM)
    return 0.0;
  g_array_append_val (flanges, stretch);
  return to - from;
}

/* What the blocked stretches leave of [from, to]. */
static double
add_open_stretches (const RodFlanger *flanger,
                    double            from,
                    double            to,
                    GArray           *flanges)
{
  double kept = 0.0;

  for (guint i = 0; i < flanger->blocked->len; i++)
    {
      const RodFlange *blocked = &g_array_index (flanger->blocked, RodFlange, i);

      if (blocked->to <= from)
        continue;
      if (blocked->from >= to)
        break;
      kept += add_stretch (flanges, from, blocked->from, flanger->line_mm);
      from = MAX (from, blocked->to);
    }
  return kept + add_stretch (flanges, from, to, flanger->line_mm);
}

double
rod_flanger_run (RodFlanger   *flanger,
                 const RodFit *fit,
                 double        line_mm,
                 GArray       *flanges)
{
  double above_mm = line_mm + flanger->field->board->cover_mm;
  double kept = 0.0;

  if (flanger->field->board->flange_mm <= 0.0)
    return 0.0;
  if (isnan (flanger->line_mm) || fabs (flanger->line_mm - above_mm) > ROD_EPSILON_MM)
    find_blocked (flanger, above_mm);
  for (guint i = 0; i < fit->n_sides; i++)
    if (fit->sides[i].tag == ROD_TAG_LINE_ABOVE)
      {
        double a = fit->sides[i].at.x, b = rod_fit_next (fit, i)->at.x;

        kept += add_open_stretches (flanger, MIN (a, b), MAX (a, b), flanges);
      }
  return kept;
}
