/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-order-view.h"

#include <glib/gi18n.h>

#include "app/rod-bar-view.h"
#include "app/rod-takeoff-item.h"
#include "sheets/rod-figures.h"

struct _RodOrderView
{
  GtkWidget parent_instance;

  /* Owned */
  RodTakeoff *takeoff;
  GListStore *line_list;
  GListStore *bar_list;

  /* Template widgets */
  GtkStack           *stack;
  GtkSpinner         *spinner;
  GtkColumnView      *lines;
  GtkListView        *bars;
  GtkSingleSelection *bar_selection;
  GtkToggleButton    *bars_button;
  GtkDropDown        *chooser;
  GtkLabel           *proof;
};

G_DEFINE_FINAL_TYPE (RodOrderView, rod_order_view, GTK_TYPE_WIDGET)

static guint highlight_signal;

/* Columns of the order list. */

typedef char *(*ColumnText) (const RodTakeoff   *takeoff,
                             const RodOrderLine *line);

static char *
article_text (const RodTakeoff   *takeoff,
              const RodOrderLine *line)
{
  return g_strdup (line->name);
}

static char *
colour_text (const RodTakeoff   *takeoff,
             const RodOrderLine *line)
{
  return g_strdup (line->colour != NULL ? line->colour->name : "");
}

static char *
length_text (const RodTakeoff   *takeoff,
             const RodOrderLine *line)
{
  return line->length_mm > 0
           ? rod_figures_length (takeoff->plan->house->units, line->length_mm)
           : g_strdup ("");
}

static char *
needed_text (const RodTakeoff   *takeoff,
             const RodOrderLine *line)
{
  return rod_figures_count (line->needed);
}

static char *
spare_text (const RodTakeoff   *takeoff,
            const RodOrderLine *line)
{
  return rod_figures_count (line->spare);
}

static char *
ordered_text (const RodTakeoff   *takeoff,
              const RodOrderLine *line)
{
  return rod_figures_count (line->ordered);
}

static char *
packs_text (const RodTakeoff   *takeoff,
            const RodOrderLine *line)
{
  /* Translators: packs × how many in a pack. */
  return line->pack > 1 ? g_strdup_printf (_ ("%d × %d"), line->packs, line->pack)
                        : g_strdup ("");
}

static char *
total_text (const RodTakeoff   *takeoff,
            const RodOrderLine *line)
{
  return rod_figures_amount (takeoff->plan->house->buying->currency, line->total);
}

static const struct
{
  const char *title;
  ColumnText  text;
  gboolean    number;
} columns[] = {
  { N_ ("Article"), article_text, FALSE },
  { N_ ("Colour"), colour_text, FALSE },
  { N_ ("Length"), length_text, TRUE },
  { N_ ("Needed"), needed_text, TRUE },
  { N_ ("Spare"), spare_text, TRUE },
  { N_ ("Order"), ordered_text, TRUE },
  { N_ ("Packs"), packs_text, TRUE },
  { N_ ("Cost"), total_text, TRUE },
};

static void
cell_setup_cb (GtkSignalListItemFactory *factory,
               GtkListItem              *item,
               gpointer                  user_data)
{
  guint      column = GPOINTER_TO_UINT (user_data);
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), columns[column].number ? 1 : 0);
  if (columns[column].number)
    gtk_widget_add_css_class (label, "rod-figure");
  /* The first column must stay readable; a narrow window scrolls to the others. */
  if (column == 0)
    {
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
      gtk_label_set_width_chars (GTK_LABEL (label), 20);
    }
  gtk_list_item_set_child (item, label);
}

static void
cell_bind_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *item,
              gpointer                  user_data)
{
  guint            column = GPOINTER_TO_UINT (user_data);
  RodTakeoffItem  *line = gtk_list_item_get_item (item);
  g_autofree char *text = columns[column].text (rod_takeoff_item_get_takeoff (line),
                                                rod_takeoff_item_get_line (line));
  GtkWidget       *label = gtk_list_item_get_child (item);

  gtk_label_set_label (GTK_LABEL (label), text);
  if (!columns[column].number)
    gtk_widget_set_tooltip_text (label, text);
}

static void
add_columns (RodOrderView *self)
{
  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    {
      GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
      g_autoptr (GtkColumnViewColumn) column = NULL;

      g_signal_connect (factory, "setup", G_CALLBACK (cell_setup_cb), GUINT_TO_POINTER (i));
      g_signal_connect (factory, "bind", G_CALLBACK (cell_bind_cb), GUINT_TO_POINTER (i));
      column = gtk_column_view_column_new (_ (columns[i].title), factory);
      gtk_column_view_column_set_expand (column, i == 0);
      gtk_column_view_column_set_resizable (column, TRUE);
      gtk_column_view_append_column (self->lines, column);
    }
}

/* Bars of a cutting list. */

static void
bar_setup_cb (GtkSignalListItemFactory *factory,
              GtkListItem              *item)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  GtkWidget *number = gtk_label_new (NULL);
  GtkWidget *bar = rod_bar_view_new ();

  gtk_label_set_width_chars (GTK_LABEL (number), 12);
  gtk_label_set_xalign (GTK_LABEL (number), 1);
  gtk_widget_add_css_class (number, "rod-figure");
  gtk_widget_set_hexpand (bar, TRUE);
  gtk_widget_add_css_class (row, "rod-bar-row");
  gtk_box_append (GTK_BOX (row), number);
  gtk_box_append (GTK_BOX (row), bar);
  gtk_list_item_set_child (item, row);
}

static void
bar_bind_cb (GtkSignalListItemFactory *factory,
             GtkListItem              *list_item)
{
  RodTakeoffItem   *item = gtk_list_item_get_item (list_item);
  const RodCutting *cutting = rod_takeoff_item_get_cutting (item);
  const RodSawBar  *bar = rod_takeoff_item_get_bar (item);
  RodUnits          units = rod_takeoff_item_get_takeoff (item)->plan->house->units;
  GtkWidget        *row = gtk_list_item_get_child (list_item);
  double            length_mm =
    (double) g_array_index (cutting->stock, RodCutStock, bar->stock).length_mm;
  g_autofree char *length = rod_figures_length (units, length_mm);
  g_autofree char *number = g_strdup_printf ("%u · %s",
                                             rod_takeoff_item_get_index (item) + 1,
                                             length);

  gtk_label_set_label (GTK_LABEL (gtk_widget_get_first_child (row)), number);
  rod_bar_view_set_item (ROD_BAR_VIEW (gtk_widget_get_last_child (row)), item);
}

static void
bar_unbind_cb (GtkSignalListItemFactory *factory,
               GtkListItem              *item)
{
  GtkWidget *row = gtk_list_item_get_child (item);

  rod_bar_view_set_item (ROD_BAR_VIEW (gtk_widget_get_last_child (row)), NULL);
}

static void
bar_selected_cb (RodOrderView *self)
{
  RodTakeoffItem *item = gtk_single_selection_get_selected_item (self->bar_selection);
  g_autoptr (GArray) pieces = NULL;

  if (item != NULL && gtk_toggle_button_get_active (self->bars_button))
    {
      const RodCutting *cutting = rod_takeoff_item_get_cutting (item);
      const RodSawBar  *bar = rod_takeoff_item_get_bar (item);

      pieces = g_array_new (FALSE, FALSE, sizeof (guint));
      for (guint i = 0; i < bar->n_items; i++)
        {
          int   piece = g_array_index (cutting->items, RodCutItem, bar->items[i]).piece;
          guint index = (guint) piece;

          if (piece >= 0)
            g_array_append_val (pieces, index);
        }
    }
  g_signal_emit (self, highlight_signal, 0, pieces);
}

static void
show_proof (RodOrderView     *self,
            const RodCutting *cutting)
{
  RodUnits         units = self->takeoff->plan->house->units;
  guint            n_bars = cutting->bars->len;
  g_autofree char *used = rod_figures_run (units, (double) cutting->used_mm);
  g_autofree char *bought = rod_figures_run (units, (double) cutting->bought_mm);
  g_autofree char *bars = g_strdup_printf (ngettext ("%u bar: %s used of %s.",
                                                     "%u bars: %s used of %s.",
                                                     n_bars),
                                           n_bars,
                                           used,
                                           bought);
  g_autofree char *words =
    g_strconcat (bars,
                 " ",
                 cutting->proven ? _ ("Proven: no cutting plan can do with less.")
                                 : _ ("No better plan was found; whether there is one is not "
                                      "proven."),
                 NULL);

  gtk_label_set_label (self->proof, words);
}

static void
cutting_chosen_cb (RodOrderView *self)
{
  guint             chosen = gtk_drop_down_get_selected (self->chooser);
  const RodCutting *cutting;

  g_list_store_remove_all (self->bar_list);
  if (self->takeoff == NULL || chosen >= self->takeoff->cuttings->len)
    return;

  cutting = &g_array_index (self->takeoff->cuttings, RodCutting, chosen);
  show_proof (self, cutting);
  for (guint i = 0; i < cutting->bars->len; i++)
    {
      g_autoptr (RodTakeoffItem) item = rod_takeoff_item_new_bar (self->takeoff, chosen, i);

      g_list_store_append (self->bar_list, item);
    }
}

static void
list_chosen_cb (RodOrderView *self)
{
  if (self->takeoff == NULL)
    gtk_stack_set_visible_child_name (self->stack, "waiting");
  else if (gtk_toggle_button_get_active (self->bars_button))
    gtk_stack_set_visible_child_name (self->stack, "bars");
  else
    gtk_stack_set_visible_child_name (self->stack, "lines");
  bar_selected_cb (self);
}

static void
rod_order_view_dispose (GObject *object)
{
  RodOrderView *self = ROD_ORDER_VIEW (object);
  GtkWidget    *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&self->line_list);
  g_clear_object (&self->bar_list);
  g_clear_pointer (&self->takeoff, rod_takeoff_unref);

  G_OBJECT_CLASS (rod_order_view_parent_class)->dispose (object);
}

static void
rod_order_view_class_init (RodOrderViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_order_view_dispose;
  highlight_signal = g_signal_new ("highlight",
                                   ROD_TYPE_ORDER_VIEW,
                                   G_SIGNAL_RUN_LAST,
                                   0,
                                   NULL,
                                   NULL,
                                   NULL,
                                   G_TYPE_NONE,
                                   1,
                                   G_TYPE_ARRAY);

  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-order-view.ui");
  gtk_widget_class_bind_template_child (widget_class, RodOrderView, stack);
  gtk_widget_class_bind_template_child (widget_class, RodOrderView, spinner);
  gtk_widget_class_bind_template_child (widget_class, RodOrderView, lines);
  gtk_widget_class_bind_template_child (widget_class, RodOrderView, bars);
  gtk_widget_class_bind_template_child (widget_class, RodOrderView, bar_selection);
  gtk_widget_class_bind_template_child (widget_class, RodOrderView, bars_button);
  gtk_widget_class_bind_template_child (widget_class, RodOrderView, chooser);
  gtk_widget_class_bind_template_child (widget_class, RodOrderView, proof);
  gtk_widget_class_bind_template_callback (widget_class, bar_setup_cb);
  gtk_widget_class_bind_template_callback (widget_class, bar_bind_cb);
  gtk_widget_class_bind_template_callback (widget_class, bar_unbind_cb);
  gtk_widget_class_bind_template_callback (widget_class, bar_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, cutting_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, list_chosen_cb);
}

static void
rod_order_view_init (RodOrderView *self)
{
  GtkNoSelection *selection;

  self->line_list = g_list_store_new (ROD_TYPE_TAKEOFF_ITEM);
  self->bar_list = g_list_store_new (ROD_TYPE_TAKEOFF_ITEM);
  gtk_widget_init_template (GTK_WIDGET (self));

  selection = gtk_no_selection_new (g_object_ref (G_LIST_MODEL (self->line_list)));
  gtk_column_view_set_model (self->lines, GTK_SELECTION_MODEL (selection));
  g_object_unref (selection);
  gtk_single_selection_set_model (self->bar_selection, G_LIST_MODEL (self->bar_list));
  add_columns (self);
}

/* The currency is the same in all rows. */
static void
name_cost (RodOrderView *self)
{
  GListModel      *model = gtk_column_view_get_columns (self->lines);
  guint            last = g_list_model_get_n_items (model) - 1;
  g_autofree char *title = NULL;
  g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (model, last);

  /* Translators: title of a column of amounts; in brackets the currency. */
  title = g_strdup_printf (_ ("Cost (%s)"), self->takeoff->plan->house->buying->currency);
  gtk_column_view_column_set_title (column, title);
}

static void
list_cuttings (RodOrderView *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  for (guint i = 0; self->takeoff != NULL && i < self->takeoff->cuttings->len; i++)
    {
      const RodCutting *cutting = &g_array_index (self->takeoff->cuttings, RodCutting, i);

      if (cutting->colour != NULL)
        gtk_string_list_take (names,
                              g_strdup_printf ("%s, %s", cutting->name, cutting->colour->name));
      else
        gtk_string_list_append (names, cutting->name);
    }
  gtk_drop_down_set_model (self->chooser, G_LIST_MODEL (names));
}

void
rod_order_view_set_takeoff (RodOrderView *self,
                            RodTakeoff   *takeoff)
{
  g_return_if_fail (ROD_IS_ORDER_VIEW (self));

  if (takeoff == self->takeoff)
    return;

  g_list_store_remove_all (self->line_list);
  g_list_store_remove_all (self->bar_list);
  g_clear_pointer (&self->takeoff, rod_takeoff_unref);
  self->takeoff = takeoff != NULL ? rod_takeoff_ref (takeoff) : NULL;
  for (guint i = 0; takeoff != NULL && i < takeoff->lines->len; i++)
    {
      g_autoptr (RodTakeoffItem) item = rod_takeoff_item_new_line (takeoff, i);

      g_list_store_append (self->line_list, item);
    }
  if (takeoff != NULL)
    name_cost (self);
  list_cuttings (self);
  cutting_chosen_cb (self);
  gtk_spinner_set_spinning (self->spinner, takeoff == NULL);
  list_chosen_cb (self);
}

GListModel *
rod_order_view_get_lines (RodOrderView *self)
{
  g_return_val_if_fail (ROD_IS_ORDER_VIEW (self), NULL);

  return G_LIST_MODEL (self->line_list);
}

GListModel *
rod_order_view_get_bars (RodOrderView *self)
{
  g_return_val_if_fail (ROD_IS_ORDER_VIEW (self), NULL);

  return G_LIST_MODEL (self->bar_list);
}

void
rod_order_view_select_bar (RodOrderView *self,
                           guint         position)
{
  g_return_if_fail (ROD_IS_ORDER_VIEW (self));

  gtk_toggle_button_set_active (self->bars_button, TRUE);
  gtk_single_selection_set_selected (self->bar_selection, position);
}
