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
#define KEY_PITCH 5.2

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

/* Keys stand off the boards: outside the outline, inside openings, with a leader to the trim. Where
 * one edge has several trims their keys stand beside each other. */
static void
draw_trim_key (const RodElevation *drawing,
               const RodTrimRun   *run,
               guint               rank,
               guint               number)
{
  const RodField *field = rod_plan_field (drawing->sheets->plan, run->field);
  RodAffine       map = drawing->view->to_page;
  gboolean        inside =
    run->edge >= 0 && (guint) run->edge < field->n_edges && field->edges[run->edge].opening >= 0;
  double   length = run->length_mm / drawing->view->scale;
  double   share = fmod ((inside ? KEY_SHARE_INSIDE : KEY_SHARE) + rank * KEY_PITCH / length, 1.0);
  RodPoint square, middle, probe, at, along;
  double   side;
  g_autoptr (RodTrimLine) line = NULL;

  if (length < (inside ? KEY_FROM_INSIDE : KEY_FROM) || run->edge < 0)
    return;

  line = rod_trim_line_new (drawing->sheets->plan, run);
  at = rod_trim_line_place (line, share, &along);
  middle = rod_affine_apply (map, at);
  along = rod_affine_apply (map, (RodPoint){ at.x + along.x, at.y + along.y });
  length = rod_point_distance (middle, along);
  square = (RodPoint){ -(along.y - middle.y) / length, (along.x - middle.x) / length };
  probe = rod_affine_apply (rod_affine_invert (map),
                            (RodPoint){ middle.x + 0.05 * square.x, middle.y + 0.05 * square.y });
  side = field->clad != NULL && rod_region_contains (field->clad, probe) ? -1.0 : 1.0;
  at =
    (RodPoint){ middle.x + side * KEY_OFFSET * square.x, middle.y + side * KEY_OFFSET * square.y };
  cairo_set_source_rgb (drawing->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (drawing->cr, ROD_SHEET_NARROW);
  cairo_move_to (drawing->cr, at.x, at.y);
  cairo_line_to (drawing->cr, middle.x - side * 0.4 * square.x, middle.y - side * 0.4 * square.y);
  cairo_stroke (drawing->cr);
  draw_key (drawing, at, number);
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
      guint             rank = 0;

      for (guint j = first; j < i; j++)
        {
          const RodTrimRun *other = &g_array_index (plan->trims, RodTrimRun, j);

          rank +=
            other->field == run->field && other->edge == run->edge && other->trim != run->trim;
        }
      if (run->trim != NULL)
        draw_trim_key (drawing, run, rank, rod_sheet_trim_number (drawing->sheets, run->trim));
    }
}

/* What an opening is called on the drawing: the mark of its linings and its name, one of them where
 * there is not room for both. */
static char *
name_opening (const RodElevation *drawing,
              const RodOpening   *opening,
              double              room)
{
  const char      *mark = g_hash_table_lookup (drawing->sheets->opening_marks, opening);
  const char      *name = opening->name[0] != '\0' ? opening->name : opening->id;
  g_autofree char *both = mark != NULL ? g_strdup_printf ("%s %s", mark, name) : g_strdup (name);

  if (mark != NULL &&
      0.75 * rod_lettering_width (drawing->sheets->lettering, both, ROD_SHEET_TEXT, TRUE) > room)
    return g_strdup (mark);

  return g_steal_pointer (&both);
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

  rod_contour_extent (contour, &low, &high);
  style.width = paper * (high.x - low.x) - LABEL_CLEAR;
  if (style.width < LABEL_LEAST || paper * (high.y - low.y) < LABEL_HEIGHT + LABEL_CLEAR)
    return;

  name = name_opening (drawing, opening, style.width);
  width = rod_figures_length (units, high.x - low.x);
  height = rod_figures_length (units, high.y - low.y);
  size = g_strdup_printf ("%s × %s", width, height);
  at = rod_affine_apply (drawing->view->to_page,
                         (RodPoint){ 0.5 * (low.x + high.x), 0.5 * (low.y + high.y) });
  cairo_set_source_rgb (drawing->cr, 1.0, 1.0, 1.0);
  cairo_rectangle (drawing->cr,
                   at.x - 0.5 * style.width,
                   at.y - 0.5 * LABEL_HEIGHT,
                   style.width,
                   LABEL_HEIGHT);
  cairo_fill (drawing->cr);
  cairo_set_source_rgb (drawing->cr, 0.0, 0.0, 0.0);
  rod_lettering_write (lettering, drawing->cr, name, &style, at.x, at.y - 0.8);
  style.bold = FALSE;
  if (rod_lettering_width (lettering, size, ROD_SHEET_TEXT, FALSE) * 0.75 < style.width)
    rod_lettering_write (lettering, drawing->cr, size, &style, at.x, at.y + 3.4);
}
