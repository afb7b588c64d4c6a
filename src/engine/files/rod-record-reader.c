/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reads any record from JSON by its type's member table. Members that the table does not know are
 * kept as text and written back, so that a file of a later or another program loses nothing. */
#include "config.h"

#include "engine/files/rod-file.h"

#include "engine/files/rod-json.h"
#include "engine/files/rod-member-check.h"
#include "engine/model/rod-member.h"

#include <math.h>

static gpointer read_record (const RodType      *type,
                             JsonNode           *node,
                             const RodJsonPlace *place,
                             GError            **error);

static gboolean
holds (JsonNode *node,
       GType     type)
{
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == type;
}

static gboolean
refuse_kind (const RodMember    *member,
             JsonNode           *node,
             const RodJsonPlace *place,
             GError            **error)
{
  g_autofree char *found = rod_json_found (node);

  return rod_member_refuse (member, found, place, error);
}

static gboolean
read_text (const RodMember *member,
           JsonNode        *node,
           gpointer         record)
{
  if (!holds (node, G_TYPE_STRING))
    return FALSE;

  rod_record_set_text (record, member->offset, json_node_get_string (node));
  return TRUE;
}

static gboolean
read_number (const RodMember *member,
             JsonNode        *node,
             gpointer         record)
{
  if (!holds (node, G_TYPE_DOUBLE) && !holds (node, G_TYPE_INT64))
    return FALSE;

  rod_member_set_number (member, record, json_node_get_double (node));
  return TRUE;
}

/* 3.0 is a whole number too: JSON has one kind of number only. */
static gboolean
read_integer (const RodMember *member,
              JsonNode        *node,
              gpointer         record)
{
  double number;

  if (!holds (node, G_TYPE_DOUBLE) && !holds (node, G_TYPE_INT64))
    return FALSE;

  number = json_node_get_double (node);
  if (number < G_MININT || number > G_MAXINT || !rod_number_same (number, trunc (number)))
    return FALSE;

  rod_member_set_integer (member, record, (int) number);
  return TRUE;
}

static gboolean
read_flag (const RodMember *member,
           JsonNode        *node,
           gpointer         record)
{
  if (!holds (node, G_TYPE_BOOLEAN))
    return FALSE;

  rod_member_set_integer (member, record, json_node_get_boolean (node));
  return TRUE;
}

static gboolean
read_choice (const RodMember *member,
             JsonNode        *node,
             gpointer         record)
{
  if (!holds (node, G_TYPE_STRING))
    return FALSE;

  for (const RodChoice *choice = member->choices; choice->nick != NULL; choice++)
    {
      if (g_str_equal (choice->nick, json_node_get_string (node)))
        {
          rod_member_set_integer (member, record, choice->value);
          return TRUE;
        }
    }
  return FALSE;
}

static gboolean
read_texts (const RodMember    *member,
            JsonNode           *node,
            gpointer            record,
            const RodJsonPlace *place,
            GError            **error)
{
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  RodMember  one = { .kind = ROD_MEMBER_TEXT, .flags = member->flags };
  JsonArray *array;

  if (!JSON_NODE_HOLDS_ARRAY (node))
    return refuse_kind (member, node, place, error);

  array = json_node_get_array (node);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      JsonNode    *item = json_array_get_element (array, i);
      RodJsonPlace item_place = rod_json_place_item (place, i);

      if (!holds (item, G_TYPE_STRING))
        return refuse_kind (&one, item, &item_place, error);
      g_ptr_array_add (texts, g_strdup (json_node_get_string (item)));
    }
  rod_record_take_list (record, member->offset, g_steal_pointer (&texts));
  return TRUE;
}

static gboolean
read_plain (const RodMember *member,
            JsonNode        *node,
            gpointer         record)
{
  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      return read_text (member, node, record);
    case ROD_MEMBER_NUMBER:
      return read_number (member, node, record);
    case ROD_MEMBER_INTEGER:
      return read_integer (member, node, record);
    case ROD_MEMBER_FLAG:
      return read_flag (member, node, record);
    case ROD_MEMBER_CHOICE:
      return read_choice (member, node, record);
    case ROD_MEMBER_TEXTS:
    case ROD_MEMBER_RECORD:
    case ROD_MEMBER_LIST:
    default:
      g_return_val_if_reached (FALSE);
    }
}

static gboolean
read_inner (const RodMember    *member,
            JsonNode           *node,
            gpointer            record,
            const RodJsonPlace *place,
            GError            **error)
{
  gpointer inner = read_record (member->of, node, place, error);

  if (inner == NULL)
    return FALSE;
  rod_record_take_record (record, member->offset, inner);
  return TRUE;
}

static gboolean
read_list (const RodMember    *member,
           JsonNode           *node,
           gpointer            record,
           const RodJsonPlace *place,
           GError            **error)
{
  g_autoptr (GPtrArray) list = rod_record_list_new ();
  JsonArray *array;

  if (!JSON_NODE_HOLDS_ARRAY (node))
    return refuse_kind (member, node, place, error);

  array = json_node_get_array (node);
  for (guint i = 0; i < json_array_get_length (array); i++)
    {
      RodJsonPlace item_place = rod_json_place_item (place, i);
      gpointer     item = read_record (member->of,
                                   json_array_get_element (array, i),
                                   &item_place,
                                   error);

      if (item == NULL)
        return FALSE;
      g_ptr_array_add (list, item);
    }
  rod_record_take_list (record, member->offset, g_steal_pointer (&list));
  return TRUE;
}

static gboolean
read_member (const RodMember    *member,
             JsonNode           *node,
             gpointer            record,
             const RodJsonPlace *place,
             GError            **error)
{
  if (node == NULL)
    return (member->flags & ROD_MEMBER_REQUIRED) == 0 || refuse_kind (member, NULL, place, error);

  if (member->kind == ROD_MEMBER_RECORD)
    return read_inner (member, node, record, place, error);
  if (member->kind == ROD_MEMBER_LIST)
    return read_list (member, node, record, place, error) &&
           rod_member_check (member, record, place, error);
  if (member->kind == ROD_MEMBER_TEXTS)
    return read_texts (member, node, record, place, error) &&
           rod_member_check (member, record, place, error);
  if (!read_plain (member, node, record))
    return refuse_kind (member, node, place, error);
  return rod_member_check (member, record, place, error);
}

static void
keep_unknown_members (RodRecord  *record,
                      JsonObject *object)
{
  g_autoptr (JsonObject) unknown = json_object_new ();
  g_autoptr (JsonNode) node = NULL;
  g_autofree char *text = NULL;
  JsonObjectIter   iter;
  const char      *name;

  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &name, NULL))
    {
      if (rod_type_find_member (record->type, name) == NULL)
        json_object_set_member (unknown, name, json_object_dup_member (object, name));
    }
  if (json_object_get_size (unknown) == 0)
    return;

  node = json_node_init_object (json_node_alloc (), unknown);
  text = rod_json_text (node);
  record->extra = g_ref_string_new (text);
}

static gpointer
read_record (const RodType      *type,
             JsonNode           *node,
             const RodJsonPlace *place,
             GError            **error)
{
  JsonObject *object;
  gpointer    record;

  if (!JSON_NODE_HOLDS_OBJECT (node))
    {
      RodMember any = { .kind = ROD_MEMBER_RECORD };

      refuse_kind (&any, node, place, error);
      return NULL;
    }

  object = json_node_get_object (node);
  record = rod_record_new (type);
  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      RodJsonPlace inner = rod_json_place_member (place, member->name);

      if (!read_member (member,
                        json_object_get_member (object, member->name),
                        record,
                        &inner,
                        error))
        {
          rod_record_unref (record);
          return NULL;
        }
    }
  keep_unknown_members (record, object);
  return record;
}

gpointer
rod_record_from_json (const RodType *type,
                      JsonNode      *node,
                      const char    *path,
                      GError       **error)
{
  RodJsonPlace place = rod_json_place_root (path);

  g_return_val_if_fail (type != NULL && node != NULL && path != NULL, NULL);

  return read_record (type, node, &place, error);
}
