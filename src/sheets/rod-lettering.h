/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <pango/pangocairo.h>

G_BEGIN_DECLS

/**
 * RodAlign:
 * @ROD_ALIGN_LEFT: begins at the point
 * @ROD_ALIGN_CENTRE: centred on the point
 * @ROD_ALIGN_RIGHT: ends at the point
 *
 * Where a text stands to its point.
 */
typedef enum
{
  ROD_ALIGN_LEFT,
  ROD_ALIGN_CENTRE,
  ROD_ALIGN_RIGHT,
} RodAlign;

/**
 * RodLetterStyle:
 * @height: height of capitals in user units, as ISO 3098 measures lettering
 * @bold: heavy
 * @align: where the text stands
 * @angle_deg: turned counter-clockwise on paper
 * @width: room along the text; 0 for as much as it needs
 *
 * How a text is written. A text longer than its room is narrowed to three quarters at most, then
 * cut off with an ellipsis. A plain value.
 */
typedef struct
{
  double   height;
  gboolean bold;
  RodAlign align;
  double   angle_deg;
  double   width;
} RodLetterStyle;

/**
 * RodLettering:
 *
 * Writes text on any cairo context. Keeps what it has laid out, whatever the size and angle, so
 * that drawing the same labels again costs little. For one thread at a time.
 */
typedef struct _RodLettering RodLettering;

/**
 * rod_lettering_new:
 *
 * Returns: (transfer full): lettering in the program's typeface
 */
RodLettering *rod_lettering_new (void) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_lettering_free:
 * @lettering: (transfer full) (nullable): lettering
 */
void rod_lettering_free (RodLettering *lettering);

/**
 * rod_lettering_width:
 * @lettering: lettering
 * @text: a text of one line
 * @height: height of capitals
 * @bold: heavy
 *
 * Returns: width it needs, in the units of @height
 */
double
rod_lettering_width (RodLettering *lettering,
                     const char   *text,
                     double        height,
                     gboolean      bold);

/**
 * rod_lettering_write:
 * @lettering: lettering
 * @cr: where to; its source is the ink
 * @text: a text of one line
 * @style: how
 * @x: the point on the base line
 * @y: likewise
 */
void rod_lettering_write (RodLettering         *lettering,
                          cairo_t              *cr,
                          const char           *text,
                          const RodLetterStyle *style,
                          double                x,
                          double                y);

/**
 * rod_lettering_paragraph:
 * @lettering: lettering
 * @cr: (nullable): where to; %NULL only measures
 * @text: a text of any length
 * @style: how; @width is where lines break (within words that are longer), @angle_deg is ignored
 * @x: left end of the lines, whatever the alignment
 * @y: top of the first line's capitals
 *
 * Returns: height from @y to where the next paragraph's capitals may begin
 */
double rod_lettering_paragraph (RodLettering         *lettering,
                                cairo_t              *cr,
                                const char           *text,
                                const RodLetterStyle *style,
                                double                x,
                                double                y);

/**
 * rod_lettering_hold:
 * @lettering: lettering
 *
 * From here on texts are kept instead of written, until rod_lettering_release().
 */
void rod_lettering_hold (RodLettering *lettering);

/**
 * rod_lettering_release:
 * @lettering: lettering that holds texts
 * @cr: the context they were written on
 *
 * Writes what was kept, in its places and colours, grouped by size: several times as fast in a
 * document as texts and lines by turns. Texts come to lie above everything drawn meanwhile.
 */
void rod_lettering_release (RodLettering *lettering,
                            cairo_t      *cr);

/**
 * RodWritten:
 * @text: what was written, a whole paragraph for each of its lines
 * @x: corners of the line from base line to height of capitals, on the device
 * @y: likewise
 * @height: height of capitals in user units
 * @cut_off: ends with an ellipsis
 *
 * A line of writing. A plain value.
 */
typedef struct
{
  const char *text;
  double      x[4];
  double      y[4];
  double      height;
  gboolean    cut_off;
} RodWritten;

typedef void (*RodLetteringWatch) (const RodWritten *written, gpointer data);

/**
 * rod_lettering_watch:
 * @lettering: lettering
 * @watch: (nullable): called with each line that is written; %NULL to stop
 * @data: passed to @watch
 *
 * Lets somebody look over the writer's shoulder: whether texts touch each other, for one.
 */
void rod_lettering_watch (RodLettering     *lettering,
                          RodLetteringWatch watch,
                          gpointer          data);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodLettering, rod_lettering_free)

G_END_DECLS
