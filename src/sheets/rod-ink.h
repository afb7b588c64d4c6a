/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

/**
 * RodInk:
 * @red: 0 to 1
 * @green: 0 to 1
 * @blue: 0 to 1
 *
 * A colour. A plain value.
 */
typedef struct
{
  double red;
  double green;
  double blue;
} RodInk;

/**
 * rod_ink_parse:
 * @rgb: "#rrggbb"
 *
 * Returns: the colour, mid-grey when @rgb is no colour
 */
RodInk rod_ink_parse (const char *rgb);

/**
 * rod_ink_mix:
 * @a: a colour
 * @b: another colour
 * @share: share of @b, 0 to 1
 *
 * Returns: the mixture
 */
RodInk rod_ink_mix (RodInk a,
                    RodInk b,
                    double share);

/**
 * rod_ink_luminance:
 * @ink: a colour
 *
 * Returns: how light it is, 0 to 1
 */
double rod_ink_luminance (RodInk ink);

/**
 * rod_ink_use:
 * @ink: a colour
 * @cr: context whose source it becomes
 */
void rod_ink_use (RodInk   ink,
                  cairo_t *cr);

G_END_DECLS
