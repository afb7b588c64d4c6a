/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Movement of boards between fixing and the extremes of heat or moisture, and the two checks that
 * follow at each end: not to bottom out when longest, not to leave the pocket when shortest. */

#include "config.h"

#include <math.h>

#include "engine/movement/rod-movement.h"
#include "engine/rod-limits.h"

double
rod_solar_gain_k (RodLightness lightness,
                  double       facing_deg)
{
  static const double south_west[] = { 18.0, 30.0, 42.0 };
  static const double north_east[] = { 0.0, 2.0, 4.0 };

  g_return_val_if_fail (lightness <= ROD_LIGHTNESS_DARK, 0.0);

  /* The half circle about south-west: from south-east to north-west. */
  if (isnan (facing_deg) || (facing_deg >= 135.0 && facing_deg < 315.0))
    return south_west[lightness];
  return north_east[lightness];
}

static double
hottest_c (const RodSite    *site,
           const RodSurface *surface,
           RodLightness      lightness)
{
  /* A soffit sees no sun, like a wall that faces away from it. */
  double facing_deg = surface->kind == ROD_SURFACE_SOFFIT ? 0.0 : surface->facing_deg;

  if (!isnan (site->face_hottest_c))
    return site->face_hottest_c;
  return site->air_hottest_c + rod_solar_gain_k (lightness, facing_deg);
}

RodMovement
rod_movement_of (const RodSite    *site,
                 const RodSystem  *system,
                 const RodSurface *surface,
                 RodLightness      lightness)
{
  RodMovement movement = {
    .hottest_c = hottest_c (site, surface, lightness),
    .coldest_c = isnan (site->face_coldest_c) ? site->air_coldest_c : site->face_coldest_c,
  };
  double alpha = system->expansion_mm_m_k / 1000.0;

  if (system->swelling_percent > 0.0)
    {
      double per_percent = system->swelling_percent / 100.0;

      movement.expand = MAX (0.0, per_percent * (system->moisture_high - system->moisture_fixed));
      movement.shrink = MAX (0.0, per_percent * (system->moisture_fixed - system->moisture_low));
      return movement;
    }
  movement.expand = MAX (0.0, alpha * (movement.hottest_c - site->fixing_c));
  movement.shrink = MAX (0.0, alpha * (site->fixing_c - movement.coldest_c));
  return movement;
}

static double
needed_gap_mm (double          expand,
               double          run_mm,
               const RodRules *rules)
{
  return ceil (expand * run_mm + rules->tolerance_mm - ROD_EPSILON_MM);
}

double
rod_gap_mm (double          expand,
            double          run_mm,
            const RodRules *rules)
{
  return MAX (rules->min_gap_mm, needed_gap_mm (expand, run_mm, rules));
}

double
rod_butt_gap_mm (double          expand,
                 double          run_mm,
                 const RodRules *rules)
{
  return MAX (rules->butt_gap_mm, needed_gap_mm (expand, run_mm, rules));
}

double
rod_engagement_mm (double          shrink,
                   double          run_mm,
                   double          pocket_mm,
                   double          gap_mm,
                   const RodRules *rules)
{
  return pocket_mm - gap_mm - shrink * run_mm - rules->tolerance_mm;
}
