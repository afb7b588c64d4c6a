/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Corrects a house by what a spread found. Each wall has shifts: how far its joined edges move,
 * from left to right. Only surfaces that have some are copied, and of those only what lies where
 * something moves. */

#include "config.h"

#include <math.h>

#include "engine/fold/rod-spread.h"
#include "engine/plan/rod-faces.h"
#include "engine/rod-limits.h"

/* What a tape cannot show, and a file need not. */
#define STEPS_OF_MM 1000.0

/* A place along x and how far it moves. */
typedef struct
{
  double at_mm;
  double by_mm;
} Shift;

static double
to_micrometre (double length_mm)
{
  return round (length_mm * STEPS_OF_MM) / STEPS_OF_MM;
}

/* The shifts of a wall; empty where it keeps its lengths. @next is the first line not yet used:
 * lines come wall by wall, as faces do. */
static GArray *
list_shifts (const RodSpread *spread,
             guint            face,
             guint           *next)
{
  GArray  *shifts = g_array_new (FALSE, FALSE, sizeof (Shift));
  double   by_mm = 0.0;
  gboolean moves = FALSE;

  for (; *next < spread->lines->len; (*next)++)
    {
      const RodSurveyLine *line = &g_array_index (spread->lines, RodSurveyLine, *next);
      Shift                first = { line->from_mm, 0.0 };
      Shift                end = { line->to_mm, 0.0 };

      if (line->face != face)
        break;
      if (shifts->len == 0)
        g_array_append_val (shifts, first);
      by_mm += line->correction_mm;
      end.by_mm = to_micrometre (by_mm);
      moves = moves || fabs (end.by_mm) > 0.0;
      g_array_append_val (shifts, end);
    }
  if (!moves)
    g_array_set_size (shifts, 0);
  return shifts;
}

/* How far a corner of the outline moves. */
static double
shift_between (const GArray *shifts,
               double        x)
{
  const Shift *all = (const Shift *) (const void *) shifts->data;
  const Shift *last = &all[shifts->len - 1];

  if (x <= all[0].at_mm)
    return 0.0;
  for (guint i = 1; i < shifts->len; i++)
    if (x < all[i].at_mm)
      return to_micrometre (all[i - 1].by_mm +
                            (all[i].by_mm - all[i - 1].by_mm) * (x - all[i - 1].at_mm) /
                              (all[i].at_mm - all[i - 1].at_mm));
  return last->by_mm;
}

/* How far something moves that was measured from the joined edge to its left. */
static double
shift_from_left (const GArray *shifts,
                 double        x)
{
  double by_mm = 0.0;

  for (guint i = 0; i < shifts->len; i++)
    if (g_array_index (shifts, Shift, i).at_mm <= x + ROD_SNAP_MM)
      by_mm = g_array_index (shifts, Shift, i).by_mm;
  return by_mm;
}

typedef double (*ShiftCorner) (const RodSurface *surface,
                               const GArray     *shifts,
                               double            x);

static const RodCorner *
corner_at (const GPtrArray *corners,
           guint            index)
{
  return g_ptr_array_index (corners, index % corners->len);
}

/* How far each corner of a wall moves. */
static double *
move_wall_corners (const RodSurface *wall,
                   const GArray     *shifts)
{
  double *moves = g_new (double, wall->outline->len);

  for (guint c = 0; c < wall->outline->len; c++)
    moves[c] = shift_between (shifts, corner_at (wall->outline, c)->x);
  return moves;
}

/* How far each corner of a soffit moves that hangs on its edge @hinge: as the end of the hinge from
 * which fewer edges lead to it, so that mitres keep their angle. */
static double *
move_soffit_corners (const RodSurface *soffit,
                     guint             hinge,
                     const GArray     *shifts)
{
  guint   n = soffit->outline->len;
  double *moves = g_new (double, n);
  double  from_mm = shift_between (shifts, corner_at (soffit->outline, hinge)->x);
  double  to_mm = shift_between (shifts, corner_at (soffit->outline, hinge + 1)->x);

  for (guint k = 0; k < n; k++)
    moves[(hinge + 1 + k) % n] = 2 * k < n - 1 ? to_mm : from_mm;
  return moves;
}

static RodCorner *
move_corner (const RodCorner *corner,
             double           by_mm)
{
  RodCorner *moved;

  if (!(fabs (by_mm) > 0.0))
    return rod_record_ref (corner);
  moved = rod_record_copy (corner);
  moved->x += by_mm;
  return moved;
}

static GPtrArray *
move_outline (const RodSurface *surface,
              const double     *moves)
{
  GPtrArray *outline = rod_record_list_new ();

  for (guint c = 0; c < surface->outline->len; c++)
    g_ptr_array_add (outline, move_corner (corner_at (surface->outline, c), moves[c]));
  return outline;
}

/* What reaches a corner of the outline moves with it. */
static double
move_of_zone_corner (const RodSurface *surface,
                     const double     *moves,
                     const GArray     *shifts,
                     double            x)
{
  for (guint c = 0; c < surface->outline->len; c++)
    if (fabs (corner_at (surface->outline, c)->x - x) < ROD_SNAP_MM)
      return moves[c];
  return shift_from_left (shifts, x);
}

static double
opening_left_mm (const RodOpening *opening)
{
  double left = INFINITY;

  if (opening->shape == ROD_SHAPE_CIRCLE)
    return opening->x - opening->width_mm / 2.0;
  if (opening->shape != ROD_SHAPE_POLYGON)
    return opening->x;
  for (guint c = 0; c < opening->corners->len; c++)
    left = MIN (left, ((const RodCorner *) g_ptr_array_index (opening->corners, c))->x);
  return left;
}

static RodOpening *
move_opening (const RodOpening *opening,
              double            by_mm)
{
  RodOpening *moved = rod_record_copy (opening);
  GPtrArray  *corners = rod_record_list_new ();

  moved->x += by_mm;
  for (guint c = 0; c < opening->corners->len; c++)
    {
      RodCorner *corner = rod_record_copy (g_ptr_array_index (opening->corners, c));

      corner->x += by_mm;
      g_ptr_array_add (corners, corner);
    }
  rod_record_take_list (moved, G_STRUCT_OFFSET (RodOpening, corners), corners);
  return moved;
}

static GPtrArray *
shift_openings (const RodSurface *surface,
                const GArray     *shifts)
{
  GPtrArray *openings = rod_record_list_new ();

  for (guint o = 0; o < surface->openings->len; o++)
    {
      const RodOpening *opening = g_ptr_array_index (surface->openings, o);
      double            by_mm = shift_from_left (shifts, opening_left_mm (opening));

      g_ptr_array_add (openings,
                       fabs (by_mm) > 0.0 ? move_opening (opening, by_mm)
                                          : rod_record_ref (opening));
    }
  return openings;
}

static GPtrArray *
shift_zones (const RodSurface *surface,
             const double     *moves,
             const GArray     *shifts)
{
  GPtrArray *zones = rod_record_list_new ();

  for (guint z = 0; z < surface->zones->len; z++)
    {
      RodZone   *zone = rod_record_copy (g_ptr_array_index (surface->zones, z));
      GPtrArray *corners = rod_record_list_new ();

      for (guint c = 0; c < zone->corners->len; c++)
        {
          const RodCorner *corner = corner_at (zone->corners, c);

          g_ptr_array_add (
            corners,
            move_corner (corner, move_of_zone_corner (surface, moves, shifts, corner->x)));
        }
      rod_record_take_list (zone, G_STRUCT_OFFSET (RodZone, corners), corners);
      g_ptr_array_add (zones, zone);
    }
  return zones;
}

/* Takes @moves, one for each corner of the outline. */
static RodSurface *
shift_surface (const RodSurface *surface,
               const GArray     *shifts,
               double           *moves)
{
  RodSurface        *moved = rod_record_copy (surface);
  g_autofree double *owned = moves;

  rod_record_take_list (
    moved, G_STRUCT_OFFSET (RodSurface, outline), move_outline (surface, owned));
  if (surface->openings->len > 0)
    rod_record_take_list (
      moved, G_STRUCT_OFFSET (RodSurface, openings), shift_openings (surface, shifts));
  if (surface->zones->len > 0)
    rod_record_take_list (
      moved, G_STRUCT_OFFSET (RodSurface, zones), shift_zones (surface, owned, shifts));
  return moved;
}

/* The wall's shifts, seen from a soffit that hangs on it: by x of the soffit. */
static void
carry_shifts (const RodPlan *plan,
              guint          wall,
              const RodEdge *edge,
              GArray        *shifts)
{
  const RodFace *soffit = rod_plan_face (plan, (guint) edge->partner_face);
  const RodEdge *facing =
    &rod_plan_field (plan, soffit->first_field)->edges[edge->partner_edge];
  double along = edge->raw.to.x > edge->raw.from.x ? 1.0 : -1.0;
  double wall_x = edge->raw.from.x + along * rod_edge_match_mm (plan, wall, edge);
  double back_mm = facing->raw.to.x - wall_x;

  for (guint i = 0; i < shifts->len; i++)
    g_array_index (shifts, Shift, i).at_mm += back_mm;
}

static gboolean
hangs_level (const RodPlan *plan,
             const RodEdge *edge)
{
  const RodFace *other;
  const RodEdge *facing;

  if (edge->join == NULL)
    return FALSE;
  other = rod_plan_face (plan, (guint) edge->partner_face);
  facing = &rod_plan_field (plan, other->first_field)->edges[edge->partner_edge];
  /* Seen from below a soffit's x runs as its wall's where their edges run against each other. */
  return other->surface->kind == ROD_SURFACE_SOFFIT &&
         fabs (edge->raw.to.y - edge->raw.from.y) < ROD_SNAP_MM &&
         fabs (facing->raw.to.y - facing->raw.from.y) < ROD_SNAP_MM &&
         (edge->raw.to.x > edge->raw.from.x) != (facing->raw.to.x > facing->raw.from.x);
}

static void
stretch_soffits (const RodPlan *plan,
                 guint          wall,
                 GArray        *shifts,
                 RodSurface   **moved)
{
  const RodFace  *face = rod_plan_face (plan, wall);
  const RodField *field = rod_plan_field (plan, face->first_field);

  for (guint e = 0; e < face->surface->outline->len; e++)
    {
      const RodEdge    *edge = &field->edges[e];
      const RodSurface *soffit;
      g_autoptr (GArray) own = NULL;

      /* The first wall decides where a soffit hangs on several. */
      if (!hangs_level (plan, edge) || moved[edge->partner_face] != NULL)
        continue;
      own = g_array_copy (shifts);
      carry_shifts (plan, wall, edge, own);
      soffit = rod_plan_face (plan, (guint) edge->partner_face)->surface;
      moved[edge->partner_face] =
        shift_surface (soffit, own, move_soffit_corners (soffit, (guint) edge->partner_edge, own));
    }
}

/* By face: the corrected surface, or NULL. */
static RodSurface **
shift_surfaces (const RodSpread *spread)
{
  const RodPlan *plan = spread->plan;
  RodSurface   **moved = g_new0 (RodSurface *, plan->faces->len + 1);
  guint          next = 0;

  for (guint f = 0; f < plan->faces->len; f++)
    {
      g_autoptr (GArray) shifts = list_shifts (spread, f, &next);

      if (shifts->len == 0)
        continue;
      moved[f] = shift_surface (rod_plan_face (plan, f)->surface,
                                shifts,
                                move_wall_corners (rod_plan_face (plan, f)->surface, shifts));
      stretch_soffits (plan, f, shifts, moved);
    }
  return moved;
}

static GHashTable *
list_turns (const RodSpread *spread)
{
  GHashTable *turns = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < spread->turns->len; i++)
    {
      RodSurveyTurn *turn = &g_array_index (spread->turns, RodSurveyTurn, i);

      if (fabs (turn->correction_deg) > 0.0)
        g_hash_table_insert (turns, GSIZE_TO_POINTER ((gsize) turn->join), turn);
    }
  return turns;
}

/* Returns NULL where all folds stay. */
static GPtrArray *
turn_joins (const RodSpread *spread)
{
  const GPtrArray *joins = spread->plan->house->joins;
  g_autoptr (GHashTable) turns = list_turns (spread);
  GPtrArray *turned;

  if (g_hash_table_size (turns) == 0)
    return NULL;
  turned = rod_record_list_new ();
  for (guint j = 0; j < joins->len; j++)
    {
      RodJoin             *join = g_ptr_array_index (joins, j);
      const RodSurveyTurn *turn = g_hash_table_lookup (turns, join);
      RodJoin             *copy;

      if (turn == NULL)
        {
          g_ptr_array_add (turned, rod_record_ref (join));
          continue;
        }
      copy = rod_record_copy (join);
      copy->fold_deg += turn->correction_deg;
      g_ptr_array_add (turned, copy);
    }
  return turned;
}

RodHouse *
rod_spread_apply (const RodSpread *spread)
{
  const RodPlan          *plan = spread->plan;
  g_autofree RodSurface **moved = shift_surfaces (spread);
  GPtrArray              *joins = turn_joins (spread);
  GPtrArray              *surfaces = rod_record_list_new ();
  gboolean                changed = joins != NULL;
  RodHouse               *house;

  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace *face = rod_plan_face (plan, f);

      changed = changed || moved[f] != NULL;
      if (moved[f] != NULL)
        g_ptr_array_add (surfaces, moved[f]);
      else if (face->parent < 0)
        g_ptr_array_add (surfaces, rod_record_ref (face->surface));
    }
  if (!changed)
    {
      g_ptr_array_unref (surfaces);
      return rod_record_ref (plan->house);
    }
  house = rod_record_copy (plan->house);
  rod_record_take_list (house, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  if (joins != NULL)
    rod_record_take_list (house, G_STRUCT_OFFSET (RodHouse, joins), joins);
  return house;
}
