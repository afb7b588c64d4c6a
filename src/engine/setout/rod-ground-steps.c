/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A base in steps over falling ground. The base is cut into bays, from batten to batten; the
 * highest ground under a bay says which joint line is the lowest it may stand on. Runs that are too
 * short then take in a lower bay beside them, from the highest down, or are lifted to their
 * neighbour where none is lower: bays are only ever raised, so that clearance is kept. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-ground-steps.h"

/* Bays and the joint line each stands on, counted from the phase. */
typedef struct
{
  const RodGround *ground;
  double          *places; /* n + 1 of them */
  int             *levels;
  guint            n;
} Stair;

static double
ground_at (const RodGround *ground,
           double           x)
{
  guint    i = 1;
  RodPoint a, b;

  while (i + 1 < ground->n && ground->line[i].x < x)
    i++;
  a = ground->line[i - 1];
  b = ground->line[i];
  return a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
}

static double
highest_between (const RodGround *ground,
                 double           from,
                 double           to)
{
  double highest = MAX (ground_at (ground, from), ground_at (ground, to));

  for (guint i = 0; i < ground->n; i++)
    if (ground->line[i].x > from && ground->line[i].x < to)
      highest = MAX (highest, ground->line[i].y);
  return highest;
}

static void
lay_bays (Stair *stair)
{
  const RodGround *ground = stair->ground;
  RodPoint         left = ground->line[0];
  RodPoint         right = ground->line[ground->n - 1];
  gboolean         from_left = left.y >= right.y;
  double           length_mm = right.x - left.x;

  stair->n = (guint) MAX (ceil ((length_mm - ROD_SNAP_MM) / ground->bay_mm), 1.0);
  stair->places = g_new (double, stair->n + 1);
  stair->levels = g_new (int, stair->n);
  for (guint i = 0; i <= stair->n; i++)
    stair->places[i] = from_left ? left.x + i * ground->bay_mm
                                 : right.x - (stair->n - i) * ground->bay_mm;
  stair->places[0] = left.x;
  stair->places[stair->n] = right.x;
  for (guint i = 0; i < stair->n; i++)
    {
      double least_mm = highest_between (ground, stair->places[i], stair->places[i + 1]) +
                        ground->clearance_mm - ground->phase_mm;

      stair->levels[i] = (int) ceil ((least_mm - ROD_EPSILON_MM) / ground->cover_mm);
    }
}

/* How many bays from @first on stand on one line. */
static guint
run_length (const Stair *stair,
            guint        first)
{
  guint n = 1;

  while (first + n < stair->n && stair->levels[first + n] == stair->levels[first])
    n++;
  return n;
}

/* The highest of the runs that are too short. */
static gboolean
find_short (const Stair *stair,
            guint       *first,
            guint       *n)
{
  gboolean found = FALSE;

  for (guint i = 0, run; i < stair->n; i += run)
    {
      run = run_length (stair, i);
      if (run == stair->n || stair->places[i + run] - stair->places[i] >=
                               stair->ground->least_run_mm - ROD_EPSILON_MM)
        continue;
      if (found && stair->levels[i] <= stair->levels[*first])
        continue;
      found = TRUE;
      *first = i;
      *n = run;
    }
  return found;
}

/* Takes in a lower bay on either side, the higher of two, or rises to the lower neighbour. */
static void
lengthen (Stair *stair,
          guint  first,
          guint  n)
{
  int own = stair->levels[first];
  int left = first > 0 ? stair->levels[first - 1] : G_MAXINT;
  int right = first + n < stair->n ? stair->levels[first + n] : G_MAXINT;

  if (left < own && (right > own || right <= left))
    stair->levels[first - 1] = own;
  else if (right < own)
    stair->levels[first + n] = own;
  else
    for (guint i = first; i < first + n; i++)
      stair->levels[i] = MIN (left, right);
}

GArray *
rod_ground_steps (const RodGround *ground)
{
  Stair   stair = { .ground = ground };
  GArray *treads = g_array_new (FALSE, FALSE, sizeof (RodTread));
  guint   first, n;

  g_return_val_if_fail (ground != NULL && ground->n >= 2, treads);
  g_return_val_if_fail (ground->cover_mm > 0.0 && ground->bay_mm > 0.0, treads);

  lay_bays (&stair);
  while (find_short (&stair, &first, &n))
    lengthen (&stair, first, n);
  for (first = 0; first < stair.n; first += n)
    {
      RodTread tread;

      n = run_length (&stair, first);
      tread = (RodTread){
        .from_mm = stair.places[first],
        .to_mm = stair.places[first + n],
        .line_mm = ground->phase_mm + stair.levels[first] * ground->cover_mm,
      };
      g_array_append_val (treads, tread);
    }
  g_free (stair.places);
  g_free (stair.levels);
  return treads;
}
