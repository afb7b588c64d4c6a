/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "support/planned-house.h"

#include "engine/files/rod-file.h"

#include <math.h>
#include <string.h>

char *
surveyed_box (const char *id,
              const char *kind,
              double      width,
              double      height,
              const char *more)
{
  return g_strdup_printf ("{'id': '%s', 'kind': '%s', 'system': 'k', 'outline': ["
                          "{'x': 0, 'y': 0, 'edge': 'base'}, "
                          "{'x': %.3f, 'y': 0, 'edge': 'right'}, "
                          "{'x': %.3f, 'y': %.3f, 'edge': 'top'}, "
                          "{'x': 0, 'y': %.3f, 'edge': 'left'}]%s}",
                          id,
                          kind,
                          width,
                          width,
                          height,
                          height,
                          more);
}

static char *
edge_reference (const char *name)
{
  const char *dot = strchr (name, '.');

  g_assert_nonnull (dot);
  return g_strdup_printf ("{'surface': '%.*s', 'edge': '%s'}", (int) (dot - name), name, dot + 1);
}

char *
surveyed_join (const char *id,
               const char *a,
               const char *b,
               double      fold_deg,
               const char *more)
{
  g_autofree char *one = edge_reference (a);
  g_autofree char *other = edge_reference (b);

  return g_strdup_printf ("{'id': '%s', 'a': %s, 'b': %s, 'fold_deg': %.6f%s}",
                          id,
                          one,
                          other,
                          fold_deg,
                          more);
}

static void
append_list (GString    *json,
             const char *name,
             char      **items)
{
  g_string_append_printf (json, ", '%s': [", name);
  for (guint i = 0; items != NULL && items[i] != NULL; i++)
    {
      g_string_append_printf (json, "%s%s", i > 0 ? ", " : "", items[i]);
      g_free (items[i]);
    }
  g_string_append_c (json, ']');
}

RodHouse *
surveyed_house (const char *system,
                char      **surfaces,
                char      **joins)
{
  g_autoptr (GString) json = g_string_new ("{'format': 'storeyrod-house', 'version': 1, ");
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "engine", "houses", NULL);
  g_autoptr (GError) error = NULL;
  RodHouse *house;

  g_string_append (json,
                   "'name': 'Test', "
                   "'site': {'air_coldest_c': -20, 'air_hottest_c': 35, 'fixing_c': 15, "
                   "'face_coldest_c': -20, 'face_hottest_c': 60}, 'saw': {'kerf_mm': 4}, "
                   "'buying': {'spare_percent': 0, 'spare_least': 0, 'spare_trims': 0, "
                   "'spare_screws_percent': 0}");
  g_string_append_printf (json,
                          ", 'systems': [{'id': 'k', 'from': '%s%s'}]",
                          system,
                          g_str_has_prefix (system, "k-") ? ".system.json" : "");
  append_list (json, "surfaces", surfaces);
  append_list (json, "joins", joins);
  g_string_append_c (json, '}');
  for (char *quote = json->str; (quote = strchr (quote, '\'')) != NULL;)
    *quote = '"';

  house = rod_house_parse (json->str, -1, folder, &error);
  g_assert_no_error (error);
  return house;
}

RodPlan *
planned_house (RodHouse *house)
{
  RodPlan *plan = rod_plan_new (house);

  rod_record_unref (house);
  return plan;
}

RodSystem *
planned_system (RodHouse *house)
{
  g_assert_cmpuint (house->systems->len, ==, 1);
  return g_ptr_array_index (house->systems, 0);
}

guint
planned_face (const RodPlan *plan,
              const char    *id)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace *face = rod_plan_face (plan, f);

      if (g_str_equal (face->derived == NULL ? face->surface->id : face->label, id))
        return f;
    }
  g_error ("no face %s", id);
}

const RodField *
planned_field (const RodPlan *plan,
               const char    *id)
{
  return rod_plan_field (plan, rod_plan_face (plan, planned_face (plan, id))->first_field);
}

const RodEdge *
planned_edge (const RodPlan *plan,
              const char    *id,
              const char    *edge)
{
  const RodFace *face = rod_plan_face (plan, planned_face (plan, id));
  int            index = rod_surface_find_edge (face->surface, edge);

  g_assert_cmpint (index, >=, 0);
  return &rod_plan_field (plan, face->first_field)->edges[index];
}

const RodPiece *
planned_piece (const RodPlan *plan,
               const char    *mark)
{
  for (guint p = 0; p < plan->pieces->len; p++)
    if (g_str_equal (rod_plan_piece (plan, p)->mark, mark))
      return rod_plan_piece (plan, p);
  g_error ("no piece %s", mark);
}

const RodFinding *
planned_finding (const RodPlan *plan,
                 const char    *id)
{
  for (guint i = 0; i < plan->findings->len; i++)
    {
      const RodFinding *finding = &g_array_index (plan->findings, RodFinding, i);

      if (g_str_equal (finding->id, id))
        return finding;
    }
  return NULL;
}

double
planned_joint (const RodField *field,
               RodPoint        at)
{
  double across_mm = rod_affine_apply (field->to_board, at).y;

  return fabs (remainder (across_mm - field->phase_mm, field->board->cover_mm));
}

int
planned_count (const RodPlan *plan,
               const char    *id)
{
  int count = 0;

  for (guint i = 0; i < plan->findings->len; i++)
    count += g_str_equal (g_array_index (plan->findings, RodFinding, i).id, id);
  return count;
}

const RodGroup *
planned_group (const RodPlan *plan,
               const char    *id)
{
  return &g_array_index (plan->groups, RodGroup, planned_field (plan, id)->group);
}

double
planned_worst_closure_mm (const RodPlan *plan)
{
  double worst_mm = 0.0;

  for (guint i = 0; i < plan->closures->len; i++)
    worst_mm = MAX (worst_mm, g_array_index (plan->closures, RodClosure, i).misfit_mm);
  return worst_mm;
}

static void
visit_file (const char  *path,
            PlannedVisit visit)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) house = rod_house_load (path, &error);
  g_autoptr (RodPlan) plan = NULL;

  g_assert_no_error (error);
  plan = rod_plan_new (house);
  visit (plan);
}

/* Returns how many houses the folder holds. */
static int
visit_folder (const char  *folder,
              PlannedVisit visit)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, &error);
  const char *name;
  int         count = 0;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (!g_str_has_suffix (name, ".storeyrod"))
        continue;
      g_test_message ("%s", name);
      visit_file (path, visit);
      count++;
    }
  return count;
}

void
planned_each_house (PlannedVisit visit)
{
  g_autofree char *examples = g_test_build_filename (G_TEST_DIST, "..", "examples", NULL);
  g_autofree char *worked = g_test_build_filename (G_TEST_DIST, "engine", "houses", NULL);
  g_autofree char *hard = g_build_filename (worked, "hard", NULL);

  g_assert_cmpint (visit_folder (examples, visit), >=, 4);
  g_assert_cmpint (visit_folder (worked, visit), >=, 9);
  g_assert_cmpint (visit_folder (hard, visit), >=, 15);
}
