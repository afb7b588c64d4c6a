/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include <math.h>

#include "sheets-fixture.h"
#include "sheets/rod-drawing.h"
#include "sheets/rod-mark-place.h"
#include "sheets/rod-trim-line.h"

/* A pixel is 10 mm of the house. */
#define PIXEL_MM 10.0
#define BORDER 20

typedef struct
{
  cairo_surface_t *surface;
  cairo_t         *cr;
  RodAffine        map;
  int              width;
  int              height;
} Picture;

static void
picture_init (Picture *picture,
              double   width_mm,
              double   height_mm)
{
  picture->width = (int) (width_mm / PIXEL_MM) + 2 * BORDER;
  picture->height = (int) (height_mm / PIXEL_MM) + 2 * BORDER;
  picture->surface =
    cairo_image_surface_create (CAIRO_FORMAT_RGB24, picture->width, picture->height);
  picture->cr = cairo_create (picture->surface);
  cairo_set_source_rgb (picture->cr, 1, 1, 1);
  cairo_paint (picture->cr);
  picture->map = (RodAffine){ 1 / PIXEL_MM, 0, BORDER, 0, -1 / PIXEL_MM, picture->height - BORDER };
}

static void
picture_clear (Picture *picture)
{
  cairo_destroy (picture->cr);
  cairo_surface_destroy (picture->surface);
}

/* How much of the picture is inked, in pixels; a pixel half covered counts half. */
static double
picture_ink (Picture *picture,
             guint32  ink)
{
  const guchar *data;
  int           stride = cairo_image_surface_get_stride (picture->surface);
  double        sum = 0;
  int           dark = (int) (ink & 0xff);

  cairo_surface_flush (picture->surface);
  data = cairo_image_surface_get_data (picture->surface);
  for (int y = 0; y < picture->height; y++)
    for (int x = 0; x < picture->width; x++)
      sum += (255.0 - data[y * stride + 4 * x]) / (255.0 - dark);

  return sum;
}

static double
ring_area (const RodPlan  *plan,
           const RodPiece *piece)
{
  double area = 0;

  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    area += rod_ring_area (plan->rings->points + plan->rings->ring_starts[r],
                           plan->rings->ring_starts[r + 1] - plan->rings->ring_starts[r]);

  return area;
}

/* What is inked is the area of the pieces, openings left blank; worked house A4. */
static void
test_board_area (void)
{
  RodDrawingOptions options;
  Picture           picture;
  Job               job;
  double            area = 0;
  RodInk            ink;

  job_init_worked (&job, "a4-window-and-door");
  picture_init (&picture, 5800, 2743);
  rod_drawing_options_init (&options);
  for (guint i = 0; i < job.plan->pieces->len; i++)
    area += ring_area (job.plan, rod_plan_piece (job.plan, i));
  g_assert_cmpfloat (area, >, 10e6);

  rod_drawing_boards (picture.cr, job.plan, 0, picture.map, &options);
  ink = rod_drawing_board_ink (rod_plan_piece (job.plan, 0)->colour, &options);
  g_assert_cmpfloat_with_epsilon (picture_ink (&picture, (guint32) lround (ink.blue * 255)) * 100,
                                  area,
                                  0.005 * area);
  picture_clear (&picture);
  job_clear (&job);
}

/* What lies outside the clip costs nothing and draws nothing. */
static void
test_culled (void)
{
  RodDrawingOptions options;
  Job               job;
  cairo_t          *cr = recording_new ();
  RodAffine         map = { 0.1, 0, 0, 0, -0.1, 0 };
  double            x, y, width, height;

  job_init_worked (&job, "a4-window-and-door");
  rod_drawing_options_init (&options);
  cairo_rectangle (cr, 5000, 5000, 10, 10);
  cairo_clip (cr);
  rod_drawing_boards (cr, job.plan, 0, map, &options);
  rod_drawing_joints (cr, job.plan, 0, map, &options);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat (width, ==, 0);
  cairo_destroy (cr);
  job_clear (&job);
}

static guint
count_marks (const Job *job,
             double     scale,
             gboolean   some)
{
  g_autoptr (RodLettering) lettering = rod_lettering_new ();
  RodDrawingOptions options;
  cairo_t          *cr = recording_new ();
  RodAffine         map = { scale, 0, 0, 0, -scale, 0 };
  guint             n;

  rod_drawing_options_init (&options);
  options.mark_some = some;
  n = rod_drawing_marks (cr, lettering, job->plan, 0, map, &options);
  cairo_destroy (cr);

  return n;
}

/* At 1:10 every piece has room for its mark; at 1:200, 1.25 mm for a board, none has, and with
 * mark_some every fifth course of the eleven and the first are marked: 1, 5 and 10. */
static void
test_marks (void)
{
  Job   job;
  guint marked = 0;

  job_init_worked (&job, "a4-window-and-door");
  g_assert_cmpuint (count_marks (&job, 1.0 / 10, FALSE), ==, job.plan->pieces->len);
  g_assert_cmpuint (count_marks (&job, 1.0 / 200, FALSE), ==, 0);
  for (guint i = 0; i < job.plan->pieces->len; i++)
    {
      const RodPiece *piece = rod_plan_piece (job.plan, i);

      marked += (piece->course == 1 || piece->course % 5 == 0) && piece->length_mm > 3500;
    }
  g_assert_cmpuint (marked, >=, 2);
  g_assert_cmpuint (count_marks (&job, 1.0 / 200, TRUE), >=, marked);
  g_assert_cmpuint (count_marks (&job, 1.0 / 200, TRUE), <, job.plan->pieces->len);
  job_clear (&job);
}

static gboolean
is_on_piece (const RodPlan  *plan,
             const RodPiece *piece,
             RodPoint        at)
{
  gboolean inside = FALSE;

  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    {
      guint    end = plan->rings->ring_starts[r + 1];
      RodPoint a = plan->rings->points[end - 1];

      for (guint i = plan->rings->ring_starts[r]; i < end; i++)
        {
          RodPoint b = plan->rings->points[i];

          if ((a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x))
            inside = !inside;
          a = b;
        }
    }

  return inside;
}

/* The band of a mark lies wholly on its piece: notched boards of A4, raked ones of A17, upright
 * ones of A3. */
static void
test_mark_places (void)
{
  static const char *const names[] = { "a4-window-and-door", "a17-gable", "a3-upright" };

  for (gsize n = 0; n < G_N_ELEMENTS (names); n++)
    {
      Job job;

      job_init_worked (&job, names[n]);
      for (guint i = 0; i < job.plan->pieces->len; i++)
        {
          const RodPiece *piece = rod_plan_piece (job.plan, i);
          RodMarkPlace    place;
          const double    height = 40;

          if (!rod_mark_place_find (job.plan, i, height, &place))
            continue;
          g_assert_cmpfloat (place.room_mm, <=, piece->length_mm + 0.1);
          /* Read from below or from the right. */
          g_assert_true (place.along.x > 1e-6 || place.along.y > 0);
          for (double along = -0.499; along < 0.5; along += 0.0998)
            for (double across = -0.49; across < 0.5; across += 0.49)
              {
                RodPoint at = { place.at.x + along * place.room_mm * place.along.x -
                                  across * height * place.along.y,
                                place.at.y + along * place.room_mm * place.along.y +
                                  across * height * place.along.x };

                g_assert_true (is_on_piece (job.plan, piece, at));
              }
        }
      job_clear (&job);
    }
}

/* A trim lies on the boards' side: nothing of the J trims of A4 is drawn outside the wall or inside
 * its openings. */
static void
test_trims (void)
{
  RodDrawingOptions options;
  Job               job;
  cairo_t          *cr = recording_new ();
  RodAffine         map = { 1, 0, 0, 0, -1, 0 };
  double            x, y, width, height;

  job_init_worked (&job, "a4-window-and-door");
  g_assert_cmpuint (job.plan->trims->len, >, 4);
  for (guint i = 0; i < job.plan->trims->len; i++)
    {
      const RodTrimRun *run = &g_array_index (job.plan->trims, RodTrimRun, i);
      g_autoptr (RodTrimLine) line = rod_trim_line_new (job.plan, run);
      RodPoint square = { -(run->to.y - run->from.y) / run->length_mm,
                          (run->to.x - run->from.x) / run->length_mm };
      double   off = line->reach_mm - 0.5 * run->trim->sight_mm;
      RodPoint at = { 0.5 * (run->from.x + run->to.x) + off * square.x,
                      0.5 * (run->from.y + run->to.y) + off * square.y };

      g_assert_true (rod_region_contains (rod_plan_field (job.plan, run->field)->clad, at));
    }
  rod_drawing_options_init (&options);
  rod_drawing_trims (cr, job.plan, 0, map, &options);
  recording_extent (cr, &x, &y, &width, &height);
  g_assert_cmpfloat (x, >=, -5);
  g_assert_cmpfloat (x + width, <=, 5800 + 5);
  cairo_destroy (cr);
  job_clear (&job);
}

/* Circles of openings and of a top: every trim keeps beside its arc, on the boards' side. A chord
 * would leave the middle of a half circle by its whole radius. */
static void
test_trims_on_arcs (void)
{
  Job   job;
  guint n_arcs = 0;

  job_init_worked (&job, "hard/curves");
  for (guint i = 0; i < job.plan->trims->len; i++)
    {
      const RodTrimRun *run = &g_array_index (job.plan->trims, RodTrimRun, i);
      const RodField   *field = rod_plan_field (job.plan, run->field);
      g_autoptr (RodTrimLine) line = rod_trim_line_new (job.plan, run);
      g_autoptr (GArray) band = rod_trim_line_band (line, line->reach_mm, run->trim->sight_mm);
      double length_mm = 0.0;

      for (guint k = 0; k + 1 < line->n_points; k++)
        length_mm += rod_point_distance (line->points[k], line->points[k + 1]);
      g_assert_cmpfloat_with_epsilon (length_mm, run->length_mm, 1e-6);
      g_assert_cmpuint (band->len, ==, 2 * line->n_points);
      if (line->n_points == 2)
        continue;
      n_arcs++;
      for (int k = 1; k < 8; k++)
        {
          RodPoint along;
          RodPoint at = rod_trim_line_place (line, k / 8.0, &along);
          double   off = line->reach_mm - 0.5 * run->trim->sight_mm;
          RodPoint inner = { at.x - off * along.y, at.y + off * along.x };

          g_assert_true (rod_region_contains (field->clad, inner));
        }
    }
  /* The top of A, three heads of arched openings, both halves of round ones at least. */
  g_assert_cmpuint (n_arcs, >=, 6);
  job_clear (&job);
}

static void
test_inks (void)
{
  RodDrawingOptions options;
  RodInk            ink = rod_ink_parse ("#ff8000");
  RodInk            odd = rod_ink_parse ("no colour");

  g_assert_cmpfloat_with_epsilon (ink.red, 1, 1e-6);
  g_assert_cmpfloat_with_epsilon (ink.green, 128 / 255.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (ink.blue, 0, 1e-6);
  g_assert_cmpfloat_with_epsilon (odd.red, odd.blue, 1e-6);
  g_assert_cmpfloat (rod_ink_luminance (rod_ink_parse ("#ffffff")), >, 0.99);
  g_assert_cmpfloat (rod_ink_luminance (rod_ink_parse ("#000000")), <, 0.01);

  rod_drawing_options_init (&options);
  options.grey = TRUE;
  ink = rod_drawing_board_ink (NULL, &options);
  g_assert_cmpfloat_with_epsilon (ink.red, ink.green, 1e-6);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/board-area", test_board_area);
  g_test_add_func ("/drawing/culled", test_culled);
  g_test_add_func ("/drawing/marks", test_marks);
  g_test_add_func ("/drawing/mark-places", test_mark_places);
  g_test_add_func ("/drawing/trims", test_trims);
  g_test_add_func ("/drawing/trims-on-arcs", test_trims_on_arcs);
  g_test_add_func ("/drawing/inks", test_inks);

  return g_test_run ();
}
