/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-joint-pattern.h"
#include "engine/model/rod-record.h"

G_BEGIN_DECLS

/**
 * RodSystemKind:
 * @ROD_SYSTEM_HOLLOW: hollow plastic board, slotted flange and click lock
 * @ROD_SYSTEM_SOLID: solid composite board
 * @ROD_SYSTEM_TIMBER: timber board, moves with moisture
 * @ROD_SYSTEM_PANEL: wide interlocking panel
 */
typedef enum
{
  ROD_SYSTEM_HOLLOW,
  ROD_SYSTEM_SOLID,
  ROD_SYSTEM_TIMBER,
  ROD_SYSTEM_PANEL,
} RodSystemKind;

/**
 * RodLightness:
 * @ROD_LIGHTNESS_BRIGHT: bright light surface (absorbs about half of the sun)
 * @ROD_LIGHTNESS_LIGHT: light coloured surface
 * @ROD_LIGHTNESS_DARK: dark surface
 *
 * Classes of EN 1991-1-5, table 5.2.
 */
typedef enum
{
  ROD_LIGHTNESS_BRIGHT,
  ROD_LIGHTNESS_LIGHT,
  ROD_LIGHTNESS_DARK,
} RodLightness;

/**
 * RodFixedPoint:
 * @ROD_FIXED_MIDDLE: a board is held in the middle and moves both ways
 * @ROD_FIXED_TOP: a board is held at its upper end and moves downwards
 */
typedef enum
{
  ROD_FIXED_MIDDLE,
  ROD_FIXED_TOP,
} RodFixedPoint;

/**
 * RodScrewPattern:
 * @ROD_SCREWS_PER_BATTEN: one where the trim crosses a batten
 * @ROD_SCREWS_SPACED: one near each end, the rest at equal spacing
 * @ROD_SCREWS_NONE: clipped or glued
 */
typedef enum
{
  ROD_SCREWS_PER_BATTEN,
  ROD_SCREWS_SPACED,
  ROD_SCREWS_NONE,
} RodScrewPattern;

/**
 * RodBoardRelation:
 * @ROD_BOARDS_ANY: whatever the direction
 * @ROD_BOARDS_ALONG: boards run along the edge
 * @ROD_BOARDS_ACROSS: boards end at the edge, square or raked
 */
typedef enum
{
  ROD_BOARDS_ANY,
  ROD_BOARDS_ALONG,
  ROD_BOARDS_ACROSS,
} RodBoardRelation;

/**
 * RodEndTreatment:
 * @ROD_END_SQUARE: cut square
 * @ROD_END_MITRE: mitred where it meets the next run of the same opening or corner
 */
typedef enum
{
  ROD_END_SQUARE,
  ROD_END_MITRE,
} RodEndTreatment;

/**
 * RodStock:
 * @length_mm: length as sold
 * @price: price of one, in units of the house's currency
 * @pack: how many in a sales pack, 1 when sold singly
 */
typedef struct
{
  RodRecord record;
  double    length_mm;
  double    price;
  int       pack;
} RodStock;

/**
 * RodColour:
 * @id: identifier within the board
 * @name: name for people
 * @rgb: "#rrggbb" for drawings
 * @lightness: how it warms in the sun
 */
typedef struct
{
  RodRecord    record;
  char        *id;
  char        *name;
  char        *rgb;
  RodLightness lightness;
} RodColour;

/**
 * RodBoard:
 * @id: identifier within the system
 * @name: name for people
 * @cover_mm: cover width, joint line to joint line
 * @flange_mm: concealed fixing flange beyond the cover, on the side of the next course
 * @thickness_mm: front face to batten face
 * @weight_kg_m: weight of one metre
 * @for_soffits: whether it may be used on soffits
 * @stock: (element-type RodStock): stock lengths
 * @colours: (element-type RodColour): colours, at least one
 */
typedef struct
{
  RodRecord  record;
  char      *id;
  char      *name;
  double     cover_mm;
  double     flange_mm;
  double     thickness_mm;
  double     weight_kg_m;
  gboolean   for_soffits;
  GPtrArray *stock;
  GPtrArray *colours;
} RodBoard;

/**
 * RodTrim:
 * @id: identifier within the system
 * @name: name for people
 * @back_mm: from the surface's boundary to the bottom of the pocket
 * @pocket_mm: depth of the pocket, bottom to lip
 * @sight_mm: width seen from the front
 * @lap_mm: how far two lengths of one run lap; 0 for a butt joint
 * @two_sided: one trim serves both surfaces of a corner, or both sides of a length joint
 * @screws: where it is screwed
 * @screw_end_mm: first and last screw from the ends (spaced pattern)
 * @screw_spacing_mm: greatest spacing between (spaced pattern)
 * @weight_kg_m: weight of one metre
 * @stock: (element-type RodStock): stock lengths
 */
typedef struct
{
  RodRecord       record;
  char           *id;
  char           *name;
  double          back_mm;
  double          pocket_mm;
  double          sight_mm;
  double          lap_mm;
  gboolean        two_sided;
  RodScrewPattern screws;
  double          screw_end_mm;
  double          screw_spacing_mm;
  double          weight_kg_m;
  GPtrArray      *stock;
} RodTrim;

/**
 * RodTrimRule:
 * @surface: a #RodSurfaceKind, or -1 for any
 * @boards: how the boards meet the edge
 * @condition: a #RodEdgeCondition
 * @trim: id of the trim that holds the boards; "" for none
 * @beside: (element-type utf8): ids of further trims along the same edge, such as a base vent
 * @starter: the trim is a starter: the first board hooks on it full width and the line of boards
 *           begins at a joint line
 * @starter_low_mm: lowest starter above the edge (negative: below it)
 * @starter_high_mm: highest starter above the edge
 * @clearance_mm: kept free between edge and trim (ground, top vent)
 * @end: how the run's ends are cut
 *
 * One row of the system's decision table. The first row that fits decides.
 */
typedef struct
{
  RodRecord        record;
  int              surface;
  RodBoardRelation boards;
  int              condition;
  char            *trim;
  GPtrArray       *beside;
  gboolean         starter;
  double           starter_low_mm;
  double           starter_high_mm;
  double           clearance_mm;
  RodEndTreatment  end;
} RodTrimRule;

/**
 * RodFixing:
 * @id: identifier within the system
 * @name: name for people, e.g. "Screw 4.2 × 35 A2, pan head"
 * @length_mm: length under the head
 * @pack: how many in a pack
 * @price: price of a pack
 */
typedef struct
{
  RodRecord record;
  char     *id;
  char     *name;
  double    length_mm;
  int       pack;
  double    price;
} RodFixing;

/**
 * RodBatten:
 * @id: identifier within the system
 * @name: name for people
 * @width_mm: face that carries the boards
 * @thickness_mm: depth, part of the cavity
 * @stock: (element-type RodStock): stock lengths; empty when bought by the metre
 */
typedef struct
{
  RodRecord  record;
  char      *id;
  char      *name;
  double     width_mm;
  double     thickness_mm;
  GPtrArray *stock;
} RodBatten;

/**
 * RodRules:
 * @batten_centres_mm: greatest distance of batten centres along the boards
 * @soffit_centres_mm: the same on soffits
 * @counter_centres_mm: greatest distance of counter battens
 * @batten_edge_mm: from an edge to the centre of the batten that serves it
 * @double_batten_mm: from a length joint to the centre of each of its two battens
 * @batten_opening_mm: battens stop this short of an opening's sill and head, for air
 * @min_rip_mm: narrowest rip
 * @min_piece_mm: shortest piece
 * @gap_across_mm: gap between a board's long side and the pocket's bottom
 * @fixed_end_gap_mm: gap at the end where a board is held
 * @min_gap_mm: least gap at a moving end, whatever the movement (maker's or user's)
 * @notch_clear_mm: clear beside an opening in a notched board
 * @notch_longest_mm: longest notch over or under an opening; longer ones become joints at its
 *                    jambs
 * @min_engagement_mm: least cover of the board's end by the pocket when coldest
 * @tolerance_mm: cutting and fitting error per end
 * @joint_distance_mm: length joints keep this far from opening corners
 * @butt_joints: where boards may meet end to end over a batten, without a trim
 * @butt_gap_mm: least gap at each end of such a joint
 * @butt_bearing_mm: least width of batten under each end of such a joint
 * @joint_pattern: where length joints fall; never inherited
 * @joint_offset_mm: least distance of joints in neighbouring courses; not-a-number for 600 or two
 *                   covers, whichever is more
 * @joint_repeat: after so many courses joints may be in line again; 0 for 2 in balanced patterns
 *                and 3 in others
 * @ground_clearance_mm: least height of boards above ground
 * @upright_fixed: where upright boards of walls are held
 */
typedef struct
{
  RodRecord       record;
  double          batten_centres_mm;
  double          soffit_centres_mm;
  double          counter_centres_mm;
  double          batten_edge_mm;
  double          double_batten_mm;
  double          batten_opening_mm;
  double          min_rip_mm;
  double          min_piece_mm;
  double          gap_across_mm;
  double          fixed_end_gap_mm;
  double          min_gap_mm;
  double          notch_clear_mm;
  double          notch_longest_mm;
  double          min_engagement_mm;
  double          tolerance_mm;
  double          joint_distance_mm;
  RodButtJoints   butt_joints;
  double          butt_gap_mm;
  double          butt_bearing_mm;
  RodJointPattern joint_pattern;
  double          joint_offset_mm;
  int             joint_repeat;
  double          ground_clearance_mm;
  RodFixedPoint   upright_fixed;
} RodRules;

/**
 * RodSystem:
 * @format: "storeyrod-system" in a file of its own, "" in a house
 * @version: version of the format
 * @id: identifier within the house
 * @name: name for people
 * @from: file to read this system from, "" once read; a name of ours or a path beside the house
 * @kind: what kind of board
 * @expansion_mm_m_k: thermal expansion, mm per metre and kelvin
 * @swelling_percent: change of length in per cent for each per cent of moisture (timber); 0 where
 *                    heat alone moves the board
 * @moisture_fixed: moisture when fixed, per cent
 * @moisture_low: driest, per cent
 * @moisture_high: wettest, per cent
 * @boards: (element-type RodBoard): boards, at least one
 * @trims: (element-type RodTrim): trims
 * @trim_rules: (element-type RodTrimRule): decision table
 * @joint_trim: id of the trim at length joints; "" for none
 * @fixings: (element-type RodFixing): screws
 * @board_fixing: id of the screw for boards
 * @trim_fixing: id of the screw for trims
 * @batten: the batten under the boards
 * @counter_batten: (nullable): the batten behind horizontal battens
 * @rules: rules of the system
 *
 * A cladding system: data, never code.
 */
typedef struct
{
  RodRecord     record;
  char         *format;
  int           version;
  char         *id;
  char         *name;
  char         *from;
  RodSystemKind kind;
  double        expansion_mm_m_k;
  double        swelling_percent;
  double        moisture_fixed;
  double        moisture_low;
  double        moisture_high;
  GPtrArray    *boards;
  GPtrArray    *trims;
  GPtrArray    *trim_rules;
  char         *joint_trim;
  GPtrArray    *fixings;
  char         *board_fixing;
  char         *trim_fixing;
  RodBatten    *batten;
  RodBatten    *counter_batten;
  RodRules     *rules;
} RodSystem;

extern const RodType rod_stock_type;
extern const RodType rod_colour_type;
extern const RodType rod_board_type;
extern const RodType rod_trim_type;
extern const RodType rod_trim_rule_type;
extern const RodType rod_fixing_type;
extern const RodType rod_batten_type;
extern const RodType rod_rules_type;
extern const RodType rod_system_type;

extern const RodChoice rod_system_kind_choices[];
extern const RodChoice rod_lightness_choices[];
extern const RodChoice rod_fixed_point_choices[];
extern const RodChoice rod_screw_pattern_choices[];
extern const RodChoice rod_board_relation_choices[];
extern const RodChoice rod_end_treatment_choices[];

/**
 * rod_system_find_board:
 * @system: a system
 * @id: a board's id; "" means the first board
 *
 * Returns: (transfer none) (nullable): the board
 */
const RodBoard *rod_system_find_board (const RodSystem *system,
                                       const char      *id);

/**
 * rod_system_find_trim:
 * @system: a system
 * @id: a trim's id
 *
 * Returns: (transfer none) (nullable): the trim
 */
const RodTrim *rod_system_find_trim (const RodSystem *system,
                                     const char      *id);

/**
 * rod_system_find_fixing:
 * @system: a system
 * @id: a screw's id
 *
 * Returns: (transfer none) (nullable): the screw
 */
const RodFixing *rod_system_find_fixing (const RodSystem *system,
                                         const char      *id);

/**
 * rod_board_find_colour:
 * @board: a board
 * @id: a colour's id; "" means the first colour
 *
 * Returns: (transfer none) (nullable): the colour
 */
const RodColour *rod_board_find_colour (const RodBoard *board,
                                        const char     *id);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodStock, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodColour, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodBoard, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodTrim, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodTrimRule, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodFixing, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodBatten, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodRules, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodSystem, rod_record_unref)

G_END_DECLS
