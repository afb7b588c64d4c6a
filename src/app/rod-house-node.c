/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "app/rod-house-node.h"

#include <glib/gi18n.h>

#include "sheets/rod-figures.h"

struct _RodHouseNode
{
  GObject parent_instance;

  /* Owned */
  RodPlan *plan;
  char    *name;
  char    *figure;

  RodHouseNodeKind kind;
  RodPlace         place;
  guint            first_piece; /* of a course */
  guint            n_pieces;
};

G_DEFINE_FINAL_TYPE (RodHouseNode, rod_house_node, G_TYPE_OBJECT)

static void
rod_house_node_finalize (GObject *object)
{
  RodHouseNode *self = ROD_HOUSE_NODE (object);

  g_clear_pointer (&self->plan, rod_plan_unref);
  g_clear_pointer (&self->name, g_free);
  g_clear_pointer (&self->figure, g_free);

  G_OBJECT_CLASS (rod_house_node_parent_class)->finalize (object);
}

static void
rod_house_node_class_init (RodHouseNodeClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = rod_house_node_finalize;
}

static void
rod_house_node_init (RodHouseNode *self)
{
}

static RodHouseNode *
new_node (RodPlan *plan,
          RodPlace place,
          char    *name,
          char    *figure)
{
  RodHouseNode *self = g_object_new (ROD_TYPE_HOUSE_NODE, NULL);

  self->plan = rod_plan_ref (plan);
  self->place = place;
  self->name = name;
  self->figure = figure;

  return self;
}

static guint
count_pieces (const RodPlan *plan,
              const RodFace *face)
{
  guint n_pieces = 0;

  for (guint i = 0; i < face->n_fields; i++)
    n_pieces += rod_plan_field (plan, face->first_field + i)->n_pieces;

  return n_pieces;
}

static RodHouseNode *
new_face_node (RodPlan *plan,
               guint    index)
{
  const RodFace *face = rod_plan_face (plan, index);
  guint          n_pieces = count_pieces (plan, face);

  return new_node (plan,
                   rod_place_face (index),
                   g_strdup_printf ("%s  %s", face->mark, face->label),
                   rod_figures_count (n_pieces));
}

static RodHouseNode *
new_opening_node (RodPlan *plan,
                  guint    face,
                  guint    index)
{
  RodPlace          place = rod_place_opening (face, index);
  const RodOpening *opening = rod_place_opening_of (place, plan);
  RodPoint          low;
  RodPoint          high;
  g_autofree char  *width = NULL;
  g_autofree char  *height = NULL;

  rod_place_extent (place, plan, rod_affine_identity (), &low, &high);
  width = rod_figures_length (plan->house->units, high.x - low.x);
  height = rod_figures_length (plan->house->units, high.y - low.y);

  return new_node (plan,
                   place,
                   g_strdup (opening->name[0] != '\0' ? opening->name : opening->id),
                   g_strdup_printf ("%s × %s", width, height));
}

static RodHouseNode *
new_piece_node (RodPlan *plan,
                guint    index)
{
  const RodPiece *piece = rod_plan_piece (plan, index);

  return new_node (plan,
                   rod_place_piece (plan, index),
                   g_strdup (piece->mark),
                   rod_figures_length (plan->house->units, piece->length_mm));
}

static RodHouseNode *
new_course_node (RodPlan *plan,
                 guint    face,
                 guint    first_piece,
                 guint    n_pieces)
{
  int           course = rod_plan_piece (plan, first_piece)->course;
  RodHouseNode *self =
    new_node (plan,
              rod_place_face (face),
              g_strdup_printf (_ ("Course %d"), course),
              rod_figures_count (n_pieces));

  self->kind = ROD_HOUSE_NODE_COURSE;
  self->first_piece = first_piece;
  self->n_pieces = n_pieces;

  return self;
}

static void
take (GListStore   *list,
      RodHouseNode *node)
{
  g_list_store_append (list, node);
  g_object_unref (node);
}

/* Pieces follow each other in laying order, so that those of a course stand together. */
static void
append_courses (GListStore *list,
                RodPlan    *plan,
                guint       face)
{
  const RodFace *it = rod_plan_face (plan, face);

  for (guint f = it->first_field; f < it->first_field + it->n_fields; f++)
    {
      const RodField *field = rod_plan_field (plan, f);
      guint           end = field->first_piece + field->n_pieces;
      guint           first = field->first_piece;

      for (guint i = first; i < end; i++)
        if (i + 1 == end ||
            rod_plan_piece (plan, i + 1)->course != rod_plan_piece (plan, first)->course)
          {
            take (list, new_course_node (plan, face, first, i + 1 - first));
            first = i + 1;
          }
    }
}

static GListModel *
list_of_face (RodHouseNode *self)
{
  GListStore    *list = g_list_store_new (ROD_TYPE_HOUSE_NODE);
  const RodFace *face = rod_plan_face (self->plan, self->place.face);

  for (guint i = 0; i < face->surface->openings->len; i++)
    take (list, new_opening_node (self->plan, self->place.face, i));
  append_courses (list, self->plan, self->place.face);

  return G_LIST_MODEL (list);
}

static gboolean
lines_opening (const RodFace *face,
               RodPlace       opening)
{
  return face->opening >= 0 && face->parent == (int) opening.face &&
         face->opening == (int) opening.index;
}

static GListModel *
list_of_opening (RodHouseNode *self)
{
  GListStore *list = g_list_store_new (ROD_TYPE_HOUSE_NODE);

  for (guint i = 0; i < self->plan->faces->len; i++)
    if (lines_opening (rod_plan_face (self->plan, i), self->place))
      take (list, new_face_node (self->plan, i));

  return G_LIST_MODEL (list);
}

static GListModel *
list_of_course (RodHouseNode *self)
{
  GListStore *list = g_list_store_new (ROD_TYPE_HOUSE_NODE);

  for (guint i = 0; i < self->n_pieces; i++)
    take (list, new_piece_node (self->plan, self->first_piece + i));

  return G_LIST_MODEL (list);
}

GListModel *
rod_house_node_list_root (RodPlan *plan)
{
  GListStore *list;

  g_return_val_if_fail (plan != NULL, NULL);

  list = g_list_store_new (ROD_TYPE_HOUSE_NODE);
  for (guint i = 0; i < plan->faces->len; i++)
    if (rod_plan_face (plan, i)->opening < 0)
      take (list, new_face_node (plan, i));

  return G_LIST_MODEL (list);
}

GListModel *
rod_house_node_list_children (RodHouseNode *self)
{
  g_autoptr (GListModel) list = NULL;

  g_return_val_if_fail (ROD_IS_HOUSE_NODE (self), NULL);

  if (self->kind == ROD_HOUSE_NODE_COURSE)
    list = list_of_course (self);
  else if (self->place.kind == ROD_PLACE_FACE)
    list = list_of_face (self);
  else if (self->place.kind == ROD_PLACE_OPENING)
    list = list_of_opening (self);

  return list != NULL && g_list_model_get_n_items (list) > 0 ? g_steal_pointer (&list) : NULL;
}

RodHouseNodeKind
rod_house_node_get_kind (RodHouseNode *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_NODE (self), ROD_HOUSE_NODE_PLACE);

  return self->kind;
}

RodPlace
rod_house_node_get_place (RodHouseNode *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_NODE (self), rod_place_house ());

  return self->place;
}

gboolean
rod_house_node_leads_to (RodHouseNode *self,
                         RodPlace      place)
{
  const RodFace *face;
  RodPlace       opening;

  g_return_val_if_fail (ROD_IS_HOUSE_NODE (self), FALSE);

  if (self->kind == ROD_HOUSE_NODE_COURSE)
    return place.kind == ROD_PLACE_PIECE && place.index >= self->first_piece &&
           place.index < self->first_piece + self->n_pieces;
  if (rod_place_equal (self->place, place))
    return TRUE;
  if (place.kind == ROD_PLACE_HOUSE || self->place.kind == ROD_PLACE_PIECE)
    return FALSE;

  face = rod_plan_face (self->plan, place.face);
  if (self->place.kind == ROD_PLACE_OPENING)
    return lines_opening (face, self->place);
  if (self->place.face == place.face)
    return TRUE;
  if (face->opening < 0)
    return FALSE;

  opening = rod_place_opening ((guint) face->parent, (guint) face->opening);

  return opening.face == self->place.face;
}

const char *
rod_house_node_get_name (RodHouseNode *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_NODE (self), NULL);

  return self->name;
}

const char *
rod_house_node_get_figure (RodHouseNode *self)
{
  g_return_val_if_fail (ROD_IS_HOUSE_NODE (self), NULL);

  return self->figure;
}
