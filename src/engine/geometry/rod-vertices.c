/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Points that count as one when they lie within a radius, found through a hash of square cells.
 *
 * A cell is at least twice the radius wide, so a circle round any point reaches into four cells at
 * most, and a power of two wide, since shifting costs a tenth of dividing. A surface has some
 * hundred points, now and then a hundred thousand; looking one up takes the same time. */

#include "engine/geometry/rod-geometry-private.h"

#define LEAST_BUCKETS 16
#define HASH_BITS 64

static const guint64 hash_factor_x = G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
static const guint64 hash_factor_y = G_GUINT64_CONSTANT (0xc2b2ae3d27d4eb4f);

static guint
hash_cell (const RodVertices *vertices,
           guint64            column,
           guint64            row)
{
  return (guint) ((column * hash_factor_x + row * hash_factor_y) >> vertices->hash_shift);
}

/* The offset keeps coordinates positive, where a shift rounds down. */
static guint64
cell_of (const RodVertices *vertices,
         gint64             coordinate)
{
  return (guint64) (coordinate + 2 * ROD_GRID_MAX) >> vertices->cell_shift;
}

static guint
bucket_of (const RodVertices *vertices,
           RodGridPoint       point)
{
  return hash_cell (vertices, cell_of (vertices, point.x), cell_of (vertices, point.y));
}

static void
insert_into_bucket (RodVertices *vertices,
                    guint        vertex)
{
  guint bucket = bucket_of (vertices, vertices->points[vertex]);

  vertices->next_in_bucket[vertex] = vertices->buckets[bucket];
  vertices->buckets[bucket] = vertex;
}

static void
make_buckets (RodVertices *vertices,
              guint        n_buckets)
{
  vertices->hash_shift = HASH_BITS;
  for (vertices->n_buckets = 1; vertices->n_buckets < n_buckets; vertices->n_buckets *= 2)
    vertices->hash_shift--;

  vertices->buckets = g_renew (guint, vertices->buckets, vertices->n_buckets);
  for (guint i = 0; i < vertices->n_buckets; i++)
    vertices->buckets[i] = ROD_NO_INDEX;
}

void
rod_vertices_init (RodVertices *vertices,
                   gint64       radius,
                   guint        n_expected)
{
  *vertices = (RodVertices){ .radius = radius };
  while ((G_GINT64_CONSTANT (1) << vertices->cell_shift) < 2 * radius)
    vertices->cell_shift++;
  vertices->room = MAX (n_expected, LEAST_BUCKETS);
  vertices->points = g_new (RodGridPoint, vertices->room);
  vertices->next_in_bucket = g_new (guint, vertices->room);
  make_buckets (vertices, 2 * vertices->room);
}

void
rod_vertices_clear (RodVertices *vertices)
{
  g_clear_pointer (&vertices->points, g_free);
  g_clear_pointer (&vertices->next_in_bucket, g_free);
  g_clear_pointer (&vertices->buckets, g_free);
  vertices->n_points = 0;
}

/* The nearest vertex in one bucket that beats @best; the older one wins a tie. */
static guint
find_in_bucket (const RodVertices *vertices,
                guint              bucket,
                RodGridPoint       point,
                guint              best,
                double            *best_distance)
{
  for (guint i = vertices->buckets[bucket]; i != ROD_NO_INDEX; i = vertices->next_in_bucket[i])
    {
      double distance = rod_grid_distance_squared (vertices->points[i], point);

      if (distance < *best_distance || (distance <= *best_distance && i < best))
        {
          best = i;
          *best_distance = distance;
        }
    }
  return best;
}

/* The vertex nearest to @point within the radius, or ROD_NO_INDEX. */
guint
rod_vertices_find (const RodVertices *vertices,
                   RodGridPoint       point)
{
  gint64  radius = vertices->radius;
  guint64 left = cell_of (vertices, point.x - radius);
  guint64 right = cell_of (vertices, point.x + radius);
  guint64 bottom = cell_of (vertices, point.y - radius);
  guint64 top = cell_of (vertices, point.y + radius);
  double  best_distance = (double) (radius * radius);
  guint   best = ROD_NO_INDEX;

  for (guint64 column = left; column <= right; column++)
    for (guint64 row = bottom; row <= top; row++)
      best = find_in_bucket (vertices,
                             hash_cell (vertices, column, row),
                             point,
                             best,
                             &best_distance);
  return best;
}

/* Adds a vertex, however near its neighbours are. */
guint
rod_vertices_add (RodVertices *vertices,
                  RodGridPoint point)
{
  guint added = vertices->n_points++;

  if (added == vertices->room)
    {
      vertices->room *= 2;
      vertices->points = g_renew (RodGridPoint, vertices->points, vertices->room);
      vertices->next_in_bucket = g_renew (guint, vertices->next_in_bucket, vertices->room);
      make_buckets (vertices, 2 * vertices->room);
      for (guint i = 0; i < added; i++)
        insert_into_bucket (vertices, i);
    }
  vertices->points[added] = point;
  insert_into_bucket (vertices, added);
  return added;
}

guint
rod_vertices_find_or_add (RodVertices *vertices,
                          RodGridPoint point)
{
  guint found = rod_vertices_find (vertices, point);

  return found != ROD_NO_INDEX ? found : rod_vertices_add (vertices, point);
}
