/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Elevations: boards with their marks, openings, trims by key, and every dimension needed to set
 * the face out. Joint lines are running dimensions from the house's datum, as a rod carries them;
 * openings and outline are chains, as they were measured.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-chain.h"
#include "sheets/rod-contour.h"
#include "sheets/rod-figures.h"

/* ISO 129-1 practice: the first line of dimensions at least 10 mm off, the next ones closer. */
#define FIRST_CHAIN 10.5
#define NEXT_CHAIN 7.5

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

#define LABEL_CLEAR 1.0
#define LABEL_LEAST 5.0
#define LABEL_HEIGHT 8.6

/* Pipes, vents and lights smaller than this are dimensioned to their middle. */
#define SMALL_OPENING 300.0

/* Below the last line of dimensions, and round a drawing that has none on that side. */
#define CHAIN_FOOT 3.0
#define KEY_ROOM 7.5

/* Height of a mark and a hair more, see rod_drawing_marks(). */
#define MARK_ROOM 3.1
#define LINING_CHAIN 5.6
#define RUNNING_CHAIN 9.0

typedef struct
{
  const RodSheets *sheets;
  const RodView   *view;
  const RodFace   *face;
  cairo_t         *cr;
  double           page_left; /* the outline's extent on paper */
  double           page_right;
  double           page_top;
  double           page_bottom;
} Board;

static void
draw_chain (const Board *board,
            RodChain    *chain,
            gboolean     upright,
            double       line,
            double       outline)
{
  RodChainPlace place = {
    .scale = 1.0 / board->view->scale,
    .zero = upright ? board->view->to_page.y0 : board->view->to_page.x0,
    .line = line,
    .outline = outline,
    .height = ROD_SHEET_TEXT,
  };

  rod_chain_draw (chain, board->cr, board->sheets->lettering, board->sheets->units, &place);
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
chain_outline (const Board *board,
               gboolean     upright)
{
  RodChain        *chain = rod_chain_new (upright ? ROD_CHAIN_UPRIGHT : ROD_CHAIN_LEVEL);
  const GPtrArray *outline = board->face->surface->outline;

  for (guint i = 0; i < outline->len; i++)
    {
      const RodCorner *corner = g_ptr_array_index (outline, i);

      rod_chain_add (chain, upright ? corner->y : corner->x);
    }

  return chain;
}

static RodChain *
chain_overall (const Board *board,
               gboolean     upright)
{
  RodChain *chain = rod_chain_new (upright ? ROD_CHAIN_UPRIGHT : ROD_CHAIN_LEVEL);

  rod_chain_add (chain, upright ? board->view->low.y : board->view->low.x);
  rod_chain_add (chain, upright ? board->view->high.y : board->view->high.x);

  return chain;
}

/* Widths: openings row by row, the lowest below the drawing and one above it where upright boards
 * do not need the room, then corners, then all in one. */
static void
draw_widths (const Board *board)
{
  const RodSurface    *surface = board->face->surface;
  g_autofree gboolean *taken = g_new0 (gboolean, surface->openings->len + 1);
  double               line = board->page_bottom + FIRST_CHAIN;
  g_autoptr (RodChain) corners = chain_outline (board, FALSE);
  g_autoptr (RodChain) overall = chain_overall (board, FALSE);

  for (int row = 0; row < 2; row++)
    {
      g_autoptr (RodChain) chain = chain_overall (board, FALSE);

      if (!take_row (surface, taken, chain))
        break;
      if (row == 0)
        {
          draw_chain (board, chain, FALSE, line, board->page_bottom);
          line += NEXT_CHAIN;
        }
      else if (!runs_above (board->sheets, board->view->face))
        draw_chain (board, chain, FALSE, board->page_top - FIRST_CHAIN, board->page_top);
    }
  if (rod_chain_n_places (corners) > 2)
    {
      draw_chain (board, corners, FALSE, line, board->page_bottom);
      line += NEXT_CHAIN;
    }
  draw_chain (board, overall, FALSE, line, board->page_bottom);
}

/* Heights: base, starter, sills, heads and top in one chain, the whole height beside it. */
static void
draw_heights (const Board *board)
{
  const RodField  *field = rod_face_main_field (board->sheets->plan, board->view->face);
  const GPtrArray *openings = board->face->surface->openings;
  g_autoptr (RodChain) chain = chain_outline (board, TRUE);
  g_autoptr (RodChain) overall = chain_overall (board, TRUE);
  double line = board->page_left - FIRST_CHAIN;

  for (guint i = 0; i < openings->len; i++)
    {
      g_autoptr (GArray) contour = rod_contour_opening (g_ptr_array_index (openings, i));
      RodPoint from, to;

      rod_contour_extent (contour, &from, &to);
      add_opening (chain, from.y, to.y, from.x, to.x);
    }
  if (field != NULL && rod_field_is_level (field) && field->to_surface.yy > 0.0)
    {
      g_autoptr (GArray) lines = rod_field_joint_lines (field);

      if (lines->len > 0)
        rod_chain_add (chain, g_array_index (lines, double, 0));
    }
  draw_chain (board, chain, TRUE, line, board->page_left);
  if (rod_chain_n_places (chain) > 2)
    draw_chain (board, overall, TRUE, line - NEXT_CHAIN - 2.5, board->page_left);
}

/* Level boards: heights above the datum, to the right. Upright boards: distances from the left
 * corner, above. Others are set out from the figures in the notes. */
static void
draw_joint_lines (const Board *board)
{
  const RodField *field = rod_face_main_field (board->sheets->plan, board->view->face);
  gboolean        level = field != NULL && rod_field_is_level (field);
  g_autoptr (RodChain) chain =
    rod_chain_new (level ? ROD_CHAIN_RUNNING_UPRIGHT : ROD_CHAIN_RUNNING_LEVEL);
  g_autoptr (GArray) lines = NULL;

  if (field == NULL || (!level && !rod_field_is_upright (field)))
    return;

  lines = rod_field_joint_lines (field);
  for (guint i = 0; i < lines->len; i++)
    {
      RodPoint at = { 0.0, g_array_index (lines, double, i) };

      at = rod_affine_apply (field->to_surface, at);
      rod_chain_add (chain, level ? at.y : at.x);
    }
  if (level)
    {
      rod_chain_set_origin (chain,
                            board->face->surface->kind == ROD_SURFACE_WALL
                              ? -board->face->surface->level_mm
                              : board->view->low.y);
      draw_chain (board, chain, TRUE, board->page_right + RUNNING_CHAIN, board->page_right);
    }
  else
    {
      rod_chain_add (chain, board->view->low.x);
      rod_chain_set_origin (chain, board->view->low.x);
      draw_chain (board, chain, FALSE, board->page_top - RUNNING_CHAIN, board->page_top);
    }
}

static void
draw_key (const Board *board,
          RodPoint     at,
          guint        number)
{
  g_autofree char *text = g_strdup_printf ("%u", number);
  RodLetterStyle   style = { .height = ROD_SHEET_TEXT, .align = ROD_ALIGN_CENTRE };

  cairo_new_sub_path (board->cr);
  cairo_arc (board->cr, at.x, at.y, KEY_RADIUS, 0.0, 2.0 * G_PI);
  cairo_set_source_rgb (board->cr, 1.0, 1.0, 1.0);
  cairo_fill_preserve (board->cr);
  cairo_set_source_rgb (board->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (board->cr, ROD_SHEET_NARROW);
  cairo_stroke (board->cr);
  style.width = 2.0 * KEY_RADIUS - 0.6;
  rod_lettering_write (board->sheets->lettering,
                       board->cr,
                       text,
                       &style,
                       at.x,
                       at.y + 0.5 * ROD_SHEET_TEXT);
}

/* Keys stand off the boards: outside the outline, inside openings, with a leader to the trim. Where
 * one edge has several trims their keys stand beside each other. */
static void
draw_trim_key (const Board      *board,
               const RodTrimRun *run,
               guint             rank,
               guint             number)
{
  const RodField *field = rod_plan_field (board->sheets->plan, run->field);
  RodAffine       map = board->view->to_page;
  RodPoint        from = rod_affine_apply (map, run->from), to = rod_affine_apply (map, run->to);
  double          length = rod_point_distance (from, to);
  gboolean        inside =
    run->edge >= 0 && (guint) run->edge < field->n_edges && field->edges[run->edge].opening >= 0;
  double   share = fmod ((inside ? KEY_SHARE_INSIDE : KEY_SHARE) + rank * KEY_PITCH / length, 1.0);
  RodPoint square, middle, probe, at;
  double   side;

  if (length < (inside ? KEY_FROM_INSIDE : KEY_FROM) || run->edge < 0)
    return;

  middle = (RodPoint){ from.x + share * (to.x - from.x), from.y + share * (to.y - from.y) };
  square = (RodPoint){ -(to.y - from.y) / length, (to.x - from.x) / length };
  probe = rod_affine_apply (rod_affine_invert (map),
                            (RodPoint){ middle.x + 0.05 * square.x, middle.y + 0.05 * square.y });
  side = field->clad != NULL && rod_region_contains (field->clad, probe) ? -1.0 : 1.0;
  at =
    (RodPoint){ middle.x + side * KEY_OFFSET * square.x, middle.y + side * KEY_OFFSET * square.y };
  cairo_set_source_rgb (board->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (board->cr, ROD_SHEET_NARROW);
  cairo_move_to (board->cr, at.x, at.y);
  cairo_line_to (board->cr, middle.x - side * 0.4 * square.x, middle.y - side * 0.4 * square.y);
  cairo_stroke (board->cr);
  draw_key (board, at, number);
}

static void
draw_trim_keys (const Board *board)
{
  const RodPlan *plan = board->sheets->plan;
  guint          first, end;

  rod_drawing_find_trims (plan, board->view->face, &first, &end);
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
        draw_trim_key (board, run, rank, rod_sheet_trim_number (board->sheets, run->trim));
    }
}

/* What an opening is called on the drawing: the mark of its linings and its name, one of them where
 * there is not room for both. */
static char *
name_opening (const Board      *board,
              const RodOpening *opening,
              double            room)
{
  const char      *mark = g_hash_table_lookup (board->sheets->opening_marks, opening);
  const char      *name = opening->name[0] != '\0' ? opening->name : opening->id;
  g_autofree char *both = mark != NULL ? g_strdup_printf ("%s %s", mark, name) : g_strdup (name);

  if (mark != NULL &&
      0.75 * rod_lettering_width (board->sheets->lettering, both, ROD_SHEET_TEXT, TRUE) > room)
    return g_strdup (mark);

  return g_steal_pointer (&both);
}

/* Name and size of an opening, where they fit inside. */
static void
draw_opening_label (const Board      *board,
                    const RodOpening *opening)
{
  RodLettering *lettering = board->sheets->lettering;
  RodUnits      units = board->sheets->units;
  g_autoptr (GArray) contour = rod_contour_opening (opening);
  RodPoint         low, high, at;
  double           paper = 1.0 / board->view->scale;
  g_autofree char *width = NULL, *height = NULL, *size = NULL;
  g_autofree char *name = NULL;
  RodLetterStyle   style = { .height = ROD_SHEET_TEXT, .align = ROD_ALIGN_CENTRE, .bold = TRUE };

  rod_contour_extent (contour, &low, &high);
  style.width = paper * (high.x - low.x) - LABEL_CLEAR;
  if (style.width < LABEL_LEAST || paper * (high.y - low.y) < LABEL_HEIGHT + LABEL_CLEAR)
    return;

  name = name_opening (board, opening, style.width);
  width = rod_figures_length (units, high.x - low.x);
  height = rod_figures_length (units, high.y - low.y);
  size = g_strdup_printf ("%s × %s", width, height);
  at = rod_affine_apply (board->view->to_page,
                         (RodPoint){ 0.5 * (low.x + high.x), 0.5 * (low.y + high.y) });
  cairo_set_source_rgb (board->cr, 1.0, 1.0, 1.0);
  cairo_rectangle (board->cr,
                   at.x - 0.5 * style.width,
                   at.y - 0.5 * LABEL_HEIGHT,
                   style.width,
                   LABEL_HEIGHT);
  cairo_fill (board->cr);
  cairo_set_source_rgb (board->cr, 0.0, 0.0, 0.0);
  rod_lettering_write (lettering, board->cr, name, &style, at.x, at.y - 0.8);
  style.bold = FALSE;
  if (rod_lettering_width (lettering, size, ROD_SHEET_TEXT, FALSE) * 0.75 < style.width)
    rod_lettering_write (lettering, board->cr, size, &style, at.x, at.y + 3.4);
}

static Board
make_board (const RodSheets *sheets,
            const RodView   *view,
            cairo_t         *cr)
{
  RodPoint low = rod_affine_apply (view->to_page, view->low);
  RodPoint high = rod_affine_apply (view->to_page, view->high);

  return (Board){
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
draw_elevation (const RodSheets *sheets,
                const RodView   *view,
                cairo_t         *cr)
{
  RodDrawingOptions options;
  Board             board = make_board (sheets, view, cr);

  rod_drawing_options_init (&options);
  options.grey = sheets->options.grey;
  options.mark_some = TRUE;
  rod_drawing_face (cr, sheets->lettering, sheets->plan, view->face, view->to_page, &options);
  for (guint i = 0; i < board.face->surface->openings->len; i++)
    draw_opening_label (&board, g_ptr_array_index (board.face->surface->openings, i));
  draw_widths (&board);
  draw_heights (&board);
  draw_joint_lines (&board);
  draw_trim_keys (&board);
}

/* Linings are small: their outer dimensions, and their battens as centre lines. */
static void
draw_lining (const RodSheets *sheets,
             const RodView   *view,
             cairo_t         *cr)
{
  static const double dash[] = { 4.3, 0.54, 0.5, 0.54 };
  RodDrawingOptions   options;
  guint               first, end;
  Board               board = make_board (sheets, view, cr);
  g_autoptr (RodChain) widths = chain_overall (&board, FALSE);
  g_autoptr (RodChain) heights = chain_overall (&board, TRUE);

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
  draw_chain (&board, widths, FALSE, board.page_bottom + LINING_CHAIN, board.page_bottom);
  draw_chain (&board, heights, TRUE, board.page_left - LINING_CHAIN, board.page_left);
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

  if (first)
    border.bottom += NEXT_CHAIN;
  if (surface->outline->len > 4)
    border.bottom += NEXT_CHAIN;
  if (runs_above (sheets, face))
    border.top = RUNNING_CHAIN + 14.0;
  else if (second)
    border.top = FIRST_CHAIN + 4.5;
  if (field != NULL && rod_field_is_level (field))
    border.right = RUNNING_CHAIN + 16.0;

  return border;
}

static RodBorder
lining_border (const RodSheets *sheets,
               guint            face)
{
  return (RodBorder){ 10.5, 1.0, 0.5, 7.6 };
}

/* A larger scale helps no more once marks fit the narrowest boards; soffits and upright boards,
 * narrow and many, have only some of them marked and stay small. */
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
