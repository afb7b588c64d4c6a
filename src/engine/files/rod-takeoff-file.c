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
write_finding (RodJsonWriter    *writer,
               const RodPlan    *plan,
               const RodFinding *finding)
{
  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_text (writer, "id", finding->id);
  rod_json_writer_text (writer, "severity", rod_severity_nick (finding->severity));
  if (finding->face >= 0)
    rod_json_writer_text (writer, "face", rod_plan_face (plan, (guint) finding->face)->mark);
  if (finding->has_at)
    {
      rod_json_writer_open_array (writer, "at");
      rod_json_writer_number (writer, NULL, finding->at.x, LENGTH_DECIMALS);
      rod_json_writer_number (writer, NULL, finding->at.y, LENGTH_DECIMALS);
      rod_json_writer_close (writer);
    }
  if (finding->piece >= 0)
    rod_json_writer_text (writer, "piece", rod_plan_piece (plan, (guint) finding->piece)->mark);
  rod_json_writer_number (writer, "value", finding->value, LENGTH_DECIMALS);
  rod_json_writer_number (writer, "limit", finding->limit, LENGTH_DECIMALS);
  rod_json_writer_text (writer, "text", finding->text);
  rod_json_writer_text (writer, "remedy", finding->remedy);
  rod_json_writer_text (writer, "rule", finding->rule);
  rod_json_writer_close (writer);
}

static void
write_stock (RodJsonWriter    *writer,
             const RodCutting *cutting)
{
  rod_json_writer_open_array (writer, "stock");
  for (guint i = 0; i < cutting->stock->len; i++)
    {
      const RodCutStock *stock = &g_array_index (cutting->stock, RodCutStock, i);

      rod_json_writer_open_object (writer, NULL);
      rod_json_writer_integer (writer, "length_mm", stock->length_mm);
      rod_json_writer_flag (writer, "owned", g_ptr_array_index (cutting->stock_of, i) == NULL);
      if (stock->limit >= 0)
        rod_json_writer_integer (writer, "limit", stock->limit);
      rod_json_writer_close (writer);
    }
  rod_json_writer_close (writer);
}

static void
write_items (RodJsonWriter    *writer,
             const RodCutting *cutting)
{
  rod_json_writer_open_array (writer, "items");
  for (guint i = 0; i < cutting->items->len; i++)
    {
      const RodCutItem *item = &g_array_index (cutting->items, RodCutItem, i);

      rod_json_writer_open_object (writer, NULL);
      rod_json_writer_text (writer, "label", item->label);
      rod_json_writer_integer (writer, "length_mm", item->length_mm);
      rod_json_writer_close (writer);
    }
  rod_json_writer_close (writer);
}

static void
write_bars (RodJsonWriter    *writer,
            const RodCutting *cutting)
{
  rod_json_writer_open_array (writer, "bars");
  for (guint i = 0; i < cutting->bars->len; i++)
    {
      const RodSawBar *bar = &g_array_index (cutting->bars, RodSawBar, i);

      rod_json_writer_open_object (writer, NULL);
      rod_json_writer_integer (writer, "stock", bar->stock);
      rod_json_writer_open_array (writer, "items");
      for (guint k = 0; k < bar->n_items; k++)
        rod_json_writer_integer (writer, NULL, bar->items[k]);
      rod_json_writer_close (writer);
      rod_json_writer_integer (writer, "rest_mm", bar->rest_mm);
      rod_json_writer_close (writer);
    }
  rod_json_writer_close (writer);
}

static void
write_cutting (RodJsonWriter    *writer,
               const RodCutting *cutting)
{
  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_text (writer, "kind", rod_article_kind_nick (cutting->kind));
  rod_json_writer_text (writer, "system", cutting->system->id);
  rod_json_writer_text (writer, "article", cutting->article);
  rod_json_writer_text (writer, "name", cutting->name);
  if (cutting->colour != NULL)
    rod_json_writer_text (writer, "colour", cutting->colour->id);
  rod_json_writer_integer (writer, "used_mm", cutting->used_mm);
  rod_json_writer_integer (writer, "bought_mm", cutting->bought_mm);
  rod_json_writer_integer (writer, "cost", cutting->cost);
  rod_json_writer_integer (writer, "bound", cutting->bound);
  rod_json_writer_flag (writer, "proven", cutting->proven);
  write_stock (writer, cutting);
  write_items (writer, cutting);
  write_bars (writer, cutting);
  rod_json_writer_close (writer);
}

static void
write_order_line (RodJsonWriter      *writer,
                  const RodOrderLine *line)
{
  rod_json_writer_open_object (writer, NULL);
  rod_json_writer_text (writer, "kind", rod_article_kind_nick (line->kind));
  rod_json_writer_text (writer, "system", line->system->id);
  rod_json_writer_text (writer, "article", line->article);
  rod_json_writer_text (writer, "name", line->name);
  if (line->colour != NULL)
    rod_json_writer_text (writer, "colour", line->colour->id);
  if (line->length_mm > 0.0)
    rod_json_writer_number (writer, "length_mm", line->length_mm, LENGTH_DECIMALS);
  rod_json_writer_integer (writer, "needed", line->needed);
  rod_json_writer_integer (writer, "spare", line->spare);
  rod_json_writer_integer (writer, "ordered", line->ordered);
  rod_json_writer_integer (writer, "pack", line->pack);
  rod_json_writer_integer (writer, "packs", line->packs);
  rod_json_writer_number (writer, "price", line->price, MONEY_DECIMALS);
  rod_json_writer_number (writer, "total", line->total, MONEY_DECIMALS);
  if (line->weight_kg > 0.0)
    rod_json_writer_number (writer, "weight_kg", line->weight_kg, WEIGHT_DECIMALS);
  rod_json_writer_close (writer);
}

void
rod_takeoff_write_members (const RodTakeoff *takeoff,
                           RodJsonWriter    *writer)
{
  g_autoptr (GArray) findings = NULL;

  g_return_if_fail (takeoff != NULL);
  g_return_if_fail (writer != NULL);

  findings = rod_takeoff_findings (takeoff);
  rod_json_writer_open_array (writer, "findings");
  for (guint i = 0; i < findings->len; i++)
    write_finding (writer, takeoff->plan, &g_array_index (findings, RodFinding, i));
  rod_json_writer_close (writer);

  rod_json_writer_open_array (writer, "cutting");
  for (guint i = 0; i < takeoff->cuttings->len; i++)
    write_cutting (writer, &g_array_index (takeoff->cuttings, RodCutting, i));
  rod_json_writer_close (writer);

  rod_json_writer_open_array (writer, "order");
  for (guint i = 0; i < takeoff->lines->len; i++)
    write_order_line (writer, &g_array_index (takeoff->lines, RodOrderLine, i));
  rod_json_writer_close (writer);

  rod_json_writer_number (writer, "total", takeoff->total, MONEY_DECIMALS);
  rod_json_writer_number (writer, "weight_kg", takeoff->weight_kg, WEIGHT_DECIMALS);
}
