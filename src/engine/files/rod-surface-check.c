/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks what a surface refers to: systems, boards, colours and its own edges. */
#include "config.h"

#include "engine/files/rod-house-check.h"

#include "engine/files/rod-json.h"
#include "engine/files/rod-reference.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Every colour of a mix must be one of the board's. */
static gboolean
check_colours (const RodBoard     *board,
               const char         *colour,
               const GPtrArray    *mix,
               const RodJsonPlace *place,
               GError            **error)
{
  RodJsonPlace mix_place = rod_json_place_member (place, "mix");

  if (!rod_check_reference (colour,
                            board->colours,
                            _ ("colour of its board"),
                            place,
                            "colour",
                            error))
    return FALSE;

  for (guint i = 0; mix != NULL && i < mix->len; i++)
    {
      const RodColourShare *share = mix->pdata[i];
      RodJsonPlace          item = rod_json_place_item (&mix_place, i);

      if (!rod_check_reference (share->colour,
                                board->colours,
                                _ ("colour of its board"),
                                &item,
                                "colour",
                                error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_reveal (const RodReveal    *reveal,
              const RodHouse     *house,
              const RodSystem    *system,
              const RodBoard     *board,
              const RodJsonPlace *place,
              GError            **error)
{
  const RodSystem *own_system = system;

  if (!rod_check_reference (reveal->system,
                            house->systems,
                            _ ("system in the house"),
                            place,
                            "system",
                            error))
    return FALSE;
  if (*reveal->system != '\0')
    own_system = rod_house_find_system (house, reveal->system);

  if (!rod_check_reference (reveal->board,
                            own_system->boards,
                            _ ("board in its system"),
                            place,
                            "board",
                            error))
    return FALSE;
  if (own_system != system || *reveal->board != '\0')
    board = rod_system_find_board (own_system, reveal->board);
  return check_colours (board, reveal->colour, NULL, place, error);
}

static gboolean
check_reveals (const RodSurface   *surface,
               const RodHouse     *house,
               const RodSystem    *system,
               const RodJsonPlace *place,
               GError            **error)
{
  const RodBoard *board = rod_system_find_board (system, surface->board);
  RodJsonPlace    openings_place = rod_json_place_member (place, "openings");

  for (guint i = 0; i < surface->openings->len; i++)
    {
      const RodOpening *opening = surface->openings->pdata[i];
      RodJsonPlace      item = rod_json_place_item (&openings_place, i);
      RodJsonPlace      reveal_place = rod_json_place_member (&item, "reveal");

      if (opening->reveal != NULL &&
          !check_reveal (opening->reveal, house, system, board, &reveal_place, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_zones (const RodSurface   *surface,
             const RodSystem    *system,
             const RodJsonPlace *place,
             GError            **error)
{
  RodJsonPlace zones_place = rod_json_place_member (place, "zones");

  for (guint i = 0; i < surface->zones->len; i++)
    {
      const RodZone *zone = surface->zones->pdata[i];
      const char    *board = *zone->board != '\0' ? zone->board : surface->board;
      RodJsonPlace   item = rod_json_place_item (&zones_place, i);

      if (!rod_check_reference (zone->board,
                                system->boards,
                                _ ("board in its system"),
                                &item,
                                "board",
                                error))
        return FALSE;
      if (!check_colours (rod_system_find_board (system, board),
                          zone->colour,
                          zone->mix,
                          &item,
                          error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_edge_ids (const GPtrArray    *corners,
                GHashTable         *ids,
                const RodJsonPlace *place,
                GError            **error)
{
  for (guint i = 0; i < corners->len; i++)
    {
      const RodCorner *corner = corners->pdata[i];
      RodJsonPlace     item = rod_json_place_item (place, i);
      RodJsonPlace     edge_place = rod_json_place_member (&item, "edge");

      if (*corner->edge != '\0' && !rod_check_id_is_new (ids, corner->edge, &edge_place, error))
        return FALSE;
    }
  return TRUE;
}

/* Edges of the outline and of openings share one set of names: sheets call edges by them. */
static gboolean
check_edges (const RodSurface   *surface,
             const RodJsonPlace *place,
             GError            **error)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  RodJsonPlace outline_place = rod_json_place_member (place, "outline");
  RodJsonPlace openings_place = rod_json_place_member (place, "openings");

  if (!check_edge_ids (surface->outline, ids, &outline_place, error))
    return FALSE;

  for (guint i = 0; i < surface->openings->len; i++)
    {
      const RodOpening *opening = surface->openings->pdata[i];
      RodJsonPlace      item = rod_json_place_item (&openings_place, i);
      RodJsonPlace      corners_place = rod_json_place_member (&item, "corners");

      if (!check_edge_ids (opening->corners, ids, &corners_place, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
refuse_pin (const RodJsonPlace *place,
            const char         *member,
            const char         *allowed,
            GError            **error)
{
  RodJsonPlace member_place = rod_json_place_member (place, member);

  return rod_json_place_refuse (&member_place, ROD_FILE_ERROR_MEMBER, error, "%s", allowed);
}

static gboolean
check_pin_edge (const RodPin       *pin,
                const RodSurface   *surface,
                const RodJsonPlace *place,
                GError            **error)
{
  RodJsonPlace     edge_place = rod_json_place_member (place, "edge");
  g_autofree char *found = rod_json_quote (pin->edge);

  if (*pin->edge == '\0' || rod_surface_find_edge (surface, pin->edge) >= 0)
    return TRUE;
  return rod_json_place_refuse (&edge_place,
                                ROD_FILE_ERROR_REFERENCE,
                                error,
                                _ ("found %s, but no edge of the outline of \"%s\" is called so. "
                                   "Name the edge at the corner that it leaves."),
                                found,
                                surface->id);
}

/* What each kind of pin must say. */
static gboolean
check_pin (const RodPin       *pin,
           const RodSurface   *surface,
           const RodJsonPlace *place,
           GError            **error)
{
  gboolean at_edge = *pin->edge != '\0';
  gboolean at_opening = *pin->opening != '\0';

  if (!check_pin_edge (pin, surface, place, error) ||
      !rod_check_reference (pin->opening,
                            surface->openings,
                            _ ("opening in the surface"),
                            place,
                            "opening",
                            error))
    return FALSE;
  if (pin->kind == ROD_PIN_LINE && isnan (pin->at_mm))
    return refuse_pin (place, "at_mm", _ ("found nothing; a line needs its place."), error);
  if (pin->kind == ROD_PIN_WHOLE && !at_edge && !at_opening)
    return refuse_pin (place,
                       "edge",
                       _ ("found nothing; a whole board needs its edge, or an opening."),
                       error);
  if (pin->kind == ROD_PIN_WHOLE && at_edge && at_opening)
    return refuse_pin (place,
                       "opening",
                       _ ("found an opening beside an edge. Name either; a second pin may ask for "
                          "the other."),
                       error);
  return TRUE;
}

static gboolean
check_pins (const RodSurface   *surface,
            const RodJsonPlace *place,
            GError            **error)
{
  RodJsonPlace pins_place = rod_json_place_member (place, "pins");

  for (guint i = 0; i < surface->pins->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (&pins_place, i);

      if (!check_pin (surface->pins->pdata[i], surface, &item, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
rod_surface_check (const RodSurface   *surface,
                   const RodHouse     *house,
                   const RodJsonPlace *place,
                   GError            **error)
{
  const RodSystem *system;

  g_return_val_if_fail (surface != NULL && house != NULL && place != NULL, FALSE);

  if (!rod_check_reference (surface->system,
                            house->systems,
                            _ ("system in the house"),
                            place,
                            "system",
                            error))
    return FALSE;

  system = rod_house_find_system (house, surface->system);
  return rod_check_reference (surface->board,
                              system->boards,
                              _ ("board in its system"),
                              place,
                              "board",
                              error) &&
         check_colours (rod_system_find_board (system, surface->board),
                        surface->colour,
                        surface->mix,
                        place,
                        error) &&
         check_reveals (surface, house, system, place, error) &&
         check_zones (surface, system, place, error) && check_edges (surface, place, error) &&
         check_pins (surface, place, error) &&
         rod_check_order (surface->starter_low_mm,
                          surface->starter_high_mm,
                          place,
                          "starter_low_mm",
                          "starter_high_mm",
                          error);
}
