/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-json-place.h"

G_BEGIN_DECLS

/**
 * rod_record_id:
 * @record: a record
 *
 * Returns: (transfer none) (nullable): its identifier, %NULL when its type has none
 */
const char *rod_record_id (gconstpointer record);

/**
 * rod_check_id_is_new:
 * @ids: identifiers so far, a set
 * @id: one more; it must outlive @ids
 * @place: where it stands
 * @error: return location for an error
 *
 * Fails with %ROD_FILE_ERROR_REFERENCE when @ids holds @id already.
 *
 * Returns: whether it was new; it is in @ids now
 */
gboolean rod_check_id_is_new (GHashTable         *ids,
                              const char         *id,
                              const RodJsonPlace *place,
                              GError            **error);

/**
 * rod_check_ids:
 * @record: a record
 * @place: its place
 * @error: return location for an error
 *
 * Fails with %ROD_FILE_ERROR_REFERENCE when two records of one list, at any depth, have the same
 * identifier.
 *
 * Returns: whether identifiers are used once
 */
gboolean rod_check_ids (gconstpointer       record,
                        const RodJsonPlace *place,
                        GError            **error);

/**
 * rod_refuse_reference:
 * @id: the identifier that nothing has
 * @targets: (element-type RodRecord): what it might have referred to
 * @kind: what they are, a noun
 * @place: where it stands
 * @error: return location for an error
 *
 * Sets a %ROD_FILE_ERROR_REFERENCE that lists the first identifiers there are.
 *
 * Returns: %FALSE, for the caller to return
 */
gboolean rod_refuse_reference (const char         *id,
                               const GPtrArray    *targets,
                               const char         *kind,
                               const RodJsonPlace *place,
                               GError            **error);

/**
 * rod_check_reference:
 * @id: an identifier, "" for none
 * @targets: (element-type RodRecord): what it may refer to
 * @kind: what they are, a noun
 * @place: place of the object that refers
 * @member: name of the member that refers
 * @error: return location for an error
 *
 * Returns: whether @id is "" or the identifier of one of @targets
 */
gboolean rod_check_reference (const char         *id,
                              const GPtrArray    *targets,
                              const char         *kind,
                              const RodJsonPlace *place,
                              const char         *member,
                              GError            **error);

G_END_DECLS
