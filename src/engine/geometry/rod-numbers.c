/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Lists of numbers: places along a line, heights, lengths. */

#include "config.h"

#include "engine/geometry/rod-numbers.h"

gint
rod_numbers_compare (gconstpointer a,
                     gconstpointer b)
{
  const double *one = a;
  const double *other = b;

  return (*one > *other) - (*one < *other);
}

void
rod_numbers_sort (GArray *numbers)
{
  g_return_if_fail (numbers != NULL);

  g_array_sort (numbers, rod_numbers_compare);
}
