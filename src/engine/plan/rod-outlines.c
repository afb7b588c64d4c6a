/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Lines become areas: each edge moves by its own part of the stack, openings are subtracted and
 * zones cut out, all in one normalising pass per area, so that overlapping, touching and vanishing
 * parts are settled in one place. */

#include "config.h"

#include "engine/geometry/rod-inset.h"
#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-outlines.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"

/* Which of the four lines an area is bounded by. */
typedef enum
{
  LINE_BATTEN_FACE,
  LINE_TRIM,
  LINE_POCKET,
} Line;

static double
inset_mm (const RodEdge *edge,
          Line           line)
{
  switch (line)
    {
    case LINE_TRIM:
      return rod_edge_inset (edge);
    case LINE_POCKET:
      return rod_edge_inset (edge) + edge->back_mm + edge->gap_across_mm +
             edge->absorbed_mm;
    case LINE_BATTEN_FACE:
    default:
      return -edge->build_up_mm;
    }
}

/* A side that yields reaches out past every line it lies on, so that no boundary is its own; by
 * more than what counts as the same line. */
#define YIELD_MM (2.0 * ROD_SNAP_MM)

static double
yielding_inset_mm (const RodField *field,
                   const RodEdge  *edge,
                   Line            line)
{
  double least_mm = 0.0;

  for (guint e = 0; e < field->n_edges; e++)
    if (!field->edges[e].yields && rod_zone_side_shared_mm (edge, &field->edges[e]) > 0.0)
      least_mm = MIN (least_mm, inset_mm (&field->edges[e], line));
  /* Outwards from the zone is into the clad area of the field it is laid over. */
  return edge->turned ? YIELD_MM - least_mm : least_mm - YIELD_MM;
}

/* Adds the edges [first, first + n) of a field as one ring. Outlines and the field's own zone count
 * up, openings and the zones laid over it count down; a ring that counts down is turned over. The
 * clad side of an edge is where its stack grows to: the left of an outline or own zone, the right
 * of everything subtracted. */
static void
add_ring (RodPath        *path,
          const RodField *field,
          guint           first,
          guint           n,
          Line            line)
{
  gboolean                 subtract = field->edges[first].turned;
  g_autofree RodInsetSide *sides = g_new (RodInsetSide, n);

  for (guint i = 0; i < n; i++)
    {
      const RodEdge *edge = &field->edges[first + (subtract ? n - 1 - i : i)];

      sides[i] = (RodInsetSide){
        .from = subtract ? edge->raw.to : edge->raw.from,
        .to = subtract ? edge->raw.from : edge->raw.to,
        .bulge = subtract ? -edge->raw.bulge : edge->raw.bulge,
        .inset_mm = edge->yields ? yielding_inset_mm (field, edge, line) : inset_mm (edge, line),
        .tag = (int) (edge - field->edges),
      };
    }
  rod_path_add_inset_ring (path, sides, n);
}

static gboolean
same_ring (const RodEdge *a,
           const RodEdge *b)
{
  return a->opening == b->opening && a->zone == b->zone;
}

static RodRegion *
build_region (const RodField *field,
              Line            line,
              gboolean        with_zones)
{
  g_autoptr (RodPath) path = rod_path_new ();
  gboolean in_zone = with_zones && field->zone != NULL;
  guint    n;

  for (guint first = 0; first < field->n_edges; first += n)
    {
      const RodEdge *edge = &field->edges[first];

      for (n = 1; first + n < field->n_edges && same_ring (edge, &field->edges[first + n]); n++)
        ;
      if (edge->zone >= 0 && !with_zones)
        continue;
      add_ring (path, field, first, n, line);
    }
  return rod_region_normalise (path, in_zone ? 2 : 1);
}

void
rod_outlines_build (RodPlan *plan,
                    guint    index)
{
  RodField *field = &g_array_index (plan->fields, RodField, index);
  RodFace  *face = &g_array_index (plan->faces, RodFace, field->face);
  g_autoptr (RodRegion) pocket = build_region (field, LINE_POCKET, TRUE);

  if (index == face->first_field)
    face->bare = build_region (field, LINE_BATTEN_FACE, FALSE);
  field->clad = build_region (field, LINE_TRIM, TRUE);
  field->pocket = rod_region_transform (pocket, field->to_board);
}
