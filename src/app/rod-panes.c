/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A middle with two panes that give way in a narrow window.
 *
 * Which panes are shown is kept twice, once for the wide and once for the narrow window, so that a
 * window pulled narrow and wide again shows what it showed before.
 */
#include "config.h"

#include "app/rod-panes.h"

/* Room that the middle must keep beside both panes. */
#define MIDDLE_LEAST 380

/* Width of a pane, unless its contents cannot be narrower. */
#define START_WIDTH 256
#define END_WIDTH 336

/* What stays of the middle beside a pane that lies over it. */
#define OVERLAY_REST 44

typedef struct
{
  gboolean start;
  gboolean end;
} Shown;

struct _RodPanes
{
  GtkWidget parent_instance;

  /* Children */
  GtkWidget *start;
  GtkWidget *middle;
  GtkWidget *end;

  Shown    wide;
  Shown    narrow;
  gboolean folded;
  guint    notify_id;
};

enum
{
  PROP_0,
  PROP_START,
  PROP_MIDDLE,
  PROP_END,
  PROP_SHOW_START,
  PROP_SHOW_END,
  PROP_FOLDED,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (RodPanes, rod_panes, GTK_TYPE_WIDGET)

static Shown *
get_shown (RodPanes *self)
{
  return self->folded ? &self->narrow : &self->wide;
}

static int
get_width (GtkWidget *child,
           int        usual)
{
  int least = 0;

  if (child == NULL)
    return 0;
  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);

  return MAX (least, usual);
}

static void
rod_panes_measure (GtkWidget     *widget,
                   GtkOrientation orientation,
                   int            for_size,
                   int           *minimum,
                   int           *natural,
                   int           *minimum_baseline,
                   int           *natural_baseline)
{
  RodPanes  *self = ROD_PANES (widget);
  GtkWidget *children[] = { self->start, self->middle, self->end };

  *minimum = 0;
  *natural = 0;
  for (guint i = 0; i < G_N_ELEMENTS (children); i++)
    {
      int least = 0;
      int usual = 0;

      if (children[i] == NULL)
        continue;
      gtk_widget_measure (children[i], orientation, -1, &least, &usual, NULL, NULL);
      *minimum = MAX (*minimum, least);
      *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? *natural + usual
                                                           : MAX (*natural, usual);
    }
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = MAX (*minimum, 280);
  *natural = MAX (*natural, *minimum);
}

static void
notify_folded_cb (gpointer user_data)
{
  RodPanes *self = user_data;

  self->notify_id = 0;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_FOLDED]);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SHOW_START]);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SHOW_END]);
}

/* Others may change widgets when told, which is not allowed while sizes are handed out. */
static void
fold (RodPanes *self,
      gboolean  folded)
{
  if (self->folded == folded)
    return;

  self->folded = folded;
  self->narrow = (Shown){ FALSE, FALSE };
  if (self->notify_id == 0)
    self->notify_id = g_idle_add_once (notify_folded_cb, self);
}

static void
place_child (RodPanes  *self,
             GtkWidget *child,
             gboolean   shown,
             int        x,
             int        width,
             int        height)
{
  gboolean      mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  int           all = gtk_widget_get_width (GTK_WIDGET (self));
  GskTransform *transform;

  if (child == NULL)
    return;

  gtk_widget_set_child_visible (child, shown);
  if (!shown)
    return;

  transform = gsk_transform_translate (NULL,
                                       &GRAPHENE_POINT_INIT (mirrored ? all - x - width : x, 0));
  gtk_widget_allocate (child, width, height, -1, transform);
}

static void
rod_panes_size_allocate (GtkWidget *widget,
                         int        width,
                         int        height,
                         int        baseline)
{
  RodPanes *self = ROD_PANES (widget);
  int       start = get_width (self->start, START_WIDTH);
  int       end = get_width (self->end, END_WIDTH);
  Shown     shown;

  fold (self, width < start + MIDDLE_LEAST + end);
  shown = *get_shown (self);

  if (self->folded)
    {
      int start_over = MAX (MIN (start, width - OVERLAY_REST), get_width (self->start, 0));
      int end_over = MAX (MIN (end, width - OVERLAY_REST), get_width (self->end, 0));

      place_child (self, self->middle, TRUE, 0, width, height);
      place_child (self, self->start, shown.start, 0, start_over, height);
      place_child (self, self->end, shown.end, width - end_over, end_over, height);
    }
  else
    {
      int left = shown.start ? start : 0;
      int right = shown.end ? end : 0;

      place_child (self, self->middle, TRUE, left, width - left - right, height);
      place_child (self, self->start, shown.start, 0, start, height);
      place_child (self, self->end, shown.end, width - end, end, height);
    }
}

static void
rod_panes_snapshot (GtkWidget   *widget,
                    GtkSnapshot *snapshot)
{
  RodPanes  *self = ROD_PANES (widget);
  GtkWidget *children[] = { self->middle, self->start, self->end };

  for (guint i = 0; i < G_N_ELEMENTS (children); i++)
    if (children[i] != NULL)
      gtk_widget_snapshot_child (widget, children[i], snapshot);
}

static void
set_child (RodPanes   *self,
           GtkWidget **place,
           GtkWidget  *child)
{
  g_clear_pointer (place, gtk_widget_unparent);
  if (child == NULL)
    return;

  *place = child;
  gtk_widget_set_parent (child, GTK_WIDGET (self));
}

static void
rod_panes_get_property (GObject    *object,
                        guint       id,
                        GValue     *value,
                        GParamSpec *pspec)
{
  RodPanes *self = ROD_PANES (object);

  switch (id)
    {
    case PROP_START:
      g_value_set_object (value, self->start);
      break;

    case PROP_MIDDLE:
      g_value_set_object (value, self->middle);
      break;

    case PROP_END:
      g_value_set_object (value, self->end);
      break;

    case PROP_SHOW_START:
      g_value_set_boolean (value, rod_panes_get_show_start (self));
      break;

    case PROP_SHOW_END:
      g_value_set_boolean (value, rod_panes_get_show_end (self));
      break;

    case PROP_FOLDED:
      g_value_set_boolean (value, self->folded);
      break;

    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
rod_panes_set_property (GObject      *object,
                        guint         id,
                        const GValue *value,
                        GParamSpec   *pspec)
{
  RodPanes *self = ROD_PANES (object);

  switch (id)
    {
    case PROP_START:
      set_child (self, &self->start, g_value_get_object (value));
      break;

    case PROP_MIDDLE:
      set_child (self, &self->middle, g_value_get_object (value));
      break;

    case PROP_END:
      set_child (self, &self->end, g_value_get_object (value));
      break;

    case PROP_SHOW_START:
      rod_panes_set_show_start (self, g_value_get_boolean (value));
      break;

    case PROP_SHOW_END:
      rod_panes_set_show_end (self, g_value_get_boolean (value));
      break;

    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
rod_panes_dispose (GObject *object)
{
  RodPanes *self = ROD_PANES (object);

  g_clear_handle_id (&self->notify_id, g_source_remove);
  g_clear_pointer (&self->start, gtk_widget_unparent);
  g_clear_pointer (&self->middle, gtk_widget_unparent);
  g_clear_pointer (&self->end, gtk_widget_unparent);

  G_OBJECT_CLASS (rod_panes_parent_class)->dispose (object);
}

static void
rod_panes_class_init (RodPanesClass *klass)
{
  GObjectClass   *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags     flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY;

  object_class->get_property = rod_panes_get_property;
  object_class->set_property = rod_panes_set_property;
  object_class->dispose = rod_panes_dispose;
  widget_class->measure = rod_panes_measure;
  widget_class->size_allocate = rod_panes_size_allocate;
  widget_class->snapshot = rod_panes_snapshot;
  gtk_widget_class_set_css_name (widget_class, "rodpanes");

  properties[PROP_START] = g_param_spec_object ("start", NULL, NULL, GTK_TYPE_WIDGET, flags);
  properties[PROP_MIDDLE] = g_param_spec_object ("middle", NULL, NULL, GTK_TYPE_WIDGET, flags);
  properties[PROP_END] = g_param_spec_object ("end", NULL, NULL, GTK_TYPE_WIDGET, flags);
  properties[PROP_SHOW_START] = g_param_spec_boolean ("show-start", NULL, NULL, TRUE, flags);
  properties[PROP_SHOW_END] = g_param_spec_boolean ("show-end", NULL, NULL, TRUE, flags);
  properties[PROP_FOLDED] = g_param_spec_boolean ("folded",
                                                  NULL,
                                                  NULL,
                                                  FALSE,
                                                  G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
rod_panes_init (RodPanes *self)
{
  self->wide = (Shown){ TRUE, TRUE };
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}

gboolean
rod_panes_get_folded (RodPanes *self)
{
  g_return_val_if_fail (ROD_IS_PANES (self), FALSE);

  return self->folded;
}

gboolean
rod_panes_get_show_start (RodPanes *self)
{
  g_return_val_if_fail (ROD_IS_PANES (self), FALSE);

  return get_shown (self)->start;
}

gboolean
rod_panes_get_show_end (RodPanes *self)
{
  g_return_val_if_fail (ROD_IS_PANES (self), FALSE);

  return get_shown (self)->end;
}

static void
show_pane (RodPanes *self,
           gboolean *pane,
           gboolean  show,
           gboolean *other)
{
  if (*pane == show)
    return;

  *pane = show;
  if (self->folded && show)
    *other = FALSE;
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SHOW_START]);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SHOW_END]);
}

void
rod_panes_set_show_start (RodPanes *self,
                          gboolean  show)
{
  Shown *shown;

  g_return_if_fail (ROD_IS_PANES (self));

  shown = get_shown (self);
  show_pane (self, &shown->start, show, &shown->end);
}

void
rod_panes_set_show_end (RodPanes *self,
                        gboolean  show)
{
  Shown *shown;

  g_return_if_fail (ROD_IS_PANES (self));

  shown = get_shown (self);
  show_pane (self, &shown->end, show, &shown->start);
}
