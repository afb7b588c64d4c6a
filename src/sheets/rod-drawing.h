/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"
#include "sheets/rod-clearing.h"
#include "sheets/rod-ink.h"
#include "sheets/rod-lettering.h"

G_BEGIN_DECLS

/**
 * RodDrawingLayer:
 * @ROD_LAYER_BATTENS: battens, counter battens dashed
 * @ROD_LAYER_BOARDS: boards filled with their colour
 * @ROD_LAYER_JOINTS: cut lines and joint lines
 * @ROD_LAYER_TRIMS: trims in the width that is seen
 * @ROD_LAYER_OPENINGS: openings, blank
 * @ROD_LAYER_OUTLINE: the structure as measured
 * @ROD_LAYER_MARKS: marks of pieces, where they fit
 *
 * What is drawn of a face; layers are drawn in this order.
 */
typedef enum
{
  ROD_LAYER_BATTENS = 1 << 0,
  ROD_LAYER_BOARDS = 1 << 1,
  ROD_LAYER_JOINTS = 1 << 2,
  ROD_LAYER_TRIMS = 1 << 3,
  ROD_LAYER_OPENINGS = 1 << 4,
  ROD_LAYER_OUTLINE = 1 << 5,
  ROD_LAYER_MARKS = 1 << 6,
} RodDrawingLayer;

/**
 * RodDrawingOptions:
 * @layers: #RodDrawingLayer flags
 * @narrow: narrow line, user units of the context
 * @wide: wide line
 * @mark_height: capitals of marks, user units
 * @mark_some: where courses are too narrow for their marks, mark the first and every second, fifth
 *             or tenth over its neighbours instead of none
 * @tint: strength of the boards' colour, 0 (blank) to 1 (full)
 * @grey: boards in grey instead of colour
 * @paper: behind everything, and in openings
 * @ink: outlines, openings and marks
 * @joint: joint lines
 * @trim: trims
 * @batten: battens
 * @clearing: (nullable): where marks of pieces take their places
 *
 * How a face is drawn. A plain value; begin with rod_drawing_options_init().
 */
typedef struct
{
  guint    layers;
  double   narrow;
  double   wide;
  double   mark_height;
  gboolean mark_some;
  double   tint;
  gboolean grey;
  RodInk   paper;
  RodInk   ink;
  RodInk   joint;
  RodInk   trim;
  RodInk   batten;

  RodClearing *clearing;
} RodDrawingOptions;

/**
 * rod_drawing_options_init:
 * @options: (out): options
 *
 * Everything but battens, black on white with pale boards, lines and lettering of ISO 128 and
 * ISO 3098 for a context whose unit is a millimetre of paper.
 */
void rod_drawing_options_init (RodDrawingOptions *options);

/**
 * rod_drawing_board_ink:
 * @colour: (nullable): colour of a board
 * @options: options
 *
 * Returns: what a board of this colour is filled with
 */
RodInk rod_drawing_board_ink (const RodColour         *colour,
                              const RodDrawingOptions *options);

/**
 * rod_drawing_face:
 * @cr: where to draw
 * @lettering: (nullable): for marks
 * @plan: a plan
 * @face: index of a face
 * @to_device: surface plane → user units of @cr; may turn, scale and shear
 * @options: how
 *
 * Draws the chosen layers of a face. What lies outside the clip is left out.
 */
void rod_drawing_face (cairo_t                 *cr,
                       RodLettering            *lettering,
                       const RodPlan           *plan,
                       guint                    face,
                       RodAffine                to_device,
                       const RodDrawingOptions *options);

/**
 * rod_drawing_boards:
 * @cr: where to draw
 * @plan: a plan
 * @face: index of a face
 * @to_device: surface plane → user units of @cr
 * @options: how; layers are ignored
 *
 * Fills the boards of a face, one path for each colour.
 */
void rod_drawing_boards (cairo_t                 *cr,
                         const RodPlan           *plan,
                         guint                    face,
                         RodAffine                to_device,
                         const RodDrawingOptions *options);

/**
 * rod_drawing_joints:
 * @cr: where to draw
 * @plan: a plan
 * @face: index of a face
 * @to_device: surface plane → user units of @cr
 * @options: how
 *
 * Strokes the cut lines of all pieces of a face as one path.
 */
void rod_drawing_joints (cairo_t                 *cr,
                         const RodPlan           *plan,
                         guint                    face,
                         RodAffine                to_device,
                         const RodDrawingOptions *options);

/**
 * rod_drawing_battens:
 * @cr: where to draw
 * @plan: a plan
 * @face: index of a face
 * @to_device: surface plane → user units of @cr
 * @options: how
 *
 * Draws battens in their width and counter battens dashed.
 */
void rod_drawing_battens (cairo_t                 *cr,
                          const RodPlan           *plan,
                          guint                    face,
                          RodAffine                to_device,
                          const RodDrawingOptions *options);

/**
 * rod_drawing_trims:
 * @cr: where to draw
 * @plan: a plan
 * @face: index of a face
 * @to_device: surface plane → user units of @cr
 * @options: how
 *
 * Draws trims as bands of the width that is seen.
 */
void rod_drawing_trims (cairo_t                 *cr,
                        const RodPlan           *plan,
                        guint                    face,
                        RodAffine                to_device,
                        const RodDrawingOptions *options);

/**
 * rod_drawing_find_battens:
 * @plan: a plan
 * @face: index of a face
 * @first: (out): index of its first batten run in the plan
 * @end: (out): index after its last
 */
void rod_drawing_find_battens (const RodPlan *plan,
                               guint          face,
                               guint         *first,
                               guint         *end);

/**
 * rod_drawing_find_trims:
 * @plan: a plan
 * @face: index of a face
 * @first: (out): index of its first trim run in the plan
 * @end: (out): index after its last
 */
void rod_drawing_find_trims (const RodPlan *plan,
                             guint          face,
                             guint         *first,
                             guint         *end);

/**
 * rod_drawing_openings:
 * @cr: where to draw
 * @plan: a plan
 * @face: index of a face
 * @to_device: surface plane → user units of @cr
 * @options: how
 *
 * Draws openings as blank areas with a wide border and, from window size on, narrow diagonals.
 */
void rod_drawing_openings (cairo_t                 *cr,
                           const RodPlan           *plan,
                           guint                    face,
                           RodAffine                to_device,
                           const RodDrawingOptions *options);

/**
 * rod_drawing_outline:
 * @cr: where to draw
 * @plan: a plan
 * @face: index of a face
 * @to_device: surface plane → user units of @cr
 * @options: how
 *
 * Draws the outline of the structure in a wide line.
 */
void rod_drawing_outline (cairo_t                 *cr,
                          const RodPlan           *plan,
                          guint                    face,
                          RodAffine                to_device,
                          const RodDrawingOptions *options);

/**
 * rod_drawing_marks:
 * @cr: where to draw
 * @lettering: lettering
 * @plan: a plan
 * @face: index of a face
 * @to_device: surface plane → user units of @cr
 * @options: how
 *
 * Writes the marks of pieces that have room for them.
 *
 * Returns: how many are written
 */
guint rod_drawing_marks (cairo_t                 *cr,
                         RodLettering            *lettering,
                         const RodPlan           *plan,
                         guint                    face,
                         RodAffine                to_device,
                         const RodDrawingOptions *options);

/**
 * rod_drawing_net_extent:
 * @plan: a plan
 * @low: (out): least x and least y of all outlines in the unfolded house
 * @high: (out): greatest x and greatest y
 */
void rod_drawing_net_extent (const RodPlan *plan,
                             RodPoint      *low,
                             RodPoint      *high);

/**
 * rod_drawing_trace_region:
 * @cr: context whose path is added to
 * @region: a region of a surface's plane
 * @to_device: surface plane → user units of @cr
 *
 * Adds all rings of a region to the path.
 */
void rod_drawing_trace_region (cairo_t         *cr,
                               const RodRegion *region,
                               RodAffine        to_device);

/**
 * rod_drawing_trace_outline:
 * @cr: context whose path is added to
 * @surface: a surface
 * @to_device: surface plane → user units of @cr
 *
 * Adds the outline to the path, arcs as chords.
 */
void rod_drawing_trace_outline (cairo_t          *cr,
                                const RodSurface *surface,
                                RodAffine         to_device);

/**
 * rod_drawing_trace_opening:
 * @cr: context whose path is added to
 * @opening: an opening
 * @to_device: surface plane → user units of @cr
 *
 * Adds an opening's border to the path, arcs as chords.
 */
void rod_drawing_trace_opening (cairo_t          *cr,
                                const RodOpening *opening,
                                RodAffine         to_device);

G_END_DECLS
