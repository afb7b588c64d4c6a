/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Rings under construction. An arc becomes chords here, once, so that everything later knows
 * straight edges only. The number of chords follows from the sagitta s of a chord that spans the
 * angle 2φ on a radius r: s = r·(1 − cos φ). */

#include "engine/geometry/rod-geometry-private.h"

#include <math.h>

#define LEAST_CORNERS_OF_RING 3

/* What most paths of a house need: they then never grow. */
#define CORNERS_ROOM 32
#define RINGS_ROOM 8

/* A chord never spans more than an eighth of a turn, so that even a tiny vent stays round. */
#define GREATEST_HALF_CHORD_ANGLE (G_PI / 8.0)

/* Arcs flatter than this are straight: the sagitta of a 1 km chord is then 0.05 mm. */
#define LEAST_BULGE 1e-7

RodPath *
rod_path_new (void)
{
  RodPath *path = g_new0 (RodPath, 1);
  guint    start = 0;

  path->corners = g_array_sized_new (FALSE, FALSE, sizeof (RodPathCorner), CORNERS_ROOM);
  path->ring_starts = g_array_sized_new (FALSE, FALSE, sizeof (guint), RINGS_ROOM);
  g_array_append_val (path->ring_starts, start);
  return path;
}

void
rod_path_free (RodPath *path)
{
  if (path == NULL)
    return;

  g_array_unref (path->corners);
  g_array_unref (path->ring_starts);
  g_free (path);
}

void
rod_path_add_corner (RodPath *path,
                     RodPoint corner,
                     int      tag)
{
  RodPathCorner added = { corner, tag };

  g_return_if_fail (path != NULL);
  g_return_if_fail (isfinite (corner.x) && isfinite (corner.y));
  g_return_if_fail (tag >= 0);

  g_array_append_val (path->corners, added);
}

static guint
count_chords (double radius,
              double half_angle)
{
  double cosine = 1.0 - ROD_ARC_SAGITTA_MM / radius;
  double half_chord = cosine > 0.0 ? acos (cosine) : GREATEST_HALF_CHORD_ANGLE;

  half_chord = MIN (half_chord, GREATEST_HALF_CHORD_ANGLE);
  return (guint) MAX (1.0, ceil (half_angle / half_chord));
}

void
rod_path_add_arc (RodPath *path,
                  RodPoint from,
                  RodPoint to,
                  double   bulge,
                  int      tag)
{
  double chord = rod_point_distance (from, to);
  double half_angle, radius, apothem;
  double centre_x, centre_y;
  guint  n_chords;

  g_return_if_fail (path != NULL);
  g_return_if_fail (isfinite (bulge));

  rod_path_add_corner (path, from, tag);
  if (fabs (bulge) < LEAST_BULGE || chord < ROD_EPSILON_MM)
    return;

  /* A positive bulge bends to the right of the chord, so the centre lies to its left and the arc
   * is run through counter-clockwise. */
  half_angle = 2.0 * atan (fabs (bulge));
  radius = chord / (2.0 * sin (half_angle));
  apothem = copysign (radius * cos (half_angle), bulge) / chord;
  centre_x = (from.x + to.x) / 2.0 - apothem * (to.y - from.y);
  centre_y = (from.y + to.y) / 2.0 + apothem * (to.x - from.x);

  n_chords = count_chords (radius, half_angle);
  for (guint i = 1; i < n_chords; i++)
    {
      double turn = copysign (2.0 * half_angle * i / n_chords, bulge);
      double dx = from.x - centre_x;
      double dy = from.y - centre_y;

      rod_path_add_corner (path,
                           (RodPoint){ centre_x + dx * cos (turn) - dy * sin (turn),
                                       centre_y + dx * sin (turn) + dy * cos (turn) },
                           tag);
    }
}

static guint
get_ring_start (const RodPath *path)
{
  return g_array_index (path->ring_starts, guint, path->ring_starts->len - 1);
}

void
rod_path_close (RodPath *path)
{
  guint start;

  g_return_if_fail (path != NULL);

  start = get_ring_start (path);
  if (path->corners->len - start < LEAST_CORNERS_OF_RING)
    g_array_set_size (path->corners, start);
  else
    g_array_append_val (path->ring_starts, path->corners->len);
}

void
rod_path_close_reversed (RodPath *path)
{
  RodPathCorner *corners;
  guint          start, n_corners;

  g_return_if_fail (path != NULL);

  start = get_ring_start (path);
  n_corners = path->corners->len - start;
  corners = &g_array_index (path->corners, RodPathCorner, start);

  for (guint i = 0; i < n_corners / 2; i++)
    {
      RodPathCorner swapped = corners[i];

      corners[i] = corners[n_corners - 1 - i];
      corners[n_corners - 1 - i] = swapped;
    }

  /* An edge's tag sits on the corner where it starts, which is now the corner where it ended. */
  if (n_corners > 0)
    {
      int first_tag = corners[0].tag;

      for (guint i = 0; i + 1 < n_corners; i++)
        corners[i].tag = corners[i + 1].tag;
      corners[n_corners - 1].tag = first_tag;
    }

  rod_path_close (path);
}
