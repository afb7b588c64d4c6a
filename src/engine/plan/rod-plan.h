/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-face.h"
#include "engine/plan/rod-place.h"

G_BEGIN_DECLS

/**
 * RodNotch:
 * @from_left_mm: along the piece from its left end (least x of the board frame)
 * @width_mm: along the piece
 * @depth_mm: square to the piece, from its long side
 * @leaves_mm: what stays of the board beside the notch
 * @upper: cut into the upper side (+y of the board frame, the flange side) or the lower
 *
 * A rectangular cut-out at an opening, or an irregular one by its greatest extent. A plain value.
 */
typedef struct
{
  double   from_left_mm;
  double   width_mm;
  double   depth_mm;
  double   leaves_mm;
  gboolean upper;
} RodNotch;

/**
 * RodFlange:
 * @from: start along the boards, board frame
 * @to: end
 * @at: height of the joint line it stands over, board frame
 *
 * A stretch of fixing flange that stays on a piece. A plain value.
 */
typedef struct
{
  double from;
  double to;
  double at;
} RodFlange;

/**
 * RodPieceEnd:
 * @edge: tag of the edge it ends at: index of a field's edge, or a #RodCutTag: of a length joint,
 *        or of a joint line where the piece runs out to a point
 * @back_mm: pocket line from the trim's boundary
 * @pocket_mm: depth of the pocket; 0 where there is no trim
 * @run_mm: free run: fixed point → this end; 0 where the piece runs out to a point
 * @gap_mm: pocket bottom → board end when fixed; 0 where the piece runs out to a point
 * @angle_deg: cut away from square, positive when the upper side is longer than the lower
 *
 * One end of a piece. A plain value.
 */
typedef struct
{
  int    edge;
  double back_mm;
  double pocket_mm;
  double run_mm;
  double gap_mm;
  double angle_deg;
} RodPieceEnd;

/**
 * RodPiece:
 * @field: index of the field
 * @course: number of the course in its field, from 1 in laying order
 * @place: number in its course, from 1
 * @sequence: number in the order in which its surface is fitted, from 1
 * @mark: mark on paper, unique in the house, e.g. "N-07-2"
 * @first_ring: index of its outer ring (cut lines) in the plan's rings; holes follow
 * @n_rings: rings
 * @line_mm: its lower joint line, board frame
 * @length_mm: long point to long point: what the saw cuts
 * @short_mm: the shorter of its two long sides
 * @clear_mm: pocket bottom to pocket bottom along the board
 * @width_mm: greatest width that stays of the cover
 * @low_mm: lower long side above the lower joint line (0 unless ripped there)
 * @high_mm: upper long side above the lower joint line (the cover unless ripped)
 * @left: end at the least x of the board frame
 * @right: the other end
 * @first_notch: index of its first notch in the plan
 * @n_notches: notches
 * @first_flange: index of its first stretch of flange in the plan
 * @n_flanges: stretches of flange
 * @flange_mm: length of fixing flange that stays on it
 * @screws: board screws in it
 * @battens: battens it lies on
 * @colour: the colour
 *
 * A board to cut. A plain value.
 */
typedef struct
{
  guint            field;
  int              course;
  int              place;
  int              sequence;
  char             mark[32];
  guint            first_ring;
  guint            n_rings;
  double           line_mm;
  double           length_mm;
  double           short_mm;
  double           clear_mm;
  double           width_mm;
  double           low_mm;
  double           high_mm;
  RodPieceEnd      left;
  RodPieceEnd      right;
  guint            first_notch;
  guint            n_notches;
  guint            first_flange;
  guint            n_flanges;
  double           flange_mm;
  int              screws;
  int              battens;
  const RodColour *colour;
} RodPiece;

/**
 * RodBattenUse:
 * @ROD_BATTEN_FIELD: fills between others
 * @ROD_BATTEN_EDGE: serves an edge
 * @ROD_BATTEN_OPENING: serves the side of an opening
 * @ROD_BATTEN_CORNER: serves a corner
 * @ROD_BATTEN_JOINT: one of two at a length joint
 * @ROD_BATTEN_PIECE: a short one behind a single small piece
 *
 * Why a batten is there; several may hold.
 */
typedef enum
{
  ROD_BATTEN_FIELD = 0,
  ROD_BATTEN_EDGE = 1 << 0,
  ROD_BATTEN_OPENING = 1 << 1,
  ROD_BATTEN_CORNER = 1 << 2,
  ROD_BATTEN_JOINT = 1 << 3,
  ROD_BATTEN_PIECE = 1 << 4,
} RodBattenUse;

/**
 * RodBattenRun:
 * @field: index of the field
 * @counter: a counter batten behind the others
 * @uses: #RodBattenUse flags
 * @line: number of its centre line in the field, from 1, left to right or bottom to top
 * @from: lower or left end of the centre line, surface plane
 * @to: the other end
 * @length_mm: length
 *
 * One straight batten. A plain value.
 */
typedef struct
{
  guint    field;
  gboolean counter;
  guint    uses;
  int      line;
  RodPoint from;
  RodPoint to;
  double   length_mm;
} RodBattenRun;

/**
 * RodTrimRun:
 * @field: index of the field
 * @edge: index of the field's edge, or %ROD_TAG_COLUMN_LEFT for a length joint
 * @trim: the trim
 * @from: start on the trims' boundary, surface plane
 * @to: end
 * @length_mm: length along the edge
 * @end: how its ends are cut
 * @screws: trim screws
 *
 * One straight length of trim along an edge. A two-sided trim of a corner is listed once, with the
 * face that comes first. A plain value.
 */
typedef struct
{
  guint           field;
  int             edge;
  const RodTrim  *trim;
  RodPoint        from;
  RodPoint        to;
  double          length_mm;
  RodEndTreatment end;
  int             screws;
} RodTrimRun;

/**
 * RodTieKind:
 * @ROD_TIE_ZONES: fields of one surface with the same board and direction
 * @ROD_TIE_MEETS: boards of both end at a join and their lines meet there
 * @ROD_TIE_MIRRORS: boards of both run along a join, first joints equally far from it
 * @ROD_TIE_UNEQUAL: boards of both end at a join, but their lines repeat at other distances and
 *                   cannot all meet: tells, and ties nothing
 */
typedef enum
{
  ROD_TIE_ZONES,
  ROD_TIE_MEETS,
  ROD_TIE_MIRRORS,
  ROD_TIE_UNEQUAL,
} RodTieKind;

/**
 * RodTie:
 * @kind: what it asks for
 * @a: index of a field
 * @b: index of the other field
 * @edge: index of the edge of @a at which they meet; unused for zones
 * @scale: phase of @b = @shift_mm + @scale × phase of @a, modulo @period_mm
 * @shift_mm: see @scale
 * @period_mm: see @scale
 * @pitch_a_mm: distance of the lines of @a along the edge
 * @pitch_b_mm: of those of @b
 * @closes: a chain of joins comes back here; its lines meet only as the others let them
 * @misfit_mm: how far lines miss here, once they are set out
 *
 * What a join, or a surface with zones, asks of the joint lines of two fields. A plain value.
 */
typedef struct
{
  RodTieKind kind;
  guint      a;
  guint      b;
  guint      edge;
  double     scale;
  double     shift_mm;
  double     period_mm;
  double     pitch_a_mm;
  double     pitch_b_mm;
  gboolean   closes;
  double     misfit_mm;
} RodTie;

typedef struct _RodGroupSetout RodGroupSetout;

/**
 * RodGroup:
 * @pitch_mm: cover width shared by its fields
 * @phase_mm: phase of the first field; the others follow from their joins
 * @setout: (transfer full): what decided it, see rod_group_setout_new()
 * @pinned: whether pins of the user decide it
 * @held: whether it is where the user left the rod, rather than at its best
 * @best_mm: the best phase, within what pins allow; @phase_mm unless it is held
 * @first_field: index of the field that leads
 * @n_fields: how many fields
 * @narrowest_mm: the narrowest rip in all of it; the pitch when nothing is ripped
 * @rips: how many different strips are ripped
 * @slivers: how many different strips are narrower than allowed
 * @risks: how many are or may become so within the survey's tolerance
 * @misfit_mm: greatest closing misfit of its chains of joins
 * @kept: whether it was taken over from an earlier plan, phase and all
 *
 * An alignment group: fields whose joint lines are tied. A plain value.
 */
typedef struct
{
  double          pitch_mm;
  double          phase_mm;
  RodGroupSetout *setout;
  gboolean        pinned;
  gboolean        held;
  double          best_mm;
  guint           first_field;
  guint           n_fields;
  double          narrowest_mm;
  int             rips;
  int             slivers;
  int             risks;
  double          misfit_mm;
  gboolean        kept;
} RodGroup;

/**
 * RodSeverity:
 * @ROD_SEVERITY_NOTE: good to know
 * @ROD_SEVERITY_SHOULD: better done otherwise
 * @ROD_SEVERITY_MUST: must not be built like this
 */
typedef enum
{
  ROD_SEVERITY_NOTE,
  ROD_SEVERITY_SHOULD,
  ROD_SEVERITY_MUST,
} RodSeverity;

/**
 * RodFinding:
 * @id: stable identifier, e.g. "sliver"
 * @severity: how bad
 * @face: index of the face, or -1 for the whole house
 * @at: place in the face's surface plane
 * @has_at: whether @at says a place
 * @piece: index of the piece, or -1
 * @value: what was found
 * @limit: what is allowed
 * @text: what is wrong, with place and numbers; translated
 * @remedy: what to do; translated
 * @rule: section of docs/rules.md, e.g. "R4"
 *
 * Something the checks say.
 */
typedef struct
{
  const char *id;
  RodSeverity severity;
  int         face;
  RodPoint    at;
  gboolean    has_at;
  int         piece;
  double      value;
  double      limit;
  char       *text;
  char       *remedy;
  const char *rule;
} RodFinding;

/**
 * RodPlanWork:
 * @n_reveals: reveals derived
 * @n_groups: groups whose phase was chosen
 * @n_fields: fields cut into boards, with their battens
 *
 * How much had to be reckoned for a plan; the rest was taken over from an earlier one. A plain
 * value.
 */
typedef struct
{
  guint n_reveals;
  guint n_groups;
  guint n_fields;
} RodPlanWork;

/**
 * RodPlan:
 * @house: the house it plans
 * @faces: (element-type RodFace): surfaces and derived reveals
 * @fields: (element-type RodField): fields, face by face
 * @ties: (element-type RodTie): what joins ask of the fields' joint lines
 * @groups: (element-type RodGroup): alignment groups
 * @pieces: (element-type RodPiece): boards, field by field in laying order
 * @rings: corners of all pieces in their surface's plane; tags as in #RodStrips
 * @notches: (element-type RodNotch): notches, piece by piece
 * @flanges: (element-type RodFlange): flanges, piece by piece
 * @battens: (element-type RodBattenRun): battens, field by field
 * @trims: (element-type RodTrimRun): trim runs, field by field
 * @places: (element-type RodFacePlace): where each face lies in the folded house
 * @closures: (element-type RodClosure): where chains of joins close
 * @loop_steps: (element-type RodLoopStep): the chains, closure by closure
 * @findings: (element-type RodFinding): findings, worst first
 * @work: how much was reckoned for it
 *
 * Everything that follows from a house, except what is bought (see rod_takeoff_new()). Immutable,
 * shared between threads.
 */
typedef struct
{
  RodHouse   *house;
  GArray     *faces;
  GArray     *fields;
  GArray     *ties;
  GArray     *groups;
  GArray     *pieces;
  RodRegion  *rings;
  GArray     *notches;
  GArray     *flanges;
  GArray     *battens;
  GArray     *trims;
  GArray     *places;
  GArray     *closures;
  GArray     *loop_steps;
  GArray     *findings;
  RodPlanWork work;
} RodPlan;

/**
 * rod_plan_new:
 * @house: a house that rod_house_check() accepts
 *
 * Plans the whole house. Pure: the same house gives the same plan. Linear in the number of
 * surfaces.
 *
 * Returns: (transfer full): the plan
 */
RodPlan *rod_plan_new (const RodHouse *house) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_plan_renew:
 * @before: (nullable): the plan of an earlier state of the house
 * @house: a house that rod_house_check() accepts
 *
 * As rod_plan_new(), to the last byte, but takes over from @before what still holds. What may be
 * taken over is found by what houses share: let @house be a copy that replaces only what was edited
 * (rod_record_copy(), rod_house_with_surface()). Groups keep their phase where nothing that bears
 * on it has changed; fields keep areas, boards and battens where surface, edges and phase are the
 * same. The rest is reckoned anew: it takes little time.
 *
 * Returns: (transfer full): the plan; it shares areas with @before, which may go first
 */
RodPlan *rod_plan_renew (const RodPlan  *before,
                         const RodHouse *house) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_plan_ref:
 * @plan: a plan
 *
 * Returns: (transfer full): @plan
 */
RodPlan *rod_plan_ref (RodPlan *plan);

/**
 * rod_plan_unref:
 * @plan: (transfer full) (nullable): a plan
 */
void rod_plan_unref (RodPlan *plan);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodPlan, rod_plan_unref)

/**
 * rod_plan_face:
 * @plan: a plan
 * @index: index of a face
 *
 * Returns: (transfer none): the face
 */
const RodFace *rod_plan_face (const RodPlan *plan,
                              guint          index);

/**
 * rod_plan_field:
 * @plan: a plan
 * @index: index of a field
 *
 * Returns: (transfer none): the field
 */
const RodField *rod_plan_field (const RodPlan *plan,
                                guint          index);

/**
 * rod_plan_piece:
 * @plan: a plan
 * @index: index of a piece
 *
 * Returns: (transfer none): the piece
 */
const RodPiece *rod_plan_piece (const RodPlan *plan,
                                guint          index);

/**
 * rod_plan_piece_extent:
 * @plan: a plan
 * @piece: a piece
 * @low: (out): its left end along the boards, board frame
 * @high: (out): its right end
 */
void rod_plan_piece_extent (const RodPlan  *plan,
                            const RodPiece *piece,
                            double         *low,
                            double         *high);

/**
 * rod_plan_has_must:
 * @plan: a plan
 *
 * Returns: whether a finding is a must
 */
gboolean rod_plan_has_must (const RodPlan *plan);

G_END_DECLS
