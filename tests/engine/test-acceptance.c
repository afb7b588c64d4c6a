/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Hand-worked jobs, planned from house files in tests/engine/houses and compared with the
 * arithmetic beside each check. The boards and trims are invented (convention K of docs/rules.md);
 * the methods are common practice, no source, unless a check says otherwise. */

#include "config.h"

#include <math.h>

#include "engine/files/rod-file.h"
#include "engine/plan/rod-plan.h"
#include "engine/takeoff/rod-takeoff.h"

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 0.051)

typedef struct
{
  RodPlan    *plan;
  RodTakeoff *takeoff;
} Job;

static void
job_init (Job        *job,
          const char *name)
{
  g_autofree char *file = g_strconcat (name, ".storeyrod", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "engine", "houses", file, NULL);
  g_autoptr (GError) error = NULL;
  RodHouse *house = rod_house_load (path, &error);

  g_assert_no_error (error);
  job->plan = rod_plan_new (house);
  job->takeoff = rod_takeoff_new (job->plan, NULL);
  rod_record_unref (house);
}

static void
job_clear (Job *job)
{
  rod_takeoff_unref (job->takeoff);
  rod_plan_unref (job->plan);
}

static const RodPiece *
find_piece (const Job  *job,
            const char *mark)
{
  for (guint p = 0; p < job->plan->pieces->len; p++)
    if (g_str_equal (rod_plan_piece (job->plan, p)->mark, mark))
      return rod_plan_piece (job->plan, p);
  g_error ("no piece %s", mark);
}

static int
count_length (const Job *job,
              double     length_mm)
{
  int count = 0;

  for (guint p = 0; p < job->plan->pieces->len; p++)
    count += fabs (rod_plan_piece (job->plan, p)->length_mm - length_mm) < 0.05;
  return count;
}

static int
count_board_screws (const Job *job)
{
  int count = 0;

  for (guint p = 0; p < job->plan->pieces->len; p++)
    count += rod_plan_piece (job->plan, p)->screws;
  return count;
}

static int
count_trim_screws (const Job  *job,
                   const char *trim)
{
  int count = 0;

  for (guint t = 0; t < job->plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (job->plan->trims, RodTrimRun, t);

      count += g_str_equal (run->trim->id, trim) ? run->screws : 0;
    }
  return count;
}

static const RodCutting *
find_cutting (const Job  *job,
              const char *article)
{
  for (guint c = 0; c < job->takeoff->cuttings->len; c++)
    {
      const RodCutting *cutting = &g_array_index (job->takeoff->cuttings, RodCutting, c);

      if (g_str_equal (cutting->article, article))
        return cutting;
    }
  g_error ("nothing cut of %s", article);
}

static guint
count_bars (const Job  *job,
            const char *article)
{
  return find_cutting (job, article)->bars->len;
}

/* Batten lines of a face's first field, each place once. */
static GArray *
batten_places (const Job *job,
               guint      face,
               gboolean   upright)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  int     last = 0;

  for (guint b = 0; b < job->plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (job->plan->battens, RodBattenRun, b);
      double              at = upright ? run->from.x : run->from.y;

      if (run->field != rod_plan_face (job->plan, face)->first_field || run->counter ||
          run->line == last)
        continue;
      last = run->line;
      g_array_append_val (places, at);
    }
  return places;
}

static int
count_battens (const Job *job,
               double     length_mm)
{
  int count = 0;

  for (guint b = 0; b < job->plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (job->plan->battens, RodBattenRun, b);

      count += !run->counter && fabs (run->length_mm - length_mm) < 0.05;
    }
  return count;
}

static const RodFinding *
find_finding (const Job  *job,
              const char *id)
{
  for (guint i = 0; i < job->plan->findings->len; i++)
    {
      const RodFinding *finding = &g_array_index (job->plan->findings, RodFinding, i);

      if (g_str_equal (finding->id, id))
        return finding;
    }
  return NULL;
}

static void
test_a1_shed_wall (void)
{
  Job job;
  g_autoptr (GArray) battens = NULL;

  job_init (&job, "a1-shed");

  /* Top pocket line 2400 − 2 − 5 = 2393; 10 courses, the last 2393 − 9·250 = 143. */
  g_assert_cmpuint (job.plan->pieces->len, ==, 10);
  assert_mm (find_piece (&job, "A-10-1")->width_mm, 143.0);
  assert_mm (find_piece (&job, "A-09-1")->width_mm, 250.0);

  /* Clear 4000 − 2·2 = 3996, run 1998, gap ⌈0.07·1.998·45 + 1⌉ = ⌈7.29⌉ = 8, length 3980; cold
   * 25 − 8 − 0.07·1.998·35 − 1 = 11.1 ≥ 5, so nothing leaves its pocket. */
  assert_mm (find_piece (&job, "A-01-1")->clear_mm, 3996.0);
  assert_mm (find_piece (&job, "A-01-1")->left.gap_mm, 8.0);
  g_assert_cmpint (count_length (&job, 3980.0), ==, 10);
  g_assert_null (find_finding (&job, "engagement"));

  /* One per 6000 board, 10 boards, 33.7 % waste. */
  g_assert_cmpuint (count_bars (&job, "board"), ==, 10);
  g_assert_true (find_cutting (&job, "board")->proven);
  g_assert_cmpfloat_with_epsilon (
    1.0 - 39800.0 / (double) find_cutting (&job, "board")->bought_mm, 0.337, 0.0005);

  /* 50 … 3950: ⌈3900/400⌉ = 10 bays of 390, 11 battens. */
  battens = batten_places (&job, 0, TRUE);
  g_assert_cmpuint (battens->len, ==, 11);
  for (guint i = 0; i < battens->len; i++)
    assert_mm (g_array_index (battens, double, i), 50.0 + 390.0 * i);

  /* Flanged courses 1 to 9: 9·11 = 99; starter 11; top 11; sides 2·(⌈2300/300⌉ + 1) = 18: 139. */
  g_assert_cmpint (count_board_screws (&job), ==, 99);
  g_assert_cmpint (count_trim_screws (&job, "starter"), ==, 11);
  g_assert_cmpint (count_trim_screws (&job, "top-j"), ==, 11);
  g_assert_cmpint (count_trim_screws (&job, "j"), ==, 18);

  job_clear (&job);
}

static void
test_a1_two_stock_lengths (void)
{
  Job job;

  job_init (&job, "a1-shed-two-lengths");

  /* With 4000 on offer too, 10 of those: waste 1 − 39800/40000 = 0.5 %. */
  g_assert_cmpuint (count_bars (&job, "board-two-lengths"), ==, 10);
  g_assert_cmpint (find_cutting (&job, "board-two-lengths")->bought_mm, ==, 40000);

  job_clear (&job);
}

static void
test_a3_upright_balanced (void)
{
  Job job;
  g_autoptr (GArray) battens = NULL;
  const RodPiece *first, *last;

  job_init (&job, "a3-upright");

  /* Width 5230 − 2·7 = 5216: a joint on the axis leaves 2608 mod 200 = 8, a board on it
   * 2508 mod 200 = 108; (5216 − 216)/200 = 25 whole boards and two rips. */
  g_assert_cmpuint (job.plan->pieces->len, ==, 27);
  first = rod_plan_piece (job.plan, 0);
  last = rod_plan_piece (job.plan, 26);
  assert_mm (first->width_mm, 108.0);
  assert_mm (last->width_mm, 108.0);
  g_assert_cmpfloat (first->low_mm, >, 0.0);
  assert_mm (last->low_mm, 0.0);
  for (guint p = 1; p < 26; p++)
    assert_mm (rod_plan_piece (job.plan, p)->width_mm, 200.0);

  /* Held at the top: clear 2650 − 4 = 2646, gap below ⌈0.07·2.646·45 + 1⌉ = ⌈9.33⌉ = 10, above 2,
   * length 2634; two to a 6000 board, 14 boards. */
  g_assert_cmpint (count_length (&job, 2634.0), ==, 27);
  assert_mm (first->left.gap_mm, 2.0);
  assert_mm (first->right.gap_mm, 10.0);
  g_assert_cmpuint (count_bars (&job, "board"), ==, 14);
  g_assert_true (find_cutting (&job, "board")->proven);

  /* 50 … 2600: ⌈2550/400⌉ = 7 bays of 364.3, 8 battens; 26 boards keep a flange: 26·8 = 208. */
  battens = batten_places (&job, 0, FALSE);
  g_assert_cmpuint (battens->len, ==, 8);
  assert_mm (g_array_index (battens, double, 1), 50.0 + 2550.0 / 7.0);
  g_assert_cmpint (count_board_screws (&job), ==, 208);

  job_clear (&job);
}

static void
assert_notch (const Job      *job,
              const RodPiece *piece,
              guint           index,
              const RodNotch *expected)
{
  const RodNotch *notch = &g_array_index (job->plan->notches, RodNotch, piece->first_notch + index);

  g_assert_cmpuint (index, <, piece->n_notches);
  assert_mm (notch->from_left_mm, expected->from_left_mm);
  assert_mm (notch->width_mm, expected->width_mm);
  assert_mm (notch->depth_mm, expected->depth_mm);
  assert_mm (notch->leaves_mm, expected->leaves_mm);
  g_assert_cmpint (notch->upper, ==, expected->upper);
}

static void
test_a4_window_and_door (void)
{
  /* clang-format off */
  static const double lines[] = {
    50, 400, 750, 1100, 1450, 1775, 2100, 2425, 2750,
    3116.667, 3483.333, 3850, 4216.667, 4583.333, 4950, 5350, 5750,
  };
  /* clang-format on */
  const RodNotch under_sill = { 1480, 1220, 157, 93, TRUE };
  const RodNotch over_window = { 1477, 1220, 157, 93, FALSE };
  const RodNotch over_door = { 3877, 1020, 57, 193, FALSE };
  Job            job;
  g_autoptr (GArray) battens = NULL;

  job_init (&job, "a4-window-and-door");

  /* Net lines 893, 2207, 2107, 2736. Strips at phase t: 143 − t, 43 + t, 143 + t, 236 − t: the
   * first two are equal at t = 50. */
  assert_mm (g_array_index (job.plan->groups, RodGroup, 0).phase_mm, 50.0);
  assert_mm (g_array_index (job.plan->groups, RodGroup, 0).narrowest_mm, 93.0);
  g_assert_cmpuint (rod_plan_field (job.plan, 0)->n_courses, ==, 11);
  assert_mm (find_piece (&job, "A-11-1")->width_mm, 186.0);

  g_assert_cmpuint (job.plan->pieces->len, ==, 23);
  g_assert_cmpint (count_length (&job, 3880.0), ==, 4);
  g_assert_cmpint (count_length (&job, 890.0), ==, 8);
  g_assert_cmpint (count_length (&job, 1488.0), ==, 4);
  g_assert_cmpint (count_length (&job, 1190.0), ==, 4);
  g_assert_cmpint (count_length (&job, 5774.0), ==, 3);

  g_assert_cmpuint (find_piece (&job, "A-04-1")->n_notches, ==, 1);
  assert_notch (&job, find_piece (&job, "A-04-1"), 0, &under_sill);
  g_assert_cmpuint (find_piece (&job, "A-09-1")->n_notches, ==, 2);
  assert_notch (&job, find_piece (&job, "A-09-1"), 0, &over_window);
  assert_notch (&job, find_piece (&job, "A-09-1"), 1, &over_door);

  /* ⌈50674/6000⌉ = 9 boards at least, and 9 do. */
  g_assert_cmpuint (count_bars (&job, "board"), ==, 9);
  g_assert_cmpint (find_cutting (&job, "board")->bound, ==, 9);
  g_assert_true (find_cutting (&job, "board")->proven);

  battens = batten_places (&job, 0, TRUE);
  g_assert_cmpuint (battens->len, ==, G_N_ELEMENTS (lines));
  for (guint i = 0; i < battens->len; i++)
    assert_mm (g_array_index (battens, double, i), lines[i]);
  g_assert_cmpint (count_battens (&job, 2743.0), ==, 12);
  g_assert_cmpint (count_battens (&job, 880.0), ==, 3);
  g_assert_cmpint (count_battens (&job, 523.0), ==, 3);
  g_assert_cmpint (count_battens (&job, 623.0), ==, 2);

  /* (12 + 3)·3 + (9 + 3) + (5 + 4 + 3)·4 + 17 + 17 + 0 = 139. */
  g_assert_cmpint (count_board_screws (&job), ==, 139);

  job_clear (&job);
}

static void
test_a7_reveal (void)
{
  Job job;
  int jambs = 0, heads = 0;

  job_init (&job, "a7-reveal");

  /* Reveal 120 + 60 = 180 deep from frame to batten face; rip 180 − (2 + 5) − (5 + 5) = 163. Jambs:
   * 1500 − 20 − 30 = 1450 high, clear 1450 − 22 = 1428, gap ⌈0.07·0.714·45 + 1⌉ = 4, length 1420.
   * Head: 1400 − 40 = 1360 wide, clear 1360 − 40 = 1320, gap 4, length 1312. */
  for (guint p = 0; p < job.plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (job.plan, p);
      const RodFace  *face =
        rod_plan_face (job.plan, rod_plan_field (job.plan, piece->field)->face);

      if (face->parent < 0)
        continue;
      assert_mm (piece->width_mm, 163.0);
      assert_mm (piece->left.gap_mm, 4.0);
      g_assert_cmpint (piece->screws, ==, 0);
      jambs += fabs (piece->length_mm - 1420.0) < 0.05;
      heads += fabs (piece->length_mm - 1312.0) < 0.05;
    }
  g_assert_cmpint (jambs, ==, 2);
  g_assert_cmpint (heads, ==, 1);

  /* 2·1420 + 1312 + 12 = 4164: one 6000 board, offcut 1836. */
  g_assert_cmpuint (count_bars (&job, "reveal-board"), ==, 1);
  g_assert_cmpint (
    g_array_index (find_cutting (&job, "reveal-board")->bars, RodSawBar, 0).rest_mm, ==, 1836);

  /* Arrises 1450 + 1450 + 1360 = 4260 from 3000 bars: 2. */
  g_assert_cmpint (find_cutting (&job, "outside-corner")->used_mm, ==, 4260);
  g_assert_cmpuint (count_bars (&job, "outside-corner"), ==, 2);
  g_assert_cmpint (find_cutting (&job, "inside-corner")->used_mm, ==, 2 * 180);

  job_clear (&job);
}

static int
count_pieces_of (const Job  *job,
                 const char *mark)
{
  int count = 0;

  for (guint p = 0; p < job->plan->pieces->len; p++)
    {
      const RodField *field = rod_plan_field (job->plan, rod_plan_piece (job->plan, p)->field);

      count += g_str_equal (rod_plan_face (job->plan, field->face)->mark, mark);
    }
  return count;
}

static guint
find_face (const Job  *job,
           const char *id)
{
  for (guint f = 0; f < job->plan->faces->len; f++)
    if (g_str_equal (rod_plan_face (job->plan, f)->surface->id, id))
      return f;
  g_error ("no surface %s", id);
}

/* The strips at the right mitre, raw: [7150, 7350] is 600 long up to 7300 and 550 at 7350;
 * [7350, 7550] 550/350, [7550, 7750] 350/150, [7750, 7900] 150/0. Areas by the trapezoid rule. */
static void
assert_soffit_corner (const Job     *job,
                      const RodFace *soffit)
{
  static const double areas[] = {
    150.0 * 600.0 + 50.0 * 575.0, 200.0 * 450.0, 200.0 * 250.0, 150.0 * 75.0
  };
  const RodField *field = rod_plan_field (job->plan, soffit->first_field);
  g_autoptr (RodRegion) raw = rod_region_transform (soffit->bare, field->to_board);
  g_autoptr (RodStrips) strips = rod_strips_cut (raw, field->phase_mm, field->board->cover_mm);

  g_assert_cmpuint (strips->n_strips, ==, 43);
  for (guint i = 0; i < G_N_ELEMENTS (areas); i++)
    {
      guint ring = strips->strips[39 + i].first_ring;
      guint start = strips->rings->ring_starts[ring];

      g_assert_cmpfloat_with_epsilon (rod_ring_area (strips->rings->points + start,
                                                     strips->rings->ring_starts[ring + 1] - start),
                                      areas[i],
                                      1.0);
    }
}

static void
test_a8_soffit_and_wall (void)
{
  Job             job;
  const RodFace  *front, *soffit;
  const RodField *wall_field, *soffit_field;
  int             plain = 0;

  job_init (&job, "a8-soffit");
  front = rod_plan_face (job.plan, find_face (&job, "front"));
  soffit = rod_plan_face (job.plan, find_face (&job, "front-soffit"));
  wall_field = rod_plan_field (job.plan, front->first_field);
  soffit_field = rod_plan_field (job.plan, soffit->first_field);

  /* Front 7300 − 2·(5 + 5) = 7280: 3640 mod 200 = 40 is worse than 3540 mod 200 = 140: joints at
   * 10 + 140 + 200 i = 150 + 200 i; 35 whole boards and two rips. The return wall of 5100 gets 150
   * from the same corner by the same sum, and the soffit takes over the wall's joints. */
  assert_mm (wall_field->phase_mm, 150.0);
  assert_mm (soffit_field->phase_mm, 150.0);
  g_assert_cmpint (count_pieces_of (&job, front->mark), ==, 37);
  assert_mm (rod_plan_piece (job.plan, wall_field->first_piece)->width_mm, 140.0);
  assert_mm (rod_plan_piece (job.plan, wall_field->first_piece + 36)->width_mm, 140.0);
  assert_mm (
    rod_plan_field (job.plan, rod_plan_face (job.plan, find_face (&job, "right"))->first_field)
      ->phase_mm,
    150.0);
  g_assert_null (find_finding (&job, "lines-miss"));

  /* 7900 + 600 wide: joints −450 … 7750, 43 strips; 35 plain ones of 600 − 2·2 − 2·2 = 592. */
  g_assert_cmpuint (soffit_field->n_pieces, ==, 43);
  for (guint p = soffit_field->first_piece; p < soffit_field->first_piece + soffit_field->n_pieces;
       p++)
    {
      const RodPiece *piece = rod_plan_piece (job.plan, p);

      plain += fabs (piece->length_mm - 592.0) < 0.05 && fabs (piece->short_mm - 592.0) < 0.05;
    }
  g_assert_cmpint (plain, ==, 35);
  assert_soffit_corner (&job, soffit);

  job_clear (&job);
}

static void
test_a17_gable (void)
{
  /* Net edges of the courses at the cut lines, bottom and top, for courses 1, 5, 13. */
  static const struct
  {
    int    course;
    double bottom_mm;
    double top_mm;
  } edges[] = { { 1, 7968.9, 7373.0 }, { 5, 5585.4, 4989.5 }, { 13, 818.4, 222.5 } };
  Job               job;
  const RodFinding *finding;
  const RodPiece   *apex;

  job_init (&job, "a17-gable");

  /* Height 4000·tan 40° = 3356.4; set-back of the cut (2 + 8)/sin 40° = 15.6 along the boards; step
   * 2·250/tan 40° = 595.9. Four courses exceed 6000, so a joint stands on the ridge axis. Half of a
   * course: its net edge from the axis, less half the joint's web (2) and its own gap. */
  g_assert_cmpuint (rod_plan_field (job.plan, 0)->n_courses, ==, 14);
  g_assert_cmpuint (rod_plan_field (job.plan, 0)->n_columns, ==, 1);
  assert_mm (rod_plan_field (job.plan, 0)->columns[0], 4000.0);
  for (guint i = 0; i < G_N_ELEMENTS (edges); i++)
    {
      g_autofree char *mark = g_strdup_printf ("G-%02d-1", edges[i].course);
      const RodPiece  *half = find_piece (&job, mark);

      assert_mm (half->left.gap_mm, 8.0);
      assert_mm (half->length_mm + half->right.gap_mm + 2.0, edges[i].bottom_mm / 2.0);
      assert_mm (half->short_mm + half->right.gap_mm + 2.0, edges[i].top_mm / 2.0);
      assert_mm (half->left.angle_deg, -50.0);
    }
  /* Course 1: 3984.4 − 2 − 8 = 3974.4 below, 3676.5 above. */
  assert_mm (find_piece (&job, "G-01-1")->length_mm, 3974.4);
  assert_mm (find_piece (&job, "G-01-1")->short_mm, 3676.5);

  /* The apex: 222.5 wide, 93.3 high, shorter than 300; 300·tan 40°/2 = 125.9 would do: 33 lower. */
  apex = find_piece (&job, "G-14-1");
  assert_mm (apex->length_mm, 222.5);
  assert_mm (apex->width_mm, 93.3);
  finding = find_finding (&job, "short-piece");
  g_assert_true (finding != NULL && strstr (finding->remedy, "33 mm") != NULL);

  job_clear (&job);
}

static void
test_a19_l_shaped_house (void)
{
  static const double clad_mm[] = { 10120, 5120, 4000, 3000, 6120, 8120 };
  Job                 job;
  double              sum_mm = 0.0;

  job_init (&job, "a19-l-shape");

  /* Raw 10000, 5000, 4000 (inside corner) 3000, 6000, 8000 with 60 of build-up: outside corners add
   * 60, the inside corner takes 60; the sum grows by 8·60 (rule R16). */
  for (guint f = 0; f < 6; f++)
    {
      RodPoint low, high;

      rod_region_extent (rod_plan_face (job.plan, f)->bare, &low, &high);
      assert_mm (high.x - low.x, clad_mm[f]);
      sum_mm += high.x - low.x;
    }
  assert_mm (sum_mm, 36000.0 + 8.0 * 60.0);

  /* Posts of 2750 from 3000 bars: 5 + 1. Base vent: whole bars 3 + 1 + 1 + 1 + 2 + 2 = 10; rests
   * 1120, 2120, 1000, 120, 2120 from 3 more. */
  g_assert_cmpuint (count_bars (&job, "outside-corner"), ==, 5);
  g_assert_cmpuint (count_bars (&job, "inside-corner"), ==, 1);
  g_assert_cmpint (find_cutting (&job, "outside-corner")->used_mm, ==, 5 * 2750);
  g_assert_cmpuint (count_bars (&job, "base-vent"), ==, 13);
  g_assert_true (find_cutting (&job, "base-vent")->proven);

  /* One set of joint lines round the house. */
  g_assert_null (find_finding (&job, "lines-miss"));

  job_clear (&job);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/acceptance/a1-shed-wall", test_a1_shed_wall);
  g_test_add_func ("/acceptance/a1-two-stock-lengths", test_a1_two_stock_lengths);
  g_test_add_func ("/acceptance/a3-upright-balanced", test_a3_upright_balanced);
  g_test_add_func ("/acceptance/a4-window-and-door", test_a4_window_and_door);
  g_test_add_func ("/acceptance/a7-reveal", test_a7_reveal);
  g_test_add_func ("/acceptance/a8-soffit-and-wall", test_a8_soffit_and_wall);
  g_test_add_func ("/acceptance/a17-gable", test_a17_gable);
  g_test_add_func ("/acceptance/a19-l-shaped-house", test_a19_l_shaped_house);

  return g_test_run ();
}
