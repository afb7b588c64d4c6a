/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/geometry/rod-strips.h"
#include "engine/rod-limits.h"

#include <math.h>

/* What the files of this folder share. Inside, coordinates are whole micrometres: sums, cross
 * products and comparisons are then exact, which no choice of epsilon makes of doubles. */

G_BEGIN_DECLS

#define ROD_GRID_PER_MM 1000.0
#define ROD_SNAP_GRID ((gint64) (ROD_SNAP_MM * ROD_GRID_PER_MM + 0.5))
#define ROD_LINE_SNAP_GRID ((gint64) (ROD_LINE_SNAP_MM * ROD_GRID_PER_MM + 0.5))

/* Greatest coordinate the predicates take: with it, the product of two differences fits 63 bits.
 * It leaves room for a drawing of ROD_MAX_COORDINATE_MM turned by any angle. */
#define ROD_GRID_MAX G_GINT64_CONSTANT (1500000000)

#define ROD_NO_INDEX G_MAXUINT

/**
 * RodGridPoint:
 * @x: micrometres
 * @y: micrometres
 */
typedef struct
{
  gint64 x;
  gint64 y;
} RodGridPoint;

/**
 * RodGridCorner:
 * @at: where it is
 * @tag: tag of the edge that leaves it
 */
typedef struct
{
  RodGridPoint at;
  int          tag;
} RodGridCorner;

typedef __int128 RodWide;

/* To the nearest whole number, halves away from nought: mirrored input gives mirrored output. */
static inline gint64
rod_grid_round (double value)
{
  return (gint64) (value < 0.0 ? value - 0.5 : value + 0.5);
}

static inline gint64
rod_grid_from_mm (double mm)
{
  double grid = mm * ROD_GRID_PER_MM;

  return rod_grid_round (CLAMP (grid, (double) -ROD_GRID_MAX, (double) ROD_GRID_MAX));
}

static inline double
rod_grid_to_mm (gint64 grid)
{
  return (double) grid / ROD_GRID_PER_MM;
}

static inline gboolean
rod_grid_point_equal (RodGridPoint a,
                      RodGridPoint b)
{
  return a.x == b.x && a.y == b.y;
}

/* By x, then by y: the order in which a line that leans ever so little sweeps the plane. */
static inline gboolean
rod_grid_point_before (RodGridPoint a,
                       RodGridPoint b)
{
  return a.x < b.x || (a.x == b.x && a.y < b.y);
}

static inline double
rod_grid_distance_squared (RodGridPoint a,
                           RodGridPoint b)
{
  double dx = (double) (a.x - b.x);
  double dy = (double) (a.y - b.y);

  return dx * dx + dy * dy;
}

/* Twice the area of the triangle a, b, c: positive when c lies to the left of a → b. */
static inline RodWide
rod_grid_cross (RodGridPoint a,
                RodGridPoint b,
                RodGridPoint c)
{
  return (RodWide) (b.x - a.x) * (c.y - a.y) - (RodWide) (b.y - a.y) * (c.x - a.x);
}

/* The sign of rod_grid_cross(): -1, 0 or 1. */
static inline int
rod_grid_turn (RodGridPoint a,
               RodGridPoint b,
               RodGridPoint c)
{
  gint64 left = (b.x - a.x) * (c.y - a.y);
  gint64 right = (b.y - a.y) * (c.x - a.x);

  return (left > right) - (left < right);
}

guint rod_grid_ring_straighten (RodGridCorner *corners,
                                guint         *ids,
                                guint          n_corners,
                                const guint8  *shared);

/* The path's insides: corners of closed rings, then those of the open one. */
struct _RodPath
{
  GArray *corners;     /* of PathCorner */
  GArray *ring_starts; /* of guint: where each closed ring starts, and the open one at the end */
};

typedef struct
{
  RodPoint at;
  int      tag;
} RodPathCorner;

/* Growing a region ring by ring. */
typedef struct
{
  RodRegion *region;
  guint      points_room;
  guint      rings_room;
} RodRegionBuilder;

void       rod_region_builder_init (RodRegionBuilder *builder,
                                    guint             points_room);
void       rod_region_builder_add_ring (RodRegionBuilder    *builder,
                                        const RodGridCorner *corners,
                                        guint                n_corners);
RodPoint  *rod_region_builder_reserve (RodRegionBuilder *builder,
                                       guint             n_corners,
                                       int             **tags);
guint      rod_region_builder_commit (RodRegionBuilder *builder,
                                      guint             n_corners);
RodRegion *rod_region_builder_finish (RodRegionBuilder *builder) G_GNUC_WARN_UNUSED_RESULT;

/* The region of one convex ring that has nothing to snap; NULL for any other path. */
RodRegion *rod_path_plain_region (const RodPath *path) G_GNUC_WARN_UNUSED_RESULT;

/* Distinct points with a finder: no two closer than the radius unless asked for. */
typedef struct
{
  RodGridPoint *points;
  guint        *next_in_bucket;
  guint         n_points;
  guint         room;

  guint *buckets;
  guint  n_buckets; /* a power of two */
  int    hash_shift;

  gint64 radius;
  int    cell_shift; /* binary logarithm of a cell's width */
} RodVertices;

void  rod_vertices_init (RodVertices *vertices,
                         gint64       radius,
                         guint        n_expected);
void  rod_vertices_clear (RodVertices *vertices);
guint rod_vertices_find (const RodVertices *vertices,
                         RodGridPoint       point);
guint rod_vertices_add (RodVertices *vertices,
                        RodGridPoint point);
guint rod_vertices_find_or_add (RodVertices *vertices,
                                RodGridPoint point);

/* One straight edge between two vertices, for all input edges that lie there. */
typedef struct
{
  guint    a; /* the vertex that comes first by rod_grid_point_before() */
  guint    b;
  int      delta;       /* winding number above the edge less the one below it */
  int      tag_along;   /* least tag of the input edges a → b, G_MAXINT if there are none */
  int      tag_against; /* the same for b → a */
  gboolean fresh;       /* not yet compared with its neighbours */
} RodArrangedEdge;

typedef struct
{
  guint  edge;
  guint  vertex;
  double along; /* where the vertex falls on the edge, any unit */
} RodEdgeSplit;

/* Edges that meet only in vertices, once rod_arrangement_node() has seen to it. */
typedef struct
{
  RodVertices vertices;

  RodArrangedEdge *edges; /* by a */
  guint            n_edges;
  guint            edges_room;
  guint           *edge_starts; /* where those that start at each vertex begin */

  guint8 *compared; /* whether a vertex in use has been compared with all edges not fresh */
  guint   n_compared;
} RodArrangement;

void rod_arrangement_init (RodArrangement *arrangement,
                           const RodPath  *path);
void rod_arrangement_clear (RodArrangement *arrangement);
void rod_arrangement_node (RodArrangement *arrangement);

gboolean rod_arrangement_can_split (const RodArrangement  *arrangement,
                                    const RodArrangedEdge *edge,
                                    guint                  vertex);
guint8  *rod_arrangement_mark_used (const RodArrangement *arrangement) G_GNUC_WARN_UNUSED_RESULT;
void     rod_arrangement_find_splits (RodArrangement *arrangement,
                                      GArray         *splits);

int *rod_arrangement_windings (const RodArrangement *arrangement) G_GNUC_WARN_UNUSED_RESULT;

/* An edge with the area on its left. */
typedef struct
{
  guint from;
  guint to;
  int   tag;
} RodDirectedEdge;

void rod_edges_link (const RodDirectedEdge *edges,
                     guint                  n_edges,
                     const RodGridPoint    *points,
                     guint                  n_points,
                     guint                 *next);

guint rod_corners_number (const RodGridCorner *corners,
                          guint                n_corners,
                          guint               *ids);

typedef void (*RodLoopFunc) (const RodGridCorner *corners,
                             guint                n_corners,
                             gpointer             user_data);

void rod_ring_split_loops (const RodGridCorner *corners,
                           const guint         *ids,
                           guint                n_corners,
                           guint               *place,
                           RodLoopFunc          func,
                           gpointer             user_data);

/* Parallel lines, and what the edges along them are called. Band b lies between line b - 1 and
 * line b. */
typedef struct
{
  const gint64 *lines; /* ascending, at least ROD_SNAP_GRID apart */
  guint         n_lines;
  int           tag_below;
  int           tag_above;
} RodComb;

/* What the chains of one band do at its lines. Each kind has a list for each band. */
typedef enum
{
  ROD_CHAINS_ARRIVING_BELOW,
  ROD_CHAINS_LEAVING_BELOW,
  ROD_CHAINS_ARRIVING_ABOVE,
  ROD_CHAINS_LEAVING_ABOVE,
  ROD_CHAINS_CLOSED, /* rings that meet no line */
  ROD_N_CHAIN_KINDS
} RodChainKind;

/* A stretch of border inside one band, from line to line, or a whole ring that meets no line. */
typedef struct
{
  guint    first; /* of its corners in the walk's chain_corners */
  guint    n_corners;
  guint    leaving_list; /* band * kinds + kind; a closed chain leaves only */
  guint    arriving_list;
  guint    leaving_edge; /* the edge on which it leaves its first line */
  guint    arriving_edge;
  guint    next;        /* the chain that goes on where it arrives */
  unsigned closed : 1;  /* meets no line */
  unsigned touches : 1; /* shares an end with another chain than its neighbours */
  unsigned walked : 1;
} RodChain;

/* An end of a chain, where it is on its line. */
typedef struct
{
  gint64 x;
  guint  chain;
} RodChainEnd;

/* A simple ring among the pieces of one band. */
typedef struct
{
  guint    ring;  /* its index in the result */
  guint    piece; /* for a hole: the loop it lies in */
  double   area;  /* mm², negative for a hole */
  RodPoint low;
  RodPoint high;
} RodLoop;

/* The rings that are cut and the chains they make. Memory is kept from one run to the next. */
typedef struct
{
  RodComb  comb;
  gboolean turned; /* x and y were turned by a quarter: the lines stand upright in the drawing */

  RodGridCorner *corners; /* border edge i leads from corner i to corner next[i] */
  guint         *next;
  guint         *levels; /* twice the band, or twice the line plus one */
  guint         *ids;    /* equal where corners lie in one place */
  guint8        *walked;
  guint          n_corners;
  guint          corners_room;
  gboolean       has_shared; /* some corners lie in one place */

  RodChain      *chains;
  guint          n_chains;
  guint          chains_room;
  RodGridCorner *chain_corners;
  guint          n_chain_corners;
  guint          chain_corners_room;

  RodChainEnd *ends; /* of list l: [end_starts[l], end_starts[l + 1]) */
  guint        ends_room;
  guint       *end_starts;
  guint        end_starts_room;

  RodLoop *loops; /* of the band at hand */
  guint    n_loops;
  guint    loops_room;
  gboolean has_holes; /* among the loops */
} RodBandWalk;

void rod_band_walk_init (RodBandWalk *walk,
                         RodComb      comb,
                         gboolean     turned);
void rod_band_walk_clear (RodBandWalk *walk);
void rod_band_walk_load (RodBandWalk     *walk,
                         const RodRegion *region,
                         guint            first_ring,
                         guint            n_rings);
void rod_band_walk_make_chains (RodBandWalk *walk);
void rod_band_walk_pair_ends (RodBandWalk *walk);

/* Growing a set of strips. */
typedef struct
{
  RodRegionBuilder rings;
  RodStrip        *strips;
  RodPoint        *lows;   /* least x and least y of each strip */
  guint            source; /* of the strips that are added, ROD_NO_INDEX for themselves */
  guint            n_strips;
  guint            strips_room;
} RodStripsBuilder;

void rod_strips_builder_init (RodStripsBuilder *builder,
                              guint             points_room);
void rod_strips_builder_add (RodStripsBuilder *builder,
                             RodStrip          strip,
                             RodPoint          low);
void rod_band_walk_gather (RodBandWalk      *walk,
                           guint             band,
                           int               course,
                           RodStripsBuilder *builder);
void rod_loops_add_strips (RodLoop          *loops,
                           guint             n_loops,
                           guint             first_ring,
                           int               course,
                           RodStripsBuilder *builder);

G_END_DECLS
