/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The best phase of one alignment group. A house has some tens of levels in a group, so that trying
 * every place where the score can change (a few times their number) against every level costs
 * microseconds, and no sampling step can miss the best.
 *
 * Between two such places everything that is counted stays, strips grow or shrink evenly, and the
 * least of them is a concave function. Its top is a point or, where something that does not move
 * is less, a stretch; aims that are lengths narrow the stretch one after the other. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-numbers.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-phase-lines.h"
#include "engine/setout/rod-phase.h"

static double
wrap (double value,
      double pitch_mm)
{
  double rest = value - floor (value / pitch_mm) * pitch_mm;

  return rest > pitch_mm - ROD_EPSILON_MM ? 0.0 : rest;
}

static void
add_place (GArray *places,
           double  value,
           double  period_mm,
           double  pitch_mm)
{
  for (double at = wrap (value, period_mm); at < pitch_mm - ROD_EPSILON_MM; at += period_mm)
    g_array_append_val (places, at);
}

/* Where the strip of a level begins or ends to be a rip, swallowed, a sliver or at risk. */
static void
add_level_places (GArray                *places,
                  const RodLevel        *level,
                  const RodPhaseProblem *problem)
{
  double tolerance_mm = problem->tolerance_mm / level->ratio;
  double absorb_mm = level->absorb_mm / level->ratio;
  double least_mm = level->least_mm / level->ratio;
  double strips[] = {
    0.0,
    absorb_mm,
    absorb_mm - tolerance_mm,
    least_mm,
    least_mm + tolerance_mm,
    /* Just past the facing line, the strip between both is whole. */
    isfinite (level->facing_mm) ? level->facing_mm : 0.0,
  };

  for (guint i = 0; i < G_N_ELEMENTS (strips); i++)
    add_place (places,
               level->upper ? level->at_mm - strips[i] : level->at_mm + strips[i],
               level->period_mm,
               problem->pitch_mm);
}

/* A chain that runs back to front closes at two phases, and within what does not show beside. */
static void
add_closure_places (GArray                *places,
                    const RodPhaseClosure *closure,
                    const RodPhaseProblem *problem)
{
  double step_mm = closure->period_mm / fabs (closure->turns);
  double closed_mm = -closure->shift_mm / closure->turns;
  double beside_mm = ROD_VISIBLE_MISFIT_MM / fabs (closure->turns);

  add_place (places, closed_mm, step_mm, problem->pitch_mm);
  add_place (places, closed_mm - beside_mm, step_mm, problem->pitch_mm);
  add_place (places, closed_mm + beside_mm, step_mm, problem->pitch_mm);
}

GArray *
rod_phase_places (const RodPhaseProblem *problem)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  guint   kept = 0;

  add_place (places, 0.0, problem->pitch_mm, problem->pitch_mm);
  for (guint i = 0; i < problem->n_levels; i++)
    add_level_places (places, &problem->levels[i], problem);
  for (guint i = 0; i < problem->n_starters; i++)
    {
      const RodStarterArc *arc = &problem->starters[i];

      add_place (places, arc->low_mm, arc->without.period_mm, problem->pitch_mm);
      add_place (places, arc->high_mm, arc->without.period_mm, problem->pitch_mm);
      add_level_places (places, &arc->without, problem);
    }
  for (guint i = 0; i < problem->n_closures; i++)
    if (fabs (problem->closures[i].turns) > ROD_EPSILON_MM)
      add_closure_places (places, &problem->closures[i], problem);
  rod_numbers_sort (places);
  for (guint i = 0; i < places->len; i++)
    {
      double at = g_array_index (places, double, i);

      if (kept == 0 || at > g_array_index (places, double, kept - 1) + ROD_EPSILON_MM)
        g_array_index (places, double, kept++) = at;
    }
  g_array_set_size (places, kept);
  return places;
}

static void
try_phase (const RodPhaseProblem *problem,
           double                 phase_mm,
           RodPhaseChoice        *best)
{
  RodPhaseChoice choice = { phase_mm, rod_phase_score (problem, phase_mm) };

  if (rod_phase_compare (problem->order, &choice.score, &best->score) < 0)
    *best = choice;
}

/* Places are tried themselves. Between them no phase is tried nearer to one than this: with aims in
 * an odd order the best may be a limit that no phase reaches. */
#define INSIDE_MM 1e-3

/* The best phase from one place up to the next, the latter left out. */
static RodPhaseChoice
best_between (const RodPhaseProblem *problem,
              double                 low_mm,
              double                 high_mm,
              RodPhaseLines         *lines)
{
  RodPhaseChoice best = { low_mm, rod_phase_score (problem, low_mm) };

  if (high_mm - low_mm > 2.0 * INSIDE_MM)
    {
      double between_mm = rod_phase_lines_best (lines, problem, low_mm, high_mm);

      try_phase (problem, CLAMP (between_mm, low_mm + INSIDE_MM, high_mm - INSIDE_MM), &best);
    }
  return best;
}

static GArray *
choices_of (const RodPhaseProblem *problem)
{
  g_autoptr (GArray) places = rod_phase_places (problem);
  RodPhaseLines *lines = rod_phase_lines_new ();
  GArray        *choices = g_array_sized_new (FALSE, FALSE, sizeof (RodPhaseChoice), places->len);

  for (guint i = 0; i < places->len; i++)
    {
      double low = g_array_index (places, double, i);
      double high =
        i + 1 < places->len ? g_array_index (places, double, i + 1) : problem->pitch_mm;
      RodPhaseChoice choice = best_between (problem, low, high, lines);

      g_array_append_val (choices, choice);
    }
  rod_phase_lines_free (lines);
  return choices;
}

double
rod_phase_best (const RodPhaseProblem *problem)
{
  g_autoptr (GArray) choices = NULL;
  const RodPhaseChoice *best;

  g_return_val_if_fail (problem->pitch_mm > 0.0, 0.0);

  choices = choices_of (problem);
  best = &g_array_index (choices, RodPhaseChoice, 0);
  for (guint i = 1; i < choices->len; i++)
    {
      const RodPhaseChoice *choice = &g_array_index (choices, RodPhaseChoice, i);

      if (rod_phase_compare (problem->order, &choice->score, &best->score) < 0)
        best = choice;
    }
  return wrap (best->phase_mm, problem->pitch_mm);
}

static gint
compare_choices (gconstpointer a,
                 gconstpointer b,
                 gpointer      user_data)
{
  const RodPhaseChoice  *one = a;
  const RodPhaseChoice  *other = b;
  const RodPhaseProblem *problem = user_data;
  int                    order = rod_phase_compare (problem->order, &one->score, &other->score);

  return order != 0 ? order : rod_numbers_compare (&one->phase_mm, &other->phase_mm);
}

static gboolean
is_apart (const GArray *chosen,
          double        phase_mm,
          double        pitch_mm)
{
  for (guint i = 0; i < chosen->len; i++)
    if (fabs (remainder (g_array_index (chosen, RodPhaseChoice, i).phase_mm - phase_mm,
                         pitch_mm)) < pitch_mm / 10.0)
      return FALSE;
  return TRUE;
}

GArray *
rod_phase_ranked (const RodPhaseProblem *problem,
                  guint                  most)
{
  g_autoptr (GArray) choices = NULL;
  GArray *chosen = g_array_new (FALSE, FALSE, sizeof (RodPhaseChoice));

  g_return_val_if_fail (problem->pitch_mm > 0.0, chosen);

  choices = choices_of (problem);
  g_array_sort_with_data (choices, compare_choices, (gpointer) (guintptr) problem);
  for (guint i = 0; i < choices->len && chosen->len < most; i++)
    {
      RodPhaseChoice choice = g_array_index (choices, RodPhaseChoice, i);

      if (is_apart (chosen, choice.phase_mm, problem->pitch_mm))
        g_array_append_val (chosen, choice);
    }
  return chosen;
}
