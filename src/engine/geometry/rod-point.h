/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

/**
 * RodPoint:
 * @x: millimetres, to the right as seen from the clad side
 * @y: millimetres, upwards
 *
 * A point of a plane. A plain value.
 */
typedef struct
{
  double x;
  double y;
} RodPoint;

/**
 * RodAffine:
 *
 * x' = xx·x + xy·y + x0, y' = yx·x + yy·y + y0. A plain value.
 */
typedef struct
{
  double xx, xy, x0;
  double yx, yy, y0;
} RodAffine;

/**
 * rod_affine_identity:
 *
 * Returns: the map that moves nothing
 */
RodAffine rod_affine_identity (void);

/**
 * rod_affine_board_frame:
 * @angle_deg: direction of the boards' axis, counter-clockwise from x
 *
 * The map from a surface's own plane to the board frame: the boards' axis becomes +x and the
 * side on which the next course is laid becomes +y. Right angles are exact (no rounding of
 * sine and cosine), so that a level wall keeps its digits.
 *
 * Returns: a rotation about the origin
 */
RodAffine rod_affine_board_frame (double angle_deg);

/**
 * rod_affine_invert:
 * @map: a map with non-zero determinant
 *
 * Returns: the map that undoes @map
 */
RodAffine rod_affine_invert (RodAffine map);

/**
 * rod_affine_multiply:
 * @first: applied first
 * @second: applied to the result of @first
 *
 * Returns: both in one map
 */
RodAffine rod_affine_multiply (RodAffine first,
                               RodAffine second);

/**
 * rod_affine_apply:
 * @map: a map
 * @point: a point
 *
 * Returns: the point moved by @map
 */
static inline RodPoint
rod_affine_apply (RodAffine map,
                  RodPoint  point)
{
  return (RodPoint){
    .x = map.xx * point.x + map.xy * point.y + map.x0,
    .y = map.yx * point.x + map.yy * point.y + map.y0,
  };
}

/**
 * rod_point_distance:
 * @a: a point
 * @b: another point
 *
 * Returns: the distance in mm
 */
static inline double
rod_point_distance (RodPoint a,
                    RodPoint b)
{
  double dx = a.x - b.x;
  double dy = a.y - b.y;

  /* Lengths of a house can neither overflow nor vanish in their squares, which hypot() guards. */
  return sqrt (dx * dx + dy * dy);
}

G_END_DECLS
