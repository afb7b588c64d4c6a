/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-surface.h"

G_BEGIN_DECLS

/**
 * rod_contour_outline:
 * @surface: a surface
 *
 * Returns: (transfer full) (element-type RodPoint): corners of its outline, arcs as chords fine
 *          enough for paper and screen (not for sawing)
 */
GArray *rod_contour_outline (const RodSurface *surface) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_contour_opening:
 * @opening: an opening
 *
 * Returns: (transfer full) (element-type RodPoint): corners of its border, likewise
 */
GArray *rod_contour_opening (const RodOpening *opening) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_contour_extent:
 * @contour: (element-type RodPoint): corners
 * @low: (out): least x and least y; 0, 0 when there are no corners
 * @high: (out): greatest x and greatest y
 */
void rod_contour_extent (const GArray *contour,
                         RodPoint     *low,
                         RodPoint     *high);

/**
 * rod_contour_surface_extent:
 * @surface: a surface
 * @low: (out): least x and least y of its outline
 * @high: (out): greatest x and greatest y
 */
void rod_contour_surface_extent (const RodSurface *surface,
                                 RodPoint         *low,
                                 RodPoint         *high);

G_END_DECLS
