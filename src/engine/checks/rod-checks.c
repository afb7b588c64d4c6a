/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "config.h"

#include "engine/checks/rod-checks.h"

void
rod_checks_run (RodPlan *plan)
{
}
