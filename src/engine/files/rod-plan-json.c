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
rod_plan_json_length (RodJsonStream *json,
                      const char    *name,
                      double         length_mm)
{
  rod_json_stream_number (json, name, length_mm, LENGTH_DECIMALS);
}

void
rod_plan_json_angle (RodJsonStream *json,
                     const char    *name,
                     double         angle_deg)
{
  rod_json_stream_number (json, name, angle_deg, ANGLE_DECIMALS);
}

void
rod_plan_json_ratio (RodJsonStream *json,
                     const char    *name,
                     double         ratio)
{
  rod_json_stream_number (json, name, ratio, RATIO_DECIMALS);
}

void
rod_plan_json_choice (RodJsonStream   *json,
                      const char      *name,
                      const RodChoice *choices,
                      int              value)
{
  rod_json_stream_text (json, name, rod_choice_nick (choices, value));
}

void
rod_plan_json_point (RodJsonStream *json,
                     const char    *name,
                     RodPoint       point)
{
  rod_json_stream_open_array (json, name);
  rod_plan_json_length (json, NULL, point.x);
  rod_plan_json_length (json, NULL, point.y);
  rod_json_stream_close (json);
}

void
rod_plan_json_map (RodJsonStream *json,
                   const char    *name,
                   RodAffine      map)
{
  rod_json_stream_open_array (json, name);
  rod_plan_json_ratio (json, NULL, map.xx);
  rod_plan_json_ratio (json, NULL, map.xy);
  rod_plan_json_length (json, NULL, map.x0);
  rod_plan_json_ratio (json, NULL, map.yx);
  rod_plan_json_ratio (json, NULL, map.yy);
  rod_plan_json_length (json, NULL, map.y0);
  rod_json_stream_close (json);
}

/* Rings [first, first + n) of a region, each a list of corners. */
void
rod_plan_json_rings (RodJsonStream   *json,
                     const char      *name,
                     const RodRegion *region,
                     guint            first,
                     guint            n)
{
  rod_json_stream_open_array (json, name);
  for (guint ring = first; ring < first + n; ring++)
    {
      rod_json_stream_open_array (json, NULL);
      for (guint i = region->ring_starts[ring]; i < region->ring_starts[ring + 1]; i++)
        rod_plan_json_point (json, NULL, region->points[i]);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
}

void
rod_plan_json_region (RodJsonStream   *json,
                      const char      *name,
                      const RodRegion *region)
{
  rod_plan_json_rings (json, name, region, 0, region->n_rings);
}

/* Takes the reckoning. */
void
rod_plan_json_reckoning (RodJsonStream *json,
                         const char    *name,
                         RodReckoning  *reckoning)
{
  g_autoptr (RodReckoning) owned = reckoning;

  rod_json_stream_open_object (json, name);
  rod_json_stream_text (json, "title", owned->title);
  rod_json_stream_text (json, "unit", owned->unit);
  rod_plan_json_length (json, "result", owned->result);
  rod_json_stream_open_array (json, "terms");
  for (guint i = 0; i < owned->terms->len; i++)
    {
      const RodTerm *term = &g_array_index (owned->terms, RodTerm, i);

      rod_json_stream_open_object (json, NULL);
      rod_plan_json_length (json, "value", term->value);
      rod_json_stream_text (json, "text", term->text);
      if (term->rule != NULL)
        rod_json_stream_text (json, "rule", term->rule);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
  rod_json_stream_close (json);
}

void
rod_plan_json_lengths (RodJsonStream *json,
                       const char    *name,
                       const double  *lengths_mm,
                       guint          n)
{
  rod_json_stream_open_array (json, name);
  for (guint i = 0; i < n; i++)
    rod_plan_json_length (json, NULL, lengths_mm[i]);
  rod_json_stream_close (json);
}
