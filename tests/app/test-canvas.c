/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing: what is under a point, what a click selects, how it is moved, and its colours. */
#include "config.h"

#include <math.h>

#include "app-fixture.h"
#include "app/rod-canvas-palette.h"
#include "app/rod-finding-item.h"
#include "sheets/rod-drawing.h"
#include "sheets/rod-mark-place.h"
#include "sheets/rod-net-layout.h"

/* Larger than the reach of a finding's sign. */
#define SIGN_CLEAR 16.0

static RodPoint
net_point (RodCanvas     *canvas,
           const RodPlan *plan,
           guint          piece,
           RodPoint       at)
{
  return rod_affine_apply (rod_canvas_get_net (canvas, rod_place_piece (plan, piece).face), at);
}

/* A point in the middle of a piece is found to be on that piece, with no two on top of each other
 * but linings, which lie before their walls' openings. */
static void
test_place_at (void)
{
  RodWindow            *window = app_open_example ();
  RodPlan              *plan = rod_document_get_plan (rod_window_get_document (window));
  RodCanvas            *canvas = rod_house_view_get_canvas (rod_window_get_view (window));
  g_autofree RodAffine *net = g_new (RodAffine, plan->faces->len);
  guint                 n_tried = 0;

  for (guint i = 0; i < plan->faces->len; i++)
    net[i] = rod_canvas_get_net (canvas, i);

  for (guint i = 0; i < plan->pieces->len; i++)
    {
      RodMarkPlace at;
      RodPlace     place;

      if (!rod_mark_place_find (plan, i, 10, &at))
        continue;
      n_tried++;
      g_assert_true (rod_place_at (plan, net, net_point (canvas, plan, i, at.at), &place));
      g_assert_cmpint (place.kind, ==, ROD_PLACE_PIECE);
      g_assert_cmpuint (place.index, ==, i);
    }
  g_assert_cmpuint (n_tried, >, plan->pieces->len / 2);
  app_close_window (window);
}

static gboolean
sign_is_near (RodCanvas  *canvas,
              RodPlan    *plan,
              GListModel *findings,
              double      x,
              double      y)
{
  for (guint i = 0; i < g_list_model_get_n_items (findings); i++)
    {
      g_autoptr (RodFindingItem) item = g_list_model_get_item (findings, i);
      const RodFinding *finding = rod_finding_item_get (item);
      RodPlace          place = rod_place_of_finding (plan, finding);
      RodPoint          low;
      RodPoint          high;
      RodPoint          at;
      double            sign_x;
      double            sign_y;

      if (place.kind == ROD_PLACE_HOUSE)
        continue;
      rod_place_extent (place, plan, rod_canvas_get_net (canvas, place.face), &low, &high);
      at = (RodPoint){ (low.x + high.x) / 2, (low.y + high.y) / 2 };
      if (finding->has_at)
        at = rod_affine_apply (rod_canvas_get_net (canvas, (guint) finding->face), finding->at);
      rod_canvas_locate (canvas, at, &sign_x, &sign_y);
      if (hypot (sign_x - x, sign_y - y) < SIGN_CLEAR)
        return TRUE;
    }

  return FALSE;
}

static void
test_click (void)
{
  RodWindow    *window = app_open_studio ();
  RodHouseView *view = rod_window_get_view (window);
  RodDocument  *document = rod_window_get_document (window);
  RodPlan      *plan = rod_document_get_plan (document);
  RodCanvas    *canvas = rod_house_view_get_canvas (view);
  RodSelection *selection = rod_house_view_get_selection (view);
  guint         n_tried = 0;

  for (guint i = 0; i < plan->pieces->len; i++)
    {
      RodMarkPlace at;
      double       x;
      double       y;

      if (!rod_mark_place_find (plan, i, 10, &at))
        continue;
      rod_canvas_locate (canvas, net_point (canvas, plan, i, at.at), &x, &y);
      if (sign_is_near (canvas, plan, rod_document_get_findings (document), x, y))
        continue;
      n_tried++;
      rod_canvas_select_at (canvas, x, y);
      g_assert_true (rod_place_equal (rod_selection_get (selection), rod_place_piece (plan, i)));
    }
  g_assert_cmpuint (n_tried, >, plan->pieces->len / 2);

  /* Beside everything: the house. */
  rod_canvas_select_at (canvas, 1, 1);
  g_assert_true (rod_place_equal (rod_selection_get (selection), rod_place_house ()));
  app_close_window (window);
}

/* A click on a finding's sign selects what the finding is about. */
static void
test_click_sign (void)
{
  RodWindow    *window = app_open_example ();
  RodHouseView *view = rod_window_get_view (window);
  RodDocument  *document = rod_window_get_document (window);
  RodCanvas    *canvas = rod_house_view_get_canvas (view);
  GListModel   *findings = rod_document_get_findings (document);
  guint         n_tried = 0;

  for (guint i = 0; i < g_list_model_get_n_items (findings); i++)
    {
      g_autoptr (RodFindingItem) item = g_list_model_get_item (findings, i);
      const RodFinding *finding = rod_finding_item_get (item);
      RodPoint          at;
      double            x;
      double            y;

      if (finding->face < 0 || !finding->has_at)
        continue;
      at = rod_affine_apply (rod_canvas_get_net (canvas, (guint) finding->face), finding->at);
      rod_canvas_locate (canvas, at, &x, &y);
      rod_canvas_select_at (canvas, x, y);
      g_assert_cmpint (rod_selection_get (rod_house_view_get_selection (view)).kind,
                       !=,
                       ROD_PLACE_HOUSE);
      n_tried++;
    }
  g_assert_cmpuint (n_tried, >, 0);
  app_close_window (window);
}

static GtkEventController *
find_controller (GtkWidget *widget,
                 GType      type)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (G_OBJECT_TYPE (controller) == type)
        return controller; /* the widget keeps it */
    }
  g_assert_not_reached ();

  return NULL;
}

static void
test_drag_and_zoom (void)
{
  RodWindow          *window = app_open_studio ();
  RodCanvas          *canvas = rod_house_view_get_canvas (rod_window_get_view (window));
  GtkEventController *drag = find_controller (GTK_WIDGET (canvas), GTK_TYPE_GESTURE_DRAG);
  double              scale = rod_canvas_get_scale (canvas);
  double              x;
  double              y;
  double              moved_x;
  double              moved_y;

  rod_canvas_zoom (canvas, 2);
  g_assert_cmpfloat_with_epsilon (rod_canvas_get_scale (canvas), 2 * scale, 1e-9);
  rod_canvas_locate (canvas, (RodPoint){ 0, 0 }, &x, &y);
  g_signal_emit_by_name (drag, "drag-begin", 200.0, 200.0);
  g_signal_emit_by_name (drag, "drag-update", 40.0, -25.0);
  g_signal_emit_by_name (drag, "drag-update", 60.0, -30.0);
  g_signal_emit_by_name (drag, "drag-end", 60.0, -30.0);
  rod_canvas_locate (canvas, (RodPoint){ 0, 0 }, &moved_x, &moved_y);
  g_assert_cmpfloat_with_epsilon (moved_x - x, 60, 1e-6);
  g_assert_cmpfloat_with_epsilon (moved_y - y, -30, 1e-6);

  /* A trembling hand does not drag. */
  g_signal_emit_by_name (drag, "drag-begin", 200.0, 200.0);
  g_signal_emit_by_name (drag, "drag-update", 2.0, 1.0);
  g_signal_emit_by_name (drag, "drag-end", 2.0, 1.0);
  rod_canvas_locate (canvas, (RodPoint){ 0, 0 }, &x, &y);
  g_assert_cmpfloat_with_epsilon (moved_x, x, 1e-9);

  rod_canvas_fit (canvas);
  app_settle (window);
  g_assert_cmpfloat_with_epsilon (rod_canvas_get_scale (canvas), scale, 1e-9);
  app_close_window (window);
}

static void
test_scroll_and_pinch (void)
{
  RodWindow          *window = app_open_studio ();
  RodCanvas          *canvas = rod_house_view_get_canvas (rod_window_get_view (window));
  GtkEventController *scroll =
    find_controller (GTK_WIDGET (canvas), GTK_TYPE_EVENT_CONTROLLER_SCROLL);
  GtkEventController *pinch = find_controller (GTK_WIDGET (canvas), GTK_TYPE_GESTURE_ZOOM);
  gboolean            handled = FALSE;
  double              scale;
  double              y;
  double              moved_y;
  double              x;

  rod_canvas_zoom (canvas, 3);
  scale = rod_canvas_get_scale (canvas);
  rod_canvas_locate (canvas, (RodPoint){ 0, 0 }, &x, &y);
  g_signal_emit_by_name (scroll, "scroll", 0.0, 1.0, &handled);
  g_assert_true (handled);
  rod_canvas_locate (canvas, (RodPoint){ 0, 0 }, &x, &moved_y);
  g_assert_cmpfloat (moved_y, <, y);

  g_signal_emit_by_name (pinch, "begin", NULL);
  g_signal_emit_by_name (pinch, "scale-changed", 1.2);
  g_signal_emit_by_name (pinch, "scale-changed", 1.5);
  g_assert_cmpfloat_with_epsilon (rod_canvas_get_scale (canvas), 1.5 * scale, 1e-9);
  app_close_window (window);
}

static void
pixel_at (GdkTexture *texture,
          double      x,
          double      y,
          guchar     *rgb)
{
  int                width = gdk_texture_get_width (texture);
  int                height = gdk_texture_get_height (texture);
  g_autofree guchar *data = g_malloc ((gsize) width * height * 4);
  const guint32     *pixel;

  gdk_texture_download (texture, data, (gsize) width * 4);
  pixel = (const guint32 *) (gpointer) data + (gsize) y * width + (gsize) x;
  rgb[0] = *pixel >> 16 & 0xff;
  rgb[1] = *pixel >> 8 & 0xff;
  rgb[2] = *pixel & 0xff;
}

static guint
find_wide_piece (const RodPlan *plan,
                 RodMarkPlace  *at)
{
  for (guint i = 0; i < plan->pieces->len; i++)
    if (rod_plan_face (plan, rod_place_piece (plan, i).face)->opening < 0 &&
        rod_plan_piece (plan, i)->length_mm > 1500 &&
        rod_mark_place_find (plan, i, 60, at))
      return i;
  g_assert_not_reached ();

  return 0;
}

/* A board has the colour of the house file, in the light and in the dark style, and none in the
 * survey. */
static void
test_colours (void)
{
  static const AdwColorScheme schemes[] = {
    ADW_COLOR_SCHEME_FORCE_LIGHT,
    ADW_COLOR_SCHEME_FORCE_DARK,
  };
  RodWindow   *window = app_open_studio ();
  RodPlan     *plan = rod_document_get_plan (rod_window_get_document (window));
  RodCanvas   *canvas = rod_house_view_get_canvas (rod_window_get_view (window));
  RodMarkPlace at;
  guint        piece = find_wide_piece (plan, &at);
  RodInk       ink = rod_ink_parse (rod_plan_piece (plan, piece)->colour->rgb);
  RodPoint     point = net_point (canvas, plan, piece, at.at);
  guchar       survey[2][3];

  for (guint i = 0; i < G_N_ELEMENTS (schemes); i++)
    {
      g_autoptr (GdkTexture) picture = NULL;
      g_autoptr (GdkTexture) bare = NULL;
      guchar rgb[3];
      double x;
      double y;

      adw_style_manager_set_color_scheme (adw_style_manager_get_default (), schemes[i]);
      rod_canvas_set_stage (canvas, ROD_STAGE_SET_OUT);
      rod_canvas_show_place (canvas, rod_place_piece (plan, piece));
      app_settle (window);
      /* Above the mark. */
      point.y += 0.3 * rod_plan_field (plan, rod_plan_piece (plan, piece)->field)->board->cover_mm;
      rod_canvas_locate (canvas, point, &x, &y);
      point = net_point (canvas, plan, piece, at.at);

      picture = app_picture (GTK_WIDGET (canvas));
      pixel_at (picture, x, y, rgb);
      g_assert_cmpfloat_with_epsilon (rgb[0], 255 * ink.red, 2);
      g_assert_cmpfloat_with_epsilon (rgb[1], 255 * ink.green, 2);
      g_assert_cmpfloat_with_epsilon (rgb[2], 255 * ink.blue, 2);

      rod_canvas_set_stage (canvas, ROD_STAGE_SURVEY);
      app_settle (window);
      bare = app_picture (GTK_WIDGET (canvas));
      pixel_at (bare, x, y, survey[i]);
    }
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_DEFAULT);
  g_assert_cmpint (survey[0][0], >, 200);
  g_assert_cmpint (survey[1][0], <, 80);
  app_close_window (window);
}

/* Each stage draws something of its own. */
static void
test_stages_differ (void)
{
  RodWindow     *window = app_open_studio ();
  RodCanvas     *canvas = rod_house_view_get_canvas (rod_window_get_view (window));
  const RodStage stages[] = { ROD_STAGE_SURVEY,
                              ROD_STAGE_SET_OUT,
                              ROD_STAGE_FRAME,
                              ROD_STAGE_ORDER };
  g_autoptr (GPtrArray) seen = g_ptr_array_new_with_free_func ((GDestroyNotify) g_bytes_unref);

  for (guint i = 0; i < G_N_ELEMENTS (stages); i++)
    {
      g_autoptr (GdkTexture) picture = NULL;
      GBytes *bytes;

      rod_canvas_set_stage (canvas, stages[i]);
      app_settle (window);
      picture = app_picture (GTK_WIDGET (canvas));
      bytes = gdk_texture_save_to_png_bytes (picture);
      for (guint k = 0; k < seen->len; k++)
        g_assert_false (g_bytes_equal (bytes, g_ptr_array_index (seen, k)));
      g_ptr_array_add (seen, bytes);
    }
  app_close_window (window);
}

static void
test_accessible (void)
{
  RodWindow       *window = app_open_studio ();
  RodHouseView    *view = rod_window_get_view (window);
  RodPlan         *plan = rod_document_get_plan (rod_window_get_document (window));
  RodCanvas       *canvas = rod_house_view_get_canvas (view);
  RodPlace         place = rod_place_piece (plan, 0);
  g_autofree char *words = rod_place_describe (place, plan);

  gtk_test_accessible_assert_role (canvas, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_test_accessible_assert_property (canvas,
                                       GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "Drawing of the unfolded house");
  rod_selection_set (rod_house_view_get_selection (view), place, FALSE);
  gtk_test_accessible_assert_property (canvas, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words);
  g_assert_nonnull (strstr (words, rod_plan_piece (plan, 0)->mark));
  app_close_window (window);
}

/* The rows of the net suit the place that the drawing has got. */
static void
test_net_fits (void)
{
  RodWindow            *window = app_open_example ();
  RodPlan              *plan = rod_document_get_plan (rod_window_get_document (window));
  RodCanvas            *canvas = rod_house_view_get_canvas (rod_window_get_view (window));
  RodPoint              size;
  g_autofree RodAffine *net =
    rod_net_layout (plan,
                    gtk_widget_get_width (GTK_WIDGET (canvas)),
                    gtk_widget_get_height (GTK_WIDGET (canvas)),
                    &size);

  for (guint i = 0; i < plan->faces->len; i++)
    {
      RodAffine shown = rod_canvas_get_net (canvas, i);

      g_assert_cmpfloat (shown.x0, ==, net[i].x0);
      g_assert_cmpfloat (shown.y0, ==, net[i].y0);
    }
  app_close_window (window);
}

/* Contrast after WCAG 2.2, "contrast ratio"; its level AA asks for 4.5 with letters. */
static double
contrast (RodInk a,
          RodInk b)
{
  double of_a = rod_ink_lightness (a) + 0.05;
  double of_b = rod_ink_lightness (b) + 0.05;

  return MAX (of_a, of_b) / MIN (of_a, of_b);
}

static void
assert_readable (const RodCanvasPalette *palette)
{
  const RodInk pairs[][2] = {
    { palette->ink, palette->surface },
    { palette->ink, palette->ground },
    { palette->faint, palette->surface },
    { palette->faint, palette->ground },
    { palette->chalk, palette->ground },
    { palette->chalk, palette->surface },
    { palette->wood_ink, palette->wood },
    { palette->batten, palette->surface },
    { palette->on_severity, palette->severity[ROD_SEVERITY_NOTE] },
    { palette->on_severity, palette->severity[ROD_SEVERITY_SHOULD] },
    { palette->on_severity, palette->severity[ROD_SEVERITY_MUST] },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    g_assert_cmpfloat (contrast (pairs[i][0], pairs[i][1]), >=, 4.5);
}

static void
test_contrast (void)
{
  static const AdwColorScheme schemes[] = {
    ADW_COLOR_SCHEME_FORCE_LIGHT,
    ADW_COLOR_SCHEME_FORCE_DARK,
  };
  RodWindow *window = app_open_studio ();
  GtkWidget *canvas = GTK_WIDGET (rod_house_view_get_canvas (rod_window_get_view (window)));
  double     grounds[G_N_ELEMENTS (schemes)];

  for (guint i = 0; i < G_N_ELEMENTS (schemes); i++)
    {
      RodCanvasPalette palette;

      adw_style_manager_set_color_scheme (adw_style_manager_get_default (), schemes[i]);
      app_settle (window);
      rod_canvas_palette_init (&palette, canvas);
      assert_readable (&palette);
      grounds[i] = rod_ink_lightness (palette.ground);
    }
  g_assert_cmpfloat (grounds[0], >, grounds[1]);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_DEFAULT);
  app_close_window (window);
}

int
main (int    argc,
      char **argv)
{
  if (!app_start (&argc, &argv))
    return 77;

  g_test_add_func ("/app/canvas/place-at", test_place_at);
  g_test_add_func ("/app/canvas/click", test_click);
  g_test_add_func ("/app/canvas/click-sign", test_click_sign);
  g_test_add_func ("/app/canvas/drag-and-zoom", test_drag_and_zoom);
  g_test_add_func ("/app/canvas/scroll-and-pinch", test_scroll_and_pinch);
  g_test_add_func ("/app/canvas/colours", test_colours);
  g_test_add_func ("/app/canvas/stages-differ", test_stages_differ);
  g_test_add_func ("/app/canvas/accessible", test_accessible);
  g_test_add_func ("/app/canvas/contrast", test_contrast);
  g_test_add_func ("/app/canvas/net-fits", test_net_fits);

  return g_test_run ();
}
