/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-house.h"

G_BEGIN_DECLS

/**
 * rod_trim_table_find:
 * @system: a system
 * @surface: kind of the surface
 * @boards: how the boards meet the edge, along or across
 * @condition: condition of the edge
 * @allow_starter: whether a row with a starter may decide
 *
 * Reads the system's decision table: the first row that fits decides.
 *
 * Returns: (transfer none) (nullable): the row, or %NULL when none fits
 */
const RodTrimRule *rod_trim_table_find (const RodSystem *system,
                                        RodSurfaceKind   surface,
                                        RodBoardRelation boards,
                                        RodEdgeCondition condition,
                                        gboolean         allow_starter);

G_END_DECLS
