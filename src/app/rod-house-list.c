/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The house as a tree of surfaces, openings, courses and boards: the way to everything on the
 * drawing by keyboard and screen reader.
 */
#include "config.h"

#include "app/rod-house-list.h"

#include <glib/gi18n.h>

#include "app/rod-house-node.h"

struct _RodHouseList
{
  GtkWidget parent_instance;

  /* Owned */
  RodSelection       *selection;
  GtkTreeListModel   *rows;
  GtkSingleSelection *model;

  /* Template widgets */
  GtkLabel    *heading;
  GtkListView *view;

  gboolean following; /* the selection, instead of leading it */
};

G_DEFINE_FINAL_TYPE (RodHouseList, rod_house_list, GTK_TYPE_WIDGET)

static GListModel *
list_children_cb (gpointer item,
                  gpointer user_data)
{
  return rod_house_node_list_children (item);
}

static void
row_setup_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *item)
{
  GtkWidget *expander = gtk_tree_expander_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *name = gtk_label_new (NULL);
  GtkWidget *figure = gtk_label_new (NULL);

  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_widget_set_hexpand (name, TRUE);
  gtk_widget_add_css_class (figure, "rod-figure");
  gtk_widget_add_css_class (figure, "dim-label");
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), figure);
  gtk_tree_expander_set_child (GTK_TREE_EXPANDER (expander), box);
  gtk_list_item_set_child (item, expander);
}

static const char *
figure_meaning (RodHouseNode *node)
{
  if (rod_house_node_get_kind (node) == ROD_HOUSE_NODE_COURSE)
    return _ ("Boards of this course");

  switch (rod_house_node_get_place (node).kind)
    {
    case ROD_PLACE_OPENING:
      return _ ("Width × height");

    case ROD_PLACE_PIECE:
      return _ ("Length");

    case ROD_PLACE_HOUSE:
    case ROD_PLACE_FACE:
    default:
      return _ ("Boards of this surface");
    }
}

/* Keys move the focus to the expander, pointers of assistive tools to the row. */
static void
name_row (GtkWidget    *expander,
          RodHouseNode *node)
{
  /* Translators: a row of the list of the house: name, meaning of the figure, figure. */
  g_autofree char *words = g_strdup_printf (_ ("%s, %s: %s"),
                                            rod_house_node_get_name (node),
                                            figure_meaning (node),
                                            rod_house_node_get_figure (node));
  GtkWidget       *named[] = { expander, gtk_widget_get_parent (expander) };

  for (guint i = 0; i < G_N_ELEMENTS (named) && named[i] != NULL; i++)
    gtk_accessible_update_property (GTK_ACCESSIBLE (named[i]),
                                    GTK_ACCESSIBLE_PROPERTY_LABEL,
                                    words,
                                    -1);
}

static void
row_bind_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *item)
{
  GtkTreeListRow *row = gtk_list_item_get_item (item);
  g_autoptr (RodHouseNode) node = ROD_HOUSE_NODE (gtk_tree_list_row_get_item (row));
  GtkTreeExpander *expander = GTK_TREE_EXPANDER (gtk_list_item_get_child (item));
  GtkWidget       *box = gtk_tree_expander_get_child (expander);
  GtkWidget       *name = gtk_widget_get_first_child (box);
  GtkWidget       *figure = gtk_widget_get_last_child (box);

  gtk_tree_expander_set_list_row (expander, row);
  gtk_label_set_label (GTK_LABEL (name), rod_house_node_get_name (node));
  gtk_widget_set_tooltip_text (name, rod_house_node_get_name (node));
  gtk_label_set_label (GTK_LABEL (figure), rod_house_node_get_figure (node));
  gtk_widget_set_tooltip_text (figure, figure_meaning (node));
  name_row (GTK_WIDGET (expander), node);
}

static void
row_unbind_cb (GtkSignalListItemFactory *factory,
               GtkListItem              *item)
{
  gtk_tree_expander_set_list_row (GTK_TREE_EXPANDER (gtk_list_item_get_child (item)), NULL);
}

static RodHouseNode *
get_node (RodHouseList *self,
          guint         position)
{
  g_autoptr (GtkTreeListRow) row = g_list_model_get_item (G_LIST_MODEL (self->rows), position);

  return row != NULL ? ROD_HOUSE_NODE (gtk_tree_list_row_get_item (row)) : NULL;
}

static void
row_selected_cb (RodHouseList *self)
{
  guint position = gtk_single_selection_get_selected (self->model);
  g_autoptr (RodHouseNode) node = NULL;

  if (self->following || self->selection == NULL || position == GTK_INVALID_LIST_POSITION)
    return;

  node = get_node (self, position);
  if (node != NULL)
    rod_selection_set (self->selection, rod_house_node_get_place (node), TRUE);
}

static void
activate_cb (GtkListView  *view,
             guint         position,
             RodHouseList *self)
{
  g_autoptr (GtkTreeListRow) row = g_list_model_get_item (G_LIST_MODEL (self->rows), position);

  if (row != NULL && gtk_tree_list_row_is_expandable (row))
    gtk_tree_list_row_set_expanded (row, !gtk_tree_list_row_get_expanded (row));
}

/* Opens row after row on the way to a place. */
static guint
find_place (RodHouseList *self,
            RodPlace      place)
{
  guint position = 0;

  while (position < g_list_model_get_n_items (G_LIST_MODEL (self->rows)))
    {
      g_autoptr (RodHouseNode) node = get_node (self, position);
      g_autoptr (GtkTreeListRow) row = NULL;

      if (!rod_house_node_leads_to (node, place))
        {
          position++;
          continue;
        }
      if (rod_house_node_get_kind (node) == ROD_HOUSE_NODE_PLACE &&
          rod_place_equal (rod_house_node_get_place (node), place))
        return position;

      row = g_list_model_get_item (G_LIST_MODEL (self->rows), position);
      gtk_tree_list_row_set_expanded (row, TRUE);
      position++;
    }

  return GTK_INVALID_LIST_POSITION;
}

static void
selection_changed_cb (RodSelection *selection,
                      gboolean      reveal,
                      RodHouseList *self)
{
  RodPlace place = rod_selection_get (selection);
  g_autoptr (RodHouseNode) node = NULL;
  guint position;

  if (self->rows == NULL)
    return;

  /* Where the user walks through the list itself, nothing needs to be looked for. */
  position = gtk_single_selection_get_selected (self->model);
  node = position != GTK_INVALID_LIST_POSITION ? get_node (self, position) : NULL;
  if (node != NULL && rod_place_equal (rod_house_node_get_place (node), place))
    return;

  self->following = TRUE;
  position = place.kind == ROD_PLACE_HOUSE ? GTK_INVALID_LIST_POSITION : find_place (self, place);
  gtk_single_selection_set_selected (self->model, position);
  if (position != GTK_INVALID_LIST_POSITION)
    gtk_widget_activate_action (GTK_WIDGET (self->view), "list.scroll-to-item", "u", position);
  self->following = FALSE;
}

static void
rod_house_list_dispose (GObject *object)
{
  RodHouseList *self = ROD_HOUSE_LIST (object);
  GtkWidget    *child;

  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  g_clear_object (&self->selection);
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  g_clear_object (&self->model);
  g_clear_object (&self->rows);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);

  G_OBJECT_CLASS (rod_house_list_parent_class)->dispose (object);
}

static void
rod_house_list_class_init (RodHouseListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_house_list_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-house-list.ui");
  gtk_widget_class_bind_template_child (widget_class, RodHouseList, heading);
  gtk_widget_class_bind_template_child (widget_class, RodHouseList, view);
  gtk_widget_class_bind_template_callback (widget_class, row_setup_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_bind_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_unbind_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
}

static void
rod_house_list_init (RodHouseList *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
rod_house_list_set_selection (RodHouseList *self,
                              RodSelection *selection)
{
  g_return_if_fail (ROD_IS_HOUSE_LIST (self));
  g_return_if_fail (ROD_IS_SELECTION (selection));
  g_return_if_fail (self->selection == NULL);

  self->selection = g_object_ref (selection);
  g_signal_connect (selection, "changed", G_CALLBACK (selection_changed_cb), self);
}

void
rod_house_list_set_plan (RodHouseList *self,
                         RodPlan      *plan)
{
  g_return_if_fail (ROD_IS_HOUSE_LIST (self));

  gtk_list_view_set_model (self->view, NULL);
  if (self->model != NULL)
    g_signal_handlers_disconnect_by_data (self->model, self);
  g_clear_object (&self->model);
  g_clear_object (&self->rows);
  if (plan == NULL)
    return;

  gtk_label_set_label (self->heading,
                       plan->house->name[0] != '\0' ? plan->house->name : _ ("House"));
  self->rows = gtk_tree_list_model_new (rod_house_node_list_root (plan),
                                        FALSE,
                                        FALSE,
                                        list_children_cb,
                                        NULL,
                                        NULL);
  self->model = gtk_single_selection_new (g_object_ref (G_LIST_MODEL (self->rows)));
  gtk_single_selection_set_autoselect (self->model, FALSE);
  gtk_single_selection_set_can_unselect (self->model, TRUE);
  gtk_single_selection_set_selected (self->model, GTK_INVALID_LIST_POSITION);
  g_signal_connect_swapped (self->model, "notify::selected", G_CALLBACK (row_selected_cb), self);
  gtk_list_view_set_model (self->view, GTK_SELECTION_MODEL (self->model));
}

GListModel *
rod_house_list_get_rows (RodHouseList *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_LIST (self), NULL);

  return G_LIST_MODEL (self->rows);
}

guint
rod_house_list_get_selected (RodHouseList *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_LIST (self), GTK_INVALID_LIST_POSITION);

  return self->model != NULL ? gtk_single_selection_get_selected (self->model)
                             : GTK_INVALID_LIST_POSITION;
}
