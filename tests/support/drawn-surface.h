/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-strips.h"

/* Surfaces for tests: drawn by hand, at random, and a whole invented house. */

G_BEGIN_DECLS

/**
 * DrawnRing:
 * @points: corners, counter-clockwise
 * @n_points: how many
 * @subtract: whether the ring is an opening
 *
 * A ring as it was drawn, for those who want to work it out another way.
 */
typedef struct
{
  RodPoint *points;
  guint     n_points;
  gboolean  subtract;
} DrawnRing;

/**
 * DrawnSurface:
 * @path: what to normalise
 * @rings: (element-type DrawnRing): the same, ring by ring
 */
typedef struct
{
  RodPath   *path;
  GPtrArray *rings;
} DrawnSurface;

/**
 * drawn_surface_free:
 * @surface: (transfer full) (nullable): a surface
 */
void drawn_surface_free (DrawnSurface *surface);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (DrawnSurface, drawn_surface_free)

/**
 * draw_ring:
 * @path: a path
 * @xy: x and y of each corner by turns, counter-clockwise
 * @n_corners: how many corners
 * @first_tag: tag of the first edge; each following edge has one more
 * @subtract: whether the ring is an opening
 */
void draw_ring (RodPath      *path,
                const double *xy,
                guint         n_corners,
                int           first_tag,
                gboolean      subtract);

/**
 * draw_box:
 * @path: a path
 * @left: least x, mm
 * @bottom: least y
 * @right: greatest x
 * @top: greatest y
 * @first_tag: tag of the lower edge; right, upper and left follow
 * @subtract: whether the box is an opening
 */
void draw_box (RodPath *path,
               double   left,
               double   bottom,
               double   right,
               double   top,
               int      first_tag,
               gboolean subtract);

/**
 * draw_circle:
 * @path: a path
 * @x: of the centre, mm
 * @y: of the centre
 * @radius: mm
 * @tag: tag of every chord
 * @subtract: whether the circle is an opening
 */
void draw_circle (RodPath *path,
                  double   x,
                  double   y,
                  double   radius,
                  int      tag,
                  gboolean subtract);

/**
 * DrawnKind:
 * @DRAWN_ANY_ANGLE: outline and openings lie as they fall
 * @DRAWN_DEGENERATE: boxes and diamonds on a coarse raster that touch, overlap and stick out
 */
typedef enum
{
  DRAWN_ANY_ANGLE,
  DRAWN_DEGENERATE,
} DrawnKind;

/**
 * draw_random_surface:
 * @random: where the numbers come from
 * @kind: what kind of surface
 * @jitter: greatest random shift of each coordinate, mm; the shape does not depend on it
 *
 * Draws an outline (box, L, gable or arch) less up to eight openings.
 */
DrawnSurface *draw_random_surface (GRand    *random,
                                   DrawnKind kind,
                                   double    jitter) G_GNUC_WARN_UNUSED_RESULT;

/**
 * mirror_surface:
 * @surface: a surface
 *
 * Returns: (transfer full): a path of the same rings with x turned to the other side
 */
RodPath *mirror_surface (const DrawnSurface *surface) G_GNUC_WARN_UNUSED_RESULT;

/**
 * transpose_surface:
 * @surface: a surface
 *
 * Returns: (transfer full): a path of the same rings with x and y swapped
 */
RodPath *transpose_surface (const DrawnSurface *surface) G_GNUC_WARN_UNUSED_RESULT;

/**
 * draw_house:
 * @n_surfaces: (out): how many surfaces
 *
 * Draws the ten surfaces of an invented two-storey house with some 1,500 corners.
 *
 * Returns: (transfer full) (array length=n_surfaces): paths
 */
RodPath **draw_house (guint *n_surfaces) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
