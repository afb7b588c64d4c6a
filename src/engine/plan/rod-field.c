/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Which part of a surface a field is, before any line is moved: asked point by point, by counting
 * the edges of each ring that pass to the point's right. And what is said of its length joints. */

#include "config.h"

#include <math.h>

#include "engine/plan/rod-field.h"
#include "engine/rod-limits.h"

/* How far joints of neighbouring courses stay apart, where nobody says it: common practice, 0.6 to
 * 1.2 m. Two covers are a published specification clause for heading joints. */
#define LEAST_OFFSET_MM 600.0

/* Three courses between joints in line: common practice. Equal bays look best in turns of two. */
#define USUAL_REPEAT 3
#define BALANCED_REPEAT 2

/* Whether a point lies within the ring of edges [first, first + n). */
static gboolean
is_in_ring (const RodField *field,
            guint           first,
            guint           n,
            RodPoint        at)
{
  gboolean inside = FALSE;

  for (guint e = first; e < first + n; e++)
    {
      RodPoint a = field->edges[e].raw.from, b = field->edges[e].raw.to;

      if ((a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x))
        inside = !inside;
    }
  return inside;
}

static gboolean
same_ring (const RodEdge *a,
           const RodEdge *b)
{
  return a->opening == b->opening && a->zone == b->zone;
}

gboolean
rod_field_contains (const RodField *field,
                    RodPoint        at)
{
  guint n;

  for (guint first = 0; first < field->n_edges; first += n)
    {
      const RodEdge *edge = &field->edges[first];

      for (n = 1; first + n < field->n_edges && same_ring (edge, &field->edges[first + n]); n++)
        ;
      if (is_in_ring (field, first, n, at) == edge->turned)
        return FALSE;
    }
  return TRUE;
}

/* Whether boards that run like those of @field may meet over a batten. Battens stand upright or lie
 * level: a joint of slanting boards would have none along it. */
static gboolean
may_butt (const RodFace  *face,
          const RodField *field)
{
  gboolean level = fabs (field->direction_deg) < ROD_EPSILON_DEG;
  gboolean upright = fabs (field->direction_deg - 90.0) < ROD_EPSILON_DEG;

  if (!level && !upright)
    return FALSE;
  switch (face->system->rules->butt_joints)
    {
    case ROD_BUTT_ALWAYS:
      return TRUE;
    case ROD_BUTT_LEVEL:
      return level || face->surface->kind == ROD_SURFACE_SOFFIT;
    case ROD_BUTT_NEVER:
    default:
      return FALSE;
    }
}

gboolean
rod_field_boards_alike (const RodField *one,
                        const RodField *other)
{
  return one->board == other->board &&
         fabs (one->to_board.xx - other->to_board.xx) < ROD_EPSILON_DEG &&
         fabs (one->to_board.yx - other->to_board.yx) < ROD_EPSILON_DEG;
}

/* The zone's word before the surface's, the surface's before the system's. */
static double
first_given (double zone,
             double surface,
             double system)
{
  return !isnan (zone) ? zone : !isnan (surface) ? surface
                                                 : system;
}

static int
first_set (int zone,
           int surface,
           int system)
{
  return zone != 0 ? zone : surface != 0 ? surface
                                         : system;
}

RodJointRules
rod_joint_rules_of (const RodFace  *face,
                    const RodField *field)
{
  const RodRules   *rules = face->system->rules;
  const RodSurface *surface = face->surface;
  const RodZone    *zone = field->zone;
  gboolean          own = zone != NULL && zone->joint_pattern != ROD_JOINTS_INHERITED;
  RodJointRules     joints = {
        .refused = ROD_JOINTS_INHERITED,
        .seed = own ? zone->joint_seed : surface->joint_seed,
  };

  joints.pattern = (RodJointPattern) first_set (own ? (int) zone->joint_pattern : 0,
                                                (int) surface->joint_pattern,
                                                (int) rules->joint_pattern);
  joints.offset_mm = first_given (zone != NULL ? zone->joint_offset_mm : (double) NAN,
                                  surface->joint_offset_mm,
                                  rules->joint_offset_mm);
  if (isnan (joints.offset_mm))
    joints.offset_mm = MAX (LEAST_OFFSET_MM, 2.0 * field->board->cover_mm);
  joints.repeat = first_set (zone != NULL ? zone->joint_repeat : 0,
                             surface->joint_repeat,
                             rules->joint_repeat);
  if (joints.repeat == 0)
    joints.repeat = joints.pattern == ROD_JOINTS_BALANCED ? BALANCED_REPEAT : USUAL_REPEAT;
  joints.longest_mm = first_given (zone != NULL ? zone->longest_piece_mm : (double) NAN,
                                   surface->longest_piece_mm,
                                   (double) INFINITY);
  if (joints.pattern != ROD_JOINTS_COLUMNS && !may_butt (face, field))
    {
      joints.refused = joints.pattern;
      joints.pattern = ROD_JOINTS_COLUMNS;
    }
  return joints;
}

gboolean
rod_field_has_butt_joints (const RodField *field)
{
  return field->joint_rules.pattern != ROD_JOINTS_COLUMNS;
}

/* The first joint of a course, or of the first course after it. */
static guint
first_joint (const RodField *field,
             int             course)
{
  guint low = 0, high = field->n_joints;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (field->joints[middle].course < course)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

const RodLengthJoint *
rod_field_nearest_joint (const RodField *field,
                         int             course,
                         double          at_mm)
{
  const RodLengthJoint *nearest = NULL;

  for (guint j = first_joint (field, course);
       j < field->n_joints && field->joints[j].course == course;
       j++)
    if (nearest == NULL || fabs (field->joints[j].at_mm - at_mm) < fabs (nearest->at_mm - at_mm))
      nearest = &field->joints[j];
  return nearest;
}
