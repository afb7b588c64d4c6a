/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Short battens. Lines of battens are set out for whole surfaces; a small piece can fall between
 * two of them. The fitter then puts a short batten behind it, and so does the plan, so that it is
 * cut and counted with the rest. */

#include "config.h"

#include <math.h>

#include "engine/frame/rod-noggins.h"
#include "engine/frame/rod-supports.h"
#include "engine/rod-limits.h"

static void
add_noggin (const RodPlan  *plan,
            GArray         *battens,
            const RodPiece *piece,
            double          x,
            int             line)
{
  const RodField *field = rod_plan_field (plan, piece->field);
  RodPoint        low = { x, piece->line_mm + piece->low_mm };
  RodPoint        high = { x, piece->line_mm + piece->high_mm };
  RodBattenRun    run = {
       .field = piece->field,
       .uses = ROD_BATTEN_PIECE,
       .line = line,
       .from = rod_affine_apply (field->to_surface, low),
       .to = rod_affine_apply (field->to_surface, high),
       .length_mm = piece->width_mm,
  };

  g_array_append_val (battens, run);
}

/* Whether a batten is so near that another one would lie on it. */
static gboolean
is_taken (const GArray *supports,
          double        x,
          double        y,
          double        width_mm)
{
  double reach_mm = width_mm - 2.0 * ROD_EPSILON_MM;

  return rod_supports_count (supports, x - reach_mm, x + reach_mm, y) > 0;
}

/* Each half of a piece wants a batten; where its only one stands in the middle, either end gets one
 * if there is room. A piece too short for two wants one in its middle. */
static void
support_piece (const RodPlan  *plan,
               GArray         *battens,
               const GArray   *supports,
               const RodPiece *piece,
               int            *line)
{
  const RodSystem *system = rod_plan_face (plan, rod_plan_field (plan, piece->field)->face)->system;
  double           width_mm = system->batten->width_mm;
  double           from, to;
  double           y = rod_piece_middle (plan, piece, &from, &to);
  double           end_mm = MIN (system->rules->batten_edge_mm, (to - from) / 4.0);
  int              needed = rod_piece_battens_needed (width_mm, to - from);
  int              left = rod_supports_count (supports, from, (from + to) / 2.0, y);
  int              right = rod_supports_count (supports, (from + to) / 2.0, to, y);

  if (rod_supports_count (supports, from, to, y) >= needed)
    return;
  if (needed == 1)
    {
      add_noggin (plan, battens, piece, (from + to) / 2.0, ++*line);
      return;
    }
  if (left == 0 || (right > 0 && !is_taken (supports, from + end_mm, y, width_mm)))
    add_noggin (plan, battens, piece, from + end_mm, ++*line);
  if (right == 0 || (left > 0 && !is_taken (supports, to - end_mm, y, width_mm)))
    add_noggin (plan, battens, piece, to - end_mm, ++*line);
}

static int
last_line (const RodPlan  *plan,
           const RodField *field)
{
  int last = 0;

  for (guint b = field->first_batten; b < field->first_batten + field->n_battens; b++)
    last = MAX (last, g_array_index (plan->battens, RodBattenRun, b).line);
  return last;
}

void
rod_noggins_add (RodPlan *plan)
{
  GArray *battens = g_array_sized_new (FALSE, FALSE, sizeof (RodBattenRun), plan->battens->len);

  for (guint f = 0; f < plan->fields->len; f++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, f);
      g_autoptr (GArray) supports = rod_supports_of (plan, f);
      int   line = last_line (plan, field);
      guint first = battens->len;

      if (field->n_battens > 0)
        g_array_append_vals (battens,
                             &g_array_index (plan->battens, RodBattenRun, field->first_batten),
                             field->n_battens);
      for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
        support_piece (plan, battens, supports, rod_plan_piece (plan, p), &line);
      field->first_batten = first;
      field->n_battens = battens->len - first;
    }
  g_array_unref (plan->battens);
  plan->battens = battens;
}
