/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks a house across its records, after each record's own limits: first what identifies and
 * refers to what, system by system, surface by surface and join by join, then the figures. Only the
 * first mistake is reported, since later ones are often its consequence.
 */
#include "config.h"

#include "engine/files/rod-house-check.h"

#include "engine/files/rod-json.h"
#include "engine/files/rod-member-check.h"
#include "engine/files/rod-reference.h"
#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>

/* What the checks of joins look up again and again. */
typedef struct
{
  const RodHouse *house;
  GHashTable     *surfaces;     /* id → RodSurface */
  GHashTable     *joined_edges; /* RodCorner → RodJoin */
} JoinCheck;

static gboolean
check_marks (const RodHouse     *house,
             const RodJsonPlace *place,
             GError            **error)
{
  g_autoptr (GHashTable) marks = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < house->surfaces->len; i++)
    {
      const RodSurface *surface = house->surfaces->pdata[i];
      RodJsonPlace      item = rod_json_place_item (place, i);
      RodJsonPlace      mark_place = rod_json_place_member (&item, "mark");

      if (*surface->mark != '\0' && !rod_check_id_is_new (marks, surface->mark, &mark_place, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_site (const RodSite      *site,
            const RodJsonPlace *place,
            GError            **error)
{
  return rod_check_order (site->air_coldest_c,
                          site->air_hottest_c,
                          place,
                          "air_coldest_c",
                          "air_hottest_c",
                          error) &&
         rod_check_order (site->face_coldest_c,
                          site->face_hottest_c,
                          place,
                          "face_coldest_c",
                          "face_hottest_c",
                          error);
}

static gboolean
check_systems (const RodHouse     *house,
               const RodJsonPlace *place,
               GError            **error)
{
  for (guint i = 0; i < house->systems->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (place, i);

      if (!rod_system_check (house->systems->pdata[i], &item, error))
        return FALSE;
    }
  return TRUE;
}

/* What is left of an article's longest bar must be worth sawing. Where the saw takes too much the
 * saw is wrong, for lengths sold are longer than that. */
static gboolean
check_usable (const GPtrArray    *stock,
              const char         *article,
              const RodSaw       *saw,
              const RodJsonPlace *saw_place,
              GError            **error)
{
  RodJsonPlace     place = rod_json_place_member (saw_place, "end_trim_mm");
  double           usable_mm = rod_stock_longest_mm (stock, saw);
  g_autofree char *found = rod_json_number (saw->end_trim_mm);
  g_autofree char *left = rod_json_number (usable_mm);

  if (stock->len == 0 || usable_mm >= ROD_MIN_USABLE_MM)
    return TRUE;
  return rod_json_place_refuse (&place,
                                ROD_FILE_ERROR_MEMBER,
                                error,
                                _ ("found %s at either end, which leaves %s mm of the longest bar "
                                   "of \"%s\". Trim less, or add a longer stock length."),
                                found,
                                left,
                                article);
}

/* A bar whose laps take more than half of it would hardly get a run any further. */
static gboolean
check_lap (const RodTrim      *trim,
           const RodSaw       *saw,
           const RodJsonPlace *place,
           GError            **error)
{
  RodJsonPlace     lap_place = rod_json_place_member (place, "lap_mm");
  double           most_mm = rod_stock_longest_mm (trim->stock, saw) / 2.0;
  g_autofree char *found = rod_json_number (trim->lap_mm);
  g_autofree char *most = rod_json_number (most_mm);

  if (trim->lap_mm <= most_mm)
    return TRUE;
  return rod_json_place_refuse (&lap_place,
                                ROD_FILE_ERROR_MEMBER,
                                error,
                                _ ("found %s; allowed: at most %s mm, half of its longest bar."),
                                found,
                                most);
}

static gboolean
check_bars_of (const RodSystem    *system,
               const RodSaw       *saw,
               const RodJsonPlace *place,
               const RodJsonPlace *saw_place,
               GError            **error)
{
  RodJsonPlace trims_place = rod_json_place_member (place, "trims");

  for (guint i = 0; i < system->boards->len; i++)
    {
      const RodBoard *board = system->boards->pdata[i];

      if (!check_usable (board->stock, board->id, saw, saw_place, error))
        return FALSE;
    }
  for (guint i = 0; i < system->trims->len; i++)
    {
      const RodTrim *trim = system->trims->pdata[i];
      RodJsonPlace   item = rod_json_place_item (&trims_place, i);

      if (!check_usable (trim->stock, trim->id, saw, saw_place, error) ||
          !check_lap (trim, saw, &item, error))
        return FALSE;
    }
  return check_usable (system->batten->stock, system->batten->id, saw, saw_place, error) &&
         (system->counter_batten == NULL || check_usable (system->counter_batten->stock,
                                                          system->counter_batten->id,
                                                          saw,
                                                          saw_place,
                                                          error));
}

static gboolean
check_bars (const RodHouse     *house,
            const RodJsonPlace *place,
            const RodJsonPlace *saw_place,
            GError            **error)
{
  for (guint i = 0; i < house->systems->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (place, i);

      if (!check_bars_of (house->systems->pdata[i], house->saw, &item, saw_place, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_surfaces (const RodHouse     *house,
                const RodJsonPlace *place,
                GError            **error)
{
  for (guint i = 0; i < house->surfaces->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (place, i);

      if (!rod_surface_check (house->surfaces->pdata[i], house, &item, error))
        return FALSE;
    }
  return check_marks (house, place, error);
}

static gboolean
check_shapes (const RodHouse     *house,
              const RodJsonPlace *place,
              GError            **error)
{
  for (guint i = 0; i < house->surfaces->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (place, i);

      if (!rod_surface_check_shape (house->surfaces->pdata[i], &item, error))
        return FALSE;
    }
  return TRUE;
}

/* Everything of a system that has an article number on the order list. */
static GPtrArray *
list_articles (const RodSystem *system)
{
  GPtrArray *articles = rod_record_list_copy (system->boards);

  for (guint i = 0; i < system->trims->len; i++)
    g_ptr_array_add (articles, rod_record_ref (system->trims->pdata[i]));
  g_ptr_array_add (articles, rod_record_ref (system->batten));
  if (system->counter_batten != NULL)
    g_ptr_array_add (articles, rod_record_ref (system->counter_batten));
  return articles;
}

static gboolean
check_offcut (const RodOffcut    *offcut,
              const RodHouse     *house,
              const RodJsonPlace *place,
              GError            **error)
{
  g_autoptr (GPtrArray) articles = NULL;
  g_autoptr (GPtrArray) no_colours = rod_record_list_new ();
  const RodSystem *system;
  const RodBoard  *board;

  if (!rod_check_reference (offcut->system,
                            house->systems,
                            _ ("system in the house"),
                            place,
                            "system",
                            error))
    return FALSE;

  system = rod_house_find_system (house, offcut->system);
  articles = list_articles (system);
  board = rod_system_find_board (system, offcut->article);
  return rod_check_reference (offcut->article,
                              articles,
                              _ ("board, trim or batten in the system"),
                              place,
                              "article",
                              error) &&
         rod_check_reference (offcut->colour,
                              board != NULL ? board->colours : no_colours,
                              _ ("colour of the article"),
                              place,
                              "colour",
                              error);
}

static gboolean
check_rack (const RodHouse     *house,
            const RodJsonPlace *place,
            GError            **error)
{
  for (guint i = 0; i < house->rack->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (place, i);

      if (!check_offcut (house->rack->pdata[i], house, &item, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_edge_ref (const RodEdgeRef   *ref,
                JoinCheck          *check,
                const RodJoin      *join,
                const RodJsonPlace *place,
                GError            **error)
{
  const RodSurface *surface = g_hash_table_lookup (check->surfaces, ref->surface);
  RodJsonPlace      surface_place = rod_json_place_member (place, "surface");
  RodJsonPlace      edge_place = rod_json_place_member (place, "edge");
  g_autofree char  *found = rod_json_quote (ref->edge);
  const RodJoin    *other;
  int               edge;

  if (surface == NULL)
    return rod_refuse_reference (ref->surface,
                                 check->house->surfaces,
                                 _ ("surface in the house"),
                                 &surface_place,
                                 error);

  edge = rod_surface_find_edge (surface, ref->edge);
  if (edge < 0)
    return rod_json_place_refuse (&edge_place,
                                  ROD_FILE_ERROR_REFERENCE,
                                  error,
                                  _ ("found %s, but no edge of the outline of \"%s\" is called so. "
                                     "Name the edge at the corner that it leaves."),
                                  found,
                                  surface->id);

  other = g_hash_table_lookup (check->joined_edges, surface->outline->pdata[edge]);
  if (other != NULL)
    return rod_json_place_refuse (&edge_place,
                                  ROD_FILE_ERROR_REFERENCE,
                                  error,
                                  _ ("found %s, which join \"%s\" has joined already. Divide the "
                                     "edge, or remove one of the joins."),
                                  found,
                                  other->id);
  g_hash_table_insert (check->joined_edges,
                       surface->outline->pdata[edge],
                       (gpointer) (guintptr) join);
  return TRUE;
}

static gboolean
check_join (const RodJoin      *join,
            JoinCheck          *check,
            const RodJsonPlace *place,
            GError            **error)
{
  RodJsonPlace a_place = rod_json_place_member (place, "a");
  RodJsonPlace b_place = rod_json_place_member (place, "b");

  if (g_str_equal (join->a->surface, join->b->surface))
    return rod_json_place_refuse (place,
                                  ROD_FILE_ERROR_REFERENCE,
                                  error,
                                  _ ("found a join of surface \"%s\" to itself; allowed: of two "
                                     "surfaces. Correct one of them."),
                                  join->a->surface);
  return check_edge_ref (join->a, check, join, &a_place, error) &&
         check_edge_ref (join->b, check, join, &b_place, error);
}

static gboolean
check_joins (const RodHouse     *house,
             const RodJsonPlace *place,
             GError            **error)
{
  g_autoptr (GHashTable) surfaces = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) joined_edges = g_hash_table_new (NULL, NULL);
  JoinCheck check = { house, surfaces, joined_edges };

  for (guint i = 0; i < house->surfaces->len; i++)
    {
      RodSurface *surface = house->surfaces->pdata[i];

      g_hash_table_insert (surfaces, surface->id, surface);
    }
  for (guint i = 0; i < house->joins->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (place, i);

      if (!check_join (house->joins->pdata[i], &check, &item, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
rod_house_check (const RodHouse *house,
                 GError        **error)
{
  RodJsonPlace root = rod_json_place_root ("$");
  RodJsonPlace site = rod_json_place_member (&root, "site");
  RodJsonPlace saw = rod_json_place_member (&root, "saw");
  RodJsonPlace systems = rod_json_place_member (&root, "systems");
  RodJsonPlace surfaces = rod_json_place_member (&root, "surfaces");
  RodJsonPlace joins = rod_json_place_member (&root, "joins");
  RodJsonPlace rack = rod_json_place_member (&root, "rack");

  g_return_val_if_fail (house != NULL, FALSE);

  return rod_record_check (house, &root, error) && rod_check_ids (house, &root, error) &&
         check_site (house->site, &site, error) && check_systems (house, &systems, error) &&
         check_bars (house, &systems, &saw, error) &&
         check_surfaces (house, &surfaces, error) && check_joins (house, &joins, error) &&
         check_rack (house, &rack, error) && check_shapes (house, &surfaces, error);
}
