/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The order of fitting. Pieces stand in the plan by course and place, which is that order already
 * for level boards; only upright ones whose axis points down, and those laid from a centre, have to
 * be sorted. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/takeoff/rod-laying-order.h"

/* A piece with what it is sorted by. */
typedef struct
{
  guint  piece;
  double away_mm; /* of its course from where laying begins */
  int    along;   /* within its course */
} Turn;

gboolean
rod_field_lays_outwards (const RodField *field)
{
  return field->laid_from == ROD_LAID_FROM_CENTRE && field->board->flange_mm < ROD_EPSILON_MM &&
         fabs (field->direction_deg - 90.0) < ROD_EPSILON_DEG;
}

/* The middle of the surface across its boards. */
static double
axis_mm (const RodPlan  *plan,
         const RodField *field)
{
  g_autoptr (GArray) sides =
    rod_corners_sides (rod_plan_face (plan, field->face)->surface->outline);
  double low = INFINITY, high = -INFINITY;

  for (guint i = 0; i < sides->len; i++)
    {
      double y = rod_affine_apply (field->to_board, g_array_index (sides, RodSide, i).from).y;

      low = MIN (low, y);
      high = MAX (high, y);
    }
  return (low + high) / 2.0;
}

/* Courses that are equally far from the centre keep their order. */
static gint
compare_turns (gconstpointer a,
               gconstpointer b)
{
  const Turn *one = a;
  const Turn *other = b;

  if (fabs (one->away_mm - other->away_mm) > ROD_EPSILON_MM)
    return one->away_mm < other->away_mm ? -1 : 1;
  if (one->along != other->along)
    return one->along < other->along ? -1 : 1;
  return one->piece < other->piece ? -1 : 1;
}

static GArray *
list_turns (const RodPlan  *plan,
            const RodField *field)
{
  GArray  *turns = g_array_sized_new (FALSE, FALSE, sizeof (Turn), field->n_pieces);
  gboolean outwards = rod_field_lays_outwards (field);
  gboolean downwards = field->to_surface.yx < -ROD_EPSILON_DEG;
  double   centre_mm = outwards ? axis_mm (plan, field) : 0.0;

  for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);
      double          middle_mm = piece->line_mm + field->board->cover_mm / 2.0;
      Turn            turn = {
                   .piece = p,
                   .away_mm = outwards ? fabs (middle_mm - centre_mm) : piece->course,
                   .along = downwards ? -piece->place : piece->place,
      };

      g_array_append_val (turns, turn);
    }
  g_array_sort (turns, compare_turns);
  return turns;
}

static void
number_field (RodPlan  *plan,
              RodField *field,
              int      *sequence)
{
  g_autoptr (GArray) turns = list_turns (plan, field);

  field->last_ripped_course = 0;
  for (guint i = 0; i < turns->len; i++)
    {
      RodPiece *piece =
        &g_array_index (plan->pieces, RodPiece, g_array_index (turns, Turn, i).piece);

      piece->sequence = ++*sequence;
      if (piece->low_mm > ROD_SNAP_MM || piece->high_mm < field->board->cover_mm - ROD_SNAP_MM)
        field->last_ripped_course = piece->course;
    }
}

void
rod_laying_order_build (RodPlan *plan)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace *face = rod_plan_face (plan, f);
      int            sequence = 0;

      for (guint i = face->first_field; i < face->first_field + face->n_fields; i++)
        number_field (plan, &g_array_index (plan->fields, RodField, i), &sequence);
    }
}
