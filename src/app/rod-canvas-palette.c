/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-canvas-palette.h"

#include <math.h>

static RodInk
look_up (GtkWidget  *widget,
         const char *name)
{
  GdkRGBA colour = { 0.5f, 0.5f, 0.5f, 1.0f };

  gtk_style_context_lookup_color (gtk_widget_get_style_context (widget), name, &colour);

  return (RodInk){ (double) colour.red, (double) colour.green, (double) colour.blue };
}

void
rod_canvas_palette_init (RodCanvasPalette *palette,
                         GtkWidget        *widget)
{
  g_return_if_fail (palette != NULL);
  g_return_if_fail (GTK_IS_WIDGET (widget));

  *palette = (RodCanvasPalette){
    .ground = look_up (widget, "rod_ground_color"),
    .surface = look_up (widget, "rod_surface_color"),
    .ink = look_up (widget, "rod_ink_color"),
    .faint = look_up (widget, "rod_faint_color"),
    .accent = look_up (widget, "rod_selected_color"),
    .chalk = look_up (widget, "rod_chalk_color"),
    .wood = look_up (widget, "rod_wood_color"),
    .wood_dark = look_up (widget, "rod_wood_dark_color"),
    .wood_ink = look_up (widget, "rod_wood_ink_color"),
    .batten = look_up (widget, "rod_batten_color"),
    .on_severity = look_up (widget, "rod_on_severity_color"),
    .strong = adw_style_manager_get_high_contrast (adw_style_manager_get_default ()),
  };
  palette->severity[ROD_SEVERITY_NOTE] = look_up (widget, "rod_note_color");
  palette->severity[ROD_SEVERITY_SHOULD] = look_up (widget, "rod_should_color");
  palette->severity[ROD_SEVERITY_MUST] = look_up (widget, "rod_must_color");
}

/* From sRGB to light, IEC 61966-2-1. */
static double
linear (double value)
{
  return value <= 0.04045 ? value / 12.92 : pow ((value + 0.055) / 1.055, 2.4);
}

double
rod_ink_lightness (RodInk ink)
{
  return 0.2126 * linear (ink.red) + 0.7152 * linear (ink.green) + 0.0722 * linear (ink.blue);
}

RodInk
rod_ink_on (RodInk ground)
{
  /* Equal contrast with black and white: (L + 0.05) / 0.05 = 1.05 / (L + 0.05). */
  const double middle = 0.179;

  return rod_ink_lightness (ground) > middle ? (RodInk){ 0, 0, 0 } : (RodInk){ 1, 1, 1 };
}
