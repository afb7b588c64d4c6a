/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What holds for every plan, whatever the house: tried on random houses with gables, L shapes,
 * sloping bases, openings with and without reveals, all four systems and any direction of boards.
 */

#include "config.h"

#include <math.h>

#include "engine/files/rod-file.h"
#include "engine/frame/rod-supports.h"
#include "engine/plan/rod-plan.h"
#include "engine/plan/rod-reckoning.h"
#include "engine/rod-limits.h"

#define N_HOUSES 120

/* Strips may lose remnants thinner than ROD_REMNANT_MM and corners move by ROD_LINE_SNAP_MM: over a
 * wall's perimeter and joint lines that is far less than this. */
#define AREA_TOLERANCE_MM2 2000.0

static const char *const systems[] = {
  "hollow-board", "solid-board", "timber-board", "wide-panel"
};

/* A random wall, told in a way that can be written down mirrored. */
typedef struct
{
  double   width;
  double   left;
  double   right;
  double   apex;  /* above the sides; 0 for a flat top */
  double   slope; /* fall of the base towards the right */
  double   direction;
  gboolean from_right;
  guint    n_windows;
  struct
  {
    double   x, y, width, height;
    gboolean reveal;
  } windows[3];
} Wall;

static Wall
random_wall (void)
{
  static const double directions[] = { 0, 0, 0, 90, 90, 45, -30 };
  Wall                wall = { 0 };
  double              x = 400;

  wall.width = g_test_rand_int_range (2000, 14000);
  wall.left = g_test_rand_int_range (2300, 5600);
  wall.right = g_test_rand_bit () ? wall.left : g_test_rand_int_range (2300, 5600);
  wall.apex = g_test_rand_int_range (0, 3) == 0 ? g_test_rand_int_range (800, 3500) : 0;
  wall.slope = g_test_rand_int_range (0, 4) == 0 ? g_test_rand_int_range (50, 400) : 0;
  wall.direction = directions[g_test_rand_int_range (0, G_N_ELEMENTS (directions))];
  wall.from_right = g_test_rand_bit ();
  while (wall.n_windows < 3 && x + 1200 < wall.width)
    {
      double width = g_test_rand_int_range (500, 2200);

      if (x + width + 400 > wall.width)
        break;
      wall.windows[wall.n_windows].x = x;
      wall.windows[wall.n_windows].y = g_test_rand_int_range (600, 1000);
      wall.windows[wall.n_windows].width = width;
      wall.windows[wall.n_windows].height = g_test_rand_int_range (600, 1100);
      wall.windows[wall.n_windows].reveal = g_test_rand_bit ();
      wall.n_windows++;
      x += width + g_test_rand_int_range (400, 1800);
    }
  return wall;
}

static void
write_corner (GString    *json,
              const Wall *wall,
              gboolean    mirrored,
              gboolean    first,
              double      x,
              double      y,
              const char *edge)
{
  g_string_append_printf (json,
                          "%s{\"x\": %.3f, \"y\": %.3f, \"edge\": \"%s\"}",
                          first ? "" : ", ",
                          mirrored ? wall->width - x : x,
                          y,
                          edge);
}

static void
write_outline (GString    *json,
               const Wall *wall,
               gboolean    mirrored)
{
  if (!mirrored)
    {
      write_corner (json, wall, FALSE, TRUE, 0, 0, "base");
      write_corner (json, wall, FALSE, FALSE, wall->width, -wall->slope, "right");
      write_corner (json, wall, FALSE, FALSE, wall->width, wall->right, "top");
      if (wall->apex > 0)
        write_corner (json,
                      wall,
                      FALSE,
                      FALSE,
                      wall->width / 2,
                      MAX (wall->left, wall->right) + wall->apex,
                      "top2");
      write_corner (json, wall, FALSE, FALSE, 0, wall->left, "left");
      return;
    }
  write_corner (json, wall, TRUE, TRUE, wall->width, -wall->slope, "base");
  write_corner (json, wall, TRUE, FALSE, 0, 0, "right");
  write_corner (json, wall, TRUE, FALSE, 0, wall->left, "top");
  if (wall->apex > 0)
    write_corner (json,
                  wall,
                  TRUE,
                  FALSE,
                  wall->width / 2,
                  MAX (wall->left, wall->right) + wall->apex,
                  "top2");
  write_corner (json, wall, TRUE, FALSE, wall->width, wall->right, "left");
}

static void
write_wall (GString    *json,
            const Wall *wall,
            const char *id,
            gboolean    mirrored,
            double      level)
{
  double direction = mirrored && wall->direction < 90 ? -wall->direction : wall->direction;

  g_string_append_printf (json,
                          "{\"id\": \"%s\", \"kind\": \"wall\", \"system\": \"s\", "
                          "\"build_up_mm\": 50, \"level_mm\": %.1f, "
                          "\"direction_deg\": %.1f, \"laid_from\": \"%s\", \"outline\": [",
                          id,
                          level,
                          direction,
                          wall->from_right != mirrored ? "right" : "left");
  write_outline (json, wall, mirrored);
  g_string_append (json, "], \"openings\": [");
  for (guint w = 0; w < wall->n_windows; w++)
    {
      double x = wall->windows[w].x;

      if (mirrored)
        x = wall->width - x - wall->windows[w].width;
      g_string_append_printf (
        json,
        "%s{\"id\": \"w%u\", \"x\": %.1f, \"y\": %.1f, \"width_mm\": %.1f, \"height_mm\": %.1f%s}",
        w > 0 ? ", " : "",
        w,
        x,
        wall->windows[w].y,
        wall->windows[w].width,
        wall->windows[w].height,
        wall->windows[w].reveal
          ? ", \"reveal\": {\"depth_mm\": 140, \"build_up_mm\": 20, \"sill_rise_mm\": 20}"
          : "");
    }
  g_string_append (json, "]}");
}

typedef struct
{
  const char *system;
  Wall        walls[2];
} Sample;

static Sample
random_sample (void)
{
  Sample sample = { .system = systems[g_test_rand_int_range (0, G_N_ELEMENTS (systems))] };

  sample.walls[0] = random_wall ();
  sample.walls[1] = random_wall ();
  return sample;
}

static RodPlan *
plan_text (const char *text)
{
  g_autoptr (GError) error = NULL;
  RodHouse *house = rod_house_parse (text, -1, NULL, &error);
  RodPlan  *plan;

  g_assert_no_error (error);
  plan = rod_plan_new (house);
  rod_record_unref (house);
  return plan;
}

/* Two walls round a corner. @swapped writes the second one first; @mirrored turns the house over,
 * which also swaps left and right edges at the join. */
static RodPlan *
plan_sample (const Sample *sample,
             gboolean      mirrored,
             gboolean      swapped,
             double        level)
{
  g_autoptr (GString) json =
    g_string_new ("{\"format\": \"storeyrod-house\", \"version\": 1, \"name\": \"sample\", ");
  const char *own = mirrored ? "left" : "right";
  const char *other = mirrored ? "right" : "left";

  g_string_append_printf (
    json, "\"systems\": [{\"id\": \"s\", \"from\": \"%s\"}], \"surfaces\": [", sample->system);
  write_wall (json, &sample->walls[swapped ? 1 : 0], swapped ? "b" : "a", mirrored, level);
  g_string_append (json, ", ");
  write_wall (json, &sample->walls[swapped ? 0 : 1], swapped ? "a" : "b", mirrored, level);
  g_string_append_printf (
    json,
    "], \"joins\": [{\"id\": \"j\", \"a\": {\"surface\": \"a\", \"edge\": \"%s\"}, "
    "\"b\": {\"surface\": \"b\", \"edge\": \"%s\"}, \"fold_deg\": 90}]}",
    own,
    other);
  return plan_text (json->str);
}

static RodPlan *
plan_random (void)
{
  Sample sample = random_sample ();

  return plan_sample (&sample, FALSE, FALSE, 0.0);
}

static double
ring_area (const RodRegion *rings,
           guint            ring)
{
  guint start = rings->ring_starts[ring];

  return rod_ring_area (rings->points + start, rings->ring_starts[ring + 1] - start);
}

static double
piece_area (const RodPlan  *plan,
            const RodPiece *piece)
{
  double area = 0.0;

  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    area += ring_area (plan->rings, r);
  return area;
}

static void
test_areas_add_up (void)
{
  for (int n = 0; n < N_HOUSES; n++)
    {
      g_autoptr (RodPlan) plan = plan_random ();

      for (guint f = 0; f < plan->fields->len; f++)
        {
          const RodField *field = rod_plan_field (plan, f);
          g_autoptr (RodStrips) strips =
            rod_strips_cut (field->pocket, field->phase_mm, field->board->cover_mm);
          double pocket = rod_region_area (field->pocket);
          double cut = 0.0, sawn = 0.0;

          /* Courses fill what trims leave, trims lie within the clad area, and sawing only takes
           * away. */
          for (guint r = 0; r < strips->rings->n_rings; r++)
            cut += ring_area (strips->rings, r);
          g_assert_cmpfloat_with_epsilon (cut, pocket, AREA_TOLERANCE_MM2);
          g_assert_cmpfloat (pocket, <=, rod_region_area (field->clad) + AREA_TOLERANCE_MM2);
          for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
            sawn += piece_area (plan, rod_plan_piece (plan, p));
          g_assert_cmpfloat (sawn, <=, pocket + AREA_TOLERANCE_MM2);
          /* Ends, notches and hidden remnants cost little of a wall. */
          if (pocket > 4.0e6)
            g_assert_cmpfloat (sawn, >=, 0.93 * pocket);
        }
    }
}

/* The surface's outline is made of pieces, openings, and the strips that gaps, trims and clearances
 * take along the edges; nothing is left over and nothing is counted twice. */
static void
test_pieces_do_not_overlap (void)
{
  for (int n = 0; n < N_HOUSES; n++)
    {
      g_autoptr (RodPlan) plan = plan_random ();

      for (guint f = 0; f < plan->fields->len; f++)
        {
          const RodField *field = rod_plan_field (plan, f);
          g_autoptr (RodPath) path = rod_path_new ();
          g_autoptr (RodRegion) twice = NULL;
          g_autoptr (RodRegion) once = NULL;
          double sum = 0.0;

          for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
            {
              const RodPiece *piece = rod_plan_piece (plan, p);

              sum += piece_area (plan, piece);
              for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
                {
                  for (guint c = plan->rings->ring_starts[r]; c < plan->rings->ring_starts[r + 1];
                       c++)
                    rod_path_add_corner (path, plan->rings->points[c], 0);
                  rod_path_close (path);
                }
            }
          twice = rod_region_normalise (path, 2);
          once = rod_region_normalise (path, 1);
          g_assert_cmpfloat (rod_region_area (twice), <, 200.0);
          g_assert_cmpfloat_with_epsilon (rod_region_area (once), sum, AREA_TOLERANCE_MM2);
        }
    }
}

static void
test_pieces_fit_their_stock (void)
{
  for (int n = 0; n < N_HOUSES; n++)
    {
      g_autoptr (RodPlan) plan = plan_random ();

      for (guint p = 0; p < plan->pieces->len; p++)
        {
          const RodPiece *piece = rod_plan_piece (plan, p);
          const RodBoard *board = rod_plan_field (plan, piece->field)->board;
          double          longest = 0.0;

          for (guint s = 0; s < board->stock->len; s++)
            longest =
              MAX (longest, ((const RodStock *) g_ptr_array_index (board->stock, s))->length_mm);
          g_assert_cmpfloat (piece->length_mm, <=, longest + ROD_EPSILON_MM);
          g_assert_cmpfloat (piece->short_mm, <=, piece->length_mm + ROD_EPSILON_MM);
          g_assert_cmpfloat (piece->width_mm, <=, board->cover_mm + ROD_SNAP_MM);
          g_assert_cmpfloat (piece->length_mm, >, 0.0);
          g_assert_cmpfloat (piece->width_mm, >, 0.0);
        }
    }
}

static void
test_pieces_rest_on_battens (void)
{
  for (int n = 0; n < N_HOUSES; n++)
    {
      g_autoptr (RodPlan) plan = plan_random ();

      for (guint i = 0; i < plan->findings->len; i++)
        g_assert_cmpstr (g_array_index (plan->findings, RodFinding, i).id, !=, "few-battens");
      for (guint p = 0; p < plan->pieces->len; p++)
        g_assert_cmpint (rod_plan_piece (plan, p)->battens, >=, 1);
    }
}

static double
sum_terms (const RodReckoning *reckoning)
{
  double sum = 0.0;

  for (guint i = 0; i < reckoning->terms->len; i++)
    sum += g_array_index (reckoning->terms, RodTerm, i).value;
  return sum;
}

static void
test_reckonings_explain_numbers (void)
{
  for (int n = 0; n < N_HOUSES / 4; n++)
    {
      g_autoptr (RodPlan) plan = plan_random ();

      for (guint p = 0; p < plan->pieces->len; p++)
        {
          const RodPiece *piece = rod_plan_piece (plan, p);
          g_autoptr (RodReckoning) length = rod_reckon_piece_length (plan, p);
          g_autoptr (RodReckoning) width = rod_reckon_piece_width (plan, p);
          g_autoptr (RodReckoning) left = rod_reckon_piece_gap (plan, p, FALSE);
          g_autoptr (RodReckoning) right = rod_reckon_piece_gap (plan, p, TRUE);

          /* Thousandths come from whole micrometres in the geometry. */
          g_assert_cmpfloat_with_epsilon (sum_terms (length), piece->length_mm, ROD_SNAP_MM);
          g_assert_cmpfloat_with_epsilon (sum_terms (width), piece->width_mm, ROD_SNAP_MM);
          g_assert_cmpfloat_with_epsilon (sum_terms (left), piece->left.gap_mm, ROD_EPSILON_MM);
          g_assert_cmpfloat_with_epsilon (sum_terms (right), piece->right.gap_mm, ROD_EPSILON_MM);
        }
    }
}

/* Square boards are explained down to the raw lines, without a rest. */
static void
test_square_boards_need_no_rest (void)
{
  for (int n = 0; n < N_HOUSES / 4; n++)
    {
      g_autoptr (RodPlan) plan = plan_random ();

      for (guint p = 0; p < plan->pieces->len; p++)
        {
          const RodPiece *piece = rod_plan_piece (plan, p);
          g_autoptr (RodReckoning) length = NULL;
          double with_rest;

          if (fabs (piece->left.angle_deg) > 0.0 || fabs (piece->right.angle_deg) > 0.0 ||
              fabs (piece->length_mm - piece->short_mm) > ROD_SNAP_MM || piece->n_notches > 0)
            continue;
          length = rod_reckon_piece_length (plan, p);
          with_rest = g_array_index (length->terms, RodTerm, 0).value + piece->left.gap_mm +
                      piece->right.gap_mm;
          g_assert_cmpfloat (with_rest, >, piece->length_mm - 200.0);
          g_assert_cmpuint (length->terms->len, >=, 3);
        }
    }
}

/* What the saw sees of a piece, wherever it stands in the house. */
typedef struct
{
  double length_mm;
  double short_mm;
  double width_mm;
  double angles_deg;
  double raked_deg;
  int    screws;
} Look;

static GArray *
looks_of (const RodPlan *plan,
          const char    *id)
{
  GArray *looks = g_array_new (FALSE, FALSE, sizeof (Look));

  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);
      const RodFace  *face = rod_plan_face (plan, rod_plan_field (plan, piece->field)->face);
      const RodFace  *owner = face->parent >= 0 ? rod_plan_face (plan, (guint) face->parent) : face;
      Look            look = {
                   piece->length_mm,
                   piece->short_mm,
                   piece->width_mm,
                   piece->left.angle_deg + piece->right.angle_deg,
                   fabs (piece->left.angle_deg) + fabs (piece->right.angle_deg),
                   piece->screws,
      };

      if (g_str_equal (owner->surface->id, id))
        g_array_append_val (looks, look);
    }
  return looks;
}

/* Square pieces agree to the rounding of coordinates. Where corners lie within ROD_SNAP_MM of each
 * other they are merged, whichever is met first; at a raked end that moves the long point by up to
 * twice as much, at either end. */
#define SQUARE_TOLERANCE_MM 0.01
#define RAKED_TOLERANCE_MM (4.0 * ROD_SNAP_MM)

static double
tolerance_mm (const Look *look)
{
  gboolean square = look->raked_deg < 0.1 && fabs (look->length_mm - look->short_mm) < ROD_SNAP_MM;

  return square ? SQUARE_TOLERANCE_MM : RAKED_TOLERANCE_MM;
}

static double
difference_mm (const Look *one,
               const Look *other)
{
  if (fabs (one->angles_deg - other->angles_deg) > 0.1 || one->screws != other->screws)
    return INFINITY;
  return MAX (fabs (one->length_mm - other->length_mm),
              MAX (fabs (one->short_mm - other->short_mm), fabs (one->width_mm - other->width_mm)));
}

/* Both hold the same pieces, in any order. */
static void
assert_same_pieces (const RodPlan *plan,
                    const RodPlan *other_plan,
                    const char    *id)
{
  g_autoptr (GArray) ones = looks_of (plan, id);
  g_autoptr (GArray) others = looks_of (other_plan, id);

  g_assert_cmpuint (ones->len, ==, others->len);
  for (guint i = 0; i < ones->len; i++)
    {
      const Look *one = &g_array_index (ones, Look, i);
      guint       nearest = 0;

      for (guint k = 1; k < others->len; k++)
        if (difference_mm (one, &g_array_index (others, Look, k)) <
            difference_mm (one, &g_array_index (others, Look, nearest)))
          nearest = k;
      g_assert_cmpfloat (
        difference_mm (one, &g_array_index (others, Look, nearest)), <, tolerance_mm (one));
      g_array_remove_index_fast (others, nearest);
    }
}

static void
test_mirror (void)
{
  for (int n = 0; n < N_HOUSES; n++)
    {
      Sample sample = random_sample ();
      g_autoptr (RodPlan) plan = plan_sample (&sample, FALSE, FALSE, 0.0);
      g_autoptr (RodPlan) turned = plan_sample (&sample, TRUE, FALSE, 0.0);

      assert_same_pieces (plan, turned, "a");
      g_assert_cmpuint (plan->battens->len, ==, turned->battens->len);
      g_assert_cmpuint (plan->trims->len, ==, turned->trims->len);
      g_assert_cmpuint (plan->findings->len, ==, turned->findings->len);
    }
}

static void
test_order_of_surfaces (void)
{
  for (int n = 0; n < N_HOUSES; n++)
    {
      Sample sample = random_sample ();
      g_autoptr (RodPlan) plan = plan_sample (&sample, FALSE, FALSE, 0.0);
      g_autoptr (RodPlan) swapped = plan_sample (&sample, FALSE, TRUE, 0.0);

      assert_same_pieces (plan, swapped, "a");
      assert_same_pieces (plan, swapped, "b");
    }
}

static void
test_datum (void)
{
  for (int n = 0; n < N_HOUSES; n++)
    {
      Sample sample = random_sample ();
      g_autoptr (RodPlan) plan = plan_sample (&sample, FALSE, FALSE, 0.0);
      g_autoptr (RodPlan) raised = plan_sample (&sample, FALSE, FALSE, 1234.5);

      assert_same_pieces (plan, raised, "a");
    }
}

/* Level boards of both walls meet at the corner, to a tenth of a millimetre. */
static void
test_joint_lines_meet (void)
{
  for (int n = 0; n < N_HOUSES; n++)
    {
      Sample sample = random_sample ();
      g_autoptr (RodPlan) plan = NULL;
      const RodField *a, *b;

      sample.walls[0].direction = sample.walls[1].direction = 0;
      plan = plan_sample (&sample, FALSE, FALSE, 0.0);
      a = rod_plan_field (plan, 0);
      for (guint f = 1; f < plan->fields->len; f++)
        {
          b = rod_plan_field (plan, f);
          if (g_str_equal (rod_plan_face (plan, b->face)->surface->id, "b"))
            g_assert_cmpfloat (
              fabs (remainder (a->phase_mm - b->phase_mm, a->board->cover_mm)), <, 0.1);
        }
    }
}

static void
test_same_house_same_plan (void)
{
  for (int n = 0; n < 20; n++)
    {
      Sample sample = random_sample ();
      g_autoptr (RodPlan) one = plan_sample (&sample, FALSE, FALSE, 0.0);
      g_autoptr (RodPlan) other = plan_sample (&sample, FALSE, FALSE, 0.0);

      g_assert_cmpuint (one->rings->n_points, ==, other->rings->n_points);
      g_assert_cmpmem (one->rings->points,
                       one->rings->n_points * sizeof (RodPoint),
                       other->rings->points,
                       other->rings->n_points * sizeof (RodPoint));
      g_assert_cmpuint (one->findings->len, ==, other->findings->len);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/plan/areas-add-up", test_areas_add_up);
  g_test_add_func ("/plan/pieces-do-not-overlap", test_pieces_do_not_overlap);
  g_test_add_func ("/plan/pieces-fit-their-stock", test_pieces_fit_their_stock);
  g_test_add_func ("/plan/pieces-rest-on-battens", test_pieces_rest_on_battens);
  g_test_add_func ("/plan/reckonings-explain-numbers", test_reckonings_explain_numbers);
  g_test_add_func ("/plan/square-boards-need-no-rest", test_square_boards_need_no_rest);
  g_test_add_func ("/plan/mirror", test_mirror);
  g_test_add_func ("/plan/order-of-surfaces", test_order_of_surfaces);
  g_test_add_func ("/plan/datum", test_datum);
  g_test_add_func ("/plan/joint-lines-meet", test_joint_lines_meet);
  g_test_add_func ("/plan/same-house-same-plan", test_same_house_same_plan);

  return g_test_run ();
}
