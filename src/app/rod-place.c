/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places of a planned house: what they are called, where they lie in the net, and what lies under a
 * point.
 *
 * Finding what lies under the pointer walks the faces and the pieces of one face: a few thousand
 * comparisons for a house, less than a frame's drawing, so there is no index to keep in step.
 */
#include "config.h"

#include "app/rod-place.h"

#include <glib/gi18n.h>

#include "sheets/rod-contour.h"
#include "sheets/rod-figures.h"

RodPlace
rod_place_house (void)
{
  return (RodPlace){ .kind = ROD_PLACE_HOUSE };
}

RodPlace
rod_place_face (guint face)
{
  return (RodPlace){ .kind = ROD_PLACE_FACE, .face = face };
}

RodPlace
rod_place_opening (guint face,
                   guint opening)
{
  return (RodPlace){ .kind = ROD_PLACE_OPENING, .face = face, .index = opening };
}

RodPlace
rod_place_piece (const RodPlan *plan,
                 guint          piece)
{
  g_return_val_if_fail (plan != NULL, rod_place_house ());
  g_return_val_if_fail (piece < plan->pieces->len, rod_place_house ());

  return (RodPlace){
    .kind = ROD_PLACE_PIECE,
    .face = rod_plan_field (plan, rod_plan_piece (plan, piece)->field)->face,
    .index = piece,
  };
}

RodPlace
rod_place_of_finding (const RodPlan    *plan,
                      const RodFinding *finding)
{
  g_return_val_if_fail (plan != NULL, rod_place_house ());
  g_return_val_if_fail (finding != NULL, rod_place_house ());

  if (finding->piece >= 0 && (guint) finding->piece < plan->pieces->len)
    return rod_place_piece (plan, (guint) finding->piece);
  if (finding->face >= 0 && (guint) finding->face < plan->faces->len)
    return rod_place_face ((guint) finding->face);

  return rod_place_house ();
}

gboolean
rod_place_equal (RodPlace a,
                 RodPlace b)
{
  return a.kind == b.kind && a.face == b.face && a.index == b.index;
}

gboolean
rod_place_exists (RodPlace       place,
                  const RodPlan *plan)
{
  if (plan == NULL)
    return FALSE;
  if (place.kind == ROD_PLACE_HOUSE)
    return TRUE;
  if (place.face >= plan->faces->len)
    return FALSE;

  switch (place.kind)
    {
    case ROD_PLACE_OPENING:
      return place.index < rod_plan_face (plan, place.face)->surface->openings->len;

    case ROD_PLACE_PIECE:
      return place.index < plan->pieces->len;

    case ROD_PLACE_HOUSE:
    case ROD_PLACE_FACE:
    default:
      return TRUE;
    }
}

const RodOpening *
rod_place_opening_of (RodPlace       place,
                      const RodPlan *plan)
{
  g_return_val_if_fail (place.kind == ROD_PLACE_OPENING, NULL);
  g_return_val_if_fail (rod_place_exists (place, plan), NULL);

  return g_ptr_array_index (rod_plan_face (plan, place.face)->surface->openings, place.index);
}

static void
widen (RodPoint *low,
       RodPoint *high,
       RodPoint  point)
{
  low->x = MIN (low->x, point.x);
  low->y = MIN (low->y, point.y);
  high->x = MAX (high->x, point.x);
  high->y = MAX (high->y, point.y);
}

static void
widen_by_contour (RodPoint     *low,
                  RodPoint     *high,
                  const GArray *contour,
                  RodAffine     map)
{
  for (guint i = 0; i < contour->len; i++)
    widen (low, high, rod_affine_apply (map, g_array_index (contour, RodPoint, i)));
}

static void
widen_by_piece (RodPoint       *low,
                RodPoint       *high,
                const RodPlan  *plan,
                const RodPiece *piece,
                RodAffine       map)
{
  const RodRegion *rings = plan->rings;

  for (guint i = rings->ring_starts[piece->first_ring];
       i < rings->ring_starts[piece->first_ring + 1];
       i++)
    widen (low, high, rod_affine_apply (map, rings->points[i]));
}

void
rod_place_extent (RodPlace       place,
                  const RodPlan *plan,
                  RodAffine      map,
                  RodPoint      *low,
                  RodPoint      *high)
{
  g_return_if_fail (rod_place_exists (place, plan));
  g_return_if_fail (place.kind != ROD_PLACE_HOUSE);
  g_return_if_fail (low != NULL && high != NULL);

  *low = (RodPoint){ G_MAXDOUBLE, G_MAXDOUBLE };
  *high = (RodPoint){ -G_MAXDOUBLE, -G_MAXDOUBLE };

  if (place.kind == ROD_PLACE_PIECE)
    {
      widen_by_piece (low, high, plan, rod_plan_piece (plan, place.index), map);
    }
  else
    {
      g_autoptr (GArray) contour =
        place.kind == ROD_PLACE_OPENING
          ? rod_contour_opening (rod_place_opening_of (place, plan))
          : rod_contour_outline (rod_plan_face (plan, place.face)->surface);

      widen_by_contour (low, high, contour, map);
    }
}

/* Whether a ring encloses a point, by counting crossings of the ray to the right. */
static gboolean
ring_encloses (const RodPoint *points,
               guint           n_points,
               RodPoint        point)
{
  gboolean inside = FALSE;

  for (guint i = 0; i < n_points; i++)
    {
      RodPoint a = points[i];
      RodPoint b = points[(i + 1) % n_points];

      if ((a.y > point.y) != (b.y > point.y) &&
          point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x))
        inside = !inside;
    }

  return inside;
}

static gboolean
piece_covers (const RodPlan  *plan,
              const RodPiece *piece,
              RodPoint        point)
{
  const RodRegion *rings = plan->rings;
  gboolean         inside = FALSE;

  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    inside ^= ring_encloses (rings->points + rings->ring_starts[r],
                             rings->ring_starts[r + 1] - rings->ring_starts[r],
                             point);

  return inside;
}

static gboolean
contour_encloses (const GArray *contour,
                  RodPoint      point)
{
  return ring_encloses ((const RodPoint *) contour->data, contour->len, point);
}

static gboolean
opening_covers (const RodOpening *opening,
                RodPoint          point)
{
  g_autoptr (GArray) contour = rod_contour_opening (opening);

  return contour_encloses (contour, point);
}

/* An opening or a board of a face. */
static gboolean
find_part (const RodPlan *plan,
           guint          index,
           RodPoint       point,
           RodPlace      *place)
{
  const RodFace *face = rod_plan_face (plan, index);

  for (guint i = 0; i < face->surface->openings->len; i++)
    if (opening_covers (g_ptr_array_index (face->surface->openings, i), point))
      {
        *place = rod_place_opening (index, i);
        return TRUE;
      }

  for (guint f = face->first_field; f < face->first_field + face->n_fields; f++)
    {
      const RodField *field = rod_plan_field (plan, f);

      for (guint i = field->first_piece; i < field->first_piece + field->n_pieces; i++)
        if (piece_covers (plan, rod_plan_piece (plan, i), point))
          {
            *place = rod_place_piece (plan, i);
            return TRUE;
          }
    }

  return FALSE;
}

static gboolean
find_face (const RodPlan *plan,
           guint          index,
           RodPoint       point,
           RodPlace      *place)
{
  g_autoptr (GArray) contour = rod_contour_outline (rod_plan_face (plan, index)->surface);

  if (!contour_encloses (contour, point))
    return FALSE;

  *place = rod_place_face (index);

  return TRUE;
}

typedef gboolean (*Finder) (const RodPlan *plan,
                            guint          face,
                            RodPoint       point,
                            RodPlace      *place);

static gboolean
find_foremost (const RodPlan   *plan,
               const RodAffine *net,
               RodPoint         point,
               gboolean         derived,
               Finder           find,
               RodPlace        *place)
{
  for (guint i = plan->faces->len; i-- > 0;)
    if (derived == (rod_plan_face (plan, i)->opening >= 0) &&
        find (plan, i, rod_affine_apply (rod_affine_invert (net[i]), point), place))
      return TRUE;

  return FALSE;
}

gboolean
rod_place_at (const RodPlan   *plan,
              const RodAffine *net,
              RodPoint         point,
              RodPlace        *place)
{
  g_return_val_if_fail (plan != NULL, FALSE);
  g_return_val_if_fail (net != NULL, FALSE);
  g_return_val_if_fail (place != NULL, FALSE);

  return find_foremost (plan, net, point, TRUE, find_part, place) ||
         find_foremost (plan, net, point, FALSE, find_part, place) ||
         find_foremost (plan, net, point, FALSE, find_face, place);
}

char *
rod_place_describe (RodPlace       place,
                    const RodPlan *plan)
{
  g_return_val_if_fail (rod_place_exists (place, plan), NULL);

  if (place.kind == ROD_PLACE_HOUSE)
    return g_strdup_printf (ngettext ("%s, %u surface", "%s, %u surfaces", plan->faces->len),
                            plan->house->name,
                            plan->faces->len);

  if (place.kind == ROD_PLACE_FACE)
    {
      const RodFace   *face = rod_plan_face (plan, place.face);
      guint            pieces = 0;
      g_autofree char *area =
        rod_figures_area (plan->house->units, rod_region_area (face->bare));

      for (guint i = 0; i < face->n_fields; i++)
        pieces += rod_plan_field (plan, face->first_field + i)->n_pieces;
      /* Translators: a surface: its name, its area, its boards. */
      return g_strdup_printf (ngettext ("%s, %s, %u piece", "%s, %s, %u pieces", pieces),
                              face->label,
                              area,
                              pieces);
    }

  if (place.kind == ROD_PLACE_OPENING)
    {
      const RodOpening *opening = rod_place_opening_of (place, plan);
      g_autofree char  *width = NULL;
      g_autofree char  *height = NULL;
      RodPoint          low;
      RodPoint          high;

      rod_place_extent (place, plan, rod_affine_identity (), &low, &high);
      width = rod_figures_length (plan->house->units, high.x - low.x);
      height = rod_figures_length_unit (plan->house->units, high.y - low.y);
      /* Translators: an opening, such as "Kitchen window", its wall, its width and height. */
      return g_strdup_printf (_ ("%s in %s, %s × %s"),
                              opening->name[0] != '\0' ? opening->name : opening->id,
                              rod_plan_face (plan, place.face)->label,
                              width,
                              height);
    }
  else
    {
      const RodPiece  *piece = rod_plan_piece (plan, place.index);
      g_autofree char *length = rod_figures_length_unit (plan->house->units, piece->length_mm);
      g_autofree char *width = rod_figures_length_unit (plan->house->units, piece->width_mm);

      /* Translators: a board: its mark, its surface, its length, its width, its screws. */
      return g_strdup_printf (ngettext ("Board %s on %s, %s long, %s wide, %d screw",
                                        "Board %s on %s, %s long, %s wide, %d screws",
                                        (gulong) piece->screws),
                              piece->mark,
                              rod_plan_face (plan, place.face)->label,
                              length,
                              width,
                              piece->screws);
    }
}
