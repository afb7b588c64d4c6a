/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"
#include "engine/setout/rod-phase.h"

G_BEGIN_DECLS

/**
 * RodGroupSetout:
 * @problem: what is aimed at; its lists are those below
 * @levels: (element-type RodLevel): every height at which a strip is left, once
 * @starters: (element-type RodStarterArc): bases that should keep their starter
 * @spans: (element-type RodSpan): boards from end to end
 * @closures: (element-type RodPhaseClosure): joins at which chains close
 * @allowed: (nullable) (element-type double): the phases that pins leave; %NULL where there are no
 *           pins
 *
 * All that decides where the joint lines of one alignment group fall: the rod. Immutable, and
 * reference-counted.
 */
struct _RodGroupSetout
{
  RodPhaseProblem problem;
  GArray         *levels;
  GArray         *starters;
  GArray         *spans;
  GArray         *closures;
  GArray         *allowed;
};

/**
 * rod_group_setout_new:
 * @plan: a plan with its groups
 * @group: index of a group
 * @fields: (array length=n_fields): indices of its fields
 * @n_fields: how many
 * @closing: (array length=n_closing): indices of the ties at which its chains close
 * @n_closing: how many
 *
 * Returns: (transfer full): what decides the group's phase
 */
RodGroupSetout *rod_group_setout_new (const RodPlan *plan,
                                      guint          group,
                                      const guint   *fields,
                                      guint          n_fields,
                                      const guint   *closing,
                                      guint          n_closing) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_group_setout_ref:
 * @setout: a set-out
 *
 * Returns: (transfer full): @setout
 */
RodGroupSetout *rod_group_setout_ref (RodGroupSetout *setout);

/**
 * rod_group_setout_unref:
 * @setout: (transfer full) (nullable): a set-out
 */
void rod_group_setout_unref (RodGroupSetout *setout);

/**
 * rod_group_setout_best:
 * @setout: a set-out
 *
 * Returns: the best phase that pins allow, 0 ≤ φ < pitch
 */
double rod_group_setout_best (const RodGroupSetout *setout);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodGroupSetout, rod_group_setout_unref)

G_END_DECLS
