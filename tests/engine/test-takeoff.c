/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What is sawn and what is ordered: spare, packs, money, the rack, kerf, and lists that agree. The
 * wall of the hand-worked sums is 4000 by 2400: 10 boards of 3980 out of bars of 6000, two runs of
 * J of 2400 and one top J of 4000 out of 3000, 11 battens out of 4000, 139 screws. Spare of boards,
 * battens and screws by share: common practice, no source; money: EN 16931-1, BR-DEC-23 (amounts of
 * lines have two decimals) and BR-CO-10 (the sum is that of these amounts). */

#include "support/planned-house.h"

#include "engine/files/rod-file.h"
#include "engine/files/rod-lists.h"
#include "engine/files/rod-plan-file.h"
#include "engine/takeoff/rod-takeoff.h"

#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

/* Houses and what comes of them */

static RodHouse *
wall (double      width,
      const char *more)
{
  return surveyed_house ("k-250",
                         SURVEYED (surveyed_box ("a", "wall", width, 2400, more)),
                         NULL);
}

static RodTakeoff *
take_off (RodHouse *house)
{
  g_autoptr (RodPlan) plan = planned_house (house);
  RodTakeoff *takeoff = rod_takeoff_new (plan, NULL);

  g_assert_nonnull (takeoff);
  return takeoff;
}

static RodBoard *
first_board (RodHouse *house)
{
  return g_ptr_array_index (planned_system (house)->boards, 0);
}

static RodStock *
first_stock (const GPtrArray *stock)
{
  return g_ptr_array_index (stock, 0);
}

static void
own (RodHouse   *house,
     const char *article,
     const char *colour,
     double      length_mm,
     int         count)
{
  RodOffcut *offcut = rod_record_new (&rod_offcut_type);
  GPtrArray *rack = rod_record_list_copy (house->rack);

  rod_record_set_text (offcut, G_STRUCT_OFFSET (RodOffcut, system), "k");
  rod_record_set_text (offcut, G_STRUCT_OFFSET (RodOffcut, article), article);
  rod_record_set_text (offcut, G_STRUCT_OFFSET (RodOffcut, colour), colour);
  offcut->length_mm = length_mm;
  offcut->count = count;
  g_ptr_array_add (rack, offcut);
  rod_record_take_list (house, G_STRUCT_OFFSET (RodHouse, rack), rack);
}

static const RodOrderLine *
find_line (const RodTakeoff *takeoff,
           const char       *article,
           double            length_mm)
{
  for (guint i = 0; i < takeoff->lines->len; i++)
    {
      const RodOrderLine *line = &g_array_index (takeoff->lines, RodOrderLine, i);

      if (g_str_equal (line->article, article) && fabs (line->length_mm - length_mm) < 0.001)
        return line;
    }
  return NULL;
}

static void
assert_line (const RodTakeoff *takeoff,
             const char       *article,
             double            length_mm,
             int               needed,
             int               spare,
             int               ordered)
{
  const RodOrderLine *line = find_line (takeoff, article, length_mm);

  if (line == NULL)
    g_error ("%s of %.0f mm is not ordered", article, length_mm);
  g_assert_cmpint (line->needed, ==, needed);
  g_assert_cmpint (line->spare, ==, spare);
  g_assert_cmpint (line->ordered, ==, ordered);
}

static const RodCutting *
cutting_of (const RodTakeoff *takeoff,
            const char       *article)
{
  for (guint i = 0; i < takeoff->cuttings->len; i++)
    {
      const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, i);

      if (g_str_equal (cutting->article, article))
        return cutting;
    }
  g_error ("nothing is cut of %s", article);
}

static guint
bars_of (const RodTakeoff *takeoff,
         const char       *article)
{
  return cutting_of (takeoff, article)->bars->len;
}

/* Bars of a length from the rack. */
static int
owned_bars (const RodCutting *cutting,
            gint64            length_mm)
{
  int count = 0;

  for (guint b = 0; b < cutting->bars->len; b++)
    {
      guint stock = g_array_index (cutting->bars, RodSawBar, b).stock;

      count += g_ptr_array_index (cutting->stock_of, stock) == NULL &&
               g_array_index (cutting->stock, RodCutStock, stock).length_mm == length_mm;
    }
  return count;
}

/* Spare and packs */

/* Nothing spare: what the plan uses. Screws: 99 in flanges, 11 in the starter, 11 in the top J and
 * 2 · 9 in the side J are 139, in packs of 100. */
static void
test_without_spare (void)
{
  g_autoptr (RodTakeoff) takeoff = take_off (wall (4000, ""));

  assert_line (takeoff, "board", 6000, 10, 0, 10);
  assert_line (takeoff, "starter", 3000, 2, 0, 2);
  assert_line (takeoff, "base-vent", 3000, 2, 0, 2);
  assert_line (takeoff, "j", 3000, 2, 0, 2);
  assert_line (takeoff, "top-j", 3000, 2, 0, 2);
  assert_line (takeoff, "batten", 4000, 11, 0, 11);
  assert_line (takeoff, "screw", 0, 139, 0, 200);
}

/* Boards: 3 % of 10 is 0.3, so 1, but 2 at least. Trims: one bar of each. Battens: 3 % of 11 is
 * 0.33, so 1. Screws: 5 % of 139 is 6.95, so 7: 146 in two packs of 100. */
static void
test_spare (void)
{
  RodHouse *house = wall (4000, "");
  g_autoptr (RodTakeoff) takeoff = NULL;

  house->buying->spare_percent = 3.0;
  house->buying->spare_least = 2;
  house->buying->spare_trims = 1;
  house->buying->spare_screws_percent = 5.0;
  takeoff = take_off (house);
  assert_line (takeoff, "board", 6000, 10, 2, 12);
  assert_line (takeoff, "starter", 3000, 2, 1, 3);
  assert_line (takeoff, "j", 3000, 2, 1, 3);
  assert_line (takeoff, "top-j", 3000, 2, 1, 3);
  assert_line (takeoff, "batten", 4000, 11, 1, 12);
  assert_line (takeoff, "screw", 0, 139, 7, 200);
}

/* The share counts where it is more than the least: 21 % of 10 is 2.1, so 3. A share that comes out
 * whole stays so, whatever its binary digits: 70 % of 10 is 7. Screws: 44 % of 139 is 61.16, so 62:
 * 201, one more than two packs. */
static void
test_spare_by_share (void)
{
  static const struct
  {
    double percent;
    int    spare;
  } cases[] = { { 20.0, 2 }, { 20.1, 3 }, { 21.0, 3 }, { 70.0, 7 }, { 70.1, 8 }, { 100.0, 10 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      RodHouse *house = wall (4000, "");
      g_autoptr (RodTakeoff) takeoff = NULL;

      house->buying->spare_percent = cases[i].percent;
      house->buying->spare_least = 2;
      house->buying->spare_screws_percent = 44.0;
      takeoff = take_off (house);
      assert_line (takeoff, "board", 6000, 10, cases[i].spare, 10 + cases[i].spare);
      assert_line (takeoff, "screw", 0, 139, 62, 300);
    }
}

/* Ten boards of 3980 out of 4000 and five of 5774 out of 6000: spare goes once, to the length that
 * is used most. A wall of 5800 and 1257: its pocket is at 1250, five whole courses. */
static void
test_spare_of_two_lengths (void)
{
  RodHouse *house = surveyed_house (
    "k-250",
    SURVEYED (surveyed_box ("a", "wall", 4000, 2400, ", 'board': 'board-two-lengths'"),
              surveyed_box ("b", "wall", 5800, 1257, ", 'board': 'board-two-lengths'")),
    NULL);
  g_autoptr (RodTakeoff) takeoff = NULL;

  house->buying->spare_percent = 3.0;
  house->buying->spare_least = 2;
  takeoff = take_off (house);
  assert_line (takeoff, "board-two-lengths", 4000, 10, 2, 12);
  assert_line (takeoff, "board-two-lengths", 6000, 5, 0, 5);
}

/* Whole packs of 4: 10 and 2 are 3 packs, 10 and 3 are 4. */
static void
test_packs (void)
{
  for (int spare = 2; spare <= 3; spare++)
    {
      RodHouse *house = wall (4000, "");
      g_autoptr (RodTakeoff) takeoff = NULL;

      house->buying->spare_least = spare;
      first_stock (first_board (house)->stock)->pack = 4;
      takeoff = take_off (house);
      assert_line (takeoff, "board", 6000, 10, spare, spare == 2 ? 12 : 16);
      g_assert_cmpint (find_line (takeoff, "board", 6000)->packs, ==, spare == 2 ? 3 : 4);
      g_assert_cmpfloat_with_epsilon (find_line (takeoff, "board", 6000)->total,
                                      60.0 * (spare == 2 ? 12 : 16),
                                      1e-9);
    }
}

/* Money */

static void
set_prices (RodHouse *house,
            double    board,
            double    top)
{
  RodSystem *system = planned_system (house);

  for (guint t = 0; t < system->trims->len; t++)
    {
      RodTrim *trim = g_ptr_array_index (system->trims, t);

      first_stock (trim->stock)->price = g_str_equal (trim->id, "top-j") ? top : 0.0;
    }
  first_stock (first_board (house)->stock)->price = board;
  first_stock (system->batten->stock)->price = 0.0;
  ((RodFixing *) g_ptr_array_index (system->fixings, 0))->price = 0.0;
}

/* 10 · 1.0045 = 10.045 is 10.05 (in binary a little less than half); 2 · 1.0025 = 2.005 is 2.01.
 * Together 12.06, though 12.05 is what the unrounded lines add up to. */
static void
test_money (void)
{
  RodHouse *house = wall (4000, "");
  g_autoptr (RodTakeoff) takeoff = NULL;

  set_prices (house, 1.0045, 1.0025);
  takeoff = take_off (house);
  g_assert_cmpfloat_with_epsilon (find_line (takeoff, "board", 6000)->total, 10.05, 1e-9);
  g_assert_cmpfloat_with_epsilon (find_line (takeoff, "top-j", 3000)->total, 2.01, 1e-9);
  g_assert_cmpfloat_with_epsilon (takeoff->total, 12.06, 1e-9);
}

/* Just below a half goes down: 10 · 1.00449 = 10.0449. Screws are priced by the pack: 2 · 7.125 =
 * 14.25, not 200 · 7.125. */
static void
test_money_down_and_by_the_pack (void)
{
  RodHouse *house = wall (4000, "");
  g_autoptr (RodTakeoff) takeoff = NULL;

  set_prices (house, 1.00449, 0.0);
  ((RodFixing *) g_ptr_array_index (planned_system (house)->fixings, 0))->price = 7.125;
  takeoff = take_off (house);
  g_assert_cmpfloat_with_epsilon (find_line (takeoff, "board", 6000)->total, 10.04, 1e-9);
  g_assert_cmpfloat_with_epsilon (find_line (takeoff, "screw", 0)->total, 14.25, 1e-9);
  g_assert_cmpfloat_with_epsilon (takeoff->total, 24.29, 1e-9);
}

/* The rack */

/* Three owned lengths of 3980 give three of the ten boards; those of 3979 are too short by one, a
 * batten's colour is none, another system's are none of ours. */
static void
test_rack_first (void)
{
  RodHouse *house = wall (4000, "");
  g_autoptr (RodTakeoff) takeoff = NULL;
  const RodCutting *boards;

  own (house, "board", "plain", 3980, 3);
  own (house, "board", "plain", 3979, 5);
  own (house, "reveal-board", "plain", 6000, 5);
  own (house, "batten", "", 2500, 4);
  takeoff = take_off (house);
  boards = cutting_of (takeoff, "board");
  g_assert_cmpint (owned_bars (boards, 3980), ==, 3);
  g_assert_cmpint (owned_bars (boards, 3979), ==, 0);
  assert_line (takeoff, "board", 6000, 7, 0, 7);
  g_assert_cmpint (owned_bars (cutting_of (takeoff, "batten"), 2500), ==, 4);
  assert_line (takeoff, "batten", 4000, 7, 0, 7);
}

/* No more is used than there is, and no more than is wanted; what is owned is not ordered, nor is
 * there spare for what is not bought. */
static void
test_rack_limits (void)
{
  for (int count = 9; count <= 12; count++)
    {
      RodHouse *house = wall (4000, "");
      g_autoptr (RodTakeoff) takeoff = NULL;

      own (house, "board", "plain", 5000, count);
      house->buying->spare_least = 2;
      takeoff = take_off (house);
      g_assert_cmpuint (bars_of (takeoff, "board"), ==, 10);
      g_assert_cmpint (owned_bars (cutting_of (takeoff, "board"), 5000), ==, MIN (count, 10));
      if (count < 10)
        assert_line (takeoff, "board", 6000, 1, 2, 3);
      else
        g_assert_null (find_line (takeoff, "board", 6000));
    }
}

/* A piece of 6500 that no bought length gives is cut from the one owned length of 7000. Two of them
 * are one too many: a finding, and no bars. */
static void
test_short_of_stock (void)
{
  RodHouse *house = wall (4000, "");
  g_autoptr (RodPlan) plan = NULL;
  g_autoptr (RodTakeoff) takeoff = NULL;

  own (house, "board", "plain", 7000, 1);
  plan = planned_house (house);
  g_array_index (plan->pieces, RodPiece, 0).length_mm = 6500.0;
  takeoff = rod_takeoff_new (plan, NULL);
  g_assert_cmpuint (takeoff->findings->len, ==, 0);
  g_assert_cmpint (owned_bars (cutting_of (takeoff, "board"), 7000), ==, 1);
  assert_line (takeoff, "board", 6000, 9, 0, 9);
  g_clear_pointer (&takeoff, rod_takeoff_unref);

  g_array_index (plan->pieces, RodPiece, 1).length_mm = 6500.0;
  takeoff = rod_takeoff_new (plan, NULL);
  g_assert_cmpuint (takeoff->findings->len, ==, 1);
  g_assert_cmpstr (g_array_index (takeoff->findings, RodFinding, 0).id, ==, "cannot-cut");
  g_assert_cmpuint (bars_of (takeoff, "board"), ==, 0);
}

/* The saw */

static guint
count_boards (double width,
              double kerf_mm,
              double end_trim_mm)
{
  RodHouse *house = wall (width, "");
  g_autoptr (RodTakeoff) takeoff = NULL;

  house->saw->kerf_mm = kerf_mm;
  house->saw->end_trim_mm = end_trim_mm;
  takeoff = take_off (house);
  return bars_of (takeoff, "board");
}

/* A wall of 3014 has boards of 3014 − 4 − 2 · 6 = 2998, for 0.07 · 1.505 · 45 + 1 = 5.74. Two and
 * the cut between them, 2 · 2998 + 4, are a bar of 6000 exactly: five bars. With a kerf of 5, or a
 * wall of 3015, each board takes a bar. Half a millimetre of kerf more counts as a whole one. */
static void
test_exact_fit (void)
{
  g_assert_cmpuint (count_boards (3014, 4, 0), ==, 5);
  g_assert_cmpuint (count_boards (3014, 3.5, 0), ==, 5);
  g_assert_cmpuint (count_boards (3014, 4.5, 0), ==, 10);
  g_assert_cmpuint (count_boards (3014, 5, 0), ==, 10);
  g_assert_cmpuint (count_boards (3015, 4, 0), ==, 10);
}

/* Trimmed ends come off: 2 · 5 and 2 · 2993 + 4 are 6000; a wall of 3009, 3009 − 4 − 12 = 2993. */
static void
test_trimmed_ends (void)
{
  g_assert_cmpuint (count_boards (3009, 4, 5), ==, 5);
  g_assert_cmpuint (count_boards (3009, 4, 5.5), ==, 10);
  g_assert_cmpuint (count_boards (3010, 4, 5), ==, 10);
}

/* A board that uses the bar up needs no cut: 6026 − 4 − 2 · 11 = 6000, for 0.07 · 3.011 · 45 + 1 =
 * 10.48. */
static void
test_whole_bar (void)
{
  g_autoptr (RodTakeoff) takeoff = take_off (wall (6026, ""));
  const RodCutting *boards = cutting_of (takeoff, "board");

  g_assert_cmpuint (rod_plan_field (takeoff->plan, 0)->n_columns, ==, 0);
  g_assert_cmpuint (boards->bars->len, ==, 10);
  for (guint b = 0; b < boards->bars->len; b++)
    g_assert_cmpint (g_array_index (boards->bars, RodSawBar, b).rest_mm, ==, 0);
  g_assert_cmpint (boards->used_mm, ==, 60000);
  g_assert_cmpint (boards->bought_mm, ==, 60000);
}

/* All houses */

/* Every item comes out of one bar, every bar holds what it gives, no stock is overdrawn. */
static void
check_cutting (const RodTakeoff *takeoff,
               const RodCutting *cutting)
{
  const RodSaw   *saw = takeoff->plan->house->saw;
  gint64          kerf_mm = (gint64) ceil (saw->kerf_mm);
  gint64          trim_mm = (gint64) ceil (saw->end_trim_mm);
  g_autofree int *cut = g_new0 (int, cutting->items->len + 1);
  g_autofree int *taken = g_new0 (int, cutting->stock->len + 1);
  gint64          used_mm = 0, bought_mm = 0;

  for (guint b = 0; b < cutting->bars->len; b++)
    {
      const RodSawBar   *bar = &g_array_index (cutting->bars, RodSawBar, b);
      const RodCutStock *stock = &g_array_index (cutting->stock, RodCutStock, bar->stock);
      gint64             length_mm = 2 * trim_mm - kerf_mm;

      for (guint i = 0; i < bar->n_items; i++)
        {
          const RodCutItem *item = &g_array_index (cutting->items, RodCutItem, bar->items[i]);

          cut[bar->items[i]]++;
          length_mm += item->length_mm + kerf_mm;
          used_mm += item->length_mm;
        }
      g_assert_cmpuint (bar->n_items, >, 0);
      g_assert_cmpint (length_mm, <=, stock->length_mm);
      g_assert_cmpint (bar->rest_mm, ==, MAX (stock->length_mm - length_mm - kerf_mm, 0));
      taken[bar->stock]++;
      bought_mm += stock->length_mm;
    }
  g_assert_cmpint (cutting->bought_mm, ==, bought_mm);
  if (rod_cutting_is_by_the_metre (cutting))
    return;
  g_assert_cmpint (cutting->used_mm, ==, used_mm);
  for (guint i = 0; i < cutting->items->len; i++)
    g_assert_cmpint (cut[i], ==, 1);
  for (guint s = 0; s < cutting->stock->len; s++)
    if (g_array_index (cutting->stock, RodCutStock, s).limit >= 0)
      g_assert_cmpint (taken[s], <=, g_array_index (cutting->stock, RodCutStock, s).limit);
}

/* Each mark is cut exactly once over all bars, as long as its board in whole millimetres. */
static void
check_marks (const RodTakeoff *takeoff)
{
  g_autoptr (GHashTable) marks = g_hash_table_new (g_str_hash, g_str_equal);
  guint n_boards = 0;

  for (guint c = 0; c < takeoff->cuttings->len; c++)
    {
      const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, c);

      check_cutting (takeoff, cutting);
      for (guint b = 0; cutting->kind == ROD_ARTICLE_BOARD && b < cutting->bars->len; b++)
        for (guint i = 0; i < g_array_index (cutting->bars, RodSawBar, b).n_items; i++)
          {
            const RodCutItem *item = &g_array_index (
              cutting->items, RodCutItem, g_array_index (cutting->bars, RodSawBar, b).items[i]);
            const RodPiece *piece = rod_plan_piece (takeoff->plan, (guint) item->piece);

            g_assert_cmpstr (item->label, ==, piece->mark);
            g_assert_cmpfloat ((double) item->length_mm - piece->length_mm, >, -0.00001);
            g_assert_cmpfloat ((double) item->length_mm - piece->length_mm, <, 1.0);
            g_assert_true (g_hash_table_add (marks, item->label));
            n_boards++;
          }
    }
  g_assert_cmpuint (n_boards, ==, takeoff->plan->pieces->len);
}

/* What the order says follows from the bars: counts, spare that is asked for, least packs, money
 * in whole cents. */
static void
check_order (const RodTakeoff *takeoff)
{
  gint64 cents = 0;
  double weight_kg = 0.0;

  for (guint i = 0; i < takeoff->lines->len; i++)
    {
      const RodOrderLine *line = &g_array_index (takeoff->lines, RodOrderLine, i);

      g_assert_cmpint (line->needed, >, 0);
      g_assert_cmpint (line->ordered, ==, line->packs * line->pack);
      g_assert_cmpint (line->ordered, >=, line->needed + line->spare);
      g_assert_cmpint (line->ordered - line->pack, <, line->needed + line->spare);
      g_assert_cmpfloat_with_epsilon (line->total * 100.0, round (line->total * 100.0), 1e-6);
      cents += llround (line->total * 100.0);
      weight_kg += line->weight_kg;
    }
  g_assert_cmpint (llround (takeoff->total * 100.0), ==, cents);
  g_assert_cmpfloat_with_epsilon (takeoff->weight_kg, weight_kg, 1e-6);
}

/* Lists */

/* One row of a list, its cells by their column. Cells may be quoted (RFC 4180). */
static GPtrArray *
read_row (const char **at)
{
  GPtrArray *cells = g_ptr_array_new_with_free_func (g_free);

  for (;;)
    {
      GString *cell = g_string_new (NULL);
      gboolean quoted = **at == '"';

      if (quoted)
        (*at)++;
      while (quoted ? **at != '"' || (*at)[1] == '"' : strchr (",\r", **at) == NULL)
        {
          *at += quoted && **at == '"';
          g_string_append_c (cell, *(*at)++);
        }
      *at += quoted;
      g_ptr_array_add (cells, g_string_free (cell, FALSE));
      if (**at != ',')
        break;
      (*at)++;
    }
  g_assert_true (g_str_has_prefix (*at, "\r\n"));
  *at += strlen ("\r\n");
  return cells;
}

/* Rows of a list, each a table from column to cell. */
static GPtrArray *
read_list (const RodTakeoff *takeoff,
           RodList           list)
{
  GPtrArray       *rows = g_ptr_array_new_with_free_func ((GDestroyNotify) g_hash_table_unref);
  g_autofree char *text = rod_list_text (takeoff, list);
  const char      *at = text;
  g_autoptr (GPtrArray) columns = read_row (&at);

  while (*at != '\0')
    {
      g_autoptr (GPtrArray) cells = read_row (&at);
      GHashTable *row = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

      g_assert_cmpuint (cells->len, ==, columns->len);
      for (guint i = 0; i < cells->len; i++)
        g_hash_table_insert (row, g_strdup (columns->pdata[i]), g_strdup (cells->pdata[i]));
      g_ptr_array_add (rows, row);
    }
  return rows;
}

static const char *
cell_of (gpointer    row,
         const char *column)
{
  const char *cell = g_hash_table_lookup (row, column);

  g_assert_nonnull (cell);
  return cell;
}

static double
number_of (gpointer    row,
           const char *column)
{
  char  *end;
  double value = g_ascii_strtod (cell_of (row, column), &end);

  g_assert_cmpstr (end, ==, "");
  return value;
}

static JsonObject *
write_plan (const RodTakeoff *takeoff,
            JsonParser       *parser)
{
  g_autoptr (GOutputStream) stream = g_memory_output_stream_new_resizable ();
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (rod_plan_write (takeoff, stream, &error));
  g_assert_no_error (error);
  g_output_stream_close (stream, NULL, &error);
  g_assert_no_error (error);
  bytes = g_memory_output_stream_steal_as_bytes (G_MEMORY_OUTPUT_STREAM (stream));
  json_parser_load_from_data (
    parser, g_bytes_get_data (bytes, NULL), (gssize) g_bytes_get_size (bytes), &error);
  g_assert_no_error (error);
  return json_node_get_object (json_parser_get_root (parser));
}

/* The order as list, as part of the plan, and as it is: line by line. */
static void
compare_orders (const RodTakeoff *takeoff,
                GPtrArray        *rows,
                JsonObject       *plan)
{
  static const char *const counts[] = { "needed", "spare", "ordered", "pack", "packs" };
  JsonArray               *lines = json_object_get_array_member (plan, "order");
  gint64                   cents = 0;

  g_assert_cmpuint (rows->len, ==, takeoff->lines->len);
  g_assert_cmpuint (json_array_get_length (lines), ==, takeoff->lines->len);
  for (guint i = 0; i < rows->len; i++)
    {
      const RodOrderLine *line = &g_array_index (takeoff->lines, RodOrderLine, i);
      JsonObject         *object = json_array_get_object_element (lines, i);
      const int           numbers[] = {
                  line->needed, line->spare, line->ordered, line->pack, line->packs
      };

      for (guint k = 0; k < G_N_ELEMENTS (counts); k++)
        {
          g_assert_cmpint (json_object_get_int_member (object, counts[k]), ==, numbers[k]);
          g_assert_cmpfloat (number_of (rows->pdata[i], counts[k]), ==, numbers[k]);
        }
      g_assert_cmpstr (cell_of (rows->pdata[i], "article"), ==, line->article);
      g_assert_cmpstr (json_object_get_string_member (object, "article"), ==, line->article);
      g_assert_cmpfloat_with_epsilon (number_of (rows->pdata[i], "total"), line->total, 1e-9);
      g_assert_cmpfloat_with_epsilon (
        json_object_get_double_member (object, "total"), line->total, 1e-9);
      cents += llround (number_of (rows->pdata[i], "total") * 100.0);
    }
  g_assert_cmpint (cents, ==, llround (json_object_get_double_member (plan, "total") * 100.0));
}

/* Cuts, bars and their sums, article by article: list against plan file. */
static void
compare_cutting (GPtrArray  *rows,
                 JsonObject *plan)
{
  JsonArray *cuttings = json_object_get_array_member (plan, "cutting");
  guint      row = 0;

  for (guint c = 0; c < json_array_get_length (cuttings); c++)
    {
      JsonObject *cutting = json_array_get_object_element (cuttings, c);
      JsonArray  *bars = json_object_get_array_member (cutting, "bars");
      JsonArray  *items = json_object_get_array_member (cutting, "items");
      double      used_mm = 0.0;

      for (guint b = 0; b < json_array_get_length (bars); b++)
        {
          JsonArray *cut = json_object_get_array_member (json_array_get_object_element (bars, b),
                                                         "items");

          for (guint i = 0; i < json_array_get_length (cut); i++, row++)
            {
              JsonObject *item = json_array_get_object_element (
                items, (guint) json_array_get_int_element (cut, i));

              g_assert_cmpuint (row, <, rows->len);
              g_assert_cmpstr (cell_of (rows->pdata[row], "article"),
                               ==,
                               json_object_get_string_member (cutting, "article"));
              g_assert_cmpstr (cell_of (rows->pdata[row], "label"),
                               ==,
                               json_object_get_string_member (item, "label"));
              g_assert_cmpfloat (number_of (rows->pdata[row], "bar"), ==, b + 1);
              g_assert_cmpfloat_with_epsilon (number_of (rows->pdata[row], "to_mm") -
                                                number_of (rows->pdata[row], "from_mm"),
                                              number_of (rows->pdata[row], "length_mm"),
                                              0.001);
              used_mm += number_of (rows->pdata[row], "length_mm");
            }
        }
      if (json_array_get_length (bars) > 0)
        g_assert_cmpfloat (
          used_mm, ==, (double) json_object_get_int_member (cutting, "used_mm"));
    }
  g_assert_cmpuint (row, ==, rows->len);
}

/* How many bought bars the cutting list names, against how many the order says are needed. */
static void
compare_bars (GPtrArray *cuts,
              GPtrArray *lines)
{
  g_autoptr (GHashTable) bars =
    g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  int bought = 0, needed = 0;

  for (guint i = 0; i < cuts->len; i++)
    {
      gpointer row = cuts->pdata[i];

      if (g_str_equal (cell_of (row, "owned"), "no"))
        bought += g_hash_table_add (bars,
                                    g_strjoin ("|",
                                               cell_of (row, "kind"),
                                               cell_of (row, "system"),
                                               cell_of (row, "article"),
                                               cell_of (row, "colour"),
                                               cell_of (row, "bar"),
                                               NULL));
    }
  for (guint i = 0; i < lines->len; i++)
    if (*cell_of (lines->pdata[i], "length_mm") != '\0' &&
        number_of (lines->pdata[i], "length_mm") > 1000.5)
      needed += (int) number_of (lines->pdata[i], "needed");
  g_assert_cmpint (bought, ==, needed);
}

static void
check_lists (const RodTakeoff *takeoff)
{
  g_autoptr (GPtrArray) order = read_list (takeoff, ROD_LIST_ORDER);
  g_autoptr (GPtrArray) cutting = read_list (takeoff, ROD_LIST_CUTTING);
  g_autoptr (GPtrArray) pieces = read_list (takeoff, ROD_LIST_PIECES);
  g_autoptr (JsonParser) parser = json_parser_new ();
  JsonObject *plan = write_plan (takeoff, parser);

  compare_orders (takeoff, order, plan);
  compare_cutting (cutting, plan);
  compare_bars (cutting, order);
  g_assert_cmpuint (pieces->len,
                    ==,
                    json_array_get_length (json_object_get_array_member (plan, "pieces")));
  for (guint i = 0; i < pieces->len; i++)
    {
      JsonObject *piece =
        json_array_get_object_element (json_object_get_array_member (plan, "pieces"), i);

      g_assert_cmpstr (
        cell_of (pieces->pdata[i], "mark"), ==, json_object_get_string_member (piece, "mark"));
      g_assert_cmpfloat_with_epsilon (number_of (pieces->pdata[i], "length_mm"),
                                      json_object_get_double_member (piece, "length_mm"),
                                      0.0506);
    }
}

/* Called off */

/* Who has called it off gets nothing; who could but does not gets it all. */
static void
test_cancelled (void)
{
  g_autoptr (RodPlan) plan = planned_house (wall (4000, ""));
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autoptr (RodTakeoff) takeoff = rod_takeoff_new (plan, cancellable);

  g_assert_nonnull (takeoff);
  assert_line (takeoff, "board", 6000, 10, 0, 10);
  g_cancellable_cancel (cancellable);
  g_assert_null (rod_takeoff_new (plan, cancellable));
}

/* Cutting the large ones takes seconds: each house is taken off once for all checks. */
static void
check_takeoff (RodPlan *plan)
{
  g_autoptr (RodTakeoff) takeoff = rod_takeoff_new (plan, NULL);

  check_marks (takeoff);
  check_order (takeoff);
  check_lists (takeoff);
}

static void
test_every_house (void)
{
  planned_each_house (check_takeoff);
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/takeoff/without-spare", test_without_spare);
  g_test_add_func ("/takeoff/spare", test_spare);
  g_test_add_func ("/takeoff/spare-by-share", test_spare_by_share);
  g_test_add_func ("/takeoff/spare-of-two-lengths", test_spare_of_two_lengths);
  g_test_add_func ("/takeoff/packs", test_packs);
  g_test_add_func ("/takeoff/money", test_money);
  g_test_add_func ("/takeoff/money-down-and-by-the-pack", test_money_down_and_by_the_pack);
  g_test_add_func ("/takeoff/rack-first", test_rack_first);
  g_test_add_func ("/takeoff/rack-limits", test_rack_limits);
  g_test_add_func ("/takeoff/short-of-stock", test_short_of_stock);
  g_test_add_func ("/takeoff/exact-fit", test_exact_fit);
  g_test_add_func ("/takeoff/trimmed-ends", test_trimmed_ends);
  g_test_add_func ("/takeoff/whole-bar", test_whole_bar);
  g_test_add_func ("/takeoff/every-house", test_every_house);
  g_test_add_func ("/takeoff/cancelled", test_cancelled);
  return g_test_run ();
}
