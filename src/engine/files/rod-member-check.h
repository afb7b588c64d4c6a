/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-json-place.h"

G_BEGIN_DECLS

/**
 * rod_member_greatest:
 * @member: a row
 *
 * Returns: greatest number, count or length of the member, general limits included
 */
double rod_member_greatest (const RodMember *member);

/**
 * rod_member_refuse:
 * @member: a row
 * @found: what was found instead
 * @place: place of the member
 * @error: return location for an error
 *
 * Sets a %ROD_FILE_ERROR_MEMBER that says what was found and what the row allows.
 *
 * Returns: %FALSE, for the caller to return
 */
gboolean rod_member_refuse (const RodMember    *member,
                            const char         *found,
                            const RodJsonPlace *place,
                            GError            **error);

/**
 * rod_member_check:
 * @member: a row
 * @record: a record of its type
 * @place: place of the member
 * @error: return location for an error
 *
 * Checks the limits of one member; the inner members of records are not looked at.
 *
 * Returns: whether the member is within its limits
 */
gboolean rod_member_check (const RodMember    *member,
                           gconstpointer       record,
                           const RodJsonPlace *place,
                           GError            **error);

/**
 * rod_record_check:
 * @record: a record
 * @place: place of the record
 * @error: return location for an error
 *
 * Checks the limits of every member, and of every record within.
 *
 * Returns: whether all are within their limits
 */
gboolean rod_record_check (gconstpointer       record,
                           const RodJsonPlace *place,
                           GError            **error);

G_END_DECLS
