/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-piece-fit.h"

G_BEGIN_DECLS

/**
 * RodFlanger:
 * @field: the field
 * @blocked: (element-type RodFlange): stretches over @line_mm where the flange has no room
 * @line_mm: the joint line @blocked was found for
 *
 * Finds where the pieces of one field keep their fixing flange. Lives on the stack of the caller.
 */
typedef struct
{
  const RodField *field;
  GArray         *blocked;
  double          line_mm;
} RodFlanger;

/**
 * rod_flanger_init:
 * @flanger: (out caller-allocates): a flanger
 * @field: a field with its pocket area
 */
void rod_flanger_init (RodFlanger     *flanger,
                       const RodField *field);

/**
 * rod_flanger_clear:
 * @flanger: a flanger
 */
void rod_flanger_clear (RodFlanger *flanger);

/**
 * rod_flanger_run:
 * @flanger: a flanger
 * @fit: a piece, cut
 * @line_mm: its lower joint line
 * @flanges: (element-type RodFlange): gets the stretches
 *
 * A piece keeps its flange along its upper joint line wherever the boards' area reaches at least
 * the flange's width above that line (rule R8).
 *
 * Returns: length of flange that stays, mm
 */
double rod_flanger_run (RodFlanger   *flanger,
                        const RodFit *fit,
                        double        line_mm,
                        GArray       *flanges);

G_END_DECLS
