/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Which part of a surface a field is, before any line is moved: asked point by point, by counting
 * the edges of each ring that pass to the point's right. */

#include "config.h"

#include "engine/plan/rod-field.h"

/* Whether a point lies within the ring of edges [first, first + n). */
static gboolean
is_in_ring (const RodField *field,
            guint           first,
            guint           n,
            RodPoint        at)
{
  gboolean inside = FALSE;

  for (guint e = first; e < first + n; e++)
    {
      RodPoint a = field->edges[e].raw.from, b = field->edges[e].raw.to;

      if ((a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x))
        inside = !inside;
    }
  return inside;
}

static gboolean
same_ring (const RodEdge *a,
           const RodEdge *b)
{
  return a->opening == b->opening && a->zone == b->zone;
}

gboolean
rod_field_contains (const RodField *field,
                    RodPoint        at)
{
  guint n;

  for (guint first = 0; first < field->n_edges; first += n)
    {
      const RodEdge *edge = &field->edges[first];

      for (n = 1; first + n < field->n_edges && same_ring (edge, &field->edges[first + n]); n++)
        ;
      if (is_in_ring (field, first, n, at) == edge->turned)
        return FALSE;
    }
  return TRUE;
}
