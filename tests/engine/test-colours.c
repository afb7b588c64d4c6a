/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Colour mixes (rule C4 in docs/rules.md): by weight, by seed, and without equal neighbours where
 * that is asked for. Who is whose neighbour is worked out here from the boards' corners. */

#include "support/planned-house.h"

#include "engine/rod-limits.h"

#include <math.h>
#include <string.h>

#define N_WALLS 60
#define MOST_COLOURS 6

static void
add_colours (RodBoard *board,
             guint     n)
{
  GPtrArray *colours = rod_record_list_new ();

  for (guint i = 0; i < n; i++)
    {
      RodColour *colour = rod_record_new (&rod_colour_type);

      g_free (colour->id);
      colour->id = g_strdup_printf ("c%u", i);
      g_ptr_array_add (colours, colour);
    }
  rod_record_take_list (board, G_STRUCT_OFFSET (RodBoard, colours), colours);
}

static void
add_mix (RodSurface   *surface,
         const double *weights,
         guint         n,
         gboolean      no_repeat,
         int           seed)
{
  GPtrArray *mix = rod_record_list_new ();

  for (guint i = 0; i < n; i++)
    {
      RodColourShare *share = rod_record_new (&rod_colour_share_type);

      g_free (share->colour);
      share->colour = g_strdup_printf ("c%u", i);
      share->weight = weights[i];
      g_ptr_array_add (mix, share);
    }
  rod_record_take_list (surface, G_STRUCT_OFFSET (RodSurface, mix), mix);
  surface->no_repeat = no_repeat;
  surface->seed = seed;
}

/* The house's only surface in the first colours of a mix. */
static RodPlan *
mixed (RodHouse     *house,
       const double *weights,
       guint         n,
       gboolean      no_repeat,
       int           seed)
{
  add_colours (planned_system (house)->boards->pdata[0], n);
  add_mix (house->surfaces->pdata[0], weights, n, no_repeat, seed);
  return planned_house (house);
}

static RodHouse *
wall (double      width,
      double      height,
      const char *more)
{
  return surveyed_house (
    "k-250", SURVEYED (surveyed_box ("a", "wall", width, height, more)), NULL);
}

/* A wall whose joints are staggered, of boards of 3000. */
static RodHouse *
staggered_wall (double      width,
                double      height,
                const char *pattern)
{
  g_autofree char *more = g_strdup_printf (
    ", 'joint_pattern': '%s', 'joint_offset_mm': 300, 'longest_piece_mm': 3000", pattern);
  RodHouse *house = wall (width, height, more);

  planned_system (house)->rules->butt_joints = ROD_BUTT_LEVEL;
  return house;
}

static void
extent_at (const RodPlan  *plan,
           const RodField *field,
           const RodPiece *piece,
           double          y,
           double         *from,
           double         *to)
{
  *from = INFINITY;
  *to = -INFINITY;
  for (guint p = plan->rings->ring_starts[piece->first_ring];
       p < plan->rings->ring_starts[piece->first_ring + 1];
       p++)
    {
      RodPoint at = rod_affine_apply (field->to_board, plan->rings->points[p]);

      if (fabs (at.y - y) > 0.1)
        continue;
      *from = MIN (*from, at.x);
      *to = MAX (*to, at.x);
    }
}

/* Boards that touch along a joint line, or follow each other with no more between than a trim. */
static gboolean
are_neighbours (const RodPlan  *plan,
                const RodField *field,
                const RodPiece *one,
                const RodPiece *other)
{
  double one_from, one_to, other_from, other_to;

  if (one->course == other->course)
    {
      rod_plan_piece_extent (plan, one, &one_from, &one_to);
      rod_plan_piece_extent (plan, other, &other_from, &other_to);
      return MAX (one_from, other_from) - MIN (one_to, other_to) < 60.0;
    }
  if (one->course + 1 != other->course)
    return FALSE;
  extent_at (plan, field, one, other->line_mm, &one_from, &one_to);
  extent_at (plan, field, other, other->line_mm, &other_from, &other_to);
  return MIN (one_to, other_to) - MAX (one_from, other_from) > 1.0;
}

static int
count_repeats (const RodPlan *plan)
{
  int repeats = 0;

  for (guint p = 0; p < plan->pieces->len; p++)
    for (guint q = 0; q < plan->pieces->len; q++)
      {
        const RodPiece *one = rod_plan_piece (plan, p);
        const RodPiece *other = rod_plan_piece (plan, q);

        repeats += p != q && one->field == other->field && one->colour == other->colour &&
                   (one->course < other->course || (one->course == other->course && p < q)) &&
                   are_neighbours (plan, rod_plan_field (plan, one->field), one, other);
      }
  return repeats;
}

static void
count_shares (const RodPlan *plan,
              double        *shares)
{
  for (guint c = 0; c < MOST_COLOURS; c++)
    shares[c] = 0.0;
  for (guint p = 0; p < plan->pieces->len; p++)
    shares[rod_plan_piece (plan, p)->colour->id[1] - '0'] += 1.0 / plan->pieces->len;
}

static void
draw_weights (double *weights,
              guint   n)
{
  for (guint i = 0; i < n; i++)
    weights[i] = g_test_rand_int_range (1, 20);
}

static RodHouse *
draw_wall (gboolean with_windows)
{
  static const char *const patterns[] = { "columns", "staggered", "balanced", "random" };
  double                   width = g_test_rand_int_range (2000, 11000);
  double                   height = g_test_rand_int_range (1500, 5000);
  const char              *pattern = patterns[g_test_rand_int_range (0, 4)];
  g_autofree char         *window = NULL;

  if (!with_windows || width < 3000 || height < 2300)
    return staggered_wall (width, height, pattern);
  window = g_strdup_printf ("%s', 'openings': [{'id': 'w', 'x': %d, 'y': %d, 'width_mm': 900, "
                            "'height_mm': %d}], 'name': 'a",
                            pattern,
                            g_test_rand_int_range (500, (int) width - 1500),
                            g_test_rand_int_range (400, 900),
                            g_test_rand_int_range (500, 1200));
  return staggered_wall (width, height, window);
}

/* Four colours always suffice for boards in a plane: none have a neighbour alike. */
static void
test_no_two_neighbours_alike (void)
{
  for (int round = 0; round < N_WALLS; round++)
    {
      double weights[MOST_COLOURS];
      guint  n = (guint) g_test_rand_int_range (4, MOST_COLOURS + 1);
      g_autoptr (RodPlan) plan = NULL;

      draw_weights (weights, n);
      plan = mixed (draw_wall (TRUE), weights, n, TRUE, g_test_rand_int_range (0, 1000));
      g_assert_cmpint (count_repeats (plan), ==, 0);
      g_assert_null (planned_finding (plan, "colour-repeats"));
    }
}

/* Whatever the mix: where boards are alike the finding counts them, and where none are there is no
 * finding. */
static void
test_finding_counts_them (void)
{
  for (int round = 0; round < N_WALLS; round++)
    {
      double weights[MOST_COLOURS];
      guint  n = (guint) g_test_rand_int_range (1, 4);
      int    repeats;
      g_autoptr (RodPlan) plan = NULL;
      const RodFinding *finding;

      draw_weights (weights, n);
      plan = mixed (draw_wall (TRUE), weights, n, TRUE, g_test_rand_int_range (0, 1000));
      repeats = count_repeats (plan);
      finding = planned_finding (plan, "colour-repeats");
      g_assert_cmpint (finding != NULL, ==, repeats > 0);
      if (finding != NULL)
        g_assert_cmpfloat_with_epsilon (finding->value, repeats, 1e-9);
    }
}

/* Whether boards can take turns: no ring of an odd number of them, each touching the next. */
static gboolean
can_take_turns (const RodPlan *plan)
{
  guint           n = plan->pieces->len;
  g_autofree int *turn = g_new0 (int, n);
  gboolean        changed = TRUE;

  while (changed)
    {
      guint first = 0;

      changed = FALSE;
      for (guint p = 0; p < n; p++)
        for (guint q = 0; q < n && turn[p] != 0; q++)
          {
            const RodPiece *one = rod_plan_piece (plan, p);
            const RodPiece *other = rod_plan_piece (plan, q);
            gboolean        touch =
              p != q && (one->course < other->course
                           ? are_neighbours (plan, rod_plan_field (plan, 0), one, other)
                           : are_neighbours (plan, rod_plan_field (plan, 0), other, one));

            if (touch && turn[q] == turn[p])
              return FALSE;
            if (!touch || turn[q] != 0)
              continue;
            turn[q] = -turn[p];
            changed = TRUE;
          }
      while (first < n && turn[first] != 0)
        first++;
      if (changed || first == n)
        continue;
      turn[first] = 1;
      changed = TRUE;
    }
  return TRUE;
}

/* With two colours neighbours are alike only where they have to be. */
static void
test_two_colours_are_exact (void)
{
  int able = 0;

  for (int round = 0; round < N_WALLS; round++)
    {
      double    weights[MOST_COLOURS];
      RodHouse *house = g_test_rand_bit () ? draw_wall (TRUE) : wall (9000, 2400, "");
      g_autoptr (RodPlan) plan = NULL;

      draw_weights (weights, 2);
      plan = mixed (house, weights, 2, TRUE, g_test_rand_int_range (0, 1000));
      g_assert_cmpint (can_take_turns (plan), ==, count_repeats (plan) == 0);
      able += can_take_turns (plan);
    }
  g_assert_cmpint (able, >, 0);
  g_assert_cmpint (able, <, N_WALLS);
}

/* Without length joints each board touches two: two colours take turns, whatever their weights. */
static void
test_two_colours_take_turns (void)
{
  static const double weights[] = { 5, 1 };
  g_autoptr (RodPlan) plan = mixed (wall (4000, 2400, ""), weights, 2, TRUE, 3);

  g_assert_cmpuint (plan->pieces->len, ==, 10);
  for (guint p = 2; p < plan->pieces->len; p++)
    g_assert_true (rod_plan_piece (plan, p)->colour == rod_plan_piece (plan, p - 2)->colour);
  g_assert_true (rod_plan_piece (plan, 0)->colour != rod_plan_piece (plan, 1)->colour);
  g_assert_null (planned_finding (plan, "colour-repeats"));
}

/* Columns of joints make a chequerboard of two colours; staggered joints make threes of boards that
 * all touch, and need three: a brick bond can be done with them. */
static void
test_two_colours_and_joints (void)
{
  static const double weights[] = { 1, 1, 1 };
  g_autoptr (RodPlan) columns = mixed (wall (9000, 2400, ""), weights, 2, TRUE, 3);
  g_autoptr (RodPlan) bond =
    mixed (staggered_wall (9000, 2400, "staggered"), weights, 2, TRUE, 3);
  g_autoptr (RodPlan) three = mixed (staggered_wall (5800, 2400, "balanced"), weights, 3, TRUE, 3);
  const RodFinding *finding = planned_finding (bond, "colour-repeats");

  g_assert_cmpint (count_repeats (columns), ==, 0);
  g_assert_null (planned_finding (columns, "colour-repeats"));
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->severity, ==, ROD_SEVERITY_SHOULD);
  g_assert_cmpstr (finding->rule, ==, "C4");
  g_assert_nonnull (strstr (finding->remedy, "third colour"));
  g_assert_cmpint (count_repeats (three), ==, 0);
}

static void
test_one_colour (void)
{
  static const double weights[] = { 1 };
  g_autoptr (RodPlan) plan = mixed (wall (4000, 2400, ""), weights, 1, TRUE, 0);
  g_autoptr (RodPlan) plain = mixed (wall (4000, 2400, ""), weights, 1, FALSE, 0);
  const RodFinding *finding = planned_finding (plan, "colour-repeats");

  g_assert_nonnull (finding);
  g_assert_cmpfloat_with_epsilon (finding->value, 9.0, 1e-9);
  g_assert_nonnull (strstr (finding->remedy, "second colour"));
  g_assert_null (planned_finding (plain, "colour-repeats"));
}

static void
assert_same_colours (const RodPlan *one,
                     const RodPlan *other,
                     gboolean       same)
{
  int different = 0;

  g_assert_cmpuint (one->pieces->len, ==, other->pieces->len);
  for (guint p = 0; p < one->pieces->len; p++)
    different += strcmp (rod_plan_piece (one, p)->colour->id,
                         rod_plan_piece (other, p)->colour->id) != 0;
  g_assert_cmpint (different == 0, ==, same);
}

/* The seed decides, and nothing else. */
static void
test_seed (void)
{
  static const double weights[] = { 3, 2, 2, 1 };
  g_autoptr (RodPlan) one = mixed (wall (14000, 4000, ""), weights, 4, TRUE, 7);
  g_autoptr (RodPlan) again = mixed (wall (14000, 4000, ""), weights, 4, TRUE, 7);
  g_autoptr (RodPlan) other = mixed (wall (14000, 4000, ""), weights, 4, TRUE, 8);

  assert_same_colours (one, again, TRUE);
  assert_same_colours (one, other, FALSE);
}

/* No colour of up to a third of the boards is ever in the way of its neighbours: shares come out to
 * the board. */
static void
test_shares_follow_weights (void)
{
  static const double weights[] = { 30, 30, 25, 15 };

  for (int seed = 0; seed < 30; seed++)
    {
      double shares[MOST_COLOURS];
      g_autoptr (RodPlan) plan = mixed (wall (14000, 5000, ""), weights, 4, TRUE, seed);

      count_shares (plan, shares);
      for (guint c = 0; c < 4; c++)
        g_assert_cmpfloat (
          fabs (shares[c] - weights[c] / 100.0) * plan->pieces->len, <, 1.5 + ROD_EPSILON_MM);
    }
}

/* Where a weight is more than neighbours allow, its colour takes every second board: no single
 * board could change to it. */
static void
test_heavy_weight (void)
{
  static const double weights[] = { 90, 5, 5 };
  double              shares[MOST_COLOURS];
  g_autoptr (RodPlan) plan = mixed (wall (4000, 5000, ""), weights, 3, TRUE, 11);

  count_shares (plan, shares);
  g_assert_cmpint (count_repeats (plan), ==, 0);
  for (guint p = 0; p < plan->pieces->len; p++)
    {
      gboolean beside = FALSE;

      for (guint q = p > 0 ? p - 1 : 0; q < MIN (p + 2, plan->pieces->len); q++)
        beside |= g_str_equal (rod_plan_piece (plan, q)->colour->id, "c0");
      g_assert_true (beside);
    }
}

/* A zone with a mix of its own says for itself whether it may repeat; with its surface's mix it
 * does as the surface. */
static void
test_zones (void)
{
  static const double weights[] = { 1, 1, 1 };
  RodHouse           *house = wall (
    6000,
    2400,
    ", 'zones': [{'id': 'z', 'direction_deg': 90, 'corners': [{'x': 2000, 'y': 0}, "
              "{'x': 4000, 'y': 0}, {'x': 4000, 'y': 2400}, {'x': 2000, 'y': 2400}]}]");
  g_autoptr (RodPlan) plan = mixed (house, weights, 3, TRUE, 5);

  g_assert_cmpuint (plan->fields->len, ==, 2);
  g_assert_true (rod_plan_field (plan, 0)->no_repeat);
  g_assert_true (rod_plan_field (plan, 1)->no_repeat);
  g_assert_cmpint (count_repeats (plan), ==, 0);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/colours/no-two-neighbours-alike", test_no_two_neighbours_alike);
  g_test_add_func ("/colours/finding-counts-them", test_finding_counts_them);
  g_test_add_func ("/colours/two-colours-are-exact", test_two_colours_are_exact);
  g_test_add_func ("/colours/two-colours-take-turns", test_two_colours_take_turns);
  g_test_add_func ("/colours/two-colours-and-joints", test_two_colours_and_joints);
  g_test_add_func ("/colours/one-colour", test_one_colour);
  g_test_add_func ("/colours/seed", test_seed);
  g_test_add_func ("/colours/shares-follow-weights", test_shares_follow_weights);
  g_test_add_func ("/colours/heavy-weight", test_heavy_weight);
  g_test_add_func ("/colours/zones", test_zones);

  return g_test_run ();
}
