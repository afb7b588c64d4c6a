/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Folds the house into space. Faces hang on each other along a walk through the joins, by their raw
 * lines: boards lie in front of them by the build-up, and where two build-ups meet round a corner
 * follows. A join that the walk did not need shows what the survey lacks to close.
 *
 * Levels are measured, not folded: a wall that hangs on something level, as one storey on another,
 * is lifted to its own, and the difference shows at that join. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/fold/rod-fold.h"
#include "engine/fold/rod-walk.h"
#include "engine/plan/rod-faces.h"
#include "engine/rod-limits.h"

/* Between parts of the house that nothing joins. */
#define FOLD_SPACE_MM 2000.0

static const RodFacePlace *
place_of (const RodPlan *plan,
          guint          face)
{
  return &g_array_index (plan->places, RodFacePlace, face);
}

static const RodEdge *
edge_of (const RodPlan *plan,
         guint          face,
         guint          edge)
{
  return &rod_plan_field (plan, rod_plan_face (plan, face)->first_field)->edges[edge];
}

RodHinge
rod_fold_hinge (const RodPlan *plan,
                guint          face,
                const RodEdge *edge)
{
  RodHinge hinge = { .along_mm = rod_edge_match_mm (plan, face, edge),
                     .fold_deg = edge->fold_deg };

  rod_edge_line (edge, &hinge.own_from, &hinge.own_to);
  rod_edge_line (edge_of (plan, (guint) edge->partner_face, (guint) edge->partner_edge),
                 &hinge.hung_from,
                 &hinge.hung_to);
  return hinge;
}

/* The first of its part: walls upright, soffits level and seen from below. */
static RodPlacement
place_first (const RodFace *face)
{
  const RodSurface *surface = face->surface;
  double            facing_deg = isnan (surface->facing_deg) ? 180.0 : surface->facing_deg;
  RodPlacement      at = rod_placement_upright (facing_deg, surface->level_mm);

  if (surface->kind == ROD_SURFACE_SOFFIT)
    at.y = rod_vector_cross ((RodVector){ 0.0, 0.0, -1.0 }, at.x);
  return at;
}

static void
lift (RodPlacement *at,
      double        by_mm)
{
  at->origin = rod_vector_sum (1.0, at->origin, by_mm, at->y);
}

static RodPlacement
place_face (const RodPlan      *plan,
            guint               index,
            double              share,
            const RodPlacement *places)
{
  const RodFacePlace *place = place_of (plan, index);
  RodHinge            hinge;
  RodPlacement        at;

  if (place->hangs_on < 0)
    return place_first (rod_plan_face (plan, index));
  hinge = rod_fold_hinge (
    plan, (guint) place->hangs_on, edge_of (plan, (guint) place->hangs_on, (guint) place->edge));
  hinge.fold_deg *= share;
  at = rod_placement_hang (&places[place->hangs_on], &hinge);
  lift (&at, place->lift_mm);
  return at;
}

/* How far a face reaches from west to east. */
static void
stretch_extent (const RodFace      *face,
                const RodPlacement *at,
                double             *west,
                double             *east)
{
  for (guint c = 0; c < face->surface->outline->len; c++)
    {
      const RodCorner *corner = g_ptr_array_index (face->surface->outline, c);
      double           x = rod_placement_apply (at, (RodPoint){ corner->x, corner->y }).x;

      *west = MIN (*west, x);
      *east = MAX (*east, x);
    }
}

/* Puts each part but the first to the east of what stands already. */
static void
put_apart (const RodPlan *plan,
           RodPlacement  *places)
{
  double free_from = -INFINITY;

  for (guint i = 0, end; i < plan->places->len; i = end)
    {
      guint  part = place_of (plan, place_of (plan, i)->walked)->part;
      double west = INFINITY, east = -INFINITY, by_mm;

      for (end = i; end < plan->places->len; end++)
        {
          guint face = place_of (plan, end)->walked;

          if (place_of (plan, face)->part != part)
            break;
          /* Reveals stay within reach of their walls. */
          if (rod_plan_face (plan, face)->parent < 0)
            stretch_extent (rod_plan_face (plan, face), &places[face], &west, &east);
        }
      by_mm = isfinite (free_from) ? free_from - west : 0.0;
      for (guint k = i; k < end; k++)
        places[place_of (plan, k)->walked].origin.x += by_mm;
      free_from = east + by_mm + FOLD_SPACE_MM;
    }
}

void
rod_fold_place (const RodPlan *plan,
                double         share,
                RodPlacement  *places)
{
  g_return_if_fail (plan->places->len == plan->faces->len);

  for (guint i = 0; i < plan->places->len; i++)
    {
      guint face = place_of (plan, i)->walked;

      places[face] = place_face (plan, face, share, places);
    }
  put_apart (plan, places);
}

static double
line_angle_deg (RodVector a_from,
                RodVector a_to,
                RodVector b_from,
                RodVector b_to)
{
  RodVector a = rod_vector_sum (1.0, a_to, -1.0, a_from);
  RodVector b = rod_vector_sum (1.0, b_to, -1.0, b_from);
  RodVector across = rod_vector_cross (a, b);

  return atan2 (rod_vector_length (across), rod_vector_dot (a, b)) * 180.0 / G_PI;
}

RodClosure
rod_fold_misfit (const RodPlan *plan,
                 guint          face,
                 guint          edge_index)
{
  const RodEdge      *edge = edge_of (plan, face, edge_index);
  const RodPlacement *own = &place_of (plan, face)->at;
  const RodPlacement *other = &place_of (plan, (guint) edge->partner_face)->at;
  RodHinge            hinge = rod_fold_hinge (plan, face, edge);
  RodPlacement        wanted = rod_placement_hang (own, &hinge);
  RodVector           from = rod_placement_apply (other, hinge.hung_from);
  RodVector           to = rod_placement_apply (other, hinge.hung_to);
  RodVector           wanted_from = rod_placement_apply (&wanted, hinge.hung_from);
  RodVector           wanted_to = rod_placement_apply (&wanted, hinge.hung_to);

  RodVector gap_from = rod_vector_sum (1.0, from, -1.0, wanted_from);
  RodVector gap_to = rod_vector_sum (1.0, to, -1.0, wanted_to);
  RodVector gap =
    rod_vector_length (gap_to) > rod_vector_length (gap_from) ? gap_to : gap_from;

  return (RodClosure){
    .face = face,
    .edge = edge_index,
    .gap = gap,
    .misfit_mm = rod_vector_length (gap),
    .edge_deg = line_angle_deg (from, to, wanted_from, wanted_to),
    .fold_deg = remainder (rod_placement_fold (own, other, &hinge) - hinge.fold_deg, 360.0),
  };
}

/* Of two faces the one whose id comes first, so that a closure reads the same whatever the order of
 * the file. */
static gboolean
comes_first (const RodPlan *plan,
             guint          face,
             const RodEdge *edge)
{
  return strcmp (rod_plan_face (plan, face)->surface->id,
                 rod_plan_face (plan, (guint) edge->partner_face)->surface->id) < 0;
}

static void
add_closure (RodPlan       *plan,
             const RodWalk *walk,
             guint          face,
             guint          edge)
{
  RodClosure closure = rod_fold_misfit (plan, face, edge);

  closure.first_step = plan->loop_steps->len;
  rod_walk_loop (walk, plan, face, edge, plan->loop_steps);
  closure.n_steps = plan->loop_steps->len - closure.first_step;
  g_array_append_val (plan->closures, closure);
}

/* Whether the places meet here by their making. */
static gboolean
is_met (const RodPlan *plan,
        const RodWalk *walk,
        guint          face,
        guint          edge_index)
{
  const RodEdge *edge = edge_of (plan, face, edge_index);

  return rod_walk_uses (walk, face, edge_index, edge) &&
         !(fabs (place_of (plan, face)->lift_mm) > 0.0) &&
         !(fabs (place_of (plan, (guint) edge->partner_face)->lift_mm) > 0.0);
}

/* Joins of the file only, which tie outlines, the first edges of a face: what lines an opening is
 * made to measure and cannot fail to close. */
static void
list_closures (RodPlan       *plan,
               const RodWalk *walk)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace *face = rod_plan_face (plan, f);

      for (guint e = 0; face->parent < 0 && e < face->surface->outline->len; e++)
        {
          const RodEdge *edge = edge_of (plan, f, e);

          if (edge->join != NULL && comes_first (plan, f, edge) && !is_met (plan, walk, f, e))
            add_closure (plan, walk, f, e);
        }
    }
}

/* A wall that stands upright belongs at its level. */
static double
lift_wanted_mm (const RodFace      *face,
                const RodPlacement *at)
{
  double by_mm = face->surface->level_mm - at->origin.z;

  if (face->surface->kind != ROD_SURFACE_WALL ||
      at->y.z < rod_angle_unit (ROD_EPSILON_DEG).x || fabs (by_mm) < ROD_EPSILON_MM)
    return 0.0;
  return by_mm;
}

static void
take_walk (RodPlan       *plan,
           const RodWalk *walk)
{
  g_autofree guint *surfaces = g_new0 (guint, MAX (walk->n_parts, 1));

  g_array_set_size (plan->places, walk->n);
  for (guint f = 0; f < walk->n; f++)
    {
      surfaces[walk->steps[f].part] += rod_plan_face (plan, f)->parent < 0;
      g_array_index (plan->places, RodFacePlace, f) = (RodFacePlace){
        .hangs_on = walk->steps[f].from_face,
        .edge = walk->steps[f].from_edge,
        .part = walk->steps[f].part,
        .walked = walk->order[f],
      };
    }
  for (guint f = 0; f < walk->n; f++)
    g_array_index (plan->places, RodFacePlace, f).alone = surfaces[walk->steps[f].part] == 1;
}

void
rod_fold_build (RodPlan *plan)
{
  g_autoptr (RodWalk) walk = rod_walk_new (plan, NULL);
  g_autofree RodPlacement *places = g_new (RodPlacement, MAX (plan->faces->len, 1));

  take_walk (plan, walk);
  for (guint i = 0; i < walk->n; i++)
    {
      guint         face = walk->order[i];
      RodFacePlace *place = &g_array_index (plan->places, RodFacePlace, face);

      places[face] = place_face (plan, face, 1.0, places);
      if (place->hangs_on >= 0)
        place->lift_mm = lift_wanted_mm (rod_plan_face (plan, face), &places[face]);
      lift (&places[face], place->lift_mm);
    }
  put_apart (plan, places);
  for (guint f = 0; f < walk->n; f++)
    g_array_index (plan->places, RodFacePlace, f).at = places[f];
  list_closures (plan, walk);
}
