/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-point.h"

G_BEGIN_DECLS

/**
 * RodVector:
 * @x: millimetres, to the east
 * @y: millimetres, to the north
 * @z: millimetres, upwards from the datum
 *
 * A point of space, or a way from one to another. A plain value.
 */
typedef struct
{
  double x;
  double y;
  double z;
} RodVector;

/**
 * RodPlacement:
 * @origin: where the surface's (0, 0) lies
 * @x: where its x points; length 1
 * @y: where its y points; length 1, square to @x
 *
 * Where a surface lies in space, neither stretched nor turned over. Its clad side faces x × y. A
 * plain value.
 */
typedef struct
{
  RodVector origin;
  RodVector x;
  RodVector y;
} RodPlacement;

/**
 * RodOutlook:
 * @right: where the picture's x points in space; length 1
 * @up: where its y points; length 1
 * @towards: from the house to the viewer; length 1
 *
 * A direction from which a house is looked at from far away, so that parallels stay parallel. A
 * plain value.
 */
typedef struct
{
  RodVector right;
  RodVector up;
  RodVector towards;
} RodOutlook;

/**
 * rod_vector_dot:
 * @a: a vector
 * @b: another
 *
 * Returns: their scalar product
 */
static inline double
rod_vector_dot (RodVector a,
                RodVector b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

/**
 * rod_vector_cross:
 * @a: a vector
 * @b: another
 *
 * Returns: the vector square to both
 */
static inline RodVector
rod_vector_cross (RodVector a,
                  RodVector b)
{
  return (RodVector){ a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

/**
 * rod_vector_sum:
 * @s: how much of @a
 * @a: a vector
 * @t: how much of @b
 * @b: another
 *
 * Returns: s·a + t·b
 */
static inline RodVector
rod_vector_sum (double    s,
                RodVector a,
                double    t,
                RodVector b)
{
  return (RodVector){ s * a.x + t * b.x, s * a.y + t * b.y, s * a.z + t * b.z };
}

/**
 * rod_vector_length:
 * @a: a vector
 *
 * Returns: its length
 */
static inline double
rod_vector_length (RodVector a)
{
  return sqrt (rod_vector_dot (a, a));
}

/**
 * rod_angle_unit:
 * @angle_deg: an angle, counter-clockwise from x
 *
 * Sine and cosine without rounding at right angles, so that a square house keeps its digits.
 *
 * Returns: the point (cos, sin)
 */
RodPoint rod_angle_unit (double angle_deg);

/**
 * rod_placement_upright:
 * @facing_deg: compass direction the clad side faces, clockwise from north
 * @level_mm: height of y = 0
 *
 * Returns: a wall that begins over the origin
 */
RodPlacement rod_placement_upright (double facing_deg,
                                    double level_mm);

/**
 * rod_placement_normal:
 * @placement: a placement
 *
 * Returns: where the clad side faces; length 1
 */
RodVector rod_placement_normal (const RodPlacement *placement);

/**
 * rod_placement_apply:
 * @placement: a placement
 * @point: a point of the surface
 *
 * Returns: where it lies in space
 */
RodVector rod_placement_apply (const RodPlacement *placement,
                               RodPoint            point);

/**
 * RodHinge:
 * @own_from: start of the edge of the surface that holds, its clad area to the left
 * @own_to: its end
 * @hung_from: start of the edge of the surface that hangs on it, its clad area to the left
 * @hung_to: its end
 * @along_mm: where @hung_to comes to lie, from @own_from; the edges run against each other
 * @fold_deg: how far the hung surface turns away from the viewer; 0 leaves both in one plane
 *
 * How one surface hangs on another. Neither edge may be a point. A plain value.
 */
typedef struct
{
  RodPoint own_from;
  RodPoint own_to;
  RodPoint hung_from;
  RodPoint hung_to;
  double   along_mm;
  double   fold_deg;
} RodHinge;

/**
 * rod_placement_hang:
 * @own: where the surface that holds lies
 * @hinge: how the other hangs on it
 *
 * Returns: where the other comes to lie
 */
RodPlacement rod_placement_hang (const RodPlacement *own,
                                 const RodHinge     *hinge);

/**
 * rod_placement_fold:
 * @own: where the surface that holds lies
 * @hung: where the other lies
 * @hinge: their edges
 *
 * The fold there is, by how the planes meet along the edge of @own, whatever @hinge asks for.
 *
 * Returns: −180 < fold ≤ 180, degrees
 */
double rod_placement_fold (const RodPlacement *own,
                           const RodPlacement *hung,
                           const RodHinge     *hinge);

/**
 * rod_outlook_new:
 * @azimuth_deg: compass direction in which the viewer stands, clockwise from north: a wall that
 *               faces there is seen square on
 * @elevation_deg: how high the viewer stands over the horizon: 90 looks straight down, with the far
 *                 side on top
 *
 * Returns: the view
 */
RodOutlook rod_outlook_new (double azimuth_deg,
                            double elevation_deg);

/**
 * rod_outlook_map:
 * @view: a view
 * @placement: a placement
 * @out_mm: how far in front of the surface the drawn plane lies: the build-up for the boards' back
 *
 * Returns: the map from the surface's plane to the picture
 */
RodAffine rod_outlook_map (const RodOutlook   *view,
                           const RodPlacement *placement,
                           double              out_mm);

/**
 * rod_outlook_sees:
 * @view: a view
 * @placement: a placement
 *
 * Returns: whether the clad side is seen; not when it is seen edge on
 */
gboolean rod_outlook_sees (const RodOutlook   *view,
                           const RodPlacement *placement);

/**
 * rod_outlook_nearness:
 * @view: a view
 * @point: a point of space
 *
 * For drawing what is far before what is near.
 *
 * Returns: how much nearer to the viewer than the origin, mm
 */
double rod_outlook_nearness (const RodOutlook *view,
                             RodVector         point);

G_END_DECLS
