/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-path.h"
#include "engine/model/rod-joint-pattern.h"
#include "engine/model/rod-pin.h"
#include "engine/model/rod-record.h"

G_BEGIN_DECLS

/**
 * RodSurfaceKind:
 * @ROD_SURFACE_ANY: only in decision tables
 * @ROD_SURFACE_WALL: a wall
 * @ROD_SURFACE_SOFFIT: the underside of an overhang or ceiling, seen from below
 * @ROD_SURFACE_REVEAL: head, jamb or sill lining of an opening
 */
typedef enum
{
  ROD_SURFACE_ANY = -1,
  ROD_SURFACE_WALL,
  ROD_SURFACE_SOFFIT,
  ROD_SURFACE_REVEAL,
} RodSurfaceKind;

/**
 * RodEdgeCondition:
 * @ROD_EDGE_AUTO: worked out from the shape and the joins
 * @ROD_EDGE_BASE: lower edge of a wall
 * @ROD_EDGE_TOP: upper edge under a roof or coping
 * @ROD_EDGE_SIDE_STOP: ends against another material or a frame
 * @ROD_EDGE_VERGE: raked edge under a roof
 * @ROD_EDGE_OUTSIDE_CORNER: turns away from the viewer
 * @ROD_EDGE_INSIDE_CORNER: turns towards the viewer
 * @ROD_EDGE_CEILING_LINE: wall and soffit meet
 * @ROD_EDGE_HEAD: over an opening
 * @ROD_EDGE_SILL: under an opening
 * @ROD_EDGE_JAMB: beside an opening
 * @ROD_EDGE_MITRE: two soffits meet in one plane
 * @ROD_EDGE_FASCIA: outer edge of a soffit
 * @ROD_EDGE_ZONE: border between two zones of one surface
 */
typedef enum
{
  ROD_EDGE_AUTO,
  ROD_EDGE_BASE,
  ROD_EDGE_TOP,
  ROD_EDGE_SIDE_STOP,
  ROD_EDGE_VERGE,
  ROD_EDGE_OUTSIDE_CORNER,
  ROD_EDGE_INSIDE_CORNER,
  ROD_EDGE_CEILING_LINE,
  ROD_EDGE_HEAD,
  ROD_EDGE_SILL,
  ROD_EDGE_JAMB,
  ROD_EDGE_MITRE,
  ROD_EDGE_FASCIA,
  ROD_EDGE_ZONE,
} RodEdgeCondition;

/**
 * RodOpeningKind:
 * @ROD_OPENING_WINDOW: a window
 * @ROD_OPENING_DOOR: a door
 * @ROD_OPENING_VENT: a vent or grille
 * @ROD_OPENING_PIPE: a pipe, cable or bracket
 * @ROD_OPENING_LIGHT: a light let into a soffit
 */
typedef enum
{
  ROD_OPENING_WINDOW,
  ROD_OPENING_DOOR,
  ROD_OPENING_VENT,
  ROD_OPENING_PIPE,
  ROD_OPENING_LIGHT,
} RodOpeningKind;

/**
 * RodOpeningShape:
 * @ROD_SHAPE_RECTANGLE: x, y of the lower left corner, width, height
 * @ROD_SHAPE_POLYGON: corners
 * @ROD_SHAPE_CIRCLE: x, y of the centre, width is the diameter
 * @ROD_SHAPE_ARCH: as a rectangle whose upper edge is an arc that rises by @rise_mm within height
 */
typedef enum
{
  ROD_SHAPE_RECTANGLE,
  ROD_SHAPE_POLYGON,
  ROD_SHAPE_CIRCLE,
  ROD_SHAPE_ARCH,
} RodOpeningShape;

/**
 * RodLaidFrom:
 * @ROD_LAID_FROM_LEFT: upright boards begin at the left
 * @ROD_LAID_FROM_RIGHT: upright boards begin at the right
 * @ROD_LAID_FROM_CENTRE: upright boards begin in the middle; only such as have no hook can
 * @ROD_LAID_FROM_INHERITED: as the surface; zones only
 */
typedef enum
{
  ROD_LAID_FROM_LEFT,
  ROD_LAID_FROM_RIGHT,
  ROD_LAID_FROM_CENTRE,
  ROD_LAID_FROM_INHERITED,
} RodLaidFrom;

/**
 * RodRevealBoards:
 * @ROD_REVEAL_ALONG: boards run along the arris
 * @ROD_REVEAL_ACROSS: boards run from frame to arris
 */
typedef enum
{
  ROD_REVEAL_ALONG,
  ROD_REVEAL_ACROSS,
} RodRevealBoards;

/**
 * RodCorner:
 * @x: mm
 * @y: mm
 * @bulge: arc of the edge that leaves this corner, see rod_path_add_arc(); 0 for straight
 * @edge: identifier of that edge, "" when nothing refers to it
 * @condition: condition of that edge
 * @clearance_mm: clearance of that edge instead of the system's; not-a-number for the system's
 * @stepped: for the base of a wall drawn as the ground falls: it is to be stepped, see
 *           rod_house_with_steps()
 * @seen: from where strips at that edge are seen
 *
 * A corner of an outline, counter-clockwise, and the edge that leaves it.
 */
typedef struct
{
  RodRecord        record;
  double           x;
  double           y;
  double           bulge;
  char            *edge;
  RodEdgeCondition condition;
  double           clearance_mm;
  gboolean         stepped;
  RodSeen          seen;
} RodCorner;

/**
 * RodReveal:
 * @depth_mm: window frame to raw wall face
 * @head: line the head
 * @jambs: line the jambs
 * @sill: line the sill
 * @build_up_mm: raw reveal to batten face
 * @sill_rise_mm: finished sill above the raw one, at the jambs' foot
 * @system: id of the system, "" for the wall's
 * @board: id of the board, "" for the wall's
 * @colour: id of the colour, "" for the wall's
 * @boards: direction
 */
typedef struct
{
  RodRecord       record;
  double          depth_mm;
  gboolean        head;
  gboolean        jambs;
  gboolean        sill;
  double          build_up_mm;
  double          sill_rise_mm;
  char           *system;
  char           *board;
  char           *colour;
  RodRevealBoards boards;
} RodReveal;

/**
 * RodOpening:
 * @id: identifier within the surface
 * @name: name for people
 * @kind: what it is
 * @shape: which of the following members count
 * @x: see @shape
 * @y: see @shape
 * @width_mm: see @shape
 * @height_mm: see @shape
 * @rise_mm: see @shape
 * @corners: (element-type RodCorner): polygon, counter-clockwise
 * @reveal: (nullable): lining of its sides
 */
typedef struct
{
  RodRecord       record;
  char           *id;
  char           *name;
  RodOpeningKind  kind;
  RodOpeningShape shape;
  double          x;
  double          y;
  double          width_mm;
  double          height_mm;
  double          rise_mm;
  GPtrArray      *corners;
  RodReveal      *reveal;
} RodOpening;

/**
 * RodColourShare:
 * @colour: id of a colour of the board
 * @weight: share in the mix, > 0
 */
typedef struct
{
  RodRecord record;
  char     *colour;
  double    weight;
} RodColourShare;

/**
 * RodZone:
 * @id: identifier within the surface
 * @name: name for people
 * @corners: (element-type RodCorner): its polygon, counter-clockwise
 * @board: id of the board, "" for the surface's
 * @direction_deg: direction of the boards; not-a-number for the surface's
 * @laid_from: where upright boards begin
 * @colour: id of the colour, "" for the surface's
 * @mix: (element-type RodColourShare): a weighted mix instead of one colour
 * @seed: seed of the mix
 * @no_repeat: no two neighbouring boards have the same colour of the mix
 * @joint_pattern: where length joints fall
 * @joint_offset_mm: least distance of joints in neighbouring courses; not-a-number for the
 *                   surface's
 * @joint_repeat: after so many courses joints may be in line again; 0 for the surface's
 * @joint_seed: seed of joints at random; counts where the zone has its own pattern
 * @longest_piece_mm: longest board; not-a-number for the surface's
 *
 * A part of a surface with boards of its own.
 */
typedef struct
{
  RodRecord       record;
  char           *id;
  char           *name;
  GPtrArray      *corners;
  char           *board;
  double          direction_deg;
  RodLaidFrom     laid_from;
  char           *colour;
  GPtrArray      *mix;
  int             seed;
  gboolean        no_repeat;
  RodJointPattern joint_pattern;
  double          joint_offset_mm;
  int             joint_repeat;
  int             joint_seed;
  double          longest_piece_mm;
} RodZone;

/**
 * RodSurface:
 * @id: identifier within the house
 * @mark: short mark for pieces ("N", "A"), "" to be given one by order
 * @name: name for people
 * @kind: wall, soffit or reveal
 * @system: id of the system
 * @board: id of the board, "" for the system's first
 * @direction_deg: axis of the boards from x, −90 < d ≤ 90; 0 is level, 90 upright
 * @laid_from: where upright boards begin
 * @colour: id of the colour, "" for the board's first
 * @mix: (element-type RodColourShare): a weighted mix instead of one colour
 * @seed: seed of the mix
 * @no_repeat: no two neighbouring boards have the same colour of the mix
 * @joint_pattern: where length joints fall
 * @joint_offset_mm: least distance of joints in neighbouring courses; not-a-number for the
 *                   system's
 * @joint_repeat: after so many courses joints may be in line again; 0 for the system's
 * @joint_seed: seed of joints at random
 * @longest_piece_mm: longest board; not-a-number for the stock's
 * @level_mm: height of y = 0 above the house's datum (walls and reveals)
 * @facing_deg: compass direction it faces, clockwise from north; not-a-number when unknown
 * @build_up_mm: raw wall to batten face (the boards' back plane)
 * @joint_line_mm: where the rod was left: one joint line lies at this place (height above datum for
 *                 level boards, along x for upright ones, square to the boards otherwise);
 *                 not-a-number for the best place
 * @pins: (element-type RodPin): what is asked of its joint lines
 * @seen: from where it is seen; inherited stands for the front
 * @starter_low_mm: lowest starter above the base instead of the system's; not-a-number for that
 * @starter_high_mm: highest starter above the base, likewise
 * @outline: (element-type RodCorner): the structure as measured, counter-clockwise
 * @openings: (element-type RodOpening): openings
 * @zones: (element-type RodZone): zones; where two overlap, the later one counts
 */
typedef struct
{
  RodRecord       record;
  char           *id;
  char           *mark;
  char           *name;
  RodSurfaceKind  kind;
  char           *system;
  char           *board;
  double          direction_deg;
  RodLaidFrom     laid_from;
  char           *colour;
  GPtrArray      *mix;
  int             seed;
  gboolean        no_repeat;
  RodJointPattern joint_pattern;
  double          joint_offset_mm;
  int             joint_repeat;
  int             joint_seed;
  double          longest_piece_mm;
  double          level_mm;
  double          facing_deg;
  double          build_up_mm;
  double          joint_line_mm;
  GPtrArray      *pins;
  RodSeen         seen;
  double          starter_low_mm;
  double          starter_high_mm;
  GPtrArray      *outline;
  GPtrArray      *openings;
  GPtrArray      *zones;
} RodSurface;

extern const RodType rod_corner_type;
extern const RodType rod_reveal_type;
extern const RodType rod_opening_type;
extern const RodType rod_colour_share_type;
extern const RodType rod_zone_type;
extern const RodType rod_surface_type;

extern const RodChoice rod_surface_kind_choices[];
extern const RodChoice rod_edge_condition_choices[];
extern const RodChoice rod_opening_kind_choices[];
extern const RodChoice rod_opening_shape_choices[];
extern const RodChoice rod_laid_from_choices[];
extern const RodChoice rod_zone_laid_from_choices[];
extern const RodChoice rod_reveal_boards_choices[];

/**
 * rod_surface_find_edge:
 * @surface: a surface
 * @edge: identifier of an edge
 *
 * Returns: index of the corner that the edge leaves, or -1
 */
int rod_surface_find_edge (const RodSurface *surface,
                           const char       *edge);

/**
 * RodSide:
 * @from: start
 * @to: end
 * @bulge: arc, see rod_path_add_arc()
 * @corner: (nullable): the corner of the file that says more about it; %NULL on a rectangle, circle
 *          or arch
 *
 * One side of an outline or opening, the clad area to its left on an outline and to its right on an
 * opening (openings are listed counter-clockwise too). A plain value.
 */
typedef struct
{
  RodPoint         from;
  RodPoint         to;
  double           bulge;
  const RodCorner *corner;
} RodSide;

/**
 * rod_corners_sides:
 * @corners: (element-type RodCorner): a closed polygon
 *
 * Returns: (transfer full) (element-type RodSide): its sides
 */
GArray *rod_corners_sides (const GPtrArray *corners) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_opening_sides:
 * @opening: an opening
 *
 * A rectangle gives sill, right jamb, head, left jamb in this order; an arch the same with a curved
 * head; a circle two half circles.
 *
 * Returns: (transfer full) (element-type RodSide): its sides, counter-clockwise
 */
GArray *rod_opening_sides (const RodOpening *opening) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCorner, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodReveal, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodOpening, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodColourShare, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodZone, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodSurface, rod_record_unref)

G_END_DECLS
