/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a phase is worth: every level's strip, every starter, every closing join. All tests are
 * closed on the good side, so that the best phase is one that exists and not a limit. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-phase.h"

/* (value mod pitch) in (0, pitch]: nothing left over means a whole board. */
static double
rest_of (double value,
         double pitch_mm)
{
  double rest = value - floor (value / pitch_mm) * pitch_mm;

  return rest < ROD_EPSILON_MM || rest > pitch_mm - ROD_EPSILON_MM ? pitch_mm : rest;
}

/* Before the pocket swallows any of it, in the group's measure. */
static double
raw_strip (const RodLevel *level,
           double          phase_mm)
{
  return rest_of (level->upper ? level->at_mm - phase_mm : phase_mm - level->at_mm,
                  level->period_mm);
}

/* Between two lines closer than a cover a swallowed strip would leave the other one less still. */
static gboolean
is_absorbed (const RodLevel *level,
             double          strip_mm)
{
  return strip_mm * level->ratio <= level->absorb_mm + ROD_EPSILON_MM &&
         level->facing_mm > level->period_mm;
}

double
rod_level_strip (const RodLevel *level,
                 double          phase_mm)
{
  double strip_mm = raw_strip (level, phase_mm);

  if (is_absorbed (level, strip_mm))
    strip_mm = level->period_mm;
  return MIN (strip_mm, level->facing_mm) * level->ratio;
}

double
rod_level_absorbed (const RodLevel *level,
                    double          phase_mm)
{
  double strip_mm = raw_strip (level, phase_mm);

  return is_absorbed (level, strip_mm) ? strip_mm * level->ratio : 0.0;
}

static gboolean
is_sliver (const RodLevel *level,
           double          seen_mm)
{
  return seen_mm < MIN (level->least_mm, level->period_mm * level->ratio) - ROD_EPSILON_MM;
}

/* @strip_mm before the pocket swallows any of it, in the group's measure. */
static gboolean
is_at_risk (const RodLevel *level,
            double          strip_mm,
            double          tolerance_mm)
{
  double period_mm = level->period_mm * level->ratio;
  double width_mm = strip_mm * level->ratio;

  if (!is_absorbed (level, strip_mm) &&
      is_sliver (level, MIN (strip_mm, level->facing_mm) * level->ratio))
    return TRUE;
  /* What lies between two facing lines does not change with the phase. */
  if (strip_mm > level->facing_mm - ROD_EPSILON_MM)
    return FALSE;
  if (strip_mm < level->period_mm && width_mm > level->absorb_mm - tolerance_mm + ROD_EPSILON_MM &&
      width_mm < level->least_mm + tolerance_mm - ROD_EPSILON_MM)
    return TRUE;
  return width_mm + tolerance_mm - period_mm > level->absorb_mm + ROD_EPSILON_MM;
}

gboolean
rod_level_at_risk (const RodLevel *level,
                   double          phase_mm,
                   double          tolerance_mm)
{
  return is_at_risk (level, raw_strip (level, phase_mm), tolerance_mm);
}

double
rod_level_worst (const RodLevel *level,
                 double          phase_mm,
                 double          tolerance_mm)
{
  double strip_mm = raw_strip (level, phase_mm);
  double width_mm = strip_mm * level->ratio;
  double next_mm = width_mm + tolerance_mm - level->period_mm * level->ratio;
  double worst_mm;

  if (strip_mm > level->facing_mm - ROD_EPSILON_MM)
    return level->facing_mm * level->ratio;
  if (is_absorbed (level, strip_mm))
    return width_mm + tolerance_mm;
  worst_mm = MAX (width_mm - tolerance_mm, level->absorb_mm);
  return next_mm > level->absorb_mm + ROD_EPSILON_MM ? MIN (worst_mm, next_mm) : worst_mm;
}

static void
score_level (const RodPhaseProblem *problem,
             const RodLevel        *level,
             double                 phase_mm,
             RodPhaseScore         *score)
{
  double strip_mm = raw_strip (level, phase_mm);
  double whole_mm = level->period_mm * level->ratio;
  double seen_mm;

  score->risks += is_at_risk (level, strip_mm, problem->tolerance_mm);
  if (is_absorbed (level, strip_mm))
    return;
  if (strip_mm < level->period_mm)
    {
      score->rips++;
      score->lost_hooks += !level->upper;
    }
  seen_mm = MIN (strip_mm, level->facing_mm) * level->ratio;
  if (seen_mm < whole_mm)
    {
      score->slivers += is_sliver (level, seen_mm);
      score->narrowest_mm = MIN (score->narrowest_mm, seen_mm);
      score->eased_mm = MIN (score->eased_mm, MIN (seen_mm * level->ease, whole_mm));
    }
}

gboolean
rod_starter_holds (const RodStarterArc *arc,
                   double               phase_mm)
{
  double period_mm = arc->without.period_mm;
  double lines = ceil ((arc->low_mm - phase_mm - ROD_EPSILON_MM) / period_mm);

  return phase_mm + lines * period_mm <= arc->high_mm + ROD_EPSILON_MM;
}

/* How many boards a span takes: what a pocket swallows is no board. */
static double
count_courses (const RodSpan *span,
               double         phase_mm)
{
  double period_mm = span->high.period_mm;
  double low_mm = span->low.at_mm - phase_mm;
  double high_mm = span->high.at_mm - phase_mm -
                   rod_level_absorbed (&span->high, phase_mm) / span->high.ratio - ROD_EPSILON_MM;
  double first = span->on_starter
                   ? ceil ((low_mm - ROD_EPSILON_MM) / period_mm)
                   : floor ((low_mm + rod_level_absorbed (&span->low, phase_mm) / span->low.ratio +
                             ROD_EPSILON_MM) /
                            period_mm);

  return MAX (ceil (high_mm / period_mm) - first, 0.0);
}

static void
score_span (const RodSpan *span,
            double         phase_mm,
            RodPhaseScore *score)
{
  double difference_mm;

  score->stock_mm += count_courses (span, phase_mm) * span->length_mm;
  if (!span->balanced)
    return;
  difference_mm =
    fabs (rod_level_strip (&span->low, phase_mm) - rod_level_strip (&span->high, phase_mm));
  score->asymmetry_mm = MAX (score->asymmetry_mm, difference_mm);
}

static gboolean
breaks_at (const RodPhaseClosure *closure,
           double                 phase_mm)
{
  double miss_mm = remainder (closure->shift_mm + closure->turns * phase_mm, closure->period_mm);

  return fabs (miss_mm) > ROD_VISIBLE_MISFIT_MM + ROD_EPSILON_MM;
}

RodPhaseScore
rod_phase_score (const RodPhaseProblem *problem,
                 double                 phase_mm)
{
  RodPhaseScore score = { .narrowest_mm = problem->pitch_mm, .eased_mm = problem->pitch_mm };

  for (guint i = 0; i < problem->n_starters; i++)
    if (!rod_starter_holds (&problem->starters[i], phase_mm))
      {
        score.lost_starters++;
        score_level (problem, &problem->starters[i].without, phase_mm, &score);
      }
  for (guint i = 0; i < problem->n_levels; i++)
    score_level (problem, &problem->levels[i], phase_mm, &score);
  for (guint i = 0; i < problem->n_spans; i++)
    score_span (&problem->spans[i], phase_mm, &score);
  for (guint i = 0; i < problem->n_closures; i++)
    score.breaks += breaks_at (&problem->closures[i], phase_mm);
  return score;
}

void
rod_phase_order (RodAimKind      *order,
                 const GPtrArray *first)
{
  guint n = 0, named = 0;

  for (guint i = 0; first != NULL && i < first->len; i++)
    {
      RodAimKind aim = ((const RodAim *) first->pdata[i])->aim;

      if (named & (1u << aim))
        continue;
      named |= 1u << aim;
      order[n++] = aim;
    }
  for (guint aim = 0; aim < ROD_N_AIMS; aim++)
    if (!(named & (1u << aim)))
      order[n++] = (RodAimKind) aim;
}

static int
compare_lengths (double a,
                 double b)
{
  return fabs (a - b) <= ROD_EPSILON_MM ? 0 : a < b ? -1
                                                    : 1;
}

static int
compare_aim (RodAimKind           aim,
             const RodPhaseScore *a,
             const RodPhaseScore *b)
{
  switch (aim)
    {
    case ROD_AIM_STARTERS:
      return a->lost_starters - b->lost_starters;
    case ROD_AIM_SLIVERS:
      return a->slivers - b->slivers;
    case ROD_AIM_BREAKS:
      return a->breaks - b->breaks;
    case ROD_AIM_RISKS:
      return a->risks - b->risks;
    case ROD_AIM_NARROWEST:
      return compare_lengths (b->eased_mm, a->eased_mm);
    case ROD_AIM_RIPS:
      return a->rips - b->rips;
    case ROD_AIM_SYMMETRY:
      return compare_lengths (a->asymmetry_mm, b->asymmetry_mm);
    case ROD_AIM_HOOKS:
      return a->lost_hooks - b->lost_hooks;
    case ROD_AIM_STOCK:
      return compare_lengths (a->stock_mm, b->stock_mm);
    default:
      g_return_val_if_reached (0);
    }
}

int
rod_phase_compare (const RodAimKind    *order,
                   const RodPhaseScore *a,
                   const RodPhaseScore *b)
{
  for (guint i = 0; i < ROD_N_AIMS; i++)
    {
      int difference = compare_aim (order[i], a, b);

      if (difference != 0)
        return difference;
    }
  return 0;
}

int
rod_phase_difference (const RodAimKind    *order,
                      const RodPhaseScore *a,
                      const RodPhaseScore *b)
{
  for (guint i = 0; i < ROD_N_AIMS; i++)
    if (compare_aim (order[i], a, b) != 0)
      return (int) order[i];
  return -1;
}
