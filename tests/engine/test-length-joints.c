/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Length joints without a trim (rule R22 in docs/rules.md): apart from course to course, a batten
 * behind each, boards neither too long nor too short, and not a board more than the joints ask
 * for. */

#include "support/planned-house.h"

#include "engine/rod-limits.h"
#include "engine/setout/rod-joint-cycle.h"

#include <math.h>

/* Boards of 4000, a kerf of 4, and no gaps. */
#define BOARD_MM 4000
#define KERF_MM 4

static RodJointStock
new_stock (void)
{
  RodCutStock   bar = { BOARD_MM, 1, -1 };
  RodJointStock stock = { .kerf_mm = KERF_MM };

  stock.stock = g_array_new (FALSE, FALSE, sizeof (RodCutStock));
  stock.rests = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_array_append_val (stock.stock, bar);
  return stock;
}

static gint64
cut (const double *lengths,
     guint         n)
{
  RodJointStock stock = new_stock ();
  g_autoptr (GArray) boards = g_array_new (FALSE, FALSE, sizeof (RodCutDemand));
  gint64 cost;

  for (guint i = 0; i < n; i++)
    {
      RodCutDemand board = { (gint64) ceil (lengths[i] - 1e-6), 1 };

      g_array_append_val (boards, board);
    }
  cost = rod_joint_stock_cost (&stock, boards, TRUE, NULL);
  rod_joint_stock_clear (&stock);
  return cost;
}

static double
whole_bay (const RodBay *bay,
           gconstpointer data)
{
  return bay->clear_mm;
}

static GArray *
places_every (double step_mm,
              double to_mm)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (RodJointPlace));

  for (double at = step_mm; at < to_mm; at += step_mm)
    {
      RodJointPlace place = { at, at, FALSE };

      g_array_append_val (places, place);
    }
  return places;
}

/* Timber, 11180 between pockets, boards of 4000, joints 600 apart in three courses, battens at 400.
 * Joints at 4000, 8000; 2800, 6800, 8800; 2000, 6000, 10000 want ten boards, for two of 2000 and a
 * cut are 4004; the last row 4 to the left needs nine, ⌈33540/4000⌉ = 9. */
static void
test_kerf_trap (void)
{
  const double  naive[] = { 4000, 4000, 3180, 2800, 4000, 2000, 2380, 2000, 4000, 4000, 1180 };
  const double  shifted[] = { 4000, 4000, 3180, 2800, 4000, 2000, 2380, 1996, 4000, 4000, 1184 };
  RodJointStock stock = new_stock ();
  g_autoptr (GArray) places = places_every (400, 11180);
  g_autoptr (GArray) boards = g_array_new (FALSE, FALSE, sizeof (double));
  RodJointLanes lanes;
  RodJointSpan  span = {
     .high_mm = 11180,
     .longest_mm = BOARD_MM,
     .least_mm = 300,
     .offset_mm = 600,
     .n_lanes = 3,
     .places = places,
     .board_mm = whole_bay,
  };

  g_assert_cmpint (cut (naive, G_N_ELEMENTS (naive)), ==, 10);
  g_assert_cmpint (cut (shifted, G_N_ELEMENTS (shifted)), ==, 9);
  g_assert_true (rod_joint_cycle_find (&span, &stock, 8.0, &lanes));
  g_assert_true (rod_joint_lanes_hold (&span, &lanes));

  /* Two joints are the least in a course, at 3180 to 4000 and 7180 to 8000; 820 hold two lanes 600
   * apart, the third needs three: 7 joints, 10 boards. */
  g_assert_cmpuint (lanes.n_joints, ==, 7);
  for (guint i = 0; i < lanes.n_lanes; i++)
    rod_joint_lane_boards (&span, lanes.lanes[i], boards);
  g_assert_cmpuint (boards->len, ==, 10);
  g_assert_cmpint (cut ((const double *) (void *) boards->data, boards->len), ==, 9);
  rod_joint_lanes_clear (&lanes);
  rod_joint_stock_clear (&stock);
}

/* All ways to place joints of two courses on whole millimetres within @reach of the places, by
 * trying them: the fewest joints and of those the fewest boards. */
typedef struct
{
  const RodJointSpan *span;
  int                 reach;
  double              at[2][2];
  guint               n[2];
  guint               n_joints;
  gint64              boards;
} Trial;

static void
judge (Trial *trial)
{
  double        lengths[6];
  guint         n = 0;
  RodJointLanes lanes = { .n_lanes = 2, .n_joints = trial->n[0] + trial->n[1] };
  gint64        boards;

  if (lanes.n_joints > trial->n_joints)
    return;
  for (guint i = 0; i < 2; i++)
    {
      double last = 0.0;

      for (guint j = 0; j <= trial->n[i]; j++)
        {
          double next = j < trial->n[i] ? trial->at[i][j] : trial->span->high_mm;

          if (next - last > trial->span->longest_mm || next - last < trial->span->least_mm)
            return;
          lengths[n++] = next - last;
          last = next;
        }
    }
  for (guint j = 0; j < trial->n[0]; j++)
    for (guint k = 0; k < trial->n[1]; k++)
      if (fabs (trial->at[0][j] - trial->at[1][k]) < trial->span->offset_mm)
        return;
  boards = cut (lengths, n);
  if (lanes.n_joints < trial->n_joints || boards < trial->boards)
    {
      trial->n_joints = lanes.n_joints;
      trial->boards = boards;
    }
}

static void
try_all (Trial *trial,
         guint  lane,
         guint  joint)
{
  if (lane == 2)
    {
      judge (trial);
      return;
    }
  trial->n[lane] = joint;
  if (joint > 0)
    try_all (trial, lane + 1, 0);
  for (guint p = 0; joint < 2 && p < trial->span->places->len; p++)
    for (int by = -trial->reach; by <= trial->reach; by++)
      {
        double at = g_array_index (trial->span->places, RodJointPlace, p).at_mm + by;

        if (joint > 0 && at <= trial->at[lane][joint - 1])
          continue;
        trial->at[lane][joint] = at;
        trial->n[lane] = joint + 1;
        try_all (trial, lane, joint + 1);
      }
  trial->n[lane] = joint;
}

/* On small stretches nothing that trying finds has fewer joints, or as many and fewer boards. */
static void
test_never_beaten (void)
{
  int found = 0;

  for (int n = 0; n < 40; n++)
    {
      double width = g_test_rand_int_range (4400, 7600);
      double step = g_test_rand_int_range (900, 1300);
      g_autoptr (GArray) places = places_every (step, width);
      RodJointStock stock = new_stock ();
      RodJointLanes lanes;
      RodJointSpan  span = {
         .high_mm = width,
         .longest_mm = BOARD_MM,
         .least_mm = 300,
         .offset_mm = 600,
         .n_lanes = 2,
         .places = places,
         .board_mm = whole_bay,
      };
      Trial trial = { .span = &span, .reach = 1, .n_joints = G_MAXUINT, .boards = G_MAXINT64 };

      try_all (&trial, 0, 0);
      if (rod_joint_cycle_find (&span, &stock, 1.0, &lanes))
        {
          gint64 boards;
          g_autoptr (GArray) lengths = g_array_new (FALSE, FALSE, sizeof (double));

          for (guint i = 0; i < 2; i++)
            rod_joint_lane_boards (&span, lanes.lanes[i], lengths);
          boards = cut ((const double *) (void *) lengths->data, lengths->len);
          g_assert_true (rod_joint_lanes_hold (&span, &lanes));
          /* Without shifts a joint more may be needed; the field then looks on finer places. */
          if (lanes.n_joints == trial.n_joints)
            g_assert_cmpint (boards, <=, trial.boards);
          found += lanes.n_joints == trial.n_joints;
          rod_joint_lanes_clear (&lanes);
        }
      rod_joint_stock_clear (&stock);
    }
  g_assert_cmpint (found, >, 20);
}

static RodPlan *
plan_wall (double      width,
           const char *pattern,
           int         seed,
           const char *more)
{
  g_autofree char *members =
    g_strdup_printf (", 'joint_pattern': '%s', 'joint_seed': %d%s", pattern, seed, more);

  return planned_house (surveyed_house (
    "timber-board", SURVEYED (surveyed_box ("a", "wall", width, 2900, members)), NULL));
}

/* Whether wood of the battens covers a point. */
static gboolean
is_backed (const RodPlan *plan,
           double         x,
           double         y)
{
  double half = rod_plan_face (plan, 0)->system->batten->width_mm / 2.0;

  for (guint b = 0; b < plan->battens->len; b++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, b);

      if (run->from.y <= y && run->to.y >= y && fabs (run->from.x - x) <= half + 1e-3)
        return TRUE;
    }
  return FALSE;
}

/* Whether wood covers a board's end and the bearing beyond it; battens may lie side by side. */
static gboolean
bears (const RodPlan *plan,
       double         x,
       double         inwards_mm,
       double         y)
{
  return is_backed (plan, x, y) && is_backed (plan, x + inwards_mm / 2.0, y) &&
         is_backed (plan, x + inwards_mm, y);
}

/* An end on the line of a jamb is half a notch: it bears over or under the opening. */
static gboolean
end_bears (const RodPlan  *plan,
           const RodPiece *piece,
           double          x,
           double          inwards_mm)
{
  return bears (plan, x, inwards_mm, piece->line_mm + piece->low_mm + 10.0) ||
         bears (plan, x, inwards_mm, piece->line_mm + piece->high_mm - 10.0);
}

static void
check_boards (const RodPlan *plan)
{
  const RodRules *rules = rod_plan_face (plan, 0)->system->rules;

  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);
      double          low, high;

      rod_plan_piece_extent (plan, piece, &low, &high);
      g_assert_cmpfloat (piece->length_mm, <=, 4800.0 + 1e-3);
      if (piece->left.edge == ROD_TAG_COLUMN_LEFT)
        g_assert_true (end_bears (plan, piece, low, rules->butt_bearing_mm));
      if (piece->right.edge == ROD_TAG_COLUMN_RIGHT)
        g_assert_true (end_bears (plan, piece, high, -rules->butt_bearing_mm));
      /* What ends at openings on both sides may be as narrow as the pier. */
      if (piece->left.edge == ROD_TAG_COLUMN_LEFT || piece->right.edge == ROD_TAG_COLUMN_RIGHT)
        g_assert_cmpfloat (piece->length_mm, >=, rules->min_piece_mm - 1e-3);
    }
}

/* Joints of courses fewer than @repeat apart; a finding may say that there was no room. */
static void
check_offsets (const RodPlan *plan)
{
  const RodField *field = rod_plan_field (plan, 0);
  double          nearest = INFINITY;

  for (guint i = 0; i < field->n_joints; i++)
    for (guint k = 0; k < i; k++)
      {
        int apart = field->joints[i].course - field->joints[k].course;

        if (apart > 0 && apart < field->joint_rules.repeat)
          nearest = MIN (nearest, fabs (field->joints[i].at_mm - field->joints[k].at_mm));
      }
  g_assert_cmpint (nearest < 600.0 - 1e-6, ==, planned_finding (plan, "joint-offset") != NULL);
}

static void
check_corners (const RodPlan *plan,
               double         left,
               double         right)
{
  const RodField *field = rod_plan_field (plan, 0);

  for (guint j = 0; j < field->n_joints; j++)
    {
      double low = field->phase_mm + field->joints[j].course * 135.0;
      double apart =
        MIN (fabs (field->joints[j].at_mm - left), fabs (field->joints[j].at_mm - right));

      if (low <= 2200.0 && low + 135.0 >= 900.0 && apart > 1e-6)
        g_assert_cmpfloat (apart, >=, 330.0 - 1e-6);
    }
}

static void
test_rules_hold (void)
{
  static const char *const patterns[] = { "staggered", "balanced", "random" };
  int                      offsets = 0;

  for (int n = 0; n < 60; n++)
    {
      double           width = 10.0 * g_test_rand_int_range (500, 1800);
      double           left = 10.0 * g_test_rand_int_range (80, (int) width / 10 - 260);
      double           right = left + 10.0 * g_test_rand_int_range (60, 180);
      g_autofree char *window =
        g_strdup_printf (", 'openings': [{'id': 'w', 'x': %.0f, 'y': 900, 'width_mm': %.0f, "
                         "'height_mm': 1300}]",
                         left,
                         right - left);
      g_autoptr (RodPlan) plan = plan_wall (width, patterns[n % 3], n, window);

      check_boards (plan);
      check_offsets (plan);
      check_corners (plan, left, right);
      offsets += planned_finding (plan, "joint-offset") != NULL;
    }
  /* Where joints cannot keep apart is seldom. */
  g_assert_cmpint (offsets, <, 6);
}

/* A staggered field is in line again after three courses, a balanced one after two. */
static void
test_repeats (void)
{
  g_autoptr (RodPlan) staggered = plan_wall (12600, "staggered", 0, "");
  g_autoptr (RodPlan) balanced = plan_wall (9000, "balanced", 0, "");
  const RodPlan *plans[] = { staggered, balanced };
  const int      repeats[] = { 3, 2 };

  for (guint i = 0; i < G_N_ELEMENTS (plans); i++)
    {
      const RodField *field = rod_plan_field (plans[i], 0);
      int             in_line = 0;

      g_assert_cmpuint (field->n_columns, ==, 0);
      g_assert_cmpuint (field->n_joints, >, 0);
      for (guint j = 0; j < field->n_joints; j++)
        for (guint k = 0; k < field->n_joints; k++)
          in_line += field->joints[k].course == field->joints[j].course + repeats[i] &&
                     fabs (field->joints[k].at_mm - field->joints[j].at_mm) < 1e-6;
      g_assert_cmpint (in_line,
                       >=,
                       (int) field->n_joints - 4 * repeats[i]);
    }
}

static char *
joints_of (const RodPlan *plan)
{
  const RodField *field = rod_plan_field (plan, 0);
  GString        *text = g_string_new (NULL);

  for (guint j = 0; j < field->n_joints; j++)
    g_string_append_printf (
      text, "%d:%.3f ", field->joints[j].course, field->joints[j].at_mm);
  return g_string_free (text, FALSE);
}

static void
test_seeds (void)
{
  g_autoptr (RodPlan) one = plan_wall (12600, "random", 1, "");
  g_autoptr (RodPlan) again = plan_wall (12600, "random", 1, "");
  g_autoptr (RodPlan) other = plan_wall (12600, "random", 2, "");
  g_autofree char *a = joints_of (one);
  g_autofree char *b = joints_of (again);
  g_autofree char *c = joints_of (other);

  g_assert_cmpstr (a, ==, b);
  g_assert_cmpstr (a, !=, c);
}

/* Hollow boards want a trim at every joint, and so do upright boards of timber. */
static void
test_refused (void)
{
  RodHouse *hollow =
    surveyed_house ("k-250",
                    SURVEYED (surveyed_box ("a", "wall", 13400, 2400, ", 'joint_pattern': "
                                                                      "'staggered'")),
                    NULL);
  g_autoptr (RodPlan) plan = planned_house (hollow);
  const RodFinding *finding = planned_finding (plan, "joints-refused");

  g_assert_nonnull (finding);
  g_assert_cmpint (finding->severity, ==, ROD_SEVERITY_SHOULD);
  g_assert_cmpuint (rod_plan_field (plan, 0)->n_columns, ==, 2);
}

/* Where boards of 4800 cannot keep 3000 apart, the plan says so. */
static void
test_no_room (void)
{
  g_autoptr (RodPlan) plan = plan_wall (12600, "staggered", 0, ", 'joint_offset_mm': 3000");
  const RodFinding *finding = planned_finding (plan, "joint-offset");

  g_assert_nonnull (finding);
  g_assert_cmpfloat (finding->limit, ==, 3000.0);
  g_assert_cmpfloat (finding->value, <, 3000.0);
  check_boards (plan);
}

/* A gable of 8 m: the joint stands on the ridge's axis. */
static void
test_gable (void)
{
  g_autoptr (RodPlan) plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (g_strdup ("{'id': 'a', 'kind': 'wall', 'system': 'k', 'outline': [{'x': 0, 'y': 0}, "
                        "{'x': 8000, 'y': 0}, {'x': 4000, 'y': 3356.4}]}")),
    NULL));
  const RodField *field = rod_plan_field (plan, 0);

  g_assert_cmpuint (field->n_columns, ==, 1);
  g_assert_cmpfloat_with_epsilon (field->columns[0], 4000.0, 0.001);
}

/* No board longer than the surface says, though the stock gives it. */
static void
test_longest_piece (void)
{
  g_autoptr (RodPlan) plan = plan_wall (6000, "staggered", 0, ", 'longest_piece_mm': 2500");

  for (guint p = 0; p < plan->pieces->len; p++)
    g_assert_cmpfloat (rod_plan_piece (plan, p)->length_mm, <=, 2500.0 + 1e-6);
  check_boards (plan);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/length-joints/kerf-trap", test_kerf_trap);
  g_test_add_func ("/length-joints/never-beaten", test_never_beaten);
  g_test_add_func ("/length-joints/rules-hold", test_rules_hold);
  g_test_add_func ("/length-joints/repeats", test_repeats);
  g_test_add_func ("/length-joints/seeds", test_seeds);
  g_test_add_func ("/length-joints/refused", test_refused);
  g_test_add_func ("/length-joints/no-room", test_no_room);
  g_test_add_func ("/length-joints/gable", test_gable);
  g_test_add_func ("/length-joints/longest-piece", test_longest_piece);

  return g_test_run ();
}
