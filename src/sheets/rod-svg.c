/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A face as SVG, written by hand so that texts stay texts, pieces keep their marks and layers their
 * names; a drawing made through cairo would lose all three.
 *
 * Numbers are written with a point and to 0.001 mm whatever the locale. The y axis of SVG runs
 * downwards, so that every y changes its sign.
 */
#include "config.h"

#include "sheets/rod-svg.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "engine/geometry/rod-numbers.h"
#include "engine/rod-limits.h"
#include "sheets/rod-contour.h"
#include "sheets/rod-drawing.h"
#include "sheets/rod-figures.h"
#include "sheets/rod-lettering.h"
#include "sheets/rod-mark-place.h"
#include "sheets/rod-trim-line.h"

/* The drawing need not fit a sheet: it is sized so that marks fit the boards. */
#define MARK_ROOM (1.24 * LETTER)
#define LARGEST 1000.0

/* Pipes, vents and lights smaller than this are dimensioned to their middle. */
#define SMALL_OPENING 300.0

/* Boards darker than this carry white marks. */
#define DARK 0.45

/* On paper, mm: ISO 128 and ISO 3098, as on the sheets. */
#define NARROW 0.18
#define WIDE 0.35
#define LETTER 2.5
#define BORDER 20.0
#define FIRST_CHAIN 8.0
#define NEXT_CHAIN 7.0
#define STROKE 1.1

/* Capitals are about 0.7 em high in the typefaces named. */
#define CAPITAL_PER_EM 0.7

typedef struct
{
  GString       *out;
  const RodPlan *plan;
  guint          index;
  const RodFace *face;
  RodLettering  *lettering;
  double         scale; /* denominator: mm of the house for one of paper */
  RodPoint       low;
  RodPoint       high;
} Svg;

static void
put_number (Svg   *svg,
            double value)
{
  char  text[G_ASCII_DTOSTR_BUF_SIZE];
  char *end;

  g_ascii_formatd (text, sizeof text, "%.3f", value);
  end = text + strlen (text) - 1;
  while (*end == '0')
    *end-- = '\0';
  if (*end == '.')
    *end = '\0';
  g_string_append (svg->out, strcmp (text, "-0") == 0 ? "0" : text);
}

static void
put_text (Svg        *svg,
          const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  g_autofree char *escaped = g_markup_escape_text (valid, -1);

  g_string_append (svg->out, escaped);
}

/* Says which house this is a drawing of, so that it can be taken away with its surface. */
static void
put_owner (GString        *out,
           const RodHouse *house)
{
  g_autofree char *valid = g_utf8_make_valid (house->name, -1);
  g_autofree char *escaped = g_markup_escape_text (valid, -1);

  g_string_append_printf (out, "<metadata id=\"storeyrod-house\">%s</metadata>\n", escaped);
}

static void
put_attribute (Svg        *svg,
               const char *name,
               double      value)
{
  g_string_append_printf (svg->out, " %s=\"", name);
  put_number (svg, value);
  g_string_append_c (svg->out, '"');
}

static void
put_point (Svg     *svg,
           RodPoint point)
{
  put_number (svg, point.x);
  g_string_append_c (svg->out, ' ');
  put_number (svg, -point.y);
}

static void
put_ring (Svg            *svg,
          const RodPoint *points,
          guint           n_points)
{
  for (guint i = 0; i < n_points; i++)
    {
      g_string_append_c (svg->out, i == 0 ? 'M' : 'L');
      put_point (svg, points[i]);
    }
  g_string_append_c (svg->out, 'Z');
}

static void
put_contour (Svg        *svg,
             GArray     *contour,
             const char *title)
{
  g_string_append (svg->out, "<path d=\"");
  put_ring (svg, (const RodPoint *) (const void *) contour->data, contour->len);
  g_string_append (svg->out, "\"><title>");
  put_text (svg, title);
  g_string_append (svg->out, "</title></path>\n");
}

static void
put_group (Svg        *svg,
           const char *id,
           const char *more)
{
  g_string_append_printf (svg->out, "<g id=\"%s\"%s>\n", id, more);
}

static void
end_group (Svg *svg)
{
  g_string_append (svg->out, "</g>\n");
}

static void
put_style (Svg *svg)
{
  double paper = svg->scale;

  g_string_append (svg->out, "<style>\n#boards path{stroke:#595959;stroke-width:");
  put_number (svg, NARROW * paper);
  g_string_append (svg->out, "}\n#battens path{fill:#d9d9d9;stroke:#4d4d4d;stroke-width:");
  put_number (svg, NARROW * paper);
  g_string_append (svg->out, "}\n#trims path{fill:#bfbfbf;stroke:#737373;stroke-width:");
  put_number (svg, NARROW * paper);
  g_string_append (svg->out,
                   "}\n#openings path{fill:#fff}\n#outline path{fill:none}\n"
                   "#openings path,#outline path{stroke:#000;stroke-width:");
  put_number (svg, WIDE * paper);
  g_string_append (svg->out, "}\n#dimensions path{fill:none;stroke:#000;stroke-width:");
  put_number (svg, NARROW * paper);
  g_string_append (svg->out,
                   "}\ntext{font-family:Cantarell,\"DejaVu Sans\",sans-serif;"
                   "text-anchor:middle;font-size:");
  put_number (svg, LETTER / CAPITAL_PER_EM * paper);
  g_string_append (svg->out, "px}\n</style>\n");
}

static void
put_head (Svg *svg)
{
  double           border = BORDER * svg->scale;
  double           width = svg->high.x - svg->low.x + 2.0 * border;
  double           height = svg->high.y - svg->low.y + 2.0 * border;
  g_autofree char *pieces = NULL;
  g_autofree char *size = NULL;
  g_autofree char *tall = NULL;
  guint            n = 0;

  for (guint i = svg->face->first_field; i < svg->face->first_field + svg->face->n_fields; i++)
    n += rod_plan_field (svg->plan, i)->n_pieces;
  pieces = rod_figures_count (n);
  size = rod_figures_length (svg->plan->house->units, svg->high.x - svg->low.x);
  tall = rod_figures_length (svg->plan->house->units, svg->high.y - svg->low.y);

  g_string_append (svg->out,
                   "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                   "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" "
                   "aria-labelledby=\"title desc\" width=\"");
  put_number (svg, width / svg->scale);
  g_string_append (svg->out, "mm\" height=\"");
  put_number (svg, height / svg->scale);
  g_string_append (svg->out, "mm\" viewBox=\"");
  put_point (svg, (RodPoint){ svg->low.x - border, svg->high.y + border });
  g_string_append_c (svg->out, ' ');
  put_number (svg, width);
  g_string_append_c (svg->out, ' ');
  put_number (svg, height);
  g_string_append (svg->out, "\">\n<title id=\"title\">");
  put_text (svg, svg->face->label);
  g_string_append (svg->out, "</title>\n<desc id=\"desc\">");
  {
    /* TRANSLATORS: description of a drawing: name of the job, width, height, number of boards. */
    g_autofree char *text = g_strdup_printf (_ ("%s: face %s by %s, clad with %s pieces"),
                                             svg->plan->house->name,
                                             size,
                                             tall,
                                             pieces);

    put_text (svg, text);
  }
  g_string_append (svg->out, "</desc>\n");
  put_owner (svg->out, svg->plan->house);
  put_style (svg);
}

static void
put_piece (Svg  *svg,
           guint index)
{
  const RodPiece  *piece = rod_plan_piece (svg->plan, index);
  const RodRegion *rings = svg->plan->rings;
  RodUnits         units = svg->plan->house->units;
  g_autofree char *length = rod_figures_length (units, piece->length_mm);
  g_autofree char *width = rod_figures_length (units, piece->width_mm);
  g_autofree char *title = g_strdup_printf ("%s: %s × %s", piece->mark, length, width);

  g_string_append (svg->out, "<path class=\"piece\" id=\"p-");
  put_text (svg, piece->mark);
  g_string_append (svg->out, "\" fill=\"");
  put_text (svg, piece->colour != NULL ? piece->colour->rgb : "#808080");
  g_string_append (svg->out, "\" d=\"");
  for (guint r = piece->first_ring; r < piece->first_ring + piece->n_rings; r++)
    put_ring (svg,
              rings->points + rings->ring_starts[r],
              rings->ring_starts[r + 1] - rings->ring_starts[r]);
  g_string_append (svg->out, "\"><title>");
  put_text (svg, title);
  g_string_append (svg->out, "</title></path>\n");
}

static void
put_boards (Svg *svg)
{
  put_group (svg, "boards", "");
  for (guint f = svg->face->first_field; f < svg->face->first_field + svg->face->n_fields; f++)
    {
      const RodField *field = rod_plan_field (svg->plan, f);

      for (guint i = field->first_piece; i < field->first_piece + field->n_pieces; i++)
        put_piece (svg, i);
    }
  end_group (svg);
}

static void
put_titled_ring (Svg            *svg,
                 const RodPoint *corners,
                 guint           n_corners,
                 const char     *title)
{
  g_string_append (svg->out, "<path d=\"");
  put_ring (svg, corners, n_corners);
  g_string_append (svg->out, "\"><title>");
  put_text (svg, title);
  g_string_append (svg->out, "</title></path>\n");
}

/* A band of @width along a line, @left of it on its left side. */
static void
put_band (Svg        *svg,
          RodPoint    from,
          RodPoint    to,
          double      left,
          double      width,
          const char *title)
{
  double   length = fmax (rod_point_distance (from, to), ROD_EPSILON_MM);
  RodPoint square = { -(to.y - from.y) / length, (to.x - from.x) / length };
  double   right = left - width;
  RodPoint corners[4] = {
    { from.x + left * square.x, from.y + left * square.y },
    { from.x + right * square.x, from.y + right * square.y },
    { to.x + right * square.x, to.y + right * square.y },
    { to.x + left * square.x, to.y + left * square.y },
  };

  put_titled_ring (svg, corners, G_N_ELEMENTS (corners), title);
}

static void
put_battens (Svg *svg)
{
  guint first, end;

  put_group (svg, "battens", " display=\"none\"");
  rod_drawing_find_battens (svg->plan, svg->index, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodBattenRun *run = &g_array_index (svg->plan->battens, RodBattenRun, i);
      const RodBatten    *batten =
        run->counter ? svg->face->system->counter_batten : svg->face->system->batten;
      g_autofree char *length = NULL;

      if (batten == NULL)
        continue;
      length = rod_figures_length (svg->plan->house->units, run->length_mm);
      put_band (svg, run->from, run->to, 0.5 * batten->width_mm, batten->width_mm, length);
    }
  end_group (svg);
}

static void
put_trims (Svg *svg)
{
  guint first, end;

  put_group (svg, "trims", "");
  rod_drawing_find_trims (svg->plan, svg->index, &first, &end);
  for (guint i = first; i < end; i++)
    {
      const RodTrimRun *run = &g_array_index (svg->plan->trims, RodTrimRun, i);
      g_autofree char  *length = NULL;
      g_autofree char  *title = NULL;
      g_autoptr (RodTrimLine) line = NULL;
      g_autoptr (GArray) band = NULL;

      if (run->trim == NULL)
        continue;
      line = rod_trim_line_new (svg->plan, run);
      band = rod_trim_line_band (line, line->reach_mm, run->trim->sight_mm);
      length = rod_figures_length (svg->plan->house->units, run->length_mm);
      title = g_strdup_printf ("%s, %s", run->trim->name, length);
      put_titled_ring (svg, (const RodPoint *) (gpointer) band->data, band->len, title);
    }
  end_group (svg);
}

static void
put_openings (Svg *svg)
{
  const GPtrArray *openings = svg->face->surface->openings;

  put_group (svg, "openings", "");
  for (guint i = 0; i < openings->len; i++)
    {
      const RodOpening *opening = g_ptr_array_index (openings, i);
      g_autoptr (GArray) contour = rod_contour_opening (opening);

      put_contour (svg, contour, opening->name[0] != '\0' ? opening->name : opening->id);
    }
  end_group (svg);
}

static void
put_outline (Svg *svg)
{
  g_autoptr (GArray) contour = rod_contour_outline (svg->face->surface);

  put_group (svg, "outline", "");
  put_contour (svg, contour, svg->face->label);
  end_group (svg);
}

/* A line of writing centred on @at, turned counter-clockwise by @angle_deg. */
static void
put_writing (Svg        *svg,
             RodPoint    at,
             double      angle_deg,
             const char *text,
             gboolean    white)
{
  g_string_append (svg->out,
                   white ? "<text fill=\"#fff\" transform=\"translate("
                         : "<text transform=\"translate(");
  put_point (svg, at);
  g_string_append_c (svg->out, ')');
  if (fabs (angle_deg) > ROD_EPSILON_DEG)
    {
      g_string_append (svg->out, " rotate(");
      put_number (svg, -angle_deg);
      g_string_append_c (svg->out, ')');
    }
  g_string_append_c (svg->out, '"');
  put_attribute (svg, "y", 0.5 * LETTER * svg->scale);
  g_string_append_c (svg->out, '>');
  put_text (svg, text);
  g_string_append (svg->out, "</text>\n");
}

static void
put_mark (Svg  *svg,
          guint index)
{
  const RodPiece *piece = rod_plan_piece (svg->plan, index);
  double          height = LETTER * svg->scale;
  double          width = rod_lettering_width (svg->lettering, piece->mark, height, FALSE);
  RodMarkPlace    place;

  if (rod_mark_place_find (svg->plan, index, 1.24 * height, &place) &&
      place.room_mm > width + height)
    put_writing (svg,
                 place.at,
                 atan2 (place.along.y, place.along.x) * 180.0 / G_PI,
                 piece->mark,
                 piece->colour != NULL &&
                   rod_ink_luminance (rod_ink_parse (piece->colour->rgb)) < DARK);
}

static void
put_marks (Svg *svg)
{
  put_group (svg, "marks", "");
  for (guint f = svg->face->first_field; f < svg->face->first_field + svg->face->n_fields; f++)
    {
      const RodField *field = rod_plan_field (svg->plan, f);

      for (guint i = field->first_piece; i < field->first_piece + field->n_pieces; i++)
        put_mark (svg, i);
    }
  end_group (svg);
}

static void
put_line (Svg     *svg,
          RodPoint from,
          RodPoint to)
{
  g_string_append_c (svg->out, 'M');
  put_point (svg, from);
  g_string_append_c (svg->out, 'L');
  put_point (svg, to);
}

/* One dimension with its extension lines and oblique strokes, @off from the drawing's edge. */
static void
put_dimension (Svg     *svg,
               gboolean upright,
               double   from,
               double   to,
               double   off)
{
  double           paper = svg->scale;
  double           edge = upright ? svg->low.x : svg->low.y;
  double           line = edge - off * paper;
  double           s = STROKE * paper;
  double           text_at = line + (0.7 + 0.5 * LETTER) * paper * (upright ? -1.0 : 1.0);
  double           ends[2] = { from, to };
  g_autofree char *figure = rod_figures_length (svg->plan->house->units, to - from);

  g_string_append (svg->out, "<path d=\"");
  for (int i = 0; i < 2; i++)
    {
      RodPoint at = upright ? (RodPoint){ line, ends[i] } : (RodPoint){ ends[i], line };
      RodPoint near =
        upright ? (RodPoint){ edge - paper, ends[i] } : (RodPoint){ ends[i], edge - paper };
      RodPoint far =
        upright ? (RodPoint){ line - paper, ends[i] } : (RodPoint){ ends[i], line - paper };

      put_line (svg, near, far);
      put_line (svg, (RodPoint){ at.x - s, at.y - s }, (RodPoint){ at.x + s, at.y + s });
    }
  put_line (svg,
            upright ? (RodPoint){ line, from } : (RodPoint){ from, line },
            upright ? (RodPoint){ line, to } : (RodPoint){ to, line });
  g_string_append (svg->out, "\"/>\n");
  if (rod_lettering_width (svg->lettering, figure, LETTER * paper, FALSE) < to - from)
    put_writing (svg,
                 upright ? (RodPoint){ text_at, 0.5 * (from + to) }
                         : (RodPoint){ 0.5 * (from + to), text_at },
                 upright ? 90.0 : 0.0,
                 figure,
                 FALSE);
}

static void
add_opening (GArray  *places,
             double   from,
             double   to,
             gboolean small)
{
  double middle = 0.5 * (from + to);

  g_array_append_vals (places, small ? &middle : &from, 1);
  if (!small)
    g_array_append_val (places, to);
}

/* The places of openings along one axis as a chain between the ends of the outline. */
static void
put_chain (Svg     *svg,
           gboolean upright)
{
  const GPtrArray *openings = svg->face->surface->openings;
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (double));
  double ends[2] = { upright ? svg->low.y : svg->low.x, upright ? svg->high.y : svg->high.x };

  g_array_append_vals (places, ends, 2);
  for (guint i = 0; i < openings->len; i++)
    {
      g_autoptr (GArray) contour = rod_contour_opening (g_ptr_array_index (openings, i));
      RodPoint low, high;

      rod_contour_extent (contour, &low, &high);
      add_opening (places,
                   upright ? low.y : low.x,
                   upright ? high.y : high.x,
                   fmax (high.x - low.x, high.y - low.y) < SMALL_OPENING);
    }
  rod_numbers_sort (places);
  for (guint i = 0; openings->len > 0 && i + 1 < places->len; i++)
    {
      double from = g_array_index (places, double, i);
      double to = g_array_index (places, double, i + 1);

      if (to - from > 0.5)
        put_dimension (svg, upright, from, to, FIRST_CHAIN);
    }
  put_dimension (svg,
                 upright,
                 ends[0],
                 ends[1],
                 openings->len > 0 ? FIRST_CHAIN + NEXT_CHAIN : FIRST_CHAIN);
}

/* The smallest scale at which marks fit the narrowest board. */
static double
choose_scale (const Svg *svg)
{
  static const double denominators[] = { 100.0, 50.0, 20.0, 10.0 };
  double              narrowest = LARGEST;

  for (guint f = svg->face->first_field; f < svg->face->first_field + svg->face->n_fields; f++)
    narrowest = fmin (narrowest, rod_plan_field (svg->plan, f)->board->cover_mm);
  for (gsize i = 0; i < G_N_ELEMENTS (denominators); i++)
    if (narrowest >= MARK_ROOM * denominators[i])
      return denominators[i];

  return denominators[G_N_ELEMENTS (denominators) - 1];
}

char *
rod_sheets_svg_text (const RodPlan *plan,
                     guint          face)
{
  Svg svg = { .plan = plan, .index = face };
  g_autoptr (RodLettering) lettering = NULL;

  g_return_val_if_fail (plan != NULL && face < plan->faces->len, NULL);

  lettering = rod_lettering_new ();
  svg.lettering = lettering;
  svg.face = rod_plan_face (plan, face);
  svg.out = g_string_new (NULL);
  rod_contour_surface_extent (svg.face->surface, &svg.low, &svg.high);
  svg.scale = choose_scale (&svg);

  put_head (&svg);
  put_battens (&svg);
  put_boards (&svg);
  put_trims (&svg);
  put_openings (&svg);
  put_outline (&svg);
  put_marks (&svg);
  put_group (&svg, "dimensions", "");
  put_chain (&svg, FALSE);
  put_chain (&svg, TRUE);
  end_group (&svg);
  g_string_append (svg.out, "</svg>\n");

  return g_string_free (svg.out, FALSE);
}

gboolean
rod_sheets_write_svg (const RodPlan *plan,
                      guint          face,
                      const char    *path,
                      GError       **error)
{
  g_autofree char *text = NULL;

  g_return_val_if_fail (plan != NULL && path != NULL, FALSE);
  g_return_val_if_fail (error == NULL || *error == NULL, FALSE);

  text = rod_sheets_svg_text (plan, face);

  return g_file_set_contents (path, text, -1, error);
}

gboolean
rod_sheets_owns_svg (const RodPlan *plan,
                     const char    *path)
{
  g_autoptr (GString) owner = NULL;
  g_autofree char *text = NULL;

  g_return_val_if_fail (plan != NULL && path != NULL, FALSE);

  owner = g_string_new (NULL);
  put_owner (owner, plan->house);

  return g_file_get_contents (path, &text, NULL, NULL) && strstr (text, owner->str) != NULL;
}
