/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Reveals are derived from openings: each straight side that the user wants lined becomes a surface
 * with an outline of its own, so that every later stage treats it like any other surface. Raw sizes
 * go in, the build-up moves the edges through the joins (head on jambs, reveal on wall), which is
 * what makes a reveal narrower and deeper than it was measured. */

#include "config.h"

#include <math.h>

#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-reveals.h"

RodEdgeCondition
rod_side_role (const RodSide *side)
{
  double dx = side->to.x - side->from.x;
  double dy = side->to.y - side->from.y;

  /* Counter-clockwise, so a side that runs to the right is the lower one. */
  if (fabs (dy) > fabs (dx))
    return ROD_EDGE_JAMB;
  return dx > 0.0 ? ROD_EDGE_SILL : ROD_EDGE_HEAD;
}

gboolean
rod_reveal_lines_side (const RodOpening *opening,
                       const RodSide    *side)
{
  const RodReveal *reveal = opening->reveal;

  if (reveal == NULL || fabs (side->bulge) > 0.0)
    return FALSE;
  switch ((int) rod_side_role (side))
    {
    case ROD_EDGE_SILL:
      return reveal->sill;
    case ROD_EDGE_HEAD:
      return reveal->head;
    default:
      return reveal->jambs;
    }
}

RodRevealSide
rod_reveal_arris (const RodSide *side)
{
  switch ((int) rod_side_role (side))
    {
    case ROD_EDGE_SILL:
      return ROD_REVEAL_LOWER;
    case ROD_EDGE_HEAD:
      return ROD_REVEAL_UPPER;
    default:
      /* The left jamb's side runs down the opening's left edge. */
      return side->to.y < side->from.y ? ROD_REVEAL_LEFT : ROD_REVEAL_RIGHT;
    }
}

static void
add_corner (RodSurface      *surface,
            double           x,
            double           y,
            RodEdgeCondition condition)
{
  RodCorner *corner = rod_record_new (&rod_corner_type);

  corner->x = x;
  corner->y = y;
  corner->condition = condition;
  g_ptr_array_add (surface->outline, corner);
}

static const char *
or_else (const char *own,
         const char *inherited)
{
  return *own != '\0' ? own : inherited;
}

static void
set_product (RodSurface       *surface,
             const RodSurface *wall,
             const RodReveal  *reveal)
{
  gboolean same_system = *reveal->system == '\0' || g_str_equal (reveal->system, wall->system);
  gboolean same_board =
    same_system && (*reveal->board == '\0' || g_str_equal (reveal->board, wall->board));

  rod_record_set_text (
    surface, G_STRUCT_OFFSET (RodSurface, system), or_else (reveal->system, wall->system));
  rod_record_set_text (surface,
                       G_STRUCT_OFFSET (RodSurface, board),
                       or_else (reveal->board, same_system ? wall->board : ""));
  rod_record_set_text (surface,
                       G_STRUCT_OFFSET (RodSurface, colour),
                       or_else (reveal->colour, same_board ? wall->colour : ""));
}

RodSurface *
rod_reveal_surface (const RodSurface *wall,
                    const RodOpening *opening,
                    const RodSide    *side)
{
  const RodReveal *reveal = opening->reveal;
  RodSurface      *surface = rod_record_new (&rod_surface_type);
  RodEdgeCondition role = rod_side_role (side);
  RodRevealSide    arris = rod_reveal_arris (side);
  double           length = rod_point_distance (side->from, side->to);
  gboolean         upright = role == ROD_EDGE_JAMB;
  double           wide = upright ? reveal->depth_mm : length;
  double           high = upright ? length : reveal->depth_mm;
  gboolean         along = reveal->boards == ROD_REVEAL_ALONG;
  RodCorner       *foot;

  surface->kind = ROD_SURFACE_REVEAL;
  /* Every lining begins with a whole hook at the arris, where it shows; so left and right jamb
   * mirror each other and the head is laid downwards from the wall's face. */
  surface->direction_deg = upright == along ? 90.0 : 0.0;
  if (along && role == ROD_EDGE_HEAD)
    surface->direction_deg = 180.0;
  surface->laid_from = arris == ROD_REVEAL_RIGHT ? ROD_LAID_FROM_RIGHT : ROD_LAID_FROM_LEFT;
  surface->build_up_mm = reveal->build_up_mm;
  surface->facing_deg = wall->facing_deg;
  surface->seen = wall->seen;
  surface->level_mm = upright ? wall->level_mm + MIN (side->from.y, side->to.y) : 0.0;
  set_product (surface, wall, reveal);

  /* Frame and free ends are side stops; joins turn the others into corners. */
  add_corner (surface, 0.0, 0.0, ROD_EDGE_AUTO);
  add_corner (surface, wide, 0.0, ROD_EDGE_AUTO);
  add_corner (surface, wide, high, ROD_EDGE_AUTO);
  add_corner (surface, 0.0, high, ROD_EDGE_AUTO);
  for (guint i = 0; i < 4; i++)
    {
      RodCorner *corner = g_ptr_array_index (surface->outline, i);

      corner->condition = i == (guint) arris ? ROD_EDGE_OUTSIDE_CORNER : ROD_EDGE_SIDE_STOP;
    }
  foot = g_ptr_array_index (surface->outline, ROD_REVEAL_LOWER);
  if (upright && !reveal->sill)
    {
      foot->condition = ROD_EDGE_SILL;
      foot->clearance_mm = reveal->sill_rise_mm;
    }
  return surface;
}
