/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Checks of what is used where: boards on soffits, dark boards in the sun, the cavity's depth, and
 * lights that hit a batten or a joint. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "engine/checks/rod-checks.h"
#include "engine/checks/rod-findings.h"
#include "engine/frame/rod-batten-lines.h"
#include "engine/geometry/rod-path.h"
#include "engine/movement/rod-movement.h"
#include "engine/plan/rod-stacks.h"
#include "engine/rod-limits.h"

/* Depth of a ventilated cavity, DIN 18516-1 as restated in trade glossaries: at least 20 mm. */
#define LEAST_CAVITY_MM 20.0

/* Keep this clear around a light's hole, for its springs and the saw; from memory. */
#define LIGHT_CLEAR_MM 20.0

static RodFinding
on_face (const RodField *field,
         const char     *id,
         RodSeverity     severity,
         const char     *rule)
{
  return (RodFinding){
    .id = id,
    .severity = severity,
    .face = (int) field->face,
    .piece = -1,
    .rule = rule,
  };
}

static void
check_soffit_board (RodPlan        *plan,
                    const RodField *field)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  RodFinding     finding = on_face (field, "soffit-board", ROD_SEVERITY_SHOULD, "P1");

  if (face->surface->kind != ROD_SURFACE_SOFFIT || field->board->for_soffits)
    return;
  finding.text = g_strdup_printf (
    _ ("%s: the board “%s” is not meant for soffits."), face->label, field->board->name);
  finding.remedy = g_strdup (_ ("Choose a board of the system that is, or ask its maker."));
  rod_findings_add (plan->findings, &finding);
}

static void
check_sun (RodPlan        *plan,
           const RodField *field)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  double         facing_deg = face->surface->facing_deg;
  RodFinding     finding = on_face (field, "dark-in-sun", ROD_SEVERITY_NOTE, "M2");

  if (face->surface->kind != ROD_SURFACE_WALL || isnan (facing_deg) ||
      face->system->kind == ROD_SYSTEM_TIMBER ||
      rod_field_lightness (field) != ROD_LIGHTNESS_DARK ||
      rod_solar_gain_k (ROD_LIGHTNESS_DARK, facing_deg) <
        rod_solar_gain_k (ROD_LIGHTNESS_DARK, NAN))
    return;
  finding.value = rod_solar_gain_k (ROD_LIGHTNESS_DARK, facing_deg);
  finding.text =
    g_strdup_printf (_ ("%s: dark boards in the sun become up to %.0f K hotter than the air."),
                     face->label,
                     finding.value);
  finding.remedy = g_strdup (_ (
    "A lighter colour moves less; ask the board's maker whether this colour may face the sun."));
  rod_findings_add (plan->findings, &finding);
}

/* Level battens lie across the cavity; where counter battens carry them, these make it. */
static void
check_cavity (RodPlan        *plan,
              const RodField *field)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  gboolean       counter = !rod_battens_upright (field->direction_deg) &&
                     face->system->counter_batten != NULL;
  const RodBatten *batten = counter ? face->system->counter_batten : face->system->batten;
  RodFinding       finding = on_face (field, "shallow-cavity", ROD_SEVERITY_SHOULD, "B6");

  if (face->surface->kind != ROD_SURFACE_WALL || batten->thickness_mm >= LEAST_CAVITY_MM)
    return;
  finding.value = batten->thickness_mm;
  finding.limit = LEAST_CAVITY_MM;
  finding.text =
    g_strdup_printf (_ ("%s: battens of %.0f mm leave a cavity shallower than %.0f mm."),
                     face->label,
                     finding.value,
                     finding.limit);
  finding.remedy = g_strdup (_ ("Use deeper battens or counter battens; your local code decides."));
  rod_findings_add (plan->findings, &finding);
}

static const char *
light_name (const RodOpening *light)
{
  return *light->name != '\0' ? light->name : light->id;
}

static double
distance_to_line (RodPoint at,
                  RodPoint from,
                  RodPoint to)
{
  double dx = to.x - from.x, dy = to.y - from.y;
  double t = ((at.x - from.x) * dx + (at.y - from.y) * dy) / (dx * dx + dy * dy);

  t = CLAMP (t, 0.0, 1.0);
  return rod_point_distance (at, (RodPoint){ from.x + t * dx, from.y + t * dy });
}

/* Distance of a light's hole from a batten's centre line. Battens stop at the hole, so that no
 * sides cross, and an end of one of them is nearest. */
static double
distance_to_run (const RodRegion    *hole,
                 const RodBattenRun *run)
{
  double least = INFINITY;

  for (guint p = 0; p < hole->n_points; p++)
    {
      RodPoint from = hole->points[p], to = hole->points[p + 1 < hole->n_points ? p + 1 : 0];

      least = MIN (least, distance_to_line (from, run->from, run->to));
      least = MIN (least, distance_to_line (run->from, from, to));
      least = MIN (least, distance_to_line (run->to, from, to));
    }
  return least;
}

/* What is sawn out for a light, whatever its shape: one ring. */
static RodRegion *
light_hole (const RodOpening *light)
{
  g_autoptr (RodPath) path = rod_path_new ();
  g_autoptr (GArray) sides = rod_opening_sides (light);

  for (guint s = 0; s < sides->len; s++)
    {
      const RodSide *side = &g_array_index (sides, RodSide, s);

      rod_path_add_arc (path, side->from, side->to, side->bulge, 0);
    }
  rod_path_close (path);
  return rod_region_normalise (path, 1);
}

/* What lights of one ceiling hit, the first of them and how many. */
typedef struct
{
  const RodOpening *first;
  RodPoint          at;
  int               count;
} LightTally;

static void
tally_light (LightTally       *tally,
             const RodOpening *light,
             const RodRegion  *hole)
{
  RodPoint low, high;

  if (tally->count++ > 0)
    return;
  rod_region_extent (hole, &low, &high);
  tally->first = light;
  tally->at = (RodPoint){ (low.x + high.x) / 2.0, (low.y + high.y) / 2.0 };
}

static void
report_lights (RodPlan          *plan,
               const RodField   *field,
               const LightTally *tally,
               const char       *id,
               const char       *what)
{
  RodFinding       finding = on_face (field, id, ROD_SEVERITY_SHOULD, "L1");
  g_autofree char *lights = NULL;

  if (tally->count == 0)
    return;
  if (tally->count == 1)
    lights = g_strdup (light_name (tally->first));
  else
    lights =
      g_strdup_printf (ngettext ("%s and %d more", "%s and %d more", (gulong) (tally->count - 1)),
                       light_name (tally->first),
                       tally->count - 1);
  finding.at = tally->at;
  finding.has_at = TRUE;
  finding.value = tally->count;
  /* Translators: surface, what a light hits, which lights. */
  finding.text =
    g_strdup_printf (_ ("%s: %s: %s."), rod_plan_face (plan, field->face)->label, what, lights);
  finding.remedy = g_strdup (_ ("Move the light, or the joint lines or battens beside it; the "
                                "wiring is an electrician's work."));
  rod_findings_add (plan->findings, &finding);
}

static gboolean
is_on_joint (const RodField  *field,
             const RodRegion *hole)
{
  g_autoptr (RodRegion) along = rod_region_transform (hole, field->to_board);
  RodPoint low, high;
  double   reach_mm, apart_mm;

  rod_region_extent (along, &low, &high);
  reach_mm = (high.y - low.y) / 2.0 + LIGHT_CLEAR_MM;
  apart_mm = remainder ((low.y + high.y) / 2.0 - field->phase_mm, field->board->cover_mm);
  /* A light wider than the boards always cuts joints; nothing is gained by moving it. */
  return fabs (apart_mm) < reach_mm - ROD_SNAP_MM && reach_mm < field->board->cover_mm / 2.0;
}

static gboolean
is_on_batten (const RodPlan   *plan,
              const RodField  *field,
              const RodRegion *hole)
{
  const RodSystem *system = rod_plan_face (plan, field->face)->system;
  double           clear_mm = LIGHT_CLEAR_MM + system->batten->width_mm / 2.0;

  for (guint b = field->first_batten; b < field->first_batten + field->n_battens; b++)
    if (distance_to_run (hole, &g_array_index (plan->battens, RodBattenRun, b)) <
        clear_mm - ROD_SNAP_MM)
      return TRUE;
  return FALSE;
}

static void
check_lights (RodPlan *plan,
              guint    index)
{
  const RodField *field = rod_plan_field (plan, index);
  const RodFace  *face = rod_plan_face (plan, field->face);
  LightTally      joints = { .count = 0 }, battens = { .count = 0 };

  for (guint o = 0; field->zone == NULL && o < face->surface->openings->len; o++)
    {
      const RodOpening *light = g_ptr_array_index (face->surface->openings, o);
      g_autoptr (RodRegion) hole = NULL;

      if (light->kind != ROD_OPENING_LIGHT)
        continue;
      hole = light_hole (light);
      if (is_on_joint (field, hole))
        tally_light (&joints, light, hole);
      if (is_on_batten (plan, field, hole))
        tally_light (&battens, light, hole);
    }
  report_lights (plan, field, &joints, "light-on-joint", _ ("a light cuts a joint line"));
  report_lights (plan, field, &battens, "light-on-batten", _ ("a light meets a batten"));
}

void
rod_check_products (RodPlan *plan,
                    guint    index)
{
  const RodField *field = rod_plan_field (plan, index);

  check_soffit_board (plan, field);
  check_sun (plan, field);
  check_cavity (plan, field);
  check_lights (plan, index);
}
