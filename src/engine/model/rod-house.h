/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "engine/model/rod-surface.h"
#include "engine/model/rod-system.h"

G_BEGIN_DECLS

/**
 * RodUnits:
 * @ROD_UNITS_METRIC: millimetres and metres
 * @ROD_UNITS_IMPERIAL: feet and inches on screen and paper; files stay metric
 */
typedef enum
{
  ROD_UNITS_METRIC,
  ROD_UNITS_IMPERIAL,
} RodUnits;

/**
 * RodSite:
 * @air_coldest_c: coldest shade air
 * @air_hottest_c: hottest shade air
 * @fixing_c: temperature of boards when cut and fixed
 * @face_coldest_c: coldest board instead of the derived one; not-a-number to derive
 * @face_hottest_c: hottest board, likewise
 */
typedef struct
{
  RodRecord record;
  double    air_coldest_c;
  double    air_hottest_c;
  double    fixing_c;
  double    face_coldest_c;
  double    face_hottest_c;
} RodSite;

/**
 * RodSaw:
 * @kerf_mm: width of the cut
 * @end_trim_mm: lost at each end of a bar
 */
typedef struct
{
  RodRecord record;
  double    kerf_mm;
  double    end_trim_mm;
} RodSaw;

/**
 * RodBuying:
 * @currency: ISO 4217 code
 * @spare_percent: spare boards, per cent of the bars
 * @spare_least: spare boards at least, for each board and colour
 * @spare_trims: spare bars of each trim
 * @spare_screws_percent: spare screws, per cent
 */
typedef struct
{
  RodRecord record;
  char     *currency;
  double    spare_percent;
  int       spare_least;
  int       spare_trims;
  double    spare_screws_percent;
} RodBuying;

/**
 * RodOffcut:
 * @system: id of the system
 * @article: id of the board, trim or batten
 * @colour: id of the colour; "" for trims and battens
 * @length_mm: length
 * @count: how many
 *
 * Lengths the user owns already.
 */
typedef struct
{
  RodRecord record;
  char     *system;
  char     *article;
  char     *colour;
  double    length_mm;
  int       count;
} RodOffcut;

/**
 * RodEdgeRef:
 * @surface: id of a surface
 * @edge: identifier of one of its outline's edges
 */
typedef struct
{
  RodRecord record;
  char     *surface;
  char     *edge;
} RodEdgeRef;

/**
 * RodJoin:
 * @id: identifier within the house
 * @a: one edge
 * @b: the other edge
 * @fold_deg: how far @b turns away from the viewer about the shared edge: 90 at a square outside
 *            corner, −90 at an inside corner or ceiling line, 0 when both lie in one plane
 * @carries_joints: joint lines must meet here
 * @offset_mm: where the edges are not matched by level: the start of @b's edge lies this far
 *             beyond the end of @a's edge, measured along @a
 * @mirrors: where boards of both run along the edge: first joints lie equally far from it
 * @takes_misfit: where a chain of joins does not close, lines miss here rather than elsewhere
 */
typedef struct
{
  RodRecord   record;
  char       *id;
  RodEdgeRef *a;
  RodEdgeRef *b;
  double      fold_deg;
  gboolean    carries_joints;
  double      offset_mm;
  gboolean    mirrors;
  gboolean    takes_misfit;
} RodJoin;

/**
 * RodHouse:
 * @format: "storeyrod-house"
 * @version: version of the format
 * @name: name of the job
 * @place: where
 * @client: for whom
 * @author: who drew it
 * @units: units on screen and paper
 * @survey_tolerance_mm: how far a measured line may be off
 * @aims: (element-type RodAim): the aims that come first in a set-out; the others follow in the
 *        usual order
 * @seen_weights: how much strips count by where they are seen
 * @site: climate
 * @saw: saw
 * @buying: how to order
 * @rack: (element-type RodOffcut): lengths owned already
 * @systems: (element-type RodSystem): the systems used, whole
 * @surfaces: (element-type RodSurface): surfaces
 * @joins: (element-type RodJoin): joins
 *
 * The document. Immutable.
 */
typedef struct
{
  RodRecord       record;
  char           *format;
  int             version;
  char           *name;
  char           *place;
  char           *client;
  char           *author;
  RodUnits        units;
  double          survey_tolerance_mm;
  GPtrArray      *aims;
  RodSeenWeights *seen_weights;
  RodSite        *site;
  RodSaw         *saw;
  RodBuying      *buying;
  GPtrArray      *rack;
  GPtrArray      *systems;
  GPtrArray      *surfaces;
  GPtrArray      *joins;
} RodHouse;

extern const RodType rod_site_type;
extern const RodType rod_saw_type;
extern const RodType rod_buying_type;
extern const RodType rod_offcut_type;
extern const RodType rod_edge_ref_type;
extern const RodType rod_join_type;
extern const RodType rod_house_type;

extern const RodChoice rod_units_choices[];

/**
 * rod_stock_longest_mm:
 * @stock: (element-type RodStock): stock lengths
 * @saw: the saw
 *
 * Saw stops are set to whole millimetres: of a bar of 12 ft, 3657.6 mm, 3657 can be used.
 *
 * Returns: the longest piece that a bar gives, in whole mm; 0 or less when none gives any
 */
double rod_stock_longest_mm (const GPtrArray *stock,
                             const RodSaw    *saw);

/**
 * rod_house_find_system:
 * @house: a house
 * @id: a system's id
 *
 * Returns: (transfer none) (nullable): the system
 */
const RodSystem *rod_house_find_system (const RodHouse *house,
                                        const char     *id);

/**
 * rod_house_find_surface:
 * @house: a house
 * @id: a surface's id
 *
 * Returns: (transfer none) (nullable): the surface
 */
const RodSurface *rod_house_find_surface (const RodHouse *house,
                                          const char     *id);

/**
 * rod_house_with_surface:
 * @house: a house
 * @surface: (transfer full): a surface that takes the place of the one with its id
 *
 * The usual edit: a new house that shares all but that surface with the old one, so that only what
 * hangs on it is planned again (see rod_plan_renew()).
 *
 * Returns: (transfer full): the edited house
 */
RodHouse *rod_house_with_surface (const RodHouse *house,
                                  RodSurface     *surface) G_GNUC_WARN_UNUSED_RESULT;

/**
 * rod_house_free_lines:
 * @house: a house
 *
 * Lets go of every joint line the user left by hand; pins stay. Surfaces without such a line are
 * shared with @house.
 *
 * Returns: (transfer full): the house with its best set-out
 */
RodHouse *rod_house_free_lines (const RodHouse *house) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodSite, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodSaw, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodBuying, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodOffcut, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodEdgeRef, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodJoin, rod_record_unref)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RodHouse, rod_record_unref)

G_END_DECLS
