/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Turns any record into JSON by its type's member table: known members in the order of the table,
 * those at their fallback left out, then the unknown ones in the order in which they were read. */
#include "config.h"

#include "engine/files/rod-file.h"

#include "engine/files/rod-json.h"
#include "engine/model/rod-member.h"

#include <math.h>

/* Up to here every whole number is a double. */
#define GREATEST_EXACT_WHOLE 9007199254740992.0

static JsonNode *
number_node (double number)
{
  /* Also turns -0.0 into 0. */
  if (fabs (number) < GREATEST_EXACT_WHOLE && rod_number_same (number, trunc (number)))
    return json_node_init_int (json_node_alloc (), (gint64) number);
  return json_node_init_double (json_node_alloc (), number);
}

static JsonNode *
list_node (const RodMember *member,
           const GPtrArray *list)
{
  JsonArray *array = json_array_sized_new (list->len);
  JsonNode  *node = json_node_new (JSON_NODE_ARRAY);

  for (guint i = 0; i < list->len; i++)
    {
      if (member->kind == ROD_MEMBER_TEXTS)
        json_array_add_string_element (array, list->pdata[i]);
      else
        json_array_add_element (array, rod_record_to_json (list->pdata[i]));
    }
  json_node_take_array (node, array);
  return node;
}

static JsonNode *
member_node (const RodMember *member,
             gconstpointer    record)
{
  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      return json_node_init_string (json_node_alloc (), rod_member_text (member, record));
    case ROD_MEMBER_NUMBER:
      return number_node (rod_member_number (member, record));
    case ROD_MEMBER_INTEGER:
      return json_node_init_int (json_node_alloc (), rod_member_integer (member, record));
    case ROD_MEMBER_FLAG:
      return json_node_init_boolean (json_node_alloc (), rod_member_integer (member, record));
    case ROD_MEMBER_CHOICE:
      return json_node_init_string (
        json_node_alloc (),
        rod_choice_nick (member->choices, rod_member_integer (member, record)));
    case ROD_MEMBER_RECORD:
      return rod_record_to_json (rod_member_record (member, record));
    case ROD_MEMBER_LIST:
    case ROD_MEMBER_TEXTS:
      return list_node (member, rod_member_list (member, record));
    default:
      g_return_val_if_reached (NULL);
    }
}

static gboolean
is_written (const RodMember *member,
            gconstpointer    record)
{
  /* JSON has no word for infinity; rod_house_check() refuses it before a file is written. */
  if (member->kind == ROD_MEMBER_NUMBER && !isfinite (rod_member_number (member, record)))
    return FALSE;
  if (member->kind == ROD_MEMBER_RECORD && rod_member_record (member, record) == NULL)
    return FALSE;
  return (member->flags & ROD_MEMBER_REQUIRED) != 0 || !rod_member_is_fallback (member, record);
}

static void
append_unknown_members (JsonObject *object,
                        const char *extra)
{
  g_autoptr (JsonNode) node = rod_json_parse (extra, -1, "$", NULL);
  JsonObjectIter iter;
  JsonObject    *unknown;
  const char    *name;

  g_return_if_fail (node != NULL && JSON_NODE_HOLDS_OBJECT (node));

  unknown = json_node_get_object (node);
  json_object_iter_init_ordered (&iter, unknown);
  while (json_object_iter_next_ordered (&iter, &name, NULL))
    json_object_set_member (object, name, json_object_dup_member (unknown, name));
}

JsonNode *
rod_record_to_json (gconstpointer record)
{
  const RodRecord *self = record;
  JsonObject      *object;
  JsonNode        *node;

  g_return_val_if_fail (record != NULL, NULL);

  object = json_object_new ();
  for (const RodMember *member = self->type->members; member->name != NULL; member++)
    {
      if (is_written (member, record))
        json_object_set_member (object, member->name, member_node (member, record));
    }
  if (self->extra != NULL)
    append_unknown_members (object, self->extra);

  node = json_node_new (JSON_NODE_OBJECT);
  json_node_take_object (node, object);
  return node;
}
