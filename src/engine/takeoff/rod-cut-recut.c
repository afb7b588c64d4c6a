/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Large-neighbourhood search (Shaw 1998). A dive fixes most of the linear program's solution at
 * once; where that is nearly whole, other dives end the same way, with a few pieces left over for
 * which there is waste enough, only scattered over other bars. Taking a few of those bars apart
 * and diving into this small job gathers it. A part as cheap but different is kept as well: the
 * next try starts from another plan. */

#include "engine/takeoff/rod-cut-recut.h"

#include "engine/takeoff/rod-cut-rounding.h"

/* Pieces in the bars taken apart. */
#define MIN_PIECES 10
#define MAX_PIECES 80

/* A bar without waste is as likely to be taken as one that wastes this part of the widest. */
#define SHARE_WITHOUT_WASTE 20

typedef struct
{
  guint  use;
  double score;
} Choice;

typedef struct
{
  RodCutQuest     *quest;
  const RodCutJob *job;
  GRand           *rand;
  RodCutScheme    *kept;  /* what is not taken apart */
  RodCutScheme    *apart; /* what is */
  RodCutRest      *rest;  /* the pieces that come out of it, and the bars */
} Recut;

static int
compare_scores (gconstpointer a,
                gconstpointer b)
{
  const Choice *one = a;
  const Choice *other = b;

  if (one->score > other->score || one->score < other->score)
    return one->score > other->score ? -1 : 1;
  return (one->use > other->use) - (one->use < other->use);
}

static int
get_waste (const RodCutJob     *job,
           const RodCutPattern *pattern)
{
  int waste = job->sources[pattern->source].width;

  for (guint i = 0; i < pattern->n_parts; i++)
    waste -= pattern->parts[i].count * job->sizes[pattern->parts[i].size].width;
  return waste;
}

static int
count_pieces (const RodCutPattern *pattern)
{
  int n_pieces = 0;

  for (guint i = 0; i < pattern->n_parts; i++)
    n_pieces += pattern->parts[i].count;
  return n_pieces;
}

/* All bars of a scheme, one by one, in the order in which to take them apart. */
static GArray *
order_bars (Recut              *recut,
            const RodCutScheme *scheme)
{
  GArray *choices = g_array_new (FALSE, FALSE, sizeof (Choice));
  int     least = recut->job->widest / SHARE_WITHOUT_WASTE;

  for (guint i = 0; i < scheme->uses->len; i++)
    {
      const RodCutUse *use = &g_array_index (scheme->uses, RodCutUse, i);
      int              waste = get_waste (recut->job, use->pattern) + least;

      for (int j = 0; j < use->count; j++)
        {
          Choice choice = { i, waste * g_rand_double (recut->rand) };

          g_array_append_val (choices, choice);
        }
    }
  g_array_sort (choices, compare_scores);
  return choices;
}

/* Splits the scheme into what is kept and what is taken apart. */
static void
take_apart (Recut              *recut,
            const RodCutScheme *scheme)
{
  g_autoptr (GArray) choices = order_bars (recut, scheme);
  int wanted = g_rand_int_range (recut->rand, MIN_PIECES, MAX_PIECES);

  recut->kept = rod_cut_scheme_new ();
  recut->apart = rod_cut_scheme_new ();
  recut->rest = rod_cut_rest_new (recut->job);
  for (guint i = 0; i < choices->len; i++)
    {
      guint          use = g_array_index (choices, Choice, i).use;
      RodCutPattern *pattern = g_array_index (scheme->uses, RodCutUse, use).pattern;

      if (wanted > 0)
        {
          rod_cut_scheme_add (recut->apart, recut->job, pattern, 1);
          wanted -= count_pieces (pattern);
        }
      else
        {
          rod_cut_scheme_add (recut->kept, recut->job, pattern, 1);
          rod_cut_rest_take (recut->rest, pattern, 1);
        }
    }
}

/* Plans what was taken apart. Returns a scheme no dearer than it was, or NULL. */
static RodCutScheme *
plan_part (Recut  *recut,
           guint32 seed)
{
  RodCutColumns   *columns = recut->quest->columns;
  RodCutMaster    *master = rod_cut_columns_get_master (columns);
  gint64           cost = recut->apart->cost;
  gint64           effort = rod_cut_quest_get_columns_effort (recut->quest);
  RodCutGoal       goal = { recut->quest->bound - recut->kept->cost, cost, effort };
  RodCutDive       dive = { recut->rest, 0, cost + 1, seed, effort };
  RodCutRelaxation relaxation;

  rod_cut_master_return_to_root (master);
  rod_cut_master_set_rest (master, recut->rest);
  if (!rod_cut_columns_generate (columns, recut->rest, &goal, &relaxation))
    return NULL;
  dive.bound = MAX (goal.enough, relaxation.bound);
  return rod_cut_rounding_dive (recut->job, columns, &dive);
}

static void
try_part (Recut  *recut,
          guint32 seed)
{
  RodCutQuest *quest = recut->quest;
  g_autoptr (RodCutScheme) part = NULL;

  take_apart (recut, quest->best);
  part = plan_part (recut, seed);
  if (part != NULL)
    {
      rod_cut_scheme_add_scheme (recut->kept, part);
      rod_cut_scheme_tidy (recut->kept);
      rod_cut_scheme_free (quest->best);
      quest->best = g_steal_pointer (&recut->kept);
    }
  g_clear_pointer (&recut->kept, rod_cut_scheme_free);
  g_clear_pointer (&recut->apart, rod_cut_scheme_free);
  g_clear_pointer (&recut->rest, rod_cut_rest_free);
}

void
rod_cut_recut (RodCutQuest *quest,
               guint        n_tries)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  Recut recut = { .quest = quest, .job = quest->job, .rand = rand };

  for (guint i = 0; i < n_tries && !rod_cut_quest_is_over (quest); i++)
    try_part (&recut, i);
}
