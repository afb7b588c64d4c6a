/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * RodBox:
 * @low_x: least x
 * @low_y: least y
 * @high_x: greatest x
 * @high_y: greatest y
 *
 * A rectangle of paper. A plain value.
 */
typedef struct
{
  double low_x;
  double low_y;
  double high_x;
  double high_y;
} RodBox;

/**
 * RodClearing:
 *
 * What of a sheet is taken by texts and marks that must not touch each other.
 */
typedef struct _RodClearing RodClearing;

/**
 * rod_clearing_new:
 *
 * Returns: (transfer full): a sheet of which nothing is taken
 */
RodClearing *rod_clearing_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_clearing_free:
 * @clearing: (transfer full) (nullable): a clearing
 */
void rod_clearing_free (RodClearing *clearing);

/**
 * rod_clearing_take:
 * @clearing: a clearing
 * @box: what is taken, whether it was free or not
 */
void rod_clearing_take (RodClearing *clearing,
                        RodBox       box);

/**
 * rod_clearing_is_free:
 * @clearing: a clearing
 * @box: a place
 *
 * Costs as much as there are boxes.
 *
 * Returns: whether nothing in it is taken; touching does no harm
 */
gboolean rod_clearing_is_free (const RodClearing *clearing,
                               RodBox             box);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodClearing, rod_clearing_free)

G_END_DECLS
