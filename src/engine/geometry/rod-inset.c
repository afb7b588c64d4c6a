/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Rings whose sides move by different distances: the step from one line of an edge stack to the
 * next. Sides are straight by the time they move; the chords of an arc move alike, which gives the
 * chords of the concentric arc. */

#include "engine/geometry/rod-inset.h"

#include "engine/geometry/rod-geometry-private.h"

/* One straight line of the ring, moved. */
typedef struct
{
  RodPoint from;
  RodPoint to;
  double   inset_mm;
  int      tag;
} MovedLine;

static void
add_moved (GArray  *lines,
           RodPoint from,
           RodPoint to,
           double   inset_mm,
           int      tag)
{
  double    length = rod_point_distance (from, to);
  double    nx, ny;
  MovedLine line;

  if (length < ROD_EPSILON_MM)
    return;
  nx = -(to.y - from.y) / length * inset_mm;
  ny = (to.x - from.x) / length * inset_mm;
  line = (MovedLine){ { from.x + nx, from.y + ny }, { to.x + nx, to.y + ny }, inset_mm, tag };
  g_array_append_val (lines, line);
}

static void
add_side (GArray             *lines,
          const RodInsetSide *side)
{
  g_autoptr (RodPath) chords = NULL;
  guint n;

  if (fabs (side->bulge) <= 0.0)
    {
      add_moved (lines, side->from, side->to, side->inset_mm, side->tag);
      return;
    }
  chords = rod_path_new ();
  rod_path_add_arc (chords, side->from, side->to, side->bulge, side->tag);
  rod_path_add_corner (chords, side->to, side->tag);
  n = chords->corners->len;
  for (guint i = 0; i + 1 < n; i++)
    add_moved (lines,
               g_array_index (chords->corners, RodPathCorner, i).at,
               g_array_index (chords->corners, RodPathCorner, i + 1).at,
               side->inset_mm,
               side->tag);
}

gboolean
rod_lines_meet (RodPoint  a_from,
                RodPoint  a_to,
                RodPoint  b_from,
                RodPoint  b_to,
                RodPoint *at)
{
  double ax = a_to.x - a_from.x, ay = a_to.y - a_from.y;
  double bx = b_to.x - b_from.x, by = b_to.y - b_from.y;
  double cross = ax * by - ay * bx;
  double lengths = (ax * ax + ay * ay) * (bx * bx + by * by);
  double t;

  if (cross * cross < ROD_PARALLEL_SINE * ROD_PARALLEL_SINE * lengths)
    return FALSE;
  t = ((b_from.x - a_from.x) * by - (b_from.y - a_from.y) * bx) / cross;
  *at = (RodPoint){ a_from.x + t * ax, a_from.y + t * ay };
  return TRUE;
}

/* Neighbours that meet too far away count as not meeting. */
static gboolean
meet (const MovedLine *first,
      const MovedLine *second,
      RodPoint        *at)
{
  double reach = ROD_SPIKE_RATIO * (fabs (first->inset_mm) + fabs (second->inset_mm) + 1.0);

  return rod_lines_meet (first->from, first->to, second->from, second->to, at) &&
         rod_point_distance (*at, first->to) <= reach;
}

void
rod_path_add_inset_ring (RodPath            *path,
                         const RodInsetSide *sides,
                         guint               n_sides)
{
  g_autoptr (GArray) lines = g_array_sized_new (FALSE, FALSE, sizeof (MovedLine), n_sides);

  g_return_if_fail (path != NULL);

  for (guint i = 0; i < n_sides; i++)
    add_side (lines, &sides[i]);
  for (guint i = 0; i < lines->len; i++)
    {
      const MovedLine *line = &g_array_index (lines, MovedLine, i);
      const MovedLine *before =
        &g_array_index (lines, MovedLine, (i + lines->len - 1) % lines->len);
      RodPoint at;

      if (meet (before, line, &at))
        rod_path_add_corner (path, at, line->tag);
      else
        {
          rod_path_add_corner (path, before->to, before->tag);
          rod_path_add_corner (path, line->from, line->tag);
        }
    }
  rod_path_close (path);
}
