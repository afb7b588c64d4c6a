#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Prints how many instructions a command executes, by Valgrind's count: the same on every machine
# of a kind and hardly different from run to run, which no clock can offer.
# Usage: count-instructions.sh COMMAND [ARGUMENT]...
set -eu

if [ $# -eq 0 ]; then
  echo "Usage: $0 COMMAND [ARGUMENT]..." >&2
  exit 2
fi
if ! command -v valgrind >/dev/null; then
  echo "valgrind is not installed; nothing counted" >&2
  exit 77
fi

log=$(mktemp)
trap 'rm -f "$log"' EXIT
valgrind --tool=callgrind --callgrind-out-file=/dev/null --log-file="$log" "$@" >&2
sed -n 's/^==[0-9]*== Collected : \([0-9]*\).*/\1/p' "$log"
