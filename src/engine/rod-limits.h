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

/* Longest bar one can buy: 100 m, a coil. The cutting solver's tables grow with it. */
#define ROD_MAX_STOCK_MM 100000

/* Most pieces in one cutting plan: some hundred houses. */
#define ROD_MAX_CUT_PIECES 100000

/* Steps in search of colours such that no two neighbours are alike, beyond one for each board:
 * where there are enough colours it hardly ever goes back, and where there are not it would take
 * for ever. */
#define ROD_MAX_COLOUR_STEPS 20000

/* A bar must give at least this much once its ends are trimmed: a wall of smaller crumbs would only
 * fill the memory. */
#define ROD_MIN_USABLE_MM 50.0

/* Highest price of a bar in the smallest unit of the currency. With the two limits above, every
 * sum of the cutting solver fits 64 bits. */
#define ROD_MAX_BAR_PRICE 100000000

/* Greatest file: a hundred large houses take 10 MB. Larger ones are not ours, and reading them
 * would only fill the memory. */
#define ROD_MAX_FILE_BYTES (64 * 1024 * 1024)

/* Deepest nesting of lists and objects in a file. A house needs seven levels; the reader descends
 * on the stack, so that more than some thousand would end the program. */
#define ROD_MAX_DEPTH 64

/* Most values of a file, of any kind: each takes some hundred bytes once read. */
#define ROD_MAX_VALUES 2000000

/* Longest digits of one number in a file; 17 say all that a double holds. */
#define ROD_MAX_NUMBER_BYTES 64

/* Longest text and identifier in a file, where the member does not say otherwise: more fits on no
 * sheet. */
#define ROD_MAX_TEXT_BYTES 1000
#define ROD_MAX_IDENTIFIER_BYTES 64

/* Most items of a list in a file: a street of houses has some thousand surfaces. */
#define ROD_MAX_ITEMS 20000

/* Joints of so many courses can be kept apart: more courses leave no room between them. */
#define ROD_MAX_JOINT_REPEAT 6

/* Smallest side of a surface and of an opening: less is a typing error or another unit. */
#define ROD_MIN_SURFACE_MM 50.0
#define ROD_MIN_OPENING_MM 5.0

/* Largest extent of a surface. */
#define ROD_MAX_SURFACE_MM 1.0e6

/* Moved edges of a sharp corner meet far away; beyond this many times their distance the corner is
 * cut off. 20 keeps corners down to about 6°. */
#define ROD_SPIKE_RATIO 20.0

/* What a tape shows; a survey that misses by less closes. */
#define ROD_TAPE_MM 1.0

/* Joint lines of two faces that miss by more show at a corner: 2 mm is what a master allows over
 * the full height (rule R12). */
#define ROD_VISIBLE_MISFIT_MM 2.0

/* How many courses of unequal covers are followed to see whether they meet again: a house's height
 * of the narrowest board. */
#define ROD_MEETING_COURSES 100

/* Lines that enclose a smaller angle (its sine) have no crossing worth using: over 10 m it would be
 * known to no better than a centimetre. */
#define ROD_PARALLEL_SINE 1e-9
