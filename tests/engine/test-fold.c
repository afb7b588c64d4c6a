/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The folded house: faces keep their shape, meet at their joins, and do not depend on the order of
 * the file; what does not close is told to the micrometre. */

#include "support/planned-house.h"

#include "engine/checks/rod-findings.h"
#include "engine/files/rod-file.h"
#include "engine/fold/rod-fold.h"

#include <math.h>
#include <string.h>

#define assert_mm(value, expected) g_assert_cmpfloat_with_epsilon ((value), (expected), 1e-6)

static const RodFacePlace *
place (const RodPlan *plan,
       const char    *id)
{
  return &g_array_index (plan->places, RodFacePlace, planned_face (plan, id));
}

static RodVector
in_space (const RodPlan *plan,
          const char    *id,
          double         x,
          double         y)
{
  return rod_placement_apply (&place (plan, id)->at, (RodPoint){ x, y });
}

static void
assert_at (RodVector at,
           double    x,
           double    y,
           double    z)
{
  assert_mm (at.x, x);
  assert_mm (at.y, y);
  assert_mm (at.z, z);
}

static double
apart_mm (RodVector a,
          RodVector b)
{
  return rod_vector_length (rod_vector_sum (1.0, a, -1.0, b));
}

static RodHouse *
load (const char *file)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "examples", file, NULL);
  g_autoptr (GError) error = NULL;
  RodHouse *house = rod_house_load (path, &error);

  g_assert_no_error (error);
  return house;
}

/* Four walls, front, right, back, left, that meet in square outside corners. */
static RodHouse *
box_house (double front,
           double right,
           double back,
           double left)
{
  return surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", front, 2400, ", 'name': 'Front'"),
              surveyed_box ("b", "wall", right, 2400, ", 'name': 'Right'"),
              surveyed_box ("c", "wall", back, 2400, ", 'name': 'Back'"),
              surveyed_box ("d", "wall", left, 2400, ", 'name': 'Left'")),
    SURVEYED (surveyed_join ("j1", "a.right", "b.left", 90, ""),
              surveyed_join ("j2", "b.right", "c.left", 90, ""),
              surveyed_join ("j3", "c.right", "d.left", 90, ""),
              surveyed_join ("j4", "d.right", "a.left", 90, "")));
}

/* The front stands over the origin and faces south; the house lies behind it. */
static void
test_box (void)
{
  g_autoptr (RodPlan) plan = planned_house (box_house (4000, 3000, 4000, 3000));
  const RodClosure *closure = &g_array_index (plan->closures, RodClosure, 0);

  assert_at (in_space (plan, "a", 0, 0), 0, 0, 0);
  assert_at (in_space (plan, "a", 4000, 2400), 4000, 0, 2400);
  assert_at (in_space (plan, "b", 3000, 100), 4000, 3000, 100);
  assert_at (in_space (plan, "c", 0, 0), 4000, 3000, 0);
  assert_at (in_space (plan, "c", 4000, 0), 0, 3000, 0);
  assert_at (in_space (plan, "d", 3000, 2400), 0, 0, 2400);
  assert_at (rod_placement_normal (&place (plan, "a")->at), 0, -1, 0);
  assert_at (rod_placement_normal (&place (plan, "b")->at), 1, 0, 0);
  assert_at (rod_placement_normal (&place (plan, "d")->at), -1, 0, 0);

  g_assert_cmpuint (plan->closures->len, ==, 1);
  g_assert_cmpuint (closure->n_steps, ==, 4);
  g_assert_cmpfloat (closure->misfit_mm, <, 1e-9);
  g_assert_cmpfloat (fabs (closure->fold_deg) + closure->edge_deg, <, 1e-9);
  g_assert_null (planned_finding (plan, "survey-open"));
}

/* Six corners, one of them an inside corner: 90·5 − 90 = 360. */
static void
test_l_shape_and_facing (void)
{
  const double widths[] = { 6000, 5000, 2500, 2000, 3500, 3000 };
  const double folds[] = { 90, 90, 90, -90, 90, 90 };
  char        *walls[7] = { NULL }, *joins[7] = { NULL };
  g_autoptr (RodPlan) plan = NULL;

  for (guint i = 0; i < 6; i++)
    {
      char id[2] = { (char) ('a' + i), '\0' };
      char from[8], to[8];

      g_snprintf (from, sizeof from, "%c.right", 'a' + i);
      g_snprintf (to, sizeof to, "%c.left", 'a' + (i + 1) % 6);
      walls[i] = surveyed_box (id, "wall", widths[i], 2400, i == 0 ? ", 'facing_deg': 90" : "");
      joins[i] = surveyed_join (id, from, to, folds[i], "");
    }
  plan = planned_house (surveyed_house ("k-250", walls, joins));
  g_assert_cmpfloat (planned_worst_closure_mm (plan), <, 1e-9);
  /* The first wall faces east, so that its x runs north. */
  assert_at (rod_placement_normal (&place (plan, "a")->at), 1, 0, 0);
  assert_at (in_space (plan, "a", 6000, 0), 0, 6000, 0);
}

/* Any corners: half a hexagon stands out from the front, 500 + 1000 + 500 wide. */
static void
plan_bay (RodPlan **plan,
          double    more_mm)
{
  *plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("front-1", "wall", 1000, 2400, ""),
              surveyed_box ("bay-1", "wall", 1000 + more_mm, 2400, ""),
              surveyed_box ("bay-2", "wall", 1000, 2400, ""),
              surveyed_box ("bay-3", "wall", 1000, 2400, ""),
              surveyed_box ("front-2", "wall", 1000, 2400, ""),
              surveyed_box ("right", "wall", 3000, 2400, ""),
              surveyed_box ("back", "wall", 4000, 2400, ""),
              surveyed_box ("left", "wall", 3000, 2400, "")),
    SURVEYED (surveyed_join ("j1", "front-1.right", "bay-1.left", -60, ""),
              surveyed_join ("j2", "bay-1.right", "bay-2.left", 60, ""),
              surveyed_join ("j3", "bay-2.right", "bay-3.left", 60, ""),
              surveyed_join ("j4", "bay-3.right", "front-2.left", -60, ""),
              surveyed_join ("j5", "front-2.right", "right.left", 90, ""),
              surveyed_join ("j6", "right.right", "back.left", 90, ""),
              surveyed_join ("j7", "back.right", "left.left", 90, ""),
              surveyed_join ("j8", "left.right", "front-1.left", 90, ""))));
}

static void
test_bay (void)
{
  g_autoptr (RodPlan) good = NULL;
  g_autoptr (RodPlan) bad = NULL;

  plan_bay (&good, 0.0);
  g_assert_cmpuint (good->closures->len, ==, 1);
  g_assert_cmpfloat (planned_worst_closure_mm (good), <, 1e-9);
  plan_bay (&bad, 17.25);
  g_assert_cmpfloat_with_epsilon (planned_worst_closure_mm (bad), 17.25, 1e-9);
}

/* A length read wrongly opens the loop by as much, whichever wall it is, and nothing turns. */
static void
test_planted_error (void)
{
  const double errors[] = { -30.0, -7.25, -1.0, 2.5, 10.0, 11.0, 140.0 };

  for (guint i = 0; i < G_N_ELEMENTS (errors) * 4; i++)
    {
      double            wide[4] = { 4000, 3000, 4000, 3000 }, e = errors[i / 4];
      const RodFinding *finding;
      const RodClosure *closure;
      g_autoptr (RodPlan) plan = NULL;

      wide[i % 4] += e;
      plan = planned_house (box_house (wide[0], wide[1], wide[2], wide[3]));
      closure = &g_array_index (plan->closures, RodClosure, 0);
      finding = planned_finding (plan, "survey-open");
      g_assert_cmpfloat_with_epsilon (closure->misfit_mm, fabs (e), 1e-9);
      g_assert_cmpfloat (closure->edge_deg + fabs (closure->fold_deg), <, 1e-9);
      g_assert_nonnull (finding);
      g_assert_cmpfloat_with_epsilon (finding->value, fabs (e), 1e-9);
      /* Four lines of 5 mm: 5·√4. */
      g_assert_cmpfloat_with_epsilon (finding->limit, 10.0, 1e-9);
      g_assert_cmpint (
        finding->severity, ==, fabs (e) > 10.0 ? ROD_SEVERITY_SHOULD : ROD_SEVERITY_NOTE);
      g_assert_cmpstr (finding->rule, ==, "R31");
      for (guint w = 0; w < 4; w++)
        {
          g_autofree char *length = g_strdup_printf ("%.0f mm", wide[w]);

          g_assert_nonnull (strstr (finding->remedy, length));
          g_assert_nonnull (strstr (finding->text, rod_plan_face (plan, w)->label));
        }
    }
}

/* The walls along the gap are the first to measure again. */
static void
test_likeliest_first (void)
{
  g_autoptr (RodPlan) plan = planned_house (box_house (4000, 3050, 4000, 3000));
  const char *remedy = planned_finding (plan, "survey-open")->remedy;

  g_assert_true (strstr (remedy, "Right 3050 mm") < strstr (remedy, "Front 4000 mm"));
  g_assert_true (strstr (remedy, "Left 3000 mm") < strstr (remedy, "Back 4000 mm"));
}

/* Less than a tape shows is nothing to talk about. */
static void
test_closes_to_a_tape (void)
{
  g_autoptr (RodPlan) plan = planned_house (box_house (4000.9, 3000, 4000, 3000));

  assert_mm (planned_worst_closure_mm (plan), 0.9);
  g_assert_null (planned_finding (plan, "survey-open"));
}

/* Corners that do not add up: the last one is 92° where the others leave it 90°. Chains run both
 * ways from the front and close at the back, where edges meet and only the fold is wrong. */
static void
test_open_fold (void)
{
  g_autoptr (RodPlan) plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ""),
              surveyed_box ("b", "wall", 3000, 2400, ""),
              surveyed_box ("c", "wall", 4000, 2400, ""),
              surveyed_box ("d", "wall", 3000, 2400, "")),
    SURVEYED (surveyed_join ("j1", "a.right", "b.left", 90, ""),
              surveyed_join ("j2", "b.right", "c.left", 90, ""),
              surveyed_join ("j3", "c.right", "d.left", 92, ""),
              surveyed_join ("j4", "d.right", "a.left", 90, ""))));
  const RodClosure *closure = &g_array_index (plan->closures, RodClosure, 0);

  assert_mm (closure->misfit_mm, 0.0);
  assert_mm (closure->edge_deg, 0.0);
  assert_mm (closure->fold_deg, -2.0);
  /* 2° over the 3000 mm of the smaller wall. */
  g_assert_cmpfloat_with_epsilon (
    planned_finding (plan, "survey-open")->value, 2.0 * G_PI / 180.0 * 3000.0, 1e-6);
}

/* A soffit hinges outwards at the wall's head and is seen from below. */
static void
test_soffit (void)
{
  g_autoptr (RodPlan) plan = planned_house (
    surveyed_house ("k-200",
                    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'level_mm': 150"),
                              surveyed_box ("s", "soffit", 4250, 600, "")),
                    SURVEYED (surveyed_join ("j", "a.top", "s.base", -90, ", 'offset_mm': 160"))));

  assert_at (rod_placement_normal (&place (plan, "s")->at), 0, 0, -1);
  /* The soffit starts 160 beyond the wall's left end. */
  assert_at (in_space (plan, "s", 0, 0), -160, 0, 2550);
  assert_at (in_space (plan, "s", 160, 600), 0, -600, 2550);
  g_assert_cmpuint (plan->closures->len, ==, 0);
}

/* Linings go back from the wall's face to the frame and face into the opening. */
static void
test_reveals (void)
{
  g_autoptr (RodPlan) plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a",
                            "wall",
                            4000,
                            2400,
                            ", 'openings': [{'id': 'w', 'x': 1000, 'y': 800, 'width_mm': 1200, "
                            "'height_mm': 1100, 'reveal': {'depth_mm': 140, 'head': true, "
                            "'jambs': true, 'sill': true}}]")),
    NULL));

  assert_at (in_space (plan, "a, w, left jamb", 0, 0), 1000, 0, 800);
  assert_at (in_space (plan, "a, w, left jamb", 140, 1100), 1000, 140, 1900);
  assert_at (rod_placement_normal (&place (plan, "a, w, left jamb")->at), 1, 0, 0);
  assert_at (rod_placement_normal (&place (plan, "a, w, right jamb")->at), -1, 0, 0);
  assert_at (rod_placement_normal (&place (plan, "a, w, head")->at), 0, 0, -1);
  assert_at (rod_placement_normal (&place (plan, "a, w, sill")->at), 0, 0, 1);
  assert_at (in_space (plan, "a, w, head", 0, 0), 1000, 140, 1900);
  g_assert_true (place (plan, "a, w, head")->alone);
}

/* Storeys have levels of their own; what their join says otherwise is shown there. */
static void
test_levels (void)
{
  for (double off_mm = -30.0; off_mm <= 30.0; off_mm += 30.0)
    {
      g_autofree char *level = g_strdup_printf (", 'level_mm': %.1f", 2600.0 + off_mm);
      g_autoptr (RodPlan) plan = planned_house (
        surveyed_house ("k-250",
                        SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'level_mm': 200"),
                                  surveyed_box ("b", "wall", 4000, 2000, level)),
                        SURVEYED (surveyed_join ("j", "a.top", "b.base", 0, ""))));

      assert_at (in_space (plan, "b", 0, 0), 0, 0, 2600.0 + off_mm);
      assert_mm (place (plan, "b")->lift_mm, off_mm);
      assert_mm (planned_worst_closure_mm (plan), fabs (off_mm));
      g_assert_true ((planned_finding (plan, "survey-open") != NULL) == (off_mm < 0 || off_mm > 0));
    }
}

/* What no join reaches stands for itself, clear to the east. */
static void
test_parts (void)
{
  g_autoptr (RodPlan) plan = planned_house (surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("z", "soffit", 800, 600, ""),
              surveyed_box ("c", "wall", 1000, 2400, ", 'level_mm': 300"),
              surveyed_box ("b", "wall", 3000, 2400, ""),
              surveyed_box ("a", "wall", 4000, 2400, "")),
    SURVEYED (surveyed_join ("j1", "a.right", "b.left", 90, ""))));

  g_assert_cmpuint (place (plan, "a")->part, ==, 0);
  g_assert_cmpuint (place (plan, "b")->part, ==, 0);
  g_assert_cmpuint (place (plan, "c")->part, ==, 1);
  g_assert_cmpuint (place (plan, "z")->part, ==, 2);
  g_assert_false (place (plan, "a")->alone);
  g_assert_true (place (plan, "c")->alone);
  g_assert_true (place (plan, "z")->alone);
  g_assert_cmpfloat (in_space (plan, "c", 0, 0).x, >, 4000.0);
  assert_mm (in_space (plan, "c", 0, 0).z, 300.0);
  g_assert_cmpfloat (in_space (plan, "z", 0, 0).x, >, in_space (plan, "c", 1000, 0).x);
  assert_at (rod_placement_normal (&place (plan, "z")->at), 0, 0, -1);
}

/* Boards' back planes, each out by its build-up, meet round the corner where their edge stacks say:
 * the build-up of an edge and the folded house agree. */
static void
test_build_ups_meet (void)
{
  const double folds[] = { 90, -90, 60, -60, 35, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (folds); i++)
    {
      g_autoptr (RodPlan) plan = planned_house (
        surveyed_house ("k-250",
                        SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'build_up_mm': 60"),
                                  surveyed_box ("b", "wall", 3000, 2400, ", 'build_up_mm': 60")),
                        SURVEYED (surveyed_join ("j1", "a.right", "b.left", folds[i], ""))));
      double    own = planned_edge (plan, "a", "right")->build_up_mm;
      double    other = planned_edge (plan, "b", "left")->build_up_mm;
      RodVector a = rod_vector_sum (1.0,
                                    in_space (plan, "a", 4000 + own, 700),
                                    60.0,
                                    rod_placement_normal (&place (plan, "a")->at));
      RodVector b = rod_vector_sum (1.0,
                                    in_space (plan, "b", -other, 700),
                                    60.0,
                                    rod_placement_normal (&place (plan, "b")->at));

      g_assert_cmpfloat (apart_mm (a, b), <, 1e-6);
    }
}

/* Faces are neither stretched nor turned over, folded, flat or between. */
static void
assert_rigid (const RodPlan      *plan,
              const RodPlacement *places)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const GPtrArray *outline = rod_plan_face (plan, f)->surface->outline;
      double           flat = 0.0, folded = 0.0;

      for (guint c = 0; c < outline->len; c++)
        {
          const RodCorner *one = g_ptr_array_index (outline, c);
          const RodCorner *other = g_ptr_array_index (outline, (c + 1) % outline->len);
          RodPoint         a = { one->x, one->y }, b = { other->x, other->y };
          RodVector        p = rod_placement_apply (&places[f], a);
          RodVector        q = rod_placement_apply (&places[f], b);

          assert_mm (apart_mm (p, q), rod_point_distance (a, b));
          /* The shoelace, flat and in space: a closed chain has the same vector area from
           * everywhere. */
          flat += (a.x * b.y - b.x * a.y) / 2.0;
          p = rod_vector_sum (1.0, p, -1.0, places[f].origin);
          q = rod_vector_sum (1.0, q, -1.0, places[f].origin);
          folded +=
            rod_vector_dot (rod_vector_cross (p, q), rod_placement_normal (&places[f])) / 2.0;
        }
      g_assert_cmpfloat_with_epsilon (folded, flat, 1e-6 * MAX (1.0, fabs (flat)));
    }
}

/* From flat to folded: every fold has its share of the way behind it. */
static void
assert_unfolds (const RodPlan *plan)
{
  g_autofree RodPlacement *places = g_new (RodPlacement, plan->faces->len);

  for (double share = 0.0; share <= 1.0; share += 0.25)
    {
      rod_fold_place (plan, share, places);
      assert_rigid (plan, places);
      for (guint f = 0; f < plan->faces->len; f++)
        {
          const RodFacePlace *own = &g_array_index (plan->places, RodFacePlace, f);
          const RodEdge      *edge;
          RodHinge            hinge;

          if (share >= 1.0)
            assert_mm (apart_mm (places[f].origin, own->at.origin), 0.0);
          if (own->hangs_on < 0)
            continue;
          edge = &rod_plan_field (plan, rod_plan_face (plan, (guint) own->hangs_on)->first_field)
                    ->edges[own->edge];
          hinge = rod_fold_hinge (plan, (guint) own->hangs_on, edge);
          assert_mm (
            remainder (rod_placement_fold (&places[own->hangs_on], &places[f], &hinge) -
                         share * edge->fold_deg,
                       360.0),
            0.0);
        }
    }
}

/* The examples were drawn, not measured: every loop closes, every reveal fits its opening. */
static void
test_example (gconstpointer file)
{
  g_autoptr (RodPlan) plan = planned_house (load (file));
  guint derived = 0;

  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodField *field = planned_field (plan,
                                             rod_plan_face (plan, f)->derived == NULL
                                               ? rod_plan_face (plan, f)->surface->id
                                               : rod_plan_face (plan, f)->label);

      for (guint e = 0; e < field->n_edges; e++)
        if (field->edges[e].partner_face >= 0)
          {
            RodClosure met = rod_fold_misfit (plan, f, e);

            derived += field->edges[e].join == NULL;
            g_assert_cmpfloat (met.misfit_mm, <, 1e-6);
            g_assert_cmpfloat (met.edge_deg + fabs (met.fold_deg), <, 1e-6);
          }
    }
  g_assert_cmpuint (derived, >, 0);
  g_assert_cmpuint (plan->closures->len, >, 0);
  g_assert_null (planned_finding (plan, "survey-open"));
  assert_unfolds (plan);
  g_test_message ("%s: %u faces, %u closures, worst %g mm",
                  (const char *) file,
                  plan->faces->len,
                  plan->closures->len,
                  planned_worst_closure_mm (plan));
}

static void
shuffle (GPtrArray *list)
{
  for (guint i = list->len; i > 1; i--)
    {
      guint    k = (guint) g_test_rand_int_range (0, (gint) i);
      gpointer last = list->pdata[i - 1];

      list->pdata[i - 1] = list->pdata[k];
      list->pdata[k] = last;
    }
}

/* Moves the right end of some walls, as a tape read wrongly does. */
static void
plant_errors (RodHouse *house)
{
  GPtrArray *surfaces = rod_record_list_new ();

  for (guint i = 0; i < house->surfaces->len; i++)
    {
      RodSurface *surface = rod_record_copy (g_ptr_array_index (house->surfaces, i));
      GPtrArray  *outline = rod_record_list_new ();
      double      by_mm = i % 3 == 0 ? g_test_rand_double_range (-20.0, 20.0) : 0.0;
      double      high = -INFINITY;

      for (guint c = 0; c < surface->outline->len; c++)
        high = MAX (high, ((RodCorner *) g_ptr_array_index (surface->outline, c))->x);
      for (guint c = 0; c < surface->outline->len; c++)
        {
          RodCorner *corner = rod_record_copy (g_ptr_array_index (surface->outline, c));

          if (surface->kind == ROD_SURFACE_WALL && corner->x > high - 0.1)
            corner->x += by_mm;
          g_ptr_array_add (outline, corner);
        }
      rod_record_take_list (surface, G_STRUCT_OFFSET (RodSurface, outline), outline);
      g_ptr_array_add (surfaces, surface);
    }
  rod_record_take_list (house, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
}

static RodHouse *
erring_house (void)
{
  g_autoptr (RodHouse) drawn = load ("two-storey.storeyrod");
  RodHouse *house = rod_record_copy (drawn);

  plant_errors (house);
  return house;
}

/* Where it does not close, the chains matter, and they must not depend on the file's order. */
static void
test_order (void)
{
  g_autoptr (RodHouse) house = erring_house ();
  g_autoptr (RodHouse) other = rod_record_copy (house);
  g_autoptr (RodPlan) one = rod_plan_new (house);
  g_autoptr (RodPlan) two = NULL;
  GPtrArray *surfaces = rod_record_list_copy (house->surfaces);
  GPtrArray *joins = rod_record_list_copy (house->joins);

  shuffle (surfaces);
  shuffle (joins);
  rod_record_take_list (other, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  rod_record_take_list (other, G_STRUCT_OFFSET (RodHouse, joins), joins);
  two = rod_plan_new (other);
  g_assert_cmpuint (one->closures->len, ==, two->closures->len);
  g_assert_cmpfloat (planned_worst_closure_mm (one), >, 1.0);
  assert_mm (planned_worst_closure_mm (one), planned_worst_closure_mm (two));
  for (guint f = 0; f < one->faces->len; f++)
    {
      const RodFace      *face = rod_plan_face (one, f);
      const char         *id = face->derived == NULL ? face->surface->id : face->label;
      const RodFacePlace *a = &g_array_index (one->places, RodFacePlace, f);
      const RodFacePlace *b = place (two, id);

      assert_mm (apart_mm (a->at.origin, b->at.origin), 0.0);
      assert_mm (apart_mm (a->at.x, b->at.x), 0.0);
      assert_mm (apart_mm (a->at.y, b->at.y), 0.0);
      g_assert_cmpuint (a->part, ==, b->part);
    }
  for (guint i = 0, k = 0; i < one->findings->len; i++)
    {
      const RodFinding *open = &g_array_index (one->findings, RodFinding, i);

      if (!g_str_equal (open->id, "survey-open"))
        continue;
      while (!g_str_equal (g_array_index (two->findings, RodFinding, k).id, "survey-open"))
        k++;
      g_assert_cmpstr (open->text, ==, g_array_index (two->findings, RodFinding, k++).text);
    }
}

/* A surface seen in a mirror: x turned round, corners the other way round so that they run
 * counter-clockwise again, each edge with its name. */
static RodSurface *
mirrored_surface (const RodSurface *surface)
{
  RodSurface *mirrored = rod_record_copy (surface);
  GPtrArray  *outline = rod_record_list_new ();

  for (guint i = surface->outline->len; i-- > 0;)
    {
      const RodCorner *end =
        g_ptr_array_index (surface->outline, (i + 1) % surface->outline->len);
      RodCorner *corner = rod_record_copy (g_ptr_array_index (surface->outline, i));

      corner->x = -end->x;
      corner->y = end->y;
      g_ptr_array_add (outline, corner);
    }
  rod_record_take_list (mirrored, G_STRUCT_OFFSET (RodSurface, outline), outline);
  rod_record_take_list (mirrored, G_STRUCT_OFFSET (RodSurface, openings), rod_record_list_new ());
  return mirrored;
}

static double
edge_length (const RodHouse   *house,
             const RodEdgeRef *ref)
{
  const RodSurface *surface = rod_house_find_surface (house, ref->surface);
  int               edge = rod_surface_find_edge (surface, ref->edge);
  g_autoptr (GArray) sides = rod_corners_sides (surface->outline);
  const RodSide *side = &g_array_index (sides, RodSide, edge);

  return rod_point_distance (side->from, side->to);
}

/* Starts and ends change places, and with them what the offset is measured from. */
static RodJoin *
mirrored_join (const RodHouse *house,
               const RodJoin  *join)
{
  RodJoin *mirrored = rod_record_copy (join);

  mirrored->offset_mm =
    edge_length (house, join->b) - edge_length (house, join->a) - join->offset_mm;
  return mirrored;
}

static void
test_mirror (void)
{
  g_autoptr (RodHouse) house = erring_house ();
  g_autoptr (RodHouse) other = rod_record_copy (house);
  g_autoptr (RodPlan) one = NULL;
  g_autoptr (RodPlan) two = NULL;
  GPtrArray *surfaces = rod_record_list_new ();
  GPtrArray *joins = rod_record_list_new ();

  for (guint i = 0; i < house->surfaces->len; i++)
    g_ptr_array_add (surfaces, mirrored_surface (g_ptr_array_index (house->surfaces, i)));
  for (guint i = 0; i < house->joins->len; i++)
    g_ptr_array_add (joins, mirrored_join (house, g_ptr_array_index (house->joins, i)));
  rod_record_take_list (other, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  rod_record_take_list (other, G_STRUCT_OFFSET (RodHouse, joins), joins);
  one = rod_plan_new (house);
  two = rod_plan_new (other);

  g_assert_cmpfloat (planned_worst_closure_mm (one), >, 1.0);
  assert_mm (planned_worst_closure_mm (one), planned_worst_closure_mm (two));
  /* Parts beyond the first are put to the east of it in both. */
  for (guint f = 0; f < two->faces->len; f++)
    {
      const RodSurface *surface = rod_plan_face (two, f)->surface;

      if (place (two, surface->id)->part > 0)
        continue;
      for (guint c = 0; c < surface->outline->len; c++)
        {
          const RodCorner *corner = g_ptr_array_index (surface->outline, c);
          RodVector        a = in_space (one, surface->id, -corner->x, corner->y);

          assert_at (in_space (two, surface->id, corner->x, corner->y), -a.x, a.y, a.z);
        }
    }
}

/* Walls that face the viewer are seen as they are drawn; from above, the plan is. */
static void
test_views (void)
{
  g_autoptr (RodPlan) plan = planned_house (box_house (4000, 3000, 4000, 3000));
  RodOutlook front = rod_outlook_new (180, 0), right = rod_outlook_new (90, 0);
  RodOutlook above = rod_outlook_new (180, 90), askew = rod_outlook_new (135, 30);
  RodAffine  map = rod_outlook_map (&front, &place (plan, "a")->at, 0.0);
  RodPoint   at = rod_affine_apply (map, (RodPoint){ 1234, 567 });

  assert_mm (at.x, 1234);
  assert_mm (at.y, 567);
  map = rod_outlook_map (&right, &place (plan, "b")->at, 60.0);
  at = rod_affine_apply (map, (RodPoint){ 1234, 567 });
  assert_mm (at.x, 1234);
  assert_mm (at.y, 567);
  /* From above the right wall runs from (4000, 0) to (4000, 3000), its boards 60 outside. */
  map = rod_outlook_map (&above, &place (plan, "b")->at, 60.0);
  at = rod_affine_apply (map, (RodPoint){ 3000, 567 });
  assert_mm (at.x, 4060);
  assert_mm (at.y, 3000);

  g_assert_true (rod_outlook_sees (&front, &place (plan, "a")->at));
  g_assert_false (rod_outlook_sees (&front, &place (plan, "b")->at));
  g_assert_false (rod_outlook_sees (&front, &place (plan, "c")->at));
  /* From the south-east the front and the right are seen, foreshortened by cos 45°, heights by
   * cos 30°; what comes nearer sinks, by sin 45°·sin 30°. */
  g_assert_true (rod_outlook_sees (&askew, &place (plan, "a")->at));
  g_assert_true (rod_outlook_sees (&askew, &place (plan, "b")->at));
  g_assert_false (rod_outlook_sees (&askew, &place (plan, "d")->at));
  map = rod_outlook_map (&askew, &place (plan, "a")->at, 0.0);
  assert_mm (map.xx, sqrt (0.5));
  assert_mm (map.xy, 0.0);
  assert_mm (map.yx, -sqrt (0.5) * 0.5);
  assert_mm (map.yy, sqrt (0.75));
  g_assert_cmpfloat (rod_outlook_nearness (&askew, in_space (plan, "a", 4000, 0)),
                     >,
                     rod_outlook_nearness (&askew, in_space (plan, "d", 0, 0)));
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/box", test_box);
  g_test_add_func ("/fold/l-shape-and-facing", test_l_shape_and_facing);
  g_test_add_func ("/fold/bay", test_bay);
  g_test_add_func ("/fold/planted-error", test_planted_error);
  g_test_add_func ("/fold/likeliest-first", test_likeliest_first);
  g_test_add_func ("/fold/closes-to-a-tape", test_closes_to_a_tape);
  g_test_add_func ("/fold/open-fold", test_open_fold);
  g_test_add_func ("/fold/soffit", test_soffit);
  g_test_add_func ("/fold/reveals", test_reveals);
  g_test_add_func ("/fold/levels", test_levels);
  g_test_add_func ("/fold/parts", test_parts);
  g_test_add_func ("/fold/build-ups-meet", test_build_ups_meet);
  g_test_add_data_func ("/fold/two-storey", "two-storey.storeyrod", test_example);
  g_test_add_data_func ("/fold/terrace", "terrace-house.storeyrod", test_example);
  g_test_add_data_func ("/fold/street", "terrace.storeyrod", test_example);
  g_test_add_func ("/fold/order", test_order);
  g_test_add_func ("/fold/mirror", test_mirror);
  g_test_add_func ("/fold/views", test_views);
  return g_test_run ();
}
