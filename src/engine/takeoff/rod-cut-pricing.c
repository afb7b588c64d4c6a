/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Bounded knapsack by dynamic programming over the width of a bar.
 *
 * A size that fits b times is split into steps of 1, 2, 4, … pieces that add up to b, each taken or
 * not. After each step value[c] is the greatest worth that fits into width c, so that one run
 * answers for bars of every width. One bit per step and width remembers whether the step was taken;
 * walking the bits backwards gives the pattern. Widths of a house are some thousands and sizes some
 * hundreds, so a run does about a million elementary steps; it is where the solver spends its time.
 * Eight widths are therefore done at once, with the compiler's vector types, which need no
 * particular processor. The bits of the eight lanes go to eight neighbouring words.
 *
 * The single piece of a size comes as the last of its steps. What is best right before it, in a bar
 * shorter by that piece, plus the piece itself, is the best pattern in which no narrower size
 * occurs. That gives one good and different pattern per size from a single run. */

#include "engine/takeoff/rod-cut-pricing.h"

#include <string.h>

#define LANES 8
#define BLOCK (32 * LANES) /* widths whose bits fill one word per lane */

/* Largest table of bits. Beyond, first-fit and the bound of lengths have to do. */
#define MAX_TABLE_BYTES ((gsize) 64 << 20)

/* Elementary steps done in about a microsecond. */
#define STEPS_PER_EFFORT 2048

typedef gint32  Lanes __attribute__ ((vector_size (4 * LANES)));
typedef guint32 Bits __attribute__ ((vector_size (4 * LANES)));
typedef Lanes   LooseLanes __attribute__ ((aligned (4), may_alias));
typedef Bits    LooseBits __attribute__ ((aligned (4), may_alias));

typedef struct
{
  guint size;
  int   count;
} Step;

/* The best pattern that ends with one piece of a size: that piece, and the best of the first
 * n_steps steps in what it leaves of the bar. */
typedef struct
{
  guint  source;
  guint  size;
  guint  n_steps;
  gint32 worth;
  double rate; /* worth by price */
} Ending;

struct _RodCutPricing
{
  const RodCutJob *job;

  gint32  *memory; /* LANES values in front of value[0], so that vectors may start before it */
  gint32  *value;
  gsize    row_words;
  guint32 *bits; /* one row per step */
  Step    *steps;
  guint    n_steps;
  GArray  *endings; /* of Ending */
  gint32  *most;
  gint64   n_done;
};

static guint
count_steps (const RodCutJob *job)
{
  guint n_steps = 0;

  for (guint i = 0; i < job->n_sizes; i++)
    {
      int fit = MIN (job->sizes[i].count, job->widest / job->sizes[i].width);

      n_steps += 1 + g_bit_storage ((gulong) fit);
    }
  return n_steps;
}

RodCutPricing *
rod_cut_pricing_new (const RodCutJob *job)
{
  RodCutPricing *self;
  gsize          n_blocks, n_steps;

  g_return_val_if_fail (job != NULL, NULL);

  n_blocks = (gsize) job->widest / BLOCK + 1;
  n_steps = count_steps (job);
  if (n_steps * n_blocks * BLOCK / 8 > MAX_TABLE_BYTES)
    return NULL;

  self = g_new0 (RodCutPricing, 1);
  self->job = job;
  self->memory = g_new0 (gint32, LANES + n_blocks * BLOCK);
  self->value = self->memory + LANES;
  self->row_words = n_blocks * LANES;
  self->bits = g_new (guint32, n_steps * self->row_words);
  self->steps = g_new (Step, n_steps);
  self->endings = g_array_new (FALSE, FALSE, sizeof (Ending));
  self->most = g_new0 (gint32, job->n_sources);
  return self;
}

void
rod_cut_pricing_free (RodCutPricing *self)
{
  if (self == NULL)
    return;
  g_free (self->memory);
  g_free (self->bits);
  g_free (self->steps);
  g_array_unref (self->endings);
  g_free (self->most);
  g_free (self);
}

/* One step: for all widths c at once, value[c] = max (value[c], value[c − width] + worth). Going
 * down, no value is read that the step has changed already. */
static void
take_or_leave (RodCutPricing *self,
               int            width,
               gint32         worth,
               guint32       *row)
{
  gint32 *value = self->value;
  int     top = self->job->widest / LANES * LANES;
  int     low = width / LANES * LANES;

  for (int block = top / BLOCK * BLOCK; block + BLOCK > low; block -= BLOCK)
    {
      Bits taken = { 0 };

      for (int c = MIN (block + BLOCK - LANES, top); c >= MAX (block, low); c -= LANES)
        {
          Lanes without = *(const LooseLanes *) (value + c);
          Lanes with = *(const LooseLanes *) (value + c - width) + worth;
          Lanes better = with > without;

          *(LooseLanes *) (value + c) = (with & better) | (without & ~better);
          taken |= (Bits) better & (guint32) (1u << ((c - block) / LANES));
        }
      *(LooseBits *) (row + block / BLOCK * LANES) = taken;
    }
  self->n_done += self->job->widest - width;
}

static gboolean
was_taken (const RodCutPricing *self,
           guint                step,
           int                  c)
{
  const guint32 *words = self->bits + step * self->row_words + c / BLOCK * LANES;

  return (words[c % LANES] >> (c % BLOCK / LANES) & 1) != 0;
}

static void
add_step (RodCutPricing *self,
          guint          size,
          int            count,
          gint32         worth)
{
  guint32 *row = self->bits + self->n_steps * self->row_words;

  take_or_leave (self, self->job->sizes[size].width * count, worth * count, row);
  self->steps[self->n_steps].size = size;
  self->steps[self->n_steps].count = count;
  self->n_steps++;
}

static void
note_endings (RodCutPricing *self,
              guint          size,
              gint32         worth)
{
  for (guint k = 0; k < self->job->n_sources; k++)
    {
      int    left = self->job->sources[k].width - self->job->sizes[size].width;
      Ending ending = { k, size, self->n_steps, worth, 0 };

      if (left < 0)
        break; /* the widest source comes first */
      ending.worth += self->value[left];
      g_array_append_val (self->endings, ending);
    }
}

void
rod_cut_pricing_run (RodCutPricing *self,
                     const int     *counts,
                     const gint32  *worth)
{
  const RodCutJob *job = self->job;

  g_return_if_fail (counts != NULL && worth != NULL);

  /* In front of width 0 there is nothing that could ever win. */
  for (int i = 0; i < LANES; i++)
    self->memory[i] = G_MININT32 / 2;
  memset (self->value, 0, self->row_words * 32 * sizeof (gint32));
  self->n_steps = 0;
  g_array_set_size (self->endings, 0);

  for (guint i = 0; i < job->n_sizes; i++)
    {
      int fit = MIN (counts[i], job->widest / job->sizes[i].width);

      if (fit == 0 || worth[i] <= 0)
        continue;
      for (int count = 1, left = fit - 1; left > 0; left -= count, count = MIN (2 * count, left))
        add_step (self, i, count, worth[i]);
      note_endings (self, i, worth[i]);
      add_step (self, i, 1, worth[i]);
    }

  for (guint k = 0; k < job->n_sources; k++)
    self->most[k] = self->value[job->sources[k].width];
}

const gint32 *
rod_cut_pricing_get_most (const RodCutPricing *self)
{
  return self->most;
}

gint64
rod_cut_pricing_get_effort (const RodCutPricing *self)
{
  return self->n_done / STEPS_PER_EFFORT;
}

/* What the first steps put into width @c, then one piece of the ending's size. */
static RodCutPattern *
trace_pattern (const RodCutPricing *self,
               const Ending        *ending)
{
  const RodCutJob *job = self->job;
  int              c = job->sources[ending->source].width - job->sizes[ending->size].width;
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (RodCutPart));
  RodCutPart part = { ending->size, 1 };

  /* Backwards, so the narrowest size comes first. */
  for (guint step = ending->n_steps; step-- > 0;)
    {
      guint size = self->steps[step].size;
      int   count = self->steps[step].count;

      if (c < job->sizes[size].width * count || !was_taken (self, step, c))
        continue;
      c -= job->sizes[size].width * count;
      if (part.size != size)
        {
          g_array_append_val (parts, part);
          part.size = size;
          part.count = 0;
        }
      part.count += count;
    }
  g_array_append_val (parts, part);

  for (guint i = 0; i < parts->len / 2; i++)
    {
      RodCutPart *front = &g_array_index (parts, RodCutPart, i);
      RodCutPart *back = &g_array_index (parts, RodCutPart, parts->len - 1 - i);
      RodCutPart  swap = *front;

      *front = *back;
      *back = swap;
    }
  return rod_cut_pattern_new (ending->source, &g_array_index (parts, RodCutPart, 0), parts->len);
}

static int
compare_endings (gconstpointer a,
                 gconstpointer b)
{
  const Ending *one = a;
  const Ending *other = b;

  if (one->rate > other->rate || one->rate < other->rate)
    return one->rate > other->rate ? -1 : 1;
  if (one->source != other->source)
    return one->source < other->source ? -1 : 1;
  return (one->size > other->size) - (one->size < other->size);
}

GPtrArray *
rod_cut_pricing_list_patterns (const RodCutPricing *self,
                               const double        *prices,
                               guint                n_most)
{
  g_autoptr (GArray) endings = g_array_copy (self->endings);
  GPtrArray *patterns;

  for (guint i = 0; i < endings->len; i++)
    {
      Ending *ending = &g_array_index (endings, Ending, i);

      ending->rate = ending->worth / prices[ending->source];
    }
  g_array_sort (endings, compare_endings);

  patterns = g_ptr_array_new_with_free_func ((GDestroyNotify) rod_cut_pattern_unref);
  for (guint i = 0; i < MIN (endings->len, n_most); i++)
    g_ptr_array_add (patterns, trace_pattern (self, &g_array_index (endings, Ending, i)));
  return patterns;
}
