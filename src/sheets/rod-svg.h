/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_sheets_svg_text:
 * @plan: a plan
 * @face: index of a face
 *
 * Draws a face as SVG. The unit of the drawing is a millimetre of the house, its size on paper
 * follows from the scale of ISO 5455 at which marks fit the boards. Layers are groups with the
 * identifiers "battens", "boards", "trims", "openings", "outline", "marks" and "dimensions";
 * battens are hidden until their "display" is removed. Each piece is one path of class "piece" in
 * "boards", with its mark and size as title. Texts stay texts. The same plan gives the same bytes
 * in every locale but for the language of titles.
 *
 * Returns: (transfer full): the document, UTF-8
 */
char *rod_sheets_svg_text (const RodPlan *plan,
                           guint          face) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_sheets_write_svg:
 * @plan: a plan
 * @face: index of a face
 * @path: path to write
 * @error: return location for an error
 *
 * Writes rod_sheets_svg_text() atomically: either the whole new file is there afterwards or the old
 * one untouched.
 *
 * Fails with #GFileError; the message names the path.
 *
 * Returns: whether it is written
 */
gboolean rod_sheets_write_svg (const RodPlan *plan,
                               guint          face,
                               const char    *path,
                               GError       **error);

/**
 * rod_sheets_owns_svg:
 * @plan: a plan
 * @path: path of any file
 *
 * Every drawing says which house it shows, by the name of the house.
 *
 * Returns: whether the file is a drawing of this house that rod_sheets_write_svg() wrote
 */
gboolean rod_sheets_owns_svg (const RodPlan *plan,
                              const char    *path);

G_END_DECLS
