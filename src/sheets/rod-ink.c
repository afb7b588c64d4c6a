/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours of boards and lines. */
#include "config.h"

#include "sheets/rod-ink.h"

#include <string.h>

RodInk
rod_ink_parse (const char *rgb)
{
  guint64 value = 0x808080;

  if (rgb != NULL && rgb[0] == '#' && strlen (rgb) == 7)
    g_ascii_string_to_unsigned (rgb + 1, 16, 0, 0xffffff, &value, NULL);

  return (RodInk){ (double) (value >> 16 & 0xff) / 255.0,
                   (double) (value >> 8 & 0xff) / 255.0,
                   (double) (value & 0xff) / 255.0 };
}

RodInk
rod_ink_mix (RodInk a,
             RodInk b,
             double share)
{
  return (RodInk){ a.red + share * (b.red - a.red),
                   a.green + share * (b.green - a.green),
                   a.blue + share * (b.blue - a.blue) };
}

/* Luminance of ITU-R BT.709, from memory; on coded values, which is near enough to choose an ink.
 */
double
rod_ink_luminance (RodInk ink)
{
  return 0.2126 * ink.red + 0.7152 * ink.green + 0.0722 * ink.blue;
}

void
rod_ink_use (RodInk   ink,
             cairo_t *cr)
{
  cairo_set_source_rgb (cr, ink.red, ink.green, ink.blue);
}
