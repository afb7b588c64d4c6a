/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Courses and their parts. Columns split whole fields at once; the few strips that are better left
 * whole are then taken from the uncut courses instead of the split ones. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-columns.h"
#include "engine/takeoff/rod-parts.h"

const RodPoint *
rod_part_ring (const RodPart *part,
               guint          ring,
               const int    **tags,
               guint         *n)
{
  const RodRegion *rings = part->set->rings;
  guint            start = rings->ring_starts[part->strip->first_ring + ring];

  *tags = rings->tags + start;
  *n = rings->ring_starts[part->strip->first_ring + ring + 1] - start;
  return rings->points + start;
}

static void
part_extent (const RodPart *part,
             double        *low,
             double        *high)
{
  const int      *tags;
  guint           n;
  const RodPoint *points = rod_part_ring (part, 0, &tags, &n);

  *low = INFINITY;
  *high = -INFINITY;
  for (guint i = 0; i < n; i++)
    {
      *low = MIN (*low, points[i].x);
      *high = MAX (*high, points[i].x);
    }
}

static gboolean
stays_whole (const RodPlan  *plan,
             const RodField *field,
             const RodPart  *part)
{
  double least_mm = rod_plan_face (plan, field->face)->system->rules->min_piece_mm;
  double low, high;

  part_extent (part, &low, &high);
  if (high - low > rod_field_longest_mm (plan, field))
    return FALSE;
  for (guint c = 0; c < field->n_columns; c++)
    if (field->columns[c] > low && field->columns[c] < high &&
        (field->columns[c] - low < least_mm || high - field->columns[c] < least_mm))
      return TRUE;
  return FALSE;
}

static void
add_part (RodParts        *parts,
          const RodStrips *set,
          guint            strip)
{
  RodPart part = { set, &set->strips[strip] };

  g_array_append_val (parts->parts, part);
}

/* Goes through the split strips, which are in laying order, and takes each or, once, the strip it
 * was split from. */
static void
take_parts (RodParts       *parts,
            const RodPlan  *plan,
            const RodField *field)
{
  g_autofree gboolean *taken = g_new0 (gboolean, parts->courses->n_strips);

  for (guint s = 0; s < parts->split->n_strips; s++)
    {
      guint   source = parts->split->strips[s].source;
      RodPart whole = { parts->courses, &parts->courses->strips[source] };

      if (!stays_whole (plan, field, &whole))
        add_part (parts, parts->split, s);
      else if (!taken[source])
        add_part (parts, parts->courses, source);
      taken[source] = TRUE;
    }
}

void
rod_parts_init (RodParts      *parts,
                const RodPlan *plan,
                RodField      *field)
{
  parts->courses = rod_strips_cut (field->pocket, field->phase_mm, field->board->cover_mm);
  parts->split = NULL;
  parts->parts = g_array_new (FALSE, FALSE, sizeof (RodPart));
  rod_columns_place (plan, field, parts->courses);
  if (field->n_columns == 0)
    {
      for (guint s = 0; s < parts->courses->n_strips; s++)
        add_part (parts, parts->courses, s);
      return;
    }
  parts->split = rod_strips_split (parts->courses, field->columns, field->n_columns);
  take_parts (parts, plan, field);
}

void
rod_parts_clear (RodParts *parts)
{
  g_clear_pointer (&parts->courses, rod_strips_free);
  g_clear_pointer (&parts->split, rod_strips_free);
  g_clear_pointer (&parts->parts, g_array_unref);
}
