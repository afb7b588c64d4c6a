/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-pin.h"

G_BEGIN_DECLS

/**
 * RodLevel:
 * @at_mm: cut line along the boards, in the group's own measure
 * @upper: boards lie below it (it cuts the flange side); else above it (the hook side)
 * @facing_mm: how far away the cut line on the other side of the same boards lies; infinite when
 *             there is none
 * @period_mm: distance of this field's joint lines, the group's pitch or a whole part of it
 * @ratio: this field's millimetres for each of the group's
 * @least_mm: narrowest strip that is no sliver, in the field's millimetres
 * @absorb_mm: strips up to this vanish in the trim's pocket (rule R6), likewise; 0 where none do
 * @ease: how many times a strip here counts, ≥ 1: the less it is seen the more
 *
 * A line along the boards at which a strip is left. A plain value.
 */
typedef struct
{
  double   at_mm;
  gboolean upper;
  double   facing_mm;
  double   period_mm;
  double   ratio;
  double   least_mm;
  double   absorb_mm;
  double   ease;
} RodLevel;

/**
 * RodStarterArc:
 * @low_mm: lowest joint line that may serve as starter, in the group's own measure
 * @high_mm: highest, ≥ @low_mm
 * @without: the level that cuts the first board where no joint line falls in the range
 *
 * A base at which the first board should keep its hook. A plain value.
 */
typedef struct
{
  double   low_mm;
  double   high_mm;
  RodLevel without;
} RodStarterArc;

/**
 * RodSpan:
 * @low: cut line under the first board
 * @high: cut line over the last
 * @on_starter: the first board stands on a joint line at or above @low instead
 * @length_mm: length of its courses
 * @balanced: first and last board should be alike
 *
 * The boards of one field from end to end. A plain value.
 */
typedef struct
{
  RodLevel low;
  RodLevel high;
  gboolean on_starter;
  double   length_mm;
  gboolean balanced;
} RodSpan;

/**
 * RodPhaseClosure:
 * @shift_mm: what the lines miss by at phase 0
 * @turns: how the miss grows with the phase: 0, or ±2 where the chain runs back to front
 * @period_mm: the miss counts modulo this
 *
 * A join at which a chain of joins closes: lines there miss by shift + turns·φ, modulo the period.
 * A plain value.
 */
typedef struct
{
  double shift_mm;
  double turns;
  double period_mm;
} RodPhaseClosure;

/**
 * RodPhaseProblem:
 * @pitch_mm: cover
 * @tolerance_mm: how far any measured line may be off
 * @order: aims, the most important first
 * @levels: (array length=n_levels): levels
 * @n_levels: how many
 * @starters: (array length=n_starters): starters
 * @n_starters: how many
 * @spans: (array length=n_spans): spans
 * @n_spans: how many
 * @closures: (array length=n_closures): closures
 * @n_closures: how many
 */
typedef struct
{
  double                 pitch_mm;
  double                 tolerance_mm;
  RodAimKind             order[ROD_N_AIMS];
  const RodLevel        *levels;
  guint                  n_levels;
  const RodStarterArc   *starters;
  guint                  n_starters;
  const RodSpan         *spans;
  guint                  n_spans;
  const RodPhaseClosure *closures;
  guint                  n_closures;
} RodPhaseProblem;

/**
 * RodPhaseScore:
 * @lost_starters: bases that need a ripped first course
 * @slivers: strips narrower than allowed
 * @breaks: closing joins at which lines miss by more than ROD_VISIBLE_MISFIT_MM
 * @risks: strips that are or may become slivers within the survey's tolerance
 * @narrowest_mm: the narrowest strip; the pitch when nothing is ripped
 * @eased_mm: the same, each strip as often as its place is little seen; what aims go by
 * @rips: levels at which boards are ripped
 * @lost_hooks: of these, the ones that cost the hook
 * @asymmetry_mm: greatest difference of first and last board where they should be alike
 * @stock_mm: running millimetres of board, courses times their length
 *
 * What a phase is worth. A plain value.
 */
typedef struct
{
  int    lost_starters;
  int    slivers;
  int    breaks;
  int    risks;
  double narrowest_mm;
  double eased_mm;
  int    rips;
  int    lost_hooks;
  double asymmetry_mm;
  double stock_mm;
} RodPhaseScore;

/**
 * RodPhaseChoice:
 * @phase_mm: a phase, 0 ≤ φ < pitch
 * @score: what it is worth
 *
 * A plain value.
 */
typedef struct
{
  double        phase_mm;
  RodPhaseScore score;
} RodPhaseChoice;

/**
 * RodCurvePoint:
 * @phase_mm: a phase, 0 ≤ φ ≤ pitch
 * @narrowest_mm: the narrowest strip there
 * @slivers: how many slivers just above it
 *
 * Corner of the curve of the narrowest strip over the phase; two at one phase where it jumps. A
 * plain value.
 */
typedef struct
{
  double phase_mm;
  double narrowest_mm;
  int    slivers;
} RodCurvePoint;

/**
 * rod_phase_order:
 * @order: (out caller-allocates) (array fixed-size=9): gets all aims in order
 * @first: (nullable) (element-type RodAim): aims that come first
 *
 * The usual order: starters, slivers, breaks, risks, narrowest, rips, symmetry, hooks, stock (after
 * rule R26). What @first names comes before, in its order.
 */
void rod_phase_order (RodAimKind      *order,
                      const GPtrArray *first);

/**
 * rod_level_strip:
 * @level: a level
 * @phase_mm: a phase
 *
 * Rule R4: below a level (y − φ) mod c, above one (φ − y) mod c, a whole cover where that is
 * nothing or where the pocket swallows it (R6). Where no joint line falls between two facing
 * levels, the strip is what lies between.
 *
 * Returns: the strip that is left there, in the field's millimetres
 */
double rod_level_strip (const RodLevel *level,
                        double          phase_mm);

/**
 * rod_level_absorbed:
 * @level: a level
 * @phase_mm: a phase
 *
 * Returns: how much of a strip the trim's pocket swallows there, in the field's millimetres; 0
 * where there is nothing to swallow, or too much
 */
double rod_level_absorbed (const RodLevel *level,
                           double          phase_mm);

/**
 * rod_level_at_risk:
 * @level: a level
 * @phase_mm: a phase
 * @tolerance_mm: how far the line may be off
 *
 * Returns: whether its strip is a sliver or may be one within the tolerance (rule R28)
 */
gboolean rod_level_at_risk (const RodLevel *level,
                            double          phase_mm,
                            double          tolerance_mm);

/**
 * rod_level_worst:
 * @level: a level
 * @phase_mm: a phase
 * @tolerance_mm: how far the line may be off
 *
 * What rod_level_at_risk() is about: the strip less the tolerance; where a pocket swallows it, the
 * strip and the tolerance, which it may not; where it is nearly whole, what the tolerance would
 * leave of the next board.
 *
 * Returns: the strip that may come out, in the field's millimetres
 */
double rod_level_worst (const RodLevel *level,
                        double          phase_mm,
                        double          tolerance_mm);

/**
 * rod_starter_holds:
 * @arc: a starter
 * @phase_mm: a phase
 *
 * Returns: whether a joint line falls in its range
 */
gboolean rod_starter_holds (const RodStarterArc *arc,
                            double               phase_mm);

/**
 * rod_phase_score:
 * @problem: a problem
 * @phase_mm: a phase
 *
 * Returns: what the phase is worth
 */
RodPhaseScore rod_phase_score (const RodPhaseProblem *problem,
                               double                 phase_mm);

/**
 * rod_phase_compare:
 * @order: (array fixed-size=9): aims, the most important first
 * @a: a score
 * @b: a score
 *
 * Returns: negative when @a is better, positive when @b is, 0 when equal
 */
int rod_phase_compare (const RodAimKind    *order,
                       const RodPhaseScore *a,
                       const RodPhaseScore *b);

/**
 * rod_phase_difference:
 * @order: (array fixed-size=9): aims, the most important first
 * @a: a score
 * @b: a score
 *
 * Returns: the first aim in which they differ, or -1
 */
int rod_phase_difference (const RodAimKind    *order,
                          const RodPhaseScore *a,
                          const RodPhaseScore *b);

/**
 * rod_phase_best:
 * @problem: a problem
 *
 * Exact: what is counted changes only at the levels' own places, one narrowest strip, one pocket
 * and the tolerance beside them, and at the ends of the starters' ranges; between two such places
 * the narrowest strip is greatest where a growing and a shrinking strip are equal (rule R5), and
 * likewise for symmetry. All of these are tried. Of equal phases the least is taken. O(m²) for m
 * levels.
 *
 * Returns: the best phase, 0 ≤ φ < pitch
 */
double rod_phase_best (const RodPhaseProblem *problem);

/**
 * rod_phase_ranked:
 * @problem: a problem
 * @most: how many at most
 *
 * Phases that are best for themselves and apart from each other by a tenth of the pitch at least:
 * the notches of the rod.
 *
 * Returns: (transfer full) (element-type RodPhaseChoice): choices, the best first
 */
GArray *rod_phase_ranked (const RodPhaseProblem *problem,
                          guint                  most) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_phase_curve:
 * @problem: a problem
 *
 * Returns: (transfer full) (element-type RodCurvePoint): the narrowest strip over one pitch, exact,
 *          from 0 upwards
 */
GArray *rod_phase_curve (const RodPhaseProblem *problem) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
