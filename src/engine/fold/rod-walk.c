/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Walks through the joins, level by level, so that every chain is as short as can be and errors of
 * the survey have few walls to add up over. Ties go by the surfaces' ids, which neither the order
 * of a file nor a mirror changes. */

#include "config.h"

#include <string.h>

#include "engine/fold/rod-walk.h"

typedef struct
{
  const RodPlan *plan;
  RodWalkAccept  accept;
  RodWalk       *walk;
  guint         *ranks;   /* by face: the place of its id among all */
  guint          reached; /* faces in the walk's order so far */
  guint          part;
} Walker;

typedef struct
{
  const RodSurface *surface;
  guint             face;
} Ranked;

static gint
compare_surfaces (gconstpointer a,
                  gconstpointer b)
{
  const RodSurface *one = ((const Ranked *) a)->surface;
  const RodSurface *other = ((const Ranked *) b)->surface;
  int               walls = (one->kind != ROD_SURFACE_WALL) - (other->kind != ROD_SURFACE_WALL);

  return walls != 0 ? walls : strcmp (one->id, other->id);
}

/* Surfaces, walls first, by their ids. Derived reveals have none of their own: they come with their
 * walls. */
static GArray *
ranked_surfaces (const RodPlan *plan)
{
  GArray *ranked = g_array_sized_new (FALSE, FALSE, sizeof (Ranked), plan->faces->len);

  for (guint f = 0; f < plan->faces->len; f++)
    {
      Ranked one = { rod_plan_face (plan, f)->surface, f };

      if (rod_plan_face (plan, f)->parent < 0)
        g_array_append_val (ranked, one);
    }
  g_array_sort (ranked, compare_surfaces);
  return ranked;
}

static void
reach (Walker *walker,
       guint   face,
       int     from_face,
       int     from_edge)
{
  walker->walk->steps[face] = (RodWalkStep){ from_face, from_edge, walker->part };
  walker->walk->order[walker->reached++] = face;
}

static gboolean
is_reached (const Walker *walker,
            guint         face)
{
  return walker->walk->steps[face].part != G_MAXUINT;
}

static void
follow_edges (Walker *walker,
              guint   face)
{
  const RodField *field =
    rod_plan_field (walker->plan, rod_plan_face (walker->plan, face)->first_field);

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];

      if (edge->partner_face < 0 || is_reached (walker, (guint) edge->partner_face))
        continue;
      if (walker->accept == NULL || walker->accept (walker->plan, face, edge))
        reach (walker, (guint) edge->partner_face, (int) face, (int) e);
    }
}

static gint
compare_ranks (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  const guint *ranks = user_data;
  guint        one = ranks[*(const guint *) a];
  guint        other = ranks[*(const guint *) b];

  return one < other ? -1 : one > other;
}

static void
walk_part (Walker *walker,
           guint   root)
{
  guint first = walker->reached;

  reach (walker, root, -1, -1);
  while (first < walker->reached)
    {
      guint end = walker->reached;

      g_qsort_with_data (walker->walk->order + first,
                         (gint) (end - first),
                         sizeof (guint),
                         compare_ranks,
                         walker->ranks);
      /* Reveals lead nowhere but back to their wall, which reaches them all itself. */
      for (guint i = first; i < end; i++)
        if (rod_plan_face (walker->plan, walker->walk->order[i])->parent < 0)
          follow_edges (walker, walker->walk->order[i]);
      first = end;
    }
  walker->part++;
}

RodWalk *
rod_walk_new (const RodPlan *plan,
              RodWalkAccept  accept)
{
  g_autoptr (GArray) ranked = ranked_surfaces (plan);
  g_autofree guint *ranks = g_new (guint, MAX (plan->faces->len, 1));
  Walker            walker = { plan, accept, g_new (RodWalk, 1), ranks, 0, 0 };

  walker.walk->n = plan->faces->len;
  walker.walk->steps = g_new (RodWalkStep, MAX (plan->faces->len, 1));
  walker.walk->order = g_new (guint, MAX (plan->faces->len, 1));
  for (guint f = 0; f < plan->faces->len; f++)
    {
      walker.walk->steps[f] = (RodWalkStep){ -1, -1, G_MAXUINT };
      /* Behind all surfaces, as they are met: they lead nowhere but to each other. */
      ranks[f] = plan->faces->len;
    }
  for (guint r = 0; r < ranked->len; r++)
    ranks[g_array_index (ranked, Ranked, r).face] = r;
  for (guint r = 0; r < ranked->len; r++)
    if (!is_reached (&walker, g_array_index (ranked, Ranked, r).face))
      walk_part (&walker, g_array_index (ranked, Ranked, r).face);
  /* Reveals that @accept left out. */
  for (guint f = 0; f < plan->faces->len; f++)
    if (!is_reached (&walker, f))
      walk_part (&walker, f);
  walker.walk->n_parts = walker.part;
  return walker.walk;
}

void
rod_walk_free (RodWalk *walk)
{
  if (walk == NULL)
    return;
  g_free (walk->steps);
  g_free (walk->order);
  g_free (walk);
}

gboolean
rod_walk_uses (const RodWalk *walk,
               guint          face,
               guint          edge_index,
               const RodEdge *edge)
{
  const RodWalkStep *own = &walk->steps[face];
  const RodWalkStep *other = &walk->steps[edge->partner_face];

  return (own->from_face == edge->partner_face && own->from_edge == edge->partner_edge) ||
         (other->from_face == (int) face && other->from_edge == (int) edge_index);
}

static const RodEdge *
step_edge (const RodPlan     *plan,
           const RodWalkStep *step)
{
  const RodFace *face = rod_plan_face (plan, (guint) step->from_face);

  return &rod_plan_field (plan, face->first_field)->edges[step->from_edge];
}

/* The faces from @face back to where its part begins. */
static GArray *
way_back (const RodWalk *walk,
          guint          face)
{
  GArray *way = g_array_new (FALSE, FALSE, sizeof (guint));

  g_array_append_val (way, face);
  while (walk->steps[face].from_face >= 0)
    {
      face = (guint) walk->steps[face].from_face;
      g_array_append_val (way, face);
    }
  return way;
}

void
rod_walk_loop (const RodWalk *walk,
               const RodPlan *plan,
               guint          face,
               guint          edge_index,
               GArray        *steps)
{
  const RodEdge *closing =
    &rod_plan_field (plan, rod_plan_face (plan, face)->first_field)->edges[edge_index];
  g_autoptr (GArray) own = way_back (walk, face);
  g_autoptr (GArray) other = way_back (walk, (guint) closing->partner_face);
  guint in_edge = edge_index;

  /* What both ways share behind the face where they part is no part of the loop. */
  while (own->len > 1 && other->len > 1 &&
         g_array_index (own, guint, own->len - 2) == g_array_index (other, guint, other->len - 2))
    {
      g_array_set_size (own, own->len - 1);
      g_array_set_size (other, other->len - 1);
    }
  for (guint i = 0; i + 1 < own->len; i++)
    {
      const RodWalkStep *back = &walk->steps[g_array_index (own, guint, i)];
      RodLoopStep        step = { g_array_index (own, guint, i),
                                  in_edge,
                                  (guint) step_edge (plan, back)->partner_edge };

      g_array_append_val (steps, step);
      in_edge = (guint) back->from_edge;
    }
  for (guint i = other->len - 1; i > 0; i--)
    {
      const RodWalkStep *on = &walk->steps[g_array_index (other, guint, i - 1)];
      RodLoopStep        step = { g_array_index (other, guint, i), in_edge, (guint) on->from_edge };

      g_array_append_val (steps, step);
      in_edge = (guint) step_edge (plan, on)->partner_edge;
    }
  {
    RodLoopStep last = { (guint) closing->partner_face, in_edge, (guint) closing->partner_edge };

    g_array_append_val (steps, last);
  }
}
