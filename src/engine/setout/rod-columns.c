/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Columns of length joints. A column is one straight line of joints over the whole field, on a
 * doubled batten. Bays are equal where nothing forbids it; where an opening does, columns move by
 * the least sum that keeps every bay within the stock, found exactly over the few places that can
 * matter. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/geometry/rod-numbers.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-bay.h"
#include "engine/setout/rod-columns.h"
#include "engine/setout/rod-joint-bans.h"
#include "engine/setout/rod-long-notches.h"

/* Beyond so many bays columns stand evenly: a kilometre of boards, or an error in the stock. */
#define MOST_BAYS 200

/* The widest bay whose board is not longer than the stock. */
static double
widest_bay_mm (const RodPlan  *plan,
               const RodField *field)
{
  double longest_mm = rod_field_longest_mm (plan, field);
  RodBay bay = { 0 };

  if (!rod_field_ends_square (field))
    return longest_mm;
  return rod_bay_clear_mm (plan, field, bay, longest_mm);
}

static double
least_bay_mm (const RodPlan  *plan,
              const RodField *field)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  RodBay          bay = { 0 };

  return rod_bay_clear_mm (plan, field, bay, rules->min_piece_mm);
}

/* Where columns are to stand between the ends of a field. */
typedef struct
{
  double        low_mm;
  double        high_mm;
  double        web_mm;
  double        widest_mm; /* bay */
  double        least_mm;  /* bay at either end */
  const GArray *bans;
} Row;

static void
add_place (GArray    *places,
           const Row *row,
           double     at_mm)
{
  if (at_mm - row->low_mm >= row->least_mm + row->web_mm / 2.0 - ROD_EPSILON_MM &&
      row->high_mm - at_mm >= row->least_mm + row->web_mm / 2.0 - ROD_EPSILON_MM &&
      rod_joint_bans_allow (row->bans, at_mm, -INFINITY, INFINITY, NULL))
    g_array_append_val (places, at_mm);
}

/* Places worth trying: the even ones, the ends of the bans, and what lies whole bays from
 * these or from the field's ends, for there a neighbour forces a column. */
static GArray *
collect_places (const Row *row,
                guint      n_bays,
                GArray    *wanted)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) seeds = g_array_new (FALSE, FALSE, sizeof (double));
  double step_mm = row->widest_mm + row->web_mm;
  double ends[] = { row->low_mm - row->web_mm / 2.0, row->high_mm + row->web_mm / 2.0 };

  g_array_append_vals (seeds, ends, G_N_ELEMENTS (ends));
  for (guint i = 0; i < row->bans->len; i++)
    {
      const RodJointBan *ban = &g_array_index (row->bans, RodJointBan, i);
      const double       sides[] = { ban->from_mm, ban->on_mm, ban->to_mm };

      g_array_append_vals (seeds, sides, G_N_ELEMENTS (sides));
    }
  for (guint i = 0; i < wanted->len; i++)
    add_place (places, row, g_array_index (wanted, double, i));
  for (guint i = 0; i < seeds->len; i++)
    for (int k = -(int) n_bays; k <= (int) n_bays; k++)
      add_place (places, row, g_array_index (seeds, double, i) + k * step_mm);
  rod_numbers_sort (places);
  return places;
}

/* How far a column moves; of two places equally far the one nearer the field's middle, so that a
 * mirrored wall gets mirrored columns. */
static double
move_cost (const Row *row,
           double     at_mm,
           double     wanted_mm)
{
  double from_middle_mm = fabs (at_mm - (row->low_mm + row->high_mm) / 2.0);

  return fabs (at_mm - wanted_mm) + from_middle_mm / ROD_MAX_COORDINATE_MM;
}

/* One column after another: @best of its places from the best of the column before, which @last
 * holds, over all that one bay reaches. The candidates of a sliding window wait in @queue, the
 * least in front, so that every place comes in and goes out once. */
static void
reach_places (const Row    *row,
              const GArray *places,
              const double *last,
              double       *best,
              int          *from,
              guint        *queue)
{
  double step_mm = row->widest_mm + row->web_mm + ROD_EPSILON_MM;
  guint  head = 0, tail = 0;

  for (guint p = 0; p < places->len; p++)
    {
      double at = g_array_index (places, double, p);

      while (head < tail && at - g_array_index (places, double, queue[head]) > step_mm)
        head++;
      from[p] = head < tail ? (int) queue[head] : -1;
      best[p] = head < tail ? last[queue[head]] : (double) INFINITY;
      while (head < tail && last[queue[tail - 1]] > last[p])
        tail--;
      queue[tail++] = p;
    }
}

/* The least sum of moves that leaves no bay too wide. @from gets, for each column and place, the
 * place of the column before; the answer is what the last column's places cost. */
static double *
walk_places (const Row    *row,
             const GArray *places,
             const GArray *wanted,
             int          *from)
{
  guint              m = places->len;
  double            *best = g_new (double, m + 1);
  g_autofree double *last = g_new (double, m + 1);
  g_autofree guint  *queue = g_new (guint, m + 1);
  double             reach_mm = row->widest_mm + row->web_mm / 2.0 + ROD_EPSILON_MM;

  for (guint c = 0; c < wanted->len; c++)
    {
      if (c == 0)
        for (guint p = 0; p < m; p++)
          best[p] = g_array_index (places, double, p) - row->low_mm <= reach_mm ? 0.0
                                                                                : (double) INFINITY;
      else
        reach_places (row, places, last, best, from + (gsize) c * m, queue);
      for (guint p = 0; p < m; p++)
        best[p] += move_cost (row,
                              g_array_index (places, double, p),
                              g_array_index (wanted, double, c));
      memcpy (last, best, m * sizeof (double));
    }
  return best;
}

static GArray *
even_columns (const Row *row,
              guint      n_bays)
{
  double  bay_mm = (row->high_mm - row->low_mm - (n_bays - 1) * row->web_mm) / n_bays;
  GArray *columns = g_array_sized_new (FALSE, FALSE, sizeof (double), n_bays);

  for (guint c = 0; c + 1 < n_bays; c++)
    {
      double even = row->low_mm + (c + 1) * bay_mm + (c + 0.5) * row->web_mm;

      g_array_append_val (columns, even);
    }
  return columns;
}

static void
stand_evenly (RodField  *field,
              const Row *row,
              guint      n_bays)
{
  GArray *even = even_columns (row, n_bays);

  field->n_columns = even->len;
  field->columns = (double *) (void *) g_array_free (even, FALSE);
}

static gboolean
place_columns (RodField  *field,
               const Row *row,
               guint      n_bays)
{
  g_autoptr (GArray) wanted = even_columns (row, n_bays);
  g_autoptr (GArray) places = NULL;
  g_autofree double *best = NULL;
  g_autofree int    *from = NULL;
  double             least = INFINITY;
  int                last = -1;

  places = collect_places (row, n_bays, wanted);
  from = g_new (int, (gsize) wanted->len * places->len + 1);
  best = walk_places (row, places, wanted, from);
  for (guint p = 0; p < places->len; p++)
    if (row->high_mm - g_array_index (places, double, p) <=
          row->widest_mm + row->web_mm / 2.0 + ROD_EPSILON_MM &&
        best[p] < least)
      {
        least = best[p];
        last = (int) p;
      }
  if (last < 0)
    return FALSE;
  field->n_columns = wanted->len;
  field->columns = g_new (double, wanted->len);
  for (guint c = wanted->len; c > 0; c--)
    {
      field->columns[c - 1] = g_array_index (places, double, (guint) last);
      if (c > 1)
        last = from[(gsize) (c - 1) * places->len + (guint) last];
    }
  return TRUE;
}

/* One more column may find room where the fewest do not. */
static gboolean
space_columns (RodField  *field,
               const Row *row,
               guint      n_bays)
{
  return n_bays < MOST_BAYS && (place_columns (field, row, n_bays) ||
                                place_columns (field, row, n_bays + 1));
}

/* Columns of one stretch between ends, or between columns that stand already. */
static void
fill_row (const RodPlan *plan,
          RodField      *field,
          Row            row)
{
  g_autoptr (GArray) bans = rod_joint_bans (plan, field, TRUE);
  g_autoptr (GArray) fewer_bans = rod_joint_bans (plan, field, FALSE);
  double width_mm = row.high_mm - row.low_mm;
  guint  n_bays =
    (guint) ceil ((width_mm + row.web_mm) / (row.widest_mm + row.web_mm) - ROD_EPSILON_MM);

  row.bans = bans;
  if (space_columns (field, &row, n_bays))
    return;
  /* Short pieces beside openings are better than joints at their corners, and where even that fails
   * the checks report the openings that are too near. */
  row.bans = fewer_bans;
  if (!space_columns (field, &row, n_bays))
    stand_evenly (field, &row, n_bays);
}

/* Lines of jambs at which boards must be joined because a notch would be too long, as far as this
 * leaves no piece too short at the field's ends. */
static GArray *
jamb_columns (const RodPlan  *plan,
              const RodField *field,
              const Row      *row)
{
  g_autoptr (GArray) notches = rod_long_notches (plan, field);
  GArray *columns = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < notches->len; i++)
    for (int side = 0; side < 2; side++)
      {
        double at_mm = g_array_index (notches, RodLongNotch, i).jambs[side];

        if (at_mm - row->low_mm >= row->least_mm + row->web_mm / 2.0 - ROD_EPSILON_MM &&
            row->high_mm - at_mm >= row->least_mm + row->web_mm / 2.0 - ROD_EPSILON_MM)
          g_array_append_val (columns, at_mm);
      }
  rod_numbers_sort (columns);
  return columns;
}

/* Fills each stretch between the jambs' columns and adds these. */
static void
fill_between (const RodPlan *plan,
              RodField      *field,
              const Row     *row,
              const GArray  *jambs)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (double));
  Row     part = *row;

  for (guint i = 0; i <= jambs->len; i++)
    {
      double at_mm = i < jambs->len ? g_array_index (jambs, double, i)
                                    : row->high_mm + row->web_mm / 2.0;

      part.high_mm = at_mm - row->web_mm / 2.0;
      if (part.high_mm - part.low_mm > row->widest_mm + ROD_EPSILON_MM)
        {
          fill_row (plan, field, part);
          g_array_append_vals (all, field->columns, field->n_columns);
          g_clear_pointer (&field->columns, g_free);
          field->n_columns = 0;
        }
      /* The jambs of windows one above the other are one line. */
      if (i < jambs->len && (all->len == 0 ||
                             at_mm - g_array_index (all, double, all->len - 1) > ROD_SNAP_MM))
        g_array_append_val (all, at_mm);
      part.low_mm = at_mm + row->web_mm / 2.0;
    }
  field->n_columns = all->len;
  field->columns = (double *) (void *) g_array_free (all, FALSE);
}

void
rod_columns_place (const RodPlan   *plan,
                   RodField        *field,
                   const RodStrips *strips)
{
  const RodTrim *joint = field->joint;
  double         low = INFINITY, high = -INFINITY;
  gboolean       needed = FALSE;
  Row            row = {
               .web_mm = joint == NULL ? 0.0 : 2.0 * joint->back_mm,
               .widest_mm = widest_bay_mm (plan, field),
               .least_mm = least_bay_mm (plan, field),
  };
  g_autoptr (GArray) jambs = NULL;

  for (guint s = 0; s < strips->n_strips; s++)
    {
      double from, to;

      rod_strip_extent (strips, s, &from, &to);
      low = MIN (low, from);
      high = MAX (high, to);
      needed = needed || to - from > row.widest_mm + ROD_EPSILON_MM;
    }
  row.low_mm = low;
  row.high_mm = high;
  jambs = jamb_columns (plan, field, &row);
  if (jambs->len > 0)
    fill_between (plan, field, &row, jambs);
  else if (needed)
    fill_row (plan, field, row);
}
