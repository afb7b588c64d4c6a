/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of the house, details, findings, order and sheets say what the plan says. */
#include "config.h"

#include "app-fixture.h"
#include "app/rod-bar-view.h"
#include "app/rod-finding-item.h"
#include "app/rod-house-node.h"
#include "app/rod-takeoff-item.h"
#include "engine/plan/rod-reckoning.h"
#include "sheets/rod-figures.h"
#include "sheets/rod-sheets.h"

typedef struct
{
  guint faces;
  guint openings;
  guint courses;
  guint pieces;
} Counts;

static void
count_nodes (GListModel *list,
             Counts     *counts)
{
  for (guint i = 0; i < g_list_model_get_n_items (list); i++)
    {
      g_autoptr (RodHouseNode) node = g_list_model_get_item (list, i);
      g_autoptr (GListModel) children = rod_house_node_list_children (node);
      RodPlace place = rod_house_node_get_place (node);

      if (rod_house_node_get_kind (node) == ROD_HOUSE_NODE_COURSE)
        counts->courses++;
      else if (place.kind == ROD_PLACE_FACE)
        counts->faces++;
      else if (place.kind == ROD_PLACE_OPENING)
        counts->openings++;
      else
        counts->pieces++;
      g_assert_cmpstr (rod_house_node_get_name (node), !=, "");
      if (children != NULL)
        count_nodes (children, counts);
    }
}

static Counts
count_plan (const RodPlan *plan)
{
  Counts counts = { .faces = plan->faces->len, .pieces = plan->pieces->len };

  for (guint i = 0; i < plan->faces->len; i++)
    counts.openings += rod_plan_face (plan, i)->surface->openings->len;
  for (guint i = 0; i < plan->fields->len; i++)
    counts.courses += rod_plan_field (plan, i)->n_courses;

  return counts;
}

/* Everything is in the list exactly once. */
static void
test_house_list (void)
{
  RodWindow    *window = app_open_example ();
  RodPlan      *plan = rod_document_get_plan (rod_window_get_document (window));
  RodHouseList *list = rod_house_view_get_house_list (rod_window_get_view (window));
  g_autoptr (GListModel) root = rod_house_node_list_root (plan);
  Counts expected = count_plan (plan);
  Counts found = { 0 };

  count_nodes (root, &found);
  g_assert_cmpuint (found.faces, ==, expected.faces);
  g_assert_cmpuint (found.openings, ==, expected.openings);
  g_assert_cmpuint (found.courses, ==, expected.courses);
  g_assert_cmpuint (found.pieces, ==, expected.pieces);
  g_assert_cmpuint (g_list_model_get_n_items (rod_house_list_get_rows (list)),
                    ==,
                    g_list_model_get_n_items (root));
  app_close_window (window);
}

static RodPlace
place_of_row (RodHouseList *list,
              guint         position)
{
  g_autoptr (GtkTreeListRow) row =
    g_list_model_get_item (rod_house_list_get_rows (list), position);
  g_autoptr (RodHouseNode) node = ROD_HOUSE_NODE (gtk_tree_list_row_get_item (row));

  return rod_house_node_get_place (node);
}

/* Whatever is selected elsewhere, the list opens up and shows it. */
static void
test_house_list_follows (void)
{
  RodWindow    *window = app_open_studio ();
  RodHouseView *view = rod_window_get_view (window);
  RodPlan      *plan = rod_document_get_plan (rod_window_get_document (window));
  RodHouseList *list = rod_house_view_get_house_list (view);
  RodSelection *selection = rod_house_view_get_selection (view);

  for (int i = 0; i < 40; i++)
    {
      RodPlace place =
        rod_place_piece (plan, (guint) g_test_rand_int_range (0, (int) plan->pieces->len));

      rod_selection_set (selection, place, i % 2 == 0);
      g_assert_true (rod_place_equal (place_of_row (list, rod_house_list_get_selected (list)),
                                      place));
      g_assert_true (rod_place_equal (rod_selection_get (selection), place));
    }
  rod_selection_set (selection, rod_place_house (), FALSE);
  g_assert_cmpuint (rod_house_list_get_selected (list), ==, GTK_INVALID_LIST_POSITION);
  app_close_window (window);
}

/* Whoever does not see a row hears all of it. */
static guint
count_named_rows (GtkWidget *widget)
{
  guint n_rows = 0;

  if (GTK_IS_TREE_EXPANDER (widget) &&
      gtk_tree_expander_get_list_row (GTK_TREE_EXPANDER (widget)) != NULL)
    {
      g_autoptr (RodHouseNode) node = gtk_tree_expander_get_item (GTK_TREE_EXPANDER (widget));
      g_autofree char *words =
        g_strdup_printf ("%s, Boards of this surface: %s",
                         rod_house_node_get_name (node),
                         rod_house_node_get_figure (node));

      gtk_test_accessible_assert_property (widget, GTK_ACCESSIBLE_PROPERTY_LABEL, words);
      gtk_test_accessible_assert_property (gtk_widget_get_parent (widget),
                                           GTK_ACCESSIBLE_PROPERTY_LABEL,
                                           words);
      n_rows++;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget);
       child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n_rows += count_named_rows (child);

  return n_rows;
}

static void
test_house_list_names (void)
{
  RodWindow    *window = app_open_studio ();
  RodHouseList *list = rod_house_view_get_house_list (rod_window_get_view (window));

  g_assert_cmpuint (count_named_rows (GTK_WIDGET (list)),
                    ==,
                    g_list_model_get_n_items (rod_house_list_get_rows (list)));
  app_close_window (window);
}

static void
test_piece_details (void)
{
  RodWindow    *window = app_open_studio ();
  RodHouseView *view = rod_window_get_view (window);
  RodPlan      *plan = rod_document_get_plan (rod_window_get_document (window));
  RodDetails   *details = rod_house_view_get_details (view);

  for (int i = 0; i < 40; i++)
    {
      guint           index = (guint) g_test_rand_int_range (0, (int) plan->pieces->len);
      const RodPiece *piece = rod_plan_piece (plan, index);
      g_autoptr (RodReckoning) reckoning = rod_reckon_piece_length (plan, index);
      g_autofree char *length = rod_figures_length_unit (plan->house->units,
                                                         piece->length_mm);

      rod_selection_set (rod_house_view_get_selection (view), rod_place_piece (plan, index), FALSE);
      g_assert_cmpstr (rod_details_get_title (details), ==, piece->mark);
      g_assert_true (app_has_label (GTK_WIDGET (details), length));
      app_expand_all (GTK_WIDGET (details));
      for (guint t = 0; t < reckoning->terms->len; t++)
        g_assert_true (app_has_label (GTK_WIDGET (details),
                                      g_array_index (reckoning->terms, RodTerm, t).text));
      /* Length, width and the gaps at both ends can be opened. */
      g_assert_cmpuint (app_count_widgets (GTK_WIDGET (details), GTK_TYPE_EXPANDER), ==, 4);
    }
  app_close_window (window);
}

/* Every surface and opening can be looked at, without a warning (warnings are fatal here). */
static void
test_all_details (void)
{
  RodWindow    *window = app_open_example ();
  RodHouseView *view = rod_window_get_view (window);
  RodPlan      *plan = rod_document_get_plan (rod_window_get_document (window));
  RodDetails   *details = rod_house_view_get_details (view);
  RodSelection *selection = rod_house_view_get_selection (view);

  for (guint i = 0; i < plan->faces->len; i++)
    {
      const RodFace   *face = rod_plan_face (plan, i);
      g_autofree char *title = g_strdup_printf ("%s  %s", face->mark, face->label);
      g_autofree char *area = rod_figures_area (plan->house->units, rod_region_area (face->bare));

      rod_selection_set (selection, rod_place_face (i), FALSE);
      g_assert_cmpstr (rod_details_get_title (details), ==, title);
      app_expand_all (GTK_WIDGET (details));
      g_assert_true (app_has_label (GTK_WIDGET (details), area));
      for (guint k = 0; k < face->surface->openings->len; k++)
        {
          rod_selection_set (selection, rod_place_opening (i, k), FALSE);
          g_assert_cmpstr (rod_details_get_title (details), !=, "");
        }
    }
  rod_selection_set (selection, rod_place_house (), FALSE);
  g_assert_cmpstr (rod_details_get_title (details), ==, plan->house->name);
  app_close_window (window);
}

/* A link in the details leads to another place. */
static void
test_select_action (void)
{
  RodWindow    *window = app_open_studio ();
  RodSelection *selection = rod_house_view_get_selection (rod_window_get_view (window));

  g_action_group_activate_action (G_ACTION_GROUP (window),
                                  "select",
                                  g_variant_new ("(uuu)", (guint32) ROD_PLACE_FACE, 1u, 0u));
  g_assert_true (rod_place_equal (rod_selection_get (selection), rod_place_face (1)));
  /* A place that is not there is not selected. */
  g_action_group_activate_action (G_ACTION_GROUP (window),
                                  "select",
                                  g_variant_new ("(uuu)", (guint32) ROD_PLACE_FACE, 9999u, 0u));
  g_assert_true (rod_place_equal (rod_selection_get (selection), rod_place_face (1)));
  app_close_window (window);
}

static void
test_findings (void)
{
  RodWindow       *window = app_open_example ();
  RodHouseView    *view = rod_window_get_view (window);
  RodDocument     *document = rod_window_get_document (window);
  RodPlan         *plan = rod_document_get_plan (document);
  GListModel      *findings = rod_document_get_findings (document);
  RodFindingsList *list = rod_house_view_get_findings_list (view);
  guint            n_findings = g_list_model_get_n_items (findings);

  g_assert_cmpuint (n_findings, >=, plan->findings->len);
  g_assert_cmpuint (n_findings, >, 0);
  for (guint i = 0; i < n_findings + 1; i++)
    {
      g_autoptr (RodFindingItem) item = g_list_model_get_item (findings, i % n_findings);
      RodPlace place = rod_place_of_finding (plan, rod_finding_item_get (item));

      g_action_group_activate_action (G_ACTION_GROUP (window), "next-finding", NULL);
      g_assert_cmpuint (rod_findings_list_get_selected (list), ==, i % n_findings);
      g_assert_true (rod_place_equal (rod_selection_get (rod_house_view_get_selection (view)),
                                      place));
    }
  g_action_group_activate_action (G_ACTION_GROUP (window), "previous-finding", NULL);
  g_assert_cmpuint (rod_findings_list_get_selected (list), ==, n_findings - 1);
  app_close_window (window);
}

static gboolean
is_folded (gpointer panes)
{
  return rod_panes_get_folded (panes);
}

/* A narrow window shows the drawing, and says the finding over it. */
static void
test_findings_narrow (void)
{
  RodWindow    *window = app_open_example ();
  RodHouseView *view = rod_window_get_view (window);
  RodPanes     *panes = rod_house_view_get_panes (view);
  GListModel   *findings = rod_document_get_findings (rod_window_get_document (window));
  g_autoptr (RodFindingItem) first = g_list_model_get_item (findings, 0);
  GtkWidget *toasts = app_find_widget (GTK_WIDGET (window), "toasts");

  gtk_window_set_default_size (GTK_WINDOW (window), 400, 640);
  app_wait_for (is_folded, panes, "panes to fold");
  app_settle (window);
  rod_panes_set_show_end (panes, TRUE);
  g_action_group_activate_action (G_ACTION_GROUP (window), "next-finding", NULL);
  app_settle (window);
  g_assert_false (rod_panes_get_show_end (panes));
  g_assert_cmpuint (app_count_widgets (toasts, g_type_from_name ("AdwToastWidget")), ==, 1);
  g_assert_true (app_has_label (toasts, rod_finding_item_get (first)->text));
  app_close_window (window);
}

/* Escape puts away the pane over a narrow window first, and then the selection. */
static void
test_escape (void)
{
  RodWindow    *window = app_open_studio ();
  RodHouseView *view = rod_window_get_view (window);
  RodPanes     *panes = rod_house_view_get_panes (view);
  RodSelection *selection = rod_house_view_get_selection (view);

  gtk_window_set_default_size (GTK_WINDOW (window), 400, 640);
  app_wait_for (is_folded, panes, "panes to fold");
  app_settle (window);
  rod_selection_set (selection, rod_place_face (1), FALSE);
  rod_panes_set_show_start (panes, TRUE);
  g_assert_true (app_press_key (GTK_WIDGET (view), GDK_KEY_Escape));
  g_assert_false (rod_panes_get_show_start (panes));
  g_assert_true (rod_place_equal (rod_selection_get (selection), rod_place_face (1)));
  g_assert_true (app_press_key (GTK_WIDGET (view), GDK_KEY_Escape));
  g_assert_cmpint (rod_selection_get (selection).kind, ==, ROD_PLACE_HOUSE);
  g_assert_false (app_press_key (GTK_WIDGET (view), GDK_KEY_Escape));
  app_close_window (window);
}

static void
test_tally (void)
{
  RodWindow        *window = app_open_studio ();
  const RodTakeoff *takeoff = rod_document_get_takeoff (rod_window_get_document (window));
  const RodPlan    *plan = takeoff->plan;
  g_autofree char  *pieces = rod_figures_count (plan->pieces->len);
  g_autofree char  *cost = rod_figures_money (plan->house->buying->currency, takeoff->total);

  g_assert_true (app_has_label (GTK_WIDGET (window), pieces));
  g_assert_true (app_has_label (GTK_WIDGET (window), cost));
  app_close_window (window);
}

static void
note_highlight_cb (RodOrderView *view,
                   GArray       *pieces,
                   guint        *n_pieces)
{
  *n_pieces = pieces != NULL ? pieces->len : 0;
}

static void
test_order (void)
{
  RodWindow        *window = app_open_studio ();
  RodHouseView     *view = rod_window_get_view (window);
  RodOrderView     *order = rod_house_view_get_order_view (view);
  const RodTakeoff *takeoff = rod_document_get_takeoff (rod_window_get_document (window));
  const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, 0);
  g_autoptr (RodTakeoffItem) bar = NULL;
  guint n_highlighted = 0;

  g_action_group_change_action_state (G_ACTION_GROUP (window),
                                      "stage",
                                      g_variant_new_string ("order"));
  app_settle (window);
  g_assert_cmpuint (g_list_model_get_n_items (rod_order_view_get_lines (order)),
                    ==,
                    takeoff->lines->len);
  g_assert_cmpuint (g_list_model_get_n_items (rod_order_view_get_bars (order)),
                    ==,
                    cutting->bars->len);

  g_signal_connect (order, "highlight", G_CALLBACK (note_highlight_cb), &n_highlighted);
  rod_order_view_select_bar (order, 0);
  bar = g_list_model_get_item (rod_order_view_get_bars (order), 0);
  g_assert_cmpuint (n_highlighted, ==, rod_takeoff_item_get_bar (bar)->n_items);
  app_settle (window);
  g_assert_cmpuint (app_count_widgets (GTK_WIDGET (order), ROD_TYPE_BAR_VIEW), >, 0);
  app_close_window (window);
}

static void
test_sheets (void)
{
  RodWindow        *window = app_open_studio ();
  const RodTakeoff *takeoff = rod_document_get_takeoff (rod_window_get_document (window));
  g_autoptr (RodSheets) sheets = rod_sheets_new (takeoff, NULL);

  g_action_group_change_action_state (G_ACTION_GROUP (window),
                                      "stage",
                                      g_variant_new_string ("sheets"));
  app_settle (window);
  g_assert_cmpuint (
    rod_sheets_view_get_n_pages (rod_house_view_get_sheets_view (rod_window_get_view (window))),
    ==,
    rod_sheets_n_pages (sheets));
  app_close_window (window);
}

int
main (int    argc,
      char **argv)
{
  if (!app_start (&argc, &argv))
    return 77;

  g_test_add_func ("/app/lists/house", test_house_list);
  g_test_add_func ("/app/lists/house-follows", test_house_list_follows);
  g_test_add_func ("/app/lists/piece-details", test_piece_details);
  g_test_add_func ("/app/lists/all-details", test_all_details);
  g_test_add_func ("/app/lists/select-action", test_select_action);
  g_test_add_func ("/app/lists/findings", test_findings);
  g_test_add_func ("/app/lists/house-names", test_house_list_names);
  g_test_add_func ("/app/lists/findings-narrow", test_findings_narrow);
  g_test_add_func ("/app/lists/escape", test_escape);
  g_test_add_func ("/app/lists/tally", test_tally);
  g_test_add_func ("/app/lists/order", test_order);
  g_test_add_func ("/app/lists/sheets", test_sheets);

  return g_test_run ();
}
