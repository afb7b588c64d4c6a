/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

/* A house planned and taken off, kept for the length of a test. */
typedef struct
{
  RodPlan    *plan;
  RodTakeoff *takeoff;
} Job;

/* A hand-worked house of the engine's tests, e.g. "a4-window-and-door". */
void job_init_worked (Job        *job,
                      const char *name);

/* One rectangular wall of the given size with a window in it when it is large enough; names may
 * hold anything. */
void
job_init_wall (Job        *job,
               double      width_mm,
               double      height_mm,
               const char *units,
               const char *name);

void job_clear (Job *job);

/* A surface that takes down what is drawn on it, and its context; a unit is a millimetre. */
cairo_t *recording_new (void);

/* Extent of the ink drawn so far. */
void recording_extent (cairo_t *cr,
                       double  *x,
                       double  *y,
                       double  *width,
                       double  *height);

/* A folder of its own for the files of a test. */
char *folder_new (void);
void  folder_remove (char *folder);

G_END_DECLS
