/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * RodJsonStream:
 *
 * Writes JSON to a stream as it is told, so that a plan of a hundred houses needs no second copy in
 * memory. Members keep the order in which they are written. The first levels of nesting take a line
 * for each member, everything deeper stands on one line: a piece is a line that a text search finds
 * and a comparison of two plans shows. An error is kept until rod_json_stream_finish(); what is
 * written after it is ignored. Not shared between threads.
 */
typedef struct _RodJsonStream RodJsonStream;

/**
 * rod_json_stream_new:
 * @output: where to write; not closed
 * @levels: how many levels of nesting take a line for each member
 *
 * Returns: (transfer full): a stream
 */
RodJsonStream *rod_json_stream_new (GOutputStream *output,
                                    guint          levels) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_json_stream_open_object:
 * @json: a stream
 * @name: (nullable): name of the member, or %NULL for an element of an array and for the document
 *
 * Begins an object that lasts until rod_json_stream_close().
 */
void rod_json_stream_open_object (RodJsonStream *json,
                                  const char    *name);

/**
 * rod_json_stream_open_array:
 * @json: a stream
 * @name: (nullable): as in rod_json_stream_open_object()
 *
 * Begins an array that lasts until rod_json_stream_close().
 */
void rod_json_stream_open_array (RodJsonStream *json,
                                 const char    *name);

/**
 * rod_json_stream_close:
 * @json: a stream
 *
 * Ends the object or array begun last.
 */
void rod_json_stream_close (RodJsonStream *json);

/**
 * rod_json_stream_text:
 * @json: a stream
 * @name: (nullable): as in rod_json_stream_open_object()
 * @value: (nullable): UTF-8; %NULL is written as null
 */
void rod_json_stream_text (RodJsonStream *json,
                           const char    *name,
                           const char    *value);

/**
 * rod_json_stream_number:
 * @json: a stream
 * @name: (nullable): as in rod_json_stream_open_object()
 * @value: a number; null is written where it is not finite
 * @decimals: see rod_decimal_append()
 */
void rod_json_stream_number (RodJsonStream *json,
                             const char    *name,
                             double         value,
                             guint          decimals);

/**
 * rod_json_stream_integer:
 * @json: a stream
 * @name: (nullable): as in rod_json_stream_open_object()
 * @value: a whole number
 */
void rod_json_stream_integer (RodJsonStream *json,
                              const char    *name,
                              gint64         value);

/**
 * rod_json_stream_flag:
 * @json: a stream
 * @name: (nullable): as in rod_json_stream_open_object()
 * @value: true or false
 */
void rod_json_stream_flag (RodJsonStream *json,
                           const char    *name,
                           gboolean       value);

/**
 * rod_json_stream_finish:
 * @json: (transfer full): a stream whose document is closed
 * @error: return location for an error
 *
 * Writes what is still held back, with a line feed at the end, and frees it.
 *
 * Fails with the stream's first error.
 *
 * Returns: whether all of it is written
 */
gboolean rod_json_stream_finish (RodJsonStream *json,
                                 GError       **error);

G_END_DECLS
