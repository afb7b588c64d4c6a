/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of dimensions after ISO 129-1, as construction drawings write them: oblique strokes, the
 * figure above an unbroken line, readable from the bottom or from the right.
 *
 * An upright line is the level one turned by a quarter: the context is turned and the same code
 * draws both.
 */
#include "config.h"

#include "sheets/rod-chain.h"

#include <math.h>

#include "sheets/rod-figures.h"

#define SAME_PLACE_MM 0.5

/* On paper, in units of the context (mm on a sheet). */
#define LINE_WIDTH 0.18
#define STROKE_WIDTH 0.35
#define STROKE_REACH 1.1
#define EXTENSION_GAP 1.0
#define EXTENSION_BEYOND 1.4
#define FIGURE_GAP 0.7
#define FIGURE_CLEAR 0.8
#define ORIGIN_RADIUS 0.8

/* Base lines of figures that are lifted, in their heights. */
#define LEVEL_PITCH 1.35

/* A figure below the line keeps clear of the ends of strokes and extension lines. */
#define BELOW_GAP 1.7

/* How far a figure is moved along the line at most, and by which steps. */
#define MOST_SHIFT 14.0
#define SHIFT_STEP 0.7

/* What a change of level is worth, as a shift. */
#define LEVEL_COST 3.0
#define LEVELS 3

/* Running figures stand at least so many of their heights apart. */
#define RUNNING_PITCH 1.25

struct _RodChain
{
  RodChainKind kind;
  GArray      *places;
  double       origin;
};

/* A chain while it is drawn: along runs from left to right, across points away from the reader's
 * upper edge. */
typedef struct
{
  cairo_t      *cr;
  RodLettering *lettering;
  RodUnits      units;
  double        scale;
  double        zero;
  double        line;
  double        outline;
  double        height;
  gboolean      upright;
  RodClearing  *clearing;
} Pen;

RodChain *
rod_chain_new (RodChainKind kind)
{
  RodChain *chain = g_new0 (RodChain, 1);

  chain->kind = kind;
  chain->places = g_array_new (FALSE, FALSE, sizeof (double));

  return chain;
}

void
rod_chain_free (RodChain *chain)
{
  if (chain == NULL)
    return;

  g_array_unref (chain->places);
  g_free (chain);
}

static guint
find_rank (const RodChain *chain,
           double          mm)
{
  guint rank = 0;

  while (rank < chain->places->len && g_array_index (chain->places, double, rank) < mm)
    rank++;

  return rank;
}

void
rod_chain_add (RodChain *chain,
               double    mm)
{
  guint rank;

  g_return_if_fail (chain != NULL);
  g_return_if_fail (isfinite (mm));

  rank = find_rank (chain, mm);
  if (rank > 0 && mm - g_array_index (chain->places, double, rank - 1) < SAME_PLACE_MM)
    return;
  if (rank < chain->places->len && g_array_index (chain->places, double, rank) - mm < SAME_PLACE_MM)
    return;
  g_array_insert_val (chain->places, rank, mm);
}

void
rod_chain_set_origin (RodChain *chain,
                      double    mm)
{
  g_return_if_fail (chain != NULL);

  chain->origin = mm;
}

guint
rod_chain_n_places (RodChain *chain)
{
  g_return_val_if_fail (chain != NULL, 0);

  return chain->places->len;
}

static double
place_at (const RodChain *chain,
          guint           i)
{
  return g_array_index (chain->places, double, i);
}

static double
to_paper (const Pen *pen,
          double     mm)
{
  return pen->zero + mm * pen->scale;
}

static void
draw_lines (const RodChain *chain,
            const Pen      *pen)
{
  double away = pen->line < pen->outline ? -1.0 : 1.0;

  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (pen->cr, LINE_WIDTH);
  for (guint i = 0; i < chain->places->len; i++)
    {
      double x = to_paper (pen, place_at (chain, i));

      cairo_move_to (pen->cr, x, pen->outline + away * EXTENSION_GAP);
      cairo_line_to (pen->cr, x, pen->line + away * EXTENSION_BEYOND);
    }
  cairo_move_to (pen->cr, to_paper (pen, place_at (chain, 0)), pen->line);
  cairo_line_to (pen->cr, to_paper (pen, place_at (chain, chain->places->len - 1)), pen->line);
  cairo_stroke (pen->cr);

  cairo_set_line_width (pen->cr, STROKE_WIDTH);
  for (guint i = 0; i < chain->places->len; i++)
    {
      double x = to_paper (pen, place_at (chain, i));

      cairo_move_to (pen->cr, x - STROKE_REACH, pen->line + STROKE_REACH);
      cairo_line_to (pen->cr, x + STROKE_REACH, pen->line - STROKE_REACH);
    }
  cairo_stroke (pen->cr);
}

/* What a figure takes of the paper; along an upright line the context is turned. */
static RodBox
figure_box (const Pen *pen,
            double     middle,
            double     half,
            double     base)
{
  double from = middle - half - 0.5 * FIGURE_CLEAR, to = middle + half + 0.5 * FIGURE_CLEAR;

  return pen->upright ? (RodBox){ base - pen->height, -to, base, -from }
                      : (RodBox){ from, base - pen->height, to, base };
}

static void
write_figure (const Pen  *pen,
              const char *figure,
              double      middle,
              double      half,
              double      base)
{
  RodLetterStyle style = { .height = pen->height, .align = ROD_ALIGN_CENTRE };

  rod_clearing_take (pen->clearing, figure_box (pen, middle, half, base));
  rod_lettering_write (pen->lettering, pen->cr, figure, &style, middle, base);
}

/* Base lines beside the line, the best first: away from the drawing nothing crosses a figure. */
static void
list_bases (const Pen *pen,
            double     bases[LEVELS])
{
  double   above = pen->line - FIGURE_GAP - LEVEL_PITCH * pen->height;
  double   below = pen->line + BELOW_GAP + pen->height;
  gboolean away_is_above = pen->line < pen->outline;

  bases[0] = away_is_above ? above : below;
  bases[1] = away_is_above ? above - LEVEL_PITCH * pen->height : above;
  bases[2] = away_is_above ? below : above - LEVEL_PITCH * pen->height;
}

/* The nearest free place to the middle of a distance. */
static gboolean
find_free (const Pen *pen,
           double     half,
           double    *middle,
           double    *base)
{
  double bases[LEVELS];
  double best = G_MAXDOUBLE;
  double from = *middle;

  list_bases (pen, bases);
  for (int level = 0; level < LEVELS; level++)
    for (double shift = -MOST_SHIFT; shift < MOST_SHIFT + 0.5 * SHIFT_STEP; shift += SHIFT_STEP)
      {
        double cost = fabs (shift) + level * LEVEL_COST;

        if (cost < best - 1e-6 &&
            rod_clearing_is_free (pen->clearing,
                                  figure_box (pen, from + shift, half, bases[level])))
          {
            best = cost;
            *middle = from + shift;
            *base = bases[level];
          }
      }

  return best < G_MAXDOUBLE;
}

static void
draw_leader (const Pen *pen,
             double     from,
             double     middle,
             double     half,
             double     base)
{
  double end = base < pen->line ? base + 0.4 : base - pen->height - 0.4;

  if (fabs (middle - from) < half)
    return;
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  cairo_set_line_width (pen->cr, LINE_WIDTH);
  cairo_move_to (pen->cr, from, pen->line);
  cairo_line_to (pen->cr, middle < from ? middle + half : middle - half, end);
  cairo_stroke (pen->cr);
}

/* A figure that does not fit between its strokes stands outside where the chain ends there, or
 * beside the line; never above an upright chain, where titles of drawings are. */
static void
draw_tight_figure (const RodChain *chain,
                   const Pen      *pen,
                   guint           i,
                   const char     *figure,
                   double          half)
{
  double from = to_paper (pen, place_at (chain, i));
  double to = to_paper (pen, place_at (chain, i + 1));
  double off = STROKE_REACH + FIGURE_CLEAR + half;
  double middle = 0.5 * (from + to);
  double base = pen->line - FIGURE_GAP;
  double outside = NAN;

  if (i + 2 == chain->places->len && !pen->upright)
    outside = to + off;
  else if (i == 0)
    outside = from - off;
  if (isfinite (outside) &&
      rod_clearing_is_free (pen->clearing, figure_box (pen, outside, half, base)))
    middle = outside;
  else if (!find_free (pen, half, &middle, &base))
    return;
  else
    draw_leader (pen, 0.5 * (from + to), middle, half, base);
  write_figure (pen, figure, middle, half, base);
}

/* First those that fit, which have no choice. */
static void
draw_figures (const RodChain *chain,
              const Pen      *pen)
{
  for (int tight = 0; tight < 2; tight++)
    for (guint i = 0; i + 1 < chain->places->len; i++)
      {
        double           from = to_paper (pen, place_at (chain, i));
        double           to = to_paper (pen, place_at (chain, i + 1));
        g_autofree char *figure =
          rod_figures_length (pen->units, place_at (chain, i + 1) - place_at (chain, i));
        double   half = 0.5 * rod_lettering_width (pen->lettering, figure, pen->height, FALSE);
        gboolean fits = 2.0 * half + FIGURE_CLEAR <= to - from;

        if (fits && tight == 0)
          write_figure (pen, figure, 0.5 * (from + to), half, pen->line - FIGURE_GAP);
        else if (!fits && tight == 1)
          draw_tight_figure (chain, pen, i, figure, half);
      }
}

/* Figures of a running chain stand at the ends of their extension lines, across the line. */
static void
draw_running_figures (const RodChain *chain,
                      const Pen      *pen)
{
  gboolean       upright = pen->upright;
  double         away = pen->line < pen->outline ? -1.0 : 1.0;
  double         last = to_paper (pen, place_at (chain, chain->places->len - 1));
  double         written = -G_MAXDOUBLE;
  double         apart = RUNNING_PITCH * pen->height;
  RodLetterStyle style = { .height = pen->height };

  /* Along an upright line the context is turned, so that upright figures must be turned back. */
  style.angle_deg = upright ? -90.0 : 90.0;
  style.align = (away < 0.0) == !upright ? ROD_ALIGN_LEFT : ROD_ALIGN_RIGHT;
  for (guint i = 0; i < chain->places->len; i++)
    {
      double           x = to_paper (pen, place_at (chain, i));
      double           base = upright ? -0.5 * pen->height : 0.5 * pen->height;
      double           off = EXTENSION_BEYOND + FIGURE_GAP;
      double           reach;
      g_autofree char *figure = NULL;

      if (fabs (x - written) < apart ||
          (i + 1 < chain->places->len && fabs (last - x) < apart && i > 0))
        continue;
      written = x;
      figure = rod_figures_length (pen->units, place_at (chain, i) - chain->origin);
      rod_lettering_write (pen->lettering,
                           pen->cr,
                           figure,
                           &style,
                           x + base,
                           pen->line + away * off);
      reach = off + rod_lettering_width (pen->lettering, figure, pen->height, FALSE);
      rod_clearing_take (pen->clearing,
                         upright ? (RodBox){ fmin (pen->line, pen->line + away * reach),
                                             -x - 0.5 * pen->height,
                                             fmax (pen->line, pen->line + away * reach),
                                             -x + 0.5 * pen->height }
                                 : (RodBox){ x - 0.5 * pen->height,
                                             fmin (pen->line, pen->line + away * reach),
                                             x + 0.5 * pen->height,
                                             fmax (pen->line, pen->line + away * reach) });
    }
}

static void
draw_origin (const RodChain *chain,
             const Pen      *pen)
{
  double x = to_paper (pen, chain->origin);

  if (chain->origin < place_at (chain, 0) - SAME_PLACE_MM ||
      chain->origin > place_at (chain, chain->places->len - 1) + SAME_PLACE_MM)
    return;

  cairo_new_sub_path (pen->cr);
  cairo_arc (pen->cr, x, pen->line, ORIGIN_RADIUS, 0.0, 2.0 * G_PI);
  cairo_set_source_rgb (pen->cr, 1.0, 1.0, 1.0);
  cairo_fill_preserve (pen->cr);
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  cairo_stroke (pen->cr);
}

void
rod_chain_draw (RodChain            *chain,
                cairo_t             *cr,
                RodLettering        *lettering,
                RodUnits             units,
                const RodChainPlace *place)
{
  g_autoptr (RodClearing) own = NULL;
  gboolean upright;
  gboolean running;
  Pen      pen;

  g_return_if_fail (chain != NULL && cr != NULL && lettering != NULL && place != NULL);

  if (chain->places->len < 2)
    return;

  upright = chain->kind == ROD_CHAIN_UPRIGHT || chain->kind == ROD_CHAIN_RUNNING_UPRIGHT;
  running = chain->kind == ROD_CHAIN_RUNNING_LEVEL || chain->kind == ROD_CHAIN_RUNNING_UPRIGHT;
  pen = (Pen){
    .cr = cr,
    .lettering = lettering,
    .units = units,
    .scale = place->scale,
    .zero = place->zero,
    .line = place->line,
    .outline = place->outline,
    .height = place->height,
    .upright = upright,
    .clearing = place->clearing,
  };
  if (pen.clearing == NULL)
    pen.clearing = own = rod_clearing_new ();
  cairo_save (cr);
  if (upright)
    {
      /* Turned by a quarter, what runs up the page runs to the right, and right is down. */
      cairo_rotate (cr, -0.5 * G_PI);
      pen.zero = -place->zero;
    }
  draw_lines (chain, &pen);
  if (running)
    {
      draw_origin (chain, &pen);
      draw_running_figures (chain, &pen);
    }
  else
    draw_figures (chain, &pen);
  cairo_restore (cr);
}
