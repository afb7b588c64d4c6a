/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member tables of surfaces, their corners and zones. */
#include "config.h"

#include "engine/model/rod-surface.h"

#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>

const RodChoice rod_surface_kind_choices[] = {
  { ROD_SURFACE_WALL, "wall", N_ ("Wall") },
  { ROD_SURFACE_SOFFIT, "soffit", N_ ("Soffit") },
  { ROD_SURFACE_REVEAL, "reveal", N_ ("Reveal") },
  { 0, NULL, NULL },
};

const RodChoice rod_edge_condition_choices[] = {
  { ROD_EDGE_AUTO, "auto", N_ ("From the shape") },
  { ROD_EDGE_BASE, "base", N_ ("Base") },
  { ROD_EDGE_TOP, "top", N_ ("Top") },
  { ROD_EDGE_SIDE_STOP, "side-stop", N_ ("Side stop") },
  { ROD_EDGE_VERGE, "verge", N_ ("Verge") },
  { ROD_EDGE_OUTSIDE_CORNER, "outside-corner", N_ ("Outside corner") },
  { ROD_EDGE_INSIDE_CORNER, "inside-corner", N_ ("Inside corner") },
  { ROD_EDGE_CEILING_LINE, "ceiling-line", N_ ("Ceiling line") },
  { ROD_EDGE_HEAD, "head", N_ ("Head") },
  { ROD_EDGE_SILL, "sill", N_ ("Sill") },
  { ROD_EDGE_JAMB, "jamb", N_ ("Jamb") },
  { ROD_EDGE_MITRE, "mitre", N_ ("Mitre") },
  { ROD_EDGE_FASCIA, "fascia", N_ ("Fascia") },
  { ROD_EDGE_ZONE, "zone", N_ ("Zone border") },
  { 0, NULL, NULL },
};

const RodChoice rod_laid_from_choices[] = {
  { ROD_LAID_FROM_LEFT, "left", N_ ("From the left") },
  { ROD_LAID_FROM_RIGHT, "right", N_ ("From the right") },
  { ROD_LAID_FROM_CENTRE, "centre", N_ ("From the centre") },
  { 0, NULL, NULL },
};

const RodChoice rod_zone_laid_from_choices[] = {
  { ROD_LAID_FROM_LEFT, "left", N_ ("From the left") },
  { ROD_LAID_FROM_RIGHT, "right", N_ ("From the right") },
  { ROD_LAID_FROM_CENTRE, "centre", N_ ("From the centre") },
  { ROD_LAID_FROM_INHERITED, "as-surface", N_ ("As the surface") },
  { 0, NULL, NULL },
};

/* clang-format off */
static const RodMember corner_members[] = {
  ROD_ROW (RodCorner, x, NUMBER, .flags = ROD_MEMBER_REQUIRED, .min = -ROD_MAX_COORDINATE_MM,
           .max = ROD_MAX_COORDINATE_MM, .unit = "mm",
           .doc = "To the right, as seen from the clad side."),
  ROD_ROW (RodCorner, y, NUMBER, .flags = ROD_MEMBER_REQUIRED, .min = -ROD_MAX_COORDINATE_MM,
           .max = ROD_MAX_COORDINATE_MM, .unit = "mm", .doc = "Upwards."),
  ROD_ROW (RodCorner, bulge, NUMBER, .min = -1, .max = 1,
           .doc = "Arc of the edge that leaves this corner: tangent of a quarter of its angle, "
                  "positive outwards; 0 for a straight edge, 1 for a half circle."),
  ROD_ROW (RodCorner, edge, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier of that edge; needed where a join refers to it."),
  ROD_ROW (RodCorner, condition, CHOICE, .fallback = ROD_EDGE_AUTO,
           .choices = rod_edge_condition_choices, .doc = "Condition of that edge."),
  ROD_ROW (RodCorner, clearance_mm, NUMBER, .max = 1000, .fallback = ROD_NOT_GIVEN, .unit = "mm",
           .doc = "Clearance of that edge; left out for the system's."),
  ROD_ROW (RodCorner, stepped, FLAG,
           .doc = "Whether that edge, a wall's base drawn as the ground falls, is to be made into "
                  "steps."),
  ROD_ROW (RodCorner, seen, CHOICE, .fallback = ROD_SEEN_INHERITED, .choices = rod_seen_choices,
           .doc = "From where strips at that edge are seen; weighs them in the set-out."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_corner_type = {
  .name = "corner",
  .doc = "A corner of an outline, and the edge that leaves it.",
  .size = sizeof (RodCorner),
  .members = corner_members,
};

/* clang-format off */
static const RodMember colour_share_members[] = {
  ROD_ROW (RodColourShare, colour, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Id of a colour of the board."),
  ROD_ROW (RodColourShare, weight, NUMBER, .flags = ROD_MEMBER_ABOVE_MIN, .max = 1000,
           .fallback = 1, .doc = "Share in the mix."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_colour_share_type = {
  .name = "colour-share",
  .doc = "A colour of a mix and its share.",
  .size = sizeof (RodColourShare),
  .members = colour_share_members,
};

/* clang-format off */
static const RodMember zone_members[] = {
  ROD_ROW (RodZone, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the surface."),
  ROD_ROW (RodZone, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodZone, corners, LIST, .flags = ROD_MEMBER_REQUIRED, .min = 3, .of = &rod_corner_type,
           .doc = "Corners, counter-clockwise."),
  ROD_ROW (RodZone, board, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the board; left out for the surface's."),
  ROD_ROW (RodZone, direction_deg, NUMBER, .flags = ROD_MEMBER_ABOVE_MIN, .min = -90, .max = 90,
           .fallback = ROD_NOT_GIVEN, .unit = "°",
           .doc = "Direction of the boards; left out for the surface's."),
  ROD_ROW (RodZone, laid_from, CHOICE, .fallback = ROD_LAID_FROM_INHERITED,
           .choices = rod_zone_laid_from_choices, .doc = "Where upright boards begin."),
  ROD_ROW (RodZone, colour, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the colour; left out for the surface's."),
  ROD_ROW (RodZone, mix, LIST, .max = 100, .of = &rod_colour_share_type,
           .doc = "A weighted mix of colours instead of one."),
  ROD_ROW (RodZone, seed, INTEGER, .max = G_MAXINT, .doc = "Seed of the mix."),
  ROD_ROW (RodZone, no_repeat, FLAG,
           .doc = "Whether no two neighbouring boards may have the same colour of the zone's mix."),
  ROD_ROW (RodZone, joint_pattern, CHOICE, .fallback = ROD_JOINTS_INHERITED,
           .choices = rod_joint_pattern_choices,
           .doc = "Where length joints fall; left out for the surface's way."),
  ROD_ROW (RodZone, joint_offset_mm, NUMBER, .max = 20000, .fallback = ROD_NOT_GIVEN,
           .unit = "mm",
           .doc = "Least distance of joints in neighbouring courses; left out for the surface's."),
  ROD_ROW (RodZone, joint_repeat, INTEGER, .max = ROD_MAX_JOINT_REPEAT,
           .doc = "After so many courses joints may be in line again; 0 for the surface's."),
  ROD_ROW (RodZone, joint_seed, INTEGER, .max = G_MAXINT,
           .doc = "Seed of joints at random."),
  ROD_ROW (RodZone, longest_piece_mm, NUMBER, .min = 100, .max = 20000,
           .fallback = ROD_NOT_GIVEN, .unit = "mm",
           .doc = "No board longer than this, though the stock gives it; left out for the "
                  "surface's."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_zone_type = {
  .name = "zone",
  .doc = "A part of a surface with boards of its own.",
  .size = sizeof (RodZone),
  .members = zone_members,
};

/* clang-format off */
static const RodMember surface_members[] = {
  ROD_ROW (RodSurface, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the house."),
  ROD_ROW (RodSurface, mark, TEXT, .flags = ROD_MEMBER_IDENTIFIER, .max = 8,
           .doc = "Short mark for its pieces, such as N; left out to be given one by order."),
  ROD_ROW (RodSurface, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodSurface, kind, CHOICE, .fallback = ROD_SURFACE_WALL,
           .choices = rod_surface_kind_choices, .doc = "What it is."),
  ROD_ROW (RodSurface, system, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the system."),
  ROD_ROW (RodSurface, board, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the board; left out for the system's first."),
  ROD_ROW (RodSurface, direction_deg, NUMBER, .flags = ROD_MEMBER_ABOVE_MIN, .min = -90, .max = 90,
           .unit = "°",
           .doc = "Axis of the boards, counter-clockwise from x; 0 is level, 90 upright."),
  ROD_ROW (RodSurface, laid_from, CHOICE, .fallback = ROD_LAID_FROM_LEFT,
           .choices = rod_laid_from_choices, .doc = "Where upright boards begin."),
  ROD_ROW (RodSurface, colour, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the colour; left out for the board's first."),
  ROD_ROW (RodSurface, mix, LIST, .max = 100, .of = &rod_colour_share_type,
           .doc = "A weighted mix of colours instead of one."),
  ROD_ROW (RodSurface, seed, INTEGER, .max = G_MAXINT, .doc = "Seed of the mix."),
  ROD_ROW (RodSurface, no_repeat, FLAG,
           .doc = "Whether no two neighbouring boards may have the same colour of the mix."),
  ROD_ROW (RodSurface, joint_pattern, CHOICE, .fallback = ROD_JOINTS_INHERITED,
           .choices = rod_joint_pattern_choices,
           .doc = "Where length joints fall; left out for the system's way."),
  ROD_ROW (RodSurface, joint_offset_mm, NUMBER, .max = 20000, .fallback = ROD_NOT_GIVEN,
           .unit = "mm",
           .doc = "Least distance of joints in neighbouring courses; left out for the system's."),
  ROD_ROW (RodSurface, joint_repeat, INTEGER, .max = ROD_MAX_JOINT_REPEAT,
           .doc = "After so many courses joints may be in line again; 0 for the system's."),
  ROD_ROW (RodSurface, joint_seed, INTEGER, .max = G_MAXINT,
           .doc = "Seed of joints at random."),
  ROD_ROW (RodSurface, longest_piece_mm, NUMBER, .min = 100, .max = 20000,
           .fallback = ROD_NOT_GIVEN, .unit = "mm",
           .doc = "No board longer than this, though the stock gives it; left out for the "
                  "stock's."),
  ROD_ROW (RodSurface, level_mm, NUMBER, .min = -ROD_MAX_COORDINATE_MM,
           .max = ROD_MAX_COORDINATE_MM, .unit = "mm",
           .doc = "Height of y = 0 above the house's datum, on walls and reveals."),
  ROD_ROW (RodSurface, facing_deg, NUMBER, .max = 360, .fallback = ROD_NOT_GIVEN, .unit = "°",
           .doc = "Compass direction it faces, clockwise from north; left out when unknown."),
  ROD_ROW (RodSurface, build_up_mm, NUMBER, .max = 1000, .unit = "mm",
           .doc = "From the raw wall to the batten face, where the boards' backs are."),
  ROD_ROW (RodSurface, joint_line_mm, NUMBER, .min = -ROD_MAX_COORDINATE_MM,
           .max = ROD_MAX_COORDINATE_MM, .fallback = ROD_NOT_GIVEN, .unit = "mm",
           .doc = "Where the rod was left, the place of one joint line: height above the datum for "
                  "level boards, along x for upright ones, square to the boards otherwise; left "
                  "out for the best place."),
  ROD_ROW (RodSurface, pins, LIST, .max = 100, .of = &rod_pin_type,
           .doc = "What is asked of its joint lines, before any other aim."),
  ROD_ROW (RodSurface, seen, CHOICE, .fallback = ROD_SEEN_INHERITED, .choices = rod_seen_choices,
           .doc = "From where it is seen; weighs its strips in the set-out. As-surface stands for "
                  "the front."),
  ROD_ROW (RodSurface, starter_low_mm, NUMBER, .min = -1000, .max = 10000,
           .fallback = ROD_NOT_GIVEN, .unit = "mm",
           .doc = "Lowest starter above the base; left out for the system's."),
  ROD_ROW (RodSurface, starter_high_mm, NUMBER, .min = -1000, .max = 10000,
           .fallback = ROD_NOT_GIVEN, .unit = "mm",
           .doc = "Highest starter above the base; left out for the system's."),
  ROD_ROW (RodSurface, outline, LIST, .flags = ROD_MEMBER_REQUIRED, .min = 3,
           .of = &rod_corner_type,
           .doc = "The structure as measured, counter-clockwise as seen from the clad side."),
  ROD_ROW (RodSurface, openings, LIST, .of = &rod_opening_type, .doc = "Openings."),
  ROD_ROW (RodSurface, zones, LIST, .max = 1000, .of = &rod_zone_type,
           .doc = "Zones; where two overlap, the later one counts."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_surface_type = {
  .name = "surface",
  .doc = "One plane to clad: a wall, a soffit or a reveal.",
  .size = sizeof (RodSurface),
  .members = surface_members,
};

int
rod_surface_find_edge (const RodSurface *surface,
                       const char       *edge)
{
  g_return_val_if_fail (surface != NULL && edge != NULL, -1);

  /* "" stands for "nothing refers to it", so that no edge is called so. */
  if (*edge == '\0')
    return -1;

  for (guint i = 0; i < surface->outline->len; i++)
    {
      const RodCorner *corner = surface->outline->pdata[i];

      if (g_str_equal (corner->edge, edge))
        return (int) i;
    }
  return -1;
}
