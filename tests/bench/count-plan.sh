#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Instructions for planning one house, a hundred of them, one after an edit of one surface or of the
# rod, and the best set-out of its largest group; what loading costs taken off.
# Usage: count-plan.sh BENCH-PLAN HOUSE
set -eu

here=$(dirname "$0")
count () {
  "$here/count-instructions.sh" "$@"
}

base=$(count "$1" "$2" one 0)
one=$(count "$1" "$2" one 1)
hundred=$(count "$1" "$2" hundred 1)
moved=$(count "$1" "$2" moved 1)
lowered=$(count "$1" "$2" lowered 1)
dragged=$(count "$1" "$2" dragged 1)
best=$(count "$1" "$2" best 1)
echo "$base $one $hundred $moved $lowered $dragged $best" | awk '{
  printf "one house       %7.1f million instructions\n", ($2 - $1) / 1e6
  printf "100 houses      %7.1f million instructions, %.1f times one\n",
         ($3 - $1) / 1e6, ($3 - $1) / ($2 - $1)
  printf "window moved    %7.1f million instructions\n", ($4 - $1) / 1e6
  printf "sill lowered    %7.1f million instructions\n", ($5 - $1) / 1e6
  printf "rod dragged     %7.1f million instructions\n", ($6 - $1) / 1e6
  printf "largest group   %7.1f million instructions for its best set-out\n", ($7 - $1) / 1e6
}'
