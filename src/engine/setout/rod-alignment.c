/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Alignment groups: union-find over fields, where each link keeps a linear relation between two
 * phases: φ = shift + scale × φ of the root, modulo the field's cover. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-alignment.h"

typedef struct
{
  guint  parent;
  double scale;
  double shift_mm;
  double pitch_mm;
  guint  rank; /* of the field's surface by its id */
} Node;

static guint
find_root (Node   *nodes,
           guint   field,
           double *scale,
           double *shift_mm)
{
  guint at = field;

  *scale = 1.0;
  *shift_mm = 0.0;
  while (nodes[at].parent != at)
    {
      *shift_mm += *scale * nodes[at].shift_mm;
      *scale *= nodes[at].scale;
      at = nodes[at].parent;
    }
  /* Point straight at the root: chains round a house are walked once. */
  nodes[field].parent = at;
  nodes[field].scale = *scale;
  nodes[field].shift_mm = *shift_mm;
  return at;
}

static gboolean
leads (const Node *nodes,
       guint       a,
       double      pitch_a_mm,
       guint       b,
       double      pitch_b_mm)
{
  if (fabs (pitch_a_mm - pitch_b_mm) > ROD_SNAP_MM)
    return pitch_a_mm > pitch_b_mm;
  if (nodes[a].rank != nodes[b].rank)
    return nodes[a].rank < nodes[b].rank;
  return a < b;
}

/* φ_b = shift + scale·φ_a, and each is tied to its root: φ = s + k·φ_root. Returns whether the tie
 * closes a chain, or says too little to bind both groups: it would leave one of them several
 * places. */
static gboolean
unite (Node         *nodes,
       const RodTie *tie)
{
  double   sa, ka, sb, kb;
  guint    root_a = find_root (nodes, tie->a, &ka, &sa);
  guint    root_b = find_root (nodes, tie->b, &kb, &sb);
  double   factor, low_mm, pitch_a_mm, pitch_b_mm, period_mm;
  gboolean a_leads;

  if (root_a == root_b)
    return TRUE;
  /* φ of root b = low + factor·φ of root a; all pitches in the measure of root b. */
  factor = tie->scale * ka / kb;
  low_mm = (tie->shift_mm + tie->scale * sa - sb) / kb;
  pitch_a_mm = nodes[root_a].pitch_mm * fabs (factor);
  pitch_b_mm = nodes[root_b].pitch_mm;
  period_mm = tie->period_mm / fabs (kb);
  a_leads = leads (nodes, root_a, pitch_a_mm, root_b, pitch_b_mm);
  if (period_mm < MIN (pitch_a_mm, pitch_b_mm) - ROD_SNAP_MM)
    return TRUE;
  if (a_leads)
    nodes[root_b] = (Node){ root_a, factor, low_mm, pitch_b_mm, nodes[root_b].rank };
  else
    nodes[root_a] = (Node){ .parent = root_b,
                            .scale = 1.0 / factor,
                            .shift_mm = -low_mm / factor,
                            .pitch_mm = nodes[root_a].pitch_mm,
                            .rank = nodes[root_a].rank };
  return FALSE;
}

static void
number_groups (RodPlan *plan,
               Node    *nodes)
{
  g_autofree int *group_of = g_new (int, MAX (plan->fields->len, 1));

  for (guint f = 0; f < plan->fields->len; f++)
    group_of[f] = -1;
  for (guint f = 0; f < plan->fields->len; f++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, f);
      guint     root = find_root (nodes, f, &field->group_scale, &field->group_shift_mm);

      if (group_of[root] < 0)
        {
          RodGroup group = { .pitch_mm = nodes[root].pitch_mm, .first_field = root };

          group_of[root] = (int) plan->groups->len;
          g_array_append_val (plan->groups, group);
        }
      field->group = (guint) group_of[root];
      g_array_index (plan->groups, RodGroup, field->group).n_fields++;
    }
}

void
rod_alignment_build (RodPlan *plan)
{
  g_autofree Node *nodes = g_new (Node, MAX (plan->fields->len, 1));

  for (guint f = 0; f < plan->fields->len; f++)
    {
      const RodField *field = rod_plan_field (plan, f);

      nodes[f] = (Node){ .parent = f,
                         .scale = 1.0,
                         .pitch_mm = field->board->cover_mm,
                         .rank = rod_plan_face (plan, field->face)->rank };
    }
  for (guint i = 0; i < plan->ties->len; i++)
    {
      RodTie *tie = &g_array_index (plan->ties, RodTie, i);

      if (tie->kind != ROD_TIE_UNEQUAL)
        tie->closes = unite (nodes, tie);
    }
  number_groups (plan, nodes);
}

void
rod_tie_closure (const RodPlan *plan,
                 const RodTie  *tie,
                 double        *shift_mm,
                 double        *turns)
{
  const RodField *a = rod_plan_field (plan, tie->a);
  const RodField *b = rod_plan_field (plan, tie->b);

  *shift_mm = tie->shift_mm + tie->scale * a->group_shift_mm - b->group_shift_mm;
  *turns = tie->scale * a->group_scale - b->group_scale;
  if (fabs (*turns) < ROD_EPSILON_MM)
    *turns = 0.0;
}
