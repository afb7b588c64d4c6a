/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "engine/files/rod-json-stream.h"

#include <json-glib/json-glib.h>
#include <math.h>

static char *
finish (RodJsonStream *json,
        GOutputStream *output)
{
  g_autoptr (GError) error = NULL;
  gboolean written = rod_json_stream_finish (json, &error);

  g_assert_no_error (error);
  g_assert_true (written);
  g_output_stream_write_all (output, "", 1, NULL, NULL, &error);
  g_assert_no_error (error);
  g_output_stream_close (output, NULL, &error);
  g_assert_no_error (error);
  return g_memory_output_stream_steal_data (G_MEMORY_OUTPUT_STREAM (output));
}

static void
test_layout (void)
{
  g_autoptr (GOutputStream) output = g_memory_output_stream_new_resizable ();
  RodJsonStream   *json = rod_json_stream_new (output, 2);
  g_autofree char *text = NULL;

  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "name", "a \"b\" \\ \n ö");
  rod_json_stream_open_array (json, "rows");
  rod_json_stream_open_object (json, NULL);
  rod_json_stream_number (json, "x", 1.25, 3);
  rod_json_stream_open_array (json, "of");
  rod_json_stream_integer (json, NULL, -7);
  rod_json_stream_flag (json, NULL, TRUE);
  rod_json_stream_flag (json, NULL, FALSE);
  rod_json_stream_number (json, NULL, INFINITY, 3);
  rod_json_stream_text (json, NULL, NULL);
  rod_json_stream_close (json);
  rod_json_stream_close (json);
  rod_json_stream_open_object (json, NULL);
  rod_json_stream_close (json);
  rod_json_stream_close (json);
  rod_json_stream_open_array (json, "none");
  rod_json_stream_close (json);
  rod_json_stream_close (json);
  text = finish (json, output);
  g_assert_cmpstr (text, ==, "{\n"
                             "  \"name\": \"a \\\"b\\\" \\\\ \\u000a ö\",\n"
                             "  \"rows\": [\n"
                             "    {\"x\": 1.25, \"of\": [-7, true, false, null, null]},\n"
                             "    {}\n"
                             "  ],\n"
                             "  \"none\": []\n"
                             "}\n");
}

/* More than one block, read by an independent reader. */
static void
test_blocks (void)
{
  enum
  {
    N_TEXTS = 20000
  };
  g_autoptr (GOutputStream) output = g_memory_output_stream_new_resizable ();
  g_autoptr (JsonParser) parser = json_parser_new ();
  g_autoptr (GError) error = NULL;
  RodJsonStream   *json = rod_json_stream_new (output, 1);
  g_autofree char *text = NULL;
  JsonArray       *array;

  rod_json_stream_open_array (json, NULL);
  for (int i = 0; i < N_TEXTS; i++)
    {
      g_autofree char *value = g_strdup_printf ("%d \"%c\"", i, 1 + i % 31);

      rod_json_stream_text (json, NULL, value);
    }
  rod_json_stream_close (json);
  text = finish (json, output);
  json_parser_load_from_data (parser, text, -1, &error);
  g_assert_no_error (error);
  array = json_node_get_array (json_parser_get_root (parser));
  g_assert_cmpuint (json_array_get_length (array), ==, N_TEXTS);
  for (int i = 0; i < N_TEXTS; i++)
    {
      g_autofree char *value = g_strdup_printf ("%d \"%c\"", i, 1 + i % 31);

      g_assert_cmpstr (json_array_get_string_element (array, (guint) i), ==, value);
    }
}

/* A stream that takes no more than a page: the disk is full. */
static void
test_full (void)
{
  char page[4096];
  g_autoptr (GOutputStream) output = g_memory_output_stream_new (page, sizeof page, NULL, NULL);
  g_autoptr (GError) error = NULL;
  RodJsonStream *json = rod_json_stream_new (output, 1);
  gboolean       written;

  rod_json_stream_open_array (json, NULL);
  for (int i = 0; i < 100000; i++)
    rod_json_stream_integer (json, NULL, i);
  rod_json_stream_close (json);
  written = rod_json_stream_finish (json, &error);
  g_assert_false (written);
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_NO_SPACE);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json-stream/layout", test_layout);
  g_test_add_func ("/json-stream/blocks", test_blocks);
  g_test_add_func ("/json-stream/full", test_full);
  return g_test_run ();
}
