/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-json-place.h"

G_BEGIN_DECLS

/* The parts of rod_house_check(), each after the members' own limits hold. */

/**
 * rod_check_order:
 * @low: lesser of two numbers, not-a-number when not given
 * @high: greater of the two, likewise
 * @place: object that holds both
 * @low_name: name of the lesser
 * @high_name: name of the greater
 * @error: return location for an error
 *
 * Fails with %ROD_FILE_ERROR_MEMBER when both are given and @low is above @high.
 *
 * Returns: whether they may stand together
 */
gboolean rod_check_order (double              low,
                          double              high,
                          const RodJsonPlace *place,
                          const char         *low_name,
                          const char         *high_name,
                          GError            **error);

/**
 * rod_system_check:
 * @system: a system
 * @place: its place
 * @error: return location for an error
 *
 * Checks what its parts say about each other.
 *
 * Returns: whether it can be planned with
 */
gboolean rod_system_check (const RodSystem    *system,
                           const RodJsonPlace *place,
                           GError            **error);

/**
 * rod_surface_check:
 * @surface: a surface
 * @house: its house
 * @place: its place
 * @error: return location for an error
 *
 * Checks what it refers to.
 *
 * Returns: whether all of it is there
 */
gboolean rod_surface_check (const RodSurface   *surface,
                            const RodHouse     *house,
                            const RodJsonPlace *place,
                            GError            **error);

/**
 * rod_surface_check_shape:
 * @surface: a surface
 * @place: its place
 * @error: return location for an error
 *
 * Checks outline, openings and zones as figures. Fails with %ROD_FILE_ERROR_SHAPE.
 *
 * Returns: whether it can be built
 */
gboolean rod_surface_check_shape (const RodSurface   *surface,
                                  const RodJsonPlace *place,
                                  GError            **error);

G_END_DECLS
