/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-region.h"

G_BEGIN_DECLS

/**
 * RodCutTag:
 * @ROD_TAG_LINE_BELOW: the strip's lower joint line
 * @ROD_TAG_LINE_ABOVE: the strip's upper joint line
 * @ROD_TAG_COLUMN_LEFT: a length joint at the left end of a piece
 * @ROD_TAG_COLUMN_RIGHT: a length joint at the right end of a piece
 *
 * Tags of edges made by cutting. Tags of the region's own edges are ≥ 0, also of one that lies on a
 * joint line: no board goes on there.
 */
typedef enum
{
  ROD_TAG_LINE_BELOW = -1,
  ROD_TAG_LINE_ABOVE = -2,
  ROD_TAG_COLUMN_LEFT = -3,
  ROD_TAG_COLUMN_RIGHT = -4,
} RodCutTag;

/**
 * RodStrip:
 * @course: which band it lies in, see rod_strips_cut()
 * @first_ring: index of its outer ring in the set's rings; its holes follow
 * @n_rings: one for the outer ring and one for each hole
 * @source: index of the strip that rod_strips_split() made it from; its own if it was not split
 *
 * One connected piece of a region between two neighbouring lines. A plain value.
 */
typedef struct
{
  int   course;
  guint first_ring;
  guint n_rings;
  guint source;
} RodStrip;

/**
 * RodStrips:
 * @rings: the corners and tags of all strips; no region by itself, but strips side by side
 * @strips: the strips, by course, then by least x, then by least y
 * @n_strips: how many strips there are
 *
 * What a comb of parallel lines makes of a region. Immutable once made.
 */
typedef struct
{
  RodRegion *rings;
  RodStrip  *strips;
  guint      n_strips;
} RodStrips;

/**
 * rod_strips_cut:
 * @region: a normalised region, in the board frame (boards run along x)
 * @phase: y of one joint line, mm
 * @pitch: distance between joint lines, mm, > ROD_SNAP_MM
 *
 * Cuts a region at y = @phase + k·@pitch for every whole k. Course k is the band from line k to
 * line k + 1. Exact: intersection order is decided on integers, so that a line through a corner or
 * along an edge gives neither a lost nor a doubled piece. Corners within ROD_LINE_SNAP_MM of a line
 * are moved onto it; remnants whose area is less than ROD_REMNANT_MM times their length from end to
 * end are dropped. Pieces that touch in a point are two. The areas of all strips add up to the
 * region's area within those tolerances, and no two strips overlap. Corners are whole micrometres.
 * O(V + K log m) for V corners and K crossings, m crossings a line.
 *
 * Returns: (transfer full): the strips
 */
RodStrips *rod_strips_cut (const RodRegion *region,
                           double           phase,
                           double           pitch) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_strip_extent:
 * @strips: strips
 * @strip: index of one of them
 * @low: (out): its least x
 * @high: (out): its greatest x
 */
void rod_strip_extent (const RodStrips *strips,
                       guint            strip,
                       double          *low,
                       double          *high);

/**
 * rod_strips_split:
 * @strips: strips
 * @columns: (array length=n_columns): x of each length joint, ascending, mm
 * @n_columns: how many length joints there are
 *
 * Cuts every strip at the given columns; courses are kept and parts of one course follow each other
 * by least x. New edges carry %ROD_TAG_COLUMN_RIGHT on the part left of the column and
 * %ROD_TAG_COLUMN_LEFT on the part right of it. Snapping and remnants are as in rod_strips_cut(). A
 * column within ROD_SNAP_MM of the one before is left out.
 *
 * Returns: (transfer full): the parts
 */
RodStrips *rod_strips_split (const RodStrips *strips,
                             const double    *columns,
                             guint            n_columns) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_strips_split_each:
 * @strips: strips
 * @places: x of length joints, ascending within each strip, mm
 * @starts: (array): for each strip the index of its first place, and how many places there are
 *
 * As rod_strips_split(), with places of its own for every strip.
 *
 * Returns: (transfer full): the parts
 */
RodStrips *rod_strips_split_each (const RodStrips *strips,
                                  const double    *places,
                                  const guint     *starts) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_strips_free:
 * @strips: (transfer full) (nullable): strips
 */
void rod_strips_free (RodStrips *strips);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodStrips, rod_strips_free)

G_END_DECLS
