/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Patterns, what they leave to be cut, and plans made of them. */

#include "engine/takeoff/rod-cut-scheme.h"

#include <string.h>

RodCutPattern *
rod_cut_pattern_new (guint             source,
                     const RodCutPart *parts,
                     guint             n_parts)
{
  RodCutPattern *pattern;

  g_return_val_if_fail (parts != NULL && n_parts > 0, NULL);

  pattern = g_rc_box_alloc (sizeof *pattern + n_parts * sizeof *parts);
  pattern->source = source;
  pattern->n_parts = n_parts;
  memcpy (pattern->parts, parts, n_parts * sizeof *parts);
  return pattern;
}

RodCutPattern *
rod_cut_pattern_ref (RodCutPattern *pattern)
{
  g_return_val_if_fail (pattern != NULL, NULL);

  return g_rc_box_acquire (pattern);
}

void
rod_cut_pattern_unref (RodCutPattern *pattern)
{
  g_return_if_fail (pattern != NULL);

  g_rc_box_release (pattern);
}

int
rod_cut_pattern_compare (const RodCutPattern *a,
                         const RodCutPattern *b)
{
  if (a->source != b->source)
    return a->source < b->source ? -1 : 1;

  for (guint i = 0; i < MIN (a->n_parts, b->n_parts); i++)
    {
      if (a->parts[i].size != b->parts[i].size)
        return a->parts[i].size < b->parts[i].size ? -1 : 1;
      if (a->parts[i].count != b->parts[i].count)
        return a->parts[i].count > b->parts[i].count ? -1 : 1;
    }
  return (a->n_parts < b->n_parts) - (a->n_parts > b->n_parts);
}

RodCutRest *
rod_cut_rest_new (const RodCutJob *job)
{
  RodCutRest *rest;

  g_return_val_if_fail (job != NULL, NULL);

  rest = g_new (RodCutRest, 1);
  rest->counts = g_new (int, job->n_sizes);
  for (guint i = 0; i < job->n_sizes; i++)
    rest->counts[i] = job->sizes[i].count;
  rest->limits = g_new (int, job->n_sources);
  for (guint k = 0; k < job->n_sources; k++)
    rest->limits[k] = job->sources[k].limit;
  rest->n_pieces = job->n_pieces;
  return rest;
}

RodCutRest *
rod_cut_rest_copy (const RodCutRest *rest,
                   const RodCutJob  *job)
{
  RodCutRest *copy = g_new (RodCutRest, 1);

  copy->counts = g_memdup2 (rest->counts, job->n_sizes * sizeof (int));
  copy->limits = g_memdup2 (rest->limits, job->n_sources * sizeof (int));
  copy->n_pieces = rest->n_pieces;
  return copy;
}

void
rod_cut_rest_free (RodCutRest *rest)
{
  if (rest == NULL)
    return;
  g_free (rest->counts);
  g_free (rest->limits);
  g_free (rest);
}

int
rod_cut_rest_room_for (const RodCutRest    *rest,
                       const RodCutPattern *pattern)
{
  int room = rest->limits[pattern->source];

  for (guint i = 0; i < pattern->n_parts && room > 0; i++)
    room = MIN (room, rest->counts[pattern->parts[i].size] / pattern->parts[i].count);
  return room;
}

void
rod_cut_rest_take (RodCutRest          *rest,
                   const RodCutPattern *pattern,
                   int                  count)
{
  g_return_if_fail (count >= 0 && count <= rod_cut_rest_room_for (rest, pattern));

  for (guint i = 0; i < pattern->n_parts; i++)
    {
      rest->counts[pattern->parts[i].size] -= count * pattern->parts[i].count;
      rest->n_pieces -= count * pattern->parts[i].count;
    }
  if (rest->limits[pattern->source] != ROD_CUT_UNLIMITED)
    rest->limits[pattern->source] -= count;
}

static void
clear_use (gpointer use)
{
  rod_cut_pattern_unref (((RodCutUse *) use)->pattern);
}

RodCutScheme *
rod_cut_scheme_new (void)
{
  RodCutScheme *scheme = g_new0 (RodCutScheme, 1);

  scheme->uses = g_array_new (FALSE, FALSE, sizeof (RodCutUse));
  g_array_set_clear_func (scheme->uses, clear_use);
  return scheme;
}

RodCutScheme *
rod_cut_scheme_copy (const RodCutScheme *scheme)
{
  RodCutScheme *copy = rod_cut_scheme_new ();

  rod_cut_scheme_add_scheme (copy, scheme);
  return copy;
}

void
rod_cut_scheme_free (RodCutScheme *scheme)
{
  if (scheme == NULL)
    return;
  g_array_unref (scheme->uses);
  g_free (scheme);
}

void
rod_cut_scheme_add (RodCutScheme    *scheme,
                    const RodCutJob *job,
                    RodCutPattern   *pattern,
                    int              count)
{
  RodCutUse use;

  g_return_if_fail (count >= 1);

  use.pattern = rod_cut_pattern_ref (pattern);
  use.count = count;
  g_array_append_val (scheme->uses, use);
  scheme->cost += count * job->sources[pattern->source].price;
}

void
rod_cut_scheme_add_scheme (RodCutScheme       *scheme,
                           const RodCutScheme *other)
{
  for (guint i = 0; i < other->uses->len; i++)
    rod_cut_pattern_ref (g_array_index (other->uses, RodCutUse, i).pattern);
  g_array_append_vals (scheme->uses, other->uses->data, other->uses->len);
  scheme->cost += other->cost;
}

static int
compare_uses (gconstpointer a,
              gconstpointer b)
{
  const RodCutUse *one = a;
  const RodCutUse *other = b;

  return rod_cut_pattern_compare (one->pattern, other->pattern);
}

void
rod_cut_scheme_tidy (RodCutScheme *scheme)
{
  guint i = 1;

  g_array_sort (scheme->uses, compare_uses);
  while (i < scheme->uses->len)
    {
      RodCutUse       *last = &g_array_index (scheme->uses, RodCutUse, i - 1);
      const RodCutUse *use = &g_array_index (scheme->uses, RodCutUse, i);

      if (rod_cut_pattern_compare (last->pattern, use->pattern) != 0)
        i++;
      else
        {
          last->count += use->count;
          g_array_remove_index (scheme->uses, i);
        }
    }
}
