/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the drawing is moved: dragging pans, so do the wheel and two fingers; Ctrl and the wheel, or
 * a pinch, zoom about the pointer. Everything has a key as well. A press that does not move
 * selects.
 */
#include "config.h"

#include "app/rod-canvas-private.h"

#include <math.h>

/* One click of a wheel. */
#define WHEEL_STEP 60.0
#define WHEEL_ZOOM 1.2

/* Surface units (touchpads) for a doubling of the scale. */
#define TOUCHPAD_DOUBLING 120.0

/* One press of an arrow key, as a share of the widget. */
#define KEY_STEP 0.12
#define KEY_ZOOM 1.25

static void
pressed_cb (GtkGestureClick *gesture,
            int              n_press,
            double           x,
            double           y,
            RodCanvas       *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
released_cb (GtkGestureClick *gesture,
             int              n_press,
             double           x,
             double           y,
             RodCanvas       *self)
{
  rod_canvas_select_at (self, x, y);
  if (n_press == 2 && self->selection != NULL)
    rod_canvas_show_place (self, rod_selection_get (self->selection));
}

static void
drag_begin_cb (GtkGestureDrag *gesture,
               double          x,
               double          y,
               RodCanvas      *self)
{
  self->panned = (RodPoint){ 0, 0 };
}

static void
drag_update_cb (GtkGestureDrag *gesture,
                double          dx,
                double          dy,
                RodCanvas      *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  gboolean   begun = self->panned.x != 0 || self->panned.y != 0;

  if (self->plan == NULL ||
      (!begun && !gtk_drag_check_threshold (widget, 0, 0, (int) dx, (int) dy)))
    return;

  /* From here on it is no click. */
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  gtk_widget_set_cursor_from_name (widget, "grabbing");
  rod_canvas_view_pan (&self->view, dx - self->panned.x, dy - self->panned.y);
  self->panned = (RodPoint){ dx, dy };
  rod_canvas_view_moved (self);
}

static void
drag_end_cb (GtkGestureDrag *gesture,
             double          dx,
             double          dy,
             RodCanvas      *self)
{
  gtk_widget_set_cursor (GTK_WIDGET (self), NULL);
}

static void
pinch_begin_cb (GtkGesture       *gesture,
                GdkEventSequence *sequence,
                RodCanvas        *self)
{
  self->pinched = 1;
  gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
pinch_cb (GtkGestureZoom *gesture,
          double          scale,
          RodCanvas      *self)
{
  double x = self->view.width / 2;
  double y = self->view.height / 2;

  if (self->plan == NULL || scale <= 0)
    return;

  if (gtk_gesture_is_recognized (GTK_GESTURE (gesture)))
    gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y);
  rod_canvas_view_zoom (&self->view, scale / self->pinched, x, y);
  self->pinched = scale;
  rod_canvas_view_moved (self);
}

static void
motion_cb (GtkEventControllerMotion *controller,
           double                    x,
           double                    y,
           RodCanvas                *self)
{
  self->pointer = (RodPoint){ x, y };
}

/* Wheels count clicks, touchpads pixels. */
static gboolean
is_wheel (GtkEventControllerScroll *scroll)
{
  GtkEventController *controller = GTK_EVENT_CONTROLLER (scroll);

  return gtk_event_controller_get_current_event (controller) == NULL ||
         gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_WHEEL;
}

static gboolean
scroll_cb (GtkEventControllerScroll *controller,
           double                    dx,
           double                    dy,
           RodCanvas                *self)
{
  GdkModifierType state =
    gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
  gboolean wheel = is_wheel (controller);

  if (self->plan == NULL)
    return GDK_EVENT_PROPAGATE;

  if (state & GDK_CONTROL_MASK)
    {
      double factor = wheel ? pow (WHEEL_ZOOM, -dy) : exp2 (-dy / TOUCHPAD_DOUBLING);

      rod_canvas_view_zoom (&self->view, factor, self->pointer.x, self->pointer.y);
    }
  else
    {
      double step = wheel ? WHEEL_STEP : 1;

      rod_canvas_view_pan (&self->view, -dx * step, -dy * step);
    }
  rod_canvas_view_moved (self);

  return GDK_EVENT_STOP;
}

void
rod_canvas_add_input (RodCanvas *self)
{
  GtkWidget          *widget = GTK_WIDGET (self);
  GtkGesture         *click = gtk_gesture_click_new ();
  GtkGesture         *drag = gtk_gesture_drag_new ();
  GtkGesture         *pinch = gtk_gesture_zoom_new ();
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *scroll =
    gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);

  g_signal_connect (click, "pressed", G_CALLBACK (pressed_cb), self);
  g_signal_connect (click, "released", G_CALLBACK (released_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));

  /* Any button: the middle one is what many are used to. */
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), 0);
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));

  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_begin_cb), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinch_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));

  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), self);
  gtk_widget_add_controller (widget, motion);
  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  gtk_widget_add_controller (widget, scroll);
}

static gboolean
pan_by_key_cb (GtkWidget *widget,
               GVariant  *args,
               gpointer   user_data)
{
  RodCanvas *self = ROD_CANVAS (widget);
  int        right;
  int        down;

  if (self->plan == NULL)
    return GDK_EVENT_PROPAGATE;

  g_variant_get (args, "(ii)", &right, &down);
  rod_canvas_view_pan (&self->view,
                       -right * KEY_STEP * self->view.width,
                       -down * KEY_STEP * self->view.height);
  rod_canvas_view_moved (self);

  return GDK_EVENT_STOP;
}

static gboolean
zoom_by_key_cb (GtkWidget *widget,
                GVariant  *args,
                gpointer   user_data)
{
  int steps;

  g_variant_get (args, "(i)", &steps);
  rod_canvas_zoom (ROD_CANVAS (widget), pow (KEY_ZOOM, steps));

  return GDK_EVENT_STOP;
}

static gboolean
fit_by_key_cb (GtkWidget *widget,
               GVariant  *args,
               gpointer   user_data)
{
  rod_canvas_fit (ROD_CANVAS (widget));

  return GDK_EVENT_STOP;
}

static void
bind_arrow (GtkWidgetClass *klass,
            guint           key,
            guint           keypad_key,
            int             right,
            int             down)
{
  gtk_widget_class_add_binding (klass, key, 0, pan_by_key_cb, "(ii)", right, down);
  gtk_widget_class_add_binding (klass, keypad_key, 0, pan_by_key_cb, "(ii)", right, down);
}

static void
bind_zoom (GtkWidgetClass *klass,
           guint           key,
           int             steps)
{
  gtk_widget_class_add_binding (klass, key, 0, zoom_by_key_cb, "(i)", steps);
}

void
rod_canvas_add_shortcuts (GtkWidgetClass *klass)
{
  bind_arrow (klass, GDK_KEY_Left, GDK_KEY_KP_Left, -1, 0);
  bind_arrow (klass, GDK_KEY_Right, GDK_KEY_KP_Right, 1, 0);
  bind_arrow (klass, GDK_KEY_Up, GDK_KEY_KP_Up, 0, -1);
  bind_arrow (klass, GDK_KEY_Down, GDK_KEY_KP_Down, 0, 1);
  bind_zoom (klass, GDK_KEY_plus, 1);
  bind_zoom (klass, GDK_KEY_equal, 1);
  bind_zoom (klass, GDK_KEY_KP_Add, 1);
  bind_zoom (klass, GDK_KEY_minus, -1);
  bind_zoom (klass, GDK_KEY_KP_Subtract, -1);
  gtk_widget_class_add_binding (klass, GDK_KEY_0, 0, fit_by_key_cb, NULL);
  gtk_widget_class_add_binding (klass, GDK_KEY_KP_0, 0, fit_by_key_cb, NULL);
}
