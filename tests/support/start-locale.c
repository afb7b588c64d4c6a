/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Linked into every engine test: takes up the locale of the environment before main, as a program
 * does. Where the environment says which decimal point to expect, a locale that is not installed
 * stops the test instead of letting it pass under the C locale unnoticed.
 */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

__attribute__ ((constructor)) static void
take_up_locale (void)
{
  const char *expected = getenv ("ROD_TEST_DECIMAL_POINT");
  const char *locale = setlocale (LC_ALL, "");
  char        text[8];

  snprintf (text, sizeof text, "%.1f", 1.5);
  if (expected == NULL || (locale != NULL && strncmp (text + 1, expected, 1) == 0))
    return;

  fprintf (stderr, "Locale %s is not in force: 1.5 is written %s\n", getenv ("LC_ALL"), text);
  exit (EXIT_FAILURE);
}
