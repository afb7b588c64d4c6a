/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member tables of openings and their reveals, and the sides of an opening whatever its shape.
 *
 * Circles and arches become sides with a bulge (the tangent of a quarter of the arc's angle), so
 * that every later stage knows one kind of side only.
 */
#include "config.h"

#include "engine/model/rod-surface.h"

#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>

const RodChoice rod_opening_kind_choices[] = {
  { ROD_OPENING_WINDOW, "window", N_ ("Window") },
  { ROD_OPENING_DOOR, "door", N_ ("Door") },
  { ROD_OPENING_VENT, "vent", N_ ("Vent") },
  { ROD_OPENING_PIPE, "pipe", N_ ("Pipe") },
  { ROD_OPENING_LIGHT, "light", N_ ("Light") },
  { 0, NULL, NULL },
};

const RodChoice rod_opening_shape_choices[] = {
  { ROD_SHAPE_RECTANGLE, "rectangle", N_ ("Rectangle") },
  { ROD_SHAPE_POLYGON, "polygon", N_ ("Polygon") },
  { ROD_SHAPE_CIRCLE, "circle", N_ ("Circle") },
  { ROD_SHAPE_ARCH, "arch", N_ ("Arch") },
  { 0, NULL, NULL },
};

const RodChoice rod_reveal_boards_choices[] = {
  { ROD_REVEAL_ALONG, "along", N_ ("Along the arris") },
  { ROD_REVEAL_ACROSS, "across", N_ ("From frame to arris") },
  { 0, NULL, NULL },
};

/* clang-format off */
static const RodMember reveal_members[] = {
  ROD_ROW (RodReveal, depth_mm, NUMBER, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_ABOVE_MIN,
           .max = 5000, .unit = "mm", .doc = "From the window frame to the raw wall face."),
  ROD_ROW (RodReveal, head, FLAG, .fallback = TRUE, .doc = "Whether the head is lined."),
  ROD_ROW (RodReveal, jambs, FLAG, .fallback = TRUE, .doc = "Whether the jambs are lined."),
  ROD_ROW (RodReveal, sill, FLAG, .doc = "Whether the sill is lined."),
  ROD_ROW (RodReveal, build_up_mm, NUMBER, .max = 500, .unit = "mm",
           .doc = "From the raw reveal to the batten face."),
  ROD_ROW (RodReveal, sill_rise_mm, NUMBER, .max = 500, .unit = "mm",
           .doc = "Finished sill above the raw one, at the foot of the jambs."),
  ROD_ROW (RodReveal, system, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the system; left out for the wall's."),
  ROD_ROW (RodReveal, board, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the board; left out for the wall's."),
  ROD_ROW (RodReveal, colour, TEXT, .flags = ROD_MEMBER_IDENTIFIER,
           .doc = "Id of the colour; left out for the wall's."),
  ROD_ROW (RodReveal, boards, CHOICE, .fallback = ROD_REVEAL_ALONG,
           .choices = rod_reveal_boards_choices, .doc = "Direction of the boards."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_reveal_type = {
  .name = "reveal",
  .doc = "Lining of the sides of an opening.",
  .size = sizeof (RodReveal),
  .members = reveal_members,
};

/* clang-format off */
static const RodMember opening_members[] = {
  ROD_ROW (RodOpening, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the surface."),
  ROD_ROW (RodOpening, name, TEXT, .doc = "Name for people."),
  ROD_ROW (RodOpening, kind, CHOICE, .fallback = ROD_OPENING_WINDOW,
           .choices = rod_opening_kind_choices, .doc = "What it is."),
  ROD_ROW (RodOpening, shape, CHOICE, .fallback = ROD_SHAPE_RECTANGLE,
           .choices = rod_opening_shape_choices,
           .doc = "Rectangle and arch count x, y, width_mm and height_mm, an arch rise_mm too; a "
                  "circle x, y and width_mm; a polygon corners."),
  ROD_ROW (RodOpening, x, NUMBER, .min = -ROD_MAX_COORDINATE_MM, .max = ROD_MAX_COORDINATE_MM,
           .unit = "mm", .doc = "Lower left corner; centre of a circle."),
  ROD_ROW (RodOpening, y, NUMBER, .min = -ROD_MAX_COORDINATE_MM, .max = ROD_MAX_COORDINATE_MM,
           .unit = "mm", .doc = "Lower left corner; centre of a circle."),
  ROD_ROW (RodOpening, width_mm, NUMBER, .max = ROD_MAX_COORDINATE_MM, .unit = "mm",
           .doc = "Width; diameter of a circle."),
  ROD_ROW (RodOpening, height_mm, NUMBER, .max = ROD_MAX_COORDINATE_MM, .unit = "mm",
           .doc = "Height, of an arch to its crown."),
  ROD_ROW (RodOpening, rise_mm, NUMBER, .max = ROD_MAX_COORDINATE_MM, .unit = "mm",
           .doc = "Rise of an arch, from its springing to its crown."),
  ROD_ROW (RodOpening, corners, LIST, .of = &rod_corner_type,
           .doc = "Corners of a polygon, counter-clockwise."),
  ROD_ROW (RodOpening, reveal, RECORD, .of = &rod_reveal_type,
           .doc = "Lining of its sides; left out where they are not clad."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_opening_type = {
  .name = "opening",
  .doc = "A hole in a surface.",
  .size = sizeof (RodOpening),
  .members = opening_members,
};

GArray *
rod_corners_sides (const GPtrArray *corners)
{
  GArray *sides;

  g_return_val_if_fail (corners != NULL, NULL);

  sides = g_array_sized_new (FALSE, FALSE, sizeof (RodSide), corners->len);
  for (guint i = 0; i < corners->len; i++)
    {
      const RodCorner *from = corners->pdata[i];
      const RodCorner *to = corners->pdata[(i + 1) % corners->len];
      RodSide          side = {
                 .from = { from->x, from->y },
                 .to = { to->x, to->y },
                 .bulge = from->bulge,
                 .corner = from,
      };

      g_array_append_val (sides, side);
    }
  return sides;
}

/* Sides between @n points, of which the third (the head) may be curved. */
static GArray *
join_points (const RodPoint *points,
             guint           n,
             const double   *bulges)
{
  GArray *sides = g_array_sized_new (FALSE, FALSE, sizeof (RodSide), n);

  for (guint i = 0; i < n; i++)
    {
      RodSide side = { .from = points[i], .to = points[(i + 1) % n], .bulge = bulges[i] };

      g_array_append_val (sides, side);
    }
  return sides;
}

static GArray *
circle_sides (const RodOpening *opening)
{
  double         radius = opening->width_mm / 2.0;
  const RodPoint points[] = {
    { opening->x - radius, opening->y },
    { opening->x + radius, opening->y },
  };
  const double half_circles[] = { 1.0, 1.0 };

  return join_points (points, G_N_ELEMENTS (points), half_circles);
}

static GArray *
upright_sides (const RodOpening *opening,
               double            rise_mm)
{
  double         right = opening->x + opening->width_mm;
  double         springing = opening->y + opening->height_mm - rise_mm;
  const RodPoint points[] = {
    { opening->x, opening->y },
    { right, opening->y },
    { right, springing },
    { opening->x, springing },
  };
  /* The rise of an arc is its bulge times half its chord. */
  double       bulge = rise_mm > 0.0 ? 2.0 * rise_mm / opening->width_mm : 0.0;
  const double bulges[] = { 0.0, 0.0, bulge, 0.0 };

  return join_points (points, G_N_ELEMENTS (points), bulges);
}

GArray *
rod_opening_sides (const RodOpening *opening)
{
  g_return_val_if_fail (opening != NULL, NULL);

  switch (opening->shape)
    {
    case ROD_SHAPE_POLYGON:
      return rod_corners_sides (opening->corners);
    case ROD_SHAPE_CIRCLE:
      return circle_sides (opening);
    case ROD_SHAPE_ARCH:
      return upright_sides (opening, opening->rise_mm);
    case ROD_SHAPE_RECTANGLE:
      return upright_sides (opening, 0.0);
    default:
      g_return_val_if_reached (NULL);
    }
}
