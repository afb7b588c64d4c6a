/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-house.h"

#include <json-glib/json-glib.h>

G_BEGIN_DECLS

#define ROD_FILE_ERROR (rod_file_error_quark ())

/**
 * RodFileError:
 * @ROD_FILE_ERROR_READ: the file cannot be read or written
 * @ROD_FILE_ERROR_SYNTAX: not JSON, not UTF-8, nested too deep or too large
 * @ROD_FILE_ERROR_FORMAT: JSON, but of another format or a newer version
 * @ROD_FILE_ERROR_MEMBER: a member is missing, of the wrong kind or outside its limits
 * @ROD_FILE_ERROR_REFERENCE: an identifier is used twice or refers to nothing
 * @ROD_FILE_ERROR_SHAPE: an outline, opening or zone cannot be built
 */
typedef enum
{
  ROD_FILE_ERROR_READ,
  ROD_FILE_ERROR_SYNTAX,
  ROD_FILE_ERROR_FORMAT,
  ROD_FILE_ERROR_MEMBER,
  ROD_FILE_ERROR_REFERENCE,
  ROD_FILE_ERROR_SHAPE,
} RodFileError;

GQuark rod_file_error_quark (void);

/**
 * rod_house_load:
 * @path: path of a house file
 * @error: return location for an error
 *
 * Reads, checks and completes a house: systems that name a file are read in whole, from a path
 * beside the house or from the systems that come with the program.
 *
 * Fails with #RodFileError; the message names the place as a JSON path, such as
 * "$.surfaces[2].outline[0].x", what was found, what is allowed and what to do.
 *
 * Returns: (transfer full): a house that rod_plan_new() accepts, or %NULL on error
 */
RodHouse *rod_house_load (const char *path,
                          GError    **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_house_parse:
 * @text: JSON
 * @length: bytes, or -1 when zero-terminated
 * @folder: (nullable): where relative system files are looked for; %NULL allows only ours
 * @error: return location for an error
 *
 * As rod_house_load(), from memory.
 *
 * Returns: (transfer full): a house, or %NULL on error
 */
RodHouse *rod_house_parse (const char *text,
                           gssize      length,
                           const char *folder,
                           GError    **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_house_check:
 * @house: a house built in code
 * @error: return location for an error
 *
 * The checks of rod_house_load() on a house that did not come from a file.
 *
 * Returns: whether rod_plan_new() accepts it
 */
gboolean rod_house_check (const RodHouse *house,
                          GError        **error);

/**
 * rod_house_save:
 * @house: a house
 * @path: path to write
 * @error: return location for an error
 *
 * Checks the house as rod_house_check() does, so that what is saved can always be opened, and
 * writes atomically: either the whole new file is there afterwards or the old one untouched. The
 * same house gives the same bytes. Permissions of a file that was there are kept.
 *
 * Returns: whether it is written
 */
gboolean rod_house_save (const RodHouse *house,
                         const char     *path,
                         GError        **error);

/**
 * rod_record_to_json:
 * @record: a record
 *
 * Members at their fallback are left out, unknown ones are written back.
 *
 * Returns: (transfer full): a JSON object node
 */
JsonNode *rod_record_to_json (gconstpointer record) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_record_from_json:
 * @type: the type expected
 * @node: a JSON node
 * @path: where it stands, for messages, e.g. "$"
 * @error: return location for an error
 *
 * Returns: (transfer full): a record of @type with limits checked, or %NULL on error
 */
gpointer rod_record_from_json (const RodType *type,
                               JsonNode      *node,
                               const char    *path,
                               GError       **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_json_text:
 * @node: a JSON node
 *
 * Returns: (transfer full): two-space indented JSON with a line feed at the end, lists and objects
 *          of plain values on one line where they fit; the same node gives the same bytes in every
 *          locale
 */
char *rod_json_text (JsonNode *node) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_type_schema:
 * @type: a type
 * @title: title of the schema
 *
 * Returns: (transfer full): JSON Schema 2020-12 for files of @type, made from the member tables
 */
JsonNode *rod_type_schema (const RodType *type,
                           const char    *title) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
