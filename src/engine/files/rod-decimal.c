/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in files for other programs. Fixed decimals rather than the shortest text that reads back
 * to the same double: a length of 3116.6666666666665 says more than any tape, and float noise in
 * the last digit must not change a file's bytes.
 */
#include "config.h"

#include "engine/files/rod-decimal.h"

#include <math.h>
#include <string.h>

/* Literal formats, so that the compiler can check them. */
static const char *const formats[ROD_DECIMALS_MAX + 1] = {
  "%.0f",
  "%.1f",
  "%.2f",
  "%.3f",
  "%.4f",
  "%.5f",
  "%.6f",
  "%.7f",
  "%.8f",
  "%.9f",
  "%.10f",
  "%.11f",
  "%.12f",
};

void
rod_decimal_append (GString *text,
                    double   value,
                    guint    decimals)
{
  /* The greatest double has 309 digits before the point. */
  char   digits[309 + 3 + ROD_DECIMALS_MAX];
  gsize  length;
  gssize start;

  g_return_if_fail (text != NULL);
  g_return_if_fail (isfinite (value));
  g_return_if_fail (decimals <= ROD_DECIMALS_MAX);

  g_ascii_formatd (digits, sizeof digits, formats[decimals], value);
  length = strlen (digits);
  if (decimals > 0)
    {
      while (digits[length - 1] == '0')
        length--;
      if (digits[length - 1] == '.')
        length--;
    }
  start = length == 2 && digits[0] == '-' && digits[1] == '0' ? 1 : 0;
  g_string_append_len (text, digits + start, (gssize) length - start);
}
