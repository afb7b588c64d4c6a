/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marks on the pieces of a drawing. A mark that cannot be read is worse than none: it is written
 * only where the piece has room for it, or, where boards are drawn too narrow for any, on some of
 * them over their neighbours.
 */
#include "config.h"

#include <math.h>

#include "sheets/rod-drawing-private.h"
#include "sheets/rod-mark-place.h"

/* A mark may be narrowed to this. */
#define MARK_NARROWEST 0.8

/* A mark keeps this share of its height free on each side, along and across the board. */
#define MARK_CLEAR_ALONG 0.25
#define MARK_CLEAR_ACROSS 0.12

/* Length on the device of a unit step in the surface's plane. */
static double
step_length (RodAffine map,
             RodPoint  step)
{
  return hypot (map.xx * step.x + map.xy * step.y, map.yx * step.x + map.yy * step.y);
}

/* Every how many courses there is room for a mark: 1, 2, 5, 10, … */
static int
mark_step (double pitch,
           double height)
{
  static const int steps[] = { 1, 2, 5, 10, 20, 50 };
  double           needed = height * (1.0 + 2.0 * MARK_CLEAR_ACROSS);

  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    if (steps[i] * pitch >= needed)
      return steps[i];

  return 0;
}

/* Of every second course the even ones, of every fifth or tenth the first too: nobody counts from
 * an edge then. */
static gboolean
is_marked (int course,
           int step)
{
  return step >= 2 && (course % step == 0 || (course == 1 && step > 2));
}

static void
draw_halo (cairo_t *cr,
           RodInk   behind,
           RodPoint at,
           double   angle_deg,
           double   width,
           double   height)
{
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_rotate (cr, -angle_deg * G_PI / 180.0);
  cairo_rectangle (cr,
                   -0.5 * width,
                   -(0.5 + MARK_CLEAR_ACROSS) * height,
                   width,
                   (1.0 + 2.0 * MARK_CLEAR_ACROSS) * height);
  rod_ink_use (behind, cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

/* The box round a mark, whichever way it is turned. */
static void
take_place (const RodDrawingOptions *options,
            RodPoint                 at,
            double                   angle_deg,
            double                   width,
            double                   height)
{
  double turn = angle_deg * G_PI / 180.0;
  double half_x = 0.5 * (fabs (cos (turn)) * width + fabs (sin (turn)) * height);
  double half_y = 0.5 * (fabs (sin (turn)) * width + fabs (cos (turn)) * height);

  if (options->clearing != NULL)
    rod_clearing_take (options->clearing,
                       (RodBox){ at.x - half_x, at.y - half_y, at.x + half_x, at.y + half_y });
}

static gboolean
draw_mark (cairo_t                 *cr,
           RodLettering            *lettering,
           const RodPlan           *plan,
           guint                    index,
           RodAffine                map,
           const RodDrawingOptions *options)
{
  const RodPiece *piece = rod_plan_piece (plan, index);
  const RodField *field = rod_plan_field (plan, piece->field);
  RodPoint        across = { field->to_surface.xy, field->to_surface.yy };
  double          height = options->mark_height;
  double          needed = height * (1.0 + 2.0 * MARK_CLEAR_ACROSS);
  double          scale_across = step_length (map, across);
  int             step = mark_step (scale_across * field->board->cover_mm, height);
  gboolean        fits = scale_across * piece->width_mm > needed;
  double          width;
  RodMarkPlace    place;
  RodPoint        at, along;
  RodInk          behind = rod_drawing_board_ink (piece->colour, options);
  RodLetterStyle  style = { .height = height, .align = ROD_ALIGN_CENTRE };

  if (!fits && (!options->mark_some || !is_marked (piece->course, step)))
    return FALSE;
  if (!rod_mark_place_find (plan,
                            index,
                            fits ? needed / scale_across : 0.5 * piece->width_mm,
                            &place))
    return FALSE;

  width = rod_lettering_width (lettering, piece->mark, height, FALSE);
  style.width = place.room_mm * step_length (map, place.along) - 2.0 * MARK_CLEAR_ALONG * height;
  if (style.width < MARK_NARROWEST * width)
    return FALSE;

  at = rod_affine_apply (map, place.at);
  along.x = map.xx * place.along.x + map.xy * place.along.y;
  along.y = map.yx * place.along.x + map.yy * place.along.y;
  style.angle_deg = -atan2 (along.y, along.x) * 180.0 / G_PI;
  if (!fits)
    draw_halo (cr, behind, at, style.angle_deg, fmin (width, style.width) + 0.4 * height, height);
  rod_ink_use (fabs (rod_ink_luminance (behind) - rod_ink_luminance (options->ink)) >=
                   fabs (rod_ink_luminance (behind) - rod_ink_luminance (options->paper))
                 ? options->ink
                 : options->paper,
               cr);
  take_place (options, at, style.angle_deg, fmin (width, style.width), height);
  /* The base line runs half a capital below the middle, square to the writing. */
  rod_lettering_write (lettering,
                       cr,
                       piece->mark,
                       &style,
                       at.x + 0.5 * height * sin (style.angle_deg * G_PI / 180.0),
                       at.y + 0.5 * height * cos (style.angle_deg * G_PI / 180.0));

  return TRUE;
}

guint
rod_drawing_marks (cairo_t                 *cr,
                   RodLettering            *lettering,
                   const RodPlan           *plan,
                   guint                    face,
                   RodAffine                to_device,
                   const RodDrawingOptions *options)
{
  double clip[4];
  guint  first, end;
  guint  n = 0;

  g_return_val_if_fail (cr != NULL && lettering != NULL && plan != NULL && options != NULL, 0);

  cairo_clip_extents (cr, &clip[0], &clip[1], &clip[2], &clip[3]);
  rod_drawing_find_pieces (plan, face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodPiece *piece = rod_plan_piece (plan, i);

      if (piece->n_rings > 0 &&
          rod_drawing_ring_shows (clip, plan->rings, piece->first_ring, to_device) &&
          draw_mark (cr, lettering, plan, i, to_device, options))
        n++;
    }

  return n;
}
