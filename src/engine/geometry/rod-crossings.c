/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Which edges of an arrangement pass through which vertices, and where edges cross.
 *
 * Edges are entered in a grid of about as many cells as there are edges; each cell is then small
 * enough to compare all with all. A grid in both directions, because a wall with thousands of
 * openings has them in rows and in columns: ordering along one axis alone leaves every row a long
 * list. Edges that were compared in an earlier round and have not moved are not compared again. */

#include "engine/geometry/rod-geometry-private.h"

/* Below this, comparing all with all is cheaper than a grid. */
#define LEAST_EDGES_FOR_GRID 12

/* Beyond every drawing, and within what a whole number holds. */
#define FAR_AWAY 4e18

typedef struct
{
  RodGridPoint origin;
  double       cell;
  guint        n_columns;
  guint        n_rows;
  guint       *starts; /* entries of cell c: [starts[c], starts[c + 1]) */
  guint       *edges;
} EdgeGrid;

typedef struct
{
  RodArrangement *arrangement;
  GArray         *splits;
  EdgeGrid        grid;
} Search;

typedef struct
{
  guint cell;
  guint edge;
} GridEntry;

static guint
clamp_cell (gint64 coordinate,
            gint64 origin,
            double cell,
            guint  n_cells)
{
  double index = (double) (coordinate - origin) / cell;

  if (index <= 0.0)
    return 0;
  return MIN ((guint) index, n_cells - 1);
}

static guint
column_of (const EdgeGrid *grid,
           gint64          x)
{
  return clamp_cell (x, grid->origin.x, grid->cell, grid->n_columns);
}

static guint
row_of (const EdgeGrid *grid,
        gint64          y)
{
  return clamp_cell (y, grid->origin.y, grid->cell, grid->n_rows);
}

/* Square cells, about as many as there are edges, also where the drawing is long and flat. */
static void
lay_grid (EdgeGrid             *grid,
          const RodArrangement *arrangement)
{
  const RodGridPoint *points = arrangement->vertices.points;
  RodGridPoint        low = points[0];
  RodGridPoint        high = points[0];
  double              n_edges = (double) arrangement->n_edges;
  double              width, height;

  for (guint i = 1; i < arrangement->vertices.n_points; i++)
    {
      low.x = MIN (low.x, points[i].x);
      low.y = MIN (low.y, points[i].y);
      high.x = MAX (high.x, points[i].x);
      high.y = MAX (high.y, points[i].y);
    }

  width = (double) (high.x - low.x);
  height = (double) (high.y - low.y);
  grid->origin = low;
  grid->cell = MAX (sqrt (width * height / n_edges), MAX (width, height) / n_edges);
  grid->cell = MAX (grid->cell, 2.0 * (double) ROD_SNAP_GRID);
  if (arrangement->n_edges < LEAST_EDGES_FOR_GRID)
    grid->cell = MAX (width, height) + 1.0;
  grid->n_columns = (guint) (width / grid->cell) + 1;
  grid->n_rows = (guint) (height / grid->cell) + 1;
}

/* The stretch of x that the edge a → b covers between two heights, a snap wider at both ends. */
static void
find_reach (RodGridPoint a,
            RodGridPoint b,
            double       bottom,
            double       top,
            gint64      *left,
            gint64      *right)
{
  gint64 margin = ROD_SNAP_GRID + 1;

  *left = MIN (a.x, b.x);
  *right = MAX (a.x, b.x);
  if (a.y != b.y && a.x != b.x)
    {
      double slope, x_bottom, x_top;

      slope = (double) (b.x - a.x) / (double) (b.y - a.y);
      x_bottom = (double) a.x + (bottom - (double) a.y) * slope;
      x_top = (double) a.x + (top - (double) a.y) * slope;
      *left = MAX (*left, (gint64) CLAMP (MIN (x_bottom, x_top), -FAR_AWAY, FAR_AWAY));
      *right = MIN (*right, (gint64) CLAMP (MAX (x_bottom, x_top), -FAR_AWAY, FAR_AWAY));
    }
  *left -= margin;
  *right += margin;
}

static void
enter_edge (const EdgeGrid *grid,
            GArray         *entries,
            guint           edge,
            RodGridPoint    a,
            RodGridPoint    b)
{
  double margin = (double) (ROD_SNAP_GRID + 1);
  guint  first_row = row_of (grid, MIN (a.y, b.y) - ROD_SNAP_GRID - 1);
  guint  last_row = row_of (grid, MAX (a.y, b.y) + ROD_SNAP_GRID + 1);

  for (guint row = first_row; row <= last_row; row++)
    {
      double bottom = (double) grid->origin.y + row * grid->cell - margin;
      double top = bottom + grid->cell + 2.0 * margin;
      gint64 left, right;
      guint  last_column;

      find_reach (a, b, bottom, top, &left, &right);
      last_column = column_of (grid, right);
      for (guint column = column_of (grid, left); column <= last_column; column++)
        {
          GridEntry entry = { row * grid->n_columns + column, edge };

          g_array_append_val (entries, entry);
        }
    }
}

static void
fill_grid (EdgeGrid             *grid,
           const RodArrangement *arrangement)
{
  const RodGridPoint *points = arrangement->vertices.points;
  guint               n_cells = grid->n_columns * grid->n_rows;
  /* Most edges lie in a few cells. */
  g_autoptr (GArray) entries =
    g_array_sized_new (FALSE, FALSE, sizeof (GridEntry), 4 * arrangement->n_edges);
  g_autofree guint *next = g_new (guint, n_cells);

  for (guint i = 0; i < arrangement->n_edges; i++)
    enter_edge (grid, entries, i, points[arrangement->edges[i].a], points[arrangement->edges[i].b]);

  grid->starts = g_new0 (guint, n_cells + 1);
  grid->edges = g_new (guint, entries->len);
  for (guint i = 0; i < entries->len; i++)
    grid->starts[g_array_index (entries, GridEntry, i).cell + 1]++;
  for (guint cell = 0; cell < n_cells; cell++)
    {
      grid->starts[cell + 1] += grid->starts[cell];
      next[cell] = grid->starts[cell];
    }
  for (guint i = 0; i < entries->len; i++)
    {
      GridEntry entry = g_array_index (entries, GridEntry, i);

      grid->edges[next[entry.cell]++] = entry.edge;
    }
}

static void
add_split (Search *search,
           guint   edge,
           guint   vertex)
{
  const RodGridPoint    *points = search->arrangement->vertices.points;
  const RodArrangedEdge *split = &search->arrangement->edges[edge];
  double                 dx = (double) (points[split->b].x - points[split->a].x);
  double                 dy = (double) (points[split->b].y - points[split->a].y);
  RodEdgeSplit           added = { edge, vertex, 0.0 };

  if (vertex == split->a || vertex == split->b)
    return;

  added.along = dx * (double) (points[vertex].x - points[split->a].x) +
                dy * (double) (points[vertex].y - points[split->a].y);
  g_array_append_val (search->splits, added);
}

/* Within the snap of the edge, and not past either of its ends. */
static gboolean
lies_on_edge (RodGridPoint a,
              RodGridPoint b,
              RodGridPoint point)
{
  double snap = (double) ROD_SNAP_GRID;
  double dx, dy, px, py, across, along, length_squared;

  if (point.y + ROD_SNAP_GRID < MIN (a.y, b.y) || point.y - ROD_SNAP_GRID > MAX (a.y, b.y) ||
      point.x + ROD_SNAP_GRID < a.x || point.x - ROD_SNAP_GRID > b.x)
    return FALSE;

  dx = (double) (b.x - a.x);
  dy = (double) (b.y - a.y);
  px = (double) (point.x - a.x);
  py = (double) (point.y - a.y);
  across = dx * py - dy * px;
  along = dx * px + dy * py;
  length_squared = dx * dx + dy * dy;
  return across * across <= snap * snap * length_squared && along > 0.0 && along < length_squared;
}

static void
find_edges_through (Search *search,
                    guint   vertex)
{
  const RodArrangement *arrangement = search->arrangement;
  const RodGridPoint   *points = arrangement->vertices.points;
  const EdgeGrid       *grid = &search->grid;
  guint                 cell;

  cell = row_of (grid, points[vertex].y) * grid->n_columns + column_of (grid, points[vertex].x);
  for (guint i = grid->starts[cell]; i < grid->starts[cell + 1]; i++)
    {
      const RodArrangedEdge *edge = &arrangement->edges[grid->edges[i]];

      if ((edge->fresh || !arrangement->compared[vertex]) &&
          lies_on_edge (points[edge->a], points[edge->b], points[vertex]) &&
          rod_arrangement_can_split (arrangement, edge, vertex))
        add_split (search, grid->edges[i], vertex);
    }
}

/* Vertices whose edges have all cancelled must not bend others; they may come into use again. */
static void
find_vertices_on_edges (Search *search)
{
  RodArrangement    *arrangement = search->arrangement;
  guint              n_vertices = arrangement->vertices.n_points;
  g_autofree guint8 *used = rod_arrangement_mark_used (arrangement);

  arrangement->compared = g_renew (guint8, arrangement->compared, n_vertices);
  while (arrangement->n_compared < n_vertices)
    arrangement->compared[arrangement->n_compared++] = FALSE;

  for (guint vertex = 0; vertex < n_vertices; vertex++)
    {
      if (used[vertex])
        find_edges_through (search, vertex);
      arrangement->compared[vertex] = used[vertex];
    }
}

/* Whether two edges cross in a point that is an end of neither, and where on the first. */
static gboolean
edges_cross (RodGridPoint  a,
             RodGridPoint  b,
             RodGridPoint  c,
             RodGridPoint  d,
             RodGridPoint *crossing)
{
  double from_c, from_d, share;

  /* Ends are in order of x, so these are the boxes round the edges. */
  if (a.x > d.x || c.x > b.x || MIN (a.y, b.y) > MAX (c.y, d.y) || MIN (c.y, d.y) > MAX (a.y, b.y))
    return FALSE;
  if (rod_grid_turn (a, b, c) * rod_grid_turn (a, b, d) >= 0 ||
      rod_grid_turn (c, d, a) * rod_grid_turn (c, d, b) >= 0)
    return FALSE;

  from_c = (double) rod_grid_cross (c, d, a);
  from_d = (double) rod_grid_cross (c, d, b);
  share = from_c / (from_c - from_d);
  crossing->x = a.x + rod_grid_round (share * (double) (b.x - a.x));
  crossing->y = a.y + rod_grid_round (share * (double) (b.y - a.y));
  return TRUE;
}

static gboolean
can_meet_in (const Search *search,
             guint         edge,
             guint         vertex)
{
  const RodArrangedEdge *split = &search->arrangement->edges[edge];

  return vertex == split->a || vertex == split->b ||
         rod_arrangement_can_split (search->arrangement, split, vertex);
}

/* Leads two crossing edges through one vertex: one that is there already within the snap if they
 * can, else a new one. */
static void
join_crossing (Search      *search,
               guint        first,
               guint        second,
               RodGridPoint crossing)
{
  RodVertices *vertices = &search->arrangement->vertices;
  guint        vertex = rod_vertices_find (vertices, crossing);

  if (vertex == ROD_NO_INDEX ||
      (!rod_grid_point_equal (vertices->points[vertex], crossing) &&
       !(can_meet_in (search, first, vertex) && can_meet_in (search, second, vertex))))
    vertex = rod_vertices_add (vertices, crossing);
  add_split (search, first, vertex);
  add_split (search, second, vertex);
}

static void
find_crossings_in_cell (Search *search,
                        guint   start,
                        guint   end)
{
  const RodArrangedEdge *edges = search->arrangement->edges;

  for (guint i = start; i < end; i++)
    for (guint j = i + 1; j < end; j++)
      {
        const RodGridPoint    *points = search->arrangement->vertices.points;
        guint                  first = search->grid.edges[i];
        guint                  second = search->grid.edges[j];
        const RodArrangedEdge *e = &edges[first];
        const RodArrangedEdge *f = &edges[second];
        RodGridPoint           crossing;

        if ((e->fresh || f->fresh) &&
            edges_cross (points[e->a], points[e->b], points[f->a], points[f->b], &crossing))
          join_crossing (search, first, second, crossing);
      }
}

/* Appends every split an edge needs to @splits; crossings become new vertices. */
void
rod_arrangement_find_splits (RodArrangement *arrangement,
                             GArray         *splits)
{
  Search search = { arrangement, splits, { { 0 } } };
  guint  n_cells;

  if (arrangement->n_edges == 0)
    return;

  lay_grid (&search.grid, arrangement);
  fill_grid (&search.grid, arrangement);

  find_vertices_on_edges (&search);
  n_cells = search.grid.n_columns * search.grid.n_rows;
  for (guint cell = 0; cell < n_cells; cell++)
    find_crossings_in_cell (&search, search.grid.starts[cell], search.grid.starts[cell + 1]);

  g_free (search.grid.starts);
  g_free (search.grid.edges);
}
