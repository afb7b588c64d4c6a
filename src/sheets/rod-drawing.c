/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one drawing of a face, for paper, print and screen.
 *
 * Every corner goes through one affine into the context's units, so that the flat net, the folded
 * view and a sheet to scale are the same drawing. Boards of one colour are one path and all seams
 * of a face are one path: cairo then rasterises or writes a few large paths instead of thousands of
 * small ones, and seams that two boards share are inked once.
 */
#include "config.h"

#include "sheets/rod-drawing-private.h"
#include "sheets/rod-trim-line.h"

#include <math.h>
#include <string.h>

#include "engine/rod-limits.h"
#include "sheets/rod-contour.h"

/* Openings smaller than this many narrow lines on paper get no diagonals. */
#define DIAGONALS_FROM 40.0

/* Trims narrower than this many narrow lines are drawn as one line. */
#define BAND_FROM 1.5

void
rod_drawing_options_init (RodDrawingOptions *options)
{
  g_return_if_fail (options != NULL);

  *options = (RodDrawingOptions){
    .layers = ROD_LAYER_BOARDS | ROD_LAYER_JOINTS | ROD_LAYER_TRIMS | ROD_LAYER_OPENINGS |
              ROD_LAYER_OUTLINE | ROD_LAYER_MARKS,
    .narrow = 0.18,
    .wide = 0.35,
    .mark_height = 2.5,
    .tint = 0.35,
    .paper = { 1.0, 1.0, 1.0 },
    .ink = { 0.0, 0.0, 0.0 },
    .joint = { 0.35, 0.35, 0.35 },
    .trim = { 0.45, 0.45, 0.45 },
    .batten = { 0.3, 0.3, 0.3 },
  };
}

RodInk
rod_drawing_board_ink (const RodColour         *colour,
                       const RodDrawingOptions *options)
{
  RodInk ink = rod_ink_parse (colour != NULL ? colour->rgb : NULL);

  g_return_val_if_fail (options != NULL, ink);

  if (options->grey)
    {
      double luminance = rod_ink_luminance (ink);

      ink = (RodInk){ luminance, luminance, luminance };
    }

  return rod_ink_mix (options->paper, ink, options->tint);
}

static void
trace_point (cairo_t  *cr,
             RodAffine map,
             RodPoint  point,
             gboolean  first)
{
  RodPoint at = rod_affine_apply (map, point);

  if (first)
    cairo_move_to (cr, at.x, at.y);
  else
    cairo_line_to (cr, at.x, at.y);
}

static void
trace_ring (cairo_t         *cr,
            const RodRegion *rings,
            guint            ring,
            RodAffine        map)
{
  for (guint i = rings->ring_starts[ring]; i < rings->ring_starts[ring + 1]; i++)
    trace_point (cr, map, rings->points[i], i == rings->ring_starts[ring]);
  cairo_close_path (cr);
}

static void
trace_contour (cairo_t      *cr,
               const GArray *contour,
               RodAffine     map)
{
  for (guint i = 0; i < contour->len; i++)
    trace_point (cr, map, g_array_index (contour, RodPoint, i), i == 0);
  if (contour->len > 0)
    cairo_close_path (cr);
}

void
rod_drawing_trace_region (cairo_t         *cr,
                          const RodRegion *region,
                          RodAffine        to_device)
{
  g_return_if_fail (cr != NULL && region != NULL);

  for (guint r = 0; r < region->n_rings; r++)
    trace_ring (cr, region, r, to_device);
}

void
rod_drawing_trace_outline (cairo_t          *cr,
                           const RodSurface *surface,
                           RodAffine         to_device)
{
  g_autoptr (GArray) contour = NULL;

  g_return_if_fail (cr != NULL && surface != NULL);

  contour = rod_contour_outline (surface);
  trace_contour (cr, contour, to_device);
}

void
rod_drawing_trace_opening (cairo_t          *cr,
                           const RodOpening *opening,
                           RodAffine         to_device)
{
  g_autoptr (GArray) contour = NULL;

  g_return_if_fail (cr != NULL && opening != NULL);

  contour = rod_contour_opening (opening);
  trace_contour (cr, contour, to_device);
}

void
rod_drawing_net_extent (const RodPlan *plan,
                        RodPoint      *low,
                        RodPoint      *high)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (RodPoint));

  g_return_if_fail (plan != NULL && low != NULL && high != NULL);

  for (guint i = 0; i < plan->faces->len; i++)
    {
      const RodFace *face = rod_plan_face (plan, i);
      g_autoptr (GArray) contour = rod_contour_outline (face->surface);

      for (guint j = 0; j < contour->len; j++)
        {
          RodPoint at = rod_affine_apply (face->net, g_array_index (contour, RodPoint, j));

          g_array_append_val (all, at);
        }
    }
  rod_contour_extent (all, low, high);
}

/* Whether any of @ring may be seen. */
gboolean
rod_drawing_ring_shows (const double     clip[4],
                        const RodRegion *rings,
                        guint            ring,
                        RodAffine        map)
{
  double low_x = G_MAXDOUBLE, low_y = G_MAXDOUBLE, high_x = -G_MAXDOUBLE, high_y = -G_MAXDOUBLE;

  for (guint i = rings->ring_starts[ring]; i < rings->ring_starts[ring + 1]; i++)
    {
      RodPoint at = rod_affine_apply (map, rings->points[i]);

      low_x = fmin (low_x, at.x);
      low_y = fmin (low_y, at.y);
      high_x = fmax (high_x, at.x);
      high_y = fmax (high_y, at.y);
    }

  return high_x >= clip[0] && high_y >= clip[1] && low_x <= clip[2] && low_y <= clip[3];
}

/* Pieces of a face follow each other in the plan. */
void
rod_drawing_find_pieces (const RodPlan *plan,
                         guint          face,
                         guint         *first,
                         guint         *end)
{
  const RodFace *of = rod_plan_face (plan, face);

  *first = *end = 0;
  if (of->n_fields == 0)
    return;

  *first = rod_plan_field (plan, of->first_field)->first_piece;
  *end = *first;
  for (guint f = of->first_field; f < of->first_field + of->n_fields; f++)
    *end += rod_plan_field (plan, f)->n_pieces;
}

static void
trace_piece (cairo_t        *cr,
             const RodPlan  *plan,
             const RodPiece *piece,
             RodAffine       map,
             const double    clip[4])
{
  if (piece->n_rings == 0 || !rod_drawing_ring_shows (clip, plan->rings, piece->first_ring, map))
    return;

  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    trace_ring (cr, plan->rings, r, map);
}

/* Where both are wanted, one path serves the boards of a colour and their seams. */
static void
draw_boards (cairo_t                 *cr,
             const RodPlan           *plan,
             guint                    face,
             RodAffine                to_device,
             const RodDrawingOptions *options,
             gboolean                 with_joints)
{
  g_autoptr (GPtrArray) colours = g_ptr_array_new ();
  double clip[4];
  guint  first, end;

  cairo_clip_extents (cr, &clip[0], &clip[1], &clip[2], &clip[3]);
  rod_drawing_find_pieces (plan, face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      gpointer colour = (gpointer) rod_plan_piece (plan, i)->colour;

      if (!g_ptr_array_find (colours, colour, NULL))
        g_ptr_array_add (colours, colour);
    }

  cairo_set_line_width (cr, options->narrow);
  for (guint c = 0; c < colours->len; c++)
    {
      const RodColour *colour = g_ptr_array_index (colours, c);

      for (guint i = first; i < end; i++)
        if (rod_plan_piece (plan, i)->colour == colour)
          trace_piece (cr, plan, rod_plan_piece (plan, i), to_device, clip);
      rod_ink_use (rod_drawing_board_ink (colour, options), cr);
      cairo_fill_preserve (cr);
      rod_ink_use (options->joint, cr);
      if (with_joints)
        cairo_stroke_preserve (cr);
      cairo_new_path (cr);
    }
}

void
rod_drawing_boards (cairo_t                 *cr,
                    const RodPlan           *plan,
                    guint                    face,
                    RodAffine                to_device,
                    const RodDrawingOptions *options)
{
  g_return_if_fail (cr != NULL && plan != NULL && options != NULL);

  draw_boards (cr, plan, face, to_device, options, FALSE);
}

void
rod_drawing_joints (cairo_t                 *cr,
                    const RodPlan           *plan,
                    guint                    face,
                    RodAffine                to_device,
                    const RodDrawingOptions *options)
{
  double clip[4];
  guint  first, end;

  g_return_if_fail (cr != NULL && plan != NULL && options != NULL);

  cairo_clip_extents (cr, &clip[0], &clip[1], &clip[2], &clip[3]);
  rod_drawing_find_pieces (plan, face, &first, &end);
  for (guint i = first; i < end; i++)
    trace_piece (cr, plan, rod_plan_piece (plan, i), to_device, clip);
  rod_ink_use (options->joint, cr);
  cairo_set_line_width (cr, options->narrow);
  cairo_stroke (cr);
}

/* A band of @width from @from to @to, its left side @left of the line. */
static void
trace_band (cairo_t  *cr,
            RodAffine map,
            RodPoint  from,
            RodPoint  to,
            double    left,
            double    width)
{
  double   length = fmax (rod_point_distance (from, to), ROD_EPSILON_MM);
  RodPoint square = { -(to.y - from.y) / length, (to.x - from.x) / length };
  double   right = left - width;

  trace_point (cr, map, (RodPoint){ from.x + left * square.x, from.y + left * square.y }, TRUE);
  trace_point (cr, map, (RodPoint){ from.x + right * square.x, from.y + right * square.y }, FALSE);
  trace_point (cr, map, (RodPoint){ to.x + right * square.x, to.y + right * square.y }, FALSE);
  trace_point (cr, map, (RodPoint){ to.x + left * square.x, to.y + left * square.y }, FALSE);
  cairo_close_path (cr);
}

/* Index of the first run whose field is not below @field; runs are listed field by field, and each
 * kind of run begins with its field. */
static guint
first_run_of (const GArray *runs,
              guint         field)
{
  guint size = g_array_get_element_size ((GArray *) runs);
  guint low = 0, high = runs->len;

  G_STATIC_ASSERT (G_STRUCT_OFFSET (RodBattenRun, field) == 0);
  G_STATIC_ASSERT (G_STRUCT_OFFSET (RodTrimRun, field) == 0);
  while (low < high)
    {
      guint middle = low + (high - low) / 2;

      if (*(const guint *) (gconstpointer) (runs->data + (gsize) middle * size) < field)
        low = middle + 1;
      else
        high = middle;
    }

  return low;
}

void
rod_drawing_find_battens (const RodPlan *plan,
                          guint          face,
                          guint         *first,
                          guint         *end)
{
  const RodFace *of;

  g_return_if_fail (plan != NULL && first != NULL && end != NULL);

  of = rod_plan_face (plan, face);
  *first = first_run_of (plan->battens, of->first_field);
  *end = first_run_of (plan->battens, of->first_field + of->n_fields);
}

void
rod_drawing_find_trims (const RodPlan *plan,
                        guint          face,
                        guint         *first,
                        guint         *end)
{
  const RodFace *of;

  g_return_if_fail (plan != NULL && first != NULL && end != NULL);

  of = rod_plan_face (plan, face);
  *first = first_run_of (plan->trims, of->first_field);
  *end = first_run_of (plan->trims, of->first_field + of->n_fields);
}

static void
draw_battens_of_kind (cairo_t                 *cr,
                      const RodPlan           *plan,
                      guint                    face,
                      RodAffine                to_device,
                      const RodDrawingOptions *options,
                      gboolean                 counter)
{
  const RodSystem *system = rod_plan_face (plan, face)->system;
  const RodBatten *batten = counter ? system->counter_batten : system->batten;
  double           dash[2] = { 12.0 * options->narrow, 3.0 * options->narrow };
  guint            first, end;

  rod_drawing_find_battens (plan, face, &first, &end);
  for (guint i = first; i < end && batten != NULL; i++)
    {
      const RodBattenRun *run = &g_array_index (plan->battens, RodBattenRun, i);

      if (run->counter == counter)
        trace_band (cr, to_device, run->from, run->to, 0.5 * batten->width_mm, batten->width_mm);
    }

  if (!counter)
    {
      rod_ink_use (rod_ink_mix (options->paper, options->batten, 0.25), cr);
      cairo_fill_preserve (cr);
    }
  rod_ink_use (options->batten, cr);
  cairo_set_line_width (cr, options->narrow);
  if (counter)
    cairo_set_dash (cr, dash, 2, 0.0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0.0);
}

void
rod_drawing_battens (cairo_t                 *cr,
                     const RodPlan           *plan,
                     guint                    face,
                     RodAffine                to_device,
                     const RodDrawingOptions *options)
{
  g_return_if_fail (cr != NULL && plan != NULL && options != NULL);

  draw_battens_of_kind (cr, plan, face, to_device, options, TRUE);
  draw_battens_of_kind (cr, plan, face, to_device, options, FALSE);
}

static void
trace_band_ring (cairo_t      *cr,
                 RodAffine     map,
                 const GArray *ring)
{
  for (guint i = 0; i < ring->len; i++)
    trace_point (cr, map, g_array_index (ring, RodPoint, i), i == 0);
  cairo_close_path (cr);
}

void
rod_drawing_trims (cairo_t                 *cr,
                   const RodPlan           *plan,
                   guint                    face,
                   RodAffine                to_device,
                   const RodDrawingOptions *options)
{
  guint  first, end;
  double scale = sqrt (fabs (to_device.xx * to_device.yy - to_device.xy * to_device.yx));

  g_return_if_fail (cr != NULL && plan != NULL && options != NULL);

  rod_drawing_find_trims (plan, face, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, i);
      double            least = BAND_FROM * options->narrow / fmax (scale, ROD_EPSILON_MM);
      g_autoptr (RodTrimLine) line = NULL;
      g_autoptr (GArray) band = NULL;

      if (run->trim == NULL)
        continue;
      line = rod_trim_line_new (plan, run);
      band = rod_trim_line_band (line,
                                 line->reach_mm > 0.0 ? fmax (line->reach_mm, least) : 0.0,
                                 fmax (run->trim->sight_mm, least));
      trace_band_ring (cr, to_device, band);
    }

  rod_ink_use (rod_ink_mix (options->paper, options->trim, 0.35), cr);
  cairo_fill_preserve (cr);
  rod_ink_use (options->trim, cr);
  cairo_set_line_width (cr, options->narrow);
  cairo_stroke (cr);
}

static void
draw_diagonals (cairo_t                 *cr,
                const RodDrawingOptions *options)
{
  double low_x, low_y, high_x, high_y;

  cairo_path_extents (cr, &low_x, &low_y, &high_x, &high_y);
  if (fmin (high_x - low_x, high_y - low_y) < DIAGONALS_FROM * options->narrow)
    return;

  cairo_save (cr);
  cairo_clip_preserve (cr);
  cairo_new_path (cr);
  cairo_move_to (cr, low_x, low_y);
  cairo_line_to (cr, high_x, high_y);
  cairo_move_to (cr, low_x, high_y);
  cairo_line_to (cr, high_x, low_y);
  rod_ink_use (rod_ink_mix (options->paper, options->ink, 0.3), cr);
  cairo_set_line_width (cr, options->narrow);
  cairo_stroke (cr);
  cairo_restore (cr);
}

void
rod_drawing_openings (cairo_t                 *cr,
                      const RodPlan           *plan,
                      guint                    face,
                      RodAffine                to_device,
                      const RodDrawingOptions *options)
{
  const RodSurface *surface;

  g_return_if_fail (cr != NULL && plan != NULL && options != NULL);

  surface = rod_plan_face (plan, face)->surface;
  for (guint i = 0; i < surface->openings->len; i++)
    {
      const RodOpening *opening = g_ptr_array_index (surface->openings, i);

      rod_drawing_trace_opening (cr, opening, to_device);
      rod_ink_use (options->paper, cr);
      cairo_fill_preserve (cr);
      draw_diagonals (cr, options);
      cairo_new_path (cr);
      rod_drawing_trace_opening (cr, opening, to_device);
      rod_ink_use (options->ink, cr);
      cairo_set_line_width (cr, options->wide);
      cairo_stroke (cr);
    }
}

void
rod_drawing_outline (cairo_t                 *cr,
                     const RodPlan           *plan,
                     guint                    face,
                     RodAffine                to_device,
                     const RodDrawingOptions *options)
{
  g_return_if_fail (cr != NULL && plan != NULL && options != NULL);

  rod_drawing_trace_outline (cr, rod_plan_face (plan, face)->surface, to_device);
  rod_ink_use (options->ink, cr);
  cairo_set_line_width (cr, options->wide);
  cairo_stroke (cr);
}

void
rod_drawing_face (cairo_t                 *cr,
                  RodLettering            *lettering,
                  const RodPlan           *plan,
                  guint                    face,
                  RodAffine                to_device,
                  const RodDrawingOptions *options)
{
  g_return_if_fail (cr != NULL && plan != NULL && options != NULL);

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  if (options->layers & ROD_LAYER_BATTENS)
    rod_drawing_battens (cr, plan, face, to_device, options);
  if (options->layers & ROD_LAYER_BOARDS)
    draw_boards (cr, plan, face, to_device, options, options->layers & ROD_LAYER_JOINTS);
  else if (options->layers & ROD_LAYER_JOINTS)
    rod_drawing_joints (cr, plan, face, to_device, options);
  if (options->layers & ROD_LAYER_TRIMS)
    rod_drawing_trims (cr, plan, face, to_device, options);
  if (options->layers & ROD_LAYER_OPENINGS)
    rod_drawing_openings (cr, plan, face, to_device, options);
  if (options->layers & ROD_LAYER_OUTLINE)
    rod_drawing_outline (cr, plan, face, to_device, options);
  if (options->layers & ROD_LAYER_MARKS && lettering != NULL)
    rod_drawing_marks (cr, lettering, plan, face, to_device, options);
  cairo_restore (cr);
}
