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

/* Figures may be lifted so often before they are let overlap. */
#define LEVELS 3
#define LEVEL_PITCH 1.35

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

/* A figure that does not fit between its strokes stands outside where the chain ends there, else it
 * is lifted until it touches no other. Of one upright distance it stands below, where titles of
 * drawings never are. */
static void
draw_figures (const RodChain *chain,
              const Pen      *pen,
              gboolean        upright)
{
  double used[LEVELS] = { -G_MAXDOUBLE, -G_MAXDOUBLE, -G_MAXDOUBLE };
  guint  n = chain->places->len;

  for (guint i = 0; i + 1 < n; i++)
    {
      RodLetterStyle   style = { .height = pen->height, .align = ROD_ALIGN_CENTRE };
      double           from = to_paper (pen, place_at (chain, i));
      double           to = to_paper (pen, place_at (chain, i + 1));
      g_autofree char *figure =
        rod_figures_length (pen->units, place_at (chain, i + 1) - place_at (chain, i));
      double   half = 0.5 * rod_lettering_width (pen->lettering, figure, pen->height, FALSE);
      double   middle = 0.5 * (from + to);
      gboolean fits = 2.0 * half + FIGURE_CLEAR <= to - from;
      int      level = 0;

      if (!fits && i + 2 == n && !(upright && i == 0))
        middle = to + STROKE_REACH + FIGURE_CLEAR + half;
      else if (!fits && i == 0)
        middle = from - STROKE_REACH - FIGURE_CLEAR - half;
      else if (!fits)
        level = 1;
      while (level + 1 < LEVELS && middle - half < used[level])
        level++;
      used[level] = middle + half + FIGURE_CLEAR;
      rod_lettering_write (pen->lettering,
                           pen->cr,
                           figure,
                           &style,
                           middle,
                           pen->line - FIGURE_GAP - level * LEVEL_PITCH * pen->height);
    }
}

/* Figures of a running chain stand at the ends of their extension lines, across the line. */
static void
draw_running_figures (const RodChain *chain,
                      const Pen      *pen,
                      gboolean        upright)
{
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
                           pen->line + away * (EXTENSION_BEYOND + FIGURE_GAP));
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
  };
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
      draw_running_figures (chain, &pen, upright);
    }
  else
    draw_figures (chain, &pen, upright);
  cairo_restore (cr);
}
