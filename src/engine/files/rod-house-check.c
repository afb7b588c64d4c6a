/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks a house as a whole. */
#include "config.h"

#include "engine/files/rod-file.h"

#include "engine/files/rod-member-check.h"

gboolean
rod_house_check (const RodHouse *house,
                 GError        **error)
{
  RodPlace root = rod_place_root ("$");

  g_return_val_if_fail (house != NULL, FALSE);

  return rod_record_check (house, &root, error);
}
