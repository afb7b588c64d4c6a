/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Houses that are refused, one file for each mistake (bad/), houses that look like them and are
 * not, and houses built in code. */
#include "engine/files/rod-file.h"
#include "engine/rod-limits.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define SYSTEM                                                      \
  "{\"id\":\"s\",\"kind\":\"hollow\","                              \
  "\"boards\":[{\"id\":\"b\",\"cover_mm\":250,\"thickness_mm\":18," \
  "\"stock\":[{\"length_mm\":6000}],\"colours\":[{\"id\":\"white\"}]}]}"

#define HOUSE(surface)                                                                     \
  "{\"format\":\"storeyrod-house\",\"version\":1,\"systems\":[" SYSTEM "],\"surfaces\":[{" \
  "\"id\":\"n\",\"system\":\"s\"," surface "}]}"

#define RECTANGLE                                                                             \
  "\"outline\":[{\"x\":0,\"y\":0,\"edge\":\"base\"},{\"x\":4000,\"y\":0,\"edge\":\"right\"}," \
  "{\"x\":4000,\"y\":2400},{\"x\":0,\"y\":2400}]"

static const char *const code_names[] = {
  [ROD_FILE_ERROR_READ] = "READ",
  [ROD_FILE_ERROR_SYNTAX] = "SYNTAX",
  [ROD_FILE_ERROR_FORMAT] = "FORMAT",
  [ROD_FILE_ERROR_MEMBER] = "MEMBER",
  [ROD_FILE_ERROR_REFERENCE] = "REFERENCE",
  [ROD_FILE_ERROR_SHAPE] = "SHAPE",
};

/* One line of bad/expected.txt. */
static void
check_line (const char *line,
            GHashTable *listed)
{
  g_auto (GStrv) parts = g_strsplit (line, " | ", 3);
  g_autoptr (GError) error = NULL;

  g_test_message ("%s", line);
  g_assert_cmpuint (g_strv_length (parts), ==, 3);
  g_assert_null (rod_house_load (parts[0], &error));
  g_assert_nonnull (error);
  g_assert_true (error->domain == ROD_FILE_ERROR);
  g_assert_cmpstr (code_names[error->code], ==, parts[1]);
  g_assert_cmpstr (error->message, ==, parts[2]);
  g_assert_true (g_hash_table_add (listed, g_strdup (parts[0])));
}

static void
test_bad_files (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "engine", "bad", NULL);
  g_autoptr (GHashTable) listed = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  const char *name;

  g_assert_nonnull (dir);
  g_assert_no_errno (g_chdir (folder));
  g_assert_true (g_file_get_contents ("expected.txt", &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      if (*lines[i] != '#' && *lines[i] != '\0')
        check_line (lines[i], listed);
    }

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      if (g_str_has_suffix (name, ".json") && !g_hash_table_contains (listed, name))
        g_error ("bad/%s is not listed in bad/expected.txt", name);
    }
}

/* Near the mistakes, and right. */
static const char *const good_surfaces[] = {
  RECTANGLE,
  /* doors on the base line and from edge to edge */
  RECTANGLE ",\"openings\":[{\"id\":\"d\",\"x\":500,\"y\":0,\"width_mm\":900,\"height_mm\":2000}]",
  RECTANGLE ",\"openings\":[{\"id\":\"d\",\"x\":0,\"y\":0,\"width_mm\":900,\"height_mm\":2400}]",
  /* openings side by side and corner to corner */
  RECTANGLE ",\"openings\":[{\"id\":\"a\",\"x\":500,\"y\":0,\"width_mm\":900,\"height_mm\":900},"
            "{\"id\":\"b\",\"x\":1400,\"y\":0,\"width_mm\":900,\"height_mm\":900},"
            "{\"id\":\"c\",\"x\":2300,\"y\":900,\"width_mm\":900,\"height_mm\":900}]",
  /* less than the snap distance over the edge */
  RECTANGLE ",\"openings\":[{\"id\":\"d\",\"x\":500,\"y\":400.05,\"width_mm\":900,"
            "\"height_mm\":2000}]",
  /* a circle that touches an edge, a half-round arch */
  RECTANGLE ",\"openings\":[{\"id\":\"c\",\"shape\":\"circle\",\"x\":500,\"y\":500,"
            "\"width_mm\":1000}]",
  RECTANGLE ",\"openings\":[{\"id\":\"a\",\"shape\":\"arch\",\"x\":500,\"y\":500,"
            "\"width_mm\":1000,\"height_mm\":1000,\"rise_mm\":500}]",
  /* a polygon with an inward arc */
  RECTANGLE ",\"openings\":[{\"id\":\"p\",\"shape\":\"polygon\",\"corners\":[{\"x\":500,\"y\":500},"
            "{\"x\":1500,\"y\":500},{\"x\":1500,\"y\":1500,\"bulge\":-0.5},"
            "{\"x\":500,\"y\":1500}]}]",
  /* zones over the border, on each other, around everything */
  RECTANGLE ",\"zones\":[{\"id\":\"y\",\"corners\":[{\"x\":-500,\"y\":-500},{\"x\":900,\"y\":-500},"
            "{\"x\":900,\"y\":900}]},{\"id\":\"z\",\"corners\":[{\"x\":-9000,\"y\":-9000},"
            "{\"x\":9000,\"y\":-9000},{\"x\":0,\"y\":9000}]}]",
  /* the crescent: corners alone run clockwise, its arcs make it counter-clockwise */
  "\"outline\":[{\"x\":0,\"y\":0,\"bulge\":1},{\"x\":4000,\"y\":0,\"bulge\":-0.2},"
  "{\"x\":2000,\"y\":-300,\"bulge\":-0.2}]",
  /* an H, whose web is narrow */
  "\"outline\":[{\"x\":0,\"y\":0},{\"x\":1000,\"y\":0},{\"x\":1000,\"y\":990},"
  "{\"x\":2000,\"y\":990},{\"x\":2000,\"y\":0},{\"x\":3000,\"y\":0},"
  "{\"x\":3000,\"y\":2000},{\"x\":2000,\"y\":2000},"
  "{\"x\":2000,\"y\":1010},{\"x\":1000,\"y\":1010},{\"x\":1000,\"y\":2000},{\"x\":0,\"y\":2000}]",
  /* everything that may be left empty */
  RECTANGLE ",\"mark\":\"\",\"board\":\"\",\"colour\":\"\",\"mix\":[],\"openings\":[],\"zones\":[]",
};

static const char *const good_houses[] = {
  "{\"format\":\"storeyrod-house\",\"version\":1}",
  "{\"version\":1,\"format\":\"storeyrod-house\",\"systems\":[{\"id\":\"s\",\"from\":"
  "\"wide-panel\",\"name\":\"Mine\"}]}",
};

static void
test_good (void)
{
#define ONE_OF(i) HOUSE ("%s"), good_surfaces[i]
  for (guint i = 0; i < G_N_ELEMENTS (good_surfaces); i++)
    {
      g_autofree char *text = g_strdup_printf (ONE_OF (i));
      g_autoptr (GError) error = NULL;
      g_autoptr (RodHouse) house = rod_house_parse (text, -1, NULL, &error);

      g_assert_no_error (error);
      g_assert_cmpuint (house->surfaces->len, ==, 1);
    }
#undef ONE_OF
  for (guint i = 0; i < G_N_ELEMENTS (good_houses); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (RodHouse) house = rod_house_parse (good_houses[i], -1, NULL, &error);

      g_assert_no_error (error);
      g_assert_nonnull (house);
    }
}

static RodHouse *
parse_rectangle (void)
{
  g_autoptr (GError) error = NULL;
  RodHouse *house = rod_house_parse (HOUSE (RECTANGLE), -1, NULL, &error);

  g_assert_no_error (error);
  return house;
}

static void
assert_refused (const RodHouse *house,
                RodFileError    code,
                const char     *sentence)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (rod_house_check (house, &error));
  g_assert_error (error, ROD_FILE_ERROR, (int) code);
  g_assert_cmpstr (error->message, ==, sentence);
}

static void
test_numbers_in_code (void)
{
  g_autoptr (RodHouse) house = parse_rectangle ();
  RodSurface *surface = house->surfaces->pdata[0];
  RodCorner  *corner = surface->outline->pdata[2];

  g_assert_true (rod_house_check (house, NULL));

  corner->x = NAN;
  assert_refused (house,
                  ROD_FILE_ERROR_MEMBER,
                  "$.surfaces[0].outline[2].x: found NaN; allowed: a number from -1000000 to "
                  "1000000 mm");
  corner->x = INFINITY;
  assert_refused (house,
                  ROD_FILE_ERROR_MEMBER,
                  "$.surfaces[0].outline[2].x: found Infinity; allowed: a number from -1000000 "
                  "to 1000000 mm");
  corner->x = 4000;
  corner->bulge = -INFINITY;
  assert_refused (house,
                  ROD_FILE_ERROR_MEMBER,
                  "$.surfaces[0].outline[2].bulge: found -Infinity; allowed: a number from -1 "
                  "to 1");
  corner->bulge = 0;
  surface->build_up_mm = NAN;
  assert_refused (house,
                  ROD_FILE_ERROR_MEMBER,
                  "$.surfaces[0].build_up_mm: found NaN; allowed: a number from 0 to 1000 mm");
  surface->build_up_mm = 0;
  /* Not-a-number is how these say "not given". */
  surface->joint_line_mm = NAN;
  corner->clearance_mm = NAN;
  g_assert_true (rod_house_check (house, NULL));
}

static void
test_words_in_code (void)
{
  g_autoptr (RodHouse) house = parse_rectangle ();
  RodSurface *surface = house->surfaces->pdata[0];
  RodJoin    *join = rod_record_new (&rod_join_type);

  surface->kind = ROD_SURFACE_ANY;
  assert_refused (house,
                  ROD_FILE_ERROR_MEMBER,
                  "$.surfaces[0].kind: found -1; allowed: \"wall\", \"soffit\", \"reveal\"");
  surface->kind = ROD_SURFACE_WALL;

  rod_record_set_text (surface, G_STRUCT_OFFSET (RodSurface, name), "\xff");
  assert_refused (house,
                  ROD_FILE_ERROR_MEMBER,
                  "$.surfaces[0].name: found \"\xef\xbf\xbd\"; allowed: a text of at most 1000 "
                  "bytes of UTF-8");
  rod_record_set_text (surface, G_STRUCT_OFFSET (RodSurface, name), "");

  rod_record_set_text (join, G_STRUCT_OFFSET (RodJoin, id), "j");
  g_ptr_array_add (house->joins, join);
  assert_refused (house, ROD_FILE_ERROR_MEMBER, "$.joins[0].a: found nothing; allowed: an object");
}

static void
test_missing_record_in_code (void)
{
  g_autoptr (RodHouse) house = parse_rectangle ();

  rod_record_take_record (house, G_STRUCT_OFFSET (RodHouse, site), NULL);
  assert_refused (house, ROD_FILE_ERROR_MEMBER, "$.site: found nothing; allowed: an object");
}

static void
append_corner (GPtrArray *corners,
               double     x,
               double     y)
{
  RodCorner *corner = rod_record_new (&rod_corner_type);

  corner->x = x;
  corner->y = y;
  g_ptr_array_add (corners, corner);
}

/* A comb with as many corners as a list may hold, upright or lying: neither direction of teeth may
 * make the check slow (tests have a time limit). The last tooth can be made to touch. */
static RodHouse *
comb_house (gboolean is_lying,
            gboolean touches)
{
  RodHouse   *house = parse_rectangle ();
  RodSurface *surface = house->surfaces->pdata[0];
  GPtrArray  *corners = rod_record_list_new ();
  int         n_teeth = ROD_MAX_ITEMS / 4;

  for (int i = 0; i < n_teeth; i++)
    {
      double start = 50.0 * i;
      double depth = touches && i == n_teeth / 2 ? 0 : 1000;

      append_corner (corners, start, 0);
      append_corner (corners, start + 20, 0);
      append_corner (corners, start + 20, depth);
      append_corner (corners, start + 50, depth);
    }
  /* The last corner closes the comb over the backs of the teeth. */
  ((RodCorner *) corners->pdata[corners->len - 1])->y = 2000;
  ((RodCorner *) corners->pdata[corners->len - 2])->y = 2000;
  ((RodCorner *) corners->pdata[corners->len - 2])->x += 30;
  ((RodCorner *) corners->pdata[corners->len - 3])->x += 30;
  ((RodCorner *) corners->pdata[corners->len - 1])->x = 0;

  for (guint i = 0; is_lying && i < corners->len; i++)
    {
      RodCorner *corner = corners->pdata[i];
      double     x = corner->x;

      corner->x = -corner->y;
      corner->y = x;
    }
  rod_record_take_list (surface, G_STRUCT_OFFSET (RodSurface, outline), corners);
  return house;
}

static void
test_large_outlines (void)
{
  for (int is_lying = 0; is_lying < 2; is_lying++)
    {
      g_autoptr (RodHouse) simple = comb_house (is_lying, FALSE);
      g_autoptr (RodHouse) touching = comb_house (is_lying, TRUE);
      g_autoptr (GError) error = NULL;

      rod_house_check (simple, &error);
      g_assert_no_error (error);
      g_assert_false (rod_house_check (touching, &error));
      g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_SHAPE);
    }
}

/* Five thousand vents, then one of them moved onto its neighbour. */
static void
test_many_openings (void)
{
  g_autoptr (RodHouse) house = parse_rectangle ();
  RodSurface *surface = house->surfaces->pdata[0];

  for (int i = 0; i < 5000; i++)
    {
      RodOpening      *opening = rod_record_new (&rod_opening_type);
      g_autofree char *id = g_strdup_printf ("v%d", i);

      rod_record_set_text (opening, G_STRUCT_OFFSET (RodOpening, id), id);
      opening->x = 20 + 39.0 * (i % 100);
      opening->y = 20 + 47.0 * (i / 100);
      opening->width_mm = 20;
      opening->height_mm = 20;
      g_ptr_array_add (surface->openings, opening);
    }
  g_assert_true (rod_house_check (house, NULL));

  ((RodOpening *) surface->openings->pdata[4321])->x += 25;
  assert_refused (house,
                  ROD_FILE_ERROR_SHAPE,
                  "$.surfaces[0].openings[4321]: found an opening that overlaps opening "
                  "\"v4322\"; allowed: apart or touching. Move one, or make both one polygon.");
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/house-check/bad-files", test_bad_files);
  g_test_add_func ("/house-check/good", test_good);
  g_test_add_func ("/house-check/numbers-in-code", test_numbers_in_code);
  g_test_add_func ("/house-check/words-in-code", test_words_in_code);
  g_test_add_func ("/house-check/missing-record", test_missing_record_in_code);
  g_test_add_func ("/house-check/large-outlines", test_large_outlines);
  g_test_add_func ("/house-check/many-openings", test_many_openings);

  return g_test_run ();
}
