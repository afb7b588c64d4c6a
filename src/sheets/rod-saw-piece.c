/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a piece needs beyond its length, in words and figures: rip, notches, raked ends. */
#include "config.h"

#include "sheets/rod-saw-block-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "engine/rod-limits.h"
#include "sheets/rod-figures.h"

static void
append_part (GString *text,
             char    *part)
{
  g_autofree char *owned = part;

  g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", owned);
}

/* The hook is the lower side, the flange the upper one; which of them is cut off decides how the
 * board is held. */
static void
describe_rip (GString        *text,
              const RodPiece *piece,
              double          cover,
              RodUnits        units)
{
  gboolean         below = piece->low_mm > ROD_SNAP_MM;
  gboolean         above = piece->high_mm < cover - ROD_SNAP_MM;
  g_autofree char *width = rod_figures_length (units, piece->high_mm - piece->low_mm);
  g_autofree char *low = rod_figures_length (units, piece->low_mm);

  if (below && above)
    append_part (text, g_strdup_printf (_ ("rip %s, from %s above the hook"), width, low));
  else if (above)
    append_part (text, g_strdup_printf (_ ("rip %s, keep hook"), width));
  else if (below)
    append_part (text, g_strdup_printf (_ ("rip %s, keep flange"), width));
}

static void
describe_notch (GString        *text,
                const RodNotch *notch,
                RodUnits        units)
{
  g_autofree char *from = rod_figures_length (units, notch->from_left_mm);
  g_autofree char *width = rod_figures_length (units, notch->width_mm);
  g_autofree char *depth = rod_figures_length (units, notch->depth_mm);
  g_autofree char *leaves = rod_figures_length (units, notch->leaves_mm);

  append_part (text,
               notch->upper ? g_strdup_printf (_ ("notch flange %s + %s × %s, %s stays"),
                                               from,
                                               width,
                                               depth,
                                               leaves)
                            : g_strdup_printf (_ ("notch hook %s + %s × %s, %s stays"),
                                               from,
                                               width,
                                               depth,
                                               leaves));
}

static char *
describe_end (double   angle_deg,
              gboolean left)
{
  g_autofree char *angle = rod_figures_angle (fabs (angle_deg));

  if (left)
    return angle_deg > 0.0 ? g_strdup_printf (_ ("left %s, flange longer"), angle)
                           : g_strdup_printf (_ ("left %s, hook longer"), angle);

  return angle_deg > 0.0 ? g_strdup_printf (_ ("right %s, flange longer"), angle)
                         : g_strdup_printf (_ ("right %s, hook longer"), angle);
}

static void
describe_ends (GString        *text,
               const RodPiece *piece,
               RodUnits        units)
{
  g_autofree char *other = rod_figures_length (units, piece->short_mm);
  gboolean         left = fabs (piece->left.angle_deg) > ROD_EPSILON_DEG;
  gboolean         right = fabs (piece->right.angle_deg) > ROD_EPSILON_DEG;

  if (left)
    append_part (text, describe_end (piece->left.angle_deg, TRUE));
  if (right)
    append_part (text, describe_end (piece->right.angle_deg, FALSE));
  if (left || right)
    append_part (text, g_strdup_printf (_ ("short side %s"), other));
}

char *
rod_saw_describe_piece (const RodPlan *plan,
                        guint          piece,
                        RodUnits       units)
{
  const RodPiece *of = rod_plan_piece (plan, piece);
  GString        *text = g_string_new (NULL);

  describe_rip (text, of, rod_plan_field (plan, of->field)->board->cover_mm, units);
  describe_ends (text, of, units);
  for (guint i = of->first_notch; i < of->first_notch + of->n_notches; i++)
    describe_notch (text, &g_array_index (plan->notches, RodNotch, i), units);

  return g_string_free (text, FALSE);
}
