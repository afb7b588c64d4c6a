/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-house-view.h"

#include "app/rod-stage-bar.h"
#include "app/rod-tally.h"

struct _RodHouseView
{
  GtkWidget parent_instance;

  /* Owned */
  RodDocument  *document;
  RodSelection *selection;
  RodPlan      *plan; /* shown last */
  RodStage      stage;

  /* Template widgets */
  RodPanes        *panes;
  RodHouseList    *house_list;
  GtkStack        *middle;
  RodCanvas       *canvas;
  RodOrderView    *order_view;
  RodSheetsView   *sheets_view;
  GtkStack        *side;
  GtkToggleButton *findings_button;
  RodDetails      *details;
  RodFindingsList *findings_list;
  RodTally        *tally;
};

G_DEFINE_FINAL_TYPE (RodHouseView, rod_house_view, GTK_TYPE_WIDGET)

static void
side_chosen_cb (RodHouseView *self)
{
  gboolean findings = gtk_toggle_button_get_active (self->findings_button);

  gtk_stack_set_visible_child_name (self->side, findings ? "findings" : "details");
}

static void
highlight_cb (RodHouseView *self,
              GArray       *pieces)
{
  rod_canvas_set_highlight (self->canvas, self->stage == ROD_STAGE_ORDER ? pieces : NULL);
}

/* Whether one was shown. */
static gboolean
hide_panes (RodHouseView *self)
{
  gboolean shown = rod_panes_get_show_start (self->panes) || rod_panes_get_show_end (self->panes);

  rod_panes_set_show_start (self->panes, FALSE);
  rod_panes_set_show_end (self->panes, FALSE);

  return shown;
}

/* Escape steps back: a pane that lies over the drawing goes first, then the selection. */
static gboolean
escape_cb (GtkWidget *widget,
           GVariant  *args,
           gpointer   user_data)
{
  RodHouseView *self = ROD_HOUSE_VIEW (widget);

  if (rod_panes_get_folded (self->panes) && hide_panes (self))
    return GDK_EVENT_STOP;
  if (rod_selection_get (self->selection).kind == ROD_PLACE_HOUSE)
    return GDK_EVENT_PROPAGATE;
  rod_selection_set (self->selection, rod_place_house (), FALSE);

  return GDK_EVENT_STOP;
}

/* The selection is set before the plan is handed to those who show it, so that none of them sees
 * a place of the house before. */
static void
show_plan (RodHouseView *self,
           RodPlan      *plan)
{
  g_clear_pointer (&self->plan, rod_plan_unref);
  self->plan = rod_plan_ref (plan);
  rod_canvas_set_plan (self->canvas, plan);
  rod_house_list_set_plan (self->house_list, plan);
  rod_selection_set (self->selection, rod_place_house (), TRUE);
}

static void
document_changed_cb (RodHouseView *self)
{
  RodPlan *plan = rod_document_get_plan (self->document);

  if (plan != NULL && plan != self->plan)
    show_plan (self, plan);
  rod_order_view_set_takeoff (self->order_view, rod_document_get_takeoff (self->document));
  rod_sheets_view_set_takeoff (self->sheets_view, rod_document_get_takeoff (self->document));
}

static void
rod_house_view_dispose (GObject *object)
{
  RodHouseView *self = ROD_HOUSE_VIEW (object);
  GtkWidget    *child;

  if (self->document != NULL)
    g_signal_handlers_disconnect_by_data (self->document, self);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->document);
  g_clear_object (&self->selection);
  g_clear_pointer (&self->plan, rod_plan_unref);

  G_OBJECT_CLASS (rod_house_view_parent_class)->dispose (object);
}

static void
ensure_types (void)
{
  g_type_ensure (ROD_TYPE_PANES);
  g_type_ensure (ROD_TYPE_STAGE_BAR);
  g_type_ensure (ROD_TYPE_HOUSE_LIST);
  g_type_ensure (ROD_TYPE_CANVAS);
  g_type_ensure (ROD_TYPE_ORDER_VIEW);
  g_type_ensure (ROD_TYPE_SHEETS_VIEW);
  g_type_ensure (ROD_TYPE_DETAILS);
  g_type_ensure (ROD_TYPE_FINDINGS_LIST);
  g_type_ensure (ROD_TYPE_TALLY);
}

static void
rod_house_view_class_init (RodHouseViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_house_view_dispose;
  ensure_types ();
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-house-view.ui");
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, panes);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, house_list);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, middle);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, canvas);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, order_view);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, sheets_view);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, side);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, findings_button);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, details);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, findings_list);
  gtk_widget_class_bind_template_child (widget_class, RodHouseView, tally);
  gtk_widget_class_bind_template_callback (widget_class, side_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, highlight_cb);
}

static void
rod_house_view_init (RodHouseView *self)
{
  self->stage = ROD_STAGE_SET_OUT;
  self->selection = rod_selection_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
rod_house_view_set_document (RodHouseView *self,
                             RodDocument  *document)
{
  g_return_if_fail (ROD_IS_HOUSE_VIEW (self));
  g_return_if_fail (ROD_IS_DOCUMENT (document));
  g_return_if_fail (self->document == NULL);

  self->document = g_object_ref (document);
  /* First of all who listen, so that the selection fits the plan when the others look. */
  g_signal_connect_swapped (document, "changed", G_CALLBACK (document_changed_cb), self);
  rod_canvas_set_selection (self->canvas, self->selection);
  rod_canvas_set_findings (self->canvas, rod_document_get_findings (document));
  rod_house_list_set_selection (self->house_list, self->selection);
  rod_details_set_document (self->details, document, self->selection);
  rod_findings_list_set_model (self->findings_list,
                               rod_document_get_findings (document),
                               self->selection);
  rod_tally_set_document (self->tally, document);
}

RodSelection *
rod_house_view_get_selection (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), NULL);

  return self->selection;
}

RodStage
rod_house_view_get_stage (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), ROD_STAGE_SET_OUT);

  return self->stage;
}

void
rod_house_view_set_stage (RodHouseView *self,
                          RodStage      stage)
{
  g_return_if_fail (ROD_IS_HOUSE_VIEW (self));
  g_return_if_fail (stage < ROD_N_STAGES);

  self->stage = stage;
  rod_canvas_set_stage (self->canvas, stage);
  if (stage != ROD_STAGE_ORDER)
    rod_canvas_set_highlight (self->canvas, NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->order_view), stage == ROD_STAGE_ORDER);
  gtk_stack_set_visible_child_name (self->middle,
                                    stage == ROD_STAGE_SHEETS ? "sheets" : "drawing");
}

void
rod_house_view_show_findings (RodHouseView *self)
{
  g_return_if_fail (ROD_IS_HOUSE_VIEW (self));

  rod_panes_set_show_end (self->panes, TRUE);
  gtk_toggle_button_set_active (self->findings_button, TRUE);
}

void
rod_house_view_step_finding (RodHouseView *self,
                             int           by)
{
  g_return_if_fail (ROD_IS_HOUSE_VIEW (self));

  /* A finding is a place on the drawing: sheets cannot show it. */
  if (self->stage == ROD_STAGE_SHEETS)
    gtk_widget_activate_action (GTK_WIDGET (self), "win.stage", "s", "set-out");
  if (!rod_panes_get_folded (self->panes))
    rod_house_view_show_findings (self);
  else
    hide_panes (self);
  rod_findings_list_step (self->findings_list, by);
}

RodPanes *
rod_house_view_get_panes (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), NULL);

  return self->panes;
}

RodCanvas *
rod_house_view_get_canvas (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), NULL);

  return self->canvas;
}

RodHouseList *
rod_house_view_get_house_list (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), NULL);

  return self->house_list;
}

RodDetails *
rod_house_view_get_details (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), NULL);

  return self->details;
}

RodFindingsList *
rod_house_view_get_findings_list (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), NULL);

  return self->findings_list;
}

RodOrderView *
rod_house_view_get_order_view (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), NULL);

  return self->order_view;
}

RodSheetsView *
rod_house_view_get_sheets_view (RodHouseView *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_VIEW (self), NULL);

  return self->sheets_view;
}
