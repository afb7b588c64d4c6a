/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-quest.h"

G_BEGIN_DECLS

/**
 * rod_cut_recut:
 * @quest: a quest whose master has a root
 * @n_tries: how many parts of the scheme to try at most
 *
 * Takes some bars out of the best scheme, the wasteful ones rather, plans anew what was cut from
 * them, and keeps what is cheaper, or as cheap and different.
 */
void rod_cut_recut (RodCutQuest *quest,
                    guint        n_tries);

G_END_DECLS
