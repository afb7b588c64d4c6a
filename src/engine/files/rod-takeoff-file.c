/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The part of the plan file that tells what is cut and bought. */
#include "config.h"

#include "engine/files/rod-takeoff-file.h"

#include "engine/files/rod-plan-words.h"

/* Lengths to a micrometre, money to a cent, weights to a gram. */
#define LENGTH_DECIMALS 3
#define MONEY_DECIMALS 2
#define WEIGHT_DECIMALS 3

GArray *
rod_takeoff_findings (const RodTakeoff *takeoff)
{
  GArray *all;

  g_return_val_if_fail (takeoff != NULL, NULL);

  all = g_array_new (FALSE, FALSE, sizeof (RodFinding));
  for (int severity = ROD_SEVERITY_MUST; severity >= ROD_SEVERITY_NOTE; severity--)
    {
      const GArray *lists[] = { takeoff->plan->findings, takeoff->findings };

      for (guint list = 0; list < G_N_ELEMENTS (lists); list++)
        for (guint i = 0; i < lists[list]->len; i++)
          {
            const RodFinding *finding = &g_array_index (lists[list], RodFinding, i);

            if ((int) finding->severity == severity)
              g_array_append_val (all, *finding);
          }
    }
  return all;
}

static void
write_finding (RodJsonStream    *json,
               const RodPlan    *plan,
               const RodFinding *finding)
{
  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "id", finding->id);
  rod_json_stream_text (json, "severity", rod_severity_nick (finding->severity));
  if (finding->face >= 0)
    rod_json_stream_text (json, "face", rod_plan_face (plan, (guint) finding->face)->mark);
  if (finding->has_at)
    {
      rod_json_stream_open_array (json, "at");
      rod_json_stream_number (json, NULL, finding->at.x, LENGTH_DECIMALS);
      rod_json_stream_number (json, NULL, finding->at.y, LENGTH_DECIMALS);
      rod_json_stream_close (json);
    }
  if (finding->piece >= 0)
    rod_json_stream_text (json, "piece", rod_plan_piece (plan, (guint) finding->piece)->mark);
  rod_json_stream_number (json, "value", finding->value, LENGTH_DECIMALS);
  rod_json_stream_number (json, "limit", finding->limit, LENGTH_DECIMALS);
  rod_json_stream_text (json, "text", finding->text);
  rod_json_stream_text (json, "remedy", finding->remedy);
  rod_json_stream_text (json, "rule", finding->rule);
  rod_json_stream_close (json);
}

static void
write_stock (RodJsonStream    *json,
             const RodCutting *cutting)
{
  rod_json_stream_open_array (json, "stock");
  for (guint i = 0; i < cutting->stock->len; i++)
    {
      const RodCutStock *stock = &g_array_index (cutting->stock, RodCutStock, i);

      rod_json_stream_open_object (json, NULL);
      rod_json_stream_integer (json, "length_mm", stock->length_mm);
      rod_json_stream_flag (json, "owned", g_ptr_array_index (cutting->stock_of, i) == NULL);
      if (stock->limit >= 0)
        rod_json_stream_integer (json, "limit", stock->limit);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
}

static void
write_items (RodJsonStream    *json,
             const RodCutting *cutting)
{
  rod_json_stream_open_array (json, "items");
  for (guint i = 0; i < cutting->items->len; i++)
    {
      const RodCutItem *item = &g_array_index (cutting->items, RodCutItem, i);

      rod_json_stream_open_object (json, NULL);
      rod_json_stream_text (json, "label", item->label);
      rod_json_stream_integer (json, "length_mm", item->length_mm);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
}

static void
write_bars (RodJsonStream    *json,
            const RodCutting *cutting)
{
  rod_json_stream_open_array (json, "bars");
  for (guint i = 0; i < cutting->bars->len; i++)
    {
      const RodSawBar *bar = &g_array_index (cutting->bars, RodSawBar, i);

      rod_json_stream_open_object (json, NULL);
      rod_json_stream_integer (json, "stock", bar->stock);
      rod_json_stream_open_array (json, "items");
      for (guint k = 0; k < bar->n_items; k++)
        rod_json_stream_integer (json, NULL, bar->items[k]);
      rod_json_stream_close (json);
      rod_json_stream_integer (json, "rest_mm", bar->rest_mm);
      rod_json_stream_close (json);
    }
  rod_json_stream_close (json);
}

static void
write_cutting (RodJsonStream    *json,
               const RodCutting *cutting)
{
  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "kind", rod_article_kind_nick (cutting->kind));
  rod_json_stream_text (json, "system", cutting->system->id);
  rod_json_stream_text (json, "article", cutting->article);
  rod_json_stream_text (json, "name", cutting->name);
  if (cutting->colour != NULL)
    rod_json_stream_text (json, "colour", cutting->colour->id);
  rod_json_stream_integer (json, "used_mm", cutting->used_mm);
  rod_json_stream_integer (json, "bought_mm", cutting->bought_mm);
  rod_json_stream_integer (json, "cost", cutting->cost);
  rod_json_stream_integer (json, "bound", cutting->bound);
  rod_json_stream_flag (json, "proven", cutting->proven);
  write_stock (json, cutting);
  write_items (json, cutting);
  write_bars (json, cutting);
  rod_json_stream_close (json);
}

static void
write_order_line (RodJsonStream      *json,
                  const RodOrderLine *line)
{
  rod_json_stream_open_object (json, NULL);
  rod_json_stream_text (json, "kind", rod_article_kind_nick (line->kind));
  rod_json_stream_text (json, "system", line->system->id);
  rod_json_stream_text (json, "article", line->article);
  rod_json_stream_text (json, "name", line->name);
  if (line->colour != NULL)
    rod_json_stream_text (json, "colour", line->colour->id);
  if (line->length_mm > 0.0)
    rod_json_stream_number (json, "length_mm", line->length_mm, LENGTH_DECIMALS);
  rod_json_stream_integer (json, "needed", line->needed);
  rod_json_stream_integer (json, "spare", line->spare);
  rod_json_stream_integer (json, "ordered", line->ordered);
  rod_json_stream_integer (json, "pack", line->pack);
  rod_json_stream_integer (json, "packs", line->packs);
  rod_json_stream_number (json, "price", line->price, MONEY_DECIMALS);
  rod_json_stream_number (json, "total", line->total, MONEY_DECIMALS);
  if (line->weight_kg > 0.0)
    rod_json_stream_number (json, "weight_kg", line->weight_kg, WEIGHT_DECIMALS);
  rod_json_stream_close (json);
}

void
rod_takeoff_write_members (const RodTakeoff *takeoff,
                           RodJsonStream    *json)
{
  g_autoptr (GArray) findings = NULL;

  g_return_if_fail (takeoff != NULL);
  g_return_if_fail (json != NULL);

  findings = rod_takeoff_findings (takeoff);
  rod_json_stream_open_array (json, "findings");
  for (guint i = 0; i < findings->len; i++)
    write_finding (json, takeoff->plan, &g_array_index (findings, RodFinding, i));
  rod_json_stream_close (json);

  rod_json_stream_open_array (json, "cutting");
  for (guint i = 0; i < takeoff->cuttings->len; i++)
    write_cutting (json, &g_array_index (takeoff->cuttings, RodCutting, i));
  rod_json_stream_close (json);

  rod_json_stream_open_array (json, "order");
  for (guint i = 0; i < takeoff->lines->len; i++)
    write_order_line (json, &g_array_index (takeoff->lines, RodOrderLine, i));
  rod_json_stream_close (json);

  rod_json_stream_number (json, "total", takeoff->total, MONEY_DECIMALS);
  rod_json_stream_number (json, "weight_kg", takeoff->weight_kg, WEIGHT_DECIMALS);
}
