/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Member tables of the house and its joins. */
#include "config.h"

#include "engine/model/rod-house.h"

#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>
#include <math.h>

const RodChoice rod_units_choices[] = {
  { ROD_UNITS_METRIC, "metric", N_ ("Metric") },
  { ROD_UNITS_IMPERIAL, "imperial", N_ ("Imperial") },
  { 0, NULL, NULL },
};

/* clang-format off */
static const RodMember edge_ref_members[] = {
  ROD_ROW (RodEdgeRef, surface, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Id of a surface."),
  ROD_ROW (RodEdgeRef, edge, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier of one of the edges of its outline."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_edge_ref_type = {
  .name = "edge-ref",
  .doc = "An edge of a surface's outline.",
  .size = sizeof (RodEdgeRef),
  .members = edge_ref_members,
};

/* clang-format off */
static const RodMember join_members[] = {
  ROD_ROW (RodJoin, id, TEXT, .flags = ROD_MEMBER_REQUIRED | ROD_MEMBER_IDENTIFIER,
           .doc = "Identifier within the house."),
  ROD_ROW (RodJoin, a, RECORD, .flags = ROD_MEMBER_REQUIRED, .of = &rod_edge_ref_type,
           .doc = "One edge."),
  ROD_ROW (RodJoin, b, RECORD, .flags = ROD_MEMBER_REQUIRED, .of = &rod_edge_ref_type,
           .doc = "The other edge."),
  ROD_ROW (RodJoin, fold_deg, NUMBER, .min = -175, .max = 175, .fallback = 90, .unit = "°",
           .doc = "How far b turns away from the viewer about the shared edge: 90 at a square "
                  "outside corner, -90 at an inside corner or ceiling line, 0 in one plane."),
  ROD_ROW (RodJoin, carries_joints, FLAG, .fallback = TRUE,
           .doc = "Whether joint lines must meet here."),
  ROD_ROW (RodJoin, offset_mm, NUMBER, .min = -ROD_MAX_COORDINATE_MM, .max = ROD_MAX_COORDINATE_MM,
           .unit = "mm",
           .doc = "Where the edges are not matched by level: the start of b's edge lies this far "
                  "beyond the end of a's edge, measured along a."),
  ROD_ROW (RodJoin, mirrors, FLAG,
           .doc = "Where boards of both run along the edge: whether their first joint lines lie "
                  "equally far from it."),
  ROD_ROW (RodJoin, takes_misfit, FLAG,
           .doc = "Whether lines may miss here, rather than elsewhere, when a chain of joins does "
                  "not close."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_join_type = {
  .name = "join",
  .doc = "Ties an edge of one surface to an edge of another.",
  .size = sizeof (RodJoin),
  .members = join_members,
};

/* clang-format off */
static const RodMember house_members[] = {
  ROD_ROW (RodHouse, format, TEXT, .flags = ROD_MEMBER_REQUIRED, .fallback_text = "storeyrod-house",
           .doc = "Says what the file is."),
  ROD_ROW (RodHouse, version, INTEGER, .flags = ROD_MEMBER_REQUIRED, .min = 1, .max = 1,
           .fallback = 1, .doc = "Version of the format."),
  ROD_ROW (RodHouse, name, TEXT, .doc = "Name of the job."),
  ROD_ROW (RodHouse, place, TEXT, .doc = "Where it is."),
  ROD_ROW (RodHouse, client, TEXT, .doc = "For whom."),
  ROD_ROW (RodHouse, author, TEXT, .doc = "Who drew it."),
  ROD_ROW (RodHouse, units, CHOICE, .fallback = ROD_UNITS_METRIC, .choices = rod_units_choices,
           .doc = "Units on screen and paper; files are always in millimetres."),
  ROD_ROW (RodHouse, survey_tolerance_mm, NUMBER, .max = 200, .fallback = 5, .unit = "mm",
           .doc = "How far a measured line may be off."),
  ROD_ROW (RodHouse, aims, LIST, .max = ROD_N_AIMS, .of = &rod_aim_type,
           .doc = "The aims that come first in a set-out; the others follow in the usual order."),
  ROD_ROW (RodHouse, seen_weights, RECORD, .flags = ROD_MEMBER_FILLED,
           .of = &rod_seen_weights_type,
           .doc = "How much strips count in the set-out by where they are seen."),
  ROD_ROW (RodHouse, site, RECORD, .flags = ROD_MEMBER_FILLED, .of = &rod_site_type,
           .doc = "Climate."),
  ROD_ROW (RodHouse, saw, RECORD, .flags = ROD_MEMBER_FILLED, .of = &rod_saw_type, .doc = "Saw."),
  ROD_ROW (RodHouse, buying, RECORD, .flags = ROD_MEMBER_FILLED, .of = &rod_buying_type,
           .doc = "How to order."),
  ROD_ROW (RodHouse, rack, LIST, .of = &rod_offcut_type, .doc = "Lengths owned already."),
  ROD_ROW (RodHouse, systems, LIST, .max = 100, .of = &rod_system_type, .doc = "The systems used."),
  ROD_ROW (RodHouse, surfaces, LIST, .of = &rod_surface_type, .doc = "Surfaces."),
  ROD_ROW (RodHouse, joins, LIST, .of = &rod_join_type, .doc = "Joins."),
  ROD_ROWS_END,
};
/* clang-format on */

const RodType rod_house_type = {
  .name = "house",
  .doc = "A house: the document.",
  .size = sizeof (RodHouse),
  .members = house_members,
  .format = "storeyrod-house",
  .version = 1,
};

double
rod_stock_longest_mm (const GPtrArray *stock,
                      const RodSaw    *saw)
{
  double longest_mm = 0.0;

  g_return_val_if_fail (stock != NULL && saw != NULL, 0.0);

  for (guint i = 0; i < stock->len; i++)
    longest_mm = MAX (longest_mm, ((const RodStock *) stock->pdata[i])->length_mm);
  return floor (longest_mm + ROD_EPSILON_MM) - 2.0 * ceil (saw->end_trim_mm - ROD_EPSILON_MM);
}

const RodSystem *
rod_house_find_system (const RodHouse *house,
                       const char     *id)
{
  g_return_val_if_fail (house != NULL && id != NULL, NULL);

  for (guint i = 0; i < house->systems->len; i++)
    {
      const RodSystem *system = house->systems->pdata[i];

      if (g_str_equal (system->id, id))
        return system;
    }
  return NULL;
}

const RodSurface *
rod_house_find_surface (const RodHouse *house,
                        const char     *id)
{
  g_return_val_if_fail (house != NULL && id != NULL, NULL);

  for (guint i = 0; i < house->surfaces->len; i++)
    {
      const RodSurface *surface = house->surfaces->pdata[i];

      if (g_str_equal (surface->id, id))
        return surface;
    }
  return NULL;
}

RodHouse *
rod_house_with_surface (const RodHouse *house,
                        RodSurface     *surface)
{
  RodHouse  *edited;
  GPtrArray *surfaces;

  g_return_val_if_fail (house != NULL && surface != NULL, NULL);
  g_return_val_if_fail (rod_house_find_surface (house, surface->id) != NULL, NULL);

  edited = rod_record_copy (house);
  surfaces = rod_record_list_new ();
  for (guint i = 0; i < house->surfaces->len; i++)
    {
      RodSurface *old = house->surfaces->pdata[i];
      gboolean    replaced = g_str_equal (old->id, surface->id);

      g_ptr_array_add (surfaces, replaced ? surface : rod_record_ref (old));
    }
  rod_record_take_list (edited, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  return edited;
}

RodHouse *
rod_house_free_lines (const RodHouse *house)
{
  RodHouse  *freed;
  GPtrArray *surfaces;

  g_return_val_if_fail (house != NULL, NULL);

  surfaces = rod_record_list_copy (house->surfaces);
  for (guint i = 0; i < surfaces->len; i++)
    {
      RodSurface *surface = surfaces->pdata[i];

      if (isnan (surface->joint_line_mm))
        continue;
      surfaces->pdata[i] = rod_record_copy (surface);
      rod_record_unref (surface);
      surface = surfaces->pdata[i];
      surface->joint_line_mm = NAN;
    }
  freed = rod_record_copy (house);
  rod_record_take_list (freed, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  return freed;
}
