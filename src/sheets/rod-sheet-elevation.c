/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Elevations: boards with their marks, openings, trims by key, and every dimension needed to set
 * the face out. Joint lines are running dimensions from the house's datum, as a rod carries them;
 * openings and outline are chains, as they were measured.
 */
#include "config.h"

#include "sheets/rod-elevation-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-chain.h"
#include "sheets/rod-contour.h"
#include "sheets/rod-figures.h"

/* ISO 129-1 practice: the first line of dimensions at least 10 mm off, the next ones closer. */
#define FIRST_CHAIN 10.5
#define NEXT_CHAIN 8.5

/* Pipes, vents and lights smaller than this are dimensioned to their middle. */
#define SMALL_OPENING 300.0

/* Below the last line of dimensions, and round a drawing that has none on that side. */
#define CHAIN_FOOT 3.0
#define KEY_ROOM 7.5

/* Height of a mark and a hair more, see rod_drawing_marks(). */
#define MARK_ROOM 3.1
#define LINING_CHAIN 5.6
#define RUNNING_CHAIN 9.0

/* Ends of lines before running figures, and a blank behind them. */
#define RUNNING_ENDS 4.0

/* A part of a millimetre that is written out. */
#define RAGGED_MM 0.7

/* Fractions of an inch that figures tell apart. */
#define N_FRACTIONS 16
#define MM_PER_INCH 25.4

static void
draw_chain (const RodElevation *drawing,
            RodChain           *chain,
            gboolean            upright,
            double              line,
            double              outline)
{
  RodChainPlace place = {
    .scale = 1.0 / drawing->view->scale,
    .zero = upright ? drawing->view->to_page.y0 : drawing->view->to_page.x0,
    .line = line,
    .outline = outline,
    .height = ROD_SHEET_TEXT,
    .clearing = drawing->clearing,
  };

  rod_chain_draw (chain, drawing->cr, drawing->sheets->lettering, drawing->sheets->units, &place);
}

/* An opening in a chain: both its sides, or the middle of a small one, as holes are set out. */
static void
add_opening (RodChain *chain,
             double    from,
             double    to,
             double    across_from,
             double    across_to)
{
  if (fmax (to - from, across_to - across_from) < SMALL_OPENING)
    {
      rod_chain_add (chain, 0.5 * (from + to));
      return;
    }
  rod_chain_add (chain, from);
  rod_chain_add (chain, to);
}

/* Openings that overlap in height stand in one row. The row of the first opening not yet taken is
 * taken, and its extent along the wall added to @chain where one is given. */
static gboolean
take_row (const RodSurface *surface,
          gboolean         *taken,
          RodChain         *chain)
{
  double   low = 0.0, high = 0.0;
  gboolean any = FALSE;

  for (guint i = 0; i < surface->openings->len; i++)
    {
      g_autoptr (GArray) contour = rod_contour_opening (g_ptr_array_index (surface->openings, i));
      RodPoint from, to;

      rod_contour_extent (contour, &from, &to);
      if (taken[i] || (any && (from.y >= high || to.y <= low)))
        continue;
      low = any ? fmin (low, from.y) : from.y;
      high = any ? fmax (high, to.y) : to.y;
      any = taken[i] = TRUE;
      if (chain != NULL)
        add_opening (chain, from.x, to.x, from.y, to.y);
    }

  return any;
}

/* Whether running dimensions of upright boards stand above the drawing. */
static gboolean
runs_above (const RodSheets *sheets,
            guint            face)
{
  const RodField *field = rod_face_main_field (sheets->plan, face);

  return field != NULL && !rod_field_is_level (field) && rod_field_is_upright (field);
}

static RodChain *
chain_outline (const RodSurface *surface,
               gboolean          upright)
{
  RodChain *chain = rod_chain_new (upright ? ROD_CHAIN_UPRIGHT : ROD_CHAIN_LEVEL);

  for (guint i = 0; i < surface->outline->len; i++)
    {
      const RodCorner *corner = g_ptr_array_index (surface->outline, i);

      rod_chain_add (chain, upright ? corner->y : corner->x);
    }

  return chain;
}

static RodChain *
chain_overall (const RodElevation *drawing,
               gboolean            upright)
{
  RodChain *chain = rod_chain_new (upright ? ROD_CHAIN_UPRIGHT : ROD_CHAIN_LEVEL);

  rod_chain_add (chain, upright ? drawing->view->low.y : drawing->view->low.x);
  rod_chain_add (chain, upright ? drawing->view->high.y : drawing->view->high.x);

  return chain;
}

/* Widths: openings row by row, the lowest below the drawing and one above it where upright boards
 * do not need the room, then corners, then all in one. */
static void
draw_widths (const RodElevation *drawing)
{
  const RodSurface    *surface = drawing->face->surface;
  g_autofree gboolean *taken = g_new0 (gboolean, surface->openings->len + 1);
  double               line = drawing->page_bottom + FIRST_CHAIN;
  g_autoptr (RodChain) corners = chain_outline (surface, FALSE);
  g_autoptr (RodChain) overall = chain_overall (drawing, FALSE);

  for (int row = 0; row < 2; row++)
    {
      g_autoptr (RodChain) chain = chain_overall (drawing, FALSE);

      if (!take_row (surface, taken, chain))
        break;
      if (row == 0)
        {
          draw_chain (drawing, chain, FALSE, line, drawing->page_bottom);
          line += NEXT_CHAIN;
        }
      else if (!runs_above (drawing->sheets, drawing->view->face))
        draw_chain (drawing, chain, FALSE, drawing->page_top - FIRST_CHAIN, drawing->page_top);
    }
  if (rod_chain_n_places (corners) > 2)
    {
      draw_chain (drawing, corners, FALSE, line, drawing->page_bottom);
      line += NEXT_CHAIN;
    }
  draw_chain (drawing, overall, FALSE, line, drawing->page_bottom);
}

/* Heights: base, starter, sills, heads and top in one chain, the whole height beside it. */
static void
draw_heights (const RodElevation *drawing)
{
  const RodField  *field = rod_face_main_field (drawing->sheets->plan, drawing->view->face);
  const GPtrArray *openings = drawing->face->surface->openings;
  g_autoptr (RodChain) chain = chain_outline (drawing->face->surface, TRUE);
  g_autoptr (RodChain) overall = chain_overall (drawing, TRUE);
  double line = drawing->page_left - FIRST_CHAIN;

  for (guint i = 0; i < openings->len; i++)
    {
      g_autoptr (GArray) contour = rod_contour_opening (g_ptr_array_index (openings, i));
      RodPoint from, to;

      rod_contour_extent (contour, &from, &to);
      add_opening (chain, from.y, to.y, from.x, to.x);
    }
  if (field != NULL && rod_field_is_level (field) && field->to_surface.yy > 0.0)
    {
      g_autoptr (GArray) lines = rod_face_main_lines (drawing->sheets->plan, drawing->view->face);

      if (lines->len > 0)
        rod_chain_add (chain, g_array_index (lines, RodJointLine, 0).place_mm);
    }
  draw_chain (drawing, chain, TRUE, line, drawing->page_left);
  if (rod_chain_n_places (chain) > 2)
    draw_chain (drawing, overall, TRUE, line - NEXT_CHAIN - 1.5, drawing->page_left);
}

/* Level boards: heights above the datum, to the right. Upright boards: distances from the left
 * corner, above. Others are set out from the figures in the notes. */
static void
draw_joint_lines (const RodElevation *drawing)
{
  const RodField *field = rod_face_main_field (drawing->sheets->plan, drawing->view->face);
  gboolean        level = field != NULL && rod_field_is_level (field);
  g_autoptr (RodChain) chain =
    rod_chain_new (level ? ROD_CHAIN_RUNNING_UPRIGHT : ROD_CHAIN_RUNNING_LEVEL);
  g_autoptr (GArray) lines = NULL;

  if (field == NULL || (!level && !rod_field_is_upright (field)))
    return;

  lines = rod_face_main_lines (drawing->sheets->plan, drawing->view->face);
  for (guint i = 0; i < lines->len; i++)
    rod_chain_add (chain, g_array_index (lines, RodJointLine, i).place_mm);
  if (level)
    {
      rod_chain_set_origin (chain,
                            drawing->face->surface->kind == ROD_SURFACE_WALL
                              ? -drawing->face->surface->level_mm
                              : drawing->view->low.y);
      draw_chain (drawing, chain, TRUE, drawing->page_right + RUNNING_CHAIN, drawing->page_right);
    }
  else
    {
      rod_chain_add (chain, drawing->view->low.x);
      rod_chain_set_origin (chain, drawing->view->low.x);
      draw_chain (drawing, chain, FALSE, drawing->page_top - RUNNING_CHAIN, drawing->page_top);
    }
}

static RodElevation
make_board (const RodSheets   *sheets,
            const RodFaceView *view,
            cairo_t           *cr)
{
  RodPoint low = rod_affine_apply (view->to_page, view->low);
  RodPoint high = rod_affine_apply (view->to_page, view->high);

  return (RodElevation){
    .sheets = sheets,
    .view = view,
    .face = rod_plan_face (sheets->plan, view->face),
    .cr = cr,
    .page_left = low.x,
    .page_right = high.x,
    .page_top = high.y,
    .page_bottom = low.y,
  };
}

static void
draw_elevation (const RodSheets   *sheets,
                const RodFaceView *view,
                cairo_t           *cr)
{
  RodDrawingOptions options;
  RodElevation      drawing = make_board (sheets, view, cr);
  g_autoptr (RodClearing) clearing = rod_clearing_new ();

  drawing.clearing = clearing;
  rod_drawing_options_init (&options);
  options.grey = sheets->options.grey;
  options.mark_some = TRUE;
  options.clearing = clearing;
  rod_drawing_face (cr, sheets->lettering, sheets->plan, view->face, view->to_page, &options);
  for (guint i = 0; i < drawing.face->surface->openings->len; i++)
    rod_elevation_draw_opening (&drawing, g_ptr_array_index (drawing.face->surface->openings, i));
  draw_widths (&drawing);
  draw_heights (&drawing);
  draw_joint_lines (&drawing);
  rod_elevation_draw_trim_keys (&drawing);
}

/* Linings are small: their outer dimensions, and their battens as centre lines. */
static void
draw_lining (const RodSheets   *sheets,
             const RodFaceView *view,
             cairo_t           *cr)
{
  static const double dash[] = { 4.3, 0.54, 0.5, 0.54 };
  RodDrawingOptions   options;
  guint               first, end;
  RodElevation        drawing = make_board (sheets, view, cr);
  g_autoptr (RodChain) widths = chain_overall (&drawing, FALSE);
  g_autoptr (RodChain) heights = chain_overall (&drawing, TRUE);

  rod_drawing_options_init (&options);
  options.grey = sheets->options.grey;
  options.layers &= ~ROD_LAYER_MARKS;
  rod_drawing_face (cr, sheets->lettering, sheets->plan, view->face, view->to_page, &options);
  cairo_set_dash (cr, dash, G_N_ELEMENTS (dash), 0.0);
  rod_drawing_find_battens (sheets->plan, view->face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodBattenRun *run = &g_array_index (sheets->plan->battens, RodBattenRun, i);
      RodPoint            from = rod_affine_apply (view->to_page, run->from);
      RodPoint            to = rod_affine_apply (view->to_page, run->to);

      cairo_move_to (cr, from.x, from.y);
      cairo_line_to (cr, to.x, to.y);
    }
  rod_ink_use (options.batten, cr);
  cairo_set_line_width (cr, ROD_SHEET_NARROW);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
  if (!view->unmarked)
    rod_drawing_marks (cr, sheets->lettering, sheets->plan, view->face, view->to_page, &options);
  draw_chain (&drawing, widths, FALSE, drawing.page_bottom + LINING_CHAIN, drawing.page_bottom);
  draw_chain (&drawing, heights, TRUE, drawing.page_left - LINING_CHAIN, drawing.page_left);
}

static gboolean
is_face_of_house (const RodSheets *sheets,
                  guint            face)
{
  return rod_plan_face (sheets->plan, face)->parent < 0;
}

static gboolean
is_lining (const RodSheets *sheets,
           guint            face)
{
  return rod_plan_face (sheets->plan, face)->parent >= 0;
}

/* Room for the figures of a running chain: for the longest of those near its end, where they have
 * most digits, with decimals or a fraction of an inch. */
static double
figure_room (const RodSheets *sheets,
             guint            face,
             gboolean         upright)
{
  const RodSurface *surface = rod_plan_face (sheets->plan, face)->surface;
  RodPoint          low, high;
  double            largest, widest = 0.0;

  rod_contour_surface_extent (surface, &low, &high);
  largest = floor (upright ? high.y - low.y + fabs (surface->level_mm) : high.x - low.x);
  for (int i = 0; i < N_FRACTIONS; i++)
    {
      g_autofree char *figure =
        rod_figures_length (sheets->units,
                            largest + RAGGED_MM - i * MM_PER_INCH / N_FRACTIONS);

      widest =
        fmax (widest, rod_lettering_width (sheets->lettering, figure, ROD_SHEET_TEXT, FALSE));
    }

  return RUNNING_ENDS + widest;
}

/* Room for the dimensions a face will have. */
static RodBorder
elevation_border (const RodSheets *sheets,
                  guint            face)
{
  const RodSurface    *surface = rod_plan_face (sheets->plan, face)->surface;
  const RodField      *field = rod_face_main_field (sheets->plan, face);
  g_autofree gboolean *taken = g_new0 (gboolean, surface->openings->len + 1);
  gboolean             first = take_row (surface, taken, NULL);
  gboolean             second = first && take_row (surface, taken, NULL);
  RodBorder            border = { 25.0, KEY_ROOM, KEY_ROOM, FIRST_CHAIN + CHAIN_FOOT };
  g_autoptr (RodChain) corners = chain_outline (surface, FALSE);

  if (first)
    border.bottom += NEXT_CHAIN;
  if (rod_chain_n_places (corners) > 2)
    border.bottom += NEXT_CHAIN;
  if (runs_above (sheets, face))
    border.top = RUNNING_CHAIN + figure_room (sheets, face, FALSE);
  else if (second)
    border.top = FIRST_CHAIN + 7.0;
  if (field != NULL && rod_field_is_level (field))
    border.right = RUNNING_CHAIN + figure_room (sheets, face, TRUE);

  return border;
}

static RodBorder
lining_border (const RodSheets *sheets,
               guint            face)
{
  return (RodBorder){ 10.5, 1.0, 0.5, 7.6 };
}

/* At 1:50 most boards have room for their marks; of narrower ones some are marked, by which the
 * others are found. Only very narrow ones are drawn larger. */
static double
elevation_least (const RodSheets *sheets,
                 guint            face)
{
  const RodFace *of = rod_plan_face (sheets->plan, face);
  double         narrowest = G_MAXDOUBLE;

  for (guint i = of->first_field; i < of->first_field + of->n_fields; i++)
    narrowest = fmin (narrowest, rod_plan_field (sheets->plan, i)->board->cover_mm);
  if (narrowest >= 20.0 * MARK_ROOM)
    return 50.0;

  return narrowest >= 10.0 * MARK_ROOM ? 20.0 : 10.0;
}

/* At 1:20 a mark still fits on the boards of a jamb. */
static double
lining_least (const RodSheets *sheets,
              guint            face)
{
  return 20.0;
}

void
rod_sheets_add_elevations (RodSheets *sheets)
{
  static const RodFaceKind elevations = {
    .chapter = N_ ("Elevations"),
    .document = N_ ("Elevation"),
    .keyed = TRUE,
    .border = elevation_border,
    .least = elevation_least,
    .wants = is_face_of_house,
    .draw = draw_elevation,
    .notes = rod_sheet_notes,
    .caption = rod_sheet_caption,
  };
  static const RodFaceKind linings = {
    .chapter = N_ ("Linings of openings"),
    .document = N_ ("Linings"),
    .common = TRUE,
    .border = lining_border,
    .least = lining_least,
    .wants = is_lining,
    .draw = draw_lining,
    .notes = rod_sheet_notes,
    .caption = rod_sheet_lining_caption,
  };

  rod_sheets_add_faces (sheets, &elevations);
  rod_sheets_add_faces (sheets, &linings);
}
