/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured: the length of each side, inside its own surface so that neighbours in the net
 * do not write over each other, the size of each opening, the name of each surface.
 */
#include "config.h"

#include "app/rod-canvas-private.h"

#include <math.h>

#include "sheets/rod-figures.h"

/* Height of capitals of figures and names. */
#define FIGURE_HEIGHT 7.0
#define NAME_HEIGHT 9.0

/* From a side to the middle of its figure. */
#define FIGURE_DISTANCE 12.0

/* Free round a figure. */
#define FIGURE_CLEAR 8.0

static void
write_along (RodCanvas  *self,
             cairo_t    *cr,
             const char *text,
             RodPoint    from,
             RodPoint    to)
{
  double         length = hypot (to.x - from.x, to.y - from.y);
  double         width = rod_lettering_width (self->lettering, text, FIGURE_HEIGHT, FALSE);
  double         angle = atan2 (to.y - from.y, to.x - from.x);
  RodLetterStyle style = { .height = FIGURE_HEIGHT, .align = ROD_ALIGN_CENTRE };
  RodPoint       at;

  if (length < width + 2 * FIGURE_CLEAR)
    return;

  /* The surface lies to the left of a side, which is to the right on a plane with y downwards. */
  at.x = (from.x + to.x) / 2 + sin (angle) * FIGURE_DISTANCE;
  at.y = (from.y + to.y) / 2 - cos (angle) * FIGURE_DISTANCE;
  /* Readable from below or from the right, as ISO 129-1 has it. */
  if (angle > G_PI / 2 - 0.01 || angle <= -G_PI / 2 - 0.01)
    angle += G_PI;
  style.angle_deg = -angle * 180 / G_PI;
  at.x -= sin (angle) * FIGURE_HEIGHT / 2;
  at.y += cos (angle) * FIGURE_HEIGHT / 2;
  rod_lettering_write (self->lettering, cr, text, &style, at.x, at.y);
}

static void
write_sides (RodCanvas *self,
             cairo_t   *cr,
             guint      face)
{
  const RodFace *it = rod_plan_face (self->plan, face);
  RodAffine      to_device = rod_canvas_face_affine (self, face);
  g_autoptr (GArray) sides = rod_corners_sides (it->surface->outline);

  for (guint i = 0; i < sides->len; i++)
    {
      const RodSide   *side = &g_array_index (sides, RodSide, i);
      g_autofree char *text = rod_figures_length (self->plan->house->units,
                                                  rod_point_distance (side->from, side->to));

      write_along (self,
                   cr,
                   text,
                   rod_affine_apply (to_device, side->from),
                   rod_affine_apply (to_device, side->to));
    }
}

static void
write_in_box (RodCanvas  *self,
              cairo_t    *cr,
              const char *text,
              RodPoint    middle,
              double      room,
              double      height,
              gboolean    bold)
{
  RodLetterStyle style = { .height = height, .bold = bold, .align = ROD_ALIGN_CENTRE };

  if (rod_lettering_width (self->lettering, text, height, bold) > room)
    return;

  rod_lettering_write (self->lettering, cr, text, &style, middle.x, middle.y + height / 2);
}

static void
write_openings (RodCanvas *self,
                cairo_t   *cr,
                guint      face)
{
  const RodFace *it = rod_plan_face (self->plan, face);
  RodAffine      to_device = rod_canvas_view_affine (&self->view);
  RodUnits       units = self->plan->house->units;

  for (guint i = 0; i < it->surface->openings->len; i++)
    {
      RodPoint         low;
      RodPoint         high;
      RodPoint         middle;
      g_autofree char *width = NULL;
      g_autofree char *height = NULL;
      g_autofree char *text = NULL;

      rod_canvas_place_extent (self, rod_place_opening (face, i), &low, &high);
      width = rod_figures_length (units, high.x - low.x);
      height = rod_figures_length (units, high.y - low.y);
      text = g_strdup_printf ("%s × %s", width, height);
      middle = rod_affine_apply (to_device,
                                 (RodPoint){ (low.x + high.x) / 2, (low.y + high.y) / 2 });
      write_in_box (self,
                    cr,
                    text,
                    middle,
                    (high.x - low.x) * self->view.scale - FIGURE_CLEAR,
                    FIGURE_HEIGHT,
                    FALSE);
    }
}

void
rod_canvas_draw_measures (RodCanvas *self,
                          cairo_t   *cr,
                          guint      face)
{
  rod_ink_use (self->palette.ink, cr);
  write_sides (self, cr, face);
  write_openings (self, cr, face);
}
