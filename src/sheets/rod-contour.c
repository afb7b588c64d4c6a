/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines and openings as corners to draw: arcs become chords.
 *
 * The bulge of an arc is the tangent of a quarter of its angle. Its centre lies on the middle
 * normal of the chord, (1 − bulge²) / (4·bulge) chords to the left of it.
 */
#include "config.h"

#include "sheets/rod-contour.h"

#include <math.h>

/* Chords of a full circle: the sagitta of a 1 m window is then under 0.5 mm, at 1:10 invisible. */
#define CIRCLE_CHORDS 72

static void
append_side (GArray        *contour,
             const RodSide *side)
{
  double   dx = side->to.x - side->from.x;
  double   dy = side->to.y - side->from.y;
  double   turn = 4.0 * atan (side->bulge);
  int      n_chords = MAX (1, (int) ceil (fabs (turn) / (2.0 * G_PI) * CIRCLE_CHORDS));
  RodPoint centre, arm;
  double   reach;

  g_array_append_val (contour, side->from);
  if (n_chords == 1)
    return;

  reach = (1.0 - side->bulge * side->bulge) / (4.0 * side->bulge);
  centre = (RodPoint){ side->from.x + 0.5 * dx - reach * dy, side->from.y + 0.5 * dy + reach * dx };
  arm = (RodPoint){ side->from.x - centre.x, side->from.y - centre.y };
  for (int i = 1; i < n_chords; i++)
    {
      double   angle = turn * i / n_chords;
      RodPoint at = { centre.x + cos (angle) * arm.x - sin (angle) * arm.y,
                      centre.y + sin (angle) * arm.x + cos (angle) * arm.y };

      g_array_append_val (contour, at);
    }
}

static GArray *
flatten_sides (const GArray *sides)
{
  GArray *contour = g_array_new (FALSE, FALSE, sizeof (RodPoint));

  for (guint i = 0; i < sides->len; i++)
    append_side (contour, &g_array_index (sides, RodSide, i));

  return contour;
}

GArray *
rod_contour_outline (const RodSurface *surface)
{
  g_autoptr (GArray) sides = NULL;

  g_return_val_if_fail (surface != NULL, NULL);

  sides = rod_corners_sides (surface->outline);

  return flatten_sides (sides);
}

GArray *
rod_contour_opening (const RodOpening *opening)
{
  g_autoptr (GArray) sides = NULL;

  g_return_val_if_fail (opening != NULL, NULL);

  sides = rod_opening_sides (opening);

  return flatten_sides (sides);
}

void
rod_contour_extent (const GArray *contour,
                    RodPoint     *low,
                    RodPoint     *high)
{
  g_return_if_fail (contour != NULL && low != NULL && high != NULL);

  *low = *high = (RodPoint){ 0.0, 0.0 };
  for (guint i = 0; i < contour->len; i++)
    {
      RodPoint at = g_array_index (contour, RodPoint, i);

      if (i == 0)
        *low = *high = at;
      *low = (RodPoint){ fmin (low->x, at.x), fmin (low->y, at.y) };
      *high = (RodPoint){ fmax (high->x, at.x), fmax (high->y, at.y) };
    }
}

void
rod_contour_surface_extent (const RodSurface *surface,
                            RodPoint         *low,
                            RodPoint         *high)
{
  g_autoptr (GArray) contour = rod_contour_outline (surface);

  rod_contour_extent (contour, low, high);
}
