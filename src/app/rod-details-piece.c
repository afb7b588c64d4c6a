/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Details of a board and of an opening. */
#include "config.h"

#include "app/rod-details-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "engine/rod-limits.h"
#include "sheets/rod-figures.h"

static void
add_colour (RodDetails      *self,
            const RodColour *colour)
{
  if (colour != NULL)
    rod_details_add_figure (self, _ ("Colour"), colour->name);
}

/* The left end of an upright board is its foot. */
static gboolean
is_upright (double direction_deg)
{
  return direction_deg > 45;
}

static void
add_end (RodDetails        *self,
         const RodPlan     *plan,
         guint              piece,
         const RodPieceEnd *end,
         gboolean           right)
{
  gboolean upright =
    is_upright (rod_plan_field (plan, rod_plan_piece (plan, piece)->field)->direction_deg);

  rod_details_take_reckoning (self,
                              upright ? (right ? _ ("Gap at the upper end")
                                               : _ ("Gap at the lower end"))
                                      : (right ? _ ("Gap at the right end")
                                               : _ ("Gap at the left end")),
                              rod_reckon_piece_gap (plan, piece, right));

  if (fabs (end->angle_deg) > ROD_EPSILON_DEG)
    {
      g_autofree char *angle = rod_figures_angle (end->angle_deg);

      rod_details_add_figure (self, _ ("Cut off square by"), angle);
    }
}

static void
add_notches (RodDetails     *self,
             const RodPlan  *plan,
             const RodPiece *piece)
{
  RodUnits units = plan->house->units;

  if (piece->n_notches == 0)
    return;

  rod_details_add_section (self, _ ("Notches"));
  for (guint i = 0; i < piece->n_notches; i++)
    {
      const RodNotch *notch =
        &g_array_index (plan->notches, RodNotch, piece->first_notch + i);
      g_autofree char *from = rod_figures_length (units, notch->from_left_mm);
      g_autofree char *width = rod_figures_length (units, notch->width_mm);
      g_autofree char *depth = rod_figures_length (units, notch->depth_mm);
      g_autofree char *size = g_strdup_printf ("%s × %s", width, depth);
      g_autofree char *name =
        /* Translators: a notch in a board; %s is a length. */
        g_strdup_printf (notch->upper ? _ ("Upper side, %s from left")
                                      : _ ("Lower side, %s from left"),
                         from);

      rod_details_add_figure (self, name, size);
    }
}

void
rod_details_show_piece (RodDetails    *self,
                        const RodPlan *plan,
                        guint          index)
{
  const RodPiece  *piece = rod_plan_piece (plan, index);
  const RodField  *field = rod_plan_field (plan, piece->field);
  const RodFace   *face = rod_plan_face (plan, field->face);
  g_autofree char *place = g_strdup_printf (_ ("Course %d, place %d"),
                                            piece->course,
                                            piece->place);

  rod_details_set_heading (self, _ ("Board"), piece->mark, field->board->name);
  rod_details_add_link (self, face->label, rod_place_face (field->face));
  rod_details_add_figure (self, _ ("Laid as"), place);
  add_colour (self, piece->colour);

  rod_details_add_section (self, _ ("Cut to"));
  rod_details_take_reckoning (self, _ ("Length"), rod_reckon_piece_length (plan, index));
  if (piece->length_mm - piece->short_mm > ROD_REMNANT_MM)
    rod_details_add_length (self, _ ("Shorter side"), piece->short_mm);
  rod_details_take_reckoning (self, _ ("Width"), rod_reckon_piece_width (plan, index));
  add_notches (self, plan, piece);

  rod_details_add_section (self, _ ("Ends"));
  add_end (self, plan, index, &piece->left, FALSE);
  add_end (self, plan, index, &piece->right, TRUE);

  rod_details_add_section (self, _ ("Fixed by"));
  rod_details_add_count (self, _ ("Screws"), piece->screws);
  rod_details_add_count (self, _ ("Battens under it"), piece->battens);
  rod_details_add_length (self, _ ("Fixing flange that remains"), piece->flange_mm);
}

static const char *
kind_of_opening (RodOpeningKind kind)
{
  for (const RodChoice *choice = rod_opening_kind_choices; choice->nick != NULL; choice++)
    if (choice->value == (int) kind)
      return _ (choice->label);

  return "";
}

static void
add_edges_of_opening (RodDetails    *self,
                      const RodPlan *plan,
                      RodPlace       place)
{
  const RodFace *face = rod_plan_face (plan, place.face);

  rod_details_add_section (self, _ ("Raw line to board"));
  for (guint f = face->first_field; f < face->first_field + face->n_fields; f++)
    {
      const RodField *field = rod_plan_field (plan, f);

      for (guint e = 0; e < field->n_edges; e++)
        if (field->edges[e].opening == (int) place.index)
          {
            g_autofree char *name = rod_details_side (&field->edges[e], plan->house->units);

            rod_details_take_reckoning (self, name, rod_reckon_edge (plan, f, e));
          }
    }
}

void
rod_details_show_opening (RodDetails    *self,
                          const RodPlan *plan,
                          RodPlace       place)
{
  const RodOpening *opening = rod_place_opening_of (place, plan);
  const RodFace    *face = rod_plan_face (plan, place.face);
  RodPoint          low;
  RodPoint          high;

  rod_details_set_heading (self,
                           kind_of_opening (opening->kind),
                           opening->name[0] != '\0' ? opening->name : opening->id,
                           "");
  rod_details_add_link (self, face->label, rod_place_face (place.face));

  rod_place_extent (place, plan, rod_affine_identity (), &low, &high);
  rod_details_add_section (self, _ ("As measured"));
  rod_details_add_length (self, _ ("Width"), high.x - low.x);
  rod_details_add_length (self, _ ("Height"), high.y - low.y);
  if (opening->reveal != NULL)
    {
      rod_details_add_length (self, _ ("Depth of the reveal"), opening->reveal->depth_mm);
      for (guint i = 0; i < plan->faces->len; i++)
        {
          const RodFace *lining = rod_plan_face (plan, i);

          if (lining->opening == (int) place.index && lining->parent == (int) place.face)
            rod_details_add_link (self, lining->label, rod_place_face (i));
        }
    }
  add_edges_of_opening (self, plan, place);
}
