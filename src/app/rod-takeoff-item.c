/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-takeoff-item.h"

struct _RodTakeoffItem
{
  GObject     parent_instance;
  RodTakeoff *takeoff;
  guint       cutting;
  guint       index;
};

G_DEFINE_FINAL_TYPE (RodTakeoffItem, rod_takeoff_item, G_TYPE_OBJECT)

static void
rod_takeoff_item_finalize (GObject *object)
{
  RodTakeoffItem *self = ROD_TAKEOFF_ITEM (object);

  g_clear_pointer (&self->takeoff, rod_takeoff_unref);

  G_OBJECT_CLASS (rod_takeoff_item_parent_class)->finalize (object);
}

static void
rod_takeoff_item_class_init (RodTakeoffItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rod_takeoff_item_finalize;
}

static void
rod_takeoff_item_init (RodTakeoffItem *self)
{
}

RodTakeoffItem *
rod_takeoff_item_new_line (RodTakeoff *takeoff,
                           guint       line)
{
  RodTakeoffItem *self;

  g_return_val_if_fail (takeoff != NULL, NULL);
  g_return_val_if_fail (line < takeoff->lines->len, NULL);

  self = g_object_new (ROD_TYPE_TAKEOFF_ITEM, NULL);
  self->takeoff = rod_takeoff_ref (takeoff);
  self->index = line;

  return self;
}

RodTakeoffItem *
rod_takeoff_item_new_bar (RodTakeoff *takeoff,
                          guint       cutting,
                          guint       bar)
{
  RodTakeoffItem *self;

  g_return_val_if_fail (takeoff != NULL, NULL);
  g_return_val_if_fail (cutting < takeoff->cuttings->len, NULL);

  self = g_object_new (ROD_TYPE_TAKEOFF_ITEM, NULL);
  self->takeoff = rod_takeoff_ref (takeoff);
  self->cutting = cutting;
  self->index = bar;

  return self;
}

const RodTakeoff *
rod_takeoff_item_get_takeoff (RodTakeoffItem *self)
{
  g_return_val_if_fail (ROD_IS_TAKEOFF_ITEM (self), NULL);

  return self->takeoff;
}

const RodOrderLine *
rod_takeoff_item_get_line (RodTakeoffItem *self)
{
  g_return_val_if_fail (ROD_IS_TAKEOFF_ITEM (self), NULL);

  return &g_array_index (self->takeoff->lines, RodOrderLine, self->index);
}

const RodCutting *
rod_takeoff_item_get_cutting (RodTakeoffItem *self)
{
  g_return_val_if_fail (ROD_IS_TAKEOFF_ITEM (self), NULL);

  return &g_array_index (self->takeoff->cuttings, RodCutting, self->cutting);
}

const RodSawBar *
rod_takeoff_item_get_bar (RodTakeoffItem *self)
{
  g_return_val_if_fail (ROD_IS_TAKEOFF_ITEM (self), NULL);

  return &g_array_index (rod_takeoff_item_get_cutting (self)->bars, RodSawBar, self->index);
}

guint
rod_takeoff_item_get_index (RodTakeoffItem *self)
{
  g_return_val_if_fail (ROD_IS_TAKEOFF_ITEM (self), 0);

  return self->index;
}
