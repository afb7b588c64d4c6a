/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each list is a row of a table: name, columns, and the function that fills them. */
#include "config.h"

#include "engine/files/rod-lists.h"

#include "engine/files/rod-csv.h"
#include "engine/files/rod-decimal.h"
#include "engine/files/rod-plan-words.h"
#include "engine/files/rod-takeoff-file.h"
#include "engine/plan/rod-joint-line.h"

#include <math.h>

/* Lists are for tapes and saws: a tenth of a millimetre. Money to a cent, weights to a gram. */
#define LENGTH_DECIMALS 1
#define ANGLE_DECIMALS 1
#define MONEY_DECIMALS 2
#define WEIGHT_DECIMALS 3

/* Leaves a cell empty. */
#define NOT_GIVEN ((double) NAN)

static void
write_length (RodCsv *csv,
              double  length_mm)
{
  rod_csv_number (csv, length_mm, LENGTH_DECIMALS);
}

/* Two cells: the surface's mark and the zone, empty where the field is what no zone covers. */
static void
write_place (RodCsv         *csv,
             const RodPlan  *plan,
             const RodField *field)
{
  rod_csv_text (csv, rod_plan_face (plan, field->face)->mark);
  rod_csv_text (csv, field->zone != NULL ? field->zone->id : NULL);
}

static void
write_notches (RodCsv         *csv,
               const RodPlan  *plan,
               const RodPiece *piece)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = piece->first_notch; i < piece->first_notch + piece->n_notches; i++)
    {
      const RodNotch *notch = &g_array_index (plan->notches, RodNotch, i);

      if (text->len > 0)
        g_string_append (text, "; ");
      g_string_append (text, notch->upper ? "upper at " : "lower at ");
      rod_decimal_append (text, notch->from_left_mm, LENGTH_DECIMALS);
      g_string_append (text, " width ");
      rod_decimal_append (text, notch->width_mm, LENGTH_DECIMALS);
      g_string_append (text, " depth ");
      rod_decimal_append (text, notch->depth_mm, LENGTH_DECIMALS);
      g_string_append (text, " leaves ");
      rod_decimal_append (text, notch->leaves_mm, LENGTH_DECIMALS);
    }
  rod_csv_text (csv, text->str);
}

static const char piece_columns[] =
  "mark,surface,zone,course,place,sequence,board,colour,length_mm,short_mm,width_mm,rip_low_mm,"
  "rip_high_mm,left_angle_deg,right_angle_deg,left_gap_mm,right_gap_mm,notches,screws";

static void
write_pieces (RodCsv           *csv,
              const RodTakeoff *takeoff)
{
  const RodPlan *plan = takeoff->plan;

  for (guint i = 0; i < plan->pieces->len; i++)
    {
      const RodPiece *piece = rod_plan_piece (plan, i);
      const RodField *field = rod_plan_field (plan, piece->field);

      rod_csv_text (csv, piece->mark);
      write_place (csv, plan, field);
      rod_csv_integer (csv, piece->course);
      rod_csv_integer (csv, piece->place);
      rod_csv_integer (csv, piece->sequence);
      rod_csv_text (csv, field->board->id);
      rod_csv_text (csv, piece->colour->id);
      write_length (csv, piece->length_mm);
      write_length (csv, piece->short_mm);
      write_length (csv, piece->width_mm);
      write_length (csv, piece->low_mm);
      write_length (csv, field->board->cover_mm - piece->high_mm);
      rod_csv_number (csv, piece->left.angle_deg, ANGLE_DECIMALS);
      rod_csv_number (csv, piece->right.angle_deg, ANGLE_DECIMALS);
      write_length (csv, piece->left.gap_mm);
      write_length (csv, piece->right.gap_mm);
      write_notches (csv, plan, piece);
      rod_csv_integer (csv, piece->screws);
      rod_csv_end_row (csv);
    }
}

static const char cutting_columns[] =
  "kind,system,article,name,colour,bar,stock_mm,owned,cut,label,length_mm,from_mm,to_mm,"
  "rest_mm";

/* The tape lies along the whole bar: a cut begins behind the saw's path of the one before. */
static void
write_bar (RodCsv           *csv,
           const RodSaw     *saw,
           const RodCutting *cutting,
           guint             index)
{
  const RodSawBar   *bar = &g_array_index (cutting->bars, RodSawBar, index);
  const RodCutStock *stock = &g_array_index (cutting->stock, RodCutStock, bar->stock);
  gboolean           owned = g_ptr_array_index (cutting->stock_of, bar->stock) == NULL;
  double             from = saw->end_trim_mm;

  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = &g_array_index (cutting->items, RodCutItem, bar->items[i]);

      rod_csv_text (csv, rod_article_kind_nick (cutting->kind));
      rod_csv_text (csv, cutting->system->id);
      rod_csv_text (csv, cutting->article);
      rod_csv_text (csv, cutting->name);
      rod_csv_text (csv, cutting->colour != NULL ? cutting->colour->id : NULL);
      rod_csv_integer (csv, index + 1);
      rod_csv_integer (csv, stock->length_mm);
      rod_csv_text (csv, owned ? "yes" : "no");
      rod_csv_integer (csv, i + 1);
      rod_csv_text (csv, item->label);
      rod_csv_integer (csv, item->length_mm);
      write_length (csv, from);
      write_length (csv, from + (double) item->length_mm);
      rod_csv_integer (csv, bar->rest_mm);
      rod_csv_end_row (csv);
      from += (double) item->length_mm + saw->kerf_mm;
    }
}

static void
write_cutting (RodCsv           *csv,
               const RodTakeoff *takeoff)
{
  for (guint i = 0; i < takeoff->cuttings->len; i++)
    {
      const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, i);

      for (guint bar = 0; bar < cutting->bars->len; bar++)
        write_bar (csv, takeoff->plan->house->saw, cutting, bar);
    }
}

static const char order_columns[] =
  "kind,system,article,name,colour,length_mm,needed,spare,ordered,pack,packs,price,total,"
  "currency,weight_kg";

static void
write_order (RodCsv           *csv,
             const RodTakeoff *takeoff)
{
  for (guint i = 0; i < takeoff->lines->len; i++)
    {
      const RodOrderLine *line = &g_array_index (takeoff->lines, RodOrderLine, i);

      rod_csv_text (csv, rod_article_kind_nick (line->kind));
      rod_csv_text (csv, line->system->id);
      rod_csv_text (csv, line->article);
      rod_csv_text (csv, line->name);
      rod_csv_text (csv, line->colour != NULL ? line->colour->id : NULL);
      write_length (csv, line->length_mm > 0.0 ? line->length_mm : NOT_GIVEN);
      rod_csv_integer (csv, line->needed);
      rod_csv_integer (csv, line->spare);
      rod_csv_integer (csv, line->ordered);
      rod_csv_integer (csv, line->pack);
      rod_csv_integer (csv, line->packs);
      rod_csv_number (csv, line->price, MONEY_DECIMALS);
      rod_csv_number (csv, line->total, MONEY_DECIMALS);
      rod_csv_text (csv, takeoff->plan->house->buying->currency);
      rod_csv_number (csv, line->weight_kg > 0.0 ? line->weight_kg : NOT_GIVEN, WEIGHT_DECIMALS);
      rod_csv_end_row (csv);
    }
}

static const char trim_columns[] =
  "surface,zone,edge,opening,trim,name,length_mm,end,screws,from_x_mm,from_y_mm,to_x_mm,"
  "to_y_mm";

/* Two cells: what kind of edge, and which opening it belongs to. */
static void
write_edge (RodCsv         *csv,
            const RodPlan  *plan,
            const RodField *field,
            int             index)
{
  const RodSurface *surface = rod_plan_face (plan, field->face)->surface;
  const RodEdge    *edge = index >= 0 ? &field->edges[index] : NULL;
  const RodOpening *opening = NULL;

  if (edge == NULL)
    rod_csv_text (csv, "length-joint");
  else
    rod_csv_text (csv, rod_choice_nick (rod_edge_condition_choices, (int) edge->condition));
  if (edge != NULL && edge->opening >= 0)
    opening = g_ptr_array_index (surface->openings, (guint) edge->opening);
  rod_csv_text (csv, opening != NULL ? opening->id : NULL);
}

static void
write_trims (RodCsv           *csv,
             const RodTakeoff *takeoff)
{
  const RodPlan *plan = takeoff->plan;

  for (guint i = 0; i < plan->trims->len; i++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, i);
      const RodField   *field = rod_plan_field (plan, run->field);

      write_place (csv, plan, field);
      write_edge (csv, plan, field, run->edge);
      rod_csv_text (csv, run->trim->id);
      rod_csv_text (csv, run->trim->name);
      write_length (csv, run->length_mm);
      rod_csv_text (csv, rod_choice_nick (rod_end_treatment_choices, (int) run->end));
      rod_csv_integer (csv, run->screws);
      write_length (csv, run->from.x);
      write_length (csv, run->from.y);
      write_length (csv, run->to.x);
      write_length (csv, run->to.y);
      rod_csv_end_row (csv);
    }
}

static const char batten_columns[] =
  "surface,zone,line,counter,serves,length_mm,from_x_mm,from_y_mm,to_x_mm,to_y_mm";

static void
write_battens (RodCsv           *csv,
               const RodTakeoff *takeoff)
{
  const RodPlan *plan = takeoff->plan;

  for (guint i = 0; i < plan->battens->len; i++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, i);
      g_auto (GStrv) uses = rod_batten_use_nicks (run->uses);
      g_autofree char *serves = g_strjoinv (" ", uses);

      write_place (csv, plan, rod_plan_field (plan, run->field));
      rod_csv_integer (csv, run->line);
      rod_csv_text (csv, run->counter ? "yes" : "no");
      rod_csv_text (csv, serves);
      write_length (csv, run->length_mm);
      write_length (csv, run->from.x);
      write_length (csv, run->from.y);
      write_length (csv, run->to.x);
      write_length (csv, run->to.y);
      rod_csv_end_row (csv);
    }
}

static const char joint_line_columns[] =
  "group,surface,zone,label,direction_deg,line,place_mm,height_mm";

static void
write_joint_lines_of (RodCsv        *csv,
                      const RodPlan *plan,
                      guint          field_index)
{
  const RodField *field = rod_plan_field (plan, field_index);
  g_autoptr (GArray) lines = rod_joint_lines_new (plan, field_index);

  for (guint i = 0; i < lines->len; i++)
    {
      const RodJointLine *line = &g_array_index (lines, RodJointLine, i);

      rod_csv_integer (csv, field->group + 1);
      write_place (csv, plan, field);
      rod_csv_text (csv, rod_plan_face (plan, field->face)->label);
      rod_csv_number (csv, field->direction_deg, ANGLE_DECIMALS);
      rod_csv_integer (csv, line->number);
      write_length (csv, line->place_mm);
      write_length (csv, line->height_mm);
      rod_csv_end_row (csv);
    }
}

static void
write_joint_lines (RodCsv           *csv,
                   const RodTakeoff *takeoff)
{
  const RodPlan *plan = takeoff->plan;

  for (guint group = 0; group < plan->groups->len; group++)
    for (guint i = 0; i < plan->fields->len; i++)
      if (rod_plan_field (plan, i)->group == group)
        write_joint_lines_of (csv, plan, i);
}

static const char finding_columns[] =
  "severity,id,surface,piece,x_mm,y_mm,value,limit,text,remedy,rule";

static void
write_findings (RodCsv           *csv,
                const RodTakeoff *takeoff)
{
  const RodPlan *plan = takeoff->plan;
  g_autoptr (GArray) findings = rod_takeoff_findings (takeoff);

  for (guint i = 0; i < findings->len; i++)
    {
      const RodFinding *finding = &g_array_index (findings, RodFinding, i);
      const char       *face = NULL;
      const char       *piece = NULL;

      if (finding->face >= 0)
        face = rod_plan_face (plan, (guint) finding->face)->mark;
      if (finding->piece >= 0)
        piece = rod_plan_piece (plan, (guint) finding->piece)->mark;
      rod_csv_text (csv, rod_severity_nick (finding->severity));
      rod_csv_text (csv, finding->id);
      rod_csv_text (csv, face);
      rod_csv_text (csv, piece);
      write_length (csv, finding->has_at ? finding->at.x : NOT_GIVEN);
      write_length (csv, finding->has_at ? finding->at.y : NOT_GIVEN);
      rod_csv_number (csv, finding->value, WEIGHT_DECIMALS);
      rod_csv_number (csv, finding->limit, WEIGHT_DECIMALS);
      rod_csv_text (csv, finding->text);
      rod_csv_text (csv, finding->remedy);
      rod_csv_text (csv, finding->rule);
      rod_csv_end_row (csv);
    }
}

static const struct
{
  const char *name;
  const char *columns;
  void (*write) (RodCsv           *csv,
                 const RodTakeoff *takeoff);
} lists[ROD_N_LISTS] = {
  [ROD_LIST_PIECES] = { "pieces", piece_columns, write_pieces },
  [ROD_LIST_CUTTING] = { "cutting", cutting_columns, write_cutting },
  [ROD_LIST_ORDER] = { "order", order_columns, write_order },
  [ROD_LIST_TRIMS] = { "trims", trim_columns, write_trims },
  [ROD_LIST_BATTENS] = { "battens", batten_columns, write_battens },
  [ROD_LIST_JOINT_LINES] = { "joint-lines", joint_line_columns, write_joint_lines },
  [ROD_LIST_FINDINGS] = { "findings", finding_columns, write_findings },
};

const char *
rod_list_name (RodList list)
{
  g_return_val_if_fail (list < ROD_N_LISTS, NULL);

  return lists[list].name;
}

char *
rod_list_text (const RodTakeoff *takeoff,
               RodList           list)
{
  RodCsv csv;

  g_return_val_if_fail (takeoff != NULL, NULL);
  g_return_val_if_fail (list < ROD_N_LISTS, NULL);

  rod_csv_init (&csv, lists[list].columns);
  lists[list].write (&csv, takeoff);
  return rod_csv_finish (&csv);
}
