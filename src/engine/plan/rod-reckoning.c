/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Reckonings: the terms a number is made of, taken from the same stacks, ends and phases that made
 * the number, so that what is explained is what was reckoned. They are made on demand; a plan of
 * thousands of pieces stores none. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/plan/rod-reckoning-private.h"
#include "engine/rod-limits.h"

static void
clear_term (gpointer data)
{
  RodTerm *term = data;

  g_free (term->text);
}

RodReckoning *
rod_reckoning_new (char       *title,
                   const char *unit)
{
  RodReckoning *reckoning = g_new0 (RodReckoning, 1);

  reckoning->title = title;
  reckoning->unit = g_strdup (unit);
  reckoning->terms = g_array_new (FALSE, FALSE, sizeof (RodTerm));
  g_array_set_clear_func (reckoning->terms, clear_term);
  return reckoning;
}

void
rod_reckoning_add (RodReckoning *reckoning,
                   double        value,
                   const char   *text,
                   const char   *rule)
{
  RodTerm term = { value, g_strdup (text), rule };

  g_array_append_val (reckoning->terms, term);
  reckoning->result += value;
}

void
rod_reckoning_add_some (RodReckoning *reckoning,
                        double        value,
                        const char   *text,
                        const char   *rule)
{
  if (fabs (value) > ROD_EPSILON_MM)
    rod_reckoning_add (reckoning, value, text, rule);
}

void
rod_reckoning_free (RodReckoning *reckoning)
{
  if (reckoning == NULL)
    return;
  g_free (reckoning->title);
  g_free (reckoning->unit);
  g_array_unref (reckoning->terms);
  g_free (reckoning);
}

/* Figures go to a tenth; this says what is left of one. */
static gint64
tenths_of (double value)
{
  return llround (fabs (value) * 10.0);
}

static void
append_figure (GString *text,
               double   value)
{
  gint64 tenths = tenths_of (value);

  g_string_append_printf (text, tenths % 10 == 0 ? "%.0f" : "%.1f", (double) tenths / 10.0);
}

/* What rounds to nothing has no sign. */
static gboolean
shows_minus (double value)
{
  return value < 0.0 && tenths_of (value) > 0;
}

char *
rod_reckoning_text (const RodReckoning *reckoning)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < reckoning->terms->len; i++)
    {
      const RodTerm *term = &g_array_index (reckoning->terms, RodTerm, i);

      if (i > 0)
        g_string_append (text, shows_minus (term->value) ? " − " : " + ");
      else if (shows_minus (term->value))
        g_string_append (text, "−");
      append_figure (text, term->value);
      g_string_append_printf (text, " %s", term->text);
    }
  if (reckoning->terms->len > 0)
    g_string_append (text, " = ");
  if (shows_minus (reckoning->result))
    g_string_append (text, "−");
  append_figure (text, reckoning->result);
  if (*reckoning->unit != '\0')
    g_string_append_printf (text, " %s", reckoning->unit);
  return g_string_free (text, FALSE);
}

RodReckoning *
rod_reckon_edge (const RodPlan *plan,
                 guint          field,
                 guint          edge)
{
  const RodField *planned = rod_plan_field (plan, field);
  const RodEdge  *line = &planned->edges[edge];
  RodReckoning   *reckoning;

  g_return_val_if_fail (edge < planned->n_edges, NULL);

  reckoning = rod_reckoning_new (
    g_strdup_printf (_ ("Edge (%s): raw line to cut line"),
                     rod_choice_label (rod_edge_condition_choices, (int) line->condition)),
    "mm");
  rod_reckoning_add_some (reckoning, -line->build_up_mm, _ ("build-up round the corner"), "R16");
  rod_reckoning_add_some (reckoning,
                          line->clearance_mm,
                          line->starter ? _ ("height of the starter") : _ ("clearance"),
                          "R7");
  rod_reckoning_add_some (reckoning, line->back_mm, _ ("back of the trim"), "R4");
  rod_reckoning_add_some (reckoning, line->gap_across_mm, _ ("gap across the board"), "R4");
  rod_reckoning_add_some (
    reckoning, line->absorbed_mm, _ ("strip that the trim's pocket swallows"), "R6");
  return reckoning;
}

RodReckoning *
rod_reckon_phase (const RodPlan *plan,
                  guint          field)
{
  const RodField   *planned = rod_plan_field (plan, field);
  const RodSurface *surface = rod_plan_face (plan, planned->face)->surface;
  const RodGroup   *group = &g_array_index (plan->groups, RodGroup, planned->group);
  RodReckoning     *reckoning =
    rod_reckoning_new (g_strdup (_ ("A joint line of this surface")), "mm");
  double from_group = planned->group_scale * group->phase_mm;
  double lines = planned->phase_mm - from_group - planned->group_shift_mm;

  rod_reckoning_add (reckoning,
                     from_group,
                     group->pinned ? _ ("held by you") : _ ("best place of the group"),
                     "R5");
  rod_reckoning_add_some (
    reckoning, planned->group_shift_mm, _ ("carried over through the joins"), "R12");
  rod_reckoning_add_some (reckoning, lines, _ ("whole covers"), NULL);
  if (fabs (planned->direction_deg) < ROD_EPSILON_DEG)
    rod_reckoning_add_some (
      reckoning, surface->level_mm, _ ("level of the surface above the datum"), "R1");
  return reckoning;
}

RodReckoning *
rod_reckon_field_screws (const RodPlan *plan,
                         guint          field)
{
  const RodField *planned = rod_plan_field (plan, field);
  RodReckoning   *reckoning = rod_reckoning_new (g_strdup (_ ("Screws")), "");
  int             boards = 0;

  for (guint p = planned->first_piece; p < planned->first_piece + planned->n_pieces; p++)
    boards += rod_plan_piece (plan, p)->screws;
  rod_reckoning_add (reckoning, boards, _ ("where flanges cross battens"), "F5");
  for (guint t = planned->first_trim; t < planned->first_trim + planned->n_trims; t++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, t);

      rod_reckoning_add_some (reckoning, run->screws, run->trim->name, "F5");
    }
  return reckoning;
}
