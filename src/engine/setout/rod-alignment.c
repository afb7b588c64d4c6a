/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Alignment groups: union-find over fields, where each link keeps a linear relation between two
 * phases.
 *
 * On the shared edge both faces see the same points. A point at t along edge A (unit direction e,
 * boards' normal n) has the height v = n·A.from + t·(n·e) over A's joint lines; on B, whose edge
 * runs the other way, v = n·B.to − (t − t0)·(n·e). Joint lines meet where both are joint lines,
 * which gives phase B = shift + scale × phase A modulo the cover, with scale = −k_B/k_A, provided
 * both repeat at the same distance along the edge. */

#include "config.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "engine/checks/rod-findings.h"
#include "engine/plan/rod-faces.h"
#include "engine/rod-limits.h"
#include "engine/setout/rod-alignment.h"

/* What a join says about two phases. */
typedef struct
{
  double   scale;
  double   shift_mm;
  double   pitch_a_mm; /* distance of joint lines along the edge */
  double   pitch_b_mm;
  gboolean crosses; /* boards of both faces end at the edge */
} Relation;

typedef struct
{
  guint  parent;
  double scale;
  double shift_mm;
  guint  rank; /* of the field's surface by its id: the first leads its group */
} Node;

/* Boards nearly along an edge would repeat at absurd distances; they do not tie. */
#define LEAST_CROSSING 0.02

static double
slope_of (const RodField *field,
          RodPoint        from,
          RodPoint        to)
{
  double length = rod_point_distance (from, to);

  return (field->to_board.yx * (to.x - from.x) + field->to_board.yy * (to.y - from.y)) / length;
}

static Relation
relate (const RodPlan *plan,
        guint          face_index,
        const RodEdge *a)
{
  const RodFace  *face_a = rod_plan_face (plan, face_index);
  const RodFace  *face_b = rod_plan_face (plan, (guint) a->partner_face);
  const RodField *field_a = rod_plan_field (plan, face_a->first_field);
  const RodField *field_b = rod_plan_field (plan, face_b->first_field);
  const RodEdge  *b = &field_b->edges[a->partner_edge];
  Relation        relation = { 0 };
  RodPoint        a_from, a_to, b_from, b_to;
  double          ka, kb, along_mm;

  rod_edge_shifted (a, -a->build_up_mm, &a_from, &a_to);
  rod_edge_shifted (b, -b->build_up_mm, &b_from, &b_to);
  ka = slope_of (field_a, a_from, a_to);
  kb = slope_of (field_b, b_from, b_to);
  relation.crosses = fabs (ka) > LEAST_CROSSING && fabs (kb) > LEAST_CROSSING;
  if (!relation.crosses)
    return relation;
  along_mm = rod_edge_match_mm (plan, face_index, a);
  relation.pitch_a_mm = field_a->board->cover_mm / fabs (ka);
  relation.pitch_b_mm = field_b->board->cover_mm / fabs (kb);
  relation.scale = -kb / ka;
  relation.shift_mm = rod_affine_apply (field_b->to_board, b_to).y + along_mm * kb -
                      relation.scale * rod_affine_apply (field_a->to_board, a_from).y;
  return relation;
}

static gboolean
same_pitch (const Relation *relation)
{
  return fabs (relation->pitch_a_mm - relation->pitch_b_mm) < ROD_SNAP_MM / 10.0;
}

static guint
find_root (Node   *nodes,
           guint   field,
           double *scale,
           double *shift_mm)
{
  guint at = field;

  *scale = 1.0;
  *shift_mm = 0.0;
  while (nodes[at].parent != at)
    {
      *shift_mm += *scale * nodes[at].shift_mm;
      *scale *= nodes[at].scale;
      at = nodes[at].parent;
    }
  /* Point straight at the root: chains round a house are walked once. */
  nodes[field].parent = at;
  nodes[field].scale = *scale;
  nodes[field].shift_mm = *shift_mm;
  return at;
}

/* φ_b = shift + scale·φ_a, and each is tied to its root: φ = s + k·φ_root. */
static void
unite (Node           *nodes,
       guint           a,
       guint           b,
       const Relation *relation)
{
  double sa, ka, sb, kb;
  guint  root_a = find_root (nodes, a, &ka, &sa);
  guint  root_b = find_root (nodes, b, &kb, &sb);
  double factor, low;

  if (root_a == root_b)
    return;
  /* φ_b root = low + factor·φ_a root; the lower rank leads, so that the order in which surfaces and
   * joins are listed changes nothing. */
  factor = relation->scale * ka / kb;
  low = (relation->shift_mm + relation->scale * sa - sb) / kb;
  if (nodes[root_a].rank < nodes[root_b].rank ||
      (nodes[root_a].rank == nodes[root_b].rank && root_a < root_b))
    nodes[root_b] = (Node){ root_a, factor, low, nodes[root_b].rank };
  else
    nodes[root_a] = (Node){ root_b, 1.0 / factor, -low / factor, nodes[root_a].rank };
}

static void
unite_joins (RodPlan *plan,
             Node    *nodes)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace  *face = rod_plan_face (plan, f);
      const RodField *field = rod_plan_field (plan, face->first_field);

      for (guint e = 0; e < field->n_edges; e++)
        {
          const RodEdge *edge = &field->edges[e];
          Relation       relation;

          if (edge->partner_face <= (int) f || !edge->carries_joints)
            continue;
          relation = relate (plan, f, edge);
          if (relation.crosses && same_pitch (&relation))
            unite (nodes,
                   face->first_field,
                   rod_plan_face (plan, (guint) edge->partner_face)->first_field,
                   &relation);
        }
    }
}

static void
unite_zones (RodPlan *plan,
             Node    *nodes)
{
  const Relation same = { .scale = 1.0 };

  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodFace *face = rod_plan_face (plan, f);

      for (guint i = 1; i < face->n_fields; i++)
        for (guint k = 0; k < i; k++)
          {
            const RodField *one = rod_plan_field (plan, face->first_field + k);
            const RodField *other = rod_plan_field (plan, face->first_field + i);

            if (one->board == other->board &&
                fabs (one->direction_deg - other->direction_deg) < ROD_EPSILON_DEG)
              unite (nodes, face->first_field + k, face->first_field + i, &same);
          }
    }
}

static void
number_groups (RodPlan *plan,
               Node    *nodes)
{
  g_autofree int *group_of = g_new (int, plan->fields->len);

  for (guint f = 0; f < plan->fields->len; f++)
    group_of[f] = -1;
  for (guint f = 0; f < plan->fields->len; f++)
    {
      RodField *field = &g_array_index (plan->fields, RodField, f);
      guint     root = find_root (nodes, f, &field->group_scale, &field->group_shift_mm);

      if (group_of[root] < 0)
        {
          RodGroup group = { .pitch_mm = rod_plan_field (plan, root)->board->cover_mm,
                             .first_field = root };

          group_of[root] = (int) plan->groups->len;
          g_array_append_val (plan->groups, group);
        }
      field->group = (guint) group_of[root];
      g_array_index (plan->groups, RodGroup, field->group).n_fields++;
    }
}

static const char *
surface_id (const RodPlan *plan,
            guint          face)
{
  const RodFace *own = rod_plan_face (plan, face);

  return own->parent >= 0 ? rod_plan_face (plan, (guint) own->parent)->surface->id
                          : own->surface->id;
}

static gint
compare_faces (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  const guint *one = a;
  const guint *other = b;

  return strcmp (surface_id (user_data, *one), surface_id (user_data, *other));
}

/* Reveals rank with their wall, in their order. */
static void
rank_fields (RodPlan *plan,
             Node    *nodes)
{
  g_autoptr (GArray) faces = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint f = 0; f < plan->faces->len; f++)
    g_array_append_val (faces, f);
  g_array_sort_with_data (faces, compare_faces, plan);
  for (guint rank = 0; rank < faces->len; rank++)
    {
      const RodFace *face = rod_plan_face (plan, g_array_index (faces, guint, rank));

      for (guint i = 0; i < face->n_fields; i++)
        nodes[face->first_field + i].rank = rank;
    }
}

void
rod_alignment_build (RodPlan *plan)
{
  g_autofree Node *nodes = g_new (Node, MAX (plan->fields->len, 1));

  for (guint f = 0; f < plan->fields->len; f++)
    nodes[f] = (Node){ .parent = f, .scale = 1.0 };
  rank_fields (plan, nodes);
  unite_joins (plan, nodes);
  unite_zones (plan, nodes);
  number_groups (plan, nodes);
}

/* After how many lines of the closer spacing both come level again, time after time within a
 * house's height; 0 when they do not. */
static int
lines_until_met (const Relation *relation)
{
  double close_mm = MIN (relation->pitch_a_mm, relation->pitch_b_mm);
  double wide_mm = MAX (relation->pitch_a_mm, relation->pitch_b_mm);

  for (int n = 1; n <= ROD_MEETING_COURSES; n++)
    {
      double rest = fabs (remainder (n * close_mm, wide_mm));

      if (rest * ROD_MEETING_COURSES / n < ROD_VISIBLE_MISFIT_MM / 2.0)
        return n;
    }
  return 0;
}

static void
report_pitches (RodPlan        *plan,
                guint           face,
                const RodEdge  *edge,
                const Relation *relation)
{
  int         n = lines_until_met (relation);
  const char *a = rod_plan_face (plan, face)->label;
  const char *b = rod_plan_face (plan, (guint) edge->partner_face)->label;
  RodFinding  finding = {
     .id = "unequal-pitch",
     .severity = ROD_SEVERITY_NOTE,
     .face = (int) face,
     .at = edge->raw.from,
     .has_at = TRUE,
     .piece = -1,
     .value = relation->pitch_b_mm,
     .limit = relation->pitch_a_mm,
     .rule = "R17",
  };

  if (n > 0)
    finding.text = g_strdup_printf (_ ("Joint lines of %s (every %.1f mm) and %s (every %.1f mm) "
                                       "meet only at every %d. line of %s."),
                                    a,
                                    relation->pitch_a_mm,
                                    b,
                                    relation->pitch_b_mm,
                                    n,
                                    relation->pitch_a_mm < relation->pitch_b_mm ? a : b);
  else
    finding.text = g_strdup_printf (
      _ ("Joint lines of %s (every %.1f mm) and %s (every %.1f mm) never meet along their edge."),
      a,
      relation->pitch_a_mm,
      b,
      relation->pitch_b_mm);
  finding.remedy =
    g_strdup (_ ("Use the same board on both, or say that this join carries no joint lines."));
  rod_findings_add (plan->findings, &finding);
}

static void
report_misfit (RodPlan       *plan,
               guint          face,
               const RodEdge *edge,
               double         misfit_mm)
{
  RodFinding finding = {
    .id = "lines-miss",
    .severity = ROD_SEVERITY_SHOULD,
    .face = (int) face,
    .at = edge->raw.from,
    .has_at = TRUE,
    .piece = -1,
    .value = misfit_mm,
    .limit = ROD_VISIBLE_MISFIT_MM,
    .rule = "R12",
  };

  finding.text =
    g_strdup_printf (_ ("Joint lines of %s and %s miss each other by %.1f mm where they meet."),
                     rod_plan_face (plan, face)->label,
                     rod_plan_face (plan, (guint) edge->partner_face)->label,
                     misfit_mm);
  finding.remedy = g_strdup (_ ("Measure the levels of both surfaces again, free a held joint "
                                "line, or let this join carry no joint lines."));
  rod_findings_add (plan->findings, &finding);
}

static void
check_join (RodPlan       *plan,
            guint          face_index,
            const RodEdge *edge)
{
  const RodField *a = rod_plan_field (plan, rod_plan_face (plan, face_index)->first_field);
  const RodField *b =
    rod_plan_field (plan, rod_plan_face (plan, (guint) edge->partner_face)->first_field);
  RodGroup *group = &g_array_index (plan->groups, RodGroup, a->group);
  Relation  relation = relate (plan, face_index, edge);
  double    misfit_mm;

  if (!relation.crosses)
    return;
  if (!same_pitch (&relation))
    {
      report_pitches (plan, face_index, edge, &relation);
      return;
    }
  misfit_mm = fabs (remainder (relation.shift_mm + relation.scale * a->phase_mm - b->phase_mm,
                               b->board->cover_mm));
  group->misfit_mm = MAX (group->misfit_mm, misfit_mm);
  if (misfit_mm > ROD_VISIBLE_MISFIT_MM)
    report_misfit (plan, face_index, edge, misfit_mm);
}

void
rod_alignment_check (RodPlan *plan)
{
  for (guint f = 0; f < plan->faces->len; f++)
    {
      const RodField *field = rod_plan_field (plan, rod_plan_face (plan, f)->first_field);

      for (guint e = 0; e < field->n_edges; e++)
        if (field->edges[e].partner_face > (int) f && field->edges[e].carries_joints)
          check_join (plan, f, &field->edges[e]);
    }
}
