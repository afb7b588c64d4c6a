/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Take-off: what the plan's boards, trims, battens and screws mean at the saw and at the
 * merchant's. */

#include "config.h"

#include "engine/checks/rod-findings.h"
#include "engine/takeoff/rod-cut-lists.h"
#include "engine/takeoff/rod-order.h"
#include "engine/takeoff/rod-takeoff.h"

static void
clear_cutting (gpointer data)
{
  RodCutting *cutting = data;

  g_array_unref (cutting->stock);
  g_ptr_array_unref (cutting->stock_of);
  g_array_unref (cutting->items);
  g_array_unref (cutting->bars);
}

gboolean
rod_cutting_is_by_the_metre (const RodCutting *cutting)
{
  g_return_val_if_fail (cutting != NULL, FALSE);

  for (guint i = 0; i < cutting->stock_of->len; i++)
    if (g_ptr_array_index (cutting->stock_of, i) != NULL)
      return FALSE;
  return TRUE;
}

RodTakeoff *
rod_takeoff_new (RodPlan      *plan,
                 GCancellable *cancellable)
{
  RodTakeoff *takeoff;

  g_return_val_if_fail (plan != NULL, NULL);

  takeoff = g_atomic_rc_box_new0 (RodTakeoff);
  takeoff->plan = rod_plan_ref (plan);
  takeoff->cuttings = g_array_new (FALSE, FALSE, sizeof (RodCutting));
  g_array_set_clear_func (takeoff->cuttings, clear_cutting);
  takeoff->lines = g_array_new (FALSE, FALSE, sizeof (RodOrderLine));
  takeoff->findings = rod_findings_new ();

  rod_cut_lists_collect (takeoff);
  if (!rod_cut_lists_solve (takeoff, cancellable))
    {
      rod_takeoff_unref (takeoff);
      return NULL;
    }
  rod_order_collect (takeoff);
  rod_findings_sort (takeoff->findings);
  return takeoff;
}

RodTakeoff *
rod_takeoff_ref (RodTakeoff *takeoff)
{
  g_return_val_if_fail (takeoff != NULL, NULL);

  return g_atomic_rc_box_acquire (takeoff);
}

static void
clear_takeoff (gpointer data)
{
  RodTakeoff *takeoff = data;

  g_array_unref (takeoff->cuttings);
  g_array_unref (takeoff->lines);
  g_array_unref (takeoff->findings);
  rod_plan_unref (takeoff->plan);
}

void
rod_takeoff_unref (RodTakeoff *takeoff)
{
  if (takeoff != NULL)
    g_atomic_rc_box_release_full (takeoff, clear_takeoff);
}
