/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts that wait to be written, as glyphs.
 *
 * A document spends more on every change of font, colour or kind of mark than on the marks. Texts
 * of a page are therefore kept, sorted by font, size, slope and colour, and each kind is written in
 * one stroke: a page of several hundred labels makes half a dozen operations. Glyphs keep the text
 * they stand for, so that it can be searched and copied.
 */
#include "config.h"

#include "sheets/rod-glyph-holder-private.h"

/* One text. */
typedef struct
{
  int              font; /* index into the fonts, or -1: the line is left to Pango */
  PangoLayoutLine *line; /* (nullable) */
  cairo_matrix_t   matrix;
  double           red, green, blue;
  guint            order;
  guint            first_glyph, n_glyphs;
  guint            first_cluster, n_clusters;
  gsize            first_byte, n_bytes;
} Held;

struct _RodGlyphHolder
{
  GArray    *held;
  GPtrArray *fonts; /* (element-type cairo_scaled_font_t), in the order they were met */
  GArray    *glyphs;
  GArray    *clusters;
  GString   *text;
};

static void
clear_held (gpointer data)
{
  Held *held = data;

  g_clear_pointer (&held->line, pango_layout_line_unref);
}

RodGlyphHolder *
rod_glyph_holder_new (void)
{
  RodGlyphHolder *holder = g_new0 (RodGlyphHolder, 1);

  holder->held = g_array_new (FALSE, FALSE, sizeof (Held));
  g_array_set_clear_func (holder->held, clear_held);
  holder->fonts = g_ptr_array_new_with_free_func ((GDestroyNotify) cairo_scaled_font_destroy);
  holder->glyphs = g_array_new (FALSE, FALSE, sizeof (cairo_glyph_t));
  holder->clusters = g_array_new (FALSE, FALSE, sizeof (cairo_text_cluster_t));
  holder->text = g_string_new (NULL);

  return holder;
}

void
rod_glyph_holder_free (RodGlyphHolder *holder)
{
  g_array_unref (holder->held);
  g_ptr_array_unref (holder->fonts);
  g_array_unref (holder->glyphs);
  g_array_unref (holder->clusters);
  g_string_free (holder->text, TRUE);
  g_free (holder);
}

static void
empty_holder (RodGlyphHolder *holder)
{
  g_array_set_size (holder->held, 0);
  g_ptr_array_set_size (holder->fonts, 0);
  g_array_set_size (holder->glyphs, 0);
  g_array_set_size (holder->clusters, 0);
  g_string_truncate (holder->text, 0);
}

/* Fonts are told apart by when they came: addresses would differ from run to run. */
static int
font_index (RodGlyphHolder      *holder,
            cairo_scaled_font_t *font)
{
  guint index;

  if (!g_ptr_array_find (holder->fonts, font, &index))
    {
      index = holder->fonts->len;
      g_ptr_array_add (holder->fonts, cairo_scaled_font_reference (font));
    }

  return (int) index;
}

/* Begins a text at the origin of the context as it stands. */
static Held
begin_held (const RodGlyphHolder *holder,
            cairo_t              *cr,
            int                   font)
{
  Held   held = { .font = font, .order = holder->held->len };
  double alpha;

  cairo_get_matrix (cr, &held.matrix);
  cairo_pattern_get_rgba (cairo_get_source (cr), &held.red, &held.green, &held.blue, &alpha);
  held.first_glyph = holder->glyphs->len;
  held.first_cluster = holder->clusters->len;
  held.first_byte = holder->text->len;

  return held;
}

static void
end_held (RodGlyphHolder *holder,
          Held            held)
{
  held.n_glyphs = holder->glyphs->len - held.first_glyph;
  held.n_clusters = holder->clusters->len - held.first_cluster;
  held.n_bytes = holder->text->len - held.first_byte;
  g_array_append_val (holder->held, held);
}

void
rod_glyph_holder_add (RodGlyphHolder             *holder,
                      cairo_t                    *cr,
                      cairo_scaled_font_t        *font,
                      const char                 *text,
                      const cairo_glyph_t        *glyphs,
                      guint                       n_glyphs,
                      const cairo_text_cluster_t *clusters,
                      guint                       n_clusters)
{
  Held held = begin_held (holder, cr, font_index (holder, font));

  g_array_append_vals (holder->glyphs, glyphs, n_glyphs);
  g_array_append_vals (holder->clusters, clusters, n_clusters);
  g_string_append (holder->text, text);
  end_held (holder, held);
}

/* Whether a run can be kept as glyphs: from left to right, every glyph a shape of its own. */
static gboolean
is_plain (const PangoGlyphItem *run)
{
  if (run->item->analysis.level % 2 != 0)
    return FALSE;
  for (int i = 0; i < run->glyphs->num_glyphs; i++)
    if (run->glyphs->glyphs[i].glyph == PANGO_GLYPH_EMPTY ||
        run->glyphs->glyphs[i].glyph & PANGO_GLYPH_UNKNOWN_FLAG)
      return FALSE;

  return run->glyphs->num_glyphs > 0;
}

/* Glyphs and clusters of a run that begins at @x, in units of the layout; returns where it ends. */
static double
append_run (RodGlyphHolder       *holder,
            const PangoGlyphItem *run,
            double                x)
{
  const PangoGlyphString *glyphs = run->glyphs;

  for (int i = 0; i < glyphs->num_glyphs; i++)
    {
      const PangoGlyphInfo *info = &glyphs->glyphs[i];
      cairo_glyph_t         glyph = { info->glyph,
                                      x + (double) info->geometry.x_offset / PANGO_SCALE,
                                      (double) info->geometry.y_offset / PANGO_SCALE };
      int                   end = run->item->length;

      g_array_append_val (holder->glyphs, glyph);
      x += (double) info->geometry.width / PANGO_SCALE;
      if (i > 0 && glyphs->log_clusters[i] == glyphs->log_clusters[i - 1])
        g_array_index (holder->clusters, cairo_text_cluster_t, holder->clusters->len - 1)
          .num_glyphs++;
      else
        {
          cairo_text_cluster_t cluster = { 0, 1 };

          for (int j = i + 1; j < glyphs->num_glyphs && end == run->item->length; j++)
            if (glyphs->log_clusters[j] != glyphs->log_clusters[i])
              end = glyphs->log_clusters[j];
          cluster.num_bytes = end - glyphs->log_clusters[i];
          g_array_append_val (holder->clusters, cluster);
        }
    }

  return x;
}

void
rod_glyph_holder_add_line (RodGlyphHolder  *holder,
                           cairo_t         *cr,
                           PangoLayoutLine *line)
{
  double x = 0.0;

  for (GSList *l = line->runs; l != NULL; l = l->next)
    if (!is_plain (l->data))
      {
        Held held = begin_held (holder, cr, -1);

        held.line = pango_layout_line_ref (line);
        end_held (holder, held);
        return;
      }
  for (GSList *l = line->runs; l != NULL; l = l->next)
    {
      const PangoGlyphItem *run = l->data;
      PangoCairoFont       *font = PANGO_CAIRO_FONT (run->item->analysis.font);
      Held                  held;

      held = begin_held (holder, cr, font_index (holder, pango_cairo_font_get_scaled_font (font)));
      x = append_run (holder, run, x);
      g_string_append_len (holder->text,
                           pango_layout_get_text (line->layout) + run->item->offset,
                           run->item->length);
      end_held (holder, held);
    }
}

static int
compare_numbers (double a,
                 double b)
{
  return (a > b) - (a < b);
}

/* Same font, size, slope and colour together. */
static int
compare_kinds (const Held *a,
               const Held *b)
{
  int order = compare_numbers (a->font, b->font);

  if (order == 0)
    order = compare_numbers (a->matrix.xx, b->matrix.xx);
  if (order == 0)
    order = compare_numbers (a->matrix.yy, b->matrix.yy);
  if (order == 0)
    order = compare_numbers (a->matrix.xy, b->matrix.xy);
  if (order == 0)
    order = compare_numbers (a->matrix.yx, b->matrix.yx);
  if (order == 0)
    order = compare_numbers (a->red, b->red);
  if (order == 0)
    order = compare_numbers (a->green, b->green);

  return order != 0 ? order : compare_numbers (a->blue, b->blue);
}

static int
compare_held (gconstpointer a,
              gconstpointer b)
{
  const Held *left = a, *right = b;
  int         order = compare_kinds (left, right);

  return order != 0 ? order : compare_numbers (left->order, right->order);
}

/* Writes texts of one kind at once; the glyphs of each are moved to where it begins, as seen from
 * the first. */
static void
show_kind (const RodGlyphHolder *holder,
           cairo_t              *cr,
           guint                 first,
           guint                 end)
{
  const Held    *leader = &g_array_index (holder->held, Held, first);
  cairo_matrix_t back = leader->matrix;
  g_autoptr (GArray) glyphs = g_array_new (FALSE, FALSE, sizeof (cairo_glyph_t));
  g_autoptr (GArray) clusters = g_array_new (FALSE, FALSE, sizeof (cairo_text_cluster_t));
  g_autoptr (GString) text = g_string_new (NULL);

  cairo_matrix_invert (&back);
  for (guint i = first; i < end; i++)
    {
      const Held *held = &g_array_index (holder->held, Held, i);
      double      x = held->matrix.x0, y = held->matrix.y0;

      cairo_matrix_transform_point (&back, &x, &y);
      for (guint g = held->first_glyph; g < held->first_glyph + held->n_glyphs; g++)
        {
          cairo_glyph_t glyph = g_array_index (holder->glyphs, cairo_glyph_t, g);

          glyph.x += x;
          glyph.y += y;
          g_array_append_val (glyphs, glyph);
        }
      g_array_append_vals (clusters,
                           &g_array_index (holder->clusters,
                                           cairo_text_cluster_t,
                                           held->first_cluster),
                           held->n_clusters);
      g_string_append_len (text, holder->text->str + held->first_byte, (gssize) held->n_bytes);
    }
  cairo_set_matrix (cr, &leader->matrix);
  cairo_set_source_rgb (cr, leader->red, leader->green, leader->blue);
  cairo_set_scaled_font (cr, g_ptr_array_index (holder->fonts, leader->font));
  cairo_show_text_glyphs (cr,
                          text->str,
                          (int) text->len,
                          (const cairo_glyph_t *) (const void *) glyphs->data,
                          (int) glyphs->len,
                          (const cairo_text_cluster_t *) (const void *) clusters->data,
                          (int) clusters->len,
                          0);
}

static void
show_line (const Held *held,
           cairo_t    *cr)
{
  cairo_set_matrix (cr, &held->matrix);
  cairo_set_source_rgb (cr, held->red, held->green, held->blue);
  cairo_move_to (cr, 0.0, 0.0);
  pango_cairo_show_layout_line (cr, held->line);
  cairo_new_path (cr);
}

void
rod_glyph_holder_release (RodGlyphHolder *holder,
                          cairo_t        *cr)
{
  g_array_sort (holder->held, compare_held);
  cairo_save (cr);
  for (guint i = 0, end = 0; i < holder->held->len; i = end)
    {
      const Held *held = &g_array_index (holder->held, Held, i);

      end = i + 1;
      if (held->line != NULL)
        {
          show_line (held, cr);
          continue;
        }
      while (end < holder->held->len &&
             compare_kinds (held, &g_array_index (holder->held, Held, end)) == 0)
        end++;
      show_kind (holder, cr, i, end);
    }
  cairo_restore (cr);
  empty_holder (holder);
}
