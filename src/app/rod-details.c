/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-details-private.h"

#include <glib/gi18n.h>

#include "app/rod-figure-row.h"
#include "sheets/rod-figures.h"

G_DEFINE_FINAL_TYPE (RodDetails, rod_details, GTK_TYPE_WIDGET)

static RodUnits
get_units (RodDetails *self)
{
  RodPlan *plan = rod_document_get_plan (self->document);

  return plan != NULL ? plan->house->units : ROD_UNITS_METRIC;
}

void
rod_details_set_heading (RodDetails *self,
                         const char *kind,
                         const char *title,
                         const char *subtitle)
{
  gtk_label_set_label (self->kind, kind);
  gtk_label_set_label (self->title, title);
  gtk_label_set_label (self->subtitle, subtitle);
  gtk_widget_set_visible (GTK_WIDGET (self->subtitle), subtitle[0] != '\0');
}

void
rod_details_add_section (RodDetails *self,
                         const char *title)
{
  GtkWidget *label = gtk_label_new (title);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "rod-section");
  gtk_box_append (self->figures, label);
}

void
rod_details_add_figure (RodDetails *self,
                        const char *name,
                        const char *value)
{
  if (value == NULL || value[0] == '\0')
    return;

  gtk_box_append (self->figures, rod_figure_row_new (name, value));
}

void
rod_details_add_length (RodDetails *self,
                        const char *name,
                        double      mm)
{
  g_autofree char *value = rod_figures_length_unit (get_units (self), mm);

  rod_details_add_figure (self, name, value);
}

void
rod_details_add_count (RodDetails *self,
                       const char *name,
                       gint64      count)
{
  g_autofree char *value = rod_figures_count (count);

  rod_details_add_figure (self, name, value);
}

void
rod_details_take_reckoning (RodDetails   *self,
                            const char   *name,
                            RodReckoning *reckoning)
{
  if (reckoning == NULL)
    return;

  gtk_box_append (self->figures,
                  rod_figure_row_new_reckoned (name, reckoning, get_units (self)));
  rod_reckoning_free (reckoning);
}

void
rod_details_add_link (RodDetails *self,
                      const char *label,
                      RodPlace    place)
{
  GtkWidget *button = gtk_button_new_with_label (label);
  GtkWidget *text = gtk_button_get_child (GTK_BUTTON (button));

  gtk_label_set_xalign (GTK_LABEL (text), 0);
  gtk_label_set_ellipsize (GTK_LABEL (text), PANGO_ELLIPSIZE_END);
  gtk_widget_set_tooltip_text (button, label);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_add_css_class (button, "rod-link");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.select");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button),
                                    "(uuu)",
                                    (guint32) place.kind,
                                    place.face,
                                    place.index);
  gtk_box_append (self->figures, button);
}

const char *
rod_details_condition (RodEdgeCondition condition)
{
  for (const RodChoice *choice = rod_edge_condition_choices; choice->nick != NULL; choice++)
    if (choice->value == (int) condition)
      return _ (choice->label);

  return "";
}

char *
rod_details_side (const RodEdge *edge,
                  RodUnits       units)
{
  g_autofree char *length = rod_figures_length (units,
                                                rod_point_distance (edge->raw.from, edge->raw.to));

  /* Translators: an edge: its condition, such as "Outside corner", and its length. */
  return g_strdup_printf (_ ("%s, %s long"), rod_details_condition (edge->condition), length);
}

static void
clear_figures (RodDetails *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->figures))) != NULL)
    gtk_box_remove (self->figures, child);
}

static void
update (RodDetails *self)
{
  RodPlan *plan = rod_document_get_plan (self->document);
  RodPlace place = rod_selection_get (self->selection);

  clear_figures (self);
  if (!rod_place_exists (place, plan))
    {
      rod_details_set_heading (self, "", "", "");
      return;
    }

  switch (place.kind)
    {
    case ROD_PLACE_FACE:
      rod_details_show_face (self, plan, place.face);
      break;

    case ROD_PLACE_OPENING:
      rod_details_show_opening (self, plan, place);
      break;

    case ROD_PLACE_PIECE:
      rod_details_show_piece (self, plan, place.index);
      break;

    case ROD_PLACE_HOUSE:
    default:
      rod_details_show_house (self, plan);
    }
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scroller), 0);
}

static void
selection_changed_cb (RodDetails *self)
{
  update (self);
}

static void
document_changed_cb (RodDetails *self)
{
  /* The order belongs to the house as a whole; all else is known from the plan on. */
  if (rod_document_get_state (self->document) == ROD_DOCUMENT_PLANNED ||
      rod_selection_get (self->selection).kind == ROD_PLACE_HOUSE)
    update (self);
}

static void
rod_details_dispose (GObject *object)
{
  RodDetails *self = ROD_DETAILS (object);
  GtkWidget  *child;

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  if (self->selection != NULL)
    g_signal_handlers_disconnect_by_data (self->selection, self);
  g_clear_object (&self->document);
  g_clear_object (&self->selection);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);

  G_OBJECT_CLASS (rod_details_parent_class)->dispose (object);
}

static void
rod_details_class_init (RodDetailsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_details_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-details.ui");
  gtk_widget_class_bind_template_child (widget_class, RodDetails, scroller);
  gtk_widget_class_bind_template_child (widget_class, RodDetails, kind);
  gtk_widget_class_bind_template_child (widget_class, RodDetails, title);
  gtk_widget_class_bind_template_child (widget_class, RodDetails, subtitle);
  gtk_widget_class_bind_template_child (widget_class, RodDetails, figures);
}

static void
rod_details_init (RodDetails *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
rod_details_set_document (RodDetails   *self,
                          RodDocument  *document,
                          RodSelection *selection)
{
  g_return_if_fail (ROD_IS_DETAILS (self));
  g_return_if_fail (ROD_IS_DOCUMENT (document));
  g_return_if_fail (ROD_IS_SELECTION (selection));
  g_return_if_fail (self->document == NULL);

  self->document = g_object_ref (document);
  self->selection = g_object_ref (selection);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (document_changed_cb), self);
  g_signal_connect_swapped (selection, "changed", G_CALLBACK (selection_changed_cb), self);
}

const char *
rod_details_get_title (RodDetails *self)
{
  g_return_val_if_fail (ROD_IS_DETAILS (self), NULL);

  return gtk_label_get_label (self->title);
}
