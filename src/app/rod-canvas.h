/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/rod-selection.h"
#include "app/rod-stage.h"

G_BEGIN_DECLS

#define ROD_TYPE_CANVAS (rod_canvas_get_type ())
G_DECLARE_FINAL_TYPE (RodCanvas, rod_canvas, ROD, CANVAS, GtkWidget)

/**
 * rod_canvas_set_selection:
 * @self: a canvas
 * @selection: what is selected; the canvas shows it and changes it by click
 */
void rod_canvas_set_selection (RodCanvas    *self,
                               RodSelection *selection);

/**
 * rod_canvas_set_findings:
 * @self: a canvas
 * @findings: (element-type RodFindingItem): findings to mark
 */
void rod_canvas_set_findings (RodCanvas  *self,
                              GListModel *findings);

/**
 * rod_canvas_set_plan:
 * @self: a canvas
 * @plan: (nullable): the plan to show; it is fitted into the widget
 */
void rod_canvas_set_plan (RodCanvas *self,
                          RodPlan   *plan);

/**
 * rod_canvas_get_net:
 * @self: a canvas with a plan
 * @face: index of a face
 *
 * Returns: where the face lies in the drawing: surface plane → net
 */
RodAffine rod_canvas_get_net (RodCanvas *self,
                              guint      face);

/**
 * rod_canvas_get_stage:
 * @self: a canvas
 *
 * Returns: the stage it draws
 */
RodStage rod_canvas_get_stage (RodCanvas *self);

/**
 * rod_canvas_set_stage:
 * @self: a canvas
 * @stage: decides what is drawn of the house
 */
void rod_canvas_set_stage (RodCanvas *self,
                           RodStage   stage);

/**
 * rod_canvas_set_highlight:
 * @self: a canvas
 * @pieces: (nullable) (element-type guint): indices of pieces to bring out; %NULL for none
 */
void rod_canvas_set_highlight (RodCanvas *self,
                               GArray    *pieces);

/**
 * rod_canvas_fit:
 * @self: a canvas
 *
 * Shows the whole house, and keeps doing so when resized until the user moves it.
 */
void rod_canvas_fit (RodCanvas *self);

/**
 * rod_canvas_show_place:
 * @self: a canvas
 * @place: something of the plan
 *
 * Brings a place into view, with some of what is round it, moving there smoothly.
 */
void rod_canvas_show_place (RodCanvas *self,
                            RodPlace   place);

/**
 * rod_canvas_zoom:
 * @self: a canvas
 * @factor: above 1 to come closer, about the middle
 */
void rod_canvas_zoom (RodCanvas *self,
                      double     factor);

/**
 * rod_canvas_get_scale:
 * @self: a canvas
 *
 * Returns: pixels in a millimetre
 */
double rod_canvas_get_scale (RodCanvas *self);

/**
 * rod_canvas_locate:
 * @self: a canvas
 * @point: a point of the net
 * @x: (out): where it is seen in the widget
 * @y: (out): likewise
 */
void rod_canvas_locate (RodCanvas *self,
                        RodPoint   point,
                        double    *x,
                        double    *y);

/**
 * rod_canvas_select_at:
 * @self: a canvas
 * @x: place in the widget
 * @y: likewise
 *
 * Selects what is seen there: a finding's place by its sign, else an opening, board or surface,
 * else the house.
 */
void rod_canvas_select_at (RodCanvas *self,
                           double     x,
                           double     y);

G_END_DECLS
