/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define ROD_COMMAND_ERROR (rod_command_error_quark ())

/**
 * RodCommandError:
 * @ROD_COMMAND_ERROR_USAGE: the command line asks for something that does not exist or not together
 */
typedef enum
{
  ROD_COMMAND_ERROR_USAGE,
} RodCommandError;

GQuark rod_command_error_quark (void);

/**
 * RodCommand:
 * @house: path of the house file, or "-" for standard input; %NULL only with @help or @version
 * @out: (nullable): folder for everything
 * @sheets: (nullable): PDF file to write
 * @lists: (nullable): folder for the CSV lists
 * @svg: (nullable): folder for the drawings of the surfaces
 * @plan: (nullable): JSON file to write, or "-" for standard output
 * @save: (nullable): house file to write, with the best set-out or stepped bases
 * @best: let go of joint lines left by hand
 * @step_bases: put falling bases in steps
 * @check: print the findings only
 * @help: print how to use the program
 * @version: print the program's version
 *
 * What the user asks for. Where @out is given, the other four are filled in.
 */
typedef struct
{
  char    *house;
  char    *out;
  char    *sheets;
  char    *lists;
  char    *svg;
  char    *plan;
  char    *save;
  gboolean best;
  gboolean step_bases;
  gboolean check;
  gboolean help;
  gboolean version;
} RodCommand;

/**
 * rod_command_parse:
 * @command: (out): what the user asks for; to be cleared in any case
 * @arguments: (inout): the program's arguments, its own name first; those understood are taken out
 * @error: return location for an error
 *
 * Fails with %ROD_COMMAND_ERROR_USAGE or an error of GOption.
 *
 * Returns: whether the arguments make sense
 */
gboolean rod_command_parse (RodCommand *command,
                            char     ***arguments,
                            GError    **error);

/**
 * rod_command_help:
 *
 * Returns: (transfer full): how to use the program: options by what they are for, and examples
 */
char *rod_command_help (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_command_clear:
 * @command: what the user asked for
 *
 * Frees what @command holds.
 */
void rod_command_clear (RodCommand *command);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (RodCommand, rod_command_clear)

G_END_DECLS
