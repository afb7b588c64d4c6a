/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A figure, and the sum it comes from: terms under each other as on a builder's board, a line, and
 * the result, so that anyone can follow it with a pencil.
 */
#include "config.h"

#include "app/rod-figure-row.h"

#include <glib/gi18n.h>
#include <math.h>

#include "sheets/rod-figures.h"

static GtkWidget *
new_label (const char *text,
           float       xalign)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);

  return label;
}

static GtkWidget *
new_line (const char *name,
          const char *value)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *name_label = new_label (name, 0);
  GtkWidget *value_label = new_label (value, 1);

  gtk_widget_set_hexpand (name_label, TRUE);
  gtk_widget_set_valign (name_label, GTK_ALIGN_BASELINE);
  gtk_widget_set_valign (value_label, GTK_ALIGN_BASELINE);
  gtk_label_set_selectable (GTK_LABEL (value_label), FALSE);
  gtk_widget_add_css_class (value_label, "rod-figure");
  gtk_box_append (GTK_BOX (box), name_label);
  gtk_box_append (GTK_BOX (box), value_label);

  return box;
}

GtkWidget *
rod_figure_row_new (const char *name,
                    const char *value)
{
  GtkWidget *row;

  g_return_val_if_fail (name != NULL, NULL);
  g_return_val_if_fail (value != NULL, NULL);

  row = new_line (name, value);
  gtk_widget_add_css_class (row, "rod-figure-row");

  return row;
}

static char *
format (double      value,
        const char *unit,
        RodUnits    units,
        gboolean    with_unit)
{
  if (g_strcmp0 (unit, "mm") != 0)
    return rod_figures_count ((gint64) llround (value));

  return with_unit ? rod_figures_length_unit (units, value) : rod_figures_length (units, value);
}

/* A proper minus sign, and a plus where it is not the first. */
static char *
format_term (double      value,
             const char *unit,
             RodUnits    units,
             gboolean    first)
{
  g_autofree char *figure = format (fabs (value), unit, units, FALSE);

  if (value < 0)
    return g_strdup_printf ("−%s", figure);

  return first ? g_steal_pointer (&figure) : g_strdup_printf ("+%s", figure);
}

static void
attach_term (GtkGrid       *grid,
             int            line,
             const RodTerm *term,
             const char    *figure)
{
  GtkWidget *value = new_label (figure, 1);
  GtkWidget *text = new_label (term->text, 0);

  gtk_widget_add_css_class (value, "rod-figure");
  gtk_widget_set_hexpand (text, TRUE);
  gtk_widget_set_valign (value, GTK_ALIGN_START);
  gtk_grid_attach (grid, value, 0, line, 1, 1);
  gtk_grid_attach (grid, text, 1, line, 1, 1);

  if (term->rule != NULL)
    {
      GtkWidget       *rule = new_label (term->rule, 1);
      g_autofree char *tip = g_strdup_printf (_ ("Rule %s of the trade rules"), term->rule);

      gtk_widget_add_css_class (rule, "rod-rule");
      gtk_widget_set_valign (rule, GTK_ALIGN_START);
      gtk_widget_set_tooltip_text (rule, tip);
      gtk_grid_attach (grid, rule, 2, line, 1, 1);
    }
}

static GtkWidget *
new_sum (const RodReckoning *reckoning,
         RodUnits            units)
{
  GtkGrid         *grid = GTK_GRID (gtk_grid_new ());
  g_autofree char *result = format (reckoning->result, reckoning->unit, units, TRUE);
  GtkWidget       *total = new_label (result, 1);
  int              line = 0;

  gtk_grid_set_column_spacing (grid, 10);
  gtk_grid_set_row_spacing (grid, 3);
  gtk_widget_add_css_class (GTK_WIDGET (grid), "rod-sum");

  for (guint i = 0; i < reckoning->terms->len; i++)
    {
      const RodTerm   *term = &g_array_index (reckoning->terms, RodTerm, i);
      g_autofree char *figure = format_term (term->value, reckoning->unit, units, i == 0);

      attach_term (grid, line++, term, figure);
    }

  gtk_grid_attach (grid, gtk_separator_new (GTK_ORIENTATION_HORIZONTAL), 0, line++, 1, 1);
  gtk_widget_add_css_class (total, "rod-figure");
  gtk_widget_add_css_class (total, "rod-total");
  gtk_grid_attach (grid, total, 0, line, 1, 1);

  return GTK_WIDGET (grid);
}

static void
unref_closure (gpointer  data,
               GClosure *closure)
{
  g_object_unref (data);
}

/* An expander that is closed has no child: it would lead the Tab key into one that is in no window,
 * and the key would be lost. */
static void
expanded_cb (GtkExpander *row,
             GParamSpec  *pspec,
             GtkWidget   *sum)
{
  gtk_expander_set_child (row, gtk_expander_get_expanded (row) ? sum : NULL);
}

GtkWidget *
rod_figure_row_new_reckoned (const char         *name,
                             const RodReckoning *reckoning,
                             RodUnits            units)
{
  GtkWidget       *row;
  g_autofree char *value = NULL;
  g_autofree char *label = NULL;
  g_autofree char *words = NULL;

  g_return_val_if_fail (reckoning != NULL, NULL);

  if (name == NULL)
    name = reckoning->title;
  value = format (reckoning->result, reckoning->unit, units, TRUE);
  /* Translators: a figure: its name and its value. */
  label = g_strdup_printf (_ ("%s: %s"), name, value);
  words = rod_reckoning_text (reckoning);

  row = gtk_expander_new (NULL);
  gtk_expander_set_label_widget (GTK_EXPANDER (row), new_line (name, value));
  g_signal_connect_data (row,
                         "notify::expanded",
                         G_CALLBACK (expanded_cb),
                         g_object_ref_sink (new_sum (reckoning, units)),
                         unref_closure,
                         0);
  gtk_widget_add_css_class (row, "rod-figure-row");
  gtk_accessible_update_property (GTK_ACCESSIBLE (row),
                                  GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  label,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  words,
                                  -1);

  return row;
}
