/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Joint lines that meet: round corners, along ceiling lines, over mitres, and what is said where
 * they cannot (rules R12, R15, R17 and R18 in docs/rules.md). Places that are the same in the
 * house are worked out by hand for each surface and asked for their distance from the next joint
 * line. */

#include "support/planned-house.h"

#include "engine/rod-limits.h"

#include <math.h>
#include <string.h>

/* Joint lines of both surfaces meet at all places of the house that are @one here and @other there,
 * and a step further in both. */
static void
assert_meet (const RodPlan *plan,
             const char    *one_id,
             RodPoint       one,
             RodPoint       one_step,
             const char    *other_id,
             RodPoint       other,
             RodPoint       other_step)
{
  const RodField *a = planned_field (plan, one_id);
  const RodField *b = planned_field (plan, other_id);

  for (int i = 0; i < 40; i++)
    {
      RodPoint here = { one.x + i * one_step.x, one.y + i * one_step.y };
      RodPoint there = { other.x + i * other_step.x, other.y + i * other_step.y };

      g_assert_cmpfloat_with_epsilon (planned_joint (a, here), planned_joint (b, there), 0.01);
    }
}

/* Three walls round an outside and an inside corner, each drawn from a zero of its own, bases at
 * different heights. */
static void
test_level_joins (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'build_up_mm': 60"),
              surveyed_box ("b", "wall", 3000, 2937, ", 'build_up_mm': 60, 'level_mm': -537"),
              surveyed_box ("c", "wall", 5000, 1800, ", 'build_up_mm': 60, 'level_mm': 613.4")),
    SURVEYED (surveyed_join ("j1", "a.right", "b.left", 90, ""),
              surveyed_join ("j2", "b.right", "c.left", -90, ""))));
  g_assert_cmpuint (planned_group (plan, "a")->n_fields, ==, 3);
  for (int height = -500; height < 2400; height += 61)
    {
      double here = planned_joint (planned_field (plan, "a"), (RodPoint){ 10, height });

      g_assert_cmpfloat_with_epsilon (
        planned_joint (planned_field (plan, "b"), (RodPoint){ 10, height + 537 }), here, 0.01);
      g_assert_cmpfloat_with_epsilon (
        planned_joint (planned_field (plan, "c"), (RodPoint){ 10, height - 613.4 }), here, 0.01);
    }
  g_assert_cmpfloat (planned_group (plan, "a")->misfit_mm, <, 0.01);
  g_assert_null (planned_finding (plan, "lines-miss"));
}

/* Which side of a join is named first, and in which order the surfaces stand, changes no line. */
static void
test_order_of_joins (void)
{
  double phases[4];

  for (int n = 0; n < 4; n++)
    {
      gboolean reversed = n % 2 == 1;
      char    *a = surveyed_box ("a", "wall", 4000, 2410, "");
      char    *b = surveyed_box ("b", "wall", 3000, 2937, ", 'level_mm': -537");
      g_autoptr (RodPlan) plan = NULL;

      plan = planned_house (
        surveyed_house ("k-250",
                        n < 2 ? SURVEYED (a, b) : SURVEYED (b, a),
                        reversed
                          ? SURVEYED (surveyed_join ("j", "b.left", "a.right", 90, ""))
                          : SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
      phases[n] = planned_field (plan, "b")->phase_mm;
      g_assert_cmpfloat_with_epsilon (phases[n], phases[0], 1e-9);
      g_assert_cmpfloat_with_epsilon (
        remainder (planned_field (plan, "a")->phase_mm - (phases[n] - 537.0), 250.0), 0.0, 1e-9);
    }
}

/* A join that carries no joint lines leaves each wall its own best set-out. */
static void
test_free_joins (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'joint_line_mm': 100"),
              surveyed_box ("b", "wall", 3000, 2400, ", 'joint_line_mm': 137")),
    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ", 'carries_joints': false"))));
  g_assert_cmpuint (plan->groups->len, ==, 2);
  g_assert_cmpfloat (planned_field (plan, "a")->phase_mm, ==, 100.0);
  g_assert_cmpfloat (planned_field (plan, "b")->phase_mm, ==, 137.0);
  g_assert_null (planned_finding (plan, "lines-miss"));
}

/* Level boards run along a ceiling line: nothing ends there, nothing is tied. */
static void
test_boards_along_tie_nothing (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ""),
              surveyed_box ("s", "soffit", 4000, 600, ", 'direction_deg': 90")),
    SURVEYED (surveyed_join ("j", "a.top", "s.base", -90, ""))));
  g_assert_cmpuint (planned_field (plan, "a")->group, !=, planned_field (plan, "s")->group);
  g_assert_null (planned_finding (plan, "lines-miss"));
  g_assert_null (planned_finding (plan, "unequal-pitch"));
  g_assert_cmpint (planned_edge (plan, "a", "top")->condition, ==, ROD_EDGE_CEILING_LINE);
}

static char *
upright_from (const char *side)
{
  return g_strdup_printf (", 'direction_deg': 90, 'laid_from': '%s'", side);
}

/* Rule R17: upright boards and the soffit over them. The soffit runs 160 past the left end of the
 * wall and is drawn from its own corner: x there is x of the wall and 160. */
static void
test_ceiling_line (void)
{
  static const char *const laid[] = { "left", "right" };

  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *wall = upright_from (laid[i % 2]);
      g_autofree char *soffit = upright_from (laid[i / 2]);
      g_autoptr (RodPlan) plan = NULL;

      plan = planned_house (surveyed_house (
        "k-200",
        SURVEYED (surveyed_box ("a", "wall", 4370, 2400, wall),
                  surveyed_box ("s", "soffit", 4370 + 160 + 90, 600, soffit)),
        SURVEYED (surveyed_join ("j", "a.top", "s.base", -90, ", 'offset_mm': 160"))));
      g_assert_cmpuint (planned_group (plan, "a")->n_fields, ==, 2);
      assert_meet (plan,
                   "a",
                   (RodPoint){ 0, 2400 },
                   (RodPoint){ 17, 0 },
                   "s",
                   (RodPoint){ 160, 0 },
                   (RodPoint){ 17, 0 });
      g_assert_cmpfloat (planned_group (plan, "a")->misfit_mm, <, 0.01);
    }
}

/* The same tied from the soffit's side: then the wall's edge begins 90 short of the soffit's end.
 */
static void
test_ceiling_line_from_the_soffit (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-200",
    SURVEYED (surveyed_box ("a", "wall", 4370, 2400, ", 'direction_deg': 90"),
              surveyed_box ("s", "soffit", 4620, 600, ", 'direction_deg': 90")),
    SURVEYED (surveyed_join ("j", "s.base", "a.top", -90, ", 'offset_mm': -90"))));
  assert_meet (plan,
               "a",
               (RodPoint){ 0, 2400 },
               (RodPoint){ 17, 0 },
               "s",
               (RodPoint){ 160, 0 },
               (RodPoint){ 17, 0 });
}

static char *
eaves (const char *id,
       double      wall_mm,
       double      left_mm,
       double      right_mm,
       double      deep_mm)
{
  return g_strdup_printf ("{'id': '%s', 'kind': 'soffit', 'system': 'k', 'direction_deg': 90, "
                          "'outline': [{'x': 0, 'y': 0, 'edge': 'wall'}, "
                          "{'x': %.3f, 'y': 0, 'edge': 'right'}, "
                          "{'x': %.3f, 'y': %.3f, 'edge': 'fascia'}, "
                          "{'x': %.3f, 'y': %.3f, 'edge': 'left'}]}",
                          id,
                          wall_mm,
                          wall_mm + right_mm,
                          deep_mm,
                          -left_mm,
                          deep_mm);
}

/* Rule R18: boards across both sides of a mitre meet where they count the same from the corner. One
 * side's x grows away from the corner, the other's towards it: the measure is reversed. */
static void
test_mitre_reverses_the_measure (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-200",
    SURVEYED (eaves ("s", 5130, 600, 600, 600), eaves ("t", 3270, 600, 600, 600)),
    SURVEYED (surveyed_join ("m", "s.right", "t.left", 0, ""))));
  g_assert_cmpuint (planned_group (plan, "s")->n_fields, ==, 2);
  /* A step of d out along the mitre is d in x and y of s, and −d in x, d in y of t. */
  assert_meet (plan,
               "s",
               (RodPoint){ 5130, 0 },
               (RodPoint){ 13, 13 },
               "t",
               (RodPoint){ 0, 0 },
               (RodPoint){ -13, 13 });
  /* Distance from the corner is what both count, from −600 to the far end. */
  for (int d = -600; d < 3000; d += 43)
    g_assert_cmpfloat_with_epsilon (
      planned_joint (planned_field (plan, "s"), (RodPoint){ 5130 - d, 0 }),
      planned_joint (planned_field (plan, "t"), (RodPoint){ d, 0 }),
      0.01);
  g_assert_cmpint (planned_edge (plan, "s", "right")->condition, ==, ROD_EDGE_MITRE);
  g_assert_null (planned_finding (plan, "lines-miss"));
}

/* Four eaves of equal depth round a house. All count the same distance d from their corners, from
 * both ends: d and w − d must fall on lines together, so that two widths that differ by whole
 * covers close the ring. */
static RodPlan *
ring_of_eaves (double one_mm,
               double other_mm,
               double planted_mm)
{
  g_autofree char *planted = g_strdup_printf (", 'offset_mm': %.3f", planted_mm);

  return planned_house (surveyed_house (
    "k-200",
    SURVEYED (eaves ("s", one_mm, 600, 600, 600),
              eaves ("t", other_mm, 600, 600, 600),
              eaves ("u", one_mm, 600, 600, 600),
              eaves ("v", other_mm, 600, 600, 600)),
    SURVEYED (surveyed_join ("m1", "s.right", "t.left", 0, ""),
              surveyed_join ("m2", "t.right", "u.left", 0, ""),
              surveyed_join ("m3", "u.right", "v.left", 0, ""),
              surveyed_join ("m4", "v.right", "s.left", 0, planted))));
}

static void
test_ring_of_eaves_closes (void)
{
  g_autoptr (RodPlan) plan = ring_of_eaves (5130, 3330, 0.0);

  /* 5130 ≡ 3330 ≡ 130 (mod 200): d = 65 or 165 at all corners. */
  g_assert_cmpuint (plan->groups->len, ==, 1);
  g_assert_cmpuint (planned_group (plan, "s")->n_fields, ==, 4);
  g_assert_cmpfloat (planned_group (plan, "s")->misfit_mm, <, 0.01);
  g_assert_null (planned_finding (plan, "lines-miss"));
}

/* What is planted at one join of a ring comes out once, to the hundredth, where the ring closes. */
static void
test_planted_misfit (void)
{
  static const double planted_mm[] = { 1.5, 2.5, 7.25, -31.4, 99.0 };

  for (guint i = 0; i < G_N_ELEMENTS (planted_mm); i++)
    {
      g_autoptr (RodPlan) plan = ring_of_eaves (5130, 3330, planted_mm[i]);
      const RodFinding *finding = planned_finding (plan, "lines-miss");
      /* The join lies at 45°: a shift along it moves the lines by cos 45°. */
      double misfit_mm = fabs (planted_mm[i]) * G_SQRT2 / 2.0;

      g_assert_cmpfloat_with_epsilon (planned_group (plan, "s")->misfit_mm, misfit_mm, 0.005);
      if (misfit_mm <= ROD_VISIBLE_MISFIT_MM)
        {
          g_assert_null (finding);
          continue;
        }
      g_assert_cmpint (planned_count (plan, "lines-miss"), ==, 1);
      g_assert_cmpfloat_with_epsilon (finding->value, misfit_mm, 0.005);
      g_assert_cmpfloat (finding->limit, ==, ROD_VISIBLE_MISFIT_MM);
      g_assert_cmpint (finding->severity, ==, ROD_SEVERITY_SHOULD);
    }
}

/* Walls count by level: a ring of them always closes, whatever their zeros. */
static void
test_ring_of_walls_closes (void)
{
  for (int n = 0; n < 20; n++)
    {
      char *surfaces[5] = { NULL }, *joins[5] = { NULL };
      g_autoptr (RodPlan) plan = NULL;

      for (int i = 0; i < 4; i++)
        {
          g_autofree char *id = g_strdup_printf ("w%d", i);
          g_autofree char *join = g_strdup_printf ("j%d", i);
          g_autofree char *one = g_strdup_printf ("w%d.right", i);
          g_autofree char *other = g_strdup_printf ("w%d.left", (i + 1) % 4);
          g_autofree char *more = g_strdup_printf (", 'level_mm': %d",
                                                   g_test_rand_int_range (-900, 900));

          surfaces[i] = surveyed_box (id, "wall", 3000, g_test_rand_int_range (2300, 3500), more);
          joins[i] = surveyed_join (join, one, other, 90, "");
        }
      plan = planned_house (surveyed_house ("k-250", surfaces, joins));
      g_assert_cmpuint (plan->groups->len, ==, 1);
      g_assert_cmpfloat (planned_group (plan, "w0")->misfit_mm, <, 0.01);
    }
}

/* A chain that comes back over a soffit: two walls and the mitred eaves over them. The walls'
 * upright boards are tied through the eaves only. */
static void
test_walls_tied_through_eaves (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-200",
    SURVEYED (surveyed_box ("a", "wall", 5130, 2600, ", 'direction_deg': 90"),
              surveyed_box ("b", "wall", 3270, 2600, ", 'direction_deg': 90"),
              eaves ("s", 5130, 0, 600, 600),
              eaves ("t", 3270, 600, 0, 600)),
    SURVEYED (surveyed_join ("c", "a.right", "b.left", 90, ""),
              surveyed_join ("e1", "a.top", "s.wall", -90, ""),
              surveyed_join ("e2", "b.top", "t.wall", -90, ""),
              surveyed_join ("m", "s.right", "t.left", 0, ""))));
  g_assert_cmpuint (plan->groups->len, ==, 1);
  g_assert_cmpuint (planned_group (plan, "a")->n_fields, ==, 4);
  g_assert_cmpfloat (planned_group (plan, "a")->misfit_mm, <, 0.01);
  for (int d = 0; d < 3000; d += 43)
    g_assert_cmpfloat_with_epsilon (
      planned_joint (planned_field (plan, "a"), (RodPoint){ 5130 - d, 0 }),
      planned_joint (planned_field (plan, "b"), (RodPoint){ d, 0 }),
      0.01);
}

/* Unequal overhangs turn the mitre: 300 over a depth of 600 on one side. Lines then repeat along it
 * every 200·√5 on s and every 200·√5/2 on t, so that every line of s meets a second one of t. The
 * same is said whichever side is named first. */
static void
test_unequal_overhangs (void)
{
  for (int reversed = 0; reversed < 2; reversed++)
    {
      g_autoptr (RodPlan) plan = NULL;
      const RodFinding *finding;

      plan = planned_house (surveyed_house (
        "k-200",
        SURVEYED (eaves ("s", 5000, 0, 300, 600), eaves ("t", 3000, 600, 0, 300)),
        SURVEYED (reversed ? surveyed_join ("m", "t.left", "s.right", 0, "")
                           : surveyed_join ("m", "s.right", "t.left", 0, ""))));
      finding = planned_finding (plan, "unequal-pitch");
      g_assert_nonnull (finding);
      g_assert_cmpint (finding->severity, ==, ROD_SEVERITY_NOTE);
      g_assert_cmpfloat_with_epsilon (MAX (finding->value, finding->limit), 200 * sqrt (5), 0.01);
      g_assert_cmpfloat_with_epsilon (MIN (finding->value, finding->limit), 100 * sqrt (5), 0.01);
      g_assert_nonnull (strstr (finding->text, "every 2. line of t"));
      g_assert_cmpuint (planned_field (plan, "s")->group, ==, planned_field (plan, "t")->group);
      g_assert_null (planned_finding (plan, "lines-miss"));
    }
}

static RodPlan *
walls_of_two_covers (double one_mm,
                     double other_mm)
{
  RodHouse *house;

  house = surveyed_house ("k-250",
                          SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ""),
                                    surveyed_box ("b",
                                                  "wall",
                                                  3000,
                                                  2400,
                                                  ", 'board': 'reveal-board'")),
                          SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, "")));
  ((RodBoard *) g_ptr_array_index (planned_system (house)->boards, 0))->cover_mm = one_mm;
  ((RodBoard *) g_ptr_array_index (planned_system (house)->boards, 2))->cover_mm = other_mm;
  return planned_house (house);
}

/* How often unequal covers meet: 250 and 200 every five lines of the narrower; 180 and 135 every
 * four; 250 and 250.05 pass for equal on the saw but not over a wall, 250 and 250.001 do. A whole
 * multiple ties: every line of the wider boards meets one of the narrower. */
static void
test_unequal_covers (void)
{
  static const struct
  {
    double      one_mm;
    double      other_mm;
    const char *text; /* NULL: no finding */
    guint       n_groups;
  } cases[] = {
    { 250, 200, "every 5. line of b", 2 },
    { 200, 250, "every 5. line of a", 2 },
    { 180, 135, "every 4. line of b", 2 },
    { 250, 125, "every 2. line of b", 1 },
    { 125, 250, "every 2. line of a", 1 },
    { 300, 299.7, "never meet", 2 },
    { 250, 250.001, NULL, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RodPlan) plan = walls_of_two_covers (cases[i].one_mm, cases[i].other_mm);
      const RodFinding *finding = planned_finding (plan, "unequal-pitch");

      g_assert_cmpint (finding == NULL, ==, cases[i].text == NULL);
      g_assert_cmpuint (plan->groups->len, ==, cases[i].n_groups);
      if (finding != NULL && strstr (finding->text, cases[i].text) == NULL)
        g_error ("%s, not: %s", finding->text, cases[i].text);
    }
}

/* A pin of any surface holds the lines of its whole group. */
static void
test_pin_moves_the_group (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'level_mm': 100"),
              surveyed_box ("b", "wall", 3000, 2400, ", 'level_mm': -40, 'joint_line_mm': 1017")),
    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
  g_assert_true (planned_group (plan, "a")->held);
  g_assert_cmpfloat (planned_joint (planned_field (plan, "a"), (RodPoint){ 0, 917 }), <, 0.001);
  g_assert_cmpfloat (planned_joint (planned_field (plan, "b"), (RodPoint){ 0, 1057 }), <, 0.001);
}

/* Pins of upright boards count along x, from whichever side they are laid. */
static void
test_pin_of_upright_boards (void)
{
  static const char *const laid[] = { "left", "right" };

  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *more = g_strdup_printf (", 'direction_deg': 90, 'joint_line_mm': 1234, "
                                               "'level_mm': 77, 'laid_from': '%s'",
                                               laid[i]);
      g_autoptr (RodPlan) plan = NULL;

      plan = planned_house (surveyed_house (
        "k-200", SURVEYED (surveyed_box ("a", "wall", 4000, 2400, more)), NULL));
      g_assert_cmpfloat (planned_joint (rod_plan_field (plan, 0), (RodPoint){ 1234, 5 }), <, 0.001);
    }
}

/* Two pins in one group that cannot both hold: the lines miss one of them, and that is said. */
static void
test_pins_that_disagree (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodFinding *finding;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'joint_line_mm': 1000"),
              surveyed_box ("b", "wall", 3000, 2400, ", 'joint_line_mm': 1262.5")),
    SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))));
  finding = planned_finding (plan, "pin-missed");
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->face, ==, (int) planned_face (plan, "b"));
  g_assert_cmpfloat_with_epsilon (finding->value, 12.5, 0.001);
}

/* Linings of an opening are tied to each other and to the wall. */
static void
test_reveals_follow_the_wall (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodField *wall;

  plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (
      surveyed_box ("a",
                    "wall",
                    4000,
                    2400,
                    ", 'level_mm': 333, 'joint_line_mm': 400, 'openings': [{'id': 'w', 'x': 1200, "
                    "'y': 700, 'width_mm': 1100, 'height_mm': 1200, 'reveal': "
                    "{'depth_mm': 300, 'build_up_mm': 20, 'boards': 'across'}}]")),
    NULL));
  wall = planned_field (plan, "a");
  /* Boards from frame to arris on the jambs are level like the wall's: their lines go round the
   * arris. A jamb's y is counted from its own foot, the opening's sill at 700. */
  for (int height = 700; height < 1900; height += 37)
    {
      double here = planned_joint (wall, (RodPoint){ 0, height });

      g_assert_cmpfloat_with_epsilon (
        planned_joint (planned_field (plan, "a, w, left jamb"), (RodPoint){ 0, height - 700 }),
        here,
        0.01);
      g_assert_cmpfloat_with_epsilon (
        planned_joint (planned_field (plan, "a, w, right jamb"), (RodPoint){ 0, height - 700 }),
        here,
        0.01);
    }
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/alignment/level-joins", test_level_joins);
  g_test_add_func ("/alignment/order-of-joins", test_order_of_joins);
  g_test_add_func ("/alignment/free-joins", test_free_joins);
  g_test_add_func ("/alignment/boards-along-tie-nothing", test_boards_along_tie_nothing);
  g_test_add_func ("/alignment/ceiling-line", test_ceiling_line);
  g_test_add_func ("/alignment/ceiling-line-from-the-soffit", test_ceiling_line_from_the_soffit);
  g_test_add_func ("/alignment/mitre-reverses-the-measure", test_mitre_reverses_the_measure);
  g_test_add_func ("/alignment/ring-of-eaves-closes", test_ring_of_eaves_closes);
  g_test_add_func ("/alignment/planted-misfit", test_planted_misfit);
  g_test_add_func ("/alignment/ring-of-walls-closes", test_ring_of_walls_closes);
  g_test_add_func ("/alignment/walls-tied-through-eaves", test_walls_tied_through_eaves);
  g_test_add_func ("/alignment/unequal-overhangs", test_unequal_overhangs);
  g_test_add_func ("/alignment/unequal-covers", test_unequal_covers);
  g_test_add_func ("/alignment/pin-moves-the-group", test_pin_moves_the_group);
  g_test_add_func ("/alignment/pin-of-upright-boards", test_pin_of_upright_boards);
  g_test_add_func ("/alignment/pins-that-disagree", test_pins_that_disagree);
  g_test_add_func ("/alignment/reveals-follow-the-wall", test_reveals_follow_the_wall);

  return g_test_run ();
}
