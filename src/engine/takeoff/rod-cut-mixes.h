/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-quest.h"

G_BEGIN_DECLS

/**
 * rod_cut_mixes_search:
 * @quest: a quest for a job with several sources, whose master stands at its root
 *
 * Looks at the mixes of stock, how many bars of each source, that cost at least the bound and less
 * than the best scheme, cheapest first. Raises the bound past those that cannot give all pieces and
 * looks for schemes in the others.
 */
void rod_cut_mixes_search (RodCutQuest *quest);

G_END_DECLS
