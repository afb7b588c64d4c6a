/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Reckonings: every number of every house of ours is explained by terms that add up to it, and the
 * sum reads well. Hand-worked sums stand beside their checks; the methods are common practice, no
 * source. */

#include "support/planned-house.h"

#include "engine/files/rod-file.h"
#include "engine/geometry/rod-point.h"
#include "engine/plan/rod-reckoning-private.h"
#include "engine/plan/rod-reckoning.h"
#include "engine/rod-limits.h"

#include <math.h>
#include <string.h>

/* Whole micrometres of the geometry, twice for two ends. */
#define MICROMETRES_MM 0.0021

/* Sums */

static double
sum_terms (const RodReckoning *reckoning)
{
  double sum = 0.0;

  for (guint i = 0; i < reckoning->terms->len; i++)
    sum += g_array_index (reckoning->terms, RodTerm, i).value;
  return sum;
}

/* Reads past @part, which must stand there. */
static void
skip (const char **at,
      const char  *part)
{
  if (!g_str_has_prefix (*at, part))
    g_error ("“%s” does not begin with “%s”", *at, part);
  *at += strlen (part);
}

/* Reads a figure as tenths, with a minus before it or none. */
static gint64
read_tenths (const char **at)
{
  gboolean minus = g_str_has_prefix (*at, "−");
  char    *end;
  double   value;

  if (minus)
    skip (at, "−");
  if (!g_ascii_isdigit (**at))
    g_error ("“%s” begins with no figure", *at);
  value = g_ascii_strtod (*at, &end);
  *at = end;
  g_assert_true (!minus || value > 0.0);
  return llround (minus ? -value * 10.0 : value * 10.0);
}

/* Adds up the text as its reader would. Each figure is off by half a tenth at most. */
static void
assert_text_adds_up (const RodReckoning *reckoning)
{
  g_autofree char *text = rod_reckoning_text (reckoning);
  const char      *at = text;
  gint64           sum = 0, sign = 1;

  for (guint i = 0; i < reckoning->terms->len; i++)
    {
      sum += sign * read_tenths (&at);
      skip (&at, " ");
      skip (&at, g_array_index (reckoning->terms, RodTerm, i).text);
      sign = g_str_has_prefix (at, " − ") ? -1 : 1;
      skip (&at, i + 1 == reckoning->terms->len ? " = " : sign < 0 ? " − "
                                                                   : " + ");
    }
  sum -= read_tenths (&at);
  g_assert_cmpint (ABS (sum), <=, (gint64) (reckoning->terms->len + 1) / 2);
  g_assert_cmpstr (at, ==, *reckoning->unit == '\0' ? "" : " mm");
}

static void
assert_explains (const RodReckoning *reckoning,
                 double              value,
                 double              within)
{
  g_assert_cmpfloat_with_epsilon (sum_terms (reckoning), reckoning->result, ROD_EPSILON_MM);
  g_assert_cmpfloat_with_epsilon (reckoning->result, value, within);
  g_assert_cmpuint (strlen (reckoning->title), >, 0);
  assert_text_adds_up (reckoning);
}

static void
check_pieces (RodPlan *plan)
{
  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);
      g_autoptr (RodReckoning) length = rod_reckon_piece_length (plan, p);
      g_autoptr (RodReckoning) width = rod_reckon_piece_width (plan, p);
      g_autoptr (RodReckoning) left = rod_reckon_piece_gap (plan, p, FALSE);
      g_autoptr (RodReckoning) right = rod_reckon_piece_gap (plan, p, TRUE);

      assert_explains (length, piece->length_mm, ROD_EPSILON_MM);
      assert_explains (width, piece->width_mm, MICROMETRES_MM);
      assert_explains (left, piece->left.gap_mm, ROD_EPSILON_MM);
      assert_explains (right, piece->right.gap_mm, ROD_EPSILON_MM);
    }
}

static void
test_pieces (void)
{
  planned_each_house (check_pieces);
}

/* Four corners, both ends square. */
static gboolean
is_plain (const RodPlan  *plan,
          const RodPiece *piece)
{
  guint start = plan->rings->ring_starts[piece->first_ring];

  return plan->rings->ring_starts[piece->first_ring + 1] - start == 4 &&
         fabs (piece->left.angle_deg) < ROD_EPSILON_DEG &&
         fabs (piece->right.angle_deg) < ROD_EPSILON_DEG;
}

/* A plain board, four corners and square, is explained by its stacks alone: nothing is left over
 * for "shape of the ends", which would explain any number. */
static void
check_plain_pieces (RodPlan *plan)
{
  for (guint p = 0; p < plan->pieces->len; p++)
    {
      const RodPiece *piece = rod_plan_piece (plan, p);
      g_autoptr (RodReckoning) length = NULL;

      if (!is_plain (plan, piece))
        continue;
      length = rod_reckon_piece_length (plan, p);
      for (guint i = 0; i < length->terms->len; i++)
        {
          const RodTerm *term = &g_array_index (length->terms, RodTerm, i);

          if (g_str_equal (term->text, "shape of the ends") && fabs (term->value) > MICROMETRES_MM)
            g_error ("%s: %.4f mm left over", piece->mark, term->value);
        }
    }
}

static void
test_plain_pieces (void)
{
  planned_each_house (check_plain_pieces);
}

/* Corners of the area of boards lie as far from the raw line as the stack of their edge says. */
static void
check_edge (const RodPlan *plan,
            guint          index,
            guint          edge_index)
{
  const RodField *field = rod_plan_field (plan, index);
  const RodEdge  *edge = &field->edges[edge_index];
  g_autoptr (RodReckoning) reckoning = rod_reckon_edge (plan, index, edge_index);
  double along = rod_point_distance (edge->raw.from, edge->raw.to);

  assert_explains (reckoning,
                   edge->clearance_mm - edge->build_up_mm + edge->back_mm + edge->gap_across_mm +
                     edge->absorbed_mm,
                   ROD_EPSILON_MM);
  if (fabs (edge->raw.bulge) > 0.0 || edge->yields)
    return;
  for (guint p = 0; p < field->pocket->n_points; p++)
    {
      RodPoint at = rod_affine_apply (field->to_surface, field->pocket->points[p]);
      double   across = (edge->raw.to.x - edge->raw.from.x) * (at.y - edge->raw.from.y) -
                      (edge->raw.to.y - edge->raw.from.y) * (at.x - edge->raw.from.x);

      if (field->pocket->tags[p] != (int) edge_index)
        continue;
      g_assert_cmpfloat_with_epsilon (across / along * (edge->turned ? -1.0 : 1.0),
                                      reckoning->result,
                                      ROD_SNAP_MM);
    }
}

static void
check_fields (RodPlan *plan)
{
  for (guint f = 0; f < plan->fields->len; f++)
    {
      const RodField *field = rod_plan_field (plan, f);
      g_autoptr (RodReckoning) phase = rod_reckon_phase (plan, f);
      g_autoptr (RodReckoning) screws = rod_reckon_field_screws (plan, f);
      double   level_mm = rod_plan_face (plan, field->face)->surface->level_mm;
      gboolean upwards = fabs (field->direction_deg) < ROD_EPSILON_DEG;
      int      count = 0;

      assert_explains (phase, field->phase_mm + (upwards ? level_mm : 0.0), ROD_EPSILON_MM);
      for (guint p = field->first_piece; p < field->first_piece + field->n_pieces; p++)
        count += rod_plan_piece (plan, p)->screws;
      for (guint t = field->first_trim; t < field->first_trim + field->n_trims; t++)
        count += g_array_index (plan->trims, RodTrimRun, t).screws;
      assert_explains (screws, count, ROD_EPSILON_MM);
      for (guint e = 0; e < field->n_edges; e++)
        check_edge (plan, f, e);
    }
}

static void
test_fields (void)
{
  planned_each_house (check_fields);
}

/* Texts */

static void
assert_text (const double *values,
             guint         n,
             const char   *expected)
{
  g_autoptr (RodReckoning) reckoning = rod_reckoning_new (g_strdup ("t"), "mm");
  g_autofree char *text = NULL;

  for (guint i = 0; i < n; i++)
    rod_reckoning_add (reckoning, values[i], "t", NULL);
  text = rod_reckoning_text (reckoning);
  g_assert_cmpstr (text, ==, expected);
}

#define ASSERT_TEXT(expected, ...)                                         \
  assert_text ((const double[]){ __VA_ARGS__ },                            \
               sizeof ((const double[]){ __VA_ARGS__ }) / sizeof (double), \
               expected)

/* A minus is U+2212 wherever it stands. A tenth where there is one. */
static void
test_signs (void)
{
  ASSERT_TEXT ("250 t − 57.5 t = 192.5 mm", 250.0, -57.5);
  ASSERT_TEXT ("−60 t + 12 t = −48 mm", -60.0, 12.0);
  ASSERT_TEXT ("−0.1 t = −0.1 mm", -0.05001);
  ASSERT_TEXT ("1000000 t − 0.1 t = 999999.9 mm", 1e6, -0.1);
}

/* What rounds to nothing has no minus: 0.04 is 0.0 to a tenth. */
static void
test_no_minus_nothing (void)
{
  ASSERT_TEXT ("0 t = 0 mm", -0.04);
  ASSERT_TEXT ("0 t = 0 mm", -0.0);
  ASSERT_TEXT ("7 t + 0 t = 7 mm", 7.0, -0.04);
  ASSERT_TEXT ("0.1 t − 0.1 t + 0 t = 0 mm", 0.1, -0.1, -0.04);
}

/* Nothing to add up: an edge at the raw line. */
static void
test_no_terms (void)
{
  g_autoptr (RodReckoning) length = rod_reckoning_new (g_strdup ("t"), "mm");
  g_autoptr (RodReckoning) count = rod_reckoning_new (g_strdup ("t"), "");
  g_autofree char *none_mm = rod_reckoning_text (length);
  g_autofree char *none = rod_reckoning_text (count);

  g_assert_cmpstr (none_mm, ==, "0 mm");
  g_assert_cmpstr (none, ==, "0");
}

/* A board on a wall of 4000, 2 and 8 off at both ends: 4000 − 2 − 8 − 2 − 8 = 3980; the gap is
 * 0.07 · 1.998 · 45 = 6.29 and 1, rounded up to 8. The last course of 2400 − 7 = 2393 keeps
 * 2393 − 9 · 250 = 143. */
static void
test_shed_wall (void)
{
  g_autoptr (RodPlan) plan = planned_house (
    surveyed_house ("k-250", SURVEYED (surveyed_box ("a", "wall", 4000, 2400, "")), NULL));
  g_autoptr (RodReckoning) length = rod_reckon_piece_length (plan, 0);
  g_autoptr (RodReckoning) width = rod_reckon_piece_width (plan, plan->pieces->len - 1);
  g_autoptr (RodReckoning) gap = rod_reckon_piece_gap (plan, 0, FALSE);
  g_autofree char *length_text = rod_reckoning_text (length);
  g_autofree char *width_text = rod_reckoning_text (width);
  g_autofree char *gap_text = rod_reckoning_text (gap);

  g_assert_cmpstr (length_text,
                   ==,
                   "4000 between raw lines or joints − 2 trim, left − 8 gap, left − 2 trim, right "
                   "− 8 gap, right = 3980 mm");
  g_assert_cmpstr (width_text,
                   ==,
                   "250 cover of the board − 107 ripped off on the flange side = 143 mm");
  g_assert_cmpstr (gap_text,
                   ==,
                   "6.3 growth from fixing to the hottest (or wettest) day + 1 cutting and fitting "
                   "error + 0.7 rounded up = 8 mm");
}

int
main (int    argc,
      char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reckoning/signs", test_signs);
  g_test_add_func ("/reckoning/no-minus-nothing", test_no_minus_nothing);
  g_test_add_func ("/reckoning/no-terms", test_no_terms);
  g_test_add_func ("/reckoning/shed-wall", test_shed_wall);
  g_test_add_func ("/reckoning/pieces", test_pieces);
  g_test_add_func ("/reckoning/plain-pieces", test_plain_pieces);
  g_test_add_func ("/reckoning/fields", test_fields);
  return g_test_run ();
}
