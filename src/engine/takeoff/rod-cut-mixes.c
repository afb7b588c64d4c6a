/* SPDX-License-Identifier: GPL-3.0-or-later */

/* With several prices the linear program's bound is weak: it buys fractions of bars. But the cost
 * of a plan is decided by its mix of stock alone, and there are few mixes between the bound and the
 * best plan. This is Benders decomposition: a small integer problem chooses the mix, the linear
 * program over patterns says whether the mix can give all pieces.
 *
 * When it cannot, the program's values are the reason. Pieces of worth y and bars that hold at most
 * worth V say that Σ V n ≥ Σ y d for every mix n of a plan, in whole numbers and so without doubt.
 * The mix at hand fails that, and so do many others, which then need no program of their own. When
 * it can, a dive within the mix looks for whole bars. */

#include "engine/takeoff/rod-cut-mixes.h"

#include "engine/takeoff/rod-cut-mix-list.h"
#include "engine/takeoff/rod-cut-rounding.h"

#include <string.h>

/* Dives into each mix, and how often all mixes of a window are gone through. */
#define DIVES_PER_PASS 3
#define MAX_PASSES 4

/* In a window that holds too many mixes to list, so many possible ones are dived into. */
#define MAX_POSSIBLE 20

#define MAX_WINDOWS 200

typedef struct
{
  RodCutQuest   *quest;
  RodCutMixList *list;
  gboolean       complete; /* all mixes of the window are listed */
  gboolean       reached;  /* the bound has come up to the window */
} Search;

/* The whole job, with no more bars than the mix has. */
static RodCutRest *
limit_to_mix (const RodCutJob *job,
              const RodCutMix *mix)
{
  RodCutRest *rest = rod_cut_rest_new (job);

  memcpy (rest->limits, mix->bars, (job->n_sources - 1) * sizeof (int));
  return rest;
}

/* Asks the linear program whether a mix can give all pieces, in fractions of bars. If not, the
 * reason is added to the needs. */
static gboolean
is_possible (Search          *search,
             const RodCutMix *mix)
{
  RodCutColumns *columns = search->quest->columns;
  RodCutMaster  *master = rod_cut_columns_get_master (columns);
  g_autoptr (RodCutRest) rest = limit_to_mix (search->quest->job, mix);
  RodCutGoal       goal = { mix->cost, mix->cost + 1, 0 };
  RodCutRelaxation relaxation;

  goal.effort = rod_cut_quest_get_columns_effort (search->quest);
  rod_cut_master_return_to_root (master);
  rod_cut_master_set_rest (master, rest);
  rod_cut_columns_generate (columns, rest, &goal, &relaxation);
  rod_cut_master_keep_root (master);
  if (relaxation.bound <= mix->cost)
    return TRUE;

  rod_cut_mix_list_add_need (search->list,
                             rod_cut_columns_get_worth (columns),
                             rod_cut_columns_get_most (columns));
  return FALSE;
}

static void
dive_into_mix (Search          *search,
               const RodCutMix *mix,
               guint            pass)
{
  RodCutQuest  *quest = search->quest;
  RodCutMaster *master = rod_cut_columns_get_master (quest->columns);
  g_autoptr (RodCutRest) rest = limit_to_mix (quest->job, mix);

  for (guint i = 0; i < DIVES_PER_PASS && quest->best->cost > mix->cost; i++)
    {
      RodCutDive dive = { rest, mix->cost, quest->best->cost, pass * DIVES_PER_PASS + i, 0 };

      dive.effort = rod_cut_quest_get_columns_effort (quest);
      rod_cut_master_return_to_root (master);
      rod_cut_master_set_rest (master, rest);
      if (rod_cut_quest_is_over (quest) || !rod_cut_master_solve (master))
        return;
      rod_cut_quest_offer (quest, rod_cut_rounding_dive (quest->job, quest->columns, &dive));
    }
}

/* Goes through the listed mixes once. Raises the bound to the cheapest that has not been refuted.
 * Returns how many have not been. */
static guint
try_mixes (Search *search,
           guint   pass)
{
  RodCutQuest *quest = search->quest;
  guint        n_possible = 0;

  for (guint i = 0; i < rod_cut_mix_list_get_n_mixes (search->list); i++)
    {
      const RodCutMix *mix = rod_cut_mix_list_get_mix (search->list, i);

      if (mix->cost >= quest->best->cost || (!search->complete && n_possible >= MAX_POSSIBLE))
        break;
      if (!rod_cut_mix_list_meets_needs (search->list, mix))
        continue;
      if (search->complete && search->reached && n_possible == 0)
        rod_cut_quest_raise_bound (quest, mix->cost);
      if (rod_cut_quest_is_over (quest))
        return n_possible + 1;
      if (!is_possible (search, mix))
        continue;
      n_possible++;
      dive_into_mix (search, mix, pass);
    }
  return n_possible;
}

/* Works through the mixes of one window. Returns whether it is done with. */
static gboolean
search_window (Search *search,
               gint64  end)
{
  RodCutQuest *quest = search->quest;

  for (guint pass = 0; pass < MAX_PASSES && !rod_cut_quest_is_over (quest); pass++)
    {
      if (try_mixes (search, pass) > 0)
        continue;
      /* The needs found now leave room in the list for other mixes. */
      if (!search->complete)
        return FALSE;
      if (search->reached && !rod_cut_quest_is_over (quest))
        rod_cut_quest_raise_bound (quest, MIN (quest->best->cost, end));
      return TRUE;
    }
  return TRUE;
}

void
rod_cut_mixes_search (RodCutQuest *quest)
{
  g_autoptr (RodCutMixList) list = rod_cut_mix_list_new (quest->job);
  Search search = { .quest = quest, .list = list };
  gint64 from = quest->bound;

  rod_cut_mix_list_add_need (list, quest->worth, quest->most);
  for (guint window = 0; window < MAX_WINDOWS && from < quest->best->cost; window++)
    {
      gint64 before = rod_cut_mix_list_get_effort (list);
      gint64 end;

      search.complete = rod_cut_mix_list_fill (list, from, quest->best->cost, &end);
      search.reached = quest->bound >= from;
      quest->spent += rod_cut_mix_list_get_effort (list) - before;
      if (search_window (&search, end))
        from = end;
      if (rod_cut_quest_is_over (quest))
        return;
    }
}
