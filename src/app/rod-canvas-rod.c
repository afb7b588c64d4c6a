/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The storey rod: a stick beside the house with a mark at each joint line of what is selected, and
 * the running dimension from the datum at each mark, as it would be written on the real one. It
 * stands at the left where boards are level in the net and lies along the top where they are
 * upright; boards at other angles have none. Chalk lines carry the course of a selected board over
 * every surface.
 */
#include "config.h"

#include "app/rod-canvas-private.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "sheets/rod-figures.h"

/* The stick: from the widget's edge, and its breadth. */
#define ROD_FROM 10.0
#define ROD_BREADTH 40.0

/* Figures and marks that would be closer than this many pixels are left out. */
#define FIGURES_FROM 12.0
#define MARKS_FROM 3.0

#define FIGURE_HEIGHT 6.5
#define DIAGONAL_LEAST 1e-6

typedef struct
{
  const RodField *field;
  gboolean        stands; /* else it lies */
  double          scale;  /* pixels for a millimetre along the rod, signed */
  double          origin; /* pixel of joint axis 0 */
  double          low_mm; /* ends, on the joint axis */
  double          high_mm;
  double          zero_mm; /* what is added to the joint axis for the figures */
} Rod;

/* Where a surface has several fields, and where nothing is selected, the one that is highest over
 * its joint lines has most to say. */
static double
height_of (const RodField *field)
{
  RodPoint low;
  RodPoint high;

  if (field->pocket->n_rings == 0)
    return 0;
  rod_region_extent (field->pocket, &low, &high);

  return high.y - low.y;
}

static const RodField *
highest_field (const RodPlan *plan,
               guint          first,
               guint          n_fields,
               int            group)
{
  const RodField *highest = NULL;

  for (guint i = first; i < first + n_fields; i++)
    {
      const RodField *field = rod_plan_field (plan, i);

      if ((group < 0 || field->group == (guint) group) &&
          (highest == NULL || height_of (field) > height_of (highest)))
        highest = field;
    }

  return highest;
}

static int
largest_group (const RodPlan *plan)
{
  int   largest = -1;
  guint n_fields = 0;

  for (guint i = 0; i < plan->groups->len; i++)
    {
      const RodGroup *group = &g_array_index (plan->groups, RodGroup, i);

      if (group->n_fields > n_fields)
        {
          largest = (int) i;
          n_fields = group->n_fields;
        }
    }

  return largest;
}

static const RodField *
field_of_selection (RodCanvas *self)
{
  RodPlace place = self->selection != NULL ? rod_selection_get (self->selection)
                                           : rod_place_house ();

  if (!rod_place_exists (place, self->plan) || place.kind == ROD_PLACE_HOUSE)
    return highest_field (self->plan, 0, self->plan->fields->len, largest_group (self->plan));

  if (place.kind == ROD_PLACE_PIECE)
    return rod_plan_field (self->plan, rod_plan_piece (self->plan, place.index)->field);

  return highest_field (self->plan,
                        rod_plan_face (self->plan, place.face)->first_field,
                        rod_plan_face (self->plan, place.face)->n_fields,
                        -1);
}

static gboolean
make_rod (RodCanvas *self,
          Rod       *rod)
{
  const RodField *field = field_of_selection (self);
  const RodFace  *face;
  RodAffine       map;
  RodPoint        low;
  RodPoint        high;

  if (field == NULL || field->pocket->n_rings == 0)
    return FALSE;

  face = rod_plan_face (self->plan, field->face);
  map = rod_affine_multiply (rod_affine_multiply (field->to_surface, self->net[field->face]),
                             rod_canvas_view_affine (&self->view));
  if (fabs (map.xy) > DIAGONAL_LEAST && fabs (map.yy) > DIAGONAL_LEAST)
    return FALSE;

  rod_region_extent (field->pocket, &low, &high);
  *rod = (Rod){
    .field = field,
    .stands = fabs (map.xy) <= DIAGONAL_LEAST,
    .low_mm = low.y,
    .high_mm = high.y,
  };
  rod->scale = rod->stands ? map.yy : map.xy;
  rod->origin = rod->stands ? map.y0 : map.x0;
  /* Level boards of a wall are measured from the datum, all others from their own edge. */
  rod->zero_mm = fabs (field->direction_deg) < ROD_EPSILON_DEG &&
                     face->surface->kind == ROD_SURFACE_WALL
                   ? face->surface->level_mm
                   : -low.y;

  return TRUE;
}

static double
pixel_of (const Rod *rod,
          double     at_mm)
{
  return rod->origin + rod->scale * at_mm;
}

/* A rectangle given along and across the rod. */
static void
rod_rectangle (const Rod *rod,
               cairo_t   *cr,
               double     along,
               double     across,
               double     length,
               double     breadth)
{
  if (rod->stands)
    cairo_rectangle (cr, across, along, breadth, length);
  else
    cairo_rectangle (cr, along, across, length, breadth);
}

static void
draw_stick (RodCanvas *self,
            cairo_t   *cr,
            const Rod *rod)
{
  double from = MIN (pixel_of (rod, rod->low_mm), pixel_of (rod, rod->high_mm)) - 6;
  double to = MAX (pixel_of (rod, rod->low_mm), pixel_of (rod, rod->high_mm)) + 6;
  double end = rod->stands ? self->view.height : self->view.width;

  from = floor (CLAMP (from, -2, end + 2)) + 0.5;
  to = floor (CLAMP (to, -2, end + 2)) + 0.5;
  rod_rectangle (rod, cr, from, ROD_FROM + 0.5, to - from, ROD_BREADTH);
  rod_ink_use (self->palette.wood, cr);
  cairo_fill_preserve (cr);
  rod_ink_use (self->palette.wood_dark, cr);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
}

static void
write_figure (RodCanvas *self,
              cairo_t   *cr,
              const Rod *rod,
              double     at_mm)
{
  g_autofree char *text = rod_figures_length (self->plan->house->units,
                                              round (at_mm + rod->zero_mm));
  RodLetterStyle   style = {
      .height = FIGURE_HEIGHT,
      .align = ROD_ALIGN_LEFT,
      .width = ROD_BREADTH - 6,
      .angle_deg = rod->stands ? 0 : 90,
  };
  double at = pixel_of (rod, at_mm);

  /* Above its mark, as on a stick. */
  if (rod->stands)
    rod_lettering_write (self->lettering, cr, text, &style, ROD_FROM + 4, at - 3);
  else
    rod_lettering_write (self->lettering, cr, text, &style, at - 3, ROD_FROM + ROD_BREADTH - 3);
}

/* The least of 1, 2, 5, 10, … marks that takes up @least pixels. */
static int
step_of (double spacing,
         double least)
{
  static const int steps[] = { 1, 2, 5, 10, 20, 50, 100 };

  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (steps[i] * spacing >= least)
      return steps[i];

  return 1000;
}

static void
draw_mark (RodCanvas *self,
           cairo_t   *cr,
           const Rod *rod,
           double     at_mm,
           gboolean   figure)
{
  double length = figure ? ROD_BREADTH : ROD_BREADTH / 3;

  rod_rectangle (rod,
                 cr,
                 floor (pixel_of (rod, at_mm)),
                 rod->stands ? ROD_FROM + ROD_BREADTH - length : ROD_FROM,
                 1,
                 length);
  cairo_fill (cr);
  if (figure)
    write_figure (self, cr, rod, at_mm);
}

static void
draw_marks (RodCanvas *self,
            cairo_t   *cr,
            const Rod *rod)
{
  double pitch_mm = rod->field->board->cover_mm;
  double spacing = fabs (rod->scale) * pitch_mm;
  double end = rod->stands ? self->view.height : self->view.width;
  int    figure_step = step_of (spacing, FIGURES_FROM);
  int    step = MIN (step_of (spacing, MARKS_FROM), figure_step);
  int    first = (int) ceil ((rod->low_mm - rod->field->phase_mm) / pitch_mm - ROD_EPSILON_MM);
  int    last = (int) floor ((rod->high_mm - rod->field->phase_mm) / pitch_mm + ROD_EPSILON_MM);

  rod_ink_use (self->palette.wood_ink, cr);
  for (int k = first; k <= last; k += step)
    {
      double at_mm = rod->field->phase_mm + k * pitch_mm;
      double at = pixel_of (rod, at_mm);

      if (at > -FIGURES_FROM && at < end + FIGURES_FROM)
        draw_mark (self, cr, rod, at_mm, (k - first) % figure_step == 0);
    }
}

/* The heights that must be met: head and sill of each opening, as notches in the stick's edge. */
static void
draw_openings (RodCanvas *self,
               cairo_t   *cr,
               const Rod *rod)
{
  const RodFace *face = rod_plan_face (self->plan, rod->field->face);

  rod_ink_use (self->palette.accent, cr);
  for (guint i = 0; i < face->surface->openings->len; i++)
    {
      RodPoint low;
      RodPoint high;
      double   from;
      double   to;

      rod_canvas_place_extent (self, rod_place_opening (rod->field->face, i), &low, &high);
      low = rod_affine_apply (rod_canvas_view_affine (&self->view), low);
      high = rod_affine_apply (rod_canvas_view_affine (&self->view), high);
      from = rod->stands ? MIN (low.y, high.y) : MIN (low.x, high.x);
      to = rod->stands ? MAX (low.y, high.y) : MAX (low.x, high.x);
      rod_rectangle (rod, cr, from, ROD_FROM + ROD_BREADTH + 2, to - from, 2);
    }
  cairo_fill (cr);
}

static void
draw_chalk_line (RodCanvas *self,
                 cairo_t   *cr,
                 const Rod *rod,
                 double     at_mm)
{
  double at = floor (pixel_of (rod, at_mm)) + 0.5;

  if (rod->stands)
    {
      cairo_move_to (cr, ROD_FROM, at);
      cairo_line_to (cr, self->view.width, at);
    }
  else
    {
      cairo_move_to (cr, at, ROD_FROM);
      cairo_line_to (cr, at, self->view.height);
    }
}

static void
draw_chalk (RodCanvas *self,
            cairo_t   *cr,
            const Rod *rod)
{
  RodPlace  place = self->selection != NULL ? rod_selection_get (self->selection)
                                            : rod_place_house ();
  double    pitch_mm = rod->field->board->cover_mm;
  RodPoint  low;
  RodPoint  high;
  RodAffine to_board;
  RodPoint  middle;
  double    line_mm;

  if (place.kind != ROD_PLACE_PIECE || !rod_place_exists (place, self->plan))
    return;

  to_board = rod_affine_multiply (rod_affine_invert (self->net[place.face]),
                                  rod->field->to_board);
  rod_canvas_place_extent (self, place, &low, &high);
  middle = rod_affine_apply (to_board, (RodPoint){ (low.x + high.x) / 2, (low.y + high.y) / 2 });
  line_mm = rod->field->phase_mm +
            floor ((middle.y - rod->field->phase_mm) / pitch_mm) * pitch_mm;

  draw_chalk_line (self, cr, rod, line_mm);
  draw_chalk_line (self, cr, rod, line_mm + pitch_mm);
  rod_ink_use (self->palette.chalk, cr);
  cairo_set_line_width (cr, 1);
  cairo_set_dash (cr, (double[]){ 6, 4 }, 2, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);

  rod_rectangle (rod,
                 cr,
                 MIN (pixel_of (rod, line_mm), pixel_of (rod, line_mm + pitch_mm)),
                 ROD_FROM,
                 fabs (rod->scale) * pitch_mm,
                 ROD_BREADTH);
  cairo_set_source_rgba (cr,
                         self->palette.chalk.red,
                         self->palette.chalk.green,
                         self->palette.chalk.blue,
                         0.35);
  cairo_fill (cr);
}

void
rod_canvas_draw_rod (RodCanvas *self,
                     cairo_t   *cr)
{
  Rod rod;

  if (self->stage == ROD_STAGE_SURVEY || !make_rod (self, &rod))
    return;

  draw_stick (self, cr, &rod);
  draw_chalk (self, cr, &rod);
  draw_marks (self, cr, &rod);
  draw_openings (self, cr, &rod);
}
