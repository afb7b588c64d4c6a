/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "cli/rod-command.h"
#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

#define ROD_OUTPUT_ERROR (rod_output_error_quark ())

/**
 * RodOutputError:
 * @ROD_OUTPUT_ERROR_WRITE: a file or folder cannot be written
 */
typedef enum
{
  ROD_OUTPUT_ERROR_WRITE,
} RodOutputError;

GQuark rod_output_error_quark (void);

/**
 * rod_output_write:
 * @command: what the user asks for
 * @takeoff: the take-off
 * @error: return location for an error
 *
 * Writes the files asked for, making folders where needed. Each file is either there whole
 * afterwards or as it was before; after an error earlier files stay.
 *
 * Fails with %ROD_OUTPUT_ERROR_WRITE; the message begins with the file's path.
 *
 * Returns: (transfer full): what is where, for people, empty when nothing was asked for; or %NULL
 *          on error
 */
char *rod_output_write (const RodCommand *command,
                        RodTakeoff       *takeoff,
                        GError          **error) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_output_print_plan:
 * @takeoff: the take-off
 * @error: return location for an error
 *
 * Writes the plan to standard output.
 *
 * Returns: whether it is written
 */
gboolean rod_output_print_plan (const RodTakeoff *takeoff,
                                GError          **error);

G_END_DECLS
