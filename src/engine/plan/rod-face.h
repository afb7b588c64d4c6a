/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-strips.h"
#include "engine/model/rod-house.h"

G_BEGIN_DECLS

/**
 * RodEdge:
 * @opening: index of the opening it bounds, or -1 on the outline or a zone's border
 * @zone: index of the zone whose border it is, or -1
 * @side: index of the side within outline, opening or zone
 * @raw: the line as measured
 * @turned: the clad area lies to the right of @raw: openings, and zones laid over this field
 * @yields: a zone's side that lies on edges of the outline, of openings or of later zones all
 * along: they bound the boards there, and it does not
 * @condition: never %ROD_EDGE_AUTO
 * @partner_face: index of the face it is joined to, or -1
 * @partner_edge: index of that face's edge, or -1
 * @join: (nullable): the join of the file; %NULL where none or where derived for a reveal
 * @fold_deg: fold at the join, see #RodJoin; 0 where there is none
 * @carries_joints: whether joint lines must meet here
 * @offset_mm: see #RodJoin
 * @relation: how the boards meet it
 * @long_side: whether the boards' long side faces it (they run along it, or nearly); else they end
 *             there and each piece has its own gap
 * @rule: (nullable): row of the decision table that decided; %NULL when none fits (a finding)
 * @trim: (nullable): the trim that holds the boards
 * @starter: whether the trim is a starter at a joint line
 * @build_up_mm: raw line → batten-face line, outwards positive
 * @clearance_mm: batten-face line → trim's boundary, inwards positive; for a starter the height of
 *                the starter above the edge
 * @back_mm: trim's boundary → pocket line, inwards
 * @gap_across_mm: pocket line → cut line where @long_side; else 0
 * @absorbed_mm: cut line → joint line where the pocket swallows the strip between; else 0
 *
 * An edge of a face with its edge stack, raw line to cut line, every distance square to the edge.
 * A plain value.
 */
typedef struct
{
  int                opening;
  int                zone;
  guint              side;
  RodSide            raw;
  gboolean           turned;
  gboolean           yields;
  RodEdgeCondition   condition;
  int                partner_face;
  int                partner_edge;
  const RodJoin     *join;
  double             fold_deg;
  gboolean           carries_joints;
  double             offset_mm;
  RodBoardRelation   relation;
  gboolean           long_side;
  const RodTrimRule *rule;
  const RodTrim     *trim;
  gboolean           starter;
  double             build_up_mm;
  double             clearance_mm;
  double             back_mm;
  double             gap_across_mm;
  double             absorbed_mm;
} RodEdge;

/**
 * RodJointRules:
 * @pattern: where length joints fall; never inherited
 * @refused: the pattern asked for where the system cannot do it; else inherited
 * @offset_mm: least distance of joints whose courses are fewer than @repeat apart
 * @repeat: after so many courses joints may be in line again
 * @seed: seed of joints at random
 * @longest_mm: longest board; infinite where only the stock says
 *
 * What holds for the length joints of a field. A plain value.
 */
typedef struct
{
  RodJointPattern pattern;
  RodJointPattern refused;
  double          offset_mm;
  int             repeat;
  int             seed;
  double          longest_mm;
} RodJointRules;

/**
 * RodLengthJoint:
 * @course: which course of the field: its lower joint line lies so many covers above the phase
 * @at_mm: place along the boards, board frame
 * @backing_mm: place of the batten behind it; @at_mm where two stand beside it
 * @paired: whether two battens meet behind it, as on the line of a jamb, where one of them stops
 *
 * Where two boards of one course meet. A plain value.
 */
typedef struct
{
  int      course;
  double   at_mm;
  double   backing_mm;
  gboolean paired;
} RodLengthJoint;

/**
 * RodField:
 * @face: index of the face
 * @zone: (nullable): the zone, or %NULL for what no zone covers
 * @board: the board
 * @colour: (nullable): the colour, or %NULL for a mix
 * @mix: (nullable) (element-type RodColourShare): the mix
 * @seed: seed of the mix
 * @no_repeat: whether no two neighbours may have the same colour of the mix
 * @direction_deg: axis of the boards as given
 * @laid_from: where upright boards begin; never inherited
 * @to_board: surface plane → board frame: boards run along +x, the next course lies at +y
 * @to_surface: the way back
 * @group: index of the alignment group
 * @group_scale: how a shift of the group's phase shifts this field: 1, −1 (it runs the other way
 *               round) or a ratio of covers
 * @group_shift_mm: @phase_mm = @group_shift_mm + @group_scale × the group's phase, modulo the cover
 * @phase_mm: one joint line, measured along +y of the board frame
 * @edges: (array length=n_edges): edges; tags in regions and strips are indices of this array
 * @n_edges: how many
 * @clad: trims' boundary: what trims enclose, in the surface's plane
 * @pocket: pocket lines, and cut lines where boards run along, in the board frame
 * @joint_rules: what holds for its length joints
 * @columns: (array length=n_columns): where joints of all courses stand in one line: their x in the
 *           board frame, ascending
 * @n_columns: how many; none where joints are staggered
 * @joints: (array length=n_joints): length joints, by course, then along the boards
 * @n_joints: how many
 * @butt_reach_mm: what has to be of battens to either side of a joint without a trim
 * @first_piece: index of its first piece in the plan
 * @n_pieces: how many pieces
 * @first_batten: index of its first batten in the plan
 * @n_battens: how many battens, counter battens included
 * @first_trim: index of its first trim run in the plan
 * @n_trims: how many trim runs
 * @n_courses: courses that hold at least one piece
 * @last_ripped_course: of the courses that are ripped the one fitted last; 0 where none is
 * @joint: (nullable): the trim at its length joints; none where boards meet over a batten
 * @fixed: where its boards are held
 * @expand: strain from fixing to hottest (or wettest), ≥ 0
 * @shrink: strain from fixing to coldest (or driest), ≥ 0
 *
 * The part of a face that has one board and one direction: the whole face, a zone, or what the
 * zones leave.
 */
typedef struct
{
  guint            face;
  const RodZone   *zone;
  const RodBoard  *board;
  const RodColour *colour;
  const GPtrArray *mix;
  int              seed;
  gboolean         no_repeat;
  double           direction_deg;
  RodLaidFrom      laid_from;
  RodAffine        to_board;
  RodAffine        to_surface;
  guint            group;
  double           group_scale;
  double           group_shift_mm;
  double           phase_mm;
  RodEdge         *edges;
  guint            n_edges;
  RodRegion       *clad;
  RodRegion       *pocket;
  RodJointRules    joint_rules;
  double          *columns;
  guint            n_columns;
  RodLengthJoint  *joints;
  guint            n_joints;
  double           butt_reach_mm;
  guint            first_piece;
  guint            n_pieces;
  guint            first_batten;
  guint            n_battens;
  guint            first_trim;
  guint            n_trims;
  guint            n_courses;
  int              last_ripped_course;
  const RodTrim   *joint;
  RodFixedPoint    fixed;
  double           expand;
  double           shrink;
} RodField;

/**
 * RodFace:
 * @surface: the surface
 * @derived: (nullable): @surface when it is a derived reveal, which the face owns
 * @system: its system
 * @mark: short mark, unique in the house
 * @label: name for people, e.g. "Front, window w1, left jamb"
 * @parent: for a derived reveal the face it belongs to, else -1
 * @opening: for a derived reveal the index of the opening in @parent's surface, else -1
 * @rank: its place in the order of the surfaces' ids: what is equal otherwise goes by it, so that
 *        the order in the file changes nothing
 * @side: for a derived reveal the index of the opening's side that it lines
 * @first_field: index of its first field in the plan
 * @n_fields: how many fields
 * @bare: batten-face region: outline less openings, before clearances, in the surface's plane
 * @net: where the face lies in the unfolded house: surface plane → net plane
 *
 * A surface as planned.
 */
typedef struct
{
  const RodSurface *surface;
  RodSurface       *derived;
  const RodSystem  *system;
  char             *mark;
  char             *label;
  int               parent;
  int               opening;
  guint             rank;
  guint             side;
  guint             first_field;
  guint             n_fields;
  RodRegion        *bare;
  RodAffine         net;
} RodFace;

G_END_DECLS
