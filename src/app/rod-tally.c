/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures that everyone asks for first. Pieces and findings are known from the plan; the others
 * follow when the take-off is made, and say so until then.
 */
#include "config.h"

#include "app/rod-tally.h"

#include <glib/gi18n.h>

#include "app/rod-finding-item.h"
#include "sheets/rod-figures.h"

struct _RodTally
{
  GtkWidget parent_instance;

  /* Owned */
  RodDocument *document;

  /* Template widgets */
  GtkLabel  *pieces;
  GtkLabel  *bars;
  GtkLabel  *waste;
  GtkLabel  *findings;
  GtkLabel  *cost;
  GtkImage  *worst;
  GtkButton *findings_button;
};

G_DEFINE_FINAL_TYPE (RodTally, rod_tally, GTK_TYPE_WIDGET)

static void
show_takeoff (RodTally         *self,
              const RodTakeoff *takeoff)
{
  gint64           bars = 0;
  gint64           used_mm = 0;
  gint64           bought_mm = 0;
  g_autofree char *bars_text = NULL;
  g_autofree char *waste_text = NULL;
  g_autofree char *cost_text = NULL;

  for (guint i = 0; i < takeoff->cuttings->len; i++)
    {
      const RodCutting *cutting = &g_array_index (takeoff->cuttings, RodCutting, i);

      if (cutting->kind != ROD_ARTICLE_BOARD)
        continue;
      bars += cutting->bars->len;
      used_mm += cutting->used_mm;
      bought_mm += cutting->bought_mm;
    }

  bars_text = rod_figures_count (bars);
  waste_text = rod_figures_percent (bought_mm > 0 ? 1 - (double) used_mm / (double) bought_mm : 0);
  cost_text = rod_figures_money (takeoff->plan->house->buying->currency, takeoff->total);
  gtk_label_set_label (self->bars, bars_text);
  gtk_label_set_label (self->waste, waste_text);
  gtk_label_set_label (self->cost, cost_text);
}

static void
show_waiting (RodTally   *self,
              const char *text)
{
  gtk_label_set_label (self->bars, text);
  gtk_label_set_label (self->waste, text);
  gtk_label_set_label (self->cost, text);
}

static void
show_findings (RodTally *self)
{
  GListModel      *model = rod_document_get_findings (self->document);
  guint            n_findings = g_list_model_get_n_items (model);
  g_autofree char *count = rod_figures_count (n_findings);
  g_autofree char *words = g_strdup_printf (ngettext ("%u finding", "%u findings", n_findings),
                                            n_findings);
  const char      *icon = "object-select-symbolic";

  gtk_widget_remove_css_class (GTK_WIDGET (self->worst), "rod-must");
  gtk_widget_remove_css_class (GTK_WIDGET (self->worst), "rod-should");
  if (n_findings > 0)
    {
      g_autoptr (RodFindingItem) first = g_list_model_get_item (model, 0);
      RodSeverity severity = rod_finding_item_get (first)->severity;

      icon = rod_severity_icon (severity);
      if (severity == ROD_SEVERITY_MUST)
        gtk_widget_add_css_class (GTK_WIDGET (self->worst), "rod-must");
      else if (severity == ROD_SEVERITY_SHOULD)
        gtk_widget_add_css_class (GTK_WIDGET (self->worst), "rod-should");
    }
  gtk_image_set_from_icon_name (self->worst, icon);
  gtk_label_set_label (self->findings, count);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->findings_button),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words,
                                  -1);
}

static void
update (RodTally *self)
{
  const RodPlan    *plan = rod_document_get_plan (self->document);
  const RodTakeoff *takeoff = rod_document_get_takeoff (self->document);
  g_autofree char  *pieces = NULL;

  if (plan == NULL)
    return;

  pieces = rod_figures_count (plan->pieces->len);
  gtk_label_set_label (self->pieces, pieces);
  show_findings (self);
  if (takeoff != NULL)
    show_takeoff (self, takeoff);
  else
    show_waiting (self, _ ("reckoning…"));
}

/* A flow box keeps the focus for itself where its first child cannot have it, and Tab would end
 * here. */
static gboolean
rod_tally_focus (GtkWidget       *widget,
                 GtkDirectionType direction)
{
  RodTally *self = ROD_TALLY (widget);

  if (gtk_widget_get_focus_child (widget) != NULL)
    return FALSE;

  return gtk_widget_grab_focus (GTK_WIDGET (self->findings_button));
}

static void
rod_tally_dispose (GObject *object)
{
  RodTally  *self = ROD_TALLY (object);
  GtkWidget *child;

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  g_clear_object (&self->document);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);

  G_OBJECT_CLASS (rod_tally_parent_class)->dispose (object);
}

static void
rod_tally_class_init (RodTallyClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_tally_dispose;
  widget_class->focus = rod_tally_focus;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-tally.ui");
  gtk_widget_class_bind_template_child (widget_class, RodTally, pieces);
  gtk_widget_class_bind_template_child (widget_class, RodTally, bars);
  gtk_widget_class_bind_template_child (widget_class, RodTally, waste);
  gtk_widget_class_bind_template_child (widget_class, RodTally, findings);
  gtk_widget_class_bind_template_child (widget_class, RodTally, cost);
  gtk_widget_class_bind_template_child (widget_class, RodTally, worst);
  gtk_widget_class_bind_template_child (widget_class, RodTally, findings_button);
}

static void
rod_tally_init (RodTally *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
rod_tally_set_document (RodTally    *self,
                        RodDocument *document)
{
  g_return_if_fail (ROD_IS_TALLY (self));
  g_return_if_fail (ROD_IS_DOCUMENT (document));
  g_return_if_fail (self->document == NULL);

  self->document = g_object_ref (document);
  g_signal_connect_swapped (document, "changed", G_CALLBACK (update), self);
  update (self);
}
