/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Identifiers and what refers to them. */
#include "config.h"

#include "engine/files/rod-reference.h"

#include "engine/files/rod-json.h"
#include "engine/model/rod-member.h"

#include <glib/gi18n-lib.h>

/* How many identifiers a message offers. */
#define OFFERED_IDS 8

const char *
rod_record_id (gconstpointer record)
{
  const RodMember *member;

  g_return_val_if_fail (record != NULL, NULL);

  member = rod_type_find_member (((const RodRecord *) record)->type, "id");
  return member != NULL ? rod_member_text (member, record) : NULL;
}

gboolean
rod_check_id_is_new (GHashTable         *ids,
                     const char         *id,
                     const RodJsonPlace *place,
                     GError            **error)
{
  g_autofree char *found = NULL;

  if (g_hash_table_add (ids, (gpointer) (guintptr) id))
    return TRUE;

  found = rod_json_quote (id);
  return rod_json_place_refuse (place,
                                ROD_FILE_ERROR_REFERENCE,
                                error,
                                _ ("found %s a second time; allowed: each identifier once. Choose "
                                   "another."),
                                found);
}

static gboolean
check_list (const GPtrArray    *list,
            const RodJsonPlace *place,
            GError            **error)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < list->len; i++)
    {
      RodJsonPlace item = rod_json_place_item (place, i);
      RodJsonPlace id_place = rod_json_place_member (&item, "id");
      const char  *id = rod_record_id (list->pdata[i]);

      if (id == NULL)
        return TRUE;
      if (!rod_check_id_is_new (ids, id, &id_place, error) ||
          !rod_check_ids (list->pdata[i], &item, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
rod_check_ids (gconstpointer       record,
               const RodJsonPlace *place,
               GError            **error)
{
  const RodType *type;

  g_return_val_if_fail (record != NULL && place != NULL, FALSE);

  type = ((const RodRecord *) record)->type;
  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      RodJsonPlace inner = rod_json_place_member (place, member->name);

      if (member->kind == ROD_MEMBER_LIST &&
          !check_list (rod_member_list (member, record), &inner, error))
        return FALSE;
    }
  return TRUE;
}

static char *
list_ids (const GPtrArray *targets)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < targets->len && i < OFFERED_IDS; i++)
    g_string_append_printf (text, "%s\"%s\"", i > 0 ? ", " : "", rod_record_id (targets->pdata[i]));
  if (targets->len > OFFERED_IDS)
    g_string_append (text, ", …");
  if (targets->len == 0)
    g_string_append (text, _ ("none"));
  return g_string_free (text, FALSE);
}

gboolean
rod_refuse_reference (const char         *id,
                      const GPtrArray    *targets,
                      const char         *kind,
                      const RodJsonPlace *place,
                      GError            **error)
{
  g_autofree char *found = rod_json_quote (id);
  g_autofree char *ids = list_ids (targets);

  /* Translators: the second %s is a noun such as "board", the third a list of identifiers */
  return rod_json_place_refuse (place,
                                ROD_FILE_ERROR_REFERENCE,
                                error,
                                _ ("found %s, but there is no such %s. There are: %s."),
                                found,
                                kind,
                                ids);
}

gboolean
rod_check_reference (const char         *id,
                     const GPtrArray    *targets,
                     const char         *kind,
                     const RodJsonPlace *place,
                     const char         *member,
                     GError            **error)
{
  RodJsonPlace inner = rod_json_place_member (place, member);

  g_return_val_if_fail (id != NULL && targets != NULL, FALSE);

  if (*id == '\0')
    return TRUE;
  for (guint i = 0; i < targets->len; i++)
    {
      if (g_str_equal (rod_record_id (targets->pdata[i]), id))
        return TRUE;
    }
  return rod_refuse_reference (id, targets, kind, &inner, error);
}
