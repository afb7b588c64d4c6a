/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Puts the steps of a falling base into the house. A tread becomes a base edge so far below its
 * joint line that the starter settles on that line again; what stood on the falling line, walls'
 * sides and doors, is led up or down to the treads. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-inset.h"
#include "engine/geometry/rod-region.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-stepped-house.h"
#include "engine/trims/rod-trim-table.h"

/* Rule R13: two bays. */
#define LEAST_BAYS 2.0

/* A surface while its base is stepped. */
typedef struct
{
  const RodPlan        *plan;
  const RodField       *field;
  const RodSurface     *surface;
  const RodFallingBase *base;
  double                below_mm; /* treads are drawn so far below their joint lines */
  GPtrArray            *corners;  /* of RodCorner: the new outline */
} Stepping;

static const RodCorner *
corner_at (const RodSurface *surface,
           guint             index)
{
  return g_ptr_array_index (surface->outline, index % surface->outline->len);
}

static gboolean
asks_for_steps (const RodField   *field,
                const RodSurface *surface,
                guint             edge)
{
  const RodCorner *corner = corner_at (surface, edge);

  return corner->stepped && fabs (corner->bulge) <= 0.0 &&
         corner_at (surface, edge + 1)->x > corner->x + ROD_SNAP_MM &&
         field->edges[edge].condition == ROD_EDGE_BASE && field->edges[edge].partner_face < 0;
}

static double
ground_clearance_mm (const RodRules  *rules,
                     const RodCorner *corner)
{
  return isnan (corner->clearance_mm) ? rules->ground_clearance_mm : corner->clearance_mm;
}

static void
add_base (const RodPlan *plan,
          guint          index,
          guint          first,
          guint          n_edges,
          GArray        *bases)
{
  const RodFace       *face = rod_plan_face (plan, index);
  const RodField      *field = rod_plan_field (plan, face->first_field);
  const RodRules      *rules = face->system->rules;
  g_autofree RodPoint *line = g_new (RodPoint, n_edges + 1);
  gboolean             falls = FALSE;
  RodFallingBase       base = { .face = index, .first = first, .n_edges = n_edges };
  RodGround            ground = {
               .line = line,
               .n = n_edges + 1,
               .phase_mm = field->phase_mm,
               .cover_mm = field->board->cover_mm,
               .bay_mm = rules->batten_centres_mm,
               .least_run_mm = LEAST_BAYS * rules->batten_centres_mm,
  };

  for (guint i = 0; i <= n_edges; i++)
    {
      const RodCorner *corner = corner_at (face->surface, first + i);

      line[i] = (RodPoint){ corner->x, corner->y };
      falls = falls || fabs (corner->y - line[0].y) > ROD_SNAP_MM;
      if (i < n_edges)
        ground.clearance_mm = MAX (ground.clearance_mm, ground_clearance_mm (rules, corner));
    }
  if (!falls)
    return;
  base.from = line[0];
  base.to = line[n_edges];
  base.treads = rod_ground_steps (&ground);
  g_array_append_val (bases, base);
}

static void
clear_base (gpointer data)
{
  g_array_unref (((RodFallingBase *) data)->treads);
}

GArray *
rod_falling_bases (const RodPlan *plan,
                   guint          index)
{
  const RodFace  *face = rod_plan_face (plan, index);
  const RodField *field = rod_plan_field (plan, face->first_field);
  guint           n = face->surface->outline->len;
  GArray         *bases = g_array_new (FALSE, FALSE, sizeof (RodFallingBase));

  g_array_set_clear_func (bases, clear_base);
  if (face->parent >= 0 || face->surface->kind != ROD_SURFACE_WALL ||
      fabs (field->direction_deg) > ROD_EPSILON_DEG)
    return bases;
  for (guint first = 0, run; first < n; first++)
    {
      if (!asks_for_steps (field, face->surface, first) ||
          asks_for_steps (field, face->surface, (first + n - 1) % n))
        continue;
      for (run = 1; asks_for_steps (field, face->surface, (first + run) % n); run++)
        ;
      add_base (plan, index, first, run, bases);
    }
  return bases;
}

/* How far below its first joint line a level base is drawn: at its starter's lowest, but clear of
 * the ground where the range allows it; without a starter so that the first board is whole. */
static double
below_line_mm (const Stepping *stepping)
{
  const RodSystem   *system = rod_plan_face (stepping->plan, stepping->field->face)->system;
  const RodCorner   *corner = corner_at (stepping->surface, stepping->base->first);
  const RodTrimRule *rule;
  const RodTrim     *trim;
  double             low_mm, high_mm;

  rule = rod_trim_table_find (
    system, ROD_SURFACE_WALL, ROD_BOARDS_ALONG, ROD_EDGE_BASE, TRUE);
  if (rule == NULL)
    return 0.0;
  if (rule->starter)
    {
      RodEdge edge = { .rule = rule };

      rod_edge_starter_range (stepping->plan, stepping->field, &edge, &low_mm, &high_mm);
      return MAX (low_mm, MIN (system->rules->ground_clearance_mm, high_mm));
    }
  trim = rod_system_find_trim (system, rule->trim);
  return (isnan (corner->clearance_mm) ? rule->clearance_mm : corner->clearance_mm) +
         (trim == NULL ? 0.0 : trim->back_mm) + system->rules->gap_across_mm;
}

static const RodTread *
tread_at (const Stepping *stepping,
          guint           index)
{
  return &g_array_index (stepping->base->treads, RodTread, index);
}

static double
tread_y (const Stepping *stepping,
         guint           index)
{
  return tread_at (stepping, index)->line_mm - stepping->below_mm;
}

/* A corner like @like at another place, with an edge of its own. */
static RodCorner *
add_corner (const Stepping  *stepping,
            const RodCorner *like,
            RodPoint         at,
            RodEdgeCondition condition)
{
  RodCorner *corner = rod_record_copy (like);

  corner->x = at.x;
  corner->y = at.y;
  corner->condition = condition;
  corner->stepped = FALSE;
  rod_record_set_text (corner, G_STRUCT_OFFSET (RodCorner, edge), "");
  if (condition != ROD_EDGE_BASE)
    corner->clearance_mm = NAN;
  g_ptr_array_add (stepping->corners, corner);
  return corner;
}

static gboolean
is_level_base (const Stepping *stepping,
               guint           edge)
{
  const RodEdge *side = &stepping->field->edges[edge];

  return side->condition == ROD_EDGE_BASE && fabs (side->raw.bulge) <= 0.0 &&
         fabs (side->raw.to.y - side->raw.from.y) < ROD_SNAP_MM &&
         side->raw.to.x > side->raw.from.x;
}

/* Whether the boards of a level base beside the steps stand on the tread's line already. */
static gboolean
goes_on (const Stepping *stepping,
         guint           edge,
         guint           tread)
{
  const RodEdge *side = &stepping->field->edges[edge];

  return is_level_base (stepping, edge) && side->starter && side->partner_face < 0 &&
         fabs (side->raw.from.y + side->clearance_mm - tread_at (stepping, tread)->line_mm) <
           ROD_LINE_SNAP_MM;
}

/* Where a side that is no base meets a tread: on its own line, not beyond its other end. */
static gboolean
meets_side (const Stepping *stepping,
            guint           edge,
            guint           tread,
            gboolean        at_end,
            RodPoint       *at)
{
  RodSide  side = stepping->field->edges[edge].raw;
  RodPoint on[] = { { 0.0, tread_y (stepping, tread) }, { 1.0, tread_y (stepping, tread) } };
  RodPoint far = at_end ? side.from : side.to;
  RodPoint near = at_end ? side.to : side.from;

  return fabs (side.bulge) <= 0.0 &&
         rod_lines_meet (side.from, side.to, on[0], on[1], at) &&
         (at->x - far.x) * (near.x - far.x) + (at->y - far.y) * (near.y - far.y) >
           ROD_MIN_SURFACE_MM * rod_point_distance (near, far);
}

static guint
edge_before (const Stepping *stepping)
{
  guint n = stepping->surface->outline->len;

  return (stepping->base->first + n - 1) % n;
}

static guint
edge_after (const Stepping *stepping)
{
  return (stepping->base->first + stepping->base->n_edges) % stepping->surface->outline->len;
}

/* The height a tread is drawn at: that of the level base it goes on from, or into. */
static double
drawn_y (const Stepping *stepping,
         guint           tread)
{
  guint before = edge_before (stepping), after = edge_after (stepping);

  if (tread == 0 && goes_on (stepping, before, tread))
    return stepping->field->edges[before].raw.from.y;
  if (tread + 1 == stepping->base->treads->len && goes_on (stepping, after, tread))
    return stepping->field->edges[after].raw.from.y;
  return tread_y (stepping, tread);
}

/* The corner where the first tread begins; none where the base before it goes on. */
static gboolean
begin_treads (const Stepping *stepping)
{
  const RodCorner *first = corner_at (stepping->surface, stepping->base->first);
  guint            before = edge_before (stepping);
  RodPoint         at = { first->x, drawn_y (stepping, 0) };
  RodCorner       *corner;

  if (goes_on (stepping, before, 0))
    return TRUE;
  if (!is_level_base (stepping, before))
    {
      if (!meets_side (stepping, before, 0, TRUE, &at))
        return FALSE;
    }
  else if (fabs (first->y - at.y) > ROD_SNAP_MM)
    add_corner (stepping, first, (RodPoint){ first->x, first->y }, ROD_EDGE_SIDE_STOP);
  corner = add_corner (stepping, first, at, ROD_EDGE_BASE);
  rod_record_set_text (corner, G_STRUCT_OFFSET (RodCorner, edge), first->edge);
  return TRUE;
}

static const RodCorner *
ground_corner (const Stepping *stepping,
               double          x)
{
  const RodFallingBase *base = stepping->base;
  guint                 i = 0;

  while (i + 1 < base->n_edges && corner_at (stepping->surface, base->first + i + 1)->x <= x)
    i++;
  return corner_at (stepping->surface, base->first + i);
}

/* The corner that followed the falling line; where its base goes on from the last tread's line it
 * begins at the last step. */
static gboolean
end_treads (const Stepping *stepping)
{
  guint            last = stepping->base->treads->len - 1;
  guint            after = edge_after (stepping);
  const RodCorner *corner = corner_at (stepping->surface, after);
  RodPoint         at = { corner->x, drawn_y (stepping, last) };
  RodCorner       *moved;

  if (!is_level_base (stepping, after))
    {
      if (!meets_side (stepping, after, last, FALSE, &at))
        return FALSE;
    }
  else if (!goes_on (stepping, after, last))
    {
      if (fabs (corner->y - at.y) > ROD_SNAP_MM)
        add_corner (stepping, corner, at, ROD_EDGE_SIDE_STOP);
      at.y = corner->y;
    }
  else if (last > 0)
    {
      g_ptr_array_set_size (stepping->corners, (int) stepping->corners->len - 1);
      at.x = tread_at (stepping, last)->from_mm;
    }
  moved = rod_record_copy (corner);
  moved->x = at.x;
  moved->y = at.y;
  g_ptr_array_add (stepping->corners, moved);
  return TRUE;
}

static gboolean
add_treads (const Stepping *stepping)
{
  if (!begin_treads (stepping))
    return FALSE;
  for (guint t = 1; t < stepping->base->treads->len; t++)
    {
      double           x = tread_at (stepping, t)->from_mm;
      const RodCorner *like = ground_corner (stepping, x);

      add_corner (stepping, like, (RodPoint){ x, drawn_y (stepping, t - 1) }, ROD_EDGE_SIDE_STOP);
      add_corner (stepping, like, (RodPoint){ x, drawn_y (stepping, t) }, ROD_EDGE_BASE);
    }
  return end_treads (stepping);
}

static void
keep_corners (const Stepping *stepping,
              guint           from,
              guint           to)
{
  for (guint i = from; i < to; i++)
    g_ptr_array_add (stepping->corners,
                     rod_record_ref (corner_at (stepping->surface, i)));
}

/* The treads take the place of the falling line, so that other corners keep their order. */
static GPtrArray *
stepped_outline (Stepping *stepping)
{
  guint n = stepping->surface->outline->len;
  guint first = stepping->base->first;
  guint after = first + stepping->base->n_edges;

  stepping->corners = rod_record_list_new ();
  keep_corners (stepping, after < n ? 0 : after - n + 1, first);
  if (!add_treads (stepping))
    {
      g_clear_pointer (&stepping->corners, g_ptr_array_unref);
      return NULL;
    }
  keep_corners (stepping, after + 1, n);
  return stepping->corners;
}

static void
add_sides (RodPath      *path,
           const GArray *sides,
           int           first_tag)
{
  for (guint s = 0; s < sides->len; s++)
    {
      const RodSide *side = &g_array_index (sides, RodSide, s);

      rod_path_add_arc (path, side->from, side->to, side->bulge, first_tag + (int) s);
    }
  rod_path_close (path);
}

/* Whether an arc of the opening has kept both its ends; its chords are then one arc again. */
static gboolean
is_whole_arc (const RodRegion *region,
              guint            first,
              guint            n,
              const RodSide   *side)
{
  guint after = first + n < region->ring_starts[1] ? first + n : region->ring_starts[0];

  return fabs (side->bulge) > 0.0 &&
         rod_point_distance (region->points[first], side->from) < ROD_SNAP_MM &&
         rod_point_distance (region->points[after], side->to) < ROD_SNAP_MM;
}

/* Corners of the first ring of what is left of an opening. */
static GPtrArray *
left_corners (const RodRegion *region,
              const GArray    *sides)
{
  GPtrArray *corners = rod_record_list_new ();

  for (guint p = 0, n; p < region->ring_starts[1]; p += n)
    {
      int            tag = region->tags[p];
      gboolean       own = tag < (int) sides->len;
      const RodSide *side = own ? &g_array_index (sides, RodSide, tag) : NULL;
      RodCorner     *corner = own && side->corner != NULL ? rod_record_copy (side->corner)
                                                          : rod_record_new (&rod_corner_type);

      for (n = 1; own && p + n < region->ring_starts[1] && region->tags[p + n] == tag; n++)
        ;
      corner->x = region->points[p].x;
      corner->y = region->points[p].y;
      corner->bulge = 0.0;
      if (own && is_whole_arc (region, p, n, side))
        corner->bulge = side->bulge;
      else
        n = 1;
      g_ptr_array_add (corners, corner);
    }
  return corners;
}

/* A rectangle or arch whose whole foot has come up stays what it is. */
static gboolean
is_raised (const RodOpening *opening,
           const GPtrArray  *corners)
{
  return (opening->shape == ROD_SHAPE_RECTANGLE || opening->shape == ROD_SHAPE_ARCH) &&
         corners->len == 4;
}

static RodOpening *
clipped_opening (const RodOpening *opening,
                 const GArray     *sides,
                 const RodRegion  *left)
{
  GPtrArray  *corners = left_corners (left, sides);
  RodOpening *clipped = rod_record_copy (opening);
  RodPoint    low, high;

  rod_region_extent (left, &low, &high);
  if (is_raised (opening, corners))
    {
      clipped->height_mm -= low.y - clipped->y;
      clipped->y = low.y;
      g_ptr_array_unref (corners);
      return clipped;
    }
  clipped->shape = ROD_SHAPE_POLYGON;
  clipped->x = clipped->y = clipped->width_mm = clipped->height_mm = clipped->rise_mm = 0.0;
  rod_record_take_list (clipped, G_STRUCT_OFFSET (RodOpening, corners), corners);
  return clipped;
}

static gboolean
reaches_below (const Stepping *stepping,
               const GArray   *sides)
{
  for (guint s = 0; s < sides->len; s++)
    {
      RodSide side = g_array_index (sides, RodSide, s);

      for (guint t = 0; t < stepping->base->treads->len; t++)
        if (MAX (side.from.x, side.to.x) > tread_at (stepping, t)->from_mm &&
            MIN (side.from.x, side.to.x) < tread_at (stepping, t)->to_mm &&
            MIN (side.from.y, side.to.y) < drawn_y (stepping, t) - ROD_SNAP_MM)
          return TRUE;
    }
  return FALSE;
}

/* Openings as they are above the steps; one that lay below them altogether is no longer in the
 * wall. */
static GPtrArray *
openings_above (const Stepping *stepping)
{
  g_autoptr (GArray) outline = rod_corners_sides (stepping->corners);
  GPtrArray *openings = rod_record_list_new ();

  for (guint o = 0; o < stepping->surface->openings->len; o++)
    {
      RodOpening *opening = g_ptr_array_index (stepping->surface->openings, o);
      g_autoptr (GArray) sides = rod_opening_sides (opening);
      g_autoptr (RodPath) path = NULL;
      g_autoptr (RodRegion) left = NULL;

      if (!reaches_below (stepping, sides))
        {
          g_ptr_array_add (openings, rod_record_ref (opening));
          continue;
        }
      path = rod_path_new ();
      add_sides (path, sides, 0);
      add_sides (path, outline, (int) sides->len);
      left = rod_region_normalise (path, 2);
      if (left->n_rings > 0)
        g_ptr_array_add (openings, clipped_opening (opening, sides, left));
    }
  return openings;
}

/* Returns the surface with one of its falling bases in steps, or NULL where that cannot be done. */
static RodSurface *
step_base (const RodPlan        *plan,
           const RodFallingBase *base)
{
  const RodFace *face = rod_plan_face (plan, base->face);
  RodSurface    *stepped;
  GPtrArray     *openings;
  Stepping       stepping = {
          .plan = plan,
          .field = rod_plan_field (plan, face->first_field),
          .surface = face->surface,
          .base = base,
  };

  stepping.below_mm = below_line_mm (&stepping);
  if (stepped_outline (&stepping) == NULL)
    return NULL;
  stepped = rod_record_copy (face->surface);
  openings = openings_above (&stepping);
  rod_record_take_list (stepped, G_STRUCT_OFFSET (RodSurface, openings), openings);
  rod_record_take_list (stepped, G_STRUCT_OFFSET (RodSurface, outline), stepping.corners);
  return stepped;
}

/* Steps the first falling base that can be; a wall with several is planned again in between, for
 * its edges are then numbered anew. */
static RodHouse *
step_one (const RodPlan *plan)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      g_autoptr (GArray) bases = rod_falling_bases (plan, f);

      for (guint b = 0; b < bases->len; b++)
        {
          RodSurface *surface = step_base (plan, &g_array_index (bases, RodFallingBase, b));

          if (surface != NULL)
            return rod_house_with_surface (plan->house, surface);
        }
    }
  return NULL;
}

RodHouse *
rod_house_with_steps (const RodPlan *plan)
{
  g_autoptr (RodPlan) next = NULL;
  RodHouse *house;

  g_return_val_if_fail (plan != NULL, NULL);

  house = rod_record_ref (plan->house);
  for (RodHouse *stepped; (stepped = step_one (next != NULL ? next : plan)) != NULL;)
    {
      RodPlan *planned = rod_plan_renew (next != NULL ? next : plan, stepped);

      rod_record_unref (house);
      house = stepped;
      rod_plan_unref (next);
      next = planned;
    }
  return house;
}
