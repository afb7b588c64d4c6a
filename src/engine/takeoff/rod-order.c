/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The order. Spare is added once for each article and colour, on the stock length it uses most, so
 * that a spare board can stand in for most pieces; then whole packs. Money is summed in whole
 * cents: each line is rounded first and the rounded lines are added (EN 16931-1, BR-CO-10). */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/takeoff/rod-order.h"

static double
round_money (double value)
{
  /* Half up on decimal cents; the small step undoes binary noise below a half. */
  return floor (value * 100.0 + 0.5 + ROD_EPSILON_MM) / 100.0;
}

static double
weight_kg_m (const RodCutting *cutting)
{
  const RodBoard *board;
  const RodTrim  *trim;

  switch (cutting->kind)
    {
    case ROD_ARTICLE_BOARD:
      board = rod_system_find_board (cutting->system, cutting->article);
      return board == NULL ? 0.0 : board->weight_kg_m;
    case ROD_ARTICLE_TRIM:
      trim = rod_system_find_trim (cutting->system, cutting->article);
      return trim == NULL ? 0.0 : trim->weight_kg_m;
    case ROD_ARTICLE_BATTEN:
    case ROD_ARTICLE_FIXING:
    default:
      return 0.0;
    }
}

static int
spare_of (const RodBuying  *buying,
          const RodCutting *cutting,
          int               needed)
{
  switch (cutting->kind)
    {
    case ROD_ARTICLE_BOARD:
      return MAX (buying->spare_least,
                  (int) ceil (needed * buying->spare_percent / 100.0 - ROD_EPSILON_MM));
    case ROD_ARTICLE_TRIM:
      return buying->spare_trims;
    case ROD_ARTICLE_BATTEN:
      return (int) ceil (needed * buying->spare_percent / 100.0 - ROD_EPSILON_MM);
    case ROD_ARTICLE_FIXING:
    default:
      return 0;
    }
}

static void
add_line (RodTakeoff   *takeoff,
          RodOrderLine *line)
{
  line->pack = MAX (line->pack, 1);
  line->packs = (line->needed + line->spare + line->pack - 1) / line->pack;
  line->ordered = line->packs * line->pack;
  /* Bars are priced singly, screws by the pack. */
  line->total =
    round_money (line->price * (line->kind == ROD_ARTICLE_FIXING ? line->packs : line->ordered));
  takeoff->total = round_money (takeoff->total + line->total);
  g_array_append_val (takeoff->lines, *line);
}

static int
count_bars (const RodCutting *cutting,
            guint             stock)
{
  int count = 0;

  for (guint b = 0; b < cutting->bars->len; b++)
    count += g_array_index (cutting->bars, RodSawBar, b).stock == stock;
  return count;
}

/* The bought stock length that is used most. */
static int
main_stock (const RodCutting *cutting,
            int              *bought)
{
  int best = -1, most = 0;

  *bought = 0;
  for (guint s = 0; s < cutting->stock->len; s++)
    {
      int count = count_bars (cutting, s);

      if (g_ptr_array_index (cutting->stock_of, s) == NULL)
        continue;
      *bought += count;
      if (count > most)
        {
          most = count;
          best = (int) s;
        }
    }
  return best;
}

static RodOrderLine
line_for (const RodCutting *cutting,
          int               needed)
{
  return (RodOrderLine){
    .kind = cutting->kind,
    .system = cutting->system,
    .article = cutting->article,
    .name = cutting->name,
    .colour = cutting->colour,
    .needed = needed,
  };
}

static void
add_bars (RodTakeoff       *takeoff,
          const RodCutting *cutting,
          RodOrderLine     *line)
{
  add_line (takeoff, line);
  g_array_index (takeoff->lines, RodOrderLine, takeoff->lines->len - 1).weight_kg =
    weight_kg_m (cutting) * line->length_mm / 1000.0 * line->ordered;
}

/* Without stock lengths there is no price either: whole metres, so that the list is complete. */
static void
order_metres (RodTakeoff       *takeoff,
              const RodCutting *cutting)
{
  RodOrderLine line = line_for (cutting, (int) ((cutting->used_mm + 999) / 1000));

  line.length_mm = 1000.0;
  line.spare = spare_of (takeoff->plan->house->buying, cutting, line.needed);
  add_bars (takeoff, cutting, &line);
}

static void
order_cutting (RodTakeoff       *takeoff,
               const RodCutting *cutting)
{
  int bought;
  int main = main_stock (cutting, &bought);

  if (rod_cutting_is_by_the_metre (cutting))
    order_metres (takeoff, cutting);
  for (guint s = 0; s < cutting->stock->len; s++)
    {
      const RodStock *stock = g_ptr_array_index (cutting->stock_of, s);
      RodOrderLine    line = line_for (cutting, count_bars (cutting, s));

      if (stock == NULL || line.needed == 0)
        continue;
      line.length_mm = stock->length_mm;
      line.pack = stock->pack;
      line.price = stock->price;
      line.spare = (int) s == main ? spare_of (takeoff->plan->house->buying, cutting, bought) : 0;
      add_bars (takeoff, cutting, &line);
    }
}

static int
count_system_screws (const RodPlan   *plan,
                     const RodSystem *system,
                     const char      *fixing)
{
  gboolean boards = g_str_equal (system->board_fixing, fixing);
  gboolean trims = g_str_equal (system->trim_fixing, fixing);
  int      count = 0;

  for (guint p = 0; boards && p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);

      if (rod_plan_face (plan, rod_plan_field (plan, piece->field)->face)->system == system)
        count += piece->screws;
    }
  for (guint t = 0; trims && t < plan->trims->len; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      if (rod_plan_face (plan, rod_plan_field (plan, run->field)->face)->system == system)
        count += run->screws;
    }
  return count;
}

static void
order_screws (RodTakeoff      *takeoff,
              const RodSystem *system)
{
  const RodBuying *buying = takeoff->plan->house->buying;

  for (guint f = 0; f < system->fixings->len; f++)
    {
      const RodFixing *fixing = g_ptr_array_index (system->fixings, f);
      RodOrderLine     line = {
            .kind = ROD_ARTICLE_FIXING,
            .system = system,
            .article = fixing->id,
            .name = fixing->name,
            .needed = count_system_screws (takeoff->plan, system, fixing->id),
            .pack = fixing->pack,
            .price = fixing->price,
      };

      if (line.needed == 0)
        continue;
      line.spare = (int) ceil (line.needed * buying->spare_screws_percent / 100.0 - ROD_EPSILON_MM);
      add_line (takeoff, &line);
    }
}

void
rod_order_collect (RodTakeoff *takeoff)
{
  for (guint i = 0; i < takeoff->cuttings->len; i++)
    order_cutting (takeoff, &g_array_index (takeoff->cuttings, RodCutting, i));
  for (guint s = 0; s < takeoff->plan->house->systems->len; s++)
    order_screws (takeoff, g_ptr_array_index (takeoff->plan->house->systems, s));
  for (guint i = 0; i < takeoff->lines->len; i++)
    takeoff->weight_kg += g_array_index (takeoff->lines, RodOrderLine, i).weight_kg;
}
