/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The set of sheets and its PDF.
 *
 * First everything is laid out: each kind of sheet adds its pages, so that a page can say which of
 * how many it is. Then pages are drawn one by one, on whatever context asks: PDF, printer, preview.
 *
 * The PDF is made in memory and put in place in one step. cairo would stamp it with the time of the
 * day; dates are set by hand instead, so that the same house gives the same bytes.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <cairo-pdf.h>
#include <stdlib.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "engine/files/rod-file.h"

#define POINTS_PER_MM (72.0 / 25.4)

#define CREATOR "Storeyrod " ROD_VERSION

/* Blanks that repair_dates() turns into what is missing of the dates. */
#define DATE_ROOM "    "

/* Digits of the design number: enough that two states of one job never share it by chance. */
#define NUMBER_DIGITS 8

void
rod_sheet_options_init (RodSheetOptions *options)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  gint64      date;

  g_return_if_fail (options != NULL);

  *options = (RodSheetOptions){ .paper = ROD_PAPER_A4, .date = ROD_SHEETS_NO_DATE };
  if (epoch != NULL && g_ascii_string_to_signed (epoch, 10, 0, G_MAXINT32, &date, NULL))
    options->date = date;
}

static void
free_sheet (gpointer data)
{
  RodSheet *sheet = data;

  if (sheet->free_data != NULL)
    sheet->free_data (sheet->data);
  g_clear_pointer (&sheet->faces, g_array_unref);
  g_free (sheet->title);
  g_free (sheet);
}

RodSheet *
rod_sheets_add (RodSheets   *sheets,
                const char  *chapter,
                const char  *document,
                char        *title,
                RodSheetDraw draw)
{
  RodSheet *sheet = g_new0 (RodSheet, 1);

  sheet->chapter = chapter;
  sheet->document = document;
  sheet->title = title;
  sheet->draw = draw;
  g_ptr_array_add (sheets->pages, sheet);

  return sheet;
}

/* A number that changes whenever anything of the house does, so that a sheet in the hand can be
 * told from the one on the screen. */
static char *
make_number (const RodHouse *house)
{
  g_autoptr (JsonNode) json = rod_record_to_json (house);
  g_autofree char *text = rod_json_text (json);
  g_autofree char *sum = g_compute_checksum_for_string (G_CHECKSUM_SHA256, text, -1);
  g_autofree char *upper = g_ascii_strup (sum, NUMBER_DIGITS);

  return g_strdup_printf ("%.4s-%.4s", upper, upper + 4);
}

static char *
write_date (gint64      date,
            const char *format)
{
  g_autoptr (GDateTime) time = NULL;

  if (date == ROD_SHEETS_NO_DATE)
    return g_strdup ("");

  time = g_date_time_new_from_unix_utc (date);

  return time != NULL ? g_date_time_format (time, format) : g_strdup ("");
}

static int
compare_findings (gconstpointer a,
                  gconstpointer b)
{
  const RodFinding *left = *(const RodFinding *const *) a;
  const RodFinding *right = *(const RodFinding *const *) b;

  return (int) right->severity - (int) left->severity;
}

static GPtrArray *
gather_findings (const RodTakeoff *takeoff)
{
  GPtrArray    *all = g_ptr_array_new ();
  const GArray *lists[2] = { takeoff->plan->findings, takeoff->findings };

  for (guint l = 0; l < G_N_ELEMENTS (lists); l++)
    for (guint i = 0; lists[l] != NULL && i < lists[l]->len; i++)
      g_ptr_array_add (all, &g_array_index (lists[l], RodFinding, i));
  /* A stable sort, so that findings of one severity keep the order of the checks. */
  g_ptr_array_sort (all, compare_findings);

  return all;
}

/* One number for each trim in the whole house, so that a number learnt on one sheet holds on all.
 */
static GPtrArray *
number_trims (const RodPlan *plan)
{
  GPtrArray *trims = g_ptr_array_new ();

  for (guint i = 0; i < plan->trims->len; i++)
    {
      const RodTrimRun *run = &g_array_index (plan->trims, RodTrimRun, i);

      if (run->trim != NULL && !g_ptr_array_find (trims, run->trim, NULL))
        g_ptr_array_add (trims, (gpointer) run->trim);
    }

  return trims;
}

/* Linings of one opening share its mark and add a letter each. */
static GHashTable *
find_opening_marks (const RodPlan *plan)
{
  GHashTable *marks = g_hash_table_new_full (NULL, NULL, NULL, g_free);

  for (guint i = 0; i < plan->faces->len; i++)
    {
      const RodFace   *face = rod_plan_face (plan, i);
      const GPtrArray *openings;
      gsize            length = strlen (face->mark);

      if (face->parent < 0 || face->opening < 0 || length < 2)
        continue;
      openings = rod_plan_face (plan, (guint) face->parent)->surface->openings;
      g_hash_table_insert (marks,
                           g_ptr_array_index (openings, face->opening),
                           g_strndup (face->mark, length - 1));
    }

  return marks;
}

static void
measure_page (RodSheets *sheets)
{
  rod_paper_size (sheets->options.paper, &sheets->width, &sheets->height);
  sheets->room = (RodRoom){
    .x = ROD_SHEET_MARGIN_LEFT + ROD_SHEET_INSET,
    .y = ROD_SHEET_MARGIN + ROD_SHEET_INSET,
    .width = sheets->width - ROD_SHEET_MARGIN_LEFT - ROD_SHEET_MARGIN - 2.0 * ROD_SHEET_INSET,
    .height = sheets->height - 2.0 * ROD_SHEET_MARGIN - ROD_SHEET_STRIP - 2.0 * ROD_SHEET_INSET,
  };
}

RodSheets *
rod_sheets_new (const RodTakeoff      *takeoff,
                const RodSheetOptions *options)
{
  RodSheets *sheets;

  g_return_val_if_fail (takeoff != NULL, NULL);

  sheets = g_new0 (RodSheets, 1);
  /* Counting references is the only change ever made to a take-off. */
  sheets->takeoff = rod_takeoff_ref ((RodTakeoff *) takeoff);
  sheets->plan = takeoff->plan;
  sheets->house = takeoff->plan->house;
  sheets->units = sheets->house->units;
  rod_sheet_options_init (&sheets->options);
  if (options != NULL)
    sheets->options = *options;
  sheets->lettering = rod_lettering_new ();
  sheets->pages = g_ptr_array_new_with_free_func (free_sheet);
  sheets->tables = g_ptr_array_new_with_free_func ((GDestroyNotify) rod_table_free);
  sheets->saw_blocks = g_ptr_array_new_with_free_func ((GDestroyNotify) g_ptr_array_unref);
  sheets->findings = gather_findings (takeoff);
  sheets->trims = number_trims (sheets->plan);
  sheets->opening_marks = find_opening_marks (sheets->plan);
  sheets->number = make_number (sheets->house);
  sheets->date = write_date (sheets->options.date, "%Y-%m-%d");
  measure_page (sheets);
  sheets->net =
    rod_net_layout (sheets->plan, sheets->room.width, sheets->room.height, &sheets->net_size);

  rod_sheets_add_cover (sheets);
  rod_sheets_add_elevations (sheets);
  rod_sheets_add_frames (sheets);
  rod_sheets_add_rod (sheets);
  rod_sheets_add_saw (sheets);
  rod_sheets_add_order (sheets);
  rod_sheets_add_cautions (sheets);

  return sheets;
}

void
rod_sheets_free (RodSheets *sheets)
{
  if (sheets == NULL)
    return;

  g_ptr_array_unref (sheets->pages);
  g_ptr_array_unref (sheets->tables);
  g_ptr_array_unref (sheets->saw_blocks);
  g_ptr_array_unref (sheets->findings);
  g_ptr_array_unref (sheets->trims);
  g_hash_table_unref (sheets->opening_marks);
  rod_lettering_free (sheets->lettering);
  g_free (sheets->number);
  g_free (sheets->date);
  g_free (sheets->net);
  rod_takeoff_unref (sheets->takeoff);
  g_free (sheets);
}

guint
rod_sheets_n_pages (const RodSheets *sheets)
{
  g_return_val_if_fail (sheets != NULL, 0);

  return sheets->pages->len;
}

const char *
rod_sheets_page_title (const RodSheets *sheets,
                       guint            page)
{
  g_return_val_if_fail (sheets != NULL && page < sheets->pages->len, NULL);

  return ((const RodSheet *) g_ptr_array_index (sheets->pages, page))->title;
}

void
rod_sheets_page_size (const RodSheets *sheets,
                      double          *width_mm,
                      double          *height_mm)
{
  g_return_if_fail (sheets != NULL && width_mm != NULL && height_mm != NULL);

  *width_mm = sheets->width;
  *height_mm = sheets->height;
}

void
rod_sheets_draw_page (const RodSheets *sheets,
                      guint            page,
                      cairo_t         *cr)
{
  const RodSheet *sheet;

  g_return_if_fail (sheets != NULL && cr != NULL && page < sheets->pages->len);

  sheet = g_ptr_array_index (sheets->pages, page);
  cairo_save (cr);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_lettering_hold (sheets->lettering);
  sheet->draw (sheets, sheet, cr);
  rod_lettering_release (sheets->lettering, cr);
  cairo_restore (cr);
  cairo_save (cr);
  rod_lettering_hold (sheets->lettering);
  rod_sheet_draw_frame (sheets, page, cr);
  rod_lettering_release (sheets->lettering, cr);
  cairo_restore (cr);
}

/* Chapters at the first level, their pages below them where there are several. */
static void
add_outline (const RodSheets *sheets,
             cairo_surface_t *surface)
{
  int         chapter = CAIRO_PDF_OUTLINE_ROOT;
  const char *current = NULL;

  for (guint i = 0; i < sheets->pages->len; i++)
    {
      const RodSheet  *sheet = g_ptr_array_index (sheets->pages, i);
      g_autofree char *link = g_strdup_printf ("page=%u", i + 1);

      if (current == NULL || strcmp (current, sheet->chapter) != 0)
        chapter =
          cairo_pdf_surface_add_outline (surface, CAIRO_PDF_OUTLINE_ROOT, sheet->chapter, link, 0);
      current = sheet->chapter;
      if (strcmp (sheet->title, sheet->chapter) != 0)
        cairo_pdf_surface_add_outline (surface, chapter, sheet->title, link, 0);
    }
}

static void
add_metadata (const RodSheets *sheets,
              cairo_surface_t *surface)
{
  g_autofree char *time = write_date (sheets->options.date, "%Y-%m-%dT%H:%M:%SZ");
  const char      *stamp = time[0] != '\0' ? time : NULL;

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, sheets->house->name);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_AUTHOR, sheets->house->author);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, sheets->house->place);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, CREATOR DATE_ROOM);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, stamp);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, stamp);
}

static guint8 *
find_last (GByteArray *bytes,
           const char *text)
{
  gsize length = strlen (text);

  for (gsize i = bytes->len >= length ? bytes->len - length + 1 : 0; i > 0; i--)
    if (memcmp (bytes->data + i - 1, text, length) == 0)
      return bytes->data + i - 1;

  return NULL;
}

/* cairo 1.16 leaves the "D:" out that dates begin with by the standard of PDF. The room for it
 * stands as blanks behind the creator, in the same object, so that nothing that follows moves. */
static void
repair_dates (GByteArray *bytes)
{
  static const char *const dates[] = {
    "/CreationDate (2", "/CreationDate (1", "/ModDate (2", "/ModDate (1"
  };

  for (gsize i = 0; i < G_N_ELEMENTS (dates); i++)
    {
      guint8 *room = find_last (bytes, CREATOR DATE_ROOM);
      guint8 *date = find_last (bytes, dates[i]);
      guint8 *from, *to;

      if (room == NULL)
        room = find_last (bytes, CREATOR "  ");
      if (room == NULL || date == NULL || date < room)
        continue;
      from = room + strlen (CREATOR "  ");
      to = date + strlen (dates[i]) - 1;
      memmove (from - 2, from, (gsize) (to - from));
      memcpy (to - 2, "D:", 2);
    }
}

static cairo_status_t
append_bytes (void                *closure,
              const unsigned char *data,
              unsigned int         length)
{
  g_byte_array_append (closure, data, length);

  return CAIRO_STATUS_SUCCESS;
}

static cairo_status_t
render_pdf (const RodSheets *sheets,
            GByteArray      *bytes)
{
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (append_bytes,
                                                                  bytes,
                                                                  sheets->width * POINTS_PER_MM,
                                                                  sheets->height * POINTS_PER_MM);
  cairo_t         *cr = cairo_create (surface);
  cairo_status_t   status;

  add_metadata (sheets, surface);
  cairo_scale (cr, POINTS_PER_MM, POINTS_PER_MM);
  for (guint i = 0; i < sheets->pages->len; i++)
    {
      /* TRANSLATORS: label of a page in the PDF: which of how many. */
      g_autofree char *label = g_strdup_printf (_ ("%u of %u"), i + 1, sheets->pages->len);

      cairo_pdf_surface_set_page_label (surface, label);
      rod_sheets_draw_page (sheets, i, cr);
      cairo_show_page (cr);
    }
  add_outline (sheets, surface);
  cairo_surface_finish (surface);
  status = cairo_status (cr);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);

  return status;
}

gboolean
rod_sheets_write_pdf (const RodTakeoff      *takeoff,
                      const char            *path,
                      const RodSheetOptions *options,
                      GError               **error)
{
  g_autoptr (RodSheets) sheets = NULL;
  g_autoptr (GByteArray) bytes = NULL;
  cairo_status_t status;

  g_return_val_if_fail (takeoff != NULL && path != NULL, FALSE);
  g_return_val_if_fail (error == NULL || *error == NULL, FALSE);

  sheets = rod_sheets_new (takeoff, options);
  bytes = g_byte_array_new ();
  status = render_pdf (sheets, bytes);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error,
                   G_FILE_ERROR,
                   G_FILE_ERROR_FAILED,
                   _ ("The sheets for “%s” cannot be drawn: %s"),
                   path,
                   cairo_status_to_string (status));
      return FALSE;
    }

  repair_dates (bytes);

  return g_file_set_contents (path, (const char *) bytes->data, bytes->len, error);
}
