/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/plan/rod-joint-line.h"
#include "sheets/rod-drawing.h"
#include "sheets/rod-lettering.h"
#include "sheets/rod-net-layout.h"
#include "sheets/rod-sheets.h"
#include "sheets/rod-table.h"

G_BEGIN_DECLS

/* Lettering of ISO 3098: heights of capitals in mm. Nothing on a sheet is smaller than TEXT. */
#define ROD_SHEET_TEXT 2.5
#define ROD_SHEET_LABEL 3.5
#define ROD_SHEET_TITLE 5.0
#define ROD_SHEET_NAME 7.0

/* Figures at the saw: an em of 14 pt at least in any usual typeface, read with gloves on. */
#define ROD_SHEET_SAW 3.7
#define ROD_SHEET_SAW_LARGE 5.0

/* Lines of ISO 128 for construction drawings, in mm. */
#define ROD_SHEET_NARROW 0.18
#define ROD_SHEET_WIDE 0.35
#define ROD_SHEET_FRAME 0.7

/* Margins of ISO 5457: room to file on the left. */
#define ROD_SHEET_MARGIN_LEFT 20.0
#define ROD_SHEET_MARGIN 10.0

/* The strip at the foot with the title block. */
#define ROD_SHEET_STRIP 24.0

/* On a sheet whose drawings are not all to one scale each says its own. */
#define ROD_SHEET_SCALES_DIFFER (-1.0)

/* Between the frame and what stands in it, and between blocks. */
#define ROD_SHEET_INSET 4.0

/* A rectangle of paper, y downwards. */
typedef struct
{
  double x;
  double y;
  double width;
  double height;
} RodRoom;

typedef struct _RodSheet    RodSheet;
typedef struct _RodFaceKind RodFaceKind;

typedef void (*RodSheetDraw) (const RodSheets *sheets, const RodSheet *sheet, cairo_t *cr);

/* One page. Draw functions see the whole set; data is what laying out found for this page. */
struct _RodSheet
{
  const char        *chapter;  /* translated; pages of one chapter follow each other */
  const char        *document; /* kind of document, translated */
  char              *title;
  RodSheetDraw       draw;
  const RodFaceKind *kind;  /* (nullable): of sheets that show faces */
  GArray            *faces; /* (nullable) (element-type guint): shown on the key plan */
  double             scale; /* denominator, 0 for lists, or ROD_SHEET_SCALES_DIFFER */
  RodTable          *table; /* (nullable): a list that is continued over pages; owned by the set */
  guint              first;
  guint              end;
  gpointer           data;
  GDestroyNotify     free_data;
};

struct _RodSheets
{
  RodTakeoff     *takeoff;
  const RodPlan  *plan;
  const RodHouse *house;
  RodUnits        units;
  RodSheetOptions options;
  RodLettering   *lettering;
  GPtrArray      *pages;
  GPtrArray      *tables;
  GPtrArray      *saw_blocks;    /* (element-type GPtrArray): of each cutting */
  GPtrArray      *findings;      /* (element-type RodFinding): of plan and take-off, worst first */
  GPtrArray      *trims;         /* (element-type RodTrim): by their numbers on drawings */
  GHashTable     *opening_marks; /* RodOpening → mark that its linings have in common */
  char           *number;        /* identifies the design: equal numbers, equal houses */
  char           *date;
  RodAffine      *net; /* of each face: surface plane → the unfolded house, arranged in rows */
  RodPoint        net_size;
  double          width;
  double          height;
  RodRoom         room; /* inside the frame, above the strip, inset */
};

/* rod-sheets.c */
RodSheet *rod_sheets_add (RodSheets   *sheets,
                          const char  *chapter,
                          const char  *document,
                          char        *title,
                          RodSheetDraw draw);

/* The way from there into a room on paper, centred. */
RodAffine rod_net_to_page (const RodSheets *sheets,
                           RodRoom          room);

/* rod-sheet-frame.c: frame, graduation, key plan, title block */
void rod_sheet_draw_frame (const RodSheets *sheets,
                           guint            page,
                           cairo_t         *cr);

/* rod-sheet-text.c: what several sheets write */
void   rod_sheet_write (const RodSheets *sheets,
                        cairo_t         *cr,
                        const char      *text,
                        double           height,
                        gboolean         bold,
                        double           x,
                        double           y);
void   rod_sheet_write_right (const RodSheets *sheets,
                              cairo_t         *cr,
                              const char      *text,
                              double           height,
                              gboolean         bold,
                              double           x,
                              double           y);
double rod_sheet_paragraph (const RodSheets *sheets,
                            cairo_t         *cr,
                            const char      *text,
                            double           height,
                            gboolean         bold,
                            double           x,
                            double           y,
                            double           width);
double rod_sheet_heading (const RodSheets *sheets,
                          cairo_t         *cr,
                          const char      *text);

/* Adds pages for the rows of a list from @first on; takes the list over. */
void rod_sheets_add_table (RodSheets  *sheets,
                           const char *chapter,
                           const char *title,
                           RodTable   *table,
                           const char *note,
                           guint       first);

/* rod-sheet-cover.c */
const char *rod_sheet_severity (RodSeverity severity);

/* A face on a page: where the drawing lies and where there is room for notes on it. */
typedef struct
{
  guint     face;
  RodPoint  low; /* extent of the outline */
  RodPoint  high;
  RodAffine to_page;
  double    scale;    /* denominator */
  gboolean  unmarked; /* stands for several faces alike, so that no mark of one is shown */
  RodRoom   notes;
} RodFaceView;

/* Room round a drawing for its dimensions. */
typedef struct
{
  double left;
  double right;
  double top;
  double bottom;
} RodBorder;

/* A kind of sheet that shows faces, each alone with notes or several together with captions. */
struct _RodFaceKind
{
  const char *chapter; /* not yet translated */
  const char *document;
  gboolean    common; /* all faces are drawn to one scale */
  gboolean    keyed;  /* trims are numbered on the drawings */
  RodBorder (*border) (const RodSheets *sheets, guint face);
  double (*least) (const RodSheets *sheets,
                   guint            face); /* the largest scale that helps, as a denominator */
  gboolean (*wants) (const RodSheets *sheets, guint face);
  void (*draw) (const RodSheets *sheets, const RodFaceView *view, cairo_t *cr);
  void (*notes) (const RodSheets *sheets, const RodFaceView *view, cairo_t *cr);
  char *(*caption) (const RodSheets *sheets, guint face);
};

/* rod-sheet-faces.c */
void rod_sheets_add_faces (RodSheets         *sheets,
                           const RodFaceKind *kind);

/* rod-sheet-view.c */
RodFaceView     rod_view_plan (const RodSheets *sheets,
                               guint            face,
                               RodBorder        border,
                               double           least);
GPtrArray      *rod_face_trims (const RodSheets *sheets,
                                guint            face);
double          rod_face_trim_run (const RodPlan *plan,
                                   guint          face,
                                   const RodTrim *trim);
const RodField *rod_face_main_field (const RodPlan *plan,
                                     guint          face);
GArray         *rod_face_main_lines (const RodPlan *plan,
                                     guint          face); /* (element-type RodJointLine) */
gboolean        rod_field_is_level (const RodField *field);
gboolean        rod_field_is_upright (const RodField *field);

/* rod-sheet-notes.c */
void rod_sheet_notes (const RodSheets   *sheets,
                      const RodFaceView *view,
                      cairo_t           *cr);
void rod_sheet_frame_notes (const RodSheets   *sheets,
                            const RodFaceView *view,
                            cairo_t           *cr);

char *rod_sheet_trim_key (const RodSheets *sheets,
                          const GPtrArray *trims);
guint rod_sheet_trim_number (const RodSheets *sheets,
                             const RodTrim   *trim);
char *rod_sheet_caption (const RodSheets *sheets,
                         guint            face);
char *rod_sheet_lining_caption (const RodSheets *sheets,
                                guint            face);
char *rod_sheet_frame_caption (const RodSheets *sheets,
                               guint            face);

/* rod-sheet-batten.c */
typedef struct
{
  guint       use;    /* a RodBattenUse */
  const char *letter; /* not yet translated */
  const char *meaning;
} RodBattenLetter;

extern const RodBattenLetter rod_batten_letters[];
extern const guint           rod_batten_letters_n;

guint rod_face_batten_count (const RodPlan *plan,
                             guint          face,
                             gboolean       counter,
                             double        *run_mm);
char *rod_sheet_at_most (const RodSheets *sheets,
                         double           mm);

/* rod-sheet-cautions.c: the one sentence that stands on every cover */
const char *rod_sheet_caution (void);

/* One function for each kind of sheet, in the order of the set. */
void rod_sheets_add_cover (RodSheets *sheets);
void rod_sheets_add_elevations (RodSheets *sheets);
void rod_sheets_add_frames (RodSheets *sheets);
void rod_sheets_add_saw (RodSheets *sheets);
void rod_sheets_add_order (RodSheets *sheets);
void rod_sheets_add_rod (RodSheets *sheets);
void rod_sheets_add_cautions (RodSheets *sheets);

G_END_DECLS
