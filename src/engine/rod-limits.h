/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Every tolerance and limit of the engine, with its reason. Rules of the trade do not live here:
 * they are data of a system. Changing a value here changes what counts as "the same point", "the
 * same number" or "too large", everywhere. */

/* Lengths closer than this are the same on any saw; also what float noise may reach on a house. */
#define ROD_EPSILON_MM 1e-6

/* Directions closer than this are parallel: 0.01° is 1 mm in 6 m, less than a board bends. */
#define ROD_EPSILON_DEG 0.01

/* Corners closer than this are one corner; well under the 1 mm a tape can show. Larger values
 * close real gaps, smaller ones let jitter of hand-entered coordinates change piece counts. */
#define ROD_SNAP_MM 0.1

/* A corner this close to a joint line lies on it; half the snap, so that snapping never chains. */
#define ROD_LINE_SNAP_MM 0.05

/* Thinner strips are rounding, not boards. */
#define ROD_REMNANT_MM 0.1

/* Greatest distance of a chord from its arc; finer than any saw follows a curve by hand. */
#define ROD_ARC_SAGITTA_MM 0.25

/* Greatest coordinate: a kilometre. Larger drawings are typing errors or other units, and the
 * exact predicates are good for 1.5 km of whole micrometres. */
#define ROD_MAX_COORDINATE_MM 1.0e6
