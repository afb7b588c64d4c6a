/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib-object.h>

#include "app/rod-place.h"

G_BEGIN_DECLS

#define ROD_TYPE_SELECTION (rod_selection_get_type ())
G_DECLARE_FINAL_TYPE (RodSelection, rod_selection, ROD, SELECTION, GObject)

/**
 * rod_selection_new:
 *
 * What is selected in a window: one place, shared by the drawing, the list of the house and the
 * details. Emits "changed" with a flag: whether whoever shows the place should bring it into view
 * (the user chose it elsewhere than on the drawing).
 *
 * Returns: (transfer full): a selection of the whole house
 */
RodSelection *rod_selection_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_selection_get:
 * @self: a selection
 *
 * Returns: the place
 */
RodPlace rod_selection_get (RodSelection *self);

/**
 * rod_selection_set:
 * @self: a selection
 * @place: the place
 * @reveal: bring it into view on the drawing
 *
 * Emits "changed" when the place differs or @reveal is set.
 */
void rod_selection_set (RodSelection *self,
                        RodPlace      place,
                        gboolean      reveal);

G_END_DECLS
