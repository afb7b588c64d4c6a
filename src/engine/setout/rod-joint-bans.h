/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodJointBan:
 * @from_mm: start along the boards, board frame
 * @to_mm: end
 * @on_mm: a place between them where a joint may stand all the same; not-a-number for none
 * @low_mm: lower end of the side of the opening, across the boards
 * @high_mm: its upper end
 *
 * Where no length joint may stand: beside a side of an opening. On the line of a jamb it may, for
 * there the jamb's trim goes on as the joint's. A plain value.
 */
typedef struct
{
  double from_mm;
  double to_mm;
  double on_mm;
  double low_mm;
  double high_mm;
} RodJointBan;

/**
 * rod_joint_bans:
 * @plan: a plan
 * @field: a field with its edge stacks
 * @spare_pieces: whether pieces between joint and opening must not be too short
 *
 * One ban for each corner line of an opening that boards meet (rule R21): joints keep
 * `joint_distance_mm` away, and with @spare_pieces the shortest piece on the side of the boards.
 * Where boards meet without a trim, also one for each notch.
 *
 * Returns: (transfer full) (element-type RodJointBan): bans
 */
GArray *rod_joint_bans (const RodPlan  *plan,
                        const RodField *field,
                        gboolean        spare_pieces) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_joint_bans_allow:
 * @bans: (element-type RodJointBan): bans
 * @at_mm: a place along the boards
 * @low_mm: from where across the boards
 * @high_mm: to where
 * @on_line: (out) (optional): whether it stands on the line of a jamb
 *
 * Returns: whether a joint may stand at @at_mm that reaches from @low_mm to @high_mm
 */
gboolean rod_joint_bans_allow (const GArray *bans,
                               double        at_mm,
                               double        low_mm,
                               double        high_mm,
                               gboolean     *on_line);

G_END_DECLS
