/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Notes beside an elevation: what is laid there and how, the key of the trims, and the findings of
 * the face. They fill columns: one beside the drawing, several below it.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-figures.h"

#define COLUMN_WIDTH 60.0
#define COLUMN_GAP 5.0
#define HEADING_GAP 2.2
#define LABEL_WIDTH 21.0

/* Pieces of a lining whose sizes are written out; more would need a list. */
#define MOST_SIZES 6

/* Where the next note goes; nothing is written once the columns are full. */
typedef struct
{
  const RodSheets *sheets;
  cairo_t         *cr;
  RodRoom          room;
  double           x;
  double           y;
  double           width;
} NotePen;

static gboolean
make_room (NotePen *pen,
           double   height)
{
  if (pen->y + height <= pen->room.y + pen->room.height)
    return TRUE;
  if (pen->x + 2.0 * pen->width + COLUMN_GAP > pen->room.x + pen->room.width + 0.01)
    return FALSE;

  pen->x += pen->width + COLUMN_GAP;
  pen->y = pen->room.y;

  return pen->y + height <= pen->room.y + pen->room.height;
}

static void
note_heading (NotePen    *pen,
              const char *text)
{
  double gap = pen->y > pen->room.y ? HEADING_GAP : 0.0;

  if (!make_room (pen, gap + 4.0 * ROD_SHEET_TEXT))
    return;

  pen->y += pen->y > pen->room.y ? gap : 0.0;
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  pen->y += rod_sheet_paragraph (pen->sheets,
                                 pen->cr,
                                 text,
                                 ROD_SHEET_TEXT,
                                 TRUE,
                                 pen->x,
                                 pen->y,
                                 pen->width);
  cairo_set_line_width (pen->cr, ROD_SHEET_WIDE);
  cairo_move_to (pen->cr, pen->x, pen->y - 0.9);
  cairo_line_to (pen->cr, pen->x + pen->width, pen->y - 0.9);
  cairo_stroke (pen->cr);
  pen->y += 0.8;
}

/* A label and, indented beside it, its text. */
static gboolean
note_line (NotePen    *pen,
           const char *label,
           double      label_width,
           const char *text)
{
  double height = rod_sheet_paragraph (pen->sheets,
                                       NULL,
                                       text,
                                       ROD_SHEET_TEXT,
                                       FALSE,
                                       0.0,
                                       0.0,
                                       pen->width - label_width);

  if (!make_room (pen, height))
    return FALSE;

  cairo_set_source_rgb (pen->cr, 0.38, 0.38, 0.38);
  rod_lettering_write (pen->sheets->lettering,
                       pen->cr,
                       label,
                       &(RodLetterStyle){ .height = ROD_SHEET_TEXT, .width = label_width - 1.0 },
                       pen->x,
                       pen->y + ROD_SHEET_TEXT);
  cairo_set_source_rgb (pen->cr, 0.0, 0.0, 0.0);
  rod_sheet_paragraph (pen->sheets,
                       pen->cr,
                       text,
                       ROD_SHEET_TEXT,
                       FALSE,
                       pen->x + label_width,
                       pen->y,
                       pen->width - label_width);
  pen->y += height;

  return TRUE;
}

static void
note_fact (NotePen    *pen,
           const char *label,
           char       *text)
{
  g_autofree char *owned = text;

  note_line (pen, label, LABEL_WIDTH, owned);
}

static char *
describe_direction (const RodField *field)
{
  g_autofree char *angle = NULL;

  if (rod_field_is_level (field))
    return g_strdup (_ ("level"));
  if (rod_field_is_upright (field))
    return g_strdup (_ ("upright"));

  angle = rod_figures_angle (field->direction_deg);

  return g_strdup_printf (_ ("%s to level"), angle);
}

static void
note_colours (NotePen        *pen,
              const RodField *field)
{
  const GPtrArray *mix = field->mix;

  if (field->colour != NULL || mix == NULL || mix->len == 0)
    {
      if (field->colour != NULL)
        note_fact (pen, _ ("Colour"), g_strdup (field->colour->name));
      return;
    }

  for (guint i = 0; i < mix->len; i++)
    {
      const RodColourShare *share = g_ptr_array_index (mix, i);
      const RodColour      *colour = rod_board_find_colour (field->board, share->colour);

      note_fact (pen,
                 i == 0 ? _ ("Colours") : "",
                 g_strdup (colour != NULL ? colour->name : share->colour));
    }
}

static void
note_field (NotePen        *pen,
            const RodField *field)
{
  RodUnits         units = pen->sheets->units;
  g_autofree char *pieces = rod_figures_count (field->n_pieces);

  note_heading (pen,
                field->zone == NULL            ? _ ("Boards")
                : field->zone->name[0] != '\0' ? field->zone->name
                                               : field->zone->id);
  note_fact (pen, _ ("Board"), g_strdup (field->board->name));
  note_colours (pen, field);
  note_fact (pen, _ ("Direction"), describe_direction (field));
  note_fact (pen,
             _ ("Pieces"),
             g_strdup_printf (ngettext ("%s in %u course", "%s in %u courses", field->n_courses),
                              pieces,
                              field->n_courses));
  note_fact (pen, _ ("Clad area"), rod_figures_area (units, rod_region_area (field->clad)));
  if (!rod_field_is_level (field) && !rod_field_is_upright (field))
    note_fact (pen, _ ("Joint lines"), rod_figures_length (units, field->phase_mm));
  if (field->n_joints > 0 && field->n_columns == 0)
    note_fact (pen,
               _ ("Length joints"),
               g_strdup (rod_choice_label (rod_joint_pattern_choices,
                                           (int) field->joint_rules.pattern)));
  for (guint i = 0; i < field->n_columns; i++)
    {
      RodPoint at = rod_affine_apply (field->to_surface, (RodPoint){ field->columns[i], 0.0 });

      note_fact (pen,
                 i == 0 ? _ ("Length joint") : "",
                 rod_figures_length (units, rod_field_is_upright (field) ? at.y : at.x));
    }
}

static void
note_surface (NotePen       *pen,
              const RodFace *face)
{
  const RodSurface *surface = face->surface;
  RodUnits          units = pen->sheets->units;

  note_heading (pen, face->label);
  note_fact (pen, _ ("Mark"), g_strdup (face->mark));
  note_fact (pen, _ ("System"), g_strdup (face->system->name));
  note_fact (pen, _ ("Build-up"), rod_figures_length_unit (units, surface->build_up_mm));
  if (surface->kind == ROD_SURFACE_WALL)
    note_fact (pen, _ ("Level"), rod_figures_length_unit (units, surface->level_mm));
  if (isfinite (surface->facing_deg))
    note_fact (pen, _ ("Faces"), rod_figures_angle (surface->facing_deg));
  note_fact (pen,
             _ ("Seen"),
             g_strdup (surface->kind == ROD_SURFACE_SOFFIT ? _ ("from below")
                                                           : _ ("from outside")));
}

static void
note_trims (NotePen           *pen,
            const RodFaceView *view)
{
  const RodPlan *plan = pen->sheets->plan;
  g_autoptr (GPtrArray) trims = rod_face_trims (pen->sheets, view->face);

  if (trims->len > 0)
    note_heading (pen, _ ("Trims"));
  for (guint i = 0; i < trims->len; i++)
    {
      const RodTrim   *trim = g_ptr_array_index (trims, i);
      g_autofree char *key = g_strdup_printf ("%u", rod_sheet_trim_number (pen->sheets, trim));
      g_autofree char *run =
        rod_figures_run (pen->sheets->units, rod_face_trim_run (plan, view->face, trim));
      g_autofree char *text = g_strdup_printf ("%s, %s", trim->name, run);

      note_line (pen, key, 6.0, text);
    }
}

static void
note_findings (NotePen           *pen,
               const RodFaceView *view)
{
  const GPtrArray *findings = pen->sheets->findings;
  gboolean         headed = FALSE;

  for (guint i = 0; i < findings->len; i++)
    {
      const RodFinding *finding = g_ptr_array_index (findings, i);

      if (finding->face != (int) view->face)
        continue;
      if (!headed)
        note_heading (pen, _ ("Findings"));
      headed = TRUE;
      if (!note_line (pen, rod_sheet_severity (finding->severity), 14.0, finding->text))
        return;
    }
}

void
rod_sheet_notes (const RodSheets   *sheets,
                 const RodFaceView *view,
                 cairo_t           *cr)
{
  const RodFace *face = rod_plan_face (sheets->plan, view->face);
  NotePen        pen = { sheets, cr, view->notes, view->notes.x, view->notes.y, 0.0 };
  double         n_columns =
    fmax (1.0, floor ((view->notes.width + COLUMN_GAP) / (COLUMN_WIDTH + COLUMN_GAP)));

  pen.width = (view->notes.width - (n_columns - 1.0) * COLUMN_GAP) / n_columns;
  note_surface (&pen, face);
  for (guint i = face->first_field; i < face->first_field + face->n_fields; i++)
    note_field (&pen, rod_plan_field (sheets->plan, i));
  note_trims (&pen, view);
  note_findings (&pen, view);
}

static void
append_words (GString    *text,
              const char *words)
{
  g_string_append_printf (text, "%s%s", text->len > 0 ? " \u00b7 " : "", words);
}

/* "37 pieces, EL-01-1 to EL-37-1": where boards are too short for marks, their order tells them. */
static char *
describe_pieces (const RodSheets *sheets,
                 const RodField  *field)
{
  guint n = field->n_pieces;

  if (n < 2)
    return g_strdup_printf (ngettext ("%u piece", "%u pieces", n), n);

  return g_strdup_printf (_ ("%u pieces, %s to %s"),
                          n,
                          rod_plan_piece (sheets->plan, field->first_piece)->mark,
                          rod_plan_piece (sheets->plan, field->first_piece + n - 1)->mark);
}

static void
append_field (GString         *text,
              const RodSheets *sheets,
              const RodField  *field)
{
  g_autofree char *direction = describe_direction (field);
  g_autofree char *pieces = describe_pieces (sheets, field);

  append_words (text, field->board->name);
  if (field->colour != NULL)
    append_words (text, field->colour->name);
  append_words (text, direction);
  append_words (text, pieces);
}

guint
rod_sheet_trim_number (const RodSheets *sheets,
                       const RodTrim   *trim)
{
  guint index = 0;

  g_ptr_array_find (sheets->trims, trim, &index);

  return index + 1;
}

/* The key of trims in one paragraph, for drawings that share a sheet. */
char *
rod_sheet_trim_key (const RodSheets *sheets,
                    const GPtrArray *trims)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < sheets->trims->len; i++)
    {
      const RodTrim   *trim = g_ptr_array_index (sheets->trims, i);
      g_autofree char *words = NULL;

      if (!g_ptr_array_find ((GPtrArray *) trims, trim, NULL))
        continue;
      words = g_strdup_printf ("%u\u00a0%s", i + 1, trim->name);
      append_words (text, words);
    }
  if (text->len > 0)
    g_string_prepend (text, _ ("Trims: "));

  return g_string_free (text, FALSE);
}

/* The notes of a face in a few words, where it shares a sheet. */
char *
rod_sheet_caption (const RodSheets *sheets,
                   guint            face)
{
  const RodFace *of = rod_plan_face (sheets->plan, face);
  GString       *text = g_string_new (NULL);

  for (guint i = of->first_field; i < of->first_field + of->n_fields; i++)
    append_field (text, sheets, rod_plan_field (sheets->plan, i));

  return g_string_free (text, FALSE);
}

/* Lengths of its pieces: they are what is cut, and few. */
char *
rod_sheet_lining_caption (const RodSheets *sheets,
                          guint            face)
{
  const RodFace *of = rod_plan_face (sheets->plan, face);
  GString       *text = g_string_new (NULL);

  for (guint f = of->first_field; f < of->first_field + of->n_fields; f++)
    {
      const RodField *field = rod_plan_field (sheets->plan, f);

      for (guint i = field->first_piece; i < field->first_piece + field->n_pieces; i++)
        {
          const RodPiece  *piece = rod_plan_piece (sheets->plan, i);
          g_autofree char *length = rod_figures_length (sheets->units, piece->length_mm);
          g_autofree char *width = rod_figures_length (sheets->units, piece->width_mm);

          if (i > field->first_piece && i == field->first_piece + MOST_SIZES)
            {
              append_words (text, "\u2026");
              break;
            }
          g_string_append_printf (text,
                                  "%s%s\u00a0×\u00a0%s",
                                  text->len > 0 ? ", " : "",
                                  length,
                                  width);
        }
    }

  return g_string_free (text, FALSE);
}

/* Battens of a face: what they are, how far apart, and what the letters on the drawing mean. */
static void
note_battens (NotePen       *pen,
              const RodFace *face,
              guint          index,
              gboolean       counter)
{
  const RodSheets *sheets = pen->sheets;
  const RodRules  *rules = face->system->rules;
  const RodBatten *batten = counter ? face->system->counter_batten : face->system->batten;
  double           centres = counter                                     ? rules->counter_centres_mm
                             : face->surface->kind == ROD_SURFACE_SOFFIT ? rules->soffit_centres_mm
                                                                         : rules->batten_centres_mm;
  double           run;
  guint            n = rod_face_batten_count (sheets->plan, index, counter, &run);

  if (n == 0 || batten == NULL)
    return;

  note_heading (pen, counter ? _ ("Counter battens") : _ ("Battens"));
  note_fact (pen, _ ("Section"), g_strdup (batten->name));
  note_fact (pen, _ ("Centres"), rod_sheet_at_most (sheets, centres));
  note_fact (pen, _ ("Lengths"), rod_figures_count (n));
  note_fact (pen, _ ("In all"), rod_figures_run (sheets->units, run));
}

void
rod_sheet_frame_notes (const RodSheets   *sheets,
                       const RodFaceView *view,
                       cairo_t           *cr)
{
  const RodFace *face = rod_plan_face (sheets->plan, view->face);
  NotePen        pen = { sheets, cr, view->notes, view->notes.x, view->notes.y, 0.0 };

  pen.width = fmin (COLUMN_WIDTH, view->notes.width);
  note_heading (&pen, face->label);
  note_fact (&pen, _ ("Mark"), g_strdup (face->mark));
  note_battens (&pen, face, view->face, FALSE);
  note_battens (&pen, face, view->face, TRUE);
  note_heading (&pen, _ ("Why a batten is there"));
  for (guint i = 0; i < rod_batten_letters_n; i++)
    note_line (&pen, _ (rod_batten_letters[i].letter), 6.0, _ (rod_batten_letters[i].meaning));
}

char *
rod_sheet_frame_caption (const RodSheets *sheets,
                         guint            face)
{
  const RodFace   *of = rod_plan_face (sheets->plan, face);
  double           run;
  guint            n = rod_face_batten_count (sheets->plan, face, FALSE, &run);
  g_autofree char *sum = rod_figures_run (sheets->units, run);

  return g_strdup_printf (ngettext ("%s \u00b7 %u length, %s",
                                    "%s \u00b7 %u lengths, %s in all",
                                    n),
                          of->system->batten->name,
                          n,
                          sum);
}
