/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Does the survey close? Each join that the folded house need not meet tells how far off the
 * lengths and corners of its loop are together. Of n measured lines that may each be off by t, the
 * sum may be off by t·√n, as independent errors add up; what is beyond was not measured, but read
 * or written wrongly. One wrong length opens every loop it lies in, by the same amount: that is one
 * finding, at the shortest of these loops. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/rod-limits.h"

/* Lines within 60° of a gap may have made it; others would have to be off by twice as much. */
#define LEAST_ALONG 0.5

typedef struct
{
  const RodClosure *closure;
  const char       *id; /* of its surface */
  double            open_mm;
  guint             others; /* loops open for the same reason */
} OpenLoop;

static const RodEdge *
edge_of (const RodPlan *plan,
         guint          face,
         guint          edge)
{
  return &rod_plan_field (plan, rod_plan_face (plan, face)->first_field)->edges[edge];
}

static const RodLoopStep *
step_of (const RodPlan    *plan,
         const RodClosure *closure,
         guint             step)
{
  return &g_array_index (plan->loop_steps, RodLoopStep, closure->first_step + step);
}

/* How far a surface reaches from one of its edges. */
static double
reach_mm (const RodPlan *plan,
          guint          face,
          guint          edge)
{
  const RodSide   *side = &edge_of (plan, face, edge)->raw;
  const GPtrArray *outline = rod_plan_face (plan, face)->surface->outline;
  double           length = rod_point_distance (side->from, side->to), most = 0.0;

  for (guint c = 0; c < outline->len; c++)
    {
      const RodCorner *corner = g_ptr_array_index (outline, c);
      double           across = (side->to.x - side->from.x) * (corner->y - side->from.y) -
                      (side->to.y - side->from.y) * (corner->x - side->from.x);

      most = MAX (most, fabs (across) / length);
    }
  return most;
}

/* An angle counts by what it moves the far side of the smaller surface. */
static double
open_mm (const RodPlan    *plan,
         const RodClosure *closure)
{
  const RodEdge *edge = edge_of (plan, closure->face, closure->edge);
  double         own_mm = reach_mm (plan, closure->face, closure->edge);
  double         other_mm =
    reach_mm (plan, (guint) edge->partner_face, (guint) edge->partner_edge);
  double turn_rad = hypot (closure->edge_deg, closure->fold_deg) * G_PI / 180.0;

  return MAX (closure->misfit_mm, turn_rad * MIN (own_mm, other_mm));
}

static double
allowed_mm (const RodPlan    *plan,
            const RodClosure *closure)
{
  return plan->house->survey_tolerance_mm * sqrt (closure->n_steps);
}

/* Worst first, to the micrometre; of equal ones the shortest, which is the easiest to measure
 * again; else by ids, whatever the order of the file. */
static gint
compare_loops (gconstpointer a,
               gconstpointer b)
{
  const OpenLoop *one = a;
  const OpenLoop *other = b;
  double          one_um = round (one->open_mm * 1000.0);
  double          other_um = round (other->open_mm * 1000.0);

  if (one_um < other_um || one_um > other_um)
    return one_um > other_um ? -1 : 1;
  if (one->closure->n_steps != other->closure->n_steps)
    return (int) one->closure->n_steps - (int) other->closure->n_steps;
  return strcmp (one->id, other->id);
}

static gboolean
passes (const RodPlan    *plan,
        const RodClosure *closure,
        guint             face)
{
  for (guint s = 0; s < closure->n_steps; s++)
    if (step_of (plan, closure, s)->face == face)
      return TRUE;
  return FALSE;
}

static gboolean
has_same_reason (const RodPlan  *plan,
                 const OpenLoop *one,
                 const OpenLoop *other)
{
  if (fabs (one->open_mm - other->open_mm) > ROD_TAPE_MM)
    return FALSE;
  for (guint s = 0; s < one->closure->n_steps; s++)
    if (passes (plan, other->closure, step_of (plan, one->closure, s)->face))
      return TRUE;
  return FALSE;
}

static GArray *
list_open_loops (const RodPlan *plan)
{
  GArray *loops = g_array_new (FALSE, FALSE, sizeof (OpenLoop));

  for (guint i = 0; i < plan->closures->len; i++)
    {
      const RodClosure *closure = &g_array_index (plan->closures, RodClosure, i);
      OpenLoop          loop = {
                 .closure = closure,
                 .id = rod_plan_face (plan, closure->face)->surface->id,
                 .open_mm = open_mm (plan, closure),
      };

      if (loop.open_mm >= ROD_TAPE_MM)
        g_array_append_val (loops, loop);
    }
  g_array_sort (loops, compare_loops);
  return loops;
}

static char *
name_surfaces (const RodPlan    *plan,
               const RodClosure *closure)
{
  GString *names = g_string_new (NULL);

  for (guint s = 0; s < closure->n_steps; s++)
    g_string_append_printf (names,
                            "%s%s",
                            s > 0 ? " → " : "",
                            rod_plan_face (plan, step_of (plan, closure, s)->face)->label);
  return g_string_free (names, FALSE);
}

static gboolean
is_plumb (const RodEdge *edge)
{
  return fabs (edge->raw.to.x - edge->raw.from.x) < ROD_SNAP_MM;
}

/* The length that a loop takes from a surface, and where it points in space: from one upright edge
 * to the other, or along the edge on which the surface hangs. */
static double
measured_mm (const RodPlan     *plan,
             const RodLoopStep *step,
             RodVector         *along)
{
  const RodPlacement *at = &g_array_index (plan->places, RodFacePlace, step->face).at;
  const RodEdge      *in = edge_of (plan, step->face, step->in_edge);
  const RodEdge      *out = edge_of (plan, step->face, step->out_edge);
  const RodSide      *hung = is_plumb (in) ? &out->raw : &in->raw;
  double              length_mm = rod_point_distance (hung->from, hung->to);

  if (is_plumb (in) && is_plumb (out))
    {
      *along = at->x;
      return fabs (in->raw.from.x - out->raw.from.x);
    }
  *along = rod_vector_sum ((hung->to.x - hung->from.x) / length_mm,
                           at->x,
                           (hung->to.y - hung->from.y) / length_mm,
                           at->y);
  return length_mm;
}

/* Lengths that point the way of the gap come first. */
static char *
list_lengths (const RodPlan    *plan,
              const RodClosure *closure)
{
  GString *lengths = g_string_new (NULL);

  for (int round = 0; round < 2; round++)
    for (guint s = 0; s < closure->n_steps; s++)
      {
        const RodLoopStep *step = step_of (plan, closure, s);
        RodVector          along;
        double             length_mm = measured_mm (plan, step, &along);
        gboolean           likely =
          fabs (rod_vector_dot (along, closure->gap)) >= LEAST_ALONG * closure->misfit_mm;

        if (likely != (round == 0) || length_mm < ROD_SNAP_MM)
          continue;
        /* Translators: a surface and one of its measured lengths, one item of a list. */
        g_string_append_printf (lengths,
                                lengths->len > 0 ? _ (", %s %.0f mm") : _ ("%s %.0f mm"),
                                rod_plan_face (plan, step->face)->label,
                                length_mm);
      }
  return g_string_free (lengths, FALSE);
}

static void
say_open (const RodPlan  *plan,
          const OpenLoop *loop,
          RodFinding     *finding)
{
  const RodClosure *closure = loop->closure;
  const RodEdge    *edge = edge_of (plan, closure->face, closure->edge);
  g_autofree char  *names = name_surfaces (plan, closure);
  g_autofree char  *lengths = list_lengths (plan, closure);
  const char       *own = rod_plan_face (plan, closure->face)->label;
  const char       *other = rod_plan_face (plan, (guint) edge->partner_face)->label;
  GString          *text = g_string_new (NULL);

  g_string_printf (text,
                   _ ("Folded together along %s, the survey does not close: at their join %s and "
                      "%s miss each other by %.1f mm and %.2f°; %.1f mm can come from the survey's "
                      "tolerance."),
                   names,
                   own,
                   other,
                   closure->misfit_mm,
                   hypot (closure->edge_deg, closure->fold_deg),
                   finding->limit);
  if (loop->others > 0)
    g_string_append_printf (
      text,
      ngettext (" %u more join is open by as much.",
                " %u more joins are open by as much.",
                loop->others),
      loop->others);
  finding->text = g_string_free (text, FALSE);
  finding->remedy = g_strdup_printf (
    _ ("Measure again, the likeliest first: %s; or the corners between them. What is left can be "
       "spread over all of them."),
    lengths);
}

static void
say_level (const RodPlan  *plan,
           const OpenLoop *loop,
           RodFinding     *finding)
{
  const RodClosure *closure = loop->closure;
  const RodEdge    *edge = edge_of (plan, closure->face, closure->edge);

  finding->text =
    g_strdup_printf (_ ("The levels of %s and %s put them %.1f mm apart where they are joined; "
                        "%.1f mm can come from the survey's tolerance."),
                     rod_plan_face (plan, closure->face)->label,
                     rod_plan_face (plan, (guint) edge->partner_face)->label,
                     closure->misfit_mm,
                     finding->limit);
  finding->remedy =
    g_strdup (_ ("Measure both levels over the datum again, and the heights up to the join."));
}

static void
report_loop (RodPlan        *plan,
             const OpenLoop *loop)
{
  const RodClosure  *closure = loop->closure;
  const RodSide     *side = &edge_of (plan, closure->face, closure->edge)->raw;
  const RodLoopStep *first = step_of (plan, closure, 0);
  RodFinding         finding = {
            .id = "survey-open",
            .face = (int) closure->face,
            .at = { (side->from.x + side->to.x) / 2.0, (side->from.y + side->to.y) / 2.0 },
            .has_at = TRUE,
            .piece = -1,
            .value = loop->open_mm,
            .limit = allowed_mm (plan, closure),
            .rule = "R31",
  };

  finding.severity =
    finding.value > finding.limit + ROD_EPSILON_MM ? ROD_SEVERITY_SHOULD : ROD_SEVERITY_NOTE;
  /* A chain that goes back where it came from is no loop but a wall lifted to its level. */
  if (first->in_edge == first->out_edge)
    say_level (plan, loop, &finding);
  else
    say_open (plan, loop, &finding);
  rod_findings_add (plan->findings, &finding);
}

void
rod_check_survey (RodPlan *plan)
{
  g_autoptr (GArray) loops = list_open_loops (plan);
  guint n_kept = 0;

  for (guint i = 0; i < loops->len; i++)
    {
      OpenLoop *loop = &g_array_index (loops, OpenLoop, i);
      guint     k = 0;

      while (k < n_kept && !has_same_reason (plan, &g_array_index (loops, OpenLoop, k), loop))
        k++;
      if (k < n_kept)
        g_array_index (loops, OpenLoop, k).others++;
      else
        g_array_index (loops, OpenLoop, n_kept++) = *loop;
    }
  for (guint k = 0; k < n_kept; k++)
    report_loop (plan, &g_array_index (loops, OpenLoop, k));
}
