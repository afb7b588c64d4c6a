/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing of the unfolded house.
 *
 * One cairo node of the widget's size holds the whole picture: every corner goes through one affine
 * into widget coordinates, so that the picture is equally sharp at every zoom and memory does not
 * grow with it. While the view moves, edges are not smoothed; when it rests, the picture is drawn
 * once more with care.
 *
 * The layers, in order, are the files rod-canvas-*.c; this one owns the view.
 */
#include "config.h"

#include "app/rod-canvas-private.h"

#include <glib/gi18n.h>

#include "sheets/rod-net-layout.h"

/* Rest before the picture is drawn with care. */
#define SETTLE_MS 120

/* Move to a place that was chosen elsewhere. */
#define TRAVEL_MS 260

/* Shape of the drawing before it has been on the screen. */
#define USUAL_WIDTH 800
#define USUAL_HEIGHT 600

/* Kept free round what is shown. */
#define MARGIN 28.0

/* Kept free for the scale bar and for the buttons over the drawing. */
#define FOOT_STRIP 32.0

/* A place chosen elsewhere is shown with this many times its own extent. */
#define SURROUNDINGS 2.5

/* Closest look when travelling: marks are easy to read, and some of the wall is still seen. */
#define TRAVEL_SCALE 0.6

G_DEFINE_FINAL_TYPE (RodCanvas, rod_canvas, GTK_TYPE_WIDGET)

RodAffine
rod_canvas_face_affine (RodCanvas *self,
                        guint      face)
{
  return rod_affine_multiply (self->net[face], rod_canvas_view_affine (&self->view));
}

void
rod_canvas_place_extent (RodCanvas *self,
                         RodPlace   place,
                         RodPoint  *low,
                         RodPoint  *high)
{
  *low = self->low;
  *high = self->high;
  if (place.kind != ROD_PLACE_HOUSE)
    rod_place_extent (place, self->plan, self->net[place.face], low, high);
}

gboolean
rod_canvas_sees_face (RodCanvas *self,
                      guint      face)
{
  RodPoint low = g_array_index (self->boxes, RodPoint, 2 * face);
  RodPoint high = g_array_index (self->boxes, RodPoint, 2 * face + 1);
  RodPoint upper_left = rod_canvas_view_to_net (&self->view, 0, 0);
  RodPoint lower_right = rod_canvas_view_to_net (&self->view, self->view.width, self->view.height);

  return low.x <= lower_right.x && high.x >= upper_left.x &&
         low.y <= upper_left.y && high.y >= lower_right.y;
}

static void
settle_cb (gpointer user_data)
{
  RodCanvas *self = user_data;

  self->settle_id = 0;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
draw_quickly (RodCanvas *self)
{
  g_clear_handle_id (&self->settle_id, g_source_remove);
  self->settle_id = g_timeout_add_once (SETTLE_MS, settle_cb, self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
rod_canvas_view_moved (RodCanvas *self)
{
  adw_animation_pause (self->animation);
  self->fitted = FALSE;
  rod_canvas_view_hold (&self->view, self->low, self->high);
  draw_quickly (self);
}

static void
fit_view (RodCanvas     *self,
          RodCanvasView *view)
{
  double width = self->view.width;
  double height = self->view.height;

  /* The rod stands at the left; scale and buttons are below. */
  view->width = width - ROD_STRIP;
  view->height = height - FOOT_STRIP;
  rod_canvas_view_show (view, self->low, self->high, MARGIN);
  view->width = width;
  view->height = height;
  rod_canvas_view_pan (view, ROD_STRIP / 2, -FOOT_STRIP / 2);
}

static void
travel_cb (double   share,
           gpointer user_data)
{
  RodCanvas *self = user_data;

  self->view = rod_canvas_view_between (&self->view_from, &self->view_to, share);
  draw_quickly (self);
}

static void
travel (RodCanvas           *self,
        const RodCanvasView *to)
{
  self->view_from = self->view;
  self->view_to = *to;
  adw_animation_reset (self->animation);
  adw_animation_play (self->animation);
}

static void
selection_changed_cb (RodSelection *selection,
                      gboolean      reveal,
                      RodCanvas    *self)
{
  RodPlace         place = rod_selection_get (selection);
  g_autofree char *words = NULL;

  if (!rod_place_exists (place, self->plan))
    return;

  words = rod_place_describe (place, self->plan);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  words,
                                  -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (reveal)
    rod_canvas_show_place (self, place);
}

static void
rod_canvas_snapshot (GtkWidget   *widget,
                     GtkSnapshot *snapshot)
{
  RodCanvas      *self = ROD_CANVAS (widget);
  graphene_rect_t area = GRAPHENE_RECT_INIT (0,
                                             0,
                                             (float) self->view.width,
                                             (float) self->view.height);
  cairo_t        *cr = gtk_snapshot_append_cairo (snapshot, &area);

  rod_ink_use (self->palette.ground, cr);
  cairo_paint (cr);
  if (self->plan != NULL)
    {
      cairo_set_antialias (cr, self->settle_id != 0 ? CAIRO_ANTIALIAS_FAST : CAIRO_ANTIALIAS_GOOD);
      rod_canvas_draw_house (self, cr);
      cairo_set_antialias (cr, CAIRO_ANTIALIAS_DEFAULT);
      rod_canvas_draw_rod (self, cr);
      rod_canvas_draw_signs (self, cr);
    }
  cairo_destroy (cr);
}

/* The rows of the net suit the widget as it was first seen; they stay when it is resized, since a
 * house that rearranges itself would be hard to follow. */
static void
lay_out_net (RodCanvas *self)
{
  gboolean allocated = self->view.width > 1 && self->view.height > 1;
  RodPoint size;

  self->laid_out_blind = !allocated;
  g_clear_pointer (&self->net, g_free);
  self->net = rod_net_layout (self->plan,
                              allocated ? self->view.width : USUAL_WIDTH,
                              allocated ? self->view.height : USUAL_HEIGHT,
                              &size);
  self->low = (RodPoint){ 0, 0 };
  self->high = size;
  g_array_set_size (self->boxes, 2 * self->plan->faces->len);
  for (guint i = 0; i < self->plan->faces->len; i++)
    rod_canvas_place_extent (self,
                             rod_place_face (i),
                             &g_array_index (self->boxes, RodPoint, 2 * i),
                             &g_array_index (self->boxes, RodPoint, 2 * i + 1));
}

static void
rod_canvas_size_allocate (GtkWidget *widget,
                          int        width,
                          int        height,
                          int        baseline)
{
  RodCanvas *self = ROD_CANVAS (widget);

  self->view.width = width;
  self->view.height = height;
  if (self->laid_out_blind && self->plan != NULL)
    lay_out_net (self);
  if (self->fitted && self->plan != NULL)
    fit_view (self, &self->view);
}

static void
rod_canvas_css_changed (GtkWidget         *widget,
                        GtkCssStyleChange *change)
{
  RodCanvas *self = ROD_CANVAS (widget);

  GTK_WIDGET_CLASS (rod_canvas_parent_class)->css_changed (widget, change);
  rod_canvas_palette_init (&self->palette, widget);
  gtk_widget_queue_draw (widget);
}

static void
rod_canvas_dispose (GObject *object)
{
  RodCanvas *self = ROD_CANVAS (object);

  g_clear_handle_id (&self->settle_id, g_source_remove);
  if (self->animation != NULL)
    adw_animation_pause (self->animation);
  g_clear_object (&self->animation);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  g_clear_object (&self->selection);
  if (self->findings != NULL)
    g_signal_handlers_disconnect_by_data (self->findings, self);
  g_clear_object (&self->findings);
  g_clear_pointer (&self->plan, rod_plan_unref);
  g_clear_pointer (&self->highlight, g_array_unref);
  g_clear_pointer (&self->boxes, g_array_unref);
  g_clear_pointer (&self->net, g_free);
  g_clear_pointer (&self->lettering, rod_lettering_free);

  G_OBJECT_CLASS (rod_canvas_parent_class)->dispose (object);
}

static void
rod_canvas_class_init (RodCanvasClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_canvas_dispose;
  widget_class->snapshot = rod_canvas_snapshot;
  widget_class->size_allocate = rod_canvas_size_allocate;
  widget_class->css_changed = rod_canvas_css_changed;

  gtk_widget_class_set_css_name (widget_class, "rodcanvas");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  rod_canvas_add_shortcuts (widget_class);
}

static void
rod_canvas_init (RodCanvas *self)
{
  self->stage = ROD_STAGE_SET_OUT;
  self->fitted = TRUE;
  self->view.scale = 0.05;
  self->boxes = g_array_new (FALSE, FALSE, sizeof (RodPoint));
  self->lettering = rod_lettering_new ();
  self->animation = adw_timed_animation_new (GTK_WIDGET (self),
                                             0,
                                             1,
                                             TRAVEL_MS,
                                             adw_callback_animation_target_new (travel_cb,
                                                                                self,
                                                                                NULL));
  adw_timed_animation_set_easing (ADW_TIMED_ANIMATION (self->animation), ADW_EASE_IN_OUT_CUBIC);

  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Drawing of the unfolded house"),
                                  -1);
  rod_canvas_add_input (self);
}

void
rod_canvas_set_selection (RodCanvas    *self,
                          RodSelection *selection)
{
  g_return_if_fail (ROD_IS_CANVAS (self));
  g_return_if_fail (ROD_IS_SELECTION (selection));
  g_return_if_fail (self->selection == NULL);

  self->selection = g_object_ref (selection);
  g_signal_connect (selection, "changed", G_CALLBACK (selection_changed_cb), self);
}

void
rod_canvas_set_findings (RodCanvas  *self,
                         GListModel *findings)
{
  g_return_if_fail (ROD_IS_CANVAS (self));
  g_return_if_fail (G_IS_LIST_MODEL (findings));
  g_return_if_fail (self->findings == NULL);

  self->findings = g_object_ref (findings);
  g_signal_connect_swapped (findings,
                            "items-changed",
                            G_CALLBACK (gtk_widget_queue_draw),
                            self);
}

void
rod_canvas_set_plan (RodCanvas *self,
                     RodPlan   *plan)
{
  g_return_if_fail (ROD_IS_CANVAS (self));

  if (plan == self->plan)
    return;

  g_clear_pointer (&self->highlight, g_array_unref);
  g_clear_pointer (&self->plan, rod_plan_unref);
  if (plan != NULL)
    {
      self->plan = rod_plan_ref (plan);
      lay_out_net (self);
      self->fitted = TRUE;
      adw_animation_pause (self->animation);
      fit_view (self, &self->view);
    }
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

RodAffine
rod_canvas_get_net (RodCanvas *self,
                    guint      face)
{
  g_return_val_if_fail (ROD_IS_CANVAS (self), rod_affine_identity ());
  g_return_val_if_fail (self->plan != NULL, rod_affine_identity ());
  g_return_val_if_fail (face < self->plan->faces->len, rod_affine_identity ());

  return self->net[face];
}

RodStage
rod_canvas_get_stage (RodCanvas *self)
{
  g_return_val_if_fail (ROD_IS_CANVAS (self), ROD_STAGE_SET_OUT);

  return self->stage;
}

void
rod_canvas_set_stage (RodCanvas *self,
                      RodStage   stage)
{
  g_return_if_fail (ROD_IS_CANVAS (self));

  self->stage = stage;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
rod_canvas_set_highlight (RodCanvas *self,
                          GArray    *pieces)
{
  g_return_if_fail (ROD_IS_CANVAS (self));

  g_clear_pointer (&self->highlight, g_array_unref);
  if (pieces != NULL)
    self->highlight = g_array_ref (pieces);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
rod_canvas_fit (RodCanvas *self)
{
  RodCanvasView view;

  g_return_if_fail (ROD_IS_CANVAS (self));

  if (self->plan == NULL)
    return;

  view = self->view;
  fit_view (self, &view);
  self->fitted = TRUE;
  travel (self, &view);
}

void
rod_canvas_show_place (RodCanvas *self,
                       RodPlace   place)
{
  RodCanvasView view;
  RodPoint      low;
  RodPoint      high;
  double        scale;

  g_return_if_fail (ROD_IS_CANVAS (self));

  if (!rod_place_exists (place, self->plan))
    return;
  if (place.kind == ROD_PLACE_HOUSE)
    {
      rod_canvas_fit (self);
      return;
    }

  rod_canvas_place_extent (self, place, &low, &high);
  view = self->view;
  rod_canvas_view_show (&view, low, high, MARGIN + ROD_STRIP);
  if (place.kind != ROD_PLACE_FACE)
    view.scale /= SURROUNDINGS;
  /* Who looks closely already wants to stay close, as long as the place can be seen whole. */
  scale = MIN (view.scale, TRAVEL_SCALE);
  view.scale = CLAMP (self->view.scale, scale, view.scale);
  rod_canvas_view_hold (&view, self->low, self->high);
  self->fitted = FALSE;
  travel (self, &view);
}

void
rod_canvas_zoom (RodCanvas *self,
                 double     factor)
{
  g_return_if_fail (ROD_IS_CANVAS (self));

  if (self->plan == NULL)
    return;

  rod_canvas_view_zoom (&self->view, factor, self->view.width / 2, self->view.height / 2);
  rod_canvas_view_moved (self);
}

double
rod_canvas_get_scale (RodCanvas *self)
{
  g_return_val_if_fail (ROD_IS_CANVAS (self), 1);

  return self->view.scale;
}

void
rod_canvas_locate (RodCanvas *self,
                   RodPoint   point,
                   double    *x,
                   double    *y)
{
  RodPoint seen;

  g_return_if_fail (ROD_IS_CANVAS (self));
  g_return_if_fail (x != NULL && y != NULL);

  seen = rod_affine_apply (rod_canvas_view_affine (&self->view), point);
  *x = seen.x;
  *y = seen.y;
}

void
rod_canvas_select_at (RodCanvas *self,
                      double     x,
                      double     y)
{
  RodPlace place = rod_place_house ();

  g_return_if_fail (ROD_IS_CANVAS (self));

  if (self->plan == NULL || self->selection == NULL)
    return;

  if (!rod_canvas_find_sign (self, x, y, &place))
    rod_place_at (self->plan,
                  self->net,
                  rod_canvas_view_to_net (&self->view, x, y),
                  &place);
  rod_selection_set (self->selection, place, FALSE);
}
