/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-plan.h"
#include "engine/takeoff/rod-cut-plan.h"

G_BEGIN_DECLS

/**
 * RodArticleKind:
 * @ROD_ARTICLE_BOARD: boards
 * @ROD_ARTICLE_TRIM: trims
 * @ROD_ARTICLE_BATTEN: battens and counter battens
 * @ROD_ARTICLE_FIXING: screws
 */
typedef enum
{
  ROD_ARTICLE_BOARD,
  ROD_ARTICLE_TRIM,
  ROD_ARTICLE_BATTEN,
  ROD_ARTICLE_FIXING,
} RodArticleKind;

/**
 * RodCutItem:
 * @length_mm: length to cut, whole mm
 * @label: mark of the piece, or where the trim or batten goes
 * @piece: index of the board in the plan, or -1
 *
 * One length to cut.
 */
typedef struct
{
  gint64 length_mm;
  char  *label;
  int    piece;
} RodCutItem;

/**
 * RodSawBar:
 * @stock: index into the cutting's stock
 * @n_items: how many items come out of it
 * @items: (array length=n_items): indices into the cutting's items, in sawing order
 * @rest_mm: what is left
 *
 * One bar with its cuts.
 */
typedef struct
{
  guint  stock;
  guint  n_items;
  guint *items;
  gint64 rest_mm;
} RodSawBar;

/**
 * RodCutting:
 * @kind: what is cut
 * @system: whose article
 * @article: id of the article
 * @name: name of the article for people
 * @colour: (nullable): colour of a board
 * @stock: (element-type RodCutStock): stock lengths, rack included (limit ≥ 0)
 * @stock_of: (element-type RodStock*): the row of the system for each stock, %NULL for the rack
 * @items: (element-type RodCutItem): lengths to cut
 * @bars: (element-type RodSawBar): bars in sawing order; none where it is bought by the metre
 * @bound: no plan needs fewer bars (one stock length) or costs less
 * @cost: what the plan costs in the same measure
 * @proven: whether both are equal
 * @used_mm: sum of the items
 * @bought_mm: sum of the bars
 *
 * The cutting list of one article and colour.
 */
typedef struct
{
  RodArticleKind   kind;
  const RodSystem *system;
  const char      *article;
  const char      *name;
  const RodColour *colour;
  GArray          *stock;
  GPtrArray       *stock_of;
  GArray          *items;
  GArray          *bars;
  gint64           bound;
  gint64           cost;
  gboolean         proven;
  gint64           used_mm;
  gint64           bought_mm;
} RodCutting;

/**
 * RodOrderLine:
 * @kind: what is ordered
 * @system: whose article
 * @article: id of the article
 * @name: name of the article for people
 * @colour: (nullable): colour of a board
 * @length_mm: stock length; 1000 for what is bought by the metre, 0 for screws
 * @needed: bars, metres or screws the plan uses
 * @spare: allowance on top
 * @ordered: what is ordered: whole packs where sold in packs
 * @pack: how many in a pack
 * @packs: packs ordered
 * @price: price of one bar, or of a pack of screws
 * @total: price of the line
 * @weight_kg: weight of the line; 0 when unknown
 *
 * One line of the order.
 */
typedef struct
{
  RodArticleKind   kind;
  const RodSystem *system;
  const char      *article;
  const char      *name;
  const RodColour *colour;
  double           length_mm;
  int              needed;
  int              spare;
  int              ordered;
  int              pack;
  int              packs;
  double           price;
  double           total;
  double           weight_kg;
} RodOrderLine;

/**
 * RodTakeoff:
 * @plan: the plan
 * @cuttings: (element-type RodCutting): cutting lists: boards, trims, battens
 * @lines: (element-type RodOrderLine): the order
 * @findings: (element-type RodFinding): what cutting and ordering found
 * @total: sum of the order
 * @weight_kg: sum of the weights
 *
 * What is cut and bought for a plan. Immutable.
 */
typedef struct
{
  RodPlan *plan;
  GArray  *cuttings;
  GArray  *lines;
  GArray  *findings;
  double   total;
  double   weight_kg;
} RodTakeoff;

/**
 * rod_cutting_is_by_the_metre:
 * @cutting: a cutting list
 *
 * Returns: whether the article is sold in no fixed lengths: its items are listed, but no bars
 */
gboolean rod_cutting_is_by_the_metre (const RodCutting *cutting);

/**
 * rod_takeoff_new:
 * @plan: a plan
 * @cancellable: (nullable): calls it off, also from another thread
 *
 * Makes cutting lists and order. Pure and deterministic; may take up to a second for a large house,
 * and ends soon when called off.
 *
 * Returns: (transfer full) (nullable): the take-off; %NULL when called off
 */
RodTakeoff *rod_takeoff_new (RodPlan      *plan,
                             GCancellable *cancellable) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_takeoff_ref:
 * @takeoff: a take-off
 *
 * Returns: (transfer full): @takeoff
 */
RodTakeoff *rod_takeoff_ref (RodTakeoff *takeoff);

/**
 * rod_takeoff_unref:
 * @takeoff: (transfer full) (nullable): a take-off
 */
void rod_takeoff_unref (RodTakeoff *takeoff);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodTakeoff, rod_takeoff_unref)

G_END_DECLS
