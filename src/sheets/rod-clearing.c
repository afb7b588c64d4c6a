/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which places of a drawing are taken. A drawing has some dozens of figures and numbers, so that a
 * list is looked through from end to end.
 */
#include "config.h"

#include "sheets/rod-clearing.h"

struct _RodClearing
{
  GArray *boxes;
};

RodClearing *
rod_clearing_new (void)
{
  RodClearing *clearing = g_new0 (RodClearing, 1);

  clearing->boxes = g_array_new (FALSE, FALSE, sizeof (RodBox));

  return clearing;
}

void
rod_clearing_free (RodClearing *clearing)
{
  if (clearing == NULL)
    return;

  g_array_unref (clearing->boxes);
  g_free (clearing);
}

void
rod_clearing_take (RodClearing *clearing,
                   RodBox       box)
{
  g_return_if_fail (clearing != NULL);

  g_array_append_val (clearing->boxes, box);
}

gboolean
rod_clearing_is_free (const RodClearing *clearing,
                      RodBox             box)
{
  g_return_val_if_fail (clearing != NULL, FALSE);

  for (guint i = 0; i < clearing->boxes->len; i++)
    {
      const RodBox *taken = &g_array_index (clearing->boxes, RodBox, i);

      if (box.low_x < taken->high_x && box.high_x > taken->low_x && box.low_y < taken->high_y &&
          box.high_y > taken->low_y)
        return FALSE;
    }

  return TRUE;
}
