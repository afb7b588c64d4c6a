/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/**
 * rod_cut_lists_collect:
 * @takeoff: a take-off with its plan
 *
 * Collects what is to be cut: boards by colour, trims split into lengths that the stock gives, laps
 * included, and battens likewise. One cutting for each article and colour, in the order in which
 * they are first met.
 */
void rod_cut_lists_collect (RodTakeoff *takeoff);

/**
 * rod_cut_lists_solve:
 * @takeoff: a take-off with its cuttings
 * @cancellable: (nullable): calls it off, also from another thread
 *
 * Plans the bars of every cutting. What cannot be cut from the stock becomes a finding.
 *
 * Returns: whether all are planned; %FALSE when called off
 */
gboolean rod_cut_lists_solve (RodTakeoff   *takeoff,
                              GCancellable *cancellable);

G_END_DECLS
