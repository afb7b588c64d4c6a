/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-selection.h"

struct _RodSelection
{
  GObject  parent_instance;
  RodPlace place;
};

G_DEFINE_FINAL_TYPE (RodSelection, rod_selection, G_TYPE_OBJECT)

static guint changed_signal;

static void
rod_selection_class_init (RodSelectionClass *klass)
{
  changed_signal = g_signal_new ("changed",
                                 ROD_TYPE_SELECTION,
                                 G_SIGNAL_RUN_LAST,
                                 0,
                                 NULL,
                                 NULL,
                                 NULL,
                                 G_TYPE_NONE,
                                 1,
                                 G_TYPE_BOOLEAN);
}

static void
rod_selection_init (RodSelection *self)
{
  self->place = rod_place_house ();
}

RodSelection *
rod_selection_new (void)
{
  return g_object_new (ROD_TYPE_SELECTION, NULL);
}

RodPlace
rod_selection_get (RodSelection *self)
{
  g_return_val_if_fail (ROD_IS_SELECTION (self), rod_place_house ());

  return self->place;
}

void
rod_selection_set (RodSelection *self,
                   RodPlace      place,
                   gboolean      reveal)
{
  g_return_if_fail (ROD_IS_SELECTION (self));

  if (!reveal && rod_place_equal (self->place, place))
    return;

  self->place = place;
  g_signal_emit (self, changed_signal, 0, reveal);
}
