/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Boards of a field, in laying order: courses upwards along the board frame's y, pieces along its x.
 * Two passes over the strips: the gap at a raked edge is the one its longest piece needs, so that
 * the cut ends of a gable form one straight line, and that is known only when all have been seen. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-columns.h"
#include "engine/takeoff/rod-colour-mix.h"
#include "engine/takeoff/rod-flanges.h"
#include "engine/takeoff/rod-piece-fit.h"
#include "engine/takeoff/rod-piece-shape.h"
#include "engine/takeoff/rod-pieces.h"

/* The plan's rings while they grow. */
typedef struct
{
  GArray *points;
  GArray *tags;
  GArray *starts;
} Rings;

typedef struct
{
  RodPlan   *plan;
  RodField  *field;
  RodStrips *strips;
  double    *raked_gaps; /* of each edge, the gap all pieces raked at it share; 0 when square */
  RodFlanger flanger;
  Rings     *rings;
  char      *mark;
  int        first_course;
} Cutter;

static void
add_ring (Rings          *rings,
          const RodField *field,
          const RodPoint *points,
          const int      *tags,
          guint           n)
{
  for (guint i = 0; i < n; i++)
    {
      RodPoint at = rod_affine_apply (field->to_surface, points[i]);

      g_array_append_val (rings->points, at);
      g_array_append_val (rings->tags, tags[i]);
    }
  g_array_append_val (rings->starts, rings->points->len);
}

static void
fit_strip (const Cutter   *cutter,
           const RodStrip *strip,
           RodFit         *fit)
{
  const RodRegion *rings = cutter->strips->rings;
  guint            start = rings->ring_starts[strip->first_ring];

  rod_fit_init (fit, cutter->plan, cutter->field, rings->points + start, rings->tags + start, rings->ring_starts[strip->first_ring + 1] - start);
}

static void
note_raked_gap (double            *raked_gaps,
                const RodPieceEnd *end)
{
  if (end->edge >= 0 && fabs (end->angle_deg) > 0.0)
    raked_gaps[end->edge] = MAX (raked_gaps[end->edge], end->gap_mm);
}

static void
use_raked_gap (const double *raked_gaps,
               RodPieceEnd  *end)
{
  if (end->edge >= 0)
    end->gap_mm = MAX (end->gap_mm, raked_gaps[end->edge]);
}

static void
note_raked_gaps (Cutter *cutter)
{
  for (guint s = 0; s < cutter->strips->n_strips; s++)
    {
      RodFit fit;

      fit_strip (cutter, &cutter->strips->strips[s], &fit);
      note_raked_gap (cutter->raked_gaps, &fit.left);
      note_raked_gap (cutter->raked_gaps, &fit.right);
      rod_fit_clear (&fit);
    }
}

static void
add_holes (Cutter         *cutter,
           const RodStrip *strip,
           RodPiece       *piece)
{
  const RodRegion *rings = cutter->strips->rings;

  for (guint r = strip->first_ring + 1; r < strip->first_ring + strip->n_rings; r++)
    {
      guint start = rings->ring_starts[r];

      add_ring (cutter->rings, cutter->field, rings->points + start, rings->tags + start, rings->ring_starts[r + 1] - start);
      piece->n_rings++;
    }
}

static void
number_piece (Cutter         *cutter,
              const RodStrip *strip,
              RodPiece       *piece)
{
  const RodPlan  *plan = cutter->plan;
  const RodPiece *last = plan->pieces->len > cutter->field->first_piece
                           ? rod_plan_piece (plan, plan->pieces->len - 1)
                           : NULL;

  piece->course = strip->course - cutter->first_course + 1;
  piece->place = last != NULL && last->course == piece->course ? last->place + 1 : 1;
  g_snprintf (piece->mark, sizeof piece->mark, "%s-%02d-%d", cutter->mark, piece->course, piece->place);
}

static void
cut_strip (Cutter         *cutter,
           const RodStrip *strip)
{
  RodPlan  *plan = cutter->plan;
  RodField *field = cutter->field;
  double    line_mm = field->phase_mm + strip->course * field->board->cover_mm;
  RodPiece  piece = { .field = (guint) (field - (RodField *) (void *) plan->fields->data) };
  RodFit    fit;

  fit_strip (cutter, strip, &fit);
  use_raked_gap (cutter->raked_gaps, &fit.left);
  use_raked_gap (cutter->raked_gaps, &fit.right);
  if (rod_fit_cut (&fit, plan, field))
    {
      number_piece (cutter, strip, &piece);
      rod_piece_measure (&fit, line_mm, field->board->cover_mm, &piece);
      piece.left = fit.left;
      piece.right = fit.right;
      piece.first_notch = plan->notches->len;
      piece.n_notches = rod_piece_find_notches (&fit, plan->notches);
      piece.first_flange = plan->flanges->len;
      piece.flange_mm = rod_flanger_run (&cutter->flanger, &fit, line_mm, plan->flanges);
      piece.n_flanges = plan->flanges->len - piece.first_flange;
      piece.first_ring = cutter->rings->starts->len - 1;
      piece.n_rings = 1;
      add_ring (cutter->rings, field, (const RodPoint *) (const void *) fit.points->data, (const int *) (const void *) fit.tags->data, fit.points->len);
      add_holes (cutter, strip, &piece);
      piece.colour = rod_colour_mix_pick (field, &piece);
      g_array_append_val (plan->pieces, piece);
    }
  rod_fit_clear (&fit);
}

static RodStrips *
cut_courses (RodPlan  *plan,
             RodField *field)
{
  g_autoptr (RodStrips) courses = rod_strips_cut (field->pocket, field->phase_mm, field->board->cover_mm);

  rod_columns_place (plan, field, courses);
  if (field->n_columns == 0)
    return g_steal_pointer (&courses);
  return rod_strips_split (courses, field->columns, field->n_columns);
}

/* Fields of one face share its mark; from the second on they add a letter. */
static char *
field_mark (const RodPlan  *plan,
            const RodField *field,
            guint           index)
{
  const RodFace *face = rod_plan_face (plan, field->face);
  guint          place = index - face->first_field;

  if (place == 0)
    return g_strdup (face->mark);
  return g_strdup_printf ("%s%c%s", face->mark, 'a' + (int) ((place - 1) % 26), place > 26 ? "+" : "");
}

static void
cut_field (RodPlan *plan,
           guint    index,
           Rings   *rings)
{
  RodField *field = &g_array_index (plan->fields, RodField, index);
  g_autoptr (RodStrips) strips = NULL;
  g_autofree double *raked_gaps = g_new0 (double, field->n_edges);
  g_autofree char   *mark = field_mark (plan, field, index);
  Cutter             cutter = { .plan = plan, .field = field, .raked_gaps = raked_gaps, .rings = rings, .mark = mark };

  field->first_piece = plan->pieces->len;
  if (field->pocket->n_rings == 0)
    return;
  strips = cut_courses (plan, field);
  cutter.strips = strips;
  cutter.first_course = strips->n_strips > 0 ? strips->strips[0].course : 0;
  rod_flanger_init (&cutter.flanger, field);
  note_raked_gaps (&cutter);
  for (guint s = 0; s < strips->n_strips; s++)
    cut_strip (&cutter, &strips->strips[s]);
  rod_flanger_clear (&cutter.flanger);
  field->n_pieces = plan->pieces->len - field->first_piece;
  for (guint p = field->first_piece, last = 0; p < plan->pieces->len; p++)
    {
      guint course = (guint) rod_plan_piece (plan, p)->course;

      field->n_courses += course != last;
      last = course;
    }
}

void
rod_pieces_cut (RodPlan *plan)
{
  guint zero = 0;
  Rings rings = {
    .points = g_array_new (FALSE, FALSE, sizeof (RodPoint)),
    .tags = g_array_new (FALSE, FALSE, sizeof (int)),
    .starts = g_array_new (FALSE, FALSE, sizeof (guint)),
  };

  g_array_append_val (rings.starts, zero);
  for (guint f = 0; f < plan->fields->len; f++)
    cut_field (plan, f, &rings);

  plan->rings = g_new0 (RodRegion, 1);
  plan->rings->n_points = rings.points->len;
  plan->rings->n_rings = rings.starts->len - 1;
  plan->rings->points = (RodPoint *) (void *) g_array_free (rings.points, FALSE);
  plan->rings->tags = (int *) (void *) g_array_free (rings.tags, FALSE);
  plan->rings->ring_starts = (guint *) (void *) g_array_free (rings.starts, FALSE);
}
