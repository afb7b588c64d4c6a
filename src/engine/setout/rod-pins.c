/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Pins: what the user asks of joint lines. Each leaves its field a phase, or two that are half a
 * cover apart: a mirror axis may be a joint line or the middle of a board. Pin after pin, what all
 * leave is what remains; surfaces in the order of their ids, so that the order in the file changes
 * nothing. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-findings.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-levels.h"
#include "engine/setout/rod-pins.h"

/* Phases a pin leaves its group: base + k·step. */
typedef struct
{
  double base_mm;
  double step_mm;
} Places;

double
rod_field_phase_at (const RodField   *field,
                    const RodSurface *surface,
                    double            at_mm)
{
  if (fabs (field->direction_deg) < ROD_EPSILON_DEG)
    return at_mm - surface->level_mm;
  if (fabs (field->direction_deg - 90.0) < ROD_EPSILON_DEG)
    return rod_affine_apply (field->to_board, (RodPoint){ at_mm, 0.0 }).y;
  return at_mm;
}

/* The middle of some sides across the boards. */
static double
middle_across (const RodField *field,
               GArray         *sides)
{
  double low = INFINITY, high = -INFINITY;

  for (guint i = 0; i < sides->len; i++)
    {
      double y = rod_affine_apply (field->to_board, g_array_index (sides, RodSide, i).from).y;

      low = MIN (low, y);
      high = MAX (high, y);
    }
  g_array_unref (sides);
  return (low + high) / 2.0;
}

static const RodOpening *
opening_of (const RodSurface *surface,
            const char       *id,
            int              *index)
{
  for (guint i = 0; i < surface->openings->len; i++)
    {
      const RodOpening *opening = surface->openings->pdata[i];

      *index = (int) i;
      if (g_str_equal (opening->id, id))
        return opening;
    }
  *index = -1;
  return NULL;
}

static double
axis_phase (const RodField   *field,
            const RodSurface *surface,
            const RodPin     *pin)
{
  int               index;
  const RodOpening *opening = opening_of (surface, pin->opening, &index);

  if (!isnan (pin->at_mm))
    return rod_field_phase_at (field, surface, pin->at_mm);
  return middle_across (field,
                        opening != NULL ? rod_opening_sides (opening)
                                        : rod_corners_sides (surface->outline));
}

/* How far on the asked side of its opening an edge lies. */
static double
on_side (const RodEdge *edge,
         RodPinSide     side)
{
  double x = (edge->raw.from.x + edge->raw.to.x) / 2.0;
  double y = (edge->raw.from.y + edge->raw.to.y) / 2.0;

  switch (side)
    {
    case ROD_PIN_HEAD:
      return y;
    case ROD_PIN_LEFT:
      return -x;
    case ROD_PIN_RIGHT:
      return x;
    case ROD_PIN_SILL:
    default:
      return -y;
    }
}

/* Index of the edge of an opening that lies furthest on a side, of those that boards run along, or
 * -1. What lies no further there than all of the opening's edges do on average is on no side: sill
 * and head are neither left nor right. */
static int
opening_edge (const RodField *field,
              int             opening,
              RodPinSide      side)
{
  double sum = 0.0;
  guint  n = 0;
  int    found = -1;

  for (guint e = 0; e < field->n_edges; e++)
    {
      const RodEdge *edge = &field->edges[e];

      if (edge->opening != opening)
        continue;
      sum += on_side (edge, side);
      n++;
      if (edge->relation == ROD_BOARDS_ALONG &&
          (found < 0 || on_side (edge, side) > on_side (&field->edges[found], side)))
        found = (int) e;
    }
  if (found >= 0 && on_side (&field->edges[found], side) < sum / n + ROD_SNAP_MM)
    return -1;
  return found;
}

/* Index of the edge at which the board is to be whole, or -1. */
static int
edge_of (const RodField   *field,
         const RodSurface *surface,
         const RodPin     *pin)
{
  int opening;

  if (*pin->edge != '\0')
    return rod_surface_find_edge (surface, pin->edge);
  opening_of (surface, pin->opening, &opening);
  return opening_edge (field, opening, pin->side);
}

/* What a pin leaves, in the group's measure. Returns whether boards can do what it asks at all. */
static gboolean
places_of (const RodPlan  *plan,
           const RodField *field,
           const RodPin   *pin,
           Places         *places)
{
  const RodSurface *surface = rod_plan_face (plan, field->face)->surface;
  double            cover_mm = field->board->cover_mm;
  double            phase_mm, step_mm = cover_mm;
  RodSpan           span;
  int               edge;

  switch (pin->kind)
    {
    case ROD_PIN_WHOLE:
      edge = edge_of (field, surface, pin);
      if (edge < 0 || field->edges[edge].relation != ROD_BOARDS_ALONG ||
          !rod_field_edge_at (plan, field, (guint) edge, &phase_mm))
        return FALSE;
      break;
    case ROD_PIN_EQUAL:
      if (!rod_field_span (plan, field, &span) || span.on_starter)
        return FALSE;
      *places = (Places){ (span.low.at_mm + span.high.at_mm) / 2.0, span.low.period_mm / 2.0 };
      return TRUE;
    case ROD_PIN_AXIS:
      phase_mm = axis_phase (field, surface, pin);
      step_mm = cover_mm / 2.0;
      break;
    case ROD_PIN_LINE:
    default:
      phase_mm = rod_field_phase_at (field, surface, pin->at_mm);
      break;
    }
  *places = (Places){ (phase_mm - field->group_shift_mm) / field->group_scale,
                      step_mm / fabs (field->group_scale) };
  return TRUE;
}

static double
miss_of (const Places *places,
         double        phase_mm)
{
  return fabs (remainder (phase_mm - places->base_mm, places->step_mm));
}

static GArray *
list_places (const Places *places,
             double        pitch_mm)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (double));
  double  first_mm =
    places->base_mm - floor (places->base_mm / places->step_mm) * places->step_mm;

  for (double at = first_mm; at < pitch_mm - ROD_EPSILON_MM; at += places->step_mm)
    g_array_append_val (list, at);
  return list;
}

/* Keeps what the pin leaves too; nothing changes when that would be nothing. */
static void
intersect (GArray       *allowed,
           const Places *places)
{
  guint kept = 0;

  for (guint i = 0; i < allowed->len; i++)
    {
      double at = g_array_index (allowed, double, i);

      if (miss_of (places, at) <= ROD_VISIBLE_MISFIT_MM)
        g_array_index (allowed, double, kept++) = at;
    }
  if (kept > 0)
    g_array_set_size (allowed, kept);
}

static gint
compare_ranks (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  const RodPlan  *plan = user_data;
  const RodField *one = rod_plan_field (plan, *(const guint *) a);
  const RodField *other = rod_plan_field (plan, *(const guint *) b);
  guint           rank = rod_plan_face (plan, one->face)->rank;
  guint           other_rank = rod_plan_face (plan, other->face)->rank;

  return (rank > other_rank) - (rank < other_rank);
}

/* The fields of one group whose surfaces have pins of their own, by rank. */
static GArray *
pinned_fields (const RodPlan *plan,
               const guint   *fields,
               guint          n_fields)
{
  GArray *pinned = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < n_fields; i++)
    {
      const RodField *field = rod_plan_field (plan, fields[i]);

      if (field->zone == NULL && rod_plan_face (plan, field->face)->surface->pins->len > 0)
        g_array_append_val (pinned, fields[i]);
    }
  g_array_sort_with_data (pinned, compare_ranks, (gpointer) (guintptr) plan);
  return pinned;
}

/* The same, found among all fields. */
static GArray *
pinned_fields_of (const RodPlan *plan,
                  guint          group)
{
  g_autoptr (GArray) fields = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint f = 0; f < plan->fields->len; f++)
    if (rod_plan_field (plan, f)->group == group)
      g_array_append_val (fields, f);
  return pinned_fields (plan, (const guint *) (const void *) fields->data, fields->len);
}

GArray *
rod_pins_allowed (const RodPlan *plan,
                  const guint   *fields,
                  guint          n_fields,
                  double         pitch_mm)
{
  g_autoptr (GArray) pinned = pinned_fields (plan, fields, n_fields);
  GArray *allowed = NULL;

  for (guint i = 0; i < pinned->len; i++)
    {
      const RodField  *field = rod_plan_field (plan, g_array_index (pinned, guint, i));
      const GPtrArray *pins = rod_plan_face (plan, field->face)->surface->pins;

      for (guint p = 0; p < pins->len; p++)
        {
          Places places;

          if (!places_of (plan, field, pins->pdata[p], &places))
            continue;
          if (allowed == NULL)
            allowed = list_places (&places, pitch_mm);
          else
            intersect (allowed, &places);
        }
    }
  return allowed;
}

static const char *
pin_label (const RodPin *pin)
{
  return rod_choice_label (rod_pin_kind_choices, (int) pin->kind);
}

static RodFinding
finding_at (const RodField *field)
{
  return (RodFinding){ .face = (int) field->face,
                       .piece = -1,
                       .severity = ROD_SEVERITY_SHOULD,
                       .limit = ROD_VISIBLE_MISFIT_MM,
                       .rule = "R1" };
}

/* Whether no phase suits both pins. */
static gboolean
contradict (const Places *one,
            const Places *other,
            double        pitch_mm)
{
  g_autoptr (GArray) list = list_places (one, pitch_mm);

  for (guint i = 0; i < list->len; i++)
    if (miss_of (other, g_array_index (list, double, i)) <= ROD_VISIBLE_MISFIT_MM)
      return FALSE;
  return TRUE;
}

/* The pin that a missed one has to give way to: of those that count, which come before it, the
 * first that contradicts it; else the first of all, for only together they leave it no place. */
static const RodPin *
followed_pin (const RodPlan  *plan,
              const RodField *missed,
              const RodPin   *pin,
              const RodFace **face)
{
  const RodGroup *group = &g_array_index (plan->groups, RodGroup, missed->group);
  const RodPin   *first = NULL;
  Places          own, places;
  g_autoptr (GArray) pinned = pinned_fields_of (plan, missed->group);

  places_of (plan, missed, pin, &own);
  for (guint i = 0; i < pinned->len; i++)
    {
      const RodField  *field = rod_plan_field (plan, g_array_index (pinned, guint, i));
      const RodFace   *at = rod_plan_face (plan, field->face);
      const GPtrArray *pins = at->surface->pins;

      for (guint p = 0; p < pins->len; p++)
        {
          if (pins->pdata[p] == pin)
            return first;
          if (!places_of (plan, field, pins->pdata[p], &places) ||
              miss_of (&places, group->phase_mm) > ROD_VISIBLE_MISFIT_MM)
            continue;
          if (first == NULL || contradict (&places, &own, group->pitch_mm))
            {
              first = pins->pdata[p];
              *face = at;
            }
          if (contradict (&places, &own, group->pitch_mm))
            return first;
        }
    }
  return first;
}

static void
report_missed (RodPlan        *plan,
               const RodField *field,
               const RodPin   *pin,
               double          miss_mm)
{
  RodFinding     finding = finding_at (field);
  const RodFace *other = NULL;
  const RodPin  *followed = followed_pin (plan, field, pin, &other);

  g_return_if_fail (followed != NULL && other != NULL);
  finding.id = "pin-missed";
  finding.value = miss_mm;
  finding.text = g_strdup_printf (
    _ ("%s: the pin \"%s\" (%s) is missed by %.1f mm, for the joint lines follow \"%s\" (%s) of "
       "%s."),
    rod_plan_face (plan, field->face)->label,
    pin->id,
    pin_label (pin),
    miss_mm,
    followed->id,
    pin_label (followed),
    other->label);
  finding.remedy =
    g_strdup (_ ("Both cannot hold: remove one of the two pins, or let a join between "
                 "the surfaces carry no joint lines."));
  rod_findings_add (plan->findings, &finding);
}

static void
report_idle (RodPlan        *plan,
             const RodField *field,
             const RodPin   *pin)
{
  RodFinding finding = finding_at (field);

  finding.id = "pin-idle";
  finding.text =
    g_strdup_printf (_ ("%s: the pin \"%s\" (%s) asks for what these boards cannot do: "
                        "none run along there, or they stand on a starter."),
                     rod_plan_face (plan, field->face)->label,
                     pin->id,
                     pin_label (pin));
  finding.remedy = g_strdup (_ ("Name an edge that the boards run along, or remove the pin."));
  rod_findings_add (plan->findings, &finding);
}

static void
report_left (RodPlan        *plan,
             const RodField *field,
             double          miss_mm)
{
  RodFinding finding = finding_at (field);

  finding.id = "pin-missed";
  finding.value = miss_mm;
  finding.text = g_strdup_printf (_ ("%s: the joint lines pass its held line by %.1f mm, for "
                                     "another surface or a pin holds its own."),
                                  rod_plan_face (plan, field->face)->label,
                                  miss_mm);
  finding.remedy = g_strdup (_ ("Let one of the held joint lines go, or let a join between the two "
                                "surfaces carry no joint lines."));
  rod_findings_add (plan->findings, &finding);
}

static void
check_pins (RodPlan        *plan,
            const RodField *field)
{
  const GPtrArray *pins = rod_plan_face (plan, field->face)->surface->pins;
  double           group_mm = g_array_index (plan->groups, RodGroup, field->group).phase_mm;

  for (guint p = 0; p < pins->len; p++)
    {
      Places places;

      if (!places_of (plan, field, pins->pdata[p], &places))
        report_idle (plan, field, pins->pdata[p]);
      else if (miss_of (&places, group_mm) > ROD_VISIBLE_MISFIT_MM)
        report_missed (plan, field, pins->pdata[p], miss_of (&places, group_mm));
    }
}

static void
check_left (RodPlan        *plan,
            const RodField *field)
{
  const RodSurface *surface = rod_plan_face (plan, field->face)->surface;
  double            miss_mm;

  if (isnan (surface->joint_line_mm))
    return;
  miss_mm = fabs (remainder (
    rod_field_phase_at (field, surface, surface->joint_line_mm) - field->phase_mm,
    field->board->cover_mm));
  if (miss_mm > ROD_VISIBLE_MISFIT_MM)
    report_left (plan, field, miss_mm);
}

void
rod_pins_check (RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    {
      const RodField *field = rod_plan_field (plan, f);

      if (field->zone != NULL)
        continue;
      check_pins (plan, field);
      check_left (plan, field);
    }
}
