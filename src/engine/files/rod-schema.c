/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes JSON Schemas from the member tables, so that what is published is what is read.
 *
 * Every type becomes one definition; a definition refers to those of its inner records. What the
 * tables cannot say (that a reference leads somewhere, that an outline does not cross itself) is
 * left to rod_house_check().
 */
#include "config.h"

#include "engine/files/rod-file.h"

#include "engine/files/rod-member-check.h"
#include "engine/model/rod-member.h"

#include <math.h>

#define DIALECT "https://json-schema.org/draft/2020-12/schema"
#define SCHEMA_ADDRESS "https://storeyrod.org/schemas/%s-%d.json"

static gboolean
has_flag (const RodMember *member,
          RodMemberFlags   flag)
{
  return (member->flags & flag) != 0;
}

static gboolean
is_named (const RodMember *member,
          const char      *name)
{
  return g_str_equal (member->name, name);
}

static void
set_number (JsonObject *object,
            const char *name,
            double      number)
{
  if (rod_number_same (number, trunc (number)))
    json_object_set_int_member (object, name, (gint64) number);
  else
    json_object_set_double_member (object, name, number);
}

static void
describe_number (const RodMember *member,
                 JsonObject      *schema)
{
  gboolean is_above = has_flag (member, ROD_MEMBER_ABOVE_MIN);

  json_object_set_string_member (schema,
                                 "type",
                                 member->kind == ROD_MEMBER_NUMBER ? "number" : "integer");
  set_number (schema, is_above ? "exclusiveMinimum" : "minimum", member->min);
  set_number (schema, "maximum", rod_member_greatest (member));
  if (!isnan (member->fallback) && !has_flag (member, ROD_MEMBER_REQUIRED))
    set_number (schema, "default", member->fallback);
}

static void
describe_text_limits (const RodMember *member,
                      JsonObject      *schema)
{
  g_autofree char *whole = NULL;

  json_object_set_string_member (schema, "type", "string");
  json_object_set_int_member (schema, "maxLength", (gint64) rod_member_greatest (member));

  /* An optional identifier may also be given as the "" that it is when left out. */
  if (member->pattern != NULL)
    whole = g_strdup_printf ("^(?:%s)$", member->pattern);
  else if (has_flag (member, ROD_MEMBER_IDENTIFIER))
    whole = g_strdup_printf ("^[A-Za-z0-9._-]%c$",
                             has_flag (member, ROD_MEMBER_REQUIRED) ? '+' : '*');
  if (whole != NULL)
    json_object_set_string_member (schema, "pattern", whole);
}

static void
describe_text (const RodMember *member,
               const RodType   *type,
               JsonObject      *schema)
{
  if (type->format != NULL && is_named (member, "format"))
    {
      json_object_set_string_member (schema, "const", type->format);
      return;
    }

  describe_text_limits (member, schema);
  if (member->fallback_text != NULL)
    json_object_set_string_member (schema, "default", member->fallback_text);
}

static void
describe_choice (const RodMember *member,
                 JsonObject      *schema)
{
  JsonArray *words = json_array_new ();

  for (const RodChoice *choice = member->choices; choice->nick != NULL; choice++)
    json_array_add_string_element (words, choice->nick);
  json_object_set_array_member (schema, "enum", words);
  if (!has_flag (member, ROD_MEMBER_REQUIRED))
    json_object_set_string_member (schema,
                                   "default",
                                   rod_choice_nick (member->choices, (int) member->fallback));
}

static void
set_reference (JsonObject    *schema,
               const RodType *type)
{
  g_autofree char *reference = g_strdup_printf ("#/$defs/%s", type->name);

  json_object_set_string_member (schema, "$ref", reference);
}

static void
describe_list (const RodMember *member,
               JsonObject      *schema)
{
  JsonObject *items = json_object_new ();

  if (member->kind == ROD_MEMBER_LIST)
    {
      set_reference (items, member->of);
    }
  else
    {
      RodMember one = { .kind = ROD_MEMBER_TEXT, .flags = member->flags | ROD_MEMBER_REQUIRED };

      describe_text_limits (&one, items);
    }

  json_object_set_string_member (schema, "type", "array");
  json_object_set_object_member (schema, "items", items);
  set_number (schema, "minItems", member->min);
  set_number (schema, "maxItems", rod_member_greatest (member));
}

static JsonObject *
member_schema (const RodMember *member,
               const RodType   *type)
{
  JsonObject      *schema = json_object_new ();
  g_autofree char *doc = member->unit != NULL
                           ? g_strdup_printf ("%s Unit: %s.", member->doc, member->unit)
                           : g_strdup (member->doc);

  json_object_set_string_member (schema, "description", doc);
  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      describe_text (member, type, schema);
      break;
    case ROD_MEMBER_NUMBER:
    case ROD_MEMBER_INTEGER:
      describe_number (member, schema);
      break;
    case ROD_MEMBER_FLAG:
      json_object_set_string_member (schema, "type", "boolean");
      json_object_set_boolean_member (schema, "default", member->fallback > 0);
      break;
    case ROD_MEMBER_CHOICE:
      describe_choice (member, schema);
      break;
    case ROD_MEMBER_RECORD:
      set_reference (schema, member->of);
      break;
    case ROD_MEMBER_LIST:
    case ROD_MEMBER_TEXTS:
      describe_list (member, schema);
      break;
    default:
      g_assert_not_reached ();
    }
  return schema;
}

static const RodMember *
find_instead (const RodType *type)
{
  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      if (has_flag (member, ROD_MEMBER_INSTEAD))
        return member;
    }
  return NULL;
}

static JsonArray *
required_names (const RodType *type)
{
  JsonArray *names = json_array_new ();

  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      if (has_flag (member, ROD_MEMBER_REQUIRED))
        json_array_add_string_element (names, member->name);
    }
  return names;
}

static void
add_alternative (JsonArray *alternatives,
                 JsonArray *required)
{
  JsonObject *alternative = json_object_new ();

  json_object_set_array_member (alternative, "required", required);
  json_array_add_object_element (alternatives, alternative);
}

/* Says what must be given: all required members, or the one that stands for them. */
static void
require_members (const RodType *type,
                 JsonObject    *schema)
{
  const RodMember *instead = find_instead (type);
  JsonArray       *required = required_names (type);
  JsonArray       *alternatives, *only;

  if (instead == NULL)
    {
      json_object_set_array_member (schema, "required", required);
      return;
    }

  only = json_array_new ();
  json_array_add_string_element (only, instead->name);
  alternatives = json_array_new ();
  add_alternative (alternatives, only);
  add_alternative (alternatives, required);
  json_object_set_array_member (schema, "anyOf", alternatives);
}

static JsonObject *
type_schema (const RodType *type)
{
  JsonObject *schema = json_object_new ();
  JsonObject *properties = json_object_new ();

  json_object_set_string_member (schema, "description", type->doc);
  json_object_set_string_member (schema, "type", "object");
  for (const RodMember *member = type->members; member->name != NULL; member++)
    json_object_set_object_member (properties, member->name, member_schema (member, type));
  json_object_set_object_member (schema, "properties", properties);
  require_members (type, schema);
  return schema;
}

static void
add_definitions (JsonObject    *definitions,
                 const RodType *type)
{
  if (json_object_has_member (definitions, type->name))
    return;

  json_object_set_object_member (definitions, type->name, type_schema (type));
  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      if (member->of != NULL)
        add_definitions (definitions, member->of);
    }
}

/* In a file of its own a record is given whole and says what it is. */
static JsonArray *
required_in_file (const RodType *type)
{
  JsonArray *names = required_names (type);

  if (find_instead (type) != NULL)
    {
      json_array_add_string_element (names, "format");
      json_array_add_string_element (names, "version");
    }
  return names;
}

JsonNode *
rod_type_schema (const RodType *type,
                 const char    *title)
{
  JsonObject      *schema;
  JsonObject      *definitions;
  JsonNode        *node;
  g_autofree char *address = NULL;

  g_return_val_if_fail (type != NULL && title != NULL, NULL);

  schema = json_object_new ();
  json_object_set_string_member (schema, "$schema", DIALECT);
  if (type->format != NULL)
    {
      address = g_strdup_printf (SCHEMA_ADDRESS, type->name, type->version);
      json_object_set_string_member (schema, "$id", address);
    }
  json_object_set_string_member (schema, "title", title);
  json_object_set_string_member (schema, "description", type->doc);
  set_reference (schema, type);
  if (type->format != NULL)
    json_object_set_array_member (schema, "required", required_in_file (type));

  definitions = json_object_new ();
  add_definitions (definitions, type);
  json_object_set_object_member (schema, "$defs", definitions);

  node = json_node_new (JSON_NODE_OBJECT);
  json_node_take_object (node, schema);
  return node;
}
