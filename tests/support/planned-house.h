/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

/* Small houses written in tests, planned, and looked up in. Texts use ' where JSON has ", so that
 * they read well in C. Systems come from tests/engine/houses; the site is that of the hand-worked
 * jobs: boards fixed at 15 °C that become −20 to 60 °C, a saw of 4 mm, nothing spare. */

G_BEGIN_DECLS

/**
 * surveyed_box:
 * @id: identifier
 * @kind: "wall" or "soffit"
 * @width: mm
 * @height: mm
 * @more: further members, each with a comma before it; may be ""
 *
 * Writes a rectangular surface of system "k" whose edges are called base, right, top, left.
 *
 * Returns: (transfer full): JSON with ' for "
 */
char *surveyed_box (const char *id,
                    const char *kind,
                    double      width,
                    double      height,
                    const char *more) G_GNUC_WARN_UNUSED_RESULT;

/**
 * surveyed_join:
 * @id: identifier
 * @a: "surface.edge"
 * @b: "surface.edge"
 * @fold_deg: fold
 * @more: further members, each with a comma before it; may be ""
 *
 * Returns: (transfer full): JSON with ' for "
 */
char *surveyed_join (const char *id,
                     const char *a,
                     const char *b,
                     double      fold_deg,
                     const char *more) G_GNUC_WARN_UNUSED_RESULT;

/**
 * surveyed_house:
 * @system: "k-250" or another of the tests' own systems, or one that comes with the program; called
 *          "k" in the house
 * @surfaces: (transfer full): surfaces, ended by %NULL
 * @joins: (transfer full) (nullable): joins, ended by %NULL
 *
 * Stops the test with the reader's words when the house is refused.
 *
 * Returns: (transfer full): the house, which the test may still change before it is planned
 */
RodHouse *surveyed_house (const char *system,
                          char      **surfaces,
                          char      **joins) G_GNUC_WARN_UNUSED_RESULT;

/* A list of texts to hand over. */
#define SURVEYED(...) ((char *[]){ __VA_ARGS__, NULL })

/**
 * planned_house:
 * @house: (transfer full): a house
 *
 * Returns: (transfer full): its plan
 */
RodPlan *planned_house (RodHouse *house) G_GNUC_WARN_UNUSED_RESULT;

/**
 * PlannedVisit:
 * @plan: the plan of a house
 *
 * Looks at one house.
 */
typedef void (*PlannedVisit) (RodPlan *plan);

/**
 * planned_each_house:
 * @visit: looks at a house
 *
 * Plans every example, every worked house and every hard one, and hands each over.
 */
void planned_each_house (PlannedVisit visit);

/**
 * planned_system:
 * @house: a house
 *
 * Returns: (transfer none): its only system, to change before planning
 */
RodSystem *planned_system (RodHouse *house);

/**
 * planned_face:
 * @plan: a plan
 * @id: id of a surface, or label of a derived reveal
 *
 * Stops the test where there is none.
 *
 * Returns: index of the face
 */
guint planned_face (const RodPlan *plan,
                    const char    *id);

/**
 * planned_field:
 * @plan: a plan
 * @id: as for planned_face()
 *
 * Returns: (transfer none): the face's first field
 */
const RodField *planned_field (const RodPlan *plan,
                               const char    *id);

/**
 * planned_edge:
 * @plan: a plan
 * @id: as for planned_face()
 * @edge: identifier of an edge of the outline
 *
 * Returns: (transfer none): the edge in the face's first field
 */
const RodEdge *planned_edge (const RodPlan *plan,
                             const char    *id,
                             const char    *edge);

/**
 * planned_piece:
 * @plan: a plan
 * @mark: mark of a piece
 *
 * Stops the test where there is none.
 *
 * Returns: (transfer none): the piece
 */
const RodPiece *planned_piece (const RodPlan *plan,
                               const char    *mark);

/**
 * planned_finding:
 * @plan: a plan
 * @id: identifier of a finding
 *
 * Returns: (transfer none) (nullable): the first such finding
 */
const RodFinding *planned_finding (const RodPlan *plan,
                                   const char    *id);

/**
 * planned_count:
 * @plan: a plan
 * @id: identifier of a kind of finding
 *
 * Returns: how many findings of that kind there are
 */
int planned_count (const RodPlan *plan,
                   const char    *id);

/**
 * planned_group:
 * @plan: a plan
 * @id: id of a surface
 *
 * Returns: (transfer none): the alignment group of its first field
 */
const RodGroup *planned_group (const RodPlan *plan,
                               const char    *id);

/**
 * planned_worst_closure_mm:
 * @plan: a plan
 *
 * Returns: by how much the folded house misses most where a chain of joins closes
 */
double planned_worst_closure_mm (const RodPlan *plan);

/**
 * planned_joint:
 * @field: a field
 * @at: a place in its surface's plane
 *
 * Returns: how far @at is from the next joint line, mm, at most half a cover
 */
double planned_joint (const RodField *field,
                      RodPoint        at);

G_END_DECLS
