/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The best phase of one alignment group. A house has some tens of levels in a group, so that trying
 * every place where the score can change (a few times their number) against every level costs
 * microseconds, and no sampling step can miss the best. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-phase.h"

/* (value mod pitch) in (0, pitch]: nothing left over means a whole board. */
static double
strip_of (double value,
          double pitch_mm)
{
  double rest = fmod (value, pitch_mm);

  if (rest < 0.0)
    rest += pitch_mm;
  return rest < ROD_LINE_SNAP_MM || rest > pitch_mm - ROD_EPSILON_MM ? pitch_mm : rest;
}

static void
score_level (const RodPhaseProblem *problem,
             const RodLevel        *level,
             double                 phase_mm,
             RodPhaseScore         *score)
{
  double strip_mm = strip_of (level->upper ? level->at_mm - phase_mm : phase_mm - level->at_mm,
                              problem->pitch_mm);
  double seen_mm = MIN (strip_mm, level->facing_mm) * level->ratio;

  if (strip_mm < problem->pitch_mm)
    {
      score->rips++;
      score->lost_hooks += !level->upper;
    }
  if (seen_mm < problem->pitch_mm * level->ratio)
    {
      score->slivers += seen_mm < problem->min_rip_mm - ROD_EPSILON_MM;
      score->narrowest_mm = MIN (score->narrowest_mm, seen_mm);
    }
}

static gboolean
starter_holds (const RodStarterArc *arc,
               double               phase_mm,
               double               pitch_mm)
{
  double lines = ceil ((arc->low_mm - phase_mm - ROD_LINE_SNAP_MM) / pitch_mm);

  return phase_mm + lines * pitch_mm <= arc->high_mm + ROD_LINE_SNAP_MM;
}

RodPhaseScore
rod_phase_score (const RodPhaseProblem *problem,
                 double                 phase_mm)
{
  RodPhaseScore score = { .narrowest_mm = problem->pitch_mm };

  for (guint i = 0; i < problem->n_starters; i++)
    if (!starter_holds (&problem->starters[i], phase_mm, problem->pitch_mm))
      {
        score.lost_starters++;
        score_level (problem, &problem->starters[i].without, phase_mm, &score);
      }
  for (guint i = 0; i < problem->n_levels; i++)
    score_level (problem, &problem->levels[i], phase_mm, &score);
  return score;
}

int
rod_phase_compare (const RodPhaseScore *a,
                   const RodPhaseScore *b)
{
  if (a->lost_starters != b->lost_starters)
    return a->lost_starters - b->lost_starters;
  if (a->slivers != b->slivers)
    return a->slivers - b->slivers;
  if (fabs (a->narrowest_mm - b->narrowest_mm) > ROD_EPSILON_MM)
    return a->narrowest_mm > b->narrowest_mm ? -1 : 1;
  if (a->rips != b->rips)
    return a->rips - b->rips;
  return a->lost_hooks - b->lost_hooks;
}

static double
wrap (double value,
      double pitch_mm)
{
  double rest = fmod (value, pitch_mm);

  if (rest < 0.0)
    rest += pitch_mm;
  return rest > pitch_mm - ROD_EPSILON_MM ? 0.0 : rest;
}

static void
add_place (GArray *places,
           double  value,
           double  pitch_mm)
{
  double wrapped = wrap (value, pitch_mm);

  g_array_append_val (places, wrapped);
}

static int
compare_places (gconstpointer a,
                gconstpointer b)
{
  const double *one = a;
  const double *other = b;

  return (*one > *other) - (*one < *other);
}

static void
add_level_places (GArray                *places,
                  const RodLevel        *level,
                  const RodPhaseProblem *problem)
{
  double inwards = level->upper ? -1.0 : 1.0;
  double beside = problem->min_rip_mm / level->ratio;

  add_place (places, level->at_mm, problem->pitch_mm);
  add_place (places, level->at_mm + inwards * beside, problem->pitch_mm);
  /* Just past the facing line, the strip between both is whole. */
  if (isfinite (level->facing_mm))
    add_place (places, level->at_mm + inwards * level->facing_mm, problem->pitch_mm);
}

static GArray *
collect_places (const RodPhaseProblem *problem)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));

  add_place (places, 0.0, problem->pitch_mm);
  for (guint i = 0; i < problem->n_levels; i++)
    add_level_places (places, &problem->levels[i], problem);
  for (guint i = 0; i < problem->n_starters; i++)
    {
      add_place (places, problem->starters[i].low_mm, problem->pitch_mm);
      add_place (places, problem->starters[i].high_mm, problem->pitch_mm);
      add_level_places (places, &problem->starters[i].without, problem);
    }
  g_array_sort (places, compare_places);
  return places;
}

/* A strip between two places: what is seen of it at the lower place, and how fast that grows as the
 * phase goes up. */
typedef struct
{
  double start_mm;
  double slope;
} Line;

static double
line_at (const Line *line,
         double      along_mm)
{
  return line->start_mm + line->slope * along_mm;
}

static void
add_line (GArray                *lines,
          const RodPhaseProblem *problem,
          const RodLevel        *level,
          double                 low)
{
  double strip_mm = level->upper ? strip_of (level->at_mm - low, problem->pitch_mm)
                                 : wrap (low - level->at_mm, problem->pitch_mm);
  Line   line = { strip_mm * level->ratio, level->upper ? -level->ratio : level->ratio };

  g_array_append_val (lines, line);
}

/* Between two places a starter holds throughout or nowhere; where it holds, its base leaves no
 * strip. */
static void
collect_lines (const RodPhaseProblem *problem,
               double                 low,
               double                 high,
               GArray                *lines)
{
  g_array_set_size (lines, 0);
  for (guint i = 0; i < problem->n_levels; i++)
    add_line (lines, problem, &problem->levels[i], low);
  for (guint i = 0; i < problem->n_starters; i++)
    if (!starter_holds (&problem->starters[i], (low + high) / 2.0, problem->pitch_mm))
      add_line (lines, problem, &problem->starters[i].without, low);
}

/* The least of the lines at a place: all of them, or only those of one direction (1 growing, −1
 * shrinking). */
static const Line *
least_line (const GArray *lines,
            double        along_mm,
            double        direction)
{
  const Line *least = NULL;

  for (guint i = 0; i < lines->len; i++)
    {
      const Line *line = &g_array_index (lines, Line, i);

      if (line->slope * direction >= 0.0 &&
          (least == NULL || line_at (line, along_mm) < line_at (least, along_mm)))
        least = line;
    }
  return least;
}

/* Where between two places the narrowest strip is widest. The least of all lines rises, then falls;
 * its top lies where a growing and a shrinking line are equal and no other is less. As long as one
 * is, it takes the place of the line of its direction: the value falls with each step, so that no
 * pair comes twice. */
static double
balance (const GArray *lines)
{
  const Line *growing = least_line (lines, 0.0, 1.0);
  const Line *shrinking = least_line (lines, 0.0, -1.0);

  if (growing == NULL || shrinking == NULL)
    return 0.0;
  for (;;)
    {
      double      apart_mm = shrinking->start_mm - growing->start_mm;
      double      along_mm = apart_mm / (growing->slope - shrinking->slope);
      const Line *least = least_line (lines, along_mm, 0.0);

      if (line_at (least, along_mm) >= line_at (growing, along_mm) - ROD_EPSILON_MM)
        return along_mm;
      if (least->slope > 0.0)
        growing = least;
      else
        shrinking = least;
    }
}

static void
try_phase (const RodPhaseProblem *problem,
           double                 phase_mm,
           double                *best_mm,
           RodPhaseScore         *best)
{
  RodPhaseScore score = rod_phase_score (problem, phase_mm);

  if (rod_phase_compare (&score, best) >= 0)
    return;
  *best = score;
  *best_mm = phase_mm;
}

double
rod_phase_best (const RodPhaseProblem *problem)
{
  g_autoptr (GArray) places = NULL;
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (Line));
  double        best_mm = 0.0;
  RodPhaseScore best;

  g_return_val_if_fail (problem->pitch_mm > 0.0, 0.0);

  places = collect_places (problem);
  best = rod_phase_score (problem, best_mm);
  for (guint i = 0; i < places->len; i++)
    {
      double low = g_array_index (places, double, i);
      double high = i + 1 < places->len ? g_array_index (places, double, i + 1) : problem->pitch_mm;

      try_phase (problem, low, &best_mm, &best);
      if (high - low <= ROD_EPSILON_MM)
        continue;
      collect_lines (problem, low, high, lines);
      try_phase (problem, CLAMP (low + balance (lines), low, high), &best_mm, &best);
    }
  return wrap (best_mm, problem->pitch_mm);
}
