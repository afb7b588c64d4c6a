/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Details of a surface and of the house. */
#include "config.h"

#include "app/rod-details-private.h"

#include <glib/gi18n.h>
#include <math.h>

#include "engine/rod-limits.h"
#include "sheets/rod-figures.h"

static const char *
kind_of_surface (RodSurfaceKind kind)
{
  for (const RodChoice *choice = rod_surface_kind_choices; choice->nick != NULL; choice++)
    if (choice->value == (int) kind)
      return _ (choice->label);

  return "";
}

static char *
direction_of (const RodField *field)
{
  if (fabs (field->direction_deg) < ROD_EPSILON_DEG)
    return g_strdup (_ ("Level"));
  if (fabs (fabs (field->direction_deg) - 90) < ROD_EPSILON_DEG)
    return g_strdup (_ ("Upright"));

  return rod_figures_angle (field->direction_deg);
}

static void
add_field (RodDetails    *self,
           const RodPlan *plan,
           guint          index)
{
  const RodField  *field = rod_plan_field (plan, index);
  g_autofree char *direction = direction_of (field);

  if (field->zone != NULL && field->zone->name[0] != '\0')
    rod_details_add_section (self, field->zone->name);
  else
    rod_details_add_section (self, field->zone != NULL ? field->zone->id : _ ("Boards"));

  rod_details_add_figure (self, _ ("Board"), field->board->name);
  if (field->colour != NULL)
    rod_details_add_figure (self, _ ("Colour"), field->colour->name);
  else
    rod_details_add_figure (self, _ ("Colour"), _ ("Mixed"));
  rod_details_add_figure (self, _ ("Direction"), direction);
  rod_details_add_length (self, _ ("Cover width"), field->board->cover_mm);
  rod_details_add_count (self, _ ("Courses"), field->n_courses);
  rod_details_add_count (self, _ ("Pieces"), field->n_pieces);
  rod_details_take_reckoning (self, NULL, rod_reckon_phase (plan, index));
  rod_details_take_reckoning (self, NULL, rod_reckon_field_screws (plan, index));
}

static void
add_battens (RodDetails    *self,
             const RodPlan *plan,
             const RodFace *face)
{
  guint            n_battens = 0;
  double           run_mm = 0;
  g_autofree char *run = NULL;

  for (guint i = 0; i < plan->battens->len; i++)
    {
      const RodBattenRun *batten = &g_array_index (plan->battens, RodBattenRun, i);

      if (batten->field - face->first_field < face->n_fields)
        {
          n_battens++;
          run_mm += batten->length_mm;
        }
    }

  rod_details_add_section (self, _ ("Frame"));
  rod_details_add_count (self, _ ("Battens"), n_battens);
  run = rod_figures_run (plan->house->units, run_mm);
  rod_details_add_figure (self, _ ("Batten length in all"), run);
}

static void
add_trims (RodDetails    *self,
           const RodPlan *plan,
           const RodFace *face)
{
  rod_details_add_section (self, _ ("Trims"));
  for (guint t = 0; t < face->system->trims->len; t++)
    {
      const RodTrim   *trim = g_ptr_array_index (face->system->trims, t);
      double           run_mm = 0;
      g_autofree char *run = NULL;

      for (guint i = 0; i < plan->trims->len; i++)
        {
          const RodTrimRun *it = &g_array_index (plan->trims, RodTrimRun, i);

          if (it->trim == trim && it->field - face->first_field < face->n_fields)
            run_mm += it->length_mm;
        }
      if (run_mm <= 0)
        continue;

      run = rod_figures_run (plan->house->units, run_mm);
      rod_details_add_figure (self, trim->name, run);
    }
}

static void
add_edges (RodDetails    *self,
           const RodPlan *plan,
           guint          index)
{
  const RodField *field = rod_plan_field (plan, index);

  for (guint e = 0; e < field->n_edges; e++)
    if (field->edges[e].opening < 0)
      {
        g_autofree char *name = rod_details_side (&field->edges[e], plan->house->units);

        rod_details_take_reckoning (self, name, rod_reckon_edge (plan, index, e));
      }
}

void
rod_details_show_face (RodDetails    *self,
                       const RodPlan *plan,
                       guint          index)
{
  const RodFace   *face = rod_plan_face (plan, index);
  g_autofree char *title = g_strdup_printf ("%s  %s", face->mark, face->label);
  g_autofree char *area = rod_figures_area (plan->house->units, rod_region_area (face->bare));

  rod_details_set_heading (self, kind_of_surface (face->surface->kind), title, face->system->name);
  if (face->opening >= 0)
    rod_details_add_link (self,
                          rod_plan_face (plan, (guint) face->parent)->label,
                          rod_place_face ((guint) face->parent));
  rod_details_add_figure (self, _ ("Area without openings"), area);

  for (guint f = face->first_field; f < face->first_field + face->n_fields; f++)
    add_field (self, plan, f);
  add_battens (self, plan, face);
  add_trims (self, plan, face);

  rod_details_add_section (self, _ ("Raw line to board"));
  for (guint f = face->first_field; f < face->first_field + face->n_fields; f++)
    add_edges (self, plan, f);
}

static void
add_site (RodDetails    *self,
          const RodSite *site)
{
  g_autofree char *air = NULL;
  g_autofree char *fixing = NULL;

  if (site == NULL)
    return;

  /* Translators: coldest to hottest air, in degrees Celsius. */
  air = g_strdup_printf (_ ("%.0f to %.0f °C"), site->air_coldest_c, site->air_hottest_c);
  fixing = g_strdup_printf (_ ("%.0f °C"), site->fixing_c);
  rod_details_add_section (self, _ ("Site"));
  rod_details_add_figure (self, _ ("Shade air"), air);
  rod_details_add_figure (self, _ ("Boards are fixed at"), fixing);
}

static void
add_groups (RodDetails    *self,
            const RodPlan *plan)
{
  for (guint i = 0; i < plan->groups->len; i++)
    {
      const RodGroup  *group = &g_array_index (plan->groups, RodGroup, i);
      const RodField  *first = rod_plan_field (plan, group->first_field);
      g_autofree char *title = NULL;

      /* A surface on its own is described with the surface. */
      if (group->n_fields < 2)
        continue;

      title = g_strdup_printf (_ ("Joint lines tied to %s"),
                               rod_plan_face (plan, first->face)->label);
      rod_details_add_section (self, title);
      rod_details_add_count (self, _ ("Surfaces and zones"), group->n_fields);
      rod_details_add_length (self, _ ("Cover width"), group->pitch_mm);
      rod_details_add_length (self, _ ("Narrowest rip"), group->narrowest_mm);
      rod_details_add_count (self, _ ("Ripped strips"), group->rips);
      rod_details_add_length (self, _ ("Closing misfit"), group->misfit_mm);
    }
}

static void
add_order (RodDetails       *self,
           const RodTakeoff *takeoff)
{
  g_autofree char *total = NULL;
  g_autofree char *weight = NULL;

  if (takeoff == NULL)
    return;

  total = rod_figures_money (takeoff->plan->house->buying->currency, takeoff->total);
  weight = rod_figures_weight (takeoff->plan->house->units, takeoff->weight_kg);
  rod_details_add_section (self, _ ("Order"));
  rod_details_add_count (self, _ ("Lines of the order"), takeoff->lines->len);
  rod_details_add_figure (self, _ ("Weight"), weight);
  rod_details_add_figure (self, _ ("Cost"), total);
}

void
rod_details_show_house (RodDetails    *self,
                        const RodPlan *plan)
{
  double           area_mm2 = 0;
  g_autofree char *area = NULL;

  for (guint i = 0; i < plan->faces->len; i++)
    area_mm2 += rod_region_area (rod_plan_face (plan, i)->bare);
  area = rod_figures_area (plan->house->units, area_mm2);

  rod_details_set_heading (self, _ ("House"), plan->house->name, plan->house->place);
  rod_details_add_figure (self, _ ("Client"), plan->house->client);
  rod_details_add_figure (self, _ ("Drawn by"), plan->house->author);
  rod_details_add_section (self, _ ("In all"));
  rod_details_add_figure (self, _ ("Area without openings"), area);
  rod_details_add_count (self, _ ("Surfaces, reveals included"), plan->faces->len);
  rod_details_add_count (self, _ ("Pieces"), plan->pieces->len);
  rod_details_add_count (self, _ ("Battens"), plan->battens->len);
  rod_details_add_count (self, _ ("Trims"), plan->trims->len);
  add_order (self, rod_document_get_takeoff (self->document));
  add_groups (self, plan);
  add_site (self, plan->house->site);
}
