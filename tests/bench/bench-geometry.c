/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Times the cutting of strips against GEOS on the same strips in the same run, on an invented house
 * of ten surfaces. The two take turns in short rounds, so that a busy machine slows both, and the
 * median of the rounds' ratios is printed: it means the same on any machine, milliseconds do not.
 * Stops with an error when the areas differ, for a fast wrong answer is worth nothing.
 *
 * With the name of a step and a number, runs that step so many times and prints nothing: for
 * counting instructions, see count-instructions.sh. */

#include "support/geos-strips.h"

#include "engine/rod-limits.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define PITCH_MM 119.0
#define PHASE_MM 37.0
#define JOINTS_MM 2400.0
#define GREATEST_JOINTS 16
#define ROUNDS 21

/* How often each is run in a round, so that the clock's step does not matter. */
#define OWN_RUNS 40
#define RECTANGLE_RUNS 4
#define INTERSECTION_RUNS 1

typedef struct
{
  GEOSContextHandle_t geos;
  guint               n_surfaces;
  RodPath           **paths;
  RodRegion         **regions;
  GEOSGeometry      **areas;
  double              joints[GREATEST_JOINTS];
  double              total; /* area of the last run, mm² */
  guint               n_pieces;
} Bench;

typedef void (*BenchStep) (Bench *bench);

static void
normalise_all (Bench *bench)
{
  bench->total = 0.0;
  bench->n_pieces = 0;
  for (guint i = 0; i < bench->n_surfaces; i++)
    {
      g_autoptr (RodRegion) region = rod_region_normalise (bench->paths[i], 1);

      bench->total += rod_region_area (region);
      bench->n_pieces += region->n_points;
    }
}

static void
add_strips (Bench           *bench,
            const RodStrips *strips)
{
  bench->n_pieces += strips->n_strips;
  bench->total += rod_region_area (strips->rings);
}

static void
cut_all (Bench *bench)
{
  bench->n_pieces = 0;
  for (guint i = 0; i < bench->n_surfaces; i++)
    {
      g_autoptr (RodStrips) strips = rod_strips_cut (bench->regions[i], PHASE_MM, PITCH_MM);

      bench->n_pieces += strips->n_strips;
    }
}

static void
cut_and_measure_all (Bench *bench)
{
  bench->n_pieces = 0;
  bench->total = 0.0;
  for (guint i = 0; i < bench->n_surfaces; i++)
    {
      g_autoptr (RodStrips) strips = rod_strips_cut (bench->regions[i], PHASE_MM, PITCH_MM);

      add_strips (bench, strips);
    }
}

static void
split_all (Bench *bench)
{
  bench->n_pieces = 0;
  for (guint i = 0; i < bench->n_surfaces; i++)
    {
      g_autoptr (RodStrips) strips = rod_strips_cut (bench->regions[i], PHASE_MM, PITCH_MM);
      g_autoptr (RodStrips) parts = rod_strips_split (strips, bench->joints, GREATEST_JOINTS);

      bench->n_pieces += parts->n_strips;
    }
}

static void
add_geos (Bench        *bench,
          GEOSGeometry *piece)
{
  bench->total += geos_area (bench->geos, piece);
  if (GEOSisEmpty_r (bench->geos, piece) != 1)
    bench->n_pieces += (guint) GEOSGetNumGeometries_r (bench->geos, piece);
  GEOSGeom_destroy_r (bench->geos, piece);
}

/* Puts every course of every surface to GEOS, either way. */
static void
cut_with_geos (Bench   *bench,
               gboolean by_rectangle)
{
  bench->n_pieces = 0;
  bench->total = 0.0;
  for (guint i = 0; i < bench->n_surfaces; i++)
    {
      RodPoint low, high;

      rod_region_extent (bench->regions[i], &low, &high);
      for (double k = floor ((low.y - PHASE_MM) / PITCH_MM); PHASE_MM + k * PITCH_MM < high.y; k++)
        {
          RodPoint      from = { low.x - 1.0, PHASE_MM + k * PITCH_MM };
          RodPoint      to = { high.x + 1.0, from.y + PITCH_MM };
          GEOSGeometry *box;

          if (by_rectangle)
            {
              add_geos (bench,
                        GEOSClipByRect_r (bench->geos,
                                          bench->areas[i],
                                          from.x,
                                          from.y,
                                          to.x,
                                          to.y));
              continue;
            }
          box = geos_box (bench->geos, from, to);
          add_geos (bench, GEOSIntersection_r (bench->geos, bench->areas[i], box));
          GEOSGeom_destroy_r (bench->geos, box);
        }
    }
}

static void
intersect_all (Bench *bench)
{
  cut_with_geos (bench, FALSE);
}

static void
clip_all (Bench *bench)
{
  cut_with_geos (bench, TRUE);
}

static int
compare_numbers (gconstpointer a,
                 gconstpointer b)
{
  double left = *(const double *) a;
  double right = *(const double *) b;

  return (left > right) - (left < right);
}

static double
find_median (double *numbers,
             guint   n_numbers)
{
  qsort (numbers, n_numbers, sizeof (double), compare_numbers);
  return numbers[n_numbers / 2];
}

/* Milliseconds for one of @n_runs runs. */
static double
time_step (Bench    *bench,
           BenchStep step,
           guint     n_runs)
{
  gint64 start = g_get_monotonic_time ();

  for (guint i = 0; i < n_runs; i++)
    step (bench);
  return (double) (g_get_monotonic_time () - start) / 1000.0 / n_runs;
}

static void
report_step (Bench      *bench,
             const char *name,
             BenchStep   step,
             const char *what)
{
  double times[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++)
    times[i] = time_step (bench, step, OWN_RUNS);
  printf ("%-20s %8.3f ms  %u %s\n", name, find_median (times, ROUNDS), bench->n_pieces, what);
}

static gboolean
areas_agree (const char *name,
             double      total,
             double      expected)
{
  gboolean agree = fabs (total - expected) <= 1e-7 * expected;

  if (!agree)
    fprintf (stderr, "%s: %.3f mm² instead of %.3f\n", name, total, expected);
  return agree;
}

static void
report_rival (const char *name,
              double     *times,
              double     *ratios)
{
  printf ("%-20s %8.3f ms  %.1f times ours\n",
          name,
          find_median (times, ROUNDS),
          find_median (ratios, ROUNDS));
}

static void
time_against_geos (Bench *bench)
{
  double own[ROUNDS], intersection[ROUNDS], rectangle[ROUNDS];
  double intersection_ratio[ROUNDS], rectangle_ratio[ROUNDS];

  for (guint i = 0; i < ROUNDS; i++)
    {
      own[i] = time_step (bench, cut_all, OWN_RUNS);
      intersection[i] = time_step (bench, intersect_all, INTERSECTION_RUNS);
      rectangle[i] = time_step (bench, clip_all, RECTANGLE_RUNS);
      intersection_ratio[i] = intersection[i] / own[i];
      rectangle_ratio[i] = rectangle[i] / own[i];
    }
  printf ("%-20s %8.3f ms\n", "the same, by turns", find_median (own, ROUNDS));
  report_rival ("GEOS intersection", intersection, intersection_ratio);
  report_rival ("GEOS rectangle clip", rectangle, rectangle_ratio);
}

static gboolean
compare_areas (Bench *bench)
{
  double   expected;
  gboolean agree;

  normalise_all (bench);
  expected = bench->total;
  cut_and_measure_all (bench);
  agree = areas_agree ("strips", bench->total, expected);
  intersect_all (bench);
  agree = areas_agree ("GEOS intersection", bench->total, expected) && agree;
  clip_all (bench);
  return areas_agree ("GEOS rectangle clip", bench->total, expected) && agree;
}

static void
prepare (Bench *bench)
{
  bench->geos = geos_start ();
  bench->paths = draw_house (&bench->n_surfaces);
  bench->regions = g_new (RodRegion *, bench->n_surfaces);
  bench->areas = g_new (GEOSGeometry *, bench->n_surfaces);
  for (guint i = 0; i < bench->n_surfaces; i++)
    {
      bench->regions[i] = rod_region_normalise (bench->paths[i], 1);
      bench->areas[i] = geos_from_region (bench->geos, bench->regions[i]);
    }
  for (guint i = 0; i < GREATEST_JOINTS; i++)
    bench->joints[i] = JOINTS_MM * (i + 1);
}

static void
clear (Bench *bench)
{
  for (guint i = 0; i < bench->n_surfaces; i++)
    {
      rod_path_free (bench->paths[i]);
      rod_region_unref (bench->regions[i]);
      GEOSGeom_destroy_r (bench->geos, bench->areas[i]);
    }
  g_free (bench->paths);
  g_free (bench->regions);
  g_free (bench->areas);
  GEOS_finish_r (bench->geos);
}

static int
run_one_step (Bench      *bench,
              const char *name,
              guint       n_runs)
{
  static const struct
  {
    const char *name;
    BenchStep   step;
  } steps[] = { { "normalise", normalise_all },
                { "strips", cut_all },
                { "parts", split_all },
                { "intersection", intersect_all },
                { "rectangle", clip_all } };

  for (guint i = 0; i < G_N_ELEMENTS (steps); i++)
    if (strcmp (name, steps[i].name) == 0)
      {
        for (guint run = 0; run < n_runs; run++)
          steps[i].step (bench);
        return EXIT_SUCCESS;
      }
  fprintf (stderr, "There is no step %s\n", name);
  return EXIT_FAILURE;
}

int
main (int   argc,
      char *argv[])
{
  Bench bench = { 0 };
  int   status;

  prepare (&bench);
  if (argc > 2)
    {
      status = run_one_step (&bench, argv[1], (guint) strtoul (argv[2], NULL, 10));
    }
  else
    {
      status = compare_areas (&bench) ? EXIT_SUCCESS : EXIT_FAILURE;
      report_step (&bench, "normalise", normalise_all, "corners");
      report_step (&bench, "strips and joints", split_all, "pieces");
      report_step (&bench, "strips", cut_all, "pieces");
      time_against_geos (&bench);
    }
  clear (&bench);
  return status;
}
