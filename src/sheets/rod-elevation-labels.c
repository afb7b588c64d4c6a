/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is written on an elevation besides dimensions and marks: numbers of trims, names of
 * openings.
 */
#include "config.h"

#include "sheets/rod-elevation-private.h"

#include <math.h>

#include "sheets/rod-contour.h"
#include "sheets/rod-figures.h"
#include "sheets/rod-trim-line.h"

/* On paper, mm. */
#define KEY_RADIUS 2.1
#define KEY_OFFSET 4.6

/* Round a key, free of other texts. */
#define KEY_CLEAR 0.3

/* Keys look for a place along their edge by these steps, then once more farther off. */
#define KEY_STEP 1.3

/* A little off the middle of the edge, where dimensions rarely are. */
#define KEY_SHARE 0.42

/* Inside openings, near a corner: the middle holds the name. */
#define KEY_SHARE_INSIDE 0.2

/* Runs shorter than this on paper share the key of their neighbours. */
#define KEY_FROM 9.0
#define KEY_FROM_INSIDE 13.0

/* Names of openings. */
#define LABEL_CLEAR 1.0
#define LABEL_LEAST 5.0
#define LABEL_HEIGHT 8.6

/* Lettering narrows so far, see rod_lettering_write(). */
#define NARROWEST 0.76

static void
draw_key (const RodElevation *drawing,
          RodPoint            at,
          guint               number)
{
  g_autofree char *text = g_strdup_printf ("%u", number);
  RodLetterStyle   style = { .height = ROD_SHEET_TEXT, .align = ROD_ALIGN_CENTRE };

  cairo_new_sub_path (drawing->cr);
  cairo_arc (drawing->cr, at.x, at.y, KEY_RADIUS, 0.0, 2.0 * G_PI);
  cairo_set_source_rgb (drawing->cr, 1.0, 1.0, 1.0);
  cairo_fill_preserve (drawing->cr);
  cairo_set_source_rgb (drawing->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (drawing->cr, ROD_SHEET_NARROW);
  cairo_stroke (drawing->cr);
  style.width = 2.0 * KEY_RADIUS - 0.6;
  rod_lettering_write (drawing->sheets->lettering,
                       drawing->cr,
                       text,
                       &style,
                       at.x,
                       at.y + 0.5 * ROD_SHEET_TEXT);
}

/* A place for a key: outside the outline or inside an opening, square to the trim. */
typedef struct
{
  RodPoint edge; /* where the leader ends on the trim */
  RodPoint at;
} KeyPlace;

static KeyPlace
place_key (const RodElevation *drawing,
           const RodField     *field,
           const RodTrimLine  *line,
           double              share,
           double              offset)
{
  RodAffine map = drawing->view->to_page;
  RodPoint  along, nature, middle, step, square, probe;
  double    length, side;

  nature = rod_trim_line_place (line, share, &along);
  middle = rod_affine_apply (map, nature);
  step = rod_affine_apply (map, (RodPoint){ nature.x + along.x, nature.y + along.y });
  length = rod_point_distance (middle, step);
  square = (RodPoint){ -(step.y - middle.y) / length, (step.x - middle.x) / length };
  probe = rod_affine_apply (rod_affine_invert (map),
                            (RodPoint){ middle.x + 0.05 * square.x, middle.y + 0.05 * square.y });
  side = field->clad != NULL && rod_region_contains (field->clad, probe) ? -1.0 : 1.0;

  return (KeyPlace){
    .edge = { middle.x - side * 0.4 * square.x, middle.y - side * 0.4 * square.y },
    .at = { middle.x + side * offset * square.x, middle.y + side * offset * square.y },
  };
}

static RodBox
key_box (RodPoint at)
{
  double reach = KEY_RADIUS + KEY_CLEAR;

  return (RodBox){ at.x - reach, at.y - reach, at.x + reach, at.y + reach };
}

/* Looks along the edge, from where the key would stand best. */
static gboolean
find_key_place (const RodElevation *drawing,
                const RodField     *field,
                const RodTrimLine  *line,
                double              best,
                double              length,
                KeyPlace           *place)
{
  int n_steps = (int) (length / KEY_STEP);

  for (int far = 0; far < 2; far++)
    for (int k = 0; k < 2 * n_steps; k++)
      {
        double share = best + (k % 2 == 0 ? -0.5 * k : 0.5 * (k + 1)) / n_steps;

        if (share < 0.02 || share > 0.98)
          continue;
        *place = place_key (drawing, field, line, share, (1 + far) * KEY_OFFSET);
        if (rod_clearing_is_free (drawing->clearing, key_box (place->at)))
          return TRUE;
      }

  return FALSE;
}

/* Keys stand off the boards, with a leader to the trim. One that has no room is left out: the same
 * trim has its number elsewhere, or the list of trims says its name. */
static void
draw_trim_key (const RodElevation *drawing,
               const RodTrimRun   *run,
               guint               number)
{
  const RodField *field = rod_plan_field (drawing->sheets->plan, run->field);
  gboolean        inside =
    run->edge >= 0 && (guint) run->edge < field->n_edges && field->edges[run->edge].opening >= 0;
  double   length = run->length_mm / drawing->view->scale;
  KeyPlace place;
  g_autoptr (RodTrimLine) line = NULL;

  if (length < (inside ? KEY_FROM_INSIDE : KEY_FROM) || run->edge < 0)
    return;

  line = rod_trim_line_new (drawing->sheets->plan, run);
  if (!find_key_place (drawing,
                       field,
                       line,
                       inside ? KEY_SHARE_INSIDE : KEY_SHARE,
                       length,
                       &place))
    return;

  rod_clearing_take (drawing->clearing, key_box (place.at));
  cairo_set_source_rgb (drawing->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (drawing->cr, ROD_SHEET_NARROW);
  cairo_move_to (drawing->cr, place.at.x, place.at.y);
  cairo_line_to (drawing->cr, place.edge.x, place.edge.y);
  cairo_stroke (drawing->cr);
  draw_key (drawing, place.at, number);
}

void
rod_elevation_draw_trim_keys (const RodElevation *drawing)
{
  const RodPlan *plan = drawing->sheets->plan;
  guint          first, end;

  rod_drawing_find_trims (plan, drawing->view->face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, i);

      if (run->trim != NULL)
        draw_trim_key (drawing, run, rod_sheet_trim_number (drawing->sheets, run->trim));
    }
}

/* Room for a name in the middle of an opening, whose sides may be slanted or arcs: the least
 * distance of its contour from the upright through the middle, in the band of the name. */
static double
middle_room (const GArray *contour,
             RodPoint      low,
             RodPoint      high,
             double        height)
{
  RodPoint middle = { 0.5 * (low.x + high.x), 0.5 * (low.y + high.y) };
  double   room = high.x - low.x;

  for (guint i = 0; i < contour->len; i++)
    {
      RodPoint from = g_array_index (contour, RodPoint, i);
      RodPoint to = g_array_index (contour, RodPoint, (i + 1) % contour->len);

      if (fabs (from.y - middle.y) < 0.5 * height)
        room = fmin (room, 2.0 * fabs (from.x - middle.x));
      for (int edge = -1; edge <= 1; edge += 2)
        {
          double y = middle.y + edge * 0.5 * height;

          if ((from.y > y) != (to.y > y))
            room = fmin (room,
                         2.0 * fabs (from.x + (y - from.y) / (to.y - from.y) * (to.x - from.x) -
                                     middle.x));
        }
    }

  return room;
}

/* What an opening is called on the drawing: the mark of its linings and its name, one of them where
 * there is not room for both; %NULL where there is room for none. */
static char *
name_opening (const RodElevation *drawing,
              const RodOpening   *opening,
              double              room)
{
  RodLettering    *lettering = drawing->sheets->lettering;
  const char      *mark = g_hash_table_lookup (drawing->sheets->opening_marks, opening);
  const char      *name = opening->name[0] != '\0' ? opening->name : opening->id;
  g_autofree char *both = mark != NULL ? g_strdup_printf ("%s %s", mark, name) : g_strdup (name);

  if (NARROWEST * rod_lettering_width (lettering, both, ROD_SHEET_TEXT, TRUE) <= room)
    return g_steal_pointer (&both);
  if (mark != NULL &&
      NARROWEST * rod_lettering_width (lettering, mark, ROD_SHEET_TEXT, TRUE) <= room)
    return g_strdup (mark);

  return NULL;
}

/* Name and size of an opening, where they fit inside. */
void
rod_elevation_draw_opening (const RodElevation *drawing,
                            const RodOpening   *opening)
{
  RodLettering *lettering = drawing->sheets->lettering;
  RodUnits      units = drawing->sheets->units;
  g_autoptr (GArray) contour = rod_contour_opening (opening);
  RodPoint         low, high, at;
  double           paper = 1.0 / drawing->view->scale;
  g_autofree char *width = NULL, *height = NULL, *size = NULL;
  g_autofree char *name = NULL;
  RodLetterStyle   style = { .height = ROD_SHEET_TEXT, .align = ROD_ALIGN_CENTRE, .bold = TRUE };
  gboolean         sized;
  double           room;
  RodBox           label;

  rod_contour_extent (contour, &low, &high);
  style.width =
    paper * middle_room (contour, low, high, LABEL_HEIGHT / paper) - LABEL_CLEAR;
  if (style.width < LABEL_LEAST || paper * (high.y - low.y) < LABEL_HEIGHT + LABEL_CLEAR)
    return;

  name = name_opening (drawing, opening, style.width);
  if (name == NULL)
    return;
  width = rod_figures_length (units, high.x - low.x);
  height = rod_figures_length (units, high.y - low.y);
  size = g_strdup_printf ("%s × %s", width, height);
  sized = rod_lettering_width (lettering, size, ROD_SHEET_TEXT, FALSE) * NARROWEST < style.width;
  room = rod_lettering_width (lettering, name, ROD_SHEET_TEXT, TRUE);
  if (sized)
    room = fmax (room, rod_lettering_width (lettering, size, ROD_SHEET_TEXT, FALSE));
  room = fmin (room, style.width);
  at = rod_affine_apply (drawing->view->to_page,
                         (RodPoint){ 0.5 * (low.x + high.x), 0.5 * (low.y + high.y) });
  label = (RodBox){ at.x - 0.5 * room,
                    at.y - (sized ? 0.5 : 0.3) * LABEL_HEIGHT,
                    at.x + 0.5 * room,
                    at.y + (sized ? 0.5 : 0.3) * LABEL_HEIGHT };
  rod_clearing_take (drawing->clearing, label);
  cairo_set_source_rgb (drawing->cr, 1.0, 1.0, 1.0);
  cairo_rectangle (drawing->cr, label.low_x, label.low_y, room, label.high_y - label.low_y);
  cairo_fill (drawing->cr);
  cairo_set_source_rgb (drawing->cr, 0.0, 0.0, 0.0);
  rod_lettering_write (lettering,
                       drawing->cr,
                       name,
                       &style,
                       at.x,
                       sized ? at.y - 0.8 : at.y + 0.5 * ROD_SHEET_TEXT);
  style.bold = FALSE;
  if (sized)
    rod_lettering_write (lettering, drawing->cr, size, &style, at.x, at.y + 3.4);
}
