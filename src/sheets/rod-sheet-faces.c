/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which faces stand on which sheet.
 *
 * A large face has a sheet of its own with notes beside it. Small ones, strips of soffit and
 * linings of openings, of which a house has many, share sheets: each is a block of title, a few
 * words and drawing, and blocks are set on shelves, the highest first, each on the first shelf
 * that has room.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>
#include <string.h>

#include <glib/gi18n-lib.h>

#include "engine/rod-limits.h"
#include "sheets/rod-contour.h"

#define GAP_X 7.0
#define GAP_Y 3.5
#define CAPTION_GAP 1.0

/* Two lines along the foot. */
#define KEY_HEIGHT 8.4

/* A title names so many marks. */
#define MOST_MARKS 8

/* Narrower blocks would break every word of their title. */
#define LEAST_WIDTH 44.0

/* A block wider and higher than this share of the sheet gets the sheet. */
#define OWN_SHARE 0.5

/* One face on a shared sheet. */
typedef struct
{
  GArray     *faces; /* faces alike, of which the first is drawn */
  RodFaceView view;
  RodRoom     room;
  double      caption_height;
  RodBorder   border;
  char       *title;
  char       *caption;
} Block;

/* A row of blocks on a sheet. */
typedef struct
{
  GArray *blocks; /* of the sheet */
  double  x;
  double  y;
  double  height;
} Shelf;

typedef struct
{
  RodSheets         *sheets;
  const RodFaceKind *kind;
  GArray            *shelves;
  double             next_y; /* where the next shelf of the last sheet begins */
} Packer;

static void
clear_block (gpointer data)
{
  Block *block = data;

  g_array_unref (block->faces);
  g_free (block->title);
  g_free (block->caption);
}

static char *
title_of (const RodSheets *sheets,
          const GArray    *faces)
{
  const RodFace *first = rod_plan_face (sheets->plan, g_array_index (faces, guint, 0));
  GString       *marks = g_string_new (first->mark);

  /* A surface without a name of its own has its mark for one. */
  if (faces->len == 1 && strcmp (first->label, first->mark) != 0)
    g_string_append_printf (marks, " \u00b7 %s", first->label);
  for (guint i = 1; i < faces->len; i++)
    g_string_append_printf (marks,
                            ", %s",
                            rod_plan_face (sheets->plan, g_array_index (faces, guint, i))->mark);

  return g_string_free (marks, FALSE);
}

static double
set_caption (const RodSheets *sheets,
             cairo_t         *cr,
             const Block     *block)
{
  double y = block->room.y;

  y += rod_sheet_paragraph (sheets,
                            cr,
                            block->title,
                            ROD_SHEET_TEXT,
                            TRUE,
                            block->room.x,
                            y,
                            block->room.width);
  if (block->caption != NULL && block->caption[0] != '\0')
    y += rod_sheet_paragraph (sheets,
                              cr,
                              block->caption,
                              ROD_SHEET_TEXT,
                              FALSE,
                              block->room.x,
                              y,
                              block->room.width);

  return y + CAPTION_GAP - block->room.y;
}

/* With @scale the face is drawn to that, else to the scale that suits it. */
static Block
measure_block (const RodSheets   *sheets,
               const RodFaceKind *kind,
               GArray            *faces,
               double             scale)
{
  guint            face = g_array_index (faces, guint, 0);
  RodBorder        border = kind->border (sheets, face);
  double           least = scale > 0.0 ? scale : kind->least (sheets, face);
  Block            block = { .faces = g_array_ref (faces),
                             .view = rod_view_plan (sheets, face, border, least),
                             .border = border };
  double           paper = 1.0 / block.view.scale;
  g_autofree char *name = title_of (sheets, faces);

  block.title =
    kind->common ? g_strdup (name) : g_strdup_printf ("%s \u00b7 1:%.0f", name, block.view.scale);
  block.view.unmarked = faces->len > 1;
  block.caption = kind->caption (sheets, face);
  block.room.width =
    fmax (LEAST_WIDTH, paper * (block.view.high.x - block.view.low.x) + border.left + border.right);
  block.caption_height = set_caption (sheets, NULL, &block);
  block.room.height = paper * (block.view.high.y - block.view.low.y) + border.top + border.bottom +
                      block.caption_height;

  return block;
}

/* The key of the trims of all blocks, along the foot. */
static void
draw_key (const RodSheets *sheets,
          const GArray    *blocks,
          cairo_t         *cr)
{
  g_autoptr (GPtrArray) all = g_ptr_array_new ();
  g_autofree char *text = NULL;

  for (guint i = 0; i < blocks->len; i++)
    {
      g_autoptr (GPtrArray) trims =
        rod_face_trims (sheets, g_array_index (blocks, Block, i).view.face);

      for (guint t = 0; t < trims->len; t++)
        g_ptr_array_add (all, g_ptr_array_index (trims, t));
    }
  text = rod_sheet_trim_key (sheets, all);
  cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
  rod_sheet_paragraph (sheets,
                       cr,
                       text,
                       ROD_SHEET_TEXT,
                       FALSE,
                       sheets->room.x,
                       sheets->room.y + sheets->room.height - KEY_HEIGHT,
                       sheets->room.width);
}

static double
key_height (const RodFaceKind *kind)
{
  return kind->keyed ? KEY_HEIGHT + CAPTION_GAP : 0.0;
}

static void
draw_shared (const RodSheets *sheets,
             const RodSheet  *sheet,
             cairo_t         *cr)
{
  const GArray *blocks = sheet->data;

  for (guint i = 0; i < blocks->len; i++)
    {
      const Block *block = &g_array_index (blocks, Block, i);

      cairo_set_source_rgb (cr, 0.0, 0.0, 0.0);
      set_caption (sheets, cr, block);
      sheet->kind->draw (sheets, &block->view, cr);
    }
  if (sheet->kind->keyed)
    draw_key (sheets, blocks, cr);
}

static void
draw_own (const RodSheets *sheets,
          const RodSheet  *sheet,
          cairo_t         *cr)
{
  sheet->kind->draw (sheets, sheet->data, cr);
  sheet->kind->notes (sheets, sheet->data, cr);
}

static void
add_own (RodSheets         *sheets,
         const RodFaceKind *kind,
         const Block       *block)
{
  RodSheet *sheet = rod_sheets_add (sheets,
                                    _ (kind->chapter),
                                    _ (kind->document),
                                    title_of (sheets, block->faces),
                                    draw_own);

  sheet->kind = kind;
  sheet->faces = g_array_new (FALSE, FALSE, sizeof (guint));
  g_array_append_val (sheet->faces, block->view.face);
  sheet->data = g_memdup2 (&block->view, sizeof block->view);
  sheet->free_data = g_free;
  sheet->scale = block->view.scale;
}

static GArray *
add_shared (RodSheets         *sheets,
            const RodFaceKind *kind)
{
  RodSheet *sheet =
    rod_sheets_add (sheets, _ (kind->chapter), _ (kind->document), NULL, draw_shared);
  GArray *blocks = g_array_new (FALSE, FALSE, sizeof (Block));

  g_array_set_clear_func (blocks, clear_block);
  sheet->kind = kind;
  sheet->data = blocks;
  sheet->free_data = (GDestroyNotify) g_array_unref;

  return blocks;
}

/* The first shelf with room for a block of this size, or a new one. */
static Shelf *
find_shelf (Packer *packer,
            RodRoom size)
{
  const RodRoom *room = &packer->sheets->room;
  double         foot = room->y + room->height - key_height (packer->kind);
  Shelf          shelf;

  for (guint i = 0; i < packer->shelves->len; i++)
    {
      Shelf *old = &g_array_index (packer->shelves, Shelf, i);

      if (size.height <= old->height && old->x + size.width <= room->x + room->width)
        return old;
    }

  if (packer->shelves->len == 0 || packer->next_y + size.height > foot)
    {
      shelf.blocks = add_shared (packer->sheets, packer->kind);
      packer->next_y = room->y;
    }
  else
    shelf.blocks = g_array_index (packer->shelves, Shelf, packer->shelves->len - 1).blocks;
  shelf.x = room->x;
  shelf.y = packer->next_y;
  shelf.height = size.height;
  packer->next_y += size.height + GAP_Y;
  g_array_append_val (packer->shelves, shelf);

  return &g_array_index (packer->shelves, Shelf, packer->shelves->len - 1);
}

/* Takes the block over. */
static void
place_block (Packer *packer,
             Block   block)
{
  const RodBorder *border = &block.border;
  Shelf           *shelf = find_shelf (packer, block.room);
  double           paper = 1.0 / block.view.scale;

  block.room.x = shelf->x;
  block.room.y = shelf->y;
  shelf->x += block.room.width + GAP_X;
  block.view.to_page = (RodAffine){
    .xx = paper,
    .x0 = block.room.x + border->left - paper * block.view.low.x,
    .yy = -paper,
    .y0 = block.room.y + block.caption_height + border->top + paper * block.view.high.y,
  };
  g_array_append_val (shelf->blocks, block);
}

static int
compare_blocks (gconstpointer a,
                gconstpointer b)
{
  const Block *left = a, *right = b;

  if (fabs (left->room.height - right->room.height) > 0.5)
    return left->room.height < right->room.height ? 1 : -1;

  return (int) left->view.face - (int) right->view.face;
}

/* The marks on a sheet, of many the first ones and the last. */
static char *
list_marks (const RodSheets *sheets,
            const GArray    *blocks)
{
  GString *text = g_string_new (NULL);

  for (guint b = 0; b < blocks->len; b++)
    {
      const Block *block = &g_array_index (blocks, Block, b);

      if (blocks->len > MOST_MARKS && b + 1 == MOST_MARKS)
        {
          g_string_append (text, ", \u2026");
          b = blocks->len - 2;
          continue;
        }
      g_string_append_printf (text,
                              "%s%s",
                              b > 0 ? ", " : "",
                              rod_plan_face (sheets->plan, block->view.face)->mark);
    }

  return g_string_free (text, FALSE);
}

/* A shared sheet is named after the marks on it; its scale is told where all are drawn to one. */
static void
name_shared (const RodSheets *sheets,
             guint            first_page)
{
  for (guint i = first_page; i < sheets->pages->len; i++)
    {
      RodSheet     *sheet = g_ptr_array_index (sheets->pages, i);
      const GArray *blocks = sheet->data;

      if (sheet->title != NULL)
        continue;
      sheet->faces = g_array_new (FALSE, FALSE, sizeof (guint));
      sheet->scale = g_array_index (blocks, Block, 0).view.scale;
      for (guint b = 0; b < blocks->len; b++)
        {
          const Block *block = &g_array_index (blocks, Block, b);

          g_array_append_val (sheet->faces, block->view.face);
          if (fabs (block->view.scale - sheet->scale) > 0.5)
            sheet->scale = ROD_SHEET_SCALES_DIFFER;
        }
      sheet->title = list_marks (sheets, blocks);
    }
}

/* Where faces are to be compared, one scale serves all: that of the largest. */
static double
common_scale (const RodSheets   *sheets,
              const RodFaceKind *kind)
{
  double scale = 0.0;

  for (guint i = 0; kind->common && i < sheets->plan->faces->len; i++)
    if (kind->wants (sheets, i))
      scale =
        fmax (scale,
              rod_view_plan (sheets, i, kind->border (sheets, i), kind->least (sheets, i)).scale);

  return scale;
}

static gboolean
wants_own_sheet (const RodSheets   *sheets,
                 const RodFaceKind *kind,
                 const Block       *block)
{
  double width = sheets->room.width;
  double height = sheets->room.height - key_height (kind);

  return (block->room.width > OWN_SHARE * width && block->room.height > OWN_SHARE * height) ||
         block->room.width > width || block->room.height > height;
}

/* Whether two faces give the same drawing: same outline, pieces and trims in the same places. */
static gboolean
rings_are_alike (const RodPlan  *plan,
                 const RodPiece *a,
                 const RodPiece *b)
{
  const RodRegion *rings = plan->rings;
  guint            from = rings->ring_starts[a->first_ring];
  guint            other = rings->ring_starts[b->first_ring];
  guint            n = rings->ring_starts[a->first_ring + a->n_rings] - from;

  if (a->n_rings != b->n_rings || a->colour != b->colour ||
      n != rings->ring_starts[b->first_ring + b->n_rings] - other)
    return FALSE;
  for (guint i = 0; i < n; i++)
    if (rod_point_distance (rings->points[from + i], rings->points[other + i]) > ROD_SNAP_MM)
      return FALSE;

  return TRUE;
}

static gboolean
fields_are_alike (const RodPlan  *plan,
                  const RodField *a,
                  const RodField *b)
{
  if (a->board != b->board || a->n_pieces != b->n_pieces || a->n_edges != b->n_edges)
    return FALSE;
  for (guint i = 0; i < a->n_edges; i++)
    if (a->edges[i].trim != b->edges[i].trim)
      return FALSE;
  for (guint i = 0; i < a->n_pieces; i++)
    if (!rings_are_alike (plan,
                          rod_plan_piece (plan, a->first_piece + i),
                          rod_plan_piece (plan, b->first_piece + i)))
      return FALSE;

  return TRUE;
}

static gboolean
faces_are_alike (const RodPlan *plan,
                 guint          a,
                 guint          b)
{
  const RodFace *left = rod_plan_face (plan, a), *right = rod_plan_face (plan, b);
  RodPoint       low[2], high[2];

  if (left->system != right->system || left->n_fields != right->n_fields)
    return FALSE;
  rod_contour_surface_extent (left->surface, &low[0], &high[0]);
  rod_contour_surface_extent (right->surface, &low[1], &high[1]);
  if (rod_point_distance (low[0], low[1]) > ROD_SNAP_MM ||
      rod_point_distance (high[0], high[1]) > ROD_SNAP_MM)
    return FALSE;
  for (guint i = 0; i < left->n_fields; i++)
    if (!fields_are_alike (plan,
                           rod_plan_field (plan, left->first_field + i),
                           rod_plan_field (plan, right->first_field + i)))
      return FALSE;

  return TRUE;
}

/* Faces of a kind; those of kinds drawn to one scale together with the ones that look the same. */
static GPtrArray *
gather_faces (const RodSheets   *sheets,
              const RodFaceKind *kind)
{
  GPtrArray *groups = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);

  for (guint i = 0; i < sheets->plan->faces->len; i++)
    {
      GArray *group = NULL;

      if (!kind->wants (sheets, i))
        continue;
      for (guint g = 0; kind->common && group == NULL && g < groups->len; g++)
        if (faces_are_alike (sheets->plan,
                             i,
                             g_array_index ((GArray *) g_ptr_array_index (groups, g), guint, 0)))
          group = g_ptr_array_index (groups, g);
      if (group == NULL)
        {
          group = g_array_new (FALSE, FALSE, sizeof (guint));
          g_ptr_array_add (groups, group);
        }
      g_array_append_val (group, i);
    }

  return groups;
}

void
rod_sheets_add_faces (RodSheets         *sheets,
                      const RodFaceKind *kind)
{
  double  scale = common_scale (sheets, kind);
  guint   first_page = sheets->pages->len;
  GArray *shared = g_array_new (FALSE, FALSE, sizeof (Block));
  Packer  packer = { sheets, kind, g_array_new (FALSE, FALSE, sizeof (Shelf)), 0.0 };
  g_autoptr (GPtrArray) groups = gather_faces (sheets, kind);

  for (guint i = 0; i < groups->len; i++)
    {
      Block block = measure_block (sheets, kind, g_ptr_array_index (groups, i), scale);

      if (!wants_own_sheet (sheets, kind, &block))
        {
          g_array_append_val (shared, block);
          continue;
        }
      add_own (sheets, kind, &block);
      clear_block (&block);
    }

  g_array_sort (shared, compare_blocks);
  for (guint i = 0; i < shared->len; i++)
    place_block (&packer, g_array_index (shared, Block, i));
  name_shared (sheets, first_page);
  g_array_unref (shared);
  g_array_unref (packer.shelves);
}
