/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * RodLegKind:
 * @ROD_LEG_LINE: go along a measured line
 * @ROD_LEG_FIXED: go a length that is not measured
 * @ROD_LEG_TURN: turn by a measured angle
 */
typedef enum
{
  ROD_LEG_LINE,
  ROD_LEG_FIXED,
  ROD_LEG_TURN,
} RodLegKind;

/**
 * RodLeg:
 * @kind: what to do
 * @index: which line or turn; 0 for a fixed length
 * @factor: 1 or −1 for lines (on or back) and turns (left or right); the length for a fixed one, mm
 *
 * A step of a closed traverse. A plain value.
 */
typedef struct
{
  RodLegKind kind;
  guint      index;
  double     factor;
} RodLeg;

/**
 * RodTraverse:
 * @lines_mm: (array length=n_lines): measured lengths
 * @line_sigmas: (array length=n_lines): how far each may be off, in any common unit; > 0
 * @n_lines: how many
 * @turns_deg: (array length=n_turns): measured angles, counter-clockwise
 * @turn_sigmas_deg: (array length=n_turns): how far each may be off, in degrees where
 *                   @line_sigmas are mm; 0 for angles that are held
 * @n_turns: how many
 * @legs: (array): legs of all loops
 * @loop_ends: (array length=n_loops): index behind the last leg of each loop; a loop begins where
 *             the one before it ends, heading along x
 * @n_loops: how many
 *
 * Closed traverses that may share lines and turns: each loop should end where it began, and its
 * turns should add up to whole turns. Borrows all it points at.
 */
typedef struct
{
  const double *lines_mm;
  const double *line_sigmas;
  guint         n_lines;
  const double *turns_deg;
  const double *turn_sigmas_deg;
  guint         n_turns;
  const RodLeg *legs;
  const guint  *loop_ends;
  guint         n_loops;
} RodTraverse;

/**
 * rod_traverse_gap_mm:
 * @traverse: traverses
 * @line_corrections_mm: (nullable) (array): added to the lines
 * @turn_corrections_deg: (nullable) (array): added to the turns
 *
 * Returns: how far the worst loop ends from where it began, mm
 */
double rod_traverse_gap_mm (const RodTraverse *traverse,
                            const double      *line_corrections_mm,
                            const double      *turn_corrections_deg);

/**
 * rod_traverse_adjust:
 * @traverse: traverses
 * @line_corrections_mm: (out caller-allocates) (array): what to add to each line
 * @turn_corrections_deg: (out caller-allocates) (array): what to add to each turn; 0 for held ones
 *
 * Least squares: of all corrections that close the loops, those with the least sum of
 * (correction / sigma)². A loop that its lines and turns cannot close, as one whose walls all run
 * one way, is closed as far as it goes. With all angles held the result is exact; else it is worked
 * out in steps until it no longer changes. Cubic in the number of loops.
 *
 * Returns: whether all loops close, to ROD_SNAP_MM
 */
gboolean rod_traverse_adjust (const RodTraverse *traverse,
                              double            *line_corrections_mm,
                              double            *turn_corrections_deg);

G_END_DECLS
