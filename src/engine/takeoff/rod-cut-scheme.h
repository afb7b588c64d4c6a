/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/takeoff/rod-cut-job.h"

G_BEGIN_DECLS

/**
 * RodCutPart:
 * @size: index into the sizes of the job
 * @count: how many pieces of it one bar gives, ≥ 1
 */
typedef struct
{
  guint size;
  int   count;
} RodCutPart;

/**
 * RodCutPattern:
 * @source: index into the sources of the job
 * @n_parts: how many parts
 * @parts: what comes out of the bar; each size once, widest first
 *
 * How one bar is cut. Reference-counted and immutable: the linear program and any number of schemes
 * share it.
 */
typedef struct
{
  guint      source;
  guint      n_parts;
  RodCutPart parts[];
} RodCutPattern;

/**
 * rod_cut_pattern_new:
 * @source: index into the sources of the job
 * @parts: (array length=n_parts): what comes out of the bar, widest first
 * @n_parts: how many parts, ≥ 1
 *
 * Returns: (transfer full): a pattern
 */
RodCutPattern *rod_cut_pattern_new (guint             source,
                                    const RodCutPart *parts,
                                    guint             n_parts) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_pattern_ref:
 * @pattern: a pattern
 *
 * Returns: (transfer full): @pattern
 */
RodCutPattern *rod_cut_pattern_ref (RodCutPattern *pattern);

/**
 * rod_cut_pattern_unref:
 * @pattern: (transfer full): a pattern
 */
void rod_cut_pattern_unref (RodCutPattern *pattern);

/**
 * rod_cut_pattern_compare:
 * @a: a pattern
 * @b: a pattern
 *
 * A total order that depends on the contents only: by source, then widest pieces first.
 *
 * Returns: < 0, 0 or > 0
 */
int rod_cut_pattern_compare (const RodCutPattern *a,
                             const RodCutPattern *b) G_GNUC_PURE;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutPattern, rod_cut_pattern_unref)

/**
 * RodCutRest:
 * @counts: (array): pieces still wanted of each size
 * @limits: (array): bars still there of each source, or %ROD_CUT_UNLIMITED
 * @n_pieces: pieces still wanted in all
 *
 * What is left of a job while a plan is being built.
 */
typedef struct
{
  int *counts;
  int *limits;
  int  n_pieces;
} RodCutRest;

/**
 * rod_cut_rest_new:
 * @job: a job
 *
 * Returns: (transfer full): all of @job
 */
RodCutRest *rod_cut_rest_new (const RodCutJob *job) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_rest_copy:
 * @rest: a rest
 * @job: the job it is of
 *
 * Returns: (transfer full): a copy
 */
RodCutRest *rod_cut_rest_copy (const RodCutRest *rest,
                               const RodCutJob  *job) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_rest_free:
 * @rest: (transfer full) (nullable): a rest
 */
void rod_cut_rest_free (RodCutRest *rest);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutRest, rod_cut_rest_free)

/**
 * rod_cut_rest_room_for:
 * @rest: a rest
 * @pattern: a pattern
 *
 * Returns: how often @pattern can be cut without cutting a piece too many or a bar nobody has
 */
int rod_cut_rest_room_for (const RodCutRest    *rest,
                           const RodCutPattern *pattern) G_GNUC_PURE;

/**
 * rod_cut_rest_take:
 * @rest: a rest
 * @pattern: a pattern
 * @count: how often it is cut, at most what there is room for
 */
void rod_cut_rest_take (RodCutRest          *rest,
                        const RodCutPattern *pattern,
                        int                  count);

/**
 * RodCutUse:
 * @pattern: (transfer full): a pattern
 * @count: how often it is cut, ≥ 1
 */
typedef struct
{
  RodCutPattern *pattern;
  int            count;
} RodCutUse;

/**
 * RodCutScheme:
 * @uses: (element-type RodCutUse): patterns and how often each is cut
 * @cost: price of all bars
 *
 * A plan, or part of one, in terms of a job.
 */
typedef struct
{
  GArray *uses;
  gint64  cost;
} RodCutScheme;

/**
 * rod_cut_scheme_new:
 *
 * Returns: (transfer full): a scheme that cuts nothing
 */
RodCutScheme *rod_cut_scheme_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_scheme_copy:
 * @scheme: a scheme
 *
 * Returns: (transfer full): a copy
 */
RodCutScheme *rod_cut_scheme_copy (const RodCutScheme *scheme) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_cut_scheme_free:
 * @scheme: (transfer full) (nullable): a scheme
 */
void rod_cut_scheme_free (RodCutScheme *scheme);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodCutScheme, rod_cut_scheme_free)

/**
 * rod_cut_scheme_add:
 * @scheme: a scheme
 * @job: the job it is for
 * @pattern: a pattern
 * @count: how often it is cut, ≥ 1
 */
void rod_cut_scheme_add (RodCutScheme    *scheme,
                         const RodCutJob *job,
                         RodCutPattern   *pattern,
                         int              count);

/**
 * rod_cut_scheme_add_scheme:
 * @scheme: a scheme
 * @other: a scheme for what @scheme leaves over
 */
void rod_cut_scheme_add_scheme (RodCutScheme       *scheme,
                                const RodCutScheme *other);

/**
 * rod_cut_scheme_tidy:
 * @scheme: a scheme
 *
 * Puts the patterns in their order and merges equal ones.
 */
void rod_cut_scheme_tidy (RodCutScheme *scheme);

G_END_DECLS
