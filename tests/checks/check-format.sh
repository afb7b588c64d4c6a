#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# check-format.sh ROOT   C files look as clang-format 14 leaves them. Skipped with another version,
# since each version breaks some lines in its own way.
set -eu
for formatter in clang-format-14 clang-format; do
  "$formatter" --version 2>/dev/null | grep -q 'version 14\.' && break
  formatter=
done
[ -n "$formatter" ] || { echo "clang-format 14 is not installed"; exit 77; }
find "$1/src" "$1/tests" -name '*.[ch]' -print0 | sort -z |
  xargs -0 -r -n 8 -P "$(nproc)" "$formatter" --style=file --dry-run -Werror
