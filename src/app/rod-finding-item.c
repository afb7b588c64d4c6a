/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-finding-item.h"

#include <glib/gi18n.h>

struct _RodFindingItem
{
  GObject    parent_instance;
  RodPlan   *plan;
  RodFinding finding;
};

G_DEFINE_FINAL_TYPE (RodFindingItem, rod_finding_item, G_TYPE_OBJECT)

static void
rod_finding_item_finalize (GObject *object)
{
  RodFindingItem *self = ROD_FINDING_ITEM (object);

  g_clear_pointer (&self->plan, rod_plan_unref);
  g_clear_pointer (&self->finding.text, g_free);
  g_clear_pointer (&self->finding.remedy, g_free);

  G_OBJECT_CLASS (rod_finding_item_parent_class)->finalize (object);
}

static void
rod_finding_item_class_init (RodFindingItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rod_finding_item_finalize;
}

static void
rod_finding_item_init (RodFindingItem *self)
{
}

RodFindingItem *
rod_finding_item_new (RodPlan          *plan,
                      const RodFinding *finding)
{
  RodFindingItem *self;

  g_return_val_if_fail (plan != NULL, NULL);
  g_return_val_if_fail (finding != NULL, NULL);

  self = g_object_new (ROD_TYPE_FINDING_ITEM, NULL);
  self->plan = rod_plan_ref (plan);
  self->finding = *finding;
  self->finding.text = g_strdup (finding->text);
  self->finding.remedy = g_strdup (finding->remedy);

  return self;
}

const RodFinding *
rod_finding_item_get (RodFindingItem *self)
{
  g_return_val_if_fail (ROD_IS_FINDING_ITEM (self), NULL);

  return &self->finding;
}

RodPlan *
rod_finding_item_get_plan (RodFindingItem *self)
{
  g_return_val_if_fail (ROD_IS_FINDING_ITEM (self), NULL);

  return self->plan;
}

const char *
rod_severity_icon (RodSeverity severity)
{
  switch (severity)
    {
    case ROD_SEVERITY_MUST:
      return "rod-must-symbolic";

    case ROD_SEVERITY_SHOULD:
      return "rod-should-symbolic";

    case ROD_SEVERITY_NOTE:
    default:
      return "rod-note-symbolic";
    }
}

const char *
rod_severity_label (RodSeverity severity)
{
  switch (severity)
    {
    case ROD_SEVERITY_MUST:
      /* Translators: severity of a finding: it must not be built like this. */
      return _ ("Must change");

    case ROD_SEVERITY_SHOULD:
      /* Translators: severity of a finding: better done otherwise. */
      return _ ("Should change");

    case ROD_SEVERITY_NOTE:
    default:
      /* Translators: severity of a finding: good to know. */
      return _ ("Note");
    }
}
