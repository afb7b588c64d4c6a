/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/rod-document.h"

G_BEGIN_DECLS

#define ROD_TYPE_TALLY (rod_tally_get_type ())
G_DECLARE_FINAL_TYPE (RodTally, rod_tally, ROD, TALLY, GtkWidget)

/**
 * rod_tally_set_document:
 * @self: a tally
 * @document: the house whose boards, waste, findings and cost are told
 */
void rod_tally_set_document (RodTally    *self,
                             RodDocument *document);

G_END_DECLS
