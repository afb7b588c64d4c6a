/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lettering on drawings and lists.
 *
 * Marks and figures, which are most of what is written, are set from a table of glyphs made once:
 * they need no kerning, and a layout for each of thousands would take longer than all the rest.
 *
 * Every text is laid out once, at one size, without hinting, and scaled by the context when drawn:
 * a zoom or a turn then costs no new layout. Sizes are heights of capitals (ISO 3098), found by
 * measuring an H, so that 2.5 mm on paper are 2.5 mm in whichever typeface is installed.
 */
#include "config.h"

#include "sheets/rod-lettering.h"

#include <math.h>
#include <string.h>

#include "sheets/rod-glyph-holder-private.h"

/* The first that is installed is taken; the second is part of every Debian font set. */
#define TYPEFACE "Cantarell, DejaVu Sans"

/* Size of the em in layouts, user units. */
#define LAYOUT_EM 64.0

/* Texts kept; a house has some thousands of marks, and a long session must not grow for ever. */
#define KEPT_TEXTS 16384

/* Letters may be narrowed so far before a text is cut off. */
#define NARROWEST 0.75

/* Narrowing goes by steps: every new shape of letters costs a font. */
#define NARROWING_STEP 0.05

/* Base line to base line in heights of capitals; ISO 3098 type B asks at least 1.5, which lets
 * letters with tails pass; accents on capitals still fit. */
#define LINE_PITCH 1.75

/* Characters of marks and figures. */
#define FIGURE_CHARACTERS \
  "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-.,'\"/:_ \u00a0×\u2212°\u00b7\u2192\u2013"
#define FIGURE_SLOTS 128

/* Longer texts are prose. */
#define MOST_FIGURES 40

typedef struct
{
  gunichar      character; /* 0 in an empty slot */
  unsigned long glyph;
  double        advance;
} FigureGlyph;

/* One weight of the typeface. */
typedef struct
{
  PangoFontDescription *description;
  cairo_scaled_font_t  *font;
  FigureGlyph           figures[FIGURE_SLOTS];
} Weight;

/* A figure set in glyphs, in units of a layout. */
typedef struct
{
  cairo_glyph_t        glyphs[MOST_FIGURES];
  cairo_text_cluster_t clusters[MOST_FIGURES];
  int                  n;
  double               width;
} SetFigure;

struct _RodLettering
{
  gboolean        holding;
  RodGlyphHolder *holder;
  PangoContext   *context;
  Weight          weights[2]; /* normal and bold */
  PangoAttrList  *features;
  GHashTable     *layouts;
  double          capital; /* height of an H in a layout */

  RodLetteringWatch watch;
  gpointer          watch_data;
};

static PangoLayout *
lay_out (RodLettering *self,
         const char   *text,
         gboolean      bold)
{
  PangoLayout *layout = pango_layout_new (self->context);

  pango_layout_set_font_description (layout, self->weights[bold ? 1 : 0].description);
  pango_layout_set_attributes (layout, self->features);
  pango_layout_set_text (layout, text, -1);

  return layout;
}

static void
keep_layout (RodLettering *self,
             char         *key,
             PangoLayout  *layout)
{
  if (g_hash_table_size (self->layouts) >= KEPT_TEXTS)
    g_hash_table_remove_all (self->layouts);
  g_hash_table_insert (self->layouts, key, layout);
}

static PangoLayout *
find_layout (RodLettering *self,
             const char   *text,
             gboolean      bold)
{
  g_autofree char *key = g_strconcat (bold ? "b" : "n", text, NULL);
  PangoLayout     *layout = g_hash_table_lookup (self->layouts, key);

  if (layout == NULL)
    {
      layout = lay_out (self, text, bold);
      pango_layout_set_single_paragraph_mode (layout, TRUE);
      keep_layout (self, g_steal_pointer (&key), layout);
    }

  return layout;
}

/* A paragraph is laid out for its width, counted in units of the layout. */
static PangoLayout *
find_paragraph (RodLettering *self,
                const char   *text,
                gboolean      bold,
                int           width)
{
  g_autofree char *key = g_strdup_printf ("%c%d:%s", bold ? 'B' : 'N', width, text);
  PangoLayout     *layout = g_hash_table_lookup (self->layouts, key);

  if (layout == NULL)
    {
      layout = lay_out (self, text, bold);
      pango_layout_set_width (layout, width);
      pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
      keep_layout (self, g_steal_pointer (&key), layout);
    }

  return layout;
}

/* A line cut off with an ellipsis at a width in units of the layout. */
static PangoLayout *
find_cut_off (RodLettering *self,
              const char   *text,
              gboolean      bold,
              int           width)
{
  g_autofree char *key = g_strdup_printf ("%c%d:%s", bold ? 'E' : 'e', width, text);
  PangoLayout     *layout = g_hash_table_lookup (self->layouts, key);

  if (layout == NULL)
    {
      layout = lay_out (self, text, bold);
      pango_layout_set_single_paragraph_mode (layout, TRUE);
      pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
      pango_layout_set_width (layout, width);
      keep_layout (self, g_steal_pointer (&key), layout);
    }

  return layout;
}

static double
layout_width (PangoLayout *layout)
{
  int width;

  pango_layout_get_size (layout, &width, NULL);

  return (double) width / PANGO_SCALE;
}

static FigureGlyph *
figure_slot (Weight  *weight,
             gunichar character)
{
  guint slot = character % FIGURE_SLOTS;

  while (weight->figures[slot].character != 0 && weight->figures[slot].character != character)
    slot = (slot + 1) % FIGURE_SLOTS;

  return &weight->figures[slot];
}

/* Layouts leave blanks empty; as part of a figure they are shown, so that they can be copied. */
static unsigned long
space_glyph (cairo_scaled_font_t *font)
{
  cairo_glyph_t *glyphs = NULL;
  int            n = 0;
  unsigned long  glyph = 0;

  if (cairo_scaled_font_text_to_glyphs (font, 0.0, 0.0, " ", 1, &glyphs, &n, NULL, NULL, NULL) ==
        CAIRO_STATUS_SUCCESS &&
      n > 0)
    glyph = glyphs[0].index;
  cairo_glyph_free (glyphs);

  return glyph;
}

/* Notes glyph and advance of one character, unless the typeface lacks it. */
static void
learn_figure (RodLettering *self,
              Weight       *weight,
              const char   *character)
{
  g_autofree char *text = g_strndup (character, g_utf8_next_char (character) - character);
  g_autoptr (PangoLayout) layout = lay_out (self, text, weight == &self->weights[1]);
  PangoLayoutLine     *line = pango_layout_get_line_readonly (layout, 0);
  PangoGlyphItem      *run = line != NULL && line->runs != NULL ? line->runs->data : NULL;
  cairo_scaled_font_t *font;
  FigureGlyph         *slot;

  if (run == NULL || run->glyphs->num_glyphs != 1 ||
      run->glyphs->glyphs[0].glyph & PANGO_GLYPH_UNKNOWN_FLAG)
    return;
  font = pango_cairo_font_get_scaled_font (PANGO_CAIRO_FONT (run->item->analysis.font));
  if (weight->font == NULL)
    weight->font = cairo_scaled_font_reference (font);
  if (font != weight->font)
    return;

  slot = figure_slot (weight, g_utf8_get_char (text));
  slot->character = g_utf8_get_char (text);
  slot->glyph = run->glyphs->glyphs[0].glyph;
  if (slot->glyph == PANGO_GLYPH_EMPTY)
    slot->glyph = space_glyph (font);
  slot->advance = (double) run->glyphs->glyphs[0].geometry.width / PANGO_SCALE;
}

static void
init_weight (RodLettering *self,
             gboolean      bold)
{
  Weight *weight = &self->weights[bold ? 1 : 0];

  weight->description = pango_font_description_from_string (TYPEFACE);
  pango_font_description_set_absolute_size (weight->description, LAYOUT_EM * PANGO_SCALE);
  pango_font_description_set_weight (weight->description,
                                     bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  for (const char *c = FIGURE_CHARACTERS; *c != '\0'; c = g_utf8_next_char (c))
    learn_figure (self, weight, c);
}

/* Sets a text that consists of characters of marks and figures only. */
static gboolean
set_figure (RodLettering *self,
            const char   *text,
            gboolean      bold,
            SetFigure    *set)
{
  Weight *weight = &self->weights[bold ? 1 : 0];

  set->n = 0;
  set->width = 0.0;
  if (weight->font == NULL)
    return FALSE;
  for (const char *c = text; *c != '\0'; c = g_utf8_next_char (c))
    {
      const FigureGlyph *figure = figure_slot (weight, g_utf8_get_char (c));

      if (figure->character == 0 || set->n == MOST_FIGURES)
        return FALSE;
      set->glyphs[set->n] = (cairo_glyph_t){ figure->glyph, set->width, 0.0 };
      set->clusters[set->n] = (cairo_text_cluster_t){ (int) (g_utf8_next_char (c) - c), 1 };
      set->n++;
      set->width += figure->advance;
    }

  return TRUE;
}

RodLettering *
rod_lettering_new (void)
{
  RodLettering         *self = g_new0 (RodLettering, 1);
  cairo_font_options_t *options = cairo_font_options_create ();
  g_autoptr (PangoLayout) capital = NULL;
  PangoRectangle ink;

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  self->context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  pango_cairo_context_set_font_options (self->context, options);
  pango_cairo_context_set_resolution (self->context, 72.0);
  pango_context_set_round_glyph_positions (self->context, FALSE);
  cairo_font_options_destroy (options);

  /* Figures of one width, so that columns of numbers stand under each other. */
  self->features = pango_attr_list_new ();
  pango_attr_list_insert (self->features, pango_attr_font_features_new ("tnum=1"));
  self->layouts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
  self->holder = rod_glyph_holder_new ();
  init_weight (self, FALSE);
  init_weight (self, TRUE);
  capital = lay_out (self, "H", FALSE);
  pango_layout_get_extents (capital, &ink, NULL);
  self->capital = MAX (1.0, (double) ink.height / PANGO_SCALE);

  return self;
}

void
rod_lettering_free (RodLettering *lettering)
{
  if (lettering == NULL)
    return;

  g_hash_table_unref (lettering->layouts);
  rod_glyph_holder_free (lettering->holder);
  pango_attr_list_unref (lettering->features);
  for (int i = 0; i < 2; i++)
    {
      pango_font_description_free (lettering->weights[i].description);
      g_clear_pointer (&lettering->weights[i].font, cairo_scaled_font_destroy);
    }
  g_object_unref (lettering->context);
  g_free (lettering);
}

double
rod_lettering_width (RodLettering *lettering,
                     const char   *text,
                     double        height,
                     gboolean      bold)
{
  SetFigure set;

  g_return_val_if_fail (lettering != NULL && text != NULL, 0.0);

  return (set_figure (lettering, text, bold, &set)
            ? set.width
            : layout_width (find_layout (lettering, text, bold))) *
         height / lettering->capital;
}

static double
align_offset (RodAlign align,
              double   width)
{
  return align == ROD_ALIGN_LEFT ? 0.0 : align == ROD_ALIGN_RIGHT ? -width
                                                                  : -0.5 * width;
}

static void
put_figure (RodLettering    *self,
            cairo_t         *cr,
            const char      *text,
            gboolean         bold,
            const SetFigure *set)
{
  cairo_scaled_font_t *font = self->weights[bold ? 1 : 0].font;

  if (!self->holding)
    {
      cairo_set_scaled_font (cr, font);
      cairo_show_text_glyphs (cr,
                              text,
                              (int) strlen (text),
                              set->glyphs,
                              set->n,
                              set->clusters,
                              set->n,
                              0);
      cairo_new_path (cr);
      return;
    }
  rod_glyph_holder_add (self->holder,
                        cr,
                        font,
                        text,
                        set->glyphs,
                        (guint) set->n,
                        set->clusters,
                        (guint) set->n);
}

static void
put_line (RodLettering    *self,
          cairo_t         *cr,
          PangoLayoutLine *line)
{
  if (self->holding)
    {
      rod_glyph_holder_add_line (self->holder, cr, line);
      return;
    }
  cairo_move_to (cr, 0.0, 0.0);
  pango_cairo_show_layout_line (cr, line);
  cairo_new_path (cr);
}

void
rod_lettering_hold (RodLettering *lettering)
{
  g_return_if_fail (lettering != NULL);

  lettering->holding = TRUE;
}

void
rod_lettering_release (RodLettering *lettering,
                       cairo_t      *cr)
{
  g_return_if_fail (lettering != NULL && cr != NULL);

  lettering->holding = FALSE;
  rod_glyph_holder_release (lettering->holder, cr);
}

void
rod_lettering_watch (RodLettering     *lettering,
                     RodLetteringWatch watch,
                     gpointer          data)
{
  g_return_if_fail (lettering != NULL);

  lettering->watch = watch;
  lettering->watch_data = data;
}

/* Tells of a line that is written along +x from the origin of @cr. */
static void
tell (const RodLettering *self,
      cairo_t            *cr,
      RodWritten          written,
      double              width)
{
  if (self->watch == NULL)
    return;
  for (int i = 0; i < 4; i++)
    {
      written.x[i] = i == 1 || i == 2 ? width : 0.0;
      written.y[i] = i < 2 ? 0.0 : -written.height;
      cairo_user_to_device (cr, &written.x[i], &written.y[i]);
    }
  self->watch (&written, self->watch_data);
}

/* How far letters must be narrowed for @needed to fit @room. */
static double
find_narrowing (double needed,
                double room)
{
  if (!(room > 0.0) || needed <= room)
    return 1.0;

  return fmax (NARROWEST, floor (room / needed / NARROWING_STEP) * NARROWING_STEP);
}

void
rod_lettering_write (RodLettering         *lettering,
                     cairo_t              *cr,
                     const char           *text,
                     const RodLetterStyle *style,
                     double                x,
                     double                y)
{
  PangoLayout *layout = NULL;
  SetFigure    set;
  gboolean     cut_off = FALSE;
  double       scale, needed, narrow;

  g_return_if_fail (lettering != NULL && cr != NULL && text != NULL && style != NULL);

  scale = style->height / lettering->capital;
  needed = rod_lettering_width (lettering, text, style->height, style->bold);
  narrow = find_narrowing (needed, style->width);
  needed *= narrow;
  if (style->width > 0.0 && needed > style->width * (1.0 + 1e-9))
    {
      cut_off = TRUE;
      needed = style->width;
    }
  if (cut_off)
    layout =
      find_cut_off (lettering, text, style->bold, (int) (needed / (scale * narrow) * PANGO_SCALE));
  else if (!set_figure (lettering, text, style->bold, &set))
    layout = find_layout (lettering, text, style->bold);

  cairo_save (cr);
  cairo_translate (cr, x, y);
  if (fabs (style->angle_deg) > 0.0)
    cairo_rotate (cr, -style->angle_deg * G_PI / 180.0);
  cairo_translate (cr, align_offset (style->align, needed), 0.0);
  tell (lettering,
        cr,
        (RodWritten){
          .text = text, .height = style->height, .cut_off = cut_off },
        needed);
  cairo_scale (cr, scale * narrow, scale);
  if (layout != NULL)
    put_line (lettering, cr, pango_layout_get_line_readonly (layout, 0));
  else
    put_figure (lettering, cr, text, style->bold, &set);
  cairo_restore (cr);
}

double
rod_lettering_paragraph (RodLettering         *lettering,
                         cairo_t              *cr,
                         const char           *text,
                         const RodLetterStyle *style,
                         double                x,
                         double                y)
{
  PangoLayout *layout;
  double       scale;
  double       pitch;
  int          n_lines;

  g_return_val_if_fail (lettering != NULL && text != NULL && style != NULL, 0.0);
  g_return_val_if_fail (style->width > 0.0, 0.0);

  scale = style->height / lettering->capital;
  pitch = LINE_PITCH * style->height;
  layout =
    find_paragraph (lettering, text, style->bold, (int) (style->width / scale * PANGO_SCALE));
  n_lines = pango_layout_get_line_count (layout);

  for (int i = 0; cr != NULL && i < n_lines; i++)
    {
      PangoLayoutLine *line = pango_layout_get_line_readonly (layout, i);
      PangoRectangle   extent;
      double           spare;

      pango_layout_line_get_extents (line, NULL, &extent);
      spare = style->width - (double) extent.width / PANGO_SCALE * scale;
      cairo_save (cr);
      cairo_translate (cr, x - align_offset (style->align, spare), y + style->height + i * pitch);
      tell (lettering,
            cr,
            (RodWritten){ .text = text, .height = style->height },
            style->width - spare);
      cairo_scale (cr, scale, scale);
      put_line (lettering, cr, line);
      cairo_restore (cr);
    }

  return n_lines * pitch;
}
