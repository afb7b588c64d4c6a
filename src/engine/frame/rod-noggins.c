/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Short battens. Lines of battens are set out for whole surfaces; a small piece can fall between
 * two of them. The fitter then puts a short batten behind it, and so does the plan, so that it is
 * cut and counted with the rest. In a pier with room for two battens and one in its middle, the one
 * becomes two, side by side. */

#include "config.h"

#include <math.h>

#include "engine/frame/rod-noggins.h"
#include "engine/frame/rod-supports.h"
#include "engine/rod-limits.h"

/* The battens of one field while short ones are added. */
typedef struct
{
  const RodPlan  *plan;
  const RodField *field;
  GArray         *battens;  /* of RodBattenRun: the list of the plan */
  guint           first;    /* index of the field's first one in it */
  GArray         *supports; /* of RodSupport: as set out, then other halves of doubled ones */
  double          width_mm;
  int             line; /* number of the last line */
} Frame;

static void
add_noggin (Frame          *frame,
            const RodPiece *piece,
            double          x)
{
  RodPoint     low = { x, piece->line_mm + piece->low_mm };
  RodPoint     high = { x, piece->line_mm + piece->high_mm };
  RodBattenRun run = {
    .field = piece->field,
    .uses = ROD_BATTEN_PIECE,
    .line = ++frame->line,
    .from = rod_affine_apply (frame->field->to_surface, low),
    .to = rod_affine_apply (frame->field->to_surface, high),
    .length_mm = piece->width_mm,
  };

  g_array_append_val (frame->battens, run);
}

/* The batten that a support stands for; counter battens are none. */
static RodBattenRun *
run_of (const Frame *frame,
        guint        support)
{
  for (guint run = frame->first;; run++)
    if (!g_array_index (frame->battens, RodBattenRun, run).counter && support-- == 0)
      return &g_array_index (frame->battens, RodBattenRun, run);
}

static RodBattenRun
shifted (const RodBattenRun *run,
         double              across_mm)
{
  double       dx = (run->to.y - run->from.y) / run->length_mm * across_mm;
  double       dy = (run->from.x - run->to.x) / run->length_mm * across_mm;
  RodBattenRun result = *run;

  result.from = (RodPoint){ run->from.x + dx, run->from.y + dy };
  result.to = (RodPoint){ run->to.x + dx, run->to.y + dy };
  return result;
}

static RodSupport
support_of (const Frame        *frame,
            const RodBattenRun *run)
{
  return (RodSupport){ rod_affine_apply (frame->field->to_board, run->from),
                       rod_affine_apply (frame->field->to_board, run->to) };
}

/* Makes a batten two, side by side about the place where it stands. */
static void
double_run (Frame *frame,
            guint  support)
{
  RodBattenRun *run = run_of (frame, support);
  RodBattenRun  one = shifted (run, -frame->width_mm / 2.0);
  RodBattenRun  other = shifted (run, frame->width_mm / 2.0);
  RodSupport    added = support_of (frame, &other);

  other.line = ++frame->line;
  *run = one;
  g_array_append_val (frame->battens, other);
  g_array_index (frame->supports, RodSupport, support) = support_of (frame, &one);
  g_array_append_val (frame->supports, added);
}

/* Whether a batten is so near that another one would lie on it. */
static gboolean
is_taken (const Frame *frame,
          double       x,
          double       y)
{
  double reach_mm = frame->width_mm - 2.0 * ROD_EPSILON_MM;

  return rod_supports_reach (frame->supports, 1, x - reach_mm, x + reach_mm, y);
}

/* How far from a piece's end a batten that is put under it stands. */
static double
end_mm (const Frame *frame,
        double       length_mm)
{
  const RodRules *rules = rod_plan_face (frame->plan, frame->field->face)->system->rules;

  return MIN (rules->batten_edge_mm, length_mm / 4.0);
}

/* The only batten under a piece that wants two, so near its middle that none fits at either side,
 * as in a pier of little more than two battens' width; -1 where it is otherwise, or where another
 * one outside the piece stands in the way of two. */
static int
find_lone (const Frame    *frame,
           const RodPiece *piece)
{
  double from, to, x;
  double y = rod_piece_middle (frame->plan, piece, &from, &to);
  double half_mm = frame->width_mm / 2.0;
  double apart_mm = 2.0 * frame->width_mm - 2.0 * ROD_EPSILON_MM;
  double in_mm = end_mm (frame, to - from);
  int    lone;

  if (rod_supports_reach (frame->supports, 2, from, to, y) ||
      rod_piece_battens_needed (frame->width_mm, to - from) < 2 ||
      !is_taken (frame, from + in_mm, y) || !is_taken (frame, to - in_mm, y))
    return -1;
  lone = rod_supports_find (frame->supports, from, to, y, &x);
  if (lone < 0)
    return -1;
  if (x - half_mm < from || x + half_mm > to ||
      rod_supports_reach (frame->supports, 2, x - apart_mm, x + apart_mm, y))
    return -1;
  return lone;
}

/* All are found before the first is doubled, so that the order of the pieces does not matter. */
static void
double_lone (Frame *frame)
{
  const RodField      *field = frame->field;
  guint                n = frame->supports->len;
  g_autofree gboolean *doubled = g_new0 (gboolean, n + 1);

  for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
    {
      int lone = find_lone (frame, rod_plan_piece (frame->plan, p));

      if (lone >= 0)
        doubled[lone] = TRUE;
    }
  for (guint s = 0; s < n; s++)
    if (doubled[s])
      double_run (frame, s);
}

/* Each half of a piece wants a batten; where its only one stands in the middle, either end gets one
 * if there is room. A piece too short for two wants one in its middle. */
static void
support_piece (Frame          *frame,
               const RodPiece *piece)
{
  double   from, to;
  double   y = rod_piece_middle (frame->plan, piece, &from, &to);
  double   middle = (from + to) / 2.0;
  double   in_mm = end_mm (frame, to - from);
  int      needed = rod_piece_battens_needed (frame->width_mm, to - from);
  gboolean left, right;

  if (rod_supports_reach (frame->supports, needed, from, to, y))
    return;
  if (needed == 1)
    {
      add_noggin (frame, piece, middle);
      return;
    }
  left = rod_supports_reach (frame->supports, 1, from, middle, y);
  right = rod_supports_reach (frame->supports, 1, middle, to, y);
  if (!left || (right && !is_taken (frame, from + in_mm, y)))
    add_noggin (frame, piece, from + in_mm);
  if (!right || (left && !is_taken (frame, to - in_mm, y)))
    add_noggin (frame, piece, to - in_mm);
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
rod_noggins_add (RodPlan *plan,
                 guint    index)
{
  RodField *field = &g_array_index (plan->fields, RodField, index);
  g_autoptr (GArray) supports = rod_supports_of (plan, index);
  Frame frame = {
    .plan = plan,
    .field = field,
    .battens = plan->battens,
    .first = field->first_batten,
    .supports = supports,
    .width_mm = rod_plan_face (plan, field->face)->system->batten->width_mm,
    .line = last_line (plan, field),
  };

  g_return_if_fail (field->first_batten + field->n_battens == plan->battens->len);

  double_lone (&frame);
  for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
    support_piece (&frame, rod_plan_piece (plan, p));
  field->n_battens = plan->battens->len - field->first_batten;
}
