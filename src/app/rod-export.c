/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-export.h"

#include <glib/gstdio.h>

#include "sheets/rod-sheets.h"

typedef struct
{
  RodTakeoff *takeoff;
  GFile      *file;
} Export;

static void
export_free (gpointer data)
{
  Export *export = data;

  rod_takeoff_unref (export->takeoff);
  g_object_unref (export->file);
  g_free (export);
}

/* Files that are not local are written beside first and then copied over. */
static gboolean
write_elsewhere (Export *export,
                 const RodSheetOptions *options,
                 GCancellable          *cancellable,
                 GError               **error)
{
  g_autofree char *path = NULL;
  g_autoptr (GFile) local = NULL;
  gboolean done;
  int      fd = g_file_open_tmp ("storeyrod-XXXXXX.pdf", &path, error);

  if (fd < 0)
    return FALSE;

  g_close (fd, NULL);
  local = g_file_new_for_path (path);
  done = rod_sheets_write_pdf (export->takeoff, path, options, error) &&
         g_file_copy (local,
                      export->file,
                      G_FILE_COPY_OVERWRITE,
                      cancellable,
                      NULL,
                      NULL,
                      error);
  g_unlink (path);

  return done;
}

static void
export_in_thread (GTask        *task,
                  gpointer      source,
                  gpointer      data,
                  GCancellable *cancellable)
{
  Export *export = data;
  g_autofree char *path = g_file_get_path (export->file);
  g_autoptr (GError) error = NULL;
  RodSheetOptions options;
  gboolean        done;

  rod_sheet_options_init (&options);
  if (options.date == ROD_SHEETS_NO_DATE)
    options.date = g_get_real_time () / G_USEC_PER_SEC;

  if (path != NULL)
    done = rod_sheets_write_pdf (export->takeoff, path, &options, &error);
  else
    done = write_elsewhere (export, &options, cancellable, &error);

  if (done)
    g_task_return_pointer (task, g_object_ref (export->file), g_object_unref);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
rod_export_sheets_async (RodTakeoff         *takeoff,
                         GFile              *file,
                         GCancellable       *cancellable,
                         GAsyncReadyCallback callback,
                         gpointer            user_data)
{
  g_autoptr (GTask) task = NULL;
  Export *export;

  g_return_if_fail (takeoff != NULL);
  g_return_if_fail (G_IS_FILE (file));

  export = g_new0 (Export, 1);
  export->takeoff = rod_takeoff_ref (takeoff);
  export->file = g_object_ref (file);
  task = g_task_new (NULL, cancellable, callback, user_data);
  g_task_set_source_tag (task, rod_export_sheets_async);
  g_task_set_task_data (task, export, export_free);
  g_task_run_in_thread (task, export_in_thread);
}

GFile *
rod_export_sheets_finish (GAsyncResult *result,
                          GError      **error)
{
  g_return_val_if_fail (g_task_is_valid (result, NULL), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}
