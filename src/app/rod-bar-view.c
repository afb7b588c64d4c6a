/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bar to scale, so that long and short bars of one list compare at a glance: pieces in the colour
 * of the board with their marks, what is left over hatched.
 */
#include "config.h"

#include "app/rod-bar-view.h"

#include <glib/gi18n.h>

#include "app/rod-canvas-palette.h"
#include "sheets/rod-figures.h"
#include "sheets/rod-lettering.h"

#define BAR_HEIGHT 26
#define LETTER_HEIGHT 7.0
#define LETTER_CLEAR 5.0
#define HATCH 7.0

struct _RodBarView
{
  GtkWidget        parent_instance;
  RodTakeoffItem  *item;
  RodLettering    *lettering;
  RodCanvasPalette palette;
};

G_DEFINE_FINAL_TYPE (RodBarView, rod_bar_view, GTK_TYPE_WIDGET)

static gint64
stock_length (const RodCutting *cutting,
              guint             stock)
{
  return g_array_index (cutting->stock, RodCutStock, stock).length_mm;
}

static gint64
longest_stock (const RodCutting *cutting)
{
  gint64 longest = 1;

  for (guint i = 0; i < cutting->stock->len; i++)
    longest = MAX (longest, stock_length (cutting, i));

  return longest;
}

static RodInk
ink_of (RodBarView       *self,
        const RodCutting *cutting)
{
  if (cutting->colour != NULL)
    return rod_ink_parse (cutting->colour->rgb);

  return cutting->kind == ROD_ARTICLE_BATTEN ? self->palette.wood
                                             : rod_ink_mix (self->palette.surface,
                                                            self->palette.ink,
                                                            0.3);
}

static void
draw_item (RodBarView       *self,
           cairo_t          *cr,
           const RodCutItem *item,
           RodInk            ink,
           double            x,
           double            width)
{
  RodLetterStyle   style = { .height = LETTER_HEIGHT, .align = ROD_ALIGN_CENTRE };
  g_autofree char *length = g_strdup_printf ("%" G_GINT64_FORMAT, item->length_mm);
  const char      *label = item->label != NULL ? item->label : "";
  g_autofree char *full = g_strdup_printf ("%s  %s", label, length);
  const char      *text = full;

  cairo_rectangle (cr, x + 0.5, 0.5, MAX (width - 1, 1), BAR_HEIGHT - 1);
  rod_ink_use (ink, cr);
  cairo_fill_preserve (cr);
  rod_ink_use (rod_ink_mix (ink, rod_ink_on (ink), 0.5), cr);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);

  if (rod_lettering_width (self->lettering, text, LETTER_HEIGHT, FALSE) > width - LETTER_CLEAR)
    text = length;
  if (rod_lettering_width (self->lettering, text, LETTER_HEIGHT, FALSE) > width - LETTER_CLEAR)
    return;
  rod_ink_use (rod_ink_on (ink), cr);
  rod_lettering_write (self->lettering,
                       cr,
                       text,
                       &style,
                       x + width / 2,
                       (BAR_HEIGHT + LETTER_HEIGHT) / 2);
}

static void
draw_rest (RodBarView *self,
           cairo_t    *cr,
           double      from,
           double      to)
{
  if (to - from < 2)
    return;

  cairo_save (cr);
  cairo_rectangle (cr, from + 0.5, 0.5, to - from - 1, BAR_HEIGHT - 1);
  cairo_clip_preserve (cr);
  for (double x = from - BAR_HEIGHT; x < to; x += HATCH)
    {
      cairo_move_to (cr, x, BAR_HEIGHT);
      cairo_line_to (cr, x + BAR_HEIGHT, 0);
    }
  rod_ink_use (self->palette.faint, cr);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
rod_bar_view_snapshot (GtkWidget   *widget,
                       GtkSnapshot *snapshot)
{
  RodBarView       *self = ROD_BAR_VIEW (widget);
  int               width = gtk_widget_get_width (widget);
  graphene_rect_t   area = GRAPHENE_RECT_INIT (0, 0, (float) width, BAR_HEIGHT);
  const RodCutting *cutting;
  const RodSawBar  *bar;
  double            scale;
  double            x = 0;
  cairo_t          *cr;

  if (self->item == NULL)
    return;

  cutting = rod_takeoff_item_get_cutting (self->item);
  bar = rod_takeoff_item_get_bar (self->item);
  scale = width / (double) longest_stock (cutting);
  cr = gtk_snapshot_append_cairo (snapshot, &area);
  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *item = &g_array_index (cutting->items, RodCutItem, bar->items[i]);
      double            length = (double) item->length_mm * scale;

      draw_item (self, cr, item, ink_of (self, cutting), x, length);
      x += length + 1;
    }
  draw_rest (self, cr, x, (double) stock_length (cutting, bar->stock) * scale);
  cairo_destroy (cr);
}

static void
rod_bar_view_measure (GtkWidget     *widget,
                      GtkOrientation orientation,
                      int            for_size,
                      int           *minimum,
                      int           *natural,
                      int           *minimum_baseline,
                      int           *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 120 : BAR_HEIGHT;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 480 : BAR_HEIGHT;
}

static void
rod_bar_view_css_changed (GtkWidget         *widget,
                          GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (rod_bar_view_parent_class)->css_changed (widget, change);
  rod_canvas_palette_init (&ROD_BAR_VIEW (widget)->palette, widget);
}

static void
rod_bar_view_dispose (GObject *object)
{
  RodBarView *self = ROD_BAR_VIEW (object);

  g_clear_object (&self->item);
  g_clear_pointer (&self->lettering, rod_lettering_free);

  G_OBJECT_CLASS (rod_bar_view_parent_class)->dispose (object);
}

static void
rod_bar_view_class_init (RodBarViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = rod_bar_view_dispose;
  widget_class->snapshot = rod_bar_view_snapshot;
  widget_class->measure = rod_bar_view_measure;
  widget_class->css_changed = rod_bar_view_css_changed;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "rodbar");
}

static void
rod_bar_view_init (RodBarView *self)
{
  self->lettering = rod_lettering_new ();
}

GtkWidget *
rod_bar_view_new (void)
{
  return g_object_new (ROD_TYPE_BAR_VIEW, NULL);
}

static char *
describe (RodTakeoffItem *item)
{
  const RodCutting *cutting = rod_takeoff_item_get_cutting (item);
  const RodSawBar  *bar = rod_takeoff_item_get_bar (item);
  g_autoptr (GString) words = g_string_new (NULL);
  g_autofree char *rest = g_strdup_printf ("%" G_GINT64_FORMAT, bar->rest_mm);

  for (guint i = 0; i < bar->n_items; i++)
    {
      const RodCutItem *it = &g_array_index (cutting->items, RodCutItem, bar->items[i]);

      g_string_append_printf (words,
                              "%s%s %" G_GINT64_FORMAT,
                              i > 0 ? ", " : "",
                              it->label != NULL ? it->label : "",
                              it->length_mm);
    }
  /* Translators: the rest of a bar in mm, after a list of pieces. */
  g_string_append_printf (words, _ ("; %s left"), rest);

  return g_string_free (g_steal_pointer (&words), FALSE);
}

void
rod_bar_view_set_item (RodBarView     *self,
                       RodTakeoffItem *item)
{
  g_autofree char *words = NULL;

  g_return_if_fail (ROD_IS_BAR_VIEW (self));

  g_set_object (&self->item, item);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (item == NULL)
    return;

  words = describe (item);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  words,
                                  -1);
}
