/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The house as a stage shows it, with the same drawing that goes on paper.
 *
 * The survey shows what was measured; the set-out boards; the frame what is behind them, the boards
 * only hinted at; the order those boards that a bar gives, among the others. What would be finer
 * than the pixels is left out, so that a street of houses costs no more than one.
 */
#include "config.h"

#include "app/rod-canvas-private.h"

#include "sheets/rod-drawing.h"

/* Courses lower than this many pixels have no joint lines, and than this are one area. */
#define JOINTS_FROM 4.0
#define BOARDS_FROM 1.2

/* Height of capitals of marks, and of the courses that have room for them. */
#define MARK_HEIGHT 7.5
#define MARKS_FROM 11.0

/* Faces smaller than this many pixels are not worth a trim or a batten. */
#define DETAILS_FROM 24.0

/* Trims and linings thinner than this many pixels only darken the lines they lie on. */
#define THIN 1.0
#define USUAL_TRIM_MM 60.0

static const RodField *
first_field (RodCanvas *self,
             guint      face)
{
  const RodFace *it = rod_plan_face (self->plan, face);

  return it->n_fields > 0 ? rod_plan_field (self->plan, it->first_field) : NULL;
}

/* Colour of most boards; a mix is judged by its first board. */
static RodInk
board_ink (RodCanvas      *self,
           const RodField *field)
{
  const RodColour *colour = field->colour;

  if (colour == NULL && field->n_pieces > 0)
    colour = rod_plan_piece (self->plan, field->first_piece)->colour;

  return rod_ink_parse (colour != NULL ? colour->rgb : NULL);
}

static double
course_height (RodCanvas *self,
               guint      face)
{
  const RodField *field = first_field (self, face);

  return field != NULL ? field->board->cover_mm * self->view.scale : 0;
}

static guint
layers_of_stage (RodStage stage)
{
  switch (stage)
    {
    case ROD_STAGE_SURVEY:
      return ROD_LAYER_OPENINGS | ROD_LAYER_OUTLINE;

    case ROD_STAGE_FRAME:
      return ROD_LAYER_BATTENS | ROD_LAYER_TRIMS | ROD_LAYER_OPENINGS | ROD_LAYER_OUTLINE;

    case ROD_STAGE_ORDER:
      return ROD_LAYER_BOARDS | ROD_LAYER_JOINTS | ROD_LAYER_OPENINGS | ROD_LAYER_OUTLINE |
             ROD_LAYER_MARKS;

    case ROD_STAGE_SET_OUT:
    case ROD_STAGE_SHEETS:
    case ROD_N_STAGES:
    default:
      return ROD_LAYER_BOARDS | ROD_LAYER_JOINTS | ROD_LAYER_TRIMS | ROD_LAYER_OPENINGS |
             ROD_LAYER_OUTLINE | ROD_LAYER_MARKS;
    }
}

/* Leaves out what would be finer than the pixels. */
static guint
layers_worth_drawing (RodCanvas *self,
                      guint      face)
{
  guint    layers = layers_of_stage (self->stage);
  double   course = course_height (self, face);
  RodPoint low = g_array_index (self->boxes, RodPoint, 2 * face);
  RodPoint high = g_array_index (self->boxes, RodPoint, 2 * face + 1);
  double   extent = MAX (high.x - low.x, high.y - low.y) * self->view.scale;

  if (course < JOINTS_FROM)
    layers &= (guint) ~ROD_LAYER_JOINTS;
  if (course < BOARDS_FROM)
    layers &= (guint) ~ROD_LAYER_BOARDS;
  if (course < MARKS_FROM)
    layers &= (guint) ~ROD_LAYER_MARKS;
  if (extent < DETAILS_FROM)
    layers &= (guint) ~(ROD_LAYER_TRIMS | ROD_LAYER_BATTENS);
  if (USUAL_TRIM_MM * self->view.scale < THIN)
    layers &= (guint) ~ROD_LAYER_TRIMS;

  return layers;
}

static double
tint_of_stage (RodStage stage)
{
  if (stage == ROD_STAGE_SURVEY)
    return 0;
  if (stage == ROD_STAGE_FRAME)
    return 0.16;
  if (stage == ROD_STAGE_ORDER)
    return 0.4;

  return 1;
}

/* Seams and marks must be seen on light and on dark boards, in light and in dark style. */
static RodInk
ink_on_boards (RodCanvas *self,
               RodInk     boards,
               double     strength)
{
  return rod_ink_mix (boards, rod_ink_on (boards), self->palette.strong ? 1 : strength);
}

static void
draw_bare (RodCanvas *self,
           cairo_t   *cr,
           guint      face,
           RodInk     ink)
{
  rod_drawing_trace_outline (cr,
                             rod_plan_face (self->plan, face)->surface,
                             rod_canvas_face_affine (self, face));
  rod_ink_use (ink, cr);
  cairo_fill (cr);
}

static void
draw_marks (RodCanvas         *self,
            cairo_t           *cr,
            guint              face,
            RodDrawingOptions *options,
            RodInk             boards)
{
  /* Black or white in full: on a board of middling lightness nothing less can be read. */
  options->ink = ink_on_boards (self, boards, 1);
  rod_drawing_marks (cr,
                     self->lettering,
                     self->plan,
                     face,
                     rod_canvas_face_affine (self, face),
                     options);
}

static void
draw_face (RodCanvas *self,
           cairo_t   *cr,
           guint      face)
{
  const RodFace    *it = rod_plan_face (self->plan, face);
  const RodField   *field = first_field (self, face);
  guint             layers = layers_worth_drawing (self, face);
  RodInk            boards = self->palette.surface;
  RodDrawingOptions options;

  rod_drawing_options_init (&options);
  options.layers = layers & (guint) ~ROD_LAYER_MARKS;
  options.narrow = 1;
  options.wide = it->opening >= 0 ? 1 : 1.5;
  options.mark_height = MARK_HEIGHT;
  options.tint = tint_of_stage (self->stage);
  options.paper = self->palette.surface;
  options.ink = self->palette.ink;
  options.trim = self->stage == ROD_STAGE_FRAME ? self->palette.chalk : self->palette.faint;
  options.batten = self->palette.batten;
  if (field != NULL)
    boards = rod_ink_mix (options.paper, board_ink (self, field), options.tint);
  options.joint = ink_on_boards (self, boards, 0.5);

  /* Boards that are drawn one by one stand before the bare wall. */
  draw_bare (self, cr, face, layers & ROD_LAYER_BOARDS ? self->palette.surface : boards);
  rod_drawing_face (cr,
                    self->lettering,
                    self->plan,
                    face,
                    rod_canvas_face_affine (self, face),
                    &options);
  if (layers & ROD_LAYER_MARKS)
    draw_marks (self, cr, face, &options, boards);
}

static gboolean
is_thin (RodCanvas *self,
         guint      face)
{
  RodPoint low = g_array_index (self->boxes, RodPoint, 2 * face);
  RodPoint high = g_array_index (self->boxes, RodPoint, 2 * face + 1);

  return MIN (high.x - low.x, high.y - low.y) * self->view.scale < 2 * THIN;
}

void
rod_canvas_draw_house (RodCanvas *self,
                       cairo_t   *cr)
{
  gboolean survey = self->stage == ROD_STAGE_SURVEY;

  /* Linings lie in the openings of their walls, so walls come first; nobody measured linings. */
  for (guint pass = 0; pass < (survey ? 1 : 2); pass++)
    for (guint i = 0; i < self->plan->faces->len; i++)
      {
        gboolean derived = rod_plan_face (self->plan, i)->opening >= 0;

        if (derived != (pass == 1) || !rod_canvas_sees_face (self, i) ||
            (derived && is_thin (self, i)))
          continue;
        draw_face (self, cr, i);
      }
  if (survey)
    rod_canvas_draw_measures (self, cr);
}
