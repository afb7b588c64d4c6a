/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheets/rod-drawing.h"

G_BEGIN_DECLS

/* Whether any of a ring may show within a clip of least x, least y, greatest x and greatest y. */
gboolean rod_drawing_ring_shows (const double     clip[4],
                                 const RodRegion *rings,
                                 guint            ring,
                                 RodAffine        map);

/* Pieces of a face: index of the first and index after the last. */
void rod_drawing_find_pieces (const RodPlan *plan,
                              guint          face,
                              guint         *first,
                              guint         *end);

G_END_DECLS
