/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Checks of single boards: slivers, short pieces, ends that do not stay in their pockets, pieces
 * that hang on one batten. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/frame/rod-supports.h"
#include "engine/movement/rod-movement.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-group-setout.h"

/* What one kind of finding has come to in a field. */
typedef struct
{
  RodFinding worst;
  int        count;
} Tally;

typedef struct
{
  RodPlan        *plan;
  const RodField *field;
  const RodFace  *face;
  const RodRules *rules;
  Tally           slivers;
  Tally           notches;
  Tally           long_notches;
  Tally           shorts;
  Tally           loose;
  Tally           battens;
  Tally           tight;
} Check;

static RodPoint
middle_of (const RodPlan  *plan,
           const RodPiece *piece)
{
  const RodRegion *rings = plan->rings;
  guint            start = rings->ring_starts[piece->first_ring];
  guint            n = rings->ring_starts[piece->first_ring + 1] - start;
  RodPoint         sum = { 0.0, 0.0 };

  for (guint p = start; p < start + n; p++)
    {
      sum.x += rings->points[p].x / n;
      sum.y += rings->points[p].y / n;
    }
  return sum;
}

static void
tally (Check      *check,
       Tally      *kind,
       guint       piece,
       const char *id,
       RodSeverity severity,
       double      value,
       double      limit,
       const char *rule)
{
  RodFinding found = {
    .id = id,
    .severity = severity,
    .face = (int) check->field->face,
    .at = middle_of (check->plan, rod_plan_piece (check->plan, piece)),
    .has_at = TRUE,
    .piece = (int) piece,
    .value = value,
    .limit = limit,
    .rule = rule,
  };

  rod_check_worst (&kind->worst, &kind->count, &found);
}

static gboolean
is_ripped (const RodField *field,
           const RodPiece *piece)
{
  return piece->width_mm < field->board->cover_mm - ROD_SNAP_MM;
}

/* A notch that reaches the piece's end and leaves nothing there is a taper: the board runs out to a
 * point under a sill, and no strip is left over. */
static gboolean
runs_out (const RodPiece *piece,
          const RodNotch *notch)
{
  return notch->leaves_mm < ROD_SNAP_MM &&
         (notch->from_left_mm < ROD_SNAP_MM ||
          notch->from_left_mm + notch->width_mm > piece->length_mm - ROD_SNAP_MM);
}

static void
check_widths (Check          *check,
              guint           index,
              const RodPiece *piece)
{
  double least = check->rules->min_rip_mm;

  if (is_ripped (check->field, piece) && piece->width_mm < least - ROD_EPSILON_MM)
    tally (
      check, &check->slivers, index, "sliver", ROD_SEVERITY_SHOULD, piece->width_mm, least, "R4");
  for (guint n = 0; n < piece->n_notches; n++)
    {
      const RodNotch *notch =
        &g_array_index (check->plan->notches, RodNotch, piece->first_notch + n);

      if (notch->leaves_mm < least - ROD_EPSILON_MM && !runs_out (piece, notch))
        tally (check,
               &check->notches,
               index,
               "notch-leaves-sliver",
               ROD_SEVERITY_SHOULD,
               notch->leaves_mm,
               least,
               "R4");
      if (notch->width_mm > check->rules->notch_longest_mm + ROD_EPSILON_MM)
        tally (check,
               &check->long_notches,
               index,
               "long-notch",
               ROD_SEVERITY_SHOULD,
               notch->width_mm,
               check->rules->notch_longest_mm,
               "R29");
    }
}

static void
check_end (Check             *check,
           guint              index,
           const RodPieceEnd *end)
{
  double grown_mm = check->field->expand * end->run_mm + check->rules->tolerance_mm;
  double left_mm;

  /* Only an end that a notch has made keeps another gap than its own movement asks for. */
  if (end->run_mm > 0.0 && end->gap_mm < grown_mm - ROD_EPSILON_MM)
    tally (check,
           &check->tight,
           index,
           "gap-too-small",
           ROD_SEVERITY_SHOULD,
           end->gap_mm,
           grown_mm,
           "R29");
  if (end->pocket_mm <= 0.0)
    return;
  left_mm = rod_engagement_mm (
    check->field->shrink, end->run_mm, end->pocket_mm, end->gap_mm, check->rules);
  if (left_mm < check->rules->min_engagement_mm - ROD_EPSILON_MM)
    tally (check,
           &check->loose,
           index,
           "engagement",
           ROD_SEVERITY_MUST,
           left_mm,
           check->rules->min_engagement_mm,
           "R27");
}

static gboolean
ends_at (const RodField    *field,
         const RodPieceEnd *end,
         RodEdgeCondition   condition)
{
  return end->edge >= 0 && field->edges[end->edge].condition == condition;
}

/* Towards a mitre boards run out to a point; nobody can spare the last short ones. */
static gboolean
ends_at_mitre (const RodField *field,
               const RodPiece *piece)
{
  return ends_at (field, &piece->left, ROD_EDGE_MITRE) ||
         ends_at (field, &piece->right, ROD_EDGE_MITRE);
}

static void
check_piece (Check *check,
             guint  index)
{
  const RodPiece *piece = rod_plan_piece (check->plan, index);
  double          from, to;
  int             needed;

  check_widths (check, index, piece);
  if (piece->length_mm < check->rules->min_piece_mm - ROD_EPSILON_MM)
    tally (check,
           &check->shorts,
           index,
           "short-piece",
           ends_at_mitre (check->field, piece) ? ROD_SEVERITY_NOTE : ROD_SEVERITY_SHOULD,
           piece->length_mm,
           check->rules->min_piece_mm,
           "R19");
  check_end (check, index, &piece->left);
  check_end (check, index, &piece->right);
  rod_piece_middle (check->plan, piece, &from, &to);
  needed = rod_piece_battens_needed (check->face->system->batten->width_mm, to - from);
  if (piece->battens < needed)
    tally (check,
           &check->battens,
           index,
           "few-battens",
           ROD_SEVERITY_MUST,
           piece->battens,
           needed,
           "R23");
}

/* "A-07-2" or "A-07-2 and 4 more". */
static char *
name_pieces (const Check *check,
             const Tally *kind)
{
  const char *mark = rod_plan_piece (check->plan, (guint) kind->worst.piece)->mark;

  if (kind->count == 1)
    return g_strdup (mark);
  return g_strdup_printf (
    ngettext ("%s and %d more", "%s and %d more", (gulong) (kind->count - 1)),
    mark,
    kind->count - 1);
}

/* What cures a sliver: the move to the best set-out where the rod was left elsewhere, the pin that
 * keeps it from there, or what lies outside of the set-out. */
static char *
sliver_remedy (const Check *check,
               const Tally *kind)
{
  const RodGroup *group =
    &g_array_index (check->plan->groups, RodGroup, check->field->group);
  RodPhaseScore best = rod_phase_score (&group->setout->problem, group->best_mm);
  double        move_mm = remainder (group->best_mm - group->phase_mm, group->pitch_mm);
  double        missing_mm = ceil (kind->worst.limit - kind->worst.value);

  if (group->held && best.slivers < group->slivers)
    return g_strdup_printf (_ ("Move the joint lines by %+.1f mm: the narrowest strip of the group "
                               "is then %.0f mm."),
                            move_mm * check->field->group_scale,
                            best.narrowest_mm);
  if (group->pinned)
    return g_strdup_printf (
      _ ("A pin holds the joint lines of this group: move it by at least %.0f mm, or remove it."),
      missing_mm);
  return g_strdup_printf (
    _ ("No position of the joint lines spares this strip without a narrower one elsewhere. Let "
       "the starter move by %.0f mm more, use another board here, or hide the strip behind a "
       "deeper trim."),
    missing_mm);
}

/* By how much a piece under a rake gets longer at this end for each millimetre that the joint lines
 * come down: the tangent of its cut. */
static double
grows_under_rake (const RodField    *field,
                  const RodPieceEnd *end)
{
  if (!ends_at (field, end, ROD_EDGE_VERGE))
    return 0.0;
  return tan (MAX (-end->angle_deg, 0.0) * G_PI / 180.0);
}

static char *
short_remedy (const Check *check,
              const Tally *kind)
{
  const RodPiece *piece = rod_plan_piece (check->plan, (guint) kind->worst.piece);
  double          grows = grows_under_rake (check->field, &piece->left) +
                 grows_under_rake (check->field, &piece->right);

  if (ends_at_mitre (check->field, piece))
    return g_strdup (_ ("Boards run out to a point at a mitre: cut these from offcuts."));
  if (check->face->surface->kind == ROD_SURFACE_WALL && grows > ROD_EPSILON_MM &&
      piece->short_mm < ROD_SNAP_MM)
    return g_strdup_printf (
      _ ("Lower the joint lines by %.0f mm, or close the apex with a plate."),
      ceil ((kind->worst.limit - kind->worst.value) / grows - ROD_EPSILON_MM));
  return g_strdup (_ ("Move the length joint or the opening, or let a neighbouring board run "
                      "through with a notch."));
}

/* Whether a board of some length would stay in the pocket at one of its ends (rule R27). */
static gboolean
would_stay (const Check       *check,
            const RodPieceEnd *end,
            double             length_mm)
{
  double run_mm = 0.0, gap_mm = end->gap_mm;

  if (end->pocket_mm <= 0.0)
    return TRUE;
  /* The run with the gaps of the longer board that is there now: a shorter one has less. */
  if (end->run_mm > 0.0)
    {
      run_mm = check->field->fixed == ROD_FIXED_MIDDLE
                 ? length_mm / 2.0 + end->gap_mm
                 : length_mm + end->gap_mm + check->rules->fixed_end_gap_mm;
      gap_mm = rod_gap_mm (check->field->expand, run_mm, check->rules);
    }
  return rod_engagement_mm (check->field->shrink, run_mm, end->pocket_mm, gap_mm, check->rules) >=
         check->rules->min_engagement_mm;
}

/* Whole centimetres are tried, for gaps go by whole millimetres and no formula rounds like that. */
static char *
loose_remedy (const Check *check,
              const Tally *kind)
{
  const RodPiece *piece = rod_plan_piece (check->plan, (guint) kind->worst.piece);
  double          longest_mm = floor (piece->length_mm / 10.0) * 10.0;

  while (longest_mm > 0.0 && !(would_stay (check, &piece->left, longest_mm) &&
                               would_stay (check, &piece->right, longest_mm)))
    longest_mm -= 10.0;
  if (longest_mm <= 0.0)
    return g_strdup (_ ("Use a trim with a deeper pocket, or a smaller least gap."));
  return g_strdup_printf (
    _ ("Use boards of at most %.0f mm here (a length joint), or a trim with a deeper pocket."),
    longest_mm);
}

static char *
plain_remedy (const Check *check,
              const Tally *kind)
{
  if (kind == &check->long_notches)
    return g_strdup (_ ("A joint on the opening's side would leave too short a piece: move the "
                        "opening, or put a joint line on its sill or head."));
  if (kind == &check->battens)
    return g_strdup (_ ("Add a batten under each end of the piece, or join it to its neighbour."));
  return g_strdup (_ ("Widen the notch, or end the board at the opening with a trim."));
}

static char *
sliver_text (const Check *check,
             const Tally *kind,
             const char  *pieces)
{
  return g_strdup_printf (_ ("%s: %s ripped to %.0f mm, narrower than %.0f mm."),
                          check->face->label,
                          pieces,
                          kind->worst.value,
                          kind->worst.limit);
}

static char *
notch_text (const Check *check,
            const Tally *kind,
            const char  *pieces)
{
  return g_strdup_printf (
    _ ("%s: the notch in %s leaves only %.0f mm beside the opening, less than %.0f mm."),
    check->face->label,
    pieces,
    kind->worst.value,
    kind->worst.limit);
}

static char *
long_notch_text (const Check *check,
                 const Tally *kind,
                 const char  *pieces)
{
  return g_strdup_printf (_ ("%s: %s notched over %.0f mm, longer than %.0f mm."),
                          check->face->label,
                          pieces,
                          kind->worst.value,
                          kind->worst.limit);
}

static char *
short_text (const Check *check,
            const Tally *kind,
            const char  *pieces)
{
  return g_strdup_printf (_ ("%s: %s only %.0f mm long, shorter than %.0f mm."),
                          check->face->label,
                          pieces,
                          kind->worst.value,
                          kind->worst.limit);
}

static char *
loose_text (const Check *check,
            const Tally *kind,
            const char  *pieces)
{
  return g_strdup_printf (
    _ ("%s: in frost only %.1f mm of %s stay in the pocket, less than %.1f mm."),
    check->face->label,
    kind->worst.value,
    pieces,
    kind->worst.limit);
}

static char *
tight_text (const Check *check,
            const Tally *kind,
            const char  *pieces)
{
  return g_strdup_printf (
    _ ("%s: the gap of %.0f mm beside the opening at %s is less than the %.1f mm it grows."),
    check->face->label,
    kind->worst.value,
    pieces,
    kind->worst.limit);
}

static char *
batten_text (const Check *check,
             const Tally *kind,
             const char  *pieces)
{
  return g_strdup_printf (_ ("%s: %s on too few battens."), check->face->label, pieces);
}

static void
report (const Check *check,
        Tally       *kind,
        char *(*text) (const Check *, const Tally *, const char *),
        char *(*remedy) (const Check *, const Tally *) )
{
  g_autofree char *pieces = NULL;

  if (kind->count == 0)
    return;
  pieces = name_pieces (check, kind);
  kind->worst.text = text (check, kind, pieces);
  kind->worst.remedy = remedy (check, kind);
  rod_findings_add (check->plan->findings, &kind->worst);
}

void
rod_check_pieces (RodPlan *plan,
                  guint    field)
{
  Check check = {
    .plan = plan,
    .field = rod_plan_field (plan, field),
    .face = rod_plan_face (plan, rod_plan_field (plan, field)->face),
  };

  check.rules = check.face->system->rules;
  for (guint p = check.field->first_piece; p < check.field->first_piece + check.field->n_pieces;
       p++)
    check_piece (&check, p);
  report (&check, &check.loose, loose_text, loose_remedy);
  report (&check, &check.battens, batten_text, plain_remedy);
  report (&check, &check.slivers, sliver_text, sliver_remedy);
  report (&check, &check.notches, notch_text, sliver_remedy);
  report (&check, &check.long_notches, long_notch_text, plain_remedy);
  report (&check, &check.shorts, short_text, short_remedy);
  report (&check, &check.tight, tight_text, plain_remedy);
}
