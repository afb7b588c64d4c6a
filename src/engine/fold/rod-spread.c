/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Turns the walls' plan into closed traverses and spreads their errors.
 *
 * Seen from above, a wall is a line with stations: the x of its joined edges. A measured length
 * lies between two neighbouring stations. A loop goes along a wall's x from one station to another
 * and turns at the joins: the x of the next wall is turned against that of the last by the fold,
 * counter-clockwise where the last was left by its right edge, for a positive fold turns away from
 * a viewer who stands in front. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/fold/rod-spread.h"
#include "engine/fold/rod-traverse.h"
#include "engine/fold/rod-walk.h"
#include "engine/geometry/rod-numbers.h"
#include "engine/plan/rod-faces.h"
#include "engine/rod-limits.h"

typedef struct
{
  RodSpread *spread;
  RodWalk   *walk;
  guint     *first_line;  /* by face */
  guint     *first_edge;  /* by face: where its edges begin in @turn_of */
  guint     *turn_of;     /* by edge of an outline, where a turn is */
  GArray    *loops;       /* of RodLoopStep */
  GArray    *loop_starts; /* of guint */
} Survey;

static const RodEdge *
edge_of (const RodPlan *plan,
         guint          face,
         guint          edge)
{
  return &rod_plan_field (plan, rod_plan_face (plan, face)->first_field)->edges[edge];
}

static gboolean
is_upright_wall (const RodPlan *plan,
                 guint          face)
{
  const RodFace *own = rod_plan_face (plan, face);

  return own->parent < 0 && own->surface->kind != ROD_SURFACE_SOFFIT &&
         g_array_index (plan->places, RodFacePlace, face).at.y.z >
           rod_angle_unit (ROD_EPSILON_DEG).x;
}

static gboolean
is_plumb (const RodEdge *edge)
{
  return fabs (edge->raw.to.x - edge->raw.from.x) < ROD_SNAP_MM;
}

static gboolean
is_level (const RodEdge *edge)
{
  return fabs (edge->raw.to.y - edge->raw.from.y) < ROD_SNAP_MM;
}

/* Joins that say where walls stand in plan. */
static gboolean
ties_in_plan (const RodPlan *plan,
              guint          face,
              const RodEdge *edge)
{
  const RodEdge *facing = edge_of (plan, (guint) edge->partner_face, (guint) edge->partner_edge);

  if (edge->join == NULL || !is_upright_wall (plan, face) ||
      !is_upright_wall (plan, (guint) edge->partner_face))
    return FALSE;
  return (is_plumb (edge) && is_plumb (facing)) ||
         (is_level (edge) && is_level (facing) && fabs (edge->fold_deg) < ROD_EPSILON_DEG);
}

static gboolean
is_first_of_join (const RodPlan *plan,
                  guint          face,
                  const RodEdge *edge)
{
  return g_str_equal (edge->join->a->surface, rod_plan_face (plan, face)->surface->id);
}

/* Level edges are matched by the end of the join's first edge and the start of its second. */
static double
station_mm (const RodPlan *plan,
            guint          face,
            const RodEdge *edge)
{
  return is_level (edge) && is_first_of_join (plan, face, edge) ? edge->raw.to.x
                                                                : edge->raw.from.x;
}

static void
list_lines (Survey *survey,
            guint   face)
{
  const RodPlan *plan = survey->spread->plan;
  guint          n_edges = rod_plan_face (plan, face)->surface->outline->len;
  g_autoptr (GArray) stations = g_array_new (FALSE, FALSE, sizeof (double));
  double last;

  survey->first_line[face] = survey->spread->lines->len;
  for (guint e = 0; is_upright_wall (plan, face) && e < n_edges; e++)
    {
      const RodEdge *edge = edge_of (plan, face, e);

      if (edge->partner_face >= 0 && ties_in_plan (plan, face, edge))
        {
          double at_mm = station_mm (plan, face, edge);

          g_array_append_val (stations, at_mm);
        }
    }
  if (stations->len == 0)
    return;
  rod_numbers_sort (stations);
  last = g_array_index (stations, double, 0);
  for (guint i = 1; i < stations->len; i++)
    {
      RodSurveyLine line = { face, last, g_array_index (stations, double, i), 0.0 };

      if (line.to_mm - line.from_mm < ROD_SNAP_MM)
        continue;
      g_array_append_val (survey->spread->lines, line);
      last = line.to_mm;
    }
}

static void
list_turns (Survey *survey,
            guint   face)
{
  const RodPlan *plan = survey->spread->plan;
  guint          n_edges = rod_plan_face (plan, face)->surface->outline->len;

  for (guint e = 0; e < n_edges; e++)
    {
      const RodEdge *edge = edge_of (plan, face, e);
      RodSurveyTurn  turn = { edge->join, 0.0 };
      guint          index = survey->spread->turns->len;

      if (edge->partner_face < (int) face || !is_plumb (edge) ||
          !ties_in_plan (plan, face, edge))
        continue;
      survey->turn_of[survey->first_edge[face] + e] = index;
      survey->turn_of[survey->first_edge[edge->partner_face] + (guint) edge->partner_edge] = index;
      g_array_append_val (survey->spread->turns, turn);
    }
}

static void
list_loops (Survey *survey,
            guint   face)
{
  const RodPlan *plan = survey->spread->plan;
  guint          n_edges = rod_plan_face (plan, face)->surface->outline->len;

  for (guint e = 0; e < n_edges; e++)
    {
      const RodEdge *edge = edge_of (plan, face, e);

      if (edge->partner_face < (int) face || !ties_in_plan (plan, face, edge) ||
          rod_walk_uses (survey->walk, face, e, edge))
        continue;
      rod_walk_loop (survey->walk, plan, face, e, survey->loops);
      g_array_append_val (survey->loop_starts, survey->loops->len);
    }
}

/* Along the lines of a wall from one station to another. */
static void
add_lines (Survey *survey,
           guint   face,
           double  from_mm,
           double  to_mm,
           GArray *legs)
{
  const GArray *lines = survey->spread->lines;
  double        low = MIN (from_mm, to_mm), high = MAX (from_mm, to_mm);

  for (guint i = survey->first_line[face];
       i < lines->len && g_array_index (lines, RodSurveyLine, i).face == face;
       i++)
    {
      const RodSurveyLine *line = &g_array_index (lines, RodSurveyLine, i);
      double               middle = (line->from_mm + line->to_mm) / 2.0;
      RodLeg               leg = { ROD_LEG_LINE, i, to_mm > from_mm ? 1.0 : -1.0 };

      if (middle > low && middle < high)
        g_array_append_val (legs, leg);
    }
}

/* Over the join at an edge to the next wall. */
static void
add_join (Survey *survey,
          guint   face,
          guint   edge_index,
          GArray *legs)
{
  const RodPlan *plan = survey->spread->plan;
  const RodEdge *edge = edge_of (plan, face, edge_index);
  gboolean       rises = edge->raw.to.y > edge->raw.from.y;

  if (is_plumb (edge))
    {
      RodLeg turn = {
        ROD_LEG_TURN,
        survey->turn_of[survey->first_edge[face] + edge_index],
        rises ? 1.0 : -1.0,
      };

      g_array_append_val (legs, turn);
      return;
    }
  /* In one plane; the second edge's start lies beyond the first one's end by the offset. */
  {
    const RodEdge *first =
      is_first_of_join (plan, face, edge)
        ? edge
        : edge_of (plan, (guint) edge->partner_face, (guint) edge->partner_edge);
    double along = first->raw.to.x > first->raw.from.x ? 1.0 : -1.0;
    RodLeg step = { ROD_LEG_FIXED,
                    0,
                    edge->join->offset_mm * along * (first == edge ? 1.0 : -1.0) };

    g_array_append_val (legs, step);
  }
}

static void
add_loop (Survey *survey,
          guint   loop,
          GArray *legs)
{
  const RodPlan *plan = survey->spread->plan;

  for (guint i = g_array_index (survey->loop_starts, guint, loop);
       i < g_array_index (survey->loop_starts, guint, loop + 1);
       i++)
    {
      const RodLoopStep *step = &g_array_index (survey->loops, RodLoopStep, i);

      add_lines (survey,
                 step->face,
                 station_mm (plan, step->face, edge_of (plan, step->face, step->in_edge)),
                 station_mm (plan, step->face, edge_of (plan, step->face, step->out_edge)),
                 legs);
      add_join (survey, step->face, step->out_edge, legs);
    }
}

static guint
loop_part (const Survey *survey,
           guint         loop)
{
  guint start = g_array_index (survey->loop_starts, guint, loop);

  return survey->walk->steps[g_array_index (survey->loops, RodLoopStep, start).face].part;
}

static void
add_corrections (RodSpread    *spread,
                 const double *lines_mm,
                 const double *turns_deg)
{
  for (guint i = 0; i < spread->lines->len; i++)
    g_array_index (spread->lines, RodSurveyLine, i).correction_mm += lines_mm[i];
  for (guint i = 0; i < spread->turns->len; i++)
    g_array_index (spread->turns, RodSurveyTurn, i).correction_deg += turns_deg[i];
}

/* Parts of the house share no walls and are adjusted one by one. */
static void
adjust_part (Survey      *survey,
             guint        part,
             RodTraverse *traverse)
{
  RodSpread *spread = survey->spread;
  g_autoptr (GArray) legs = g_array_new (FALSE, FALSE, sizeof (RodLeg));
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autofree double *lines_mm = NULL;
  g_autofree double *turns_deg = NULL;

  for (guint loop = 0; loop + 1 < survey->loop_starts->len; loop++)
    if (loop_part (survey, loop) == part)
      {
        add_loop (survey, loop, legs);
        g_array_append_val (ends, legs->len);
      }
  if (ends->len == 0)
    return;
  lines_mm = g_new0 (double, spread->lines->len + 1);
  turns_deg = g_new0 (double, spread->turns->len + 1);
  traverse->legs = (const RodLeg *) (const void *) legs->data;
  traverse->loop_ends = (const guint *) (const void *) ends->data;
  traverse->n_loops = ends->len;
  spread->n_loops += ends->len;
  spread->gap_mm = MAX (spread->gap_mm, rod_traverse_gap_mm (traverse, NULL, NULL));
  rod_traverse_adjust (traverse, lines_mm, turns_deg);
  spread->left_mm = MAX (spread->left_mm, rod_traverse_gap_mm (traverse, lines_mm, turns_deg));
  add_corrections (spread, lines_mm, turns_deg);
}

static double
mean_length (const GArray *lines)
{
  double sum = 0.0;

  for (guint i = 0; i < lines->len; i++)
    {
      const RodSurveyLine *line = &g_array_index (lines, RodSurveyLine, i);

      sum += line->to_mm - line->from_mm;
    }
  return sum / MAX (lines->len, 1);
}

static void
adjust (Survey       *survey,
        RodSpreadRule rule,
        double        fold_sigma_deg)
{
  RodSpread         *spread = survey->spread;
  guint              n_lines = spread->lines->len, n_turns = spread->turns->len;
  double             mean_mm = mean_length (spread->lines), sum = 0.0;
  double             sigma_mm = MAX (spread->plan->house->survey_tolerance_mm, ROD_SNAP_MM);
  g_autofree double *lengths = g_new (double, n_lines + 1);
  g_autofree double *sigmas = g_new (double, n_lines + 1);
  g_autofree double *turns = g_new (double, n_turns + 1);
  g_autofree double *turn_sigmas = g_new (double, n_turns + 1);
  RodTraverse        traverse = {
           .lines_mm = lengths,
           .line_sigmas = sigmas,
           .n_lines = n_lines,
           .turns_deg = turns,
           .turn_sigmas_deg = turn_sigmas,
           .n_turns = n_turns,
  };

  for (guint i = 0; i < n_lines; i++)
    {
      const RodSurveyLine *line = &g_array_index (spread->lines, RodSurveyLine, i);

      lengths[i] = line->to_mm - line->from_mm;
      sigmas[i] = rule == ROD_SPREAD_BY_LENGTH ? sigma_mm * sqrt (lengths[i] / mean_mm) : sigma_mm;
    }
  for (guint i = 0; i < n_turns; i++)
    {
      turns[i] = g_array_index (spread->turns, RodSurveyTurn, i).join->fold_deg;
      turn_sigmas[i] = fold_sigma_deg;
    }
  for (guint part = 0; part < survey->walk->n_parts; part++)
    adjust_part (survey, part, &traverse);
  for (guint i = 0; i < n_lines; i++)
    sum += pow (g_array_index (spread->lines, RodSurveyLine, i).correction_mm, 2.0);
  spread->rms_mm = sqrt (sum / MAX (n_lines, 1));
}

static void
number_edges (Survey *survey)
{
  const RodPlan *plan = survey->spread->plan;
  guint          n_edges = 0;

  for (guint f = 0; f < plan->faces->len; f++)
    {
      survey->first_edge[f] = n_edges;
      n_edges += rod_plan_face (plan, f)->surface->outline->len;
    }
  survey->turn_of = g_new0 (guint, n_edges + 1);
}

static void
take_survey (Survey *survey)
{
  const RodPlan *plan = survey->spread->plan;
  guint          start = 0;

  survey->walk = rod_walk_new (plan, ties_in_plan);
  survey->first_line = g_new0 (guint, plan->faces->len + 1);
  survey->first_edge = g_new0 (guint, plan->faces->len + 1);
  survey->loops = g_array_new (FALSE, FALSE, sizeof (RodLoopStep));
  survey->loop_starts = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (survey->loop_starts, start);
  number_edges (survey);
  for (guint f = 0; f < plan->faces->len; f++)
    {
      list_lines (survey, f);
      list_turns (survey, f);
      list_loops (survey, f);
    }
}

static void
forget_survey (Survey *survey)
{
  rod_walk_free (survey->walk);
  g_free (survey->first_line);
  g_free (survey->first_edge);
  g_free (survey->turn_of);
  g_array_unref (survey->loops);
  g_array_unref (survey->loop_starts);
}

RodSpread *
rod_spread_new (RodPlan      *plan,
                RodSpreadRule rule,
                double        fold_sigma_deg)
{
  Survey survey = { .spread = g_new0 (RodSpread, 1) };

  g_return_val_if_fail (plan->places->len == plan->faces->len, NULL);
  g_return_val_if_fail (fold_sigma_deg >= 0.0, NULL);

  survey.spread->plan = rod_plan_ref (plan);
  survey.spread->lines = g_array_new (FALSE, FALSE, sizeof (RodSurveyLine));
  survey.spread->turns = g_array_new (FALSE, FALSE, sizeof (RodSurveyTurn));
  take_survey (&survey);
  adjust (&survey, rule, fold_sigma_deg);
  forget_survey (&survey);
  return survey.spread;
}

void
rod_spread_free (RodSpread *spread)
{
  if (spread == NULL)
    return;
  rod_plan_unref (spread->plan);
  g_array_unref (spread->lines);
  g_array_unref (spread->turns);
  g_free (spread);
}
