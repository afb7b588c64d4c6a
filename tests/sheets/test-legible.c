/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether sheets can be read: every text of every page of many houses is looked at as it is
 * written. None is smaller than 2.5 mm (ISO 3098), none is cut off or leaves the paper, and none
 * touches another.
 */
#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "sheets-fixture.h"
#include "sheets/rod-sheets-private.h"

/* Letters have blanks round them: less than this on paper is not seen as touching, mm. */
#define TOUCHING 0.15

typedef struct
{
  char    *text;
  double   x[4];
  double   y[4];
  double   height;
  double   narrowed;
  gboolean cut_off;
} Text;

static void
clear_text (gpointer data)
{
  g_free (((Text *) data)->text);
}

static void
keep (const RodWritten *written,
      gpointer          data)
{
  Text text = { g_strdup (written->text) };

  memcpy (text.x, written->x, sizeof text.x);
  memcpy (text.y, written->y, sizeof text.y);
  text.height = written->height;
  text.cut_off = written->cut_off;
  g_array_append_val ((GArray *) data, text);
}

/* Whether the two are farther apart than they are long: no closer look is needed. */
static gboolean
is_far (const Text *a,
        const Text *b)
{
  return hypot (a->x[0] - b->x[0], a->y[0] - b->y[0]) >
         hypot (a->x[2] - a->x[0], a->y[2] - a->y[0]) +
           hypot (b->x[2] - b->x[0], b->y[2] - b->y[0]);
}

/* How far a step along an axis would have to be to part the two, at most: both shadows on each side
 * of either rectangle overlap where the rectangles do. */
static double
overlap (const Text *a,
         const Text *b)
{
  double least = G_MAXDOUBLE;

  for (int k = 0; k < 4; k++)
    {
      const Text *of = k < 2 ? a : b;
      int         to = k % 2 == 0 ? 1 : 3;
      double      ax = of->x[to] - of->x[0], ay = of->y[to] - of->y[0];
      double      length = hypot (ax, ay);
      double      low[2] = { G_MAXDOUBLE, G_MAXDOUBLE }, high[2] = { -G_MAXDOUBLE, -G_MAXDOUBLE };

      if (!(length > 0.0))
        return 0.0;
      for (int i = 0; i < 4; i++)
        {
          double shadows[2] = { (a->x[i] * ax + a->y[i] * ay) / length,
                                (b->x[i] * ax + b->y[i] * ay) / length };

          for (int which = 0; which < 2; which++)
            {
              low[which] = fmin (low[which], shadows[which]);
              high[which] = fmax (high[which], shadows[which]);
            }
        }
      least = fmin (least, fmin (high[0], high[1]) - fmax (low[0], low[1]));
    }

  return least;
}

static guint
check_page (const RodSheets *sheets,
            guint            page,
            const GArray    *texts)
{
  guint n = 0;

  for (guint i = 0; i < texts->len; i++)
    {
      const Text *text = &g_array_index (texts, Text, i);

      if (text->height < ROD_SHEET_TEXT - 1e-9)
        {
          g_test_message ("page %u: “%s” is %g mm high", page + 1, text->text, text->height);
          n++;
        }
      if (text->cut_off)
        {
          g_test_message ("page %u: “%s” is cut off", page + 1, text->text);
          n++;
        }
      for (int k = 0; k < 4; k++)
        if (text->x[k] < 0.0 || text->x[k] > sheets->width || text->y[k] < 0.0 ||
            text->y[k] > sheets->height - ROD_SHEET_MARGIN)
          {
            g_test_message ("page %u: “%s” leaves the paper", page + 1, text->text);
            n++;
            break;
          }
      for (guint j = 0; j < i; j++)
        {
          const Text *other = &g_array_index (texts, Text, j);

          if (!is_far (text, other) && overlap (text, other) > TOUCHING)
            {
              g_test_message ("page %u: “%s” on “%s” by %.2f mm at %.1f, %.1f",
                              page + 1,
                              text->text,
                              other->text,
                              overlap (text, other),
                              text->x[0],
                              text->y[0]);
              n++;
            }
        }
    }

  return n;
}

static void
test_house (gconstpointer data)
{
  Job      job;
  guint    n = 0;
  cairo_t *cr;
  g_autoptr (RodSheets) sheets = NULL;

  job_init_worked (&job, data);
  sheets = rod_sheets_new (job.takeoff, NULL);
  cr = recording_new ();
  for (guint page = 0; page < rod_sheets_n_pages (sheets); page++)
    {
      g_autoptr (GArray) texts = g_array_new (FALSE, FALSE, sizeof (Text));

      g_array_set_clear_func (texts, clear_text);
      rod_lettering_watch (sheets->lettering, keep, texts);
      rod_sheets_draw_page (sheets, page, cr);
      g_assert_cmpuint (texts->len, >, 10);
      n += check_page (sheets, page, texts);
    }
  rod_lettering_watch (sheets->lettering, NULL, NULL);
  cairo_destroy (cr);
  if (n > 0)
    g_test_fail_printf ("%u texts cannot be read", n);
  g_clear_pointer (&sheets, rod_sheets_free);
  job_clear (&job);
}

int
main (int   argc,
      char *argv[])
{
  static const char *const houses[] = {
    "../../../examples/garden-studio",
    "../../../examples/two-storey",
    "../../../examples/terrace-house",
    "hard/curves",
    "hard/deep-reveals",
    "hard/diagonals",
    "hard/falling-ground",
    "hard/flush-openings",
    "hard/folds",
    "hard/long-wall",
    "hard/notched-outlines",
    "hard/pins",
    "hard/soffit-lights",
    "hard/stacked",
    "hard/timber-feet",
    "hard/tiny-walls",
    "hard/wide-panels",
    "hard/zones",
  };

  g_test_init (&argc, &argv, NULL);
  if (g_getenv ("ROD_TEST_LOCALE_DIR") != NULL)
    {
      bindtextdomain (GETTEXT_PACKAGE, g_getenv ("ROD_TEST_LOCALE_DIR"));
      bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
      g_assert_cmpstr (g_dgettext (GETTEXT_PACKAGE, "Saw sheet"), ==, "Sägeplan");
    }
  for (gsize i = 0; i < G_N_ELEMENTS (houses); i++)
    {
      g_autofree char *name = g_path_get_basename (houses[i]);
      g_autofree char *path = g_strconcat ("/legible/", name, NULL);

      g_test_add_data_func (path, houses[i], test_house);
    }

  return g_test_run ();
}
