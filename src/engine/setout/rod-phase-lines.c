/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Between two places where something that is counted changes, every strip is a straight line over
 * the phase, and what an aim makes as great as can be is the least of such lines and of what does
 * not move: concave. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-phase-lines.h"

typedef struct
{
  double start_mm; /* at the lower place */
  double slope;    /* never 0 */
} Line;

struct _RodPhaseLines
{
  GArray *lines;  /* of Line */
  double  cap_mm; /* the least of what does not move */
};

/* The stretch still open, from the lower place. */
typedef struct
{
  double from_mm;
  double to_mm;
} Range;

RodPhaseLines *
rod_phase_lines_new (void)
{
  RodPhaseLines *self = g_new (RodPhaseLines, 1);

  self->lines = g_array_new (FALSE, FALSE, sizeof (Line));
  self->cap_mm = INFINITY;
  return self;
}

void
rod_phase_lines_free (RodPhaseLines *lines)
{
  g_array_unref (lines->lines);
  g_free (lines);
}

static double
line_at (const Line *line,
         double      along_mm)
{
  return line->start_mm + line->slope * along_mm;
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

/* The least of all lines at a place. */
static double
least_at (const GArray *lines,
          double        along_mm)
{
  double least_mm = INFINITY;

  for (guint i = 0; i < lines->len; i++)
    least_mm = MIN (least_mm, line_at (&g_array_index (lines, Line, i), along_mm));
  return least_mm;
}

/* Where the least of the lines is greatest. It rises, then falls; its top lies where a growing and
 * a shrinking line are equal and no other is less. As long as one is, it takes the place of the
 * line of its direction: the value falls with each step, so that no pair comes twice. */
static double
balance (const GArray *lines)
{
  const Line *growing = least_line (lines, 0.0, 1.0);
  const Line *shrinking = least_line (lines, 0.0, -1.0);

  if (growing == NULL)
    return -INFINITY;
  if (shrinking == NULL)
    return INFINITY;
  for (;;)
    {
      double      apart_mm = shrinking->start_mm - growing->start_mm;
      double      along_mm = apart_mm / (growing->slope - shrinking->slope);
      const Line *least = least_line (lines, along_mm, 0.0);

      if (least == NULL ||
          line_at (least, along_mm) >= line_at (growing, along_mm) - ROD_EPSILON_MM)
        return along_mm;
      if (least->slope > 0.0)
        growing = least;
      else
        shrinking = least;
    }
}

/* Where no line is less than what does not move, all of the stretch is equally good. */
static void
narrow_to_cap (const RodPhaseLines *self,
               Range               *range)
{
  for (guint i = 0; i < self->lines->len; i++)
    {
      const Line *line = &g_array_index (self->lines, Line, i);
      double      reached_mm = (self->cap_mm - line->start_mm) / line->slope;

      if (line->slope > 0.0)
        range->from_mm = MAX (range->from_mm, reached_mm);
      else
        range->to_mm = MIN (range->to_mm, reached_mm);
    }
  range->to_mm = MAX (range->from_mm, range->to_mm);
}

static void
narrow (const RodPhaseLines *self,
        Range               *range)
{
  double best_mm;

  if (self->lines->len == 0)
    return;
  best_mm = CLAMP (balance (self->lines), range->from_mm, range->to_mm);
  if (least_at (self->lines, best_mm) > self->cap_mm)
    narrow_to_cap (self, range);
  else
    *range = (Range){ best_mm, best_mm };
}

static void
add_line (RodPhaseLines *self,
          double         start_mm,
          double         slope)
{
  Line line = { start_mm, slope };

  g_array_append_val (self->lines, line);
}

/* @eased: as the aims weigh it; else as it is. */
static void
add_level (RodPhaseLines  *self,
           const RodLevel *level,
           double          low_mm,
           double          high_mm,
           gboolean        eased)
{
  double middle_mm = (low_mm + high_mm) / 2.0;
  double whole_mm = level->period_mm * level->ratio;
  double strip_mm = rod_level_strip (level, middle_mm);
  double weight = eased ? level->ease : 1.0;
  double slope = (level->upper ? -1.0 : 1.0) * level->ratio * weight;

  if (strip_mm >= whole_mm)
    return;
  if (strip_mm >= level->facing_mm * level->ratio - ROD_EPSILON_MM)
    {
      self->cap_mm = MIN (self->cap_mm, MIN (strip_mm * weight, whole_mm));
      return;
    }
  self->cap_mm = MIN (self->cap_mm, whole_mm);
  add_line (self, strip_mm * weight - slope * (middle_mm - low_mm), slope);
}

/* Between two places a starter holds throughout or nowhere; where it holds, its base leaves no
 * strip. */
static void
collect_strips (RodPhaseLines         *self,
                const RodPhaseProblem *problem,
                double                 low_mm,
                double                 high_mm,
                gboolean               eased)
{
  g_array_set_size (self->lines, 0);
  self->cap_mm = problem->pitch_mm;
  for (guint i = 0; i < problem->n_levels; i++)
    add_level (self, &problem->levels[i], low_mm, high_mm, eased);
  for (guint i = 0; i < problem->n_starters; i++)
    if (!rod_starter_holds (&problem->starters[i], (low_mm + high_mm) / 2.0))
      add_level (self, &problem->starters[i].without, low_mm, high_mm, eased);
}

static double
difference_at (const RodSpan *span,
               double         phase_mm)
{
  return rod_level_strip (&span->low, phase_mm) - rod_level_strip (&span->high, phase_mm);
}

/* The less first and last board differ the better: of both signs of the difference, the least. */
static void
collect_differences (RodPhaseLines         *self,
                     const RodPhaseProblem *problem,
                     double                 low_mm,
                     double                 high_mm)
{
  double quarter_mm = (high_mm - low_mm) / 4.0;

  g_array_set_size (self->lines, 0);
  self->cap_mm = 0.0;
  for (guint i = 0; i < problem->n_spans; i++)
    {
      double before_mm, after_mm, slope, start_mm;

      if (!problem->spans[i].balanced)
        continue;
      before_mm = difference_at (&problem->spans[i], low_mm + quarter_mm);
      after_mm = difference_at (&problem->spans[i], high_mm - quarter_mm);
      slope = (after_mm - before_mm) / (2.0 * quarter_mm);
      start_mm = before_mm - slope * quarter_mm;
      if (fabs (slope) < 1e-3)
        {
          self->cap_mm = MIN (self->cap_mm, -fabs (before_mm));
          continue;
        }
      add_line (self, start_mm, slope);
      add_line (self, -start_mm, -slope);
    }
}

double
rod_phase_lines_best (RodPhaseLines         *lines,
                      const RodPhaseProblem *problem,
                      double                 low_mm,
                      double                 high_mm)
{
  Range range = { 0.0, high_mm - low_mm };

  for (guint i = 0; i < ROD_N_AIMS; i++)
    {
      if (problem->order[i] == ROD_AIM_NARROWEST)
        collect_strips (lines, problem, low_mm, high_mm, TRUE);
      else if (problem->order[i] == ROD_AIM_SYMMETRY)
        collect_differences (lines, problem, low_mm, high_mm);
      else
        continue;
      narrow (lines, &range);
    }
  return low_mm + range.from_mm;
}

static void
add_point (GArray              *points,
           const RodPhaseLines *self,
           double               low_mm,
           double               along_mm,
           double               value_mm,
           int                  slivers)
{
  RodCurvePoint point = { low_mm + along_mm, MIN (value_mm, self->cap_mm), slivers };

  g_array_append_val (points, point);
}

/* Where the least line is undercut next, or the stretch ends. */
static double
next_corner (const RodPhaseLines *self,
             const Line          *now,
             double               along_mm,
             double               end_mm)
{
  double nearest_mm = end_mm;

  for (guint i = 0; i < self->lines->len; i++)
    {
      const Line *line = &g_array_index (self->lines, Line, i);
      double      meet_mm;

      if (line->slope >= now->slope)
        continue;
      meet_mm = (line->start_mm - now->start_mm) / (now->slope - line->slope);
      if (meet_mm > along_mm + ROD_EPSILON_MM)
        nearest_mm = MIN (nearest_mm, meet_mm);
    }
  return nearest_mm;
}

/* The corner where a line passes what does not move. */
static void
add_cap_corner (GArray              *points,
                const RodPhaseLines *self,
                const Line          *line,
                double               low_mm,
                Range                part,
                int                  slivers)
{
  double at_mm = (self->cap_mm - line->start_mm) / line->slope;

  if (at_mm > part.from_mm + ROD_EPSILON_MM && at_mm < part.to_mm - ROD_EPSILON_MM)
    add_point (points, self, low_mm, at_mm, self->cap_mm, slivers);
}

void
rod_phase_lines_trace (RodPhaseLines         *lines,
                       const RodPhaseProblem *problem,
                       double                 low_mm,
                       double                 high_mm,
                       GArray                *points)
{
  double end_mm = high_mm - low_mm;
  int    slivers = rod_phase_score (problem, (low_mm + high_mm) / 2.0).slivers;

  collect_strips (lines, problem, low_mm, high_mm, FALSE);
  if (lines->lines->len == 0)
    {
      add_point (points, lines, low_mm, 0.0, lines->cap_mm, slivers);
      add_point (points, lines, low_mm, end_mm, lines->cap_mm, slivers);
      return;
    }
  add_point (points, lines, low_mm, 0.0, least_at (lines->lines, 0.0), slivers);
  for (double along_mm = 0.0; along_mm < end_mm;)
    {
      /* Just past the corner, where several lines may meet, the least is plain. */
      const Line *line = least_line (lines->lines, along_mm + 10.0 * ROD_EPSILON_MM, 0.0);
      double      corner_mm = next_corner (lines, line, along_mm, end_mm);

      add_cap_corner (points, lines, line, low_mm, (Range){ along_mm, corner_mm }, slivers);
      add_point (points, lines, low_mm, corner_mm, line_at (line, corner_mm), slivers);
      along_mm = corner_mm;
    }
}

GArray *
rod_phase_curve (const RodPhaseProblem *problem)
{
  g_autoptr (GArray) places = NULL;
  GArray        *points = g_array_new (FALSE, FALSE, sizeof (RodCurvePoint));
  RodPhaseLines *lines = rod_phase_lines_new ();

  g_return_val_if_fail (problem->pitch_mm > 0.0, points);

  places = rod_phase_places (problem);
  for (guint i = 0; i < places->len; i++)
    {
      double low = g_array_index (places, double, i);
      double high = i + 1 < places->len ? g_array_index (places, double, i + 1) : problem->pitch_mm;

      if (high - low > ROD_EPSILON_MM)
        rod_phase_lines_trace (lines, problem, low, high, points);
    }
  rod_phase_lines_free (lines);
  return points;
}
