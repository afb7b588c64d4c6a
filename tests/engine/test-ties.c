/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What ties joint lines: boards that mirror each other round a corner, chains that close or do not,
 * who takes the misfit, zones at a corner, and that no order in the file decides anything (rules
 * R12, R14, R16 and R17 in docs/rules.md). */

#include "support/planned-house.h"

#include "engine/files/rod-file.h"
#include "engine/rod-limits.h"

#include <math.h>
#include <string.h>

#define MOST_WALLS 12
#define N_RINGS 60

static char *
upright_from (const char *side,
              double      build_up_mm)
{
  return g_strdup_printf (
    ", 'direction_deg': 90, 'laid_from': '%s', 'build_up_mm': %.1f", side, build_up_mm);
}

/* Distances from the arris, batten face to batten face: D·tan(fold/2) outside of the raw corner. At
 * an inside corner that is negative. */
static void
test_mirrored_corner (void)
{
  static const double      folds_deg[] = { 90.0, 60.0, 135.0, -90.0 };
  static const char *const laid[] = { "left", "right" };

  for (guint i = 0; i < 4 * G_N_ELEMENTS (folds_deg); i++)
    {
      double           fold_deg = folds_deg[i / 4];
      double           gain_mm = 60.0 * tan (fold_deg * G_PI / 360.0);
      g_autofree char *one = upright_from (laid[i % 2], 60.0);
      g_autofree char *other = upright_from (laid[i / 2 % 2], 60.0);
      g_autoptr (RodPlan) plan = planned_house (surveyed_house (
        "k-200",
        SURVEYED (surveyed_box ("a", "wall", 4370, 2400, one),
                  surveyed_box ("b", "wall", 3270, 2400, other)),
        SURVEYED (surveyed_join ("j", "a.right", "b.left", fold_deg, ", 'mirrors': true"))));

      g_assert_cmpuint (planned_field (plan, "a")->group, ==, planned_field (plan, "b")->group);
      for (int d = 0; d < 2000; d += 37)
        g_assert_cmpfloat_with_epsilon (
          planned_joint (planned_field (plan, "a"), (RodPoint){ 4370 + gain_mm - d, 50 }),
          planned_joint (planned_field (plan, "b"), (RodPoint){ -gain_mm + d, 50 }),
          0.01);
      g_assert_cmpfloat (planned_group (plan, "a")->misfit_mm, <, 0.01);
      g_assert_null (planned_finding (plan, "lines-miss"));
    }
}

/* Without the word upright boards round a corner are free of each other. Level boards meet as ever.
 */
static void
test_mirrors_is_asked_for (void)
{
  static const char *const more[] = { ", 'mirrors': true", "" };

  for (guint i = 0; i < G_N_ELEMENTS (more); i++)
    {
      g_autoptr (RodPlan) upright = planned_house (surveyed_house (
        "k-200",
        SURVEYED (surveyed_box ("a", "wall", 4370, 2400, ", 'direction_deg': 90"),
                  surveyed_box ("b", "wall", 3270, 2400, ", 'direction_deg': 90")),
        SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, more[i]))));
      g_autoptr (RodPlan) level = planned_house (
        surveyed_house ("k-200",
                        SURVEYED (surveyed_box ("a", "wall", 4370, 2400, ""),
                                  surveyed_box ("b", "wall", 3270, 2400, ", 'level_mm': 31")),
                        SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, more[i]))));

      g_assert_cmpuint (upright->groups->len, ==, i == 0 ? 1 : 2);
      g_assert_cmpuint (level->groups->len, ==, 1);
    }
}

/* A ring of upright walls, 90° or whatever closes it, mirrored at every corner; at one of them more
 * is said. */
static RodPlan *
mirrored_ring (const double *widths_mm,
               guint         n,
               guint         spoken,
               const char   *more)
{
  char *surfaces[MOST_WALLS + 1] = { NULL }, *joins[MOST_WALLS + 1] = { NULL };

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("w%u", i);
      g_autofree char *join = g_strdup_printf ("j%u", i);
      g_autofree char *one = g_strdup_printf ("w%u.right", i);
      g_autofree char *other = g_strdup_printf ("w%u.left", (i + 1) % n);
      g_autofree char *words =
        g_strdup_printf (", 'mirrors': true%s", i == spoken ? more : "");

      surfaces[i] = surveyed_box (id, "wall", widths_mm[i], 2400, ", 'direction_deg': 90");
      joins[i] = surveyed_join (join, one, other, 360.0 / n, words);
    }
  return planned_house (surveyed_house ("k-200", surfaces, joins));
}

/* The return wall of the worked job: front 7300, sides 5100, first joints 150 from every corner, or
 * what the trims there make of it: 7300 − 2·150 and 5100 − 2·150 are whole covers. */
static void
test_return_walls (void)
{
  static const double widths_mm[] = { 7300, 5100, 7300, 5100 };
  g_autoptr (RodPlan) plan = mirrored_ring (widths_mm, 4, 0, "");

  g_assert_cmpuint (plan->groups->len, ==, 1);
  g_assert_cmpfloat (planned_group (plan, "w0")->misfit_mm, <, 0.01);
  g_assert_null (planned_finding (plan, "lines-miss"));
  for (guint f = 0; f < 4; f++)
    {
      const RodField *field = rod_plan_field (plan, f);

      g_assert_cmpfloat (planned_joint (field, (RodPoint){ 150, 50 }), <, 0.001);
      g_assert_cmpfloat (planned_joint (field, (RodPoint){ widths_mm[f] - 150, 50 }), <, 0.001);
    }
}

/* Each wall turns the distance d from its left corner into w − d from its right: round an even ring
 * the d cancel and w0 − w1 + w2 − w3 … is left, whatever the phase. It comes out at one join, and
 * the finding names the whole chain. */
static void
test_even_rings (void)
{
  for (int round = 0; round < N_RINGS; round++)
    {
      double widths_mm[MOST_WALLS];
      guint  n = 2 * (guint) g_test_rand_int_range (2, 5);
      double left_mm = 0.0;
      g_autoptr (RodPlan) plan = NULL;
      const RodFinding *finding;

      for (guint i = 0; i < n; i++)
        {
          widths_mm[i] = g_test_rand_int_range (3000, 9000);
          left_mm += i % 2 == 0 ? widths_mm[i] : -widths_mm[i];
        }
      left_mm = fabs (remainder (left_mm, 200.0));
      plan = mirrored_ring (widths_mm, n, 0, "");
      finding = planned_finding (plan, "lines-miss");
      g_assert_cmpfloat_with_epsilon (planned_group (plan, "w0")->misfit_mm, left_mm, 0.001);
      g_assert_cmpint (
        planned_count (plan, "lines-miss"), ==, left_mm > ROD_VISIBLE_MISFIT_MM ? 1 : 0);
      for (guint i = 0; finding != NULL && i < n; i++)
        {
          g_autofree char *id = g_strdup_printf ("w%u", i);

          g_assert_nonnull (strstr (finding->remedy, id));
        }
    }
}

/* Three walls: 2·d is left, so that two phases close the ring. 5000 − 4130 + 4270 = 5140 gives d of
 * 70 or 170, which trims at the corners leave no slivers of. */
static void
test_odd_ring_closes (void)
{
  static const double widths_mm[] = { 5000, 4130, 4270 };
  g_autoptr (RodPlan) plan = mirrored_ring (widths_mm, 3, 0, "");
  double from_left = planned_joint (planned_field (plan, "w0"), (RodPoint){ 70, 50 });

  g_assert_cmpuint (plan->groups->len, ==, 1);
  g_assert_cmpfloat (
    planned_group (plan, "w0")->misfit_mm, <=, ROD_VISIBLE_MISFIT_MM + ROD_EPSILON_MM);
  g_assert_null (planned_finding (plan, "lines-miss"));
  /* Within what nobody sees, which moves d by half of it. */
  from_left = MIN (from_left, fabs (from_left - 100.0));
  g_assert_cmpfloat (from_left, <=, ROD_VISIBLE_MISFIT_MM / 2.0 + 0.001);
}

/* Where closing comes before all else, an odd ring always closes. */
static void
test_odd_rings_can_always_close (void)
{
  for (int round = 0; round < N_RINGS; round++)
    {
      double     widths_mm[MOST_WALLS];
      guint      n = 2 * (guint) g_test_rand_int_range (1, 4) + 1;
      char      *surfaces[MOST_WALLS + 1] = { NULL }, *joins[MOST_WALLS + 1] = { NULL };
      RodHouse  *house;
      RodAim    *aim = rod_record_new (&rod_aim_type);
      GPtrArray *aims = rod_record_list_new ();
      g_autoptr (RodPlan) plan = NULL;

      for (guint i = 0; i < n; i++)
        {
          g_autofree char *id = g_strdup_printf ("w%u", i);
          g_autofree char *join = g_strdup_printf ("j%u", i);
          g_autofree char *one = g_strdup_printf ("w%u.right", i);
          g_autofree char *other = g_strdup_printf ("w%u.left", (i + 1) % n);

          widths_mm[i] = g_test_rand_int_range (3000, 9000);
          surfaces[i] = surveyed_box (id, "wall", widths_mm[i], 2400, ", 'direction_deg': 90");
          joins[i] = surveyed_join (join, one, other, 360.0 / n, ", 'mirrors': true");
        }
      house = surveyed_house ("k-200", surfaces, joins);
      aim->aim = ROD_AIM_BREAKS;
      g_ptr_array_add (aims, aim);
      rod_record_take_list (house, G_STRUCT_OFFSET (RodHouse, aims), aims);
      plan = planned_house (house);
      g_assert_cmpfloat (
        planned_group (plan, "w0")->misfit_mm, <=, ROD_VISIBLE_MISFIT_MM + ROD_EPSILON_MM);
      g_assert_null (planned_finding (plan, "lines-miss"));
    }
}

/* The misfit appears at the join that takes it, all of it, and nowhere else. */
static void
test_join_that_takes_the_misfit (void)
{
  static const double widths_mm[] = { 7300, 5100, 7300 + 12.5, 5100 };

  for (guint taker = 0; taker < 4; taker++)
    {
      g_autoptr (RodPlan) plan =
        mirrored_ring (widths_mm, 4, taker, ", 'takes_misfit': true");
      const RodFinding *finding = planned_finding (plan, "lines-miss");
      g_autofree char  *join = g_strdup_printf ("j%u", taker);

      g_assert_cmpuint (plan->ties->len, ==, 4);
      for (guint t = 0; t < 4; t++)
        {
          const RodTie  *tie = &g_array_index (plan->ties, RodTie, t);
          const RodEdge *edge = &rod_plan_field (plan, tie->a)->edges[tie->edge];
          gboolean       takes = g_str_equal (edge->join->id, join);

          g_assert_cmpint (tie->closes, ==, takes);
          g_assert_cmpfloat_with_epsilon (tie->misfit_mm, takes ? 12.5 : 0.0, 0.001);
        }
      g_assert_cmpint (planned_count (plan, "lines-miss"), ==, 1);
      g_assert_cmpfloat_with_epsilon (finding->value, 12.5, 0.001);
      g_assert_nonnull (strstr (finding->remedy, "w0"));
      g_assert_nonnull (strstr (finding->remedy, " – "));
    }
}

/* A wall with a zone at its corner: where the zone covers the whole height, its boards meet the
 * neighbour's and the wall's own do not; where it covers the lower half, both do. Upright boards in
 * the zone tie nothing level. */
static RodPlan *
zoned_corner (double zone_high_mm,
              double wall_deg,
              double zone_deg)
{
  g_autofree char *more = g_strdup_printf (
    ", 'direction_deg': %.1f, 'zones': [{'id': 'z', 'direction_deg': %.1f, 'corners': ["
    "{'x': 3000, 'y': 0}, {'x': 4000, 'y': 0}, {'x': 4000, 'y': %.1f}, {'x': 3000, 'y': %.1f}]}]",
    wall_deg,
    zone_deg,
    zone_high_mm,
    zone_high_mm);

  return planned_house (
    surveyed_house ("k-250",
                    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, more),
                              surveyed_box ("b", "wall", 3000, 2400, ", 'level_mm': 40")),
                    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
}

static void
test_zones_at_a_corner (void)
{
  static const struct
  {
    double   high_mm;
    double   wall_deg;
    double   zone_deg;
    gboolean wall_ties;
    gboolean zone_ties;
  } cases[] = {
    { 2400, 90, 0, FALSE, TRUE },
    { 2400, 0, 90, FALSE, FALSE },
    { 1200, 0, 90, TRUE, FALSE },
    { 1200, 90, 0, FALSE, TRUE },
    { 1200, 0, 0, TRUE, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RodPlan) plan =
        zoned_corner (cases[i].high_mm, cases[i].wall_deg, cases[i].zone_deg);
      guint           first = rod_plan_face (plan, planned_face (plan, "a"))->first_field;
      const RodField *wall = rod_plan_field (plan, first);
      const RodField *zone = rod_plan_field (plan, first + 1);
      const RodField *next = planned_field (plan, "b");

      g_assert_null (wall->zone);
      g_assert_nonnull (zone->zone);
      g_assert_cmpint (wall->group == next->group, ==, cases[i].wall_ties);
      g_assert_cmpint (zone->group == next->group, ==, cases[i].zone_ties);
      for (int y = 20; y < 2000 && cases[i].zone_ties; y += 41)
        g_assert_cmpfloat_with_epsilon (planned_joint (zone, (RodPoint){ 3900, y + 40 }),
                                        planned_joint (next, (RodPoint){ 100, y }),
                                        0.01);
      g_assert_null (planned_finding (plan, "lines-miss"));
    }
}

/* 250 round the corner from 125: every line of the wide boards meets one of the narrow, whichever
 * is named first and whichever was pinned. */
static void
test_covers_in_whole_ratio (void)
{
  static const double covers_mm[][2] = { { 250, 125 }, { 125, 250 }, { 250, 83.333333333333333 } };

  for (guint i = 0; i < 2 * G_N_ELEMENTS (covers_mm); i++)
    {
      const double *cover_mm = covers_mm[i / 2];
      RodHouse     *house = surveyed_house (
        "k-250",
        SURVEYED (surveyed_box ("a",
                                "wall",
                                4000,
                                2400,
                                i % 2 == 0 ? ", 'joint_line_mm': 1017" : ""),
                  surveyed_box ("b",
                                "wall",
                                3000,
                                2400,
                                i % 2 == 0 ? ", 'board': 'reveal-board', 'level_mm': -310"
                                               : ", 'board': 'reveal-board', 'level_mm': -310, "
                                                 "'joint_line_mm': 933")),
        SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, "")));
      g_autoptr (RodPlan) plan = NULL;
      const RodField *wide, *narrow;
      double          wide_level, narrow_level;

      ((RodBoard *) g_ptr_array_index (planned_system (house)->boards, 0))->cover_mm = cover_mm[0];
      ((RodBoard *) g_ptr_array_index (planned_system (house)->boards, 2))->cover_mm = cover_mm[1];
      plan = planned_house (house);
      wide = planned_field (plan, cover_mm[0] > cover_mm[1] ? "a" : "b");
      narrow = planned_field (plan, cover_mm[0] > cover_mm[1] ? "b" : "a");
      wide_level = cover_mm[0] > cover_mm[1] ? 0 : -310;
      narrow_level = cover_mm[0] > cover_mm[1] ? -310 : 0;
      g_assert_cmpuint (plan->groups->len, ==, 1);
      for (int k = 0; k < 10; k++)
        {
          double height = wide->phase_mm + k * wide->board->cover_mm + wide_level;

          g_assert_cmpfloat (
            planned_joint (narrow, (RodPoint){ 10, height - narrow_level }), <, 0.01);
        }
      g_assert_cmpfloat (planned_group (plan, "a")->misfit_mm, <, 0.01);
      g_assert_true (g_array_index (plan->groups, RodGroup, 0).held);
      g_assert_null (planned_finding (plan, "pin-missed"));
    }
}

static void
shuffle (GPtrArray *list)
{
  for (guint i = list->len; i > 1; i--)
    {
      guint    other = (guint) g_test_rand_int_range (0, (int) i);
      gpointer moved = list->pdata[i - 1];

      list->pdata[i - 1] = list->pdata[other];
      list->pdata[other] = moved;
    }
}

/* Joins may also name their sides the other way round. */
static gpointer
turned_join (const RodJoin *join)
{
  RodJoin    *turned = rod_record_copy (join);
  RodEdgeRef *a = turned->a;

  turned->a = turned->b;
  turned->b = a;
  return turned;
}

static RodHouse *
shuffled (const RodHouse *house)
{
  RodHouse  *copy = rod_record_copy (house);
  GPtrArray *surfaces = rod_record_list_copy (house->surfaces);
  GPtrArray *joins = rod_record_list_copy (house->joins);

  shuffle (surfaces);
  shuffle (joins);
  for (guint i = 0; i < joins->len; i++)
    {
      RodJoin *join = joins->pdata[i];

      /* Corners of walls match by level: no offset to turn. */
      if (fabs (join->offset_mm) > 0.0 || fabs (fabs (join->fold_deg) - 90.0) > 1e-9 ||
          strstr (join->id, "ceiling") != NULL || g_test_rand_bit ())
        continue;
      joins->pdata[i] = turned_join (join);
      rod_record_unref (join);
    }
  rod_record_take_list (copy, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  rod_record_take_list (copy, G_STRUCT_OFFSET (RodHouse, joins), joins);
  return copy;
}

static void
assert_same_pieces (const RodPlan *plan,
                    const RodPlan *other)
{
  g_autoptr (GHashTable) marks = g_hash_table_new (g_str_hash, g_str_equal);

  g_assert_cmpuint (plan->pieces->len, ==, other->pieces->len);
  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);

      g_hash_table_insert (marks, (gpointer) (guintptr) piece->mark, (gpointer) (guintptr) piece);
    }
  for (guint p = 0; p < other->pieces->len; p++)
    {
      const RodPiece *theirs = rod_plan_piece (other, p);
      const RodPiece *ours = g_hash_table_lookup (marks, theirs->mark);

      g_assert_nonnull (ours);
      g_assert_cmpfloat_with_epsilon (ours->length_mm, theirs->length_mm, 1e-6);
      g_assert_cmpfloat_with_epsilon (ours->low_mm, theirs->low_mm, 1e-6);
      g_assert_cmpfloat_with_epsilon (ours->high_mm, theirs->high_mm, 1e-6);
      g_assert_cmpint (ours->screws, ==, theirs->screws);
      g_assert_cmpuint (ours->n_notches, ==, theirs->n_notches);
      g_assert_cmpstr (ours->colour->id, ==, theirs->colour->id);
    }
}

/* Surfaces and joins of the two-storey house in any order: the same boards, by their marks. */
static void
test_any_order (void)
{
  g_autofree char *path =
    g_test_build_filename (G_TEST_DIST, "..", "examples", "two-storey.storeyrod", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) house = rod_house_load (path, &error);
  g_autoptr (RodPlan) plan = NULL;

  g_assert_no_error (error);
  plan = rod_plan_new (house);
  for (int round = 0; round < 12; round++)
    {
      g_autoptr (RodHouse) moved = shuffled (house);
      g_autoptr (RodPlan) other = rod_plan_new (moved);

      assert_same_pieces (plan, other);
      g_assert_cmpuint (plan->groups->len, ==, other->groups->len);
      g_assert_cmpuint (plan->findings->len, ==, other->findings->len);
    }
}

/* Wherever a ring of equally seen joins is begun and in whatever order it is listed, the same join
 * takes the misfit. */
static void
test_any_order_of_a_ring (void)
{
  double one_mm = NAN;

  for (int round = 0; round < 20; round++)
    {
      static const double widths_mm[] = { 6000, 4100, 5950, 4170, 3333, 5200 };
      guint               order[] = { 0, 1, 2, 3, 4, 5 };
      char               *surfaces[7] = { NULL }, *joins[7] = { NULL };
      g_autoptr (RodPlan) plan = NULL;

      for (guint i = 6; i > 1; i--)
        {
          guint k = (guint) g_test_rand_int_range (0, (int) i);
          guint moved = order[i - 1];

          order[i - 1] = order[k];
          order[k] = moved;
        }
      for (guint i = 0; i < 6; i++)
        {
          g_autofree char *id = g_strdup_printf ("w%u", order[i]);
          g_autofree char *join = g_strdup_printf ("j%u", order[5 - i]);
          g_autofree char *one = g_strdup_printf ("w%u.right", order[5 - i]);
          g_autofree char *other = g_strdup_printf ("w%u.left", (order[5 - i] + 1) % 6);
          gboolean         turned = g_test_rand_bit ();

          surfaces[i] =
            surveyed_box (id, "wall", widths_mm[order[i]], 2400, ", 'direction_deg': 90");
          joins[i] = surveyed_join (
            join, turned ? other : one, turned ? one : other, 60, ", 'mirrors': true");
        }
      plan = planned_house (surveyed_house ("k-200", surfaces, joins));
      if (round == 0)
        one_mm = planned_field (plan, "w3")->phase_mm;
      g_assert_cmpfloat_with_epsilon (planned_field (plan, "w3")->phase_mm, one_mm, 1e-6);
    }
}

/* Rule R16: whatever the walls of a closed right-angled loop, four more outside corners than inside
 * ones, and all together gain eight build-ups. */
static void
test_right_angled_loop_gains_eight_build_ups (void)
{
  for (int round = 0; round < N_RINGS; round++)
    {
      guint    inside = (guint) g_test_rand_int_range (0, 4);
      guint    n = 4 + 2 * inside;
      gboolean turns_in[MOST_WALLS] = { FALSE };
      double   build_up_mm = g_test_rand_int_range (0, 2000) / 10.0;
      char    *surfaces[MOST_WALLS + 1] = { NULL }, *joins[MOST_WALLS + 1] = { NULL };
      double   gain_mm = 0.0;
      g_autoptr (RodPlan) plan = NULL;

      for (guint left = inside; left > 0;)
        {
          guint at = (guint) g_test_rand_int_range (0, (int) n);

          left -= !turns_in[at];
          turns_in[at] = TRUE;
        }
      for (guint i = 0; i < n; i++)
        {
          g_autofree char *id = g_strdup_printf ("w%u", i);
          g_autofree char *join = g_strdup_printf ("j%u", i);
          g_autofree char *one = g_strdup_printf ("w%u.right", i);
          g_autofree char *other = g_strdup_printf ("w%u.left", (i + 1) % n);
          g_autofree char *more = g_strdup_printf (", 'build_up_mm': %.1f", build_up_mm);

          surfaces[i] =
            surveyed_box (id, "wall", g_test_rand_int_range (1000, 9000), 2400, more);
          joins[i] = surveyed_join (join, one, other, turns_in[i] ? -90 : 90, "");
        }
      plan = planned_house (surveyed_house ("k-250", surfaces, joins));
      for (guint i = 0; i < n; i++)
        {
          g_autofree char *id = g_strdup_printf ("w%u", i);

          gain_mm += planned_edge (plan, id, "left")->build_up_mm +
                     planned_edge (plan, id, "right")->build_up_mm;
        }
      g_assert_cmpfloat_with_epsilon (gain_mm, 8.0 * build_up_mm, 1e-6);
    }
}

/* Any angle: with the interior angle θ between raw planes each end gains D/tan(θ/2), and with
 * unlike build-ups (D_other + D_own·cos θ)/sin θ. Checked against where both batten faces meet,
 * worked out in plan: own raw line along x from the corner at 0 backwards. */
static void
test_any_corner (void)
{
  for (int round = 0; round < N_RINGS; round++)
    {
      double           fold_deg = g_test_rand_int_range (-140, 141);
      double           fold = fold_deg * G_PI / 180.0;
      double           own_mm = g_test_rand_int_range (0, 1500) / 10.0;
      double           other_mm = g_test_rand_int_range (0, 1500) / 10.0;
      g_autofree char *one = g_strdup_printf (", 'build_up_mm': %.1f", own_mm);
      g_autofree char *other = g_strdup_printf (", 'build_up_mm': %.1f", other_mm);
      g_autoptr (RodPlan) plan = NULL;
      double gain_mm;

      if (fabs (fold_deg) < 1.0)
        continue;
      plan = planned_house (
        surveyed_house ("k-250",
                        SURVEYED (surveyed_box ("a", "wall", 4000, 2400, one),
                                  surveyed_box ("b", "wall", 4000, 2400, other)),
                        SURVEYED (surveyed_join ("j", "a.right", "b.left", fold_deg, ""))));
      /* Own face at y = D_own. The other wall leaves the corner in the direction (cos f, −sin f),
       * its face lies D_other along (sin f, cos f): x·sin f + y·cos f = D_other. */
      gain_mm = (other_mm - own_mm * cos (fold)) / sin (fold);
      g_assert_cmpfloat_with_epsilon (
        planned_edge (plan, "a", "right")->build_up_mm, gain_mm, 1e-6);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/ties/mirrored-corner", test_mirrored_corner);
  g_test_add_func ("/ties/mirrors-is-asked-for", test_mirrors_is_asked_for);
  g_test_add_func ("/ties/return-walls", test_return_walls);
  g_test_add_func ("/ties/even-rings", test_even_rings);
  g_test_add_func ("/ties/odd-ring-closes", test_odd_ring_closes);
  g_test_add_func ("/ties/odd-rings-can-always-close", test_odd_rings_can_always_close);
  g_test_add_func ("/ties/join-that-takes-the-misfit", test_join_that_takes_the_misfit);
  g_test_add_func ("/ties/zones-at-a-corner", test_zones_at_a_corner);
  g_test_add_func ("/ties/covers-in-whole-ratio", test_covers_in_whole_ratio);
  g_test_add_func ("/ties/any-order", test_any_order);
  g_test_add_func ("/ties/any-order-of-a-ring", test_any_order_of_a_ring);
  g_test_add_func ("/ties/right-angled-loop-gains-eight-build-ups",
                   test_right_angled_loop_gains_eight_build_ups);
  g_test_add_func ("/ties/any-corner", test_any_corner);

  return g_test_run ();
}
