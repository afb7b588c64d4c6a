/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lettering on drawings and lists.
 *
 * Every text is laid out once, at one size, without hinting, and scaled by the context when drawn:
 * a zoom or a turn then costs no new layout. Sizes are heights of capitals (ISO 3098), found by
 * measuring an H, so that 2.5 mm on paper are 2.5 mm in whichever typeface is installed.
 */
#include "config.h"

#include "sheets/rod-lettering.h"

#include <math.h>

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

struct _RodLettering
{
  PangoContext         *context;
  PangoFontDescription *fonts[2]; /* normal and bold */
  PangoAttrList        *features;
  GHashTable           *layouts;
  double                capital; /* height of an H in a layout */
};

static PangoLayout *
lay_out (RodLettering *self,
         const char   *text,
         gboolean      bold)
{
  PangoLayout *layout = pango_layout_new (self->context);

  pango_layout_set_font_description (layout, self->fonts[bold ? 1 : 0]);
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

static double
layout_width (PangoLayout *layout)
{
  int width;

  pango_layout_get_size (layout, &width, NULL);

  return (double) width / PANGO_SCALE;
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

  for (int i = 0; i < 2; i++)
    {
      self->fonts[i] = pango_font_description_from_string (TYPEFACE);
      pango_font_description_set_absolute_size (self->fonts[i], LAYOUT_EM * PANGO_SCALE);
      pango_font_description_set_weight (self->fonts[i],
                                         i == 1 ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    }
  /* Figures of one width, so that columns of numbers stand under each other. */
  self->features = pango_attr_list_new ();
  pango_attr_list_insert (self->features, pango_attr_font_features_new ("tnum=1"));
  self->layouts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
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
  pango_attr_list_unref (lettering->features);
  pango_font_description_free (lettering->fonts[0]);
  pango_font_description_free (lettering->fonts[1]);
  g_object_unref (lettering->context);
  g_free (lettering);
}

double
rod_lettering_width (RodLettering *lettering,
                     const char   *text,
                     double        height,
                     gboolean      bold)
{
  g_return_val_if_fail (lettering != NULL && text != NULL, 0.0);

  return layout_width (find_layout (lettering, text, bold)) * height / lettering->capital;
}

static double
align_offset (RodAlign align,
              double   width)
{
  return align == ROD_ALIGN_LEFT ? 0.0 : align == ROD_ALIGN_RIGHT ? -width
                                                                  : -0.5 * width;
}

void
rod_lettering_write (RodLettering         *lettering,
                     cairo_t              *cr,
                     const char           *text,
                     const RodLetterStyle *style,
                     double                x,
                     double                y)
{
  PangoLayout *layout;
  double       scale;
  double       narrow = 1.0;
  double       needed;
  int          full_width = -1;

  g_return_if_fail (lettering != NULL && cr != NULL && text != NULL && style != NULL);

  layout = find_layout (lettering, text, style->bold);
  scale = style->height / lettering->capital;
  needed = layout_width (layout) * scale;
  if (style->width > 0.0 && needed > style->width)
    {
      narrow = floor (style->width / needed / NARROWING_STEP) * NARROWING_STEP;
      narrow = fmax (NARROWEST, narrow);
      if (needed * narrow > style->width * (1.0 + 1e-9))
        {
          full_width = (int) (style->width / (scale * narrow) * PANGO_SCALE);
          pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
          pango_layout_set_width (layout, full_width);
        }
      needed = fmin (needed * narrow, style->width);
    }

  cairo_save (cr);
  cairo_translate (cr, x, y);
  if (fabs (style->angle_deg) > 0.0)
    cairo_rotate (cr, -style->angle_deg * G_PI / 180.0);
  cairo_move_to (cr, align_offset (style->align, needed), 0.0);
  cairo_scale (cr, scale * narrow, scale);
  pango_cairo_show_layout_line (cr, pango_layout_get_line_readonly (layout, 0));
  cairo_restore (cr);
  cairo_new_path (cr);

  if (full_width >= 0)
    {
      pango_layout_set_width (layout, -1);
      pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_NONE);
    }
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
  layout = find_paragraph (lettering, text, style->bold, (int) (style->width / scale * PANGO_SCALE));
  n_lines = pango_layout_get_line_count (layout);

  for (int i = 0; cr != NULL && i < n_lines; i++)
    {
      PangoLayoutLine *line = pango_layout_get_line_readonly (layout, i);
      PangoRectangle   extent;
      double           spare;

      pango_layout_line_get_extents (line, NULL, &extent);
      spare = style->width - (double) extent.width / PANGO_SCALE * scale;
      cairo_save (cr);
      cairo_translate (cr,
                       x - align_offset (style->align, spare),
                       y + style->height + i * pitch);
      cairo_scale (cr, scale, scale);
      cairo_move_to (cr, 0.0, 0.0);
      pango_cairo_show_layout_line (cr, line);
      cairo_restore (cr);
    }
  if (cr != NULL)
    cairo_new_path (cr);

  return n_lines * pitch;
}
