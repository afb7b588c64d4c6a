/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-record.h"

#include <math.h>

G_BEGIN_DECLS

/* One row of a member table: the JSON name is the name in the struct, what follows are designated
 * members of #RodMember. */
#define ROD_ROW(Type, field, KIND, ...)      \
  {                                          \
    .name = #field,                          \
    .kind = ROD_MEMBER_##KIND,               \
    .offset = G_STRUCT_OFFSET (Type, field), \
    __VA_ARGS__                              \
  }

/* Fallback of a number that may be left open. */
#define ROD_NOT_GIVEN ((double) NAN)

#define ROD_ROWS_END \
  {                  \
    .name = NULL     \
  }

/**
 * rod_type_find_member:
 * @type: a type
 * @name: name in JSON
 *
 * Returns: (nullable): the row, %NULL when the type does not know it
 */
const RodMember *rod_type_find_member (const RodType *type,
                                       const char    *name);

/**
 * rod_member_text:
 * @member: a row of kind %ROD_MEMBER_TEXT
 * @record: a record of its type
 *
 * Returns: (transfer none): the text
 */
const char *rod_member_text (const RodMember *member,
                             gconstpointer    record);

/**
 * rod_member_number:
 * @member: a row of kind %ROD_MEMBER_NUMBER
 * @record: a record of its type
 *
 * Returns: the number
 */
double rod_member_number (const RodMember *member,
                          gconstpointer    record);

/**
 * rod_member_integer:
 * @member: a row of kind %ROD_MEMBER_INTEGER, %ROD_MEMBER_FLAG or %ROD_MEMBER_CHOICE
 * @record: a record of its type
 *
 * Returns: the value
 */
int rod_member_integer (const RodMember *member,
                        gconstpointer    record);

/**
 * rod_member_record:
 * @member: a row of kind %ROD_MEMBER_RECORD
 * @record: a record of its type
 *
 * Returns: (transfer none) (nullable): the record
 */
gconstpointer rod_member_record (const RodMember *member,
                                 gconstpointer    record);

/**
 * rod_member_list:
 * @member: a row of kind %ROD_MEMBER_LIST or %ROD_MEMBER_TEXTS
 * @record: a record of its type
 *
 * Returns: (transfer none): the list
 */
const GPtrArray *rod_member_list (const RodMember *member,
                                  gconstpointer    record);

/**
 * rod_member_set_number:
 * @member: a row of kind %ROD_MEMBER_NUMBER
 * @record: a record not yet shared
 * @number: the number
 */
void rod_member_set_number (const RodMember *member,
                            gpointer         record,
                            double           number);

/**
 * rod_member_set_integer:
 * @member: a row of kind %ROD_MEMBER_INTEGER, %ROD_MEMBER_FLAG or %ROD_MEMBER_CHOICE
 * @record: a record not yet shared
 * @value: the value
 */
void rod_member_set_integer (const RodMember *member,
                             gpointer         record,
                             int              value);

/**
 * rod_member_is_fallback:
 * @member: a row
 * @record: a record of its type
 *
 * Returns: whether the member says what it says when it is not given
 */
gboolean rod_member_is_fallback (const RodMember *member,
                                 gconstpointer    record);

/**
 * rod_number_same:
 * @a: a number
 * @b: a number
 *
 * Returns: whether both are equal, or both not-a-number
 */
gboolean rod_number_same (double a,
                          double b);

G_END_DECLS
