/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The summary: rows of subject, article and amount, one below the other. */
#include "config.h"

#include "cli/rod-summary.h"

#include "cli/rod-columns.h"
#include "cli/rod-finding-text.h"
#include "engine/files/rod-takeoff-file.h"

#include <glib/gi18n.h>
#include <math.h>

/* Findings printed in full: what fits a screen together with the rest. */
#define FULL_FINDINGS 6

#define COLUMN_GAP 2
/* Leaves short amounts room enough on an 80-column line. */
#define ARTICLE_WIDTH_MAX 40

typedef struct
{
  char *subject;
  char *article;
  char *amount;
} Row;

static void
clear_row (gpointer data)
{
  Row *row = data;

  g_free (row->subject);
  g_free (row->article);
  g_free (row->amount);
}

/* Takes @article and @amount. A subject is named in its first row only. */
static void
add_row (GArray     *rows,
         const char *subject,
         char       *article,
         char       *amount)
{
  Row row = { g_strdup (subject), article, amount };

  for (guint i = 0; i < rows->len; i++)
    if (g_str_equal (g_array_index (rows, Row, i).subject, subject))
      {
        g_free (row.subject);
        row.subject = g_strdup ("");
        break;
      }
  g_array_append_val (rows, row);
}

/* An amount that does not fit beside its article goes below it, where there is room. */
static void
append_row (GString   *out,
            const Row *row,
            guint      subject_width,
            guint      article_width)
{
  g_autoptr (GString) label = g_string_new (NULL);
  guint indent = subject_width;

  if (*row->article == '\0')
    {
      rod_columns_append (out, row->subject, indent, row->amount);
      return;
    }
  rod_columns_pad (label, row->subject, subject_width);
  g_string_append (label, row->article);
  if (subject_width + article_width + rod_columns_width (row->amount) <= ROD_COLUMNS_PAGE &&
      rod_columns_width (row->article) < article_width)
    indent += article_width;
  else
    indent += COLUMN_GAP;
  rod_columns_append (out, label->str, indent, row->amount);
}

static void
append_rows (GString      *out,
             const GArray *rows)
{
  guint subject_width = 0;
  guint article_width = 0;

  for (guint i = 0; i < rows->len; i++)
    {
      const Row *row = &g_array_index (rows, Row, i);
      guint      width = rod_columns_width (row->article);

      subject_width = MAX (subject_width, rod_columns_width (row->subject) + COLUMN_GAP);
      if (width <= ARTICLE_WIDTH_MAX)
        article_width = MAX (article_width, width + COLUMN_GAP);
    }
  for (guint i = 0; i < rows->len; i++)
    append_row (out, &g_array_index (rows, Row, i), subject_width, article_width);
}

/* Area */

static void
add_area (GArray        *rows,
          const RodPlan *plan)
{
  double           area = 0.0;
  guint            reveals = 0;
  guint            surfaces;
  g_autofree char *net = NULL;
  g_autofree char *walls = NULL;
  g_autofree char *linings = NULL;
  char            *amount;

  for (guint i = 0; i < plan->fields->len; i++)
    area += rod_region_area (rod_plan_field (plan, i)->clad);
  for (guint i = 0; i < plan->faces->len; i++)
    if (rod_plan_face (plan, i)->opening >= 0)
      reveals++;
  surfaces = plan->faces->len - reveals;

  net = g_strdup_printf (_ ("%.1f m² net"), area / 1e6);
  walls = g_strdup_printf (ngettext ("%u surface", "%u surfaces", surfaces), surfaces);
  linings = g_strdup_printf (ngettext ("%u reveal", "%u reveals", reveals), reveals);
  if (reveals > 0)
    /* Translators: net area, surfaces, reveals. */
    amount = g_strdup_printf (_ ("%s on %s and %s"), net, walls, linings);
  else
    /* Translators: net area, surfaces. */
    amount = g_strdup_printf (_ ("%s on %s"), net, walls);
  add_row (rows, _ ("Clad"), g_strdup (""), amount);
}

/* Cutting */

static guint
count_bars (const RodCutting *cutting,
            guint             stock)
{
  guint n = 0;

  for (guint i = 0; i < cutting->bars->len; i++)
    if (g_array_index (cutting->bars, RodSawBar, i).stock == stock)
      n++;
  return n;
}

/* "96 × 6000 mm, 2 × 4000 mm" */
static char *
bars_text (const RodCutting *cutting)
{
  g_autoptr (GString) text = g_string_new (NULL);

  if (rod_cutting_is_by_the_metre (cutting))
    return g_strdup (_ ("stock sold by the metre"));
  for (guint i = 0; i < cutting->stock->len; i++)
    {
      const RodCutStock *stock = &g_array_index (cutting->stock, RodCutStock, i);
      gboolean           owned = g_ptr_array_index (cutting->stock_of, i) == NULL;
      guint              n = count_bars (cutting, i);

      if (n == 0)
        continue;
      if (text->len > 0)
        g_string_append (text, ", ");
      g_string_append_printf (text,
                              "%u\u00a0×\u00a0%" G_GINT64_FORMAT "\u00a0mm",
                              n,
                              stock->length_mm);
      if (owned)
        g_string_append_printf (text, " %s", _ ("of your own"));
    }
  return g_strdup (text->len > 0 ? text->str : _ ("nothing in stock (see findings)"));
}

/* How good the cutting is: the bound counts bars where one length is sold, else money. */
static char *
proof_text (const RodCutting *cutting)
{
  gboolean counts_bars = cutting->stock->len == 1;
  double   over = 0.0;

  if (cutting->proven)
    return g_strdup (counts_bars ? _ ("no plan needs fewer") : _ ("no plan costs less"));
  if (counts_bars)
    {
      g_autofree char *bars = g_strdup_printf ("%" G_GINT64_FORMAT, cutting->bound);

      return g_strdup_printf (_ ("every plan needs %s"), bars);
    }
  if (cutting->bound > 0)
    over = 100.0 * (double) (cutting->cost - cutting->bound) / (double) cutting->bound;
  /* Rounded up: what is not proven must not look as if it were. */
  over = ceil (over * 100.0) / 100.0;
  return g_strdup_printf (_ ("within %.2f\u00a0%% of the cheapest plan"), over);
}

static double
waste_percent (gint64 used_mm,
               gint64 bought_mm)
{
  return bought_mm > 0 ? 100.0 * (double) (bought_mm - used_mm) / (double) bought_mm : 0.0;
}

/* Where two systems have an article of one name, the system's name tells them apart. */
static char *
article_text (const RodTakeoff *takeoff,
              RodArticleKind    kind,
              const RodSystem  *system,
              const char       *name)
{
  for (guint i = 0; i < takeoff->lines->len; i++)
    {
      const RodOrderLine *other = &g_array_index (takeoff->lines, RodOrderLine, i);

      if (other->kind == kind && other->system != system && g_str_equal (other->name, name))
        return g_strdup_printf ("%s (%s)", name, system->name);
    }
  return g_strdup (name);
}

/* All boards together, where they are of several kinds or colours. */
static void
add_all_boards (GArray           *rows,
                const RodTakeoff *takeoff)
{
  guint  kinds = 0;
  guint  pieces = 0;
  gint64 used_mm = 0;
  gint64 bought_mm = 0;

  for (guint i = 0; i < takeoff->cuttings->len; i++)
    {
      const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, i);

      if (cutting->kind != ROD_ARTICLE_BOARD)
        continue;
      kinds++;
      pieces += cutting->items->len;
      used_mm += cutting->used_mm;
      bought_mm += cutting->bought_mm;
    }
  if (kinds > 1)
    add_row (rows,
             _ ("Boards"),
             g_strdup (""),
             /* Translators: pieces, metres bought, waste. */
             g_strdup_printf (_ ("%u\u00a0pieces in all from %.0f\u00a0m; %.1f\u00a0%% waste"),
                              pieces,
                              (double) bought_mm / 1000.0,
                              waste_percent (used_mm, bought_mm)));
}

static void
add_boards (GArray           *rows,
            const RodCutting *cutting)
{
  guint            n = cutting->items->len;
  g_autofree char *bars = bars_text (cutting);
  g_autofree char *proof = proof_text (cutting);

  add_row (rows,
           _ ("Boards"),
           g_strdup_printf ("%s, %s", cutting->name, cutting->colour->name),
           /* Translators: pieces, bars, waste, how good that is. */
           g_strdup_printf (ngettext ("%u\u00a0piece from %s; %.1f\u00a0%% waste, %s",
                                      "%u\u00a0pieces from %s; %.1f\u00a0%% waste, %s",
                                      n),
                            n,
                            bars,
                            waste_percent (cutting->used_mm, cutting->bought_mm),
                            proof));
}

static void
add_battens (GArray           *rows,
             const RodTakeoff *takeoff,
             const RodCutting *cutting)
{
  double           metres = (double) cutting->used_mm / 1000.0;
  g_autofree char *bars = bars_text (cutting);

  add_row (rows,
           _ ("Battens"),
           article_text (takeoff, cutting->kind, cutting->system, cutting->name),
           g_strdup_printf (_ ("%.1f\u00a0m from %s"), metres, bars));
}

static void
add_cutting (GArray           *rows,
             const RodTakeoff *takeoff,
             const RodCutting *cutting)
{
  switch (cutting->kind)
    {
    case ROD_ARTICLE_BOARD:
      add_boards (rows, cutting);
      break;
    case ROD_ARTICLE_TRIM:
      add_row (rows,
               _ ("Trims"),
               article_text (takeoff, cutting->kind, cutting->system, cutting->name),
               bars_text (cutting));
      break;
    case ROD_ARTICLE_BATTEN:
      add_battens (rows, takeoff, cutting);
      break;
    case ROD_ARTICLE_FIXING:
    default:
      g_assert_not_reached ();
    }
}

/* Order */

static void
add_screws (GArray             *rows,
            const RodTakeoff   *takeoff,
            const RodOrderLine *line)
{
  char *amount = g_strdup_printf (ngettext ("%d, in %d pack of %d",
                                            "%d, in %d packs of %d",
                                            (gulong) line->packs),
                                  line->needed,
                                  line->packs,
                                  line->pack);

  add_row (rows,
           _ ("Screws"),
           article_text (takeoff, line->kind, line->system, line->name),
           amount);
}

static void
add_order (GArray           *rows,
           const RodTakeoff *takeoff)
{
  const char      *currency = takeoff->plan->house->buying->currency;
  g_autofree char *price = g_strdup_printf ("%s\u00a0%.2f", currency, takeoff->total);
  g_autofree char *weight = g_strdup ("");

  for (guint i = 0; i < takeoff->lines->len; i++)
    {
      const RodOrderLine *line = &g_array_index (takeoff->lines, RodOrderLine, i);

      if (line->kind == ROD_ARTICLE_FIXING)
        add_screws (rows, takeoff, line);
    }
  if (takeoff->weight_kg > 0.0)
    {
      g_free (weight);
      weight = g_strdup_printf (_ (", %.0f\u00a0kg"), takeoff->weight_kg);
    }
  add_row (rows,
           _ ("Order"),
           g_strdup (""),
           /* Translators: price, and weight where it is known. */
           g_strdup_printf (_ ("%s with spares and whole packs%s"), price, weight));
}

/* Notes can wait for the sheets; anything worse is printed while there is room, the worst first. */
static guint
count_printed (const GArray *findings)
{
  guint worse = rod_finding_text_count (findings, ROD_SEVERITY_MUST) +
                rod_finding_text_count (findings, ROD_SEVERITY_SHOULD);

  return MIN (worse, FULL_FINDINGS);
}

static void
append_findings (GString      *out,
                 const GArray *findings)
{
  guint printed = count_printed (findings);
  guint left = findings->len - printed;

  if (printed > 0)
    g_string_append_c (out, '\n');
  rod_finding_text_append (out, findings, printed);
  if (left > 0)
    g_string_append_printf (out,
                            ngettext ("\n%u more finding: --check prints it.\n",
                                      "\n%u more findings: --check prints them.\n",
                                      left),
                            left);
}

static void
append_title (GString        *out,
              const RodHouse *house)
{
  g_string_append (out, *house->name != '\0' ? house->name : _ ("House without a name"));
  if (*house->place != '\0')
    g_string_append_printf (out, ", %s", house->place);
  g_string_append (out, "\n\n");
}

char *
rod_summary_text (const RodTakeoff *takeoff)
{
  GString *out = g_string_new (NULL);
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (Row));
  g_autoptr (GArray) findings = NULL;

  g_return_val_if_fail (takeoff != NULL, NULL);

  g_array_set_clear_func (rows, clear_row);
  findings = rod_takeoff_findings (takeoff);
  append_title (out, takeoff->plan->house);
  add_area (rows, takeoff->plan);
  add_all_boards (rows, takeoff);
  for (guint i = 0; i < takeoff->cuttings->len; i++)
    add_cutting (rows, takeoff, &g_array_index (takeoff->cuttings, RodCutting, i));
  add_order (rows, takeoff);
  add_row (rows, _ ("Findings"), g_strdup (""), rod_finding_text_tally (findings));
  append_rows (out, rows);
  append_findings (out, findings);
  return g_string_free (out, FALSE);
}
