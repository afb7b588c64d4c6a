#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
#
# check-translations.sh ROOT   Every translation is well formed: header, plurals, and the same
# placeholders on both sides, so that no message can crash the program in one language only.
set -eu
command -v msgfmt >/dev/null || exit 77
status=0
while read -r language; do
  case $language in ''|'#'*) continue ;; esac
  LC_ALL=C.UTF-8 msgfmt --check --statistics -o /dev/null "$1/po/$language.po" || status=1
done <"$1/po/LINGUAS"
exit $status
