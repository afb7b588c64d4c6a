/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading and writing: what is written reads back as the same and in the same bytes, in every
 * locale, with what the program does not know; a save that fails leaves the old file as it was. */
#include "engine/files/rod-json.h"
#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

/* Deepest records and longest lists that random ones are made with. */
#define ROUNDS 150
#define MOST_ITEMS 3

static double
random_number (const RodMember *member)
{
  gboolean above = (member->flags & ROD_MEMBER_ABOVE_MIN) != 0;
  double   number = member->min + g_test_rand_double () * (member->max - member->min);

  /* What people type as often as any digits. */
  if (g_test_rand_bit ())
    number = trunc (number);
  if (number < member->min || (above && number <= member->min))
    return member->max;
  return number;
}

static char *
random_text (const RodMember *member)
{
  static const char *const any[] = {
    "Wall",
    "a, b; c",
    "Ünïcödé 😀",
    "\"quoted\" \\ back",
    "line\nfeed\ttab",
    "\x01\x7f",
    "1,5",
    "null",
    " ",
  };

  if (member->pattern != NULL)
    return g_strdup (g_str_has_prefix (member->pattern, "#") ? "#12aBcd" : "CHF");
  if ((member->flags & ROD_MEMBER_IDENTIFIER) != 0)
    return g_strdup_printf ("id-%d", g_test_rand_int_range (0, 10000));
  return g_strdup (any[g_test_rand_int_range (0, G_N_ELEMENTS (any))]);
}

static int
random_integer (const RodMember *member)
{
  int n = 0;

  if (member->kind == ROD_MEMBER_FLAG)
    return g_test_rand_bit ();
  if (member->kind == ROD_MEMBER_INTEGER)
    return g_test_rand_bit () ? (int) member->max : (int) member->min;

  while (member->choices[n].nick != NULL)
    n++;
  return member->choices[g_test_rand_int_range (0, n)].value;
}

static gpointer random_record (const RodType *type);

static GPtrArray *
random_list (const RodMember *member)
{
  RodMember  one = { .kind = ROD_MEMBER_TEXT, .flags = member->flags };
  gboolean   holds_texts = member->kind == ROD_MEMBER_TEXTS;
  GPtrArray *list = g_ptr_array_new_with_free_func (holds_texts ? g_free : rod_record_unref);
  guint      n = (guint) member->min + (guint) g_test_rand_int_range (0, MOST_ITEMS);

  for (guint i = 0; i < n; i++)
    {
      if (holds_texts)
        g_ptr_array_add (list, random_text (&one));
      else
        g_ptr_array_add (list, random_record (member->of));
    }
  return list;
}

static void
fill_member (const RodMember *member,
             gpointer         record)
{
  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      {
        g_autofree char *text = random_text (member);

        rod_record_set_text (record, member->offset, text);
        break;
      }
    case ROD_MEMBER_NUMBER:
      rod_member_set_number (member, record, random_number (member));
      break;
    case ROD_MEMBER_INTEGER:
    case ROD_MEMBER_FLAG:
    case ROD_MEMBER_CHOICE:
      rod_member_set_integer (member, record, random_integer (member));
      break;
    case ROD_MEMBER_RECORD:
      rod_record_take_record (record, member->offset, random_record (member->of));
      break;
    case ROD_MEMBER_LIST:
    case ROD_MEMBER_TEXTS:
      rod_record_take_list (record, member->offset, random_list (member));
      break;
    default:
      g_assert_not_reached ();
    }
}

static const char *const unknown_members[] = {
  "{ \"z-note\": \"kept\", \"x-list\": [1, 2.5, null, { \"x\": {} }] }\n",
  "{ \"length\": 1e+300, \"ünknown\": \"\\u0001\" }\n",
};

/* A record with every member anywhere within its limits, required ones always given. */
static gpointer
random_record (const RodType *type)
{
  RodRecord *record = rod_record_new (type);

  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      if ((member->flags & ROD_MEMBER_REQUIRED) != 0 || g_test_rand_bit ())
        fill_member (member, record);
    }
  if (g_test_rand_int_range (0, 4) == 0)
    {
      const char *unknown = unknown_members[g_test_rand_bit () ? 1 : 0];
      g_autoptr (JsonNode) node = rod_json_parse (unknown, -1, "$", NULL);
      g_autofree char *text = rod_json_text (node);

      record->extra = g_ref_string_new (text);
    }
  return record;
}

static char *
text_of (gconstpointer record)
{
  g_autoptr (JsonNode) node = rod_record_to_json (record);

  return rod_json_text (node);
}

static void
assert_record_round_trip (gconstpointer record)
{
  const RodType   *type = ((const RodRecord *) record)->type;
  g_autofree char *text = text_of (record);
  g_autoptr (GError) error = NULL;
  g_autoptr (JsonNode) node = rod_json_parse (text, -1, "$", &error);
  g_autoptr (RodRecord) again = NULL;
  g_autofree char *text_again = NULL;

  g_assert_no_error (error);
  again = rod_record_from_json (type, node, "$", &error);
  g_assert_no_error (error);
  text_again = text_of (again);
  g_assert_cmpstr (text_again, ==, text);
  g_assert_true (rod_record_equal (record, again));
}

static void
test_random_records_round_trip (void)
{
  for (int i = 0; i < ROUNDS; i++)
    {
      g_autoptr (RodRecord) house = random_record (&rod_house_type);

      assert_record_round_trip (house);
    }
}

static void
test_fallbacks_are_left_out (void)
{
  g_autoptr (RodHouse) house = rod_record_new (&rod_house_type);
  g_autofree char *text = NULL;

  text = text_of (house);
  g_assert_cmpstr (text, ==, "{ \"format\": \"storeyrod-house\", \"version\": 1 }\n");
}

static const char whole_house[] =
  "{\n"
  "  \"format\": \"storeyrod-house\",\n"
  "  \"version\": 1,\n"
  "  \"name\": \"Shed\",\n"
  "  \"site\": { \"fixing_c\": 7.5, \"weather\": \"rain\" },\n"
  "  \"systems\": [\n"
  "    {\n"
  "      \"id\": \"s\",\n"
  "      \"kind\": \"hollow\",\n"
  "      \"boards\": [\n"
  "        {\n"
  "          \"id\": \"b\",\n"
  "          \"cover_mm\": 250.1,\n"
  "          \"thickness_mm\": 18,\n"
  "          \"stock\": [\n"
  "            { \"length_mm\": 6000, \"shelf\": 3 }\n"
  "          ],\n"
  "          \"colours\": [\n"
  "            { \"id\": \"white\", \"gloss\": false }\n"
  "          ],\n"
  "          \"origin\": { \"country\": \"none\", \"year\": 2020.0 }\n"
  "        }\n"
  "      ],\n"
  "      \"zeta\": 1,\n"
  "      \"alpha\": 2\n"
  "    }\n"
  "  ],\n"
  "  \"surfaces\": [\n"
  "    {\n"
  "      \"id\": \"n\",\n"
  "      \"system\": \"s\",\n"
  "      \"outline\": [\n"
  "        { \"x\": 0, \"y\": 0, \"stone\": \"A\" },\n"
  "        { \"x\": 4000, \"y\": 0 },\n"
  "        { \"x\": 4000, \"y\": 2400.25, \"condition\": \"verge\" },\n"
  "        { \"x\": 0, \"y\": 2400 }\n"
  "      ],\n"
  "      \"photo\": \"n.jpg\"\n"
  "    }\n"
  "  ],\n"
  "  \"note\": \"call first\",\n"
  "  \"colour of the door\": null,\n"
  "  \"archive\": [\n"
  "    [1, 2],\n"
  "    [\"a\", 0.1]\n"
  "  ]\n"
  "}\n";

static void
test_unknown_members_survive (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) house = rod_house_parse (whole_house, -1, NULL, &error);
  g_autoptr (RodHouse) copy = NULL;
  g_autofree char *text = NULL;

  g_assert_no_error (error);
  text = text_of (house);
  g_assert_cmpstr (text, ==, whole_house);

  /* An edit keeps them too. */
  copy = rod_record_copy (house);
  rod_record_set_text (copy, G_STRUCT_OFFSET (RodHouse, name), "Barn");
  g_free (text);
  text = text_of (copy);
  g_assert_nonnull (strstr (text, "\"colour of the door\": null"));
  g_assert_nonnull (strstr (text, "\"stone\": \"A\""));
}

static void
test_order_of_members_does_not_matter (void)
{
  static const char turned[] =
    "{\"surfaces\":[],\"site\":{\"fixing_c\":3.0e0},\"version\":1,"
    "\"format\":\"storeyrod-house\"}";
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) house = rod_house_parse (turned, -1, NULL, &error);
  g_autofree char *text = NULL;

  g_assert_no_error (error);
  text = text_of (house);
  g_assert_cmpstr (text, ==, "{\n  \"format\": \"storeyrod-house\",\n  \"version\": 1,\n"
                             "  \"site\": { \"fixing_c\": 3 }\n}\n");
}

static char *
make_folder (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("storeyrod-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

/* Removes a folder of plain files. */
static void
remove_folder (const char *folder)
{
  GDir       *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_assert_no_errno (g_unlink (path));
    }
  g_dir_close (dir);
  g_assert_no_errno (g_rmdir (folder));
}

static RodHouse *
parse_whole_house (void)
{
  g_autoptr (GError) error = NULL;
  RodHouse *house = rod_house_parse (whole_house, -1, NULL, &error);

  g_assert_no_error (error);
  return house;
}

static void
assert_contents (const char *path,
                 const char *expected)
{
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_cmpstr (text, ==, expected);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
test_save_and_load (void)
{
  g_autoptr (RodHouse) house = parse_whole_house ();
  g_autoptr (RodHouse) again = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = make_folder ();
  g_autofree char *path = g_build_filename (folder, "shed.storeyrod", NULL);

  g_assert_true (rod_house_save (house, path, &error));
  g_assert_no_error (error);
  assert_contents (path, whole_house);
  again = rod_house_load (path, &error);
  g_assert_no_error (error);
  g_assert_true (rod_record_equal (house, again));

  /* Nothing else is left in the folder. */
  g_assert_true (rod_house_save (again, path, &error));
  g_assert_cmpuint (count_files (folder), ==, 1);
  remove_folder (folder);
}

static void
test_save_keeps_permissions (void)
{
  g_autoptr (RodHouse) house = parse_whole_house ();
  g_autofree char *folder = make_folder ();
  g_autofree char *path = g_build_filename (folder, "shed.storeyrod", NULL);
  static const int modes[] = { 0600, 0664, 0640 };
  GStatBuf         status;

  for (guint i = 0; i < G_N_ELEMENTS (modes); i++)
    {
      g_assert_true (g_file_set_contents (path, "old", -1, NULL));
      g_assert_no_errno (g_chmod (path, modes[i]));
      g_assert_true (rod_house_save (house, path, NULL));
      g_assert_no_errno (g_stat (path, &status));
      g_assert_cmpint (status.st_mode & 07777, ==, modes[i]);
      assert_contents (path, whole_house);
    }
  remove_folder (folder);
}

static void
test_save_follows_links (void)
{
  g_autoptr (RodHouse) house = parse_whole_house ();
  g_autofree char *folder = make_folder ();
  g_autofree char *path = g_build_filename (folder, "shed.storeyrod", NULL);
  g_autofree char *alias = g_build_filename (folder, "link.storeyrod", NULL);

  g_assert_true (g_file_set_contents (path, "old", -1, NULL));
  g_assert_no_errno (symlink ("shed.storeyrod", alias));
  g_assert_true (rod_house_save (house, alias, NULL));
  g_assert_true (g_file_test (alias, G_FILE_TEST_IS_SYMLINK));
  assert_contents (path, whole_house);
  remove_folder (folder);
}

/* What cannot be written must leave what is there: a folder that does not exist, a path that is a
 * folder, and a house that could not be opened again. */
static void
test_save_fails_whole (void)
{
  g_autoptr (RodHouse) house = parse_whole_house ();
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = make_folder ();
  g_autofree char *path = g_build_filename (folder, "shed.storeyrod", NULL);
  g_autofree char *nowhere = g_build_filename (folder, "none", "shed.storeyrod", NULL);

  g_assert_false (rod_house_save (house, nowhere, &error));
  g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_READ);
  g_clear_error (&error);
  g_assert_false (rod_house_save (house, folder, &error));
  g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_READ);
  g_clear_error (&error);
  g_assert_cmpuint (count_files (folder), ==, 0);

  g_assert_true (rod_house_save (house, path, NULL));
  house->site->fixing_c = NAN;
  g_assert_false (rod_house_save (house, path, &error));
  g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_MEMBER);
  assert_contents (path, whole_house);
  remove_folder (folder);
}

static void
test_load_fails (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = make_folder ();
  g_autofree char *path = g_build_filename (folder, "none.storeyrod", NULL);
  g_autofree char *sentence = g_strdup_printf ("\"%s\" cannot be read: %s. Check the path and its "
                                               "permissions.",
                                               path,
                                               g_strerror (ENOENT));

  g_assert_null (rod_house_load (path, &error));
  g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_READ);
  g_assert_cmpstr (error->message, ==, sentence);
  g_clear_error (&error);

  g_assert_null (rod_house_load (folder, &error));
  g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_READ);
  g_clear_error (&error);

  /* Without end: reading stops at the limit. */
  g_assert_null (rod_house_load ("/dev/zero", &error));
  g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_SYNTAX);
  remove_folder (folder);
}

static void
test_our_systems (void)
{
  static const char *const names[] = {
    "hollow-board",
    "solid-board",
    "timber-board",
    "wide-panel",
  };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *text = g_strdup_printf (
        "{\"format\":\"storeyrod-house\",\"version\":1,"
        "\"systems\":[{\"id\":\"mine\",\"from\":\"%s\",\"remark\":\"x\"}]}",
        names[i]);
      g_autoptr (GError) error = NULL;
      g_autoptr (RodHouse) house = rod_house_parse (text, -1, NULL, &error);
      const RodSystem *system;

      g_assert_no_error (error);
      system = house->systems->pdata[0];
      g_assert_cmpstr (system->id, ==, "mine");
      g_assert_cmpstr (system->from, ==, "");
      g_assert_cmpstr (system->format, ==, "");
      g_assert_cmpstr (system->name, !=, "");
      g_assert_nonnull (strstr (system->record.extra, "\"remark\": \"x\""));
      assert_record_round_trip (house);
    }
}

/* A system beside the house is read whole; the saved house stands on its own. */
static void
test_system_beside_the_house (void)
{
  static const char with_from[] =
    "{\"format\":\"storeyrod-house\",\"version\":1,"
    "\"systems\":[{\"id\":\"a\",\"from\":\"own.json\",\"name\":\"Ours\"},"
    "{\"id\":\"b\",\"from\":\"./own.json\"}]}";
  static const char own[] =
    "{\"format\":\"storeyrod-system\",\"version\":1,\"id\":\"own\",\"name\":\"Own\","
    "\"kind\":\"solid\",\"boards\":[{\"id\":\"b\",\"cover_mm\":180,\"thickness_mm\":20,"
    "\"stock\":[{\"length_mm\":4000}],\"colours\":[{\"id\":\"oak\"}]}]}";
  g_autofree char *folder = make_folder ();
  g_autofree char *path = g_build_filename (folder, "house.storeyrod", NULL);
  g_autofree char *own_path = g_build_filename (folder, "own.json", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) house = NULL;
  g_autoptr (RodHouse) alone = NULL;

  g_assert_true (g_file_set_contents (path, with_from, -1, NULL));
  g_assert_true (g_file_set_contents (own_path, own, -1, NULL));
  house = rod_house_load (path, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (rod_house_find_system (house, "a")->name, ==, "Ours");
  g_assert_cmpstr (rod_house_find_system (house, "b")->name, ==, "Own");
  g_assert_true (rod_house_save (house, path, &error));

  g_assert_no_errno (g_unlink (own_path));
  alone = rod_house_load (path, &error);
  g_assert_no_error (error);
  g_assert_true (rod_record_equal (house, alone));
  remove_folder (folder);
}

/* The houses that come with the program and those of the worked examples. */
static void
check_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint       n_houses = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (RodHouse) house = NULL;

      if (!g_str_has_suffix (name, ".storeyrod"))
        continue;
      g_test_message ("%s", name);
      house = rod_house_load (path, &error);
      g_assert_no_error (error);
      assert_record_round_trip (house);
      n_houses++;
    }
  g_assert_cmpuint (n_houses, >=, 3);
}

static void
test_examples (void)
{
  g_autofree char *examples = g_test_build_filename (G_TEST_DIST, "..", "examples", NULL);
  g_autofree char *worked = g_test_build_filename (G_TEST_DIST, "engine", "houses", NULL);

  check_folder (examples);
  check_folder (worked);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/house-file/random-records", test_random_records_round_trip);
  g_test_add_func ("/house-file/fallbacks-left-out", test_fallbacks_are_left_out);
  g_test_add_func ("/house-file/unknown-members", test_unknown_members_survive);
  g_test_add_func ("/house-file/order-of-members", test_order_of_members_does_not_matter);
  g_test_add_func ("/house-file/save-and-load", test_save_and_load);
  g_test_add_func ("/house-file/permissions", test_save_keeps_permissions);
  g_test_add_func ("/house-file/links", test_save_follows_links);
  g_test_add_func ("/house-file/save-fails", test_save_fails_whole);
  g_test_add_func ("/house-file/load-fails", test_load_fails);
  g_test_add_func ("/house-file/our-systems", test_our_systems);
  g_test_add_func ("/house-file/system-beside", test_system_beside_the_house);
  g_test_add_func ("/house-file/examples", test_examples);

  return g_test_run ();
}
