/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * rod_numbers_compare:
 * @a: (type gpointer): a double
 * @b: (type gpointer): another double
 *
 * Order of two numbers, for sorting; neither may be not-a-number.
 *
 * Returns: negative when @a is less, positive when it is more, 0 when both are equal
 */
gint rod_numbers_compare (gconstpointer a,
                          gconstpointer b);

/**
 * rod_numbers_sort:
 * @numbers: (element-type double): numbers, none of them not-a-number
 *
 * Puts them in ascending order.
 */
void rod_numbers_sort (GArray *numbers);

G_END_DECLS
