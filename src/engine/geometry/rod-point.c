/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Points and affine maps of the plane. Nothing here needs a tolerance. */

#include "engine/geometry/rod-point.h"

/* Sine of a whole number of quarter turns, without the 6e-17 that sin (π) leaves behind. */
static const double quarter_sines[4] = { 0.0, 1.0, 0.0, -1.0 };

#define DEGREES_OF_QUARTER 90.0
#define QUARTERS_OF_TURN 4

static void
find_sine_and_cosine (double  angle_deg,
                      double *sine,
                      double *cosine)
{
  double quarters = angle_deg / DEGREES_OF_QUARTER;
  double whole = round (quarters);
  double rest_deg = angle_deg - whole * DEGREES_OF_QUARTER;
  double radians = rest_deg * G_PI / 180.0;
  int    quarter = (int) fmod (whole, QUARTERS_OF_TURN);
  double turn_sine, turn_cosine;

  quarter = (quarter + QUARTERS_OF_TURN) % QUARTERS_OF_TURN;
  turn_sine = quarter_sines[quarter];
  turn_cosine = quarter_sines[(quarter + 1) % QUARTERS_OF_TURN];

  *sine = turn_sine * cos (radians) + turn_cosine * sin (radians);
  *cosine = turn_cosine * cos (radians) - turn_sine * sin (radians);
}

RodAffine
rod_affine_identity (void)
{
  return (RodAffine){ .xx = 1.0, .yy = 1.0 };
}

RodAffine
rod_affine_board_frame (double angle_deg)
{
  double sine, cosine;

  g_return_val_if_fail (isfinite (angle_deg), rod_affine_identity ());

  find_sine_and_cosine (angle_deg, &sine, &cosine);
  return (RodAffine){ .xx = cosine, .xy = sine, .yx = -sine, .yy = cosine };
}

RodAffine
rod_affine_invert (RodAffine map)
{
  double    determinant = map.xx * map.yy - map.xy * map.yx;
  RodAffine inverse;

  g_return_val_if_fail (fabs (determinant) > 0.0, rod_affine_identity ());

  inverse.xx = map.yy / determinant;
  inverse.xy = -map.xy / determinant;
  inverse.yx = -map.yx / determinant;
  inverse.yy = map.xx / determinant;
  inverse.x0 = -(inverse.xx * map.x0 + inverse.xy * map.y0);
  inverse.y0 = -(inverse.yx * map.x0 + inverse.yy * map.y0);
  return inverse;
}

RodAffine
rod_affine_multiply (RodAffine first,
                     RodAffine second)
{
  return (RodAffine){
    .xx = second.xx * first.xx + second.xy * first.yx,
    .xy = second.xx * first.xy + second.xy * first.yy,
    .x0 = second.xx * first.x0 + second.xy * first.y0 + second.x0,
    .yx = second.yx * first.xx + second.yy * first.yx,
    .yy = second.yx * first.xy + second.yy * first.yy,
    .y0 = second.yx * first.x0 + second.yy * first.y0 + second.y0,
  };
}
