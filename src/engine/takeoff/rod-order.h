/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/**
 * rod_order_collect:
 * @takeoff: a take-off whose cuttings are planned
 *
 * Makes the order: bars of each stock length with spare, rounded up to packs, and screws.
 */
void rod_order_collect (RodTakeoff *takeoff);

G_END_DECLS
