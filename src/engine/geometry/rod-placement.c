/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Surfaces in space. A placement is two unit axes and an origin instead of a matrix: a turned
 * surface can then neither be stretched nor turned over, and the map of a view is four scalar
 * products. A surface hangs on another by their common edge: u along the edge, w into the surface
 * that holds, n towards its viewer; the surface that hangs goes on along −w, turned by the fold
 * towards −n. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-placement.h"

RodPoint
rod_angle_unit (double angle_deg)
{
  RodAffine turn = rod_affine_board_frame (angle_deg);

  return (RodPoint){ turn.xx, turn.xy };
}

RodPlacement
rod_placement_upright (double facing_deg,
                       double level_mm)
{
  /* From the compass, clockwise from north, to counter-clockwise from east: 90 − facing; x lies a
   * quarter further. */
  RodPoint x = rod_angle_unit (180.0 - facing_deg);

  return (RodPlacement){ { 0.0, 0.0, level_mm }, { x.x, x.y, 0.0 }, { 0.0, 0.0, 1.0 } };
}

RodVector
rod_placement_normal (const RodPlacement *placement)
{
  return rod_vector_cross (placement->x, placement->y);
}

static RodVector
turn_into (const RodPlacement *placement,
           RodPoint            way)
{
  return rod_vector_sum (way.x, placement->x, way.y, placement->y);
}

RodVector
rod_placement_apply (const RodPlacement *placement,
                     RodPoint            point)
{
  return rod_vector_sum (1.0, placement->origin, 1.0, turn_into (placement, point));
}

static RodPoint
unit_along (RodPoint from,
            RodPoint to)
{
  double length = rod_point_distance (from, to);

  return (RodPoint){ (to.x - from.x) / length, (to.y - from.y) / length };
}

RodPlacement
rod_placement_hang (const RodPlacement *own,
                    const RodHinge     *hinge)
{
  RodPoint  edge = unit_along (hinge->own_from, hinge->own_to);
  RodPoint  hung_edge = unit_along (hinge->hung_from, hinge->hung_to);
  RodPoint  fold = rod_angle_unit (hinge->fold_deg);
  RodVector u = turn_into (own, edge);
  RodVector w = turn_into (own, (RodPoint){ -edge.y, edge.x });
  RodVector n = rod_placement_normal (own);
  RodVector inwards = rod_vector_sum (-fold.x, w, -fold.y, n);
  RodVector anchor = rod_vector_sum (
    1.0, rod_placement_apply (own, hinge->own_from), hinge->along_mm, u);
  RodPlacement hung;

  /* The hung edge lies along −u, what it bounds lies inwards of it. */
  hung.x = rod_vector_sum (-hung_edge.x, u, -hung_edge.y, inwards);
  hung.y = rod_vector_sum (-hung_edge.y, u, hung_edge.x, inwards);
  hung.origin = rod_vector_sum (1.0, anchor, -1.0, turn_into (&hung, hinge->hung_to));
  return hung;
}

double
rod_placement_fold (const RodPlacement *own,
                    const RodPlacement *hung,
                    const RodHinge     *hinge)
{
  RodPoint  edge = unit_along (hinge->own_from, hinge->own_to);
  RodPoint  hung_edge = unit_along (hinge->hung_from, hinge->hung_to);
  RodVector w = turn_into (own, (RodPoint){ -edge.y, edge.x });
  RodVector inwards = turn_into (hung, (RodPoint){ -hung_edge.y, hung_edge.x });

  return atan2 (-rod_vector_dot (inwards, rod_placement_normal (own)),
                -rod_vector_dot (inwards, w)) *
         180.0 / G_PI;
}

RodOutlook
rod_outlook_new (double azimuth_deg,
                 double elevation_deg)
{
  RodPoint to = rod_angle_unit (90.0 - azimuth_deg);
  RodPoint rise = rod_angle_unit (elevation_deg);

  return (RodOutlook){
    .right = { -to.y, to.x, 0.0 },
    .up = { -to.x * rise.y, -to.y * rise.y, rise.x },
    .towards = { to.x * rise.x, to.y * rise.x, rise.y },
  };
}

RodAffine
rod_outlook_map (const RodOutlook   *view,
                 const RodPlacement *placement,
                 double              out_mm)
{
  RodVector origin =
    rod_vector_sum (1.0, placement->origin, out_mm, rod_placement_normal (placement));

  return (RodAffine){
    .xx = rod_vector_dot (view->right, placement->x),
    .xy = rod_vector_dot (view->right, placement->y),
    .x0 = rod_vector_dot (view->right, origin),
    .yx = rod_vector_dot (view->up, placement->x),
    .yy = rod_vector_dot (view->up, placement->y),
    .y0 = rod_vector_dot (view->up, origin),
  };
}

gboolean
rod_outlook_sees (const RodOutlook   *view,
                  const RodPlacement *placement)
{
  return rod_vector_dot (view->towards, rod_placement_normal (placement)) > 1e-9;
}

double
rod_outlook_nearness (const RodOutlook *view,
                      RodVector         point)
{
  return rod_vector_dot (view->towards, point);
}
