/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheets/rod-clearing.h"
#include "sheets/rod-sheets-private.h"

G_BEGIN_DECLS

/* A face while its elevation is drawn. */
typedef struct
{
  const RodSheets   *sheets;
  const RodFaceView *view;
  const RodFace     *face;
  cairo_t           *cr;
  double             page_left; /* the outline's extent on paper */
  double             page_right;
  double             page_top;
  double             page_bottom;
  RodClearing       *clearing;
} RodElevation;

/* Numbers of the trims, with leaders. */
void rod_elevation_draw_trim_keys (const RodElevation *drawing);

/* Name and size of an opening, where they fit inside. */
void rod_elevation_draw_opening (const RodElevation *drawing,
                                 const RodOpening   *opening);

G_END_DECLS
