/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Planning again after an edit: whatever is edited, undone or listed in another order, the plan is
 * the one that the house would get by itself, to the last byte; and what an edit leaves alone is
 * not reckoned again. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/files/rod-file.h"
#include "engine/files/rod-plan-file.h"
#include "engine/plan/rod-plan.h"
#include "engine/takeoff/rod-takeoff.h"

#define N_EDITS 10

/* The plan as it is written; nothing is bought, which no edit of ours would change. */
static GBytes *
plan_bytes (RodPlan *plan)
{
  g_autoptr (GOutputStream) stream = g_memory_output_stream_new_resizable ();
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, 1);
  g_autoptr (GError) error = NULL;
  RodTakeoff bare = { .plan = plan, .cuttings = none, .lines = none, .findings = none };

  rod_plan_write (&bare, stream, &error);
  g_assert_no_error (error);
  g_output_stream_close (stream, NULL, &error);
  g_assert_no_error (error);
  return g_memory_output_stream_steal_as_bytes (G_MEMORY_OUTPUT_STREAM (stream));
}

/* Files round to a micrometre; corners are compared to the last bit. */
static void
assert_same_rings (const RodRegion *a,
                   const RodRegion *b)
{
  g_assert_cmpmem (
    a->points, a->n_points * sizeof (RodPoint), b->points, b->n_points * sizeof (RodPoint));
  g_assert_cmpmem (a->tags, a->n_points * sizeof (int), b->tags, b->n_points * sizeof (int));
  g_assert_cmpmem (a->ring_starts,
                   (a->n_rings + 1) * sizeof (guint),
                   b->ring_starts,
                   (b->n_rings + 1) * sizeof (guint));
}

static void
assert_same_plan (RodPlan *plan,
                  RodPlan *fresh)
{
  g_autoptr (GBytes) ours = plan_bytes (plan);
  g_autoptr (GBytes) theirs = plan_bytes (fresh);

  assert_same_rings (plan->rings, fresh->rings);
  g_assert_true (g_bytes_equal (ours, theirs));
}

static RodHouse *
load (const char *folder,
      const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, folder, name, NULL);
  g_autoptr (GError) error = NULL;
  RodHouse *house = rod_house_load (path, &error);

  g_assert_no_error (error);
  return house;
}

/* Edits. Each changes a copy; what would not be a house is left out by the caller. */

static RodOpening *
replace_opening (RodSurface *surface,
                 guint       index)
{
  GPtrArray  *openings = rod_record_list_copy (surface->openings);
  RodOpening *copy = rod_record_copy (openings->pdata[index]);

  rod_record_unref (openings->pdata[index]);
  openings->pdata[index] = copy;
  rod_record_take_list (surface, G_STRUCT_OFFSET (RodSurface, openings), openings);
  return copy;
}

static RodOpening *
random_opening (RodSurface *surface)
{
  if (surface->openings->len == 0)
    return NULL;
  return replace_opening (surface,
                          (guint) g_test_rand_int_range (0, (int) surface->openings->len));
}

static void
move_opening (RodSurface *surface)
{
  RodOpening *opening = random_opening (surface);

  if (opening == NULL)
    return;
  opening->x += g_test_rand_int_range (-300, 300);
  if (g_test_rand_bit ())
    opening->y += g_test_rand_int_range (-200, 200);
}

static void
resize_opening (RodSurface *surface)
{
  RodOpening *opening = random_opening (surface);

  if (opening != NULL && opening->width_mm > 0.0)
    opening->width_mm += g_test_rand_int_range (-50, 50);
}

static void
line_opening (RodSurface *surface)
{
  RodOpening *opening = random_opening (surface);

  if (opening == NULL || opening->reveal == NULL)
    return;
  if (g_test_rand_bit ())
    rod_record_take_record (opening, G_STRUCT_OFFSET (RodOpening, reveal), NULL);
  else
    {
      rod_record_take_record (opening,
                              G_STRUCT_OFFSET (RodOpening, reveal),
                              rod_record_copy (opening->reveal));
      opening->reveal->depth_mm += 10.0;
    }
}

static void
drop_opening (RodSurface *surface)
{
  GPtrArray *openings = rod_record_list_copy (surface->openings);

  if (openings->len > 0)
    g_ptr_array_remove_index (openings, (guint) g_test_rand_int_range (0, (int) openings->len));
  rod_record_take_list (surface, G_STRUCT_OFFSET (RodSurface, openings), openings);
}

/* A second window of the first one's kind, listed before it, so that later reveals change marks. */
static void
add_opening (RodSurface *surface)
{
  GPtrArray  *openings = rod_record_list_copy (surface->openings);
  RodOpening *added;

  if (openings->len > 0)
    {
      added = rod_record_copy (openings->pdata[0]);
      rod_record_set_text (added, G_STRUCT_OFFSET (RodOpening, id), "added");
      added->x += added->width_mm + 200.0;
      g_ptr_array_insert (openings, 0, added);
    }
  rod_record_take_list (surface, G_STRUCT_OFFSET (RodSurface, openings), openings);
}

static void
move_corner (RodSurface *surface)
{
  GPtrArray *outline = rod_record_list_copy (surface->outline);
  guint      index = (guint) g_test_rand_int_range (0, (int) outline->len);
  RodCorner *corner = rod_record_copy (outline->pdata[index]);

  corner->y += g_test_rand_int_range (-40, 40);
  rod_record_unref (outline->pdata[index]);
  outline->pdata[index] = corner;
  rod_record_take_list (surface, G_STRUCT_OFFSET (RodSurface, outline), outline);
}

static void
hold_line (RodSurface *surface)
{
  surface->joint_line_mm =
    g_test_rand_bit () ? (double) NAN : (double) g_test_rand_int_range (0, 2000);
}

static void
turn_boards (RodSurface *surface)
{
  static const double directions[] = { 0.0, 90.0, 45.0 };

  surface->direction_deg = directions[g_test_rand_int_range (0, G_N_ELEMENTS (directions))];
}

static void
build_up (RodSurface *surface)
{
  surface->build_up_mm += 5.0;
}

static void
lift (RodSurface *surface)
{
  surface->level_mm += g_test_rand_int_range (-30, 30);
}

static void
turn_to_sun (RodSurface *surface)
{
  surface->facing_deg = g_test_rand_bit () ? 180.0 : 0.0;
}

static void
set_mark (RodSurface *surface)
{
  rod_record_set_text (
    surface, G_STRUCT_OFFSET (RodSurface, mark), g_test_rand_bit () ? "Q" : "");
}

static void
drop_zones (RodSurface *surface)
{
  if (surface->zones->len > 0)
    rod_record_take_list (
      surface, G_STRUCT_OFFSET (RodSurface, zones), rod_record_list_new ());
}

static void
leave_alone (RodSurface *surface)
{
}

static void (*const surface_edits[]) (RodSurface *) = {
  move_opening,
  move_opening,
  resize_opening,
  line_opening,
  drop_opening,
  add_opening,
  move_corner,
  hold_line,
  turn_boards,
  build_up,
  lift,
  turn_to_sun,
  set_mark,
  drop_zones,
  leave_alone,
};

static RodHouse *
edit_surface (const RodHouse *house)
{
  guint       index = (guint) g_test_rand_int_range (0, (int) house->surfaces->len);
  RodSurface *surface = rod_record_copy (house->surfaces->pdata[index]);

  surface_edits[g_test_rand_int_range (0, G_N_ELEMENTS (surface_edits))](surface);
  return rod_house_with_surface (house, surface);
}

static RodHouse *
edit_joins (const RodHouse *house)
{
  RodHouse  *edited = rod_record_copy (house);
  GPtrArray *joins = rod_record_list_copy (house->joins);

  if (joins->len > 0)
    {
      guint    index = (guint) g_test_rand_int_range (0, (int) joins->len);
      RodJoin *join = rod_record_copy (joins->pdata[index]);

      join->carries_joints = !join->carries_joints;
      g_ptr_array_remove_index (joins, index);
      if (g_test_rand_bit ())
        g_ptr_array_add (joins, join);
      else
        rod_record_unref (join);
    }
  rod_record_take_list (edited, G_STRUCT_OFFSET (RodHouse, joins), joins);
  return edited;
}

static RodHouse *
edit_order (const RodHouse *house)
{
  RodHouse  *edited = rod_record_copy (house);
  GPtrArray *surfaces = rod_record_list_copy (house->surfaces);
  guint      index = (guint) g_test_rand_int_range (0, (int) surfaces->len);
  gpointer   moved = surfaces->pdata[0];

  surfaces->pdata[0] = surfaces->pdata[index];
  surfaces->pdata[index] = moved;
  rod_record_take_list (edited, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  return edited;
}

static RodHouse *
edit_site (const RodHouse *house)
{
  RodHouse *edited = rod_record_copy (house);

  if (g_test_rand_bit ())
    edited->survey_tolerance_mm += 1.0;
  else
    {
      rod_record_take_record (
        edited, G_STRUCT_OFFSET (RodHouse, site), rod_record_copy (house->site));
      edited->site->fixing_c += 1.0;
    }
  return edited;
}

static RodHouse *
edit (const RodHouse *house)
{
  switch (g_test_rand_int_range (0, 12))
    {
    case 0:
      return edit_joins (house);
    case 1:
      return edit_order (house);
    case 2:
      return edit_site (house);
    default:
      return edit_surface (house);
    }
}

/* Edits a house again and again, now and then going back to how it was at first. */
static void
edit_at_random (const char *folder,
                const char *name,
                guint       n_edits)
{
  g_autoptr (RodHouse) first = load (folder, name);
  g_autoptr (RodHouse) house = rod_record_ref (first);
  g_autoptr (RodPlan) plan = rod_plan_new (first);

  for (guint i = 0; i < n_edits; i++)
    {
      gboolean undo = g_test_rand_int_range (0, 8) == 0;
      g_autoptr (RodHouse) edited = undo ? rod_record_ref (first) : edit (house);
      g_autoptr (RodPlan) renewed = NULL;
      g_autoptr (RodPlan) fresh = NULL;

      if (!rod_house_check (edited, NULL))
        continue;
      renewed = rod_plan_renew (plan, edited);
      fresh = rod_plan_new (edited);
      assert_same_plan (renewed, fresh);
      g_assert_cmpuint (renewed->work.n_fields, <=, fresh->work.n_fields);
      rod_record_unref (house);
      house = g_steal_pointer (&edited);
      rod_plan_unref (plan);
      plan = g_steal_pointer (&renewed);
    }
}

static gint
compare_names (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static void
test_houses_of_a_folder (gconstpointer folder)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, folder, NULL);
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);

  g_assert_nonnull (dir);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    if (g_str_has_suffix (name, ".storeyrod"))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  g_assert_cmpuint (names->len, >, 5);
  for (guint i = 0; i < names->len; i++)
    edit_at_random (folder, names->pdata[i], N_EDITS);
}

static void
test_two_storeys (void)
{
  edit_at_random ("../examples", "two-storey.storeyrod", N_EDITS / 2);
}

static void
test_nothing_to_do (void)
{
  g_autoptr (RodHouse) house = load ("../examples", "two-storey.storeyrod");
  g_autoptr (RodHouse) copy = rod_record_copy (house);
  g_autoptr (RodPlan) plan = rod_plan_new (house);
  g_autoptr (RodPlan) renewed = rod_plan_renew (plan, copy);

  g_assert_cmpuint (plan->work.n_reveals, >, 100);
  g_assert_cmpuint (plan->work.n_fields, ==, plan->fields->len);
  g_assert_cmpuint (plan->work.n_groups, ==, plan->groups->len);
  g_assert_cmpuint (renewed->work.n_reveals, ==, 0);
  g_assert_cmpuint (renewed->work.n_fields, ==, 0);
  g_assert_cmpuint (renewed->work.n_groups, ==, 0);
}

static guint
find_face (const RodPlan *plan,
           const char    *id)
{
  for (guint f = 0; f < plan->faces->len; f++)
    if (g_strcmp0 (rod_plan_face (plan, f)->surface->id, id) == 0)
      return f;
  g_error ("no surface %s", id);
}

/* A window moved sideways leaves every level, and so the phase, where it was: its own wall is cut
 * again and nothing else, not even its reveals. */
static void
test_window_moved_sideways (void)
{
  g_autoptr (RodHouse) house = load ("../examples", "two-storey.storeyrod");
  g_autoptr (RodHouse) edited = NULL;
  g_autoptr (RodPlan) plan = rod_plan_new (house);
  g_autoptr (RodPlan) renewed = NULL;
  RodSurface    *wall = rod_record_copy (rod_house_find_surface (house, "east"));
  const RodFace *face = rod_plan_face (plan, find_face (plan, "east"));

  replace_opening (wall, 0)->x += 10.0;
  edited = rod_house_with_surface (house, wall);
  g_assert_true (rod_house_check (edited, NULL));
  renewed = rod_plan_renew (plan, edited);

  g_assert_cmpuint (face->n_fields, ==, 1);
  g_assert_cmpuint (renewed->work.n_fields, ==, 1);
  g_assert_cmpuint (renewed->work.n_groups, ==, 1);
  for (guint f = 0; f < renewed->fields->len; f++)
    {
      gboolean shared = rod_plan_field (renewed, f)->pocket == rod_plan_field (plan, f)->pocket;

      g_assert_true (shared == (f != face->first_field));
    }
}

/* What the whole house rests on: nothing is kept, and nothing of the old plan is needed. */
static void
test_colder_site (void)
{
  g_autoptr (RodHouse) house = load ("engine/houses", "a7-reveal.storeyrod");
  g_autoptr (RodHouse) edited = rod_record_copy (house);
  g_autoptr (RodPlan) plan = rod_plan_new (house);
  g_autoptr (RodPlan) renewed = NULL;

  rod_record_take_record (
    edited, G_STRUCT_OFFSET (RodHouse, site), rod_record_copy (house->site));
  edited->site->air_coldest_c -= 10.0;
  renewed = rod_plan_renew (plan, edited);
  g_assert_cmpuint (renewed->work.n_fields, ==, renewed->fields->len);
  g_assert_cmpuint (renewed->work.n_groups, ==, renewed->groups->len);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/renew/nothing-to-do", test_nothing_to_do);
  g_test_add_func ("/renew/window-moved-sideways", test_window_moved_sideways);
  g_test_add_func ("/renew/colder-site", test_colder_site);
  g_test_add_data_func ("/renew/worked-houses", "engine/houses", test_houses_of_a_folder);
  g_test_add_data_func ("/renew/hard-houses", "engine/houses/hard", test_houses_of_a_folder);
  g_test_add_func ("/renew/two-storeys", test_two_storeys);

  return g_test_run ();
}
