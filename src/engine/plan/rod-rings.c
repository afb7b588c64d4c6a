/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The corners of all pieces lie in one region, so that a drawing walks through one block of memory.
 * It grows field by field; what comes after a field's pieces reads them there already. */

#include "config.h"

#include "engine/plan/rod-rings.h"

void
rod_rings_init (RodRings *rings,
                RodPlan  *plan,
                guint     n_points)
{
  guint zero = 0;

  g_return_if_fail (plan->rings == NULL);

  plan->rings = rod_region_new_empty ();
  *rings = (RodRings){
    .shown = plan->rings,
    .points = g_array_sized_new (FALSE, FALSE, sizeof (RodPoint), n_points),
    .tags = g_array_sized_new (FALSE, FALSE, sizeof (int), n_points),
    .starts = g_array_sized_new (FALSE, FALSE, sizeof (guint), n_points / 4),
  };
  g_array_append_val (rings->starts, zero);
  g_free (plan->rings->ring_starts);
  rod_rings_show (rings);
}

void
rod_rings_add (RodRings  *rings,
               guint      n,
               RodPoint **points,
               int      **tags)
{
  guint start = rings->points->len;
  guint end = start + n;

  g_array_set_size (rings->points, end);
  g_array_set_size (rings->tags, end);
  g_array_append_val (rings->starts, end);
  *points = (RodPoint *) (void *) rings->points->data + start;
  *tags = (int *) (void *) rings->tags->data + start;
}

void
rod_rings_copy (RodRings        *rings,
                const RodRegion *from,
                guint            first,
                guint            n)
{
  guint start = from->ring_starts[first];
  guint n_points = from->ring_starts[first + n] - start;
  guint before = rings->points->len;

  if (n == 0)
    return;
  g_array_append_vals (rings->points, from->points + start, n_points);
  g_array_append_vals (rings->tags, from->tags + start, n_points);
  for (guint r = first + 1; r <= first + n; r++)
    {
      guint end = before + from->ring_starts[r] - start;

      g_array_append_val (rings->starts, end);
    }
}

void
rod_rings_show (RodRings *rings)
{
  rings->shown->points = (RodPoint *) (void *) rings->points->data;
  rings->shown->tags = (int *) (void *) rings->tags->data;
  rings->shown->ring_starts = (guint *) (void *) rings->starts->data;
  rings->shown->n_points = rings->points->len;
  rings->shown->n_rings = rings->starts->len - 1;
}

void
rod_rings_finish (RodRings *rings)
{
  rod_rings_show (rings);
  g_array_free (g_steal_pointer (&rings->points), FALSE);
  g_array_free (g_steal_pointer (&rings->tags), FALSE);
  g_array_free (g_steal_pointer (&rings->starts), FALSE);
}
