/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Surfaces for tests. The random ones are drawn in two kinds, for two kinds of mistakes: any angle,
 * where nothing coincides, and degenerate, where nearly everything does. */

#include "drawn-surface.h"

#include <math.h>

void
draw_ring (RodPath      *path,
           const double *xy,
           guint         n_corners,
           int           first_tag,
           gboolean      subtract)
{
  for (guint i = 0; i < n_corners; i++)
    rod_path_add_corner (path, (RodPoint){ xy[2 * i], xy[2 * i + 1] }, first_tag + (int) i);
  if (subtract)
    rod_path_close_reversed (path);
  else
    rod_path_close (path);
}

void
draw_box (RodPath *path,
          double   left,
          double   bottom,
          double   right,
          double   top,
          int      first_tag,
          gboolean subtract)
{
  const double xy[] = { left, bottom, right, bottom, right, top, left, top };

  draw_ring (path, xy, 4, first_tag, subtract);
}

void
draw_circle (RodPath *path,
             double   x,
             double   y,
             double   radius,
             int      tag,
             gboolean subtract)
{
  RodPoint left = { x - radius, y };
  RodPoint right = { x + radius, y };

  rod_path_add_arc (path, left, right, 1.0, tag);
  rod_path_add_arc (path, right, left, 1.0, tag);
  if (subtract)
    rod_path_close_reversed (path);
  else
    rod_path_close (path);
}

static void
drawn_ring_free (gpointer data)
{
  DrawnRing *ring = data;

  g_free (ring->points);
  g_free (ring);
}

void
drawn_surface_free (DrawnSurface *surface)
{
  if (surface == NULL)
    return;

  rod_path_free (surface->path);
  g_ptr_array_unref (surface->rings);
  g_free (surface);
}

/* A pen that turns and shifts what it draws and lets each corner tremble. */
typedef struct
{
  DrawnSurface *surface;
  GRand        *random;
  GRand        *tremble;
  double        jitter;
  RodAffine     placing;
} Pen;

static void
pen_ring (Pen          *pen,
          const double *xy,
          guint         n_corners,
          int           first_tag,
          gboolean      subtract)
{
  DrawnRing *ring = g_new (DrawnRing, 1);

  *ring = (DrawnRing){ g_new (RodPoint, n_corners), n_corners, subtract };
  for (guint i = 0; i < n_corners; i++)
    {
      RodPoint point = rod_affine_apply (pen->placing, (RodPoint){ xy[2 * i], xy[2 * i + 1] });

      point.x += pen->jitter * g_rand_double_range (pen->tremble, -1.0, 1.0);
      point.y += pen->jitter * g_rand_double_range (pen->tremble, -1.0, 1.0);
      ring->points[i] = point;
      rod_path_add_corner (pen->surface->path, point, first_tag + (int) i);
    }
  if (subtract)
    rod_path_close_reversed (pen->surface->path);
  else
    rod_path_close (pen->surface->path);
  g_ptr_array_add (pen->surface->rings, ring);
}

/* A length in whole steps of the raster, or of any length where there is none. */
static double
draw_length (GRand *random,
             double raster,
             double least,
             double greatest)
{
  double length = g_rand_double_range (random, least, greatest);

  return raster > 0.0 ? round (length / raster) * raster : length;
}

static void
pen_outline (Pen   *pen,
             double raster,
             double right,
             double top)
{
  double step_x = draw_length (pen->random, raster, 0.2 * right, 0.8 * right);
  double step_y = draw_length (pen->random, raster, 0.2 * top, 0.8 * top);
  double rise = draw_length (pen->random, raster, 0.1 * top, 0.5 * top);

  switch (g_rand_int_range (pen->random, 0, 4))
    {
    case 0:
      {
        const double box[] = { 0, 0, right, 0, right, top, 0, top };

        pen_ring (pen, box, 4, 0, FALSE);
        break;
      }
    case 1:
      {
        const double ell[] = { 0, 0, right, 0, right, step_y, step_x, step_y, step_x, top, 0, top };

        pen_ring (pen, ell, 6, 0, FALSE);
        break;
      }
    case 2:
      {
        const double gable[] = { 0, 0, right, 0, right, top, step_x, top + rise, 0, top };

        pen_ring (pen, gable, 5, 0, FALSE);
        break;
      }
    default:
      {
        double arch[2 * 24];

        for (guint i = 0; i < 22; i++)
          {
            double angle = G_PI * i / 21.0;

            arch[2 * i] = right / 2.0 + right / 2.0 * cos (angle);
            arch[2 * i + 1] = top + rise * sin (angle);
          }
        arch[44] = 0.0;
        arch[45] = 0.0;
        arch[46] = right;
        arch[47] = 0.0;
        pen_ring (pen, arch, 24, 0, FALSE);
        break;
      }
    }
}

static void
pen_opening (Pen   *pen,
             double raster,
             double width,
             double height,
             int    first_tag)
{
  double x = draw_length (pen->random, raster, -0.05 * width, 0.95 * width);
  double y = draw_length (pen->random, raster, -0.05 * height, 0.95 * height);
  double across = draw_length (pen->random, raster, 0.02 * width + raster, 0.3 * width);
  double up = draw_length (pen->random, raster, 0.05 * height + raster, 0.5 * height);
  double lean = raster > 0.0 ? 0.0 : g_rand_double_range (pen->random, -0.4, 0.4) * up;
  double end = x + across;
  double xy[2 * 12];

  if (raster > 0.0 && g_rand_int_range (pen->random, 0, 3) == 0)
    {
      double       middle_x = round ((x + across / 2.0) / raster) * raster;
      double       middle_y = round ((y + up / 2.0) / raster) * raster;
      const double diamond[] = { x, middle_y, middle_x, y, x + across, middle_y, middle_x, y + up };

      pen_ring (pen, diamond, 4, first_tag, TRUE);
      return;
    }

  if (raster > 0.0 || g_rand_boolean (pen->random))
    {
      const double box[] = { x, y, end, y + 0.3 * lean, end - lean, y + up, x - lean, y + up };

      pen_ring (pen, box, 4, first_tag, TRUE);
      return;
    }

  for (guint i = 0; i < 12; i++)
    {
      xy[2 * i] = x + across / 2.0 * (1.0 + cos (G_PI * i / 6.0));
      xy[2 * i + 1] = y + up / 2.0 * (1.0 + sin (G_PI * i / 6.0));
    }
  pen_ring (pen, xy, 12, first_tag, TRUE);
}

DrawnSurface *
draw_random_surface (GRand    *random,
                     DrawnKind kind,
                     double    jitter)
{
  g_autoptr (GRand) tremble = g_rand_new_with_seed (g_rand_int (random));
  double raster = kind == DRAWN_DEGENERATE ? 100.0 : 0.0;
  double width = draw_length (random, raster, 1000.0, 12000.0);
  double height = draw_length (random, raster, 600.0, 6000.0);
  guint  n_openings = (guint) g_rand_int_range (random, 0, 9);
  Pen    pen = { g_new (DrawnSurface, 1), random, tremble, jitter, rod_affine_identity () };

  pen.surface->path = rod_path_new ();
  pen.surface->rings = g_ptr_array_new_with_free_func (drawn_ring_free);

  if (kind == DRAWN_ANY_ANGLE)
    {
      pen.placing = rod_affine_board_frame (g_rand_double_range (random, -180.0, 180.0));
      pen.placing.x0 = g_rand_double_range (random, -20000.0, 20000.0);
      pen.placing.y0 = g_rand_double_range (random, -20000.0, 20000.0);
    }

  pen_outline (&pen, raster, width, height);
  for (guint i = 0; i < n_openings; i++)
    pen_opening (&pen, raster, width, height, 100 * (int) (i + 1));
  return pen.surface;
}

/* Swapping sides turns the rings round, which closing them the other way makes good. */
static RodPath *
redraw_flipped (const DrawnSurface *surface,
                RodAffine           flip)
{
  RodPath *path = rod_path_new ();

  for (guint i = 0; i < surface->rings->len; i++)
    {
      const DrawnRing *ring = g_ptr_array_index (surface->rings, i);

      for (guint j = 0; j < ring->n_points; j++)
        rod_path_add_corner (path, rod_affine_apply (flip, ring->points[j]), 0);
      if (ring->subtract)
        rod_path_close (path);
      else
        rod_path_close_reversed (path);
    }
  return path;
}

RodPath *
mirror_surface (const DrawnSurface *surface)
{
  return redraw_flipped (surface, (RodAffine){ .xx = -1.0, .yy = 1.0 });
}

RodPath *
transpose_surface (const DrawnSurface *surface)
{
  return redraw_flipped (surface, (RodAffine){ .xy = 1.0, .yx = 1.0 });
}

/* One wall: windows in rows, a door, pipes and vents. */
static RodPath *
draw_wall (double width,
           double height,
           double rise,
           guint  n_windows,
           guint  n_pipes)
{
  RodPath     *path = rod_path_new ();
  const double outline[] = { 0, 0, width, 0, width, height, width / 2, height + rise, 0, height };

  draw_ring (path, outline, 5, 0, FALSE);
  draw_box (path, 400.0, 0.0, 1400.0, 2100.0, 10, TRUE);
  for (guint i = 0; i < n_windows; i++)
    {
      double left = 1900.0 + 1750.0 * (i / 2);
      double bottom = i % 2 == 0 ? 913.0 : 3521.0;

      draw_box (path, left, bottom, left + 1200.0, bottom + 1300.0, 20 + 4 * (int) i, TRUE);
    }
  for (guint i = 0; i < n_pipes; i++)
    draw_circle (path,
                 1650.0 + 875.0 * i,
                 2700.0 + 40.0 * (i % 3),
                 55.0 + 5.0 * (i % 2),
                 200 + (int) i,
                 TRUE);
  return path;
}

RodPath **
draw_house (guint *n_surfaces)
{
  RodPath **surfaces = g_new (RodPath *, 10);

  surfaces[0] = draw_wall (13200.0, 5600.0, 0.0, 12, 4);
  surfaces[1] = draw_wall (9400.0, 5600.0, 3100.0, 8, 4);
  surfaces[2] = draw_wall (13200.0, 5600.0, 0.0, 10, 6);
  surfaces[3] = draw_wall (9400.0, 5600.0, 3100.0, 8, 4);
  surfaces[4] = draw_wall (6200.0, 5000.0, 1800.0, 4, 2);
  surfaces[5] = draw_wall (6200.0, 5000.0, 1800.0, 4, 3);
  surfaces[6] = draw_wall (7300.0, 5300.0, 0.0, 6, 3);
  surfaces[7] = draw_wall (7300.0, 5300.0, 0.0, 6, 3);
  surfaces[8] = draw_wall (5400.0, 5000.0, 900.0, 2, 2);
  surfaces[9] = draw_wall (5400.0, 5000.0, 900.0, 2, 2);
  *n_surfaces = 10;
  return surfaces;
}
