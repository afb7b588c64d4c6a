/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "engine/model/rod-house.h"
#include "sheets/rod-clearing.h"
#include "sheets/rod-lettering.h"

G_BEGIN_DECLS

/**
 * RodChainKind:
 * @ROD_CHAIN_LEVEL: each distance between neighbours, written along a level line
 * @ROD_CHAIN_UPRIGHT: the same along an upright line
 * @ROD_CHAIN_RUNNING_LEVEL: each distance from the origin, written at its own end
 * @ROD_CHAIN_RUNNING_UPRIGHT: the same along an upright line
 *
 * How dimensions are written. Running dimensions are what is transferred to a rod: errors of a tape
 * do not add up along them.
 */
typedef enum
{
  ROD_CHAIN_LEVEL,
  ROD_CHAIN_UPRIGHT,
  ROD_CHAIN_RUNNING_LEVEL,
  ROD_CHAIN_RUNNING_UPRIGHT,
} RodChainKind;

/**
 * RodChain:
 *
 * A line of dimensions under construction.
 */
typedef struct _RodChain RodChain;

/**
 * RodChainPlace:
 * @scale: paper per nature, e.g. 0.02
 * @zero: where nature's 0 lies on paper, along the line
 * @line: where the line of dimensions lies, across it
 * @outline: where the extension lines begin, across it
 * @height: height of the figures
 * @clearing: (nullable): what is taken already; what the chain writes is taken afterwards
 *
 * Where a chain is drawn, in units of the context. A plain value.
 */
typedef struct
{
  double scale;
  double zero;
  double line;
  double outline;
  double height;

  RodClearing *clearing;
} RodChainPlace;

/**
 * rod_chain_new:
 * @kind: how it is written
 *
 * Returns: (transfer full): an empty chain
 */
RodChain *rod_chain_new (RodChainKind kind) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_chain_free:
 * @chain: (transfer full) (nullable): a chain
 */
void rod_chain_free (RodChain *chain);

/**
 * rod_chain_add:
 * @chain: a chain
 * @mm: a place along the line, in nature; order does not matter
 *
 * Adds a place. Places closer than half a millimetre are one.
 */
void rod_chain_add (RodChain *chain,
                    double    mm);

/**
 * rod_chain_set_origin:
 * @chain: a running chain
 * @mm: the place from which the others are counted; 0 unless set
 */
void rod_chain_set_origin (RodChain *chain,
                           double    mm);

/**
 * rod_chain_n_places:
 * @chain: a chain
 *
 * Returns: how many different places it has
 */
guint rod_chain_n_places (RodChain *chain);

/**
 * rod_chain_draw:
 * @chain: a chain
 * @cr: where to draw; y runs downwards
 * @lettering: lettering
 * @units: units of the figures
 * @place: where
 *
 * Draws line, extension lines, strokes and figures. A figure that does not fit between its strokes
 * stands at the nearest free place beside the line, with a leader where it is far; one that has
 * none near is left out. Running figures that would touch are left out, first and last never.
 */
void rod_chain_draw (RodChain            *chain,
                     cairo_t             *cr,
                     RodLettering        *lettering,
                     RodUnits             units,
                     const RodChainPlace *place);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodChain, rod_chain_free)

G_END_DECLS
