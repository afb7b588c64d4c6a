/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"

G_BEGIN_DECLS

/**
 * RodPlaceKind:
 * @ROD_PLACE_HOUSE: the whole house
 * @ROD_PLACE_FACE: a surface
 * @ROD_PLACE_OPENING: an opening of a surface
 * @ROD_PLACE_PIECE: a board
 *
 * What a place is.
 */
typedef enum
{
  ROD_PLACE_HOUSE,
  ROD_PLACE_FACE,
  ROD_PLACE_OPENING,
  ROD_PLACE_PIECE,
} RodPlaceKind;

/**
 * RodPlace:
 * @kind: what it is
 * @face: index of the face; 0 for the house
 * @index: index of the opening in its surface, or of the piece in the plan; otherwise 0
 *
 * Something of a planned house that can be selected. A plain value.
 */
typedef struct
{
  RodPlaceKind kind;
  guint        face;
  guint        index;
} RodPlace;

/**
 * rod_place_house:
 *
 * Returns: the whole house
 */
RodPlace rod_place_house (void);

/**
 * rod_place_face:
 * @face: index of a face
 *
 * Returns: the surface
 */
RodPlace rod_place_face (guint face);

/**
 * rod_place_opening:
 * @face: index of a face
 * @opening: index of an opening in its surface
 *
 * Returns: the opening
 */
RodPlace rod_place_opening (guint face,
                            guint opening);

/**
 * rod_place_piece:
 * @plan: a plan
 * @piece: index of a piece
 *
 * Returns: the piece, with the face it lies on
 */
RodPlace rod_place_piece (const RodPlan *plan,
                          guint          piece);

/**
 * rod_place_of_finding:
 * @plan: a plan
 * @finding: one of its findings
 *
 * Returns: the piece, surface or house that the finding is about
 */
RodPlace rod_place_of_finding (const RodPlan    *plan,
                               const RodFinding *finding);

/**
 * rod_place_equal:
 * @a: a place
 * @b: another place
 *
 * Returns: whether both are the same
 */
gboolean rod_place_equal (RodPlace a,
                          RodPlace b);

/**
 * rod_place_exists:
 * @place: a place
 * @plan: (nullable): a plan
 *
 * Returns: whether @plan has such a place
 */
gboolean rod_place_exists (RodPlace       place,
                           const RodPlan *plan);

/**
 * rod_place_opening_of:
 * @place: a place of kind %ROD_PLACE_OPENING
 * @plan: the plan it belongs to
 *
 * Returns: (transfer none): the opening
 */
const RodOpening *rod_place_opening_of (RodPlace       place,
                                        const RodPlan *plan);

/**
 * rod_place_extent:
 * @place: a surface, opening or board that exists in @plan
 * @plan: a plan
 * @map: surface plane → plane of the box
 * @low: (out): least x and y
 * @high: (out): greatest x and y
 *
 * The box around a place.
 */
void rod_place_extent (RodPlace       place,
                       const RodPlan *plan,
                       RodAffine      map,
                       RodPoint      *low,
                       RodPoint      *high);

/**
 * rod_place_at:
 * @plan: a plan
 * @net: (array): for each face, surface plane → net
 * @point: a point of the net
 * @place: (out): what lies there
 *
 * Boards and openings go before the surfaces behind them, linings before the openings they lie in,
 * and later faces before earlier ones.
 *
 * Returns: whether anything lies there
 */
gboolean rod_place_at (const RodPlan   *plan,
                       const RodAffine *net,
                       RodPoint         point,
                       RodPlace        *place);

/**
 * rod_place_describe:
 * @place: a place that exists in @plan
 * @plan: a plan
 *
 * Returns: (transfer full): one line that says what it is, with its main figures
 */
char *rod_place_describe (RodPlace       place,
                          const RodPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
