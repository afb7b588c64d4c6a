/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Turns the house into faces, fields and edges. Surfaces keep their order, each followed by the
 * reveals of its openings; edges are numbered outline first, then openings, then zone borders, the
 * same way in every field of a face, so that an edge index means the same wherever it is met. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-field.h"
#include "engine/plan/rod-reveals.h"
#include "engine/rod-limits.h"

/* Which derived face lines which side of which opening, while faces are being built. */
typedef struct
{
  guint   face;
  guint   reveal;
  guint   opening;
  guint   side;
  RodSide line;
} Lining;

void
rod_edge_line (const RodEdge *edge,
               RodPoint      *from,
               RodPoint      *to)
{
  *from = edge->turned ? edge->raw.to : edge->raw.from;
  *to = edge->turned ? edge->raw.from : edge->raw.to;
}

void
rod_edge_shifted (const RodEdge *edge,
                  double         inwards_mm,
                  RodPoint      *from,
                  RodPoint      *to)
{
  double length, nx, ny;

  rod_edge_line (edge, from, to);
  length = rod_point_distance (*from, *to);
  nx = -(to->y - from->y) / length * inwards_mm;
  ny = (to->x - from->x) / length * inwards_mm;
  from->x += nx;
  from->y += ny;
  to->x += nx;
  to->y += ny;
}

double
rod_zone_side_shared_mm (const RodEdge *side,
                         const RodEdge *other)
{
  RodPoint from = side->raw.from, to = side->raw.to, start, end;
  double   length, ex, ey, low, high;

  if (fabs (side->raw.bulge) > 0.0 || fabs (other->raw.bulge) > 0.0)
    return 0.0;
  rod_edge_line (other, &start, &end);
  length = rod_point_distance (from, to);
  ex = (to.x - from.x) / length;
  ey = (to.y - from.y) / length;
  if (fabs (ex * (start.y - from.y) - ey * (start.x - from.x)) > ROD_SNAP_MM ||
      fabs (ex * (end.y - from.y) - ey * (end.x - from.x)) > ROD_SNAP_MM)
    return 0.0;
  low = ex * (start.x - from.x) + ey * (start.y - from.y);
  high = ex * (end.x - from.x) + ey * (end.y - from.y);
  return low > high ? 0.0 : MAX (0.0, MIN (high, length) - MAX (low, 0.0));
}

double
rod_edge_match_mm (const RodPlan *plan,
                   guint          face,
                   const RodEdge *edge)
{
  const RodSurface *own = rod_plan_face (plan, face)->surface;
  const RodFace    *partner = rod_plan_face (plan, (guint) edge->partner_face);
  const RodField   *facing_field = rod_plan_field (plan, partner->first_field);
  const RodEdge    *facing = &facing_field->edges[edge->partner_edge];
  RodPoint          a_from, a_to, b_from, b_to;
  gboolean          plumb;

  rod_edge_line (edge, &a_from, &a_to);
  rod_edge_line (facing, &b_from, &b_to);
  plumb = fabs (a_to.x - a_from.x) < ROD_SNAP_MM && fabs (b_to.x - b_from.x) < ROD_SNAP_MM;
  if (plumb && own->kind != ROD_SURFACE_SOFFIT && partner->surface->kind != ROD_SURFACE_SOFFIT)
    return (partner->surface->level_mm + b_to.y - own->level_mm - a_from.y) *
           (a_to.y > a_from.y ? 1.0 : -1.0);
  return rod_point_distance (a_from, a_to) + edge->offset_mm - rod_point_distance (b_from, b_to);
}

static char *
lining_label (const RodFace    *parent,
              const RodOpening *opening,
              const RodSide    *side)
{
  const char *name = *opening->name != '\0' ? opening->name : opening->id;
  const char *part;

  switch ((int) rod_reveal_arris (side))
    {
    case ROD_REVEAL_LOWER:
      part = _ ("sill");
      break;
    case ROD_REVEAL_UPPER:
      part = _ ("head");
      break;
    case ROD_REVEAL_LEFT:
      part = _ ("left jamb");
      break;
    default:
      part = _ ("right jamb");
      break;
    }
  /* Translators: wall, opening, part of its reveal, as in "Front, kitchen window, left jamb". */
  return g_strdup_printf (_ ("%s, %s, %s"), parent->label, name, part);
}

static guint
add_face (RodPlan          *plan,
          const RodSurface *surface,
          const char       *mark,
          const char       *label)
{
  RodFace face = {
    .surface = surface,
    .system = rod_house_find_system (plan->house, surface->system),
    .mark = g_strdup (mark),
    .label = g_strdup (label),
    .parent = -1,
    .opening = -1,
    .net = rod_affine_identity (),
  };

  g_array_append_val (plan->faces, face);
  return plan->faces->len - 1;
}

/* A mark no other face has; polygonal openings have several jambs on one side. */
static char *
free_mark (GHashTable *taken,
           const char *wanted)
{
  g_autofree char *mark = g_strdup (wanted);

  for (guint n = 2; !g_hash_table_add (taken, g_strdup (mark)); n++)
    {
      g_free (mark);
      mark = g_strdup_printf ("%s%u", wanted, n);
    }
  return g_steal_pointer (&mark);
}

/* The derived surface. Where it says the same as before it is the same, so that what hangs on it
 * can be taken over. */
static RodSurface *
lining_surface (RodPlan      *plan,
                RodEarlier   *earlier,
                const Lining *lining)
{
  const RodSurface *wall = rod_plan_face (plan, lining->face)->surface;
  const RodFace    *old =
    rod_earlier_note_reveal (earlier, lining->face, lining->opening, lining->side);
  g_autoptr (RodSurface) surface = NULL;

  if (old != NULL && rod_plan_face (earlier->before, (guint) old->parent)->surface == wall)
    return rod_record_ref (old->derived);
  plan->work.n_reveals++;
  surface =
    rod_reveal_surface (wall, g_ptr_array_index (wall->openings, lining->opening), &lining->line);
  return old != NULL && rod_record_equal (old->derived, surface) ? rod_record_ref (old->derived)
                                                                 : g_steal_pointer (&surface);
}

static guint
add_lining (RodPlan      *plan,
            RodEarlier   *earlier,
            GHashTable   *taken,
            const Lining *lining)
{
  static const char letters[] = { 'S', 'R', 'H', 'L' };
  const RodFace    *parent = rod_plan_face (plan, lining->face);
  const RodOpening *opening = g_ptr_array_index (parent->surface->openings, lining->opening);
  RodSurface       *reveal = lining_surface (plan, earlier, lining);
  g_autofree char  *label = lining_label (parent, opening, &lining->line);
  g_autofree char  *wanted = NULL;
  g_autofree char  *mark = NULL;
  RodFace          *face;
  guint             index;

  wanted = g_strdup_printf ("%s%u%c",
                            parent->mark,
                            lining->opening + 1,
                            letters[rod_reveal_arris (&lining->line)]);
  mark = free_mark (taken, wanted);
  index = add_face (plan, reveal, mark, label);
  face = &g_array_index (plan->faces, RodFace, index);
  face->derived = reveal;
  face->parent = (int) lining->face;
  face->opening = (int) lining->opening;
  face->side = lining->side;
  return index;
}

static void
add_linings (RodPlan    *plan,
             RodEarlier *earlier,
             guint       parent,
             GHashTable *taken,
             GArray     *linings)
{
  const RodSurface *wall = rod_plan_face (plan, parent)->surface;

  for (guint o = 0; o < wall->openings->len; o++)
    {
      const RodOpening *opening = g_ptr_array_index (wall->openings, o);
      g_autoptr (GArray) sides = rod_opening_sides (opening);

      for (guint s = 0; s < sides->len; s++)
        {
          Lining lining = { parent, 0, o, s, g_array_index (sides, RodSide, s) };

          if (!rod_reveal_lines_side (opening, &lining.line))
            continue;
          lining.reveal = add_lining (plan, earlier, taken, &lining);
          g_array_append_val (linings, lining);
        }
    }
}

/* The nth mark of the row A … Z, AA … ZZ, AAA … */
static char *
letters_mark (guint n)
{
  GString *mark = g_string_new (NULL);

  for (n++; n > 0; n = (n - 1) / 26)
    g_string_prepend_c (mark, (char) ('A' + (n - 1) % 26));
  return g_string_free (mark, FALSE);
}

/* Marks given by the user come first; the other surfaces take the next free letters. */
static GPtrArray *
surface_marks (const RodHouse *house,
               GHashTable     *taken)
{
  GPtrArray *marks = g_ptr_array_new_with_free_func (g_free);
  guint      next = 0;

  for (guint i = 0; i < house->surfaces->len; i++)
    {
      const RodSurface *surface = g_ptr_array_index (house->surfaces, i);

      g_ptr_array_add (marks, *surface->mark == '\0' ? NULL : free_mark (taken, surface->mark));
    }
  for (guint i = 0; i < marks->len; i++)
    while (g_ptr_array_index (marks, i) == NULL)
      {
        g_autofree char *mark = letters_mark (next++);

        if (g_hash_table_add (taken, g_strdup (mark)))
          g_ptr_array_index (marks, i) = g_steal_pointer (&mark);
      }
  return marks;
}

static void
add_faces (RodPlan    *plan,
           RodEarlier *earlier,
           GHashTable *by_id,
           GArray     *linings)
{
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GPtrArray) marks = surface_marks (plan->house, taken);

  for (guint i = 0; i < plan->house->surfaces->len; i++)
    {
      const RodSurface *surface = g_ptr_array_index (plan->house->surfaces, i);
      const char       *name = *surface->name != '\0' ? surface->name : surface->id;
      guint             face = add_face (plan, surface, g_ptr_array_index (marks, i), name);

      g_hash_table_insert (by_id, surface->id, GUINT_TO_POINTER (face + 1));
      rod_earlier_note_surface (earlier, face);
      add_linings (plan, earlier, face, taken, linings);
    }
}

static void
add_edges (GArray       *edges,
           const GArray *sides,
           int           opening,
           int           zone,
           gboolean      turned)
{
  for (guint s = 0; s < sides->len; s++)
    {
      RodEdge *edge;

      /* Cleared to the last byte, for edges are compared byte for byte. */
      g_array_set_size (edges, edges->len + 1);
      edge = &g_array_index (edges, RodEdge, edges->len - 1);
      edge->opening = opening;
      edge->zone = zone;
      edge->side = s;
      edge->raw = g_array_index (sides, RodSide, s);
      edge->turned = turned;
      edge->partner_face = -1;
      edge->partner_edge = -1;
      if (edge->raw.corner != NULL)
        edge->condition = edge->raw.corner->condition;
    }
}

static RodEdge *
list_edges (const RodSurface *surface,
            int               zone,
            guint            *n_edges)
{
  guint room = surface->outline->len + 4 * surface->openings->len;
  g_autoptr (GArray) edges = g_array_sized_new (FALSE, TRUE, sizeof (RodEdge), room);
  g_autoptr (GArray) outline = rod_corners_sides (surface->outline);

  add_edges (edges, outline, -1, -1, FALSE);
  for (guint o = 0; o < surface->openings->len; o++)
    {
      g_autoptr (GArray) sides = rod_opening_sides (g_ptr_array_index (surface->openings, o));

      add_edges (edges, sides, (int) o, -1, TRUE);
    }
  /* A zone is bounded by itself and by the zones laid over it; the rest of a surface by all. */
  for (guint z = zone < 0 ? 0 : (guint) zone; z < surface->zones->len; z++)
    {
      const RodZone *border = g_ptr_array_index (surface->zones, z);
      g_autoptr (GArray) sides = rod_corners_sides (border->corners);

      add_edges (edges, sides, -1, (int) z, (int) z != zone);
    }
  *n_edges = edges->len;
  return (RodEdge *) (void *) g_array_free (g_steal_pointer (&edges), FALSE);
}

static double
frame_angle (RodLaidFrom laid_from,
             double      direction_deg)
{
  /* The next course lies to the left of the boards' axis: upright boards that begin at the left
   * need an axis that points down. */
  if (fabs (direction_deg - 90.0) < ROD_EPSILON_DEG && laid_from != ROD_LAID_FROM_RIGHT)
    return -90.0;
  return direction_deg;
}

static void
add_field (RodPlan *plan,
           guint    face_index,
           int      zone_index)
{
  const RodFace    *face = rod_plan_face (plan, face_index);
  const RodSurface *surface = face->surface;
  const RodZone    *zone = zone_index < 0 ? NULL : g_ptr_array_index (surface->zones, zone_index);
  gboolean          own_board = zone != NULL && *zone->board != '\0';
  const GPtrArray  *mix =
    zone != NULL && (zone->mix->len > 0 || *zone->colour != '\0') ? zone->mix : surface->mix;
  const char *colour = zone != NULL && *zone->colour != '\0' ? zone->colour : surface->colour;
  RodField    field;

  /* Cleared to the last byte, for fields are compared byte for byte. */
  memset (&field, 0, sizeof field);
  field.face = face_index;
  field.zone = zone;
  field.board = rod_system_find_board (face->system, own_board ? zone->board : surface->board);
  field.mix = mix->len > 0 ? mix : NULL;
  field.seed = zone != NULL && zone->mix->len > 0 ? zone->seed : surface->seed;
  field.no_repeat = field.mix != NULL && (field.mix == surface->mix ? surface->no_repeat
                                                                    : zone->no_repeat);
  field.direction_deg =
    zone != NULL && !isnan (zone->direction_deg) ? zone->direction_deg : surface->direction_deg;

  /* A colour of the surface's board may not exist on the zone's board; its first one stands in. */
  field.colour = rod_board_find_colour (field.board, colour);
  if (field.colour == NULL)
    field.colour = rod_board_find_colour (field.board, "");
  field.laid_from = zone != NULL && zone->laid_from != ROD_LAID_FROM_INHERITED ? zone->laid_from
                                                                               : surface->laid_from;
  field.to_board = rod_affine_board_frame (frame_angle (field.laid_from, field.direction_deg));
  field.to_surface = rod_affine_invert (field.to_board);
  field.joint_rules = rod_joint_rules_of (face, &field);
  if (!rod_field_has_butt_joints (&field))
    field.joint = rod_system_find_trim (face->system, face->system->joint_trim);
  field.edges = list_edges (surface, zone_index, &field.n_edges);
  g_array_append_val (plan->fields, field);
}

static void
add_fields (RodPlan *plan)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      RodFace *face = &g_array_index (plan->faces, RodFace, f);
      guint    n_zones = face->surface->zones->len;

      face->first_field = plan->fields->len;
      face->n_fields = n_zones + 1;
      for (int z = -1; z < (int) n_zones; z++)
        add_field (plan, f, z);
    }
}

/* The edge of a face, looked up in its first field; all fields number outline and openings alike.
 */
static int
find_opening_edge (const RodField *field,
                   guint           opening,
                   guint           side)
{
  for (guint e = 0; e < field->n_edges; e++)
    if (field->edges[e].opening == (int) opening && field->edges[e].side == side)
      return (int) e;
  g_return_val_if_reached (-1);
}

static void
tie_one_way (RodPlan       *plan,
             guint          face_index,
             int            edge,
             guint          partner_face,
             int            partner_edge,
             const RodEdge *join)
{
  const RodFace *face = rod_plan_face (plan, face_index);

  for (guint i = 0; i < face->n_fields; i++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, face->first_field + i);
      RodEdge  *own = &field->edges[edge];

      own->partner_face = (int) partner_face;
      own->partner_edge = partner_edge;
      own->join = join->join;
      own->fold_deg = join->fold_deg;
      own->carries_joints = join->carries_joints;
      own->offset_mm = join->offset_mm;
    }
}

/* The edges run against each other. Seen from the other edge, the offset also takes in what the two
 * lengths differ. @join lends its join members only. */
static void
tie (RodPlan       *plan,
     guint          face_a,
     int            edge_a,
     guint          face_b,
     int            edge_b,
     const RodEdge *join)
{
  const RodEdge *a =
    &rod_plan_field (plan, rod_plan_face (plan, face_a)->first_field)->edges[edge_a];
  const RodEdge *b =
    &rod_plan_field (plan, rod_plan_face (plan, face_b)->first_field)->edges[edge_b];
  RodEdge reversed = *join;

  reversed.offset_mm += rod_point_distance (a->raw.from, a->raw.to) -
                        rod_point_distance (b->raw.from, b->raw.to);
  tie_one_way (plan, face_a, edge_a, face_b, edge_b, join);
  tie_one_way (plan, face_b, edge_b, face_a, edge_a, &reversed);
}

static void
tie_joins (RodPlan    *plan,
           GHashTable *by_id)
{
  for (guint j = 0; j < plan->house->joins->len; j++)
    {
      const RodJoin *join = g_ptr_array_index (plan->house->joins, j);
      guint          a = GPOINTER_TO_UINT (g_hash_table_lookup (by_id, join->a->surface));
      guint          b = GPOINTER_TO_UINT (g_hash_table_lookup (by_id, join->b->surface));
      RodEdge        as_edge = {
               .join = join,
               .fold_deg = join->fold_deg,
               .carries_joints = join->carries_joints,
               .offset_mm = join->offset_mm,
      };

      g_return_if_fail (a > 0 && b > 0);
      tie (plan,
           a - 1,
           rod_surface_find_edge (rod_plan_face (plan, a - 1)->surface, join->a->edge),
           b - 1,
           rod_surface_find_edge (rod_plan_face (plan, b - 1)->surface, join->b->edge),
           &as_edge);
    }
}

/* Which edge of a lining lies where its side of the opening ends (or starts). */
static RodRevealSide
lining_end (const Lining *lining,
            gboolean      at_end)
{
  switch ((int) rod_reveal_arris (&lining->line))
    {
    case ROD_REVEAL_LOWER:
      return at_end ? ROD_REVEAL_RIGHT : ROD_REVEAL_LEFT;
    case ROD_REVEAL_RIGHT:
      return at_end ? ROD_REVEAL_UPPER : ROD_REVEAL_LOWER;
    case ROD_REVEAL_UPPER:
      return at_end ? ROD_REVEAL_LEFT : ROD_REVEAL_RIGHT;
    default:
      return at_end ? ROD_REVEAL_LOWER : ROD_REVEAL_UPPER;
    }
}

static double
turn_deg (const RodSide *first,
          const RodSide *second)
{
  double a = atan2 (first->to.y - first->from.y, first->to.x - first->from.x);
  double b = atan2 (second->to.y - second->from.y, second->to.x - second->from.x);
  double turn = (b - a) * 180.0 / G_PI;

  return turn <= -180.0 ? turn + 360.0 : turn > 180.0 ? turn - 360.0
                                                      : turn;
}

/* The linings of one opening stand next to each other; where one's side ends and another's begins,
 * they meet in a corner. */
static void
tie_corners (RodPlan      *plan,
             const Lining *linings,
             guint         n)
{
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < n; k++)
      {
        RodEdge corner = { .carries_joints = TRUE };

        if (k == i || rod_point_distance (linings[i].line.to, linings[k].line.from) > ROD_SNAP_MM)
          continue;
        corner.fold_deg = -turn_deg (&linings[i].line, &linings[k].line);
        tie (plan,
             linings[i].reveal,
             (int) lining_end (&linings[i], TRUE),
             linings[k].reveal,
             (int) lining_end (&linings[k], FALSE),
             &corner);
      }
}

static void
tie_linings (RodPlan      *plan,
             const GArray *linings)
{
  const Lining *all = (const Lining *) (const void *) linings->data;

  for (guint i = 0, n; i < linings->len; i += n)
    {
      const RodFace  *wall = rod_plan_face (plan, all[i].face);
      const RodField *field = rod_plan_field (plan, wall->first_field);

      for (n = 0; i + n < linings->len && all[i + n].face == all[i].face &&
                  all[i + n].opening == all[i].opening;
           n++)
        {
          RodEdge arris = { .fold_deg = 90.0, .carries_joints = TRUE };

          tie (plan,
               all[i].face,
               find_opening_edge (field, all[i].opening, all[i + n].side),
               all[i + n].reveal,
               (int) rod_reveal_arris (&all[i + n].line),
               &arris);
        }
      tie_corners (plan, all + i, n);
    }
}

static RodEdgeCondition
joined_condition (const RodEdge *edge,
                  RodSurfaceKind own,
                  RodSurfaceKind other)
{
  if ((own == ROD_SURFACE_WALL && other == ROD_SURFACE_SOFFIT) ||
      (own == ROD_SURFACE_SOFFIT && other == ROD_SURFACE_WALL))
    return ROD_EDGE_CEILING_LINE;
  if (edge->fold_deg > ROD_EPSILON_DEG)
    return ROD_EDGE_OUTSIDE_CORNER;
  if (edge->fold_deg < -ROD_EPSILON_DEG)
    return ROD_EDGE_INSIDE_CORNER;
  return own == ROD_SURFACE_SOFFIT ? ROD_EDGE_MITRE : ROD_EDGE_ZONE;
}

static RodEdgeCondition
free_condition (const RodEdge *edge,
                RodSurfaceKind kind)
{
  double dx = edge->raw.to.x - edge->raw.from.x;
  double dy = edge->raw.to.y - edge->raw.from.y;
  double slope_deg = atan2 (fabs (dy), fabs (dx)) * 180.0 / G_PI;

  if (edge->zone >= 0)
    return ROD_EDGE_ZONE;
  if (edge->opening >= 0)
    return rod_side_role (&edge->raw);
  if (slope_deg > 90.0 - ROD_EPSILON_DEG)
    return ROD_EDGE_SIDE_STOP;
  if (kind == ROD_SURFACE_SOFFIT)
    return dx < 0.0 ? ROD_EDGE_FASCIA : ROD_EDGE_SIDE_STOP;
  if (kind == ROD_SURFACE_REVEAL)
    return ROD_EDGE_SIDE_STOP;
  if (dx > 0.0)
    return ROD_EDGE_BASE;
  return slope_deg < ROD_EPSILON_DEG ? ROD_EDGE_TOP : ROD_EDGE_VERGE;
}

/* How far the batten face lies outside the raw line along this surface. With interior angle θ
 * between the raw planes, both planes moved out by their build-ups meet at
 * (D_other + D_own·cos θ) / sin θ; equal build-ups give D / tan (θ/2) (rule R16). */
static double
corner_build_up (double own_mm,
                 double other_mm,
                 double fold_deg)
{
  double theta = G_PI - fold_deg * G_PI / 180.0;

  if (fabs (sin (theta)) < sin (ROD_EPSILON_DEG * G_PI / 180.0))
    return 0.0;
  /* Square corners, by far the most, stay free of rounding. */
  if (fabs (fabs (fold_deg) - 90.0) < ROD_EPSILON_MM)
    return fold_deg > 0.0 ? other_mm : -other_mm;
  return (other_mm + own_mm * cos (theta)) / sin (theta);
}

/* A zone is drawn on the structure as measured; where it reaches the outline or an opening, what is
 * round the corner decides how far the boards go. Of two zones side by side the later one keeps the
 * border. */
static gboolean
yields (const RodField *field,
        const RodEdge  *edge)
{
  double shared_mm = 0.0;

  if (edge->zone < 0)
    return FALSE;
  for (guint e = 0; e < field->n_edges; e++)
    if (field->edges[e].zone < 0 || field->edges[e].zone > edge->zone)
      shared_mm += rod_zone_side_shared_mm (edge, &field->edges[e]);
  return shared_mm > rod_point_distance (edge->raw.from, edge->raw.to) - ROD_SNAP_MM;
}

static void
settle_edge (const RodPlan  *plan,
             const RodField *field,
             RodEdge        *edge)
{
  const RodSurface *surface = rod_plan_face (plan, field->face)->surface;
  const RodSurface *other = NULL;

  edge->yields = yields (field, edge);
  if (edge->partner_face >= 0)
    {
      other = rod_plan_face (plan, (guint) edge->partner_face)->surface;
      edge->build_up_mm =
        corner_build_up (surface->build_up_mm, other->build_up_mm, edge->fold_deg);
    }
  if (edge->partner_face >= 0 && (edge->condition == ROD_EDGE_AUTO || edge->join == NULL))
    edge->condition = joined_condition (edge, surface->kind, other->kind);
  else if (edge->condition == ROD_EDGE_AUTO)
    edge->condition = free_condition (edge, surface->kind);
}

void
rod_faces_build (RodPlan    *plan,
                 RodEarlier *earlier)
{
  g_autoptr (GHashTable) by_id = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GArray) linings = g_array_new (FALSE, FALSE, sizeof (Lining));

  add_faces (plan, earlier, by_id, linings);
  add_fields (plan);
  tie_joins (plan, by_id);
  tie_linings (plan, linings);
  for (guint f = 0; f < plan->fields->len; f++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, f);

      for (guint e = 0; e < field->n_edges; e++)
        settle_edge (plan, field, &field->edges[e]);
    }
}
