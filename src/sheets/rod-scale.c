/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Paper sizes of ISO 216 and scales of ISO 5455: 1, 2 and 5 times powers of ten. */
#include "config.h"

#include "sheets/rod-scale.h"

#include <math.h>

#include "engine/rod-limits.h"

#define SCALE_BAR_FIELDS 5.0

/* Keeps a drawing that fits to the micrometre at its scale in spite of float noise. */
#define FIT_TOLERANCE 1e-9

void
rod_paper_size (RodPaper paper,
                double  *width_mm,
                double  *height_mm)
{
  g_return_if_fail (width_mm != NULL && height_mm != NULL);

  *width_mm = paper == ROD_PAPER_A3 ? 420.0 : 297.0;
  *height_mm = paper == ROD_PAPER_A3 ? 297.0 : 210.0;
}

/* The least of 1, 2, 5, 10, 20, 50, … that is not below @least. */
static double
step_at_least (double least)
{
  static const double steps[] = { 1.0, 2.0, 5.0, 10.0 };
  double              power = pow (10.0, floor (log10 (least) + FIT_TOLERANCE));

  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    if (steps[i] * power * (1.0 + FIT_TOLERANCE) >= least)
      return steps[i] * power;

  return 10.0 * power;
}

double
rod_scale_choose (double width_mm,
                  double height_mm,
                  double room_width_mm,
                  double room_height_mm)
{
  g_return_val_if_fail (room_width_mm > 0.0 && room_height_mm > 0.0, 1.0);

  return step_at_least (fmax (1.0, fmax (width_mm / room_width_mm, height_mm / room_height_mm)));
}

double
rod_scale_bar_step (double denominator,
                    double room_mm)
{
  g_return_val_if_fail (denominator > 0.0 && room_mm > 0.0, 1.0);

  /* The greatest step that still fits is a power of ten over the least step of its reciprocal. */
  return 1.0 / step_at_least (SCALE_BAR_FIELDS / (denominator * room_mm));
}
