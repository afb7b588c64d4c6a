/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is drawn over the house: pieces that are brought out, what is selected, findings, names of
 * surfaces while they are small, and a scale bar.
 */
#include "config.h"

#include "app/rod-canvas-private.h"

#include <math.h>

#include "app/rod-finding-item.h"
#include "sheets/rod-contour.h"
#include "sheets/rod-drawing.h"
#include "sheets/rod-figures.h"
#include "sheets/rod-scale.h"

/* Half the height of a finding's sign, and how near a click must be. */
#define SIGN_RADIUS 8.0
#define SIGN_REACH 11.0

#define LABEL_HEIGHT 7.5

/* Names are written on faces from this size on, and in the middle of a face up to that height. */
#define NAME_FROM 34.0
#define NAME_TO 180.0

/* Length of the scale bar at most, and its place: to the left of the buttons over the drawing. */
#define BAR_LENGTH 150.0
#define BAR_RIGHT 138.0
#define BAR_BELOW 20.0
#define BAR_PLATE 7.0

static void
trace_piece (RodCanvas *self,
             cairo_t   *cr,
             guint      index)
{
  const RodPiece  *piece = rod_plan_piece (self->plan, index);
  const RodRegion *rings = self->plan->rings;
  RodAffine        map =
    rod_canvas_face_affine (self, rod_plan_field (self->plan, piece->field)->face);

  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    {
      for (guint i = rings->ring_starts[r]; i < rings->ring_starts[r + 1]; i++)
        {
          RodPoint at = rod_affine_apply (map, rings->points[i]);

          if (i == rings->ring_starts[r])
            cairo_move_to (cr, at.x, at.y);
          else
            cairo_line_to (cr, at.x, at.y);
        }
      cairo_close_path (cr);
    }
}

static void
draw_highlight (RodCanvas *self,
                cairo_t   *cr)
{
  if (self->highlight == NULL)
    return;

  for (guint i = 0; i < self->highlight->len; i++)
    trace_piece (self, cr, g_array_index (self->highlight, guint, i));
  cairo_set_source_rgba (cr,
                         self->palette.accent.red,
                         self->palette.accent.green,
                         self->palette.accent.blue,
                         0.55);
  cairo_fill_preserve (cr);
  rod_ink_use (self->palette.accent, cr);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);
}

static void
trace_place (RodCanvas *self,
             cairo_t   *cr,
             RodPlace   place)
{
  RodAffine map = rod_canvas_face_affine (self, place.face);

  if (place.kind == ROD_PLACE_PIECE)
    trace_piece (self, cr, place.index);
  else if (place.kind == ROD_PLACE_OPENING)
    rod_drawing_trace_opening (cr, rod_place_opening_of (place, self->plan), map);
  else
    rod_drawing_trace_outline (cr, rod_plan_face (self->plan, place.face)->surface, map);
}

static void
draw_selection (RodCanvas *self,
                cairo_t   *cr)
{
  RodPlace place;

  if (self->selection == NULL)
    return;
  place = rod_selection_get (self->selection);
  if (place.kind == ROD_PLACE_HOUSE || !rod_place_exists (place, self->plan))
    return;

  trace_place (self, cr, place);
  if (place.kind != ROD_PLACE_FACE)
    {
      cairo_set_source_rgba (cr,
                             self->palette.accent.red,
                             self->palette.accent.green,
                             self->palette.accent.blue,
                             0.35);
      cairo_fill_preserve (cr);
    }
  /* A light rim keeps the line visible on boards of its own colour. */
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  rod_ink_use (self->palette.surface, cr);
  cairo_set_line_width (cr, 5);
  cairo_stroke_preserve (cr);
  rod_ink_use (self->palette.accent, cr);
  cairo_set_line_width (cr, 2.5);
  cairo_stroke (cr);
}

/* A finding without a place of its own is shown in the middle of what it is about. */
static gboolean
locate_finding (RodCanvas        *self,
                const RodFinding *finding,
                RodPoint         *at)
{
  RodPlace place = rod_place_of_finding (self->plan, finding);
  RodPoint low;
  RodPoint high;

  if (place.kind == ROD_PLACE_HOUSE)
    return FALSE;

  if (finding->has_at && finding->face >= 0)
    {
      *at = rod_affine_apply (rod_canvas_face_affine (self, (guint) finding->face), finding->at);
      return TRUE;
    }

  rod_canvas_place_extent (self, place, &low, &high);
  *at = rod_affine_apply (rod_canvas_view_affine (&self->view),
                          (RodPoint){ (low.x + high.x) / 2, (low.y + high.y) / 2 });

  return TRUE;
}

/* Each severity has its own shape, since colour alone does not reach everyone. */
static void
trace_sign (cairo_t    *cr,
            RodSeverity severity,
            RodPoint    at)
{
  const double r = SIGN_RADIUS;

  if (severity == ROD_SEVERITY_NOTE)
    {
      cairo_arc (cr, at.x, at.y, r - 1, 0, 2 * G_PI);
    }
  else if (severity == ROD_SEVERITY_SHOULD)
    {
      cairo_move_to (cr, at.x, at.y - r - 1);
      cairo_line_to (cr, at.x + r + 1, at.y + r);
      cairo_line_to (cr, at.x - r - 1, at.y + r);
      cairo_close_path (cr);
    }
  else
    {
      for (int i = 0; i < 8; i++)
        {
          double angle = (i + 0.5) * G_PI / 4;

          cairo_line_to (cr, at.x + (r + 1) * cos (angle), at.y + (r + 1) * sin (angle));
        }
      cairo_close_path (cr);
    }
}

static void
draw_sign (RodCanvas  *self,
           cairo_t    *cr,
           RodSeverity severity,
           RodPoint    at)
{
  RodLetterStyle style = { .height = 8, .bold = TRUE, .align = ROD_ALIGN_CENTRE };

  trace_sign (cr, severity, at);
  rod_ink_use (self->palette.severity[severity], cr);
  cairo_fill_preserve (cr);
  rod_ink_use (self->palette.on_severity, cr);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  rod_lettering_write (self->lettering,
                       cr,
                       severity == ROD_SEVERITY_NOTE ? "i" : "!",
                       &style,
                       at.x,
                       at.y + (severity == ROD_SEVERITY_SHOULD ? 6 : 4));
}

static gboolean
is_in_sight (RodCanvas *self,
             RodPoint   at)
{
  return at.x > -SIGN_REACH && at.x < self->view.width + SIGN_REACH &&
         at.y > -SIGN_REACH && at.y < self->view.height + SIGN_REACH;
}

static void
draw_findings (RodCanvas *self,
               cairo_t   *cr)
{
  guint n_findings = self->findings != NULL ? g_list_model_get_n_items (self->findings) : 0;

  /* The worst come first in the list and must lie on top. */
  for (guint i = n_findings; i-- > 0;)
    {
      g_autoptr (RodFindingItem) item = g_list_model_get_item (self->findings, i);
      const RodFinding *finding = rod_finding_item_get (item);
      RodPoint          at;

      if (rod_finding_item_get_plan (item) == self->plan &&
          locate_finding (self, finding, &at) && is_in_sight (self, at))
        draw_sign (self, cr, finding->severity, at);
    }
}

gboolean
rod_canvas_find_sign (RodCanvas *self,
                      double     x,
                      double     y,
                      RodPlace  *place)
{
  guint n_findings = self->findings != NULL ? g_list_model_get_n_items (self->findings) : 0;

  for (guint i = 0; i < n_findings; i++)
    {
      g_autoptr (RodFindingItem) item = g_list_model_get_item (self->findings, i);
      const RodFinding *finding = rod_finding_item_get (item);
      RodPoint          at;

      if (rod_finding_item_get_plan (item) != self->plan ||
          !locate_finding (self, finding, &at) ||
          hypot (at.x - x, at.y - y) > SIGN_REACH)
        continue;

      *place = rod_place_of_finding (self->plan, finding);
      return TRUE;
    }

  return FALSE;
}

static double
pill_width (RodCanvas  *self,
            const char *text)
{
  return rod_lettering_width (self->lettering, text, LABEL_HEIGHT, TRUE) + 12;
}

static void
draw_pill (RodCanvas  *self,
           cairo_t    *cr,
           const char *text,
           RodPoint    middle)
{
  RodLetterStyle style = { .height = LABEL_HEIGHT, .bold = TRUE, .align = ROD_ALIGN_CENTRE };
  double         width = pill_width (self, text);

  rod_ink_use (self->palette.surface, cr);
  cairo_rectangle (cr, middle.x - width / 2, middle.y - LABEL_HEIGHT, width, 2 * LABEL_HEIGHT);
  cairo_fill_preserve (cr);
  rod_ink_use (self->palette.ink, cr);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  rod_lettering_write (self->lettering, cr, text, &style, middle.x, middle.y + LABEL_HEIGHT / 2);
}

/* The surface's name where it fits, else its mark alone: below a wall, where the ground is, and in
 * the middle of all else. %NULL where there is no room for either. */
static char *
place_name (RodCanvas *self,
            guint      index,
            RodPoint  *middle)
{
  const RodFace   *face = rod_plan_face (self->plan, index);
  RodPoint         low = g_array_index (self->boxes, RodPoint, 2 * index);
  RodPoint         high = g_array_index (self->boxes, RodPoint, 2 * index + 1);
  double           width = (high.x - low.x) * self->view.scale;
  double           height = (high.y - low.y) * self->view.scale;
  g_autofree char *full = g_strdup_printf ("%s  %s", face->mark, face->label);
  const char      *text = full;
  gboolean         wall = face->surface->kind == ROD_SURFACE_WALL;
  RodPoint         at;

  if (face->opening >= 0 || width < NAME_FROM || (!wall && height < NAME_FROM))
    return NULL;
  /* Who looks closely reads the marks of the boards. */
  if (!wall && height > NAME_TO)
    return NULL;
  if (pill_width (self, text) + 4 > width)
    text = face->mark;
  if (pill_width (self, text) + 4 > width)
    return NULL;

  at = rod_affine_apply (rod_canvas_view_affine (&self->view),
                         (RodPoint){ (low.x + high.x) / 2,
                                     wall ? low.y : (low.y + high.y) / 2 });
  if (wall)
    at.y += LABEL_HEIGHT + 4;
  *middle = (RodPoint){ floor (at.x) + 0.5, floor (at.y) + 0.5 };

  return g_strdup (text);
}

gboolean
rod_canvas_name_room (RodCanvas       *self,
                      guint            face,
                      graphene_rect_t *room)
{
  RodPoint         middle;
  g_autofree char *text = place_name (self, face, &middle);
  double           width = text != NULL ? pill_width (self, text) : 0;

  if (text == NULL)
    return FALSE;

  *room = GRAPHENE_RECT_INIT ((float) (middle.x - width / 2),
                              (float) (middle.y - LABEL_HEIGHT),
                              (float) width,
                              (float) (2 * LABEL_HEIGHT));

  return TRUE;
}

static void
draw_name (RodCanvas *self,
           cairo_t   *cr,
           guint      index)
{
  RodPoint         middle;
  g_autofree char *text = place_name (self, index, &middle);

  if (text != NULL)
    draw_pill (self, cr, text, middle);
}

/* On a plate of its own: whatever the drawing has there must not run into it. */
static void
draw_scale_bar (RodCanvas *self,
                cairo_t   *cr)
{
  double           field_mm = rod_scale_bar_step (1 / self->view.scale, BAR_LENGTH);
  double           step = field_mm * self->view.scale;
  double           right = floor (self->view.width - BAR_RIGHT);
  double           x = floor (right - 4 * step);
  double           y = floor (self->view.height - BAR_BELOW);
  g_autofree char *text = rod_figures_length_unit (self->plan->house->units, 4 * field_mm);
  RodLetterStyle   style = { .height = 7, .align = ROD_ALIGN_RIGHT };

  cairo_rectangle (cr,
                   x - BAR_PLATE,
                   y - 9 - style.height - BAR_PLATE,
                   4 * step + 2 * BAR_PLATE,
                   9 + style.height + 1 + 2 * BAR_PLATE);
  cairo_set_source_rgba (cr,
                         self->palette.ground.red,
                         self->palette.ground.green,
                         self->palette.ground.blue,
                         0.9);
  cairo_fill (cr);
  rod_ink_use (self->palette.ink, cr);
  for (int i = 0; i < 4; i++)
    cairo_rectangle (cr, x + i * step, i % 2 == 0 ? y - 4 : y - 1, step, i % 2 == 0 ? 5 : 2);
  cairo_fill (cr);
  rod_lettering_write (self->lettering, cr, text, &style, right, y - 9);
}

void
rod_canvas_draw_signs (RodCanvas *self,
                       cairo_t   *cr)
{
  draw_highlight (self, cr);
  draw_selection (self, cr);
  for (guint i = 0; i < self->plan->faces->len; i++)
    if (rod_canvas_sees_face (self, i))
      draw_name (self, cr, i);
  if (self->stage != ROD_STAGE_SURVEY)
    draw_findings (self, cr);
  draw_scale_bar (self, cr);
}
