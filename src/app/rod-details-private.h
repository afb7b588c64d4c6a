/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/rod-details.h"
#include "engine/plan/rod-reckoning.h"

G_BEGIN_DECLS

struct _RodDetails
{
  GtkWidget parent_instance;

  /* Owned */
  RodDocument  *document;
  RodSelection *selection;

  /* Template widgets */
  GtkScrolledWindow *scroller;
  GtkLabel          *kind;
  GtkLabel          *title;
  GtkLabel          *subtitle;
  GtkBox            *figures;
};

/* rod-details.c: what the pages below are made of. */
void rod_details_set_heading (RodDetails *self,
                              const char *kind,
                              const char *title,
                              const char *subtitle);
void rod_details_add_section (RodDetails *self,
                              const char *title);
void rod_details_add_figure (RodDetails *self,
                             const char *name,
                             const char *value);
void rod_details_add_length (RodDetails *self,
                             const char *name,
                             double      mm);
void rod_details_add_count (RodDetails *self,
                            const char *name,
                            gint64      count);
void rod_details_take_reckoning (RodDetails   *self,
                                 const char   *name,
                                 RodReckoning *reckoning);
void rod_details_add_link (RodDetails *self,
                           const char *label,
                           RodPlace    place);

/* One function for each kind of place. */
void rod_details_show_house (RodDetails    *self,
                             const RodPlan *plan);
void rod_details_show_face (RodDetails    *self,
                            const RodPlan *plan,
                            guint          face);
void rod_details_show_opening (RodDetails    *self,
                               const RodPlan *plan,
                               RodPlace       place);
void rod_details_show_piece (RodDetails    *self,
                             const RodPlan *plan,
                             guint          piece);

/* Words that several pages use; translated. */
const char *rod_details_condition (RodEdgeCondition condition);
char       *rod_details_side (const RodEdge *edge,
                              RodUnits       units);

G_END_DECLS
