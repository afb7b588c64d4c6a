/* SPDX-License-Identifier: GPL-3.0-or-later */
/* replay ROUNDS FOLDER...: runs a fuzz target on every file of the folders, then on ROUNDS inputs
 * made from them by a few random changes each. The changes follow from a fixed seed, so that every
 * run does the same; libFuzzer, where there is one, searches further.
 */
#include "fuzz-target.h"

#include <glib.h>
#include <stdlib.h>
#include <string.h>

#define SEED 20240229
#define MOST_CHANGES 6

/* clang-format off */
/* Pieces that mean something in the formats we read. */
static const char *const pieces[] = {
  "{", "}", "[", "]", ",", ":", "\"", "\\", "\\u0000", "\\ud800", "null", "true", "NaN", "1e999",
  "-", "0", "-0", "1e-400", "9223372036854775808", "0.1", "-1000000", "1000000", "\xff", "\xc3",
  "\xef\xbb\xbf", "\"from\":\"hollow-board\",", "\"bulge\":1,", "\"shape\":\"circle\",",
};
/* clang-format on */

static void
insert_piece (GRand   *random,
              GString *input)
{
  guint at = (guint) g_rand_int_range (random, 0, (gint32) input->len + 1);
  guint n = (guint) g_rand_int_range (random, 0, G_N_ELEMENTS (pieces));

  g_string_insert (input, at, pieces[n]);
}

static void
flip_byte (GRand   *random,
           GString *input)
{
  if (input->len > 0)
    input->str[g_rand_int_range (random, 0, (gint32) input->len)] ^=
      (char) (1 << g_rand_int_range (random, 0, 8));
}

static void
remove_stretch (GRand   *random,
                GString *input)
{
  gint32 at = g_rand_int_range (random, 0, (gint32) input->len + 1);
  gint32 room = (gint32) input->len - at;
  gint32 length = g_rand_int_range (random, 0, 40);

  g_string_erase (input, at, MIN (room, length));
}

static void
repeat_stretch (GRand   *random,
                GString *input)
{
  gint32           at = g_rand_int_range (random, 0, (gint32) input->len + 1);
  gint32           to = g_rand_int_range (random, 0, (gint32) input->len + 1);
  gint32           length = g_rand_int_range (random, 0, 200);
  g_autofree char *stretch = g_strndup (input->str + at, (gsize) length);

  g_string_insert (input, to, stretch);
}

/* Changes one digit, which most often leaves a house that can be read and may not be built. */
static void
change_digit (GRand   *random,
              GString *input)
{
  gint32 at = g_rand_int_range (random, 0, (gint32) input->len + 1);

  while (at < (gint32) input->len && !g_ascii_isdigit (input->str[at]))
    at++;
  if (at < (gint32) input->len)
    input->str[at] = (char) g_rand_int_range (random, '0', '9' + 1);
}

static void
change (GRand   *random,
        GString *input)
{
  static void (*const ways[]) (GRand *, GString *) = {
    insert_piece,
    flip_byte,
    remove_stretch,
    repeat_stretch,
    change_digit,
    change_digit,
  };

  ways[g_rand_int_range (random, 0, G_N_ELEMENTS (ways))](random, input);
}

static void
run_on (const GString *input)
{
  LLVMFuzzerTestOneInput ((const uint8_t *) input->str, input->len);
}

static void
read_folder (const char *folder,
             GPtrArray  *seeds)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *bytes = NULL;
      gsize            length;

      if (!g_file_test (path, G_FILE_TEST_IS_REGULAR))
        continue;
      g_file_get_contents (path, &bytes, &length, &error);
      g_assert_no_error (error);
      g_ptr_array_add (seeds, g_string_new_len (bytes, (gssize) length));
    }
}

static int
compare_seeds (gconstpointer a,
               gconstpointer b)
{
  const GString *first = *(GString *const *) a;
  const GString *second = *(GString *const *) b;

  if (first->len != second->len)
    return first->len < second->len ? -1 : 1;
  return memcmp (first->str, second->str, first->len);
}

static void
free_seed (gpointer data)
{
  g_string_free (data, TRUE);
}

int
main (int   argc,
      char *argv[])
{
  g_autoptr (GPtrArray) seeds = g_ptr_array_new_with_free_func (free_seed);
  g_autoptr (GRand) random = g_rand_new_with_seed (SEED);
  guint64 n_rounds = argc > 2 ? g_ascii_strtoull (argv[1], NULL, 10) : 0;

  for (int i = 2; i < argc; i++)
    read_folder (argv[i], seeds);
  if (seeds->len == 0)
    {
      g_printerr ("Usage: %s ROUNDS FOLDER...\n", argv[0]);
      return EXIT_FAILURE;
    }

  /* A folder has no order of its own. */
  g_ptr_array_sort (seeds, compare_seeds);
  for (guint i = 0; i < seeds->len; i++)
    run_on (seeds->pdata[i]);

  for (guint64 round = 0; round < n_rounds; round++)
    {
      const GString *seed = seeds->pdata[round % seeds->len];
      GString       *input = g_string_new_len (seed->str, (gssize) seed->len);
      int            n_changes = g_rand_int_range (random, 1, MOST_CHANGES + 1);

      for (int i = 0; i < n_changes; i++)
        change (random, input);
      run_on (input);
      g_string_free (input, TRUE);
    }
  return EXIT_SUCCESS;
}
