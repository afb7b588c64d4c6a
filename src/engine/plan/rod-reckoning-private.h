/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-reckoning.h"

G_BEGIN_DECLS

/* Building reckonings; the title is taken over. */
RodReckoning *rod_reckoning_new (char       *title,
                                 const char *unit) G_GNUC_WARN_UNUSED_RESULT;

void rod_reckoning_add (RodReckoning *reckoning,
                        double        value,
                        const char   *text,
                        const char   *rule);

/* Leaves out terms that are nothing. */
void rod_reckoning_add_some (RodReckoning *reckoning,
                             double        value,
                             const char   *text,
                             const char   *rule);

G_END_DECLS
