/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * rod_checks_run:
 * @plan: a plan, complete but for its findings
 *
 * Runs all checks over the plan and adds what they find, "no-board-fits" among them. The same
 * mistake on many pieces of one surface is one finding, at the worst of them, that says how many
 * there are.
 */
void rod_checks_run (RodPlan *plan);

/**
 * rod_check_pieces:
 * @plan: a plan
 * @field: index of a field
 *
 * "sliver", "notch-leaves-sliver", "short-piece", "engagement", "gap-too-small", "few-battens".
 */
void rod_check_pieces (RodPlan *plan,
                       guint    field);

/**
 * rod_check_strips:
 * @plan: a plan
 * @face: index of a face
 *
 * "measure-again", at most once.
 */
void rod_check_strips (RodPlan *plan,
                       guint    face);

/**
 * rod_check_edges:
 * @plan: a plan
 * @field: index of a field
 *
 * "no-trim", "corner-not-joined", "ground-clearance", "joint-near-opening".
 */
void rod_check_edges (RodPlan *plan,
                      guint    field);

/**
 * rod_check_bases:
 * @plan: a plan
 * @face: index of a face
 *
 * "falling-base".
 */
void rod_check_bases (RodPlan *plan,
                      guint    face);

/**
 * rod_check_joints:
 * @plan: a plan
 * @field: index of a field
 *
 * "joints-refused", "joint-offset".
 */
void rod_check_joints (RodPlan *plan,
                       guint    field);

/**
 * rod_check_colours:
 * @plan: a plan
 * @field: index of a field
 *
 * "colour-repeats".
 */
void rod_check_colours (RodPlan *plan,
                        guint    field);

/**
 * rod_check_laying:
 * @plan: a plan
 * @field: index of a field
 *
 * "laid-from-centre".
 */
void rod_check_laying (RodPlan *plan,
                       guint    field);

/**
 * rod_check_products:
 * @plan: a plan
 * @field: index of a field
 *
 * "soffit-board", "dark-in-sun", "shallow-cavity", "light-on-batten", "light-on-joint".
 */
void rod_check_products (RodPlan *plan,
                         guint    field);

/**
 * rod_check_survey:
 * @plan: a plan whose house is folded
 *
 * "survey-open", of the whole house.
 */
void rod_check_survey (RodPlan *plan);

/**
 * rod_check_worst:
 * @worst: (inout): the worst finding of its kind so far; its @id is %NULL at first
 * @count: (inout): how many of its kind there are
 * @found: (transfer full): another one; kept when further beyond its limit
 *
 * Collects findings of one kind. @found's texts are filled in later, from the worst.
 */
void rod_check_worst (RodFinding       *worst,
                      int              *count,
                      const RodFinding *found);

G_END_DECLS
