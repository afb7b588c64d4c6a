/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Butt joints of a field. Where patterns repeat, the longest strip gets a cycle of lanes, found
 * together with the cutting; every course belongs to a lane and takes its joints from there as far
 * as openings and its own ends allow. Joints at random or in equal bays are chosen course by
 * course, away from those of the courses below.
 *
 * One strip by itself is a shortest way: the fewest joints, then the least cost, over the places
 * allowed. Places are the lines of the battens that stand there anyway, and within a batten's reach
 * of them; besides, places where a board would be as long as can be, or bays equal, which cost a
 * batten of their own. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/frame/rod-batten-lines.h"
#include "engine/geometry/rod-numbers.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-bay.h"
#include "engine/setout/rod-butt-joints.h"
#include "engine/setout/rod-joint-bans.h"
#include "engine/setout/rod-joint-cycle.h"

/* Draws of a random field; the one that costs least is taken. */
#define DRAWS 4

/* More joints than this are not looked for in one strip. */
#define MOST_JOINTS 200

/* What a batten of its own counts against a joint in its lane, and a place out of the lane. */
#define OWN_COST 0.5
#define OFF_LANE_COST 1.0

/* Offsets tried where the one asked for leaves no way. */
static const double weaker_offsets[] = { 1.0, 0.75, 0.5, 0.25, 0.1 };

/* How a strip keeps away from others. */
typedef enum
{
  APART_FROM_LANES,
  APART_FROM_NEIGHBOURS,
  APART_IF_POSSIBLE,
} Apart;

typedef struct
{
  int    course;
  guint  lane;
  double low_mm;
  double high_mm;
  double bottom_mm;
  double top_mm;
} Strip;

typedef struct
{
  const RodPlan  *plan;
  const RodField *field;
  RodJointStock   stock;
  GArray         *bans;
  GArray         *raster; /* of double: battens that stand there anyway */
  GArray         *places; /* of RodJointPlace, ascending */
  GArray         *strips; /* of Strip */
  GArray         *joints; /* of RodLengthJoint */
  guint          *starts;
  RodJointLanes   lanes;
  double          longest_mm;
  double          least_mm;
  double          reach_mm;
  gboolean        square;
  int             draw;
} Layout;

/* The board that fills a bay, by its longest line: of a raked end's gap that may lose nothing. */
static double
board_mm (const RodBay *bay,
          gconstpointer data)
{
  const Layout *layout = data;
  double        length_mm = rod_bay_board_mm (layout->plan, layout->field, bay);

  if (!layout->square && !bay->left_butt)
    length_mm += rod_bay_gap_mm (layout->plan, layout->field, bay, FALSE);
  if (!layout->square && !bay->right_butt)
    length_mm += rod_bay_gap_mm (layout->plan, layout->field, bay, TRUE);
  return length_mm;
}

static double
bay_board_mm (const Layout *layout,
              double        from_mm,
              double        to_mm,
              gboolean      left_butt,
              gboolean      right_butt)
{
  RodBay bay = { to_mm - from_mm, left_butt, right_butt };

  return board_mm (&bay, layout);
}

static gboolean
fits (const Layout *layout,
      double        length_mm)
{
  return length_mm >= layout->least_mm - ROD_EPSILON_MM &&
         length_mm <= layout->longest_mm + ROD_EPSILON_MM;
}

static gboolean
is_long (const Layout *layout,
         const Strip  *strip)
{
  return bay_board_mm (layout, strip->low_mm, strip->high_mm, FALSE, FALSE) >
         layout->longest_mm + ROD_EPSILON_MM;
}

static gint
compare_places (gconstpointer a,
                gconstpointer b)
{
  const RodJointPlace *one = a;
  const RodJointPlace *other = b;

  return (one->at_mm > other->at_mm) - (one->at_mm < other->at_mm);
}

/* The battens that the field has without joints, along its boards. */
static void
find_raster (Layout *layout)
{
  RodBattenLayer layer = rod_batten_layer (layout->plan, layout->field, FALSE);
  g_autoptr (GArray) lines = rod_batten_lines (&layer);
  double half_mm = ceil (2.0 * layout->field->butt_reach_mm / layer.width_mm - ROD_EPSILON_MM) *
                   layer.width_mm / 2.0;

  layout->reach_mm = MAX (0.0, half_mm - layout->field->butt_reach_mm);
  for (guint i = 0; i < lines->len; i++)
    {
      double   q = g_array_index (lines, RodBattenLine, i).q;
      RodPoint at = { layer.upright ? q : 0.0, layer.upright ? 0.0 : q };
      double   x = rod_affine_apply (layout->field->to_board, at).x;

      g_array_append_val (layout->raster, x);
    }
  rod_numbers_sort (layout->raster);
}

/* A place at @at_mm: on the batten that reaches it, else on one of its own. */
static void
add_place (Layout *layout,
           double  at_mm)
{
  RodJointPlace place = { at_mm, at_mm, TRUE };

  for (guint i = 0; i < layout->raster->len && place.own; i++)
    {
      double line = g_array_index (layout->raster, double, i);

      if (fabs (line - at_mm) <= layout->reach_mm + ROD_EPSILON_MM)
        {
          place.backing_mm = line;
          place.own = FALSE;
        }
    }
  g_array_append_val (layout->places, place);
}

static double
widest_mm (const Layout *layout,
           gboolean      left_butt,
           gboolean      right_butt)
{
  RodBay bay = { 0.0, left_butt, right_butt };

  bay.clear_mm = rod_bay_clear_mm (layout->plan, layout->field, bay, layout->longest_mm);
  return bay.clear_mm - MAX (0.0, board_mm (&bay, layout) - layout->longest_mm);
}

static guint
least_bays (const Layout *layout,
            const Strip  *strip)
{
  double ends_mm = 2.0 * widest_mm (layout, FALSE, TRUE);
  double between_mm = strip->high_mm - strip->low_mm - ends_mm;

  if (between_mm <= ROD_EPSILON_MM)
    return 2;
  return 2 + (guint) ceil (between_mm / widest_mm (layout, TRUE, TRUE) - ROD_EPSILON_MM);
}

/* Where boards are as long as can be, counted from either end; and as far from there as joints of
 * other lanes have to be. */
static void
add_exact_places (Layout      *layout,
                  const Strip *strip)
{
  double   first_mm = widest_mm (layout, FALSE, TRUE);
  double   next_mm = widest_mm (layout, TRUE, TRUE);
  guint    n = MIN (least_bays (layout, strip), MOST_JOINTS);
  gboolean lanes = layout->field->joint_rules.pattern == ROD_JOINTS_STAGGERED;
  int      most = lanes ? layout->field->joint_rules.repeat - 1 : 0;

  for (guint j = 0; j + 1 < n; j++)
    for (int lane = -most; lane <= most; lane++)
      {
        double away_mm = lane * layout->field->joint_rules.offset_mm;

        add_place (layout, strip->low_mm + first_mm + j * next_mm + away_mm);
        add_place (layout, strip->high_mm - first_mm - j * next_mm + away_mm);
      }
}

/* Where equal bays end in a lane: each lane a part of a bay further on. */
static double
even_place (const Layout *layout,
            const Strip  *strip,
            guint         lane,
            guint         joint)
{
  double bay_mm = (strip->high_mm - strip->low_mm) / least_bays (layout, strip);
  double turn = (double) lane / layout->field->joint_rules.repeat;

  return strip->low_mm + (joint + (lane == 0 ? 1.0 : turn)) * bay_mm;
}

static guint
n_even_places (const Layout *layout,
               const Strip  *strip,
               guint         lane)
{
  return least_bays (layout, strip) - (lane == 0 ? 1 : 0);
}

static void
add_even_places (Layout      *layout,
                 const Strip *strip)
{
  for (guint lane = 0; lane < (guint) layout->field->joint_rules.repeat; lane++)
    for (guint j = 0; j < n_even_places (layout, strip, lane); j++)
      add_place (layout, even_place (layout, strip, lane, j));
}

static gboolean
same_extent (const Strip *a,
             const Strip *b)
{
  return fabs (a->low_mm - b->low_mm) < ROD_EPSILON_MM &&
         fabs (a->high_mm - b->high_mm) < ROD_EPSILON_MM;
}

/* Sorted, each once. */
static void
tidy_places (Layout *layout)
{
  guint n = 0;

  g_array_sort (layout->places, compare_places);
  for (guint i = 0; i < layout->places->len; i++)
    {
      RodJointPlace place = g_array_index (layout->places, RodJointPlace, i);

      if (n == 0 ||
          place.at_mm - g_array_index (layout->places, RodJointPlace, n - 1).at_mm >
            ROD_EPSILON_MM)
        g_array_index (layout->places, RodJointPlace, n++) = place;
    }
  g_array_set_size (layout->places, n);
}

static void
add_raster_places (Layout  *layout,
                   gboolean shifted)
{
  for (guint i = 0; i < layout->raster->len; i++)
    {
      double line = g_array_index (layout->raster, double, i);

      add_place (layout, line);
      if (!shifted)
        continue;
      add_place (layout, line - layout->reach_mm);
      add_place (layout, line + layout->reach_mm);
    }
}

static void
collect_places (Layout *layout)
{
  const Strip *last = NULL;

  add_raster_places (layout, layout->field->joint_rules.pattern == ROD_JOINTS_STAGGERED);
  for (guint i = 0; i < layout->bans->len; i++)
    {
      double on_mm = g_array_index (layout->bans, RodJointBan, i).on_mm;

      if (!isnan (on_mm))
        add_place (layout, on_mm);
    }
  for (guint s = 0; s < layout->strips->len; s++)
    {
      const Strip *strip = &g_array_index (layout->strips, Strip, s);

      if (!is_long (layout, strip) || (last != NULL && same_extent (last, strip)))
        continue;
      add_exact_places (layout, strip);
      if (layout->field->joint_rules.pattern == ROD_JOINTS_BALANCED)
        add_even_places (layout, strip);
      last = strip;
    }
  tidy_places (layout);
}

/* Distance to the joints of the courses that are chosen already and too near to be in line with. */
static double
neighbour_mm (const Layout *layout,
              const Strip  *strip,
              double        at_mm)
{
  double nearest_mm = INFINITY;

  for (guint j = layout->joints->len; j > 0; j--)
    {
      const RodLengthJoint *joint = &g_array_index (layout->joints, RodLengthJoint, j - 1);

      if (strip->course - joint->course >= layout->field->joint_rules.repeat)
        break;
      if (joint->course < strip->course)
        nearest_mm = MIN (nearest_mm, fabs (joint->at_mm - at_mm));
    }
  return nearest_mm;
}

static gboolean
is_in_lane (const GArray *lane,
            double        at_mm)
{
  for (guint i = 0; i < lane->len; i++)
    if (fabs (g_array_index (lane, RodJointPlace, i).at_mm - at_mm) < ROD_EPSILON_MM)
      return TRUE;
  return FALSE;
}

static double
lanes_mm (const Layout *layout,
          const Strip  *strip,
          double        at_mm)
{
  double nearest_mm = INFINITY;

  for (guint i = 0; i < layout->lanes.n_lanes; i++)
    for (guint j = 0; i != strip->lane && j < layout->lanes.lanes[i]->len; j++)
      nearest_mm = MIN (
        nearest_mm,
        fabs (g_array_index (layout->lanes.lanes[i], RodJointPlace, j).at_mm - at_mm));
  return nearest_mm;
}

/* A number of [0, 1) that is the same for the same seed, draw, course and place on every machine:
 * SplitMix64 (Steele, Lea and Flood 2014). */
static double
chance (const Layout *layout,
        const Strip  *strip,
        double        at_mm)
{
  guint64 z = (guint64) layout->field->joint_rules.seed * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);

  z += (guint64) layout->draw * G_GUINT64_CONSTANT (0xd1b54a32d192ed03);
  z += (guint64) (strip->course + G_MAXINT16) * G_GUINT64_CONSTANT (0x8cb92ba72f3d8dd7);
  z += (guint64) llround (at_mm * 1000.0 + 1e12);
  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return (double) ((z ^ (z >> 31)) >> 11) / 9007199254740992.0;
}

/* How much a place is disliked in a strip. */
static double
cost_of (const Layout        *layout,
         const Strip         *strip,
         const RodJointPlace *place)
{
  double own = place->own ? OWN_COST : 0.0;
  double nearest_mm = INFINITY;

  switch (layout->field->joint_rules.pattern)
    {
    case ROD_JOINTS_BALANCED:
      for (guint j = 0; j < n_even_places (layout, strip, strip->lane); j++)
        nearest_mm =
          MIN (nearest_mm, fabs (even_place (layout, strip, strip->lane, j) - place->at_mm));
      return own + nearest_mm;
    case ROD_JOINTS_RANDOM:
      return own + chance (layout, strip, place->at_mm);
    case ROD_JOINTS_STAGGERED:
      if (layout->lanes.n_lanes > 0 &&
          is_in_lane (layout->lanes.lanes[strip->lane], place->at_mm))
        return 0.0;
      return own + OFF_LANE_COST;
    case ROD_JOINTS_INHERITED:
    case ROD_JOINTS_COLUMNS:
    default:
      return own;
    }
}

/* A place that a strip may use. */
typedef struct
{
  RodJointPlace place;
  gboolean      paired;
  double        cost;
} Option;

static GArray *
list_options (const Layout *layout,
              const Strip  *strip,
              Apart         apart)
{
  GArray *options = g_array_new (FALSE, FALSE, sizeof (Option));
  double  offset_mm = layout->field->joint_rules.offset_mm;

  for (guint i = 0; i < layout->places->len; i++)
    {
      Option option = { .place = g_array_index (layout->places, RodJointPlace, i) };
      double at_mm = option.place.at_mm, away_mm;

      if (at_mm <= strip->low_mm || at_mm >= strip->high_mm ||
          !rod_joint_bans_allow (
            layout->bans, at_mm, strip->bottom_mm, strip->top_mm, &option.paired))
        continue;
      away_mm = apart == APART_FROM_LANES ? lanes_mm (layout, strip, at_mm)
                                          : neighbour_mm (layout, strip, at_mm);
      if (apart != APART_IF_POSSIBLE && away_mm < offset_mm - ROD_EPSILON_MM)
        continue;
      option.cost = cost_of (layout, strip, &option.place);
      if (apart == APART_IF_POSSIBLE)
        option.cost += MAX (0.0, offset_mm - away_mm) * MOST_JOINTS;
      if (option.paired)
        option.place.backing_mm = at_mm;
      g_array_append_val (options, option);
    }
  return options;
}

/* The best way with one joint more: @best of each option from @last of the options before it. */
static void
add_joint (const Layout *layout,
           const Strip  *strip,
           const GArray *options,
           const double *last,
           double       *best,
           int          *from)
{
  for (guint c = 0; c < options->len; c++)
    {
      const Option *to = &g_array_index (options, Option, c);

      best[c] = INFINITY;
      from[c] = -1;
      if (last == NULL)
        {
          if (fits (layout, bay_board_mm (layout, strip->low_mm, to->place.at_mm, FALSE, TRUE)))
            best[c] = to->cost;
          continue;
        }
      for (guint b = c; b > 0; b--)
        {
          double at_mm = g_array_index (options, Option, b - 1).place.at_mm;
          double length_mm = bay_board_mm (layout, at_mm, to->place.at_mm, TRUE, TRUE);

          if (length_mm > layout->longest_mm + ROD_EPSILON_MM)
            break;
          if (length_mm >= layout->least_mm - ROD_EPSILON_MM && last[b - 1] + to->cost < best[c])
            {
              best[c] = last[b - 1] + to->cost;
              from[c] = (int) b - 1;
            }
        }
    }
}

/* Which option ends the strip at least cost, or -1. */
static int
finish (const Layout *layout,
        const Strip  *strip,
        const GArray *options,
        const double *best)
{
  double least = INFINITY;
  int    found = -1;

  for (guint c = 0; c < options->len; c++)
    {
      double at_mm = g_array_index (options, Option, c).place.at_mm;

      if (best[c] < least &&
          fits (layout, bay_board_mm (layout, at_mm, strip->high_mm, TRUE, FALSE)))
        {
          least = best[c];
          found = (int) c;
        }
    }
  return found;
}

static void
take_options (Layout       *layout,
              const Strip  *strip,
              const GArray *options,
              const int    *from,
              guint         n_joints,
              int           last)
{
  guint first = layout->joints->len;

  g_array_set_size (layout->joints, first + n_joints);
  for (guint j = n_joints; j > 0; j--)
    {
      const Option *option = &g_array_index (options, Option, (guint) last);

      g_array_index (layout->joints, RodLengthJoint, first + j - 1) = (RodLengthJoint){
        .course = strip->course,
        .at_mm = option->place.at_mm,
        .backing_mm = option->place.backing_mm,
        .paired = option->paired,
      };
      if (layout->lanes.n_lanes > 0 &&
          !is_in_lane (layout->lanes.lanes[strip->lane], option->place.at_mm))
        g_array_append_val (layout->lanes.lanes[strip->lane], option->place);
      last = from[(gsize) (j - 1) * options->len + (guint) last];
    }
}

/* Joints of one strip: as few as there can be, but at least @n_least. */
static gboolean
choose_joints (Layout      *layout,
               const Strip *strip,
               Apart        apart,
               guint        n_least)
{
  g_autoptr (GArray) options = list_options (layout, strip, apart);
  guint              enough = MIN (n_least + least_bays (layout, strip), MOST_JOINTS);
  guint              most = MIN (options->len, enough);
  g_autofree double *best = g_new (double, (gsize) (most + 1) * (options->len + 1));
  g_autofree int    *from = g_new (int, (gsize) (most + 1) * (options->len + 1));

  for (guint k = 0; k < most; k++)
    {
      double *row = best + (gsize) k * options->len;
      int     last;

      add_joint (layout,
                 strip,
                 options,
                 k > 0 ? row - options->len : NULL,
                 row,
                 from + (gsize) k * options->len);
      last = k + 1 >= n_least ? finish (layout, strip, options, row) : -1;
      if (last >= 0)
        {
          take_options (layout, strip, options, from, k + 1, last);
          return TRUE;
        }
    }
  return FALSE;
}

/* Even joints, whatever else is asked: the checks say what is wrong with them. */
static void
stand_evenly (Layout      *layout,
              const Strip *strip)
{
  guint n = least_bays (layout, strip);

  for (guint j = 1; j < n; j++)
    {
      double         at_mm = strip->low_mm + (strip->high_mm - strip->low_mm) * j / n;
      RodLengthJoint joint = { .course = strip->course, .at_mm = at_mm, .backing_mm = at_mm };

      g_array_append_val (layout->joints, joint);
    }
}

static void
choose_strip (Layout      *layout,
              const Strip *strip)
{
  gboolean balanced = layout->field->joint_rules.pattern == ROD_JOINTS_BALANCED;
  guint    n_even = balanced ? n_even_places (layout, strip, strip->lane) : 1;

  if (layout->lanes.n_lanes > 0 && choose_joints (layout, strip, APART_FROM_LANES, 1))
    return;
  if (choose_joints (layout, strip, APART_FROM_NEIGHBOURS, n_even) ||
      (balanced && choose_joints (layout, strip, APART_FROM_NEIGHBOURS, 1)) ||
      choose_joints (layout, strip, APART_IF_POSSIBLE, 1))
    return;
  stand_evenly (layout, strip);
}

static void
choose_all (Layout *layout)
{
  g_array_set_size (layout->joints, 0);
  for (guint s = 0; s < layout->strips->len; s++)
    {
      const Strip *strip = &g_array_index (layout->strips, Strip, s);

      if (is_long (layout, strip))
        choose_strip (layout, strip);
      layout->starts[s + 1] = layout->joints->len;
    }
}

/* What the boards of the whole field cost as they are jointed now. */
static gint64
cut_all (Layout *layout)
{
  g_autoptr (GArray) boards = g_array_new (FALSE, FALSE, sizeof (RodCutDemand));

  for (guint s = 0; s < layout->strips->len; s++)
    {
      const Strip *strip = &g_array_index (layout->strips, Strip, s);
      guint        end = layout->starts[s + 1];
      double       from = strip->low_mm;

      for (guint j = layout->starts[s]; j <= end; j++)
        {
          double to = j < end ? g_array_index (layout->joints, RodLengthJoint, j).at_mm
                              : strip->high_mm;
          double length_mm =
            bay_board_mm (layout, from, to, j > layout->starts[s], j < end);
          RodCutDemand board = { (gint64) ceil (MAX (length_mm, 1.0) - ROD_EPSILON_MM), 1 };

          g_array_append_val (boards, board);
          from = to;
        }
    }
  return rod_joint_stock_cost (&layout->stock, boards, FALSE, NULL);
}

static void
draw_joints (Layout *layout)
{
  guint  n_least = G_MAXUINT;
  gint64 least = G_MAXINT64;
  int    best = 0;

  for (layout->draw = 0; layout->draw < DRAWS; layout->draw++)
    {
      gint64 cost;

      choose_all (layout);
      cost = cut_all (layout);
      if (layout->joints->len < n_least || (layout->joints->len == n_least && cost < least))
        {
          n_least = layout->joints->len;
          least = cost;
          best = layout->draw;
        }
    }
  layout->draw = best;
  choose_all (layout);
}

static const Strip *
longest_strip (const Layout *layout)
{
  const Strip *longest = &g_array_index (layout->strips, Strip, 0);

  for (guint s = 1; s < layout->strips->len; s++)
    {
      const Strip *strip = &g_array_index (layout->strips, Strip, s);

      if (strip->high_mm - strip->low_mm > longest->high_mm - longest->low_mm + ROD_EPSILON_MM)
        longest = strip;
    }
  return longest;
}

/* Whether finer places give lanes with fewer joints than those found. */
static gboolean
spares_joints (const RodJointSpan  *span,
               const RodJointLanes *found)
{
  RodJointLanes finer;
  gboolean      fewer;

  if (!rod_joint_lanes_find (span, &finer))
    return FALSE;
  fewer = found->n_lanes == 0 || finer.n_joints < found->n_joints;
  rod_joint_lanes_clear (&finer);
  return fewer;
}

/* Lanes on the battens that stand there anyway; on shifted places and battens of their own only
 * where that spares joints. */
static void
find_lanes (Layout       *layout,
            RodJointSpan *span,
            const GArray *raster,
            const GArray *all,
            guint         least_joints)
{
  RodJointLanes finer;

  span->places = raster;
  rod_joint_cycle_find (span, &layout->stock, layout->reach_mm, &layout->lanes);
  if (layout->lanes.n_lanes > 0 && layout->lanes.n_joints <= least_joints)
    return;
  span->places = all;
  if (!spares_joints (span, &layout->lanes) ||
      !rod_joint_cycle_find (span, &layout->stock, layout->reach_mm, &finer))
    return;
  rod_joint_lanes_clear (&layout->lanes);
  layout->lanes = finer;
}

/* Lanes for the longest strip, with the offset asked for or the widest that leaves a way. */
static void
choose_lanes (Layout *layout)
{
  const Strip *strip = longest_strip (layout);
  g_autoptr (GArray) all = g_steal_pointer (&layout->places);
  RodJointSpan span = {
    .low_mm = strip->low_mm,
    .high_mm = strip->high_mm,
    .longest_mm = layout->longest_mm,
    .least_mm = layout->least_mm,
    .n_lanes = (guint) layout->field->joint_rules.repeat,
    .board_mm = board_mm,
    .data = layout,
  };

  layout->places = g_array_new (FALSE, FALSE, sizeof (RodJointPlace));
  add_raster_places (layout, FALSE);
  tidy_places (layout);
  for (guint i = 0; i < G_N_ELEMENTS (weaker_offsets) && layout->lanes.n_lanes == 0; i++)
    {
      span.offset_mm = layout->field->joint_rules.offset_mm * weaker_offsets[i];
      find_lanes (
        layout, &span, layout->places, all, span.n_lanes * (least_bays (layout, strip) - 1));
    }
  g_array_append_vals (layout->places, all->data, all->len);
  for (guint i = 0; i < layout->lanes.n_lanes; i++)
    g_array_append_vals (
      layout->places, layout->lanes.lanes[i]->data, layout->lanes.lanes[i]->len);
  tidy_places (layout);
}

static void
list_strips (Layout          *layout,
             const RodStrips *courses)
{
  double cover_mm = layout->field->board->cover_mm;
  int    repeat = layout->field->joint_rules.repeat;

  for (guint s = 0; s < courses->n_strips; s++)
    {
      int   course = courses->strips[s].course;
      Strip strip = { .course = course };

      strip.lane = (guint) (course - courses->strips[0].course) % (guint) repeat;
      strip.bottom_mm = layout->field->phase_mm + course * cover_mm;
      strip.top_mm = strip.bottom_mm + cover_mm;
      rod_strip_extent (courses, s, &strip.low_mm, &strip.high_mm);
      g_array_append_val (layout->strips, strip);
    }
}

static void
place_all (Layout *layout)
{
  find_raster (layout);
  collect_places (layout);
  switch (layout->field->joint_rules.pattern)
    {
    case ROD_JOINTS_RANDOM:
      draw_joints (layout);
      break;
    case ROD_JOINTS_STAGGERED:
      choose_lanes (layout);
      choose_all (layout);
      break;
    case ROD_JOINTS_BALANCED:
    case ROD_JOINTS_INHERITED:
    case ROD_JOINTS_COLUMNS:
    default:
      choose_all (layout);
      break;
    }
}

void
rod_butt_joints_place (const RodPlan   *plan,
                       RodField        *field,
                       const RodStrips *courses,
                       GArray          *joints,
                       guint           *starts)
{
  Layout layout = {
    .plan = plan,
    .field = field,
    .bans = rod_joint_bans (plan, field, FALSE),
    .raster = g_array_new (FALSE, FALSE, sizeof (double)),
    .places = g_array_new (FALSE, FALSE, sizeof (RodJointPlace)),
    .strips = g_array_new (FALSE, FALSE, sizeof (Strip)),
    .joints = joints,
    .starts = starts,
    .square = rod_field_ends_square (field),
    .longest_mm = rod_field_longest_mm (plan, field),
    .least_mm = rod_plan_face (plan, field->face)->system->rules->min_piece_mm,
  };
  gboolean needed = FALSE;

  field->butt_reach_mm = rod_field_butt_reach_mm (plan, field);
  rod_joint_stock_init (&layout.stock, field->board, plan->house->saw);
  list_strips (&layout, courses);
  for (guint s = 0; s < layout.strips->len && !needed; s++)
    needed = is_long (&layout, &g_array_index (layout.strips, Strip, s));
  if (needed)
    place_all (&layout);
  rod_joint_lanes_clear (&layout.lanes);
  rod_joint_stock_clear (&layout.stock);
  g_array_unref (layout.bans);
  g_array_unref (layout.raster);
  g_array_unref (layout.places);
  g_array_unref (layout.strips);
}
