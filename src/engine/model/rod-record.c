/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory, copying and comparing of every model value, from its type's member table.
 *
 * A record is one reference-counted block (counted atomically, so that a snapshot may be dropped
 * by any thread). What it owns follows from the rows: texts, other records, lists of either. The
 * member tables are the only place that knows a type's layout; a member added there is copied,
 * compared, freed, read, written and documented without another line of code.
 */
#include "config.h"

#include "engine/model/rod-record.h"

#include "engine/model/rod-member.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static gpointer
field_of (const RodMember *member,
          gpointer         record)
{
  return (guint8 *) record + member->offset;
}

static gconstpointer
const_field_of (const RodMember *member,
                gconstpointer    record)
{
  return (const guint8 *) record + member->offset;
}

static const RodType *
type_of (gconstpointer record)
{
  return ((const RodRecord *) record)->type;
}

const RodMember *
rod_type_find_member (const RodType *type,
                      const char    *name)
{
  for (const RodMember *member = type->members; member->name != NULL; member++)
    {
      if (strcmp (member->name, name) == 0)
        return member;
    }
  return NULL;
}

const char *
rod_member_text (const RodMember *member,
                 gconstpointer    record)
{
  g_return_val_if_fail (member->kind == ROD_MEMBER_TEXT, NULL);

  return *(char *const *) const_field_of (member, record);
}

double
rod_member_number (const RodMember *member,
                   gconstpointer    record)
{
  g_return_val_if_fail (member->kind == ROD_MEMBER_NUMBER, NAN);

  return *(const double *) const_field_of (member, record);
}

int
rod_member_integer (const RodMember *member,
                    gconstpointer    record)
{
  g_return_val_if_fail (member->kind == ROD_MEMBER_INTEGER || member->kind == ROD_MEMBER_FLAG ||
                          member->kind == ROD_MEMBER_CHOICE,
                        0);

  return *(const int *) const_field_of (member, record);
}

gconstpointer
rod_member_record (const RodMember *member,
                   gconstpointer    record)
{
  g_return_val_if_fail (member->kind == ROD_MEMBER_RECORD, NULL);

  return *(gconstpointer const *) const_field_of (member, record);
}

const GPtrArray *
rod_member_list (const RodMember *member,
                 gconstpointer    record)
{
  g_return_val_if_fail (member->kind == ROD_MEMBER_LIST || member->kind == ROD_MEMBER_TEXTS, NULL);

  return *(GPtrArray *const *) const_field_of (member, record);
}

void
rod_member_set_number (const RodMember *member,
                       gpointer         record,
                       double           number)
{
  g_return_if_fail (member->kind == ROD_MEMBER_NUMBER);

  *(double *) field_of (member, record) = number;
}

void
rod_member_set_integer (const RodMember *member,
                        gpointer         record,
                        int              value)
{
  g_return_if_fail (member->kind == ROD_MEMBER_INTEGER || member->kind == ROD_MEMBER_FLAG ||
                    member->kind == ROD_MEMBER_CHOICE);

  *(int *) field_of (member, record) = value;
}

gboolean
rod_number_same (double a,
                 double b)
{
  if (isnan (a) || isnan (b))
    return isnan (a) && isnan (b);
  return !(a < b) && !(a > b);
}

static const char *
fallback_text_of (const RodMember *member)
{
  return member->fallback_text != NULL ? member->fallback_text : "";
}

static gboolean
record_is_fallback (gconstpointer record)
{
  if (((const RodRecord *) record)->extra != NULL)
    return FALSE;

  for (const RodMember *member = type_of (record)->members; member->name != NULL; member++)
    {
      if (!rod_member_is_fallback (member, record))
        return FALSE;
    }
  return TRUE;
}

gboolean
rod_member_is_fallback (const RodMember *member,
                        gconstpointer    record)
{
  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      return g_strcmp0 (rod_member_text (member, record), fallback_text_of (member)) == 0;
    case ROD_MEMBER_NUMBER:
      return rod_number_same (rod_member_number (member, record), member->fallback);
    case ROD_MEMBER_INTEGER:
    case ROD_MEMBER_FLAG:
    case ROD_MEMBER_CHOICE:
      return rod_member_integer (member, record) == (int) member->fallback;
    case ROD_MEMBER_RECORD:
      {
        gconstpointer value = rod_member_record (member, record);

        if ((member->flags & ROD_MEMBER_FILLED) == 0)
          return value == NULL;
        return value != NULL && record_is_fallback (value);
      }
    case ROD_MEMBER_LIST:
    case ROD_MEMBER_TEXTS:
      return rod_member_list (member, record)->len == 0;
    default:
      g_return_val_if_reached (FALSE);
    }
}

static void
set_to_fallback (const RodMember *member,
                 gpointer         record)
{
  gpointer field = field_of (member, record);

  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      *(char **) field = g_strdup (fallback_text_of (member));
      break;
    case ROD_MEMBER_NUMBER:
      *(double *) field = member->fallback;
      break;
    case ROD_MEMBER_INTEGER:
    case ROD_MEMBER_FLAG:
    case ROD_MEMBER_CHOICE:
      *(int *) field = (int) member->fallback;
      break;
    case ROD_MEMBER_RECORD:
      if ((member->flags & ROD_MEMBER_FILLED) != 0)
        *(gpointer *) field = rod_record_new (member->of);
      break;
    case ROD_MEMBER_LIST:
      *(GPtrArray **) field = rod_record_list_new ();
      break;
    case ROD_MEMBER_TEXTS:
      *(GPtrArray **) field = g_ptr_array_new_with_free_func (g_free);
      break;
    default:
      g_assert_not_reached ();
    }
}

/* Takes over what the copied block points to: texts are doubled, the rest is shared. */
static void
own_copied_field (const RodMember *member,
                  gpointer         record)
{
  gpointer field = field_of (member, record);

  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      *(char **) field = g_strdup (*(char **) field);
      break;
    case ROD_MEMBER_RECORD:
      if (*(gpointer *) field != NULL)
        *(gpointer *) field = rod_record_ref (*(gpointer *) field);
      break;
    case ROD_MEMBER_LIST:
    case ROD_MEMBER_TEXTS:
      g_ptr_array_ref (*(GPtrArray **) field);
      break;
    case ROD_MEMBER_NUMBER:
    case ROD_MEMBER_INTEGER:
    case ROD_MEMBER_FLAG:
    case ROD_MEMBER_CHOICE:
      break;
    default:
      g_assert_not_reached ();
    }
}

static void
clear_field (const RodMember *member,
             gpointer         record)
{
  gpointer field = field_of (member, record);

  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      g_free (*(char **) field);
      break;
    case ROD_MEMBER_RECORD:
      rod_record_unref (*(gpointer *) field);
      break;
    case ROD_MEMBER_LIST:
    case ROD_MEMBER_TEXTS:
      g_ptr_array_unref (*(GPtrArray **) field);
      break;
    case ROD_MEMBER_NUMBER:
    case ROD_MEMBER_INTEGER:
    case ROD_MEMBER_FLAG:
    case ROD_MEMBER_CHOICE:
      break;
    default:
      g_assert_not_reached ();
    }
}

static void
clear_record (gpointer data)
{
  RodRecord *record = data;

  for (const RodMember *member = record->type->members; member->name != NULL; member++)
    clear_field (member, record);
  g_clear_pointer (&record->extra, g_ref_string_release);
}

gpointer
rod_record_new (const RodType *type)
{
  RodRecord *record;

  g_return_val_if_fail (type != NULL && type->size >= sizeof (RodRecord), NULL);

  record = g_atomic_rc_box_alloc0 (type->size);
  record->type = type;
  for (const RodMember *member = type->members; member->name != NULL; member++)
    set_to_fallback (member, record);
  return record;
}

gpointer
rod_record_ref (gconstpointer record)
{
  g_return_val_if_fail (record != NULL, NULL);

  /* The count is not part of the value, so that a reference to a constant record is allowed. */
  return g_atomic_rc_box_acquire ((gpointer) (guintptr) record);
}

void
rod_record_unref (gpointer record)
{
  if (record != NULL)
    g_atomic_rc_box_release_full (record, clear_record);
}

gpointer
rod_record_copy (gconstpointer record)
{
  RodRecord *copy;

  g_return_val_if_fail (record != NULL, NULL);

  copy = g_atomic_rc_box_alloc (type_of (record)->size);
  memcpy (copy, record, type_of (record)->size);
  if (copy->extra != NULL)
    copy->extra = g_ref_string_acquire (copy->extra);
  for (const RodMember *member = copy->type->members; member->name != NULL; member++)
    own_copied_field (member, copy);
  return copy;
}

static gboolean
equal_lists (const RodMember *member,
             const GPtrArray *a,
             const GPtrArray *b)
{
  if (a == b)
    return TRUE;
  if (a->len != b->len)
    return FALSE;

  for (guint i = 0; i < a->len; i++)
    {
      gboolean same = member->kind == ROD_MEMBER_TEXTS
                        ? g_str_equal (a->pdata[i], b->pdata[i])
                        : rod_record_equal (a->pdata[i], b->pdata[i]);

      if (!same)
        return FALSE;
    }
  return TRUE;
}

static gboolean
equal_fields (const RodMember *member,
              gconstpointer    a,
              gconstpointer    b)
{
  switch (member->kind)
    {
    case ROD_MEMBER_TEXT:
      return g_strcmp0 (rod_member_text (member, a), rod_member_text (member, b)) == 0;
    case ROD_MEMBER_NUMBER:
      return rod_number_same (rod_member_number (member, a), rod_member_number (member, b));
    case ROD_MEMBER_INTEGER:
    case ROD_MEMBER_CHOICE:
      return rod_member_integer (member, a) == rod_member_integer (member, b);
    case ROD_MEMBER_FLAG:
      return !rod_member_integer (member, a) == !rod_member_integer (member, b);
    case ROD_MEMBER_RECORD:
      return rod_record_equal (rod_member_record (member, a), rod_member_record (member, b));
    case ROD_MEMBER_LIST:
    case ROD_MEMBER_TEXTS:
      return equal_lists (member, rod_member_list (member, a), rod_member_list (member, b));
    default:
      g_return_val_if_reached (FALSE);
    }
}

gboolean
rod_record_equal (gconstpointer a,
                  gconstpointer b)
{
  if (a == b)
    return TRUE;
  if (a == NULL || b == NULL || type_of (a) != type_of (b) ||
      g_strcmp0 (((const RodRecord *) a)->extra, ((const RodRecord *) b)->extra) != 0)
    return FALSE;

  for (const RodMember *member = type_of (a)->members; member->name != NULL; member++)
    {
      if (!equal_fields (member, a, b))
        return FALSE;
    }
  return TRUE;
}

static const RodMember *
find_at (gconstpointer record,
         gsize         offset)
{
  for (const RodMember *member = type_of (record)->members; member->name != NULL; member++)
    {
      if (member->offset == offset)
        return member;
    }
  return NULL;
}

void
rod_record_set_text (gpointer    record,
                     gsize       offset,
                     const char *text)
{
  const RodMember *member = find_at (record, offset);
  char           **field;

  g_return_if_fail (member != NULL && member->kind == ROD_MEMBER_TEXT);
  g_return_if_fail (text != NULL);

  field = field_of (member, record);
  g_free (*field);
  *field = g_strdup (text);
}

void
rod_record_take_record (gpointer record,
                        gsize    offset,
                        gpointer value)
{
  const RodMember *member = find_at (record, offset);
  gpointer        *field;

  g_return_if_fail (member != NULL && member->kind == ROD_MEMBER_RECORD);
  g_return_if_fail (value == NULL || type_of (value) == member->of);

  field = field_of (member, record);
  rod_record_unref (*field);
  *field = value;
}

void
rod_record_take_list (gpointer   record,
                      gsize      offset,
                      GPtrArray *list)
{
  const RodMember *member = find_at (record, offset);
  GPtrArray      **field;

  g_return_if_fail (member != NULL);
  g_return_if_fail (member->kind == ROD_MEMBER_LIST || member->kind == ROD_MEMBER_TEXTS);
  g_return_if_fail (list != NULL);

  field = field_of (member, record);
  g_ptr_array_unref (*field);
  *field = list;
}

GPtrArray *
rod_record_list_new (void)
{
  return g_ptr_array_new_with_free_func (rod_record_unref);
}

GPtrArray *
rod_record_list_copy (const GPtrArray *list)
{
  GPtrArray *copy = rod_record_list_new ();

  for (guint i = 0; i < list->len; i++)
    g_ptr_array_add (copy, rod_record_ref (list->pdata[i]));
  return copy;
}

static const RodChoice *
find_choice (const RodChoice *choices,
             int              value)
{
  for (const RodChoice *choice = choices; choice->nick != NULL; choice++)
    {
      if (choice->value == value)
        return choice;
    }
  return NULL;
}

const char *
rod_choice_nick (const RodChoice *choices,
                 int              value)
{
  const RodChoice *choice = find_choice (choices, value);

  return choice != NULL ? choice->nick : "?";
}

const char *
rod_choice_label (const RodChoice *choices,
                  int              value)
{
  const RodChoice *choice = find_choice (choices, value);

  return choice != NULL ? _ (choice->label) : "?";
}
