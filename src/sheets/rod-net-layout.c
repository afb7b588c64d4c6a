/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The unfolded house arranged for paper.
 *
 * Walls unfold into one long strip that would be a thread on a sheet. It is cut into rows set below
 * each other like lines of writing; a face goes to the row its middle lies in, linings go with
 * their wall. The number of rows that lets the house be drawn largest is taken.
 */
#include "config.h"

#include "sheets/rod-net-layout.h"
#include "sheets/rod-sheets-private.h"

#include <math.h>

#include "sheets/rod-contour.h"

#define MOST_ROWS 12

/* Between rows, as a share of the height of all rows. */
#define ROW_GAP 0.05

typedef struct
{
  RodPoint low;
  RodPoint high;
} Extent;

static Extent
net_extent (const RodFace *face)
{
  g_autoptr (GArray) contour = rod_contour_outline (face->surface);
  Extent extent;

  for (guint i = 0; i < contour->len; i++)
    {
      RodPoint *at = &g_array_index (contour, RodPoint, i);

      *at = rod_affine_apply (face->net, *at);
    }
  rod_contour_extent (contour, &extent.low, &extent.high);

  return extent;
}

static Extent
join_extents (Extent a,
              Extent b)
{
  return (Extent){ { fmin (a.low.x, b.low.x), fmin (a.low.y, b.low.y) },
                   { fmax (a.high.x, b.high.x), fmax (a.high.y, b.high.y) } };
}

static guint
find_row (const RodPlan *plan,
          const Extent  *extents,
          Extent         all,
          guint          face,
          guint          n_rows)
{
  const RodFace *of = rod_plan_face (plan, face);
  double         middle, share;

  if (of->parent >= 0)
    face = (guint) of->parent;
  middle = 0.5 * (extents[face].low.x + extents[face].high.x);
  share = (middle - all.low.x) / fmax (all.high.x - all.low.x, 1.0);

  return MIN ((guint) fmax (0.0, share * n_rows), n_rows - 1);
}

/* Extents of the rows; those without a face are left with high below low. */
static void
find_rows (const RodPlan *plan,
           const Extent  *extents,
           Extent         all,
           guint          n_rows,
           Extent        *rows)
{
  for (guint r = 0; r < n_rows; r++)
    rows[r] = (Extent){ { G_MAXDOUBLE, G_MAXDOUBLE }, { -G_MAXDOUBLE, -G_MAXDOUBLE } };
  for (guint i = 0; i < plan->faces->len; i++)
    {
      guint row = find_row (plan, extents, all, i, n_rows);

      rows[row] = join_extents (rows[row], extents[i]);
    }
}

static void
sum_rows (const Extent *rows,
          guint         n_rows,
          double       *width,
          double       *height)
{
  *width = *height = 1.0;
  for (guint r = 0; r < n_rows; r++)
    if (rows[r].high.x >= rows[r].low.x)
      {
        *width = fmax (*width, rows[r].high.x - rows[r].low.x);
        *height += rows[r].high.y - rows[r].low.y;
      }
  *height *= 1.0 + ROW_GAP * (n_rows - 1);
}

RodAffine *
rod_net_layout (const RodPlan *plan,
                double         width,
                double         height,
                RodPoint      *size)
{
  guint              n = plan->faces->len;
  RodAffine         *maps = g_new0 (RodAffine, n + 1);
  g_autofree Extent *extents = g_new0 (Extent, n + 1);
  Extent             all, rows[MOST_ROWS];
  guint              best = 1;
  double             best_scale = 0.0, top;

  for (guint i = 0; i < n; i++)
    {
      extents[i] = net_extent (rod_plan_face (plan, i));
      all = i == 0 ? extents[0] : join_extents (all, extents[i]);
    }
  for (guint r = 1; n > 0 && r <= MOST_ROWS; r++)
    {
      double sum_width, sum_height, scale;

      find_rows (plan, extents, all, r, rows);
      sum_rows (rows, r, &sum_width, &sum_height);
      scale = fmin (width / sum_width, height / sum_height);
      if (scale > best_scale * 1.02)
        {
          best = r;
          best_scale = scale;
          *size = (RodPoint){ sum_width, sum_height };
        }
    }
  if (n == 0)
    {
      *size = (RodPoint){ 1.0, 1.0 };
      return maps;
    }

  find_rows (plan, extents, all, best, rows);
  top = size->y;
  for (guint r = 0; r < best; r++)
    {
      if (rows[r].high.x < rows[r].low.x)
        continue;
      for (guint i = 0; i < n; i++)
        if (find_row (plan, extents, all, i, best) == r)
          {
            maps[i] = rod_plan_face (plan, i)->net;
            maps[i].x0 += 0.5 * (size->x - rows[r].low.x - rows[r].high.x);
            maps[i].y0 += top - rows[r].high.y;
          }
      top -= rows[r].high.y - rows[r].low.y + size->y * ROW_GAP / (1.0 + ROW_GAP * (best - 1));
    }

  return maps;
}

RodAffine
rod_net_to_page (const RodSheets *sheets,
                 RodRoom          room)
{
  double scale = fmin (room.width / sheets->net_size.x, room.height / sheets->net_size.y);

  return (RodAffine){
    .xx = scale,
    .x0 = room.x + 0.5 * (room.width - scale * sheets->net_size.x),
    .yy = -scale,
    .y0 = room.y + 0.5 * (room.height + scale * sheets->net_size.y),
  };
}
