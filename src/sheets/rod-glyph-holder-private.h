/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <pango/pangocairo.h>

G_BEGIN_DECLS

/* Keeps texts to write them grouped by kind. */
typedef struct _RodGlyphHolder RodGlyphHolder;

RodGlyphHolder *rod_glyph_holder_new (void) G_GNUC_WARN_UNUSED_RESULT;

void rod_glyph_holder_free (RodGlyphHolder *holder);

/* Keeps glyphs that stand for @text, to be shown at the origin of @cr as it stands. */
void rod_glyph_holder_add (RodGlyphHolder             *holder,
                           cairo_t                    *cr,
                           cairo_scaled_font_t        *font,
                           const char                 *text,
                           const cairo_glyph_t        *glyphs,
                           guint                       n_glyphs,
                           const cairo_text_cluster_t *clusters,
                           guint                       n_clusters);

/* Keeps a line of a layout, likewise. */
void rod_glyph_holder_add_line (RodGlyphHolder  *holder,
                                cairo_t         *cr,
                                PangoLayoutLine *line);

/* Writes what was kept, and forgets it. */
void rod_glyph_holder_release (RodGlyphHolder *holder,
                               cairo_t        *cr);

G_END_DECLS
