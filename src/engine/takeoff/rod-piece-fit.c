/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From the strip between pocket lines to the board that is sawn. A strip's sides are: joint lines
 * and long sides, which stay; two ends, which step back by a gap that depends on the board's own
 * length; and shoulders beside openings, which step back by a constant clearance, for a notched
 * board moves as one. Rings run counter-clockwise, so a right end climbs and a left end falls. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-inset.h"
#include "engine/plan/rod-field.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-bay.h"
#include "engine/takeoff/rod-piece-fit.h"

/* Nobody saws a narrower notch at a board's end: the whole end is cut back instead. */
#define LEAST_NOTCH_MM 10.0

static guint
next_of (const RodFit *fit,
         guint         i)
{
  return i + 1 < fit->n_sides ? i + 1 : 0;
}

const RodFitSide *
rod_fit_next (const RodFit *fit,
              guint         side)
{
  return &fit->sides[next_of (fit, side)];
}

static gboolean
stays (const RodField *field,
       int             tag)
{
  if (tag == ROD_TAG_LINE_BELOW || tag == ROD_TAG_LINE_ABOVE)
    return TRUE;
  return tag >= 0 && field->edges[tag].long_side;
}

/* Marks the chain of climbing (or falling) sides that holds the piece's extreme point as its end.
 */
static void
mark_end (RodFit     *fit,
          RodSideKind end,
          double      extreme_x)
{
  guint n = fit->n_sides;

  for (guint i = 0; i < n; i++)
    {
      gboolean touches = fabs (fit->sides[i].at.x - extreme_x) < ROD_SNAP_MM ||
                         fabs (rod_fit_next (fit, i)->at.x - extreme_x) < ROD_SNAP_MM;
      double sign = end == ROD_SIDE_RIGHT ? 1.0 : -1.0;

      if (fit->sides[i].kind != ROD_SIDE_SHOULDER || !touches)
        continue;
      /* Both ways from the seed while sides go on in the same direction. */
      for (guint step = 0, k = i; step < n; step++, k = next_of (fit, k))
        {
          if ((fit->sides[k].kind != ROD_SIDE_SHOULDER && fit->sides[k].kind != end) ||
              (rod_fit_next (fit, k)->at.y - fit->sides[k].at.y) * sign <= 0.0)
            break;
          fit->sides[k].kind = end;
        }
      for (guint step = 0, k = i; step < n; step++, k = (k + n - 1) % n)
        {
          if ((fit->sides[k].kind != ROD_SIDE_SHOULDER && fit->sides[k].kind != end) ||
              (rod_fit_next (fit, k)->at.y - fit->sides[k].at.y) * sign <= 0.0)
            break;
          fit->sides[k].kind = end;
        }
    }
}

static gboolean
is_square_side (const RodFit *fit,
                guint         i,
                RodSideKind   end)
{
  RodPoint a = fit->sides[i].at, b = rod_fit_next (fit, i)->at;

  return fabs (b.x - a.x) < ROD_SNAP_MM && (b.y > a.y) == (end == ROD_SIDE_RIGHT);
}

/* Where a length joint stands on the side of an opening, the joint's web and the opening's pocket
 * differ by a few millimetres: a shoulder so near to the end belongs to it. */
static void
join_shoulders (RodFit     *fit,
                RodSideKind end,
                double      extreme_x)
{
  for (guint i = 0; i < fit->n_sides; i++)
    if (fit->sides[i].kind == ROD_SIDE_SHOULDER && is_square_side (fit, i, end) &&
        fabs (fit->sides[i].at.x - extreme_x) < LEAST_NOTCH_MM)
      fit->sides[i].kind = end;
}

/* The longest side of an end says where it ends and at which angle. */
static int
end_side (const RodFit *fit,
          RodSideKind   end)
{
  double longest = 0.0;
  int    found = -1;

  for (guint i = 0; i < fit->n_sides; i++)
    {
      double length = rod_point_distance (fit->sides[i].at, rod_fit_next (fit, i)->at);

      if (fit->sides[i].kind == end && length > longest)
        {
          longest = length;
          found = (int) i;
        }
    }
  return found;
}

static double
cut_angle_deg (const RodFit *fit,
               int           side,
               RodSideKind   end)
{
  RodPoint a = fit->sides[(guint) side].at;
  RodPoint b = rod_fit_next (fit, (guint) side)->at;
  double   lean = (b.x - a.x) / (b.y - a.y);
  double   angle_deg = atan (end == ROD_SIDE_RIGHT ? lean : -lean) * 180.0 / G_PI;

  return fabs (angle_deg) < ROD_EPSILON_DEG ? 0.0 : angle_deg;
}

static void
set_end (RodFit         *fit,
         const RodPlan  *plan,
         const RodField *field,
         RodSideKind     kind,
         RodPieceEnd    *end)
{
  const RodTrim *joint = field->joint;
  int            side = end_side (fit, kind);
  const RodTrim *trim;

  /* A piece that tapers out to nothing has no side there; it ends in a point between long sides. */
  *end = (RodPieceEnd){ .edge = kind == ROD_SIDE_LEFT ? ROD_TAG_LINE_BELOW : ROD_TAG_LINE_ABOVE };
  if (side < 0)
    return;
  end->edge = fit->sides[(guint) side].tag;
  trim = end->edge >= 0 ? field->edges[end->edge].trim : joint;
  end->back_mm = trim == NULL ? 0.0 : trim->back_mm;
  end->pocket_mm = trim == NULL ? 0.0 : trim->pocket_mm;
  end->angle_deg = cut_angle_deg (fit, side, kind);
}

static gboolean
is_column (int tag)
{
  return tag == ROD_TAG_COLUMN_LEFT || tag == ROD_TAG_COLUMN_RIGHT;
}

/* Half the web of the joint's trim, for sides that stand on a column. */
static double
web_mm (const RodField *field,
        int             tag)
{
  return is_column (tag) && field->joint != NULL ? field->joint->back_mm : 0.0;
}

/* Columns are straight across the boards: where an end has one, its outermost point lies on it, be
 * the end's longest side a rake. */
static double
end_web_mm (const RodFit   *fit,
            const RodField *field,
            RodSideKind     end)
{
  double web = 0.0;

  for (guint i = 0; i < fit->n_sides; i++)
    if (fit->sides[i].kind == end)
      web = MAX (web, web_mm (field, fit->sides[i].tag));
  return web;
}

/* Whether an end meets another board over a batten. */
static gboolean
ends_at_butt (const RodFit   *fit,
              const RodField *field,
              RodSideKind     end)
{
  for (guint i = 0; i < fit->n_sides; i++)
    if (fit->sides[i].kind == end && is_column (fit->sides[i].tag))
      return rod_field_has_butt_joints (field);
  return FALSE;
}

static RodBay
bay_of (const RodFit   *fit,
        const RodField *field)
{
  return (RodBay){
    .clear_mm = fit->clear_mm,
    .left_butt = ends_at_butt (fit, field, ROD_SIDE_LEFT),
    .right_butt = ends_at_butt (fit, field, ROD_SIDE_RIGHT),
  };
}

/* What runs out to a point between its long sides has nothing there to keep a gap from. */
static void
clear_point (RodPieceEnd *end)
{
  if (end->edge == ROD_TAG_LINE_BELOW || end->edge == ROD_TAG_LINE_ABOVE)
    end->run_mm = end->gap_mm = 0.0;
}

static void
set_runs (RodFit         *fit,
          const RodField *field)
{
  RodBay bay = bay_of (fit, field);

  fit->left.run_mm = rod_bay_run_mm (field, &bay, FALSE);
  fit->right.run_mm = rod_bay_run_mm (field, &bay, TRUE);
}

static void
set_gaps (RodFit         *fit,
          const RodPlan  *plan,
          const RodField *field,
          double          low_x,
          double          high_x)
{
  RodBay bay;

  fit->clear_mm = high_x - end_web_mm (fit, field, ROD_SIDE_RIGHT) - low_x -
                  end_web_mm (fit, field, ROD_SIDE_LEFT);
  fit->clear_mm = MAX (fit->clear_mm, 0.0);
  set_runs (fit, field);
  bay = bay_of (fit, field);
  fit->left.gap_mm = rod_bay_gap_mm (plan, field, &bay, FALSE);
  fit->right.gap_mm = rod_bay_gap_mm (plan, field, &bay, TRUE);
  clear_point (&fit->left);
  clear_point (&fit->right);
}

void
rod_fit_init (RodFit         *fit,
              const RodPlan  *plan,
              const RodField *field,
              const RodPoint *points,
              const int      *tags,
              guint           n)
{
  double low_x = INFINITY, high_x = -INFINITY;

  *fit = (RodFit){ .sides = g_new (RodFitSide, n), .n_sides = n };
  for (guint i = 0; i < n; i++)
    {
      fit->sides[i] = (RodFitSide){
        .at = points[i],
        .tag = tags[i],
        .kind = stays (field, tags[i]) ? ROD_SIDE_LONG : ROD_SIDE_SHOULDER,
      };
      low_x = MIN (low_x, points[i].x);
      high_x = MAX (high_x, points[i].x);
    }
  mark_end (fit, ROD_SIDE_LEFT, low_x);
  mark_end (fit, ROD_SIDE_RIGHT, high_x);
  join_shoulders (fit, ROD_SIDE_LEFT, low_x);
  join_shoulders (fit, ROD_SIDE_RIGHT, high_x);
  set_end (fit, plan, field, ROD_SIDE_LEFT, &fit->left);
  set_end (fit, plan, field, ROD_SIDE_RIGHT, &fit->right);
  set_gaps (fit, plan, field, low_x, high_x);
}

void
rod_fit_clear (RodFit *fit)
{
  g_clear_pointer (&fit->sides, g_free);
}

static double
step_back_mm (const RodFit   *fit,
              const RodField *field,
              const RodRules *rules,
              guint           i)
{
  switch (fit->sides[i].kind)
    {
    case ROD_SIDE_LEFT:
      return fit->left.gap_mm + web_mm (field, fit->sides[i].tag);
    case ROD_SIDE_RIGHT:
      return fit->right.gap_mm + web_mm (field, fit->sides[i].tag);
    case ROD_SIDE_SHOULDER:
      return rules->notch_clear_mm;
    case ROD_SIDE_LONG:
    default:
      return 0.0;
    }
}

/* An end that is square throughout is cut in one go, where its innermost side asks for. */
static void
straighten_end (const RodFit *fit,
                RodSideKind   end,
                double       *steps)
{
  double outwards = end == ROD_SIDE_RIGHT ? 1.0 : -1.0;
  double innermost = INFINITY;

  for (guint i = 0; i < fit->n_sides; i++)
    if (fit->sides[i].kind == end)
      {
        if (!is_square_side (fit, i, end))
          return;
        innermost = MIN (innermost, outwards * fit->sides[i].at.x - steps[i]);
      }
  for (guint i = 0; i < fit->n_sides; i++)
    if (fit->sides[i].kind == end)
      steps[i] = outwards * fit->sides[i].at.x - innermost;
}

/* How far each side steps back. */
static double *
find_steps (const RodFit   *fit,
            const RodField *field,
            const RodRules *rules)
{
  double *steps = g_new (double, MAX (fit->n_sides, 1));

  for (guint i = 0; i < fit->n_sides; i++)
    steps[i] = step_back_mm (fit, field, rules, i);
  straighten_end (fit, ROD_SIDE_LEFT, steps);
  straighten_end (fit, ROD_SIDE_RIGHT, steps);
  return steps;
}

static void
moved_side (const RodFit *fit,
            guint         i,
            double        back_mm,
            RodPoint     *from,
            RodPoint     *to)
{
  double length, nx, ny;

  *from = fit->sides[i].at;
  *to = rod_fit_next (fit, i)->at;
  length = rod_point_distance (*from, *to);
  nx = -(to->y - from->y) / length * back_mm;
  ny = (to->x - from->x) / length * back_mm;
  *from = (RodPoint){ from->x + nx, from->y + ny };
  *to = (RodPoint){ to->x + nx, to->y + ny };
}

/* Corners of the moved sides; neighbours in one line with different steps keep a step between, so
 * that there may be up to twice as many as before. */
static void
move_sides (const RodFit   *before,
            const RodField *field,
            const RodRules *rules,
            RodFit         *after)
{
  guint              n = before->n_sides;
  g_autofree double *steps = find_steps (before, field, rules);

  after->n_sides = 0;
  after->sides = g_new (RodFitSide, 2 * (gsize) n);
  for (guint i = 0; i < n; i++)
    {
      guint      last = (i + n - 1) % n;
      double     back_last = steps[last];
      double     back = steps[i];
      RodFitSide side = before->sides[i];
      RodPoint   a_from, a_to, b_from, b_to;

      if (back_last > 0.0 || back > 0.0)
        {
          moved_side (before, last, back_last, &a_from, &a_to);
          moved_side (before, i, back, &b_from, &b_to);
          if (!rod_lines_meet (a_from, a_to, b_from, b_to, &side.at))
            {
              after->sides[after->n_sides] = before->sides[last];
              after->sides[after->n_sides++].at = a_to;
              side.at = b_from;
            }
        }
      after->sides[after->n_sides++] = side;
    }
}

/* Whether a side turned round: it was shorter than its neighbours' steps. */
static gboolean
has_turned (const RodFit *before,
            const RodFit *after)
{
  if (before->n_sides != after->n_sides)
    return FALSE;
  for (guint i = 0; i < before->n_sides; i++)
    {
      RodPoint a = before->sides[i].at, b = rod_fit_next (before, i)->at;
      RodPoint c = after->sides[i].at, d = rod_fit_next (after, i)->at;

      if ((b.x - a.x) * (d.x - c.x) + (b.y - a.y) * (d.y - c.y) < 0.0)
        return TRUE;
    }
  return FALSE;
}

/* On which side of the line through @a and @b a point lies. */
static double
side_of (RodPoint a,
         RodPoint b,
         RodPoint at)
{
  return (b.x - a.x) * (at.y - a.y) - (b.y - a.y) * (at.x - a.x);
}

static gboolean
cross (RodPoint a,
       RodPoint b,
       RodPoint c,
       RodPoint d)
{
  return side_of (a, b, c) * side_of (a, b, d) < 0.0 && side_of (c, d, a) * side_of (c, d, b) < 0.0;
}

/* Whether notches cut into each other: one from above and one from below with less board between
 * them than their clearances take. */
static gboolean
notches_cross (const RodFit *fit)
{
  for (guint i = 0; i < fit->n_sides; i++)
    for (guint k = 0; fit->sides[i].kind == ROD_SIDE_SHOULDER && k < fit->n_sides; k++)
      if (cross (fit->sides[i].at,
                 rod_fit_next (fit, i)->at,
                 fit->sides[k].at,
                 rod_fit_next (fit, k)->at))
        return TRUE;
  return FALSE;
}

static gboolean
leaves_band (const RodFit *fit,
             double        low,
             double        high)
{
  for (guint i = 0; i < fit->n_sides; i++)
    if (fit->sides[i].at.y < low - ROD_SNAP_MM || fit->sides[i].at.y > high + ROD_SNAP_MM)
      return TRUE;
  return FALSE;
}

/* Twice the area, about the first corner. */
static gboolean
has_area (const RodFit *fit)
{
  double twice = 0.0;

  for (guint i = 0; i < fit->n_sides; i++)
    {
      RodPoint o = fit->sides[0].at, a = fit->sides[i].at, b = rod_fit_next (fit, i)->at;

      twice += (a.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.y - o.y);
    }
  return twice > 2.0 * ROD_REMNANT_MM * ROD_REMNANT_MM;
}

/* Ends of a part that a notch has cut off: where no old end is left, the notch's side is the new
 * one and keeps the notch's clearance. */
static void
settle_part (RodFit         *part,
             const RodPlan  *plan,
             const RodField *field)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  double          low_x = INFINITY, high_x = -INFINITY;

  /* What keeps both its ends keeps what was reckoned for them. */
  if (end_side (part, ROD_SIDE_LEFT) >= 0 && end_side (part, ROD_SIDE_RIGHT) >= 0)
    return;
  for (guint i = 0; i < part->n_sides; i++)
    {
      low_x = MIN (low_x, part->sides[i].at.x);
      high_x = MAX (high_x, part->sides[i].at.x);
    }
  if (end_side (part, ROD_SIDE_LEFT) < 0)
    {
      mark_end (part, ROD_SIDE_LEFT, low_x);
      set_end (part, plan, field, ROD_SIDE_LEFT, &part->left);
      part->left.gap_mm = rules->notch_clear_mm;
    }
  if (end_side (part, ROD_SIDE_RIGHT) < 0)
    {
      mark_end (part, ROD_SIDE_RIGHT, high_x);
      set_end (part, plan, field, ROD_SIDE_RIGHT, &part->right);
      part->right.gap_mm = rules->notch_clear_mm;
    }
  clear_point (&part->left);
  clear_point (&part->right);
  part->clear_mm = high_x - low_x + part->left.gap_mm + part->right.gap_mm;
  set_runs (part, field);
  clear_point (&part->left);
  clear_point (&part->right);
}

static void
add_band (RodPath      *path,
          const RodFit *fit,
          double        low,
          double        high)
{
  double left = INFINITY, right = -INFINITY;

  for (guint i = 0; i < fit->n_sides; i++)
    {
      left = MIN (left, fit->sides[i].at.x);
      right = MAX (right, fit->sides[i].at.x);
    }
  rod_path_add_corner (path, (RodPoint){ left, low }, (int) fit->n_sides);
  rod_path_add_corner (path, (RodPoint){ right, low }, (int) fit->n_sides);
  rod_path_add_corner (path, (RodPoint){ right, high }, (int) fit->n_sides + 1);
  rod_path_add_corner (path, (RodPoint){ left, high }, (int) fit->n_sides);
  rod_path_close (path);
}

/* Cleans a ring in which sides turned round or left the course: what still runs the right way
 * within the course. Sides go through under their own numbers, so that their tags and kinds are
 * found again; the course's own lines come last. */
static void
untangle (const RodFit   *fit,
          const RodPlan  *plan,
          const RodField *field,
          double          line_mm,
          GArray         *pieces)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) clean = NULL;
  const RodFitSide lines[] = {
    { .tag = ROD_TAG_LINE_BELOW, .kind = ROD_SIDE_LONG },
    { .tag = ROD_TAG_LINE_ABOVE, .kind = ROD_SIDE_LONG },
  };

  for (guint i = 0; i < fit->n_sides; i++)
    rod_path_add_corner (path, fit->sides[i].at, (int) i);
  rod_path_close (path);
  add_band (path, fit, line_mm, line_mm + field->board->cover_mm);
  clean = rod_region_normalise (path, 2);
  for (guint r = 0; r < clean->n_rings; r++)
    {
      guint  start = clean->ring_starts[r];
      RodFit part = *fit;

      part.n_sides = clean->ring_starts[r + 1] - start;
      part.sides = g_new (RodFitSide, part.n_sides);
      for (guint i = 0; i < part.n_sides; i++)
        {
          guint side = (guint) clean->tags[start + i];

          part.sides[i] = side < fit->n_sides ? fit->sides[side] : lines[side - fit->n_sides];
          part.sides[i].at = clean->points[start + i];
        }
      settle_part (&part, plan, field);
      if (has_area (&part))
        g_array_append_val (pieces, part);
      else
        rod_fit_clear (&part);
    }
}

void
rod_fit_init_hole (RodFit         *fit,
                   const RodPlan  *plan,
                   const RodField *field,
                   double          line_mm,
                   const RodPoint *points,
                   const int      *tags,
                   guint           n)
{
  RodFit hole = { .sides = g_new (RodFitSide, n), .n_sides = n };

  for (guint i = 0; i < n; i++)
    hole.sides[i] = (RodFitSide){
      .at = points[i],
      .tag = tags[i],
      .kind = stays (field, tags[i]) ? ROD_SIDE_LONG : ROD_SIDE_SHOULDER,
    };
  *fit = hole;
  move_sides (&hole, field, rod_plan_face (plan, field->face)->system->rules, fit);
  if (leaves_band (fit, line_mm, line_mm + field->board->cover_mm))
    {
      rod_fit_clear (fit);
      *fit = hole;
      return;
    }
  rod_fit_clear (&hole);
}

void
rod_fit_cut (RodFit         *fit,
             const RodPlan  *plan,
             const RodField *field,
             double          line_mm,
             GArray         *pieces)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  RodFit          moved = *fit;

  move_sides (fit, field, rules, &moved);
  if (has_turned (fit, &moved) || notches_cross (&moved) ||
      leaves_band (&moved, line_mm, line_mm + field->board->cover_mm))
    {
      untangle (&moved, plan, field, line_mm, pieces);
      rod_fit_clear (&moved);
    }
  else if (moved.n_sides >= 3 && has_area (&moved))
    g_array_append_val (pieces, moved);
  else
    rod_fit_clear (&moved);
  rod_fit_clear (fit);
}
