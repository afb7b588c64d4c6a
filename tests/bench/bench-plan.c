/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Times the whole plan of a real house, and of a hundred copies of it in one file, which must cost
 * no more than a hundred times as much; the plan after an edit of one surface, or of the rod; and
 * the best set-out of its largest group. In the same run the house's own courses are cut by GEOS
 * too, so that the figures mean something on any machine. Stops with an error when the areas
 * differ.
 *
 * With a step and a number ("one 5", "hundred 1", "moved 1", "lowered 1", "dragged 1", "best 1")
 * runs it so many times and prints nothing: for counting instructions, see count-plan.sh. */

#include "support/geos-strips.h"

#include "engine/files/rod-file.h"
#include "engine/plan/rod-plan.h"
#include "engine/setout/rod-group-setout.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#define COPIES 100
#define ROUNDS 11
#define RUNS 10

typedef struct
{
  RodHouse           *one;
  RodHouse           *hundred;
  RodHouse           *moved;   /* the house with a window moved sideways */
  RodHouse           *lowered; /* the house with a sill lowered, so that joint lines move */
  RodHouse           *dragged; /* the house with the joint lines of its largest group dragged */
  RodPlan            *plan;
  GEOSContextHandle_t geos;
  GEOSGeometry      **areas; /* of each field's pocket */
} Bench;

static char *
numbered (const char *id,
          guint       number)
{
  return g_strdup_printf ("%s.%u", id, number);
}

static RodSurface *
copy_surface (const RodSurface *surface,
              guint             number)
{
  RodSurface      *copy = rod_record_copy (surface);
  g_autofree char *id = numbered (surface->id, number);

  rod_record_set_text (copy, G_STRUCT_OFFSET (RodSurface, id), id);
  rod_record_set_text (copy, G_STRUCT_OFFSET (RodSurface, mark), "");
  return copy;
}

static RodEdgeRef *
copy_ref (const RodEdgeRef *ref,
          guint             number)
{
  RodEdgeRef      *copy = rod_record_copy (ref);
  g_autofree char *surface = numbered (ref->surface, number);

  rod_record_set_text (copy, G_STRUCT_OFFSET (RodEdgeRef, surface), surface);
  return copy;
}

static RodJoin *
copy_join (const RodJoin *join,
           guint          number)
{
  RodJoin         *copy = rod_record_copy (join);
  g_autofree char *id = numbered (join->id, number);

  rod_record_set_text (copy, G_STRUCT_OFFSET (RodJoin, id), id);
  rod_record_take_record (copy, G_STRUCT_OFFSET (RodJoin, a), copy_ref (join->a, number));
  rod_record_take_record (copy, G_STRUCT_OFFSET (RodJoin, b), copy_ref (join->b, number));
  return copy;
}

static RodHouse *
copy_house (const RodHouse *house,
            guint           copies)
{
  RodHouse  *many = rod_record_copy (house);
  GPtrArray *surfaces = rod_record_list_new ();
  GPtrArray *joins = rod_record_list_new ();

  for (guint n = 0; n < copies; n++)
    {
      for (guint i = 0; i < house->surfaces->len; i++)
        g_ptr_array_add (surfaces, copy_surface (g_ptr_array_index (house->surfaces, i), n));
      for (guint i = 0; i < house->joins->len; i++)
        g_ptr_array_add (joins, copy_join (g_ptr_array_index (house->joins, i), n));
    }
  rod_record_take_list (many, G_STRUCT_OFFSET (RodHouse, surfaces), surfaces);
  rod_record_take_list (many, G_STRUCT_OFFSET (RodHouse, joins), joins);
  return many;
}

static void
plan_times (const RodHouse *house,
            guint           runs)
{
  for (guint i = 0; i < runs; i++)
    {
      g_autoptr (RodPlan) plan = rod_plan_new (house);
    }
}

/* The house with one opening of one surface moved. */
static RodHouse *
move_opening (const RodHouse *house,
              guint           surface_index,
              guint           opening_index,
              double          dx,
              double          dy)
{
  RodSurface *surface = rod_record_copy (g_ptr_array_index (house->surfaces, surface_index));
  GPtrArray  *openings = rod_record_list_copy (surface->openings);
  RodOpening *opening = rod_record_copy (g_ptr_array_index (openings, opening_index));

  opening->x += dx;
  opening->y += dy;
  rod_record_unref (openings->pdata[opening_index]);
  openings->pdata[opening_index] = opening;
  rod_record_take_list (surface, G_STRUCT_OFFSET (RodSurface, openings), openings);
  return rod_house_with_surface (house, surface);
}

/* The group with most levels. */
static const RodGroup *
largest_group (const RodPlan *plan)
{
  const RodGroup *largest = NULL;

  for (guint g = 0; g < plan->groups->len; g++)
    {
      const RodGroup *group = &g_array_index (plan->groups, RodGroup, g);

      if (largest == NULL || group->setout->levels->len > largest->setout->levels->len)
        largest = group;
    }
  return largest;
}

/* The house with the rod of its largest group left somewhere else. */
static RodHouse *
drag_rod (const RodHouse *house,
          const RodPlan  *plan)
{
  const RodGroup *group = largest_group (plan);
  const RodField *field = rod_plan_field (plan, group->first_field);
  RodSurface     *surface = rod_record_copy (rod_plan_face (plan, field->face)->surface);

  surface->joint_line_mm = surface->level_mm + field->phase_mm + 10.0;
  return rod_house_with_surface (house, surface);
}

static void
best_times (const Bench *bench,
            guint        runs)
{
  const RodGroup *group = largest_group (bench->plan);

  for (guint i = 0; i < runs; i++)
    if (rod_group_setout_best (group->setout) < 0.0)
      g_error ("no phase");
}

/* The surface with most openings. */
static guint
busiest_surface (const RodHouse *house)
{
  guint busiest = 0, most = 0;

  for (guint i = 0; i < house->surfaces->len; i++)
    {
      const RodSurface *surface = g_ptr_array_index (house->surfaces, i);

      if (surface->openings->len > most)
        {
          most = surface->openings->len;
          busiest = i;
        }
    }
  return busiest;
}

static void
edit_times (const Bench    *bench,
            const RodHouse *edited,
            guint           runs)
{
  for (guint i = 0; i < runs; i++)
    {
      g_autoptr (RodPlan) plan = rod_plan_renew (bench->plan, edited);
    }
}

/* How much of the plan an edit took, in the words of a report. */
static void
print_work (const Bench    *bench,
            const RodHouse *edited)
{
  g_autoptr (RodPlan) plan = rod_plan_renew (bench->plan, edited);

  printf ("%u of %u fields cut, %u of %u phases chosen, %u reveals derived\n",
          plan->work.n_fields,
          plan->fields->len,
          plan->work.n_groups,
          plan->groups->len,
          plan->work.n_reveals);
}

static double
cut_fields (const Bench *bench)
{
  double area = 0.0;

  for (guint f = 0; f < bench->plan->fields->len; f++)
    {
      const RodField *field = rod_plan_field (bench->plan, f);
      g_autoptr (RodStrips) strips =
        rod_strips_cut (field->pocket, field->phase_mm, field->board->cover_mm);

      area += rod_region_area (strips->rings);
    }
  return area;
}

static double
cut_fields_geos (const Bench *bench)
{
  double area = 0.0;

  for (guint f = 0; f < bench->plan->fields->len; f++)
    {
      const RodField *field = rod_plan_field (bench->plan, f);
      double          cover = field->board->cover_mm;
      RodPoint        low, high;

      if (field->pocket->n_rings == 0)
        continue;
      rod_region_extent (field->pocket, &low, &high);
      for (double y = field->phase_mm + floor ((low.y - field->phase_mm) / cover) * cover;
           y < high.y;
           y += cover)
        {
          GEOSGeometry *box = geos_box (
            bench->geos, (RodPoint){ low.x - 1.0, y }, (RodPoint){ high.x + 1.0, y + cover });
          GEOSGeometry *cut = GEOSIntersection_r (bench->geos, bench->areas[f], box);

          area += geos_area (bench->geos, cut);
          GEOSGeom_destroy_r (bench->geos, cut);
          GEOSGeom_destroy_r (bench->geos, box);
        }
    }
  return area;
}

static gint
compare_numbers (gconstpointer a,
                 gconstpointer b)
{
  const double *one = a;
  const double *other = b;

  return (*one > *other) - (*one < *other);
}

static double
median (double *numbers)
{
  qsort (numbers, ROUNDS, sizeof (double), compare_numbers);
  return numbers[ROUNDS / 2];
}

static double
milliseconds_since (gint64 start_us)
{
  return (double) (g_get_monotonic_time () - start_us) / 1000.0;
}

static int
report (const Bench *bench)
{
  double one[ROUNDS], hundred[ROUNDS], growth[ROUNDS], strips[ROUNDS], geos[ROUNDS], faster[ROUNDS];
  double moved[ROUNDS], lowered[ROUNDS], dragged[ROUNDS], best[ROUNDS];
  double own_area = 0.0, geos_area_sum = 0.0;

  for (guint i = 0; i < ROUNDS; i++)
    {
      gint64 start = g_get_monotonic_time ();

      plan_times (bench->one, RUNS);
      one[i] = milliseconds_since (start) / RUNS;
      start = g_get_monotonic_time ();
      plan_times (bench->hundred, 1);
      hundred[i] = milliseconds_since (start);
      growth[i] = hundred[i] / one[i];
      start = g_get_monotonic_time ();
      edit_times (bench, bench->moved, RUNS);
      moved[i] = milliseconds_since (start) / RUNS;
      start = g_get_monotonic_time ();
      edit_times (bench, bench->lowered, RUNS);
      lowered[i] = milliseconds_since (start) / RUNS;
      start = g_get_monotonic_time ();
      edit_times (bench, bench->dragged, RUNS);
      dragged[i] = milliseconds_since (start) / RUNS;
      start = g_get_monotonic_time ();
      best_times (bench, RUNS);
      best[i] = milliseconds_since (start) / RUNS;
      start = g_get_monotonic_time ();
      for (guint run = 0; run < RUNS; run++)
        own_area = cut_fields (bench);
      strips[i] = milliseconds_since (start) / RUNS;
      start = g_get_monotonic_time ();
      geos_area_sum = cut_fields_geos (bench);
      geos[i] = milliseconds_since (start);
      faster[i] = geos[i] / strips[i];
    }
  printf (
    "%u surfaces and reveals, %u pieces\n", bench->plan->faces->len, bench->plan->pieces->len);
  printf ("whole plan           %9.3f ms\n", median (one));
  printf (
    "%d houses           %9.3f ms  %.1f times one\n", COPIES, median (hundred), median (growth));
  printf ("window moved         %9.3f ms  ", median (moved));
  print_work (bench, bench->moved);
  printf ("sill lowered         %9.3f ms  ", median (lowered));
  print_work (bench, bench->lowered);
  printf ("rod dragged          %9.3f ms  ", median (dragged));
  print_work (bench, bench->dragged);
  printf ("largest group's best %9.3f ms  %u levels, %u fields\n",
          median (best),
          largest_group (bench->plan)->setout->levels->len,
          largest_group (bench->plan)->n_fields);
  printf ("its courses cut      %9.3f ms\n", median (strips));
  printf ("GEOS intersection    %9.3f ms  %.1f times ours\n", median (geos), median (faster));
  if (fabs (own_area - geos_area_sum) > 1e-7 * geos_area_sum)
    {
      fprintf (stderr, "areas differ: %.3f and %.3f mm²\n", own_area, geos_area_sum);
      return EXIT_FAILURE;
    }
  return EXIT_SUCCESS;
}

static void
prepare (Bench      *bench,
         const char *path)
{
  g_autoptr (GError) error = NULL;
  guint edited;

  bench->one = rod_house_load (path, &error);
  if (bench->one == NULL)
    g_error ("%s", error->message);
  bench->hundred = copy_house (bench->one, COPIES);
  edited = busiest_surface (bench->one);
  bench->moved = move_opening (bench->one, edited, 0, 10.0, 0.0);
  bench->lowered = move_opening (bench->one, edited, 0, 0.0, -35.0);
  bench->plan = rod_plan_new (bench->one);
  bench->dragged = drag_rod (bench->one, bench->plan);
  bench->geos = geos_start ();
  bench->areas = g_new0 (GEOSGeometry *, bench->plan->fields->len);
  for (guint f = 0; f < bench->plan->fields->len; f++)
    bench->areas[f] = geos_from_region (bench->geos, rod_plan_field (bench->plan, f)->pocket);
}

static void
clear (Bench *bench)
{
  for (guint f = 0; f < bench->plan->fields->len; f++)
    GEOSGeom_destroy_r (bench->geos, bench->areas[f]);
  g_free (bench->areas);
  GEOS_finish_r (bench->geos);
  rod_plan_unref (bench->plan);
  rod_record_unref (bench->dragged);
  rod_record_unref (bench->lowered);
  rod_record_unref (bench->moved);
  rod_record_unref (bench->hundred);
  rod_record_unref (bench->one);
}

static void
run_step (const Bench *bench,
          const char  *step,
          guint        runs)
{
  if (g_str_equal (step, "moved"))
    edit_times (bench, bench->moved, runs);
  else if (g_str_equal (step, "lowered"))
    edit_times (bench, bench->lowered, runs);
  else if (g_str_equal (step, "dragged"))
    edit_times (bench, bench->dragged, runs);
  else if (g_str_equal (step, "best"))
    best_times (bench, runs);
  else
    plan_times (g_str_equal (step, "hundred") ? bench->hundred : bench->one, runs);
}

int
main (int   argc,
      char *argv[])
{
  Bench bench;
  int   status = EXIT_SUCCESS;

  if (argc < 2)
    {
      fprintf (stderr, "Usage: %s HOUSE [one|hundred|moved|lowered|dragged|best RUNS]\n", argv[0]);
      return 2;
    }
  prepare (&bench, argv[1]);
  if (argc < 4)
    status = report (&bench);
  else
    run_step (&bench, argv[2], (guint) strtoul (argv[3], NULL, 10));
  clear (&bench);
  return status;
}
