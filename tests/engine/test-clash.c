/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rings that cross or touch themselves: hand-made cases, and the sweep against comparing every pair
 * of edges, on rings with small whole coordinates where touching is the rule. */
#include "engine/geometry/rod-clash.h"

typedef struct
{
  const char *name;
  RodPoint    corners[8];
  guint       n_corners;
  gboolean    clashes;
} Case;

/* clang-format off */
static const Case cases[] = {
  { "square",
    { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } },
    4, FALSE },
  { "clockwise",
    { { 0, 0 }, { 0, 10 }, { 10, 10 }, { 10, 0 } },
    4, FALSE },
  { "straight corner",
    { { 0, 0 }, { 5, 0 }, { 10, 0 }, { 0, 10 } },
    4, FALSE },
  { "bow tie",
    { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } },
    4, TRUE },
  { "corner on edge",
    { { 0, 0 }, { 10, 0 }, { 10, 9 }, { 5, 0 }, { 0, 9 } },
    5, TRUE },
  { "spike",
    { { 0, 0 }, { 10, 0 }, { 20, 0 }, { 10, 0 }, { 5, 9 } },
    5, TRUE },
  { "fold",
    { { 0, 0 }, { 10, 0 }, { 4, 0 }, { 4, 9 } },
    4, TRUE },
  { "two corners in one place",
    { { 0, 0 }, { 5, 5 }, { 10, 0 }, { 10, 9 }, { 5, 5 }, { 0, 9 } },
    6, TRUE },
  { "flat",
    { { 0, 0 }, { 10, 0 }, { 5, 0 } },
    3, TRUE },
  { "edge on edge",
    { { 0, 0 }, { 9, 0 }, { 9, 3 }, { 6, 3 }, { 6, 0 }, { 3, 0 }, { 3, 3 }, { 0, 3 } },
    8, TRUE },
};
/* clang-format on */

static RodPath *
ring_of (const RodPoint *corners,
         guint           n_corners)
{
  RodPath *path = rod_path_new ();

  for (guint i = 0; i < n_corners; i++)
    rod_path_add_corner (path, corners[i], (int) i);
  rod_path_close (path);
  return path;
}

static void
test_where (void)
{
  const RodPoint corners[] = { { 0, 0 }, { 30, 20 }, { 30, 0 }, { 0, 20 } };
  g_autoptr (RodPath) path = ring_of (corners, G_N_ELEMENTS (corners));
  RodClash clash;

  g_assert_true (rod_path_find_clash (path, &clash));
  g_assert_cmpfloat_with_epsilon (clash.where.x, 15, 1e-9);
  g_assert_cmpfloat_with_epsilon (clash.where.y, 10, 1e-9);
}

/* One micrometre apart at the far end of the largest drawing, where doubles alone would guess. */
static void
test_exact (void)
{
  RodPoint corners[] = {
    { -1e6, -1e6 },
    { 1e6, 999999.999 },
    { 1e6, 1e6 },
    { 999999.998, 999999.998 },
  };
  g_autoptr (RodPath) apart = ring_of (corners, G_N_ELEMENTS (corners));
  g_autoptr (RodPath) touching = NULL;
  RodClash clash;

  g_assert_false (rod_path_find_clash (apart, &clash));
  corners[1].y = 1e6;
  corners[2] = (RodPoint){ 0, 1e6 };
  corners[3] = (RodPoint){ 1, 1 };
  touching = ring_of (corners, G_N_ELEMENTS (corners));
  g_assert_true (rod_path_find_clash (touching, &clash));
}

static int
turn (RodPoint a,
      RodPoint b,
      RodPoint c)
{
  double cross = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

  return (cross > 0) - (cross < 0);
}

static gboolean
is_on (RodPoint a,
       RodPoint b,
       RodPoint p)
{
  return turn (a, b, p) == 0 && p.x >= MIN (a.x, b.x) && p.x <= MAX (a.x, b.x) &&
         p.y >= MIN (a.y, b.y) && p.y <= MAX (a.y, b.y);
}

static gboolean
segments_meet (RodPoint a,
               RodPoint b,
               RodPoint c,
               RodPoint d)
{
  return is_on (a, b, c) || is_on (a, b, d) || is_on (c, d, a) || is_on (c, d, b) ||
         (turn (a, b, c) * turn (a, b, d) < 0 && turn (c, d, a) * turn (c, d, b) < 0);
}

/* Whether edges i and j of the ring meet other than at the corner they share. */
static gboolean
pair_clashes (const RodPoint *p,
              guint           n,
              guint           i,
              guint           j)
{
  if ((i + 1) % n == j)
    return is_on (p[i], p[j], p[(j + 1) % n]) || is_on (p[j], p[(j + 1) % n], p[i]);
  if ((j + 1) % n == i)
    return pair_clashes (p, n, j, i);
  return segments_meet (p[i], p[(i + 1) % n], p[j], p[(j + 1) % n]);
}

static void
test_cases (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const RodPoint *corners = cases[i].corners;
      guint           n = cases[i].n_corners;
      g_autoptr (RodPath) path = ring_of (corners, n);
      RodClash clash;

      g_test_message ("%s", cases[i].name);
      g_assert_cmpint (rod_path_find_clash (path, &clash), ==, cases[i].clashes);
      if (cases[i].clashes)
        g_assert_true (pair_clashes (corners, n, (guint) clash.tag_a, (guint) clash.tag_b));
    }
}

static gboolean
any_pair_clashes (const RodPoint *p,
                  guint           n)
{
  for (guint i = 0; i < n; i++)
    {
      for (guint j = i + 1; j < n; j++)
        {
          if (pair_clashes (p, n, i, j))
            return TRUE;
        }
    }
  return FALSE;
}

static void
test_against_every_pair (void)
{
  guint n_simple = 0;

  for (int round = 0; round < 60000; round++)
    {
      RodPoint points[12];
      guint    n = (guint) g_test_rand_int_range (3, 9);
      int      size = g_test_rand_int_range (2, 12);
      g_autoptr (RodPath) path = NULL;
      RodClash clash;
      gboolean expected;

      for (guint i = 0; i < n; i++)
        {
          do
            points[i] = (RodPoint){ g_test_rand_int_range (0, size),
                                    g_test_rand_int_range (0, size) };
          while ((i > 0 && rod_point_distance (points[i], points[i - 1]) < 0.5) ||
                 (i == n - 1 && rod_point_distance (points[i], points[0]) < 0.5));
        }
      path = ring_of (points, n);
      expected = any_pair_clashes (points, n);
      n_simple += !expected;

      g_assert_cmpint (rod_path_find_clash (path, &clash), ==, expected);
      if (expected)
        g_assert_true (pair_clashes (points, n, (guint) clash.tag_a, (guint) clash.tag_b));
    }
  /* Both answers must have been asked for. */
  g_assert_cmpuint (n_simple, >, 1000);
  g_assert_cmpuint (n_simple, <, 59000);
}

static void
test_two_rings (void)
{
  g_autoptr (RodPath) path = rod_path_new ();
  RodClash clash;

  for (int ring = 0; ring < 2; ring++)
    {
      rod_path_add_corner (path, (RodPoint){ 20.0 * ring, 0 }, ring);
      rod_path_add_corner (path, (RodPoint){ 20.0 * ring + 10, 0 }, ring);
      rod_path_add_corner (path, (RodPoint){ 20.0 * ring, 10 }, ring);
      rod_path_close (path);
    }
  g_assert_false (rod_path_find_clash (path, &clash));

  rod_path_add_corner (path, (RodPoint){ 5, 2 }, 2);
  rod_path_add_corner (path, (RodPoint){ 25, 2 }, 2);
  rod_path_add_corner (path, (RodPoint){ 25, 3 }, 2);
  rod_path_close (path);
  g_assert_true (rod_path_find_clash (path, &clash));
  g_assert_cmpint (clash.tag_a, ==, 0);
  g_assert_cmpint (clash.tag_b, ==, 2);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/clash/cases", test_cases);
  g_test_add_func ("/clash/where", test_where);
  g_test_add_func ("/clash/exact", test_exact);
  g_test_add_func ("/clash/against-every-pair", test_against_every_pair);
  g_test_add_func ("/clash/two-rings", test_two_rings);

  return g_test_run ();
}
