/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Every finding: a house that has it, and one that differs just so far that it has not.
 * "lines-miss", "unequal-pitch" and "pin-missed" are in test-alignment.c. */

#include "support/planned-house.h"

#include "engine/checks/rod-checks.h"
#include "engine/files/rod-file.h"
#include "engine/movement/rod-movement.h"
#include "engine/rod-limits.h"
#include "engine/takeoff/rod-takeoff.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static RodHouse *
wall (double      width,
      double      height,
      const char *more)
{
  return surveyed_house ("k-250",
                         SURVEYED (surveyed_box ("a", "wall", width, height, more)),
                         NULL);
}

/* A finding of @id is there, once, as bad as it should be, with all that a reader needs. */
static const RodFinding *
assert_found (const RodPlan *plan,
              const char    *id,
              RodSeverity    severity,
              const char    *rule)
{
  const RodFinding *finding = planned_finding (plan, id);

  if (finding == NULL)
    g_error ("%s is missing", id);
  g_assert_cmpint (planned_count (plan, id), ==, 1);
  g_assert_cmpint (finding->severity, ==, severity);
  g_assert_cmpstr (finding->rule, ==, rule);
  g_assert_cmpuint (strlen (finding->text), >, 10);
  g_assert_cmpuint (strlen (finding->remedy), >, 10);
  g_assert_cmpint (finding->face, >=, 0);
  g_assert_cmpint (rod_plan_has_must (plan), ==, severity == ROD_SEVERITY_MUST);
  return finding;
}

static void
assert_not_found (const RodPlan *plan,
                  const char    *id)
{
  const RodFinding *finding = planned_finding (plan, id);

  if (finding != NULL)
    g_error ("%s", finding->text);
}

static void
assert_says (const char *text,
             const char *part)
{
  if (strstr (text, part) == NULL)
    g_error ("%s, not: %s", text, part);
}

/* Top cut line at the height less 7: 2293 mod 250 = 43 is under 60, 2310 mod 250 = 60 is not. */
static void
test_sliver (void)
{
  g_autoptr (RodPlan) sliver = planned_house (wall (4000, 2300, ""));
  g_autoptr (RodPlan) held = planned_house (wall (4000, 2400, ", 'joint_line_mm': 100"));
  g_autoptr (RodPlan) enough = planned_house (wall (4000, 2317, ""));
  const RodFinding *finding = assert_found (sliver, "sliver", ROD_SEVERITY_SHOULD, "R4");

  g_assert_cmpfloat_with_epsilon (finding->value, 43.0, 0.001);
  g_assert_cmpfloat (finding->limit, ==, 60.0);
  g_assert_cmpstr (rod_plan_piece (sliver, (guint) finding->piece)->mark, ==, "A-10-1");
  assert_says (finding->remedy, "17 mm more");

  /* Left at 100, the lines leave 2393 − 9·250 − 100 = 43 too; on the starter at 0 they leave 143.
   */
  finding = assert_found (held, "sliver", ROD_SEVERITY_SHOULD, "R4");
  assert_says (finding->remedy, "by -100.0 mm");
  assert_says (finding->remedy, "143 mm");

  assert_not_found (enough, "sliver");
}

/* The worst of many pieces is named, with how many there are. */
static void
test_many_slivers_are_one_finding (void)
{
  g_autoptr (RodPlan) plan = planned_house (wall (13000, 2300, ""));
  const RodFinding *finding = assert_found (plan, "sliver", ROD_SEVERITY_SHOULD, "R4");

  g_assert_cmpuint (rod_plan_field (plan, 0)->n_columns, ==, 2);
  assert_says (finding->text, "A-10-1 and 2 more");
}

static RodPlan *
plan_sill (double sill)
{
  g_autofree char *more = g_strdup_printf (", 'openings': [{'id': 'w', 'x': 1000, 'y': %.1f, "
                                           "'width_mm': 1000, 'height_mm': 800}]",
                                           sill);

  return planned_house (wall (4000, 2400, more));
}

/* Sill at 800: its cut line 793 leaves 43 of course 4; at 817 it leaves 60. */
static void
test_notch_leaves_sliver (void)
{
  g_autoptr (RodPlan) sliver = plan_sill (800);
  g_autoptr (RodPlan) enough = plan_sill (817);
  const RodFinding *finding;

  finding = assert_found (sliver, "notch-leaves-sliver", ROD_SEVERITY_SHOULD, "R4");
  g_assert_cmpfloat_with_epsilon (finding->value, 43.0, 0.001);
  assert_not_found (enough, "notch-leaves-sliver");
}

/* A slanting board that tapers to nothing under a sill leaves no strip over the length of a notch.
 */
static void
test_taper_under_a_sill (void)
{
  g_autofree char *path =
    g_test_build_filename (G_TEST_DIST, "engine", "houses", "hard", "diagonals.storeyrod", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (RodPlan) plan = NULL;
  RodHouse *house = rod_house_load (path, &error);
  int       tapers = 0;

  g_assert_no_error (error);
  plan = planned_house (house);
  for (guint n = 0; n < plan->notches->len; n++)
    tapers += g_array_index (plan->notches, RodNotch, n).leaves_mm < ROD_SNAP_MM;
  g_assert_cmpint (tapers, >, 0);
  assert_not_found (plan, "notch-leaves-sliver");
}

/* A strip of 62 passes, but not if the wall may be 5 less: 2312 mod 250 = 62; 2315 leaves 65. */
static void
test_measure_again (void)
{
  RodHouse *house = wall (4000, 2319, "");
  g_autoptr (RodPlan) doubtful = planned_house (rod_record_ref (house));
  g_autoptr (RodPlan) exact = NULL;
  g_autoptr (RodPlan) enough = planned_house (wall (4000, 2322, ""));
  const RodFinding *finding = assert_found (doubtful, "measure-again", ROD_SEVERITY_NOTE, "R28");

  g_assert_cmpfloat_with_epsilon (finding->value, 57.0, 0.001);
  g_assert_cmpfloat (finding->limit, ==, 60.0);
  assert_says (finding->text, "is 62 mm wide");
  assert_says (finding->text, "±5 mm");
  assert_says (finding->text, "57 mm");
  assert_says (finding->remedy, "Top, 2319 mm above the datum");
  assert_not_found (doubtful, "sliver");
  assert_not_found (enough, "measure-again");

  house->survey_tolerance_mm = 1.0;
  exact = planned_house (house);
  assert_not_found (exact, "measure-again");
}

/* Top cut line 2248: a board of 248 is no sliver, but 2253 would leave one of 3. The pocket of 25
 * swallows that, for 14 of it are spare; one of 12 has 1 to spare. */
static void
test_measure_again_what_is_nearly_whole (void)
{
  RodHouse *house = wall (4000, 2255, "");
  g_autoptr (RodPlan) deep = planned_house (rod_record_ref (house));
  g_autoptr (RodPlan) shallow = NULL;
  const RodFinding *finding;

  assert_not_found (deep, "measure-again");
  ((RodTrim *) rod_system_find_trim (planned_system (house), "top-j"))->pocket_mm = 12.0;
  shallow = planned_house (house);
  finding = assert_found (shallow, "measure-again", ROD_SEVERITY_NOTE, "R28");
  g_assert_cmpfloat_with_epsilon (finding->value, 3.0, 0.001);
  assert_says (finding->text, "248 mm");
  assert_not_found (shallow, "sliver");
}

/* Top cut line 2262: the pocket swallows 12, but 17 it would not. */
static void
test_measure_again_what_is_swallowed (void)
{
  g_autoptr (RodPlan) plan = planned_house (wall (4000, 2269, ""));
  const RodFinding *finding = assert_found (plan, "measure-again", ROD_SEVERITY_NOTE, "R28");

  g_assert_cmpfloat_with_epsilon (finding->value, 17.0, 0.001);
  assert_says (finding->text, "whole");
  assert_not_found (plan, "sliver");
}

/* Of several lines of a surface the worst is named, with the figure on the tape: the sill's cut
 * line is 812, 62 over a joint line; under the top are 64. Upright boards are measured along x. */
static void
test_measure_again_names_the_dimension (void)
{
  g_autoptr (RodPlan) plan = planned_house (
    wall (4000,
          2321,
          ", 'level_mm': 100, 'openings': [{'id': 'w', 'name': 'Window 2', 'x': 1500, 'y': 819, "
          "'width_mm': 1200, 'height_mm': 1224}]"));
  g_autoptr (RodPlan) upright = planned_house (
    wall (4000, 2400, ", 'direction_deg': 90, 'joint_line_mm': 69, 'laid_from': 'left'"));
  const RodFinding *finding = assert_found (plan, "measure-again", ROD_SEVERITY_NOTE, "R28");

  assert_says (finding->remedy, "Sill of Window 2, 919 mm above the datum");
  assert_says (finding->text, "1 more line");
  g_assert_cmpfloat_with_epsilon (finding->value, 57.0, 0.001);
  g_assert_cmpfloat_with_epsilon (finding->at.x, 2100.0, 0.001);
  g_assert_cmpfloat_with_epsilon (finding->at.y, 819.0, 0.001);

  finding = assert_found (upright, "measure-again", ROD_SEVERITY_NOTE, "R28");
  assert_says (finding->remedy, "Side stop, at x = 0 mm");
}

static RodPlan *
plan_pier (double width)
{
  g_autofree char *more = g_strdup_printf (
    ", 'openings': [{'id': 'v', 'x': 500, 'y': 800, 'width_mm': 1000, 'height_mm': 800}, "
    "{'id': 'w', 'x': %.1f, 'y': 800, 'width_mm': 1000, 'height_mm': 800}]",
    1500.0 + width);

  return planned_house (wall (4000, 2400, more));
}

/* A pier of 300: 300 − 2·2 − 2·2 = 292 is short; one of 308 gives 300. */
static void
test_short_piece (void)
{
  g_autoptr (RodPlan) narrow = plan_pier (300);
  g_autoptr (RodPlan) enough = plan_pier (308);
  const RodFinding *finding = assert_found (narrow, "short-piece", ROD_SEVERITY_SHOULD, "R19");

  g_assert_cmpfloat_with_epsilon (finding->value, 292.0, 0.001);
  assert_says (finding->remedy, "neighbouring board");
  assert_not_found (enough, "short-piece");
}

static RodPlan *
plan_gable (double joint_line_mm)
{
  return planned_house (surveyed_house (
    "k-250",
    SURVEYED (g_strdup_printf ("{'id': 'a', 'kind': 'wall', 'system': 'k', 'joint_line_mm': %.3f, "
                               "'outline': [{'x': 0, 'y': 0}, {'x': 5000, 'y': 0}, "
                               "{'x': 2500, 'y': 2500}]}",
                               joint_line_mm)),
    NULL));
}

/* The last piece under an apex: lowering the lines by what is said makes it long enough, and one
 * millimetre less does not. */
static void
test_short_piece_at_an_apex (void)
{
  g_autoptr (RodPlan) plan = plan_gable (150);
  const RodFinding *finding = assert_found (plan, "short-piece", ROD_SEVERITY_SHOULD, "R19");
  g_autoptr (RodPlan) lowered = NULL;
  g_autoptr (RodPlan) not_quite = NULL;
  int lower_mm;

  assert_says (finding->remedy, "apex");
  g_assert_cmpint (sscanf (finding->remedy, "Lower the joint lines by %d mm", &lower_mm), ==, 1);
  lowered = plan_gable (150 - lower_mm);
  assert_not_found (lowered, "short-piece");
  not_quite = plan_gable (150 - lower_mm + 1);
  g_assert_nonnull (planned_finding (not_quite, "short-piece"));
}

/* Towards a mitre the short ones cannot be spared: only a note, that says what to do with them. */
static void
test_short_piece_at_a_mitre (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodFinding *finding;

  plan = planned_house (surveyed_house (
    "k-200",
    SURVEYED (g_strdup ("{'id': 's', 'kind': 'soffit', 'system': 'k', 'direction_deg': 90, "
                        "'outline': [{'x': 0, 'y': 0}, {'x': 4000, 'y': 0, 'edge': 'm'}, "
                        "{'x': 4600, 'y': 600}, {'x': 0, 'y': 600}]}"),
              g_strdup ("{'id': 't', 'kind': 'soffit', 'system': 'k', 'direction_deg': 90, "
                        "'outline': [{'x': 0, 'y': 0}, {'x': 3000, 'y': 0}, "
                        "{'x': 3000, 'y': 600}, {'x': -600, 'y': 600, 'edge': 'm'}]}")),
    SURVEYED (surveyed_join ("j", "s.m", "t.m", 0, ""))));
  finding = planned_finding (plan, "short-piece");
  g_assert_nonnull (finding);
  g_assert_cmpint (finding->severity, ==, ROD_SEVERITY_NOTE);
  assert_says (finding->remedy, "offcuts");
}

/* A point under a raked opening is no apex: no plate closes it. */
static void
test_short_piece_at_a_raked_opening (void)
{
  g_autoptr (RodPlan) plan = NULL;
  const RodFinding *finding;

  /* Boards beside the window taper out between the wall's side and the leaning jamb. */
  plan = planned_house (wall (4000,
                              2400,
                              ", 'joint_line_mm': 0, 'openings': [{'id': 'w', 'shape': 'polygon', "
                              "'corners': [{'x': 900, 'y': 800}, {'x': 2000, 'y': 800}, "
                              "{'x': 2000, 'y': 2000}, {'x': 0, 'y': 2000}]}]"));
  finding = planned_finding (plan, "short-piece");
  g_assert_nonnull (finding);
  if (strstr (finding->remedy, "apex") != NULL)
    g_error ("%s %s", finding->text, finding->remedy);
}

static RodPlan *
plan_pocket (double width,
             double pocket_mm)
{
  RodHouse *house = wall (width, 2400, "");

  ((RodTrim *) rod_system_find_trim (planned_system (house), "j"))->pocket_mm = pocket_mm;
  return planned_house (house);
}

/* 3996 between pockets, gap 8: p − 8 − 4.90 − 1 must be 5: 18.9 is enough, 18.8 is not. */
static void
test_engagement (void)
{
  g_autoptr (RodPlan) loose = plan_pocket (4000, 18.8);
  g_autoptr (RodPlan) held = plan_pocket (4000, 18.9);
  const RodFinding *finding = assert_found (loose, "engagement", ROD_SEVERITY_MUST, "R27");

  g_assert_cmpfloat_with_epsilon (finding->value, 18.8 - 8.0 - 1998.0 * 2.45e-3 - 1.0, 0.001);
  g_assert_cmpfloat (finding->limit, ==, 5.0);
  assert_not_found (held, "engagement");
}

/* Boards as long as the remedy allows stay in their pockets, whatever the pocket. */
static void
test_engagement_remedy_holds (void)
{
  for (double pocket_mm = 10.0; pocket_mm < 18.0; pocket_mm += 0.37)
    {
      g_autoptr (RodPlan) loose = plan_pocket (5000, pocket_mm);
      const RodFinding *finding = assert_found (loose, "engagement", ROD_SEVERITY_MUST, "R27");
      const char       *number = strpbrk (finding->remedy, "0123456789");
      double            longest_mm, length_mm = 0.0;

      g_assert_nonnull (number);
      longest_mm = g_ascii_strtod (number, NULL);
      g_assert_cmpfloat (longest_mm, >, 0.0);
      /* The widest wall whose boards are not longer than that. */
      for (double width = longest_mm + 40.0; width > longest_mm; width -= 1.0)
        {
          g_autoptr (RodPlan) plan = plan_pocket (width, pocket_mm);

          length_mm = plan->pieces->len > 0 ? rod_plan_piece (plan, 0)->length_mm : 0.0;
          if (length_mm > longest_mm)
            continue;
          assert_not_found (plan, "engagement");
          break;
        }
      g_assert_cmpfloat (length_mm, >, longest_mm - 3.0);
    }
}

/* Piers and walls of little more than two battens: their boards stand on two side by side, for a
 * length of 100 has room for them (rule R23). No wall drawn comes short of them; a plan that did
 * would say so. */
static void
test_few_battens (void)
{
  RodPlan *plan = NULL;

  for (double width = 100.0; width <= 160.0; width += 1.0)
    {
      g_autoptr (RodPlan) pier = planned_house (wall (width, 2400, ""));

      assert_not_found (pier, "few-battens");
      for (guint p = 0; p < pier->pieces->len; p++)
        g_assert_cmpint (rod_plan_piece (pier, p)->battens,
                         >=,
                         rod_plan_piece (pier, p)->length_mm < 100.0 ? 1 : 2);
    }

  plan = planned_house (wall (130, 2400, ""));
  g_array_index (plan->pieces, RodPiece, 2).battens = 1;
  g_array_set_size (plan->findings, 0);
  rod_checks_run (plan);
  assert_found (plan, "few-battens", ROD_SEVERITY_MUST, "R23");
  g_assert_cmpfloat (planned_finding (plan, "few-battens")->value, ==, 1.0);
  g_assert_cmpfloat (planned_finding (plan, "few-battens")->limit, ==, 2.0);
  rod_plan_unref (plan);
}

/* Two windows that miss each other by a hair: above the one and below the other the board would
 * hang on a neck that the notches' clearance cuts. Its ends there keep the notch's gap, 2 here, and
 * grow by more. */
static void
test_gap_too_small (void)
{
  static const double clear_mm[] = { 2.0, 8.0 };

  for (guint i = 0; i < G_N_ELEMENTS (clear_mm); i++)
    {
      RodHouse *house = wall (5000,
                              2400,
                              ", 'openings': [{'id': 'v', 'x': 2000, 'y': 1100, 'width_mm': 500, "
                              "'height_mm': 800}, {'id': 'w', 'x': 2507, 'y': 300, "
                              "'width_mm': 500, 'height_mm': 850}]");
      g_autoptr (RodPlan) plan = NULL;

      planned_system (house)->rules->notch_clear_mm = clear_mm[i];
      plan = planned_house (house);
      if (i > 0)
        assert_not_found (plan, "gap-too-small");
      else
        g_assert_cmpfloat (assert_found (plan, "gap-too-small", ROD_SEVERITY_SHOULD, "R29")->value,
                           ==,
                           2.0);
    }
}

/* Two pockets of 25 hide a board that is 50 long between their bottoms. */
static void
test_no_board_fits (void)
{
  g_autoptr (RodPlan) none = planned_house (wall (54, 2400, ""));
  g_autoptr (RodPlan) some = planned_house (wall (55, 2400, ""));

  assert_found (none, "no-board-fits", ROD_SEVERITY_SHOULD, "R4");
  g_assert_cmpuint (none->pieces->len, ==, 0);
  assert_not_found (some, "no-board-fits");
  g_assert_cmpuint (some->pieces->len, >, 0);
}

/* A table without a row for the top; one that says that none is wanted. */
static void
test_no_trim (void)
{
  for (int declared = 0; declared < 2; declared++)
    {
      RodHouse  *house = wall (4000, 2400, "");
      RodSystem *system = planned_system (house);
      g_autoptr (RodPlan) plan = NULL;

      for (guint i = 0; i < system->trim_rules->len; i++)
        {
          RodTrimRule *rule = g_ptr_array_index (system->trim_rules, i);

          if (rule->condition != ROD_EDGE_TOP)
            continue;
          if (declared)
            rod_record_set_text (rule, G_STRUCT_OFFSET (RodTrimRule, trim), "");
          else
            rule->condition = ROD_EDGE_MITRE;
        }
      plan = planned_house (house);
      if (declared)
        assert_not_found (plan, "no-trim");
      else
        assert_says (assert_found (plan, "no-trim", ROD_SEVERITY_MUST, "T1")->text, "Top");
    }
}

/* Pipes have no trim, and need none. */
static void
test_pipes_need_no_trim (void)
{
  g_autoptr (RodPlan) plan = NULL;

  plan = planned_house (wall (4000,
                              2400,
                              ", 'openings': [{'id': 'p', 'kind': 'pipe', 'shape': 'circle', "
                              "'x': 1500, 'y': 1100, 'width_mm': 100}]"));
  assert_not_found (plan, "no-trim");
}

static RodPlan *
plan_corner_condition (double   build_up_mm,
                       gboolean joined)
{
  g_autofree char *more = g_strdup_printf (", 'build_up_mm': %.1f", build_up_mm);
  RodHouse        *house;

  house = surveyed_house ("k-250",
                          SURVEYED (surveyed_box ("a", "wall", 4000, 2400, more),
                                    surveyed_box ("b", "wall", 3000, 2400, more)),
                          joined ? SURVEYED (surveyed_join ("j", "a.right", "b.left", 90, ""))
                                 : NULL);
  ((RodCorner *) g_ptr_array_index (
     ((RodSurface *) g_ptr_array_index (house->surfaces, 0))->outline, 1))
    ->condition = ROD_EDGE_OUTSIDE_CORNER;
  return planned_house (house);
}

static void
test_corner_not_joined (void)
{
  g_autoptr (RodPlan) loose = plan_corner_condition (60, FALSE);
  g_autoptr (RodPlan) joined = plan_corner_condition (60, TRUE);
  g_autoptr (RodPlan) flat = plan_corner_condition (0, FALSE);

  assert_found (loose, "corner-not-joined", ROD_SEVERITY_NOTE, "R16");
  assert_not_found (joined, "corner-not-joined");
  assert_not_found (flat, "corner-not-joined");
}

static RodPlan *
plan_ground (double least_mm,
             double starter_mm)
{
  g_autofree char *more = g_strdup_printf (", 'starter_low_mm': %.1f, 'starter_high_mm': %.1f",
                                           starter_mm,
                                           starter_mm);
  RodHouse        *house = wall (4000, 2400, more);

  planned_system (house)->rules->ground_clearance_mm = least_mm;
  return planned_house (house);
}

static void
test_ground_clearance (void)
{
  g_autoptr (RodPlan) low = plan_ground (50, 49.5);
  g_autoptr (RodPlan) enough = plan_ground (50, 50);
  const RodFinding *finding = assert_found (low, "ground-clearance", ROD_SEVERITY_SHOULD, "R7");

  g_assert_cmpfloat_with_epsilon (finding->value, 49.5, 0.001);
  g_assert_cmpfloat (finding->limit, ==, 50.0);
  assert_not_found (enough, "ground-clearance");
}

/* Slits of 140 with 100 between them all along the middle leave no place for the joint of a wall of
 * 8 m; with 400 between them it stands in the middle of a pier or on a jamb. */
static void
test_joint_near_opening (void)
{
  static const double apart_mm[] = { 100.0, 400.0 };

  for (guint i = 0; i < G_N_ELEMENTS (apart_mm); i++)
    {
      g_autoptr (GString) more = g_string_new (", 'openings': [");
      g_autoptr (RodPlan) plan = NULL;
      guint n = 0;

      for (double x = 100.0; x < 7800.0; x += 140.0 + apart_mm[i])
        g_string_append_printf (more,
                                "%s{'id': 'w%u', 'x': %.1f, 'y': 900, 'width_mm': 140, "
                                "'height_mm': 500}",
                                n > 0 ? ", " : "",
                                n,
                                x),
          n++;
      g_string_append (more, "]");
      plan = planned_house (wall (8000, 2400, more->str));
      if (i > 0)
        assert_not_found (plan, "joint-near-opening");
      else
        {
          const RodFinding *finding = planned_finding (plan, "joint-near-opening");

          g_assert_nonnull (finding);
          g_assert_cmpint (finding->severity, ==, ROD_SEVERITY_SHOULD);
          g_assert_cmpfloat (finding->value, <, 150.0);
          g_assert_cmpfloat (finding->limit, ==, 150.0);
        }
    }
}

static RodPlan *
plan_soffit (gboolean    for_soffits,
             const char *lights)
{
  g_autofree char *more = g_strdup_printf (", 'joint_line_mm': 0, 'openings': [%s]", lights);
  RodHouse        *house = surveyed_house ("k-200",
                                    SURVEYED (surveyed_box ("a", "soffit", 1300, 600, more)),
                                    NULL);

  ((RodBoard *) g_ptr_array_index (planned_system (house)->boards, 0))->for_soffits = for_soffits;
  return planned_house (house);
}

static void
test_soffit_board (void)
{
  g_autoptr (RodPlan) wrong = plan_soffit (FALSE, "");
  g_autoptr (RodPlan) right = plan_soffit (TRUE, "");
  g_autoptr (RodPlan) on_wall = planned_house (wall (4000, 2400, ""));

  assert_found (wrong, "soffit-board", ROD_SEVERITY_SHOULD, "P1");
  assert_not_found (right, "soffit-board");
  assert_not_found (on_wall, "soffit-board");
}

static RodPlan *
plan_lights (const RodPoint *lights,
             guint           n)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    g_string_append_printf (text,
                            "%s{'id': 'l%u', 'kind': 'light', 'shape': 'circle', 'x': %.1f, "
                            "'y': %.1f, 'width_mm': 80}",
                            i > 0 ? ", " : "",
                            i + 1,
                            lights[i].x,
                            lights[i].y);
  return plan_soffit (TRUE, text->str);
}

/* Joint lines at 0, 200, 400; battens at 50, 450, 850, 1250. A light of 80 and 20 around it keep 60
 * from a joint line, and 85 from a batten's centre. */
static void
test_lights (void)
{
  static const struct
  {
    RodPoint    lights[4];
    guint       n;
    const char *joint; /* what the finding names, or NULL */
    const char *batten;
  } cases[] = {
    { { { 650, 300 } }, 1, NULL, NULL },
    { { { 650, 260 } }, 1, NULL, NULL },
    { { { 650, 259 } }, 1, "l1.", NULL },
    { { { 650, 341 } }, 1, "l1.", NULL },
    { { { 535, 300 } }, 1, NULL, NULL },
    { { { 534, 300 } }, 1, NULL, "l1." },
    { { { 450, 190 } }, 1, "l1.", "l1." },
    { { { 650, 300 }, { 850, 300 }, { 250, 205 }, { 1050, 200 } }, 4, "l3 and 1 more", "l2." },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (RodPlan) plan = plan_lights (cases[i].lights, cases[i].n);

      if (cases[i].joint == NULL)
        assert_not_found (plan, "light-on-joint");
      else
        assert_says (assert_found (plan, "light-on-joint", ROD_SEVERITY_SHOULD, "L1")->text,
                     cases[i].joint);
      if (cases[i].batten == NULL)
        assert_not_found (plan, "light-on-batten");
      else
        assert_says (assert_found (plan, "light-on-batten", ROD_SEVERITY_SHOULD, "L1")->text,
                     cases[i].batten);
    }
}

/* A square light of 80 keeps clear of the same things as a round one: its middle is where that of
 * the round one was. Standing on its corner it reaches 40·√2 = 56.6, with 20 around it 76.6: at 300
 * in boards from 200 to 400 with room, at 323 no longer, and 101.6 from a batten's middle. */
static void
test_square_lights (void)
{
  static const struct
  {
    RodPoint middle;
    gboolean turned;
    gboolean joint;
    gboolean batten;
  } cases[] = {
    { { 650, 300 }, FALSE, FALSE, FALSE },
    { { 650, 260 }, FALSE, FALSE, FALSE },
    { { 650, 259 }, FALSE, TRUE, FALSE },
    { { 535, 300 }, FALSE, FALSE, FALSE },
    { { 534, 300 }, FALSE, FALSE, TRUE },
    { { 650, 323 }, TRUE, FALSE, FALSE },
    { { 650, 324 }, TRUE, TRUE, FALSE },
    { { 552, 300 }, TRUE, FALSE, FALSE },
    { { 551, 300 }, TRUE, FALSE, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double           half = cases[i].turned ? 40.0 * G_SQRT2 : 40.0;
      double           x = cases[i].middle.x, y = cases[i].middle.y;
      g_autofree char *square = g_strdup_printf (
        "{'id': 'l', 'kind': 'light', 'x': %.1f, 'y': %.1f, 'width_mm': 80, 'height_mm': 80}",
        x - half,
        y - half);
      g_autofree char *turned = g_strdup_printf (
        "{'id': 'l', 'kind': 'light', 'shape': 'polygon', 'corners': [{'x': %.3f, 'y': %.3f}, "
        "{'x': %.3f, 'y': %.3f}, {'x': %.3f, 'y': %.3f}, {'x': %.3f, 'y': %.3f}]}",
        x,
        y - half,
        x + half,
        y,
        x,
        y + half,
        x - half,
        y);
      g_autoptr (RodPlan) plan = plan_soffit (TRUE, cases[i].turned ? turned : square);

      g_assert_cmpint (planned_finding (plan, "light-on-joint") != NULL, ==, cases[i].joint);
      g_assert_cmpint (planned_finding (plan, "light-on-batten") != NULL, ==, cases[i].batten);
    }
}

static RodPlan *
plan_colour (RodLightness  lightness,
             RodSystemKind kind,
             double        facing_deg)
{
  RodHouse  *house = wall (4000, 2400, "");
  RodSystem *system = planned_system (house);
  RodBoard  *board = g_ptr_array_index (system->boards, 0);

  system->kind = kind;
  ((RodColour *) g_ptr_array_index (board->colours, 0))->lightness = lightness;
  ((RodSurface *) g_ptr_array_index (house->surfaces, 0))->facing_deg = facing_deg;
  return planned_house (house);
}

static void
test_dark_in_sun (void)
{
  g_autoptr (RodPlan) dark = plan_colour (ROD_LIGHTNESS_DARK, ROD_SYSTEM_HOLLOW, 180);
  g_autoptr (RodPlan) light = plan_colour (ROD_LIGHTNESS_LIGHT, ROD_SYSTEM_HOLLOW, 180);
  g_autoptr (RodPlan) north = plan_colour (ROD_LIGHTNESS_DARK, ROD_SYSTEM_HOLLOW, 20);
  g_autoptr (RodPlan) unknown = plan_colour (ROD_LIGHTNESS_DARK, ROD_SYSTEM_HOLLOW, NAN);
  g_autoptr (RodPlan) timber = plan_colour (ROD_LIGHTNESS_DARK, ROD_SYSTEM_TIMBER, 180);

  g_assert_cmpfloat (assert_found (dark, "dark-in-sun", ROD_SEVERITY_NOTE, "M2")->value, ==, 42.0);
  assert_not_found (light, "dark-in-sun");
  assert_not_found (north, "dark-in-sun");
  assert_not_found (unknown, "dark-in-sun");
  assert_not_found (timber, "dark-in-sun");
}

/* In a mix one dark colour is enough. */
static void
test_dark_in_a_mix (void)
{
  static const char *const mixes[] = {
    "{'colour': 'white', 'weight': 2}, {'colour': 'slate', 'weight': 1}",
    "{'colour': 'white', 'weight': 2}, {'colour': 'sand', 'weight': 1}",
  };

  for (guint i = 0; i < G_N_ELEMENTS (mixes); i++)
    {
      g_autofree char *more = g_strdup_printf (", 'facing_deg': 200, 'mix': [%s]", mixes[i]);
      g_autoptr (RodPlan) plan = NULL;

      plan = planned_house (surveyed_house (
        "hollow-board", SURVEYED (surveyed_box ("a", "wall", 4000, 2400, more)), NULL));
      if (i == 0)
        g_assert_nonnull (planned_finding (plan, "dark-in-sun"));
      else
        assert_not_found (plan, "dark-in-sun");
    }
}

static RodPlan *
plan_cavity (double      thickness_mm,
             double      counter_mm,
             const char *more)
{
  RodHouse  *house = wall (4000, 2400, more);
  RodSystem *system = planned_system (house);

  system->batten->thickness_mm = thickness_mm;
  if (counter_mm > 0.0)
    {
      system->counter_batten = rod_record_copy (system->batten);
      system->counter_batten->thickness_mm = counter_mm;
    }
  return planned_house (house);
}

/* DIN 18516-1, as restated in a glossary: at least 20 mm. Under upright boards the counter battens
 * make the cavity: battens across it do not. */
static void
test_shallow_cavity (void)
{
  g_autoptr (RodPlan) shallow = plan_cavity (19.9, 0, "");
  g_autoptr (RodPlan) enough = plan_cavity (20, 0, "");
  g_autoptr (RodPlan) upright = plan_cavity (18, 24, ", 'direction_deg': 90");
  g_autoptr (RodPlan) dammed = plan_cavity (24, 18, ", 'direction_deg': 90");

  g_assert_cmpfloat (
    assert_found (shallow, "shallow-cavity", ROD_SEVERITY_SHOULD, "B6")->value, ==, 19.9);
  assert_not_found (enough, "shallow-cavity");
  assert_not_found (upright, "shallow-cavity");
  g_assert_cmpfloat (
    assert_found (dammed, "shallow-cavity", ROD_SEVERITY_SHOULD, "B6")->value, ==, 18.0);
}

/* A board longer than any bar: a plan never asks for one, but the cutting list says so. */
static void
test_cannot_cut (void)
{
  g_autoptr (RodPlan) plan = planned_house (wall (4000, 2400, ""));
  g_autoptr (RodTakeoff) fits = rod_takeoff_new (plan, NULL);
  g_autoptr (RodTakeoff) longer = NULL;
  const RodFinding *finding;

  g_assert_cmpuint (fits->findings->len, ==, 0);
  g_array_index (plan->pieces, RodPiece, 3).length_mm = 6001.0;
  longer = rod_takeoff_new (plan, NULL);
  g_assert_cmpuint (longer->findings->len, ==, 1);
  finding = &g_array_index (longer->findings, RodFinding, 0);
  g_assert_cmpstr (finding->id, ==, "cannot-cut");
  g_assert_cmpint (finding->severity, ==, ROD_SEVERITY_MUST);
  assert_says (finding->text, "6001");
}

/* Findings stand with the worst first. */
static void
test_worst_first (void)
{
  RodHouse *house = wall (4000, 2319, ", 'build_up_mm': 30");
  g_autoptr (RodPlan) plan = NULL;
  int last = ROD_SEVERITY_MUST;

  planned_system (house)->batten->thickness_mm = 10.0;
  ((RodTrim *) rod_system_find_trim (planned_system (house), "j"))->pocket_mm = 10.0;
  plan = planned_house (house);
  g_assert_nonnull (planned_finding (plan, "measure-again"));
  g_assert_nonnull (planned_finding (plan, "engagement"));
  g_assert_nonnull (planned_finding (plan, "shallow-cavity"));
  for (guint i = 0; i < plan->findings->len; i++)
    {
      int severity = g_array_index (plan->findings, RodFinding, i).severity;

      g_assert_cmpint (severity, <=, last);
      last = severity;
    }
  g_assert_true (rod_plan_has_must (plan));
}

/* A wall without faults has no findings at all. */
static void
test_nothing_to_say (void)
{
  g_autoptr (RodPlan) plan = planned_house (wall (4000, 2400, ""));

  g_assert_cmpuint (plan->findings->len, ==, 0);
  g_assert_false (rod_plan_has_must (plan));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/checks/nothing-to-say", test_nothing_to_say);
  g_test_add_func ("/checks/sliver", test_sliver);
  g_test_add_func ("/checks/many-slivers-are-one-finding", test_many_slivers_are_one_finding);
  g_test_add_func ("/checks/notch-leaves-sliver", test_notch_leaves_sliver);
  g_test_add_func ("/checks/taper-under-a-sill", test_taper_under_a_sill);
  g_test_add_func ("/checks/measure-again", test_measure_again);
  g_test_add_func ("/checks/measure-again-what-is-nearly-whole",
                   test_measure_again_what_is_nearly_whole);
  g_test_add_func ("/checks/measure-again-what-is-swallowed", test_measure_again_what_is_swallowed);
  g_test_add_func ("/checks/measure-again-names-the-dimension",
                   test_measure_again_names_the_dimension);
  g_test_add_func ("/checks/short-piece", test_short_piece);
  g_test_add_func ("/checks/short-piece-at-an-apex", test_short_piece_at_an_apex);
  g_test_add_func ("/checks/short-piece-at-a-mitre", test_short_piece_at_a_mitre);
  g_test_add_func ("/checks/short-piece-at-a-raked-opening", test_short_piece_at_a_raked_opening);
  g_test_add_func ("/checks/engagement", test_engagement);
  g_test_add_func ("/checks/engagement-remedy-holds", test_engagement_remedy_holds);
  g_test_add_func ("/checks/few-battens", test_few_battens);
  g_test_add_func ("/checks/gap-too-small", test_gap_too_small);
  g_test_add_func ("/checks/no-board-fits", test_no_board_fits);
  g_test_add_func ("/checks/no-trim", test_no_trim);
  g_test_add_func ("/checks/pipes-need-no-trim", test_pipes_need_no_trim);
  g_test_add_func ("/checks/corner-not-joined", test_corner_not_joined);
  g_test_add_func ("/checks/ground-clearance", test_ground_clearance);
  g_test_add_func ("/checks/joint-near-opening", test_joint_near_opening);
  g_test_add_func ("/checks/soffit-board", test_soffit_board);
  g_test_add_func ("/checks/lights", test_lights);
  g_test_add_func ("/checks/square-lights", test_square_lights);
  g_test_add_func ("/checks/dark-in-sun", test_dark_in_sun);
  g_test_add_func ("/checks/dark-in-a-mix", test_dark_in_a_mix);
  g_test_add_func ("/checks/shallow-cavity", test_shallow_cavity);
  g_test_add_func ("/checks/cannot-cut", test_cannot_cut);
  g_test_add_func ("/checks/worst-first", test_worst_first);

  return g_test_run ();
}
