/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheets, one at a time, drawn by the same code that writes the PDF. Laying them out takes some
 * milliseconds and is put off until the view is seen.
 */
#include "config.h"

#include "app/rod-sheets-view.h"

#include <glib/gi18n.h>

#include "sheets/rod-sheets.h"

/* Free round the paper, pixels. */
#define DESK_MARGIN 18.0
#define SHADOW 3.0

struct _RodSheetsView
{
  GtkWidget parent_instance;

  /* Owned */
  RodTakeoff *takeoff;
  RodSheets  *sheets;

  /* Template widgets */
  GtkStack       *stack;
  GtkSpinner     *spinner;
  GtkButton      *previous;
  GtkButton      *next;
  GtkDropDown    *chooser;
  GtkDrawingArea *paper;
};

G_DEFINE_FINAL_TYPE (RodSheetsView, rod_sheets_view, GTK_TYPE_WIDGET)

static guint
get_page (RodSheetsView *self)
{
  guint page = gtk_drop_down_get_selected (self->chooser);

  return page != GTK_INVALID_LIST_POSITION ? page : 0;
}

static void
draw_cb (GtkDrawingArea *area,
         cairo_t        *cr,
         int             width,
         int             height,
         gpointer        user_data)
{
  RodSheetsView *self = user_data;
  double         paper_width;
  double         paper_height;
  double         scale;

  if (self->sheets == NULL || rod_sheets_n_pages (self->sheets) == 0)
    return;

  rod_sheets_page_size (self->sheets, &paper_width, &paper_height);
  scale = MIN ((width - 2 * DESK_MARGIN) / paper_width, (height - 2 * DESK_MARGIN) / paper_height);
  if (scale <= 0)
    return;

  cairo_translate (cr, (width - paper_width * scale) / 2, (height - paper_height * scale) / 2);
  cairo_rectangle (cr, SHADOW, SHADOW, paper_width * scale, paper_height * scale);
  cairo_set_source_rgba (cr, 0, 0, 0, 0.25);
  cairo_fill (cr);
  cairo_scale (cr, scale, scale);
  cairo_rectangle (cr, 0, 0, paper_width, paper_height);
  cairo_clip (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  rod_sheets_draw_page (self->sheets, get_page (self), cr);
}

static void
sheet_chosen_cb (RodSheetsView *self)
{
  guint            page = get_page (self);
  guint            n_pages = self->sheets != NULL ? rod_sheets_n_pages (self->sheets) : 0;
  g_autofree char *words = NULL;

  gtk_widget_set_sensitive (GTK_WIDGET (self->previous), page > 0);
  gtk_widget_set_sensitive (GTK_WIDGET (self->next), page + 1 < n_pages);
  gtk_widget_queue_draw (GTK_WIDGET (self->paper));
  if (n_pages == 0)
    return;

  words = g_strdup_printf (_ ("Sheet %u of %u: %s"),
                           page + 1,
                           n_pages,
                           rod_sheets_page_title (self->sheets, page));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->paper),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words,
                                  -1);
}

static void
previous_cb (RodSheetsView *self)
{
  if (get_page (self) > 0)
    gtk_drop_down_set_selected (self->chooser, get_page (self) - 1);
}

static void
next_cb (RodSheetsView *self)
{
  if (get_page (self) + 1 < rod_sheets_n_pages (self->sheets))
    gtk_drop_down_set_selected (self->chooser, get_page (self) + 1);
}

static void
lay_out (RodSheetsView *self)
{
  g_autoptr (GtkStringList) titles = NULL;

  if (self->sheets != NULL || self->takeoff == NULL)
    return;

  self->sheets = rod_sheets_new (self->takeoff, NULL);
  titles = gtk_string_list_new (NULL);
  for (guint i = 0; i < rod_sheets_n_pages (self->sheets); i++)
    gtk_string_list_take (titles,
                          g_strdup_printf ("%u  %s",
                                           i + 1,
                                           rod_sheets_page_title (self->sheets, i)));
  gtk_drop_down_set_model (self->chooser, G_LIST_MODEL (titles));
  gtk_stack_set_visible_child_name (self->stack, "sheets");
  sheet_chosen_cb (self);
}

static void
rod_sheets_view_map (GtkWidget *widget)
{
  lay_out (ROD_SHEETS_VIEW (widget));
  GTK_WIDGET_CLASS (rod_sheets_view_parent_class)->map (widget);
}

static void
rod_sheets_view_dispose (GObject *object)
{
  RodSheetsView *self = ROD_SHEETS_VIEW (object);
  GtkWidget     *child;

  if (self->paper != NULL)
    gtk_drawing_area_set_draw_func (self->paper, NULL, NULL, NULL);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&self->sheets, rod_sheets_free);
  g_clear_pointer (&self->takeoff, rod_takeoff_unref);

  G_OBJECT_CLASS (rod_sheets_view_parent_class)->dispose (object);
}

static void
rod_sheets_view_class_init (RodSheetsViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_sheets_view_dispose;
  widget_class->map = rod_sheets_view_map;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-sheets-view.ui");
  gtk_widget_class_bind_template_child (widget_class, RodSheetsView, stack);
  gtk_widget_class_bind_template_child (widget_class, RodSheetsView, spinner);
  gtk_widget_class_bind_template_child (widget_class, RodSheetsView, previous);
  gtk_widget_class_bind_template_child (widget_class, RodSheetsView, next);
  gtk_widget_class_bind_template_child (widget_class, RodSheetsView, chooser);
  gtk_widget_class_bind_template_child (widget_class, RodSheetsView, paper);
  gtk_widget_class_bind_template_callback (widget_class, previous_cb);
  gtk_widget_class_bind_template_callback (widget_class, next_cb);
  gtk_widget_class_bind_template_callback (widget_class, sheet_chosen_cb);
}

static void
rod_sheets_view_init (RodSheetsView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drawing_area_set_draw_func (self->paper, draw_cb, self, NULL);
}

void
rod_sheets_view_set_takeoff (RodSheetsView *self,
                             RodTakeoff    *takeoff)
{
  g_return_if_fail (ROD_IS_SHEETS_VIEW (self));

  if (takeoff == self->takeoff)
    return;

  g_clear_pointer (&self->sheets, rod_sheets_free);
  g_clear_pointer (&self->takeoff, rod_takeoff_unref);
  self->takeoff = takeoff != NULL ? rod_takeoff_ref (takeoff) : NULL;
  gtk_stack_set_visible_child_name (self->stack, "waiting");
  gtk_spinner_set_spinning (self->spinner, takeoff == NULL);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    lay_out (self);
}

guint
rod_sheets_view_get_n_pages (RodSheetsView *self)
{
  g_return_val_if_fail (ROD_IS_SHEETS_VIEW (self), 0);

  lay_out (self);

  return self->sheets != NULL ? rod_sheets_n_pages (self->sheets) : 0;
}
