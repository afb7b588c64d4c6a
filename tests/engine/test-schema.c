/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The published schemas say what the member tables say. "test-schema --update" rewrites them after
 * a table has changed; tests/checks/check-schemas.py holds them against real files. */
#include "engine/files/rod-file.h"

#include <string.h>

typedef struct
{
  const RodType *type;
  const char    *title;
  const char    *file_name;
} Published;

static const Published published[] = {
  { &rod_house_type, "Storeyrod house", "house.schema.json" },
  { &rod_system_type, "Storeyrod system", "system.schema.json" },
};

static gboolean is_update = FALSE;

static void
test_published (gconstpointer data)
{
  const Published *schema = data;
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "..", "docs", "schemas", NULL);
  g_autofree char *path = g_build_filename (folder, schema->file_name, NULL);
  g_autoptr (JsonNode) node = rod_type_schema (schema->type, schema->title);
  g_autofree char *text = rod_json_text (node);
  g_autofree char *found = NULL;
  g_autoptr (GError) error = NULL;

  if (is_update)
    g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
  g_file_get_contents (path, &found, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (found, ==, text);
}

static JsonObject *
object_at (JsonObject *object,
           const char *name)
{
  g_assert_true (json_object_has_member (object, name));
  return json_object_get_object_member (object, name);
}

static JsonObject *
property (JsonNode   *schema,
          const char *type,
          const char *name)
{
  JsonObject *definitions = object_at (json_node_get_object (schema), "$defs");

  return object_at (object_at (object_at (definitions, type), "properties"), name);
}

static void
test_rows_become_rules (void)
{
  g_autoptr (JsonNode) schema = rod_type_schema (&rod_house_type, "House");
  JsonObject *cover = property (schema, "board", "cover_mm");
  JsonObject *direction = property (schema, "surface", "direction_deg");
  JsonObject *pin = property (schema, "surface", "joint_line_mm");
  JsonObject *id = property (schema, "surface", "id");
  JsonObject *outline = property (schema, "surface", "outline");
  JsonObject *items = object_at (outline, "items");

  g_assert_cmpstr (json_object_get_string_member (cover, "type"), ==, "number");
  g_assert_cmpint (json_object_get_int_member (cover, "minimum"), ==, 20);
  g_assert_cmpint (json_object_get_int_member (cover, "maximum"), ==, 2000);
  g_assert_nonnull (strstr (json_object_get_string_member (cover, "description"), "Unit: mm."));
  g_assert_false (json_object_has_member (cover, "default"));

  g_assert_cmpint (json_object_get_int_member (direction, "exclusiveMinimum"), ==, -90);
  g_assert_false (json_object_has_member (direction, "minimum"));
  g_assert_cmpint (json_object_get_int_member (direction, "default"), ==, 0);

  /* What is not given is no number. */
  g_assert_false (json_object_has_member (pin, "default"));

  g_assert_cmpstr (json_object_get_string_member (id, "pattern"), ==, "^[A-Za-z0-9._-]+$");
  g_assert_cmpint (json_object_get_int_member (outline, "minItems"), ==, 3);
  g_assert_cmpstr (json_object_get_string_member (items, "$ref"), ==, "#/$defs/corner");
}

/* Every type and member that can stand in a house is described. */
static void
assert_described (JsonNode      *schema,
                  const RodType *type)
{
  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      JsonObject *rule = property (schema, type->name, member->name);

      g_assert_true (g_str_has_prefix (json_object_get_string_member (rule, "description"),
                                       member->doc));
      if (member->of != NULL)
        assert_described (schema, member->of);
    }
}

static void
test_nothing_is_left_out (void)
{
  g_autoptr (JsonNode) schema = rod_type_schema (&rod_house_type, "House");

  assert_described (schema, &rod_house_type);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  is_update = argc > 1 && g_str_equal (argv[1], "--update");

  for (guint i = 0; i < G_N_ELEMENTS (published); i++)
    {
      g_autofree char *path = g_strdup_printf ("/schema/published/%s", published[i].file_name);

      g_test_add_data_func (path, &published[i], test_published);
    }
  g_test_add_func ("/schema/rows-become-rules", test_rows_become_rules);
  g_test_add_func ("/schema/nothing-is-left-out", test_nothing_is_left_out);

  return g_test_run ();
}
