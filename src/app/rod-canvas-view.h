/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-point.h"

G_BEGIN_DECLS

/**
 * RodCanvasView:
 * @centre: point of the net in the middle of the widget
 * @scale: pixels in a millimetre
 * @width: width of the widget in pixels
 * @height: its height
 *
 * Which part of the net is seen. The middle is kept rather than a corner, so that a window that is
 * resized keeps looking at the same thing. A plain value.
 */
typedef struct
{
  RodPoint centre;
  double   scale;
  double   width;
  double   height;
} RodCanvasView;

/**
 * rod_canvas_view_affine:
 * @view: a view
 *
 * Returns: net plane (y upwards) → widget (y downwards)
 */
RodAffine rod_canvas_view_affine (const RodCanvasView *view);

/**
 * rod_canvas_view_to_net:
 * @view: a view
 * @x: place in the widget
 * @y: likewise
 *
 * Returns: the point of the net that is seen there
 */
RodPoint rod_canvas_view_to_net (const RodCanvasView *view,
                                 double               x,
                                 double               y);

/**
 * rod_canvas_view_show:
 * @view: a view
 * @low: least x and y of what is to be seen
 * @high: greatest x and y
 * @margin: pixels kept free on each side
 *
 * Fits a box of the net into the widget.
 */
void rod_canvas_view_show (RodCanvasView *view,
                           RodPoint       low,
                           RodPoint       high,
                           double         margin);

/**
 * rod_canvas_view_pan:
 * @view: a view
 * @dx: pixels by which what is seen moves to the right
 * @dy: pixels by which it moves downwards
 */
void rod_canvas_view_pan (RodCanvasView *view,
                          double         dx,
                          double         dy);

/**
 * rod_canvas_view_zoom:
 * @view: a view
 * @factor: above 1 to come closer
 * @x: place in the widget that stays where it is
 * @y: likewise
 */
void rod_canvas_view_zoom (RodCanvasView *view,
                           double         factor,
                           double         x,
                           double         y);

/**
 * rod_canvas_view_hold:
 * @view: a view
 * @low: least x and y of the net
 * @high: greatest x and y
 *
 * Keeps the middle of the widget within the net's box and the scale between "all of it is a stamp"
 * and "a millimetre is a finger's breadth", so that the house cannot be lost.
 */
void rod_canvas_view_hold (RodCanvasView *view,
                           RodPoint       low,
                           RodPoint       high);

/**
 * rod_canvas_view_between:
 * @from: a view
 * @to: another view of the same widget
 * @share: how far from one to the other, 0 to 1
 *
 * The scale grows evenly in ratio, not in steps, as the eye expects of a camera.
 *
 * Returns: the view in between
 */
RodCanvasView rod_canvas_view_between (const RodCanvasView *from,
                                       const RodCanvasView *to,
                                       double               share);

G_END_DECLS
