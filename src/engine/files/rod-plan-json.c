/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the plan is made of, in JSON: lengths, points, maps, rings, reckonings. */
#include "config.h"

#include "engine/files/rod-plan-json.h"

/* A micrometre; a thousandth of a degree, which is 0.1 mm on a board of 6 m; and for factors that
 * act on coordinates up to a kilometre as much as a double holds. */
#define LENGTH_DECIMALS 3
#define ANGLE_DECIMALS 3
#define RATIO_DECIMALS 12

void
rod_plan_json_length (RodJsonWriter *writer,
                      const char    *name,
                      double         length_mm)
{
  rod_json_writer_number (writer, name, length_mm, LENGTH_DECIMALS);
}

void
rod_plan_json_angle (RodJsonWriter *writer,
                     const char    *name,
                     double         angle_deg)
{
  rod_json_writer_number (writer, name, angle_deg, ANGLE_DECIMALS);
}

void
rod_plan_json_ratio (RodJsonWriter *writer,
                     const char    *name,
                     double         ratio)
{
  rod_json_writer_number (writer, name, ratio, RATIO_DECIMALS);
}

void
rod_plan_json_choice (RodJsonWriter   *writer,
                      const char      *name,
                      const RodChoice *choices,
                      int              value)
{
  rod_json_writer_text (writer, name, rod_choice_nick (choices, value));
}

void
rod_plan_json_point (RodJsonWriter *writer,
                     const char    *name,
                     RodPoint       point)
{
  rod_json_writer_open_array (writer, name);
  rod_plan_json_length (writer, NULL, point.x);
  rod_plan_json_length (writer, NULL, point.y);
  rod_json_writer_close (writer);
}

void
rod_plan_json_map (RodJsonWriter *writer,
                   const char    *name,
                   RodAffine      map)
{
  rod_json_writer_open_array (writer, name);
  rod_plan_json_ratio (writer, NULL, map.xx);
  rod_plan_json_ratio (writer, NULL, map.xy);
  rod_plan_json_length (writer, NULL, map.x0);
  rod_plan_json_ratio (writer, NULL, map.yx);
  rod_plan_json_ratio (writer, NULL, map.yy);
  rod_plan_json_length (writer, NULL, map.y0);
  rod_json_writer_close (writer);
}

/* Rings [first, first + n) of a region, each a list of corners. */
void
rod_plan_json_rings (RodJsonWriter   *writer,
                     const char      *name,
                     const RodRegion *region,
                     guint            first,
                     guint            n)
{
  rod_json_writer_open_array (writer, name);
  for (guint ring = first; ring < first + n; ring++)
    {
      rod_json_writer_open_array (writer, NULL);
      for (guint i = region->ring_starts[ring]; i < region->ring_starts[ring + 1]; i++)
        rod_plan_json_point (writer, NULL, region->points[i]);
      rod_json_writer_close (writer);
    }
  rod_json_writer_close (writer);
}

void
rod_plan_json_region (RodJsonWriter   *writer,
                      const char      *name,
                      const RodRegion *region)
{
  rod_plan_json_rings (writer, name, region, 0, region->n_rings);
}

/* Takes the reckoning. */
void
rod_plan_json_reckoning (RodJsonWriter *writer,
                         const char    *name,
                         RodReckoning  *reckoning)
{
  g_autoptr (RodReckoning) owned = reckoning;

  rod_json_writer_open_object (writer, name);
  rod_json_writer_text (writer, "title", owned->title);
  rod_json_writer_text (writer, "unit", owned->unit);
  rod_plan_json_length (writer, "result", owned->result);
  rod_json_writer_open_array (writer, "terms");
  for (guint i = 0; i < owned->terms->len; i++)
    {
      const RodTerm *term = &g_array_index (owned->terms, RodTerm, i);

      rod_json_writer_open_object (writer, NULL);
      rod_plan_json_length (writer, "value", term->value);
      rod_json_writer_text (writer, "text", term->text);
      if (term->rule != NULL)
        rod_json_writer_text (writer, "rule", term->rule);
      rod_json_writer_close (writer);
    }
  rod_json_writer_close (writer);
  rod_json_writer_close (writer);
}

void
rod_plan_json_lengths (RodJsonWriter *writer,
                       const char    *name,
                       const double  *lengths_mm,
                       guint          n)
{
  rod_json_writer_open_array (writer, name);
  for (guint i = 0; i < n; i++)
    rod_plan_json_length (writer, NULL, lengths_mm[i]);
  rod_json_writer_close (writer);
}
