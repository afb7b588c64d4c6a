/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/rod-canvas-palette.h"
#include "app/rod-canvas-view.h"
#include "app/rod-canvas.h"
#include "sheets/rod-lettering.h"

G_BEGIN_DECLS

/* Width of the rod's strip at the left or upper side of the canvas, pixels. */
#define ROD_STRIP 58.0

struct _RodCanvas
{
  GtkWidget parent_instance;

  /* Owned */
  RodPlan      *plan;
  RodSelection *selection;
  GListModel   *findings;
  RodLettering *lettering;
  AdwAnimation *animation;
  GArray       *highlight; /* indices of pieces; may be NULL */
  RodAffine    *net;       /* surface plane → net, for each face */
  GArray       *boxes;     /* RodPoint pairs: low and high of each face in the net */

  RodStage      stage;
  RodCanvasView view;
  RodCanvasView view_from; /* while moving by itself */
  RodCanvasView view_to;
  RodPoint      low; /* the whole net */
  RodPoint      high;
  RodPoint      pointer;        /* last place in the widget */
  RodPoint      panned;         /* offset of the drag so far */
  double        pinched;        /* scale of the pinch so far */
  gboolean      fitted;         /* follow the size until the user moves */
  gboolean      laid_out_blind; /* the net, before the widget had a size */
  guint         settle_id;

  RodCanvasPalette palette;
};

/* The box around a place in the net. */
void rod_canvas_place_extent (RodCanvas *self,
                              RodPlace   place,
                              RodPoint  *low,
                              RodPoint  *high);

/* One face's own plane → widget. */
RodAffine rod_canvas_face_affine (RodCanvas *self,
                                  guint      face);

/* Whether any of a face may be seen. */
gboolean rod_canvas_sees_face (RodCanvas *self,
                               guint      face);

/* The user moved the view: follow, draw quickly, and draw well when it rests. */
void rod_canvas_view_moved (RodCanvas *self);

/* rod-canvas-input.c */
void rod_canvas_add_input (RodCanvas *self);
void rod_canvas_add_shortcuts (GtkWidgetClass *klass);

/* rod-canvas-layers.c: the house as the stage shows it. */
void rod_canvas_draw_house (RodCanvas *self,
                            cairo_t   *cr);

/* rod-canvas-survey.c: measures of the structure. */
void rod_canvas_draw_measures (RodCanvas *self, cairo_t *cr);

/* rod-canvas-rod.c: the storey rod, and lines carried round the house. */
void rod_canvas_draw_rod (RodCanvas *self,
                          cairo_t   *cr);

/* Where the name of a surface is written; %FALSE where it is not. */
gboolean rod_canvas_name_room (RodCanvas       *self,
                               guint            face,
                               graphene_rect_t *room);

/* rod-canvas-signs.c: selection, highlights, findings, names, scale. */
void     rod_canvas_draw_signs (RodCanvas *self,
                                cairo_t   *cr);
gboolean rod_canvas_find_sign (RodCanvas *self,
                               double     x,
                               double     y,
                               RodPlace  *place);

G_END_DECLS
