/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-json-place.h"

G_BEGIN_DECLS

/**
 * rod_file_read:
 * @path: path of a file
 * @length: (out): bytes read
 * @error: return location for an error
 *
 * Reads a whole file, but no more than ROD_MAX_FILE_BYTES. Fails with %ROD_FILE_ERROR_READ or, when
 * it is larger, %ROD_FILE_ERROR_SYNTAX.
 *
 * Returns: (transfer full): its bytes, zero-terminated, or %NULL on error
 */
char *rod_file_read (const char *path,
                     gsize      *length,
                     GError    **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_file_check_format:
 * @type: type of a file, with a format
 * @root: root of the file
 * @place: place of @root
 * @error: return location for an error
 *
 * Fails with %ROD_FILE_ERROR_FORMAT when the file is of another format or a newer version.
 *
 * Returns: whether the file says that it is one that this program reads
 */
gboolean rod_file_check_format (const RodType      *type,
                                JsonNode           *root,
                                const RodJsonPlace *place,
                                GError            **error);

/**
 * rod_house_embed_systems:
 * @root: root of a house file; systems that name a file are replaced by what the file says
 * @folder: (nullable): where relative paths are looked for; %NULL allows only our systems
 * @error: return location for an error
 *
 * Returns: whether all systems are there now
 */
gboolean rod_house_embed_systems (JsonNode   *root,
                                  const char *folder,
                                  GError    **error);

G_END_DECLS
