/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks members against their rows and says in words what a row allows. The reader uses it on each
 * member as it is read, rod_house_check() on a house that was built in code. */
#include "config.h"

#include "engine/files/rod-member-check.h"

#include "engine/files/rod-json.h"
#include "engine/model/rod-member.h"
#include "engine/rod-limits.h"

#include <glib/gi18n-lib.h>
#include <string.h>

static gboolean
has_flag (const RodMember *member,
          RodMemberFlags   flag)
{
  return (member->flags & flag) != 0;
}

double
rod_member_greatest (const RodMember *member)
{
  g_return_val_if_fail (member != NULL, 0);

  if (member->max > 0 || member->min < 0)
    return member->max;
  if (member->kind == ROD_MEMBER_LIST || member->kind == ROD_MEMBER_TEXTS)
    return ROD_MAX_ITEMS;
  if (member->kind == ROD_MEMBER_TEXT)
    return has_flag (member, ROD_MEMBER_IDENTIFIER) ? ROD_MAX_IDENTIFIER_BYTES
                                                    : ROD_MAX_TEXT_BYTES;
  return member->max;
}

static char *
describe_number (const RodMember *member)
{
  g_autofree char *min = rod_json_number (member->min);
  g_autofree char *max = rod_json_number (member->max);
  const char      *unit = member->unit != NULL ? member->unit : "";
  const char      *space = member->unit != NULL ? " " : "";

  if (member->kind == ROD_MEMBER_INTEGER)
    return g_strdup_printf (_ ("a whole number from %s to %s"), min, max);
  if (has_flag (member, ROD_MEMBER_ABOVE_MIN))
    return g_strdup_printf (_ ("a number above %s, to %s%s%s"), min, max, space, unit);
  return g_strdup_printf (_ ("a number from %s to %s%s%s"), min, max, space, unit);
}

static char *
describe_text (const RodMember *member)
{
  int longest = (int) rod_member_greatest (member);

  if (member->pattern != NULL)
    return g_strdup_printf (_ ("a text that matches %s"), member->pattern);
  if (has_flag (member, ROD_MEMBER_IDENTIFIER))
    return g_strdup_printf (_ ("a text of 1 to %d letters without accents, digits, \"-\", \"_\" "
                               "and \".\""),
                            longest);
  return g_strdup_printf (_ ("a text of at most %d bytes of UTF-8"), longest);
}

static char *
describe_list (const RodMember *member)
{
  int least = (int) member->min;
  int most = (int) rod_member_greatest (member);

  if (member->kind == ROD_MEMBER_TEXTS)
    return g_strdup_printf (_ ("a list of %d to %d texts"), least, most);
  return g_strdup_printf (_ ("a list of %d to %d objects"), least, most);
}

static char *
describe_choices (const RodMember *member)
{
  GString *text = g_string_new (NULL);

  for (const RodChoice *choice = member->choices; choice->nick != NULL; choice++)
    g_string_append_printf (text, "%s\"%s\"", text->len > 0 ? ", " : "", choice->nick);
  return g_string_free (text, FALSE);
}

static char *
describe_allowed (const RodMember *member)
{
  switch (member->kind)
    {
    case ROD_MEMBER_NUMBER:
    case ROD_MEMBER_INTEGER:
      return describe_number (member);
    case ROD_MEMBER_TEXT:
      return describe_text (member);
    case ROD_MEMBER_FLAG:
      return g_strdup (_ ("true or false"));
    case ROD_MEMBER_CHOICE:
      return describe_choices (member);
    case ROD_MEMBER_RECORD:
      return g_strdup (_ ("an object"));
    case ROD_MEMBER_LIST:
    case ROD_MEMBER_TEXTS:
      return describe_list (member);
    default:
      g_return_val_if_reached (NULL);
    }
}

gboolean
rod_member_refuse (const RodMember    *member,
                   const char         *found,
                   const RodJsonPlace *place,
                   GError            **error)
{
  g_autofree char *allowed = describe_allowed (member);

  return rod_json_place_refuse (place,
                                ROD_FILE_ERROR_MEMBER,
                                error,
                                _ ("found %s; allowed: %s"),
                                found,
                                allowed);
}

static gboolean
is_identifier (const char *text)
{
  for (const char *c = text; *c != '\0'; c++)
    {
      if (!g_ascii_isalnum (*c) && strchr ("-_.", *c) == NULL)
        return FALSE;
    }
  return *text != '\0';
}

static gboolean
matches (const char *text,
         const char *pattern)
{
  g_autofree char *whole = g_strdup_printf ("^(?:%s)$", pattern);

  return g_regex_match_simple (whole, text, G_REGEX_DOLLAR_ENDONLY, 0);
}

static gboolean
text_is_allowed (const RodMember *member,
                 const char      *text)
{
  return text != NULL && strlen (text) <= rod_member_greatest (member) &&
         g_utf8_validate (text, -1, NULL) &&
         (!has_flag (member, ROD_MEMBER_IDENTIFIER) || is_identifier (text)) &&
         (member->pattern == NULL || matches (text, member->pattern));
}

static gboolean
check_text (const RodMember    *member,
            const char         *text,
            const RodJsonPlace *place,
            GError            **error)
{
  g_autofree char *found = NULL;

  if (text_is_allowed (member, text))
    return TRUE;

  found = rod_json_quote (text);
  return rod_member_refuse (member, found, place, error);
}

static gboolean
check_texts (const RodMember    *member,
             const GPtrArray    *texts,
             const RodJsonPlace *place,
             GError            **error)
{
  for (guint i = 0; i < texts->len; i++)
    {
      RodJsonPlace     item = rod_json_place_item (place, i);
      RodMember        one = { .kind = ROD_MEMBER_TEXT, .flags = member->flags };
      g_autofree char *found = NULL;

      if (!check_text (&one, texts->pdata[i], &item, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_number (const RodMember    *member,
              double              number,
              const RodJsonPlace *place,
              GError            **error)
{
  gboolean         above = has_flag (member, ROD_MEMBER_ABOVE_MIN) ? number > member->min
                                                                   : number >= member->min;
  g_autofree char *found = NULL;

  if (above && number <= member->max)
    return TRUE;

  found = rod_json_number (number);
  return rod_member_refuse (member, found, place, error);
}

static gboolean
check_choice (const RodMember    *member,
              int                 value,
              const RodJsonPlace *place,
              GError            **error)
{
  g_autofree char *found = NULL;

  for (const RodChoice *choice = member->choices; choice->nick != NULL; choice++)
    {
      if (choice->value == value)
        return TRUE;
    }
  found = g_strdup_printf ("%d", value);
  return rod_member_refuse (member, found, place, error);
}

static gboolean
check_count (const RodMember    *member,
             const GPtrArray    *list,
             const RodJsonPlace *place,
             GError            **error)
{
  g_autofree char *found = NULL;

  if (list->len >= member->min && list->len <= rod_member_greatest (member))
    return TRUE;

  found = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "%u item", "%u items", list->len),
                           list->len);
  return rod_member_refuse (member, found, place, error);
}

static gboolean
check_value (const RodMember    *member,
             gconstpointer       record,
             const RodJsonPlace *place,
             GError            **error)
{
  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      return check_text (member, rod_member_text (member, record), place, error);
    case ROD_MEMBER_NUMBER:
      return check_number (member, rod_member_number (member, record), place, error);
    case ROD_MEMBER_INTEGER:
      return check_number (member, rod_member_integer (member, record), place, error);
    case ROD_MEMBER_CHOICE:
      return check_choice (member, rod_member_integer (member, record), place, error);
    case ROD_MEMBER_LIST:
      return check_count (member, rod_member_list (member, record), place, error);
    case ROD_MEMBER_TEXTS:
      return check_count (member, rod_member_list (member, record), place, error) &&
             check_texts (member, rod_member_list (member, record), place, error);
    case ROD_MEMBER_FLAG:
    case ROD_MEMBER_RECORD:
      return TRUE;
    default:
      g_return_val_if_reached (FALSE);
    }
}

gboolean
rod_member_check (const RodMember    *member,
                  gconstpointer       record,
                  const RodJsonPlace *place,
                  GError            **error)
{
  g_return_val_if_fail (member != NULL && record != NULL && place != NULL, FALSE);

  if (member->kind == ROD_MEMBER_RECORD && rod_member_record (member, record) == NULL)
    return (member->flags & (ROD_MEMBER_REQUIRED | ROD_MEMBER_FILLED)) == 0 ||
           rod_member_refuse (member, _ ("nothing"), place, error);
  if (!has_flag (member, ROD_MEMBER_REQUIRED) && rod_member_is_fallback (member, record))
    return TRUE;
  return check_value (member, record, place, error);
}

/* The records within a member. */
static gboolean
check_inner (const RodMember    *member,
             gconstpointer       record,
             const RodJsonPlace *place,
             GError            **error)
{
  const GPtrArray *list;

  if (member->kind == ROD_MEMBER_RECORD && rod_member_record (member, record) != NULL)
    return rod_record_check (rod_member_record (member, record), place, error);
  if (member->kind != ROD_MEMBER_LIST)
    return TRUE;

  list = rod_member_list (member, record);
  for (guint i = 0; i < list->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (place, i);

      if (!rod_record_check (list->pdata[i], &item, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
rod_record_check (gconstpointer       record,
                  const RodJsonPlace *place,
                  GError            **error)
{
  const RodType *type;

  g_return_val_if_fail (record != NULL && place != NULL, FALSE);

  type = ((const RodRecord *) record)->type;
  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      RodJsonPlace inner = rod_json_place_member (place, member->name);

      if (!rod_member_check (member, record, &inner, error) ||
          !check_inner (member, record, &inner, error))
        return FALSE;
    }
  return TRUE;
}
