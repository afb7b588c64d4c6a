/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Boards of a field, in laying order: courses upwards along the board frame's y, pieces along its
 * x. Two passes over the strips: the gap at a raked edge is the one its longest piece needs, so
 * that the cut ends of a gable form one straight line, and that is known only when all have been
 * seen. */

#include "config.h"

#include <math.h>

#include "engine/rod-limits.h"
#include "engine/setout/rod-length-joints.h"
#include "engine/takeoff/rod-colour-mix.h"
#include "engine/takeoff/rod-colour-pattern.h"
#include "engine/takeoff/rod-flanges.h"
#include "engine/takeoff/rod-piece-fit.h"
#include "engine/takeoff/rod-piece-shape.h"
#include "engine/takeoff/rod-pieces.h"

typedef struct
{
  RodPlan    *plan;
  RodField   *field;
  RodStrips  *parts;      /* courses, split at length joints: each becomes a piece */
  GArray     *fits;       /* of RodFit, one for each part */
  GArray     *pieces;     /* of RodFit, what one part becomes */
  double     *raked_gaps; /* of each edge, the gap all pieces raked at it share; 0 when square */
  RodFlanger  flanger;
  RodRings   *rings;
  const char *mark;
  int         first_course;
} Cutter;

static void
add_ring (Cutter       *cutter,
          const RodFit *fit)
{
  RodPoint *points;
  int      *tags;

  rod_rings_add (cutter->rings, fit->n_sides, &points, &tags);
  for (guint i = 0; i < fit->n_sides; i++)
    {
      points[i] = rod_affine_apply (cutter->field->to_surface, fit->sides[i].at);
      tags[i] = fit->sides[i].tag;
    }
}

/* Corners of the outer ring of a part, or of a hole in it. */
static const RodPoint *
part_ring (const Cutter   *cutter,
           const RodStrip *part,
           guint           ring,
           const int     **tags,
           guint          *n)
{
  const RodRegion *rings = cutter->parts->rings;
  guint            start = rings->ring_starts[part->first_ring + ring];

  *tags = rings->tags + start;
  *n = rings->ring_starts[part->first_ring + ring + 1] - start;
  return rings->points + start;
}

static void
fit_part (const Cutter   *cutter,
          const RodStrip *part,
          RodFit         *fit)
{
  const int      *tags;
  guint           n;
  const RodPoint *points = part_ring (cutter, part, 0, &tags, &n);

  rod_fit_init (fit, cutter->plan, cutter->field, points, tags, n);
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
fit_parts (Cutter *cutter)
{
  guint n = cutter->parts->n_strips;

  cutter->fits = g_array_sized_new (FALSE, FALSE, sizeof (RodFit), n);
  for (guint i = 0; i < n; i++)
    {
      RodFit fit;

      fit_part (cutter, &cutter->parts->strips[i], &fit);
      note_raked_gap (cutter->raked_gaps, &fit.left);
      note_raked_gap (cutter->raked_gaps, &fit.right);
      g_array_append_val (cutter->fits, fit);
    }
}

static double
part_line_mm (const Cutter   *cutter,
              const RodStrip *part)
{
  return cutter->field->phase_mm + part->course * cutter->field->board->cover_mm;
}

static void
add_holes (Cutter         *cutter,
           const RodStrip *part,
           RodPiece       *piece)
{
  for (guint r = 1; r < part->n_rings; r++)
    {
      const int      *tags;
      guint           n;
      const RodPoint *points = part_ring (cutter, part, r, &tags, &n);
      RodFit          hole;

      rod_fit_init_hole (
        &hole, cutter->plan, cutter->field, part_line_mm (cutter, part), points, tags, n);
      add_ring (cutter, &hole);
      rod_fit_clear (&hole);
      piece->n_rings++;
    }
}

/* Returns the place after the number. */
static char *
write_number (char *at,
              int   number,
              guint least_digits)
{
  char  digits[G_ASCII_DTOSTR_BUF_SIZE];
  guint n = 0;

  for (; number > 0 || n < least_digits; number /= 10)
    digits[n++] = (char) ('0' + number % 10);
  while (n > 0)
    *at++ = digits[--n];
  return at;
}

/* As "%s-%02d-%d", by hand: printing takes as long as all else that is reckoned for a piece. */
static void
write_mark (const Cutter *cutter,
            RodPiece     *piece)
{
  char  numbers[2 * G_ASCII_DTOSTR_BUF_SIZE];
  char *at = numbers;

  *at++ = '-';
  at = write_number (at, piece->course, 2);
  *at++ = '-';
  *write_number (at, piece->place, 1) = '\0';
  g_strlcpy (piece->mark, cutter->mark, sizeof piece->mark);
  g_strlcat (piece->mark, numbers, sizeof piece->mark);
}

static void
number_piece (const Cutter *cutter,
              int           course,
              RodPiece     *piece)
{
  const RodPlan  *plan = cutter->plan;
  const RodPiece *last = plan->pieces->len > cutter->field->first_piece
                           ? rod_plan_piece (plan, plan->pieces->len - 1)
                           : NULL;

  piece->course = course - cutter->first_course + 1;
  piece->place = last != NULL && last->course == piece->course ? last->place + 1 : 1;
  write_mark (cutter, piece);
}

static void
keep_piece (Cutter         *cutter,
            const RodStrip *part,
            const RodFit   *fit)
{
  RodPlan  *plan = cutter->plan;
  RodField *field = cutter->field;
  double    line_mm = part_line_mm (cutter, part);
  RodPiece  piece = {
     .field = (guint) (field - (RodField *) (void *) plan->fields->data),
     .left = fit->left,
     .right = fit->right,
     .first_notch = plan->notches->len,
     .first_flange = plan->flanges->len,
     .first_ring = cutter->rings->starts->len - 1,
     .n_rings = 1,
  };

  number_piece (cutter, part->course, &piece);
  rod_piece_measure (fit, line_mm, field->board->cover_mm, &piece);
  piece.n_notches = rod_piece_find_notches (fit, plan->notches);
  piece.flange_mm = rod_flanger_run (&cutter->flanger, fit, line_mm, plan->flanges);
  piece.n_flanges = plan->flanges->len - piece.first_flange;
  add_ring (cutter, fit);
  add_holes (cutter, part, &piece);
  piece.colour = rod_colour_mix_pick (field, &piece);
  g_array_append_val (plan->pieces, piece);
}

/* A piece that both trims would cover from lip to lip is never seen: the trims meet over it. */
static gboolean
is_hidden (const RodFit *fit)
{
  return fit->clear_mm <= fit->left.pocket_mm + fit->right.pocket_mm;
}

static double
leftmost_mm (const RodFit *fit)
{
  double left_mm = INFINITY;

  for (guint i = 0; i < fit->n_sides; i++)
    left_mm = MIN (left_mm, fit->sides[i].at.x);
  return left_mm;
}

/* What a notch leaves of one part may be found from either end. */
static gint
compare_fits (gconstpointer a,
              gconstpointer b)
{
  double one = leftmost_mm (a);
  double other = leftmost_mm (b);

  return (one > other) - (one < other);
}

static void
cut_part (Cutter *cutter,
          guint   index)
{
  const RodStrip *part = &cutter->parts->strips[index];
  RodFit         *fit = &g_array_index (cutter->fits, RodFit, index);

  use_raked_gap (cutter->raked_gaps, &fit->left);
  use_raked_gap (cutter->raked_gaps, &fit->right);
  g_array_set_size (cutter->pieces, 0);
  if (!is_hidden (fit))
    rod_fit_cut (fit, cutter->plan, cutter->field, part_line_mm (cutter, part), cutter->pieces);
  if (cutter->pieces->len > 1)
    g_array_sort (cutter->pieces, compare_fits);
  for (guint i = 0; i < cutter->pieces->len; i++)
    {
      RodFit *piece = &g_array_index (cutter->pieces, RodFit, i);

      if (!is_hidden (piece))
        keep_piece (cutter, part, piece);
      rod_fit_clear (piece);
    }
  rod_fit_clear (fit);
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
  return g_strdup_printf (
    "%s%c%s", face->mark, 'a' + (int) ((place - 1) % 26), place > 26 ? "+" : "");
}

static void
count_courses (const RodPlan *plan,
               RodField      *field)
{
  int last = 0;

  field->n_pieces = plan->pieces->len - field->first_piece;
  for (guint p = field->first_piece; p < plan->pieces->len; p++)
    {
      field->n_courses += rod_plan_piece (plan, p)->course != last;
      last = rod_plan_piece (plan, p)->course;
    }
}

void
rod_pieces_cut (RodPlan  *plan,
                guint     index,
                RodRings *rings)
{
  RodField          *field = &g_array_index (plan->fields, RodField, index);
  g_autofree double *raked_gaps = g_new0 (double, MAX (field->n_edges, 1));
  g_autofree char   *mark = field_mark (plan, field, index);
  Cutter             cutter = {
                .plan = plan,
                .field = field,
                .raked_gaps = raked_gaps,
                .rings = rings,
                .mark = mark,
  };
  g_autoptr (RodStrips) courses = NULL;

  field->first_piece = plan->pieces->len;
  if (field->pocket->n_rings == 0)
    return;
  courses = rod_strips_cut (field->pocket, field->phase_mm, field->board->cover_mm);
  cutter.parts = rod_length_joints_split (plan, field, courses);
  if (courses->n_strips > 0)
    cutter.first_course = courses->strips[0].course;
  rod_flanger_init (&cutter.flanger, field);
  cutter.pieces = g_array_sized_new (FALSE, FALSE, sizeof (RodFit), 2);
  fit_parts (&cutter);
  for (guint i = 0; i < cutter.parts->n_strips; i++)
    cut_part (&cutter, i);
  g_array_unref (cutter.fits);
  g_array_unref (cutter.pieces);
  rod_flanger_clear (&cutter.flanger);
  rod_strips_free (cutter.parts);
  rod_rings_show (rings);
  count_courses (plan, field);
  if (field->no_repeat)
    rod_colour_pattern_lay (plan, field);
}
