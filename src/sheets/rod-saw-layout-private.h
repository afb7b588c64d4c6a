/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheets/rod-saw-block-private.h"

G_BEGIN_DECLS

/* Measures of a block on paper, shared by laying out and drawing. */
#define GUTTER 24.0
#define GUTTER_IMPERIAL 35.0
#define GUTTER_PITCH 3.7
#define GUTTER_FOOT 1.0
#define BAR_HEIGHT 6.0
#define SHAPED_BAR_HEIGHT 9.0
#define MARK_GAP 0.9
#define MARK_PITCH 4.7

/* Between a length and a name beside it. */
#define NAME_GAP 1.4

#define TICK 3.0
#define TICK_ROOM 4.4

/* Marks of pieces; figures are larger. */
#define NAME_HEIGHT ROD_SHEET_TEXT

/* A text is narrowed to this at most before another way is taken to say it. */
#define NARROWEST 0.76

/* A piece in the bar. What the drawing has no room for is listed below it. */
typedef struct
{
  double   start;  /* on the tape, mm */
  double   end;    /* its running mark, mm */
  double   middle; /* of what is written in it, on paper from the end of the bar */
  double   room;   /* along what is written */
  double   mark;   /* centre of the running mark, on paper; listed pieces have none there */
  double   mark_width;
  int      level; /* how far down the running mark stands */
  gboolean listed;
  gboolean halo; /* what is written crosses the shape, which gives way */
} RodSawPlace;

/* What is said below the bar, as many of them on a line as fit. */
typedef struct
{
  char  *text;
  double height;
} RodSawNote;

struct _RodSawBlock
{
  double       width;
  double       gutter; /* beside the bar, within the width */
  GArray      *bars;   /* (element-type guint): in the order of their numbers */
  double       scale;  /* paper per nature along the bar */
  guint        n_places;
  RodSawPlace *places;
  int          n_levels;
  gboolean     two_lines; /* names stand below lengths */
  double       bar_height;
  GArray      *notes; /* (element-type RodSawNote) */
  double       height;
};

/* rod-saw-block.c */
const RodSawBar *rod_saw_block_bar (const RodSawBlock *block,
                                    const RodCutting  *cutting,
                                    guint              i);

double rod_saw_stock_length (const RodCutting *cutting,
                             const RodSawBar  *bar);

const RodCutItem *rod_saw_item_at (const RodCutting *cutting,
                                   const RodSawBar  *bar,
                                   guint             i);

double rod_saw_block_head (const RodSawBlock *block);

/* Where the piece begins in the frame of its board. */
double rod_saw_piece_low (const RodPlan *plan,
                          guint          piece);

/* rod-saw-notes.c */
void rod_saw_make_notes (RodSawBlock      *block,
                         const RodSheets  *sheets,
                         const RodCutting *cutting,
                         const GPtrArray  *features);

/* Each returns the height it takes, and only measures without @cr. */
double rod_saw_set_notes (const RodSawBlock *block,
                          const RodSheets   *sheets,
                          cairo_t           *cr,
                          double             x,
                          double             y);

double rod_saw_set_names (const RodSawBlock *block,
                          const RodSheets   *sheets,
                          const RodCutting  *cutting,
                          cairo_t           *cr,
                          double             x,
                          double             y);

G_END_DECLS
