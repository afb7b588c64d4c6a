/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line. One table of options serves reading and help; the help is laid out here,
 * because GOption shows groups one at a time only.
 */
#include "config.h"

#include "cli/rod-command.h"

#include "cli/rod-columns.h"

#include <glib/gi18n.h>

G_DEFINE_QUARK (rod - command - error - quark, rod_command_error)

/* Where an option's explanation begins in the help. */
#define HELP_INDENT 18
#define EXAMPLE_INDENT 6

/* A row without a name is the heading of those after it. */
typedef struct
{
  const char *name;
  char        letter;
  gsize       member; /* in RodCommand: a path where there is an argument, else a flag */
  const char *argument;
  const char *description;
} Option;

static const Option options[] = {
  { .description = N_ ("What to write:") },
  {
    "out",
    'o',
    G_STRUCT_OFFSET (RodCommand, out),
    N_ ("DIR"),
    N_ ("write all of the following into one folder"),
  },
  {
    "sheets",
    '\0',
    G_STRUCT_OFFSET (RodCommand, sheets),
    N_ ("FILE"),
    N_ ("sheets to print, as PDF"),
  },
  {
    "lists",
    '\0',
    G_STRUCT_OFFSET (RodCommand, lists),
    N_ ("DIR"),
    N_ ("lists for spreadsheet and merchant, as CSV: pieces, cutting, order, trims, "
        "battens, joint lines, findings"),
  },
  {
    "svg",
    '\0',
    G_STRUCT_OFFSET (RodCommand, svg),
    N_ ("DIR"),
    N_ ("a drawing of each surface, as SVG"),
  },
  {
    "plan",
    '\0',
    G_STRUCT_OFFSET (RodCommand, plan),
    N_ ("FILE"),
    N_ ("the whole plan for other programs, as JSON; - for standard output"),
  },
  { .description = N_ ("Where joint lines fall:") },
  {
    "best",
    'b',
    G_STRUCT_OFFSET (RodCommand, best),
    NULL,
    N_ ("put joint lines left by hand at their best places (pins stay), and say what that changes"),
  },
  {
    "step-bases",
    '\0',
    G_STRUCT_OFFSET (RodCommand, step_bases),
    NULL,
    N_ ("make steps of bases that fall with the ground where the house asks for it, and say where"),
  },
  {
    "save",
    '\0',
    G_STRUCT_OFFSET (RodCommand, save),
    N_ ("FILE"),
    N_ ("with --best or --step-bases: write the house as it is then"),
  },
  { .description = N_ ("What to print:") },
  {
    "check",
    'c',
    G_STRUCT_OFFSET (RodCommand, check),
    NULL,
    N_ ("print the findings, all of them and nothing else"),
  },
  { .description = N_ ("About the program:") },
  {
    "help",
    'h',
    G_STRUCT_OFFSET (RodCommand, help),
    NULL,
    N_ ("print this"),
  },
  {
    "version",
    '\0',
    G_STRUCT_OFFSET (RodCommand, version),
    NULL,
    N_ ("print the version"),
  },
};

static gboolean
refuse (GError    **error,
        const char *message)
{
  g_set_error_literal (error, ROD_COMMAND_ERROR, ROD_COMMAND_ERROR_USAGE, message);
  return FALSE;
}

/* Options that --out gives are left alone where the user gives them too. */
static void
fill_in_outputs (RodCommand *command)
{
  if (command->out == NULL)
    return;
  if (command->sheets == NULL)
    command->sheets = g_build_filename (command->out, "sheets.pdf", NULL);
  if (command->lists == NULL)
    command->lists = g_build_filename (command->out, "lists", NULL);
  if (command->svg == NULL)
    command->svg = g_build_filename (command->out, "surfaces", NULL);
  if (command->plan == NULL)
    command->plan = g_build_filename (command->out, "plan.json", NULL);
}

static gboolean
is_empty (const char *path)
{
  return path != NULL && *path == '\0';
}

static gboolean
check_command (RodCommand *command,
               char      **operands,
               GError    **error)
{
  gboolean writes = command->out != NULL || command->sheets != NULL || command->lists != NULL ||
                    command->svg != NULL || command->plan != NULL || command->save != NULL;

  if (command->help || command->version)
    return TRUE;
  if (operands == NULL)
    return refuse (error, _ ("no house file is named"));
  if (operands[1] != NULL)
    return refuse (error, _ ("only one house can be planned at a time"));
  if (command->save != NULL && !command->best && !command->step_bases)
    return refuse (error, _ ("--save goes with --best or --step-bases only"));
  if (command->check && writes)
    return refuse (error, _ ("--check writes no files; leave it out, or the files"));
  if (is_empty (operands[0]) || is_empty (command->out) || is_empty (command->sheets) ||
      is_empty (command->lists) || is_empty (command->svg) || is_empty (command->plan) ||
      is_empty (command->save))
    return refuse (error, _ ("a file or folder has an empty name"));

  command->house = g_strdup (operands[0]);
  fill_in_outputs (command);
  return TRUE;
}

static GOptionContext *
option_context_new (RodCommand *command,
                    char     ***operands)
{
  GOptionContext *context = g_option_context_new (NULL);
  GOptionEntry    entries[G_N_ELEMENTS (options) + 2] = { 0 };
  GOptionEntry   *entry = entries;

  for (guint i = 0; i < G_N_ELEMENTS (options); i++)
    if (options[i].name != NULL)
      {
        entry->long_name = options[i].name;
        entry->short_name = options[i].letter;
        entry->arg = options[i].argument != NULL ? G_OPTION_ARG_FILENAME : G_OPTION_ARG_NONE;
        entry->arg_data = G_STRUCT_MEMBER_P (command, options[i].member);
        entry++;
      }
  entry->long_name = G_OPTION_REMAINING;
  entry->arg = G_OPTION_ARG_FILENAME_ARRAY;
  entry->arg_data = operands;
  g_option_context_add_main_entries (context, entries, NULL);
  g_option_context_set_help_enabled (context, FALSE);
  return context;
}

gboolean
rod_command_parse (RodCommand *command,
                   char     ***arguments,
                   GError    **error)
{
  g_autoptr (GOptionContext) context = NULL;
  g_auto (GStrv) operands = NULL;

  g_return_val_if_fail (command != NULL, FALSE);
  g_return_val_if_fail (arguments != NULL, FALSE);

  *command = (RodCommand){ 0 };
  context = option_context_new (command, &operands);
  if (!g_option_context_parse_strv (context, arguments, error))
    return FALSE;
  return check_command (command, operands, error);
}

static void
append_option (GString      *help,
               const Option *option)
{
  g_autoptr (GString) label = g_string_new ("  ");

  if (option->letter != '\0')
    g_string_append_printf (label, "-%c, ", option->letter);
  g_string_append_printf (label, "--%s", option->name);
  if (option->argument != NULL)
    g_string_append_printf (label, " %s", _ (option->argument));
  rod_columns_append (help, label->str, HELP_INDENT, _ (option->description));
}

static void
append_example (GString    *help,
                const char *arguments,
                const char *meaning)
{
  g_string_append_printf (help, "  %s %s\n", g_get_prgname (), arguments);
  rod_columns_append (help, "", EXAMPLE_INDENT, meaning);
}

static void
append_examples (GString *help)
{
  g_string_append_printf (help, "\n%s\n", _ ("Examples:"));
  append_example (help,
                  "studio.storeyrod",
                  _ ("how much is needed, and does it work out?"));
  append_example (help,
                  "studio.storeyrod --out studio",
                  _ ("sheets, drawings, lists and plan in the folder studio"));
  append_example (help,
                  "studio.storeyrod --check",
                  _ ("all that has to be put right"));
  append_example (help,
                  "studio.storeyrod --best",
                  _ ("which joint lines could lie better, and why?"));
  append_example (help,
                  "- --plan - <studio.storeyrod | python3 -m json.tool",
                  _ ("the plan, handed on to another program"));
}

char *
rod_command_help (void)
{
  static const char *const purpose =
    N_ ("Plans the cladding of a house: joint lines, boards, battens, trims, screws, what to saw "
        "from what, and the order. HOUSE is a house file (*.storeyrod), or - for standard input. "
        "Needs no display. Prints a summary and the worst findings.");
  static const char *const statuses =
    N_ ("Exit status: 0 when nothing must be put right, 1 when something must, 2 when the house "
        "cannot be read, a file cannot be written or the command is wrong.");
  GString *help = g_string_new (NULL);

  g_string_append_printf (help, _ ("Usage: %s HOUSE [OPTION…]"), g_get_prgname ());
  g_string_append (help, "\n\n");
  rod_columns_append (help, "", 0, _ (purpose));
  for (guint i = 0; i < G_N_ELEMENTS (options); i++)
    {
      if (options[i].name == NULL)
        g_string_append_printf (help, "\n%s\n", _ (options[i].description));
      else
        append_option (help, &options[i]);
    }
  append_examples (help);
  g_string_append_c (help, '\n');
  rod_columns_append (help, "", 0, _ (statuses));
  return g_string_free (help, FALSE);
}

void
rod_command_clear (RodCommand *command)
{
  g_return_if_fail (command != NULL);

  g_clear_pointer (&command->house, g_free);
  g_clear_pointer (&command->out, g_free);
  g_clear_pointer (&command->sheets, g_free);
  g_clear_pointer (&command->lists, g_free);
  g_clear_pointer (&command->svg, g_free);
  g_clear_pointer (&command->plan, g_free);
  g_clear_pointer (&command->save, g_free);
}
