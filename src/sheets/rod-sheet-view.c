/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A face on a page: its scale and place, and what of the plan belongs to it.
 *
 * Notes stand to the right of the drawing or below it, whichever leaves the larger scale: a long
 * low wall wants them below, a gable beside it.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "sheets/rod-contour.h"

#define NOTES_WIDTH 60.0
#define NOTES_HEIGHT 34.0
#define NOTES_GAP 3.0

static double
choose_scale (const RodFaceView *view,
              RodRoom            room,
              RodBorder          border)
{
  return rod_scale_choose (view->high.x - view->low.x,
                           view->high.y - view->low.y,
                           room.width - border.left - border.right,
                           room.height - border.top - border.bottom);
}

RodFaceView
rod_view_plan (const RodSheets *sheets,
               guint            face,
               RodBorder        border,
               double           least)
{
  RodFaceView view = { .face = face };
  RodRoom     beside = sheets->room, below = sheets->room, room;
  double      paper;

  rod_contour_surface_extent (rod_plan_face (sheets->plan, face)->surface, &view.low, &view.high);
  beside.width -= NOTES_WIDTH + NOTES_GAP;
  below.height -= NOTES_HEIGHT + NOTES_GAP;
  view.scale = fmax (least, choose_scale (&view, beside, border));
  if (fmax (least, choose_scale (&view, below, border)) < view.scale)
    {
      room = below;
      view.scale = fmax (least, choose_scale (&view, below, border));
      view.notes = (RodRoom){ room.x, room.y + room.height + NOTES_GAP, room.width, NOTES_HEIGHT };
    }
  else
    {
      room = beside;
      view.notes = (RodRoom){ room.x + room.width + NOTES_GAP, room.y, NOTES_WIDTH, room.height };
    }

  paper = 1.0 / view.scale;
  view.to_page = (RodAffine){
    paper,
    0.0,
    room.x + border.left +
      0.5 * (room.width - border.left - border.right - paper * (view.high.x + view.low.x)),
    0.0,
    -paper,
    room.y + border.top +
      0.5 * (room.height - border.top - border.bottom + paper * (view.high.y + view.low.y))
  };

  return view;
}

/* Trims of a face in the order of their numbers. */
GPtrArray *
rod_face_trims (const RodSheets *sheets,
                guint            face)
{
  GPtrArray *trims = g_ptr_array_new ();

  for (guint i = 0; i < sheets->trims->len; i++)
    {
      const RodTrim *trim = g_ptr_array_index (sheets->trims, i);

      if (rod_face_trim_run (sheets->plan, face, trim) > 0.0)
        g_ptr_array_add (trims, (gpointer) trim);
    }

  return trims;
}

double
rod_face_trim_run (const RodPlan *plan,
                   guint          face,
                   const RodTrim *trim)
{
  double sum = 0.0;
  guint  first, end;

  rod_drawing_find_trims (plan, face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, i);

      sum += run->trim == trim ? run->length_mm : 0.0;
    }

  return sum;
}

/* The field with most pieces decides which way a drawing is dimensioned. */
const RodField *
rod_face_main_field (const RodPlan *plan,
                     guint          face)
{
  const RodFace  *of = rod_plan_face (plan, face);
  const RodField *most = NULL;

  for (guint i = of->first_field; i < of->first_field + of->n_fields; i++)
    {
      const RodField *field = rod_plan_field (plan, i);

      if (most == NULL || field->n_pieces > most->n_pieces)
        most = field;
    }

  return most;
}

gboolean
rod_field_is_level (const RodField *field)
{
  return fabs (field->to_board.yx) < sin (ROD_EPSILON_DEG * G_PI / 180.0);
}

gboolean
rod_field_is_upright (const RodField *field)
{
  return fabs (field->to_board.yy) < sin (ROD_EPSILON_DEG * G_PI / 180.0);
}

GArray *
rod_face_main_lines (const RodPlan *plan,
                     guint          face)
{
  const RodField *field = rod_face_main_field (plan, face);

  return field != NULL ? rod_joint_lines_new (plan, (guint) (field - rod_plan_field (plan, 0)))
                       : g_array_new (FALSE, FALSE, sizeof (RodJointLine));
}
