/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records: fallbacks, copies that share, comparison, and the tables themselves. */
#include "engine/model/rod-house.h"
#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <string.h>

static const RodType *const all_types[] = {
  &rod_stock_type,
  &rod_colour_type,
  &rod_board_type,
  &rod_trim_type,
  &rod_trim_rule_type,
  &rod_fixing_type,
  &rod_batten_type,
  &rod_rules_type,
  &rod_system_type,
  &rod_corner_type,
  &rod_reveal_type,
  &rod_opening_type,
  &rod_colour_share_type,
  &rod_zone_type,
  &rod_pin_type,
  &rod_aim_type,
  &rod_seen_weights_type,
  &rod_surface_type,
  &rod_site_type,
  &rod_saw_type,
  &rod_buying_type,
  &rod_offcut_type,
  &rod_edge_ref_type,
  &rod_join_type,
  &rod_house_type,
};

/* Values that the rules of the trade name: common practice, no source. */
static void
test_fallbacks (void)
{
  g_autoptr (RodHouse) house = rod_record_new (&rod_house_type);
  g_autoptr (RodSystem) system = rod_record_new (&rod_system_type);
  g_autoptr (RodCorner) corner = rod_record_new (&rod_corner_type);

  g_assert_cmpstr (house->format, ==, "storeyrod-house");
  g_assert_cmpint (house->version, ==, 1);
  g_assert_cmpstr (house->name, ==, "");
  g_assert_cmpfloat (house->survey_tolerance_mm, ==, 5);
  g_assert_cmpfloat (house->site->air_coldest_c, ==, -20);
  g_assert_cmpfloat (house->site->air_hottest_c, ==, 35);
  g_assert_cmpfloat (house->site->fixing_c, ==, 15);
  g_assert_true (isnan (house->site->face_hottest_c));
  g_assert_cmpfloat (house->saw->kerf_mm, ==, 4);
  g_assert_cmpstr (house->buying->currency, ==, "EUR");
  g_assert_cmpint (house->buying->spare_least, ==, 2);
  g_assert_cmpuint (house->surfaces->len, ==, 0);

  g_assert_cmpfloat (system->rules->batten_centres_mm, ==, 400);
  g_assert_cmpfloat (system->rules->min_rip_mm, ==, 60);
  g_assert_cmpfloat (system->rules->ground_clearance_mm, ==, 50);
  g_assert_cmpfloat (system->batten->width_mm, ==, 48);
  g_assert_null (system->counter_batten);
  g_assert_cmpint (corner->condition, ==, ROD_EDGE_AUTO);
  g_assert_true (isnan (corner->clearance_mm));
}

/* A row that does not fit its struct would read one member into another. */
static void
test_tables_fit_their_structs (void)
{
  static const gsize sizes[] = {
    [ROD_MEMBER_TEXT] = sizeof (char *),
    [ROD_MEMBER_NUMBER] = sizeof (double),
    [ROD_MEMBER_INTEGER] = sizeof (int),
    [ROD_MEMBER_FLAG] = sizeof (gboolean),
    [ROD_MEMBER_CHOICE] = sizeof (int),
    [ROD_MEMBER_RECORD] = sizeof (gpointer),
    [ROD_MEMBER_LIST] = sizeof (GPtrArray *),
    [ROD_MEMBER_TEXTS] = sizeof (GPtrArray *),
  };

  for (guint i = 0; i < G_N_ELEMENTS (all_types); i++)
    {
      gsize end = sizeof (RodRecord);

      for (const RodMember *member = all_types[i]->members; member->name != NULL; member++)
        {
          g_test_message ("%s.%s", all_types[i]->name, member->name);
          /* In the order of the struct, without overlap; holes only for alignment. */
          g_assert_cmpuint (member->offset, >=, end);
          g_assert_cmpuint (member->offset - end, <, sizeof (double));
          end = member->offset + sizes[member->kind];
          g_assert_true (g_str_has_suffix (member->doc, "."));
          g_assert_true (rod_type_find_member (all_types[i], member->name) == member);
          if (member->kind == ROD_MEMBER_RECORD || member->kind == ROD_MEMBER_LIST)
            g_assert_nonnull (member->of);
          else
            g_assert_null (member->of);
          g_assert_cmpint (member->choices != NULL, ==, member->kind == ROD_MEMBER_CHOICE);
        }
      g_assert_cmpuint (end, <=, all_types[i]->size);
      g_assert_cmpuint (all_types[i]->size - end, <, sizeof (double));
    }
}

static void
test_copy_shares_what_it_does_not_change (void)
{
  g_autoptr (RodHouse) house = rod_record_new (&rod_house_type);
  g_autoptr (RodHouse) copy = NULL;
  RodSurface *surface = rod_record_new (&rod_surface_type);

  rod_record_set_text (house, G_STRUCT_OFFSET (RodHouse, name), "Shed");
  g_ptr_array_add (house->surfaces, surface);
  house->record.extra = g_ref_string_new ("{ \"note\": 1 }");
  copy = rod_record_copy (house);

  g_assert_true (copy->surfaces == house->surfaces);
  g_assert_true (copy->site == house->site);
  g_assert_true (copy->name != house->name);
  g_assert_cmpstr (copy->name, ==, "Shed");
  g_assert_cmpstr (copy->record.extra, ==, house->record.extra);
  g_assert_true (rod_record_equal (house, copy));

  /* The copy outlives the original. */
  g_clear_pointer (&house, rod_record_unref);
  g_assert_cmpuint (copy->surfaces->len, ==, 1);
  g_assert_cmpstr (copy->record.extra, ==, "{ \"note\": 1 }");
}

static void
test_changed_list_leaves_the_original (void)
{
  g_autoptr (RodHouse) house = rod_record_new (&rod_house_type);
  g_autoptr (RodHouse) copy = NULL;
  GPtrArray *surfaces;

  g_ptr_array_add (house->surfaces, rod_record_new (&rod_surface_type));
  copy = rod_record_copy (house);
  surfaces = rod_record_list_copy (house->surfaces);
  g_ptr_array_add (surfaces, rod_record_new (&rod_surface_type));
  rod_record_take_list (copy, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  rod_record_take_record (copy, G_STRUCT_OFFSET (RodHouse, saw), rod_record_new (&rod_saw_type));
  copy->saw->kerf_mm = 3;

  g_assert_cmpuint (house->surfaces->len, ==, 1);
  g_assert_cmpuint (copy->surfaces->len, ==, 2);
  g_assert_true (house->surfaces->pdata[0] == copy->surfaces->pdata[0]);
  g_assert_cmpfloat (house->saw->kerf_mm, ==, 4);
  g_assert_false (rod_record_equal (house, copy));
}

static RodSurface *
named_surface (const char *id)
{
  RodSurface *surface = rod_record_new (&rod_surface_type);

  rod_record_set_text (surface, G_STRUCT_OFFSET (RodSurface, id), id);
  return surface;
}

static void
test_replaced_surface_shares_the_rest (void)
{
  g_autoptr (RodHouse) house = rod_record_new (&rod_house_type);
  g_autoptr (RodHouse) edited = NULL;
  RodSurface *raised;

  g_ptr_array_add (house->surfaces, named_surface ("front"));
  g_ptr_array_add (house->surfaces, named_surface ("side"));
  g_ptr_array_add (house->surfaces, named_surface ("rear"));
  raised = rod_record_copy (house->surfaces->pdata[1]);
  raised->level_mm = 250;
  edited = rod_house_with_surface (house, raised);

  g_assert_cmpuint (edited->surfaces->len, ==, 3);
  g_assert_true (edited->surfaces->pdata[0] == house->surfaces->pdata[0]);
  g_assert_true (edited->surfaces->pdata[1] == raised);
  g_assert_true (edited->surfaces->pdata[2] == house->surfaces->pdata[2]);
  g_assert_true (edited->joins == house->joins && edited->site == house->site);
  g_assert_cmpfloat (rod_house_find_surface (house, "side")->level_mm, ==, 0);
}

/* Changes one member of a record to something else and says so. */
static void
change_member (const RodMember *member,
               gpointer         record)
{
  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      rod_record_set_text (record, member->offset, "something else");
      break;
    case ROD_MEMBER_NUMBER:
      rod_member_set_number (member, record, 12345.5);
      break;
    case ROD_MEMBER_INTEGER:
    case ROD_MEMBER_CHOICE:
      rod_member_set_integer (member, record, 12345);
      break;
    case ROD_MEMBER_FLAG:
      rod_member_set_integer (member, record, !rod_member_integer (member, record));
      break;
    case ROD_MEMBER_RECORD:
      {
        gpointer inner = rod_record_new (member->of);

        /* One that is there anyway must differ to count. */
        if ((member->flags & ROD_MEMBER_FILLED) != 0)
          change_member (member->of->members, inner);
        rod_record_take_record (record, member->offset, inner);
        break;
      }
    case ROD_MEMBER_LIST:
      {
        GPtrArray *list = rod_record_list_new ();

        g_ptr_array_add (list, rod_record_new (member->of));
        rod_record_take_list (record, member->offset, list);
        break;
      }
    case ROD_MEMBER_TEXTS:
      {
        GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);

        g_ptr_array_add (texts, g_strdup ("something"));
        rod_record_take_list (record, member->offset, texts);
        break;
      }
    default:
      g_assert_not_reached ();
    }
}

static void
test_every_member_counts_in_comparison (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (all_types); i++)
    {
      g_autoptr (RodRecord) plain = rod_record_new (all_types[i]);

      for (const RodMember *member = all_types[i]->members; member->name != NULL; member++)
        {
          g_autoptr (RodRecord) changed = rod_record_copy (plain);

          g_test_message ("%s.%s", all_types[i]->name, member->name);
          g_assert_true (rod_member_is_fallback (member, changed));
          change_member (member, changed);
          g_assert_false (rod_member_is_fallback (member, changed));
          g_assert_false (rod_record_equal (plain, changed));
          g_assert_false (rod_record_equal (changed, plain));
        }
    }
}

static void
test_extra_counts_in_comparison (void)
{
  g_autoptr (RodSaw) a = rod_record_new (&rod_saw_type);
  g_autoptr (RodSaw) b = rod_record_new (&rod_saw_type);

  g_assert_true (rod_record_equal (a, b));
  b->record.extra = g_ref_string_new ("{ \"teeth\": 60 }");
  g_assert_false (rod_record_equal (a, b));
  g_assert_false (rod_record_equal (a, NULL));
  g_assert_true (rod_record_equal (NULL, NULL));
}

static gpointer
copy_and_drop (gpointer data)
{
  for (int i = 0; i < 2000; i++)
    {
      g_autoptr (RodHouse) copy = rod_record_copy (data);
      g_autoptr (RodHouse) again = rod_record_ref (copy);

      g_assert_true (rod_record_equal (copy, again));
    }
  rod_record_unref (data);
  return NULL;
}

static void
test_snapshots_in_threads (void)
{
  RodHouse *house = rod_record_new (&rod_house_type);
  GThread  *threads[4];

  g_ptr_array_add (house->surfaces, rod_record_new (&rod_surface_type));
  house->record.extra = g_ref_string_new ("{}");
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    threads[i] = g_thread_new ("copy", copy_and_drop, rod_record_ref (house));
  for (guint i = 0; i < G_N_ELEMENTS (threads); i++)
    g_thread_join (threads[i]);

  g_assert_cmpuint (house->surfaces->len, ==, 1);
  rod_record_unref (house);
}

static void
test_choices (void)
{
  const RodChoice *conditions = rod_edge_condition_choices;

  g_assert_cmpstr (rod_choice_nick (conditions, ROD_EDGE_OUTSIDE_CORNER), ==, "outside-corner");
  g_assert_cmpstr (rod_choice_nick (rod_edge_condition_choices, 99), ==, "?");
  g_assert_cmpstr (rod_choice_label (rod_surface_kind_choices, ROD_SURFACE_SOFFIT), ==, "Soffit");
  /* A surface cannot be of any kind; only rows of decision tables can. */
  g_assert_cmpstr (rod_choice_nick (rod_surface_kind_choices, ROD_SURFACE_ANY), ==, "?");
}

/* Each table names every value of its enumeration once, with words that differ. */
static void
test_choice_tables (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (all_types); i++)
    {
      for (const RodMember *member = all_types[i]->members; member->name != NULL; member++)
        {
          for (const RodChoice *a = member->choices; a != NULL && a->nick != NULL; a++)
            {
              g_assert_nonnull (a->label);
              for (const RodChoice *b = a + 1; b->nick != NULL; b++)
                {
                  g_assert_cmpstr (a->nick, !=, b->nick);
                  g_assert_cmpstr (a->label, !=, b->label);
                  g_assert_cmpint (a->value + 1, <=, b->value);
                }
            }
        }
    }
}

static void
test_finders (void)
{
  g_autoptr (RodSystem) system = rod_record_new (&rod_system_type);
  g_autoptr (RodSurface) surface = rod_record_new (&rod_surface_type);
  RodBoard  *narrow = rod_record_new (&rod_board_type);
  RodBoard  *wide = rod_record_new (&rod_board_type);
  RodCorner *corner = rod_record_new (&rod_corner_type);

  rod_record_set_text (narrow, G_STRUCT_OFFSET (RodBoard, id), "narrow");
  rod_record_set_text (wide, G_STRUCT_OFFSET (RodBoard, id), "wide");
  g_ptr_array_add (system->boards, narrow);
  g_ptr_array_add (system->boards, wide);
  rod_record_set_text (corner, G_STRUCT_OFFSET (RodCorner, edge), "base");
  g_ptr_array_add (surface->outline, rod_record_new (&rod_corner_type));
  g_ptr_array_add (surface->outline, corner);

  g_assert_true (rod_system_find_board (system, "wide") == wide);
  g_assert_true (rod_system_find_board (system, "") == narrow);
  g_assert_null (rod_system_find_board (system, "none"));
  g_assert_null (rod_system_find_trim (system, ""));
  g_assert_cmpint (rod_surface_find_edge (surface, "base"), ==, 1);
  g_assert_cmpint (rod_surface_find_edge (surface, "top"), ==, -1);
  /* Edges without a name are not called "". */
  g_assert_cmpint (rod_surface_find_edge (surface, ""), ==, -1);
}

static const RodSide *
side_at (const GArray *sides,
         guint         index)
{
  return &g_array_index (sides, RodSide, index);
}

static void
assert_point (RodPoint point,
              double   x,
              double   y)
{
  g_assert_cmpfloat_with_epsilon (point.x, x, ROD_EPSILON_MM);
  g_assert_cmpfloat_with_epsilon (point.y, y, ROD_EPSILON_MM);
}

static void
test_opening_sides (void)
{
  g_autoptr (RodOpening) opening = rod_record_new (&rod_opening_type);
  g_autoptr (GArray) rectangle = NULL;
  g_autoptr (GArray) arch = NULL;
  g_autoptr (GArray) circle = NULL;

  opening->x = 500;
  opening->y = 900;
  opening->width_mm = 1000;
  opening->height_mm = 1200;

  rectangle = rod_opening_sides (opening);
  g_assert_cmpuint (rectangle->len, ==, 4);
  assert_point (side_at (rectangle, 0)->from, 500, 900);
  assert_point (side_at (rectangle, 1)->from, 1500, 900);
  assert_point (side_at (rectangle, 2)->from, 1500, 2100);
  assert_point (side_at (rectangle, 3)->to, 500, 900);

  /* Rise 200 on a chord of 1000: bulge 200 / 500; springing at 2100 − 200. */
  opening->shape = ROD_SHAPE_ARCH;
  opening->rise_mm = 200;
  arch = rod_opening_sides (opening);
  g_assert_cmpfloat_with_epsilon (side_at (arch, 2)->bulge, 0.4, ROD_EPSILON_MM);
  assert_point (side_at (arch, 2)->from, 1500, 1900);
  assert_point (side_at (arch, 2)->to, 500, 1900);
  g_assert_cmpfloat (side_at (arch, 0)->bulge, ==, 0);

  opening->shape = ROD_SHAPE_CIRCLE;
  circle = rod_opening_sides (opening);
  g_assert_cmpuint (circle->len, ==, 2);
  assert_point (side_at (circle, 0)->from, 0, 900);
  assert_point (side_at (circle, 0)->to, 1000, 900);
  g_assert_cmpfloat (side_at (circle, 0)->bulge, ==, 1);
  g_assert_null (side_at (circle, 0)->corner);
}

static void
test_corner_sides (void)
{
  g_autoptr (GPtrArray) corners = rod_record_list_new ();
  g_autoptr (GArray) sides = NULL;

  for (int i = 0; i < 3; i++)
    {
      RodCorner *corner = rod_record_new (&rod_corner_type);

      corner->x = i == 1 ? 100 : 0;
      corner->y = i == 2 ? 100 : 0;
      corner->bulge = 0.25 * i;
      g_ptr_array_add (corners, corner);
    }

  sides = rod_corners_sides (corners);
  g_assert_cmpuint (sides->len, ==, 3);
  assert_point (side_at (sides, 2)->from, 0, 100);
  assert_point (side_at (sides, 2)->to, 0, 0);
  g_assert_cmpfloat (side_at (sides, 2)->bulge, ==, 0.5);
  g_assert_true (side_at (sides, 1)->corner == corners->pdata[1]);
}

int
main (int   argc,
      char *argv[])
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/record/fallbacks", test_fallbacks);
  g_test_add_func ("/record/tables-fit-their-structs", test_tables_fit_their_structs);
  g_test_add_func ("/record/copy-shares", test_copy_shares_what_it_does_not_change);
  g_test_add_func ("/record/changed-list", test_changed_list_leaves_the_original);
  g_test_add_func ("/record/replaced-surface", test_replaced_surface_shares_the_rest);
  g_test_add_func ("/record/every-member-counts", test_every_member_counts_in_comparison);
  g_test_add_func ("/record/extra-counts", test_extra_counts_in_comparison);
  g_test_add_func ("/record/threads", test_snapshots_in_threads);
  g_test_add_func ("/record/choices", test_choices);
  g_test_add_func ("/record/choice-tables", test_choice_tables);
  g_test_add_func ("/record/finders", test_finders);
  g_test_add_func ("/record/opening-sides", test_opening_sides);
  g_test_add_func ("/record/corner-sides", test_corner_sides);

  return g_test_run ();
}
