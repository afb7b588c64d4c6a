/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Colour mixes without equal neighbours: a colouring of the graph whose nodes are the boards of a
 * field. It is searched from the board with the fewest colours left to it (Brélaz's rule), going
 * back where one has none; with two colours there is nothing to choose once a board has its own, so
 * that the search is exact at once. Among the colours left a draw is made that leans to those that
 * are behind their weight. Afterwards single boards change colour as long as that brings the shares
 * nearer to the weights. Fields have some hundred boards, each with few neighbours. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/rod-limits.h"
#include "engine/takeoff/rod-colour-mix.h"
#include "engine/takeoff/rod-colour-pattern.h"

/* How much of a draw goes by the weights alone, so that chance stays part of it. */
#define CHANCE 0.25

/* Where a piece touches its joint lines, board frame. */
typedef struct
{
  double lower_from, lower_to;
  double upper_from, upper_to;
} Reach;

typedef struct
{
  guint             n;         /* boards */
  guint             n_colours; /* at least 1 */
  GArray          **near;      /* of each board its neighbours, guint */
  const RodColour **colours;
  double           *weights; /* add up to 1 */
  int              *colour;  /* of each board, or -1 */
  guint            *beside;  /* [board × colour]: how many neighbours have it */
  guint            *counts;  /* of each colour: boards that have it */
  guint             n_done;
  const RodPiece   *pieces;
  int               seed;
} Pattern;

static void
widen (double *from,
       double *to,
       double  x)
{
  *from = MIN (*from, x);
  *to = MAX (*to, x);
}

static Reach
reach_of (const RodPlan  *plan,
          const RodField *field,
          const RodPiece *piece)
{
  const RodRegion *rings = plan->rings;
  Reach            reach = { INFINITY, -INFINITY, INFINITY, -INFINITY };
  double           above_mm = piece->line_mm + field->board->cover_mm;

  for (guint p = rings->ring_starts[piece->first_ring];
       p < rings->ring_starts[piece->first_ring + 1];
       p++)
    {
      RodPoint at = rod_affine_apply (field->to_board, rings->points[p]);

      if (fabs (at.y - piece->line_mm) < ROD_SNAP_MM)
        widen (&reach.lower_from, &reach.lower_to, at.x);
      if (fabs (at.y - above_mm) < ROD_SNAP_MM)
        widen (&reach.upper_from, &reach.upper_to, at.x);
    }
  return reach;
}

/* Where a joint stands on the side of an opening, only one of both ends is known as the joint's. */
static gboolean
follow_each_other (const RodPiece *one,
                   const RodPiece *next)
{
  return one->course == next->course && one->place + 1 == next->place &&
         (one->right.edge == ROD_TAG_COLUMN_RIGHT || next->left.edge == ROD_TAG_COLUMN_LEFT);
}

static gboolean
touch (const RodPiece *one,
       const Reach    *below,
       const RodPiece *other,
       const Reach    *above)
{
  return one->course + 1 == other->course &&
         MIN (below->upper_to, above->lower_to) - MAX (below->upper_from, above->lower_from) >
           ROD_SNAP_MM;
}

static void
add_pair (GArray **near,
          guint    one,
          guint    other)
{
  g_array_append_val (near[one], other);
  g_array_append_val (near[other], one);
}

/* Pieces stand course by course: only the next course has to be looked through. */
static GArray **
find_neighbours (const RodPlan  *plan,
                 const RodField *field)
{
  const RodPiece   *pieces = &g_array_index (plan->pieces, RodPiece, field->first_piece);
  GArray          **near = g_new (GArray *, MAX (field->n_pieces, 1));
  g_autofree Reach *reaches = g_new (Reach, MAX (field->n_pieces, 1));

  for (guint p = 0; p < field->n_pieces; p++)
    {
      near[p] = g_array_new (FALSE, FALSE, sizeof (guint));
      reaches[p] = reach_of (plan, field, &pieces[p]);
    }
  for (guint p = 0; p < field->n_pieces; p++)
    for (guint q = p + 1; q < field->n_pieces && pieces[q].course <= pieces[p].course + 1; q++)
      if (follow_each_other (&pieces[p], &pieces[q]) ||
          touch (&pieces[p], &reaches[p], &pieces[q], &reaches[q]))
        add_pair (near, p, q);
  return near;
}

static void
free_neighbours (GArray **near,
                 guint    n)
{
  for (guint p = 0; p < n; p++)
    g_array_unref (near[p]);
  g_free (near);
}

/* A colour named twice in a mix counts once, with both weights. */
static void
list_colours (Pattern        *self,
              const RodField *field)
{
  double total = 0.0;

  self->colours = g_new0 (const RodColour *, field->mix->len);
  self->weights = g_new0 (double, field->mix->len);
  for (guint i = 0; i < field->mix->len; i++)
    {
      const RodColourShare *share = field->mix->pdata[i];
      const RodColour      *colour = rod_board_find_colour (field->board, share->colour);
      guint                 c = 0;

      if (colour == NULL)
        continue;
      while (c < self->n_colours && self->colours[c] != colour)
        c++;
      self->colours[c] = colour;
      self->weights[c] += share->weight;
      total += share->weight;
      self->n_colours = MAX (self->n_colours, c + 1);
    }
  for (guint c = 0; c < self->n_colours; c++)
    self->weights[c] /= total;
}

static void
init_pattern (Pattern        *self,
              const RodPlan  *plan,
              const RodField *field)
{
  memset (self, 0, sizeof *self);
  self->n = field->n_pieces;
  self->pieces = rod_plan_piece (plan, field->first_piece);
  self->seed = field->seed;
  list_colours (self, field);
  self->near = find_neighbours (plan, field);
  self->colour = g_new (int, self->n);
  self->beside = g_new0 (guint, self->n * MAX (self->n_colours, 1));
  self->counts = g_new0 (guint, MAX (self->n_colours, 1));
  for (guint p = 0; p < self->n; p++)
    self->colour[p] = -1;
}

static void
clear_pattern (Pattern *self)
{
  free_neighbours (self->near, self->n);
  g_free (self->colours);
  g_free (self->weights);
  g_free (self->colour);
  g_free (self->beside);
  g_free (self->counts);
}

static guint
beside (const Pattern *self,
        guint          board,
        guint          colour)
{
  return self->beside[board * self->n_colours + colour];
}

/* A colour of −1 takes it away again. */
static void
paint (Pattern *self,
       guint    board,
       int      colour)
{
  int before = self->colour[board];

  for (guint i = 0; i < self->near[board]->len; i++)
    {
      guint other = g_array_index (self->near[board], guint, i);

      if (before >= 0)
        self->beside[other * self->n_colours + (guint) before]--;
      if (colour >= 0)
        self->beside[other * self->n_colours + (guint) colour]++;
    }
  if (before >= 0)
    self->counts[before]--;
  if (colour >= 0)
    self->counts[colour]++;
  self->n_done += (colour >= 0) - (before >= 0);
  self->colour[board] = colour;
}

static guint
count_closed (const Pattern *self,
              guint          board)
{
  guint closed = 0;

  for (guint c = 0; c < self->n_colours; c++)
    closed += beside (self, board, c) > 0;
  return closed;
}

/* The board without a colour that has the fewest left; of equal ones the first laid. */
static guint
next_board (const Pattern *self)
{
  guint found = G_MAXUINT, most = 0;

  for (guint p = 0; p < self->n; p++)
    {
      guint closed;

      if (self->colour[p] >= 0)
        continue;
      closed = count_closed (self, p);
      if (found != G_MAXUINT && closed <= most)
        continue;
      found = p;
      most = closed;
    }
  return found;
}

/* How much a colour asks to be taken: how far it is behind its weight, and some chance. */
static double
urge_of (const Pattern *self,
         guint          colour)
{
  double behind = self->weights[colour] * (self->n_done + 1) - self->counts[colour];

  return MAX (behind, 0.0) + CHANCE * self->weights[colour];
}

/* Draws one of the colours that are neither beside the board nor tried there, or −1. */
static int
draw_colour (const Pattern *self,
             guint          board,
             const guint8  *tried)
{
  double total = 0.0, at;
  int    last = -1;

  for (guint c = 0; c < self->n_colours; c++)
    if (!tried[c] && beside (self, board, c) == 0)
      total += urge_of (self, c);
  at = total *
       rod_colour_mix_draw (self->seed, self->pieces[board].course, self->pieces[board].place);
  for (guint c = 0; c < self->n_colours; c++)
    {
      if (tried[c] || beside (self, board, c) > 0)
        continue;
      last = (int) c;
      at -= urge_of (self, c);
      if (at < 0.0)
        break;
    }
  return last;
}

/* Returns whether all boards got a colour; else some have none. */
static gboolean
search (Pattern *self)
{
  g_autofree guint  *order = g_new (guint, self->n + 1);
  g_autofree guint8 *tried = g_new0 (guint8, (self->n + 1) * self->n_colours);
  guint              depth = 0;

  order[0] = next_board (self);
  for (guint step = 0; step < self->n + ROD_MAX_COLOUR_STEPS; step++)
    {
      guint8 *own = tried + depth * self->n_colours;
      int     colour = draw_colour (self, order[depth], own);

      if (colour < 0)
        {
          if (depth == 0)
            return FALSE;
          depth--;
          paint (self, order[depth], -1);
          continue;
        }
      own[colour] = TRUE;
      paint (self, order[depth], colour);
      if (++depth == self->n)
        return TRUE;
      order[depth] = next_board (self);
      memset (tried + depth * self->n_colours, 0, self->n_colours);
    }
  return FALSE;
}

/* The colour that the fewest neighbours have, the most urgent of these. */
static int
least_beside (const Pattern *self,
              guint          board)
{
  guint best = 0;

  for (guint c = 1; c < self->n_colours; c++)
    if (beside (self, board, c) < beside (self, board, best) ||
        (beside (self, board, c) == beside (self, board, best) &&
         urge_of (self, c) > urge_of (self, best)))
      best = c;
  return (int) best;
}

/* Where it cannot be: fewest alike, board by board, then changed as long as that helps. Every
 * change leaves fewer pairs, so that it ends. */
static void
settle_for_few (Pattern *self)
{
  gboolean changed = TRUE;

  for (guint p = 0; p < self->n; p++)
    paint (self, p, -1);
  for (guint p = 0; p < self->n; p++)
    paint (self, p, least_beside (self, p));
  while (changed)
    {
      changed = FALSE;
      for (guint p = 0; p < self->n; p++)
        {
          int better = least_beside (self, p);

          if (beside (self, p, (guint) better) >= beside (self, p, (guint) self->colour[p]))
            continue;
          paint (self, p, better);
          changed = TRUE;
        }
    }
}

/* By how much all shares together come nearer to the weights when one board changes, in boards. */
static double
gain_of (const Pattern *self,
         guint          from,
         guint          to)
{
  double over = self->counts[from] - self->weights[from] * self->n;
  double under = self->weights[to] * self->n - self->counts[to];

  return fabs (over) - fabs (over - 1.0) + fabs (under) - fabs (under - 1.0);
}

static gboolean
improve_board (Pattern *self,
               guint    board)
{
  guint  own = (guint) self->colour[board];
  guint  best = own;
  double most = ROD_EPSILON_MM;

  for (guint c = 0; c < self->n_colours; c++)
    {
      double gain = c == own ? 0.0 : gain_of (self, own, c);

      if (beside (self, board, c) > 0 || gain <= most)
        continue;
      most = gain;
      best = c;
    }
  if (best != own)
    paint (self, board, (int) best);
  return best != own;
}

/* Every change brings the shares nearer, so that it ends. */
static void
balance (Pattern *self)
{
  gboolean changed = TRUE;

  while (changed)
    {
      changed = FALSE;
      for (guint p = 0; p < self->n; p++)
        changed |= improve_board (self, p);
    }
}

void
rod_colour_pattern_lay (RodPlan        *plan,
                        const RodField *field)
{
  Pattern pattern;

  g_return_if_fail (field->mix != NULL);

  if (field->n_pieces == 0)
    return;
  init_pattern (&pattern, plan, field);
  if (pattern.n_colours > 0)
    {
      if (!search (&pattern))
        settle_for_few (&pattern);
      balance (&pattern);
      for (guint p = 0; p < pattern.n; p++)
        g_array_index (plan->pieces, RodPiece, field->first_piece + p).colour =
          pattern.colours[pattern.colour[p]];
    }
  clear_pattern (&pattern);
}

guint
rod_colour_pattern_repeats (const RodPlan  *plan,
                            const RodField *field,
                            guint          *piece)
{
  GArray **near = find_neighbours (plan, field);
  guint    repeats = 0;

  for (guint p = 0; p < field->n_pieces; p++)
    for (guint i = 0; i < near[p]->len; i++)
      {
        guint other = g_array_index (near[p], guint, i);

        if (other < p || rod_plan_piece (plan, field->first_piece + p)->colour !=
                           rod_plan_piece (plan, field->first_piece + other)->colour)
          continue;
        if (repeats++ == 0 && piece != NULL)
          *piece = field->first_piece + p;
      }
  free_neighbours (near, field->n_pieces);
  return repeats;
}
