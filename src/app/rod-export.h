/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/**
 * rod_export_sheets_async:
 * @takeoff: what the sheets are made of
 * @file: where to write the PDF; need not be local
 * @cancellable: (nullable): a cancellable
 * @callback: called when done
 * @user_data: data for @callback
 *
 * Writes all sheets as PDF in a thread.
 */
void rod_export_sheets_async (RodTakeoff         *takeoff,
                              GFile              *file,
                              GCancellable       *cancellable,
                              GAsyncReadyCallback callback,
                              gpointer            user_data);

/**
 * rod_export_sheets_finish:
 * @result: result given to the callback
 * @error: return location for an error
 *
 * Returns: (transfer full): the file that is written, or %NULL on error
 */
GFile *rod_export_sheets_finish (GAsyncResult *result,
                                 GError      **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
