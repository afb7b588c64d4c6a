/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/**
 * RodJsonWriter:
 *
 * Writes JSON to a stream as it is told, so that a plan of a hundred houses needs no second copy in
 * memory. Members keep the order in which they are written. The first levels of nesting take a line
 * for each member, everything deeper stands on one line: a piece is a line that a text search finds
 * and a comparison of two plans shows. An error is kept until rod_json_writer_finish(); what is
 * written after it is ignored. Not shared between threads.
 */
typedef struct _RodJsonWriter RodJsonWriter;

/**
 * rod_json_writer_new:
 * @stream: where to write; not closed
 * @levels: how many levels of nesting take a line for each member
 *
 * Returns: (transfer full): a writer
 */
RodJsonWriter *rod_json_writer_new (GOutputStream *stream,
                                    guint          levels) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_json_writer_open_object:
 * @writer: a writer
 * @name: (nullable): name of the member, or %NULL for an element of an array and for the document
 *
 * Begins an object that lasts until rod_json_writer_close().
 */
void rod_json_writer_open_object (RodJsonWriter *writer,
                                  const char    *name);

/**
 * rod_json_writer_open_array:
 * @writer: a writer
 * @name: (nullable): as in rod_json_writer_open_object()
 *
 * Begins an array that lasts until rod_json_writer_close().
 */
void rod_json_writer_open_array (RodJsonWriter *writer,
                                 const char    *name);

/**
 * rod_json_writer_close:
 * @writer: a writer
 *
 * Ends the object or array begun last.
 */
void rod_json_writer_close (RodJsonWriter *writer);

/**
 * rod_json_writer_text:
 * @writer: a writer
 * @name: (nullable): as in rod_json_writer_open_object()
 * @value: (nullable): UTF-8; %NULL is written as null
 */
void rod_json_writer_text (RodJsonWriter *writer,
                           const char    *name,
                           const char    *value);

/**
 * rod_json_writer_number:
 * @writer: a writer
 * @name: (nullable): as in rod_json_writer_open_object()
 * @value: a number; null is written where it is not finite
 * @decimals: see rod_decimal_append()
 */
void rod_json_writer_number (RodJsonWriter *writer,
                             const char    *name,
                             double         value,
                             guint          decimals);

/**
 * rod_json_writer_integer:
 * @writer: a writer
 * @name: (nullable): as in rod_json_writer_open_object()
 * @value: a whole number
 */
void rod_json_writer_integer (RodJsonWriter *writer,
                              const char    *name,
                              gint64         value);

/**
 * rod_json_writer_flag:
 * @writer: a writer
 * @name: (nullable): as in rod_json_writer_open_object()
 * @value: true or false
 */
void rod_json_writer_flag (RodJsonWriter *writer,
                           const char    *name,
                           gboolean       value);

/**
 * rod_json_writer_finish:
 * @writer: (transfer full): a writer whose document is closed
 * @error: return location for an error
 *
 * Writes what is still held back, with a line feed at the end, and frees the writer.
 *
 * Fails with the stream's first error.
 *
 * Returns: whether all of it is written
 */
gboolean rod_json_writer_finish (RodJsonWriter *writer,
                                 GError       **error);

G_END_DECLS
