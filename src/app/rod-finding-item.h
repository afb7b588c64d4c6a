/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

#define ROD_TYPE_FINDING_ITEM (rod_finding_item_get_type ())
G_DECLARE_FINAL_TYPE (RodFindingItem, rod_finding_item, ROD, FINDING_ITEM, GObject)

/**
 * rod_finding_item_new:
 * @plan: the plan that owns the finding or what it is about
 * @finding: a finding; it is copied
 *
 * A finding for lists.
 *
 * Returns: (transfer full): the item
 */
RodFindingItem *rod_finding_item_new (RodPlan          *plan,
                                      const RodFinding *finding) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_finding_item_get:
 * @self: an item
 *
 * Returns: (transfer none): the finding
 */
const RodFinding *rod_finding_item_get (RodFindingItem *self);

/**
 * rod_finding_item_get_plan:
 * @self: an item
 *
 * Returns: (transfer none): the plan it is about
 */
RodPlan *rod_finding_item_get_plan (RodFindingItem *self);

/**
 * rod_severity_icon:
 * @severity: a severity
 *
 * Returns: (transfer none): name of a symbolic icon; each severity has a shape of its own
 */
const char *rod_severity_icon (RodSeverity severity);

/**
 * rod_severity_label:
 * @severity: a severity
 *
 * Returns: (transfer none): its word for people; translated
 */
const char *rod_severity_label (RodSeverity severity);

G_END_DECLS
