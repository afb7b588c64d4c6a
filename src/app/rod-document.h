/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "engine/takeoff/rod-takeoff.h"

G_BEGIN_DECLS

#define ROD_TYPE_DOCUMENT (rod_document_get_type ())
G_DECLARE_FINAL_TYPE (RodDocument, rod_document, ROD, DOCUMENT, GObject)

/**
 * RodDocumentState:
 * @ROD_DOCUMENT_EMPTY: no house
 * @ROD_DOCUMENT_OPENING: a house is being read and planned
 * @ROD_DOCUMENT_FAILED: the file could not be opened, see rod_document_get_error()
 * @ROD_DOCUMENT_PLANNED: there is a plan; cutting lists and order are being made
 * @ROD_DOCUMENT_READY: all is there
 *
 * How far a document is.
 */
typedef enum
{
  ROD_DOCUMENT_EMPTY,
  ROD_DOCUMENT_OPENING,
  ROD_DOCUMENT_FAILED,
  ROD_DOCUMENT_PLANNED,
  ROD_DOCUMENT_READY,
} RodDocumentState;

/**
 * rod_document_new:
 *
 * A house with what follows from it. Reading, planning and taking off run in threads; "changed"
 * is emitted in the main one whenever the state is another.
 *
 * Returns: (transfer full): an empty document
 */
RodDocument *rod_document_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_document_open:
 * @self: a document
 * @file: a house file; need not be local
 *
 * Begins to open a file. What is being opened already is given up; the house shown so far stays
 * until the new one is planned.
 */
void rod_document_open (RodDocument *self,
                        GFile       *file);

/**
 * rod_document_get_state:
 * @self: a document
 *
 * Returns: how far it is
 */
RodDocumentState rod_document_get_state (RodDocument *self);

/**
 * rod_document_get_asked:
 * @self: a document
 *
 * Returns: (transfer none) (nullable): the file last asked for, whether it could be opened or not
 */
GFile *rod_document_get_asked (RodDocument *self);

/**
 * rod_document_get_file:
 * @self: a document
 *
 * Returns: (transfer none) (nullable): the file of the plan
 */
GFile *rod_document_get_file (RodDocument *self);

/**
 * rod_document_get_error:
 * @self: a document
 *
 * Returns: (transfer none) (nullable): why the last file could not be opened
 */
const GError *rod_document_get_error (RodDocument *self);

/**
 * rod_document_get_plan:
 * @self: a document
 *
 * Returns: (transfer none) (nullable): the plan
 */
RodPlan *rod_document_get_plan (RodDocument *self);

/**
 * rod_document_get_takeoff:
 * @self: a document
 *
 * Returns: (transfer none) (nullable): the take-off, once it is made
 */
RodTakeoff *rod_document_get_takeoff (RodDocument *self);

/**
 * rod_document_get_findings:
 * @self: a document
 *
 * Returns: (transfer none): the findings, as #RodFindingItem, worst first; always the same list
 */
GListModel *rod_document_get_findings (RodDocument *self);

/**
 * rod_document_dup_title:
 * @self: a document
 *
 * Returns: (transfer full): name of the house, else of the file, else of the program
 */
char *rod_document_dup_title (RodDocument *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
