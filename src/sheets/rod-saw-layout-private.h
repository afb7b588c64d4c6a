/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheets/rod-saw-block-private.h"

G_BEGIN_DECLS

/* Measures of a block on paper, shared by laying out and drawing. */
#define GUTTER 24.0
#define GUTTER_IMPERIAL 35.0
#define GUTTER_PITCH 4.3
#define BAR_HEIGHT 9.0
#define THIN_BAR_HEIGHT 6.0
#define NAMED_BAR_HEIGHT 11.0
#define MARK_GAP 0.9
#define MARK_PITCH 4.7

/* A running mark that has no room; it is written in the list of names. */
#define MARK_HIDDEN (-1)

#define FEATURE_GAP 0.4
#define TICK 3.0

/* Marks of pieces; figures are larger. */
#define NAME_HEIGHT ROD_SHEET_TEXT

/* Where lengths are written out because the drawing has no room for them. */
#define LIST_HEIGHT 3.0

/* A text is narrowed to this at most before another way is taken to say it. */
#define NARROWEST 0.76

/* How marks are written: in the bar, below their pieces, or in order where they do not fit. */
typedef enum
{
  NAMES_INSIDE,
  NAMES_BELOW,
  NAMES_IN_ORDER,
} Names;

struct _RodSawBlock
{
  double     width;
  double     gutter; /* beside the bar, within the width */
  guint      first_bar;
  guint      n_bars;
  double     scale; /* paper per nature along the bar */
  guint      n_pieces;
  double    *starts; /* where pieces begin on the tape, mm; one more than there are pieces */
  int       *levels; /* how far down each running mark stands */
  int        n_levels;
  Names      names;
  gboolean   lengths_fit;
  gboolean   all_marked; /* every running mark has room */
  double     bar_height;
  double    *row_heights;
  GPtrArray *features; /* texts */
  double     height;
};

const RodSawBar *rod_saw_bar_at (const RodCutting *cutting,
                                 guint             i);

double rod_saw_stock_length (const RodCutting *cutting,
                             const RodSawBar  *bar);

const RodCutItem *rod_saw_item_at (const RodCutting *cutting,
                                   const RodSawBar  *bar,
                                   guint             i);

double rod_saw_piece_end (const RodSawBlock *block,
                          const RodSheets   *sheets,
                          guint              i);

gboolean rod_saw_fits (const RodSheets *sheets,
                       const char      *text,
                       double           height,
                       gboolean         bold,
                       double           room);

char *rod_saw_list_names (const RodSawBlock *block,
                          const RodSheets   *sheets,
                          const RodCutting  *cutting,
                          const RodSawBar   *bar);

double rod_saw_names_height (const RodSawBlock *block);

double rod_saw_set_features (const RodSawBlock *block,
                             const RodSheets   *sheets,
                             cairo_t           *cr,
                             double             x,
                             double             y);

G_END_DECLS
