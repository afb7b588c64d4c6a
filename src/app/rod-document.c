/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opens a house in two steps, each in a thread: first the plan, which takes milliseconds and is
 * shown at once, then the take-off, which may take a second. House, plan and take-off are
 * immutable, so that no lock is needed. A step that was overtaken by another file is recognised by
 * its cancellable and thrown away. The steps do not keep the document alive: a window that is
 * closed gives everything back at once, and the thread ends in its own time.
 */
#include "config.h"

#include "app/rod-document.h"

#include <glib/gi18n.h>

#include "app/rod-finding-item.h"
#include "engine/files/rod-file.h"
#include "engine/files/rod-takeoff-file.h"
#include "engine/rod-limits.h"

struct _RodDocument
{
  GObject parent_instance;

  /* Owned */
  GFile        *asked;
  GFile        *file;
  GError       *error;
  RodPlan      *plan;
  RodTakeoff   *takeoff;
  GListStore   *findings;
  GCancellable *cancellable;

  RodDocumentState state;
};

G_DEFINE_FINAL_TYPE (RodDocument, rod_document, G_TYPE_OBJECT)

static guint changed_signal;

static void
enter_state (RodDocument     *self,
             RodDocumentState state)
{
  self->state = state;
  g_signal_emit (self, changed_signal, 0);
}

static void
append_findings (RodDocument  *self,
                 const GArray *findings,
                 GPtrArray    *items)
{
  for (guint i = 0; i < findings->len; i++)
    g_ptr_array_add (items,
                     rod_finding_item_new (self->plan, &g_array_index (findings, RodFinding, i)));
}

static void
update_findings (RodDocument *self)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);

  if (self->takeoff != NULL)
    {
      g_autoptr (GArray) findings = rod_takeoff_findings (self->takeoff);

      append_findings (self, findings, items);
    }
  else if (self->plan != NULL)
    {
      append_findings (self, self->plan->findings, items);
    }

  g_list_store_splice (self->findings,
                       0,
                       g_list_model_get_n_items (G_LIST_MODEL (self->findings)),
                       items->pdata,
                       items->len);
}

static GWeakRef *
new_weak_ref (RodDocument *self)
{
  GWeakRef *ref = g_new (GWeakRef, 1);

  g_weak_ref_init (ref, self);

  return ref;
}

static RodDocument *
take_weak_ref (gpointer user_data)
{
  GWeakRef    *ref = user_data;
  RodDocument *self = g_weak_ref_get (ref);

  g_weak_ref_clear (ref);
  g_free (ref);

  return self;
}

static void
run_in_thread (RodDocument        *self,
               GTaskThreadFunc     step,
               gpointer            input,
               GDestroyNotify      free_input,
               GAsyncReadyCallback done)
{
  g_autoptr (GTask) task = g_task_new (NULL, self->cancellable, done, new_weak_ref (self));

  g_task_set_source_tag (task, run_in_thread);
  g_task_set_return_on_cancel (task, TRUE);
  g_task_set_task_data (task, input, free_input);
  g_task_run_in_thread (task, step);
}

static gboolean
is_overtaken (RodDocument  *self,
              GAsyncResult *result)
{
  return self == NULL || g_task_get_cancellable (G_TASK (result)) != self->cancellable;
}

static void
take_off_in_thread (GTask        *task,
                    gpointer      source,
                    gpointer      plan,
                    GCancellable *cancellable)
{
  if (!g_task_return_error_if_cancelled (task))
    g_task_return_pointer (
      task, rod_takeoff_new (plan, cancellable), (GDestroyNotify) rod_takeoff_unref);
}

static void
taken_off_cb (GObject      *source,
              GAsyncResult *result,
              gpointer      user_data)
{
  g_autoptr (RodDocument) self = take_weak_ref (user_data);
  g_autoptr (RodTakeoff) takeoff = g_task_propagate_pointer (G_TASK (result), NULL);

  if (takeoff == NULL || is_overtaken (self, result))
    return;

  self->takeoff = g_steal_pointer (&takeoff);
  update_findings (self);
  enter_state (self, ROD_DOCUMENT_READY);
}

static void
take_off (RodDocument *self)
{
  run_in_thread (self,
                 take_off_in_thread,
                 rod_plan_ref (self->plan),
                 (GDestroyNotify) rod_plan_unref,
                 taken_off_cb);
}

/* A local file may name systems beside it; any other file stands for itself. */
static RodHouse *
read_house (GFile        *file,
            GCancellable *cancellable,
            GError      **error)
{
  g_autofree char *path = g_file_get_path (file);
  g_autoptr (GBytes) bytes = NULL;
  gsize       length;
  const char *text;

  if (path != NULL)
    return rod_house_load (path, error);

  bytes = g_file_load_bytes (file, cancellable, NULL, error);
  if (bytes == NULL)
    return NULL;

  text = g_bytes_get_data (bytes, &length);
  if (length > ROD_MAX_FILE_BYTES)
    {
      g_set_error_literal (error,
                           ROD_FILE_ERROR,
                           ROD_FILE_ERROR_SYNTAX,
                           _ ("The file is too large for a house. Choose a house file."));
      return NULL;
    }

  return rod_house_parse (text != NULL ? text : "", (gssize) length, NULL, error);
}

static void
plan_in_thread (GTask        *task,
                gpointer      source,
                gpointer      file,
                GCancellable *cancellable)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (RodHouse) house = read_house (file, cancellable, &error);

  if (house == NULL)
    g_task_return_error (task, g_steal_pointer (&error));
  else if (!g_task_return_error_if_cancelled (task))
    g_task_return_pointer (task, rod_plan_new (house), (GDestroyNotify) rod_plan_unref);
}

static void
planned_cb (GObject      *source,
            GAsyncResult *result,
            gpointer      user_data)
{
  g_autoptr (RodDocument) self = take_weak_ref (user_data);
  g_autoptr (GError) error = NULL;
  g_autoptr (RodPlan) plan = g_task_propagate_pointer (G_TASK (result), &error);

  if (is_overtaken (self, result))
    return;

  if (plan == NULL)
    {
      self->error = g_steal_pointer (&error);
      enter_state (self, ROD_DOCUMENT_FAILED);
      /* The house that stays may have lost its take-off to the attempt. */
      if (self->plan != NULL && self->takeoff == NULL)
        take_off (self);
      return;
    }

  g_set_object (&self->file, self->asked);
  g_clear_pointer (&self->takeoff, rod_takeoff_unref);
  g_clear_pointer (&self->plan, rod_plan_unref);
  self->plan = g_steal_pointer (&plan);
  update_findings (self);
  enter_state (self, ROD_DOCUMENT_PLANNED);
  take_off (self);
}

static void
give_up (RodDocument *self)
{
  g_cancellable_cancel (self->cancellable);
  g_clear_object (&self->cancellable);
}

static void
rod_document_dispose (GObject *object)
{
  RodDocument *self = ROD_DOCUMENT (object);

  give_up (self);
  g_clear_object (&self->asked);
  g_clear_object (&self->file);
  g_clear_object (&self->findings);
  g_clear_error (&self->error);
  g_clear_pointer (&self->takeoff, rod_takeoff_unref);
  g_clear_pointer (&self->plan, rod_plan_unref);

  G_OBJECT_CLASS (rod_document_parent_class)->dispose (object);
}

static void
rod_document_class_init (RodDocumentClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = rod_document_dispose;

  changed_signal = g_signal_new ("changed",
                                 ROD_TYPE_DOCUMENT,
                                 G_SIGNAL_RUN_LAST,
                                 0,
                                 NULL,
                                 NULL,
                                 NULL,
                                 G_TYPE_NONE,
                                 0);
}

static void
rod_document_init (RodDocument *self)
{
  self->findings = g_list_store_new (ROD_TYPE_FINDING_ITEM);
}

RodDocument *
rod_document_new (void)
{
  return g_object_new (ROD_TYPE_DOCUMENT, NULL);
}

void
rod_document_open (RodDocument *self,
                   GFile       *file)
{
  g_return_if_fail (ROD_IS_DOCUMENT (self));
  g_return_if_fail (G_IS_FILE (file));

  give_up (self);
  g_set_object (&self->asked, file);
  g_clear_error (&self->error);
  self->cancellable = g_cancellable_new ();

  run_in_thread (self, plan_in_thread, g_object_ref (file), g_object_unref, planned_cb);
  enter_state (self, ROD_DOCUMENT_OPENING);
}

RodDocumentState
rod_document_get_state (RodDocument *self)
{
  g_return_val_if_fail (ROD_IS_DOCUMENT (self), ROD_DOCUMENT_EMPTY);

  return self->state;
}

GFile *
rod_document_get_asked (RodDocument *self)
{
  g_return_val_if_fail (ROD_IS_DOCUMENT (self), NULL);

  return self->asked;
}

GFile *
rod_document_get_file (RodDocument *self)
{
  g_return_val_if_fail (ROD_IS_DOCUMENT (self), NULL);

  return self->file;
}

const GError *
rod_document_get_error (RodDocument *self)
{
  g_return_val_if_fail (ROD_IS_DOCUMENT (self), NULL);

  return self->error;
}

RodPlan *
rod_document_get_plan (RodDocument *self)
{
  g_return_val_if_fail (ROD_IS_DOCUMENT (self), NULL);

  return self->plan;
}

RodTakeoff *
rod_document_get_takeoff (RodDocument *self)
{
  g_return_val_if_fail (ROD_IS_DOCUMENT (self), NULL);

  return self->takeoff;
}

GListModel *
rod_document_get_findings (RodDocument *self)
{
  g_return_val_if_fail (ROD_IS_DOCUMENT (self), NULL);

  return G_LIST_MODEL (self->findings);
}

char *
rod_document_dup_title (RodDocument *self)
{
  g_return_val_if_fail (ROD_IS_DOCUMENT (self), NULL);

  if (self->plan != NULL && self->plan->house->name[0] != '\0')
    return g_strdup (self->plan->house->name);
  if (self->plan != NULL && self->file != NULL)
    return g_file_get_basename (self->file);

  return g_strdup (_ ("Storeyrod"));
}
