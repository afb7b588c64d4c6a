/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as people read them on paper and screen.
 *
 * One place, so that a length looks the same on a drawing, in a list and in the window. Rounding is
 * half up, away from zero, on the decimal value the user sees: a binary 10.005 is a little less
 * than what was typed and must still become 10.01, hence the nudge of a few parts in 10¹².
 * Figures follow the decimal point of the locale; they are for people, never for files.
 */
#include "config.h"

#include "sheets/rod-figures.h"

#include <locale.h>
#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#define MM_PER_INCH 25.4
#define SIXTEENTHS_PER_INCH 16
#define SIXTEENTHS_PER_FOOT (12 * SIXTEENTHS_PER_INCH)
#define MM_PER_FOOT 304.8
#define KG_PER_POUND 0.45359237
#define ROUNDING_NUDGE 4e-12

/* From here on digits are grouped; four digits are read at a glance. */
#define GROUPED_DIGITS 5
#define GROUP_SPACE "\u00a0"
#define MINUS "\u2212"

/* Smallest units of ISO 4217 that are not hundredths, from memory. */
static const struct
{
  const char *code;
  int         decimals;
} unusual_currencies[] = {
  { "BHD", 3 },
  { "CLP", 0 },
  { "ISK", 0 },
  { "JOD", 3 },
  { "JPY", 0 },
  { "KRW", 0 },
  { "KWD", 3 },
  { "OMR", 3 },
  { "TND", 3 },
  { "VND", 0 },
};

static gint64
round_half_up (double value)
{
  return (gint64) floor (value * (1.0 + ROUNDING_NUDGE) + 0.5);
}

static void
append_grouped (GString *text,
                gint64   whole)
{
  g_autofree char *digits = g_strdup_printf ("%" G_GINT64_FORMAT, whole);
  gsize            n = strlen (digits);

  for (gsize i = 0; i < n; i++)
    {
      if (n >= GROUPED_DIGITS && i > 0 && (n - i) % 3 == 0)
        g_string_append (text, GROUP_SPACE);
      g_string_append_c (text, digits[i]);
    }
}

/* At most @most decimals, of which at least @least are written. */
static char *
write_decimal (double value,
               int    most,
               int    least)
{
  gint64   unit = most == 3 ? 1000 : most == 2 ? 100
                                               : (most == 1 ? 10 : 1);
  gint64   scaled = round_half_up (fabs (value) * (double) unit);
  gint64   rest = scaled % unit;
  GString *text = g_string_new (value < 0.0 && scaled > 0 ? MINUS : "");

  append_grouped (text, scaled / unit);
  if (least > 0 || rest > 0)
    g_string_append_printf (text,
                            "%s%0*" G_GINT64_FORMAT,
                            localeconv ()->decimal_point,
                            most,
                            rest);

  return g_string_free (text, FALSE);
}

static char *
write_feet_and_inches (double mm)
{
  gint64   sixteenths = round_half_up (fabs (mm) / MM_PER_INCH * SIXTEENTHS_PER_INCH);
  gint64   feet = sixteenths / SIXTEENTHS_PER_FOOT;
  gint64   inches = sixteenths % SIXTEENTHS_PER_FOOT / SIXTEENTHS_PER_INCH;
  gint64   part = sixteenths % SIXTEENTHS_PER_INCH;
  gint64   whole = SIXTEENTHS_PER_INCH;
  GString *text = g_string_new (mm < 0.0 && sixteenths > 0 ? MINUS : "");

  while (part > 0 && part % 2 == 0)
    {
      part /= 2;
      whole /= 2;
    }

  if (feet > 0)
    g_string_append_printf (text, "%" G_GINT64_FORMAT "'-", feet);
  if (feet > 0 || inches > 0 || part == 0)
    g_string_append_printf (text, "%" G_GINT64_FORMAT, inches);
  if (part > 0)
    g_string_append_printf (text,
                            "%s%" G_GINT64_FORMAT "/%" G_GINT64_FORMAT,
                            feet > 0 || inches > 0 ? " " : "",
                            part,
                            whole);
  g_string_append_c (text, '"');

  return g_string_free (text, FALSE);
}

static char *
join_unit (char       *figure,
           const char *unit)
{
  g_autofree char *owned = figure;

  return g_strconcat (owned, GROUP_SPACE, unit, NULL);
}

char *
rod_figures_length (RodUnits units,
                    double   mm)
{
  g_return_val_if_fail (isfinite (mm), NULL);

  return units == ROD_UNITS_IMPERIAL ? write_feet_and_inches (mm) : write_decimal (mm, 1, 0);
}

char *
rod_figures_length_unit (RodUnits units,
                         double   mm)
{
  char *figure = rod_figures_length (units, mm);

  return units == ROD_UNITS_IMPERIAL ? figure : join_unit (figure, "mm");
}

char *
rod_figures_run (RodUnits units,
                 double   mm)
{
  if (units == ROD_UNITS_IMPERIAL)
    return join_unit (write_decimal (mm / MM_PER_FOOT, 1, 1), "ft");

  return join_unit (write_decimal (mm / 1e3, 1, 1), "m");
}

char *
rod_figures_area (RodUnits units,
                  double   mm2)
{
  if (units == ROD_UNITS_IMPERIAL)
    return join_unit (write_decimal (mm2 / (MM_PER_FOOT * MM_PER_FOOT), 1, 1), "ft²");

  return join_unit (write_decimal (mm2 / 1e6, 2, 2), "m²");
}

char *
rod_figures_weight (RodUnits units,
                    double   kg)
{
  double value = units == ROD_UNITS_IMPERIAL ? kg / KG_PER_POUND : kg;
  int    decimals = fabs (value) < 100.0 ? 1 : 0;

  return join_unit (write_decimal (value, decimals, decimals),
                    units == ROD_UNITS_IMPERIAL ? "lb" : "kg");
}

char *
rod_figures_amount (const char *currency,
                    double      amount)
{
  int decimals = 2;

  g_return_val_if_fail (currency != NULL, NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (unusual_currencies); i++)
    if (strcmp (currency, unusual_currencies[i].code) == 0)
      decimals = unusual_currencies[i].decimals;

  return write_decimal (amount, decimals, decimals);
}

char *
rod_figures_money (const char *currency,
                   double      amount)
{
  return join_unit (rod_figures_amount (currency, amount), currency);
}

char *
rod_figures_count (gint64 count)
{
  GString *text = g_string_new (count < 0 ? MINUS : "");

  append_grouped (text, ABS (count));

  return g_string_free (text, FALSE);
}

char *
rod_figures_percent (double share)
{
  return join_unit (write_decimal (share * 100.0, 1, 1), "%");
}

char *
rod_figures_angle (double deg)
{
  g_autofree char *figure = write_decimal (deg, 1, 0);

  return g_strconcat (figure, "°", NULL);
}
