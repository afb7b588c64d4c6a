/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a mark fits on a piece.
 *
 * In the board frame the piece lies level. Two lines are drawn across it, at the top and the bottom
 * of the writing; where both lie on the piece there is room. Pieces have a handful of corners, so
 * that every line is met with every side.
 */
#include "config.h"

#include "engine/geometry/rod-numbers.h"
#include "sheets/rod-mark-place.h"

#include <math.h>

/* More crossings of one line than this mean a comb of notches; the rest of them is not looked at.
 */
#define MOST_CROSSINGS 32

/* Lines are moved by this much off the joint lines, which they would otherwise only touch. */
#define INSET_SHARE 0.02

/* Crossings of the line at @y with all rings of @piece, ascending. */
static guint
find_crossings (const RodRegion *rings,
                const RodPiece  *piece,
                const RodAffine *to_board,
                double           y,
                double          *crossings)
{
  guint n = 0;

  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    {
      guint    end = rings->ring_starts[r + 1];
      RodPoint a = rod_affine_apply (*to_board, rings->points[end - 1]);

      for (guint i = rings->ring_starts[r]; i < end; i++)
        {
          RodPoint b = rod_affine_apply (*to_board, rings->points[i]);

          if ((a.y > y) != (b.y > y) && n < MOST_CROSSINGS)
            crossings[n++] = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
          a = b;
        }
    }

  qsort (crossings, n, sizeof *crossings, rod_numbers_compare);

  return n & ~1u;
}

static void
find_extent (const RodRegion *rings,
             const RodPiece  *piece,
             const RodAffine *to_board,
             double          *low,
             double          *high)
{
  *low = G_MAXDOUBLE;
  *high = -G_MAXDOUBLE;
  for (guint i = rings->ring_starts[piece->first_ring];
       i < rings->ring_starts[piece->first_ring + 1];
       i++)
    {
      double y = rod_affine_apply (*to_board, rings->points[i]).y;

      *low = fmin (*low, y);
      *high = fmax (*high, y);
    }
}

/* The longest stretch that lies in a pair of both lists. */
static double
find_longest (const double *upper,
              guint         n_upper,
              const double *lower,
              guint         n_lower,
              double       *middle)
{
  double longest = 0.0;

  for (guint i = 0; i < n_upper; i += 2)
    for (guint j = 0; j < n_lower; j += 2)
      {
        double from = fmax (upper[i], lower[j]);
        double to = fmin (upper[i + 1], lower[j + 1]);

        if (to - from > longest)
          {
            longest = to - from;
            *middle = 0.5 * (from + to);
          }
      }

  return longest;
}

gboolean
rod_mark_place_find (const RodPlan *plan,
                     guint          piece,
                     double         height_mm,
                     RodMarkPlace  *place)
{
  const RodPiece *of;
  const RodField *field;
  double          upper[MOST_CROSSINGS], lower[MOST_CROSSINGS];
  guint           n_upper, n_lower;
  double          low, high, half;
  RodPoint        middle = { 0.0, 0.0 };

  g_return_val_if_fail (plan != NULL && place != NULL, FALSE);

  of = rod_plan_piece (plan, piece);
  field = rod_plan_field (plan, of->field);
  if (of->n_rings == 0)
    return FALSE;
  find_extent (plan->rings, of, &field->to_board, &low, &high);
  if (!(high - low > height_mm))
    return FALSE;

  half = fmin (0.5 * height_mm, (0.5 - INSET_SHARE) * (high - low));
  middle.y = 0.5 * (low + high);
  n_upper = find_crossings (plan->rings, of, &field->to_board, middle.y + half, upper);
  n_lower = find_crossings (plan->rings, of, &field->to_board, middle.y - half, lower);
  place->room_mm = find_longest (upper, n_upper, lower, n_lower, &middle.x);
  place->at = rod_affine_apply (field->to_surface, middle);
  place->along = (RodPoint){ field->to_surface.xx, field->to_surface.yx };
  /* Read from below or from the right, never upside down. */
  if (place->along.x < -1e-6 || (place->along.x < 1e-6 && place->along.y < 0.0))
    place->along = (RodPoint){ -place->along.x, -place->along.y };

  return place->room_mm > 0.0;
}
