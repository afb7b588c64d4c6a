/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Trim runs. They follow the trims' boundary as it really is after doors, zones and starters have
 * shaped it: the clad area's own edges, chained where they go on in one line (or one arc), tell
 * where each run starts and ends, so that every metre of boundary has its trim. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-clip.h"
#include "engine/plan/rod-faces.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-columns.h"
#include "engine/trims/rod-trim-runs.h"

/* Greatest distance of a board's long side from the trims' boundary. */
#define COLUMN_REACH_MM 50.0

/* How much boundary of each edge of each field lies on the clad area, to choose between the two
 * sides of a corner. */
typedef struct
{
  RodPlan *plan;
  double **lengths; /* of each field, of each edge */
} Runner;

typedef void (*ChainFunc) (Runner  *runner,
                           guint    field,
                           int      tag,
                           RodPoint from,
                           RodPoint to,
                           double   length_mm);

/* Where a chain of edges with one tag begins on a ring: after an edge with another tag. */
static guint
chain_start (const RodRegion *region,
             guint            start,
             guint            end)
{
  for (guint p = start; p < end; p++)
    if (region->tags[p] != region->tags[p > start ? p - 1 : end - 1])
      return p;
  return start;
}

static void
for_ring_chains (Runner   *runner,
                 guint     field,
                 guint     ring,
                 ChainFunc func)
{
  const RodRegion *clad = rod_plan_field (runner->plan, field)->clad;
  guint            start = clad->ring_starts[ring];
  guint            n = clad->ring_starts[ring + 1] - start;
  guint            first = chain_start (clad, start, start + n) - start;

  for (guint done = 0, taken; done < n; done += taken)
    {
      guint    at = (first + done) % n;
      RodPoint from = clad->points[start + at], to = from;
      double   length_mm = 0.0;

      for (taken = 0;
           done + taken < n && clad->tags[start + (at + taken) % n] == clad->tags[start + at];
           taken++)
        {
          RodPoint next = clad->points[start + (at + taken + 1) % n];

          length_mm += rod_point_distance (to, next);
          to = next;
        }
      func (runner, field, clad->tags[start + at], from, to, length_mm);
    }
}

static void
for_chains (Runner   *runner,
            guint     field,
            ChainFunc func)
{
  const RodRegion *clad = rod_plan_field (runner->plan, field)->clad;

  for (guint r = 0; r < clad->n_rings; r++)
    for_ring_chains (runner, field, r, func);
}

static void
add_length (Runner  *runner,
            guint    field,
            int      tag,
            RodPoint from,
            RodPoint to,
            double   length_mm)
{
  runner->lengths[field][tag] += length_mm;
}

static double
face_edge_length (const Runner *runner,
                  guint         face_index,
                  int           edge)
{
  const RodFace *face = rod_plan_face (runner->plan, face_index);
  double         length_mm = 0.0;

  for (guint i = 0; i < face->n_fields; i++)
    length_mm += runner->lengths[face->first_field + i][edge];
  return length_mm;
}

/* Whether the other side of a corner carries the trim that serves both. */
static gboolean
is_served_by_partner (const Runner  *runner,
                      guint          field,
                      const RodEdge *edge)
{
  guint          own_index = rod_plan_field (runner->plan, field)->face;
  const RodFace *own = rod_plan_face (runner->plan, own_index);
  const RodFace *other;
  const RodEdge *facing;
  double         own_mm, other_mm;

  if (!edge->trim->two_sided || edge->partner_face < 0)
    return FALSE;
  other = rod_plan_face (runner->plan, (guint) edge->partner_face);
  facing = &rod_plan_field (runner->plan, other->first_field)->edges[edge->partner_edge];
  if (facing->trim == NULL || !facing->trim->two_sided)
    return FALSE;
  if ((own->parent < 0) != (other->parent < 0))
    return own->parent < 0;
  own_mm = face_edge_length (
    runner, own_index, (int) (edge - rod_plan_field (runner->plan, field)->edges));
  other_mm = face_edge_length (runner, (guint) edge->partner_face, edge->partner_edge);
  if (fabs (own_mm - other_mm) > ROD_SNAP_MM)
    return other_mm > own_mm;
  return edge->partner_face < (int) own_index;
}

static void
add_run (Runner  *runner,
         guint    field,
         int      tag,
         RodPoint from,
         RodPoint to,
         double   length_mm)
{
  RodPlan        *plan = runner->plan;
  const RodField *planned = rod_plan_field (plan, field);
  const RodEdge  *edge = &planned->edges[tag];
  RodTrimRun      run = {
         .field = field, .edge = tag, .from = from, .to = to, .length_mm = length_mm
  };

  /* A border between zones belongs to the zone it goes round. */
  if (edge->trim == NULL || length_mm < ROD_SNAP_MM || (edge->zone >= 0 && edge->turned))
    return;
  run.end = edge->rule->end;
  if (!is_served_by_partner (runner, field, edge))
    {
      run.trim = edge->trim;
      g_array_append_val (plan->trims, run);
    }
  for (guint i = 0; i < edge->rule->beside->len; i++)
    {
      run.trim = rod_system_find_trim (rod_plan_face (plan, planned->face)->system,
                                       g_ptr_array_index (edge->rule->beside, i));
      if (run.trim != NULL)
        g_array_append_val (plan->trims, run);
    }
}

/* Widens [low, high] by the sides of a piece that stand beside a column, a gap and half a web
 * away. */
static void
add_column_sides (const RodPlan  *plan,
                  const RodField *field,
                  const RodPiece *piece,
                  double          column,
                  double         *low,
                  double         *high)
{
  const RodRegion *rings = plan->rings;
  guint            start = rings->ring_starts[piece->first_ring];
  guint            end = rings->ring_starts[piece->first_ring + 1];

  for (guint p = start; p < end; p++)
    {
      gboolean left = rings->tags[p] == ROD_TAG_COLUMN_LEFT;
      double   gap_mm = left ? -piece->left.gap_mm : piece->right.gap_mm;
      double   web_mm = left ? -field->joint->back_mm : field->joint->back_mm;
      RodPoint from = rod_affine_apply (field->to_board, rings->points[p]);
      RodPoint to = rod_affine_apply (field->to_board, rings->points[p + 1 < end ? p + 1 : start]);

      if ((!left && rings->tags[p] != ROD_TAG_COLUMN_RIGHT) ||
          fabs (from.x + gap_mm + web_mm - column) > ROD_SNAP_MM)
        continue;
      *low = MIN (*low, MIN (from.y, to.y));
      *high = MAX (*high, MAX (from.y, to.y));
    }
}

/* The stretch of a column along which pieces really end there: the last pieces at an apex may have
 * been left whole. */
static gboolean
column_stretch (const RodPlan  *plan,
                const RodField *field,
                double          column,
                double         *low,
                double         *high)
{
  *low = INFINITY;
  *high = -INFINITY;
  for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
    add_column_sides (plan, field, rod_plan_piece (plan, p), column, low, high);
  return *low < *high;
}

static GArray *
clip_beside (const RodField *field,
             double          x)
{
  return rod_region_clip_line (field->clad,
                               rod_affine_apply (field->to_surface, (RodPoint){ x, 0.0 }),
                               (RodPoint){ field->to_surface.xy, field->to_surface.yy });
}

/* Where a column has boards on both sides: a column on the line of a jamb stops at the opening. */
static GArray *
clip_column (const RodField *field,
             double          column)
{
  g_autoptr (GArray) left = clip_beside (field, column - ROD_SNAP_MM);
  g_autoptr (GArray) right = clip_beside (field, column + ROD_SNAP_MM);
  GArray *both = g_array_new (FALSE, FALSE, sizeof (RodSpan));

  for (guint i = 0; i < left->len; i++)
    for (guint k = 0; k < right->len; k++)
      {
        const RodSpan *one = &g_array_index (left, RodSpan, i);
        const RodSpan *other = &g_array_index (right, RodSpan, k);
        RodSpan        span = {
                 .from = MAX (one->from, other->from),
                 .to = MIN (one->to, other->to),
        };

        if (span.to - span.from > ROD_SNAP_MM)
          g_array_append_val (both, span);
      }
  return both;
}

static void
add_column (RodPlan *plan,
            guint    index,
            double   column)
{
  const RodField *field = rod_plan_field (plan, index);
  double          low, high;
  g_autoptr (GArray) spans = NULL;

  if (!column_stretch (plan, field, column, &low, &high))
    return;
  spans = clip_column (field, column);
  for (guint s = 0; s < spans->len; s++)
    {
      const RodSpan *span = &g_array_index (spans, RodSpan, s);
      /* Boards end within their trims; the joint's trim goes on to the boundary. */
      double     from = low - span->from < COLUMN_REACH_MM ? span->from : low;
      double     to = span->to - high < COLUMN_REACH_MM ? span->to : high;
      RodTrimRun run = {
        .field = index,
        .edge = ROD_TAG_COLUMN_LEFT,
        .trim = field->joint,
        .from = rod_affine_apply (field->to_surface, (RodPoint){ column, from }),
        .to = rod_affine_apply (field->to_surface, (RodPoint){ column, to }),
        .length_mm = to - from,
      };

      if (run.length_mm > ROD_SNAP_MM)
        g_array_append_val (plan->trims, run);
    }
}

static void
add_columns (RodPlan *plan,
             guint    index)
{
  const RodField *field = rod_plan_field (plan, index);

  if (field->joint == NULL)
    return;
  for (guint c = 0; c < field->n_columns; c++)
    add_column (plan, index, field->columns[c]);
}

void
rod_trim_runs_build (RodPlan *plan)
{
  Runner runner = { plan, g_new0 (double *, MAX (plan->fields->len, 1)) };

  for (guint f = 0; f < plan->fields->len; f++)
    {
      runner.lengths[f] = g_new0 (double, rod_plan_field (plan, f)->n_edges);
      for_chains (&runner, f, add_length);
    }
  for (guint f = 0; f < plan->fields->len; f++)
    {
      guint first = plan->trims->len;

      for_chains (&runner, f, add_run);
      add_columns (plan, f);
      g_array_index (plan->fields, RodField, f).first_trim = first;
      g_array_index (plan->fields, RodField, f).n_trims = plan->trims->len - first;
    }
  for (guint f = 0; f < plan->fields->len; f++)
    g_free (runner.lengths[f]);
  g_free (runner.lengths);
}
