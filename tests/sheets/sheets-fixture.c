/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "sheets-fixture.h"

#include <string.h>

#include <glib/gstdio.h>

#include "engine/files/rod-file.h"

static void
plan_house (Job      *job,
            RodHouse *house)
{
  job->plan = rod_plan_new (house);
  job->takeoff = rod_takeoff_new (job->plan, NULL);
  rod_record_unref (house);
}

void
job_init_worked (Job        *job,
                 const char *name)
{
  g_autofree char *file = g_strconcat (name, ".storeyrod", NULL);
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "engine", "houses", file, NULL);
  g_autoptr (GError) error = NULL;
  RodHouse *house = rod_house_load (path, &error);

  g_assert_no_error (error);
  plan_house (job, house);
}

static void
append_json_string (GString    *json,
                    const char *text)
{
  g_string_append_c (json, '"');
  for (const char *c = text; *c != '\0'; c++)
    {
      if (*c == '"' || *c == '\\')
        g_string_append_c (json, '\\');
      g_string_append_c (json, *c);
    }
  g_string_append_c (json, '"');
}

static void
append_number (GString *json,
               double   value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append (json, g_ascii_dtostr (text, sizeof text, value));
}

static void
append_corner (GString    *json,
               double      x,
               double      y,
               const char *condition)
{
  g_string_append (json, "{\"x\": ");
  append_number (json, x);
  g_string_append (json, ", \"y\": ");
  append_number (json, y);
  g_string_append_printf (json, ", \"condition\": \"%s\"}", condition);
}

void
job_init_wall (Job        *job,
               double      width_mm,
               double      height_mm,
               const char *units,
               const char *name)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "engine", "houses", NULL);
  g_autoptr (GString) json =
    g_string_new ("{\"format\": \"storeyrod-house\", \"version\": 1, \"name\": ");
  g_autoptr (GError) error = NULL;
  RodHouse *house;

  append_json_string (json, name);
  g_string_append_printf (json, ", \"units\": \"%s\", ", units);
  g_string_append (json,
                   "\"systems\": [{\"id\": \"k\", \"from\": \"k-250.system.json\"}], "
                   "\"surfaces\": [{\"id\": \"wall\", \"mark\": \"A\", \"name\": ");
  append_json_string (json, name);
  g_string_append (json, ", \"kind\": \"wall\", \"system\": \"k\", \"outline\": [");
  append_corner (json, 0, 0, "base");
  g_string_append (json, ", ");
  append_corner (json, width_mm, 0, "side-stop");
  g_string_append (json, ", ");
  append_corner (json, width_mm, height_mm, "top");
  g_string_append (json, ", ");
  append_corner (json, 0, height_mm, "side-stop");
  g_string_append (json, "]");
  if (width_mm > 3000 && height_mm > 2400)
    g_string_append (json,
                     ", \"openings\": [{\"id\": \"w1\", \"kind\": \"window\", \"x\": 1000, "
                     "\"y\": 900, \"width_mm\": 1200, \"height_mm\": 1300}]");
  g_string_append (json, "}]}");

  house = rod_house_parse (json->str, -1, folder, &error);
  g_assert_no_error (error);
  plan_house (job, house);
}

void
job_clear (Job *job)
{
  rod_takeoff_unref (job->takeoff);
  rod_plan_unref (job->plan);
}

cairo_t *
recording_new (void)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t         *cr = cairo_create (surface);

  cairo_surface_destroy (surface);

  return cr;
}

void
recording_extent (cairo_t *cr,
                  double  *x,
                  double  *y,
                  double  *width,
                  double  *height)
{
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_recording_surface_ink_extents (cairo_get_target (cr), x, y, width, height);
}

char *
folder_new (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("storeyrod-XXXXXX", &error);

  g_assert_no_error (error);

  return folder;
}

void
folder_remove (char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_free (folder);
}
