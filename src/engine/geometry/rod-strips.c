/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Strips between parallel lines, and their parts between length joints. Both are the same band walk
 * (rod-band-walk.c), the second with the plane turned by a quarter. */

#include "engine/geometry/rod-geometry-private.h"

/* Strips hold a few corners each; this many a corner of the region is seldom outgrown. */
#define CORNERS_EXPECTED 8

void
rod_strips_builder_init (RodStripsBuilder *builder,
                         guint             points_room)
{
  *builder = (RodStripsBuilder){ .source = ROD_NO_INDEX };
  rod_region_builder_init (&builder->rings, points_room);
}

void
rod_strips_builder_add (RodStripsBuilder *builder,
                        RodStrip          strip,
                        RodPoint          low)
{
  if (builder->n_strips == builder->strips_room)
    {
      builder->strips_room = 2 * builder->strips_room + 64;
      builder->strips = g_renew (RodStrip, builder->strips, builder->strips_room);
      builder->lows = g_renew (RodPoint, builder->lows, builder->strips_room);
    }
  strip.source = builder->source == ROD_NO_INDEX ? builder->n_strips : builder->source;
  builder->strips[builder->n_strips] = strip;
  builder->lows[builder->n_strips++] = low;
}

static RodStrips *
finish_strips (RodStripsBuilder *builder)
{
  RodStrips *strips = g_new0 (RodStrips, 1);

  strips->rings = rod_region_builder_finish (&builder->rings);
  strips->strips = g_steal_pointer (&builder->strips);
  strips->n_strips = builder->n_strips;
  g_clear_pointer (&builder->lows, g_free);
  return strips;
}

/* The lines at phase + k·pitch from @first to @last. */
static gint64 *
lay_lines (double phase,
           double pitch,
           int    first,
           int    last)
{
  gint64 *lines = g_new (gint64, last - first + 1);

  for (int k = first; k <= last; k++)
    lines[k - first] = rod_grid_from_mm (phase + k * pitch);
  return lines;
}

RodStrips *
rod_strips_cut (const RodRegion *region,
                double           phase,
                double           pitch)
{
  RodComb            comb = { .tag_below = ROD_TAG_LINE_BELOW, .tag_above = ROD_TAG_LINE_ABOVE };
  RodStripsBuilder   builder;
  RodBandWalk        walk;
  RodPoint           low, high;
  g_autofree gint64 *lines = NULL;
  int                first, last;

  g_return_val_if_fail (region != NULL, NULL);
  g_return_val_if_fail (isfinite (phase), NULL);
  g_return_val_if_fail (isfinite (pitch) && pitch > ROD_SNAP_MM, NULL);

  rod_strips_builder_init (&builder, CORNERS_EXPECTED * region->n_points);
  if (region->n_points == 0)
    return finish_strips (&builder);

  rod_region_extent (region, &low, &high);
  first = (int) floor ((low.y - phase) / pitch);
  last = (int) ceil ((high.y - phase) / pitch);
  lines = lay_lines (phase, pitch, first, last);
  comb.lines = lines;
  comb.n_lines = (guint) (last - first + 1);

  rod_band_walk_init (&walk, comb, FALSE);
  rod_band_walk_load (&walk, region, 0, region->n_rings);
  rod_band_walk_make_chains (&walk);
  rod_band_walk_pair_ends (&walk);
  for (guint band = 0; band <= walk.comb.n_lines; band++)
    rod_band_walk_gather (&walk, band, first + (int) band - 1, &builder);
  rod_band_walk_clear (&walk);
  return finish_strips (&builder);
}

/* The columns that are lines of their own, those too near the one before left out. */
static guint
take_columns (const double *columns,
              guint         n_columns,
              gint64       *lines)
{
  guint n = 0;

  for (guint i = 0; i < n_columns; i++)
    {
      gint64 line = rod_grid_from_mm (columns[i]);

      if (n == 0 || line >= lines[n - 1] + ROD_SNAP_GRID)
        lines[n++] = line;
    }
  return n;
}

static void
find_reach (const RodStrips *strips,
            const RodStrip  *strip,
            RodPoint        *low,
            RodPoint        *high)
{
  const guint *starts = strips->rings->ring_starts + strip->first_ring;

  *low = *high = strips->rings->points[starts[0]];
  for (guint i = starts[0] + 1; i < starts[1]; i++)
    {
      RodPoint point = strips->rings->points[i];

      low->x = MIN (low->x, point.x);
      high->x = MAX (high->x, point.x);
      low->y = MIN (low->y, point.y);
    }
}

void
rod_strip_extent (const RodStrips *strips,
                  guint            strip,
                  double          *low,
                  double          *high)
{
  RodPoint least, most;

  g_return_if_fail (strips != NULL && strip < strips->n_strips);

  find_reach (strips, &strips->strips[strip], &least, &most);
  *low = least.x;
  *high = most.x;
}

static void
copy_strip (RodStripsBuilder *builder,
            const RodStrips  *strips,
            const RodStrip   *strip,
            RodPoint          low)
{
  const RodRegion *rings = strips->rings;
  RodStrip         copy = { strip->course, builder->rings.region->n_rings, strip->n_rings };

  rod_strips_builder_add (builder, copy, low);
  for (guint ring = strip->first_ring; ring < strip->first_ring + strip->n_rings; ring++)
    {
      guint     start = rings->ring_starts[ring];
      guint     n_points = rings->ring_starts[ring + 1] - start;
      int      *tags;
      RodPoint *points = rod_region_builder_reserve (&builder->rings, n_points, &tags);

      memcpy (points, rings->points + start, n_points * sizeof (RodPoint));
      memcpy (tags, rings->tags + start, n_points * sizeof (int));
      rod_region_builder_commit (&builder->rings, n_points);
    }
}

static void
split_strip (RodBandWalk      *walk,
             RodComb           columns,
             const RodStrips  *strips,
             const RodStrip   *strip,
             RodStripsBuilder *builder)
{
  RodPoint low, high;
  gint64   left, right;

  find_reach (strips, strip, &low, &high);
  left = rod_grid_from_mm (low.x);
  right = rod_grid_from_mm (high.x);
  while (columns.n_lines > 0 && columns.lines[0] <= left)
    {
      columns.lines++;
      columns.n_lines--;
    }
  while (columns.n_lines > 0 && columns.lines[columns.n_lines - 1] >= right)
    columns.n_lines--;
  if (columns.n_lines == 0)
    {
      copy_strip (builder, strips, strip, low);
      return;
    }

  walk->comb = columns;
  rod_band_walk_load (walk, strips->rings, strip->first_ring, strip->n_rings);
  rod_band_walk_make_chains (walk);
  rod_band_walk_pair_ends (walk);
  for (guint band = 0; band <= columns.n_lines; band++)
    rod_band_walk_gather (walk, band, strip->course, builder);
}

/* Whether strip @b has to stand before strip @a: courses stay as they are. */
static gboolean
comes_before (const RodStripsBuilder *builder,
              guint                   b,
              guint                   a)
{
  RodPoint low = builder->lows[b];
  RodPoint other = builder->lows[a];

  if (builder->strips[b].course != builder->strips[a].course)
    return FALSE;
  return low.x < other.x || (low.x <= other.x && low.y < other.y);
}

/* Parts of strips that lie over each other in one course have to be put in order again. Few do, so
 * moving them one by one is quick. */
static void
sort_parts (RodStripsBuilder *builder)
{
  for (guint i = 1; i < builder->n_strips; i++)
    for (guint j = i; j > 0 && comes_before (builder, j, j - 1); j--)
      {
        RodStrip strip = builder->strips[j];
        RodPoint low = builder->lows[j];

        builder->strips[j] = builder->strips[j - 1];
        builder->lows[j] = builder->lows[j - 1];
        builder->strips[j - 1] = strip;
        builder->lows[j - 1] = low;
      }
}

/* Splits with one list of places for all strips, or with @starts a list for each. */
static RodStrips *
split_strips (const RodStrips *strips,
              const double    *places,
              guint            n_places,
              const guint     *starts)
{
  RodStripsBuilder   builder;
  RodBandWalk        walk;
  g_autofree gint64 *lines = NULL;
  RodComb            comb = { .tag_below = ROD_TAG_COLUMN_LEFT,
                              .tag_above = ROD_TAG_COLUMN_RIGHT };

  lines = g_new (gint64, n_places);
  comb.lines = lines;
  if (starts == NULL)
    comb.n_lines = take_columns (places, n_places, lines);
  rod_strips_builder_init (&builder, 2 * strips->rings->n_points);
  rod_band_walk_init (&walk, comb, TRUE);
  for (guint i = 0; i < strips->n_strips; i++)
    {
      builder.source = i;
      if (starts != NULL)
        comb.n_lines = take_columns (places + starts[i], starts[i + 1] - starts[i], lines);
      split_strip (&walk, comb, strips, &strips->strips[i], &builder);
    }
  rod_band_walk_clear (&walk);

  sort_parts (&builder);
  return finish_strips (&builder);
}

RodStrips *
rod_strips_split (const RodStrips *strips,
                  const double    *columns,
                  guint            n_columns)
{
  g_return_val_if_fail (strips != NULL, NULL);
  g_return_val_if_fail (columns != NULL || n_columns == 0, NULL);

  return split_strips (strips, columns, n_columns, NULL);
}

RodStrips *
rod_strips_split_each (const RodStrips *strips,
                       const double    *places,
                       const guint     *starts)
{
  g_return_val_if_fail (strips != NULL, NULL);
  g_return_val_if_fail (starts != NULL, NULL);
  g_return_val_if_fail (places != NULL || starts[strips->n_strips] == 0, NULL);

  return split_strips (strips, places, starts[strips->n_strips], starts);
}

void
rod_strips_free (RodStrips *strips)
{
  if (strips == NULL)
    return;

  rod_region_unref (strips->rings);
  g_free (strips->strips);
  g_free (strips);
}
