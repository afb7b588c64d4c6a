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

/* A stretch of a clad area's boundary on one edge. */
typedef struct
{
  int      tag;
  RodPoint from;
  RodPoint to;
  double   length_mm;
} Chain;

typedef struct
{
  RodPlan *plan;
  GArray **chains; /* of Chain, of each field */
} Runner;

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
add_ring_chains (const RodRegion *clad,
                 guint            ring,
                 GArray          *chains)
{
  guint start = clad->ring_starts[ring];
  guint n = clad->ring_starts[ring + 1] - start;
  guint first = chain_start (clad, start, start + n) - start;

  for (guint done = 0, taken; done < n; done += taken)
    {
      guint at = (first + done) % n;
      Chain chain = { .tag = clad->tags[start + at], .from = clad->points[start + at] };

      chain.to = chain.from;
      for (taken = 0;
           done + taken < n && clad->tags[start + (at + taken) % n] == chain.tag;
           taken++)
        {
          RodPoint next = clad->points[start + (at + taken + 1) % n];

          chain.length_mm += rod_point_distance (chain.to, next);
          chain.to = next;
        }
      g_array_append_val (chains, chain);
    }
}

static GArray *
find_chains (const RodField *field)
{
  GArray *chains = g_array_sized_new (FALSE, FALSE, sizeof (Chain), field->clad->n_points);

  for (guint r = 0; r < field->clad->n_rings; r++)
    add_ring_chains (field->clad, r, chains);
  return chains;
}

static double
face_edge_length (const Runner *runner,
                  guint         face_index,
                  int           edge)
{
  const RodFace *face = rod_plan_face (runner->plan, face_index);
  double         length_mm = 0.0;

  for (guint f = face->first_field; f < face->first_field + face->n_fields; f++)
    for (guint i = 0; i < runner->chains[f]->len; i++)
      if (g_array_index (runner->chains[f], Chain, i).tag == edge)
        length_mm += g_array_index (runner->chains[f], Chain, i).length_mm;
  return length_mm;
}

/* How far along an edge's raw line a point lies. */
static double
place_on (const RodEdge *edge,
          RodPoint       at)
{
  RodPoint from, to;
  double   length;

  rod_edge_line (edge, &from, &to);
  length = rod_point_distance (from, to);
  return ((at.x - from.x) * (to.x - from.x) + (at.y - from.y) * (to.y - from.y)) / length;
}

static const RodEdge *
facing_edge (const RodPlan *plan,
             const RodEdge *edge)
{
  const RodFace *other = rod_plan_face (plan, (guint) edge->partner_face);

  return &rod_plan_field (plan, other->first_field)->edges[edge->partner_edge];
}

/* Whether one trim serves this edge and the one round the corner. */
static gboolean
shares_trim (const RodPlan *plan,
             const RodEdge *edge)
{
  const RodEdge *facing;

  if (!edge->trim->two_sided || edge->partner_face < 0)
    return FALSE;
  facing = facing_edge (plan, edge);
  return facing->trim != NULL && facing->trim->two_sided;
}

/* Along an edge's raw line, from its start. */
typedef struct
{
  double low;
  double high;
} Stretch;

/* Widens a stretch of an edge by what stands against it round the corner; the edges run against
 * each other. Returns whether anything does. */
static gboolean
widen_by_partner (const Runner  *runner,
                  guint          face,
                  const RodEdge *edge,
                  Stretch        own,
                  Stretch       *wide)
{
  const RodFace *other = rod_plan_face (runner->plan, (guint) edge->partner_face);
  const RodEdge *facing = facing_edge (runner->plan, edge);
  double         ends_at = rod_edge_match_mm (runner->plan, face, edge) +
                   rod_point_distance (facing->raw.from, facing->raw.to);
  gboolean found = FALSE;

  *wide = own;
  for (guint f = other->first_field; f < other->first_field + other->n_fields; f++)
    for (guint i = 0; i < runner->chains[f]->len; i++)
      {
        const Chain *chain = &g_array_index (runner->chains[f], Chain, i);
        double       from = ends_at - place_on (facing, chain->to);
        double       to = ends_at - place_on (facing, chain->from);

        if (chain->tag != edge->partner_edge || to < own.low + ROD_SNAP_MM ||
            from > own.high - ROD_SNAP_MM)
          continue;
        found = TRUE;
        wide->low = MIN (wide->low, from);
        wide->high = MAX (wide->high, to);
      }
  return found;
}

/* Takes back what other stretches of this side cover already: another field of the face, or the
 * edge beyond a door. */
static void
leave_to_own (const Runner  *runner,
              guint          face_index,
              const RodEdge *edge,
              int            tag,
              Stretch        own,
              Stretch       *wide)
{
  const RodFace *face = rod_plan_face (runner->plan, face_index);

  for (guint f = face->first_field; f < face->first_field + face->n_fields; f++)
    for (guint i = 0; i < runner->chains[f]->len; i++)
      {
        const Chain *chain = &g_array_index (runner->chains[f], Chain, i);

        if (chain->tag != tag)
          continue;
        if (place_on (edge, chain->to) <= own.low + ROD_SNAP_MM)
          wide->low = MAX (wide->low, MIN (own.low, place_on (edge, chain->to)));
        if (place_on (edge, chain->from) >= own.high - ROD_SNAP_MM)
          wide->high = MIN (wide->high, MAX (own.high, place_on (edge, chain->from)));
      }
}

/* Whether the other side of a corner carries the trim that serves both: a reveal before its wall,
 * the longer edge before the shorter. */
static gboolean
is_served_by_partner (const Runner  *runner,
                      guint          own_index,
                      int            tag,
                      const RodEdge *edge)
{
  const RodFace *own = rod_plan_face (runner->plan, own_index);
  const RodFace *other = rod_plan_face (runner->plan, (guint) edge->partner_face);
  double         own_mm, other_mm;

  if ((own->parent < 0) != (other->parent < 0))
    return own->parent < 0;
  own_mm = face_edge_length (runner, own_index, tag);
  other_mm = face_edge_length (runner, (guint) edge->partner_face, edge->partner_edge);
  if (fabs (own_mm - other_mm) > ROD_SNAP_MM)
    return other_mm > own_mm;
  return edge->partner_face < (int) own_index;
}

/* Settles who carries a corner's trim along a chain: returns whether this side does, and then makes
 * the run as long as both sides together. A reveal's run stays as it is, from sill to head. */
static gboolean
carries_corner (const Runner  *runner,
                guint          face,
                const RodEdge *edge,
                RodTrimRun    *run)
{
  const RodFace *own = rod_plan_face (runner->plan, face);
  const RodFace *other = rod_plan_face (runner->plan, (guint) edge->partner_face);
  Stretch        own_side = { place_on (edge, run->from), place_on (edge, run->to) };
  Stretch        both;
  double         ex, ey;

  if (!widen_by_partner (runner, face, edge, own_side, &both))
    return TRUE;
  if (is_served_by_partner (runner, face, run->edge, edge))
    return FALSE;
  if ((own->parent < 0) != (other->parent < 0) || fabs (edge->raw.bulge) > 0.0)
    return TRUE;
  leave_to_own (runner, face, edge, run->edge, own_side, &both);
  ex = (run->to.x - run->from.x) / run->length_mm;
  ey = (run->to.y - run->from.y) / run->length_mm;
  run->from.x += (both.low - own_side.low) * ex;
  run->from.y += (both.low - own_side.low) * ey;
  run->to.x += (both.high - own_side.high) * ex;
  run->to.y += (both.high - own_side.high) * ey;
  run->length_mm = both.high - both.low;
  return TRUE;
}

static void
add_run (const Runner *runner,
         guint         field,
         const Chain  *chain)
{
  RodPlan        *plan = runner->plan;
  const RodField *planned = rod_plan_field (plan, field);
  const RodEdge  *edge = &planned->edges[chain->tag];
  RodTrimRun      run = {
         .field = field,
         .edge = chain->tag,
         .from = chain->from,
         .to = chain->to,
         .length_mm = chain->length_mm,
  };
  RodTrimRun corner = run;

  /* One trim for both sides of a border between zones belongs to the zone it goes round. */
  if (edge->trim == NULL || chain->length_mm < ROD_SNAP_MM ||
      (edge->zone >= 0 && edge->turned && edge->trim->two_sided))
    return;
  corner.end = run.end = edge->rule->end;
  if (!shares_trim (plan, edge) || carries_corner (runner, planned->face, edge, &corner))
    {
      corner.trim = edge->trim;
      g_array_append_val (plan->trims, corner);
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
  Runner runner = { plan, g_new0 (GArray *, MAX (plan->fields->len, 1)) };

  for (guint f = 0; f < plan->fields->len; f++)
    runner.chains[f] = find_chains (rod_plan_field (plan, f));
  for (guint f = 0; f < plan->fields->len; f++)
    {
      guint first = plan->trims->len;

      for (guint i = 0; i < runner.chains[f]->len; i++)
        add_run (&runner, f, &g_array_index (runner.chains[f], Chain, i));
      add_columns (plan, f);
      g_array_index (plan->fields, RodField, f).first_trim = first;
      g_array_index (plan->fields, RodField, f).n_trims = plan->trims->len - first;
    }
  for (guint f = 0; f < plan->fields->len; f++)
    g_array_unref (runner.chains[f]);
  g_free (runner.chains);
}
