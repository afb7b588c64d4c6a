/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Reckonings of a board: its length from raw line to raw line, its width from the cover, and the
 * gap at either end from movement. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/plan/rod-field.h"
#include "engine/plan/rod-reckoning-private.h"
#include "engine/rod-limits.h"

static gboolean
is_column (const RodPieceEnd *end)
{
  return end->edge == ROD_TAG_COLUMN_LEFT || end->edge == ROD_TAG_COLUMN_RIGHT;
}

static gboolean
is_square_edge (const RodPieceEnd *end)
{
  return end->edge >= 0 && fabs (end->angle_deg) < ROD_EPSILON_DEG;
}

/* Where the end's raw line or joint stands along the board. */
static double
line_place (const RodPlan     *plan,
            const RodPiece    *piece,
            const RodPieceEnd *end,
            double             end_x)
{
  const RodField       *field = rod_plan_field (plan, piece->field);
  double                courses = (piece->line_mm - field->phase_mm) / field->board->cover_mm;
  const RodLengthJoint *joint;

  if (end->edge >= 0)
    return rod_affine_apply (field->to_board, field->edges[end->edge].raw.from).x;
  joint = rod_field_nearest_joint (field, (int) lround (courses), end_x);
  return joint != NULL ? joint->at_mm : end_x;
}

static void
add_end (RodReckoning      *reckoning,
         const RodField    *field,
         const RodPieceEnd *end,
         gboolean           left)
{
  const RodEdge *edge = end->edge >= 0 ? &field->edges[end->edge] : NULL;

  if (edge != NULL)
    {
      rod_reckoning_add_some (
        reckoning, edge->build_up_mm, left ? _ ("build-up, left") : _ ("build-up, right"), "R16");
      rod_reckoning_add_some (reckoning,
                              -edge->clearance_mm,
                              left ? _ ("clearance, left") : _ ("clearance, right"),
                              "R7");
    }
  rod_reckoning_add_some (
    reckoning, -end->back_mm, left ? _ ("trim, left") : _ ("trim, right"), "R4");
  rod_reckoning_add_some (
    reckoning, -end->gap_mm, left ? _ ("gap, left") : _ ("gap, right"), "R27");
}

/* Raked ends: the gap is measured square to the rake, the board is shorter by more. */
static void
add_raked_gap (RodReckoning      *reckoning,
               const RodPieceEnd *end,
               gboolean           left)
{
  double along_mm = end->gap_mm / cos (end->angle_deg * G_PI / 180.0);

  rod_reckoning_add_some (reckoning,
                          -along_mm - (is_column (end) ? end->back_mm : 0.0),
                          left ? _ ("gap along the board, left")
                               : _ ("gap along the board, right"),
                          "R27");
}

RodReckoning *
rod_reckon_piece_length (const RodPlan *plan,
                         guint          piece_index)
{
  const RodPiece *piece = rod_plan_piece (plan, piece_index);
  const RodField *field = rod_plan_field (plan, piece->field);
  RodReckoning   *reckoning;
  double          low, high;

  reckoning = rod_reckoning_new (g_strdup_printf (_ ("Length of %s"), piece->mark), "mm");
  rod_plan_piece_extent (plan, piece, &low, &high);
  if ((is_square_edge (&piece->left) || is_column (&piece->left)) &&
      (is_square_edge (&piece->right) || is_column (&piece->right)))
    {
      rod_reckoning_add (reckoning,
                         line_place (plan, piece, &piece->right, high) -
                           line_place (plan, piece, &piece->left, low),
                         _ ("between raw lines or joints"),
                         "R16");
      add_end (reckoning, field, &piece->left, TRUE);
      add_end (reckoning, field, &piece->right, FALSE);
    }
  else
    {
      double backs_mm = (is_column (&piece->left) ? piece->left.back_mm : 0.0) +
                        (is_column (&piece->right) ? piece->right.back_mm : 0.0);

      rod_reckoning_add (reckoning,
                         piece->clear_mm + backs_mm,
                         _ ("between pocket bottoms, long point to long point"),
                         "R19");
      add_raked_gap (reckoning, &piece->left, TRUE);
      add_raked_gap (reckoning, &piece->right, FALSE);
    }
  /* An end of several sides, or one that tapers out, moves its long point otherwise. */
  rod_reckoning_add_some (
    reckoning, piece->length_mm - reckoning->result, _ ("shape of the ends"), NULL);
  return reckoning;
}

RodReckoning *
rod_reckon_piece_width (const RodPlan *plan,
                        guint          piece_index)
{
  const RodPiece *piece = rod_plan_piece (plan, piece_index);
  double          cover_mm = rod_plan_field (plan, piece->field)->board->cover_mm;
  RodReckoning   *reckoning =
    rod_reckoning_new (g_strdup_printf (_ ("Width of %s"), piece->mark), "mm");

  rod_reckoning_add (reckoning, cover_mm, _ ("cover of the board"), NULL);
  rod_reckoning_add_some (reckoning, -piece->low_mm, _ ("ripped off on the hook side"), "R4");
  rod_reckoning_add_some (
    reckoning, piece->high_mm - cover_mm, _ ("ripped off on the flange side"), "R8");
  return reckoning;
}

RodReckoning *
rod_reckon_piece_gap (const RodPlan *plan,
                      guint          piece_index,
                      gboolean       right)
{
  const RodPiece    *piece = rod_plan_piece (plan, piece_index);
  const RodField    *field = rod_plan_field (plan, piece->field);
  const RodRules    *rules = rod_plan_face (plan, field->face)->system->rules;
  const RodPieceEnd *end = right ? &piece->right : &piece->left;
  gboolean           butt = is_column (end) && rod_field_has_butt_joints (field);
  double             least_mm = butt ? rules->butt_gap_mm : rules->min_gap_mm;
  RodReckoning      *reckoning;

  reckoning = rod_reckoning_new (
    g_strdup_printf (right ? _ ("Right gap of %s") : _ ("Left gap of %s"), piece->mark), "mm");
  if (end->edge == ROD_TAG_LINE_BELOW || end->edge == ROD_TAG_LINE_ABOVE)
    {
      rod_reckoning_add (reckoning, 0.0, _ ("the board runs out to a point"), NULL);
    }
  else if (end->run_mm < ROD_EPSILON_MM && !butt)
    {
      rod_reckoning_add (
        reckoning, rules->fixed_end_gap_mm, _ ("gap at the end where the board is held"), "F2");
    }
  else
    {
      double moves_mm = field->expand * end->run_mm;

      rod_reckoning_add (
        reckoning, moves_mm, _ ("growth from fixing to the hottest (or wettest) day"), "R27");
      rod_reckoning_add (reckoning, rules->tolerance_mm, _ ("cutting and fitting error"), "R27");
      rod_reckoning_add_some (reckoning,
                              ceil (reckoning->result - ROD_EPSILON_MM) - reckoning->result,
                              _ ("rounded up"),
                              NULL);
      if (reckoning->result < least_mm)
        rod_reckoning_add_some (
          reckoning, least_mm - reckoning->result, _ ("up to the least gap"), NULL);
    }
  rod_reckoning_add_some (
    reckoning, end->gap_mm - reckoning->result, _ ("same gap along the whole raked edge"), "R19");
  return reckoning;
}
