/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * ROD_DECIMALS_MAX:
 *
 * Most digits after the point that rod_decimal_append() writes.
 */
#define ROD_DECIMALS_MAX 12

/**
 * rod_decimal_append:
 * @text: where to write
 * @value: a finite number
 * @decimals: most digits after the point, at most %ROD_DECIMALS_MAX
 *
 * Writes a number for files: rounded, point as decimal sign in every locale, no needless zeros, no
 * exponent and no negative zero. The same number gives the same text everywhere.
 */
void rod_decimal_append (GString *text,
                         double   value,
                         guint    decimals);

G_END_DECLS
