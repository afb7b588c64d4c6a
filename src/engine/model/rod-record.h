/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _RodType   RodType;
typedef struct _RodMember RodMember;

/**
 * RodRecord:
 * @type: which members follow
 * @extra: (nullable): members that the type does not know, as the text of a JSON object; written
 *         back unchanged. A reference-counted string (g_ref_string_new())
 *
 * First member of every model value. Records are reference-counted and immutable once built: an
 * edit is a copy (rod_record_copy()) that shares every list and record it does not replace, so that
 * snapshots are cheap and may be read from any thread.
 */
typedef struct
{
  const RodType *type;
  char          *extra;
} RodRecord;

/**
 * RodChoice:
 * @value: value of the enumeration
 * @nick: word in files
 * @label: word on screen, marked for translation
 *
 * One word of an enumeration; tables end with a %NULL @nick.
 */
typedef struct
{
  int         value;
  const char *nick;
  const char *label;
} RodChoice;

/**
 * RodMemberKind:
 * @ROD_MEMBER_TEXT: `char *`, never %NULL once built (the fallback may be "")
 * @ROD_MEMBER_NUMBER: `double`; not-a-number means "not given" where the fallback is so
 * @ROD_MEMBER_INTEGER: `int`
 * @ROD_MEMBER_FLAG: `gboolean`
 * @ROD_MEMBER_CHOICE: `int`, one of the member's choices
 * @ROD_MEMBER_RECORD: pointer to a record of the member's type, %NULL when optional and not given
 * @ROD_MEMBER_LIST: `GPtrArray *` of records, never %NULL once built
 * @ROD_MEMBER_TEXTS: `GPtrArray *` of `char *`, never %NULL once built
 */
typedef enum
{
  ROD_MEMBER_TEXT,
  ROD_MEMBER_NUMBER,
  ROD_MEMBER_INTEGER,
  ROD_MEMBER_FLAG,
  ROD_MEMBER_CHOICE,
  ROD_MEMBER_RECORD,
  ROD_MEMBER_LIST,
  ROD_MEMBER_TEXTS,
} RodMemberKind;

/**
 * RodMemberFlags:
 * @ROD_MEMBER_REQUIRED: a file without it is refused
 * @ROD_MEMBER_IDENTIFIER: text of letters, digits, '-', '_' and '.', not empty
 * @ROD_MEMBER_ABOVE_MIN: @min itself is not allowed
 * @ROD_MEMBER_FILLED: a record that is not given is one of fallbacks instead of %NULL
 * @ROD_MEMBER_INSTEAD: names where the record is read from; in a file it stands instead of all
 *                      other members that are required
 */
typedef enum
{
  ROD_MEMBER_REQUIRED = 1 << 0,
  ROD_MEMBER_IDENTIFIER = 1 << 1,
  ROD_MEMBER_ABOVE_MIN = 1 << 2,
  ROD_MEMBER_FILLED = 1 << 3,
  ROD_MEMBER_INSTEAD = 1 << 4,
} RodMemberFlags;

/**
 * RodMember:
 * @name: name in JSON
 * @kind: what the struct holds
 * @offset: where in the struct
 * @flags: see #RodMemberFlags
 * @min: least number, or least count of a list
 * @max: greatest number, greatest count of a list, or greatest length of a text in bytes (0: the
 *       general limit)
 * @fallback: number, flag or choice when not given
 * @fallback_text: (nullable): text when not given
 * @pattern: (nullable): regular expression that a given text matches as a whole
 * @unit: (nullable): "mm", "°", "°C", …
 * @of: (nullable): type of the record or of the list's records
 * @choices: (nullable): words of a choice
 * @doc: one sentence for schema and documentation
 *
 * A member of a type, declared once: reading, writing, limits, defaults, memory, schema and
 * documentation all come from this row.
 */
struct _RodMember
{
  const char      *name;
  RodMemberKind    kind;
  gsize            offset;
  guint            flags;
  double           min;
  double           max;
  double           fallback;
  const char      *fallback_text;
  const char      *pattern;
  const char      *unit;
  const RodType   *of;
  const RodChoice *choices;
  const char      *doc;
};

/**
 * RodType:
 * @name: name in schema and documentation, e.g. "surface"
 * @doc: one sentence
 * @size: size of the struct
 * @members: rows, ended by a %NULL name
 * @format: (nullable): word in the member "format" of a file of this type
 * @version: newest version of that format
 */
struct _RodType
{
  const char      *name;
  const char      *doc;
  gsize            size;
  const RodMember *members;
  const char      *format;
  int              version;
};

/**
 * rod_record_new:
 * @type: a type
 *
 * Returns: (transfer full): a record with every member at its fallback; fill it before sharing it
 */
gpointer rod_record_new (const RodType *type) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_record_ref:
 * @record: a record
 *
 * Returns: (transfer full): @record
 */
gpointer rod_record_ref (gconstpointer record) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_record_unref:
 * @record: (transfer full) (nullable): a record
 */
void rod_record_unref (gpointer record);

/**
 * rod_record_copy:
 * @record: a record
 *
 * Returns: (transfer full): a new record with the same members; texts are copied, records and
 *          lists are shared (replace a list by a new one to change it)
 */
gpointer rod_record_copy (gconstpointer record) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_record_equal:
 * @a: (nullable): a record
 * @b: (nullable): a record
 *
 * Compares by value, unknown members included. Shared parts compare in no time.
 *
 * Returns: whether both say the same
 */
gboolean rod_record_equal (gconstpointer a,
                           gconstpointer b);

/**
 * rod_record_set_text:
 * @record: a record not yet shared
 * @offset: offset of a text member
 * @text: the new text; copied
 *
 * For building records in code.
 */
void rod_record_set_text (gpointer    record,
                          gsize       offset,
                          const char *text);

/**
 * rod_record_take_record:
 * @record: a record not yet shared
 * @offset: offset of a record member
 * @value: (transfer full) (nullable): the new record
 *
 * For building records in code.
 */
void rod_record_take_record (gpointer record,
                             gsize    offset,
                             gpointer value);

/**
 * rod_record_take_list:
 * @record: a record not yet shared
 * @offset: offset of a list
 * @list: (transfer full): the new list
 *
 * For building records in code: a copy shares its lists, so that a change needs a new one.
 */
void rod_record_take_list (gpointer   record,
                           gsize      offset,
                           GPtrArray *list);

/**
 * rod_record_list_new:
 *
 * Returns: (transfer full): an empty list that owns the records put into it
 */
GPtrArray *rod_record_list_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_record_list_copy:
 * @list: a list of records
 *
 * Returns: (transfer full): a new list of the same records
 */
GPtrArray *rod_record_list_copy (const GPtrArray *list) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_choice_nick:
 * @choices: a table
 * @value: a value
 *
 * Returns: the word in files for @value, or "?" when the table does not hold it
 */
const char *rod_choice_nick (const RodChoice *choices,
                             int              value);

/**
 * rod_choice_label:
 * @choices: a table
 * @value: a value
 *
 * Returns: the translated word on screen for @value
 */
const char *rod_choice_label (const RodChoice *choices,
                              int              value);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodRecord, rod_record_unref)

G_END_DECLS
