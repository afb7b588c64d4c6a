/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-house.h"

G_BEGIN_DECLS

/**
 * RodMovement:
 * @hottest_c: hottest board
 * @coldest_c: coldest board
 * @expand: strain from fixing to hottest (wettest), ≥ 0
 * @shrink: strain from fixing to coldest (driest), ≥ 0
 *
 * How far boards move. A plain value.
 */
typedef struct
{
  double hottest_c;
  double coldest_c;
  double expand;
  double shrink;
} RodMovement;

/**
 * rod_solar_gain_k:
 * @lightness: how light the boards are
 * @facing_deg: compass direction, clockwise from north; not-a-number when unknown
 *
 * Rise of the boards' temperature above hot shade air: EN 1991-1-5:2003, table 5.2: 18, 30 or 42 K
 * facing south-west or level, 0, 2 or 4 K facing north-east, for bright, light and dark surfaces.
 * Unknown directions count as south-west.
 *
 * Returns: kelvin
 */
double rod_solar_gain_k (RodLightness lightness,
                         double       facing_deg);

/**
 * rod_movement_of:
 * @site: the site
 * @system: the system
 * @surface: the surface; soffits lie in the shade
 * @lightness: how light the boards are
 *
 * Strains from fixing to the extremes: α·ΔT where heat moves the boards, swelling × change of
 * moisture where moisture does.
 *
 * Returns: the movement
 */
RodMovement rod_movement_of (const RodSite    *site,
                             const RodSystem  *system,
                             const RodSurface *surface,
                             RodLightness      lightness);

/**
 * rod_gap_mm:
 * @expand: strain to the hottest
 * @run_mm: fixed point → this end
 * @rules: rules of the system
 *
 * The gap at a moving end when fixed: movement and tolerance, rounded up to whole millimetres, at
 * least the system's least gap (rule R27, hot side).
 *
 * Returns: mm
 */
double rod_gap_mm (double          expand,
                   double          run_mm,
                   const RodRules *rules);

/**
 * rod_butt_gap_mm:
 * @expand: strain to the hottest
 * @run_mm: fixed point → this end; 0 where the board is held
 * @rules: rules of the system
 *
 * The gap at an end that meets another board over a batten: as rod_gap_mm(), at least the system's
 * least gap there. The board beyond it adds its own.
 *
 * Returns: mm
 */
double rod_butt_gap_mm (double          expand,
                        double          run_mm,
                        const RodRules *rules);

/**
 * rod_engagement_mm:
 * @shrink: strain to the coldest
 * @run_mm: fixed point → this end
 * @pocket_mm: depth of the pocket
 * @gap_mm: gap when fixed
 * @rules: rules of the system
 *
 * What the pocket still covers of the board's end when coldest (rule R27, cold side).
 *
 * Returns: mm; negative when the end has left the pocket
 */
double rod_engagement_mm (double          shrink,
                          double          run_mm,
                          double          pocket_mm,
                          double          gap_mm,
                          const RodRules *rules);

G_END_DECLS
