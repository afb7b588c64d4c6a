/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheets/rod-sheets-private.h"

G_BEGIN_DECLS

/* Bars of one cutting that are cut alike, as they are drawn on a saw sheet. */
typedef struct _RodSawBlock RodSawBlock;

/* All blocks of a cutting in sawing order, set to @width: (transfer full)
 * (element-type RodSawBlock). */
GPtrArray *rod_saw_blocks_new (const RodSheets  *sheets,
                               const RodCutting *cutting,
                               double            width) G_GNUC_WARN_UNUSED_RESULT;

double rod_saw_block_height (const RodSawBlock *block);

/* Drawing goes by layers, so that the blocks of a page make a few large paths: the bars, the pieces
 * in them, the lines of the cuts, the boxes to tick, and what is written. */
void rod_saw_block_trace_bar (const RodSawBlock *block,
                              const RodCutting  *cutting,
                              double             x,
                              double             y,
                              cairo_t           *cr);

void rod_saw_block_trace_pieces (const RodSawBlock *block,
                                 const RodSheets   *sheets,
                                 const RodCutting  *cutting,
                                 double             x,
                                 double             y,
                                 cairo_t           *cr);

void rod_saw_block_trace_cuts (const RodSawBlock *block,
                               double             x,
                               double             y,
                               cairo_t           *cr);

void rod_saw_block_trace_tick (const RodSawBlock *block,
                               double             x,
                               double             y,
                               cairo_t           *cr);

void rod_saw_block_write (const RodSawBlock *block,
                          const RodSheets   *sheets,
                          const RodCutting  *cutting,
                          double             x,
                          double             y,
                          cairo_t           *cr);

/* What a piece needs beyond its length, for the man at the saw; "" when it is plain. */
char *
rod_saw_describe_piece (const RodPlan *plan,
                        guint          piece,
                        RodUnits       units) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
