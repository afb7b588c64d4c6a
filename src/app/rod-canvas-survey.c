/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was measured: the length of each side, inside its own surface so that neighbours in the net
 * do not write over each other, and the size of each opening. What would lie over another figure is
 * left out until the user comes closer.
 */
#include "config.h"

#include "app/rod-canvas-private.h"

#include <math.h>

#include "sheets/rod-figures.h"

/* Height of capitals of figures. */
#define FIGURE_HEIGHT 7.0

/* From a side to the middle of its figure. */
#define FIGURE_DISTANCE 12.0

/* Free round a figure. */
#define FIGURE_CLEAR 8.0
#define LINE_CLEAR 3.0f

typedef struct
{
  RodCanvas *self;
  cairo_t   *cr;
  GArray    *taken; /* of graphene_rect_t: where something is written already */
} Writer;

/* Whether there is room round a point for a text of this size, which is then taken. */
static gboolean
take_room (Writer  *writer,
           RodPoint middle,
           double   width,
           double   height)
{
  graphene_rect_t room = GRAPHENE_RECT_INIT ((float) (middle.x - width / 2),
                                             (float) (middle.y - height / 2),
                                             (float) width,
                                             (float) height);

  for (guint i = 0; i < writer->taken->len; i++)
    if (graphene_rect_intersection (&room,
                                    &g_array_index (writer->taken, graphene_rect_t, i),
                                    NULL))
      return FALSE;
  g_array_append_val (writer->taken, room);

  return TRUE;
}

/* Nothing may be written over the lines of an opening. */
static void
take_box (Writer  *writer,
          RodPoint low,
          RodPoint high)
{
  graphene_rect_t box;

  graphene_rect_init (&box,
                      (float) low.x,
                      (float) low.y,
                      (float) (high.x - low.x),
                      (float) (high.y - low.y));
  graphene_rect_inset (&box, -LINE_CLEAR, -LINE_CLEAR);
  g_array_append_val (writer->taken, box);
}

/* In the middle of a side if there is room, else farther towards its ends. */
static gboolean
find_room (Writer   *writer,
           RodPoint  from,
           RodPoint  to,
           double    width,
           RodPoint *at)
{
  static const double shares[] = { 0.5, 0.3, 0.7, 0.15, 0.85 };
  double              length = hypot (to.x - from.x, to.y - from.y);
  double              along_x = (to.x - from.x) / length;
  double              along_y = (to.y - from.y) / length;

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      double share = shares[i];

      if (MIN (share, 1 - share) * length < width / 2 + FIGURE_CLEAR)
        continue;
      /* The surface lies to the left of a side, which is to the right on a plane with y
       * downwards. */
      at->x = from.x + (to.x - from.x) * share + along_y * FIGURE_DISTANCE;
      at->y = from.y + (to.y - from.y) * share - along_x * FIGURE_DISTANCE;
      if (take_room (writer,
                     *at,
                     fabs (along_x) * width + FIGURE_HEIGHT,
                     fabs (along_y) * width + FIGURE_HEIGHT))
        return TRUE;
    }

  return FALSE;
}

static void
write_along (Writer     *writer,
             const char *text,
             RodPoint    from,
             RodPoint    to)
{
  RodLettering  *lettering = writer->self->lettering;
  double         width = rod_lettering_width (lettering, text, FIGURE_HEIGHT, FALSE);
  double         angle = atan2 (to.y - from.y, to.x - from.x);
  RodLetterStyle style = { .height = FIGURE_HEIGHT, .align = ROD_ALIGN_CENTRE };
  RodPoint       at;

  if (!find_room (writer, from, to, width, &at))
    return;

  /* Readable from below or from the right, as ISO 129-1 has it. */
  if (angle > G_PI / 2 - 0.01 || angle <= -G_PI / 2 - 0.01)
    angle += G_PI;
  style.angle_deg = -angle * 180 / G_PI;
  at.x -= sin (angle) * FIGURE_HEIGHT / 2;
  at.y += cos (angle) * FIGURE_HEIGHT / 2;
  rod_lettering_write (lettering, writer->cr, text, &style, at.x, at.y);
}

/* Sides of faces that are too narrow on the screen for figures inside them are left alone. */
static gboolean
has_room (RodCanvas *self,
          guint      face)
{
  RodPoint low = g_array_index (self->boxes, RodPoint, 2 * face);
  RodPoint high = g_array_index (self->boxes, RodPoint, 2 * face + 1);

  return MIN (high.x - low.x, high.y - low.y) * self->view.scale >= 3 * FIGURE_DISTANCE;
}

static void
write_sides (Writer *writer,
             guint   face)
{
  RodCanvas *self = writer->self;
  RodAffine  to_device = rod_canvas_face_affine (self, face);
  g_autoptr (GArray) sides = rod_corners_sides (rod_plan_face (self->plan, face)->surface->outline);

  if (!has_room (self, face))
    return;

  for (guint i = 0; i < sides->len; i++)
    {
      const RodSide   *side = &g_array_index (sides, RodSide, i);
      g_autofree char *text = rod_figures_length (self->plan->house->units,
                                                  rod_point_distance (side->from, side->to));

      write_along (writer,
                   text,
                   rod_affine_apply (to_device, side->from),
                   rod_affine_apply (to_device, side->to));
    }
}

static void
write_opening (Writer  *writer,
               RodPlace place)
{
  RodCanvas       *self = writer->self;
  RodUnits         units = self->plan->house->units;
  RodLetterStyle   style = { .height = FIGURE_HEIGHT, .align = ROD_ALIGN_CENTRE };
  g_autofree char *width = NULL;
  g_autofree char *height = NULL;
  g_autofree char *text = NULL;
  RodPoint         low;
  RodPoint         high;
  RodPoint         middle;
  double           needed;

  rod_canvas_place_extent (self, place, &low, &high);
  width = rod_figures_length (units, high.x - low.x);
  height = rod_figures_length (units, high.y - low.y);
  text = g_strdup_printf ("%s × %s", width, height);
  needed = rod_lettering_width (self->lettering, text, FIGURE_HEIGHT, FALSE);
  middle = rod_affine_apply (rod_canvas_view_affine (&self->view),
                             (RodPoint){ (low.x + high.x) / 2, (low.y + high.y) / 2 });
  if (needed + FIGURE_CLEAR < (high.x - low.x) * self->view.scale &&
      take_room (writer, middle, needed, FIGURE_HEIGHT))
    rod_lettering_write (self->lettering,
                         writer->cr,
                         text,
                         &style,
                         middle.x,
                         middle.y + FIGURE_HEIGHT / 2);
  take_box (writer,
            rod_affine_apply (rod_canvas_view_affine (&self->view), low),
            rod_affine_apply (rod_canvas_view_affine (&self->view), high));
}

static gboolean
is_measured (RodCanvas *self,
             guint      face)
{
  return rod_plan_face (self->plan, face)->opening < 0 && rod_canvas_sees_face (self, face);
}

void
rod_canvas_draw_measures (RodCanvas *self,
                          cairo_t   *cr)
{
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (graphene_rect_t));
  Writer writer = { self, cr, taken };

  rod_ink_use (self->palette.ink, cr);
  for (guint i = 0; i < self->plan->faces->len; i++)
    {
      graphene_rect_t name;

      if (is_measured (self, i) && rod_canvas_name_room (self, i, &name))
        g_array_append_val (taken, name);
    }
  for (guint i = 0; i < self->plan->faces->len; i++)
    if (is_measured (self, i))
      for (guint k = 0; k < rod_plan_face (self->plan, i)->surface->openings->len; k++)
        write_opening (&writer, rod_place_opening (i, k));
  for (guint i = 0; i < self->plan->faces->len; i++)
    if (is_measured (self, i))
      write_sides (&writer, i);
}
