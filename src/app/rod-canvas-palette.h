/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "engine/plan/rod-plan.h"
#include "sheets/rod-drawing.h"

G_BEGIN_DECLS

/**
 * RodCanvasPalette:
 * @ground: behind the house
 * @surface: a surface before it is clad
 * @ink: lines and letters
 * @faint: lines and letters that step back
 * @accent: what is selected
 * @chalk: lines carried round the house
 * @wood: the rod
 * @wood_dark: its edges
 * @wood_ink: its marks
 * @batten: battens
 * @severity: signs of findings, by #RodSeverity
 * @on_severity: letters on them
 * @strong: high contrast is asked for
 *
 * Colours of the drawing, from the style sheets. A plain value.
 */
typedef struct
{
  RodInk   ground;
  RodInk   surface;
  RodInk   ink;
  RodInk   faint;
  RodInk   accent;
  RodInk   chalk;
  RodInk   wood;
  RodInk   wood_dark;
  RodInk   wood_ink;
  RodInk   batten;
  RodInk   severity[3];
  RodInk   on_severity;
  gboolean strong;
} RodCanvasPalette;

/**
 * rod_canvas_palette_init:
 * @palette: (out): a palette
 * @widget: a widget, whose style decides
 */
void rod_canvas_palette_init (RodCanvasPalette *palette,
                              GtkWidget        *widget);

/**
 * rod_ink_lightness:
 * @ink: a colour
 *
 * Returns: how light it looks, 0 to 1 (relative luminance)
 */
double rod_ink_lightness (RodInk ink);

/**
 * rod_ink_on:
 * @ground: a colour
 *
 * Returns: black or white, whichever is easier to read on @ground
 */
RodInk rod_ink_on (RodInk ground);

G_END_DECLS
