/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-stage-bar.h"

struct _RodStageBar
{
  GtkWidget parent_instance;
  gboolean  compact;
};

enum
{
  PROP_0,
  PROP_COMPACT,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (RodStageBar, rod_stage_bar, GTK_TYPE_WIDGET)

static void
rod_stage_bar_get_property (GObject    *object,
                            guint       id,
                            GValue     *value,
                            GParamSpec *pspec)
{
  if (id == PROP_COMPACT)
    g_value_set_boolean (value, ROD_STAGE_BAR (object)->compact);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
rod_stage_bar_set_property (GObject      *object,
                            guint         id,
                            const GValue *value,
                            GParamSpec   *pspec)
{
  RodStageBar *self = ROD_STAGE_BAR (object);

  if (id != PROP_COMPACT)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
  else if (self->compact != g_value_get_boolean (value))
    {
      self->compact = g_value_get_boolean (value);
      g_object_notify_by_pspec (object, pspec);
    }
}

static void
rod_stage_bar_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);

  G_OBJECT_CLASS (rod_stage_bar_parent_class)->dispose (object);
}

static void
rod_stage_bar_class_init (RodStageBarClass *klass)
{
  GObjectClass   *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = rod_stage_bar_get_property;
  object_class->set_property = rod_stage_bar_set_property;
  object_class->dispose = rod_stage_bar_dispose;
  properties[PROP_COMPACT] = g_param_spec_boolean ("compact",
                                                   NULL,
                                                   NULL,
                                                   FALSE,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS |
                                                     G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, properties);

  gtk_widget_class_set_css_name (widget_class, "rodstages");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/storeyrod/Storeyrod/rod-stage-bar.ui");
}

static void
rod_stage_bar_init (RodStageBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
