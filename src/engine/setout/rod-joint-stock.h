/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"
#include "engine/takeoff/rod-cut-plan.h"

G_BEGIN_DECLS

/**
 * RodJointStock:
 * @stock: (element-type RodCutStock): lengths sold
 * @kerf_mm: width of the saw cut
 * @trim_mm: lost at each end of a bar
 * @rests: (element-type gint64): lengths that earlier boards are known to leave
 *
 * What the boards of a field are cut from, while its joints are chosen.
 */
typedef struct
{
  GArray *stock;
  gint64  kerf_mm;
  gint64  trim_mm;
  GArray *rests;
} RodJointStock;

/**
 * rod_joint_stock_init:
 * @self: (out caller-allocates): stock
 * @board: a board
 * @saw: the saw
 */
void rod_joint_stock_init (RodJointStock  *self,
                           const RodBoard *board,
                           const RodSaw   *saw);

/**
 * rod_joint_stock_clear:
 * @self: stock
 */
void rod_joint_stock_clear (RodJointStock *self);

/**
 * rod_joint_stock_worth:
 * @self: stock
 * @board_mm: length of a board
 *
 * Returns: what it costs when bars are cut into boards of its length only, in bars of the dearest
 *          kind; nothing where it comes out of a rest
 */
double rod_joint_stock_worth (const RodJointStock *self,
                              double               board_mm);

/**
 * rod_joint_stock_cost:
 * @self: stock; gets the rests of the plan
 * @boards: (element-type RodCutDemand): boards
 * @thorough: whether the solver shall look, too, where boards are few
 * @bound: (out) (optional): no plan can cost less
 *
 * Cuts boards as a careful saw operator would or, @thorough, for the least cost.
 *
 * Returns: the cost; %G_MAXINT64 where a board is longer than the stock
 */
gint64 rod_joint_stock_cost (RodJointStock *self,
                             const GArray  *boards,
                             gboolean       thorough,
                             gint64        *bound);

G_END_DECLS
