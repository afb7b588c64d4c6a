/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files on disk. Whatever the format, a file is written beside its place under a name of its own
 * and then moved there, so that a reader never meets half of it and a failure leaves the old one
 * alone. A device or a pipe must not be replaced by a file: the bytes are copied into it.
 */
#include "config.h"

#include "cli/rod-output.h"

#include "cli/rod-columns.h"
#include "engine/files/rod-lists.h"
#include "engine/files/rod-plan-file.h"
#include "sheets/rod-sheets.h"
#include "sheets/rod-svg.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>
#include <stdio.h>
#include <string.h>

G_DEFINE_QUARK (rod - output - error - quark, rod_output_error)

#define WHERE_INDENT 12

typedef struct
{
  RodTakeoff *takeoff;
  guint       face;
  RodList     list;
} Job;

typedef gboolean (*WriteFile) (const Job  *job,
                               const char *path,
                               GError    **error);

static void
set_error (GError    **error,
           const char *path,
           const char *reason)
{
  g_set_error (error,
               ROD_OUTPUT_ERROR,
               ROD_OUTPUT_ERROR_WRITE,
               /* Translators: path, reason. */
               _ ("%s: cannot be written: %s"),
               path,
               reason);
}

static gboolean
fail_with_errno (GError    **error,
                 const char *path,
                 int         code)
{
  set_error (error, path, g_strerror (code));
  return FALSE;
}

static gboolean
make_folder (const char *path,
             GError    **error)
{
  return g_mkdir_with_parents (path, 0777) == 0 || fail_with_errno (error, path, errno);
}

static gboolean
make_folder_of (const char *path,
                GError    **error)
{
  g_autofree char *folder = g_path_get_dirname (path);

  return make_folder (folder, error);
}

/* A name beside @path that nothing has yet. */
static char *
new_name_beside (const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *name = g_path_get_basename (path);

  for (;;)
    {
      g_autofree char *hidden = g_strdup_printf (".%s.%08x", name, g_random_int ());
      g_autofree char *beside = g_build_filename (folder, hidden, NULL);

      if (!g_file_test (beside, G_FILE_TEST_EXISTS))
        return g_steal_pointer (&beside);
    }
}

/* Finds out early, and in the system's words, whether a file can be made there. */
static gboolean
make_empty_file (const char *path)
{
  FILE *file = g_fopen (path, "wb");

  return file != NULL && fclose (file) == 0;
}

/* Says why @path cannot be written where the reason may speak of the file beside it. */
static void
set_reason (GError      **error,
            const char   *path,
            const char   *beside,
            const GError *reason)
{
  g_autofree char *hidden = g_path_get_basename (beside);
  g_autofree char *name = g_path_get_basename (path);
  g_autoptr (GString) message = g_string_new (reason->message);

  g_string_replace (message, hidden, name, 0);
  set_error (error, path, message->str);
}

static gboolean
move_file (const char *from,
           const char *to,
           GError    **error)
{
  return g_rename (from, to) == 0 || fail_with_errno (error, to, errno);
}

static gboolean
copy_file (const char *from,
           const char *to,
           GError    **error)
{
  g_autofree char *bytes = NULL;
  gsize            length;
  FILE            *file;
  gboolean         copied;

  if (!g_file_get_contents (from, &bytes, &length, error))
    return FALSE;
  file = g_fopen (to, "wb");
  if (file == NULL)
    return fail_with_errno (error, to, errno);
  copied = fwrite (bytes, 1, length, file) == length;
  copied = fclose (file) == 0 && copied;
  return copied || fail_with_errno (error, to, errno);
}

static gboolean
write_file (const char *path,
            WriteFile   write,
            const Job  *job,
            GError    **error)
{
  gboolean         exists = g_file_test (path, G_FILE_TEST_EXISTS);
  gboolean         replace = !exists || g_file_test (path, G_FILE_TEST_IS_REGULAR);
  g_autofree char *scratch = g_build_filename (g_get_tmp_dir (), "storeyrod-plan", NULL);
  g_autofree char *beside = NULL;
  g_autoptr (GError) reason = NULL;
  gboolean written;

  if (g_file_test (path, G_FILE_TEST_IS_DIR))
    return fail_with_errno (error, path, EISDIR);
  beside = new_name_beside (replace ? path : scratch);
  if (!make_empty_file (beside))
    return fail_with_errno (error, path, errno);

  written = write (job, beside, &reason);
  if (!written)
    set_reason (error, path, beside, reason);
  else
    written = replace ? move_file (beside, path, error) : copy_file (beside, path, error);
  if (!written || !replace)
    g_unlink (beside);
  return written;
}

/* The formats */

static gboolean
write_sheets (const Job  *job,
              const char *path,
              GError    **error)
{
  return rod_sheets_write_pdf (job->takeoff, path, NULL, error);
}

static gboolean
write_drawing (const Job  *job,
               const char *path,
               GError    **error)
{
  return rod_sheets_write_svg (job->takeoff->plan, job->face, path, error);
}

static GOutputStream *
open_stream (const char *path,
             GError    **error)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);

  return G_OUTPUT_STREAM (g_file_append_to (file, G_FILE_CREATE_NONE, NULL, error));
}

static gboolean
write_plan (const Job  *job,
            const char *path,
            GError    **error)
{
  g_autoptr (GOutputStream) stream = open_stream (path, error);

  return stream != NULL && rod_plan_write (job->takeoff, stream, error) &&
         g_output_stream_close (stream, NULL, error);
}

static gboolean
write_list (const Job  *job,
            const char *path,
            GError    **error)
{
  g_autofree char *text = rod_list_text (job->takeoff, job->list);
  g_autoptr (GOutputStream) stream = open_stream (path, error);

  return stream != NULL &&
         g_output_stream_write_all (stream, text, strlen (text), NULL, NULL, error) &&
         g_output_stream_close (stream, NULL, error);
}

/* What is asked for */

static void
say_where (GString    *where,
           const char *what,
           const char *path)
{
  g_autofree char *shown = g_filename_display_name (path);
  g_autofree char *label = g_strconcat ("  ", what, NULL);

  rod_columns_pad (where, label, WHERE_INDENT);
  g_string_append_printf (where, "%s\n", shown);
}

static gboolean
output_sheets (const RodCommand *command,
               Job              *job,
               GString          *where,
               GError          **error)
{
  if (command->sheets == NULL)
    return TRUE;
  if (!make_folder_of (command->sheets, error) ||
      !write_file (command->sheets, write_sheets, job, error))
    return FALSE;
  say_where (where, _ ("Sheets"), command->sheets);
  return TRUE;
}

/* Marks become file names: what could be a folder, a hidden file or an option is replaced. */
static char *
drawing_name (GHashTable *taken,
              const char *mark)
{
  g_autofree char *safe = g_strdup (mark);
  char            *name;

  g_strdelimit (safe, "/\\:*?\"<>| ", '_');
  if (*safe == '\0' || *safe == '.' || *safe == '-')
    {
      g_autofree char *unsafe = g_steal_pointer (&safe);

      safe = g_strconcat ("_", unsafe, NULL);
    }
  name = g_strconcat (safe, ".svg", NULL);
  for (guint i = 2;; i++)
    {
      /* Some disks do not tell capitals from small letters. */
      if (g_hash_table_add (taken, g_utf8_casefold (name, -1)))
        return name;
      g_free (name);
      name = g_strdup_printf ("%s-%u.svg", safe, i);
    }
}

/* Takes away drawings of this house that were not written now: of surfaces that it no longer has.
 */
static gboolean
remove_old_drawings (const char *folder,
                     GHashTable *taken,
                     const Job  *job,
                     GError    **error)
{
  g_autoptr (GDir) entries = g_dir_open (folder, 0, error);
  const char *name;

  while (entries != NULL && (name = g_dir_read_name (entries)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *key = g_utf8_validate (name, -1, NULL) ? g_utf8_casefold (name, -1) : NULL;

      if (key == NULL || !g_str_has_suffix (name, ".svg") || g_hash_table_contains (taken, key) ||
          g_file_test (path, G_FILE_TEST_IS_SYMLINK) ||
          !g_file_test (path, G_FILE_TEST_IS_REGULAR) ||
          !rod_sheets_owns_svg (job->takeoff->plan, path))
        continue;
      if (g_unlink (path) != 0)
        {
          int code = errno;

          g_set_error (error,
                       ROD_OUTPUT_ERROR,
                       ROD_OUTPUT_ERROR_WRITE,
                       /* Translators: path, reason. */
                       _ ("%s: cannot be removed: %s"),
                       path,
                       g_strerror (code));
          return FALSE;
        }
    }
  return entries != NULL;
}

static gboolean
output_drawings (const RodCommand *command,
                 Job              *job,
                 GString          *where,
                 GError          **error)
{
  g_autoptr (GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  const RodPlan *plan = job->takeoff->plan;

  if (command->svg == NULL)
    return TRUE;
  if (!make_folder (command->svg, error))
    return FALSE;
  for (job->face = 0; job->face < plan->faces->len; job->face++)
    {
      g_autofree char *name = drawing_name (taken, rod_plan_face (plan, job->face)->mark);
      g_autofree char *path = g_build_filename (command->svg, name, NULL);

      if (!write_file (path, write_drawing, job, error))
        return FALSE;
    }
  if (!remove_old_drawings (command->svg, taken, job, error))
    return FALSE;
  say_where (where, _ ("Drawings"), command->svg);
  return TRUE;
}

static gboolean
output_lists (const RodCommand *command,
              Job              *job,
              GString          *where,
              GError          **error)
{
  if (command->lists == NULL)
    return TRUE;
  if (!make_folder (command->lists, error))
    return FALSE;
  for (job->list = 0; job->list < ROD_N_LISTS; job->list++)
    {
      g_autofree char *name = g_strconcat (rod_list_name (job->list), ".csv", NULL);
      g_autofree char *path = g_build_filename (command->lists, name, NULL);

      if (!write_file (path, write_list, job, error))
        return FALSE;
    }
  say_where (where, _ ("Lists"), command->lists);
  return TRUE;
}

static gboolean
output_plan (const RodCommand *command,
             Job              *job,
             GString          *where,
             GError          **error)
{
  if (command->plan == NULL || g_str_equal (command->plan, "-"))
    return TRUE;
  if (!make_folder_of (command->plan, error) ||
      !write_file (command->plan, write_plan, job, error))
    return FALSE;
  say_where (where, _ ("Plan"), command->plan);
  return TRUE;
}

char *
rod_output_write (const RodCommand *command,
                  RodTakeoff       *takeoff,
                  GError          **error)
{
  g_autoptr (GString) where = g_string_new (NULL);
  Job job = { .takeoff = takeoff };

  g_return_val_if_fail (command != NULL, NULL);
  g_return_val_if_fail (takeoff != NULL, NULL);

  if (!output_sheets (command, &job, where, error) ||
      !output_drawings (command, &job, where, error) ||
      !output_lists (command, &job, where, error) ||
      !output_plan (command, &job, where, error))
    return NULL;
  return g_strdup (where->str);
}

gboolean
rod_output_print_plan (const RodTakeoff *takeoff,
                       GError          **error)
{
  g_autoptr (GOutputStream) stream = g_memory_output_stream_new_resizable ();
  GMemoryOutputStream *memory = G_MEMORY_OUTPUT_STREAM (stream);
  gsize                size;

  g_return_val_if_fail (takeoff != NULL, FALSE);

  if (!rod_plan_write (takeoff, stream, error))
    return FALSE;
  size = g_memory_output_stream_get_data_size (memory);
  if (fwrite (g_memory_output_stream_get_data (memory), 1, size, stdout) == size &&
      fflush (stdout) == 0)
    return TRUE;
  return fail_with_errno (error, _ ("standard output"), errno);
}
