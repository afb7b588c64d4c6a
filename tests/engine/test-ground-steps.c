/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Stepped bases over falling ground (rules R12 and R13), worked by hand. */

#include "engine/files/rod-file.h"
#include "engine/setout/rod-ground-steps.h"
#include "engine/setout/rod-stepped-house.h"
#include "support/planned-house.h"

#include <math.h>

/* Lines at 160 and whole covers of 250 from there, 150 clear of the ground, battens at 400. */
static RodGround
falling_ground (const RodPoint *line,
                guint           n)
{
  return (RodGround){
    .line = line,
    .n = n,
    .phase_mm = 160.0,
    .cover_mm = 250.0,
    .clearance_mm = 150.0,
    .bay_mm = 400.0,
    .least_run_mm = 800.0,
  };
}

static void
assert_tread (const GArray *treads,
              guint         index,
              double        from_mm,
              double        to_mm,
              double        line_mm)
{
  const RodTread *tread = &g_array_index (treads, RodTread, index);

  g_assert_cmpfloat_with_epsilon (tread->from_mm, from_mm, 1e-6);
  g_assert_cmpfloat_with_epsilon (tread->to_mm, to_mm, 1e-6);
  g_assert_cmpfloat_with_epsilon (tread->line_mm, line_mm, 1e-6);
}

/* A wall of 8 m that falls by 620, 0.0775 mm for each millimetre. One cover down needs ground at or
 * below 160 - 250 - 150 = -240, which is reached 240/0.0775 = 3096.8 from the high end; two need
 * -490: 6322.6. The next battens are at 3200 and 6400. */
static void
test_two_steps (void)
{
  const RodPoint line[] = { { 0.0, 0.0 }, { 8000.0, -620.0 } };
  RodGround      ground = falling_ground (line, 2);
  g_autoptr (GArray) treads = rod_ground_steps (&ground);
  g_autoptr (GArray) exact = NULL;

  g_assert_cmpuint (treads->len, ==, 3);
  assert_tread (treads, 0, 0.0, 3200.0, 160.0);
  assert_tread (treads, 1, 3200.0, 6400.0, -90.0);
  assert_tread (treads, 2, 6400.0, 8000.0, -340.0);

  /* Before they move on to a batten, to a tenth of a millimetre. */
  ground.bay_mm = 0.1;
  ground.least_run_mm = 0.0;
  exact = rod_ground_steps (&ground);
  g_assert_cmpuint (exact->len, ==, 3);
  assert_tread (exact, 1, 3096.8, 6322.6, -90.0);
}

/* The same ground, seen from the other side of the wall: battens still count from the high end. */
static void
test_mirrored (void)
{
  const RodPoint line[] = { { 0.0, -620.0 }, { 8000.0, 0.0 } };
  RodGround      ground = falling_ground (line, 2);
  g_autoptr (GArray) treads = rod_ground_steps (&ground);

  g_assert_cmpuint (treads->len, ==, 3);
  assert_tread (treads, 0, 0.0, 1600.0, -340.0);
  assert_tread (treads, 1, 1600.0, 4800.0, -90.0);
  assert_tread (treads, 2, 4800.0, 8000.0, 160.0);
}

/* 4 m that fall by 2000, 200 in each bay, so that bays want 150 - 200 i at their high end and stand
 * on the lines 160, 160, -90, -340, -590, -840, -840, -1090, -1340, -1590. A run must have two
 * bays: from the highest down, each single one takes in the next. */
static void
test_steep (void)
{
  const RodPoint line[] = { { 0.0, 0.0 }, { 4000.0, -2000.0 } };
  RodGround      ground = falling_ground (line, 2);
  g_autoptr (GArray) treads = rod_ground_steps (&ground);

  g_assert_cmpuint (treads->len, ==, 5);
  assert_tread (treads, 0, 0.0, 800.0, 160.0);
  assert_tread (treads, 1, 800.0, 1600.0, -90.0);
  assert_tread (treads, 2, 1600.0, 2400.0, -590.0);
  assert_tread (treads, 3, 2400.0, 3200.0, -840.0);
  assert_tread (treads, 4, 3200.0, 4000.0, -1340.0);
}

/* A mound and a hollow: what must always hold, on ground drawn at random. */
static void
test_always_clear (void)
{
  for (int trial = 0; trial < 2000; trial++)
    {
      RodPoint  line[6];
      guint     n = (guint) g_test_rand_int_range (2, 7);
      RodGround ground = falling_ground (line, n);
      g_autoptr (GArray) treads = NULL;

      for (guint i = 0; i < n; i++)
        line[i] = (RodPoint){ i == 0 ? 0.0 : line[i - 1].x + g_test_rand_double_range (300, 4000),
                              g_test_rand_double_range (-1500, 1500) };
      treads = rod_ground_steps (&ground);
      g_assert_cmpfloat (g_array_index (treads, RodTread, 0).from_mm, ==, 0.0);
      for (guint t = 0; t < treads->len; t++)
        {
          const RodTread *tread = &g_array_index (treads, RodTread, t);
          double          from = t == 0 ? 0.0 : g_array_index (treads, RodTread, t - 1).to_mm;
          double          lines = (tread->line_mm - ground.phase_mm) / ground.cover_mm;

          g_assert_cmpfloat (tread->from_mm, ==, from);
          g_assert_cmpfloat_with_epsilon (lines, round (lines), 1e-6);
          g_assert_true (treads->len == 1 || tread->to_mm - tread->from_mm >= 800.0 - 1e-6);
          g_assert_true (t == 0 || fabs (tread->line_mm - tread[-1].line_mm) > 1.0);
          for (guint i = 0; i + 1 < n; i++)
            for (int k = 0; k <= 20; k++)
              {
                double x = line[i].x + (line[i + 1].x - line[i].x) * k / 20.0;
                double y = line[i].y + (line[i + 1].y - line[i].y) * k / 20.0;

                if (x >= tread->from_mm && x <= tread->to_mm)
                  g_assert_cmpfloat (tread->line_mm - y, >=, 150.0 - 1e-6);
              }
        }
      g_assert_cmpfloat_with_epsilon (
        g_array_index (treads, RodTread, treads->len - 1).to_mm, line[n - 1].x, 1e-9);
    }
}

#define STARTERS ", 'starter_low_mm': 150, 'starter_high_mm': 399"

static char *
falling_wall (const char *more,
              const char *openings)
{
  return g_strdup_printf ("{'id': 'east', 'name': 'East', 'kind': 'wall', 'system': 'k', "
                          "'outline': [{'x': 0, 'y': 0, 'edge': 'base', 'condition': 'base', "
                          "'clearance_mm': 150%s}, {'x': 8000, 'y': -620, 'edge': 'right'}, "
                          "{'x': 8000, 'y': 2600, 'edge': 'top'}, "
                          "{'x': 0, 'y': 2600, 'edge': 'left'}], 'openings': [%s]" STARTERS "}",
                          more,
                          openings);
}

/* North stands on level ground at 0, south on level ground at -620, east falls between them. */
static RodHouse *
house_on_a_slope (const char *openings)
{
  char *north =
    surveyed_box ("north", "wall", 6000.0, 2600.0, ", 'joint_line_mm': 160" STARTERS);
  char *south = surveyed_box ("south", "wall", 6000.0, 3220.0, ", 'level_mm': -620" STARTERS);

  return surveyed_house (
    "k-250",
    SURVEYED (north, falling_wall (", 'stepped': true", openings), south),
    SURVEYED (surveyed_join ("ne", "north.right", "east.left", 90.0, ""),
              surveyed_join ("es", "east.right", "south.left", 90.0, "")));
}

static RodPlan *
stepped_plan (RodHouse *house)
{
  g_autoptr (RodPlan) before = planned_house (house);

  return planned_house (rod_house_with_steps (before));
}

/* South: k = floor ((160 - (-620 + 150))/250) = floor (2.52) = 2 covers down, base -340, 280 above
 * the ground. East: the steps of test_two_steps(), starters at 160, -90 and -340. */
static void
test_slope (void)
{
  g_autoptr (RodPlan) plan = stepped_plan (house_on_a_slope (""));
  const RodField *east = planned_field (plan, "east");
  const RodPoint  corners[] = {
     { 0.0, 160.0 },
     { 3200.0, 160.0 },
     { 3200.0, -90.0 },
     { 6400.0, -90.0 },
     { 6400.0, -340.0 },
     { 8000.0, -340.0 },
  };

  g_assert_cmpfloat_with_epsilon (planned_edge (plan, "south", "base")->clearance_mm, 280.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (planned_edge (plan, "north", "base")->clearance_mm, 160.0, 1e-6);
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      gboolean found = FALSE;

      for (guint p = 0; p < east->clad->n_points; p++)
        found = found || rod_point_distance (east->clad->points[p], corners[i]) < 1e-3;
      g_assert_true (found);
    }
  for (guint e = 0; e < 5; e++)
    {
      const RodEdge *edge = &east->edges[e];

      g_assert_cmpint (edge->condition, ==, e % 2 == 0 ? ROD_EDGE_BASE : ROD_EDGE_SIDE_STOP);
      g_assert_cmpint (edge->starter, ==, e % 2 == 0);
      if (edge->starter)
        g_assert_cmpfloat_with_epsilon (edge->clearance_mm, 150.0, 1e-6);
    }
  g_assert_null (planned_finding (plan, "falling-base"));
  g_assert_null (planned_finding (plan, "joint-lines-miss"));
}

/* Each riser has a trim of 250, from starter to starter, and a batten on either side of it, 50
 * away. */
static void
test_risers (void)
{
  g_autoptr (RodPlan) plan = stepped_plan (house_on_a_slope (""));
  const double risers[] = { 3200.0, 6400.0 };

  for (guint r = 0; r < G_N_ELEMENTS (risers); r++)
    {
      int    trims = 0;
      guint  left = 0, right = 0;
      double trim_mm = 0.0;

      for (guint t = 0; t < plan->trims->len; t++)
        {
          const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

          if (rod_plan_field (plan, run->field)->face != planned_face (plan, "east") ||
              fabs (run->from.x - risers[r]) > 1e-3 || fabs (run->to.x - risers[r]) > 1e-3)
            continue;
          trims++;
          trim_mm = run->length_mm;
        }
      g_assert_cmpint (trims, ==, 1);
      g_assert_cmpfloat_with_epsilon (trim_mm, 250.0, 1e-3);
      for (guint b = 0; b < plan->battens->len; b++)
        {
          const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

          if (rod_plan_field (plan, run->field)->face != planned_face (plan, "east"))
            continue;
          left += fabs (run->from.x - (risers[r] - 50.0)) < 1e-3;
          right += fabs (run->from.x - (risers[r] + 50.0)) < 1e-3;
        }
      g_assert_cmpuint (left, ==, 1);
      g_assert_cmpuint (right, ==, 1);
    }
}

/* The wall as drawn says what is to be done; a falling base nobody wants stepped says nothing. */
static void
test_finding (void)
{
  g_autoptr (RodPlan) plan = planned_house (house_on_a_slope (""));
  g_autoptr (RodPlan) plain = planned_house (
    surveyed_house ("k-250", SURVEYED (falling_wall ("", "")), NULL));
  const RodFinding *finding = planned_finding (plan, "falling-base");

  g_assert_nonnull (finding);
  g_assert_cmpint (finding->face, ==, (int) planned_face (plan, "east"));
  g_assert_cmpstr (finding->rule, ==, "R13");
  g_assert_nonnull (g_strstr_len (finding->remedy, -1, "3200, 6400"));
  g_assert_null (planned_finding (plain, "falling-base"));
}

/* Only the surface that is stepped is new, and a house without such a wall is the same house. */
static void
test_shares (void)
{
  g_autoptr (RodPlan) plan = planned_house (house_on_a_slope (""));
  g_autoptr (RodHouse) stepped = rod_house_with_steps (plan);
  g_autoptr (RodPlan) after = rod_plan_new (stepped);
  g_autoptr (RodHouse) again = rod_house_with_steps (after);
  const RodSurface *east = rod_house_find_surface (stepped, "east");

  g_assert_true (stepped != plan->house);
  g_assert_true (rod_house_find_surface (stepped, "north") ==
                 rod_house_find_surface (plan->house, "north"));
  g_assert_cmpuint (east->outline->len, ==, 8);
  g_assert_cmpint (rod_surface_find_edge (east, "base"), ==, 0);
  g_assert_true (again == stepped);
}

/* The house can be saved: openings that went down to the ground end on
 * the steps. A door from 2800 to 3800 stands over the step at 3200: its foot was at -294.5 and now
 * follows the treads, at 10 and -240 where boards begin 150 above them. */
static void
test_door (void)
{
  g_autoptr (RodPlan) before = planned_house (house_on_a_slope (
    "{'id': 'd', 'kind': 'door', 'shape': 'polygon', 'corners': [{'x': 2800, 'y': -217}, "
    "{'x': 3800, 'y': -294.5}, {'x': 3800, 'y': 1800}, {'x': 2800, 'y': 1800}]}, "
    "{'id': 'w', 'kind': 'window', 'x': 800, 'y': 900, 'width_mm': 1000, 'height_mm': 900}"));
  g_autoptr (RodHouse) stepped = rod_house_with_steps (before);
  const RodSurface *east = rod_house_find_surface (stepped, "east");
  const RodSurface *was = rod_house_find_surface (before->house, "east");
  const RodOpening *door = g_ptr_array_index (east->openings, 0);
  g_autoptr (GError) error = NULL;
  const RodPoint foot[] = { { 2800, 10 }, { 3200, 10 }, { 3200, -240 }, { 3800, -240 } };

  g_assert_true (rod_house_check (stepped, &error));
  g_assert_no_error (error);
  g_assert_true (g_ptr_array_index (east->openings, 1) == g_ptr_array_index (was->openings, 1));
  g_assert_cmpuint (door->corners->len, ==, 6);
  for (guint i = 0; i < G_N_ELEMENTS (foot); i++)
    {
      gboolean found = FALSE;

      for (guint c = 0; c < door->corners->len; c++)
        {
          const RodCorner *corner = g_ptr_array_index (door->corners, c);

          found =
            found || (fabs (corner->x - foot[i].x) < 1e-3 && fabs (corner->y - foot[i].y) < 1e-3);
        }
      g_assert_true (found);
    }
}

/* Ground that is level up to 2000 and falls by 300 over the 6 m beyond: 160 holds to where the
 * ground is at -240, 2000 + 240/0.05 = 6800, the next batten from 2000 being 6800 itself. The level
 * base goes on to there, without a corner at 2000. */
static void
test_level_then_falling (void)
{
  g_autoptr (RodPlan) before = planned_house (surveyed_house (
    "k-250",
    SURVEYED (g_strdup ("{'id': 'east', 'kind': 'wall', 'system': 'k', 'joint_line_mm': 160, "
                        "'outline': [{'x': 0, 'y': 0, 'condition': 'base'}, "
                        "{'x': 2000, 'y': 0, 'condition': 'base', 'stepped': true, "
                        "'clearance_mm': 150}, {'x': 8000, 'y': -300}, {'x': 8000, 'y': 2600}, "
                        "{'x': 0, 'y': 2600}]" STARTERS "}")),
    NULL));
  g_autoptr (RodHouse) stepped = rod_house_with_steps (before);
  g_autoptr (RodPlan) after = rod_plan_new (stepped);
  const RodField *east = planned_field (after, "east");

  g_assert_cmpuint (rod_house_find_surface (stepped, "east")->outline->len, ==, 6);
  g_assert_cmpfloat_with_epsilon (east->edges[0].raw.to.x, 6800.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (east->edges[0].clearance_mm, 160.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (east->edges[2].raw.from.y, -240.0, 1e-6);
  g_assert_cmpfloat_with_epsilon (east->edges[2].clearance_mm, 150.0, 1e-6);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ground-steps/two-steps", test_two_steps);
  g_test_add_func ("/ground-steps/mirrored", test_mirrored);
  g_test_add_func ("/ground-steps/steep", test_steep);
  g_test_add_func ("/ground-steps/always-clear", test_always_clear);
  g_test_add_func ("/ground-steps/slope", test_slope);
  g_test_add_func ("/ground-steps/risers", test_risers);
  g_test_add_func ("/ground-steps/finding", test_finding);
  g_test_add_func ("/ground-steps/shares", test_shares);
  g_test_add_func ("/ground-steps/door", test_door);
  g_test_add_func ("/ground-steps/level-then-falling", test_level_then_falling);
  return g_test_run ();
}
