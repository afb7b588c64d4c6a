/* SPDX-License-Identifier: GPL-3.0-or-later */
/* storeyrod-plan: the engine without a display. Reads a house, plans it, writes what is asked for.
 * Exit status: 0 clean, 1 with a finding that must be put right, 2 where the input or the command
 * is bad or an output cannot be written.
 */
#include "config.h"

#include "cli/rod-best-text.h"
#include "cli/rod-command.h"
#include "cli/rod-finding-text.h"
#include "cli/rod-output.h"
#include "cli/rod-steps-text.h"
#include "cli/rod-summary.h"
#include "engine/files/rod-file.h"
#include "engine/files/rod-takeoff-file.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-stepped-house.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <locale.h>
#include <stdio.h>
#include <string.h>

#define PROGRAM "storeyrod-plan"

enum
{
  STATUS_CLEAN = 0,
  STATUS_MUST = 1,
  STATUS_BAD = 2,
};

/* Prints one line, whatever the message: one error, one line in a log. */
static int
fail (const char *message)
{
  g_autofree char *line = g_strdup (message);

  g_strdelimit (line, "\r\n", ' ');
  g_printerr ("%s: %s\n", PROGRAM, line);
  return STATUS_BAD;
}

/* Output that nobody received is no success: think of a full disk. */
static int
end_output (int status)
{
  if (fflush (stdout) == 0 && !ferror (stdout))
    return status;
  return fail (_ ("standard output: cannot be written"));
}

static RodHouse *
read_standard_input (GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint8 block[64 * 1024];
  gsize  n;

  while ((n = fread (block, 1, sizeof block, stdin)) > 0)
    {
      g_byte_array_append (bytes, block, (guint) n);
      /* One byte more than the reader allows lets the reader say so. */
      if (bytes->len > ROD_MAX_FILE_BYTES)
        break;
    }
  if (ferror (stdin))
    {
      g_set_error (error,
                   ROD_FILE_ERROR,
                   ROD_FILE_ERROR_READ,
                   _ ("standard input cannot be read: %s"),
                   g_strerror (errno));
      return NULL;
    }
  g_byte_array_append (bytes, (const guint8 *) "", 1);
  return rod_house_parse ((const char *) bytes->data, bytes->len - 1, ".", error);
}

static RodHouse *
read_house (const char *path,
            GError    **error)
{
  g_autoptr (GError) reason = NULL;
  g_autofree char *name = NULL;
  RodHouse        *house;

  if (g_str_equal (path, "-"))
    {
      house = read_standard_input (&reason);
      name = g_strdup (_ ("standard input"));
    }
  else
    {
      house = rod_house_load (path, &reason);
      name = g_filename_display_name (path);
    }
  if (house != NULL)
    return house;

  /* What is wrong in a file begins with the place in it; what cannot be read is named already. */
  if (*reason->message == '$')
    g_set_error (error, reason->domain, reason->code, "%s: %s", name, reason->message);
  else
    g_propagate_error (error, g_steal_pointer (&reason));
  return NULL;
}

static void
print_findings (const GArray *findings)
{
  g_autoptr (GString) text = g_string_new (NULL);

  rod_finding_text_append (text, findings, findings->len);
  g_print ("%s", findings->len > 0 ? text->str : _ ("No findings.\n"));
}

static void
print_summary (const RodTakeoff *takeoff,
               const char       *where)
{
  g_autofree char *summary = rod_summary_text (takeoff);

  g_print ("%s", summary);
  if (*where != '\0')
    g_print ("\n%s\n%s", _ ("Written:"), where);
}

static gboolean
hand_out (const RodCommand *command,
          RodTakeoff       *takeoff,
          const GArray     *findings,
          GError          **error)
{
  g_autofree char *where = rod_output_write (command, takeoff, error);

  if (where == NULL)
    return FALSE;
  if (command->check)
    print_findings (findings);
  else if (command->plan != NULL && g_str_equal (command->plan, "-"))
    return rod_output_print_plan (takeoff, error);
  else
    print_summary (takeoff, where);
  return TRUE;
}

static RodTakeoff *
take_off (const RodHouse *house)
{
  g_autoptr (RodPlan) plan = rod_plan_new (house);

  return rod_takeoff_new (plan, NULL);
}

/* Standard output may have the plan or the findings instead. */
static gboolean
tells_changes (const RodCommand *command)
{
  return !command->check && g_strcmp0 (command->plan, "-") != 0;
}

/* The same house with its best set-out; says what that changes. @takeoff gets its take-off where
 * that needs one, for it may take seconds. */
static RodHouse *
set_out_best (const RodCommand *command,
              const RodHouse   *house,
              RodTakeoff      **takeoff)
{
  g_autoptr (RodHouse) best = rod_house_free_lines (house);

  if (tells_changes (command))
    {
      g_autoptr (RodTakeoff) before = take_off (house);
      g_autofree char *text = NULL;

      *takeoff = take_off (best);
      text = rod_best_text (before, *takeoff);
      g_print ("%s", text);
    }
  return g_steal_pointer (&best);
}

/* The same house with its falling bases in steps; says where they are. */
static RodHouse *
step_bases (const RodCommand *command,
            const RodHouse   *house)
{
  g_autoptr (RodPlan) plan = rod_plan_new (house);

  if (tells_changes (command))
    {
      g_autofree char *text = rod_steps_text (plan);

      g_print ("%s", text);
    }
  return rod_house_with_steps (plan);
}

/* What the user wants changed before the house is planned; NULL where it cannot be saved. @takeoff
 * gets that of the changed house where there is one already. */
static RodHouse *
change_house (const RodCommand *command,
              RodHouse         *house,
              RodTakeoff      **takeoff,
              GError          **error)
{
  g_autoptr (RodHouse) changed = rod_record_ref (house);

  if (command->best)
    {
      RodHouse *best = set_out_best (command, changed, takeoff);

      rod_record_unref (changed);
      changed = best;
    }
  if (command->step_bases)
    {
      RodHouse *stepped = step_bases (command, changed);

      rod_record_unref (changed);
      changed = stepped;
      g_clear_pointer (takeoff, rod_takeoff_unref);
    }
  if (command->save != NULL && !rod_house_save (changed, command->save, error))
    return NULL;
  return g_steal_pointer (&changed);
}

static int
plan_house (const RodCommand *command)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) house = read_house (command->house, &error);
  g_autoptr (RodTakeoff) takeoff = NULL;
  g_autoptr (GArray) findings = NULL;
  gboolean clean;

  if (house != NULL)
    {
      RodHouse *changed = change_house (command, house, &takeoff, &error);

      rod_record_unref (house);
      house = changed;
    }
  if (house == NULL)
    return fail (error->message);
  if (takeoff == NULL)
    takeoff = take_off (house);
  findings = rod_takeoff_findings (takeoff);
  if (!hand_out (command, takeoff, findings, &error))
    return fail (error->message);
  clean = rod_finding_text_count (findings, ROD_SEVERITY_MUST) == 0;
  return end_output (clean ? STATUS_CLEAN : STATUS_MUST);
}

static void
take_up_locale (void)
{
  setlocale (LC_ALL, "");
  /* On a machine without locales, such as a bare container, the terminal reads UTF-8 all the same;
   * without this every m² would become "m?". */
  if (g_strcmp0 (setlocale (LC_CTYPE, NULL), "C") == 0)
    setlocale (LC_CTYPE, "C.UTF-8");
  bindtextdomain (GETTEXT_PACKAGE, ROD_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}

int
main (int    argc,
      char **argv)
{
  g_auto (RodCommand) command = { 0 };
  g_auto (GStrv) arguments = NULL;
  g_autoptr (GError) error = NULL;

  take_up_locale ();
  g_set_prgname (PROGRAM);
  arguments = g_strdupv (argv);
  if (!rod_command_parse (&command, &arguments, &error))
    {
      g_autofree char *message = NULL;

      message = g_strdup_printf (_ ("%s; %s --help says what there is"), error->message, PROGRAM);
      return fail (message);
    }
  if (command.help)
    {
      g_autofree char *help = rod_command_help ();

      g_print ("%s", help);
      return end_output (STATUS_CLEAN);
    }
  if (command.version)
    {
      g_print ("%s %s\n", PROGRAM, ROD_VERSION);
      return end_output (STATUS_CLEAN);
    }
  return plan_house (&command);
}
