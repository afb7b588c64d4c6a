/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/files/rod-file.h"

G_BEGIN_DECLS

/**
 * RodJsonPlace:
 * @parent: (nullable): the place it stands in
 * @name: (nullable): name of the member; %NULL for an item of a list
 * @index: which item of the list
 *
 * Where something stands in a file: a chain on the stack, from the value to the root. Its text is
 * made only when something is wrong. A plain value that must not outlive its parent.
 */
typedef struct _RodJsonPlace
{
  const struct _RodJsonPlace *parent;
  const char                 *name;
  guint                       index;
} RodJsonPlace;

/**
 * rod_json_place_root:
 * @name: what the path begins with, "$" in the file itself
 *
 * Returns: the place of the whole
 */
RodJsonPlace rod_json_place_root (const char *name);

/**
 * rod_json_place_member:
 * @parent: place of an object
 * @name: name of one of its members
 *
 * Returns: the place of the member
 */
RodJsonPlace rod_json_place_member (const RodJsonPlace *parent,
                                    const char         *name);

/**
 * rod_json_place_item:
 * @parent: place of a list
 * @index: which of its items
 *
 * Returns: the place of the item
 */
RodJsonPlace rod_json_place_item (const RodJsonPlace *parent,
                                  guint               index);

/**
 * rod_json_place_text:
 * @place: a place
 *
 * Returns: (transfer full): its path, such as "$.surfaces[2].outline[0].x"
 */
char *rod_json_place_text (const RodJsonPlace *place) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_json_place_refuse:
 * @place: where it is
 * @code: what kind of mistake
 * @error: return location for an error
 * @format: what was found, what is allowed and what to do; a printf() format
 * @...: arguments of @format
 *
 * Sets an error that begins with the path of the place.
 *
 * Returns: %FALSE, for the caller to return
 */
gboolean rod_json_place_refuse (const RodJsonPlace *place,
                                RodFileError        code,
                                GError            **error,
                                const char         *format,
                                ...) G_GNUC_PRINTF (4, 5);

G_END_DECLS
