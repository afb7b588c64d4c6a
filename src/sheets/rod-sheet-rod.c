/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The storey rod in figures: heights above the datum to be marked on a stick and carried round the
 * house, with what stands at each height. Highest first, as the stick stands. Every height is
 * counted from the datum, so that errors of the tape do not add up.
 *
 * Boards that do not lie level on walls have no common heights; their joint lines are listed face
 * by face, from one edge.
 */
#include "config.h"

#include "sheets/rod-sheets-private.h"

#include <math.h>

#include <glib/gi18n-lib.h>

#include "sheets/rod-contour.h"
#include "sheets/rod-figures.h"

#define SAME_HEIGHT_MM 0.5
#define LINES_ABREAST 7

/* What may stand at a height besides joint lines. */
typedef enum
{
  LINE_BASE,
  LINE_SILL,
  LINE_HEAD,
  LINE_CORNER,
  LINE_TOP,
  N_LINES,
} Line;

/* One height on the rod. */
typedef struct
{
  double   height_mm;
  int      joint;          /* number of the joint line from below, -1 where it is none */
  GString *faces;          /* marks of the faces whose boards meet there */
  GString *lines[N_LINES]; /* whose base, sill, … stands there */
} Level;

typedef struct
{
  const RodSheets *sheets;
  GArray          *levels; /* (element-type Level): ascending */
} Rod;

static void
clear_level (gpointer data)
{
  Level *level = data;

  g_string_free (level->faces, TRUE);
  for (int i = 0; i < N_LINES; i++)
    g_string_free (level->lines[i], TRUE);
}

static Level *
find_level (Rod   *rod,
            double height_mm)
{
  guint rank = 0;
  Level level = { .height_mm = height_mm };

  while (rank < rod->levels->len &&
         g_array_index (rod->levels, Level, rank).height_mm < height_mm - SAME_HEIGHT_MM)
    rank++;
  if (rank < rod->levels->len &&
      g_array_index (rod->levels, Level, rank).height_mm < height_mm + SAME_HEIGHT_MM)
    return &g_array_index (rod->levels, Level, rank);

  level.faces = g_string_new (NULL);
  for (int i = 0; i < N_LINES; i++)
    level.lines[i] = g_string_new (NULL);
  g_array_insert_val (rod->levels, rank, level);

  return &g_array_index (rod->levels, Level, rank);
}

static void
append_once (GString    *list,
             const char *text,
             const char *separator)
{
  g_auto (GStrv) parts = g_strsplit (list->str, separator, -1);

  if (g_strv_contains ((const char *const *) parts, text))
    return;
  g_string_append_printf (list, "%s%s", list->len > 0 ? separator : "", text);
}

static void
add_line (Rod           *rod,
          const RodFace *face,
          double         y,
          Line           line,
          const char    *whose)
{
  append_once (find_level (rod, face->surface->level_mm + y)->lines[line], whose, ", ");
}

/* An opening goes by the mark of its linings, or else by its wall and name. */
static void
add_opening (Rod              *rod,
             const RodFace    *face,
             const RodOpening *opening)
{
  const char      *mark = g_hash_table_lookup (rod->sheets->opening_marks, opening);
  const char      *name = opening->name[0] != '\0' ? opening->name : opening->id;
  g_autofree char *whose =
    mark != NULL ? g_strdup (mark) : g_strdup_printf ("%s\u00a0%s", face->mark, name);
  g_autoptr (GArray) contour = rod_contour_opening (opening);
  RodPoint low, high;

  rod_contour_extent (contour, &low, &high);
  add_line (rod, face, low.y, LINE_SILL, whose);
  add_line (rod, face, high.y, LINE_HEAD, whose);
}

/* Base, corners, top and openings of a wall. */
static void
add_face (Rod           *rod,
          const RodFace *face)
{
  const RodSurface *surface = face->surface;
  RodPoint          low, high;

  rod_contour_surface_extent (surface, &low, &high);
  add_line (rod, face, low.y, LINE_BASE, face->mark);
  add_line (rod, face, high.y, LINE_TOP, face->mark);
  for (guint i = 0; i < surface->outline->len; i++)
    {
      double y = ((const RodCorner *) g_ptr_array_index (surface->outline, i))->y;

      if (y > low.y + SAME_HEIGHT_MM && y < high.y - SAME_HEIGHT_MM)
        add_line (rod, face, y, LINE_CORNER, face->mark);
    }
  for (guint i = 0; i < surface->openings->len; i++)
    add_opening (rod, face, g_ptr_array_index (surface->openings, i));
}

/* "Sill: E4, E5 · Head: N1": what stands at a height. */
static char *
describe_level (const Level *level)
{
  const char *words[N_LINES] = { _ ("Base"), _ ("Sill"), _ ("Head"), _ ("Corner"), _ ("Top") };
  GString    *text = g_string_new (NULL);

  for (int i = 0; i < N_LINES; i++)
    if (level->lines[i]->len > 0)
      g_string_append_printf (text,
                              "%s%s: %s",
                              text->len > 0 ? " \u00b7 " : "",
                              words[i],
                              level->lines[i]->str);

  return g_string_free (text, FALSE);
}

static gboolean
is_on_rod (const RodPlan  *plan,
           const RodField *field)
{
  return rod_field_is_level (field) &&
         rod_plan_face (plan, field->face)->surface->kind != ROD_SURFACE_SOFFIT;
}

static void
add_field (Rod  *rod,
           guint index)
{
  const RodPlan  *plan = rod->sheets->plan;
  const RodField *field = rod_plan_field (plan, index);
  const RodFace  *face = rod_plan_face (plan, field->face);
  g_autoptr (GArray) lines = rod_joint_lines_new (plan, index);

  for (guint i = 0; i < lines->len; i++)
    {
      double height = face->surface->level_mm + g_array_index (lines, RodJointLine, i).place_mm;
      Level *level = find_level (rod, height);

      level->joint = 1;
      append_once (level->faces, face->mark, " ");
    }
  if (face->parent < 0)
    add_face (rod, face);
}

static void
list_levels (const RodSheets *sheets,
             Rod             *rod,
             RodTable        *table)
{
  int joints = 0;

  for (guint i = 0; i < rod->levels->len; i++)
    {
      Level *level = &g_array_index (rod->levels, Level, i);

      level->joint = level->joint > 0 ? joints++ : -1;
    }
  for (guint i = rod->levels->len; i > 0; i--)
    {
      const Level     *level = &g_array_index (rod->levels, Level, i - 1);
      g_autofree char *height = rod_figures_length (sheets->units, level->height_mm);
      g_autofree char *number =
        level->joint >= 0 ? g_strdup_printf ("%d", level->joint) : g_strdup ("");
      g_autofree char *also = describe_level (level);
      const char      *cells[] = {
             "x", level->joint >= 0 ? "|" : "-", height, number, level->faces->str, also, NULL
      };

      rod_table_add (table, ROD_ROW_PLAIN, cells);
    }
}

/* Level boards of walls belong on a rod; those of linings only where a wall leads their group. */
static gboolean
has_rod (const RodPlan *plan,
         guint          group)
{
  for (guint i = 0; i < plan->fields->len; i++)
    {
      const RodField *field = rod_plan_field (plan, i);

      if (field->group == group && is_on_rod (plan, field) &&
          rod_plan_face (plan, field->face)->parent < 0)
        return TRUE;
    }

  return FALSE;
}

static void
add_group (RodSheets *sheets,
           guint      group,
           guint      number,
           RodTable  *table)
{
  const RodPlan   *plan = sheets->plan;
  Rod              rod = { sheets, g_array_new (FALSE, FALSE, sizeof (Level)) };
  g_autofree char *title = NULL;
  g_autofree char *cover = NULL;
  const char      *heading[2] = { NULL, NULL };

  g_array_set_clear_func (rod.levels, clear_level);
  for (guint i = 0; i < plan->fields->len; i++)
    {
      const RodField *field = rod_plan_field (plan, i);

      if (field->group == group && is_on_rod (plan, field))
        add_field (&rod, i);
    }
  cover =
    rod_figures_length_unit (sheets->units, g_array_index (plan->groups, RodGroup, group).pitch_mm);
  title = g_strdup_printf (_ ("Rod %u: joint lines %s apart"), number, cover);
  heading[0] = title;
  rod_table_add (table, ROD_ROW_HEADING, heading);
  list_levels (sheets, &rod, table);
  g_array_unref (rod.levels);
}

static void
add_rods (RodSheets *sheets)
{
  const RodColumn columns[] = {
    { "", ROD_COLUMN_TICK, 7.0, FALSE },
    { "", ROD_COLUMN_STICK, 13.0, FALSE },
    { _ ("Above datum"), ROD_COLUMN_FIGURE, 32.0, TRUE },
    { _ ("Joint line"), ROD_COLUMN_FIGURE, 24.0, FALSE },
    { _ ("Boards meet on"), ROD_COLUMN_TEXT, -2.0, FALSE },
    { _ ("Also at this height"), ROD_COLUMN_TEXT, -4.0, FALSE },
  };
  RodTable *table = rod_table_new (columns,
                                   G_N_ELEMENTS (columns),
                                   sheets->room.width,
                                   ROD_SHEET_TEXT,
                                   sheets->lettering);
  guint     number = 0;

  for (guint i = 0; i < sheets->plan->groups->len; i++)
    if (has_rod (sheets->plan, i))
      add_group (sheets, i, ++number, table);
  rod_sheets_add_table (sheets,
                        _ ("Storey rod"),
                        _ ("Storey rod"),
                        table,
                        _ ("Heights above the datum of the house. Full marks are joint lines; half "
                           "marks are what else stands at that height, as measured on the "
                           "structure. "
                           "Transfer to a straight stick, tick, and check the whole length once "
                           "more."),
                        0);
}

/* Joint lines of one field as distances from the left or lower edge of its face. */
static void
list_lines (const RodSheets *sheets,
            RodTable        *table,
            guint            index)
{
  const RodField *field = rod_plan_field (sheets->plan, index);
  gboolean        upright = rod_field_is_upright (field);
  g_autoptr (GArray) lines = rod_joint_lines_new (sheets->plan, index);
  g_autoptr (GPtrArray) cells = g_ptr_array_new_with_free_func (g_free);
  gboolean backwards = upright && field->to_surface.xy < 0.0;
  RodPoint low, high;

  rod_contour_surface_extent (rod_plan_face (sheets->plan, field->face)->surface, &low, &high);
  for (guint i = 0; i < lines->len; i++)
    {
      guint    from = backwards ? lines->len - 1 - i : i;
      RodPoint at = rod_affine_apply (
        field->to_surface, (RodPoint){ 0.0, g_array_index (lines, RodJointLine, from).across_mm });

      g_ptr_array_add (cells, g_strdup ("x"));
      g_ptr_array_add (cells,
                       g_strdup_printf ("%d", g_array_index (lines, RodJointLine, from).number));
      g_ptr_array_add (cells,
                       rod_figures_length (sheets->units, upright ? at.x - low.x : at.y - low.y));
      if (i + 1 < lines->len && (i + 1) % LINES_ABREAST != 0)
        continue;
      while (cells->len < 3 * LINES_ABREAST)
        g_ptr_array_add (cells, g_strdup (""));
      g_ptr_array_add (cells, NULL);
      rod_table_add (table, ROD_ROW_PLAIN, (const char *const *) cells->pdata);
      g_ptr_array_set_size (cells, 0);
    }
}

static char *
name_field (const RodSheets *sheets,
            const RodField  *field)
{
  const RodFace   *face = rod_plan_face (sheets->plan, field->face);
  g_autofree char *cover = rod_figures_length_unit (sheets->units, field->board->cover_mm);

  if (rod_field_is_upright (field))
    return g_strdup_printf (_ ("%s \u00b7 %s: upright boards, cover %s, from the left edge"),
                            face->mark,
                            face->label,
                            cover);

  return g_strdup_printf (_ ("%s \u00b7 %s: level boards, cover %s, from the lower edge"),
                          face->mark,
                          face->label,
                          cover);
}

/* Linings are a board or two wide; their sizes stand on their own sheet. */
static gboolean
is_listed (const RodPlan  *plan,
           const RodField *field)
{
  return !is_on_rod (plan, field) && field->n_pieces > 0 &&
         (rod_field_is_upright (field) || rod_field_is_level (field)) &&
         rod_plan_face (plan, field->face)->parent < 0;
}

static RodTable *
list_other_fields (const RodSheets *sheets)
{
  RodColumn columns[3 * LINES_ABREAST];
  RodTable *table;

  for (guint i = 0; i < LINES_ABREAST; i++)
    {
      columns[3 * i] = (RodColumn){ "", ROD_COLUMN_TICK, 6.0, FALSE };
      columns[3 * i + 1] = (RodColumn){ _ ("Line"), ROD_COLUMN_FIGURE, 12.0, FALSE };
      columns[3 * i + 2] = (RodColumn){ _ ("At"), ROD_COLUMN_FIGURE, -1.0, TRUE };
    }
  table = rod_table_new (columns,
                         G_N_ELEMENTS (columns),
                         sheets->room.width,
                         ROD_SHEET_TEXT,
                         sheets->lettering);
  for (guint i = 0; i < sheets->plan->fields->len; i++)
    {
      const RodField  *field = rod_plan_field (sheets->plan, i);
      g_autofree char *name = NULL;
      const char      *heading[2] = { NULL, NULL };

      if (!is_listed (sheets->plan, field))
        continue;
      name = name_field (sheets, field);
      heading[0] = name;
      rod_table_add (table, ROD_ROW_HEADING, heading);
      list_lines (sheets, table, i);
    }

  return table;
}

void
rod_sheets_add_rod (RodSheets *sheets)
{
  add_rods (sheets);
  rod_sheets_add_table (sheets,
                        _ ("Storey rod"),
                        _ ("Joint lines face by face"),
                        list_other_fields (sheets),
                        _ ("Running distances from the edge of the structure as measured; transfer "
                           "them from one end, never from line to line."),
                        0);
}
