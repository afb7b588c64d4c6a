/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From the strip between pocket lines to the board that is sawn. A strip's sides are: joint lines and
 * long sides, which stay; two ends, which step back by a gap that depends on the board's own length;
 * and shoulders beside openings, which step back by a constant clearance, for a notched board moves
 * as one. Rings run counter-clockwise, so a right end climbs and a left end falls. */

#include "config.h"

#include <math.h>

#include "engine/geometry/rod-inset.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-columns.h"
#include "engine/takeoff/rod-piece-fit.h"

#define POINT(fit, i) g_array_index ((fit)->points, RodPoint, (i))
#define TAG(fit, i) g_array_index ((fit)->tags, int, (i))
#define KIND(fit, i) g_array_index ((fit)->kinds, RodSideKind, (i))

static guint
next_of (const RodFit *fit,
         guint         i)
{
  return i + 1 < fit->points->len ? i + 1 : 0;
}

static gboolean
stays (const RodField *field,
       int             tag)
{
  if (tag == ROD_TAG_LINE_BELOW || tag == ROD_TAG_LINE_ABOVE)
    return TRUE;
  return tag >= 0 && field->edges[tag].long_side;
}

/* Marks the chain of climbing (or falling) sides that holds the piece's extreme point as its end. */
static void
mark_end (RodFit     *fit,
          RodSideKind end,
          double      extreme_x)
{
  guint n = fit->points->len;

  for (guint i = 0; i < n; i++)
    {
      gboolean touches = fabs (POINT (fit, i).x - extreme_x) < ROD_SNAP_MM ||
                         fabs (POINT (fit, next_of (fit, i)).x - extreme_x) < ROD_SNAP_MM;
      double sign = end == ROD_SIDE_RIGHT ? 1.0 : -1.0;

      if (KIND (fit, i) != ROD_SIDE_SHOULDER || !touches)
        continue;
      /* Both ways from the seed while sides go on in the same direction. */
      for (guint step = 0, k = i; step < n; step++, k = next_of (fit, k))
        {
          if ((KIND (fit, k) != ROD_SIDE_SHOULDER && KIND (fit, k) != end) ||
              (POINT (fit, next_of (fit, k)).y - POINT (fit, k).y) * sign <= 0.0)
            break;
          KIND (fit, k) = end;
        }
      for (guint step = 0, k = i; step < n; step++, k = (k + n - 1) % n)
        {
          if ((KIND (fit, k) != ROD_SIDE_SHOULDER && KIND (fit, k) != end) ||
              (POINT (fit, next_of (fit, k)).y - POINT (fit, k).y) * sign <= 0.0)
            break;
          KIND (fit, k) = end;
        }
    }
}

/* The longest side of an end says where it ends and at which angle. */
static int
end_side (const RodFit *fit,
          RodSideKind   end)
{
  double longest = 0.0;
  int    found = -1;

  for (guint i = 0; i < fit->points->len; i++)
    {
      double length = rod_point_distance (POINT (fit, i), POINT (fit, next_of (fit, i)));

      if (KIND (fit, i) == end && length > longest)
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
  RodPoint a = POINT (fit, (guint) side);
  RodPoint b = POINT (fit, next_of (fit, (guint) side));
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
  const RodTrim *joint = rod_field_joint_trim (plan, field);
  int            side = end_side (fit, kind);
  const RodTrim *trim;

  /* A piece that tapers out to nothing has no side there; it ends in a point between long sides. */
  *end = (RodPieceEnd){ .edge = kind == ROD_SIDE_LEFT ? ROD_TAG_LINE_BELOW : ROD_TAG_LINE_ABOVE };
  if (side < 0)
    return;
  end->edge = TAG (fit, (guint) side);
  trim = end->edge >= 0 ? field->edges[end->edge].trim : joint;
  end->back_mm = trim == NULL ? 0.0 : trim->back_mm;
  end->pocket_mm = trim == NULL ? 0.0 : trim->pocket_mm;
  end->angle_deg = cut_angle_deg (fit, side, kind);
}

static double
column_back (const RodPieceEnd *end)
{
  return end->edge == ROD_TAG_COLUMN_LEFT || end->edge == ROD_TAG_COLUMN_RIGHT ? end->back_mm : 0.0;
}

/* Which end of a board lies higher on the wall: the left one where the boards' axis points down. */
static gboolean
left_is_upper (const RodField *field)
{
  return field->to_surface.yx < 0.0;
}

static void
set_gaps (RodFit         *fit,
          const RodPlan  *plan,
          const RodField *field,
          double          low_x,
          double          high_x)
{
  gboolean left_upper = left_is_upper (field);

  fit->clear_mm = high_x - column_back (&fit->right) - low_x - column_back (&fit->left);
  fit->clear_mm = MAX (fit->clear_mm, 0.0);
  fit->left.run_mm = rod_field_end_run_mm (field, fit->clear_mm, left_upper);
  fit->right.run_mm = rod_field_end_run_mm (field, fit->clear_mm, !left_upper);
  fit->left.gap_mm = rod_field_end_gap_mm (plan, field, fit->clear_mm, left_upper);
  fit->right.gap_mm = rod_field_end_gap_mm (plan, field, fit->clear_mm, !left_upper);
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

  *fit = (RodFit){
    .points = g_array_sized_new (FALSE, FALSE, sizeof (RodPoint), n),
    .tags = g_array_sized_new (FALSE, FALSE, sizeof (int), n),
    .kinds = g_array_sized_new (FALSE, FALSE, sizeof (RodSideKind), n),
  };
  g_array_append_vals (fit->points, points, n);
  g_array_append_vals (fit->tags, tags, n);
  for (guint i = 0; i < n; i++)
    {
      RodSideKind kind = stays (field, tags[i]) ? ROD_SIDE_LONG : ROD_SIDE_SHOULDER;

      g_array_append_val (fit->kinds, kind);
      low_x = MIN (low_x, points[i].x);
      high_x = MAX (high_x, points[i].x);
    }
  mark_end (fit, ROD_SIDE_LEFT, low_x);
  mark_end (fit, ROD_SIDE_RIGHT, high_x);
  set_end (fit, plan, field, ROD_SIDE_LEFT, &fit->left);
  set_end (fit, plan, field, ROD_SIDE_RIGHT, &fit->right);
  set_gaps (fit, plan, field, low_x, high_x);
}

void
rod_fit_clear (RodFit *fit)
{
  g_clear_pointer (&fit->points, g_array_unref);
  g_clear_pointer (&fit->tags, g_array_unref);
  g_clear_pointer (&fit->kinds, g_array_unref);
}

static double
step_back_mm (const RodFit   *fit,
              const RodRules *rules,
              guint           i)
{
  switch (KIND (fit, i))
    {
    case ROD_SIDE_LEFT:
      return fit->left.gap_mm + column_back (&fit->left);
    case ROD_SIDE_RIGHT:
      return fit->right.gap_mm + column_back (&fit->right);
    case ROD_SIDE_SHOULDER:
      return rules->notch_clear_mm;
    case ROD_SIDE_LONG:
    default:
      return 0.0;
    }
}

static void
moved_side (const RodFit *fit,
            guint         i,
            double        back_mm,
            RodPoint     *from,
            RodPoint     *to)
{
  double length, nx, ny;

  *from = POINT (fit, i);
  *to = POINT (fit, next_of (fit, i));
  length = rod_point_distance (*from, *to);
  nx = -(to->y - from->y) / length * back_mm;
  ny = (to->x - from->x) / length * back_mm;
  *from = (RodPoint){ from->x + nx, from->y + ny };
  *to = (RodPoint){ to->x + nx, to->y + ny };
}

static void
append_corner (RodFit     *fit,
               RodPoint    at,
               int         tag,
               RodSideKind kind)
{
  g_array_append_val (fit->points, at);
  g_array_append_val (fit->tags, tag);
  g_array_append_val (fit->kinds, kind);
}

/* Corners of the moved sides; neighbours in one line with different steps keep a step between. */
static void
move_sides (const RodFit   *before,
            const RodRules *rules,
            RodFit         *after)
{
  guint n = before->points->len;

  for (guint i = 0; i < n; i++)
    {
      guint    last = (i + n - 1) % n;
      double   back_last = step_back_mm (before, rules, last);
      double   back = step_back_mm (before, rules, i);
      RodPoint a_from, a_to, b_from, b_to, at = POINT (before, i);

      moved_side (before, last, back_last, &a_from, &a_to);
      moved_side (before, i, back, &b_from, &b_to);
      if ((back_last <= 0.0 && back <= 0.0) || rod_lines_meet (a_from, a_to, b_from, b_to, &at))
        append_corner (after, at, TAG (before, i), KIND (before, i));
      else
        {
          append_corner (after, a_to, TAG (before, last), KIND (before, last));
          append_corner (after, b_from, TAG (before, i), KIND (before, i));
        }
    }
}

/* Whether a side turned round: it was shorter than its neighbours' steps. */
static gboolean
has_turned (const RodFit *before,
            const RodFit *after)
{
  if (before->points->len != after->points->len)
    return FALSE;
  for (guint i = 0; i < before->points->len; i++)
    {
      RodPoint a = POINT (before, i), b = POINT (before, next_of (before, i));
      RodPoint c = POINT (after, i), d = POINT (after, next_of (after, i));

      if ((b.x - a.x) * (d.x - c.x) + (b.y - a.y) * (d.y - c.y) < 0.0)
        return TRUE;
    }
  return FALSE;
}

/* Cleans a ring in which sides turned round: the largest part that still runs the right way. Tags
 * are made unique for the pass, so that kinds find their sides again. */
static void
untangle (RodFit *fit)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (RodRegion) clean = NULL;
  RodFit old = *fit;
  guint  best = 0;
  double best_area = 0.0;

  for (guint i = 0; i < old.points->len; i++)
    rod_path_add_corner (path, POINT (&old, i), (int) i);
  rod_path_close (path);
  clean = rod_region_normalise (path, 1);
  fit->points = g_array_new (FALSE, FALSE, sizeof (RodPoint));
  fit->tags = g_array_new (FALSE, FALSE, sizeof (int));
  fit->kinds = g_array_new (FALSE, FALSE, sizeof (RodSideKind));
  for (guint r = 0; r < clean->n_rings; r++)
    {
      guint  start = clean->ring_starts[r];
      double area = rod_ring_area (clean->points + start, clean->ring_starts[r + 1] - start);

      if (area > best_area)
        {
          best_area = area;
          best = r;
        }
    }
  for (guint p = clean->n_rings > 0 ? clean->ring_starts[best] : 0;
       clean->n_rings > 0 && p < clean->ring_starts[best + 1];
       p++)
    append_corner (fit, clean->points[p], TAG (&old, (guint) clean->tags[p]), KIND (&old, (guint) clean->tags[p]));
  rod_fit_clear (&old);
}

gboolean
rod_fit_cut (RodFit         *fit,
             const RodPlan  *plan,
             const RodField *field)
{
  const RodRules *rules = rod_plan_face (plan, field->face)->system->rules;
  guint           n = fit->points->len;
  RodFit          moved = *fit;
  gboolean        turned;

  moved.points = g_array_sized_new (FALSE, FALSE, sizeof (RodPoint), n);
  moved.tags = g_array_sized_new (FALSE, FALSE, sizeof (int), n);
  moved.kinds = g_array_sized_new (FALSE, FALSE, sizeof (RodSideKind), n);
  move_sides (fit, rules, &moved);
  turned = has_turned (fit, &moved);
  rod_fit_clear (fit);
  *fit = moved;
  if (turned)
    untangle (fit);
  return fit->points->len >= 3 &&
         rod_ring_area ((const RodPoint *) (const void *) fit->points->data, fit->points->len) >
           ROD_REMNANT_MM * ROD_REMNANT_MM;
}
