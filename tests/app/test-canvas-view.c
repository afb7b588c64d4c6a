/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The camera of the drawing: properties that hold for any view, no window needed. */
#include "config.h"

#include <glib.h>
#include <math.h>

#include "app/rod-canvas-view.h"

#define N_CASES 500

static RodCanvasView
random_view (void)
{
  return (RodCanvasView){
    .centre = { g_test_rand_double_range (-50000, 50000), g_test_rand_double_range (-9000, 9000) },
    .scale = pow (10, g_test_rand_double_range (-3, 1)),
    .width = g_test_rand_int_range (200, 3000),
    .height = g_test_rand_int_range (200, 2000),
  };
}

static void
assert_close (double a,
              double b,
              double tolerance)
{
  g_assert_cmpfloat_with_epsilon (a, b, tolerance);
}

/* What lies under the pointer stays there. */
static void
test_zoom_holds_pointer (void)
{
  for (int i = 0; i < N_CASES; i++)
    {
      RodCanvasView view = random_view ();
      double        x = g_test_rand_double_range (0, view.width);
      double        y = g_test_rand_double_range (0, view.height);
      RodPoint      before = rod_canvas_view_to_net (&view, x, y);
      RodPoint      after;

      rod_canvas_view_zoom (&view, g_test_rand_double_range (0.2, 5), x, y);
      after = rod_affine_apply (rod_canvas_view_affine (&view), before);
      assert_close (after.x, x, 1e-6);
      assert_close (after.y, y, 1e-6);
    }
}

/* A pan moves every point by the same number of pixels, whatever the scale. */
static void
test_pan_moves_pixels (void)
{
  for (int i = 0; i < N_CASES; i++)
    {
      RodCanvasView view = random_view ();
      RodPoint      point = rod_canvas_view_to_net (&view, 100, 100);
      RodPoint      seen;

      rod_canvas_view_pan (&view, 17, -31);
      seen = rod_affine_apply (rod_canvas_view_affine (&view), point);
      assert_close (seen.x, 117, 1e-6);
      assert_close (seen.y, 69, 1e-6);
    }
}

/* A box that is shown lies within the margins and touches two of them. */
static void
test_show_fits (void)
{
  for (int i = 0; i < N_CASES; i++)
    {
      RodCanvasView view = random_view ();
      RodPoint      low = { g_test_rand_double_range (-9000, 9000), 500 };
      RodPoint      high = { low.x + g_test_rand_double_range (50, 90000), 7500 };
      RodPoint      upper_left;
      RodPoint      lower_right;
      RodAffine     map;

      rod_canvas_view_show (&view, low, high, 20);
      map = rod_canvas_view_affine (&view);
      upper_left = rod_affine_apply (map, (RodPoint){ low.x, high.y });
      lower_right = rod_affine_apply (map, (RodPoint){ high.x, low.y });
      g_assert_cmpfloat (upper_left.x, >=, 20 - 1e-6);
      g_assert_cmpfloat (upper_left.y, >=, 20 - 1e-6);
      g_assert_cmpfloat (lower_right.x, <=, view.width - 20 + 1e-6);
      g_assert_cmpfloat (lower_right.y, <=, view.height - 20 + 1e-6);
      assert_close (MIN (upper_left.x, upper_left.y), 20, 1e-6);
    }
}

/* However far the user pans, the middle of the widget stays on the net's box. */
static void
test_hold_keeps_house (void)
{
  const RodPoint low = { 0, 0 };
  const RodPoint high = { 20000, 6000 };

  for (int i = 0; i < N_CASES; i++)
    {
      RodCanvasView view = random_view ();

      view.scale *= pow (10, g_test_rand_double_range (-4, 4));
      rod_canvas_view_pan (&view, g_test_rand_double_range (-1e7, 1e7), 1e7);
      rod_canvas_view_hold (&view, low, high);
      g_assert_cmpfloat (view.centre.x, >=, low.x);
      g_assert_cmpfloat (view.centre.x, <=, high.x);
      g_assert_cmpfloat (view.centre.y, >=, low.y);
      g_assert_cmpfloat (view.centre.y, <=, high.y);
      g_assert_cmpfloat (view.scale * 20000, >=, 100);
      g_assert_cmpfloat (view.scale, <=, 20);
    }
}

/* A journey begins and ends where it should, and one point of the net rests on the screen, which is
 * what makes it look like one movement. */
static void
test_between_is_one_movement (void)
{
  for (int i = 0; i < N_CASES; i++)
    {
      RodCanvasView from = random_view ();
      RodCanvasView to = random_view ();
      RodCanvasView half;
      RodPoint      rest;
      RodPoint      seen;
      RodPoint      expected;

      to.width = from.width;
      to.height = from.height;
      half = rod_canvas_view_between (&from, &to, 0);
      assert_close (half.scale, from.scale, 1e-9 * from.scale);
      assert_close (half.centre.x, from.centre.x, 1e-4);
      half = rod_canvas_view_between (&from, &to, 1);
      assert_close (half.scale, to.scale, 1e-9 * to.scale);
      assert_close (half.centre.y, to.centre.y, 1e-4);

      /* Solves (rest − c1)·s1 = (rest − c2)·s2. */
      if (fabs (to.scale / from.scale - 1) < 0.01)
        continue;
      rest.x = (to.centre.x * to.scale - from.centre.x * from.scale) / (to.scale - from.scale);
      rest.y = (to.centre.y * to.scale - from.centre.y * from.scale) / (to.scale - from.scale);
      half = rod_canvas_view_between (&from, &to, 0.5);
      expected = rod_affine_apply (rod_canvas_view_affine (&from), rest);
      seen = rod_affine_apply (rod_canvas_view_affine (&half), rest);
      assert_close (seen.x, expected.x, 1e-6 * (1 + fabs (expected.x)));
      assert_close (seen.y, expected.y, 1e-6 * (1 + fabs (expected.y)));
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/app/canvas-view/zoom-holds-pointer", test_zoom_holds_pointer);
  g_test_add_func ("/app/canvas-view/pan-moves-pixels", test_pan_moves_pixels);
  g_test_add_func ("/app/canvas-view/show-fits", test_show_fits);
  g_test_add_func ("/app/canvas-view/hold-keeps-house", test_hold_keeps_house);
  g_test_add_func ("/app/canvas-view/between-is-one-movement", test_between_is_one_movement);

  return g_test_run ();
}
