/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cover: whose house, what it takes, what it looks like unfolded, and what the checks found,
 * worst first, so that nobody starts sawing without having seen it.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-contour.h"
#include "sheets/rod-figures.h"

#define FACTS_WIDTH 92.0
#define FACT_PITCH 6.4
#define UPPER_HEIGHT 96.0
#define GAP 5.0
#define FOOT_HEIGHT 14.5

/* On the net boards are as strong as in nature; there is nothing to be read on them. */
#define NET_TINT 0.8
#define NET_MARK 2.5

typedef struct
{
  const RodSheets *sheets;
  cairo_t         *cr;
  double           y;
} FactPen;

const char *
rod_sheet_severity (RodSeverity severity)
{
  switch (severity)
    {
    case ROD_SEVERITY_MUST:
      return _ ("Must");
    case ROD_SEVERITY_SHOULD:
      return _ ("Should");
    case ROD_SEVERITY_NOTE:
    default:
      return _ ("Note");
    }
}

/* Takes the value over; without a context only the room is taken. */
static void
write_fact (FactPen    *pen,
            const char *label,
            char       *value,
            gboolean    large)
{
  const RodSheets *sheets = pen->sheets;
  g_autofree char *owned = value;
  double           right = sheets->room.x + FACTS_WIDTH;
  RodLetterStyle   style = { .height = large ? ROD_SHEET_LABEL : ROD_SHEET_TEXT, .bold = TRUE };

  pen->y += FACT_PITCH;
  if (pen->cr == NULL)
    return;

  style.align = ROD_ALIGN_RIGHT;
  style.width =
    FACTS_WIDTH - 2.0 - rod_lettering_width (sheets->lettering, label, ROD_SHEET_TEXT, FALSE);
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  rod_sheet_write (sheets, pen->cr, label, ROD_SHEET_TEXT, FALSE, sheets->room.x, pen->y);
  rod_lettering_write (sheets->lettering, pen->cr, owned, &style, right, pen->y);
  cairo_set_source_rgb (pen->cr, 0.75, 0.75, 0.75);
  cairo_set_line_width (pen->cr, ROD_SHEET_NARROW);
  cairo_move_to (pen->cr, sheets->room.x, pen->y + 1.9);
  cairo_line_to (pen->cr, right, pen->y + 1.9);
  cairo_stroke (pen->cr);
}

static double
clad_area (const RodPlan *plan)
{
  double area = 0.0;

  for (guint i = 0; i < plan->fields->len; i++)
    if (rod_plan_field (plan, i)->clad != NULL)
      area += rod_region_area (rod_plan_field (plan, i)->clad);

  return area;
}

/* Bars, their length and what is left of them, over all cuttings of a kind. */
static void
sum_cuttings (const RodTakeoff *takeoff,
              RodArticleKind    kind,
              gint64           *bars,
              double           *used,
              double           *bought)
{
  *bars = 0;
  *used = *bought = 0.0;
  for (guint i = 0; i < takeoff->cuttings->len; i++)
    {
      const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, i);

      if (cutting->kind != kind)
        continue;
      *bars += cutting->bars->len;
      *used += (double) cutting->used_mm;
      *bought += (double) cutting->bought_mm;
    }
}

static void
write_material_facts (FactPen *pen)
{
  const RodSheets  *sheets = pen->sheets;
  const RodTakeoff *takeoff = sheets->takeoff;
  gint64            bars;
  double            used, bought;
  g_autofree char  *pieces = rod_figures_count (sheets->plan->pieces->len);
  g_autofree char  *n_bars = NULL;
  gint64            screws = 0;

  sum_cuttings (takeoff, ROD_ARTICLE_BOARD, &bars, &used, &bought);
  n_bars = rod_figures_count (bars);
  write_fact (pen,
              _ ("Boards"),
              g_strdup_printf (_ ("%s pieces from %s boards"), pieces, n_bars),
              TRUE);
  if (bought > 0.0)
    {
      g_autofree char *waste = rod_figures_percent (1.0 - used / bought);

      write_fact (pen, _ ("Left over from boards"), g_steal_pointer (&waste), FALSE);
    }
  sum_cuttings (takeoff, ROD_ARTICLE_TRIM, &bars, &used, &bought);
  write_fact (pen, _ ("Trims"), rod_figures_run (sheets->units, used), FALSE);
  sum_cuttings (takeoff, ROD_ARTICLE_BATTEN, &bars, &used, &bought);
  write_fact (pen, _ ("Battens"), rod_figures_run (sheets->units, used), FALSE);
  for (guint i = 0; i < takeoff->lines->len; i++)
    {
      const RodOrderLine *line = &g_array_index (takeoff->lines, RodOrderLine, i);

      screws += line->kind == ROD_ARTICLE_FIXING ? line->needed : 0;
    }
  write_fact (pen, _ ("Screws"), rod_figures_count (screws), FALSE);
  if (takeoff->weight_kg > 0.0)
    write_fact (pen, _ ("Weight"), rod_figures_weight (sheets->units, takeoff->weight_kg), FALSE);
  if (takeoff->total > 0.0)
    write_fact (pen,
                _ ("Material, without tax"),
                rod_figures_money (sheets->house->buying->currency, takeoff->total),
                TRUE);
}

static char *
count_findings (const RodSheets *sheets)
{
  guint count[3] = { 0, 0, 0 };

  for (guint i = 0; i < sheets->findings->len; i++)
    count[((const RodFinding *) g_ptr_array_index (sheets->findings, i))->severity]++;

  /* TRANSLATORS: how many findings must be put right, should be, and are only good to know. */
  return g_strdup_printf (_ ("%u must · %u should · %u notes"),
                          count[ROD_SEVERITY_MUST],
                          count[ROD_SEVERITY_SHOULD],
                          count[ROD_SEVERITY_NOTE]);
}

/* A long name is set smaller, so that the figures below it keep their room. */
static double
name_height (const RodSheets *sheets)
{
  double width = rod_lettering_width (sheets->lettering, sheets->house->name, ROD_SHEET_NAME, TRUE);

  return width > 1.8 * FACTS_WIDTH ? ROD_SHEET_TITLE : ROD_SHEET_NAME;
}

/* Returns the height taken; without a context it is only measured. */
static double
draw_facts (const RodSheets *sheets,
            cairo_t         *cr)
{
  const RodHouse *house = sheets->house;
  FactPen         pen = { sheets, cr, sheets->room.y };
  const char     *below[] = { house->place, house->client };
  double          height = name_height (sheets);

  if (cr != NULL)
    cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  pen.y +=
    rod_sheet_paragraph (sheets, cr, house->name, height, TRUE, sheets->room.x, pen.y, FACTS_WIDTH);
  for (guint i = 0; i < G_N_ELEMENTS (below); i++)
    if (below[i][0] != '\0')
      pen.y += rod_sheet_paragraph (sheets,
                                    cr,
                                    below[i],
                                    ROD_SHEET_LABEL,
                                    FALSE,
                                    sheets->room.x,
                                    pen.y,
                                    FACTS_WIDTH);
  pen.y += 1.0;
  write_fact (&pen, _ ("Clad"), rod_figures_area (sheets->units, clad_area (sheets->plan)), TRUE);
  write_material_facts (&pen);
  write_fact (&pen, _ ("Findings"), count_findings (sheets), FALSE);

  return pen.y + 3.0 - sheets->room.y;
}

static double
upper_height (const RodSheets *sheets)
{
  return fmax (UPPER_HEIGHT, draw_facts (sheets, NULL));
}

/* The mark of a face in its middle, where it is large enough. */
static void
draw_net_mark (const RodSheets *sheets,
               cairo_t         *cr,
               guint            index,
               RodAffine        to_page)
{
  const RodFace *face = rod_plan_face (sheets->plan, index);
  RodPoint       low, high, at;
  RodLetterStyle style = { .height = NET_MARK, .bold = TRUE, .align = ROD_ALIGN_CENTRE };
  double         width = rod_lettering_width (sheets->lettering, face->mark, NET_MARK, TRUE) + 2.0;

  rod_contour_surface_extent (face->surface, &low, &high);
  if (face->parent >= 0 || fabs (to_page.xx) * (high.x - low.x) < width ||
      fabs (to_page.yy) * (high.y - low.y) < NET_MARK + 2.0)
    return;

  at = rod_affine_apply (to_page, (RodPoint){ 0.5 * (low.x + high.x), 0.5 * (low.y + high.y) });
  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  cairo_rectangle (cr, at.x - 0.5 * width, at.y - 0.5 * NET_MARK - 0.9, width, NET_MARK + 1.8);
  cairo_fill (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_lettering_write (sheets->lettering, cr, face->mark, &style, at.x, at.y + 0.5 * NET_MARK);
}

/* A field of one colour is one area at this size; a mix is drawn board by board. */
static void
draw_net_boards (const RodSheets         *sheets,
                 cairo_t                 *cr,
                 guint                    face,
                 RodAffine                to_page,
                 const RodDrawingOptions *options)
{
  const RodFace *of = rod_plan_face (sheets->plan, face);

  for (guint f = of->first_field; f < of->first_field + of->n_fields; f++)
    {
      const RodField *field = rod_plan_field (sheets->plan, f);

      if (field->colour == NULL || field->clad == NULL)
        {
          rod_drawing_boards (cr, sheets->plan, face, to_page, options);
          return;
        }
    }
  for (guint f = of->first_field; f < of->first_field + of->n_fields; f++)
    {
      const RodField *field = rod_plan_field (sheets->plan, f);

      rod_drawing_trace_region (cr, field->clad, to_page);
      rod_ink_use (rod_drawing_board_ink (field->colour, options), cr);
      cairo_fill (cr);
    }
}

static void
draw_net (const RodSheets *sheets,
          cairo_t         *cr,
          RodRoom          room)
{
  RodAffine         to_page = rod_net_to_page (sheets, room);
  RodDrawingOptions options;

  rod_drawing_options_init (&options);
  options.layers = ROD_LAYER_OPENINGS | ROD_LAYER_OUTLINE;
  options.tint = NET_TINT;
  options.grey = sheets->options.grey;
  options.wide = ROD_SHEET_NARROW;

  for (guint i = 0; i < sheets->plan->faces->len; i++)
    {
      RodAffine map = rod_affine_multiply (sheets->net[i], to_page);

      draw_net_boards (sheets, cr, i, map, &options);
      rod_drawing_face (cr, sheets->lettering, sheets->plan, i, map, &options);
    }
  for (guint i = 0; i < sheets->plan->faces->len; i++)
    draw_net_mark (sheets, cr, i, rod_affine_multiply (sheets->net[i], to_page));
}

/* Which pages hold what, in one paragraph. */
static char *
write_contents (const RodSheets *sheets)
{
  GString *text = g_string_new (_ ("In this set:"));
  guint    first = 0;

  while (first < sheets->pages->len)
    {
      const RodSheet *sheet = g_ptr_array_index (sheets->pages, first);
      guint           end = first + 1;

      while (end < sheets->pages->len &&
             strcmp (((const RodSheet *) g_ptr_array_index (sheets->pages, end))->chapter,
                     sheet->chapter) == 0)
        end++;
      g_string_append_printf (text,
                              "%s%s\u00a0%u",
                              first > 0 ? " \u00b7 " : " ",
                              sheet->chapter,
                              first + 1);
      if (end > first + 1)
        g_string_append_printf (text, "\u2013%u", end);
      first = end;
    }

  return g_string_free (text, FALSE);
}

static void
draw_foot (const RodSheets *sheets,
           cairo_t         *cr)
{
  g_autofree char *contents = write_contents (sheets);
  double           y = sheets->room.y + sheets->room.height - FOOT_HEIGHT;

  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  y += rod_sheet_paragraph (sheets,
                            cr,
                            contents,
                            ROD_SHEET_TEXT,
                            FALSE,
                            sheets->room.x,
                            y,
                            sheets->room.width);
  rod_sheet_paragraph (sheets,
                       cr,
                       rod_sheet_caution (),
                       ROD_SHEET_TEXT,
                       TRUE,
                       sheets->room.x,
                       y,
                       sheets->room.width);
}

static void
draw_cover (const RodSheets *sheets,
            const RodSheet  *sheet,
            cairo_t         *cr)
{
  RodRoom room = sheets->room;
  double  y;

  draw_facts (sheets, cr);
  room.x += FACTS_WIDTH + 2.0 * GAP;
  room.width -= FACTS_WIDTH + 2.0 * GAP;
  room.height = upper_height (sheets);
  y = room.y + room.height + GAP;
  if (sheet->table == NULL)
    room.height = sheets->room.height - FOOT_HEIGHT - 2.0 * ROD_SHEET_LABEL - 2.0 * GAP;
  draw_net (sheets, cr, room);
  draw_foot (sheets, cr);

  if (sheet->table != NULL)
    rod_table_draw (sheet->table, cr, sheets->room.x, y, sheet->first, sheet->end);
  else
    rod_sheet_write (sheets,
                     cr,
                     _ ("The checks found nothing to put right."),
                     ROD_SHEET_LABEL,
                     FALSE,
                     sheets->room.x,
                     sheets->room.y + sheets->room.height - FOOT_HEIGHT - GAP);
}

static RodTable *
list_findings (const RodSheets *sheets)
{
  const RodColumn columns[] = {
    { _ ("Finding"), ROD_COLUMN_TEXT, 20.0, TRUE },
    { _ ("Where"), ROD_COLUMN_TEXT, -2.0, FALSE },
    { _ ("What is wrong"), ROD_COLUMN_TEXT, -4.0, FALSE },
    { _ ("What to do"), ROD_COLUMN_TEXT, -4.0, FALSE },
    { _ ("Rule"), ROD_COLUMN_TEXT, 14.0, FALSE },
  };
  RodTable *table = rod_table_new (columns,
                                   G_N_ELEMENTS (columns),
                                   sheets->room.width,
                                   ROD_SHEET_TEXT,
                                   sheets->lettering);

  for (guint i = 0; i < sheets->findings->len; i++)
    {
      const RodFinding *finding = g_ptr_array_index (sheets->findings, i);
      const char       *where =
        finding->face >= 0 ? rod_plan_face (sheets->plan, finding->face)->label : _ ("Whole house");
      const char *cells[] = { rod_sheet_severity (finding->severity),
                              where,
                              finding->text,
                              finding->remedy != NULL ? finding->remedy : "",
                              finding->rule != NULL ? finding->rule : "",
                              NULL };

      rod_table_add (table, ROD_ROW_PLAIN, cells);
    }

  return table;
}

void
rod_sheets_add_cover (RodSheets *sheets)
{
  RodSheet *cover =
    rod_sheets_add (sheets, _ ("Cover"), _ ("Cover"), g_strdup (_ ("Cover")), draw_cover);
  RodTable *table;

  if (sheets->findings->len == 0)
    return;

  table = list_findings (sheets);
  cover->table = table;
  cover->end =
    rod_table_fit (table, 0, sheets->room.height - upper_height (sheets) - GAP - FOOT_HEIGHT);
  rod_sheets_add_table (sheets, _ ("Findings"), _ ("Findings, continued"), table, NULL, cover->end);
}
