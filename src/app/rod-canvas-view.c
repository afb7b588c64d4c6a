/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-canvas-view.h"

#include <math.h>

/* Closest look: a millimetre is 12 pixels; there is nothing finer to see on a board. */
#define LARGEST_SCALE 12.0

/* Farthest look: the whole net fills this many pixels. */
#define SMALLEST_NET 120.0

/* A net without extent is shown as if it measured this much. */
#define LEAST_EXTENT_MM 10.0

RodAffine
rod_canvas_view_affine (const RodCanvasView *view)
{
  return (RodAffine){
    .xx = view->scale,
    .xy = 0,
    .x0 = view->width / 2 - view->scale * view->centre.x,
    .yx = 0,
    .yy = -view->scale,
    .y0 = view->height / 2 + view->scale * view->centre.y,
  };
}

RodPoint
rod_canvas_view_to_net (const RodCanvasView *view,
                        double               x,
                        double               y)
{
  return (RodPoint){
    view->centre.x + (x - view->width / 2) / view->scale,
    view->centre.y - (y - view->height / 2) / view->scale,
  };
}

void
rod_canvas_view_show (RodCanvasView *view,
                      RodPoint       low,
                      RodPoint       high,
                      double         margin)
{
  double width = MAX (view->width - 2 * margin, 1);
  double height = MAX (view->height - 2 * margin, 1);

  view->centre = (RodPoint){ (low.x + high.x) / 2, (low.y + high.y) / 2 };
  view->scale = MIN (width / MAX (high.x - low.x, LEAST_EXTENT_MM),
                     height / MAX (high.y - low.y, LEAST_EXTENT_MM));
}

void
rod_canvas_view_pan (RodCanvasView *view,
                     double         dx,
                     double         dy)
{
  view->centre.x -= dx / view->scale;
  view->centre.y += dy / view->scale;
}

void
rod_canvas_view_zoom (RodCanvasView *view,
                      double         factor,
                      double         x,
                      double         y)
{
  RodPoint held = rod_canvas_view_to_net (view, x, y);

  view->scale *= factor;
  view->centre.x = held.x - (x - view->width / 2) / view->scale;
  view->centre.y = held.y + (y - view->height / 2) / view->scale;
}

void
rod_canvas_view_hold (RodCanvasView *view,
                      RodPoint       low,
                      RodPoint       high)
{
  double extent = MAX (MAX (high.x - low.x, high.y - low.y), LEAST_EXTENT_MM);
  double smallest = MIN (SMALLEST_NET / extent, LARGEST_SCALE);

  view->scale = CLAMP (view->scale, smallest, LARGEST_SCALE);
  view->centre.x = CLAMP (view->centre.x, low.x, high.x);
  view->centre.y = CLAMP (view->centre.y, low.y, high.y);
}

RodCanvasView
rod_canvas_view_between (const RodCanvasView *from,
                         const RodCanvasView *to,
                         double               share)
{
  RodCanvasView view = *to;
  double        ratio = to->scale / from->scale;
  double        moved;

  view.scale = from->scale * pow (ratio, share);
  /* With the scale growing in ratio, the middle must move so that the picture flows evenly. */
  moved = fabs (ratio - 1) < 1e-6 ? share : (1 - from->scale / view.scale) / (1 - 1 / ratio);
  view.centre.x = from->centre.x + (to->centre.x - from->centre.x) * moved;
  view.centre.y = from->centre.y + (to->centre.y - from->centre.y) * moved;

  return view;
}
