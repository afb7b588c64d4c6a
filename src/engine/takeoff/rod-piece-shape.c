/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What the saw needs to know of a cut piece: lengths, what is ripped, notches with their four
 * numbers. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/takeoff/rod-piece-shape.h"

typedef struct
{
  RodPoint low;
  RodPoint high;
} Extent;

static Extent
extent_of (const RodFit *fit)
{
  Extent extent = { { INFINITY, INFINITY }, { -INFINITY, -INFINITY } };

  for (guint i = 0; i < fit->n_sides; i++)
    {
      RodPoint p = fit->sides[i].at;

      extent.low = (RodPoint){ MIN (extent.low.x, p.x), MIN (extent.low.y, p.y) };
      extent.high = (RodPoint){ MAX (extent.high.x, p.x), MAX (extent.high.y, p.y) };
    }
  return extent;
}

/* How long the piece is on a line along it, outermost corner to outermost corner. */
static double
side_length (const RodFit *fit,
             double        y)
{
  double low = INFINITY, high = -INFINITY;

  for (guint i = 0; i < fit->n_sides; i++)
    if (fabs (fit->sides[i].at.y - y) < ROD_SNAP_MM)
      {
        low = MIN (low, fit->sides[i].at.x);
        high = MAX (high, fit->sides[i].at.x);
      }
  return high - low;
}

static double
snap_to (double value,
         double target)
{
  return fabs (value - target) < ROD_SNAP_MM ? target : value;
}

void
rod_piece_measure (const RodFit *fit,
                   double        line_mm,
                   double        cover_mm,
                   RodPiece     *piece)
{
  Extent extent = extent_of (fit);

  piece->line_mm = line_mm;
  piece->length_mm = extent.high.x - extent.low.x;
  piece->short_mm = MIN (side_length (fit, extent.low.y), side_length (fit, extent.high.y));
  piece->low_mm = snap_to (extent.low.y - line_mm, 0.0);
  piece->high_mm = snap_to (extent.high.y - line_mm, cover_mm);
  piece->width_mm = piece->high_mm - piece->low_mm;
  piece->clear_mm = fit->clear_mm;
}

/* Whether a side lies on the piece's outermost line: part of its long side, not of a notch. */
static gboolean
is_outer (const RodFit *fit,
          const Extent *extent,
          guint         i)
{
  RodPoint a = fit->sides[i].at, b = rod_fit_next (fit, i)->at;
  double   line = b.x > a.x ? extent->low.y : extent->high.y;

  return fabs (a.y - line) < ROD_SNAP_MM && fabs (b.y - line) < ROD_SNAP_MM;
}

static gboolean
is_notch_side (const RodFit *fit,
               const Extent *extent,
               guint         i)
{
  return fit->sides[i].kind == ROD_SIDE_SHOULDER ||
         (fit->sides[i].kind == ROD_SIDE_LONG && !is_outer (fit, extent, i));
}

/* A long side that slopes from end to end is a taper, which the two side lengths tell already; one
 * that comes back to the board's outer line, as round a pipe, is a notch. */
static gboolean
measure_notch (const RodFit *fit,
               const Extent *extent,
               guint         first,
               guint         n,
               RodNotch     *notch)
{
  double   left = INFINITY, right = -INFINITY, low = INFINITY, high = -INFINITY, run = 0.0;
  gboolean squared = FALSE;
  RodPoint start = fit->sides[first].at;
  RodPoint end = rod_fit_next (fit, (first + n - 1) % fit->n_sides)->at;
  double   line;

  for (guint s = 0; s < n; s++)
    {
      guint    side = (first + s) % fit->n_sides;
      RodPoint a = fit->sides[side].at;
      RodPoint b = rod_fit_next (fit, side)->at;

      squared = squared || fit->sides[side].kind == ROD_SIDE_SHOULDER ||
                fabs (a.y - b.y) < ROD_SNAP_MM;
      left = MIN (left, MIN (a.x, b.x));
      right = MAX (right, MAX (a.x, b.x));
      low = MIN (low, MIN (a.y, b.y));
      high = MAX (high, MAX (a.y, b.y));
      run += b.x - a.x;
    }
  /* The upper side of a counter-clockwise ring runs to the left. */
  line = run < 0.0 ? extent->high.y : extent->low.y;
  squared = squared || (fabs (start.y - line) < ROD_SNAP_MM && fabs (end.y - line) < ROD_SNAP_MM);
  *notch = (RodNotch){
    .from_left_mm = left - extent->low.x,
    .width_mm = right - left,
    .depth_mm = run < 0.0 ? extent->high.y - low : high - extent->low.y,
    .leaves_mm = run < 0.0 ? low - extent->low.y : extent->high.y - high,
    .upper = run < 0.0,
  };
  return squared && notch->width_mm > ROD_SNAP_MM && notch->depth_mm > ROD_SNAP_MM;
}

static gint
compare_notches (gconstpointer a,
                 gconstpointer b)
{
  const RodNotch *one = a;
  const RodNotch *other = b;

  if (one->upper != other->upper)
    return (int) one->upper - (int) other->upper;
  return (one->from_left_mm > other->from_left_mm) - (one->from_left_mm < other->from_left_mm);
}

guint
rod_piece_find_notches (const RodFit *fit,
                        GArray       *notches)
{
  Extent extent = extent_of (fit);
  guint  n = fit->n_sides, start = 0, found = 0, before = notches->len;

  /* Begin at a side that belongs to no notch, so that none is met in two parts. */
  while (start < n && is_notch_side (fit, &extent, start))
    start++;
  for (guint s = 0; s < n; s += MAX (found, 1))
    {
      guint    first = (start + s) % n;
      RodNotch notch;

      for (found = 0; s + found < n && is_notch_side (fit, &extent, (first + found) % n); found++)
        ;
      if (found > 0 && measure_notch (fit, &extent, first, found, &notch))
        g_array_append_val (notches, notch);
    }
  if (notches->len - before > 1)
    qsort (&g_array_index (notches, RodNotch, before),
           notches->len - before,
           sizeof (RodNotch),
           compare_notches);
  return notches->len - before;
}
