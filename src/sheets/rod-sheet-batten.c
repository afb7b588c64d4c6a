/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Batten plans: every batten of a face where its centre line lies, as running dimensions from one
 * corner, with its length and a letter that says why it is there: whoever leaves one out on site
 * must know what then has nothing to be screwed to.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-chain.h"
#include "sheets/rod-figures.h"

#define CHAIN_OFFSET 5.0

/* Room for a chain with its figures. */
#define CHAIN_BELOW 21.0
#define CHAIN_BESIDE 24.0
#define LABEL_CLEAR 1.6

/* TRANSLATORS: single letters on the drawing of battens, explained beside it. */
const RodBattenLetter rod_batten_letters[] = {
  { ROD_BATTEN_JOINT, N_ ("D"), N_ ("one of a pair at a length joint") },
  { ROD_BATTEN_CORNER, N_ ("C"), N_ ("serves a corner") },
  { ROD_BATTEN_OPENING, N_ ("O"), N_ ("serves the side of an opening") },
  { ROD_BATTEN_EDGE, N_ ("E"), N_ ("serves an edge") },
  { ROD_BATTEN_FIELD, N_ ("F"), N_ ("fills between others") },
};
const guint rod_batten_letters_n = G_N_ELEMENTS (rod_batten_letters);

guint
rod_face_batten_count (const RodPlan *plan,
                       guint          face,
                       gboolean       counter,
                       double        *run_mm)
{
  guint n = 0;
  guint first, end;

  *run_mm = 0.0;
  rod_drawing_find_battens (plan, face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, i);

      if (run->counter != counter)
        continue;
      *run_mm += run->length_mm;
      n++;
    }

  return n;
}

char *
rod_sheet_at_most (const RodSheets *sheets,
                   double           mm)
{
  g_autofree char *length = rod_figures_length_unit (sheets->units, mm);

  return g_strdup_printf (_ ("at most %s"), length);
}

/* The strongest reason stands for all. */
static const char *
letter_of (guint uses)
{
  for (guint i = 0; i < rod_batten_letters_n; i++)
    if (uses & rod_batten_letters[i].use)
      return _ (rod_batten_letters[i].letter);

  return _ (rod_batten_letters[rod_batten_letters_n - 1].letter);
}

static gboolean
run_is_upright (const RodBattenRun *run)
{
  return fabs (run->to.x - run->from.x) < 1.0;
}

static gboolean
run_is_level (const RodBattenRun *run)
{
  return fabs (run->to.y - run->from.y) < 1.0;
}

static gboolean
runs_along (const RodBattenRun *run,
            gboolean            upright)
{
  return upright ? run_is_upright (run) : run_is_level (run);
}

static gboolean
has_runs (const RodSheets *sheets,
          guint            face,
          gboolean         upright,
          gboolean         counter)
{
  guint first, end;

  rod_drawing_find_battens (sheets->plan, face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodBattenRun *run = &g_array_index (sheets->plan->battens, RodBattenRun, i);

      if (run->counter == counter && runs_along (run, upright))
        return TRUE;
    }

  return FALSE;
}

/* Running dimensions stand below upright battens and to the right of level ones; those of counter
 * battens on the other side where battens run the same way, as those of another zone do. */
static gboolean
stands_opposite (const RodSheets *sheets,
                 guint            face,
                 gboolean         upright,
                 gboolean         counter)
{
  return counter && has_runs (sheets, face, upright, FALSE);
}

static void
draw_chain (const RodSheets   *sheets,
            const RodFaceView *view,
            cairo_t           *cr,
            gboolean           upright,
            gboolean           counter)
{
  g_autoptr (RodChain) chain =
    rod_chain_new (upright ? ROD_CHAIN_RUNNING_LEVEL : ROD_CHAIN_RUNNING_UPRIGHT);
  RodPoint      low = rod_affine_apply (view->to_page, view->low);
  RodPoint      high = rod_affine_apply (view->to_page, view->high);
  gboolean      opposite = stands_opposite (sheets, view->face, upright, counter);
  RodChainPlace place = { .scale = 1.0 / view->scale, .height = ROD_SHEET_TEXT };
  guint         first, end;

  if (!has_runs (sheets, view->face, upright, counter))
    return;

  rod_drawing_find_battens (sheets->plan, view->face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodBattenRun *run = &g_array_index (sheets->plan->battens, RodBattenRun, i);

      if (run->counter == counter && runs_along (run, upright))
        rod_chain_add (chain, upright ? run->from.x : run->from.y);
    }
  rod_chain_add (chain, upright ? view->low.x : view->low.y);
  rod_chain_set_origin (chain, upright ? view->low.x : view->low.y);
  place.zero = upright ? view->to_page.x0 : view->to_page.y0;
  if (upright)
    place.outline = opposite ? high.y : low.y;
  else
    place.outline = opposite ? low.x : high.x;
  place.line = place.outline + (opposite ? -CHAIN_OFFSET : CHAIN_OFFSET);
  rod_chain_draw (chain, cr, sheets->lettering, sheets->units, &place);
}

/* A label's place on paper; labels may not touch each other. */
typedef struct
{
  double x, y;
  double reach_x, reach_y;
} Spot;

static gboolean
is_free (const GArray *spots,
         Spot          spot)
{
  for (guint i = 0; i < spots->len; i++)
    {
      const Spot *other = &g_array_index (spots, Spot, i);

      if (fabs (spot.x - other->x) < spot.reach_x + other->reach_x &&
          fabs (spot.y - other->y) < spot.reach_y + other->reach_y)
        return FALSE;
    }

  return TRUE;
}

/* Looks along the batten, from its middle outwards, for a place where the label touches no other.
 */
static gboolean
find_spot (const GArray *spots,
           RodPoint      from,
           RodPoint      to,
           double        width,
           Spot         *spot)
{
  static const double shares[] = { 0.5, 0.35, 0.65, 0.22, 0.78, 0.12, 0.88 };
  double              length = rod_point_distance (from, to);
  double              cosine = fabs (to.x - from.x) / length, sine = fabs (to.y - from.y) / length;
  double              half = 0.5 * ROD_SHEET_TEXT + 0.4;

  for (gsize i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      double at = fmax (0.5 * width / length, fmin (1.0 - 0.5 * width / length, shares[i]));

      spot->x = from.x + at * (to.x - from.x);
      spot->y = from.y + at * (to.y - from.y);
      spot->reach_x = 0.5 * width * cosine + half * sine;
      spot->reach_y = 0.5 * width * sine + half * cosine;
      if (is_free (spots, *spot))
        return TRUE;
    }

  return FALSE;
}

/* Along the batten, read from below or from the right. */
static double
reading_angle (const RodBattenRun *run,
               RodPoint            from,
               RodPoint            to)
{
  if (run_is_upright (run))
    return -0.5 * G_PI;

  return to.x < from.x ? atan2 (from.y - to.y, from.x - to.x)
                       : atan2 (to.y - from.y, to.x - from.x);
}

/* Number, letter and length along the batten; the length is left out where it is short. */
static void
draw_label (const RodSheets    *sheets,
            const RodFaceView  *view,
            cairo_t            *cr,
            const RodBattenRun *run,
            GArray             *spots)
{
  RodPoint         from = rod_affine_apply (view->to_page, run->from);
  RodPoint         to = rod_affine_apply (view->to_page, run->to);
  g_autofree char *length = rod_figures_length (sheets->units, run->length_mm);
  g_autofree char *name = g_strdup_printf ("B%d %s", run->line, letter_of (run->uses));
  g_autofree char *text = g_strdup_printf ("%s  %s", name, length);
  const char      *shown[2] = { text, name };
  RodLetterStyle   style = { .height = ROD_SHEET_TEXT, .align = ROD_ALIGN_CENTRE };
  double           along = rod_point_distance (from, to);
  double           width = 0.0;
  Spot             spot;
  guint            i;

  for (i = 0; i < G_N_ELEMENTS (shown); i++)
    {
      width =
        rod_lettering_width (sheets->lettering, shown[i], ROD_SHEET_TEXT, FALSE) + LABEL_CLEAR;
      if (width < along && find_spot (spots, from, to, width, &spot))
        break;
    }
  if (i == G_N_ELEMENTS (shown))
    return;

  g_array_append_val (spots, spot);
  cairo_save (cr);
  cairo_translate (cr, spot.x, spot.y);
  cairo_rotate (cr, reading_angle (run, from, to));
  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  cairo_rectangle (cr, -0.5 * width, -0.5 * ROD_SHEET_TEXT - 0.4, width, ROD_SHEET_TEXT + 0.8);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_lettering_write (sheets->lettering, cr, shown[i], &style, 0.0, 0.5 * ROD_SHEET_TEXT);
  cairo_restore (cr);
}

static void
draw_frame_plan (const RodSheets   *sheets,
                 const RodFaceView *view,
                 cairo_t           *cr)
{
  g_autoptr (GArray) spots = g_array_new (FALSE, FALSE, sizeof (Spot));
  RodDrawingOptions options;
  guint             first, end;

  rod_drawing_options_init (&options);
  options.layers = ROD_LAYER_BATTENS | ROD_LAYER_OPENINGS | ROD_LAYER_OUTLINE;
  rod_drawing_face (cr, sheets->lettering, sheets->plan, view->face, view->to_page, &options);
  rod_drawing_find_battens (sheets->plan, view->face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodBattenRun *run = &g_array_index (sheets->plan->battens, RodBattenRun, i);

      if (!run->counter)
        draw_label (sheets, view, cr, run, spots);
    }
  for (int counter = 0; counter <= 1; counter++)
    {
      draw_chain (sheets, view, cr, TRUE, counter == 1);
      draw_chain (sheets, view, cr, FALSE, counter == 1);
    }
}

/* Battens of linings are shown with the linings. */
static gboolean
has_battens (const RodSheets *sheets,
             guint            face)
{
  double run;

  return rod_plan_face (sheets->plan, face)->parent < 0 &&
         rod_face_batten_count (sheets->plan, face, FALSE, &run) > 0;
}

static RodBorder
frame_border (const RodSheets *sheets,
              guint            face)
{
  RodBorder border = { 4.0, 4.0, 3.0, 4.0 };

  for (int counter = 0; counter <= 1; counter++)
    {
      if (has_runs (sheets, face, TRUE, counter == 1))
        *(stands_opposite (sheets, face, TRUE, counter == 1) ? &border.top : &border.bottom) =
          CHAIN_BELOW;
      if (has_runs (sheets, face, FALSE, counter == 1))
        *(stands_opposite (sheets, face, FALSE, counter == 1) ? &border.left : &border.right) =
          CHAIN_BESIDE;
    }

  return border;
}

/* Battens stand far enough apart to be labelled at 1:50. */
static double
frame_least (const RodSheets *sheets,
             guint            face)
{
  return 50.0;
}

void
rod_sheets_add_frames (RodSheets *sheets)
{
  static const RodFaceKind frames = {
    .chapter = N_ ("Battens"),
    .document = N_ ("Batten plan"),
    .border = frame_border,
    .least = frame_least,
    .wants = has_battens,
    .draw = draw_frame_plan,
    .notes = rod_sheet_frame_notes,
    .caption = rod_sheet_frame_caption,
  };

  rod_sheets_add_faces (sheets, &frames);
}
