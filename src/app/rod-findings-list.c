/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings, worst first: what is wrong, what to do, and which rule says so. Choosing one leads to
 * its place on the drawing.
 */
#include "config.h"

#include "app/rod-findings-list.h"

#include <glib/gi18n.h>

#include "app/rod-finding-item.h"

struct _RodFindingsList
{
  GtkWidget parent_instance;

  /* Owned */
  GListModel   *findings;
  RodSelection *selection;

  /* Template widgets */
  GtkStack           *stack;
  GtkListView        *view;
  GtkSingleSelection *model;
};

G_DEFINE_FINAL_TYPE (RodFindingsList, rod_findings_list, GTK_TYPE_WIDGET)

static GtkWidget *
new_text (const char *css_class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, css_class);

  return label;
}

/* Icon, then a column of severity with rule, text, remedy. */
static void
row_setup_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *item)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *icon = gtk_image_new ();
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  gtk_widget_set_valign (icon, GTK_ALIGN_START);
  gtk_widget_add_css_class (row, "rod-finding");
  gtk_widget_set_hexpand (column, TRUE);
  gtk_box_append (GTK_BOX (row), icon);
  gtk_box_append (GTK_BOX (row), column);
  gtk_box_append (GTK_BOX (column), new_text ("rod-kind"));
  gtk_box_append (GTK_BOX (column), new_text ("rod-finding-text"));
  gtk_box_append (GTK_BOX (column), new_text ("dim-label"));
  gtk_list_item_set_child (item, row);
}

static const char *const severity_classes[] = {
  [ROD_SEVERITY_NOTE] = "rod-note",
  [ROD_SEVERITY_SHOULD] = "rod-should",
  [ROD_SEVERITY_MUST] = "rod-must",
};

static void
show_severity (GtkWidget  *row,
               GtkWidget  *icon,
               RodSeverity severity)
{
  for (guint i = 0; i < G_N_ELEMENTS (severity_classes); i++)
    gtk_widget_remove_css_class (row, severity_classes[i]);
  gtk_widget_add_css_class (row, severity_classes[severity]);
  gtk_image_set_from_icon_name (GTK_IMAGE (icon), rod_severity_icon (severity));
}

static void
name_row (GtkWidget        *row,
          const char       *severity,
          const RodFinding *finding)
{
  g_autofree char *words = NULL;

  if (row == NULL)
    return;

  words = g_strdup_printf ("%s. %s %s",
                           severity,
                           finding->text != NULL ? finding->text : "",
                           finding->remedy != NULL ? finding->remedy : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}

static void
row_bind_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *item)
{
  const RodFinding *finding = rod_finding_item_get (gtk_list_item_get_item (item));
  GtkWidget        *row = gtk_list_item_get_child (item);
  GtkWidget        *icon = gtk_widget_get_first_child (row);
  GtkWidget        *kind = gtk_widget_get_first_child (gtk_widget_get_last_child (row));
  GtkWidget        *text = gtk_widget_get_next_sibling (kind);
  GtkWidget        *remedy = gtk_widget_get_next_sibling (text);
  g_autofree char  *severity = NULL;

  show_severity (row, icon, finding->severity);
  if (finding->rule != NULL)
    /* Translators: severity of a finding and the rule it follows. */
    severity = g_strdup_printf (_ ("%s · rule %s"),
                                rod_severity_label (finding->severity),
                                finding->rule);
  else
    severity = g_strdup (rod_severity_label (finding->severity));

  gtk_label_set_label (GTK_LABEL (kind), severity);
  gtk_label_set_label (GTK_LABEL (text), finding->text != NULL ? finding->text : "");
  gtk_label_set_label (GTK_LABEL (remedy), finding->remedy != NULL ? finding->remedy : "");
  gtk_widget_set_visible (remedy, finding->remedy != NULL && finding->remedy[0] != '\0');
  name_row (gtk_widget_get_parent (row), severity, finding);
}

static void
lead_to (RodFindingsList *self,
         guint            position)
{
  g_autoptr (RodFindingItem) item = NULL;

  if (self->findings == NULL || position >= g_list_model_get_n_items (self->findings))
    return;

  item = g_list_model_get_item (self->findings, position);
  rod_selection_set (self->selection,
                     rod_place_of_finding (rod_finding_item_get_plan (item),
                                           rod_finding_item_get (item)),
                     TRUE);
}

static void
finding_selected_cb (RodFindingsList *self)
{
  lead_to (self, gtk_single_selection_get_selected (self->model));
}

static void
finding_activated_cb (GtkListView     *view,
                      guint            position,
                      RodFindingsList *self)
{
  lead_to (self, position);
}

static void
update_stack (RodFindingsList *self)
{
  gboolean some = g_list_model_get_n_items (self->findings) > 0;

  gtk_stack_set_visible_child_name (self->stack, some ? "some" : "none");
}

static void
rod_findings_list_dispose (GObject *object)
{
  RodFindingsList *self = ROD_FINDINGS_LIST (object);
  GtkWidget       *child;

  if (self->findings != NULL)
    g_signal_handlers_disconnect_by_data (self->findings, self);
  g_clear_object (&self->findings);
  g_clear_object (&self->selection);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);

  G_OBJECT_CLASS (rod_findings_list_parent_class)->dispose (object);
}

static void
rod_findings_list_class_init (RodFindingsListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_findings_list_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-findings-list.ui");
  gtk_widget_class_bind_template_child (widget_class, RodFindingsList, stack);
  gtk_widget_class_bind_template_child (widget_class, RodFindingsList, view);
  gtk_widget_class_bind_template_child (widget_class, RodFindingsList, model);
  gtk_widget_class_bind_template_callback (widget_class, row_setup_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_bind_cb);
  gtk_widget_class_bind_template_callback (widget_class, finding_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, finding_activated_cb);
}

static void
rod_findings_list_init (RodFindingsList *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
rod_findings_list_set_model (RodFindingsList *self,
                             GListModel      *findings,
                             RodSelection    *selection)
{
  g_return_if_fail (ROD_IS_FINDINGS_LIST (self));
  g_return_if_fail (G_IS_LIST_MODEL (findings));
  g_return_if_fail (ROD_IS_SELECTION (selection));
  g_return_if_fail (self->findings == NULL);

  self->findings = g_object_ref (findings);
  self->selection = g_object_ref (selection);
  g_signal_connect_swapped (findings, "items-changed", G_CALLBACK (update_stack), self);
  gtk_single_selection_set_model (self->model, findings);
  update_stack (self);
}

void
rod_findings_list_step (RodFindingsList *self,
                        int              by)
{
  guint n_findings;
  guint position;

  g_return_if_fail (ROD_IS_FINDINGS_LIST (self));
  g_return_if_fail (by == 1 || by == -1);

  n_findings = g_list_model_get_n_items (self->findings);
  if (n_findings == 0)
    return;

  position = gtk_single_selection_get_selected (self->model);
  if (position == GTK_INVALID_LIST_POSITION)
    position = by > 0 ? 0 : n_findings - 1;
  else
    position = (position + n_findings + (guint) by) % n_findings;
  /* Where there is only one, the user wants to see it again. */
  if (position == gtk_single_selection_get_selected (self->model))
    lead_to (self, position);
  gtk_single_selection_set_selected (self->model, position);
  gtk_widget_activate_action (GTK_WIDGET (self->view), "list.scroll-to-item", "u", position);
}

const char *
rod_findings_list_get_text (RodFindingsList *self)
{
  RodFindingItem *item;

  g_return_val_if_fail (ROD_IS_FINDINGS_LIST (self), NULL);

  item = gtk_single_selection_get_selected_item (self->model);

  return item != NULL ? rod_finding_item_get (item)->text : NULL;
}

guint
rod_findings_list_get_selected (RodFindingsList *self)
{
  g_return_val_if_fail (ROD_IS_FINDINGS_LIST (self), GTK_INVALID_LIST_POSITION);

  return gtk_single_selection_get_selected (self->model);
}
