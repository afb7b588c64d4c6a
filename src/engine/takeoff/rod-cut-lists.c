/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cutting lists. Lengths are rounded up to whole millimetres, the finest a saw stop is set to; the
 * solver then works on counts of equal lengths, and what it answers is handed back to the marks in
 * the order in which pieces are fitted. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-findings.h"
#include "engine/rod-limits.h"
#include "engine/takeoff/rod-cut-lists.h"

static void
clear_item (gpointer data)
{
  RodCutItem *item = data;

  g_free (item->label);
}

static void
clear_bar (gpointer data)
{
  RodSawBar *bar = data;

  g_free (bar->items);
}

/* Prices as whole cents; stock without a price is weighed by its length, which makes the least
 * length the cheapest. */
static gint64
stock_price (const GPtrArray *stock,
             guint            index)
{
  for (guint i = 0; i < stock->len; i++)
    if (((const RodStock *) g_ptr_array_index (stock, i))->price <= 0.0)
      return llround (((const RodStock *) g_ptr_array_index (stock, index))->length_mm);
  return MAX (1, llround (((const RodStock *) g_ptr_array_index (stock, index))->price * 100.0));
}

static void
add_stock (RodCutting      *cutting,
           const GPtrArray *stock)
{
  for (guint i = 0; i < stock->len; i++)
    {
      RodStock   *row = g_ptr_array_index (stock, i);
      RodCutStock bar = { (gint64) floor (row->length_mm + ROD_EPSILON_MM),
                          stock_price (stock, i),
                          -1 };

      g_array_append_val (cutting->stock, bar);
      g_ptr_array_add (cutting->stock_of, row);
    }
}

/* What lies on the rack costs next to nothing and is used first. */
static void
add_rack (const RodTakeoff *takeoff,
          RodCutting       *cutting)
{
  const GPtrArray *rack = takeoff->plan->house->rack;

  for (guint i = 0; i < rack->len; i++)
    {
      const RodOffcut *offcut = g_ptr_array_index (rack, i);
      gint64           length_mm = (gint64) floor (offcut->length_mm + ROD_EPSILON_MM);
      RodCutStock      bar = { length_mm, 1, offcut->count };
      gboolean         same_colour =
        cutting->colour == NULL || g_str_equal (offcut->colour, cutting->colour->id);

      if (!g_str_equal (offcut->system, cutting->system->id) ||
          !g_str_equal (offcut->article, cutting->article) || !same_colour || offcut->count <= 0)
        continue;
      g_array_append_val (cutting->stock, bar);
      g_ptr_array_add (cutting->stock_of, NULL);
    }
}

/* What an article is called and comes in. */
typedef struct
{
  RodArticleKind   kind;
  const RodSystem *system;
  const char      *id;
  const char      *name;
  const GPtrArray *stock;
  const RodColour *colour;
} Article;

static RodCutting *
find_cutting (RodTakeoff    *takeoff,
              const Article *article)
{
  RodCutting cutting = {
    .kind = article->kind,
    .system = article->system,
    .article = article->id,
    .name = article->name,
    .colour = article->colour,
  };

  for (guint i = 0; i < takeoff->cuttings->len; i++)
    {
      RodCutting *known = &g_array_index (takeoff->cuttings, RodCutting, i);

      if (known->kind == article->kind && known->system == article->system &&
          known->article == article->id && known->colour == article->colour)
        return known;
    }
  cutting.stock = g_array_new (FALSE, FALSE, sizeof (RodCutStock));
  cutting.stock_of = g_ptr_array_new ();
  cutting.items = g_array_new (FALSE, FALSE, sizeof (RodCutItem));
  g_array_set_clear_func (cutting.items, clear_item);
  cutting.bars = g_array_new (FALSE, FALSE, sizeof (RodSawBar));
  g_array_set_clear_func (cutting.bars, clear_bar);
  add_stock (&cutting, article->stock);
  add_rack (takeoff, &cutting);
  g_array_append_val (takeoff->cuttings, cutting);
  return &g_array_index (takeoff->cuttings, RodCutting, takeoff->cuttings->len - 1);
}

static void
add_item (RodCutting *cutting,
          double      length_mm,
          const char *label,
          int         piece)
{
  RodCutItem item = { (gint64) ceil (length_mm - ROD_EPSILON_MM), g_strdup (label), piece };

  cutting->used_mm += item.length_mm;
  g_array_append_val (cutting->items, item);
}

static void
collect_boards (RodTakeoff *takeoff)
{
  for (guint p = 0; p < takeoff->plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (takeoff->plan, p);
      const RodField *field = rod_plan_field (takeoff->plan, piece->field);
      Article         article = {
                .kind = ROD_ARTICLE_BOARD,
                .system = rod_plan_face (takeoff->plan, field->face)->system,
                .id = field->board->id,
                .name = field->board->name,
                .stock = field->board->stock,
                .colour = piece->colour,
      };

      add_item (find_cutting (takeoff, &article), piece->length_mm, piece->mark, (int) p);
    }
}

/* A run longer than the stock is made of whole bars, each lapping the next, and a rest. What is
 * bought by the metre is listed as it is. */
static void
add_run (RodTakeoff    *takeoff,
         const Article *article,
         double         length_mm,
         double         lap_mm,
         const char    *label)
{
  RodCutting *cutting = find_cutting (takeoff, article);
  double      longest_mm = rod_stock_longest_mm (article->stock, takeoff->plan->house->saw);

  while (article->stock->len > 0 && length_mm > longest_mm + ROD_EPSILON_MM)
    {
      add_item (cutting, longest_mm, label, -1);
      length_mm -= longest_mm - lap_mm;
    }
  add_item (cutting, length_mm, label, -1);
}

static void
collect_trims (RodTakeoff *takeoff)
{
  for (guint i = 0; i < takeoff->plan->trims->len; i++)
    {
      const RodTrimRun *run = &g_array_index (takeoff->plan->trims, RodTrimRun, i);
      const RodFace    *face =
        rod_plan_face (takeoff->plan, rod_plan_field (takeoff->plan, run->field)->face);
      Article article = {
        .kind = ROD_ARTICLE_TRIM,
        .system = face->system,
        .id = run->trim->id,
        .name = run->trim->name,
        .stock = run->trim->stock,
      };

      add_run (takeoff, &article, run->length_mm, run->trim->lap_mm, face->mark);
    }
}

static void
collect_battens (RodTakeoff *takeoff)
{
  for (guint i = 0; i < takeoff->plan->battens->len; i++)
    {
      const RodBattenRun *run = &g_array_index (takeoff->plan->battens, RodBattenRun, i);
      const RodFace      *face =
        rod_plan_face (takeoff->plan, rod_plan_field (takeoff->plan, run->field)->face);
      const RodBatten *batten = run->counter ? face->system->counter_batten : face->system->batten;
      g_autofree char *label =
        g_strdup_printf ("%s-%c%d", face->mark, run->counter ? 'C' : 'B', run->line);
      Article article = {
        .kind = ROD_ARTICLE_BATTEN,
        .system = face->system,
        .id = batten->id,
        .name = batten->name,
        .stock = batten->stock,
      };

      add_run (takeoff, &article, run->length_mm, 0.0, label);
    }
}

void
rod_cut_lists_collect (RodTakeoff *takeoff)
{
  collect_boards (takeoff);
  collect_trims (takeoff);
  collect_battens (takeoff);
}

/* Items of equal length, in fitting order, from which the solver's answer takes one after the
 * other. */
typedef struct
{
  gint64  length_mm;
  GQueue *items;
} Pile;

static void
clear_pile (gpointer data)
{
  Pile *pile = data;

  g_queue_free (pile->items);
}

static GArray *
pile_items (const RodCutting *cutting)
{
  GArray *piles = g_array_new (FALSE, FALSE, sizeof (Pile));
  g_autoptr (GHashTable) index = g_hash_table_new (g_int64_hash, g_int64_equal);

  g_array_set_clear_func (piles, clear_pile);
  for (guint i = 0; i < cutting->items->len; i++)
    {
      RodCutItem *item = &g_array_index (cutting->items, RodCutItem, i);
      guint       at = GPOINTER_TO_UINT (g_hash_table_lookup (index, &item->length_mm));

      if (at == 0)
        {
          Pile pile = { item->length_mm, g_queue_new () };

          g_array_append_val (piles, pile);
          at = piles->len;
          g_hash_table_insert (index, &item->length_mm, GUINT_TO_POINTER (at));
        }
      g_queue_push_tail (g_array_index (piles, Pile, at - 1).items, GUINT_TO_POINTER (i));
    }
  return piles;
}

static void
saw_bar (RodCutting      *cutting,
         const RodCutBar *pattern,
         GArray          *piles)
{
  RodSawBar bar = {
    .stock = pattern->stock,
    .n_items = pattern->n_pieces,
    .items = g_new (guint, MAX (pattern->n_pieces, 1)),
    .rest_mm = pattern->rest_mm,
  };

  for (guint i = 0; i < pattern->n_pieces; i++)
    bar.items[i] =
      GPOINTER_TO_UINT (g_queue_pop_head (g_array_index (piles, Pile, pattern->pieces[i]).items));
  cutting->bought_mm += g_array_index (cutting->stock, RodCutStock, bar.stock).length_mm;
  g_array_append_val (cutting->bars, bar);
}

static guint
first_item (const RodSawBar *bar)
{
  guint first = G_MAXUINT;

  for (guint i = 0; i < bar->n_items; i++)
    first = MIN (first, bar->items[i]);
  return first;
}

/* By the piece that is fitted first, so that fitting can start before the sawing ends. */
static gint
compare_bars (gconstpointer a,
              gconstpointer b)
{
  guint one = first_item (a);
  guint other = first_item (b);

  return (one > other) - (one < other);
}

static void
report_uncut (RodTakeoff       *takeoff,
              const RodCutting *cutting,
              const GError     *error)
{
  RodFinding finding = {
    .id = "cannot-cut",
    .severity = ROD_SEVERITY_MUST,
    .face = -1,
    .piece = -1,
    .text =
      g_strdup_printf (_ ("%s cannot be cut from its stock: %s"), cutting->name, error->message),
    .remedy = g_strdup (
      _ ("Add a longer stock length to the system, or shorten the pieces by a length joint.")),
    .rule = "R21",
  };

  rod_findings_add (takeoff->findings, &finding);
}

static void
solve (RodTakeoff   *takeoff,
       RodCutting   *cutting,
       GCancellable *cancellable)
{
  const RodSaw *saw = takeoff->plan->house->saw;
  g_autoptr (GArray) piles = pile_items (cutting);
  g_autoptr (GArray) demand = g_array_new (FALSE, FALSE, sizeof (RodCutDemand));
  g_autoptr (RodCutPlan) plan = NULL;
  g_autoptr (GError) error = NULL;
  RodCutProblem problem = {
    .stock = (const RodCutStock *) (const void *) cutting->stock->data,
    .n_stock = cutting->stock->len,
    .kerf_mm = (gint64) ceil (saw->kerf_mm - ROD_EPSILON_MM),
    .trim_mm = (gint64) ceil (saw->end_trim_mm - ROD_EPSILON_MM),
  };

  for (guint i = 0; i < piles->len; i++)
    {
      const Pile  *pile = &g_array_index (piles, Pile, i);
      RodCutDemand wanted = { pile->length_mm, (int) g_queue_get_length (pile->items) };

      g_array_append_val (demand, wanted);
    }
  problem.demand = (const RodCutDemand *) (const void *) demand->data;
  problem.n_demand = demand->len;
  plan = rod_cut_plan_new (&problem, cancellable, &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return;
  if (plan == NULL)
    {
      report_uncut (takeoff, cutting, error);
      return;
    }
  for (guint b = 0; b < plan->n_bars; b++)
    for (int n = 0; n < plan->bars[b].count; n++)
      saw_bar (cutting, &plan->bars[b], piles);
  g_array_sort (cutting->bars, compare_bars);
  cutting->bound = plan->bound;
  cutting->cost = plan->cost;
  cutting->proven = plan->proven;
  if (cutting->stock->len == 1)
    {
      /* With one stock length, bars are what people count. */
      gint64 price = problem.stock[0].price;

      cutting->cost = plan->n_stock_bars;
      cutting->bound = (plan->bound + price - 1) / price;
    }
}

gboolean
rod_cut_lists_solve (RodTakeoff   *takeoff,
                     GCancellable *cancellable)
{
  for (guint i = 0; i < takeoff->cuttings->len && !g_cancellable_is_cancelled (cancellable); i++)
    {
      RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, i);

      if (!rod_cutting_is_by_the_metre (cutting))
        solve (takeoff, cutting, cancellable);
    }
  return !g_cancellable_is_cancelled (cancellable);
}
