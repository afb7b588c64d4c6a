/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks outlines, openings and zones as figures.
 *
 * Every figure must be a simple polygon (arcs as the chords that are planned with), run
 * counter-clockwise and be of a size that a building has. Openings must lie within the outline and
 * not overlap: of the openings less the outline nothing may remain, where an opening that overlaps
 * another counts twice. One clean-up of all figures of a surface answers both; only when something
 * remains is each opening looked at by itself, to say which it is. Strips no wider than the snap
 * distance are rounding and do not count, so that a door may stand on the base line.
 */
#include "config.h"

#include "engine/files/rod-house-check.h"

#include "engine/files/rod-json.h"
#include "engine/geometry/rod-clash.h"
#include "engine/geometry/rod-region.h"
#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Adds a closed ring; every side gets @tag, or its own index when @tag is negative. */
static void
add_sides (RodPath      *path,
           const GArray *sides,
           int           tag,
           gboolean      is_reversed)
{
  for (guint i = 0; i < sides->len; i++)
    {
      const RodSide *side = &g_array_index (sides, RodSide, i);

      rod_path_add_arc (path, side->from, side->to, side->bulge, tag < 0 ? (int) i : tag);
    }
  if (is_reversed)
    rod_path_close_reversed (path);
  else
    rod_path_close (path);
}

/* Whether more remains of a region than strips that the snap distance explains. */
static gboolean
has_substance (const RodRegion *region,
               guint            ring)
{
  guint  start = region->ring_starts[ring];
  guint  n = region->ring_starts[ring + 1] - start;
  double perimeter = 0;

  for (guint i = 0; i < n; i++)
    perimeter += rod_point_distance (region->points[start + i],
                                     region->points[start + (i + 1) % n]);
  return rod_ring_area (region->points + start, n) > ROD_SNAP_MM * perimeter / 2.0;
}

/* The first ring that counts, or the number of rings when none does. */
static guint
find_substance (const RodRegion *region)
{
  guint ring = 0;

  while (ring < region->n_rings && !has_substance (region, ring))
    ring++;
  return ring;
}

/* Whether anything of two figures remains at @threshold; the first is turned round if wanted. */
static gboolean
figures_leave (const GArray *first,
               gboolean      is_reversed,
               const GArray *second,
               int           threshold)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;

  add_sides (path, first, 0, is_reversed);
  add_sides (path, second, 1, FALSE);
  region = rod_region_normalise (path, threshold);
  return find_substance (region) < region->n_rings;
}

static gboolean
check_lengths (const GArray       *sides,
               const RodJsonPlace *place,
               GError            **error)
{
  for (guint i = 0; i < sides->len; i++)
    {
      const RodSide *side = &g_array_index (sides, RodSide, i);
      double         length = rod_point_distance (side->from, side->to);
      RodJsonPlace   item = rod_json_place_item (place, i);

      if (length < ROD_SNAP_MM)
        {
          g_autofree char *found = rod_json_number (length);
          g_autofree char *least = rod_json_number (ROD_SNAP_MM);

          return rod_json_place_refuse (&item,
                                        ROD_FILE_ERROR_SHAPE,
                                        error,
                                        _ ("the edge from this corner to the next is %s mm long; "
                                           "allowed: at least %s mm. Remove one of the corners."),
                                        found,
                                        least);
        }
    }
  return TRUE;
}

static gboolean
refuse_size (double              found,
             double              least,
             double              most,
             const RodJsonPlace *place,
             GError            **error)
{
  g_autofree char *found_text = rod_json_number (found);
  g_autofree char *least_text = rod_json_number (least);
  g_autofree char *most_text = rod_json_number (most);

  return rod_json_place_refuse (place,
                                ROD_FILE_ERROR_SHAPE,
                                error,
                                _ ("found a figure that measures %s mm across; allowed: %s to %s "
                                   "mm. Are the lengths in millimetres?"),
                                found_text,
                                least_text,
                                most_text);
}

/* The middle of a side's arc. */
static RodPoint
apex_of (const RodSide *side)
{
  return (RodPoint){
    (side->from.x + side->to.x + side->bulge * (side->to.y - side->from.y)) / 2.0,
    (side->from.y + side->to.y - side->bulge * (side->to.x - side->from.x)) / 2.0,
  };
}

static gboolean
is_within_plane (RodPoint point)
{
  return fabs (point.x) <= ROD_MAX_COORDINATE_MM && fabs (point.y) <= ROD_MAX_COORDINATE_MM;
}

/* Keeps corners and arcs where the exact predicates are good. */
static gboolean
check_reach (const GArray       *sides,
             double              least,
             const RodJsonPlace *place,
             GError            **error)
{
  RodPoint low = g_array_index (sides, RodSide, 0).from;
  RodPoint high = low;
  gboolean is_within = TRUE;
  double   wide;

  for (guint i = 0; i < sides->len; i++)
    {
      const RodSide *side = &g_array_index (sides, RodSide, i);

      low = (RodPoint){ MIN (low.x, side->from.x), MIN (low.y, side->from.y) };
      high = (RodPoint){ MAX (high.x, side->from.x), MAX (high.y, side->from.y) };
      is_within = is_within && is_within_plane (side->from) && is_within_plane (apex_of (side));
    }

  wide = MAX (high.x - low.x, high.y - low.y);
  if (wide > ROD_MAX_SURFACE_MM)
    return refuse_size (wide, least, ROD_MAX_SURFACE_MM, place, error);
  if (!is_within)
    return rod_json_place_refuse (place,
                                  ROD_FILE_ERROR_SHAPE,
                                  error,
                                  _ ("found a figure that reaches further than %.0f mm from the "
                                     "origin. Move the origin to the surface."),
                                  ROD_MAX_COORDINATE_MM);
  return TRUE;
}

static gboolean
check_size (const GArray       *sides,
            double              least,
            const RodJsonPlace *place,
            GError            **error)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;
  RodPoint low, high;
  double   narrow;

  add_sides (path, sides, 0, FALSE);
  region = rod_region_normalise (path, 1);
  if (region->n_rings == 0)
    return refuse_size (0, least, ROD_MAX_SURFACE_MM, place, error);

  rod_region_extent (region, &low, &high);
  narrow = MIN (high.x - low.x, high.y - low.y);
  return narrow >= least - ROD_SNAP_MM ||
         refuse_size (narrow, least, ROD_MAX_SURFACE_MM, place, error);
}

/* A coordinate for people: no tape shows more than tenths. */
static char *
coordinate_text (double mm)
{
  return rod_json_number (round (mm * 10.0) / 10.0);
}

static gboolean
refuse_clash (const RodClash     *clash,
              const RodJsonPlace *place,
              GError            **error)
{
  g_autofree char *x = coordinate_text (clash->where.x);
  g_autofree char *y = coordinate_text (clash->where.y);

  return rod_json_place_refuse (place,
                                ROD_FILE_ERROR_SHAPE,
                                error,
                                _ ("the edges from corners [%d] and [%d] meet at x %s, y %s; "
                                   "allowed: an outline that neither crosses nor touches itself. "
                                   "Correct the corners or their order."),
                                clash->tag_a,
                                clash->tag_b,
                                x,
                                y);
}

/* Area between an arc and its chord, positive where it bends outwards. */
static double
segment_area (const RodSide *side)
{
  double angle = 4.0 * atan (side->bulge);
  double chord = rod_point_distance (side->from, side->to);
  double radius;

  if (fabs (side->bulge) < ROD_EPSILON_MM)
    return 0;
  radius = chord / (2.0 * sin (angle / 2.0));
  return radius * radius * (angle - sin (angle)) / 2.0;
}

static double
signed_area (const GArray *sides)
{
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (RodPoint));
  double area = 0;

  for (guint i = 0; i < sides->len; i++)
    {
      g_array_append_val (corners, g_array_index (sides, RodSide, i).from);
      area += segment_area (&g_array_index (sides, RodSide, i));
    }
  return area + rod_ring_area ((const RodPoint *) (const void *) corners->data, corners->len);
}

/* A figure listed by its corners. */
static gboolean
check_corners (const GPtrArray    *corners,
               double              least,
               const RodJsonPlace *place,
               GError            **error)
{
  g_autoptr (GArray) sides = rod_corners_sides (corners);
  g_autoptr (RodPath) path = rod_path_new ();
  RodClash clash;

  if (sides->len < 3)
    return rod_json_place_refuse (place,
                                  ROD_FILE_ERROR_SHAPE,
                                  error,
                                  _ ("found %u corners; allowed: 3 or more. Add the missing ones."),
                                  sides->len);
  if (!check_lengths (sides, place, error) || !check_reach (sides, least, place, error))
    return FALSE;

  add_sides (path, sides, -1, FALSE);
  if (rod_path_find_clash (path, &clash))
    return refuse_clash (&clash, place, error);
  if (signed_area (sides) < 0)
    return rod_json_place_refuse (place,
                                  ROD_FILE_ERROR_SHAPE,
                                  error,
                                  _ ("found corners in clockwise order; allowed: counter-clockwise "
                                     "as seen from the clad side. Reverse the list."));
  return check_size (sides, least, place, error);
}

static gboolean
check_length (double              length,
              const char         *name,
              const RodJsonPlace *place,
              GError            **error)
{
  RodJsonPlace     inner = rod_json_place_member (place, name);
  g_autofree char *found = NULL;
  g_autofree char *least = NULL;

  if (length >= ROD_MIN_OPENING_MM)
    return TRUE;

  found = rod_json_number (length);
  least = rod_json_number (ROD_MIN_OPENING_MM);
  return rod_json_place_refuse (&inner,
                                ROD_FILE_ERROR_SHAPE,
                                error,
                                _ ("found %s; allowed: at least %s mm. Give the opening's size."),
                                found,
                                least);
}

/* An arch keeps a piece of jamb under its springing and is no more than a half circle. */
static gboolean
check_arch (const RodOpening   *opening,
            const RodJsonPlace *place,
            GError            **error)
{
  RodJsonPlace     inner = rod_json_place_member (place, "rise_mm");
  double           most = MIN (opening->width_mm / 2.0, opening->height_mm - ROD_SNAP_MM);
  g_autofree char *found = NULL;
  g_autofree char *most_text = NULL;

  if (opening->rise_mm > 0 && opening->rise_mm <= most)
    return TRUE;

  found = rod_json_number (opening->rise_mm);
  most_text = rod_json_number (most);
  return rod_json_place_refuse (&inner,
                                ROD_FILE_ERROR_SHAPE,
                                error,
                                _ ("found %s; allowed: above 0, to %s mm (half the width, less "
                                   "than the height). A polygon with a bulge may be any other "
                                   "arc."),
                                found,
                                most_text);
}

static gboolean
check_opening (const RodOpening   *opening,
               const RodJsonPlace *place,
               GError            **error)
{
  RodJsonPlace corners_place = rod_json_place_member (place, "corners");
  g_autoptr (GArray) sides = NULL;

  if (opening->shape == ROD_SHAPE_POLYGON)
    return check_corners (opening->corners, ROD_MIN_OPENING_MM, &corners_place, error);

  if (!check_length (opening->width_mm, "width_mm", place, error) ||
      (opening->shape != ROD_SHAPE_CIRCLE &&
       !check_length (opening->height_mm, "height_mm", place, error)) ||
      (opening->shape == ROD_SHAPE_ARCH && !check_arch (opening, place, error)))
    return FALSE;

  sides = rod_opening_sides (opening);
  return check_reach (sides, ROD_MIN_OPENING_MM, place, error);
}

/* Says what is wrong with opening @index: it sticks out of the outline or overlaps another one. */
static gboolean
refuse_opening (const RodSurface   *surface,
                GPtrArray          *sides,
                guint               index,
                const RodJsonPlace *place,
                GError            **error)
{
  g_autoptr (GArray) outline = rod_corners_sides (surface->outline);

  if (figures_leave (outline, TRUE, sides->pdata[index], 1))
    return rod_json_place_refuse (place,
                                  ROD_FILE_ERROR_SHAPE,
                                  error,
                                  _ ("found an opening that reaches beyond the outline; allowed: "
                                     "within it or touching it. Move or shrink it."));

  for (guint i = 0; i < sides->len; i++)
    {
      const RodOpening *other = surface->openings->pdata[i];

      if (i != index && figures_leave (sides->pdata[i], FALSE, sides->pdata[index], 2))
        return rod_json_place_refuse (place,
                                      ROD_FILE_ERROR_SHAPE,
                                      error,
                                      _ ("found an opening that overlaps opening \"%s\"; allowed: "
                                         "apart or touching. Move one, or make both one polygon."),
                                      other->id);
    }
  return TRUE;
}

/* The opening that a ring of what remains belongs to. */
static guint
opening_of_ring (const RodRegion *region,
                 guint            ring)
{
  for (guint i = region->ring_starts[ring]; i < region->ring_starts[ring + 1]; i++)
    {
      if (region->tags[i] > 0)
        return (guint) region->tags[i] - 1;
    }
  return 0;
}

static gboolean
check_openings_together (const RodSurface   *surface,
                         GPtrArray          *sides,
                         const RodJsonPlace *place,
                         GError            **error)
{
  g_autoptr (GArray) outline = rod_corners_sides (surface->outline);
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) region = NULL;
  RodJsonPlace item;
  guint        ring, index;

  add_sides (path, outline, 0, TRUE);
  for (guint i = 0; i < sides->len; i++)
    add_sides (path, sides->pdata[i], (int) i + 1, FALSE);
  region = rod_region_normalise (path, 1);

  ring = find_substance (region);
  if (ring == region->n_rings)
    return TRUE;

  index = opening_of_ring (region, ring);
  item = rod_json_place_item (place, index);
  return refuse_opening (surface, sides, index, &item, error);
}

static gboolean
check_openings (const RodSurface   *surface,
                const RodJsonPlace *place,
                GError            **error)
{
  g_autoptr (GPtrArray) sides = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  RodJsonPlace list_place = rod_json_place_member (place, "openings");

  for (guint i = 0; i < surface->openings->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (&list_place, i);

      if (!check_opening (surface->openings->pdata[i], &item, error))
        return FALSE;
      g_ptr_array_add (sides, rod_opening_sides (surface->openings->pdata[i]));
    }
  return sides->len == 0 || check_openings_together (surface, sides, &list_place, error);
}

static gboolean
check_zones (const RodSurface   *surface,
             const RodJsonPlace *place,
             GError            **error)
{
  g_autoptr (GArray) outline = rod_corners_sides (surface->outline);
  RodJsonPlace list_place = rod_json_place_member (place, "zones");

  for (guint i = 0; i < surface->zones->len; i++)
    {
      const RodZone *zone = surface->zones->pdata[i];
      g_autoptr (GArray) sides = rod_corners_sides (zone->corners);
      RodJsonPlace item = rod_json_place_item (&list_place, i);
      RodJsonPlace corners_place = rod_json_place_member (&item, "corners");

      if (!check_corners (zone->corners, ROD_MIN_SURFACE_MM, &corners_place, error))
        return FALSE;
      if (!figures_leave (outline, FALSE, sides, 2))
        return rod_json_place_refuse (&item,
                                      ROD_FILE_ERROR_SHAPE,
                                      error,
                                      _ ("found a zone that lies outside the surface. Move it, or "
                                         "remove it."));
    }
  return TRUE;
}

gboolean
rod_surface_check_shape (const RodSurface   *surface,
                         const RodJsonPlace *place,
                         GError            **error)
{
  RodJsonPlace outline_place = rod_json_place_member (place, "outline");

  g_return_val_if_fail (surface != NULL && place != NULL, FALSE);

  return check_corners (surface->outline, ROD_MIN_SURFACE_MM, &outline_place, error) &&
         check_openings (surface, place, error) && check_zones (surface, place, error);
}
