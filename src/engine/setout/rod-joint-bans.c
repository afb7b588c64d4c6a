/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where length joints may not stand: near the corners of openings. */

#include "config.h"

#include <math.h>

#include "engine/plan/rod-faces.h"
#include "engine/plan/rod-field.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-bay.h"
#include "engine/setout/rod-joint-bans.h"

/* How far from the line of an opening's side a joint stands, so that the piece between them has the
 * shortest length allowed. */
static double
beside_mm (const RodPlan  *plan,
           const RodField *field,
           const RodEdge  *edge)
{
  double least_mm = rod_plan_face (plan, field->face)->system->rules->min_piece_mm;
  double web_mm = field->joint != NULL ? field->joint->back_mm : 0.0;
  RodBay bay = { .left_butt = rod_field_has_butt_joints (field) };

  return edge->clearance_mm + edge->back_mm + web_mm +
         rod_bay_clear_mm (plan, field, bay, least_mm);
}

static void
ban_corner (GArray  *bans,
            RodPoint from,
            RodPoint to,
            double   x,
            double   before_mm,
            double   after_mm)
{
  gboolean    square = fabs (from.x - to.x) < ROD_SNAP_MM;
  RodJointBan ban = {
    .from_mm = x - before_mm,
    .to_mm = x + after_mm,
    .on_mm = square ? x : (double) NAN,
    .low_mm = MIN (from.y, to.y),
    .high_mm = MAX (from.y, to.y),
  };

  g_array_append_val (bans, ban);
}

/* A course that is notched over or under an opening keeps its joints out of the notch: what is left
 * of the boards there is narrow, and battens stop short of it. Only courses that the side cuts
 * through in earnest are meant. */
static void
ban_notch (GArray         *bans,
           const RodField *field,
           const RodEdge  *edge)
{
  double      inwards_mm = edge->clearance_mm + edge->back_mm + edge->gap_across_mm;
  RodPoint    from, to;
  RodJointBan ban = { .on_mm = (double) NAN };

  rod_edge_shifted (edge, inwards_mm - edge->build_up_mm, &from, &to);
  from = rod_affine_apply (field->to_board, from);
  to = rod_affine_apply (field->to_board, to);
  ban.from_mm = MIN (from.x, to.x);
  ban.to_mm = MAX (from.x, to.x);
  ban.low_mm = MAX (from.y, to.y) + 2.0 * ROD_SNAP_MM;
  ban.high_mm = MIN (from.y, to.y) - 2.0 * ROD_SNAP_MM;
  g_array_append_val (bans, ban);
}

GArray *
rod_joint_bans (const RodPlan  *plan,
                const RodField *field,
                gboolean        spare_pieces)
{
  double  distance_mm = rod_plan_face (plan, field->face)->system->rules->joint_distance_mm;
  GArray *bans = g_array_new (FALSE, FALSE, sizeof (RodJointBan));

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];
      RodPoint       from, to;
      double         beside, before_mm, after_mm;
      gboolean       rises;

      if (edge->opening >= 0 && edge->relation == ROD_BOARDS_ALONG &&
          rod_field_has_butt_joints (field))
        ban_notch (bans, field, edge);
      if (edge->opening < 0 || edge->relation == ROD_BOARDS_ALONG)
        continue;
      rod_edge_shifted (edge, -edge->build_up_mm, &from, &to);
      from = rod_affine_apply (field->to_board, from);
      to = rod_affine_apply (field->to_board, to);
      beside = spare_pieces ? MAX (distance_mm, beside_mm (plan, field, edge)) : distance_mm;
      /* The boards lie to the left of the line. */
      rises = to.y > from.y;
      before_mm = rises ? beside : distance_mm;
      after_mm = rises ? distance_mm : beside;
      ban_corner (bans, from, to, from.x, before_mm, after_mm);
      if (fabs (from.x - to.x) >= ROD_SNAP_MM)
        ban_corner (bans, from, to, to.x, before_mm, after_mm);
    }
  return bans;
}

gboolean
rod_joint_bans_allow (const GArray *bans,
                      double        at_mm,
                      double        low_mm,
                      double        high_mm,
                      gboolean     *on_line)
{
  if (on_line != NULL)
    *on_line = FALSE;
  for (guint i = 0; i < bans->len; i++)
    {
      const RodJointBan *ban = &g_array_index (bans, RodJointBan, i);

      if (low_mm > ban->high_mm + ROD_SNAP_MM || high_mm < ban->low_mm - ROD_SNAP_MM ||
          at_mm <= ban->from_mm + ROD_EPSILON_MM || at_mm >= ban->to_mm - ROD_EPSILON_MM)
        continue;
      if (!(fabs (at_mm - ban->on_mm) <= ROD_EPSILON_MM))
        return FALSE;
      if (on_line != NULL)
        *on_line = TRUE;
    }
  return TRUE;
}
