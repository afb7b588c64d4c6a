/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON as text: what is read, what is refused (RFC 8259), and that writing is exact and the same in
 * every locale. */
#include "engine/files/rod-json.h"
#include "engine/rod-limits.h"

#include <locale.h>
#include <math.h>
#include <string.h>

static JsonNode *
parse (const char *text)
{
  g_autoptr (GError) error = NULL;
  JsonNode *node = rod_json_parse (text, -1, "$", &error);

  g_assert_no_error (error);
  return node;
}

static void
assert_refused (const char *text,
                gssize      length,
                const char *sentence)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (rod_json_parse (text, length, "$", &error));
  g_assert_error (error, ROD_FILE_ERROR, ROD_FILE_ERROR_SYNTAX);
  if (sentence != NULL)
    g_assert_cmpstr (error->message, ==, sentence);
}

/* Valid texts and how they are written back. */
static void
test_written_back (void)
{
  static const char *const cases[][2] = {
    { "{}", "{}\n" },
    { "[]", "[]\n" },
    { " [ ] ", "[]\n" },
    { "null", "null\n" },
    { "[true,false,null]", "[true, false, null]\n" },
    { "{\"b\":1,\"a\":2}", "{ \"b\": 1, \"a\": 2 }\n" },
    { "[1,-0,1.50,1e3,-2.5E-3,0.1,100000000000000000000.0]",
      "[1, 0, 1.5, 1000.0, -0.0025, 0.1, 1e+20]\n" },
    { "[9223372036854775807,-9223372036854775808]",
      "[9223372036854775807, -9223372036854775808]\n" },
    { "\"\\u00e9\\ud83d\\ude00\\n\\/\\\"\\\\\\u0007\"", "\"é😀\\n/\\\"\\\\\\u0007\"\n" },
    { "[[]]", "[\n  []\n]\n" },
    { "{\"a\":[1,2],\"b\":{\"c\":{}}}",
      "{\n  \"a\": [1, 2],\n  \"b\": {\n    \"c\": {}\n  }\n}\n" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (JsonNode) node = parse (cases[i][0]);
      g_autofree char *text = rod_json_text (node);
      g_autoptr (JsonNode) again = parse (text);
      g_autofree char *text_again = rod_json_text (again);

      g_assert_cmpstr (text, ==, cases[i][1]);
      g_assert_cmpstr (text_again, ==, text);
    }
}

static void
test_long_lists_are_broken (void)
{
  g_autoptr (GString) text = g_string_new ("[1");
  g_autoptr (JsonNode) node = NULL;
  g_autofree char *written = NULL;

  for (int i = 0; i < 40; i++)
    g_string_append (text, ", 100");
  g_string_append_c (text, ']');
  node = parse (text->str);
  written = rod_json_text (node);
  g_assert_true (g_str_has_prefix (written, "[\n  1,\n  100,\n"));
}

static void
test_refused (void)
{
  /* clang-format off */
  static const char *const cases[] = {
    "", " ", "{", "}", "[", "]", "[1", "[1,", "[1 2]", "[,1]", "{\"a\"}", "{\"a\":}",
    "{\"a\":1,}", "{a:1}", "{'a':1}", "{1:1}", "[1,]", "tru", "True", "nul", "nan", "NaN", "-",
    "+1", "01", "-01", "1.", ".5", "1e", "1e+", "0x10", "1_000", "1e400", "-1e400",
    "9223372036854775808", "-9223372036854775809", "\"", "\"a", "\"\\\"", "\"\\u12\"",
    "\"\\u12g4\"", "\"\\ud800\"", "\"\\udc00\"", "\"\\ud800\\u0041\"", "\"\\u0000\"", "\"\\x41\"",
    "\"a\nb\"", "\"a\x01\"", "{} {}", "1 1", "// x\n1", "/* x */ 1", "[1] # x",
    "{\"a\":1,\"a\":1}", "{\"\\u0061\":1,\"a\":1}",
  };
  /* clang-format on */

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_test_message ("%s", cases[i]);
      assert_refused (cases[i], -1, NULL);
    }
}

static void
test_places (void)
{
  assert_refused ("{\n  \"é\": [1, {\"b\": x}]\n}",
                  -1,
                  "$[\"é\"][1].b: line 2, column 18: found x where a value of JSON should stand.");
  assert_refused ("[1, 2",
                  -1,
                  "$: line 1, column 6: the file ends where a comma or the end of the list "
                  "should stand. Is it complete?");
  assert_refused ("[\xff]",
                  3,
                  "$: line 1, column 2: found a byte that is zero or not UTF-8. Save the file "
                  "as UTF-8.");
  assert_refused ("[1\0]",
                  4,
                  "$: line 1, column 3: found a byte that is zero or not UTF-8. Save the file "
                  "as UTF-8.");
}

/* The length counts, not a zero that may or may not follow. */
static void
test_length (void)
{
  char *text = g_strdup ("[12345]");
  g_autoptr (JsonNode) node = NULL;
  g_autofree char *exact = g_memdup2 ("[12]", 4);

  text[4] = '9';
  assert_refused (text, 3, NULL);
  g_free (text);
  node = rod_json_parse (exact, 4, "$", NULL);
  g_assert_nonnull (node);
}

static char *
nested (guint depth)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < depth; i++)
    g_string_append_c (text, '[');
  for (guint i = 0; i < depth; i++)
    g_string_append_c (text, ']');
  return g_string_free (text, FALSE);
}

static void
test_depth (void)
{
  g_autofree char *deepest = nested (ROD_MAX_DEPTH);
  g_autofree char *too_deep = nested (ROD_MAX_DEPTH + 1);
  g_autofree char *absurd = g_strnfill (1000000, '[');
  g_autofree char *brackets = g_strdup_printf ("[\"%s\"]", absurd);
  g_autoptr (JsonNode) node = parse (deepest);
  g_autoptr (JsonNode) text_node = parse (brackets);

  assert_refused (too_deep, -1, NULL);
  assert_refused (absurd, -1, NULL);
}

static void
test_counts (void)
{
  g_autoptr (GString) text = g_string_new ("[0");

  for (int i = 0; i < ROD_MAX_VALUES; i++)
    g_string_append (text, ",0");
  g_string_append_c (text, ']');
  assert_refused (text->str, (gssize) text->len, NULL);
}

static void
test_file_size (void)
{
  gsize            length = ROD_MAX_FILE_BYTES + 1;
  g_autofree char *text = g_strnfill (length, ' ');

  assert_refused (text, (gssize) length, "$: the file is larger than 64 MB. Is it the right one?");
}

static double
random_double (void)
{
  union
  {
    guint64 bits;
    double  number;
  } any;

  do
    any.bits = (guint64) (guint32) g_test_rand_int () << 32 | (guint32) g_test_rand_int ();
  while (!isfinite (any.number));
  return any.number;
}

static void
assert_round_trip (double number)
{
  g_autoptr (JsonNode) node = json_node_init_double (json_node_alloc (), number);
  g_autofree char *text = rod_json_text (node);
  g_autoptr (JsonNode) again = parse (text);

  g_assert_cmpint (json_node_get_value_type (again), ==, G_TYPE_DOUBLE);
  g_assert_cmpfloat (json_node_get_double (again), ==, number);
  g_assert_null (strchr (text, ','));
}

static void
test_numbers_round_trip (void)
{
  /* clang-format off */
  static const double hard[] = {
    0, 0.1, 1.0 / 3, 2.0 / 3, 1e21, 1e22, 123456789.123456789, 5e-324, 2.2250738585072011e-308,
    1.7976931348623157e308, 9007199254740993.0, 4503599627370497.5, 0.30000000000000004,
  };
  /* clang-format on */

  for (guint i = 0; i < G_N_ELEMENTS (hard); i++)
    assert_round_trip (hard[i]);
  for (int i = 0; i < 100000; i++)
    assert_round_trip (random_double ());
  /* Tenths and thousandths of millimetres, what people type. */
  for (int i = 0; i < 20000; i++)
    assert_round_trip (g_test_rand_int_range (-1000000000, 1000000000) / 1000.0);
}

static void
test_fewest_digits (void)
{
  static const struct
  {
    double      number;
    const char *text;
  } cases[] = {
    { 0.1, "0.1" },
    { 2400, "2400" },
    { 0.07, "0.07" },
    { 1.0 / 3, "0.3333333333333333" },
    { 0.30000000000000004, "0.30000000000000004" },
    { -1234567.875, "-1234567.875" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = rod_json_number (cases[i].number);

      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/json/written-back", test_written_back);
  g_test_add_func ("/json/long-lists", test_long_lists_are_broken);
  g_test_add_func ("/json/refused", test_refused);
  g_test_add_func ("/json/places", test_places);
  g_test_add_func ("/json/length", test_length);
  g_test_add_func ("/json/depth", test_depth);
  g_test_add_func ("/json/counts", test_counts);
  g_test_add_func ("/json/file-size", test_file_size);
  g_test_add_func ("/json/numbers-round-trip", test_numbers_round_trip);
  g_test_add_func ("/json/fewest-digits", test_fewest_digits);

  return g_test_run ();
}
