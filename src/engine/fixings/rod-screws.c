/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Screws, counted where they really go: a flange that was sawn off under a sill, or a batten that
 * stops short of it, takes none. */

#include "config.h"

#include <math.h>

#include "engine/fixings/rod-screws.h"
#include "engine/frame/rod-supports.h"
#include "engine/rod-limits.h"

/* A screw nearer the end of a flange tears it out: about two shanks; from memory. */
#define SCREW_END_MM 7.5

/* A trim's screw goes into a batten that ends this close to the trim's line: battens stop short of
 * sills and heads for air, and a trim's flange reaches that far. */
#define TRIM_REACH_MM 60.0

static void
count_piece (RodPlan      *plan,
             RodPiece     *piece,
             const GArray *supports)
{
  double from, to, y;

  piece->screws = 0;
  for (guint i = 0; i < piece->n_flanges; i++)
    {
      const RodFlange *flange = &g_array_index (plan->flanges, RodFlange, piece->first_flange + i);

      piece->screws += rod_supports_count (supports,
                                           flange->from + SCREW_END_MM,
                                           flange->to - SCREW_END_MM,
                                           flange->at);
    }
  y = rod_piece_middle (plan, piece, &from, &to);
  piece->battens = rod_supports_count (supports, from, to, y);
}

/* A trim run among the battens: in the board frame, with its direction. */
typedef struct
{
  RodPoint from;
  double   length;
  double   ex;
  double   ey;
} TrimLine;

static TrimLine
line_of (const RodField   *field,
         const RodTrimRun *run)
{
  RodPoint from = rod_affine_apply (field->to_board, run->from);
  RodPoint to = rod_affine_apply (field->to_board, run->to);
  double   length = rod_point_distance (from, to);

  return (TrimLine){ from, length, (to.x - from.x) / length, (to.y - from.y) / length };
}

/* How far to the left of a line a point lies. */
static double
side_of (const TrimLine *line,
         RodPoint        at)
{
  return line->ex * (at.y - line->from.y) - line->ey * (at.x - line->from.x);
}

/* Battens a trim run crosses: each that comes near its line between its ends. */
static int
count_at_battens (const RodField   *field,
                  const RodTrimRun *run,
                  const GArray     *supports)
{
  TrimLine line = line_of (field, run);
  int      count = 0;

  for (guint i = 0; i < supports->len; i++)
    {
      const RodSupport *support = &g_array_index (supports, RodSupport, i);
      double            side_a = side_of (&line, support->from);
      double            side_b = side_of (&line, support->to);
      double            t, along;

      /* A batten beside the trim's line never crosses it. */
      if (fabs (side_a - side_b) < 2.0 * TRIM_REACH_MM)
        continue;
      t = side_a / (side_a - side_b);
      if (t * fabs (side_a - side_b) < -TRIM_REACH_MM ||
          (t - 1.0) * fabs (side_a - side_b) > TRIM_REACH_MM)
        continue;
      along = line.ex * (support->from.x + t * (support->to.x - support->from.x) - line.from.x) +
              line.ey * (support->from.y + t * (support->to.y - support->from.y) - line.from.y);
      count += along >= -ROD_EPSILON_MM && along <= line.length + ROD_EPSILON_MM;
    }
  return count;
}

static int
count_spaced (const RodTrim *trim,
              double         length_mm)
{
  double between_mm = length_mm - 2.0 * trim->screw_end_mm;

  if (between_mm <= 0.0)
    return 1;
  return (int) ceil (between_mm / trim->screw_spacing_mm - ROD_EPSILON_MM) + 1;
}

/* Whether a raked trim has a batten along it. Those that it would cross stop short of that one. */
static gboolean
has_own_batten (const RodField   *field,
                const RodTrimRun *run,
                const GArray     *supports)
{
  TrimLine line = line_of (field, run);

  if (fabs (run->from.x - run->to.x) < ROD_SNAP_MM || fabs (run->from.y - run->to.y) < ROD_SNAP_MM)
    return FALSE;
  for (guint i = 0; i < supports->len; i++)
    {
      const RodSupport *support = &g_array_index (supports, RodSupport, i);
      double            side_a = side_of (&line, support->from);
      double            side_b = side_of (&line, support->to);

      if (fabs (side_a - side_b) < ROD_SNAP_MM && fabs (side_a) < TRIM_REACH_MM)
        return TRUE;
    }
  return FALSE;
}

static void
count_trim (const RodField *field,
            RodTrimRun     *run,
            const GArray   *supports)
{
  switch (run->trim->screws)
    {
    case ROD_SCREWS_PER_BATTEN:
      run->screws = has_own_batten (field, run, supports)
                      ? count_spaced (run->trim, run->length_mm)
                      : count_at_battens (field, run, supports);
      break;
    case ROD_SCREWS_SPACED:
      run->screws = count_spaced (run->trim, run->length_mm);
      break;
    case ROD_SCREWS_NONE:
    default:
      run->screws = 0;
      break;
    }
}

void
rod_screws_count_in_boards (RodPlan *plan,
                            guint    index)
{
  const RodField *field = rod_plan_field (plan, index);
  g_autoptr (GArray) supports = rod_supports_of (plan, index);

  for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
    count_piece (plan, &g_array_index (plan->pieces, RodPiece, p), supports);
}

void
rod_screws_count_in_trims (RodPlan *plan,
                           guint    index)
{
  const RodField *field = rod_plan_field (plan, index);
  g_autoptr (GArray) supports = rod_supports_of (plan, index);

  for (guint t = field->first_trim; t < field->first_trim + field->n_trims; t++)
    count_trim (field, &g_array_index (plan->trims, RodTrimRun, t), supports);
}
