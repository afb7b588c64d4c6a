/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * RodLevel:
 * @at_mm: cut line along the boards, in the group's own measure
 * @upper: boards lie below it (it cuts the flange side); else above it (the hook side)
 * @facing_mm: how far away the cut line on the other side of the same boards lies; infinite when
 *             there is none
 * @ratio: this field's cover over the group's
 *
 * A line along the boards at which a strip is left. A plain value.
 */
typedef struct
{
  double   at_mm;
  gboolean upper;
  double   facing_mm;
  double   ratio;
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
 * RodPhaseProblem:
 * @pitch_mm: cover
 * @min_rip_mm: narrowest strip that is no sliver
 * @levels: (array length=n_levels): levels
 * @n_levels: how many
 * @starters: (array length=n_starters): starters
 * @n_starters: how many
 */
typedef struct
{
  double               pitch_mm;
  double               min_rip_mm;
  const RodLevel      *levels;
  guint                n_levels;
  const RodStarterArc *starters;
  guint                n_starters;
} RodPhaseProblem;

/**
 * RodPhaseScore:
 * @lost_starters: bases that need a ripped first course
 * @slivers: strips narrower than allowed
 * @narrowest_mm: the narrowest strip; the pitch when nothing is ripped
 * @rips: levels at which boards are ripped
 * @lost_hooks: of these, the ones that cost the hook
 *
 * What a phase is worth, the most important first. A plain value.
 */
typedef struct
{
  int    lost_starters;
  int    slivers;
  double narrowest_mm;
  int    rips;
  int    lost_hooks;
} RodPhaseScore;

/**
 * rod_phase_score:
 * @problem: a problem
 * @phase_mm: a phase
 *
 * Strips by rule R4: below a level (y − φ) mod c, above one (φ − y) mod c, a whole cover where that
 * is nothing. Where no joint line falls between two facing levels, the strip is what lies between.
 *
 * Returns: what the phase is worth
 */
RodPhaseScore rod_phase_score (const RodPhaseProblem *problem,
                               double                 phase_mm);

/**
 * rod_phase_compare:
 * @a: a score
 * @b: a score
 *
 * Fewest lost starters, then fewest slivers, then the widest narrowest strip, then fewest rips,
 * then fewest lost hooks.
 *
 * Returns: negative when @a is better, positive when @b is, 0 when equal
 */
int rod_phase_compare (const RodPhaseScore *a,
                       const RodPhaseScore *b);

/**
 * rod_phase_best:
 * @problem: a problem
 *
 * Exact: the score changes only at the levels' own places, one narrowest rip beside them, and at
 * the ends of the starters' ranges; between two such places the narrowest strip is greatest where a
 * growing and a shrinking strip are equal (rule R5). All of these are tried. Of equal phases the
 * least is taken. O(m²) for m levels.
 *
 * Returns: the best phase, 0 ≤ φ < pitch
 */
double rod_phase_best (const RodPhaseProblem *problem);

G_END_DECLS
