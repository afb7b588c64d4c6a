/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Length joints: as few columns as the stock allows, even bays, clear of the sides of openings or
 * right on them (rule R21 in docs/rules.md). Convention K: boards of 6000, α·ΔT = 0.07·45 = 3.15
 * mm for each metre, an error of 1 mm for each end, J of 2, joint trim with a web of 4, joints 150
 * from openings. */

#include "support/planned-house.h"

#include "engine/rod-limits.h"
#include "engine/setout/rod-bay.h"

#include <math.h>

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 0.002)

/* A board of 6000 fills 6022 between pockets: held in the middle it needs ⌈3.15·3.011 + 1⌉ = 11 at
 * either end. */
#define WIDEST_BAY_MM 6022.0
#define WEB_MM 4.0
#define DISTANCE_MM 150.0

/* The shortest piece is 300 and fills 304, for ⌈3.15·0.152 + 1⌉ = 2 at either end. Beside an
 * opening there is its trim's 2, too, and everywhere half the web. */
#define BESIDE_MM 308.0
#define END_MM 306.0

static RodPlan *
plan_wall (double      width,
           double      height,
           const char *more)
{
  return planned_house (
    surveyed_house ("k-250", SURVEYED (surveyed_box ("a", "wall", width, height, more)), NULL));
}

static void
assert_columns (const RodField *field,
                guint           n,
                double          first,
                double          second)
{
  g_assert_cmpuint (field->n_columns, ==, n);
  if (n > 0)
    assert_mm (field->columns[0], first);
  if (n > 1)
    assert_mm (field->columns[1], second);
}

/* A wall of 13.4 m: 13396 between pockets, ⌈(13396 + 4)/(6022 + 4)⌉ = 3 bays of (13396 − 8)/3 =
 * 4462.7; columns half a web beside them. */
static void
test_long_wall (void)
{
  g_autoptr (RodPlan) plan = plan_wall (13400, 2400, "");
  const RodField *field = rod_plan_field (plan, 0);
  int             doubled = 0;

  assert_columns (field, 2, 4466.667, 8933.333);
  g_assert_cmpuint (plan->pieces->len, ==, 30);
  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);

      /* ⌈3.15·2.2313 + 1⌉ = ⌈8.03⌉ = 9; 4462.667 − 18. */
      assert_mm (piece->clear_mm, 4462.667);
      assert_mm (piece->left.gap_mm, 9.0);
      assert_mm (piece->length_mm, 4444.667);
    }

  /* Each column stands between two battens, 40 to either side. */
  for (guint b = 0; b < plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

      for (guint c = 0; c < field->n_columns; c++)
        doubled += fabs (fabs (run->from.x - field->columns[c]) - 40.0) < 0.001;
    }
  g_assert_cmpint (doubled, ==, 4);
}

/* The longest wall without a joint, and one millimetre more. */
static void
test_widest_bay (void)
{
  g_autoptr (RodPlan) whole = plan_wall (WIDEST_BAY_MM + 4, 2400, "");
  g_autoptr (RodPlan) split = plan_wall (WIDEST_BAY_MM + 5, 2400, "");
  g_autoptr (RodPlan) two = plan_wall (2 * WIDEST_BAY_MM + 8, 2400, "");
  g_autoptr (RodPlan) three = plan_wall (2 * WIDEST_BAY_MM + 9, 2400, "");

  assert_columns (rod_plan_field (whole, 0), 0, 0, 0);
  assert_mm (rod_plan_piece (whole, 0)->length_mm, 6000.0);
  assert_columns (rod_plan_field (split, 0), 1, 3013.5, 0);
  assert_columns (rod_plan_field (two, 0), 1, 6026.0, 0);
  assert_mm (rod_plan_piece (two, 0)->length_mm, 6000.0);
  g_assert_cmpuint (rod_plan_field (three, 0)->n_columns, ==, 2);
}

/* What the saw loses at the ends of a bar is not there to cover a wall with. */
static void
test_end_trim_shortens_the_bay (void)
{
  RodHouse *house = surveyed_house ("k-250",
                                    SURVEYED (surveyed_box ("a", "wall", 6026, 2400, "")),
                                    NULL);
  g_autoptr (RodPlan) plan = NULL;

  house->saw->end_trim_mm = 5.0;
  plan = planned_house (house);
  g_assert_cmpuint (rod_plan_field (plan, 0)->n_columns, ==, 1);
  assert_mm (rod_field_longest_mm (plan, rod_plan_field (plan, 0)), 5990.0);
}

/* Upright boards held at the top: 2 above, ⌈3.15·B + 1⌉ below; 7000 − 4 between pockets want one
 * column at half height. The board frame's x runs down the wall. */
static void
test_tall_wall (void)
{
  RodHouse *house = surveyed_house (
    "k-200",
    SURVEYED (surveyed_box ("a", "wall", 3000, 7000, ", 'direction_deg': 90")),
    NULL);
  g_autoptr (RodPlan) plan = planned_house (house);
  const RodField *field = rod_plan_field (plan, 0);
  const RodPiece *upper = planned_piece (plan, "A-01-1");
  const RodPiece *lower = planned_piece (plan, "A-01-2");

  assert_columns (field, 1, -3500, 0);
  /* (6996 − 4)/2 = 3496; ⌈3.15·3.496 + 1⌉ = ⌈12.01⌉ = 13. */
  for (int i = 0; i < 2; i++)
    {
      const RodPiece *piece = i == 0 ? upper : lower;

      assert_mm (piece->clear_mm, 3496.0);
      assert_mm (piece->left.gap_mm, 2.0);
      assert_mm (piece->right.gap_mm, 13.0);
      assert_mm (piece->length_mm, 3481.0);
    }
}

static char *
window_at (double x,
           double width)
{
  return g_strdup_printf (", 'openings': [{'id': 'w', 'x': %.1f, 'y': 800, 'width_mm': %.1f, "
                          "'height_mm': 1000}]",
                          x,
                          width);
}

/* Columns make way for openings by the least that is needed: onto the jamb's line, 150 beside it
 * within the opening's width, or 308 out of it. Even would be 4000. */
static void
test_columns_make_way (void)
{
  static const struct
  {
    double x;
    double width;
    double column;
  } cases[] = {
    { 3950, 1000, 3950 }, /* on the jamb: 50; 4100 would be 100 */
    { 3900, 1000, 4050 }, /* 150 beside the jamb, over the window: 50; on the jamb 100 */
    { 3850, 1000, 4000 }, /* just far enough */
    { 4100, 1000, 4100 }, /* on the jamb: 100; 3792 before the window would be 208 */
    { 4300, 1000, 3992 }, /* 308 before the window: 8 */
    { 3955, 80, 4343 },   /* either jamb is too near the other one: 308 past the right one */
    { 2000, 1000, 4000 }, /* far away */
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *window = window_at (cases[i].x, cases[i].width);
      g_autoptr (RodPlan) plan = plan_wall (8000, 2400, window);

      assert_columns (rod_plan_field (plan, 0), 1, cases[i].column, 0);
      g_assert_null (planned_finding (plan, "joint-near-opening"));
    }
}

/* With a lined reveal the boards end at the arris, 20 inside the raw jamb. */
static void
test_column_on_a_lined_jamb (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = plan_wall (8000,
                    2400,
                    ", 'openings': [{'id': 'w', 'x': 3950, 'y': 800, 'width_mm': 1000, "
                    "'height_mm': 1000, 'reveal': {'depth_mm': 150, 'build_up_mm': 20}}]");
  assert_columns (rod_plan_field (plan, 0), 1, 3970, 0);
}

/* A column on a jamb's line: beside the window the pieces end at the jamb's trim, over and under it
 * at the joint; the joint's trim stops at the opening. */
static void
test_pieces_at_a_jamb_line (void)
{
  g_autofree char *window = window_at (3950, 1000);
  g_autoptr (RodPlan) plan = plan_wall (8000, 2400, window);
  double joint_mm = 0.0;

  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (run->edge == ROD_TAG_COLUMN_LEFT)
        joint_mm += run->length_mm;
    }
  g_assert_cmpfloat_with_epsilon (joint_mm, 1400.0, 0.01);
  g_assert_null (planned_finding (plan, "short-piece"));
}

/* Where a whole board fits and half of it would be too short to use, it stays whole: the top of a
 * gable, with the joint's trim ending under it. */
static void
test_apex_stays_whole (void)
{
  g_autoptr (RodPlan) plan = NULL;
  double joint_mm = 0.0;
  int    whole = 0;

  plan = planned_house (
    surveyed_house ("k-250",
                    SURVEYED (g_strdup (
                      "{'id': 'a', 'kind': 'wall', 'system': 'k', 'joint_line_mm': 0, 'outline': ["
                      "{'x': 0, 'y': 0}, {'x': 8000, 'y': 0}, {'x': 4000, 'y': 4000}]}")),
                    NULL));

  /* 45°: a course at height y is 8000 − 2·y − 2·2·√2 between pockets, halves under 300 from y =
   * 3697 up: courses from 3500 on are split, the ones at 3750 is not. */
  assert_columns (rod_plan_field (plan, 0), 1, 4000, 0);
  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);
      double          low, high;

      rod_plan_piece_extent (plan, piece, &low, &high);
      if (low < 3999.0 && high > 4001.0)
        {
          whole++;
          g_assert_cmpfloat (piece->line_mm, >, 3749.0);
        }
    }
  g_assert_cmpint (whole, ==, 1);
  for (guint t = 0; t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (run->edge == ROD_TAG_COLUMN_LEFT)
        joint_mm += run->length_mm;
    }
  g_assert_cmpfloat_with_epsilon (joint_mm, 3750.0, 0.01);
}

/* A random wall with windows side by side, all on a raster of 5 mm. */
typedef struct
{
  double width;
  guint  n_windows;
  double sides[8];
} Drawn;

static Drawn
draw_wall (void)
{
  Drawn  drawn = { .width = 5.0 * g_test_rand_int_range (1240, 4600) };
  double x = 200.0;

  while (drawn.n_windows < 4)
    {
      double left = x + 5.0 * g_test_rand_int_range (10, 600);
      double right = left + 5.0 * g_test_rand_int_range (40, 500);

      if (right > drawn.width - 200.0)
        break;
      drawn.sides[2 * drawn.n_windows] = left;
      drawn.sides[2 * drawn.n_windows + 1] = right;
      drawn.n_windows++;
      x = right;
    }
  return drawn;
}

static RodPlan *
plan_drawn (const Drawn *drawn)
{
  g_autoptr (GString) more = g_string_new (", 'openings': [");

  for (guint w = 0; w < drawn->n_windows; w++)
    g_string_append_printf (more,
                            "%s{'id': 'w%u', 'x': %.1f, 'y': 900, 'width_mm': %.1f, "
                            "'height_mm': 800}",
                            w > 0 ? ", " : "",
                            w,
                            drawn->sides[2 * w],
                            drawn->sides[2 * w + 1] - drawn->sides[2 * w]);
  g_string_append (more, "]");
  return plan_wall (drawn->width, 2400, more->str);
}

static gboolean
is_free (const Drawn *drawn,
         double       x)
{
  for (guint i = 0; i < 2 * drawn->n_windows; i++)
    {
      gboolean left = i % 2 == 0;
      double   inwards = left ? x - drawn->sides[i] : drawn->sides[i] - x;

      if (fabs (inwards) > 1e-6 && inwards < DISTANCE_MM - 1e-6 && -inwards < BESIDE_MM - 1e-6)
        return FALSE;
    }
  return x - 2.0 > END_MM - 1e-6 && drawn->width - 2.0 - x > END_MM - 1e-6;
}

static double
even_column (const Drawn *drawn,
             guint        n_columns,
             guint        column)
{
  double bay_mm = (drawn->width - 4.0 - n_columns * WEB_MM) / (n_columns + 1);

  return 2.0 + (column + 1) * bay_mm + (column + 0.5) * WEB_MM;
}

/* The least sum of moves over all places on a raster of 5 mm; infinite where there is no way. */
static double
least_moves (const Drawn *drawn,
             guint        n_columns)
{
  guint              n = (guint) (drawn->width / 5.0) + 1;
  guint              reach = (guint) floor ((WIDEST_BAY_MM + WEB_MM) / 5.0);
  g_autofree double *best = g_new (double, n);
  g_autofree double *last = g_new (double, n);
  double             least = INFINITY;

  for (guint c = 0; c < n_columns; c++)
    {
      for (guint i = 0; i < n; i++)
        {
          double x = 5.0 * i;

          best[i] = c == 0 && x - 2.0 - 2.0 <= WIDEST_BAY_MM ? 0.0 : INFINITY;
          for (guint k = i > reach ? i - reach : 0; c > 0 && k < i; k++)
            best[i] = MIN (best[i], last[k]);
          best[i] = is_free (drawn, x) ? best[i] + fabs (x - even_column (drawn, n_columns, c))
                                       : INFINITY;
        }
      memcpy (last, best, n * sizeof (double));
    }
  for (guint i = 0; i < n; i++)
    if (drawn->width - 4.0 - 5.0 * i <= WIDEST_BAY_MM)
      least = MIN (least, last[i]);
  return least;
}

/* Fewest columns first, then the least sum of moves: no choice on the raster is better. */
static void
test_never_beaten (void)
{
  int moved = 0;

  for (int n = 0; n < 150; n++)
    {
      Drawn drawn = draw_wall ();
      g_autoptr (RodPlan) plan = plan_drawn (&drawn);
      const RodField *field = rod_plan_field (plan, 0);
      double          moves_mm = 0.0, last = 0.0;

      /* At most one column more than the stock asks for, else openings are too near. */
      for (guint fewer = 1; fewer < field->n_columns; fewer++)
        g_assert_true (isinf (least_moves (&drawn, fewer)));
      if (field->n_columns == 0)
        {
          g_assert_cmpfloat (drawn.width - 4.0, <=, WIDEST_BAY_MM);
          continue;
        }
      g_assert_cmpfloat (field->columns[0] - 4.0, <=, WIDEST_BAY_MM + 1e-6);
      for (guint c = 0; c < field->n_columns; c++)
        {
          g_assert_cmpfloat (field->columns[c] - last, <=, WIDEST_BAY_MM + WEB_MM + 1e-6);
          g_assert_cmpfloat (field->columns[c], >, last);
          g_assert_true (is_free (&drawn, field->columns[c]));
          last = field->columns[c];
          moves_mm += fabs (last - even_column (&drawn, field->n_columns, c));
        }
      g_assert_cmpfloat (drawn.width - 4.0 - last, <=, WIDEST_BAY_MM + 1e-6);
      g_assert_cmpfloat (moves_mm, <=, least_moves (&drawn, field->n_columns) + 1e-6);
      moved += moves_mm > 1.0;
    }
  /* The draw is worth something only if openings stand in the way now and then. */
  g_assert_cmpint (moved, >, 10);
}

/* A mirrored wall has mirrored columns. */
static void
test_mirrored (void)
{
  for (int n = 0; n < 60; n++)
    {
      Drawn drawn = draw_wall ();
      Drawn turned = drawn;
      g_autoptr (RodPlan) plan = plan_drawn (&drawn);
      g_autoptr (RodPlan) mirrored = NULL;
      const RodField *field = rod_plan_field (plan, 0);
      const RodField *other;

      for (guint i = 0; i < 2 * drawn.n_windows; i++)
        turned.sides[i] = drawn.width - drawn.sides[2 * drawn.n_windows - 1 - i];
      mirrored = plan_drawn (&turned);
      other = rod_plan_field (mirrored, 0);
      g_assert_cmpuint (other->n_columns, ==, field->n_columns);
      for (guint c = 0; c < field->n_columns; c++)
        assert_mm (other->columns[c], drawn.width - field->columns[field->n_columns - 1 - c]);
    }
}

/* A street of 300 m with a hundred windows: 50 bays of 6 m, each of them clear of the windows or on
 * a jamb. */
static void
test_street (void)
{
  g_autoptr (GString) more = g_string_new (", 'openings': [");
  g_autoptr (RodPlan) plan = NULL;
  const RodField *field;

  for (int w = 0; w < 100; w++)
    g_string_append_printf (more,
                            "%s{'id': 'w%d', 'x': %d, 'y': 900, 'width_mm': %d, "
                            "'height_mm': 1000}",
                            w > 0 ? ", " : "",
                            w,
                            900 + 3000 * w,
                            700 + 10 * w);
  g_string_append (more, "]");
  plan = plan_wall (300000, 2400, more->str);
  field = rod_plan_field (plan, 0);
  g_assert_cmpuint (field->n_columns, >=, 49);
  g_assert_cmpuint (field->n_columns, <=, 50);
  g_assert_null (planned_finding (plan, "joint-near-opening"));
  for (guint c = 0; c + 1 < field->n_columns; c++)
    g_assert_cmpfloat (field->columns[c + 1] - field->columns[c],
                       <=,
                       WIDEST_BAY_MM + WEB_MM + 1e-6);
}

/* Stock of 12 ft is 3657.6 long; saw stops are set to whole millimetres, so that a board of 3657.3
 * cannot come out of it and a joint is needed. ⌈3.15·1.836 + 1⌉ = 7 at either end. */
static void
test_stock_in_feet (void)
{
  static const struct
  {
    double width;
    guint  n_columns;
  } cases[] = { { 3675.0, 0 }, { 3675.3, 1 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      RodHouse *house =
        surveyed_house ("k-250",
                        SURVEYED (surveyed_box ("a", "wall", cases[i].width, 2400, "")),
                        NULL);
      RodBoard *board = g_ptr_array_index (planned_system (house)->boards, 0);
      g_autoptr (RodPlan) plan = NULL;

      ((RodStock *) g_ptr_array_index (board->stock, 0))->length_mm = 3657.6;
      plan = planned_house (house);
      assert_mm (rod_field_longest_mm (plan, rod_plan_field (plan, 0)), 3657.0);
      g_assert_cmpuint (rod_plan_field (plan, 0)->n_columns, ==, cases[i].n_columns);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/columns/long-wall", test_long_wall);
  g_test_add_func ("/columns/widest-bay", test_widest_bay);
  g_test_add_func ("/columns/end-trim-shortens-the-bay", test_end_trim_shortens_the_bay);
  g_test_add_func ("/columns/tall-wall", test_tall_wall);
  g_test_add_func ("/columns/columns-make-way", test_columns_make_way);
  g_test_add_func ("/columns/column-on-a-lined-jamb", test_column_on_a_lined_jamb);
  g_test_add_func ("/columns/pieces-at-a-jamb-line", test_pieces_at_a_jamb_line);
  g_test_add_func ("/columns/apex-stays-whole", test_apex_stays_whole);
  g_test_add_func ("/columns/mirrored", test_mirrored);
  g_test_add_func ("/columns/street", test_street);
  g_test_add_func ("/columns/stock-in-feet", test_stock_in_feet);
  g_test_add_func ("/columns/never-beaten", test_never_beaten);

  return g_test_run ();
}
