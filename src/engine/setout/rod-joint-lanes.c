/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Staggered joints on a stretch of wall. The courses of a cycle are its lanes. Joints are placed
 * from left to right, into whichever lane; two such beginnings whose lanes end in the same joints
 * have the same future, so that the better of them is all that need be kept. Lanes are alike, so
 * that their order does not count. */

#include "config.h"

#include <math.h>
#include <string.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-joint-lanes.h"

/* Beginnings kept at once. Lanes of four courses and battens at 400 need some hundred. */
#define MOST_BEGINNINGS 1500

/* What a batten that stands there for one joint only is reckoned to cost, in boards: enough to
 * decide between equals. */
#define OWN_BATTEN 0.002

/* A last joint's place, counted from 1; 0 where a lane has none yet. Ten bits make a key. */
#define PLACE_BITS 10
#define MOST_PLACES ((1u << PLACE_BITS) - 2)

typedef struct
{
  guint16 last[ROD_MAX_JOINT_REPEAT]; /* ascending */
  guint   n_joints;
  double  cost;
  guint   parent;
  guint   place;  /* of the joint placed last, counted from 1 */
  guint   before; /* the joint before it in its lane */
} Beginning;

typedef struct
{
  const RodJointSpan *span;
  GArray             *beginnings; /* of Beginning */
  GArray             *alive;      /* of guint */
  GHashTable         *keys;       /* of the beginnings made at this place */
  guint               best;
  guint               best_joints;
  double              best_cost;
} Search;

static const RodJointPlace *
place_of (const RodJointSpan *span,
          guint               place)
{
  return &g_array_index (span->places, RodJointPlace, place - 1);
}

/* The board from one joint, or the left end, to the next, or the right end. */
static double
board_mm (const RodJointSpan  *span,
          const RodJointPlace *left,
          const RodJointPlace *right)
{
  RodBay bay = {
    .clear_mm = (right != NULL ? right->at_mm : span->high_mm) -
                (left != NULL ? left->at_mm : span->low_mm),
    .left_butt = left != NULL,
    .right_butt = right != NULL,
  };

  return span->board_mm (&bay, span->data);
}

static gboolean
fits (const RodJointSpan *span,
      double              length_mm)
{
  return length_mm >= span->least_mm - ROD_EPSILON_MM &&
         length_mm <= span->longest_mm + ROD_EPSILON_MM;
}

static double
worth_of (const RodJointSpan *span,
          double              length_mm)
{
  return span->worth != NULL ? span->worth (length_mm, span->data) : 0.0;
}

static const RodJointPlace *
last_of (const Search    *search,
         const Beginning *beginning,
         guint            lane)
{
  return beginning->last[lane] == 0 ? NULL : place_of (search->span, beginning->last[lane]);
}

static gboolean
is_done (const Search    *search,
         const Beginning *beginning,
         guint            lane)
{
  return fits (search->span, board_mm (search->span, last_of (search, beginning, lane), NULL));
}

/* Whether a joint at @place keeps its distance from the last ones of the other lanes; those before
 * them lie further back. */
static gboolean
keeps_off (const Search    *search,
           const Beginning *beginning,
           guint            lane,
           guint            place)
{
  double at_mm = place_of (search->span, place)->at_mm;

  for (guint i = 0; i < search->span->n_lanes; i++)
    if (i != lane && beginning->last[i] > 0 &&
        at_mm - last_of (search, beginning, i)->at_mm < search->span->offset_mm - ROD_EPSILON_MM)
      return FALSE;
  return TRUE;
}

static guint64
key_of (const Beginning *beginning,
        guint            n_lanes)
{
  guint64 key = 1;

  for (guint i = 0; i < n_lanes; i++)
    key = key << PLACE_BITS | beginning->last[i];
  return key;
}

static gboolean
is_better (const Beginning *a,
           guint            n_joints,
           double           cost)
{
  return a->n_joints < n_joints ||
         (a->n_joints == n_joints && a->cost < cost - ROD_EPSILON_MM);
}

/* Keeps a beginning unless a better one ends in the same joints. */
static void
keep (Search          *search,
      const Beginning *made)
{
  guint64  key = key_of (made, search->span->n_lanes);
  gpointer known = g_hash_table_lookup (search->keys, &key);
  guint    index = search->beginnings->len;

  if (known != NULL)
    {
      Beginning *old = &g_array_index (search->beginnings, Beginning, GPOINTER_TO_UINT (known) - 1);

      if (is_better (made, old->n_joints, old->cost))
        *old = *made;
      return;
    }
  if (search->alive->len >= MOST_BEGINNINGS)
    return;
  g_array_append_val (search->beginnings, *made);
  g_array_append_val (search->alive, index);
  g_hash_table_insert (search->keys, g_memdup2 (&key, sizeof key), GUINT_TO_POINTER (index + 1));
}

/* Puts a joint at @place into a lane. */
static void
extend (Search *search,
        guint   parent,
        guint   lane,
        guint   place)
{
  const RodJointSpan  *span = search->span;
  Beginning            made = g_array_index (search->beginnings, Beginning, parent);
  const RodJointPlace *to = place_of (span, place);
  double               length_mm = board_mm (span, last_of (search, &made, lane), to);

  if (!fits (span, length_mm) || !keeps_off (search, &made, lane, place))
    return;
  made.before = made.last[lane];
  made.place = place;
  made.parent = parent;
  made.n_joints++;
  made.cost += worth_of (span, length_mm) + (to->own ? OWN_BATTEN : 0.0);
  memmove (made.last + lane,
           made.last + lane + 1,
           (span->n_lanes - 1 - lane) * sizeof made.last[0]);
  made.last[span->n_lanes - 1] = (guint16) place;
  keep (search, &made);
}

/* Whether a lane that still needs a joint can have it at @place or later. */
static gboolean
has_future (const Search    *search,
            const Beginning *beginning,
            guint            place)
{
  for (guint i = 0; i < search->span->n_lanes; i++)
    if (!is_done (search, beginning, i) &&
        board_mm (search->span, last_of (search, beginning, i), place_of (search->span, place)) >
          search->span->longest_mm + ROD_EPSILON_MM)
      return FALSE;
  return TRUE;
}

static void
try_place (Search *search,
           guint   place)
{
  guint n = search->alive->len;
  guint n_kept = 0;

  g_hash_table_remove_all (search->keys);
  for (guint a = 0; a < n; a++)
    {
      guint     index = g_array_index (search->alive, guint, a);
      Beginning beginning = g_array_index (search->beginnings, Beginning, index);

      if (!has_future (search, &beginning, place))
        continue;
      g_array_index (search->alive, guint, n_kept++) = index;
      for (guint lane = 0; lane < search->span->n_lanes; lane++)
        if ((lane == 0 || beginning.last[lane] != beginning.last[lane - 1]) &&
            !is_done (search, &beginning, lane))
          extend (search, index, lane, place);
    }
  if (n_kept < n)
    g_array_remove_range (search->alive, n_kept, n - n_kept);
}

/* A beginning all of whose lanes reach the right end is a way. */
static void
find_best (Search *search)
{
  search->best_joints = G_MAXUINT;
  for (guint b = 0; b < search->beginnings->len; b++)
    {
      Beginning way = g_array_index (search->beginnings, Beginning, b);
      gboolean  done = TRUE;

      for (guint i = 0; done && i < search->span->n_lanes; i++)
        {
          double rest_mm = board_mm (search->span, last_of (search, &way, i), NULL);

          done = fits (search->span, rest_mm);
          way.cost += worth_of (search->span, rest_mm);
        }
      if (done && is_better (&way, search->best_joints, search->best_cost))
        {
          search->best = b;
          search->best_joints = way.n_joints;
          search->best_cost = way.cost;
        }
    }
}

/* Goes back from the best way. Each joint knows the one before it in its lane. */
static void
collect_lanes (const Search  *search,
               RodJointLanes *lanes)
{
  const Beginning *way = &g_array_index (search->beginnings, Beginning, search->best);
  guint16          first[ROD_MAX_JOINT_REPEAT];

  memcpy (first, way->last, sizeof first);
  lanes->n_lanes = search->span->n_lanes;
  lanes->n_joints = way->n_joints;
  for (guint i = 0; i < lanes->n_lanes; i++)
    lanes->lanes[i] = g_array_new (FALSE, FALSE, sizeof (RodJointPlace));
  for (; way->n_joints > 0; way = &g_array_index (search->beginnings, Beginning, way->parent))
    for (guint i = 0; i < lanes->n_lanes; i++)
      if (first[i] == way->place)
        {
          g_array_prepend_val (lanes->lanes[i], *place_of (search->span, way->place));
          first[i] = (guint16) way->before;
          break;
        }
}

static gint
compare_lanes (gconstpointer a,
               gconstpointer b)
{
  const GArray *one = *(GArray *const *) a;
  const GArray *other = *(GArray *const *) b;
  double        from = one->len > 0 ? g_array_index (one, RodJointPlace, 0).at_mm : 0.0;
  double        to = other->len > 0 ? g_array_index (other, RodJointPlace, 0).at_mm : 0.0;

  return (from > to) - (from < to);
}

gboolean
rod_joint_lanes_find (const RodJointSpan *span,
                      RodJointLanes      *lanes)
{
  Search search = {
    .span = span,
    .beginnings = g_array_new (FALSE, FALSE, sizeof (Beginning)),
    .alive = g_array_new (FALSE, FALSE, sizeof (guint)),
    .keys = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL),
  };
  Beginning start = { .n_joints = 0 };
  guint     zero = 0;

  g_array_append_val (search.beginnings, start);
  g_array_append_val (search.alive, zero);
  for (guint place = 1; place <= MIN (span->places->len, MOST_PLACES); place++)
    try_place (&search, place);
  find_best (&search);
  if (search.best_joints < G_MAXUINT)
    {
      collect_lanes (&search, lanes);
      qsort (lanes->lanes, lanes->n_lanes, sizeof lanes->lanes[0], compare_lanes);
    }
  g_array_unref (search.beginnings);
  g_array_unref (search.alive);
  g_hash_table_unref (search.keys);
  return search.best_joints < G_MAXUINT;
}

RodJointLanes
rod_joint_lanes_copy (const RodJointLanes *lanes)
{
  RodJointLanes copy = *lanes;

  for (guint i = 0; i < lanes->n_lanes; i++)
    copy.lanes[i] = g_array_copy (lanes->lanes[i]);
  return copy;
}

void
rod_joint_lanes_clear (RodJointLanes *lanes)
{
  for (guint i = 0; i < lanes->n_lanes; i++)
    g_clear_pointer (&lanes->lanes[i], g_array_unref);
  lanes->n_lanes = 0;
}

void
rod_joint_lane_boards (const RodJointSpan *span,
                       const GArray       *lane,
                       GArray             *boards)
{
  const RodJointPlace *left = NULL;

  for (guint j = 0; j <= lane->len; j++)
    {
      const RodJointPlace *right = j < lane->len ? &g_array_index (lane, RodJointPlace, j) : NULL;
      double               length_mm = board_mm (span, left, right);

      g_array_append_val (boards, length_mm);
      left = right;
    }
}

static gboolean
lanes_keep_off (const GArray *one,
                const GArray *other,
                double        offset_mm)
{
  for (guint i = 0; i < one->len; i++)
    for (guint k = 0; k < other->len; k++)
      if (fabs (g_array_index (one, RodJointPlace, i).at_mm -
                g_array_index (other, RodJointPlace, k).at_mm) < offset_mm - ROD_EPSILON_MM)
        return FALSE;
  return TRUE;
}

gboolean
rod_joint_lanes_hold (const RodJointSpan  *span,
                      const RodJointLanes *lanes)
{
  g_autoptr (GArray) boards = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < lanes->n_lanes; i++)
    {
      rod_joint_lane_boards (span, lanes->lanes[i], boards);
      for (guint k = 0; k < i; k++)
        if (!lanes_keep_off (lanes->lanes[i], lanes->lanes[k], span->offset_mm))
          return FALSE;
    }
  for (guint b = 0; b < boards->len; b++)
    if (!fits (span, g_array_index (boards, double, b)))
      return FALSE;
  return TRUE;
}
