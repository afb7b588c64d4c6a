/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Weighted colour mixes. A counter-based generator (the finaliser of splitmix64, public domain,
 * S. Vigna) turns seed, course and place into a number: no state, so any piece can be asked for on
 * its own. */

#include "config.h"

#include "engine/takeoff/rod-colour-mix.h"

static guint64
scramble (guint64 value)
{
  value += G_GUINT64_CONSTANT (0x9e3779b97f4a7c15);
  value = (value ^ (value >> 30)) * G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  value = (value ^ (value >> 27)) * G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return value ^ (value >> 31);
}

double
rod_colour_mix_draw (int seed,
                     int course,
                     int place)
{
  guint64 value =
    scramble (scramble (scramble ((guint32) seed) + (guint32) course) + (guint32) place);

  return (double) (value >> 11) / (double) (G_GUINT64_CONSTANT (1) << 53);
}

const RodColour *
rod_colour_mix_pick (const RodField *field,
                     const RodPiece *piece)
{
  double           total = 0.0, at;
  const RodColour *last = field->colour;

  if (field->mix == NULL)
    return field->colour;
  for (guint i = 0; i < field->mix->len; i++)
    total += ((const RodColourShare *) g_ptr_array_index (field->mix, i))->weight;
  at = rod_colour_mix_draw (field->seed, piece->course, piece->place) * total;
  for (guint i = 0; i < field->mix->len; i++)
    {
      const RodColourShare *share = g_ptr_array_index (field->mix, i);
      const RodColour      *colour = rod_board_find_colour (field->board, share->colour);

      last = colour != NULL ? colour : last;
      at -= share->weight;
      if (at < 0.0)
        break;
    }
  return last;
}
